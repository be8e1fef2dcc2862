"""What a calendar shows of a plan beside the entries of its tasks, and in which form."""

from collections.abc import Mapping
from datetime import date, datetime
from typing import Literal

from turfplan.records.plan_task import PlanRecord, PublishedEntry, Stamp

# Each run by itself, one entry a day, or no waterings at all.
WateringForm = Literal["each", "day", "none"]
# Which of a plan's entries a file or an address holds.
CalendarPart = Literal["all", "work", "water"]
# The files of a plan's folder that hold them.
FILES: Mapping[CalendarPart, str] = {"all": "season.ics", "work": "work.ics", "water": "water.ics"}
# `left` is what a task's own entry has become that now stands in another form.
CalendarEntryKind = Literal["watering", "left", "eve", "week"]


class CalendarForm(PlanRecord):
    """How a plan is shown in a calendar: its waterings, an entry on the evening before what has to
    be made ready (`eve`), one a week with its list (`week`).

    A plan of before there was a choice shows each run, and nothing else beside its tasks.
    """

    watering: WateringForm = "each"
    eve: bool = False
    week: bool = False


class PartStamps(PlanRecord):
    """When what each part of a calendar shows last changed, where that is not the plan's stamp."""

    all: Stamp | None = None
    work: Stamp | None = None
    water: Stamp | None = None

    def of(self, part: CalendarPart, otherwise: datetime) -> datetime:
        """The stamp of a part."""
        stamp: datetime | None = getattr(self, part)
        return stamp or otherwise


class CalendarEntry(PlanRecord):
    """An entry of a calendar that is no task's own: what it is, of which tasks it tells, and what
    was published.

    Identity, sequence and stamps are as a task's.
    """

    id: str
    uid: str
    kind: CalendarEntryKind
    tasks: tuple[str, ...]
    sequence: int = 0
    created: Stamp
    last_modified: Stamp
    published: PublishedEntry

    @property
    def is_water(self) -> bool:
        """Whether it tells of waterings."""
        return self.kind in ("watering", "left")


class DaysBefore(PlanRecord):
    """On which days the open tasks stood of a plan that knew the first `entries` of the journal."""

    entries: int
    days: dict[str, date]
