"""Writes the sign that asks people to keep off new grass, with the day until which they do."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from typing import Final

from turfplan.export.sheets.look import look_of, on_every_page, shown
from turfplan.export.templates import render
from turfplan.message import Day
from turfplan.messages import Words
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Task

# The steps that say until when people keep off, and the day that each names for everybody.
UNTIL: Final = {
    "keep_off.seed": "mown",
    "keep_off.second_grass": "mown",
    "keep_off.plugs": "first",
    "keep_off.sod": "first",
}

# The roles of work that new grass comes of.
NEW: Final = ("sowing", "dormant", "planting", "relaying")


@dataclass(frozen=True, slots=True)
class Sign:
    """One sign: the name of its place in the page, and the day; None for a day to be written in."""

    anchor: str
    until: str | None


def sign_html(plan: Plan, words: Words, paper: str | None = None, large: bool = False) -> str:
    """A sign for each day until which new grass is kept off, as a page that stands alone.

    Where the plan knows of none, one sign with a line for the day; it calls the grass new only
    where some is sown, planted or laid. `paper` is letter or a4.
    """
    days = sorted({day for task in shown(plan.tasks) for day in _days(task)})
    signs = [Sign(f"sign-{day.isoformat()}", words.value(Day(day))) for day in days]
    return render(
        "print/sign.html.jinja",
        words,
        signs=tuple(signs) or (Sign("sign", None),),
        young=bool(signs) or any(task.plays(*NEW) for task in plan.tasks),
        **on_every_page(plan, words, look_of(plan, paper, large=large)),
    )


def _days(task: Task) -> Iterator[date]:
    for step in task.how:
        name = UNTIL.get(step.key)
        day = dict(step.values).get(name) if name is not None else None
        if isinstance(day, Day):
            yield day.day
