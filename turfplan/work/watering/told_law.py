"""What is said of the weeks in which law, or nobody's being there, leaves a stage too few days."""

from collections.abc import Callable, Iterable, Sequence
from datetime import date, timedelta
from typing import NamedTuple

from turfplan.message import Days, Listed, Message, Quantity, listed
from turfplan.phrases import watering as phrases
from turfplan.work.watering.lawful_days import ClosedDays, Lack
from turfplan.work.watering.shortfall import Shortfall
from turfplan.work.watering.stages import FIRST_WATER, Stage

# A stub of so few days between two waterings is no news to grass that has rooted.
STUB_DAYS = 2


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
        elif told := [span for span in spans if (span[1] - span[0]).days >= STUB_DAYS]:
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


def _in_a_row(weeks: Iterable[tuple[date, date]]) -> list[tuple[date, date]]:
    """Weeks that follow one another as one span."""
    spans: list[tuple[date, date]] = []
    for start, end in sorted(weeks):
        if spans and start <= spans[-1][1] + timedelta(1):
            spans[-1] = (spans[-1][0], max(spans[-1][1], end))
        else:
            spans.append((start, end))
    return spans


def _weeks(spans: Sequence[tuple[date, date]]) -> Listed:
    return listed((Days(*span, weekday=False, year=False) for span in spans), "and")
