"""Writes the sheet of a crew: the lawns that are due, with their jobs, amounts and ways in."""

from collections import Counter
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from string import ascii_uppercase

from turfplan.business.client_record import Client
from turfplan.business.crew_hours import DayHours
from turfplan.business.lawn_glance import GlancedJob
from turfplan.export.sheets.go_signs import Wait, told_by
from turfplan.export.sheets.look import Look, paper_for, plain_name, span_text
from turfplan.export.sheets.names import operation_name
from turfplan.export.sheets.task_amounts import PrintedAmount, quantities
from turfplan.export.sheets.week_jobs import job_of
from turfplan.export.templates import render, stylesheet
from turfplan.message import Number
from turfplan.messages import Words
from turfplan.records.plan import Plan


@dataclass(frozen=True, slots=True)
class DueLawn:
    """A lawn that is due: its id, its plan and the words of it, its client, and its jobs."""

    id: str
    plan: Plan
    words: Words
    client: Client
    jobs: tuple[GlancedJob, ...]


@dataclass(frozen=True, slots=True)
class CrewPage:
    """Whose sheet it is, for which days, with the hours of each, and on which day it is made."""

    business: str
    days: tuple[date, ...]
    hours: tuple[DayHours, ...]
    made: date


@dataclass(frozen=True, slots=True)
class CrewJob:
    """A job as the sheet shows it: when it goes and when it waits, what is taken for it, what is
    done at this lawn alone (`steps`) and where the rest stands (`how`), when it is done, and what
    to do if it goes wrong."""

    days: str
    title: str
    hours: str
    last: str
    amounts: tuple[PrintedAmount, ...] = ()
    conditions: tuple[str, ...] = ()
    wait: Wait | None = None
    steps: tuple[str, ...] = ()
    how: str = ""
    done_when: str = ""
    wrong: str = ""
    cautions: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class HowTo:
    """Steps that are the same at several lawns, when such a job is done, and what to do if it goes
    wrong, under a letter by which jobs name them."""

    letter: str
    title: str
    steps: tuple[str, ...]
    done_when: str
    wrong: str


@dataclass(frozen=True, slots=True)
class LawnView:
    """A lawn as the sheet shows it."""

    id: str
    name: str
    address: str
    access: str
    telephone: str
    jobs: tuple[CrewJob, ...]


@dataclass(frozen=True, slots=True)
class HoursView:
    """The hours of a day as the sheet shows them."""

    day: str
    needed: str
    there: str
    over: str


def crew_html(page: CrewPage, lawns: Sequence[DueLawn], words: Words, paper: str | None) -> str:
    """The sheet as a page that stands alone, the lawns in the order in which they are given; each
    in the units and the language of its plan. `paper` is letter or a4."""
    title = span_text(page.days[0], page.days[-1], words, year=True)
    everywhere = _everywhere(lawns)
    shared = _shared_steps(lawns)
    country = lawns[0].plan.place.country if lawns else None
    return render(
        "print/crew.html.jinja",
        words,
        look=Look(paper_for(country, words.system, paper), False, stylesheet()),
        business=plain_name(page.business, words),
        title=title,
        made=words.day(page.made, weekday=False),
        hours=tuple(_hours(day, words) for day in page.hours),
        everywhere=everywhere,
        how_to=tuple(shared.values()),
        lawns=tuple(_lawn(lawn, page.days, everywhere, shared) for lawn in lawns),
    )


def _everywhere(lawns: Sequence[DueLawn]) -> tuple[str, ...]:
    """The cautions that hold at most lawns, of two or more: they are told once, before all of
    them."""
    told = Counter(
        text
        for lawn in lawns
        for text in {text for job in lawn.jobs for text in _cautions(lawn, job)}
    )
    return tuple(text for text, n in told.items() if n > 1 and 2 * n >= len(lawns))


def _shared_steps(lawns: Sequence[DueLawn]) -> dict[str, HowTo]:
    """The steps of operations that several lawns have in common and that say the same at each, in
    their order: they are told once."""
    told: dict[str, Counter[str]] = {}
    said: dict[tuple[str, str], set[str]] = {}
    plans: dict[str, DueLawn] = {}
    for lawn in lawns:
        steps: dict[str, dict[str, None]] = {}
        for job in lawn.jobs:
            task = lawn.plan.task(job.task)
            if task is None:
                continue
            plans.setdefault(task.operation, lawn)
            steps.setdefault(task.operation, {}).update(dict.fromkeys(map(str, task.how)))
            for step in task.how:
                said.setdefault((task.operation, step.key), set()).add(str(step))
        for operation, own in steps.items():
            told.setdefault(operation, Counter()).update(own.keys())
    # A step with figures of a lawn stands at that lawn, for a crew could not tell whose they are.
    of_lawn = {
        (operation, text)
        for (operation, _), texts in said.items()
        if len(texts) > 1
        for text in texts
    }
    found: dict[str, HowTo] = {}
    for operation, counted in told.items():
        common = tuple(
            step for step, n in counted.items() if n > 1 and (operation, step) not in of_lawn
        )
        if common:
            lawn = plans[operation]
            found[operation] = HowTo(
                letters(len(found)),
                operation_name(lawn.plan, operation, lawn.words),
                common,
                told_by(lawn.plan.on_sheets, f"operations.{operation}.done_when"),
                told_by(lawn.plan.on_sheets, f"operations.{operation}.wrong"),
            )
    return found


def letters(number: int) -> str:
    """A, B … Z, AA: what a list goes by, from 0 on."""
    name = ""
    number += 1
    while number:
        number, rest = divmod(number - 1, len(ascii_uppercase))
        name = ascii_uppercase[rest] + name
    return name


def _cautions(lawn: DueLawn, job: GlancedJob) -> tuple[str, ...]:
    task = lawn.plan.task(job.task)
    return tuple(caution.text for caution in task.cautions) if task is not None else ()


def _hours(day: DayHours, words: Words) -> HoursView:
    there = "" if day.there is None else _number(day.there, words)
    over = _number(day.needed - (day.there or 0.0), words) if day.is_over else ""
    named = span_text(day.day, day.day, words)
    return HoursView(named, _number(day.needed, words), there, over)


def _number(value: float, words: Words) -> str:
    return words.value(Number(round(value, 1), "plain"))


def _lawn(
    lawn: DueLawn,
    days: Sequence[date],
    everywhere: Collection[str],
    shared: Mapping[str, HowTo],
) -> LawnView:
    client, words = lawn.client, lawn.words
    name = plain_name(client.name or lawn.plan.lawn.name, words)
    texts = (client.address, client.access, client.telephone)
    address, access, telephone = (plain_name(text, words) if text else "" for text in texts)
    told, jobs = set(everywhere), []
    for job in lawn.jobs:
        jobs.append(_job(lawn, job, days, told, shared))
        # What was told at one job of a lawn holds at its others.
        told.update(_cautions(lawn, job))
    return LawnView(lawn.id, name, address, access, telephone, tuple(jobs))


def _job(
    lawn: DueLawn,
    job: GlancedJob,
    days: Sequence[date],
    told: Collection[str],
    shared: Mapping[str, HowTo],
) -> CrewJob:
    words, task = lawn.words, lawn.plan.task(job.task)
    if task is None:
        # What a client called back for is in no plan: what it is about is all there is.
        hours = _number(job.hours, words) if job.hours else ""
        title, when = plain_name(job.title, words), span_text(job.start, job.end, words)
        return CrewJob(when, title, hours, "")
    view = job_of(lawn.plan, 1, task, words)
    how = shared.get(task.operation)
    steps = tuple(step for step in map(str, task.how) if how is None or step not in how.steps)
    return CrewJob(
        days=span_text(max(job.start, days[0]), min(job.end, days[-1]), words),
        title=task.title.text,
        hours=_number(job.hours, words) if job.hours else "",
        # One last day is told: where the job waits, its wait has it.
        last=span_text(job.last, job.last, words) if job.main and not view.wait.last_day else "",
        amounts=quantities(task, words),
        conditions=(*view.rules.known, *view.rules.conditions),
        wait=view.wait,
        steps=steps,
        how=how.letter if how is not None else "",
        done_when=view.done_when if how is None else "",
        wrong=view.wrong if how is None else "",
        cautions=tuple(text for text in _cautions(lawn, job) if text not in told),
    )
