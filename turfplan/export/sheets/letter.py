"""Writes the letter of a business to a client: what it does and when, and what the client does."""

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from datetime import date

from turfplan.business.business_record import Business
from turfplan.business.client_record import Client
from turfplan.business.promised_days import UNSEEN
from turfplan.export.qr_code import qr_data_uri
from turfplan.export.sheets.look import Look, Paper, plain_name, span_text, today_of
from turfplan.export.templates import render, stylesheet
from turfplan.message import listed
from turfplan.messages import Words
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Task

# What of a task says until when people keep off.
_KEEP_OFF = "keep_off."


@dataclass(frozen=True, slots=True)
class DatedLine:
    """What is done, and on which days."""

    days: str
    title: str


@dataclass(frozen=True, slots=True)
class LetterWork:
    """What a letter is about: a plan, its jobs that are still to be done, and which operations the
    client does."""

    plan: Plan
    jobs: Sequence[Task]
    by_client: Collection[str]


def letter_html(
    work: LetterWork,
    business: Business | None,
    client: Client,
    link: str | None,
    words: Words,
    paper: Paper,
) -> str:
    """The letter as a page that stands alone. Of the client's record name and address alone are on
    it."""
    plan, jobs = work.plan, work.jobs
    ours = [
        task for task in jobs if task.operation not in work.by_client and not task.plays(*UNSEEN)
    ]
    sender: tuple[str | None, ...] = ()
    if business is not None:
        sender = (business.address, business.telephone, *business.lines)
    return render(
        "print/letter.html.jinja",
        words,
        look=Look(paper, False, stylesheet()),
        business=plain_name(business.name, words) if business is not None else "",
        sender=tuple(plain_name(text, words) for text in sender if text),
        client=plain_name(client.name, words) if client.name else "",
        street=plain_name(client.address, words) if client.address else "",
        day=words.day(today_of(plan), weekday=False),
        ours=_by_days(ours, words),
        yours=tuple(_yours(work, words)),
        keep_off=tuple(dict.fromkeys(_keep_off(jobs))),
        link=link,
        qr=qr_data_uri(link) if link else None,
    )


def _by_days(jobs: Sequence[Task], words: Words) -> tuple[DatedLine, ...]:
    """Jobs in their order, those of the same days in one line."""
    titles: dict[tuple[date, date], list[str]] = {}
    for task in jobs:
        titles.setdefault((task.start, task.end), []).append(task.title.text)
    return tuple(
        _line(words.value(listed(told, "semicolon")), *days, words) for days, told in titles.items()
    )


def _yours(work: LetterWork, words: Words) -> Iterator[DatedLine]:
    """What the client does, by its first day: waterings by what they are called, and jobs."""
    plan, jobs, by_client = work.plan, work.jobs, work.by_client
    found: list[tuple[date, date, str]] = [
        (task.start, task.end, task.title.text) for task in jobs if task.operation in by_client
    ]
    spans: dict[str, tuple[date, date]] = {}
    for task in plan.tasks:
        if task.series is None or not task.is_open or task.operation not in by_client:
            continue
        first, last = spans.get(task.title.text, (task.series.start, task.series.end))
        days = (min(first, task.series.start), max(last, task.series.end))
        spans[task.title.text] = days
    found += [(*days, title) for title, days in spans.items()]
    for start, end, title in sorted(found):
        yield _line(title, start, end, words)


def _keep_off(jobs: Sequence[Task]) -> Iterator[str]:
    for task in jobs:
        for step in (*task.how, *task.cautions):
            if step.key.startswith(_KEEP_OFF):
                yield step.text


def _line(title: str, start: date, end: date, words: Words) -> DatedLine:
    return DatedLine(span_text(start, end, words, year=True), title)
