"""Salt and sodium hold seed and plants back, each from its own mark on and to its own day."""

from dataclasses import replace
from datetime import date
from typing import Any

from test_work_campaigns import plain
from turfplan.book.words import grass_name
from turfplan.message import Number, as_written, length_mm
from turfplan.phrases import salt_holds as phrases
from turfplan.phrases import soil_findings as of_soil
from turfplan.records.constraints import DaySet, Strength
from turfplan.work.drafts import Draft
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.living import lives_at
from turfplan.work.salt_holds import (
    bearing_grasses,
    bearing_plants,
    most_borne,
    salt_holds,
    surely_borne,
    told_of_salt,
    too_salty,
)

SEED = Draft("overseed", "overseed", "seed", as_written(""), 1)


def lawn(*ground: str, operation: str | None = "overseed", **test: Any) -> ResolvedLawn:
    """The plain lawn of tall fescue on ground and by a soil test, with another operation."""
    setting = plain()
    site = setting.brief.site.model_copy(update={"ground": ground})
    soil = setting.brief.soil_test.model_copy(update=test)
    brief = setting.brief.model_copy(update={"site": site, "soil_test": soil})
    return replace(setting, brief=brief, sowing=replace(setting.sowing, operation=operation))


def days(first: int, last: int) -> DaySet:
    """The days between two."""
    return DaySet.of([(first, last)])


def test_ground_that_is_known_to_be_salty_waits_for_an_answer() -> None:
    """Six weeks from the first day on; ground of which nothing is known does not wait."""
    (held,) = salt_holds(lawn("salty"), SEED)
    setting = plain()
    assert held.days == days(setting.first_day + 42, setting.last_day)
    assert (held.id, held.node, held.strength) == ("salt:overseed", "overseed", Strength.HARD)
    assert held.reason.text == phrases.untested() and held.reason.facts == ("wish.soil_test",)
    assert salt_holds(lawn(), SEED) == []


def test_no_day_is_left_above_what_seedlings_bear() -> None:
    """Tall fescue bears 10 dS/m at the most; up to it all days are left, known salty or not."""
    (held,) = salt_holds(lawn(salts_ds_m=10.1), SEED)
    assert held.days == DaySet.of([]) and held.strength is Strength.HARD
    assert held.reason.rule == "seed.salt"
    assert held.reason.facts == ("salt.tolerance_tall_fescue",)
    assert salt_holds(lawn(salts_ds_m=10.0), SEED) == []
    assert salt_holds(lawn("salty", salts_ds_m=10.0), SEED) == []


def test_plants_bear_what_grown_grass_does_and_seed_less() -> None:
    """10 dS/m for tall fescue with roots, 6 as seed of any cultivar, 10 of the hardiest; without
    end where no source says."""
    assert surely_borne(lawn(), "tall_fescue") == 6
    assert surely_borne(lawn(operation="plant"), "tall_fescue") == 10
    assert most_borne(lawn(), "tall_fescue") == most_borne(lawn(operation="plant"), "tall_fescue")
    assert (
        surely_borne(lawn(), "kentucky_bluegrass"),
        most_borne(lawn(), "perennial_ryegrass"),
    ) == (
        3,
        10,
    )
    assert most_borne(lawn(), "unheard_of") == surely_borne(lawn(), "unheard_of") == float("inf")


def test_too_much_salt_is_told_of_seed_and_of_plants() -> None:
    """With what was measured and what is borne; nothing where nothing is sown or measured."""
    name = grass_name(plain().book, "tall_fescue")
    eleven, ten = Number(11.0, "plain"), Number(10.0, "plain")
    assert too_salty(lawn(salts_ds_m=11.0)) == phrases.too_salty_seed(
        salts=eleven, most=ten, grass=name
    )
    assert too_salty(lawn(salts_ds_m=7.0)) is None
    planted = lawn(operation="plant", salts_ds_m=10.5)
    assert too_salty(planted) == phrases.too_salty_plants(
        salts=Number(10.5, "plain"), most=Number(10.0, "plain"), grass=name
    )
    assert too_salty(lawn(operation="plant", salts_ds_m=10.0)) is None
    assert too_salty(lawn(operation=None, salts_ds_m=20.0)) is None
    assert too_salty(lawn()) is None


def test_sodic_ground_waits_for_its_gypsum_or_for_the_laboratory() -> None:
    """Without a rate for six weeks, with none needed for no day; at a lower number not at all."""
    setting = plain()
    (held,) = salt_holds(lawn(sar=13.0), SEED)
    assert held.days == days(setting.first_day + 42, setting.last_day)
    assert (held.id, held.node, held.strength) == ("sodic:overseed", "overseed", Strength.HARD)
    assert held.reason.text == phrases.sodic_untold(sar=Number(13.0, "plain"))
    assert held.reason.facts == ("wish.soil_test",)
    assert salt_holds(lawn(sar=12.9), SEED) == []
    assert salt_holds(lawn("sodic"), SEED) == []
    assert salt_holds(lawn(sar=13.0, gypsum_rate_g_m2=0.0), SEED) == []


def test_gypsum_is_washed_in_before_anything_is_sown() -> None:
    """Later than the answer of a laboratory, told by its parts; no day where the plan ends."""
    setting = lawn(sar=13.0, gypsum_rate_g_m2=300.0, on=date(2027, 2, 1))
    (held,) = salt_holds(setting, SEED)
    assert held.reason.facts == ("salt.gypsum_gap", "salt.gypsum_once", "salt.sodic_sar")
    assert held.reason.text.key == phrases.sodic(n=1).key
    ((first, last),) = held.days.ranges
    assert setting.first_day < first and last == setting.last_day
    (never,) = salt_holds(replace(setting, last_day=first - 1), SEED)
    assert never.days == DaySet.of([])
    (one,) = salt_holds(replace(setting, last_day=first), SEED)
    assert one.days == days(first, first)


def test_what_salt_asks_for_is_told_once() -> None:
    """Washed out with water; on sodic ground gypsum first, at the rate of the test or by one."""
    book = plain().book
    leach = of_soil.salts_leach(
        half=length_mm(book.si("salt.leach_half")),
        most=length_mm(book.si("salt.leach_most")),
        depth=length_mm(book.si("salt.leach_depth")),
    )
    why = too_salty(lawn(salts_ds_m=11.0))
    assert told_of_salt(lawn(salts_ds_m=11.0)) == (why, leach)
    assert told_of_salt(lawn(salts_ds_m=10.0)) == ()
    rated = lawn(salts_ds_m=11.0, sar=14.0, gypsum_rate_g_m2=300.0)
    assert [m.key for m in told_of_salt(rated) if m != why and m != leach] == [
        "salt_holds.gypsum_first"
    ]
    assert told_of_salt(lawn(salts_ds_m=11.0, sar=14.0)) == (why, phrases.gypsum_asked(), leach)
    none = lawn(salts_ds_m=11.0, sar=14.0, gypsum_rate_g_m2=0.0)
    assert told_of_salt(none)[1] == phrases.gypsum_asked()


def asked_for(setting: ResolvedLawn, grass: str) -> ResolvedLawn:
    """The lawn with another grass to sow."""
    return replace(setting, sowing=replace(setting.sowing, grass=setting.book.species[grass]))


def test_grasses_of_the_season_that_bear_the_salt_come_the_hardiest_first() -> None:
    """Up to 10 dS/m tall fescue, whose weakest bears 6, before those whose weakest bears 3; never
    the one asked for."""
    blue = asked_for(lawn(salts_ds_m=6.1), "kentucky_bluegrass")
    assert bearing_grasses(blue) == ("tall_fescue", "perennial_ryegrass", "fine_fescue")
    three = asked_for(lawn(salts_ds_m=3.1), "kentucky_bluegrass")
    cool = bearing_grasses(three)
    assert cool[0] == "tall_fescue" and "kentucky_bluegrass" not in cool
    assert "perennial_ryegrass" in cool and "browntop" not in cool
    assert "zoysia" not in cool
    assert bearing_grasses(lawn(salts_ds_m=10.1)) == ()


def test_a_grass_that_does_not_live_here_is_not_named_for_salt() -> None:
    """Where light and climate are known; where they are not, nothing speaks against it."""
    warm = asked_for(lawn(salts_ds_m=6.0), "zoysia")
    light = warm.plot.light
    assert light is not None
    assert not lives_at(warm.book, warm.climate, "seashore_paspalum", True)
    planted = replace(warm, sowing=replace(warm.sowing, operation="plant"))
    named = bearing_grasses(planted)
    assert "seashore_paspalum" not in named and "bermuda_hybrid" in named
    unlit = replace(planted, plot=replace(planted.plot, light=None))
    assert bearing_grasses(unlit)[0] == "seashore_paspalum"
    assert bearing_plants(replace(warm, plot=replace(warm.plot, light=None)))[0] == (
        "seashore_paspalum"
    )
    assert "seashore_paspalum" not in bearing_plants(warm)
    assert "bermuda_hybrid" not in bearing_grasses(warm), "it is not grown from seed"


def test_plants_of_the_season_that_bear_the_salt_are_named_where_seed_was_asked_for() -> None:
    """At 10 dS/m those of 10, at more none; none where plants were asked for already."""
    named = bearing_plants(lawn(salts_ds_m=10.0))
    assert set(named) == {"perennial_ryegrass", "tall_fescue", "fine_fescue"}
    assert bearing_plants(lawn(salts_ds_m=10.1)) == ()
    assert bearing_plants(lawn(operation="plant", salts_ds_m=10.0)) == ()
    weak = bearing_plants(lawn(salts_ds_m=6.0))
    assert set(weak[:3]) == set(named) and set(weak[3:]) == {
        "kentucky_bluegrass",
        "creeping_bentgrass",
    }
