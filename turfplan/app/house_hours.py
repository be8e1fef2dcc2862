"""Reads which hours the other lawns of a house have promised."""

from collections.abc import Sequence
from datetime import date
from pathlib import Path

from turfplan.book.entries import Book
from turfplan.errors import TurfplanError
from turfplan.files.data_folder import BRIEF
from turfplan.files.house_folder import beside_in_house
from turfplan.files.reading.book import load_book
from turfplan.files.reading.brief import read_brief
from turfplan.files.reading.plan import read_plan
from turfplan.message import Message
from turfplan.phrases import house as phrases
from turfplan.phrases import season
from turfplan.planning.shared_hours import (
    PromisedHours,
    gives_way,
    known_hours,
    promised_hours,
    promised_visits,
    same_hands,
)
from turfplan.records.brief import Brief
from turfplan.records.plan import Plan

HouseHours = tuple[PromisedHours, ...]


def hours_beside(lawn: Path, brief: Brief) -> tuple[HouseHours, tuple[Message, ...]]:
    """The hours of the same hands that the other lawns of the house have promised, where the
    folder of a lawn lies in one, and what must be told of those that cannot be read.

    A lawn without a plan has promised nothing, nor has one whose plan cannot be made as it is
    asked.
    """
    found: list[PromisedHours] = []
    told: list[Message] = []
    here = lawn.absolute()
    for other in beside_in_house(here):
        if other == here:
            continue
        try:
            plan = read_plan(other)
        except TurfplanError:
            # Which lawn that is stays unsaid: the note stands in the plan of another one.
            told.append(phrases.hours_unknown())
            continue
        theirs = _brief_of(other)
        if plan is None or plan.conflict is not None or not same_hands(brief, theirs):
            continue
        hours = promised_hours(plan, theirs, load_book(plan.place.region))
        found.append(
            PromisedHours(
                hours, known_hours(plan), promised_visits(plan), goes_first=other.name < here.name
            )
        )
    return tuple(found), tuple(told)


def _brief_of(lawn: Path) -> Brief | None:
    """The brief of a lawn; None for one that cannot be used, which is told where it is planned."""
    try:
        return read_brief(lawn / BRIEF).brief
    except TurfplanError:
        return None


def must_give_way(
    before: Plan | None, brief: Brief, book: Book, others: Sequence[PromisedHours], today: date
) -> bool:
    """Whether the plan before has promised hours that another lawn of the house promised too, and
    is the one to give way."""
    if before is None or before.conflict is not None or not others:
        return False
    own = promised_hours(before, brief, book, today)
    work = brief.work
    people = work.people or round(book.si("setting.people_assumed"))
    each = work.hours_per_day or book.si("setting.hours_per_day_assumed") / 60
    return gives_way(before, own, others, people * each)


def jobs_kept_off(plan: Plan) -> int:
    """How many jobs are not on a day beside theirs since its hours are promised to other lawns."""
    key = season.hours_elsewhere().key
    return sum(
        any(reason.key == key for reason in (*task.not_earlier, *task.not_later))
        for task in plan.tasks
        if task.is_open
    )


def too_full(plan: Plan) -> tuple[Message, ...]:
    """What a plan says of days that hold more work on all lawns than there are hours."""
    return tuple(said for said in plan.cautions if said.key == "season.overfull_elsewhere")
