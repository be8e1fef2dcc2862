"""What a brief must say of place, season and water to be one."""

from datetime import date

import pytest

from planning import brief_of
from told_errors import refused


@pytest.mark.parametrize(
    "place",
    [{"postal_code": "17601"}, {"climate_zone": "6b"}, {"latitude": 40.0, "longitude": -76.0}],
)
def test_a_place_is_told_in_any_one_way(place: dict[str, object]) -> None:
    """A postal code, a zone, or both coordinates."""
    nothing = {"postal_code": None, "country": None}
    assert brief_of({"place": {**nothing, **place}}).place
    assert brief_of({"place": {**nothing, "normals": "normals.csv"}}).place.normals is not None


def test_a_place_that_is_nowhere_is_refused() -> None:
    """Without any of them, or with half of the coordinates."""
    nowhere = {"postal_code": None, "country": None}
    with refused("place: "):
        brief_of({"place": nowhere})
    with refused("place: .*longitude"):
        brief_of({"place": {**nowhere, "latitude": 40.0}})


def test_a_season_ends_after_it_begins() -> None:
    """Not on the same day."""
    begin = date(2027, 3, 1)
    assert brief_of({"season": {"from": begin, "until": date(2027, 3, 2)}}).season.until
    with refused("season: "):
        brief_of({"season": {"from": begin, "until": begin}})


def test_some_weekday_is_left_for_watering() -> None:
    """An empty list is no law; one with a day is."""
    assert brief_of({"water": {"allowed_weekdays": ["mon"]}}).water.allowed_weekdays == ("mon",)
    with refused("water: "):
        brief_of({"water": {"allowed_weekdays": []}})


def test_a_rate_of_water_that_no_sprinkler_has_is_refused() -> None:
    """From a millimetre an hour to five inches."""
    for rate in ("1 mm/h", "1.3 in/h", "4.9 in/h", "125 mm/h"):
        assert brief_of({"water": {"application_rate": rate}}).water.application_rate_mm_h
    for rate in ("0.9 mm/h", "126 mm/h", "6 in/h", "7 in/h"):
        with refused("water.application_rate: "):
            brief_of({"water": {"application_rate": rate}})


def test_a_reminder_has_an_hour_of_the_day() -> None:
    """Two digits each, at an hour at which people are awake."""
    for clock in ("05:00", "06:30", "19:05", "21:59"):
        alarm = brief_of({"calendar": {"alarm": {"days_before": 1, "at": clock}}}).calendar.alarm
        assert alarm is not None and f"{alarm.at:%H:%M}" == clock
    for clock in ("24:00", "6:30", "06:60", "06.30", "half past six", "04:59", "23:00"):
        with refused("calendar.alarm"):
            brief_of({"calendar": {"alarm": {"days_before": 1, "at": clock}}})
