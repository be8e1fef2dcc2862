"""Parts of a lawn are left out, filled thinner or sown with their own grass, and all follows."""

from typing import Any

import pytest

from planning import brief_of, first, plan_of
from turfplan.errors import TurfplanError
from turfplan.files.reading.book import load_book
from turfplan.message import as_written
from turfplan.records.plan import Plan
from turfplan.work.drafts import Band
from turfplan.work.parts import (
    PlotPart,
    bands_beside,
    bands_without,
    cored_share,
    parts_of,
    said_of,
    sown_share,
)

AREA_M2 = 5000 * 0.09290304
# A pass is rounded up to a hundredth of a cubic yard.
STEP_M3 = 0.01 * 0.764554857984


def with_parts(*parts: dict[str, Any], **more: Any) -> Plan:
    """The plain lawn with parts."""
    return plan_of({"lawn": {"part": list(parts)}}, more)


def amount(plan: Plan, operation: str, item: str) -> float:
    """One amount of the first task of an operation."""
    return next(a.value for a in first(plan, operation).amounts if a.item == item)


@pytest.fixture(scope="module")
def whole() -> Plan:
    """The plain lawn."""
    return plan_of()


BOOK = load_book()


def part_of_kind(kind: Any, most_mm: float | None, share: float = 0.25) -> PlotPart:
    """A part of the lawn that bears so much fill."""
    return PlotPart(as_written(kind), kind, share, most_mm, None, None)


@pytest.mark.parametrize(
    ("kind", "leveling", "most"),
    [
        ("septic_field", {}, 0.0),
        ("dog_run", {}, 0.0),
        ("shade", {}, None),
        ("steep", {}, "site.steep_fill_most"),
        ("tree_roots", {}, "survey.root_fill"),
        ("tree_roots", {"material": "sand"}, "site.root_fill_most"),
        ("tree_roots", {"parts": {"sand": 1.0}}, "site.root_fill_most"),
        ("tree_roots", {"parts": {"sand": 0.5, "topsoil": 0.5}}, "survey.root_fill"),
    ],
)
def test_a_part_bears_so_much_fill(kind: str, leveling: dict[str, Any], most: Any) -> None:
    """By its kind, over roots by what is spread."""
    part = {"lawn": {"part": [{"kind": kind, "area": "500 ft2"}]}, "leveling": leveling}
    (found,) = parts_of(brief_of(part), BOOK, 5000 * 0.09290304)
    assert found.share == pytest.approx(0.1)
    assert found.most_mm == (BOOK.si(most) if isinstance(most, str) else most)


def test_a_share_goes_before_an_area_and_a_name_before_a_kind() -> None:
    """As the brief tells it."""
    named = {"kind": "shade", "share": 0.2, "name": "the maple", "sun_hours": 5}
    other = {"kind": "steep", "share": 0.1, "grass": "tall_fescue"}
    maple, steep = parts_of(brief_of({"lawn": {"part": [named, other]}}), BOOK, 100.0)
    assert (str(maple.name), maple.share, maple.sun_h, maple.grass) == ("the maple", 0.2, 5, None)
    assert (steep.name.key, steep.share, steep.grass) == ("parts.steep", 0.1, "tall_fescue")


def test_what_is_done_about_a_part_is_told() -> None:
    """Its fill where there is some, its seed where something is sown, and what to mind there."""

    def said(kind: str, most: float | None, depth: float, *, sows: bool = False) -> list[str]:
        found = said_of(part_of_kind(kind, most), BOOK, 400.0, depth, sows=sows)
        return [m.key.rpartition(".")[2] for m in found]

    assert said("steep", 5.0, 20.0)[0] == "thinner" and said("steep", 5.0, 0.0)[0] != "thinner"
    assert said("dog_run", 0.0, 20.0, sows=True)[:2] == ["unfilled", "unsown"]
    assert "unsown" not in said("dog_run", 0.0, 20.0) and "unfilled" not in said(
        "dog_run", 0.0, 0.0
    )
    assert said("shade", None, 20.0, sows=True) == []
    thinner = said_of(part_of_kind("steep", 5.0), BOOK, 400.0, 20.0, sows=False)[0]
    values = dict(thinner.values)
    assert (values["area"].value, values["share"].value) == (100.0, 0.25)  # type: ignore[union-attr]
    deep = [
        said_of(part_of_kind("steep", m), BOOK, 400.0, 20.0, sows=False)[0] for m in (5.0, 30.0)
    ]
    assert [dict(m.values)["depth"].value for m in deep] == [5.0, 20.0]  # type: ignore[union-attr]


def test_what_may_be_sown_and_cored_is_the_rest() -> None:
    """Of parts that take no seed, or no tines."""
    parts = [
        part_of_kind(kind, None, share)
        for kind, share in (("septic_field", 0.1), ("dog_run", 0.2), ("tree_roots", 0.3))
    ]
    assert sown_share(parts) == pytest.approx(0.7) and cored_share(parts) == pytest.approx(0.6)
    assert sown_share([]) == cored_share([]) == 1.0


@pytest.mark.full
def test_septic_field_takes_no_fill_no_seed_and_no_tines(whole: Plan) -> None:
    """A fifth of the lawn is left out of volume, seed, hours and tines."""
    plan = with_parts({"kind": "septic_field", "share": 0.2})
    assert amount(plan, "topdress", "volume") == pytest.approx(
        0.8 * amount(whole, "topdress", "volume"), abs=STEP_M3
    )
    assert amount(plan, "overseed", "seed") == pytest.approx(
        0.8 * amount(whole, "overseed", "seed")
    )
    assert first(plan, "topdress").person_hours < first(whole, "topdress").person_hours
    assert first(plan, "overseed").person_hours < first(whole, "overseed").person_hours
    assert first(plan, "core_aerate").person_hours < first(whole, "core_aerate").person_hours
    assert any("1 in of water a week" in str(line) for line in plan.assumptions)


@pytest.mark.full
def test_area_and_share_say_the_same() -> None:
    """A part may be told by its area."""
    by_share = with_parts({"kind": "dog_run", "share": 0.1})
    by_area = with_parts({"kind": "dog_run", "area": "500 ft2"})
    assert amount(by_share, "overseed", "seed") == pytest.approx(
        amount(by_area, "overseed", "seed")
    )


@pytest.mark.full
def test_roots_bear_an_inch() -> None:
    """Over roots the fill stays at an inch of soil where the rest gets more."""
    deep = {"leveling": {"depth": "1.5 in"}, "seeding": {"intent": "none"}}
    plan, rest = with_parts({"kind": "tree_roots", "share": 0.5}, **deep), plan_of(deep)
    volumes = [
        sum(
            a.value
            for t in p.tasks
            for a in t.amounts
            if t.operation == "topdress" and a.item == "volume"
        )
        for p in (plan, rest)
    ]
    assert volumes[0] == pytest.approx(volumes[1] * (0.5 * 1.5 + 0.5 * 1.0) / 1.5, rel=1e-3)


@pytest.mark.full
def test_shaded_part_has_its_own_seed() -> None:
    """Bluegrass in the sun, what bears shade beneath the trees: two lines of seed."""
    plan = with_parts(
        {"kind": "shade", "share": 0.25, "name": "under the maple"},
        lawn={
            "grass": "kentucky_bluegrass",
            "part": [{"kind": "shade", "share": 0.25, "name": "under the maple"}],
        },
        place={"postal_code": "55401"},
    )
    names = [str(line.name) for line in plan.order if line.item == "seed"]
    assert names == ["Kentucky bluegrass seed", "fine fescue seed for under the maple"]


@pytest.mark.full
def test_dark_part_is_left_unsown() -> None:
    """Two hours of sun bear no grass."""
    plan = with_parts({"kind": "shade", "share": 0.3, "sun_hours": 2})
    assert amount(plan, "overseed", "seed") == pytest.approx(
        0.7 * amount(plan_of(), "overseed", "seed")
    )


@pytest.mark.full
def test_steep_part_is_covered_with_straw() -> None:
    """Straw is bought for the steep part alone."""
    plan = with_parts({"kind": "steep", "area": "1000 ft2"})
    assert amount(plan, "cover", "straw") == 1


@pytest.mark.full
def test_septic_field_without_a_size_is_asked() -> None:
    """Where nobody says how large it is, the plan asks and says what it counts until then."""
    plan = plan_of({"site": {"septic_field": True}})
    assert any("Where is the septic field?" in str(line) for line in plan.cautions)
    told = plan_of(
        {"site": {"septic_field": True}, "lawn": {"part": [{"kind": "septic_field", "share": 0.1}]}}
    )
    assert not any("Where is the septic field?" in str(line) for line in told.cautions)


@pytest.mark.parametrize(
    ("parts", "words"),
    [
        ([{"kind": "steep"}], "share or its area"),
        ([{"kind": "steep", "share": 0.5}, {"kind": "shade", "share": 0.5}], "less than 1"),
        ([{"kind": "shade", "share": 0.5, "grass": "grama"}], "unknown grass"),
        ([{"kind": "steep", "area": "6000 ft2"}], "whole lawn"),
    ],
)
def test_parts_that_make_no_sense(parts: list[dict[str, Any]], words: str) -> None:
    """A part needs one size, all of them leave some lawn, and its grass is one of the book."""
    with pytest.raises(TurfplanError, match=words):
        plan_of({"lawn": {"part": parts}})


def test_the_largest_band_gives_way_to_parts_that_bear_less() -> None:
    """A tenth at 25 mm and the rest at 12: a slope of a fifth bears 10 mm, an eighth nothing; what
    bears as much as the lawn changes nothing, nor do parts without a limit.
    """
    bands = (Band(25.0, 0.1), Band(12.0, 0.9))

    def part(share: float, most_mm: float | None) -> PlotPart:
        return PlotPart(as_written("part"), "steep", share, most_mm, None, None)

    assert bands_beside((), [part(0.2, 10.0)]) == ()
    assert bands_beside(bands, ()) == bands_beside(bands, [part(0.2, None)]) == bands
    assert bands_beside(bands, [part(0.2, 12.0)]) == bands
    held = bands_beside(bands, [part(0.2, 10.0), part(0.125, 0.0)])
    assert [(band.depth_mm, round(band.share, 6)) for band in held] == [
        (25.0, 0.1),
        (12.0, 0.575),
        (10.0, 0.2),
    ]
    assert held[-1].zone == as_written("part")


def test_drawn_bands_give_way_alike_or_where_the_part_lies() -> None:
    """Two zones of half the lawn: a tenth of the lawn comes off both alike, or off its own zone;
    what bears 10 mm takes its share of what is deeper.
    """
    front, back = as_written("front"), as_written("back")
    bands = (Band(25.0, 0.5, back), Band(6.0, 0.5, front))
    shares = {front: 0.5, back: 0.5}

    def held(most_mm: float, zone: str | None) -> list[tuple[float, float]]:
        name, of = as_written("part"), as_written(zone) if zone else None
        part = PlotPart(name, "steep", 0.1, most_mm, None, None, of)
        found = bands_without(bands, [part], shares)
        return [(band.depth_mm, round(band.share, 6)) for band in found]

    assert held(0.0, None) == [(25.0, 0.45), (6.0, 0.45)]
    assert held(0.0, "back") == [(25.0, 0.4), (6.0, 0.5)]
    assert held(10.0, None) == [(25.0, 0.45), (10.0, 0.05), (6.0, 0.5)]
    parts = [PlotPart(front, "dog_run", share, 0.0, None, None) for share in (0.1, 0.2)]
    assert [round(b.share, 6) for b in bands_without(bands, parts, shares)] == [0.35, 0.35]
    assert held(10.0, "front") == [(25.0, 0.5), (6.0, 0.5)]
