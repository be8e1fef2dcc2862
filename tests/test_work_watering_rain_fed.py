"""What rain alone does: where and when it keeps a seedbed wet, and where it lets turf grow."""

from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from planning import climate_at, plan_of
from told import told
from turfplan.calendar_days import day_index
from turfplan.files.reading.book import load_book
from turfplan.records.plan import Plan
from turfplan.work.watering.rain_fed import (
    days_without,
    grows_over,
    kept_wet,
    rain_share,
    washes_out,
    water_share,
)

UP, TENDER = 14, 42
ROOTS_MM = 203.0
DUBLIN, LISBON, DENVER = (53.35, -6.26), (38.72, -9.14), (39.70, -105.0)


def place(latitude: float, longitude: float) -> dict[str, Any]:
    """The table of a brief."""
    return {
        "postal_code": None,
        "country": None,
        "state": None,
        "latitude": latitude,
        "longitude": longitude,
    }


def unwatered(where: tuple[float, float], **changes: Any) -> Plan:
    """A thin lawn that nobody waters, to be overseeded; or refused."""
    lawn = {"grass": "tall_fescue", "area": "300 m2", "condition": "thin"}
    return plan_of(
        {"lawn": lawn, "place": place(*where), "leveling": {"depth": "0 in"}},
        {"water": {"possible": False}, **changes},
    )


def wet_on(where: tuple[float, float], day: date) -> bool:
    """Whether usual rain keeps seed wet that is sown on a day."""
    book, climate = load_book(), climate_at(*where)
    share = rain_share(book, climate, UP, TENDER)
    return kept_wet(book, climate, "cool", share)[day_index(day)]


@pytest.mark.parametrize(
    ("where", "wet", "dry"),
    [
        (DUBLIN, date(2027, 9, 10), date(2027, 5, 20)),
        (LISBON, date(2027, 10, 20), date(2027, 8, 20)),
    ],
)
def test_rain_keeps_a_seedbed_wet_in_its_own_months(
    where: tuple[float, float], wet: date, dry: date
) -> None:
    """From late summer in Ireland, from October on the Mediterranean side; common practice."""
    assert wet_on(where, wet) and not wet_on(where, dry)


def test_half_the_rain_keeps_up_with_half_the_loss() -> None:
    """The share is rain over loss of the days asked for, and the lesser of both spans."""
    book, climate = load_book(), climate_at(*DUBLIN)
    share = rain_share(book, climate, UP, TENDER)
    day, wet = day_index(date(2027, 4, 1)), book.si("water.kc_wet_surface")

    def over(days: int) -> float:
        places = [(day + k) % 365 for k in range(days)]
        rain = sum(climate.rain_mm[k] for k in places)
        return rain / (wet * sum(climate.et0_mm[k] for k in places))

    assert share[day] == pytest.approx(min(over(UP), over(TENDER)))


def test_rain_alone_leaves_turf_no_growth_in_a_dry_summer_only() -> None:
    """Lisbon in July and August next to nothing, in January all; Dublin in summer most of it."""
    book = load_book()
    lisbon, dublin = (
        water_share(book, climate_at(*where), "cool", "loam", ROOTS_MM)
        for where in (LISBON, DUBLIN)
    )
    assert all(lisbon[day_index(date(2027, month, 15))] < 0.1 for month in (7, 8))
    assert lisbon[day_index(date(2027, 1, 15))] == 1.0
    assert 0.6 < min(dublin) < 0.9 and dublin[day_index(date(2027, 10, 1))] == 1.0


def test_turf_grows_over_work_while_rain_lasts_for_weeks() -> None:
    """On days that begin weeks of enough growth; a spell shorter than those weeks is no season."""
    book = load_book()
    least, weeks = book.si("water.grows_over"), round(book.si("water.grows_over_days"))
    wet = [least if 100 <= day < 200 else least - 0.01 for day in range(365)]
    held = grows_over(book, wet)
    assert [day for day in range(365) if held[day]] == list(range(100, 200 - weeks))
    spell = [least if 100 <= day < 99 + 2 * weeks else 0.0 for day in range(365)]
    assert not any(grows_over(book, spell))
    assert all(grows_over(book, [1.0] * 365))


def test_so_much_rain_that_it_washes_a_feeding_out() -> None:
    """A week's rain beyond what dries up against what the upper soil holds."""
    book, climate = load_book(), climate_at(*DUBLIN)
    most = book.si("feeding.washed_out")
    flood = replace(climate, rain_mm=tuple(e + most / 7 + 0.01 for e in climate.et0_mm))
    less = replace(climate, rain_mm=tuple(e + most / 7 - 0.01 for e in climate.et0_mm))
    assert all(washes_out(book, flood)) and not any(washes_out(book, less))


def test_days_on_which_it_does_not_hold_are_told_as_stretches() -> None:
    """Both ends belong to a stretch, and one goes on over New Year."""
    held = [31 <= k < 334 for k in range(365)]
    first = date(2027, 11, 1).toordinal()
    (winter,) = days_without(held, first, date(2028, 3, 1).toordinal())
    assert winter == (date(2027, 12, 1).toordinal(), date(2028, 1, 31).toordinal())


@pytest.mark.full
def test_a_lawn_on_its_rain_is_sown_in_autumn_and_watered_by_nobody() -> None:
    """No watering, no permit, no catch cans; the risk is told at the seed."""
    made = unwatered(DUBLIN)
    (seed,) = [t for t in made.tasks if t.plays("sowing")]
    assert date(2027, 8, 23) <= seed.start <= date(2027, 10, 20)
    operations = {t.operation for t in made.tasks}
    assert not {"water", "permit", "irrigation_check"} & operations
    (risk,) = [note for note in made.ranked if "rain alone" in told(note.text)]
    assert risk.rank == "damage"
    assert [said for said in seed.cautions if "rain is forecast" in told(said)]


@pytest.mark.full
def test_where_rain_never_suffices_water_is_a_way_out() -> None:
    """Seed on the rain of Denver is refused, and with water it is planned."""
    made = unwatered(DENVER)
    assert made.conflict and not made.tasks
    assert "possible = true" in {told(way.change) for way in made.options}
