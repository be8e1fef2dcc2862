"""Lists the jobs of many lawns: of a day, of a week, overdue, or near their last safe day; apart
from them what waits for the answer to a quote."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from functools import partial
from pathlib import Path
from typing import Literal

from turfplan.app.client_pauses import paused_message
from turfplan.app.data_folders import clients_in, looked_at
from turfplan.app.lawn_glimpse import known_glimpse
from turfplan.app.plan_clients import NEAR_DAYS
from turfplan.app.worked_glance import of_crews, sold_glance, unpaused, worked_glance
from turfplan.business.business_record import Business
from turfplan.business.client_record import Client
from turfplan.business.crew_hours import DayHours, hours_of_days, with_crew_of
from turfplan.business.groups import ClientGroup, in_group
from turfplan.business.lawn_glance import GlancedJob, LawnGlance
from turfplan.business.lawn_pauses import pause_on
from turfplan.business.unanswered import Unanswered
from turfplan.business.visiting_order import in_order_of_column, in_order_of_place
from turfplan.calendar_days import week_of
from turfplan.files.glance_index import KnownLawn, glance_index
from turfplan.files.lawn_standing import read_callbacks, read_pauses, read_quotes
from turfplan.files.reading.business import read_business
from turfplan.files.reading.public_holidays import holidays_of_year
from turfplan.message import Day, Message, Number
from turfplan.phrases import clients as phrases
from turfplan.records.book_names import BY_HOUSEHOLD

ListKind = Literal["day", "week", "overdue", "last-days", "waiting"]


@dataclass(frozen=True, slots=True)
class AskedList:
    """Which jobs are asked for: of a day, of its week, over before it, or near their last day by
    it, or only what is waiting for an answer; of a group, in the order of a column, else of place.
    """

    kind: ListKind
    day: date
    group: ClientGroup | None = None
    by: str | None = None


@dataclass(frozen=True, slots=True)
class ListedLawn:
    """A lawn with the jobs of it that were asked for."""

    folder: Path
    client: Client
    glance: LawnGlance
    jobs: tuple[GlancedJob, ...]

    @property
    def id(self) -> str:
        """The name of its folder."""
        return self.folder.name

    @property
    def name(self) -> str:
        """Whose lawn it is, as far as that is known, else what it is called."""
        return self.client.name or self.glance.name


@dataclass(frozen=True, slots=True)
class WaitingLawn:
    """A lawn of which something waits for the answer to a quote."""

    folder: Path
    name: str
    waits: Unanswered

    @property
    def id(self) -> str:
        """The name of its folder."""
        return self.folder.name


@dataclass(frozen=True, slots=True)
class JobList:
    """The lawns that have such jobs, in the order asked for; the hours of each day that the list is
    about; what must be told of lawns that are not in it; and those that would be, were the quote of
    them answered (`waiting`), whose hours count in none."""

    asked: AskedList
    lawns: tuple[ListedLawn, ...]
    waiting: tuple[WaitingLawn, ...]
    hours: tuple[DayHours, ...]
    notes: tuple[Message, ...]
    business: Business | None


def list_jobs(output: Path, asked: AskedList) -> JobList:
    """The jobs of the lawns of a data folder that are asked for.

    Raises TurfplanError for a folder without lawns, a `business.toml` or a client that cannot be
    read, and a group that there is not.
    """
    clients, business = clients_in(output), read_business(output)
    wanted = in_group(clients, asked.group)
    days = {"day": (asked.day,), "week": week_of(asked.day)}.get(asked.kind, ())
    first = days[0] if days else asked.day
    pauses = {folder: read_pauses(folder) for folder in wanted}
    with glance_index(output) as index:
        known = index.known()
    ordered = _in_order({folder: clients[folder] for folder in wanted}, asked.by, business)
    look = partial(_look, known=known, hours=business.times if business is not None else {})
    glances, notes = looked_at(ordered, partial(look, today=asked.day))
    by_client = business.client_does if business is not None else BY_HOUSEHOLD
    found = [
        ListedLawn(folder, clients[folder], glance, jobs)
        for folder, (glance, _) in glances.items()
        if (jobs := unpaused(of_crews(_asked(glance, asked), by_client), pauses[folder], first))
    ]
    waiting = tuple(
        WaitingLawn(folder, clients[folder].name or glance.name, waits)
        for folder, (glance, waits) in glances.items()
        if waits is not None and pause_on(pauses[folder], asked.day) is None
        if waits.is_open and _would_be_listed(waits, asked)
    )
    notes += tuple(
        paused_message(folder.name, pause)
        for folder in ordered
        if (pause := pause_on(pauses[folder], asked.day)) is not None
    )
    listed = [job for lawn in found for job in lawn.jobs]
    around = tuple(day for job in listed for day in (job.start, job.end))
    crews = with_crew_of(business, asked.group) if business is not None else None
    hours = hours_of_days(listed, days, crews, holidays_of_business(business, (*days, *around)))
    return JobList(asked, tuple(found), waiting, hours, notes, business)


def _look(
    folder: Path, known: Mapping[str, KnownLawn], hours: Mapping[str, float], today: date
) -> tuple[LawnGlance, Unanswered | None] | None:
    """A lawn at one look, its sold jobs in the hours that they take this business, and what its
    client has called back for among them; and what waits for an answer."""
    glance = known_glimpse(folder, known.get(folder.name))
    if glance is None:
        return None
    return sold_glance(
        worked_glance(glance, read_callbacks(folder), hours), read_quotes(folder), today
    )


def _asked(glance: LawnGlance, asked: AskedList) -> tuple[GlancedJob, ...]:
    if asked.kind == "overdue":
        return glance.overdue(asked.day)
    if asked.kind == "last-days":
        return glance.near_last(asked.day, NEAR_DAYS)
    if asked.kind == "waiting":
        return ()
    return _of_days(glance.jobs, asked)


def _of_days(jobs: tuple[GlancedJob, ...], asked: AskedList) -> tuple[GlancedJob, ...]:
    """The jobs of the day or the week."""
    days = week_of(asked.day) if asked.kind == "week" else (asked.day,)
    return tuple(job for job in jobs if job.start <= days[-1] and job.end >= days[0])


def _would_be_listed(waits: Unanswered, asked: AskedList) -> bool:
    """Whether what waits for an answer would be in a list, were it sold; in that of last days by
    the day of the answer."""
    match asked.kind:
        case "waiting":
            return True
        case "overdue":
            return False
        case "last-days":
            return waits.by is not None and (waits.by - asked.day).days <= NEAR_DAYS
        case _:
            return bool(_of_days(waits.jobs, asked))


def _in_order(
    clients: Mapping[Path, Client], by: str | None, business: Business | None
) -> list[Path]:
    if by is not None:
        return in_order_of_column(clients, by)
    return in_order_of_place(clients, business.yard if business is not None else None)


def holidays_of_business(business: Business | None, days: tuple[date, ...]) -> frozenset[date]:
    """The public holidays of a business in the years of some days."""
    if business is None or business.country is None or business.holidays == "work":
        return frozenset()
    years = {day.year for day in days}
    listed = (holidays_of_year(business.country, business.state, year) for year in years)
    return frozenset(date.fromordinal(day) for year in listed for day in year)


def told_hours(day: DayHours) -> Message:
    """How many hours a day takes, and how many are there."""
    named, needed = Day(day.day, weekday=True), Number(round(day.needed, 1), "plain")
    if day.there is None:
        return phrases.hours_needed(day=named, needed=needed)
    there = Number(round(day.there, 1), "plain")
    if day.is_over:
        over = Number(round(day.needed - day.there, 1), "plain")
        return phrases.hours_over(day=named, needed=needed, there=there, over=over)
    return phrases.hours_of_day(day=named, needed=needed, there=there)
