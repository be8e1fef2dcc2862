"""What the office page of a business answers from: its lawns at hand, its operators, and who is
signed in."""

from collections import Counter
from dataclasses import dataclass, field
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Literal
from zoneinfo import ZoneInfo

from anyio import CapacityLimiter

from turfplan.app.data_folders import language_for
from turfplan.app.office_list import OfficeLawn, OfficeShelf
from turfplan.app.operators import Operator, operator_named, operators_of
from turfplan.app.outputs import words_of_user
from turfplan.app.password_hash import is_password
from turfplan.business.business_record import Business
from turfplan.errors import TurfplanError
from turfplan.files.reading.business import read_business
from turfplan.messages import Words, words_for
from turfplan.plain_text import plain_text
from turfplan.serve.office_sessions import OfficeSessions, SignInRate, place_of
from turfplan.units import System

# So many passwords are reckoned at once: each takes a fraction of a second and much memory.
AT_ONCE = 2


@dataclass(frozen=True, slots=True)
class Seat:
    """Who sits at the office page: the office or a crew, by what name; `owner` is a browser of the
    owner's, which needs no password."""

    label: str
    kind: Literal["office", "crew"]
    crew: str = ""
    owner: bool = False


@dataclass(slots=True)
class OfficeDesk:
    """The office page of a data folder."""

    root: Path
    shelf: OfficeShelf = field(init=False)
    sessions: OfficeSessions = field(default_factory=OfficeSessions)
    rate: SignInRate = field(default_factory=SignInRate)
    limiter: CapacityLimiter = field(default_factory=lambda: CapacityLimiter(AT_ONCE))
    zone: ZoneInfo | None = None

    def __post_init__(self) -> None:
        self.shelf = OfficeShelf(self.root)

    def seat(self, secret: str, now: datetime) -> Seat | None:
        """Who has signed in with a session's secret, as far as that still holds."""
        session = self.sessions.find(secret, now)
        if session is None:
            return None
        operator = operator_named(self._operators(), session.name)
        if operator is None or operator.stamp != session.stamp:
            self.sessions.end(secret)
            return None
        if operator.has_ended(self.today(now)):
            return None
        return Seat(operator.name, operator.kind, operator.crew)

    def known(self, name: str, password: str, now: datetime) -> Operator | None:
        """The operator of a name and a password; that takes as long for a name that nobody has."""
        operator = operator_named(self._operators(), plain_text(name))
        try:
            right = is_password(password, operator.password if operator is not None else None)
        except ValueError:
            right = False
        if operator is None or not right or operator.has_ended(self.today(now)):
            return None
        return operator

    def has_operators(self) -> bool:
        """Whether anybody may sign in. Raises TurfplanError where that cannot be read."""
        return bool(operators_of(self.root))

    def _operators(self) -> tuple[Operator, ...]:
        try:
            return operators_of(self.root)
        except TurfplanError:
            # Nobody is let in by what cannot be read; the page for signing in tells of it.
            return ()

    def today(self, now: datetime) -> date:
        """The day it is where most lawns lie."""
        if self.zone is None:
            try:
                lawns = self.shelf.lawns()
            except TurfplanError:
                lawns = ()
            zones = Counter(one.glance.zone for one in lawns if one.glance is not None)
            if not zones:
                return now.astimezone(UTC).date()
            self.zone = ZoneInfo(zones.most_common(1)[0][0])
        return now.astimezone(self.zone).date()

    def business(self) -> Business | None:
        """What the business says of itself. Raises TurfplanError where that cannot be read."""
        return read_business(self.root)

    def name(self) -> str:
        """What the business is called, as far as that can be read."""
        try:
            business = self.business()
        except TurfplanError:
            business = None
        return plain_text(business.name) if business is not None else self.root.name

    def words(self) -> Words:
        """The words of the office: the language and the units of the business; where that cannot be
        read, those of who serves."""
        try:
            business = self.business()
        except TurfplanError:
            return words_of_user()
        system = (business and business.units) or System.METRIC
        country = business.country if business is not None else None
        return words_for(language_for(business), system, country=country)


def of_crew(lawns: tuple[OfficeLawn, ...], crew: str) -> tuple[OfficeLawn, ...]:
    """The lawns of a crew."""
    wanted = crew.casefold()
    return tuple(one for one in lawns if crew and one.crew.casefold() == wanted)


def crew_day(lawns: tuple[OfficeLawn, ...], seat: Seat, now: datetime) -> tuple[OfficeLawn, ...]:
    """The lawns that are on for a crew's seat on this day: those with work of the day, and those of
    which somebody who sits there wrote something today; none that is paused."""
    return tuple(
        lawn
        for lawn in of_crew(lawns, seat.crew)
        if lawn.pause(lawn.today(now)) is None
        and (lawn.jobs_of(lawn.today(now)) or lawn.was_written_by(seat.label, now))
    )


def rate_key(name: str, address: str) -> tuple[str, str]:
    """By what a try to sign in is counted: the name and the place it comes from."""
    return plain_text(name)[:100].casefold(), place_of(address)
