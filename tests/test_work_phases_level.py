"""What a pass says: how compost is spread, and what each zone takes of it."""

from dataclasses import replace

import pytest

from planning import brief_of
from test_work_campaigns import setting_of
from test_work_season import drafted
from turfplan.book.words import book_messages
from turfplan.message import Quantity, as_written
from turfplan.phrases import level as phrases
from turfplan.site.outlines.shapes import LawnZone
from turfplan.work.campaigns import campaigns
from turfplan.work.drafts import Pass
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.phases.level import _of_zones


def test_compost_is_spread_in_its_own_way_and_worked_in_as_any_mix() -> None:
    """The first step of the book is another one for what is damp; all others stay."""
    setting, _, drafts = drafted()
    usual = book_messages(setting.book, "operations.topdress.how")
    assert len(usual) > 2
    assert drafts["topdress.1"].how == (phrases.compost_spread(), *usual[1:])
    plain = {"leveling": {"parts": {"topsoil": 0.5, "sand": 0.5}}}
    assert drafted(plain)[2]["topdress.1"].how is None


FRONT, BACK = as_written("front"), as_written("back")


def zoned() -> tuple[ResolvedLawn, Pass]:
    """A lawn of two zones, and a pass of three settled cubic metres on it."""
    setting = setting_of(brief_of())
    zones = tuple(LawnZone(name, 200.0, 0.5, None, None, None) for name in (FRONT, BACK))
    layer = next(s for c in campaigns(setting)[0] for s in c.sessions).passes[0]
    plot = replace(setting.plot, zones=zones)
    shares = ((FRONT, 2.0), (BACK, 1.0))
    return replace(setting, plot=plot), replace(layer, settled_m3=3.0, zones=shares)


def test_each_zone_takes_its_part_of_a_pass_loose() -> None:
    """Three settled cubic metres come as 3.3 loose ones: two thirds here, one there."""
    setting, layer = zoned()
    told = _of_zones(setting, layer, 3.3).items
    volumes = [dict(part.values)["volume"] for part in told]  # type: ignore[union-attr]
    assert [volume.value for volume in volumes] == pytest.approx([2.2, 1.1])  # type: ignore[union-attr]
    assert told[0] == phrases.zone_part(
        zone=FRONT, volume=Quantity(2.0 * (3.3 / 3.0), "volume", us_step=0.05, metric_step=0.05)
    )


def test_one_zone_or_nothing_spread_says_nothing_of_zones() -> None:
    """There is nothing to tell apart."""
    setting, layer = zoned()
    one = replace(setting, plot=replace(setting.plot, zones=setting.plot.zones[:1]))
    assert not _of_zones(one, layer, 3.3)
    assert not _of_zones(setting, replace(layer, zones=()), 3.3)
    assert not _of_zones(setting, replace(layer, settled_m3=0.0), 0.0)
