"""What is assumed of zones and of loose soil, and said."""

from typing import Any

import pytest

from planning import brief_of
from test_work_campaigns import setting_of
from turfplan.message import Number, Quantity, as_written, length_mm
from turfplan.phrases import lawn as phrases
from turfplan.site.outlines.shapes import LawnZone
from turfplan.work.assumptions import _of_zones

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
