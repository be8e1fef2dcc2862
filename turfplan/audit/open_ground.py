"""Ground without living grass is worked as ground, and no seed goes over a live stand."""

from collections.abc import Iterator
from datetime import timedelta

from turfplan.audit.case import Case
from turfplan.audit.faults import Fault, fault
from turfplan.audit.ground_said import ground_m2
from turfplan.records.plan_task import Task

# Operations of the book that have no role of their own.
FILL, KILL, COVER, LOOSENED = "fill", "kill_stand", "nurse_cover", "till"
SEED_COVER = "cover"
# Areas are said in round numbers.
HAIR = 1e-3
KEPT = ("none", "winter_overseed")
OF_TURF = ("topdress", "incorporate", "mow")


def is_open_ground(case: Case) -> bool:
    """Whether the fill and the seed meet no living grass: bare, or a stand that is killed first."""
    return case.brief.lawn.condition == "bare" or case.brief.seeding.intent == "renovate"


def nothing_lives(case: Case) -> bool:
    """Whether bare ground is not sown with a grass of its own: nothing there is cut or fed but a
    guest for one winter."""
    return case.brief.lawn.condition == "bare" and case.brief.seeding.intent in KEPT


def grass_of(case: Case) -> str:
    """The grass that the lawn is of: what is sown where nothing lives, else what grows there."""
    sown = case.brief.seeding.species
    kept = case.brief.seeding.intent in KEPT
    return sown if sown and is_open_ground(case) and not kept else case.brief.dominant.species


def nothing_of_turf(case: Case) -> Iterator[Fault]:
    """No low cut, dethatching, coring, top-dressing or dragging before there is grass."""
    if not is_open_ground(case):
        return
    first = min((task.start for task in case.all("sowing", "planting")), default=None)
    for task in (*case.to_do("low_cut", "thatching", "coring"), *case.jobs(*OF_TURF)):
        if first is None or task.start <= first:
            yield fault("turf_work_without_turf", task, day=task.start)


def fed_once_rooted(case: Case) -> Iterator[Fault]:
    """Nothing is fed before its seed or its plants are in the ground."""
    if not is_open_ground(case):
        return
    first = min((task.start for task in case.all("sowing", "planting")), default=None)
    for task in case.to_do("feeding", "starter"):
        if first is None or task.start < first:
            yield fault("fed_before_roots", task, day=task.start)


def killed_before_new(case: Case) -> Iterator[Fault]:
    """A lawn made anew is killed, with the label's days, before it is sown."""
    if case.brief.seeding.intent != "renovate" or case.brief.lawn.condition == "bare":
        return
    least = timedelta(case.days("renovate.days_to_seed"))
    kills = [task for task in case.all_jobs(KILL) if task.closed not in ("skipped", "dropped")]
    for sowing in case.to_do("sowing", "planting"):
        before = [kill for kill in kills if kill.end <= sowing.start]
        late = [kill for kill in kills if kill.end > sowing.start - least]
        if not before or late:
            yield fault("sown_over_live_stand", sowing, *late, day=sowing.start)


def bared_is_sown(case: Case) -> Iterator[Fault]:
    """What is killed is sown or planted again, and not a part of it alone; unless a cover lies on
    the rest."""
    killed = max((ground_m2(case, kill) for kill in case.jobs(KILL)), default=0.0)
    if case.brief.lawn.condition == "bare" or case.all_jobs(COVER):
        return
    for new in case.to_do("sowing", "planting"):
        if (sown := ground_m2(case, new)) < killed * (1 - HAIR):
            yield fault("bared_not_sown", new, sown_m2=sown, area_m2=killed)


def sown_in_time(case: Case) -> Iterator[Fault]:
    """Filled ground is sown or planted within weeks, or lies under a cover."""
    if not is_open_ground(case):
        return
    lifts, most = case.all_jobs(FILL), case.days("open_ground.open_most")
    if not lifts or not case.jobs(FILL):
        return
    last = max(lifts, key=lambda task: task.end)
    if any(cover.closed not in ("skipped", "dropped") for cover in case.all_jobs(COVER)):
        return
    new = [task for task in case.all("sowing", "planting") if task.start >= last.end]
    if not any((task.start - last.end).days <= most for task in new):
        yield _open_too_long(last, new, most)


def _open_too_long(last: Task, new: list[Task], most: int) -> Fault:
    return fault("fill_lies_open", last, *new, day=last.end, most_days=most)


def on_open_slope(case: Case) -> bool:
    """Whether ground without grass lies on a slope that sheds water."""
    slope = (case.brief.site.slope_percent or 0.0) / 100
    return is_open_ground(case) and slope >= case.book.si("site.slope_cover")


def slope_never_lies_open(case: Case) -> Iterator[Fault]:
    """What is filled on a slope that sheds water is covered on the same day."""
    if not on_open_slope(case):
        return
    covers = case.all_jobs(COVER)
    for lift in case.jobs(FILL):
        own = [cover for cover in covers if lift.id in cover.depends_on]
        late = [cover for cover in own if not cover.held and cover.end > lift.end]
        if late or not covers:
            percent = round(case.brief.site.slope_percent or 0)
            yield fault("slope_lies_open", lift, *late, day=lift.end, slope_percent=percent)


def cover_is_bought(case: Case) -> Iterator[Fault]:
    """Where straw would slide off the fill, what is pegged over it is there on its day."""
    slope, lifts = (case.brief.site.slope_percent or 0.0) / 100, case.jobs(FILL)
    if not is_open_ground(case) or slope < case.book.si("site.slope_pegged") or not lifts:
        return
    covers = case.all_jobs(COVER, SEED_COVER)
    mats = [each for each in covers if any(amount.item == "mat" for amount in each.amounts)]
    first = min(lift.end for lift in lifts)
    if covers and not any(each.start <= first for each in mats):
        percent = round(case.brief.site.slope_percent or 0)
        yield fault("cover_not_bought", *covers, day=first, slope_percent=percent)


INVARIANTS = (
    bared_is_sown,
    cover_is_bought,
    nothing_of_turf,
    fed_once_rooted,
    killed_before_new,
    sown_in_time,
    slope_never_lies_open,
)
