"""Application rates and evenness from cans, flow and heads."""

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

import water_cases as cases
from told import all_told, told
from turfplan.errors import TurfplanError
from turfplan.units import FOOT_M, GALLON_L, INCH_MM
from turfplan.work.watering.run_times import WateringZone
from turfplan.work.watering.sprinklers import (
    audit,
    christiansen_uniformity,
    low_quarter_uniformity,
    rate_from_flow_mm_h,
    rate_from_spacing_mm_h,
    zones,
)

BOOK = cases.book()
cans = st.lists(st.floats(0.5, 40), min_size=4, max_size=40)


def test_a_brief_may_give_the_flow_of_a_head_and_the_spacing() -> None:
    """2 gpm heads 15 ft apart both ways give 0.856 in/h; one without the other is an error.

    96.25 gpm / (S x L).
    """
    heads = {"head_flow": "2 gpm", "head_spacing": "15 ft"}
    (whole,) = zones(cases.brief(water=heads).water, BOOK, 400.0)
    assert whole.rate_mm_h / INCH_MM == pytest.approx(0.856, abs=0.001) and "spacing" in told(
        whole.rate_reason
    )
    (zone,) = zones(
        cases.brief(water={"zones": [{"name": "front", **heads, "row_spacing": "30 ft"}]}).water,
        BOOK,
        400.0,
    )
    assert zone.rate_mm_h == pytest.approx(whole.rate_mm_h / 2)
    for lone in ({"head_flow": "2 gpm"}, {"head_spacing": "15 ft"}):
        with pytest.raises(TurfplanError, match="together"):
            zones(cases.brief(water=lone).water, BOOK, 400.0)
    with pytest.raises(TurfplanError, match="sensible range"):
        zones(
            cases.brief(water={"head_flow": "200 gpm", "head_spacing": "4 ft"}).water, BOOK, 400.0
        )


def test_low_quarter_of_a_test() -> None:
    """A driest quarter of 60 per cent of the mean is a uniformity of 60.

    California State University, Fresno.
    """
    depths = [6.0, 6.0, 11.0, 11.0, 11.5, 11.5, 11.5, 11.5]
    assert sum(depths) / 8 == pytest.approx(10)
    assert low_quarter_uniformity(depths) == pytest.approx(0.60)


def test_a_part_of_a_can_counts_in_part() -> None:
    """Six cans: the lowest and half of the next make the quarter."""
    assert low_quarter_uniformity([2, 4, 10, 10, 10, 10]) == pytest.approx(
        (2 + 0.5 * 4) / 1.5 / (46 / 6)
    )


@pytest.mark.full
@given(cans)
def test_uniformities_are_shares(depths: list[float]) -> None:
    """Between 0 and 1, and 1 for equal cans."""
    assert 0 <= low_quarter_uniformity(depths) <= 1 + 1e-9
    assert christiansen_uniformity(depths) <= 1
    assert low_quarter_uniformity([depths[0]] * len(depths)) == pytest.approx(1)
    assert christiansen_uniformity([depths[0]] * len(depths)) == pytest.approx(1)


def test_audit_gives_rate_and_what_to_fix() -> None:
    """10 mm in 20 min are 30 mm/h; a very uneven zone is told to be mended before sowing."""
    even = audit([10.0] * 20, 20, BOOK)
    assert (
        even.rate_mm_h == pytest.approx(30)
        and even.uniformity == pytest.approx(1)
        and even.advice == ()
    )
    uneven = audit([1.0, 2.0, 12.0, 12.0, 15.0, 15.0, 16.0, 16.0], 20, BOOK)
    assert uneven.uniformity < 0.3
    assert any("before sowing" in line and "nozzle" in line for line in all_told(uneven.advice))


@pytest.mark.parametrize(
    ("depths", "minutes"),
    [([12.0], 20), ([12.0, 11.0, 10.0], 20), ([0.0] * 8, 20), ([10.0] * 8, 0)],
)
def test_a_test_that_shows_nothing_is_refused(depths: list[float], minutes: float) -> None:
    """One can, three cans, empty cans, no time: each is an error that says where."""
    with pytest.raises(TurfplanError) as caught:
        audit(depths, minutes, BOOK)
    assert caught.value.problems[0].where.startswith("water.catch")


def test_few_cans_are_taken_as_a_rough_guess() -> None:
    """Five cans give a rate with a warning."""
    assert any("rough" in line for line in all_told(audit([10.0] * 5, 20, BOOK).advice))


def test_rate_of_heads_on_a_grid() -> None:
    """96.25 gpm / (S x L): 2 gpm heads 15 ft apart both ways give 0.856 in/h."""
    got = rate_from_spacing_mm_h(2 * GALLON_L, 15 * FOOT_M, 15 * FOOT_M) / INCH_MM
    assert got == pytest.approx(96.25 * 2 / (15 * 15), rel=0.0005)
    with pytest.raises(TurfplanError):
        rate_from_spacing_mm_h(2 * GALLON_L, 0, 5)


def test_rate_of_a_hose() -> None:
    """5 gpm over 6,000 ft2 put down 0.1 in in 75 min (design notes: 374 gal)."""
    rate = rate_from_flow_mm_h(5 * GALLON_L, 6000 * FOOT_M**2)
    assert 0.1 * INCH_MM / rate * 60 == pytest.approx(75, abs=0.5)


def test_the_best_known_rate_wins() -> None:
    """Cans before a given rate, that before flow, that before the head, and last an assumption."""
    known = {
        "catch_cans": ["10 mm"] * 8,
        "catch_minutes": 20,
        "application_rate": "20 mm/h",
        "flow": "10 L/min",
        "head": "rotor",
    }
    (by_cans,) = zones(cases.brief(water=known).water, BOOK, 100)
    assert by_cans.rate_mm_h == pytest.approx(30) and by_cans.measured
    del known["catch_cans"], known["catch_minutes"]
    (by_rate,) = zones(cases.brief(water=known).water, BOOK, 100)
    assert by_rate.rate_mm_h == pytest.approx(20)
    del known["application_rate"]
    (by_flow,) = zones(cases.brief(water=known).water, BOOK, 100)
    assert by_flow.rate_mm_h == pytest.approx(6)
    del known["flow"]
    (by_head,) = zones(cases.brief(water=known).water, BOOK, 100)
    assert by_head.rate_mm_h == pytest.approx(12.7, rel=0.3) and "rotor" in told(
        by_head.rate_reason
    )
    (assumed,) = zones(cases.brief().water, BOOK, 100)
    assert "assumed" in told(assumed.rate_reason) and assumed.facts


def test_zones_share_the_area_that_none_claims() -> None:
    """Two of three zones without an area split what is left; one too many is an error."""
    water = {"zones": [{"name": "A", "area": "40 m2"}, {"name": "B"}, {"name": "C"}]}
    assert [z.area_m2 for z in zones(cases.brief(water=water).water, BOOK, 100)] == pytest.approx(
        [40, 30, 30]
    )
    full = {"zones": [{"name": "A", "area": "100 m2"}, {"name": "B"}]}
    with pytest.raises(TurfplanError, match="already cover"):
        zones(cases.brief(water=full).water, BOOK, 100)


def test_zones_of_one_name_keep_apart() -> None:
    """Keys are unique and fit for a task id."""
    water = {"zones": [{"name": "Front Yard!"}, {"name": "Front yard"}]}
    assert [z.key for z in zones(cases.brief(water=water).water, BOOK, 100)] == [
        "front-yard",
        "front-yard-2",
    ]


def test_both_measures_of_evenness_are_told_and_are_shares() -> None:
    """Uneven cans are no even ones: 1 - 40/60, and never below 0."""
    uneven = audit([10.0, 10.0, 30.0, 10.0, 10.0, 20.0], 30.0, BOOK)
    assert uneven.christiansen == pytest.approx(1 - 40 / 90)
    assert audit([0.1, 0.1, 0.1, 90.0], 30.0, BOOK).christiansen == 0.0
    assert audit([8.0] * 4, 30.0, BOOK).christiansen == 1.0


def test_a_lowest_quarter_of_whole_cans_takes_no_part_of_the_next() -> None:
    """Four cans: the lowest; five: it and a quarter of the next."""
    assert low_quarter_uniformity([10, 2, 10, 10]) == pytest.approx(2 / 8)
    assert low_quarter_uniformity([10, 2, 6, 10, 10]) == pytest.approx((2 + 6 / 4) / 1.25 / 7.6)


def test_christiansen_is_one_less_the_mean_deviation() -> None:
    """Deviations 2, 2, 4 and 4 from 10 are 3 in the mean."""
    assert christiansen_uniformity([8.0, 12.0, 6.0, 14.0]) == pytest.approx(0.7)


def test_an_audit_is_told_with_its_cans_and_what_it_rests_on() -> None:
    """Eight cans are not few, seven are; four at the least."""
    keys = [[m.key for m in audit([10.0] * n, 15, BOOK).advice] for n in (8, 7, 4)]
    few = "watering.advice.few_cans"
    assert keys == [[], [few], [few]]
    four = audit([10.0] * 4, 15, BOOK)
    assert (four.cans, four.rate_mm_h, four.uniformity) == (4, 40.0, 1.0)
    assert audit([10.0] * 4, 0.5, BOOK).rate_mm_h == 1200
    assert audit([0.5] * 4, 15, BOOK).rate_mm_h == 2


def cans_of(uniformity: float) -> list[float]:
    """Eight cans of 10 mm in the mean, of which two are the lowest quarter."""
    low = 10 * uniformity
    return [low, low, *[(80 - 2 * low) / 6] * 6]


@pytest.mark.parametrize(
    ("uniformity", "said"),
    [(0.49, "mend"), (0.5, "straighten"), (0.69, "straighten"), (0.7, None)],
)
def test_advice_goes_by_the_borders_of_evenness(uniformity: float, said: str | None) -> None:
    """Poor below a half, good from seven tenths on."""
    found = [m.key for m in audit(cans_of(uniformity), 15, BOOK).advice]
    assert found == ([] if said is None else [f"watering.advice.{said}"])


def test_all_faults_of_an_audit_are_told_at_once() -> None:
    """Three empty cans after no time."""
    with pytest.raises(TurfplanError) as caught:
        audit([0.0] * 3, -1.0, BOOK, "water.zones.2.catch_cans")
    where = [problem.where for problem in caught.value.problems]
    assert where == ["water.zones.2.catch_cans", "water.catch_minutes", "water.zones.2.catch_cans"]
    with pytest.raises(TurfplanError) as caught:
        audit([], 10.0, BOOK)
    assert len(caught.value.problems) == 1


def test_rates_of_flow_are_litres_an_hour_on_their_area() -> None:
    """10 L a minute on 30 m2 are 20 mm/h; on heads 5 by 6 m apart too."""
    assert rate_from_flow_mm_h(10.0, 30.0) == 20
    assert rate_from_spacing_mm_h(10.0, 5.0, 6.0) == 20
    assert rate_from_spacing_mm_h(10.0, 0.5, 0.5) == 2400
    for spacing in ((0.0, 5.0), (5.0, 0.0), (-1.0, 5.0)):
        with pytest.raises(TurfplanError):
            rate_from_spacing_mm_h(10.0, *spacing)


@pytest.mark.parametrize(("flow", "sound"), [(0.99, False), (1, True), (125, True), (126, False)])
def test_a_rate_of_heads_that_no_sprinkler_has_is_refused(flow: float, *, sound: bool) -> None:
    """From 1 to 125 mm/h: litres a minute of heads on 60 m2."""
    heads = {"head_flow": f"{flow} L/min", "head_spacing": "10 m", "row_spacing": "6 m"}
    water = cases.brief(water=heads).water
    if sound:
        (zone,) = zones(water, BOOK, 400.0)
        assert zone.rate_mm_h == pytest.approx(flow)
        return
    with pytest.raises(TurfplanError) as caught:
        zones(water, BOOK, 400.0)
    (problem,) = caught.value.problems
    assert (problem.where, problem.allowed) == ("water.head_flow", "1 to 125 mm/h")


@pytest.mark.parametrize("lone", ["head_flow", "head_spacing"])
def test_what_is_missing_of_heads_on_a_grid_is_named(lone: str) -> None:
    """The one that is not given."""
    given = {"head_flow": "2 gpm"} if lone == "head_flow" else {"head_spacing": "15 ft"}
    with pytest.raises(TurfplanError) as caught:
        zones(cases.brief(water=given).water, BOOK, 400.0)
    other = "head_spacing" if lone == "head_flow" else "head_flow"
    assert [p.where for p in caught.value.problems] == [f"water.{other}"]


def named(*parts: dict[str, Any], area_m2: float = 100.0, **water: Any) -> list[WateringZone]:
    """The zones of a brief."""
    return list(zones(cases.brief(water={"zones": list(parts), **water}).water, BOOK, area_m2))


def test_zones_have_keys_areas_and_their_share_of_the_sun() -> None:
    """Names as ids of twenty letters at the most; where nothing is left of one, by its number."""
    found = named(
        {"name": "A very long name of a zone", "area": "10 m2", "sun": "shade"},
        {"name": "!!", "area": "20 m2", "sun": "part"},
        {"name": "c", "area": "30 m2"},
    )
    assert [z.key for z in found] == ["a-very-long-name-of-", "zone-2", "c"]
    assert [z.area_m2 for z in found] == pytest.approx([10, 20, 30])
    suns = ("shade", "part", "full")
    assert [z.exposure for z in found] == [BOOK.si(f"water.exposure_{sun}") for sun in suns]
    assert [str(z.name) for z in found][2] == "c"


def test_each_fault_of_a_zone_is_told_with_its_number() -> None:
    """One without ground and one with three cans."""
    with pytest.raises(TurfplanError) as caught:
        named(
            {"name": "A", "area": "120 m2"},
            {"name": "B"},
            {"name": "C", "area": "1 m2", "catch_cans": ["1 mm"] * 3, "catch_minutes": 9},
        )
    found = [p.where for p in caught.value.problems]
    assert found == ["water.zones.2.area", "water.zones.3.catch_cans"]


def test_a_zone_of_cans_is_as_even_as_they_are_and_no_less_than_the_floor() -> None:
    """With the minutes of all zones where it has none; without any minutes they count for
    nothing."""
    even, uneven = {"catch_cans": ["5 mm"] * 8}, {"catch_cans": ["0.1 mm"] * 2 + ["9 mm"] * 6}
    first, second, third = named(
        {"name": "a", **even, "catch_minutes": 10},
        {"name": "b", **even},
        {"name": "c", **uneven},
        catch_minutes=20,
    )
    assert [first.rate_mm_h, second.rate_mm_h] == pytest.approx([30, 15])
    assert (first.uniformity, first.measured) == (pytest.approx(1), True)
    assert third.uniformity == BOOK.si("water.uniformity_floor")
    (bare,) = named({"name": "a", **even})
    assert not bare.measured and bare.uniformity == BOOK.si("water.uniformity_assumed")
    assert bare.rate_mm_h == BOOK.si("water.rate_assumed")


def test_a_rate_of_a_zone_comes_before_that_of_all() -> None:
    """So does its head; without rows heads stand in squares."""
    own, other = named(
        {"name": "a", "application_rate": "12 mm/h"}, {"name": "b"}, application_rate="20 mm/h"
    )
    assert [own.rate_mm_h, other.rate_mm_h] == pytest.approx([12, 20])
    spray, rotor = named({"name": "a", "head": "spray"}, {"name": "b"}, head="rotor")
    assert spray.rate_mm_h == BOOK.si("water.rate_spray")
    assert rotor.rate_mm_h == BOOK.si("water.rate_rotor")
