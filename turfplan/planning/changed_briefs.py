"""A brief with something else asked for, as it is printed and as it is checked."""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from turfplan.message import Message, as_written
from turfplan.phrases import ways_out as phrases
from turfplan.records.brief import Brief
from turfplan.units import INCH_MM, System
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.year_seasons import next_growing_year

# In which table of a brief the keys stand that the lines of a way out name.
TABLE_OF_KEY: Mapping[str, str] = {
    "depth": "leveling",
    "intent": "seeding",
    "form": "seeding",
    "species": "seeding",
    "possible": "water",
    "timer": "water",
    "permit": "water",
    "campaign": "season",
    "from": "season",
    "until": "season",
    "people": "work",
    "machines": "work",
    "by": "work",
    "weekdays": "calendar",
    "away": "calendar",
    "unavailable": "calendar",
    "thatch": "lawn",
    "sun_hours": "site",
    "salts": "soil_test",
    "soil": "lawn",
    "bump_cause": "site",
    "cleared": "site",
    "on": "soil_test",
    "ph": "soil_test",
    "phosphorus": "soil_test",
    "potassium": "soil_test",
}


@dataclass(frozen=True, slots=True)
class ChangedBrief:
    """A brief with something else asked for: what that is, how the brief says it, and the whole
    brief.

    `another_lawn` where the grass or the ground is another: then equal days are no equal way.
    """

    title: Message
    lines: Message
    brief: Brief
    another_lawn: bool = False


def with_part(brief: Brief, part: str, **values: Any) -> Brief:
    """A brief with other values in one of its tables."""
    return brief.model_copy(update={part: getattr(brief, part).model_copy(update=values)})


def next_year(brief: Brief, setting: ResolvedLawn) -> date:
    """The beginning of the next growing year after today, or after the first day that the brief
    asks for."""
    after = max(setting.today, brief.season.start or setting.today)
    return next_growing_year(setting.book, after, southern=setting.climate.southern)


def written(depth_mm: float, system: System) -> tuple[float, str]:
    """A depth, at most so much, as a brief writes it, and what that is in mm."""
    if system is System.US:
        eighths = math.floor(depth_mm / INCH_MM * 8 + 1e-6)
        return eighths * INCH_MM / 8, f"{eighths / 8:g} in"
    whole = math.floor(depth_mm + 1e-6)
    return float(whole), f"{whole} mm"


def from_then_on(brief: Brief, lines: str) -> Message:
    """Lines of a later start; an end that the owner gave would lie before it, and goes."""
    if brief.season.until is None:
        return as_written(lines)
    return phrases.and_leave_out(change=as_written(lines), table="until")
