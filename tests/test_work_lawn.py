"""A resolved lawn: its fill, its seed, its days of work, and how it is spoken of."""

from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from planning import brief_of
from test_work_campaigns import autumn_of, opened, plain, spring_of
from turfplan.message import as_written
from turfplan.records.constraints import DaySet
from turfplan.site.outlines.shapes import LawnZone
from turfplan.units import System
from turfplan.work.drafts import Band
from turfplan.work.lawn import Labour, Levelling, country_of, units_of, weekday_days, without
from turfplan.work.seed_mix import SownArea


def test_days_of_spans_are_taken_out_with_their_ends() -> None:
    """A span of one day takes one."""
    days = without(DaySet.of([(1, 10)]), [(3, 5), (8, 8)])
    assert days.ranges == ((1, 2), (6, 7), (9, 10))


def test_weekdays_are_those_of_the_calendar() -> None:
    """From the first to the last day, both included."""
    saturday = date(2027, 5, 1).toordinal()
    days = weekday_days(saturday, saturday + 8, ["sat", "sun"])
    assert list(days.days()) == [saturday, saturday + 1, saturday + 7, saturday + 8]


def test_the_mean_fill_is_by_the_share_of_its_bands() -> None:
    """A fifth at 20 mm and half at 6 mm are 7 mm over the whole, 20 mm where it is deepest."""
    fill = Levelling((Band(20.0, 0.2), Band(6.0, 0.5)), 0.0, 0.0, 0.1)
    assert (fill.mean_mm, fill.depth_mm, fill.covered_share) == (7.0, 20.0, 0.7)
    assert Levelling((), 0.0, 0.0, 0.1).mean_mm == Levelling((), 0.0, 0.0, 0.1).depth_mm == 0


def test_no_more_than_the_whole_lawn_is_covered() -> None:
    """Bands that add up to more by rounding cover it once."""
    assert Levelling((Band(20.0, 0.6), Band(6.0, 0.5)), 0.0, 0.0, 0.1).covered_share == 1.0


def test_seed_and_plants_want_water_and_seed_that_waits_does_not() -> None:
    """Nor does nothing; turf that is relaid does."""
    wants = {"seed": True, "overseed": True, "plant": True, "dormant_seed": False, None: False}
    for operation, water in wants.items():
        assert replace(plain().sowing, operation=operation).needs_water is water
    quiet = replace(plain(), sowing=replace(plain().sowing, operation=None))
    assert not quiet.needs_daily_water and plain().needs_daily_water
    relaid = replace(quiet, levelling=replace(quiet.levelling, lift_share=0.001))
    assert relaid.needs_daily_water


def test_what_is_sown_is_the_grasses_of_all_areas_and_their_share() -> None:
    """The main grass alone where no area is named."""
    sowing = plain().sowing
    areas = (SownArea(0.5, {"zoysia": 1.0}), SownArea(0.25, {"bahia": 0.5, "zoysia": 0.5}))
    sown = replace(sowing, areas=areas)
    assert (sown.grasses, sown.share) == (("zoysia", "bahia"), 0.75)
    none = replace(sowing, areas=())
    assert (none.grasses, none.share) == (("tall_fescue",), 0)


def test_a_plot_is_dark_by_its_light_and_shaded_by_its_zones() -> None:
    """Below the least hours of sun; zones in the sun are none in shade."""
    plot = plain().plot
    assert plot.light is not None and plot.dark_h is None
    least = plot.light.least_h
    dim = replace(plot, light=replace(plot.light, hours=least - 0.1))
    assert dim.dark_h == least - 0.1
    assert replace(plot, light=replace(plot.light, hours=least)).dark_h is None
    assert replace(plot, light=None).dark_h is None
    zones = tuple(
        LawnZone(as_written(name), 1.0, 0.5, None, None, sun)
        for name, sun in (("a", "shade"), ("b", "full"), ("c", None))
    )
    assert replace(plot, zones=zones).shaded == (as_written("a"),)


def test_a_day_of_work_is_the_hours_of_all_people() -> None:
    """Two for six hours each are twelve."""
    assert Labour(2, 6.0, 15.0, 7).day_hours == 12.0


def test_feeding_is_planned_for_eighteen_months_within_the_plan() -> None:
    """548 days from its first, or to its last."""
    setting = plain()
    far = replace(setting, last_day=setting.first_day + 549)
    assert far.accounted_until.toordinal() == setting.first_day + 548
    near = replace(setting, last_day=setting.first_day + 547)
    assert near.accounted_until.toordinal() == setting.first_day + 547


def test_the_touch_up_is_what_was_measured_as_missing_else_an_eighth_of_an_inch() -> None:
    """Nothing, where nothing was missing."""
    setting = plain()
    assert setting.touch_up_depth_mm == pytest.approx(3.175)
    for missing in (0.0, 4.5):
        measured = replace(setting, levelling=replace(setting.levelling, missing_mm=missing))
        assert measured.touch_up_depth_mm == missing


def test_grasses_of_zones_are_told_once_without_the_lawns_own() -> None:
    """A zone without a grass of its own names none."""
    grasses = ("zoysia", None, "tall_fescue", "zoysia", "bahia")
    zones = tuple(LawnZone(as_written("z"), 1.0, 0.2, None, grass, None) for grass in grasses)
    setting = replace(plain(), plot=replace(plain().plot, zones=zones))
    assert setting.zone_grasses == ("zoysia", "bahia")


def test_a_grass_is_cool_by_its_season() -> None:
    """Tall fescue is, zoysia not; winter ryegrass may be sown into bermuda alone of these."""
    setting = plain()
    assert setting.cool and not setting.bears_winter_cover
    for grass, bears in (("zoysia", False), ("bermuda_common", True)):
        other = replace(setting, turf=replace(setting.turf, species=setting.book.species[grass]))
        assert not other.cool and other.bears_winter_cover is bears


def test_patched_turf_is_mended_where_it_is_thin_and_other_turf_whole() -> None:
    """A quarter where patched, half where planted, or as told; bare ground has nothing to mend."""
    setting = plain()

    def share(intent: Any, told: float | None = None, condition: str = "thin") -> float:
        lawn = setting.brief.lawn.model_copy(update={"thin_share": told})
        return replace(
            setting,
            brief=setting.brief.model_copy(update={"lawn": lawn}),
            sowing=replace(setting.sowing, intent=intent),
            turf=replace(setting.turf, condition=condition),
        ).mended_share

    assert (share("patch"), share("plant"), share("overseed")) == (0.25, 0.5, 1.0)
    assert (share("patch", 0.1), share("plant", 0.7), share("overseed", 0.1)) == (0.1, 0.7, 1.0)
    assert share("plant", condition="bare") == 1.0


def test_passes_wait_for_the_slowest_grass_and_on_bare_ground_for_a_layer() -> None:
    """21 days of tall fescue, 14 of bermuda with it in the stand or not; three days on soil."""
    setting = plain()
    bermuda = setting.book.species["bermuda_common"]

    def days(species: Any, *stand: str, condition: str = "thin") -> int:
        turf = replace(setting.turf, species=species, stand=stand, condition=condition)
        return replace(setting, turf=turf).pass_interval_days

    assert days(bermuda, "bermuda_common") == 14
    assert days(bermuda, "bermuda_common", "tall_fescue") == 21
    assert days(setting.turf.species, "bermuda_common") == 21
    assert days(bermuda, "bermuda_common", condition="bare") == 3


def test_windows_of_an_operation_come_in_order_of_time() -> None:
    """Whatever the order in which they were found; those of other operations do not."""
    found = opened(autumn_of(2027), spring_of(2027), spring_of(2028, "overseed"))
    assert [w.start for w in found.open("topdress")] == [date(2027, 4, 1), date(2027, 8, 15)]
    assert len(found.open("overseed")) == 1 and found.open("dethatch") == ()
    why = as_written("never")
    openings = replace(found.openings, never=(("dethatch", why), ("topdress", as_written("b"))))
    assert replace(found, openings=openings).never_opens("dethatch") == (why,)


def test_lengths_cuts_and_rates_are_told_in_the_readers_units() -> None:
    """Eighths of an inch or 5 mm for a mower, never below what is asked."""
    us = plain()
    metric = replace(us, system=System.METRIC)
    assert us.length(12.7) == "1/2 in" and metric.length(12.0) == "12 mm"
    assert us.cut(51.0) == "2 1/8 in" and us.cut(50.8) == "2 in"
    assert metric.cut(51.0) == "55 mm" and metric.cut(50.0) == "50 mm"
    assert us.rate(4.88243) == "1 lb/1,000 ft²" and "g/m²" in metric.rate(5.0)
    assert us.days("wish.soil_test") == 42


def test_a_postal_code_without_a_country_is_read_as_american() -> None:
    """Its units too, unless others are asked for; a country is what it is."""
    place: dict[str, Any] = {"postal_code": "17601", "country": None, "units": None}

    def told(**changes: Any) -> tuple[str | None, System]:
        brief = brief_of()
        where = brief.place.model_copy(update={**place, **changes})
        asked = brief.model_copy(update={"place": where, "units": changes.get("asked")})
        return country_of(asked), units_of(asked)

    assert told() == ("US", System.US)
    assert told(country="GB") == ("GB", System.METRIC)
    assert told(postal_code=None) == (None, System.METRIC)
    assert told(asked=System.METRIC) == ("US", System.METRIC)
    assert told(country="GB", asked=System.US) == ("GB", System.US)
