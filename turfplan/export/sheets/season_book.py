"""Writes the season book: everything the plan knows, to keep through the year."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from turfplan.calendar_days import DAYS
from turfplan.export.sheets.account_charts import LedgerChart, ledger_chart
from turfplan.export.sheets.glossary import terms_in
from turfplan.export.sheets.ground_sheets import fill_view
from turfplan.export.sheets.look import (
    look_of,
    near,
    on_every_page,
    shown,
    span_text,
    task_days,
    today_of,
)
from turfplan.export.sheets.names import operation_name, soil_name
from turfplan.export.sheets.order_sheet import delivery_cards, order_lines
from turfplan.export.sheets.season_charts import row_name, timeline
from turfplan.export.sheets.slips import slip_text
from turfplan.export.sheets.soil_chart import soil_chart
from turfplan.export.sheets.task_amounts import PrintedAmount, quantities
from turfplan.export.sheets.watering_times import day_list, runs_of
from turfplan.export.sheets.weeks import WeekSheet, week_sheets
from turfplan.export.templates import capital, render
from turfplan.message import AS_WRITTEN, DateInYear, Days, Message, Number, Quantity, listed
from turfplan.messages import Words
from turfplan.messages.entry import item_name
from turfplan.phrases import season_book as phrases
from turfplan.planning.reasons import says_little
from turfplan.publishing import messages_of
from turfplan.records.plan import OperationWindow, Plan
from turfplan.records.plan_task import Task

# The words of the glossary that stand in the book's own headings and tables.
BOOK_WORDS = (
    "stand",
    "thatch",
    "fill",
    "mix",
    "window",
    "best_day",
    "soil_temperature",
    "person_hour",
)
FILL_WORDS = ("stake",)
ACCOUNT_WORDS = ("nitrogen", "evaporation_from_grass", "root_zone")
COMPOST_WORDS = frozenset({"compost"})


@dataclass(frozen=True, slots=True)
class Reasoned:
    """One task with its days, amounts and reasons, and the numbers of the notes that stand behind
    them.
    """

    task: Task
    when: str
    slip: str
    not_earlier: str
    not_later: str
    quantities: tuple[PrintedAmount, ...]
    notes: tuple[tuple[int, str], ...]


@dataclass(frozen=True, slots=True)
class Note:
    """One numbered note: what is cited, and the first place that cites it."""

    number: int
    text: str


def book_html(plan: Plan, words: Words, paper: str | None = None, large: bool = False) -> str:
    """The season book as a page that stands alone. `paper` is letter or a4."""
    look, tasks = look_of(plan, paper, large=large), shown(plan.tasks)
    notes, weeks = _notes(plan, tasks), week_sheets(plan, words, None, look, maps=False)
    numbers = {text: note.number for text, note in notes.items()}
    lines = order_lines(plan, words)
    return render(
        "print/book.html.jinja",
        words,
        contents=_contents(plan, words, bool(tasks), bool(weeks), bool(notes)),
        facts=_lawn_facts(plan, words),
        headlines=_headlines(tasks, words),
        timeline=timeline(plan, words) if tasks else None,
        soil=soil_chart(plan, words),
        frosts=_frosts(plan, words),
        windows=_windows(plan, words),
        weeks=weeks,
        cautions=_cautions(plan, tasks),
        told_before=_told_before(weeks),
        lines=lines,
        cards=delivery_cards(plan, lines, words),
        fill=fill_view(plan, words, every=True),
        ledgers=_ledgers(plan, words),
        runs=runs_of(
            ((t, day_list(task_days(t), words)) for t in tasks if t.series is not None), words
        ),
        reasoned=tuple(
            _reasoned(task, words, plan, numbers) for task in tasks if task.series is None
        ),
        watering=_watering(plan, tasks, words),
        notes=tuple(notes.values()),
        glossary=terms_in(_all_words(plan, words), words, plan.names, _used_words(plan)),
        **on_every_page(plan, words, look),
    )


def _contents(
    plan: Plan, words: Words, has_tasks: bool, has_weeks: bool, has_notes: bool
) -> tuple[tuple[str, str], ...]:
    """The chapters that this plan fills, with the names of their places in the page."""
    chapters = (
        ("glance", phrases.glance(), has_tasks),
        ("cautions", phrases.cautions(), True),
        ("climate", phrases.climate(), True),
        ("weeks", phrases.weeks(), has_weeks),
        ("order", phrases.order(), True),
        ("fill", phrases.fill(), plan.fill is not None),
        ("ledgers", phrases.ledgers(), any(ledger.weeks for ledger in plan.ledgers)),
        ("runs", phrases.runs(), any(t.series for t in shown(plan.tasks))),
        ("reasons", phrases.reasons(), True),
        ("words", phrases.words(), True),
        ("notes", phrases.notes(), has_notes),
    )
    return tuple((anchor, words.text(title)) for anchor, title, there in chapters if there)


def _lawn_facts(plan: Plan, words: Words) -> tuple[tuple[str, str], ...]:
    """The lawn in a few lines for the cover."""
    lawn, none = plan.lawn, words.text(phrases.none())
    grass = listed(
        (
            phrases.grass_share(grass=capital(g.name.text), share=Number(g.share, "percent"))
            if g.share < 1
            else capital(g.name.text)
            for g in lawn.grass
        ),
        "comma",
    )
    depth = words.value(Quantity(lawn.depth_mm, "depth")) if lawn.depth_mm else none
    name = plan.place.name
    # A name with a key says the country too; a plan of an older program has a postal code there.
    said = (
        (name,) if name and name.key != AS_WRITTEN else (name, plan.place.state, plan.place.country)
    )
    place = [str(text) for text in said if text]
    where = [
        words.value(Number(n, "hundredth")) for n in (plan.place.latitude, plan.place.longitude)
    ]
    facts = (
        (phrases.fact_area(), words.value(Quantity(lawn.area_m2, "area"))),
        (phrases.fact_grass(), words.value(grass)),
        (phrases.fact_soil(), soil_name(plan, words)),
        (phrases.fact_stand(), words.say(f"season_book.stand.{lawn.condition}")),
        (phrases.fact_thatch(), words.value(Quantity(lawn.thatch_mm, "depth"))),
        (phrases.fact_fill(), depth),
        (phrases.fact_mix(), lawn.mix.text if lawn.mix else none),
        (phrases.fact_seeding(), words.say(f"season_book.seeding.{lawn.intent}")),
        (phrases.fact_place(), words.value(listed(place or where, "comma"))),
    )
    return tuple((words.text(name), text) for name, text in facts)


def _headlines(tasks: Iterable[Task], words: Words) -> tuple[tuple[str, str], ...]:
    """The days that matter most."""
    return tuple(
        (span_text(task.start, task.end, words, year=True), task.title.text)
        for task in tasks
        if task.plays("headline")
    )


def _cautions(plan: Plan, tasks: Iterable[Task]) -> dict[str, int]:
    """Every caution of the plan and its tasks once, numbered."""
    texts = dict.fromkeys(
        c.text for c in (*plan.cautions, *(c for task in tasks for c in task.cautions))
    )
    return {text: number for number, text in enumerate(texts, start=1)}


def _told_before(weeks: Iterable[WeekSheet]) -> dict[str, str]:
    """The jobs whose steps and rule were told before, with the day of the job that told them."""
    first: dict[tuple[object, ...], tuple[str, str]] = {}
    repeated = {}
    for week in weeks:
        for job in week.jobs:
            task = job.task
            name, when = first.setdefault(
                (task.operation, task.how, task.go, task.fallback), (task.id, job.when)
            )
            if name != task.id:
                repeated[task.id] = when
    return repeated


def _frosts(plan: Plan, words: Words) -> tuple[tuple[str, str], ...]:
    """The median frosts as days of any year; both are written as month and day in the plan."""
    frosts = (
        (phrases.last_frost(), plan.climate.last_frost),
        (phrases.first_frost(), plan.climate.first_frost),
    )
    return tuple((words.text(name), words.value(DateInYear(day))) for name, day in frosts if day)


def _windows(plan: Plan, words: Words) -> tuple[tuple[str, str, str, str, str], ...]:
    """The windows of the operations that the plan uses, within its season: name, days, best day,
    reason, source.

    A window that comes again with the same reason the year after is told once.
    """
    tasks = shown(plan.tasks)
    used = {task.operation for task in tasks}
    first = min((task.start for task in tasks), default=today_of(plan))
    last = max((task.end for task in tasks), default=today_of(plan))
    groups: dict[tuple[str, str, str], list[OperationWindow]] = {}
    for window in sorted(plan.windows, key=lambda w: (w.start, w.operation)):
        if window.operation in used and window.end >= first and window.start <= last:
            groups.setdefault(
                (window.operation, window.reason.text, window.source.text), []
            ).append(window)
    return tuple(
        (
            operation_name(plan, operation, words),
            _window_days(windows, words),
            _best_days(windows, words),
            reason,
            plan.sources.get(source, source),
        )
        for (operation, reason, source), windows in groups.items()
    )


def _window_days(windows: Sequence[OperationWindow], words: Words) -> str:
    """First and last days: told once where they are the same each year but for a leap day, else
    year by year.
    """
    if _yearly([w.start for w in windows]) and _yearly([w.end for w in windows]):
        first, last = near(windows[0].start, weekday=False), near(windows[0].end, weekday=False)
        return words.text(phrases.each_year(first=first, last=last))
    return words.value(listed((Days(w.start, w.end, weekday=False) for w in windows), "semicolon"))


def _best_days(windows: Sequence[OperationWindow], words: Words) -> str:
    """The best day: told once where it is the same each year but for a leap day."""
    days = [w.best for w in windows]
    each = days[:1] if _yearly(days) else days
    return words.value(listed((near(day, weekday=False) for day in each), "semicolon"))


def _yearly(days: Sequence[date]) -> bool:
    """True where several days follow one another by a year, a leap day more or less."""
    return len(days) > 1 and all(
        abs((day - days[0]).days - DAYS * n) <= n for n, day in enumerate(days)
    )


def _ledgers(plan: Plan, words: Words) -> tuple[LedgerChart, ...]:
    charts = (ledger_chart(ledger, words) for ledger in plan.ledgers)
    return tuple(chart for chart in charts if chart is not None)


def _reasoned(task: Task, words: Words, plan: Plan, numbers: Mapping[str, int]) -> Reasoned:
    texts = dict.fromkeys(_citation(plan, fact) for fact in _facts_of(task))
    return Reasoned(
        task=task,
        when=span_text(*task.days, words, year=True),
        slip=slip_text(plan, task, words),
        not_earlier=_nearest(task.not_earlier),
        not_later=_nearest(task.not_later),
        quantities=quantities(task, words),
        notes=_note_runs(sorted(numbers[text] for text in texts if text is not None)),
    )


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


def _nearest(reasons: Sequence[Message]) -> str:
    """The nearest reason that is this job's own; nothing where there is none."""
    return next((reason.text for reason in reasons if not says_little(reason)), "")


def _facts_of(task: Task) -> tuple[str, ...]:
    return (*task.facts, *(fact for amount in task.amounts for fact in amount.facts))


def _citation(plan: Plan, fact: str) -> str | None:
    """The words of a note: what the plan cites under that name, None where it cites nothing."""
    cited = plan.citations.get(fact)
    return cited.text if cited is not None else plan.sources.get(fact)


def _notes(plan: Plan, tasks: Iterable[Task]) -> dict[str, Note]:
    """The numbered notes in the order in which the reasons first cite them.

    Equal words share a number.
    """
    texts = dict.fromkeys(
        text
        for facts in (*(_facts_of(t) for t in tasks), *(line.facts for line in plan.order))
        for fact in facts
        if (text := _citation(plan, fact)) is not None
    )
    return {text: Note(number, text) for number, text in enumerate(texts, start=1)}


def _watering(
    plan: Plan, tasks: Iterable[Task], words: Words
) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """The reasons of each stage of watering, once."""
    stages: dict[str, list[str]] = {}
    for task in tasks:
        if task.series is not None:
            stages.setdefault(row_name(plan, task, words), []).append(task.why.text)
    return tuple(
        (stage, tuple(dict.fromkeys(why for why in whys if why))) for stage, whys in stages.items()
    )


def _all_words(plan: Plan, words: Words) -> str:
    """All sentences of the plan, to find the words that need a meaning."""
    # The table of names holds those of every operation, used or not.
    texts = [message.text for message in messages_of(plan.model_copy(update={"names": {}}))]
    texts += (words.text(item_name(a.item)) for task in plan.tasks for a in task.amounts)
    texts += (plan.sources.get(window.source.text, "") for window in plan.windows)
    texts += (operation_name(plan, window.operation, words) for window in plan.windows)
    texts += (words.say(f"season_book.seeding.{plan.lawn.intent}"), words.text(phrases.judgement()))
    return " ".join(texts)


def _used_words(plan: Plan) -> set[str]:
    """The words of the glossary that the book itself uses, whatever the plan says."""
    entries = {name for ledger in plan.ledgers for week in ledger.weeks for name in week.entries}
    return {
        *BOOK_WORDS,
        *(FILL_WORDS if plan.fill is not None else ()),
        *(ACCOUNT_WORDS if plan.ledgers else ()),
        *(COMPOST_WORDS & entries),
    }
