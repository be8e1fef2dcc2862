"""Lawns, climates and requests that the tests of water and feeding share.

All of them are invented.
"""

from dataclasses import dataclass, replace
from datetime import date
from functools import lru_cache
from math import cos, pi
from typing import Any

from turfplan.book.entries import Book
from turfplan.climate.record import Climate
from turfplan.files.reading.book import load_book
from turfplan.records.brief import Brief, parse_brief
from turfplan.work.watering.request import WateredGround, WateringRequest, ground_of
from turfplan.work.watering.sprinklers import zones


def brief(**parts: dict[str, Any]) -> Brief:
    """A tall fescue lawn of 4,000 ft2 with the given parts of its brief."""
    lawn = {"area": "4000 ft2", "grass": "tall_fescue", **parts.pop("lawn", {})}
    place = {"latitude": 40.0, "longitude": -77.0, "country": "US"}
    return parse_brief({"lawn": lawn, "place": place, **parts})


def waves(mean: float, swing: float, peak_day: int = 200) -> tuple[float, ...]:
    """A year of a daily value that swings around its mean once, highest on `peak_day`."""
    return tuple(mean + swing * cos(2 * pi * (day - peak_day) / 365) for day in range(365))


@lru_cache(1)
def book() -> Book:
    """The packaged book."""
    return load_book()


def _climate(
    latitude: float, air_c: tuple[float, ...], et0_mm: tuple[float, ...], rain_mm: float
) -> Climate:
    """An invented place: the day's extremes 6 K around its mean, the soil as warm as the air."""
    return Climate(
        latitude=latitude,
        longitude=-77.0,
        elevation_m=100.0,
        timezone="America/New_York",
        koppen="Dfa",
        source="invented for tests",
        error_days=7,
        air_error_c=1.0,
        soil_error_c=1.5,
        air_mean_c=air_c,
        air_min_c=tuple(t - 6 for t in air_c),
        air_max_c=tuple(t + 6 for t in air_c),
        rain_mm=(rain_mm,) * 365,
        soil_5cm_c=air_c,
        soil_10cm_c=air_c,
        et0_mm=et0_mm,
        last_frost=None,
        first_frost=None,
    )


@lru_cache(1)
def cool_climate() -> Climate:
    """A northern place with cold winters, warm summers and 900 mm of rain a year."""
    return _climate(40.0, waves(10.5, 13.0), waves(3.0, 2.5, 185), 2.5)


@lru_cache(1)
def warm_climate() -> Climate:
    """A southern state: mild winters, hot summers."""
    return _climate(32.0, waves(18.0, 10.0), waves(3.6, 2.4, 185), 3.4)


@lru_cache(1)
def south_climate() -> Climate:
    """The cool place half a year shifted."""
    return _climate(-40.0, waves(10.5, 13.0, 18), waves(3.0, 2.5, 3), 2.5)


def request(
    the_book: Book, the_climate: Climate, the_brief: Brief | None = None, **changes: Any
) -> WateringRequest:
    """A request for 2027 on loam."""
    given = the_brief or brief(water={"application_rate": "0.5 in/h", "possible": True})
    season = changes.pop("season", "cool")
    basis: dict[str, Any] = {
        "water": given.water,
        "book": the_book,
        "climate": the_climate,
        "season": season,
        "soil": "loam",
        "germination_days": 21,
        "area_m2": given.lawn.area_m2,
        "zones": zones(given.water, the_book, given.lawn.area_m2 or 0.0),
        "start": date(2027, 3, 1),
        "end": date(2028, 2, 28),
    }
    return WateringRequest(**{**basis, **changes})


def even_ground(et0_mm: float, rain_mm: float = 0.0, **changes: Any) -> WateredGround:
    """Loam 203.2 mm deep, which holds 26.416 mm, in the cool place, under weather that is the same
    every day.

    Of its coefficients of mature grass that of June alone is 1. `changes` are those of its request.
    """
    ground = ground_of(request(book(), cool_climate(), **changes))
    days = len(ground.et0_mm)
    kc = tuple(1.0 if month == 6 else 0.25 for month in range(1, 13))
    even, usable = (et0_mm,) * days, (rain_mm,) * days
    return replace(ground, et0_mm=even, rain_mm=usable, usable_rain_mm=usable, kc=kc)


NITROGEN = {"tall_fescue": "species.tall_fescue.nitrogen_year"}


@dataclass(frozen=True)
class Opening:
    """An open window as the feeding rules read it."""

    operation: str
    season: str
    start: date
    end: date
    best: date


COOL_OPENINGS = (
    Opening("feed_nitrogen", "spring", date(2027, 4, 20), date(2027, 6, 5), date(2027, 5, 15)),
    Opening("overseed", "autumn", date(2027, 8, 20), date(2027, 9, 20), date(2027, 9, 1)),
    Opening("feed_nitrogen", "autumn", date(2027, 9, 1), date(2027, 11, 15), date(2027, 9, 20)),
)
WARM_OPENINGS = (
    Opening("feed_nitrogen", "spring", date(2027, 4, 25), date(2027, 5, 31), date(2027, 5, 10)),
    Opening("feed_nitrogen", "summer", date(2027, 6, 1), date(2027, 8, 15), date(2027, 7, 1)),
)
