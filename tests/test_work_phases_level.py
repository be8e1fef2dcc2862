"""What a pass says: how compost is spread, and what each zone takes of it."""

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

from planning import brief_of
from resolved_lawns import lawn, setting_of
from test_work_season import drafted
from turfplan.message import Number, as_written, length_mm, sentences
from turfplan.phrases import level as phrases
from turfplan.site.outlines.shapes import LawnZone
from turfplan.units import CUBIC_YARD_M3
from turfplan.work.campaigns import Campaign, Session, campaigns
from turfplan.work.drafts import Draft, OpenDays, Pass
from turfplan.work.labour import person_hours, working_days
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.operations import LAST_PASS, PASS
from turfplan.work.phases.level import (
    _how,
    _of_zones,
    _watering_in,
    _why,
    level,
    long_pass,
    site_cautions,
    wished_spacing,
)

BEST = date(2027, 5, 1)


def session_of(
    *numbers: int, number: int = 1, sows: bool = False, days: int = 80, **layer: Any
) -> Session:
    """A session with passes of some numbers, that ends so many days after its best one."""
    name: Any = "topdress"
    window = OpenDays(
        name,
        "spring",
        BEST - timedelta(9),
        BEST + timedelta(days),
        BEST,
        as_written(""),
        as_written(""),
    )
    passes = tuple(
        replace(Pass(n, number, 6.0, 2.0, False, 6.0, as_written("")), **layer) for n in numbers
    )
    return Session(number, window, passes, sows)


def way(*sessions: Session) -> Campaign:
    """A campaign of these sessions."""
    return Campaign("autumn", as_written(""), (), sessions, None, 0.0)


def told(drafts: list[Draft]) -> list[tuple[str, int, int, str | None, int]]:
    """Id, session, position, anchor and offset of each."""
    return [(d.id, d.session, d.position, d.anchor, d.offset) for d in drafts]


def test_each_pass_is_worked_in_and_mown_before_from_the_second_on() -> None:
    """A session is looked at after its last; one alone has no number of its own."""
    setting = lawn()
    look = setting.days("wish.leaf_tips")
    found = level(setting, way(session_of(1, 2)), {1: 3.0, 2: 4.0}, 20)
    assert told(found) == [
        ("topdress.1", 1, 1, None, 0),
        ("incorporate.1", 1, 1, "topdress.1", 0),
        ("topdress.2", 1, 2, None, 0),
        ("incorporate.2", 1, 2, "topdress.2", 0),
        ("mow.2", 1, 2, "topdress.2", -1),
        ("inspect.leaf_tips", 1, 1, "topdress.2", look),
    ]
    best = BEST.toordinal()
    assert [d.ideal for d in found if d.operation == "topdress"] == [best, best + 20]
    assert [d.loose_m3 for d in found if d.operation == "topdress"] == [3.0, 4.0]
    assert [d.priority for d in found if d.operation == "topdress"] == [PASS, LAST_PASS]
    two = level(setting, way(session_of(1), session_of(2, number=2)), {1: 3.0, 2: 4.0}, 20)
    assert [d.id for d in two if d.operation == "inspect"] == [
        "inspect.leaf_tips.1",
        "inspect.leaf_tips.2",
    ]
    bare = lawn({"lawn": {"condition": "bare"}, "seeding": {"intent": "renovate"}})
    assert level(bare, way(session_of(1)), {1: 3.0}, 20) == []


def test_passes_before_seed_are_wished_back_from_it() -> None:
    """By the spacing; its own look comes with the seed."""
    found = level(lawn(), way(session_of(1, 2, 3, sows=True)), dict.fromkeys((1, 2, 3), 3.0), 20)
    spread = [(d.anchor, d.offset, d.ideal) for d in found if d.operation == "topdress"]
    assert spread == [("sowing", -40, None), ("sowing", -20, None), ("sowing", 0, None)]
    assert not [d for d in found if d.operation == "inspect"]


def test_warm_grass_takes_the_long_end_between_passes_where_its_season_has_room() -> None:
    """Never less than the least; cool grass, and seed, the least."""
    warm = lawn({"lawn": {"grass": "zoysia"}, "place": {"postal_code": "30606"}})
    longest = round(warm.book.fact("species.zoysia.pass_interval_min").high_si)
    assert longest > 20
    assert wished_spacing(warm, session_of(1, 2, days=2 * longest), 20) == longest
    assert wished_spacing(warm, session_of(1, 2, days=2 * longest - 1), 20) == longest - 1
    assert wished_spacing(warm, session_of(1, 2, days=20), 20) == 20
    assert wished_spacing(warm, session_of(1, 2, days=400, sows=True), 20) == 20
    assert wished_spacing(lawn(), session_of(1, 2, days=400), 20) == 20


def test_spreading_and_working_in_share_days_and_have_hours_of_their_own() -> None:
    """Days of both together; hours of the one by its area and load, of the other by its area."""
    setting = lawn()
    spread, drag, _ = level(setting, way(session_of(1, share=0.5)), {1: 9.0}, 20)
    area = setting.plot.area_m2 / 2
    operations = setting.book.operations
    hours = person_hours(setting, operations["topdress"], area, 9.0)
    dragging = person_hours(setting, operations["incorporate"], area)
    assert spread.person_hours == pytest.approx(hours, abs=0.011)
    assert drag.person_hours == pytest.approx(dragging, abs=0.006)
    days = working_days(setting, hours + dragging)
    assert spread.duration_days == drag.duration_days == days
    assert (spread.depth_mm, spread.loose_m3) == (6.0, 9.0)


def test_a_pass_of_more_days_than_a_week_end_is_told() -> None:
    """With the people who would do it in time."""
    setting = lawn()
    most = round(setting.book.si("work.pass_days_most"))

    def long(days: int) -> dict[str, Any]:
        draft = Draft("topdress.1", "topdress", "level", as_written(""), 1, duration_days=days)
        return {k: v for m in long_pass(setting, draft) for k, v in m.values}

    assert long(most) == {}
    assert long(most + 1) == {
        "n": most + 1,
        "people": 2,
        "needed": -(-2 * (most + 1) // most),
        "most": most,
    }
    bare = lawn({"lawn": {"condition": "bare"}, "seeding": {"intent": "renovate"}})
    spread = Draft("topdress.1", "topdress", "level", as_written(""), 1, duration_days=most + 1)
    said = [m.key for where in (setting, bare) for m in long_pass(where, spread)]
    assert said == ["level.long_pass", "ground_fill.long_lift"]


def test_zones_are_told_what_they_take_of_a_pass_loose() -> None:
    """Where there are several."""
    a, b = as_written("a"), as_written("b")
    zone = LawnZone(a, 100.0, 0.5, None, None, None)
    setting = lawn()
    two = replace(setting, plot=replace(setting.plot, zones=(zone, replace(zone, name=b))))
    layer = session_of(1, zones=((a, 0.5), (b, 1.5))).passes[0]

    def volumes(base: ResolvedLawn, of: Pass = layer) -> list[float]:
        return [dict(m.values)["volume"].value for m in _of_zones(base, of, 3.0).items]  # type: ignore[union-attr]

    assert volumes(two) == pytest.approx([0.75, 2.25], abs=CUBIC_YARD_M3 / 100)
    assert sum(volumes(two, layer)) == pytest.approx(3.0, abs=CUBIC_YARD_M3 / 200)
    one = replace(setting, plot=replace(setting.plot, zones=(zone,)))
    assert volumes(one) == volumes(setting) == volumes(two, replace(layer, zones=())) == []
    assert volumes(two, replace(layer, settled_m3=0.0)) == []


def test_water_after_a_pass_goes_by_rain_law_or_grass() -> None:
    """As far as there is any."""
    setting = lawn()
    gap = setting.book.fact("water.recover_gap")
    free = phrases.water_in_grass(
        least=Number(gap.low_si), most=Number(gap.high_si), n=setting.days("water.recover_days")
    )
    bare, seeded = (session_of(1, seeded=each).passes[0] for each in (False, True))
    cold = phrases.water_in_cold()
    assert _watering_in(setting, bare) == sentences(free, cold)
    assert _watering_in(setting, seeded) == phrases.water_in_seeded()
    law = lawn({"water": {"allowed_weekdays": ["tue"]}})
    by_law = phrases.water_in_law(n=setting.days("water.recover_days"))
    assert _watering_in(law, bare) == sentences(by_law, cold)
    dry = setting.brief.water.model_copy(update={"possible": False})
    brief = setting.brief.model_copy(update={"water": dry})
    dried = replace(setting, brief=brief)
    assert _watering_in(dried, bare) == phrases.water_in_rain()
    assert _watering_in(dried, seeded) == phrases.water_in_seeded_rain()


def test_one_pass_is_told_as_one() -> None:
    """Several by their number."""
    assert _why(lawn(), way(session_of(1))).key == phrases.one_pass(depth=length_mm(1)).key
    several = _why(lawn(), way(session_of(1), session_of(2, number=2)))
    assert dict(several.values)["n"] == 2


def test_a_pass_that_is_deeper_in_hollows_says_so() -> None:
    """What the rest gets, or that it gets nothing."""
    setting = lawn({"leveling": {"parts": {"topsoil": 0.5, "sand": 0.5}}})
    even, rest, alone = (session_of(1, rest_mm=mm).passes[0] for mm in (None, 2.0, 0.0))
    words = {"heaps": as_written("heaps")}
    assert _how(setting, even, 1.0, words) is None
    found = [_how(setting, layer, 1.0, words) for layer in (rest, alone)]
    assert [steps[0].key for steps in found if steps] == [
        phrases.hollows_and_rest(depth=length_mm(1), rest=length_mm(1)).key,
        phrases.hollows_only().key,
    ]


def test_a_site_is_minded_at_the_spreading() -> None:
    """Septic fields and houses; nothing where there is none."""
    assert site_cautions(lawn()) == ()
    assert site_cautions(lawn({"site": {"septic_field": True}})) == (phrases.septic_field(),)
    assert len(site_cautions(lawn({"site": {"building": True}}))) == 1


def test_compost_is_spread_and_worked_in_as_any_mix() -> None:
    """Only what must hold is another one for what is damp; the steps are those of the book."""
    _, _, drafts = drafted()
    spread = drafts["topdress.1"]
    assert spread.how is None and spread.go == phrases.compost_pass_go()
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
    assert [volume.value for volume in volumes] == pytest.approx([2.2, 1.1], abs=0.01)  # type: ignore[union-attr]
    assert told[0] == phrases.zone_part(zone=FRONT, volume=volumes[0])  # type: ignore[arg-type]


def test_one_zone_or_nothing_spread_says_nothing_of_zones() -> None:
    """There is nothing to tell apart."""
    setting, layer = zoned()
    one = replace(setting, plot=replace(setting.plot, zones=setting.plot.zones[:1]))
    assert not _of_zones(one, layer, 3.3)
    assert not _of_zones(setting, replace(layer, zones=()), 3.3)
    assert not _of_zones(setting, replace(layer, settled_m3=0.0), 0.0)
