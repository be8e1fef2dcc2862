"""Names of a brief against those of the book."""

from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from planning import brief_of
from turfplan.files.reading.book import load_book
from turfplan.planning.brief_check import check_brief, may_cover_winter


def places(**lawn: object) -> list[str]:
    """Where faults are."""
    return [fault.where for fault in check_brief(brief_of({"lawn": lawn}), load_book())]


BOOK = load_book()


def faults(*changes: dict[str, Any]) -> list[tuple[str, str]]:
    """Where faults are, and what is wrong there."""
    found = check_brief(brief_of(*changes), BOOK)
    return [(fault.where, fault.message.key.rpartition(".")[2]) for fault in found]


def seeding(intent: str, grass: str, **more: Any) -> list[tuple[str, str]]:
    """Faults of an intent for a lawn of a grass."""
    return faults({"seeding": {"intent": intent, **more}, "lawn": {"grass": grass}})


SEEDLESS = next(n for n, s in BOOK.species.items() if not s.seedable)
UNPLANTED = next((n for n, s in BOOK.species.items() if not s.plantable), None)


@pytest.mark.parametrize("intent", ["patch", "overseed", "renovate", "dormant"])
def test_a_grass_without_seed_is_planted_or_left(intent: str) -> None:
    """Another may be named to be sown."""
    if intent == "renovate":
        assert seeding(intent, SEEDLESS) == [], "a lawn made anew of it is planted"
    else:
        assert ("seeding.intent", "no_seed") in seeding(intent, SEEDLESS)
    assert seeding("plant", SEEDLESS) == []
    season = BOOK.species[SEEDLESS].season
    other = next(n for n, s in BOOK.species.items() if s.seedable and s.season == season)
    if intent != "dormant":
        assert seeding(intent, SEEDLESS, species=other) == []


def test_plants_are_of_a_grass_and_in_a_form_that_are_sold() -> None:
    """A form counts for planting alone."""
    assert UNPLANTED is None or ("seeding.intent", "not_planted") in seeding("plant", UNPLANTED)
    forms = {"sod", "plugs", "sprigs"} - set(BOOK.species["tall_fescue"].plantable)
    for form in forms:
        assert seeding("plant", "tall_fescue", form=form) == [("seeding.form", "not_sold_as")]
        assert seeding("renovate", "tall_fescue", form=form) == [("seeding.form", "not_sold_as")]
        assert seeding("overseed", "tall_fescue", form=form) == []
    assert forms and seeding("plant", "tall_fescue", form="sod") == []


def test_a_grass_that_is_not_sold_as_plants_is_sown() -> None:
    """As a book may have it."""
    fescue = BOOK.species["tall_fescue"].model_copy(update={"plantable": ()})
    book = replace(BOOK, species={**BOOK.species, "tall_fescue": fescue})

    def told(intent: str) -> list[str]:
        brief = brief_of({"seeding": {"intent": intent}})
        return [p.message.key.rpartition(".")[2] for p in check_brief(brief, book)]

    assert told("plant") == ["not_planted"] and told("overseed") == []


def test_ways_of_sowing_belong_to_the_grass_of_their_season() -> None:
    """Dormant seed to cool grass, a winter's cover to warm grass."""
    assert ("seeding.intent", "not_dormant") in seeding("dormant", "zoysia")
    assert seeding("dormant", "tall_fescue") == []
    assert ("seeding.intent", "winter_is_warm") in seeding("winter_overseed", "tall_fescue")
    assert seeding("winter_overseed", "bermuda_common") == []


def test_a_winter_cover_grows_in_winter() -> None:
    """Cool-season seed over a sleeping lawn; what sleeps with it, or gives no seed, is refused."""
    for name, grass in BOOK.species.items():
        found = seeding("winter_overseed", "bermuda_hybrid", species=name)
        wanted = [] if grass.season == "cool" else [("seeding.species", "winter_cover_sleeps")]
        assert found == wanted, name
    assert BOOK.winter_cover in may_cover_winter(BOOK)


def test_every_name_is_looked_for_where_it_stands() -> None:
    """Parts and earlier sowings by their number; known names are no fault."""
    part = {"kind": "shade", "share": 0.2}
    sowing = {"on": date(2026, 9, 1)}
    named = {
        "lawn": {"part": [part, {**part, "grass": "moss"}]},
        "history": {"sowings": [sowing, {**sowing, "species": "moss"}]},
        "leveling": {"material": "dust", "parts": None},
        "seeding": {"species": "moss"},
        "season": {"campaign": "someday"},
        "place": {"region": "moon"},
    }
    assert [where for where, _ in faults(named)] == [
        "lawn.part.2.grass",
        "history.sowings.2.species",
        "leveling.material",
        "seeding.species",
        "season.campaign",
        "place.region",
    ]
    known = {
        "lawn": {"part": [{**part, "grass": "tall_fescue"}], "soil": "unknown"},
        "history": {"sowings": [{**sowing, "species": "tall_fescue"}]},
        "season": {"campaign": "autumn"},
    }
    assert faults(known) == []
    parts = {"leveling": {"parts": {"sand": 0.5, "dust": 0.5}}}
    assert [where for where, _ in faults(parts)] == ["leveling.parts.dust"]


def test_parts_are_less_than_the_lawn() -> None:
    """By area, and with what is told by share; nearly all of it is less."""

    def parts(*areas: str, share: float | None = None) -> list[tuple[str, str]]:
        named: list[dict[str, Any]] = [{"kind": "shade", "area": area} for area in areas]
        named += [] if share is None else [{"kind": "shade", "share": share}]
        return faults({"lawn": {"part": named}})

    whole = [("lawn.part", "parts_too_large")]
    assert parts("2500 ft2", "2500 ft2") == whole and parts("2500 ft2", "2499 ft2") == []
    assert parts("2500 ft2", share=0.5) == whole and parts("2500 ft2", share=0.49) == []


SHAPE = {"kind": "rectangle", "length": "20 m", "width": "10 m"}


def shaped(*changes: dict[str, Any], **shape: Any) -> list[tuple[str, str]]:
    """Faults of the second shape of a lawn."""
    lawn = {"area": None, "shape": [SHAPE, {**SHAPE, **shape}]}
    return faults({"lawn": lawn}, *changes)


def test_a_shape_has_a_grass_of_the_lawns_season_and_one_depth() -> None:
    """By its number."""
    assert shaped() == shaped(grass="kentucky_bluegrass") == shaped(depth="10 mm") == []
    assert [where for where, _ in shaped(grass="moss")] == ["lawn.shape.2.grass"]
    assert shaped(grass="zoysia") == [("lawn.shape.2.grass", "warm_in_cool")]
    warm = {"lawn": {"grass": "zoysia"}, "seeding": {"intent": "none"}}
    assert shaped(warm, grass="tall_fescue") == [("lawn.shape.2.grass", "cool_in_warm")]
    lows = {"leveling": {"lows": [{"depth": "20 mm", "share": 0.1}]}}
    assert shaped(lows, depth="10 mm") == [("lawn.shape.2.depth", "depth_twice")]
    assert shaped(lows) == []


def test_a_bag_holds_nitrogen_and_no_banned_phosphate() -> None:
    """Zero of it is none."""

    def bag(analysis: str, law: str | None = "banned") -> list[str]:
        local = {} if law is None else {"phosphorus": law}
        return [where for where, _ in faults({"feeding": {"analysis": analysis}, "local": local})]

    assert bag("20-1-5") == ["feeding.analysis"] and bag("20-0-5") == []
    assert bag("20-1-5", None) == [] and bag("0-0-50") == ["feeding.analysis"]


def test_faults_of_cans_are_told_with_those_of_the_brief() -> None:
    """Where they stand."""
    cans = {"water": {"application_rate": None, "catch_cans": ["9 mm"] * 3, "catch_minutes": 9}}
    assert [where for where, _ in faults(cans)] == ["water.catch_cans"]


def test_a_grass_is_found_where_it_stands() -> None:
    """One alone by its key, one of several by its number."""
    assert places() == []
    assert places(grass="crabgrass") == ["lawn.grass"]
    both = [{"species": "tall_fescue", "share": 0.5}, {"species": "crabgrass", "share": 0.5}]
    assert places(grass=both) == ["lawn.grass.1.species"]


def test_an_unknown_soil_is_told() -> None:
    """However it is spelt, a known one is none."""
    assert places(soil="moon dust") == ["lawn.soil"]
    assert places(soil="Clay-Loam") == []


def test_a_brief_that_contradicts_its_care_is_sent_back() -> None:
    """No seed, and no fill of any kind, neither a depth, nor hollows, nor a shape with one, is care
    alone; ground without grass, a campaign of work, and seed that is named are none."""
    shape = {"kind": "rectangle", "length": "20 m", "width": "10 m"}
    drawn = {"lawn": {"area": None, "shape": [shape]}}
    deep = {"lawn": {"area": None, "shape": [{**shape, "depth": "10 mm"}]}}
    bare = {"lawn": {"condition": "bare"}}

    def faults(*changes: dict[str, object]) -> list[str]:
        brief = brief_of({"seeding": {"intent": "none"}}, *changes)
        return [fault.where for fault in check_brief(brief, load_book())]

    lows = {"leveling": {"depth": None, "lows": [{"depth": "20 mm", "share": 0.1}]}}
    level = {"leveling": {"depth": None}}
    assert faults(level) == faults(level, drawn) == faults({"leveling": {"depth": "0 in"}}) == []
    assert faults(bare) == faults(lows, bare) == faults(level, deep, bare) == []
    assert faults(level, bare) == ["seeding.intent"]
    assert faults(level, {"season": {"campaign": "autumn"}}) == ["season.campaign"]
    assert faults(level, {"season": {"campaign": "care"}}) == []
    assert faults({"season": {"campaign": "care"}}) == ["season.campaign"]
    assert faults(level, {"seeding": {"species": "tall_fescue"}}) == ["seeding.intent"]
    seeded = brief_of(level)
    assert [fault.where for fault in check_brief(seeded, load_book())] == []


def test_thatch_is_told_how_it_comes_down_before_work() -> None:
    """Where a campaign is asked for without fill and seed the hint says what takes thatch over its
    limit down before them. A grass that is never cut has no such hint."""

    def hint(thatch: str, grass: str = "st_augustine") -> str:
        brief = brief_of(
            {
                "lawn": {"thatch": thatch, "grass": grass},
                "leveling": {"depth": "0 mm"},
                "seeding": {"intent": "none"},
                "season": {"campaign": "summer"},
            }
        )
        (problem,) = check_brief(brief, BOOK)
        assert problem.hint is not None
        return problem.hint.key.rpartition(".")[2]

    assert hint("30 mm") == "thatch_goes_first"
    assert hint("5 mm") == "give_something"
    never = next(n for n, s in BOOK.species.items() if s.dethatch == "never")
    assert hint("30 mm", never) == "give_something"


@pytest.mark.parametrize(
    ("test", "slips"),
    [
        ({"lime_rate": "350 lb/1000ft2"}, False),
        ({"lime_rate": "351 lb/1000ft2"}, True),
        ({"lime_rate": "50 lb/1000ft2", "ph": 5.5}, False),
        ({"lime_rate": "500 lb/1000ft2", "ph": 5.5}, True),
        ({"lime_rate": "299 lb/1000ft2", "ph": 5.5}, False),
        ({"lime_rate": "301 lb/1000ft2", "ph": 5.5}, True),
        # Near the goal half a unit is borne out.
        ({"lime_rate": "149 lb/1000ft2", "ph": 6.4}, False),
        ({"lime_rate": "151 lb/1000ft2", "ph": 6.4}, True),
        ({"lime_rate": "2500 g/m2", "ph": 5.5}, True),
        ({"lime_rate": "250 g/m2", "ph": 5.5}, False),
        ({"lime_rate": "500 lb/1000ft2", "ph": 5.5, "acidity_cmol_kg": 18.0}, False),
        ({"lime_rate": "500 lb/1000ft2", "ph": 5.5, "buffer_ph": 5.0}, False),
    ],
)
def test_a_lime_rate_that_no_laboratory_asks_for_is_asked_back(
    test: dict[str, Any], *, slips: bool
) -> None:
    """By what its pH bears out, and without one by the most there is; what was measured beside it
    bears it out."""
    found = faults({"soil_test": {"on": date(2027, 1, 10), **test}})
    assert found == ([("soil_test.lime_rate", "much_lime")] if slips else [])
