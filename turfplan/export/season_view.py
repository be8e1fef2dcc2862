"""What the page of a season shows: its strip, the days that matter, figures, each job with its
reasons."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date

from turfplan.calendar_days import DAYS_IN_MONTH
from turfplan.export.season_reasons import why_not_sooner, why_these_days
from turfplan.export.season_waterings import watering_stages
from turfplan.export.sheets.look import (
    PHASES,
    near_text,
    phase_letter,
    phase_name,
    shown,
    span_text,
    task_days,
)
from turfplan.export.sheets.season_charts import Axis, MonthMark, months_of, season_axis
from turfplan.export.sheets.task_amounts import RECKONED, quantities
from turfplan.message import Message, Sold
from turfplan.messages import Words
from turfplan.messages.entry import amount_value, item_name
from turfplan.phrases import page
from turfplan.phrases import season_page as phrases
from turfplan.records.plan import Plan, in_turn
from turfplan.records.plan_task import Task
from turfplan.units import us_twin

# In units of the picture, which is as wide as the page: of a phone one unit is one pixel.
WIDTH, HEAD, LANE, BAR = 340.0, 20.0, 26.0, 8.0
WEEK, MONTH = 7, 28


@dataclass(frozen=True, slots=True)
class SeasonFigure:
    """A number that is found in five seconds, and what it is of."""

    value: str
    label: str


@dataclass(frozen=True, slots=True)
class StripBar:
    """Days of work on the strip; `done` where all of it is."""

    x: float
    width: float
    done: bool


@dataclass(frozen=True, slots=True)
class StripLane:
    """A phase of the season on the strip: its name, its bars, and its days in words."""

    name: str
    y: float
    bars: tuple[StripBar, ...]
    days: str


@dataclass(frozen=True, slots=True)
class SeasonStrip:
    """The season at a glance, a lane for each phase; `today_x` is None outside of it."""

    width: float
    height: float
    months: tuple[MonthMark, ...]
    lanes: tuple[StripLane, ...]
    today_x: float | None


@dataclass(frozen=True, slots=True)
class SeasonDay:
    """A day that matters: which it is, how far away, and what is done on it."""

    anchor: str
    title: str
    day: str
    away: str


@dataclass(frozen=True, slots=True)
class WhyAmount:
    """An amount of a job, and why it is as much."""

    item: str
    planned: str
    reason: str


@dataclass(frozen=True, slots=True)
class SeasonJob:
    """A job of the season: its days and what stands behind them; `whole` is the nitrogen that the
    whole lawn gets."""

    anchor: str
    title: str
    whole: str
    when: str
    state: str
    why: str
    how: tuple[str, ...]
    not_earlier: tuple[str, ...]
    not_later: tuple[str, ...]
    amounts: tuple[WhyAmount, ...]
    cautions: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SeasonWatering:
    """A stage of watering: its days, what it is, and when it runs."""

    title: str
    when: str
    told: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SeasonView:
    """All that the page of a season shows; `stop` is the first of what stops it, `sooner` why its
    main work waits."""

    stop: str
    figures: tuple[SeasonFigure, ...]
    days: tuple[SeasonDay, ...]
    strip: SeasonStrip | None
    sooner: str
    jobs: tuple[SeasonJob, ...]
    waterings: tuple[SeasonWatering, ...]


def season_view(plan: Plan, today: date, words: Words) -> SeasonView:
    """A lawn's season as its reader sees it on a day."""
    tasks = shown(plan.tasks)
    stops = (note.text for note in in_turn(plan.ranked) if note.rank == "stop")
    jobs = [task for task in tasks if task.series is None]
    return SeasonView(
        stop=str(next(stops, "")),
        figures=tuple(figure for _, figure in figures(plan, words) if figure.value)[-3:],
        days=tuple(
            SeasonDay(
                _anchor(task),
                str(task.title),
                span_text(task.start, task.end, words, year=True),
                words.text(away((task.start - today).days)) if task.start >= today else "",
            )
            for task in jobs
            if task.plays("headline") and task.closed != "skipped"
        ),
        strip=_strip(tasks, today, words) if tasks else None,
        sooner=why_not_sooner(plan, today, words),
        jobs=tuple(_job(plan, task, words) for task in jobs),
        waterings=tuple(
            SeasonWatering(
                str(stage.task.title),
                span_text(stage.start, stage.end, words, year=True),
                tuple(map(words.text, stage.told)),
            )
            for stage in watering_stages(tasks)
        ),
    )


def figures(plan: Plan, words: Words) -> tuple[tuple[str, SeasonFigure], ...]:
    """Six figures of a plan by their names: when the main work begins, when all is over, how many
    days have work, how many hours, how much mix, how much water; an empty value where there is
    none."""
    tasks = shown(plan.tasks)
    jobs = [t for t in tasks if t.series is None and t.closed != "skipped"]
    main = [t.start for t in jobs if t.plays("headline") and not t.plays("ordering")]
    days = {day for task in jobs for day in task_days(task)}
    hours = round(sum(task.person_hours for task in jobs))
    told: dict[str, tuple[Message, str]] = {
        "begins": (phrases.begins(), near_text(min(main), words) if main else ""),
        "over": (phrases.over(), span_text(max(days), max(days), words, year=True) if days else ""),
        "days": (phrases.days(), words.value(len(days)) if days else ""),
        "hours": (phrases.hours(), words.value(hours) if hours else ""),
        "mix": (phrases.mix(), _mix(plan, words)),
        "water": (phrases.water(), _water(tasks, words)),
    }
    return tuple(
        (name, SeasonFigure(value, words.text(label))) for name, (label, value) in told.items()
    )


def _mix(plan: Plan, words: Words) -> str:
    lines = [line for line in plan.order if line.item == "mix"]
    if not lines:
        return ""
    value, value_us = sum(line.value for line in lines), sum(line.value_us for line in lines)
    return words.value(Sold(value, lines[0].unit, value_us, lines[0].unit_us))


def _water(tasks: Iterable[Task], words: Words) -> str:
    """What all waterings come to, run by run."""
    litres = sum(
        amount.value for task in tasks for amount in task.amounts if amount.item == "water"
    )
    if not litres:
        return ""
    value_us, unit_us = us_twin(litres, "L")
    return words.value(Sold(round(litres, -2), "L", round(value_us, -2), unit_us))


def _strip(tasks: Sequence[Task], today: date, words: Words) -> SeasonStrip:
    long = season_axis(tasks, today)
    axis = Axis(long.first, long.last, 0.0, WIDTH)
    phases = [phase for phase in PHASES if any(task.phase == phase for task in tasks)]
    lanes = tuple(
        _lane(
            f"{phase_letter(phase, words)} {phase_name(phase, words)}",
            HEAD + n * LANE,
            [task for task in tasks if task.phase == phase],
            axis,
            words,
        )
        for n, phase in enumerate(phases)
    )
    return SeasonStrip(
        width=WIDTH,
        height=HEAD + len(lanes) * LANE,
        months=months_of(axis, words),
        lanes=lanes,
        today_x=axis.x(today) if axis.first <= today <= axis.last else None,
    )


def _lane(name: str, y: float, tasks: Sequence[Task], axis: Axis, words: Words) -> StripLane:
    first, last = min(task.start for task in tasks), max(task.end for task in tasks)
    return StripLane(name, y, tuple(_bars(tasks, axis)), span_text(first, last, words))


def _bars(tasks: Sequence[Task], axis: Axis) -> Iterator[StripBar]:
    """The spans of tasks, those that touch or overlap as one."""
    spans: list[tuple[date, date, bool]] = []
    for task in sorted(tasks, key=lambda task: task.start):
        done = task.closed is not None
        if spans and (task.start - spans[-1][1]).days <= 1 and spans[-1][2] is done:
            spans[-1] = (spans[-1][0], max(spans[-1][1], task.end), done)
        else:
            spans.append((task.start, task.end, done))
    for start, end, done in spans:
        x, width = axis.bar(start, end)
        yield StripBar(x, width, done)


def _job(plan: Plan, task: Task, words: Words) -> SeasonJob:
    told = {words.text(item_name(a.item)): a for a in task.amounts}
    earlier, later = why_these_days(plan, task, words)
    return SeasonJob(
        anchor=_anchor(task),
        title=str(task.title),
        whole=_nitrogen(task, words),
        when=span_text(task.start, task.end, words, year=True),
        state=task.closed or "",
        why=str(task.why),
        how=tuple(map(str, task.how)),
        not_earlier=earlier,
        not_later=later,
        amounts=tuple(
            WhyAmount(q.item, q.planned, str(told[q.item].reason) if q.item in told else "")
            for q in quantities(task, words)
            if q.item not in RECKONED
        ),
        cautions=tuple(map(str, task.cautions)),
    )


def _nitrogen(task: Task, words: Words) -> str:
    """The nitrogen of a feed on the whole lawn, beside its rate; nothing for another job."""
    total = next((a for a in task.amounts if a.item == "nitrogen_total"), None)
    if total is None:
        return ""
    return words.text(phrases.whole_lawn(amount=words.value(amount_value(total))))


def _anchor(task: Task) -> str:
    return "job-" + task.id.replace(".", "-")


def away(days: int) -> Message:
    """In how long a day is, as people say it."""
    if days <= 1:
        return page.tomorrow() if days == 1 else page.today()
    if days < 2 * WEEK:
        return page.in_days(n=days)
    if days < 3 * MONTH:
        return page.in_weeks(n=round(days / WEEK))
    return page.in_months(n=round(days / DAYS_IN_MONTH))
