"""What is for a part of the lawn says for which, and takes material for that part alone."""

from collections.abc import Iterator, Mapping, Sequence
from datetime import timedelta

from turfplan.audit.amounts_agree import settle_of
from turfplan.audit.case import Case, last_day_of
from turfplan.audit.faults import Fault, fault
from turfplan.audit.passes import depth_mm
from turfplan.message import Message, within
from turfplan.records.brief import LawnPart
from turfplan.records.plan_task import Task

# Parts of a lawn on which nothing is spread.
UNFILLED = ("septic_field", "dog_run")
# A pass is one with what works it in and what is mown before it.
MOWING = "mow"
OF_A_PASS = ("incorporate", MOWING)
# Depths are written to six decimals, volumes are rounded no more than that.
HAIR_MM, HAIR_SHARE = 0.01, 1e-4
HOLLOWS = "the hollows"
# What opens the soil, and plays no role of its own, and what names a place beside lifted hollows.
LIFTING, RAKED = "lift_and_fill", ("slit",)
BUT_LIFTED = ("places.lifted", "places.hollows_left", "places.these", "places.these_but")
PLACE = "places."
# Tines name the parts that they leave out.
UNTINED = "parts.no_tines"


def _unfilled(case: Case) -> list[LawnPart]:
    return [part for part in case.brief.lawn.part if part.kind in UNFILLED]


def none_where_none_goes(case: Case) -> Iterator[Fault]:
    """No pass takes more than its depth over the lawn without the parts that get none.

    Holes of cores that are filled with it come on top.
    """
    parts, area_m2 = _unfilled(case), case.plan.lawn.area_m2
    if not parts or any(part.zone for part in parts):
        return
    left = 1.0 - sum(part.share or (part.area_m2 or 0.0) / area_m2 for part in parts)
    for task in case.to_do("spreading"):
        depth = depth_mm(task)
        planned_m3 = next((a.value for a in task.amounts if a.item == "volume"), 0.0)
        holes_mm = case.book.si("aerate.core_volume_depth")
        most_m3 = ((depth or 0.0) + holes_mm) / 1000 * area_m2 * left * (1 + settle_of(case))
        if depth is not None and planned_m3 > most_m3 * (1 + HAIR_SHARE):
            yield fault("filled_where_none_goes", task, planned_m3=planned_m3, most_m3=most_m3)


def places_named(case: Case) -> Iterator[Fault]:
    """The title of a pass, and of what belongs to it, says where it goes, unless it is all over."""
    passes = sorted(case.all("spreading"), key=lambda task: task.start)
    still = {task.id for task in case.open}
    spread_mm = 0.0
    for task in passes:
        wanted = _places(case, spread_mm)
        number = task.id.partition(".")[2]
        with_it = [t for t in case.jobs(*OF_A_PASS) if t.id.partition(".")[2] == number]
        for job in [*([task] if task.id in still else []), *with_it]:
            yield from (
                fault("place_unnamed", job, place=place)
                for place in wanted
                # Turf among many hollows is mown as a whole.
                if not _says(job, place) and (place, job.operation) != (HOLLOWS, MOWING)
            )
        spread_mm += depth_mm(task) or 0.0


def _places(case: Case, spread_mm: float) -> Sequence[str]:
    """What must be named once so much has been spread where the fill is deepest, mm."""
    lawn, levelling = case.brief.lawn, case.brief.leveling
    if any(task.closed for task in case.all("spreading")) or levelling.survey is not None:
        return ()
    anywhere = [part.name or f"parts.{part.kind}" for part in _unfilled(case) if not part.zone]
    rest = levelling.depth_mm or 0.0
    zones = {
        shape.name: rest if shape.depth_mm is None else shape.depth_mm
        for shape in lawn.shape
        if shape.name and not shape.hole
    }
    if zones and any(shape.depth_mm is not None for shape in lawn.shape):
        left = _not_lifted(case, zones)
        # Thatch that is stripped is filled too: by so much every zone gets more. Fill that is left
        # for later takes nothing from a zone that lies less deep.
        more_mm = max(0.0, case.plan.lawn.depth_mm - max(left.values(), default=0.0))
        to_fill = [z for z, mm in left.items() if mm and mm + more_mm > spread_mm + HAIR_MM]
        return [*(to_fill if len(to_fill) < len(zones) else ()), *anywhere]
    alone = levelling.lows and not rest and sum(low.share for low in levelling.lows) < 1
    return [*([HOLLOWS] if alone else ()), *anywhere]


def _not_lifted(case: Case, zones: Mapping[str, float]) -> Mapping[str, float]:
    """The zones that are filled from above, with their depths in mm: where turf is lifted, those
    that lie no deeper than the passes reach."""
    if all(lift.closed in ("skipped", "dropped") for lift in case.all_jobs(LIFTING)):
        return zones
    reached_mm = case.plan.lawn.depth_mm + HAIR_MM
    return {zone: mm for zone, mm in zones.items() if mm <= reached_mm}


def _says(task: Task, place: str) -> bool:
    """Whether a title names a place, by a word that the owner wrote or by a key."""
    title = task.title
    if not isinstance(title, Message):
        return False
    found = _words(title)
    if place == HOLLOWS:
        return any(word.startswith(PLACE) for word in found)
    return place in found


def _words(title: Message) -> set[str]:
    """The keys of a title and of all in it, with what stands in it as somebody wrote it."""
    said = (value.key if isinstance(value, Message) else value for value in within(title))
    return {word for word in said if isinstance(word, str)}


def relaid_turf_left_alone(case: Case) -> Iterator[Fault]:
    """No blade, tine or low cut goes over relaid turf until it has rooted: it comes before the
    lifting, waits, or says that it leaves those places out."""
    least = case.days("order.lift_rest")
    harsh = [*case.to_do("low_cut", "thatching", "coring"), *case.jobs(*RAKED)]
    for lift in case.all_jobs(LIFTING):
        if lift.closed in ("skipped", "dropped"):
            continue
        laid = last_day_of(lift)
        for job in harsh:
            if lift.start < job.start < laid + timedelta(least) and not _spares_lifted(job):
                yield fault(
                    "relaid_turf_torn", job, lift, day=job.start, laid=laid, least_days=least
                )


def _spares_lifted(job: Task) -> bool:
    """Whether the title of a job leaves lifted hollows out: by name, or as it is for others."""
    found = _words(job.title) if isinstance(job.title, Message) else set[str]()
    return not found.isdisjoint(BUT_LIFTED)


def trees_told(case: Case) -> Iterator[Fault]:
    """What cuts, tears or buries the ground says how far it goes over the roots of trees."""
    lawn = case.brief.lawn
    kinds = [*(part.kind for part in lawn.part), *(shape.kind for shape in lawn.shape)]
    if not case.brief.site.trees and "tree_roots" not in kinds:
        return
    for task in dict.fromkeys(case.to_do("digging", "relaying", "spreading", "mending")):
        keys = [said.key for said in task.cautions if isinstance(said, Message)]
        if not any("tree_" in key or key == UNTINED for key in keys):
            yield fault("trees_untold", task)


INVARIANTS = (none_where_none_goes, places_named, relaid_turf_left_alone, trees_told)
