"""The passes reach the depth asked for, none of them too deep, none too soon after another."""

import itertools
from collections.abc import Iterator

from turfplan.audit.case import Case, last_day_of
from turfplan.audit.faults import Fault, fault
from turfplan.audit.ground_said import ground_m2
from turfplan.audit.open_ground import FILL, LOOSENED, is_open_ground
from turfplan.records.book_names import FactName, of_species
from turfplan.records.plan_task import Task

TOUCH_UP = "touch_up"
# The sentence with which a plan says that work is closed.
NO_DAY_LEFT = "history.no_day_left"
UNDONE = "handover.undone."
TOUCHED_UP = f"{UNDONE}touched_up"
# The limit of a small hollow in a strong creeper, of which a pass says that it rests on it.
CREEPER: FactName = "passes.hollow_creeper"
# Depths are written to six decimals and passes divided in whole eighths of an inch or millimetres.
HAIR_MM, SUM_HAIR_MM = 0.01, 0.05
HAIR_SHARE = 1e-4


def depth_mm(task: Task) -> float | None:
    """The settled depth that a task brings, or None."""
    return next((amount.value for amount in task.amounts if amount.item == "depth"), None)


def none_too_deep(case: Case) -> Iterator[Fault]:
    """No pass and no touch-up is deeper than what is ever spread at one time, no lift of bare
    ground than what can be firmed."""
    at_once, in_hollow = case.book.si("passes.hard_cap"), case.book.fact(CREEPER)
    dropped = (task for task in case.kept if task.closed == "dropped")
    out = {task.id for task in dropped}
    for task in (*case.all("spreading"), *case.all_jobs(TOUCH_UP)):
        depth = depth_mm(task)
        most = max(at_once, in_hollow.high_si) if CREEPER in task.facts else at_once
        if task.operation == FILL:
            most = case.book.si("open_ground.lift_depth")
        if depth is not None and task.id not in out and depth > most + HAIR_MM:
            yield fault("pass_too_deep", task, depth_mm=depth, most_mm=most)


def depth_reached(case: Case) -> Iterator[Fault]:
    """The passes add up to the depth asked for, until the journal tells of what was really
    spread, or one of them is over."""
    passes = [task for task in case.all("spreading") if task.closed != "dropped"]
    depths = [depth for task in passes if (depth := depth_mm(task)) is not None]
    asked = case.plan.lawn.depth_mm
    begun = any(t.closed or t.overdue for t in case.plan.tasks if t.plays("spreading"))
    if depths and not begun and abs(sum(depths) - asked) > SUM_HAIR_MM:
        yield fault("depth_not_reached", *passes, depth_mm=sum(depths), asked_mm=asked)


def far_enough_apart(case: Case) -> Iterator[Fault]:
    """Between two passes lie the days in which grass grows through, or a layer settles on bare
    ground."""
    bare = is_open_ground(case)
    counted = case.book.si("setting.counted_share")
    slow = [part.species for part in case.brief.lawn.grass if part.share >= counted]
    grasses = (case.brief.dominant.species, *slow)
    least = max(case.days(of_species(grass, "pass_interval_min")) for grass in grasses)
    if bare:
        least = case.days("passes.bare_interval")
    still = {task.id for task in case.to_do("spreading")}
    for before, after in itertools.pairwise(
        sorted(case.all("spreading"), key=lambda task: task.start)
    ):
        gap_days = (after.start - last_day_of(before)).days
        if after.id in still and gap_days < least:
            yield fault(
                "passes_too_close",
                after,
                before,
                gap_days=gap_days,
                least_days=least,
            )


def _spared_mm(case: Case) -> float:
    """What parts that bear less than the rest take off its mean fill, mm over the whole lawn."""
    depth, spared = case.brief.leveling.depth_mm or 0.0, 0.0
    for part in case.brief.lawn.part:
        share = part.share or (part.area_m2 or 0.0) / case.plan.lawn.area_m2
        # Over roots an inch of soil is the least that the plan may be held to.
        most = {
            "septic_field": 0.0,
            "dog_run": 0.0,
            "steep": case.book.si("site.steep_fill_most"),
            "tree_roots": case.book.si("survey.root_fill"),
        }.get(part.kind, depth)
        spared += share * max(0.0, depth - most)
    return spared


def fill_covered(case: Case) -> Iterator[Fault]:
    """Passes and lifted hollows hold all the fill that the brief lists, or the rest is handed over.

    Until the journal tells of what was really spread, or of a pass that is left out, one of them is
    over, or the plan tells of one for which no day is left.
    """
    told = any(t.closed or t.overdue for t in case.plan.tasks if t.plays("spreading", "relaying"))
    told = told or any(said.key == NO_DAY_LEFT for said in case.plan.cautions)
    work = [*case.all("spreading"), *case.all_jobs("lift_and_fill")]
    fills, area_m2 = case.brief.leveling, case.plan.lawn.area_m2
    left = 1.0 - sum(low.share for low in fills.lows)
    mean_mm = sum(low.share * low.depth_mm for low in fills.lows) + left * (fills.depth_mm or 0.0)
    later = any(item.operation == "topdress" for item in case.plan.handover)
    undone = [said.key for said in case.plan.cautions if said.key.startswith(UNDONE)]
    # What is left out is told, with the next season for it or a way that would do all of it.
    later = later or TOUCHED_UP in undone or bool(undone and case.plan.options)
    drawn = fills.survey or any(shape.depth_mm for shape in case.brief.lawn.shape)
    if not mean_mm or drawn or later or case.plan.conflict or told or any(t.closed for t in work):
        return
    planned_m3 = sum(a.value for t in work for a in t.amounts if a.item == "volume")
    asked_m3 = (mean_mm - _spared_mm(case)) / 1000 * area_m2
    loosened = [ground_m2(case, task) for task in case.all_jobs(LOOSENED)]
    if is_open_ground(case) and loosened:
        # What is left as it is, grass that stays, is not filled over either.
        asked_m3 = min(asked_m3, mean_mm / 1000 * max(loosened))
    if planned_m3 < asked_m3 * (1 - HAIR_SHARE):
        yield fault("fill_not_covered", *work, planned_m3=planned_m3, asked_m3=asked_m3)


INVARIANTS = (none_too_deep, depth_reached, far_enough_apart, fill_covered)
