"""Writes the season of several lawns of one house as one iCalendar file.

Each entry keeps the identity that it has in the calendar of its own lawn: who takes both into one
calendar has it once. Its title says which lawn it is for.
"""

from collections.abc import Sequence
from typing import NamedTuple

from turfplan.export.calendar.season_ics import event_bytes, head_of, part_name, with_events
from turfplan.export.calendar.vtimezone import vtimezone
from turfplan.messages import Words
from turfplan.phrases import house as phrases
from turfplan.plain_text import shortened
from turfplan.records.plan import Plan
from turfplan.records.plan_calendar import CalendarPart
from turfplan.revision.feed_entries import shown_in

# What a title may hold beside the name of the lawn.
LONGEST = 74


class LabelledPlan(NamedTuple):
    """The plan of a lawn with what it is called beside others."""

    label: str
    plan: Plan


def house_ics(lawns: Sequence[LabelledPlan], words: Words, part: CalendarPart = "all") -> bytes:
    """The calendar of a house, or its work or its waterings alone: bytes that depend on what the
    plans have published, and on what the lawns are called.

    `words` tell what the calendar is; its entries stand as they were published.
    """
    first = lawns[0].plan
    name = part_name(words.text(phrases.calendar()), words, part)
    modified = max(plan.part_stamps.of(part, plan.stamp) for _, plan in lawns)
    calendar = head_of(name, words, first.timezone, modified)
    shown = [(label, plan, shown_in(plan, part)) for label, plan in lawns]
    zones = {e.timezone for *_, rows in shown for _, e in rows if e.timezone is not None}
    # A calendar without any component is none (RFC 5545, 3.6): an empty one has its zone.
    empty = not any(rows for *_, rows in shown)
    years = [year for _, plan in lawns for year in (plan.horizon.start.year, plan.horizon.end.year)]
    for zone in sorted(zones or ({first.timezone} if empty else set())):
        calendar.add_component(vtimezone(zone, min(years), max(years)))
    events = list[bytes]()
    for label, plan, rows in shown:
        for of, entry in rows:
            title = words.text(phrases.entry(lawn=label, title=entry.summary))
            named = entry.model_copy(update={"summary": shortened(title, LONGEST)})
            events.append(event_bytes(plan, of, named))
    return with_events(calendar, events)
