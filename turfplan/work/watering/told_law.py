"""What is said of the weeks in which law, or nobody's being there, leaves a stage too few days."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from datetime import date, timedelta
from types import MappingProxyType
from typing import NamedTuple

from turfplan.message import Days, Listed, Message, Quantity, Value, listed
from turfplan.phrases import watering as phrases
from turfplan.work.watering.lawful_days import ClosedDays, Lack
from turfplan.work.watering.request import WEEK
from turfplan.work.watering.shortfall import Shortfall
from turfplan.work.watering.stages import FIRST_WATER, Stage

# Fewer days than these in a row are no news to grass that has rooted: less than a week without an
# open day, and a stub of one or two without anybody there.
LEAST_DAYS: Mapping[Lack, int] = MappingProxyType({"law": WEEK, "away": 3, "some": 1})


# Cautions that are made for each day of work; together they are told by the key with `_days`.
ONE_BY_ONE = frozenset(
    f"watering.week.{name}"
    for name in ("waits", "waits_after_work", "left_out", "left_out_after_work")
)
WAIT_OF = "watering.week.wait_of"


class ShortWeek(NamedTuple):
    """A week of a stage with what it gets and needs."""

    stage: Stage
    week: Shortfall


def told_closed(found: Iterable[ClosedDays]) -> list[Message]:
    """One line for each thing that stages of a name lack, with all of their weeks in it."""
    groups: dict[tuple[Message, Lack], list[ClosedDays]] = {}
    for one in found:
        groups.setdefault((one.stage.title, one.lack), []).append(one)
    lines = []
    for (title, lack), weeks in groups.items():
        spans = _in_a_row([(week.start, week.end) for week in weeks])
        if lack == "some":
            closed, days = sum(w.closed for w in weeks), sum(w.days for w in weeks)
            lines.append(
                phrases.week_days_closed(stage=title, closed=closed, days=days, weeks=_weeks(spans))
            )
        elif told := [span for span in spans if _days(span) >= LEAST_DAYS[lack]]:
            say: Callable[..., Message] = (
                phrases.week_all_away if lack == "away" else phrases.week_all_closed
            )
            lines.append(say(stage=title, weeks=_weeks(told)))
    return lines


def told_short(found: Iterable[ShortWeek]) -> list[Message]:
    """One line for the weeks of stages of a name that the law leaves short, and one for those that
    hours do, with the figures of the worst; nothing of what only waters work in."""
    groups: dict[tuple[Message, bool], list[Shortfall]] = {}
    for stage, week in found:
        if stage.name not in FIRST_WATER:
            groups.setdefault((stage.title, week.by_law), []).append(week)
    lines = []
    for (title, by_law), weeks in groups.items():
        told = phrases.week_short if by_law else phrases.week_short_of_hours
        worst = min(weeks, key=lambda week: week.given_mm / week.need_mm)
        lines.append(
            told(
                stage=title,
                weeks=_weeks(_in_a_row([(week.start, week.end) for week in weeks])),
                given=Quantity(worst.given_mm, "rain"),
                need=Quantity(worst.need_mm, "rain"),
            )
        )
    return lines


def merged_waits(cautions: Iterable[Message]) -> list[Message]:
    """The same cautions, with one line for the days of work of a stage whose first water waits, or
    is left out, where they are several."""
    groups: dict[tuple[str, Value], list[Message]] = {}
    for caution in dict.fromkeys(cautions):
        of_stage = caution.key in ONE_BY_ONE
        what: Value = dict(caution.values)["stage"] if of_stage else caution
        groups.setdefault((caution.key, what), []).append(caution)
    return [same[0] if len(same) == 1 else _together(same) for same in groups.values()]


def _together(same: Sequence[Message]) -> Message:
    """Cautions of one key about one stage as one: its days, each with that for which it waits."""
    told: list[Value] = []
    for caution in same:
        values = dict(caution.values)
        waits = "next" in values
        told.append(Message(WAIT_OF, caution.values[1:]) if waits else values["day"])
    stage = dict(same[0].values)["stage"]
    key = f"{same[0].key}_days"
    return Message(key, (("stage", stage), ("days", listed(told, "semicolon"))))


def _in_a_row(weeks: Iterable[tuple[date, date]]) -> list[tuple[date, date]]:
    """Weeks that follow one another as one span."""
    spans: list[tuple[date, date]] = []
    for start, end in sorted(weeks):
        if spans and start <= spans[-1][1] + timedelta(1):
            spans[-1] = (spans[-1][0], max(spans[-1][1], end))
        else:
            spans.append((start, end))
    return spans


def _days(span: tuple[date, date]) -> int:
    return (span[1] - span[0]).days + 1


def _weeks(spans: Sequence[tuple[date, date]]) -> Listed:
    """Spans of days, with their year where that is not the first one's."""
    year = spans[0][0].year
    days = (Days(*span, weekday=False, year=span[0].year != year) for span in spans)
    return listed(days, "and")
