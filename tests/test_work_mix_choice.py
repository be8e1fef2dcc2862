"""Which mix is spread, by soil, depth, grass and seed."""

from dataclasses import replace
from typing import Any

import pytest

from planning import brief_of, plan_of
from resolved_lawns import setting_of
from test_work_campaigns import plain
from told import told
from turfplan.book.words import book_message
from turfplan.files.reading.book import load_book
from turfplan.message import Number, as_written, length_mm
from turfplan.phrases import passes as phrases
from turfplan.records.plan import Plan
from turfplan.work import mix_choice as module
from turfplan.work.drafts import Band
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.mix_choice import (
    MixChoice,
    _conditions,
    _experts,
    _warnings,
    blend,
    choose_mix,
    is_straight_sand,
    mix_parts,
    mostly_sand,
    sows_on_mix,
)

UNSEEDED: dict[str, Any] = {"seeding": {"intent": "none"}}


def asked(soil: str, depth: str, **more: Any) -> Plan:
    """A lawn on a soil, leveled so deep without seed."""
    lawn = {"lawn": {"soil": soil, "condition": "dense"}, "leveling": {"depth": depth, **more}}
    return plan_of(lawn, UNSEEDED)


def parts(plan: Plan) -> set[str]:
    """The parts of the mix."""
    return {part.item for line in plan.order for part in line.parts if line.item == "mix"}


def warned(plan: Plan) -> bool:
    """Whether the plan warns of too much straight sand."""
    return any("Straight sand levels only" in told(caution) for caution in plan.cautions)


@pytest.mark.full
@pytest.mark.parametrize("depth", ["0.25 in", "0.75 in", "1.5 in"])
@pytest.mark.parametrize("soil", ["sand", "loamy sand"])
def test_sand_on_sand_is_right_however_deep(soil: str, depth: str) -> None:
    """Sand as fine as the soil's own is no layer (UF/IFAS: level with the texture there)."""
    plan = asked(soil, depth)
    assert parts(plan) == {"sand"} and not warned(plan)
    assert not warned(asked(soil, depth, material="sand"))


@pytest.mark.full
@pytest.mark.parametrize("soil", ["sandy loam", "loam", "clay loam"])
def test_deep_sand_on_another_soil_is_a_layer(soil: str) -> None:
    """On unlike textures straight sand keeps to half an inch in all, and is warned of beyond."""
    assert "topsoil" in parts(asked(soil, "0.75 in"))
    assert warned(asked(soil, "0.75 in", material="sand"))


@pytest.mark.full
def test_seed_on_sand_has_a_mix_that_holds_water() -> None:
    """A seedbed of straight sand dries out between two waterings: seed keeps its own mix."""
    sown = plan_of({"lawn": {"soil": "sand"}, "leveling": {"depth": "0.75 in"}})
    assert "compost" in parts(sown)


def test_what_is_asked_for_is_spread() -> None:
    """The owner's own parts, the mix that is named, else the one that the rules choose."""
    own = {"leveling": {"parts": {"topsoil": 0.6, "sand": 0.4}}}
    assert mix_parts(setting_of(brief_of(own))) == {"topsoil": 0.6, "sand": 0.4}
    named = {"leveling": {"material": "compost", "depth": "0.25 in"}}
    assert mix_parts(setting_of(brief_of(named))) == {"compost": 1.0}
    chosen = setting_of(brief_of())
    assert dict(mix_parts(chosen)) == dict(choose_mix(chosen).parts)
    assert choose_mix(chosen).id == "topsoil_sand_compost"
    assert mix_parts(chosen) == {"topsoil": 0.5, "sand": 0.25, "compost": 0.25}


def test_halves_and_quarters_have_names() -> None:
    """As people order them; any other share is told in percent."""
    book = load_book()

    def shares(mix: str) -> list[str]:
        parts = dict(blend(book, mix).values)["parts"]
        return [part.key for part in parts.items]  # type: ignore[union-attr]

    sand = as_written("sand")
    half, quarter = phrases.half(material=sand).key, phrases.quarter(material=sand).key
    assert shares("topsoil_sand_compost") == [half, quarter, quarter]
    assert shares("topsoil_sand") == [half, half]
    assert shares("sand") == [phrases.share(share=Number(1.0, "percent"), material=sand).key]


def fact(name: Any) -> float:
    """A fact of the book, SI."""
    return plain().book.si(name)


def lawn(
    depth_mm: float = 10.0, soil: str = "clay_loam", grass: str = "tall_fescue", **sowing: Any
) -> ResolvedLawn:
    """A lawn of a grass on a soil, filled so deep."""
    setting = plain()
    bands = (Band(depth_mm, 1.0),) if depth_mm else ()
    return replace(
        setting,
        plot=replace(setting.plot, soil=soil),
        turf=replace(setting.turf, species=setting.book.species[grass]),
        levelling=replace(setting.levelling, bands=bands),
        sowing=replace(setting.sowing, **sowing),
    )


def by_water(setting: ResolvedLawn) -> ResolvedLawn:
    """A lawn beside a body of water."""
    site = setting.brief.site.model_copy(update={"water_body": True})
    return replace(setting, brief=setting.brief.model_copy(update={"site": site}))


def test_a_mix_is_straight_sand_above_its_share() -> None:
    """At four fifths it is not."""
    most = fact("topdress.straight_sand")
    assert not is_straight_sand(plain(), {"sand": most, "topsoil": 1 - most})
    assert is_straight_sand(plain(), {"sand": most + 0.01, "topsoil": 0.99 - most})
    assert not is_straight_sand(plain(), {"topsoil": 1.0})


def test_soils_of_sand_are_known_by_their_texture() -> None:
    """Sand and loamy sand; no peat, chalk or rubble, whatever lies in it."""
    book = plain().book
    alike = {soil for soil in book.soils if mostly_sand(book, soil)}
    assert alike == {"sand", "loamy_sand"}


def test_seed_asks_for_its_own_mix_where_it_goes_on_a_pass() -> None:
    """Not a second grass for one winter, nor plants, nor nothing."""
    assert sows_on_mix(lawn()) and not sows_on_mix(lawn(operation=None))
    assert not sows_on_mix(lawn(operation="plant"))
    assert not sows_on_mix(lawn(intent="winter_overseed"))


def conditions(setting: ResolvedLawn, mix: str = "sand") -> frozenset[str]:
    """What holds of a lawn for a mix."""
    return _conditions(setting)[mix]


def test_depth_is_shallow_to_its_limit_and_deep_beyond() -> None:
    """Half an inch is shallow."""
    limit = fact("topdress.sand_limit")
    for mm, word, other in ((limit, "shallow", "deep"), (limit + 0.1, "deep", "shallow")):
        found = conditions(lawn(mm))
        assert word in found and other not in found


def test_soil_and_habit_suit_each_mix_by_the_book() -> None:
    """Sand suits sandy soil and grass that creeps above and below; topsoil and sand the soil."""
    runners = lawn(soil="sandy_loam", grass="zoysia")
    assert {"soil_suits", "habit_suits", "coarse"} <= conditions(runners)
    assert not {"soil_suits", "habit_suits", "coarse", "alike"} & conditions(lawn())
    assert "habit_suits" not in conditions(runners, "topsoil_sand")
    assert "soil_suits" in conditions(runners, "topsoil_sand")
    assert "soil_suits" not in conditions(lawn(), "topsoil_sand")
    assert "coarse" in conditions(lawn(soil="loam")) and "alike" in conditions(lawn(soil="sand"))
    assert "seeded" in conditions(lawn()) and "seeded" not in conditions(lawn(operation=None))
    assert "beside_water" in conditions(by_water(lawn()))
    assert "beside_water" not in conditions(lawn()) and "open_ground" not in conditions(lawn())
    bare = replace(lawn(), turf=replace(lawn().turf, condition="bare"))
    assert "open_ground" in conditions(bare)


SAND, COMPOST = {"sand": 1.0}, {"compost": 1.0}


def test_deep_straight_sand_is_warned_of_on_another_soil() -> None:
    """From above its limit; on sand never; over clay at any depth as a layer."""
    limit = fact("topdress.sand_limit")
    deep = phrases.too_much_sand(
        limit=length_mm(limit),
        depth=length_mm(limit + 1),
        blend=blend(plain().book, "topsoil_sand"),
    )
    assert deep in _warnings(lawn(limit + 1), SAND)
    assert _warnings(lawn(limit), SAND) == (phrases.sand_over_clay(),)
    assert deep in _warnings(lawn(limit + 1, soil="loam"), SAND)
    assert phrases.sand_over_clay() not in _warnings(lawn(limit + 1, soil="loam"), SAND)
    assert _warnings(lawn(limit + 1, soil="sand"), SAND) == ()
    assert phrases.sand_over_clay() not in _warnings(lawn(soil="peat"), SAND)
    assert _warnings(lawn(limit + 1), {"sand": 0.5, "topsoil": 0.5}) == ()


def test_compost_is_warned_of_by_its_depth_and_beside_water() -> None:
    """Half of it in a mix goes twice as deep; none of either without compost."""
    most = fact("compost.year_depth_max")
    told = phrases.too_much_compost(depth=length_mm(most))
    assert _warnings(lawn(most), COMPOST) == ()
    assert _warnings(lawn(most + 0.1), COMPOST) == (told,)
    half = {"compost": 0.5, "topsoil": 0.5}
    assert _warnings(lawn(2 * most), half) == () and _warnings(lawn(2 * most + 0.2), half) == (
        told,
    )
    water = phrases.compost_beside_water()
    assert _warnings(by_water(lawn(1.0)), COMPOST) == (water,)
    assert water not in _warnings(by_water(lawn(1.0)), {"topsoil": 1.0})


def test_compost_is_warned_of_on_limy_ground(monkeypatch: pytest.MonkeyPatch) -> None:
    """It raises the pH further."""
    setting = lawn(1.0)
    monkeypatch.setattr(module, "too_alkaline", lambda brief, book: True)
    assert _warnings(setting, COMPOST) == (phrases.compost_on_high_ph(),)
    assert _warnings(setting, {"topsoil": 1.0}) == ()


def test_experts_are_told_of_where_they_disagree() -> None:
    """Of sand over a heavy soil, and of depth over living grass; nothing without a fill."""
    book = plain().book
    sand, depth = (
        book_message(book, f"cautions.{name}.text")
        for name in ("experts_on_sand", "experts_on_depth")
    )
    assert _experts(lawn(), SAND) == (sand, depth)
    assert _experts(lawn(), {"topsoil": 1.0}) == (depth,)
    assert _experts(lawn(soil="loam"), SAND) == (depth,)
    bare = replace(lawn(), turf=replace(lawn().turf, condition="bare"))
    assert _experts(bare, SAND) == (sand,)
    assert _experts(lawn(0.0), SAND) == ()


def test_a_choice_knows_its_share_of_compost_and_what_it_is_as_a_soil() -> None:
    """Without a fill nothing lies on the soil."""
    assert choose_mix(plain()).compost_share == 0.25
    own = MixChoice("own", as_written("own"), SAND, as_written("why"))
    assert own.compost_share == 0.0 and own.soil is None
    assert choose_mix(lawn(0.0)).soil is None and choose_mix(lawn()).soil is not None
