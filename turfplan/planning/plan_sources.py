"""What a plan is made from beside the brief and the book: what is known of the place, and what has
happened."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date

from turfplan.climate.real_years import RealYear
from turfplan.climate.record import Climate
from turfplan.message import Message, Worded
from turfplan.planning.public_holidays import HolidaysOfYear, listed_holidays
from turfplan.records.journal import JournalEntry
from turfplan.records.plan import Fill, Plan, Retired
from turfplan.site.outlines.shapes import LawnZone
from turfplan.work.drafts import Band
from turfplan.work.elsewhere import NOTHING_ELSEWHERE, Elsewhere
from turfplan.work.watering.season import WeatherDay


@dataclass(frozen=True, slots=True)
class LawnGround:
    """What shapes or a survey say of the ground: area, bands of fill, the map for the sheets,
    zones."""

    area_m2: float
    bands: tuple[Band, ...] | None = None
    fill: Fill | None = None
    notes: tuple[Worded, ...] = ()
    zones: tuple[LawnZone, ...] = ()


@dataclass(frozen=True, slots=True)
class Weather:
    """Days of weather that are known: measured ones, and a forecast."""

    days: Mapping[date, WeatherDay] = field(default_factory=dict)
    forecast_from: date | None = None


@dataclass(frozen=True, slots=True)
class KnownPlace:
    """The climate of the place, and the ground, the weather and the real years where they are
    known; `elsewhere` is what the same hands have promised to other lawns.

    `real_years` of a daily series judge every date, and choose among dates as good as each other.
    `holidays` lists the public ones of a country's year. `files_sha256` is the digest of what
    the files say that climate and ground were read from, None where there are none.
    """

    climate: Climate
    ground: LawnGround | None = None
    weather: Weather | None = None
    real_years: Sequence[RealYear] = ()
    holidays: HolidaysOfYear = listed_holidays
    files_sha256: str | None = None
    elsewhere: Elsewhere = NOTHING_ELSEWHERE

    @property
    def days(self) -> Mapping[date, WeatherDay]:
        """The weather that is known, by day."""
        return self.weather.days if self.weather is not None else {}


@dataclass(frozen=True, slots=True)
class SoFar:
    """The plan before, and the journal since the first one.

    Days that went by without an entry count as done, or as not done (`assume_not_done`). `inputs`
    says what of the files that were read was torn or refused. `brief_sha256` is the digest of the
    brief, by which the next run knows whether it is the same. Where nothing is `promised` the plan
    before says what its tasks are called and what has become of them, and holds none to its day.
    """

    journal: Sequence[JournalEntry] = ()
    previous: Plan | None = None
    assume_not_done: bool = False
    inputs: Sequence[Message] = ()
    brief_sha256: str = ""
    promised: bool = True

    @property
    def retired(self) -> tuple[Retired, ...]:
        """The numbers of tasks that the rules give no more."""
        return self.previous.retired if self.previous is not None else ()


NOTHING_YET = SoFar()
