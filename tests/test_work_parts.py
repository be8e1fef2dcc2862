"""Parts of a lawn are left out, filled thinner or sown with their own grass, and all follows."""

from typing import Any

import pytest

from planning import first, plan_of
from turfplan.errors import TurfplanError
from turfplan.message import as_written
from turfplan.records.plan import Plan
from turfplan.work.drafts import Band
from turfplan.work.parts import PlotPart, bands_beside

AREA_M2 = 5000 * 0.09290304


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


def test_septic_field_takes_no_fill_no_seed_and_no_tines(whole: Plan) -> None:
    """A fifth of the lawn is left out of volume, seed, hours and tines."""
    plan = with_parts({"kind": "septic_field", "share": 0.2})
    assert amount(plan, "topdress", "volume") == pytest.approx(
        0.8 * amount(whole, "topdress", "volume")
    )
    assert amount(plan, "overseed", "seed") == pytest.approx(
        0.8 * amount(whole, "overseed", "seed")
    )
    assert first(plan, "topdress").person_hours < first(whole, "topdress").person_hours
    assert first(plan, "overseed").person_hours < first(whole, "overseed").person_hours
    assert first(plan, "core_aerate").person_hours < first(whole, "core_aerate").person_hours
    assert any("1 in of water a week" in str(line) for line in plan.assumptions)


def test_area_and_share_say_the_same() -> None:
    """A part may be told by its area."""
    by_share = with_parts({"kind": "dog_run", "share": 0.1})
    by_area = with_parts({"kind": "dog_run", "area": "500 ft2"})
    assert amount(by_share, "overseed", "seed") == pytest.approx(
        amount(by_area, "overseed", "seed")
    )


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


def test_dark_part_is_left_unsown() -> None:
    """Two hours of sun bear no grass."""
    plan = with_parts({"kind": "shade", "share": 0.3, "sun_hours": 2})
    assert amount(plan, "overseed", "seed") == pytest.approx(
        0.7 * amount(plan_of(), "overseed", "seed")
    )


def test_steep_part_is_covered_with_straw() -> None:
    """Straw is bought for the steep part alone."""
    plan = with_parts({"kind": "steep", "area": "1000 ft2"})
    assert amount(plan, "cover", "straw") == 1


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
