"""What is assumed of zones and of loose soil, and said."""

from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import Any

import pytest

from planning import brief_of
from resolved_lawns import setting_of
from turfplan.message import Number, Quantity, as_written, length_mm
from turfplan.phrases import lawn as phrases
from turfplan.phrases import parts as part_phrases
from turfplan.site.outlines.shapes import LawnZone
from turfplan.work.assumptions import (
    _bands,
    _beside_parts,
    _condition,
    _horizon,
    _labour,
    _of_zones,
    _over_stripped,
    _soil,
    _sowing,
    _sown_anew,
    _stand,
    _thatch,
    _thin_share,
    resolve,
)
from turfplan.work.drafts import Band
from turfplan.work.lawn import Labour
from turfplan.work.parts import PlotPart

SETTING = setting_of(brief_of())
BOOK, SPECIES = SETTING.book, SETTING.turf.species
COUNTED = BOOK.si("setting.counted_share")
FRONT = as_written("front")


def said_of(**zone: Any) -> list[Any]:
    """What is said of one zone of a lawn of tall fescue that is sown with it."""
    usual = {"share": 0.5, "depth_mm": None, "grass": None, "sun": None}
    found = LawnZone(FRONT, 100.0, **{**usual, **zone})
    return _of_zones([found], SPECIES, SPECIES, BOOK)


def test_a_zone_with_a_depth_of_its_own_says_so() -> None:
    """With its area, its share and its depth; a zone like the rest says nothing."""
    assert said_of() == said_of(grass=SPECIES.id) == said_of(sun="full") == []
    assert said_of(depth_mm=12.0) == [
        phrases.zone_filled(
            zone=FRONT,
            area=Quantity(100.0, "area"),
            share=Number(0.5, "percent"),
            depth=length_mm(12.0),
        )
    ]
    assert said_of(sun="shade") == [phrases.zone_shade(zone=FRONT)]
    assert said_of(sun="part") == [phrases.zone_part_sun(zone=FRONT)]


@pytest.mark.parametrize(
    ("share", "counts"), [(COUNTED, True), (0.5, True), (COUNTED - 0.01, False)]
)
def test_days_suit_a_grass_that_covers_enough_of_the_lawn(share: float, *, counts: bool) -> None:
    """Less of it follows the days of the larger one; a grass that is not grown from seed is told
    not to be sown over.
    """
    days, *more = said_of(share=share, grass="kentucky_bluegrass")
    suits = phrases.zone_days_suit_both if counts else phrases.zone_days_of_larger
    assert days.key == suits(zone=FRONT, grass=FRONT).key and more == []
    _, sown = said_of(share=share, grass="st_augustine")
    assert sown.key == phrases.zone_seed(sown=FRONT, zone=FRONT, grass=FRONT).key


@pytest.mark.parametrize(
    ("depth", "condition", "deep"),
    [
        ("1 in", "bare", False),
        ("2 in", "bare", False),
        ("2.1 in", "bare", True),
        ("5 in", "bare", True),
        ("2.1 in", "thin", False),
    ],
)
def test_only_lifts_settle_by_more_than_a_thin_layer(
    depth: str, condition: str, *, deep: bool
) -> None:
    """Over two inches on open ground; on turf, and where the brief says how much, not."""
    intent = "renovate" if condition == "bare" else "overseed"
    changes = {"lawn": {"condition": condition}, "seeding": {"intent": intent}}
    setting = setting_of(brief_of(changes, {"leveling": {"depth": depth}}))
    share = BOOK.si("topdress.settle_deep" if deep else "topdress.settle_allowance")
    assert setting.levelling.settle_share == share
    assert phrases.settles(share=Number(share, "percent")) in setting.assumptions
    told = setting_of(brief_of(changes, {"leveling": {"depth": depth, "settle_percent": 7}}))
    assert told.levelling.settle_share == pytest.approx(0.07)


TODAY = date(2027, 2, 1)


def horizon(
    start: date | None = None, until: date | None = None, kept: tuple[date, date] | None = None
) -> tuple[int, int, int | None]:
    """The days of a plan from 1 February 2027 on: first, last and the least last day."""
    brief = brief_of({"season": {"from": start, "until": until}})
    first, last, least = _horizon(brief, BOOK, TODAY, kept)
    begun = TODAY.toordinal()
    return first - begun, last - begun, None if least is None else least - begun


LEAST, MOST = (round(BOOK.si(f"setting.horizon_{name}")) for name in ("days", "most"))


def after(days: int) -> date:
    """So many days after the first of February."""
    return TODAY + timedelta(days)


def test_a_plan_begins_today_or_when_it_is_asked_to_and_ends_by_the_book() -> None:
    """Or on the day that the brief gives, which is not put off."""
    assert MOST > LEAST
    assert horizon() == (0, MOST, LEAST)
    assert horizon(after(30)) == (30, 30 + MOST, 30 + LEAST)
    assert horizon(after(-30)) == (0, MOST, LEAST - 30)
    assert horizon(until=after(99)) == (0, 99, None)


def test_a_plan_that_was_made_before_keeps_its_first_day_and_puts_its_end_off_alone() -> None:
    """An end of before that lies beyond the longest stands."""
    assert horizon(kept=(after(-50), after(200))) == (-50, MOST - 50, 200)
    far = MOST + 500
    assert horizon(kept=(after(-50), after(far))) == (-50, far, far)
    assert horizon(after(30), kept=(after(-50), after(200))) == (-50, MOST + 30, 30 + LEAST)
    assert horizon(after(-60), kept=(after(-50), after(20))) == (-50, MOST - 50, LEAST - 60)
    assert horizon(until=after(99), kept=(after(-50), after(200))) == (-50, 99, None)


@pytest.mark.parametrize(
    ("intent", "season", "condition", "operation"),
    [
        ("none", "cool", "thin", None),
        ("dormant", "cool", "thin", "dormant_seed"),
        ("winter_overseed", "warm", "dense", "overseed"),
        ("overseed", "cool", "thin", "overseed"),
        ("patch", "cool", None, "overseed"),
        ("overseed", "cool", "bare", "seed"),
        ("overseed", "warm", "thin", "seed"),
        ("renovate", "cool", "thin", "seed"),
    ],
)
def test_an_intent_is_an_operation(
    intent: Any, season: str, condition: str | None, operation: str | None
) -> None:
    """Cool-season grass is sown into a stand; bare ground, and warm-season grass, by itself."""
    assert _sowing(intent, season, condition) == operation


def told_of(rule: Any, *changes: dict[str, Any]) -> tuple[Any, list[str]]:
    """What a rule finds for a brief, and the keys of what it assumes."""
    assumed: list[Any] = []
    return rule(brief_of(*changes), assumed), [message.key for message in assumed]


def test_soil_condition_and_thatch_are_assumed_and_said_where_they_are_not_told() -> None:
    """What is told is taken as it is."""
    assert told_of(_soil, {"lawn": {"soil": "Silt-Loam"}}) == ("silt_loam", [])
    assert told_of(_soil, {"lawn": {"soil": None}}) == ("loam", [phrases.loam().key])
    assert told_of(_soil, {"lawn": {"soil": "unknown"}}) == ("loam", [phrases.unknown_soil().key])
    assert told_of(_condition, {"lawn": {"condition": "patchy"}}) == ("patchy", [])
    assert told_of(_condition, {"lawn": {"condition": None}}) == ("thin", [phrases.thin().key])

    def thatch(brief: Any, assumed: list[Any]) -> float:
        return _thatch(brief, BOOK, assumed)

    assert told_of(thatch, {"lawn": {"thatch": "0 in"}}) == (0.0, [])
    usual = BOOK.si("setting.thatch_assumed")
    assert told_of(thatch, {"lawn": {"thatch": None}})[0] == usual > 0
    assert told_of(thatch, {"lawn": {"thatch": None, "condition": "bare"}}) == (0.0, [])


def test_hands_and_hours_are_assumed_and_said() -> None:
    """Each by itself; the way to wheel is told in metres."""

    def labour(brief: Any, assumed: list[Any]) -> Labour:
        return _labour(brief, BOOK, assumed)

    given = {"people": 3, "hours_per_day": 5, "haul_distance": "20 m"}
    told = {"work": given, "delivery": {"lead_days": 9}}
    assert told_of(labour, told) == (Labour(3, 5.0, pytest.approx(20.0), 9), [])
    usual, said = told_of(
        labour, {"work": {"people": None, "hours_per_day": None}, "delivery": {"lead_days": None}}
    )
    names = ("people_assumed", "hours_per_day_assumed", "haul_distance_assumed")
    people, minutes, way_mm = (BOOK.si(f"setting.{name}") for name in names)
    lead = round(BOOK.si("setting.lead_days_assumed"))
    assert usual == Labour(round(people), minutes / 60, way_mm / 1000, lead)
    assert len(said) == 3
    for missing in given:
        less = {**told, "work": {**given, missing: None}}
        # Of a way that nobody told the reach of the hours is told besides.
        assert len(told_of(labour, less)[1]) == 1 + (missing == "haul_distance")


@dataclass(frozen=True)
class Measured:
    """What a survey says."""

    bands: tuple[Band, ...] | None
    area_m2: float = 100.0
    zones: tuple[LawnZone, ...] = ()


def bands(leveling: dict[str, Any], ground: Measured | None = None) -> list[tuple[float, float]]:
    """Depth and share of what is filled."""
    found = _bands(brief_of({"leveling": {"depth": None, **leveling}}), ground)
    return [(round(band.depth_mm, 6), round(band.share, 6)) for band in found]


def test_what_is_filled_is_the_hollows_and_the_depth_of_the_rest() -> None:
    """Deepest first; less than a hundredth of a per cent is no rest, and measured ground has its
    own depths.
    """
    lows = [{"depth": "10 mm", "share": 0.25}, {"depth": "40 mm", "share": 0.125}]
    assert bands({"depth": "20 mm"}) == [(20, 1)]
    assert bands({"lows": lows}) == [(40, 0.125), (10, 0.25)]
    assert bands({"lows": lows, "depth": "20 mm"}) == [(40, 0.125), (20, 0.625), (10, 0.25)]
    assert bands({"lows": [{"depth": "40 mm", "share": 1.0}], "depth": "20 mm"}) == [(40, 1)]
    nearly = [{"depth": "40 mm", "share": 0.9998}]
    assert len(bands({"lows": nearly, "depth": "20 mm"})) == 2
    measured = Measured((Band(5.0, 0.5), Band(0.0, 0.25), Band(9.0, 0.25)))
    assert bands({"depth": "20 mm"}, measured) == [(9, 0.25), (5, 0.5)]
    assert bands({"depth": "20 mm"}, Measured(None)) == [(20, 1)]
    assert bands({}) == []


def test_a_fill_replaces_the_thatch_that_was_stripped() -> None:
    """Where all is filled by as much more; hollows alone keep their depth, since they are stripped
    like the ground around them; that the lawn ends lower is told, with no fill too.
    """
    said: list[Any] = []
    both, hollow = (Band(9.0, 0.25), Band(5.0, 0.75)), (Band(9.0, 0.25),)
    found = _over_stripped(both, 3.0, said, all_over=True)
    assert [(b.depth_mm, b.share) for b in found] == [(12, 0.25), (8, 0.75)]
    assert _over_stripped(hollow, 3.0, said, all_over=False) == hollow
    assert _over_stripped((), 3.0, said, all_over=False) == ()
    assert [message.key.partition(".")[2] for message in said] == [
        "stripped",
        "stripped_hollows",
        "stripped_lower",
    ]
    assert _over_stripped(hollow, 0.0, said, all_over=False) == hollow and len(said) == 3


@pytest.mark.parametrize(
    ("levelling", "depths"),
    [
        ({"depth": "0 mm", "lows": [{"depth": "75 mm", "share": 0.06}]}, [75]),
        ({"depth": "10 mm", "lows": [{"depth": "75 mm", "share": 0.06}]}, [95, 30]),
        ({"depth": "10 mm"}, [30]),
    ],
)
def test_stripped_hollows_are_filled_to_the_ground_around_them(
    levelling: dict[str, Any], depths: list[float]
) -> None:
    """By their own depth where the rest ends lower; with the thatch where that is refilled."""
    brief = brief_of(
        {"lawn": {"thatch": "20 mm"}, "seeding": {"intent": "renovate"}, "leveling": levelling}
    )
    found = setting_of(brief).levelling.bands
    assert [round(band.depth_mm) for band in found] == depths


def stand(*changes: dict[str, Any], zones: tuple[LawnZone, ...] = ()) -> tuple[str, ...]:
    """The grasses whose days count."""
    return _stand(brief_of(*changes), zones, BOOK, [])


def test_grasses_that_cover_enough_are_the_stand() -> None:
    """Those of zones too, each once; on ground sown anew what is sown."""
    rest = 1 - COUNTED
    mixed = [
        {"species": "tall_fescue", "share": rest},
        {"species": "kentucky_bluegrass", "share": COUNTED},
    ]
    few = [
        {"species": "tall_fescue", "share": rest + 0.01},
        {"species": "kentucky_bluegrass", "share": COUNTED - 0.01},
    ]
    assert stand({"lawn": {"grass": mixed}}) == ("tall_fescue", "kentucky_bluegrass")
    assert stand({"lawn": {"grass": few}}) == ("tall_fescue",)
    zone = LawnZone(FRONT, 9.0, share=COUNTED, depth_mm=None, grass="zoysia", sun=None)
    assert stand(zones=(zone, zone)) == ("tall_fescue", "zoysia")
    assert stand(zones=(replace(zone, share=COUNTED - 0.01),)) == ("tall_fescue",)
    assert stand(zones=(replace(zone, grass=None),)) == ("tall_fescue",)
    anew = {"seeding": {"intent": "renovate", "species": "zoysia"}}
    assert stand(anew, zones=(replace(zone, grass="bahia"),)) == ("zoysia",)
    over = {"seeding": {"intent": "overseed", "species": "kentucky_bluegrass"}}
    assert stand(over) == ("tall_fescue",)
    assert not _sown_anew(brief_of()) and _sown_anew(brief_of(anew))
    assert not _sown_anew(brief_of({"seeding": {"intent": "renovate"}}))


@pytest.mark.parametrize(
    ("changes", "key"),
    [
        ({"seeding": {"intent": "overseed"}}, None),
        ({"seeding": {"intent": "overseed"}, "lawn": {"thin_share": 0.3}}, "unused"),
        ({"seeding": {"intent": "patch"}}, "assumed"),
        ({"seeding": {"intent": "patch"}, "lawn": {"thin_share": 0.3}}, None),
        ({"seeding": {"intent": "none"}, "lawn": {"thin_share": 0.3}}, None),
        ({"seeding": {"intent": "renovate"}, "lawn": {"condition": "bare"}}, None),
    ],
)
def test_the_thin_share_is_said_where_it_counts_and_was_not_told(
    changes: dict[str, Any], key: str | None
) -> None:
    """With the area that it comes to."""
    found = _thin_share(brief_of(changes), BOOK, 200.0)
    share = BOOK.si("seeding.patch_share")
    told = {
        "unused": [phrases.thin_share_unused(share=Number(0.3, "percent"))],
        "assumed": [
            phrases.thin_share(share=Number(share, "percent"), area=Quantity(200 * share, "area"))
        ],
    }
    assert found == (told[key] if key else [])


def test_a_lawn_is_resolved_with_what_was_measured_of_it() -> None:
    """Its area and zones win over those of the brief; units are said where nothing tells them."""
    zone = LawnZone(FRONT, 60.0, share=0.5, depth_mm=None, grass=None, sun=None)
    ground = Measured((Band(9.0, 0.25),), 120.0, (zone,))
    given = SETTING.brief
    found = resolve(given, BOOK, SETTING.climate, TODAY, ground=ground)
    assert (found.plot.area_m2, found.plot.zones) == (120.0, (zone,))
    assert [b.depth_mm for b in found.levelling.bands] == [9.0]
    bare = resolve(given, BOOK, SETTING.climate, TODAY)
    assert bare.plot.area_m2 == pytest.approx(464.5152) and bare.plot.zones == ()
    metric = phrases.metric_units()
    assert metric not in bare.assumptions
    nowhere = given.model_copy(
        update={
            "place": given.place.model_copy(
                update={"postal_code": None, "country": None, "latitude": 40.0, "longitude": -77.0}
            )
        }
    )
    assert metric in resolve(nowhere, BOOK, SETTING.climate, TODAY).assumptions


def part(kind: Any, share: float = 0.25, most_mm: float | None = None) -> PlotPart:
    """A part of the lawn that bears so much fill."""
    return PlotPart(as_written(kind), kind, share, most_mm, None, None)


def beside(leveling: dict[str, Any], ground: Measured | None = None) -> list[tuple[float, float]]:
    """The bands of a lawn of which a quarter bears 5 mm."""
    brief = brief_of({"leveling": {"depth": None, **leveling}})
    found = _bands(brief, ground)
    less = _beside_parts(brief, BOOK, ground, found, [part("steep", most_mm=5.0)], 400.0, [])
    return [(round(band.depth_mm, 6), round(band.share, 6)) for band in less]


def test_parts_that_bear_less_get_less_of_what_the_brief_fills() -> None:
    """What a survey measured of ground that bears some stays as it is; drawn fill gives way, and so
    does a survey's where nothing is spread."""
    assert beside({"depth": "20 mm"}) == [(20, 0.75), (5, 0.25)]
    assert beside({"depth": "20 mm"}, Measured(None)) == [(20, 0.75), (5, 0.25)]
    assert beside({"depth": "20 mm"}, Measured((Band(9.0, 1.0),))) == [(9, 0.75), (5, 0.25)]
    assert beside({"lows": [{"depth": "20 mm", "share": 0.5}]}) == [(20, 0.5)]
    surveyed = brief_of({"leveling": {"depth": None, "survey": "points.csv"}})
    said: list[Any] = []
    bands_found = (Band(9.0, 1.0),)
    ground = Measured(bands_found)
    parts = [part("steep", most_mm=5.0), part("shade")]
    kept = _beside_parts(surveyed, BOOK, ground, bands_found, parts, 400.0, said)
    assert kept == bands_found
    of_survey = part_phrases.of_survey(part=as_written("steep"))
    assert [m for m in said if m.key == of_survey.key] == [of_survey]
    told: list[Any] = []
    dogs = [part("dog_run", most_mm=0.0)]
    less = _beside_parts(surveyed, BOOK, ground, bands_found, dogs, 400.0, told)
    assert [(band.depth_mm, band.share) for band in less] == [(9.0, 0.75)]
    assert part_phrases.of_survey_alike(part=as_written("dog_run")) in told
    typed: list[Any] = []
    plain_brief = brief_of({"leveling": {"depth": "20 mm"}})
    _beside_parts(plain_brief, BOOK, None, (Band(20.0, 1.0),), parts, 400.0, typed)
    assert of_survey not in typed
