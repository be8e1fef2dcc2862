"""Says which clients are to hear of other days than they were last told."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from pydantic import BaseModel, ConfigDict

from turfplan.app.client_pauses import working
from turfplan.app.data_folders import clients_in, language_for, looked_at
from turfplan.app.lawn_journal import entries_of_lawn
from turfplan.app.sold_jobs import sold_jobs
from turfplan.business.business_record import Business
from turfplan.business.client_record import Client
from turfplan.business.groups import ClientGroup, in_group
from turfplan.business.promised_days import (
    PromisedDays,
    PromiseNews,
    promise_news,
    promised_days,
)
from turfplan.files.data_folder import TOLD_DAYS
from turfplan.files.kept_record import KeptRecord, read_kept, write_kept
from turfplan.files.reading.business import read_business
from turfplan.files.reading.plan import read_plan
from turfplan.message import Days, Message, listed
from turfplan.messages import Words, words_for
from turfplan.phrases import letters as phrases
from turfplan.records.book_names import BY_HOUSEHOLD
from turfplan.records.plan import Plan


class KeptDays(BaseModel):
    """The days of a job as they were told."""

    model_config = ConfigDict(frozen=True, extra="ignore")
    title: str
    start: date
    end: date


class KeptTold(KeptRecord):
    """What a client was last told, by task."""

    days: dict[str, KeptDays] = {}


@dataclass(frozen=True, slots=True)
class ClientMessage:
    """What a client is to be told, in the client's words; `folder` is the lawn's."""

    folder: Path
    name: str
    text: str
    days: KeptTold


def client_messages(
    output: Path, today: date, group: ClientGroup | None = None
) -> tuple[tuple[ClientMessage, ...], tuple[Message, ...]]:
    """One message for each client whose days differ from those last told, and what must be told of
    lawns that were left out; nothing is marked.

    Raises TurfplanError for a folder without lawns, files of the business that cannot be read, and
    a group that there is not.
    """
    clients, business = clients_in(output), read_business(output)

    def messages(folder: Path) -> tuple[ClientMessage, ...] | None:
        """The message to a lawn's client, none without news."""
        plan = read_plan(folder)
        if plan is None:
            return None
        message = message_of_lawn(folder, plan, clients[folder], business, today)
        return (message,) if message is not None else ()

    wanted, paused = working(in_group(clients, group), today)
    found, notes = looked_at(wanted, messages)
    return tuple(message for each in found.values() for message in each), (*paused, *notes)


def mark_told(message: ClientMessage) -> None:
    """Count a message as told; raises TurfplanError where that cannot be written."""
    write_kept(message.folder / TOLD_DAYS, message.days)


def words_of_client(plan: Plan, client: Client, business: Business | None) -> Words:
    """The words in which a business writes to a client: the client's language, else that of the
    business; the lawn's units."""
    return words_for(language_for(business, client), plan.lawn.units, country=plan.place.country)


def message_of_lawn(
    folder: Path, plan: Plan, client: Client, business: Business | None, today: date
) -> ClientMessage | None:
    """What the client of a lawn is to be told now; None without news.

    Raises TurfplanError for a journal or a record that cannot be read.
    """
    entries = entries_of_lawn(folder)
    jobs = sold_jobs(folder, plan, entries)
    by_client = business.client_does if business is not None else BY_HOUSEHOLD
    now = promised_days(jobs, by_client, today)
    kept = read_kept(folder / TOLD_DAYS, KeptTold) or KeptTold()
    told = {task: PromisedDays(one.title, one.start, one.end) for task, one in kept.days.items()}
    over = {task.id for task in plan.tasks if task.closed == "done"}
    over |= {entry.task for entry in entries if entry.kind == "done" and entry.task is not None}
    open_tasks = {task.id for task in plan.tasks if task.is_open}
    news = promise_news(told, now, open_tasks, over)
    if not news:
        return None
    words = words_of_client(plan, client, business)
    text = words.text(phrases.message(news=listed(tuple(_told(news)), "semicolon")))
    # What is past its days without an entry was told, and is told again once it has new ones.
    stood = {task: one for task, one in told.items() if task in open_tasks}
    days = {
        task: KeptDays(title=one.title, start=one.start, end=one.end)
        for task, one in {**stood, **now}.items()
    }
    name = client.name or plan.lawn.name
    return ClientMessage(folder, name, text, KeptTold(days=days))


def _told(news: tuple[PromiseNews, ...]) -> Iterator[Message]:
    for one in news:
        if one.now is None:
            yield phrases.falls_away(title=one.title)
        elif one.before is None:
            yield phrases.comes(title=one.title, days=_days(one.now))
        else:
            yield phrases.moved(title=one.title, before=_days(one.before), days=_days(one.now))


def _days(days: PromisedDays) -> Days:
    return Days(days.start, days.end)
