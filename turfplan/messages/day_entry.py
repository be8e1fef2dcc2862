"""The words of calendar entries that tell of several tasks: the waterings of a day, what is to be
made ready for tomorrow, the list of a week.
"""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from turfplan.message import Clock, Day, Listed, Message, NamedWeekday, as_written, listed
from turfplan.messages.entry import amount_lines, change_line, test_line
from turfplan.messages.telling import Words
from turfplan.phrases import entry as phrases
from turfplan.plain_text import LONGEST_SUMMARY, LONGEST_TEXT, shortened
from turfplan.records.plan_task import PublishedEntry, Series, Task

_WEEK = 7


@dataclass(frozen=True, slots=True)
class DayRun:
    """The runs of one watering task on the days of an entry; `description` is its own text."""

    task: Task
    series: Series
    description: str
    days: tuple[date, ...]


def watering_title(words: Words, runs: Sequence[DayRun]) -> str:
    """The title of an entry of waterings: what, how long, how often a day."""
    titles = list(dict.fromkeys(words.text(run.task.title) for run in runs))
    stages = list(dict.fromkeys(words.text(run.task.stage.name) for run in runs if run.task.stage))
    of_first = [run for run in runs if run.task.stage == runs[0].task.stage]
    minutes = sorted({n for run in of_first if (n := _minutes(run.task.title)) is not None})
    counts = Counter((words.text(run.task.title), day) for run in runs for day in run.days)
    times = max(counts.values())
    often: Message | None = None
    if len(titles) == 1 or len(stages) == 1:
        said = phrases.times if min(counts.values()) == times else phrases.times_at_most
        often = None if times == 1 else said(title=as_written(""), times=times)
    what = titles[0]
    if len(titles) > 1 and stages and minutes:
        # Zones, or minutes that differ, or stages of which the first is told: the text has all.
        what = words.text(_for_minutes(as_written(stages[0]), minutes))
    if len(stages) > 1:
        ending = words.text(phrases.and_more(title=as_written("")))
    else:
        ending = "" if often is None else words.text(often)
    # How often is never cut off; what is cut is the end of what.
    return shortened(what, LONGEST_SUMMARY - len(ending)) + ending


def _for_minutes(stage: Message, minutes: Sequence[int]) -> Message:
    """A stage with its minutes, from the least to the most."""
    if minutes[0] == minutes[-1]:
        return phrases.for_minutes(stage=stage, minutes=minutes[0])
    return phrases.for_minutes_to(stage=stage, least=minutes[0], most=minutes[-1])


def _minutes(title: Message) -> int | None:
    """The minutes of a run's title; None where it is told in settings of a hose."""
    values = dict(title.values)
    for name in ("run", "title"):
        if isinstance(inner := values.get(name), Message):
            return _minutes(inner)
    found = values.get("minutes")
    return found if isinstance(found, int) and "settings" not in values else None


def watering_description(words: Words, runs: Sequence[DayRun], days: Sequence[date]) -> str:
    """The text of an entry of waterings: what changed, the times and the amount of each kind of
    run, whether it is left out, then the rest.

    What several kinds of run say alike is said once; of several that moved only why.
    """
    kinds: dict[tuple[str, str, tuple[date, ...]], list[DayRun]] = {}
    for run in runs:
        text = "\n".join(_of_text(words, run))
        kinds.setdefault((words.text(run.task.title), text, run.days), []).append(run)
    asked = [test_line(alike[0].task) for alike in kinds.values()]
    # A test that not every run has stays with those that have it; all else is said once.
    tests = {words.text(test) for test in asked if test} if len(set(asked)) > 1 else set()
    # What zones say can be told apart by their minutes; what else runs on a day stays together.
    one_stage = all(run.task.stage == runs[0].task.stage for run in runs)
    zones = one_stage and len({title for title, _, _ in kinds}) == len(kinds)
    alike_lines = set.intersection(*(set(text.split("\n")) for _, text, _ in kinds))
    first, rest = list(_changes(words, runs)), []
    for (title, text, on), alike in kinds.items():
        clocks = listed(Clock(run.series.start_time) for run in alike)
        what = as_written(title)
        said = (
            phrases.run_at(clocks=clocks, title=what)
            if on == tuple(days)
            else phrases.run_at_on(clocks=clocks, days=_listed_days(on, days), title=what)
        )
        lines = [line for line in text.split("\n") if line != title]
        ahead = {*amount_lines(words, alike[0].task), *tests}
        ahead |= set() if zones else set(lines) - alike_lines
        first += [words.text(said), *(line for line in lines if line in ahead)]
        rest += [line for line in lines if line not in ahead]
    return _fitted(words, first, [*dict.fromkeys(line for line in rest if line)])


def _fitted(words: Words, first: Sequence[str], rest: Sequence[str]) -> str:
    """The lines of a text, less the last of the `rest` and then of the `first` where a small screen
    would not hold them; the sheet of the week does."""
    lines, kept = [*first, *rest], len(first) + len(rest)
    more = words.text(phrases.more_on_sheet())
    while kept > 1 and len("\n".join(lines)) > LONGEST_TEXT:
        kept -= 1
        lines = [*[*first, *rest][:kept], more]
    return "\n".join(lines)


def _of_text(words: Words, run: DayRun) -> list[str]:
    """What a run says but of its change."""
    change = change_line(words, run.task)
    return [line for line in run.description.split("\n") if line != change]


def _changes(words: Words, runs: Iterable[DayRun]) -> tuple[str, ...]:
    """What changed of some runs, each once; why alone where they came from several times."""
    told = {
        run.task.change: None
        for run in runs
        if run.task.change is not None and change_line(words, run.task) in run.description
    }
    moved = [change for change in told if change.key == "changes.was"]
    if len(moved) > 1:
        told = {_because(change) if change in moved else change: None for change in told}
    return tuple(words.text(phrases.changed(change=change)) for change in told)


def _because(change: Message) -> Message:
    because = dict(change.values).get("because")
    return because if isinstance(because, Message) else change


def _listed_days(on: Iterable[date], days: Sequence[date]) -> Listed:
    """Some of an entry's days: by their weekdays where those are one each."""
    if (days[-1] - days[0]).days < _WEEK:
        return listed(NamedWeekday(day.weekday()) for day in on)
    return listed(Day(day, year=False) for day in on)


def eve_title(words: Words, title: Message) -> str:
    """The title of an entry on the evening before."""
    return shortened(words.text(phrases.tomorrow(title=title)))


def eve_description(words: Words, jobs: Sequence[Task]) -> str:
    """The text of an entry on the evening before: the jobs of the day, each with its test."""
    titles = [words.text(phrases.step(step=task.title)) for task in jobs]
    tests = [words.text(test) if (test := test_line(task)) else "" for task in jobs]
    both = zip(titles, tests, strict=True)
    lines = [line for pair in both for line in pair if line]
    if len("\n".join(lines)) <= LONGEST_TEXT:
        return "\n".join(lines)
    # Which jobs they are comes before what each asks.
    return _fitted(words, titles, [*dict.fromkeys(test for test in tests if test)])


def week_title(words: Words) -> str:
    """The title of the entry of a week."""
    return words.text(phrases.this_week())


def week_description(words: Words, jobs: Sequence[Task]) -> str:
    """The text of the entry of a week: its jobs with their days."""
    told = (phrases.on_day(day=Day(task.start, year=False), title=task.title) for task in jobs)
    return _fitted(words, [words.text(one) for one in told], ())


def leaving(words: Words, shown: PublishedEntry, title: Message, why: Message) -> PublishedEntry:
    """An entry that leaves a calendar, on its first day: its title says where it went, its text
    why.
    """
    update: dict[str, object] = {
        "summary": shortened(words.text(title)),
        "description": words.text(why),
        "cancelled": True,
        "alarm": None,
    }
    if (series := shown.series) is not None:
        once = {"start": shown.start, "end": shown.start, "weekdays": (), "skip": ()}
        update |= {"series": series.model_copy(update=once)}
    return shown.model_copy(update={**update, "end": shown.start, "days": ()})
