"""What the page of a day shows of a lawn: jobs with their figures, waterings, what comes next."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from turfplan.app.lawn_day import LawnDay, rain_hinders, tick_key
from turfplan.export.season_view import SeasonFigure, away
from turfplan.export.sheets.look import near_text
from turfplan.export.sheets.task_amounts import RECKONED, quantities
from turfplan.message import Clock, Day, Days
from turfplan.messages import Words
from turfplan.messages.entry import item_name
from turfplan.phrases import page as phrases
from turfplan.records.journal import JournalEntry
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Task


@dataclass(frozen=True, slots=True)
class JobView:
    """A job as the page shows it; `key` is that of its next tick, `on` the day that counts as
    planned."""

    id: str
    key: str
    title: str
    when: str
    figures: tuple[SeasonFigure, ...]
    go: str
    wait: str
    how: tuple[str, ...]
    cautions: tuple[str, ...]
    why: str
    on: str
    rain: bool
    load: bool


@dataclass(frozen=True, slots=True)
class WateringView:
    """A watering of the day, and whether rain took it."""

    id: str
    key: str
    title: str
    at: str
    rained: bool


@dataclass(frozen=True, slots=True)
class ComingView:
    """A job that is not due yet: its day, and in how long that is."""

    title: str
    day: str
    away: str


@dataclass(frozen=True, slots=True)
class DayView:
    """What the page of a day shows."""

    overdue: tuple[JobView, ...]
    due: tuple[JobView, ...]
    waterings: tuple[WateringView, ...]
    coming: tuple[ComingView, ...]


def day_view(plan: Plan, day: LawnDay, entries: Sequence[JournalEntry], words: Words) -> DayView:
    """A lawn's day in the words of its reader; `entries` are all of its journal."""
    ahead = (*day.coming, *((day.following,) if day.following is not None else ()))
    return DayView(
        overdue=tuple(job_view(plan, t, day.today, entries, words) for t in day.overdue),
        due=tuple(job_view(plan, t, day.today, entries, words) for t in day.due),
        waterings=tuple(
            WateringView(
                id=run.task.id,
                key=tick_key(entries, run.task.id),
                title=str(run.task.title),
                at=words.value(Clock(run.task.series.start_time)) if run.task.series else "",
                rained=run.rained is not None,
            )
            for run in day.waterings
        ),
        coming=tuple(_coming(task, day.today, words) for task in ahead),
    )


def job_view(
    plan: Plan, task: Task, today: date, entries: Sequence[JournalEntry], words: Words
) -> JobView:
    """One job; done as planned means today, or its last day where that is over."""
    return JobView(
        id=task.id,
        key=tick_key(entries, task.id),
        title=str(task.title),
        when=words.value(Days(task.start, task.end, year=False)),
        figures=tuple(_figures(task, words)),
        go=str(task.go or ""),
        wait=str(task.fallback or ""),
        how=tuple(map(str, task.how)),
        cautions=tuple(map(str, task.cautions)),
        why=str(task.why),
        on=min(today, task.end).isoformat(),
        rain=rain_hinders(plan, task),
        load=task.plays("delivery"),
    )


def _figures(task: Task, words: Words) -> list[SeasonFigure]:
    """How deep, how many, by when."""
    told = {words.text(item_name(a.item)): a for a in task.amounts}
    amounts = [(q, told[q.item]) for q in quantities(task, words) if q.item in told]
    deep = [(q, amount) for q, amount in amounts if amount.item == "depth"]
    many = [pair for pair in amounts if pair[1].item not in ("depth", *RECKONED)]
    # What is counted on the way goes first, then wholes, then rates.
    many.sort(key=lambda pair: (pair[1].item != "barrow loads", "/" in pair[1].unit))
    # Beyond its slack other work would move, or be done without this.
    ends = task.window.end if task.slack is None else task.slack.end
    last = near_text(max(ends, task.start), words)
    figures = [SeasonFigure(q.planned, q.item) for q, _ in (*deep[:1], *many[:1])]
    return [*figures, SeasonFigure(last, words.text(phrases.by_when()))]


def _coming(task: Task, today: date, words: Words) -> ComingView:
    day = words.value(Day(task.start, year=task.start.year != today.year))
    return ComingView(str(task.title), day, words.text(away((task.start - today).days)))
