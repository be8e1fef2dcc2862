"""Lime, sulfur and gypsum only where soil and test ask for them, no more at once and no closer."""

import itertools
from collections.abc import Iterator
from datetime import date

from turfplan.audit.case import Case
from turfplan.audit.faults import Fault, fault
from turfplan.message import Message
from turfplan.records.book_names import of_family
from turfplan.records.plan_task import Task

HAIR_G_M2 = 0.005
LET_BE = ("soil_findings.ph_right", "soil_findings.ph_in_range")
WORKED_IN = ("lime.fresh", "lime.lift")


def _limings(case: Case) -> list[Task]:
    return [task for task in case.jobs("lime") if task.id not in WORKED_IN and not task.held]


def _rate(task: Task, item: str) -> float:
    return sum(amount.value for amount in task.amounts if amount.item == item)


def lime_within_limit(case: Case) -> Iterator[Fault]:
    """No more lime lies on the surface at once than the book lets it take."""
    most = case.book.si("lime.single_max")
    for task in _limings(case):
        if _rate(task, "lime rate") > most + HAIR_G_M2:
            yield fault(
                "lime_too_much_at_once", task, rate_g_m2=_rate(task, "lime rate"), most_g_m2=most
            )


def limings_apart(case: Case) -> Iterator[Fault]:
    """Parts of a liming lie months apart, from what the brief says was given too."""
    least = round(case.book.low_si("lime.split_gap"))
    given: list[tuple[date, Task | None]] = [(use.on, None) for use in case.brief.history.lime]
    given += [(task.start, task) for task in _limings(case)]
    for (before, _), (after, task) in itertools.pairwise(sorted(given, key=lambda one: one[0])):
        if task is not None and (after - before).days < least:
            yield fault("limings_too_close", task, days=(after - before).days, least_days=least)


def no_lime_on_lime(case: Case) -> Iterator[Fault]:
    """A soil that holds free lime is given none, nor sulfur, which it would swallow."""
    limy = bool(case.brief.soil_test.free_lime) or case.plan.lawn.soil == "chalk"
    for task in case.jobs("lime", "amend"):
        if limy and (_rate(task, "lime rate") or _rate(task, "sulfur rate")):
            yield fault("limed_on_lime", task)


def no_lime_above_goal(case: Case) -> Iterator[Fault]:
    """Where the pH is at its goal, or above it, no lime is given."""
    ph = case.brief.soil_test.ph
    main = case.book.fact(of_family("lime.ph_goal_{species}", case.brief.dominant.species))
    low, high = _borne(case)
    goal = min(high, max(low, main.si))
    for task in case.jobs("lime"):
        if ph is not None and ph >= goal:
            yield fault("limed_above_goal", task, ph=ph, goal=goal)


def sour_for_a_grass(case: Case) -> Iterator[Fault]:
    """No soil is called right, or near enough, that is too sour for a grass which counts."""
    ph, (low, high) = case.brief.soil_test.ph, _borne(case)
    told = [
        note for note in case.plan.assumptions if isinstance(note, Message) and note.key in LET_BE
    ]
    if ph is not None and ph < min(low, high) and told:
        yield fault("too_sour_for_a_grass", ph=ph, low=low)


def _borne(case: Case) -> tuple[float, float]:
    """The pH, from and to, in which every grass that counts in the stand is at home."""
    least, main = case.book.si("setting.counted_share"), case.brief.dominant.species
    stays = case.brief.seeding.intent != "renovate"
    mixed = [part.species for part in case.brief.lawn.grass if stays and part.share >= least]
    ranges = [
        case.book.fact(of_family("lime.ph_goal_{species}", grass)) for grass in {main, *mixed}
    ]
    return max(found.low_si for found in ranges), min(found.high_si for found in ranges)


def sulfur_within_limit(case: Case) -> Iterator[Fault]:
    """No more sulfur at once than grass bears."""
    most = case.book.si("high_ph.sulfur_once")
    for task in case.jobs("amend"):
        if _rate(task, "sulfur rate") > most + HAIR_G_M2:
            rate = _rate(task, "sulfur rate")
            yield fault("sulfur_too_much_at_once", task, rate_g_m2=rate, most_g_m2=most)


INVARIANTS = (
    lime_within_limit,
    limings_apart,
    no_lime_on_lime,
    no_lime_above_goal,
    sour_for_a_grass,
    sulfur_within_limit,
)
