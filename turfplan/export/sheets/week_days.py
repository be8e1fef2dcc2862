"""The seven days of a week in a strip, and the work of one day under its sign: go or wait."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from itertools import groupby
from types import MappingProxyType

from turfplan.export.house_ids import lawn_of_task, name_of
from turfplan.export.sheets.go_signs import MAIN, Wait, leading, stopping
from turfplan.export.sheets.job_columns import JobColumns, SideNoteKind, columns, sign_shares
from turfplan.export.sheets.look import first_day_of, monday_of, near_text, series_days
from turfplan.export.sheets.week_jobs import Job
from turfplan.message import Clock, Message, Month, NamedWeekday, Number, listed
from turfplan.messages import Words
from turfplan.phrases import week as phrases
from turfplan.records.plan_task import Task

# The letters that stand for different waterings; more of them go on with doubled ones.
NO_LAWNS: Mapping[str, Message] = MappingProxyType({})
LETTERS = "abcdefghijklmnopqrstuvwxyz"
# What several jobs of a page share is told at the first of them.
ONCE: frozenset[SideNoteKind] = frozenset({"wrong", "mind"})
# So many jobs that follow each other are told by the first and the last.
LEAST_RUN = 3


@dataclass(frozen=True, slots=True)
class StripRun:
    """One watering on one day: its clock time, its minutes, the letter of what it is where there
    are several, and the name its tick is kept by."""

    clock: str
    minutes: str
    letter: str
    tick: str


@dataclass(frozen=True, slots=True)
class StripDay:
    """One of the seven days: what its jobs are `called`, one or several, their numbers, and its
    waterings."""

    iso: str
    weekday: str
    number: str
    called: str
    marks: str
    minutes: str
    runs: tuple[StripRun, ...]

    @property
    def is_free(self) -> bool:
        """Whether nothing is to be done on it."""
        return not self.marks and not self.runs


@dataclass(frozen=True, slots=True)
class TaggedText:
    """A sentence about some jobs of a day, which `jobs` names; empty where it is about all of
    them."""

    jobs: str
    text: str


@dataclass(frozen=True, slots=True)
class DayWork:
    """The jobs that begin on a day, under what holds for the day.

    `name` is the day as its reader writes it. `known` and `go` are what has to be known and so
    before the day goes, `each_day` where that is asked on each of several days anew; `alone` says
    which jobs have conditions that stop only themselves, as their first tick. `wait` is that of the
    job by which the day is known, `is_main` where that spreads, sows or plants, `goes_on` says with
    which jobs begun before it is gone on. `columns` part what is told of each job. `go_share` is
    how wide the box of what must hold is, in hundredths, `sign_height` how high both are, mm.
    `is_rest` where it follows the signs and the first job of the same day, `is_bound` where these
    signs are its too. On a sheet of several lawns of which not all go on the same signs, `lawn` is
    the key of that which these are for, and `whose` what it is called.
    """

    iso: str
    name: str
    stamp: tuple[str, str, str]
    known: tuple[str, ...]
    go: tuple[str, ...]
    each_day: bool
    alone: str
    wait: Wait | None
    stops: tuple[TaggedText, ...]
    law: tuple[TaggedText, ...]
    jobs: tuple[Job, ...]
    columns: Mapping[str, JobColumns]
    for_themselves: frozenset[str]
    goes_on: str
    is_main: bool
    go_share: int = 0
    sign_height: float = 0.0
    is_rest: bool = False
    is_bound: bool = False
    lawn: str = ""
    whose: str = ""


def stamp_of(day: date, words: Words) -> tuple[str, str, str]:
    """Weekday, day and month as the date stamp of a day shows them."""
    weekday, month = NamedWeekday(day.weekday()), Month(day.month, short=True)
    return words.value(weekday), words.value(day.day), words.value(month)


def day_parts(
    day: date, week: Sequence[Job], words: Words, lawns: Mapping[str, Message] = NO_LAWNS
) -> tuple[DayWork, ...]:
    """The work of one day of a week: its signs with the first job, then each further job, which may
    stand on the next page.

    On a sheet of several `lawns`, called so, each has its own signs where these differ.
    """
    monday = monday_of(day)
    begun = [job for job in week if first_day_of(job.task, job.days, monday) == day]
    keys = dict.fromkeys(lawn_of_task(job.task.id) for job in begun)
    if len(keys) > 1:
        several = [
            _parts_of(day, week, [j for j in begun if lawn_of_task(j.task.id) == key], words)
            for key in keys
        ]
        if any(_signs(parts) != _signs(several[0]) for parts in several):
            return tuple(
                replace(part, lawn=key, whose=str(lawns.get(name_of(key), key)))
                for key, parts in zip(keys, several, strict=True)
                for part in parts
            )
    return _parts_of(day, week, begun, words)


def _signs(parts: Sequence[DayWork]) -> tuple[object, ...]:
    """What the signs of a day say, but for the numbers of its jobs."""
    first = parts[0]
    wait = replace(first.wait, whose="", of=()) if first.wait is not None else None
    return first.known, first.go, first.each_day, bool(first.alone), wait


def _parts_of(
    day: date, week: Sequence[Job], jobs: Sequence[Job], words: Words
) -> tuple[DayWork, ...]:
    """The parts of a day with these jobs begun on it."""
    asked = [job for job in jobs if job.is_open]
    together = {task.id for task in stopping([job.task for job in asked])}
    alone = [job for job in asked if job.task.id not in together]
    earlier = [job for job in week if job.days[0] < day and day in job.days and job not in jobs]
    whole = [job for job in asked if job not in alone]
    lead = leading([job.task for job in whole]) if whole else None
    go = _once(c for job in whole for c in job.rules.conditions)
    known = _once(answer for job in whole for answer in job.rules.known)
    told_alone = _alone([j for j in alone if j.rules.conditions or j.rules.known], words)
    wait = _wait(whole, lead, words, several=len(week) > 1)
    each_day = any(job.task.duration_days > 1 for job in whole)
    share, height = (0, 0.0)
    if wait:
        inline = not told_alone and not each_day
        share, height = sign_shares((*known, *go), wait, alone=bool(told_alone), inline=inline)
    first = DayWork(
        iso=day.isoformat(),
        name=near_text(day, words),
        stamp=stamp_of(day, words),
        known=known,
        go=go,
        each_day=each_day,
        alone=told_alone,
        wait=wait,
        stops=(),
        law=(),
        jobs=(),
        columns=MappingProxyType(
            {job.task.id: columns(job, for_itself=job in alone) for job in jobs}
        ),
        for_themselves=frozenset(job.task.id for job in alone),
        goes_on=_gone_on(earlier, words),
        is_main=lead is not None and (lead.plays(*MAIN) or lead.plays("headline")),
        go_share=share,
        sign_height=height,
    )
    rest = replace(first, known=(), go=(), alone="", wait=None, goes_on="", is_rest=True)
    parts = [replace(first, jobs=tuple(jobs[:1]))]
    parts += [replace(rest, is_bound=job in whole, jobs=(job,)) for job in jobs[1:]]
    stops = _tagged(asked, [(job, job.rules.stops) for job in asked], words)
    law = _tagged(asked, [(job, job.rules.law) for job in asked], words)
    return tuple(
        replace(part, stops=_begun_with(part, stops), law=_begun_with(part, law)) for part in parts
    )


def without_told(part: DayWork, told: set[str]) -> DayWork:
    """A part of a day without what stands at a job before it; `told` holds that, and takes in what
    stands here."""
    kept: dict[str, JobColumns] = {}
    # Of a job that is closed, or begun before, nothing is told.
    for job in (job for job in part.jobs if job.is_open):
        found = part.columns[job.task.id]
        below = tuple(n for n in found.below if n.kind not in ONCE or n.text not in told)
        beside = tuple(n for n in found.beside if n.kind not in ONCE or n.text not in told)
        kept[job.task.id] = replace(found, below=below, beside=beside)
        told.update(n.text for n in (*below, *beside) if n.kind in ONCE)
    return replace(part, columns=MappingProxyType({**part.columns, **kept}))


def _begun_with(part: DayWork, told: Iterable[tuple[Job, TaggedText]]) -> tuple[TaggedText, ...]:
    """What is told first at a job of this part: it stands above the steps of all that it is about,
    and once a day."""
    return tuple(text for job, text in told if job in part.jobs)


def _alone(jobs: Sequence[Job], words: Words) -> str:
    """Says which jobs have conditions of their own; empty for none."""
    if not jobs:
        return ""
    told = words.value(listed((job.number for job in jobs), "and"))
    return words.text(phrases.go_alone(jobs=told, n=len(jobs)))


def _wait(whole: Sequence[Job], lead: Task | None, words: Words, *, several: bool) -> Wait | None:
    """The days and what moves are those of the leading job, which is named where the week has
    `several`; what then, that of each job that stops the day."""
    if lead is None:
        return None
    ordered = sorted(whole, key=lambda job: job.task.id != lead.id)
    then = _once(text for job in ordered for text in job.wait.then)
    # What is said of one job alone, and not of that by which the day is known, is said as its own.
    tellers = [
        [j for j in whole if any(t.casefold() == text.casefold() for t in j.wait.then)]
        for text in then
    ]
    of = tuple(
        "" if lead.id in [j.task.id for j in those] else _for_jobs(those, words)
        for those in tellers
    )
    whose = words.text(phrases.wait_whose(job=str(ordered[0].number))) if several else ""
    return replace(ordered[0].wait, then=then, whose=whose, of=of)


def _once(texts: Iterable[str]) -> tuple[str, ...]:
    """Texts without those that say the same again."""
    return tuple({text.casefold(): text for text in reversed([*texts])}.values())[::-1]


def _numbers(jobs: Sequence[Job], words: Words) -> str:
    return words.value(listed((job.number for job in jobs), "and"))


def _gone_on(jobs: Sequence[Job], words: Words) -> str:
    """Says with which jobs begun before a day goes on; empty for none."""
    if not jobs:
        return ""
    return words.text(phrases.go_on_with(jobs=_numbers(jobs, words), n=len(jobs)))


def _tagged(
    jobs: Sequence[Job], told: Sequence[tuple[Job, tuple[str, ...]]], words: Words
) -> tuple[tuple[Job, TaggedText], ...]:
    """Each sentence once, with the first job that it is about, and in words the jobs that it is
    about where it is not about all."""
    about: dict[str, list[Job]] = {}
    for job, texts in told:
        for text in dict.fromkeys(texts):
            about.setdefault(text, []).append(job)
    return tuple(
        (those[0], TaggedText("" if len(those) == len(jobs) else _for_jobs(those, words), text))
        for text, those in about.items()
    )


def _for_jobs(jobs: Sequence[Job], words: Words) -> str:
    return words.text(phrases.for_jobs(jobs=_numbers(jobs, words), n=len(jobs)))


def strip_of(
    week: Sequence[date], jobs: Sequence[Job], series: Sequence[Task], words: Words
) -> tuple[tuple[StripDay, ...], tuple[tuple[str, str], ...]]:
    """The strip of a week, and what its letters stand for: one for each watering that differs from
    the others by more than its clock."""
    letters = letters_of(series)
    several = len(letters) > 1
    days = []
    for day in week:
        runs = sorted(
            (task for task in series if task.series and day in series_days(task.series)),
            key=clock_of,
        )
        minutes = sum(task.series.minutes for task in runs if task.series)
        weekday, number, _ = stamp_of(day, words)
        marks = _marks(jobs, day)
        days.append(
            StripDay(
                iso=day.isoformat(),
                weekday=weekday,
                number=number,
                called=words.text(phrases.strip_jobs(n=len(marks))) if marks else "",
                marks=_told_marks(marks, words),
                minutes=words.text(phrases.minutes(n=Number(minutes, "short"))) if runs else "",
                runs=tuple(run_of(task, day, letters, words, several=several) for task in runs),
            )
        )
    return tuple(days), tuple(
        (letter if several else "", title) for title, letter in letters.items()
    )


def letters_of(tasks: Iterable[Task]) -> dict[str, str]:
    """A letter for each title, in the order in which they begin."""
    titles = dict.fromkeys(task.title.text for task in tasks)
    return {
        title: LETTERS[n % len(LETTERS)] * (n // len(LETTERS) + 1) for n, title in enumerate(titles)
    }


def clock_of(task: Task) -> tuple[str, str]:
    """By what the runs of a day are sorted: their clock time, then the name of their task."""
    return (task.series.start_time.isoformat() if task.series else "", task.id)


def run_of(
    task: Task, day: date, letters: Mapping[str, str], words: Words, *, several: bool = True
) -> StripRun:
    """One run of a series on a day."""
    assert task.series is not None  # the caller picked tasks that repeat
    return StripRun(
        clock=words.value(Clock(task.series.start_time)),
        minutes=words.value(task.series.minutes),
        letter=letters[task.title.text] if several else "",
        tick=f"{task.id} {day.isoformat()}",
    )


def _marks(jobs: Sequence[Job], day: date) -> list[tuple[int, bool]]:
    """The numbers of the jobs of a day, and whether it is sure that they are worked on it: of some
    only some days between first and last are.
    """
    marks = []
    for job in jobs:
        if day in job.days:
            sure = (
                job.task.duration_days >= len(job.days)
                or day in (job.days[0], job.days[-1])
                or bool(job.closed_note)
            )
            if sure or job.task.duration_days > 2:
                marks.append((job.number, sure))
    return marks


def _told_marks(marks: Sequence[tuple[int, bool]], words: Words) -> str:
    """Numbers of jobs, in brackets where it is not sure; many that follow each other by the first
    and the last, so that they stand on one line of their day."""
    told: list[str] = []
    # Those that follow each other differ by as much from their places.
    for _, run in groupby(enumerate(marks), lambda held: (held[1][0] - held[0], held[1][1])):
        of_run = [number for _, (number, _) in run]
        sure = dict(marks)[of_run[0]]
        if sure and len(of_run) >= LEAST_RUN:
            first, last = str(of_run[0]), str(of_run[-1])
            told.append(words.text(phrases.strip_from_to(first=first, last=last)))
        else:
            told += [str(number) if sure else f"({number})" for number in of_run]
    return words.value(listed(told, "comma"))
