"""Which grasses are named for a place, and what is said of those that live there only just."""

from dataclasses import replace

import pytest

from planning import climate_at
from test_work_campaigns import plain
from turfplan.book.words import book_message, grass_name
from turfplan.message import listed
from turfplan.phrases import living as phrases
from turfplan.records.brief import GrassShare
from turfplan.work import grass_for_place
from turfplan.work.grass_for_place import (
    MOST_NAMED,
    grasses_instead,
    not_bought,
    noxious,
    risks,
    told_of_stand,
)
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.light import Light
from turfplan.work.living import limits_at
from turfplan.work.seed_mix import SownArea

BOOK = plain().book
HERE = Light(BOOK, plain().climate, None)


def test_grasses_come_sure_ones_of_the_season_first_then_common_ones_of_little_need() -> None:
    """Of all that live in Pennsylvania; a weed by law and what dies are none."""
    cool = grasses_instead(HERE, "cool")
    assert set(cool) == {g for g, e in BOOK.species.items() if HERE.lives(g) and not e.noxious_in}
    sure = [g for g in cool if HERE.sure(g)]
    assert list(cool[: len(sure)]) == sure
    seasons = [BOOK.species[g].season for g in sure]
    assert seasons == sorted(seasons), "cool before warm"
    assert sure[: sure.index("creeping_bentgrass") + 1][-1] == "creeping_bentgrass"
    common = sure[: sure.index("creeping_bentgrass")]
    assert set(common) == {"tall_fescue", "perennial_ryegrass", "kentucky_bluegrass"}
    needs = [HERE.needs_h(g) for g in common]
    assert needs == sorted(needs) and needs[0] < needs[-1]
    assert BOOK.species[grasses_instead(HERE, "warm")[0]].season == "warm"


def test_a_grass_that_wants_more_sun_is_not_named() -> None:
    """Of four hours those that need no more; kikuyu is a weed of the law anywhere."""
    four = replace(HERE, hours=4.0)
    assert all(HERE.needs_h(g) <= 4 for g in grasses_instead(four, "cool"))
    assert len(grasses_instead(four, "cool")) < len(grasses_instead(HERE, "cool"))
    durban = Light(BOOK, climate_at(-29.83, 30.98), None)
    assert durban.lives("kikuyu") and "kikuyu" not in grasses_instead(durban, "warm")


@pytest.mark.parametrize(
    ("latitude", "longitude", "first"),
    [(-3.75, -73.25, True), (11.25, 75.78, True), (1.35, 103.82, True), (29.95, -90.07, False)],
    ids=["Iquitos", "Kozhikode", "Singapore", "New Orleans"],
)
def test_the_lawn_of_the_wet_tropics_is_named_first_there(
    latitude: float, longitude: float, *, first: bool
) -> None:
    """Carpetgrass, where no month is dry or the rains make up for it; elsewhere common ones are."""
    light = Light(BOOK, climate_at(latitude, longitude), None)
    assert (grasses_instead(light, "cool")[0] == "carpetgrass") is first


def others(light: Light, grass: str) -> list[str]:
    """The grasses that are named in the stead of one."""
    season = BOOK.species[grass].season
    return [g for g in grasses_instead(light, season) if light.sure(g) and g != grass][:MOST_NAMED]


def test_grass_that_dies_here_is_not_bought_and_three_that_live_are_named() -> None:
    """The first reason of the first such grass; none of what lives, if only just."""
    limits = limits_at(BOOK, HERE.climate, "st_augustine", watered=True)
    (why,) = [limit.why for limit in limits if limit.beyond][:1]
    names = [grass_name(BOOK, g) for g in others(HERE, "st_augustine")]
    assert len(names) == 3
    expected = phrases.not_bought_others(why=why, others=listed(names, "or"))
    assert not_bought(HERE, ["tall_fescue", "st_augustine", "bahia"]) == expected
    assert not_bought(HERE, ["tall_fescue"]) is None
    only_just = [g for g in BOOK.species if HERE.lives(g) and not HERE.sure(g)]
    assert only_just and not_bought(HERE, only_just) is None


def test_grass_at_risk_is_told_where_it_has_its_share() -> None:
    """From a fifth on; each limit with what would live for sure."""
    (limit, *_) = limits_at(BOOK, HERE.climate, "fine_fescue", watered=True)
    assert not limit.beyond
    names = [grass_name(BOOK, g) for g in others(HERE, "fine_fescue")]
    told = phrases.risk_others(why=limit.why, others=listed(names, "or"))
    whole = SownArea(1.0, {"fine_fescue": 0.2, "tall_fescue": 0.8})
    assert told in tuple(risks(HERE, [whole]))
    less = SownArea(1.0, {"fine_fescue": 0.19, "tall_fescue": 0.81})
    assert tuple(risks(HERE, [less])) == ()
    assert tuple(risks(HERE, [])) == ()


def test_where_nothing_else_lives_none_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    """The reason stands by itself."""
    monkeypatch.setattr(grass_for_place, "grasses_instead", lambda light, season: ())
    limits = limits_at(BOOK, HERE.climate, "st_augustine", watered=True)
    why = next(limit.why for limit in limits if limit.beyond)
    assert not_bought(HERE, ["st_augustine"]) == phrases.not_bought(why=why)
    (limit, *_) = limits_at(BOOK, HERE.climate, "fine_fescue", watered=True)
    area = SownArea(1.0, {"fine_fescue": 1.0})
    assert phrases.risk(why=limit.why) in tuple(risks(HERE, [area]))
    assert next(told_of_stand(stand("st_augustine"))) == phrases.stands(why=why)


def stand(*grasses: str, **sowing: object) -> ResolvedLawn:
    """The plain lawn with other grass that grows there."""
    setting = plain()
    parts = tuple(GrassShare(species=g, share=1 / len(grasses)) for g in grasses)
    lawn = setting.brief.lawn.model_copy(update={"grass": parts})
    brief = setting.brief.model_copy(update={"lawn": lawn})
    changed = replace(setting.sowing, **sowing)  # type: ignore[arg-type]
    return replace(setting, brief=brief, sowing=changed)


def test_grass_that_stands_is_told_of_where_it_stays() -> None:
    """What dies with others, what lives only just with its reason alone; not what is bought again,
    nor where the ground is opened, nothing is sown for a reason of its own, or no light known."""
    limits = limits_at(BOOK, HERE.climate, "st_augustine", watered=True)
    names = [grass_name(BOOK, g) for g in others(HERE, "st_augustine")]
    why = next(limit.why for limit in limits if limit.beyond)
    told = tuple(told_of_stand(stand("st_augustine")))
    assert told[0] == phrases.stands_others(why=why, others=listed(names, "or"))
    doubts = limits_at(BOOK, HERE.climate, "fine_fescue", watered=True)
    assert tuple(told_of_stand(stand("fine_fescue"))) == tuple(limit.why for limit in doubts)
    fine = SownArea(1.0, {"fine_fescue": 1.0})
    assert tuple(told_of_stand(stand("fine_fescue", areas=(fine,)))) == ()
    assert tuple(told_of_stand(stand("fine_fescue", areas=(fine,), operation=None)))
    winter = stand("fine_fescue", areas=(fine,), intent="winter_overseed")
    assert tuple(told_of_stand(winter))
    refused = stand("st_augustine", refused=why)
    assert tuple(told_of_stand(refused)) == ()
    lawn = stand("st_augustine")
    assert tuple(told_of_stand(replace(lawn, plot=replace(lawn.plot, light=None)))) == ()
    bare = replace(lawn, turf=replace(lawn.turf, condition="bare"))
    assert bare.on_open_ground and tuple(told_of_stand(bare)) == ()


def test_a_weed_by_the_law_of_the_country_is_told_of_where_it_is_bought() -> None:
    """Kikuyu in the United States alone, and only where it is sown."""
    kikuyu = SownArea(1.0, {"kikuyu": 1.0})
    bought = stand("tall_fescue", areas=(kikuyu,))
    name = grass_name(BOOK, "kikuyu")
    said = book_message(BOOK, "cautions.noxious_grass.text", {"grass": name})
    assert bought.country == "US" and tuple(noxious(bought)) == (said,)
    assert tuple(noxious(replace(bought, country="AU"))) == ()
    assert tuple(noxious(stand("tall_fescue", areas=(kikuyu,), operation=None))) == ()
    assert tuple(noxious(stand("tall_fescue", areas=(kikuyu,), refused=said))) == ()
    assert tuple(noxious(stand("tall_fescue"))) == ()
