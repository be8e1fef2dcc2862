"""The limits of where grasses live, reckoned again at the places that their notes name."""

import pytest

from planning import climate_at
from turfplan.files.reading.book import load_book
from turfplan.work.growing_year import days_above

BOOK = load_book()
BLUR = BOOK.si("windows.years_apart")
SUMMER, GROWING = BOOK.si("lives.summer_mark"), BOOK.si("lives.growing_mark")

PLACES = {
    "Amarillo": (35.2, -101.8),
    "Asheville": (35.6, -82.55),
    "Atlanta": (33.75, -84.39),
    "Bloemfontein": (-29.1, 26.2),
    "Brisbane": (-27.47, 153.03),
    "Charleston": (32.78, -79.93),
    "Dallas": (32.78, -96.8),
    "Denver": (39.74, -104.99),
    "Dublin": (53.35, -6.26),
    "Durban": (-29.86, 31.02),
    "Fargo": (46.88, -96.79),
    "Fresno": (36.74, -119.79),
    "Grants Pass": (42.44, -123.33),
    "Greenville": (34.85, -82.4),
    "Las Vegas": (36.17, -115.14),
    "Melbourne": (-37.81, 144.96),
    "Minneapolis": (44.98, -93.27),
    "New Orleans": (29.95, -90.07),
    "New York": (40.71, -74.0),
    "Pensacola": (30.42, -87.22),
    "Philadelphia": (39.95, -75.16),
    "Portland": (45.52, -122.68),
    "San Diego": (32.72, -117.16),
    "San Francisco": (37.77, -122.42),
    "Seattle": (47.61, -122.33),
    "Singapore": (1.35, 103.82),
    "Tifton": (31.45, -83.51),
    "Wellington": (-41.29, 174.78),
    "Wilmington": (34.23, -77.94),
}


def days(place: str, mark: float) -> float:
    """The days of a usual year at a place that are warmer than a mark."""
    return days_above(climate_at(*PLACES[place]), mark, BLUR)


@pytest.mark.parametrize(
    ("place", "said"),
    [
        ("Amarillo", 131),
        ("Dallas", 177),
        ("Pensacola", 192),
        ("Atlanta", 148),
        ("Charleston", 175),
        ("Tifton", 182),
        ("Las Vegas", 172),
        ("New York", 102),
        ("Philadelphia", 115),
        ("Grants Pass", 51),
        ("Singapore", 365),
        ("Durban", 211),
        ("Brisbane", 195),
    ],
)
def test_days_above_the_best_of_cool_grass(place: str, said: int) -> None:
    """As the notes of `summer_days` print them."""
    assert days(place, SUMMER) == pytest.approx(said, abs=1)


@pytest.mark.parametrize(
    ("place", "said"),
    [
        ("Melbourne", 77),
        ("Seattle", 41),
        ("Portland", 75),
        ("New York", 124),
        ("Greenville", 161),
        ("Asheville", 118),
        ("Denver", 92),
        ("Fargo", 93),
        ("Wilmington", 185),
        ("San Diego", 133),
        ("San Francisco", 22),
    ],
)
def test_days_on_which_warm_grass_grows(place: str, said: int) -> None:
    """As the notes of `growing_days` print them."""
    assert days(place, GROWING) == pytest.approx(said, abs=1)


@pytest.mark.parametrize(
    ("place", "said"), [("San Francisco", 213), ("Wellington", 188), ("Dublin", 113)]
)
def test_days_on_which_kikuyu_grows(place: str, said: int) -> None:
    """Above its own mark."""
    mark = BOOK.si("species.kikuyu.growing_mark")
    assert days(place, mark) == pytest.approx(said, abs=1)


@pytest.mark.parametrize(
    ("grass", "place", "night"),
    [
        ("bermuda_common", "Asheville", -13.5),
        ("bermuda_hybrid", "Asheville", -13.5),
        ("kikuyu", "Bloemfontein", -6.9),
    ],
)
def test_nights_that_are_borne_at_the_coldest_home(grass: str, place: str, night: float) -> None:
    """The coldest night of a usual year there, less the error of the reckoning."""
    climate = climate_at(*PLACES[place])
    assert climate.coldest_night_c == pytest.approx(night, abs=0.1)
    borne = BOOK.si(f"species.{grass}.winter_night")
    assert borne == pytest.approx(night - climate.coldest_error_c, abs=0.1)


def test_other_nights_and_rain_that_notes_name() -> None:
    """Minneapolis is colder than what ryegrass bears, by less than the error; New Orleans wetter
    than what buffalograss bears."""
    cold = climate_at(*PLACES["Minneapolis"])
    assert cold.coldest_night_c == pytest.approx(-27.5, abs=0.1)
    assert 0 < BOOK.si("species.perennial_ryegrass.winter_night") - cold.coldest_night_c < 3.5
    rain = sum(climate_at(*PLACES["New Orleans"]).rain_mm)
    assert rain == pytest.approx(1396, abs=5)
    assert rain > BOOK.high_si("species.buffalo.rain_most")


def test_limits_lie_between_the_places_that_are_named() -> None:
    """Fit and unfit places lie on their sides of the ends of a limit."""
    for grass, fit, unfit in (
        ("kentucky_bluegrass", "Amarillo", "Dallas"),
        ("tall_fescue", "Atlanta", "Tifton"),
        ("browntop", "Grants Pass", "Philadelphia"),
        ("kikuyu", "Durban", "Singapore"),
    ):
        ends = BOOK.facts[f"species.{grass}.summer_days"]
        assert days(fit, SUMMER) <= ends.low_si + 1
        assert days(unfit, SUMMER) > ends.high_si
