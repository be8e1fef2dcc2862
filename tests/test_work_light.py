"""Sun counts in hours of the growing season, and seed goes where its grass lives on it."""

from typing import Any

import pytest

from planning import climate_at, first, plan_of
from turfplan.files.reading.book import load_book
from turfplan.records.plan import Plan
from turfplan.work.light import Light, daylight_h, told_of_shade

BLUE = {"lawn": {"grass": "kentucky_bluegrass"}}
NORTH = {"place": {"postal_code": "55401"}}
SHADE_OF_LANCASTER_H = 13.3


def sown(plan: Plan) -> str:
    """The grass in the title of the sowing."""
    return str(first(plan, "overseed").title)


@pytest.mark.full
@pytest.mark.parametrize(("shade", "sows"), [(0.0, True), (9.0, True), (9.6, False), (12.0, False)])
def test_shade_counts_against_the_daylight_of_the_growing_season(shade: float, sows: bool) -> None:
    """Nine hours of shade leave four of sun there, ten do not: hours are compared with hours."""
    plan = plan_of({"site": {"shade_hours": shade}})
    assert (plan.conflict is None) is sows
    if sows:
        assert any(f"{SHADE_OF_LANCASTER_H}" in str(line) for line in plan.assumptions)
        assert not any("Too little sun" in str(line) for line in plan.cautions)


@pytest.mark.parametrize(("latitude", "longest"), [(59.3, True), (-37.8, True), (1.3, False)])
def test_daylight_follows_the_latitude(latitude: float, longest: bool) -> None:
    """Far from the equator, on both sides, the days of growth are longer than twelve hours."""
    longitude = {59.3: 18.0, -37.8: 145.0, 1.3: 103.8}[latitude]
    hours = daylight_h(load_book(), climate_at(latitude, longitude), "warm")
    assert (hours > 12.5) is longest or latitude == 59.3
    assert 11.5 < hours < 19


@pytest.mark.full
def test_no_seed_without_sun_but_ways_out() -> None:
    """Under four hours nothing is sown; more light, and leveling alone, are the ways out."""
    plan = plan_of({"site": {"sun_hours": 3}})
    assert plan.conflict is not None
    assert "ground cover" in str(plan.conflict.reasons[0])
    changes = [str(option.change) for option in plan.options]
    assert "sun_hours = 4" in changes
    assert 'intent = "none"' in changes
    level = plan_of({"site": {"sun_hours": 3}, "seeding": {"intent": "none"}})
    assert level.conflict is None


@pytest.mark.full
def test_grass_that_bears_the_shade_is_sown() -> None:
    """Bluegrass on five hours is overseeded with what lives there: fine fescue where summers are
    cool, tall fescue where they are hot."""
    cool = plan_of(BLUE, NORTH, {"site": {"sun_hours": 5}})
    hot = plan_of(BLUE, {"place": {"postal_code": "63101"}}, {"site": {"sun_hours": 5}})
    assert "fine fescue" in sown(cool)
    assert "tall fescue" in sown(hot)
    assert "Kentucky bluegrass" in sown(plan_of(BLUE, NORTH, {"site": {"sun_hours": 7}}))


@pytest.mark.full
def test_named_grass_is_sown_with_a_caution() -> None:
    """Whoever names the grass gets it, and is told what it needs."""
    named: dict[str, Any] = {"seeding": {"species": "kentucky_bluegrass"}}
    plan = plan_of(BLUE, NORTH, {"site": {"sun_hours": 5}}, named)
    assert "Kentucky bluegrass" in sown(plan)
    assert any("needs 6 hours" in str(line) for line in plan.cautions)
    assert any("needs 6 hours" in str(line) for line in first(plan, "overseed").cautions)


@pytest.mark.full
def test_warm_grass_in_shade_is_refused_with_another() -> None:
    """Bermudagrass is not overseeded with another warm grass unasked: that is a way out."""
    plan = plan_of(
        {"lawn": {"grass": "bermuda_common"}, "place": {"postal_code": "30301"}},
        {"site": {"sun_hours": 5}},
    )
    assert plan.conflict is not None
    assert any("zoysia" in str(option.change) for option in plan.options)


def test_lives_there_by_summer_and_winter() -> None:
    """St. Augustinegrass lives in Tampa and not in Kansas City; fine fescue the other way round."""
    book = load_book()
    tampa, fargo = climate_at(28.0, -82.4), climate_at(46.9, -96.8)
    assert Light(book, tampa, None).lives("st_augustine")
    assert not Light(book, fargo, None).lives("st_augustine")
    assert Light(book, fargo, None).lives("fine_fescue")
    assert not Light(book, tampa, None).lives("fine_fescue")


def test_sun_that_is_only_just_enough_is_told_and_so_is_shade_that_is_not_to_blame() -> None:
    """Within the range of the least of its cultivars; where shade is named as a cause and there is
    sun enough, that is told too. Less than the least, or none told of, is told elsewhere."""
    book, climate = load_book(), climate_at(29.7, -95.4)

    def told(hours: float | None, *, blamed: bool = False) -> list[str]:
        light = Light(book, climate, hours)
        return [m.key for m in told_of_shade(light, ("st_augustine",), blamed=blamed)]

    need, enough = Light(book, climate, 4).needs_h("st_augustine"), 5.0
    assert Light(book, climate, 4).enough_h("st_augustine") == enough
    for blamed in (False, True):
        assert told(need, blamed=blamed) == told(enough - 0.1, blamed=blamed) == ["light.only_just"]
        assert told(need - 0.1, blamed=blamed) == told(None, blamed=blamed) == []
    assert told(enough) == [] and told(enough, blamed=True) == ["light.not_the_shade"]


@pytest.mark.full
def test_a_lawn_thin_from_shade_hears_of_it_though_its_hours_are_counted() -> None:
    """At the head and at the planting; a part that is in shade takes the blame itself."""
    shaded: dict[str, Any] = {
        "lawn": {"grass": "st_augustine", "condition": "patchy", "thin_share": 0.3},
        "place": {"postal_code": "77057", "state": "TX"},
        "leveling": {"depth": "0 in"},
        "seeding": {"intent": "plant", "form": "sod"},
        "site": {"thin_cause": ["shade"], "sun_hours": 4},
    }
    plan = plan_of(shaded)
    assert any("only just" in str(line) for line in plan.cautions)
    assert any("only just" in str(line) for line in first(plan, "plant").cautions)
    bright = plan_of(shaded, {"site": {"sun_hours": 8}})
    assert any("Shade is named as a cause" in str(line) for line in bright.cautions)
    part = {"lawn": {"part": [{"kind": "shade", "share": 0.2, "sun_hours": 4}]}}
    apart = plan_of(shaded, {"site": {"sun_hours": 8}}, part)
    assert not any("Shade is named" in str(line) for line in apart.cautions)
