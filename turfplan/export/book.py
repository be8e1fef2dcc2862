"""Writes the season book: everything the plan knows, to keep through the year."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from turfplan.export.charts import soil_chart, timeline
from turfplan.export.glossary import operation_name, terms_in
from turfplan.export.ground_sheets import fill_view
from turfplan.export.ledger_charts import LedgerChart, ledger_chart
from turfplan.export.order import delivery_cards, order_lines
from turfplan.export.quantities import Quantity, quantities
from turfplan.export.runs import day_list, runs_of
from turfplan.export.sheets import (
    look_of,
    made_text,
    near_text,
    plain_name,
    short_name,
    shown,
    span_text,
    task_days,
    today_of,
)
from turfplan.export.templates import render
from turfplan.export.weeks import WeekSheet, week_sheets
from turfplan.plan import OperationWindow, Plan, Task
from turfplan.units import System, read_as
from turfplan.wording import capital, month_day_text

# Reasons that hold for every job and say nothing of this one; `turfplan why` tells the whole chain.
COMMON_REASONS = ("Work is possible on your working days only.", "The day before is full", "What it hangs on is done.")
LEAST_YEAR = 365
JUDGEMENT = (
    "Sources marked as judgement are ours: no publication was found; they are meant to be corrected by your own notes."
)


@dataclass(frozen=True, slots=True)
class Reasoned:
    """One task with its days, amounts and reasons, and the numbers of the notes that stand behind them."""

    task: Task
    when: str
    window: str
    not_earlier: str
    not_later: str
    quantities: tuple[Quantity, ...]
    notes: tuple[tuple[int, str], ...]


@dataclass(frozen=True, slots=True)
class Note:
    """One numbered note: what is cited, and the first place that cites it."""

    number: int
    text: str


def book_html(plan: Plan, paper: str | None = None, large: bool = False) -> str:
    """The season book as a page that stands alone. `paper` is letter or a4."""
    system, name = plan.lawn.units, plain_name(plan.lawn.name)
    look, tasks = look_of(plan, paper, large=large), shown(plan.tasks)
    notes, weeks = _notes(plan, tasks), week_sheets(plan, None, look, maps=False)
    numbers = {text: note.number for text, note in notes.items()}
    return render(
        "print/book.html.jinja",
        plan=plan,
        name=name,
        short=short_name(name),
        look=look,
        made=made_text(plan),
        contents=_contents(plan, bool(tasks), bool(weeks), bool(notes)),
        facts=_lawn_facts(plan),
        headlines=_headlines(tasks, system),
        timeline=timeline(plan) if tasks else None,
        soil=soil_chart(plan),
        frosts=_frosts(plan),
        windows=_windows(plan),
        weeks=weeks,
        cautions=_cautions(plan, tasks),
        told=_told(weeks),
        lines=order_lines(plan),
        cards=delivery_cards(plan, order_lines(plan)),
        fill=fill_view(plan, every=True),
        ledgers=_ledgers(plan),
        runs=runs_of(((t, day_list(task_days(t), system)) for t in tasks if t.series is not None), system),
        reasoned=tuple(_reasoned(task, system, plan, numbers) for task in tasks if task.series is None),
        watering=_watering(tasks),
        notes=tuple(notes.values()),
        judgement=JUDGEMENT,
        glossary=terms_in(" ".join(_all_words(plan)), plan.lawn.units),
        operation_name=operation_name,
    )


def _contents(plan: Plan, has_tasks: bool, has_weeks: bool, has_notes: bool) -> tuple[tuple[str, str], ...]:
    """The chapters that this plan fills, with the names of their places in the page."""
    chapters = (
        ("glance", "The season at a glance", has_tasks),
        ("cautions", "Cautions", True),
        ("climate", "Climate and open days", True),
        ("weeks", "Week by week", has_weeks),
        ("order", "What to buy", True),
        ("fill", "The fill map", plan.fill is not None),
        ("ledgers", "Water and nitrogen", any(ledger.weeks for ledger in plan.ledgers)),
        ("runs", "All waterings", any(t.series for t in shown(plan.tasks))),
        ("reasons", "Reasons", True),
        ("words", "Words", True),
        ("notes", "Notes", has_notes),
    )
    return tuple((anchor, words) for anchor, words, there in chapters if there)


def _lawn_facts(plan: Plan) -> tuple[tuple[str, str], ...]:
    """The lawn in a few lines for the cover."""
    lawn, system = plan.lawn, plan.lawn.units
    grass = ", ".join(f"{capital(g.name)}" + (f" {g.share:.0%}" if g.share < 1 else "") for g in lawn.grass)
    facts = [
        ("Area", read_as(lawn.area_m2, "area", system).text),
        ("Grass", grass),
        ("Soil", lawn.soil.replace("_", " ")),
        ("Stand", lawn.condition),
        ("Thatch", read_as(lawn.thatch_mm, "depth", system).text),
        ("Fill, settled", read_as(lawn.depth_mm, "depth", system).text if lawn.depth_mm else "none"),
        ("Mix", (lawn.mix or "none").replace("_", " ")),
        ("Seeding", lawn.intent.replace("_", " ")),
    ]
    place = ", ".join(text for text in (plan.place.name, plan.place.state, plan.place.country) if text)
    return (*facts, ("Place", place or f"{plan.place.latitude:.2f}, {plan.place.longitude:.2f}"))


def _headlines(tasks: Iterable[Task], system: System) -> tuple[tuple[str, str], ...]:
    """The days that matter most."""
    return tuple(
        (span_text(task.start, task.end, system, year=True), task.title) for task in tasks if task.plays("headline")
    )


def _cautions(plan: Plan, tasks: Iterable[Task]) -> dict[str, int]:
    """Every caution of the plan and its tasks once, numbered."""
    texts = dict.fromkeys((*plan.cautions, *(text for task in tasks for text in task.cautions)))
    return {text: number for number, text in enumerate(texts, start=1)}


def _told(weeks: Iterable[WeekSheet]) -> dict[str, str]:
    """The jobs whose steps and rule were told before, with the day of the job that told them."""
    first: dict[tuple[object, ...], tuple[str, str]] = {}
    told = {}
    for week in weeks:
        for job in week.jobs:
            task = job.task
            name, when = first.setdefault((task.operation, task.how, task.go, task.fallback), (task.id, job.when))
            if name != task.id:
                told[task.id] = when
    return told


def _frosts(plan: Plan) -> tuple[tuple[str, str], ...]:
    """The median frosts as days of any year; both are written as month and day in the plan."""
    found = (("Last frost of spring", plan.climate.last_frost), ("First frost of autumn", plan.climate.first_frost))
    return tuple((words, month_day_text(text, plan.lawn.units)) for words, text in found if text)


def _windows(plan: Plan) -> tuple[tuple[str, str, str, str, str], ...]:
    """The windows of the operations that the plan uses, within its season: name, days, best day, reason, source.

    A window that comes again with the same reason the year after is told once.
    """
    tasks = shown(plan.tasks)
    used = {task.operation for task in tasks}
    first = min((task.start for task in tasks), default=today_of(plan))
    last = max((task.end for task in tasks), default=today_of(plan))
    groups: dict[tuple[str, str, str], list[OperationWindow]] = {}
    for window in sorted(plan.windows, key=lambda w: (w.start, w.operation)):
        if window.operation in used and window.end >= first and window.start <= last:
            groups.setdefault((window.operation, window.reason, window.source), []).append(window)
    system = plan.lawn.units
    return tuple(
        (
            operation_name(operation),
            _window_days(windows, system),
            _best_days(windows, system),
            reason,
            plan.sources.get(source, source),
        )
        for (operation, reason, source), windows in groups.items()
    )


def _window_days(windows: Sequence[OperationWindow], system: System) -> str:
    """First and last days: told once where they are the same each year but for a leap day, else year by year."""
    if _yearly([w.start for w in windows]) and _yearly([w.end for w in windows]):
        ends = (near_text(day, system, weekday=False) for day in (windows[0].start, windows[0].end))
        return f"{' to '.join(ends)}, each year"
    return "; ".join(span_text(w.start, w.end, system, weekday=False, year=True) for w in windows)


def _best_days(windows: Sequence[OperationWindow], system: System) -> str:
    """The best day: told once where it is the same each year but for a leap day."""
    days = [w.best for w in windows]
    return "; ".join(near_text(day, system, weekday=False) for day in (days[:1] if _yearly(days) else days))


def _yearly(days: Sequence[date]) -> bool:
    """True where several days follow one another by a year, a leap day more or less."""
    return len(days) > 1 and all(abs((day - days[0]).days - LEAST_YEAR * n) <= n for n, day in enumerate(days))


def _ledgers(plan: Plan) -> tuple[LedgerChart, ...]:
    charts = (ledger_chart(ledger, plan.lawn.units) for ledger in plan.ledgers)
    return tuple(chart for chart in charts if chart is not None)


def _reasoned(task: Task, system: System, plan: Plan, numbers: Mapping[str, int]) -> Reasoned:
    texts = dict.fromkeys(_citation(plan, fact) for fact in _facts_of(task))
    return Reasoned(
        task=task,
        when=span_text(task.start, task.end, system, year=True),
        window=_would_do(task, system),
        not_earlier=_nearest(task.not_earlier),
        not_later=_nearest(task.not_later),
        quantities=quantities(task, system),
        notes=_note_runs(sorted(numbers[text] for text in texts if text is not None)),
    )


def _would_do(task: Task, system: System) -> str:
    """The other days that would do, where there are any."""
    if task.window.start == task.window.end:
        return ""
    return f"; any day from {span_text(task.window.start, task.window.end, system, weekday=False, year=True)} would do"


def _note_runs(numbers: Sequence[int]) -> tuple[tuple[int, str], ...]:
    """Numbers of notes as they are cited, each with the first note it leads to: 3, 5, 10–17."""
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    pieces = (piece for run in runs for piece in ([run] if len(run) > 2 else [[n] for n in run]))
    return tuple((run[0], f"{run[0]}–{run[-1]}" if len(run) > 1 else f"{run[0]}") for run in pieces)


def _nearest(reasons: Sequence[str]) -> str:
    """The nearest reason that is this job's own; nothing where there is none."""
    return next((reason for reason in reasons if not reason.startswith(COMMON_REASONS)), "")


def _facts_of(task: Task) -> tuple[str, ...]:
    return (*task.facts, *(fact for amount in task.amounts for fact in amount.facts))


def _citation(plan: Plan, fact: str) -> str | None:
    """The words of a note: what the plan cites under that name, None where it cites nothing."""
    return plan.citations.get(fact) or plan.sources.get(fact)


def _notes(plan: Plan, tasks: Iterable[Task]) -> dict[str, Note]:
    """The numbered notes in the order in which the reasons first cite them; equal words share a number."""
    texts = dict.fromkeys(
        text
        for facts in (*(_facts_of(t) for t in tasks), *(line.facts for line in plan.order))
        for fact in facts
        if (text := _citation(plan, fact)) is not None
    )
    return {text: Note(number, text) for number, text in enumerate(texts, start=1)}


def _watering(tasks: Iterable[Task]) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """The reasons of each stage of watering, once."""
    stages: dict[str, list[str]] = {}
    for task in tasks:
        if task.series is not None:
            stages.setdefault(task.title.split(":")[0], []).append(task.why)
    return tuple((stage, tuple(dict.fromkeys(why for why in whys if why))) for stage, whys in stages.items())


def _all_words(plan: Plan) -> Iterable[str]:
    """All sentences of the plan, to find the words that need a meaning."""
    for task in plan.tasks:
        yield from (task.title, task.why, task.go or "", task.fallback or "", *task.how, *task.cautions)
        yield from (*task.not_earlier, *task.not_later)
        yield from (f"{amount.item.replace('_', ' ')} {amount.reason}" for amount in task.amounts)
    for line in plan.order:
        yield from (line.name, line.reason, line.text, *line.questions, *line.acceptance)
    yield from (*plan.cautions, *plan.assumptions, *plan.disagreements, *plan.campaign_reason, plan.climate.source)
    yield from (
        text for window in plan.windows for text in (window.reason, plan.sources.get(window.source, window.source))
    )
    yield from (JUDGEMENT, *plan.citations.values(), *(rejected.reason for rejected in plan.rejected))
    yield from (year.reason for year in plan.real_years)
    if plan.fill is not None:
        yield from ("stake", *plan.fill.notes)
    yield from (
        "stand thatch fill mix window best day soil temperature person-hour",
        *(note for ledger in plan.ledgers for note in ledger.notes),
    )
    yield from (plan.lawn.intent, *(operation_name(window.operation) for window in plan.windows))
    for ledger in plan.ledgers:
        yield from ("nitrogen evaporation root zone", *(name for week in ledger.weeks for name in week.entries))
