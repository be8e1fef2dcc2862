"""What tasks take, beside figures reckoned by hand in the units of the trade."""

from dataclasses import replace
from datetime import date
from typing import Any, get_args

import pytest

from planning import brief_of
from test_planning_random import setting_of
from told import told
from turfplan.message import Listed, Sold, as_written
from turfplan.messages.entry import item_name
from turfplan.planning.amounts import (
    _message,
    _pass_volume,
    cover_amounts,
    fill_amounts,
    loose_volumes,
    pass_amounts,
    plant_amounts,
    seed_amounts,
    seed_masses_kg,
)
from turfplan.records.items import AmountItem, OrderItem
from turfplan.records.plan_task import Amount
from turfplan.units import CUBIC_YARD_M3, System
from turfplan.work.barrows import in_litres
from turfplan.work.campaigns import Campaign, Session
from turfplan.work.drafts import Draft, OpenDays, Pass
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.mix_choice import MixChoice
from turfplan.work.phases.open_turf import removes_cores
from turfplan.work.season import FillVolumes
from turfplan.work.slopes import is_pegged

# Exact: a yard is 0.9144 m, a thousand square feet are 92.90304 m2 (NIST Handbook 44, Appendix C).
YD3, KFT2 = 0.764554857984, 92.90304
SAND = MixChoice("sand", "sand", {"sand": 1.0}, "Sand on sand.")
WINDOW = OpenDays(
    "topdress", "spring", date(2027, 4, 1), date(2027, 5, 31), date(2027, 4, 20), "", ""
)


def setting(*changes: dict[str, Any]) -> ResolvedLawn:
    """The plain lawn: 5,000 ft2 of thin tall fescue, half an inch, a tenth for settling."""
    return setting_of(brief_of(*changes))


def campaign(*layers: Pass) -> Campaign:
    """A way through the season with a session for each number of one."""
    numbers = sorted({layer.session for layer in layers})
    sessions = tuple(
        Session(n, WINDOW, tuple(p for p in layers if p.session == n), False) for n in numbers
    )
    return Campaign("test", "test", (), sessions, None, 0.0)


def layer(number: int, session: int, settled_m3: float) -> Pass:
    """A pass of some volume."""
    return Pass(number, session, 6.35, settled_m3, False, 6.35, "")


def by_item(amounts: tuple[Amount, ...]) -> dict[str, float]:
    """SI values by item."""
    return {a.item: a.value for a in amounts}


# Volumes are rounded up, once, to a hundredth of a cubic yard.
TOLD = CUBIC_YARD_M3 / 100


def test_passes_are_loose_and_the_touch_up_is_a_tenth() -> None:
    """1 and 2 m3 settled are 1.1 and 2.2 loose; the touch-up is a tenth of the lawn, so too."""
    lawn = setting()
    found = loose_volumes(lawn, campaign(layer(1, 1, 1.0), layer(2, 2, 2.0)), SAND)
    assert found.passes == pytest.approx({1: 1.1, 2: 2.2}, abs=TOLD)
    assert found.touch_up_m3 == pytest.approx(
        0.1 * 5 * KFT2 * lawn.touch_up_depth_mm / 1000 * 1.1, abs=TOLD
    )
    assert found.lift_m3 == 0.0
    assert loose_volumes(lawn, campaign(), SAND) == FillVolumes({}, 0.0, 0.0)


def test_hollows_settle_more() -> None:
    """A twentieth of 464.5152 m2, 60 mm deep, a fifth more: 1.672 m3."""
    lawn = replace(
        setting(), levelling=replace(setting().levelling, lift_share=0.05, lift_depth_mm=60.0)
    )
    assert loose_volumes(lawn, campaign(), SAND).lift_m3 == pytest.approx(
        0.05 * 464.5152 * 0.060 * 1.2, abs=TOLD
    )


def test_a_pass_over_the_lawn() -> None:
    """A quarter inch over 5,000 ft2, a tenth more: 4.244 yd3 of sand, 39 barrows of 3 ft3."""
    yards = 5000 * 0.25 / 12 / 27 * 1.1
    draft = Draft(
        "topdress.1",
        "topdress",
        "level",
        "",
        1,
        depth_mm=6.35,
        loose_m3=yards * YD3,
        words={"zones": Listed(()), "cap": as_written("as much as grass takes")},
    )
    found = pass_amounts(setting(), SAND, draft, 1.0)
    us = {a.item: (a.value_us, a.unit_us) for a in found}
    assert us["depth"] == (0.25, "in")
    assert us["volume"] == (pytest.approx(yards, abs=1e-6), "yd3")
    assert by_item(found)["weight"] == pytest.approx(yards * YD3 * 1600, rel=1e-6)
    assert us["barrow loads"] == (39, "loads")
    assert (
        "over 5,000 ft²" in told(found[1].reason)
        and "10% more" in told(found[1].reason)
        and "weight per area" not in us
    )
    metric = {
        a.item: a.value
        for a in pass_amounts(replace(setting(), system=System.METRIC), SAND, draft, 1.0)
    }
    assert metric["weight per area"] == pytest.approx(metric["weight"] / 464.5152, rel=1e-6)


def test_a_pass_that_covers_less_says_so() -> None:
    """With half the volume it is spread only where it is still missing."""
    draft = Draft(
        "topdress.1",
        "topdress",
        "level",
        "",
        1,
        depth_mm=6.35,
        loose_m3=1.5,
        words={"zones": Listed(()), "cap": as_written("x")},
    )
    why = told(pass_amounts(setting(), SAND, draft, 1.0)[1].reason)
    assert "only where it is still missing" in why


@pytest.mark.parametrize(
    ("seeding", "lawn", "pounds"),
    [
        ({"intent": "overseed"}, {}, 20.0),  # 4 lb/1,000 ft2
        ({"intent": "renovate"}, {}, 35.0),  # 7
        ({"intent": "overseed"}, {"condition": "bare"}, 35.0),
        ({"intent": "patch"}, {}, 8.75),  # a quarter of the lawn, at the rate of bare ground
        ({"intent": "patch"}, {"thin_share": 0.1}, 3.5),
        ({"intent": "overseed", "rate": "6 lb/1000ft2"}, {}, 30.0),
        (
            {
                "intent": "overseed",
                "rate": "6 lb/1000ft2",
                "purity_percent": 95,
                "germination_percent": 80,
            },
            {},
            30 / 0.76,
        ),
    ],
)
def test_seed_for_five_thousand_feet(
    seeding: dict[str, Any], lawn: dict[str, Any], pounds: float
) -> None:
    """By the rate of book or brief, more of a bag not all live; a tenth is held back."""
    found = {a.item: a.value_us for a in seed_amounts(setting({"seeding": seeding, "lawn": lawn}))}
    assert found["seed"] == pytest.approx(pounds, abs=1e-5)
    assert found["seed held back"] == pytest.approx(pounds / 10, abs=1e-5)


@pytest.mark.parametrize(("condition", "share"), [("thin", 0.5), ("bare", 1.0)])
def test_plants_for_a_lawn(condition: str, share: float) -> None:
    """Half of a thin lawn, all of a bare one; sod a twentieth more, plugs one a square foot."""
    lawn = setting(
        {
            "lawn": {"grass": "zoysia", "condition": condition},
            "place": {"postal_code": "30606"},
            "seeding": {"intent": "plant", "spacing": "12 in"},
        }
    )
    sod = Draft("plant", "plant", "seed", as_written("Why."), 1, form="sod")
    assert by_item(plant_amounts(lawn, sod)) == pytest.approx(
        {"sod": 464.5152 * share * 1.05}, abs=1e-5
    )
    assert by_item(plant_amounts(lawn, replace(sod, form="plugs"))) == {"plugs": 5000 * share}
    assert set(by_item(plant_amounts(lawn, replace(sod, form=None)))) == {"plugs"}


def test_straw_and_fill() -> None:
    """A bale for a thousand square feet; a fill is told as it was reckoned."""
    assert by_item(cover_amounts(setting(), 5000 * 0.3048**2)) == {"straw": 5}
    assert by_item(cover_amounts(setting(), 5001 * 0.3048**2)) == {"straw": 6}
    fill = Draft("touch_up", "touch_up", "finish", "", 1, depth_mm=3.0, loose_m3=0.2)
    assert by_item(fill_amounts(fill)) == {"depth": 3.0, "volume": 0.2}


def test_a_pass_tells_what_its_zones_take() -> None:
    """The parts of the zones follow the volume; without any nothing does."""
    draft = Draft(
        "topdress.1",
        "topdress",
        "level",
        "",
        1,
        depth_mm=6.35,
        loose_m3=3.5,
        words={"zones": "front 1 yd³, back 2 yd³", "cap": as_written("x")},
    )
    assert told(pass_amounts(setting(), SAND, draft, 1.0)[1].reason).endswith(
        "settles. Of it: front 1 yd³, back 2 yd³."
    )
    for none in ("", Listed(())):
        bare = replace(draft, words={"zones": none, "cap": "x"})
        assert told(pass_amounts(setting(), SAND, bare, 1.0)[1].reason).endswith("settles.")


@pytest.mark.parametrize(
    ("seeding", "lawn", "words"),
    [
        ({"intent": "overseed"}, {}, "Overseeding rate, about half of a new lawn's."),
        ({"intent": "renovate"}, {}, "Rate for a new lawn."),
        ({"intent": "overseed", "rate": "6 lb/1000ft2"}, {}, "The rate that was asked for."),
        (
            {"intent": "overseed", "purity_percent": 95, "germination_percent": 80},
            {"condition": "bare"},
            "Rate for a new lawn; the bag holds 76% live seed, so more of it is sown.",
        ),
    ],
)
def test_seed_says_which_rate_it_is(
    seeding: dict[str, Any], lawn: dict[str, Any], words: str
) -> None:
    """By the rate, with a capital, and in all, within a sentence."""
    by_rate, in_all, _ = seed_amounts(setting({"seeding": seeding, "lawn": lawn}))
    assert told(by_rate.reason) == words
    assert told(in_all.reason) == f"Rate times 5,000 ft²; {words[:1].lower()}{words[1:]}"


def test_every_amount_has_a_name() -> None:
    """What an amount can be of, and what can be bought, stands in the catalog."""
    assert all(told(item_name(item)) for item in (*get_args(AmountItem), *get_args(OrderItem)))


@pytest.mark.full
@pytest.mark.parametrize(
    ("share", "covers"), [(1.2, True), (1.0, True), (0.995, True), (0.98, False), (0.4, False)]
)
def test_a_pass_that_covers_the_area_says_so(share: float, *, covers: bool) -> None:
    """Where its volume is the depth over the area, to a hundredth; else it is what is missing."""
    lawn = setting()
    whole_m3 = 100.0 * 6.0 / 1000 * (1 + lawn.levelling.settle_share)
    draft = Draft(
        "topdress.1",
        "topdress",
        "level",
        as_written(""),
        0,
        words={"zones": Listed(())},
        depth_mm=6.0,
        loose_m3=share * whole_m3,
    )
    told_of = dict(_pass_volume(lawn, draft, 100.0).values)
    if "parts" in told_of:
        told_of = dict(told_of["parts"].items[0].values)  # type: ignore[union-attr]
    assert ("area" in told_of) is covers


def test_cores_that_are_taken_away_leave_room_for_the_first_pass_of_a_session() -> None:
    """A depth of the book over the lawn; none where they are left, nor for a second pass."""
    lawn = setting({"leveling": {"parts": {"sand": 1.0}}, "lawn": {"soil": "clay"}})
    assert removes_cores(lawn)
    cores_m3 = lawn.book.si("aerate.core_volume_depth") * 5 * KFT2 / 1000
    found = loose_volumes(lawn, campaign(layer(1, 1, 1.0), layer(2, 1, 2.0)), SAND).passes
    assert found == pytest.approx({1: (1.0 + cores_m3) * 1.1, 2: 2.2}, abs=TOLD) and cores_m3 > 0.1


def test_a_barrow_holds_whole_litres_and_quarters_of_a_cubic_foot() -> None:
    """85 L are 3 ft3; of 60 L, 2.12 ft3, the quarters are two."""
    assert in_litres(0.085) == Sold(85, "L", 3.0, "ft³")
    assert in_litres(0.0604) == Sold(60, "L", 2.25, "ft³")
    assert in_litres(0.0995) == Sold(100, "L", 3.5, "ft³")


def test_no_barrows_are_counted_where_a_loader_is_at_hand() -> None:
    """Nor weights by area where a lawn is told in feet."""
    words = {"zones": Listed(()), "cap": as_written("x")}
    draft = Draft("a", "topdress", "level", as_written(""), 1, words=words, loose_m3=1.0)
    loader = setting({"work": {"machines": ["loader"]}})
    items = [[a.item for a in pass_amounts(s, SAND, draft, 1.0)] for s in (setting(), loader)]
    assert items == [
        ["depth", "volume", "weight", "barrow loads"],
        ["depth", "volume", "weight"],
    ]


def test_a_pass_over_a_part_of_the_lawn_is_as_heavy_there() -> None:
    """Half the volume over half of it."""
    words = {"zones": Listed(()), "cap": as_written("x")}
    metric = replace(setting(), system=System.METRIC)

    def by_area(loose_m3: float, share: float) -> float:
        draft = Draft("a", "topdress", "level", as_written(""), 1, words=words, loose_m3=loose_m3)
        return by_item(pass_amounts(metric, SAND, draft, share))["weight per area"]

    assert by_area(1.0, 0.5) == pytest.approx(by_area(2.0, 1.0))
    assert by_area(2.0, 1.0) == pytest.approx(2 * 1600 / 464.5152)


def test_what_fills_an_instruction_is_a_message_or_a_text() -> None:
    """Anything else is refused."""
    assert _message("so") == as_written("so") and _message(as_written("so")) == as_written("so")
    with pytest.raises(TypeError):
        _message(3)


def test_a_part_of_the_lawn_that_is_sown_takes_its_part_of_the_seed() -> None:
    """Half of it now, at the same rate; told with its area. Patches are a part of
    their own, sown whole where that much is watered.
    """
    whole, half = (by_item(seed_amounts(setting(), share)) for share in (1.0, 0.5))
    assert half["seed"] == pytest.approx(whole["seed"] / 2)
    assert half["seed rate"] == pytest.approx(whole["seed rate"])
    assert half["sown area"] == pytest.approx(464.5152 / 2) and "sown area" not in whole
    patch = setting({"seeding": {"intent": "patch"}})
    of_patch = [by_item(seed_amounts(patch, share)) for share in (1.0, 0.25, 0.2)]
    assert of_patch[0] == of_patch[1]
    assert of_patch[0]["sown area"] == pytest.approx(464.5152 / 4)
    assert of_patch[2]["seed"] == pytest.approx(of_patch[0]["seed"] * 0.8)
    assert of_patch[2]["sown area"] == pytest.approx(464.5152 * 0.2)


def test_a_bag_is_corrected_where_both_its_numbers_are_told() -> None:
    """Of purity or germination alone nothing follows."""
    plain = by_item(seed_amounts(setting()))["seed"]
    for lone in ({"purity_percent": 95}, {"germination_percent": 80}):
        assert by_item(seed_amounts(setting({"seeding": lone})))["seed"] == plain
    masses = seed_masses_kg(setting())
    assert sum(sum(each.values()) for each in masses.values()) == pytest.approx(plain)


def test_sod_and_plugs_of_a_part_of_the_lawn() -> None:
    """Plugs by the piece, as they are set apart; sprigs by volume, in furrows: 3.5 L/m2 at
    the usual ten inches, less where the furrows lie wider.
    """
    place = {"place": {"postal_code": "30606"}, "lawn": {"grass": "zoysia", "condition": "bare"}}
    lawn = setting(place, {"seeding": {"intent": "plant", "spacing": "12 in"}})
    part = Draft("plant", "plant", "seed", as_written("Why."), 1, form="sprigs", sown_share=0.5)
    (plugs,) = plant_amounts(lawn, replace(part, form="plugs"))
    assert (plugs.item, plugs.value, plugs.unit) == ("plugs", 2500, "pieces")
    (sprigs,) = plant_amounts(lawn, part)
    half_m2 = 2500 * 0.3048**2
    assert (sprigs.item, sprigs.unit) == ("sprigs", "m3")
    assert sprigs.value == pytest.approx(3.5e-3 * half_m2 * 10 / 12, abs=1e-5)
    usual = setting(place, {"seeding": {"intent": "plant"}})
    (of_rate,) = plant_amounts(usual, part)
    assert of_rate.value == pytest.approx(3.5e-3 * half_m2, abs=1e-5)


def test_what_covers_the_seed_follows_what_is_sown() -> None:
    """Half the bales for half the lawn; on a bank a mat that overlaps, with its pegs."""
    m2 = 464.5152 / 2
    assert by_item(cover_amounts(setting(), m2)) == {"straw": 3}
    steep = setting(
        {"site": {"slope_percent": 30}, "seeding": {"intent": "renovate"}, "leveling": None}
    )
    assert is_pegged(steep)
    found = by_item(cover_amounts(steep, m2))
    assert found["mat"] == pytest.approx(m2 * (1 + steep.book.si("site.mat_overlap")))
    assert found["pegs"] == -(-m2 * steep.book.si("site.mat_pegs") // 1)
