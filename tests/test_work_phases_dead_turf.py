"""Dead turf comes off before spots are sown or planted, and what they take follows their share."""

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

from planning import amount, first, kind, plan_of
from test_work_campaigns import days_of, plain
from told import told, typed
from turfplan.message import as_written
from turfplan.phrases import open_turf
from turfplan.units import LB_PER_1000FT2_G_M2
from turfplan.work.campaigns import Campaign, Session
from turfplan.work.drafts import Pass
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.phases.dead_turf import KILLS, dead_turf, leaves_mats
from turfplan.work.phases.seedbed import _opening

PATCH: dict[str, Any] = {
    "lawn": {"grass": "kentucky_bluegrass", "condition": "patchy", "thin_share": 0.2},
    "leveling": None,
    "seeding": {"intent": "patch"},
    "site": {"thin_cause": ["grubs"]},
}
PLUGS: dict[str, Any] = {
    "lawn": {"grass": "st_augustine", "condition": "patchy", "thin_share": 0.3},
    "place": {"postal_code": "34471", "state": "FL"},
    "leveling": None,
    "seeding": {"intent": "plant", "form": "plugs", "spacing": "12 in"},
    "site": {"thin_cause": ["insects"]},
}
M2_PER_1000_FT2 = 92.90304


@pytest.mark.full
def test_dead_mats_come_off_days_before_seed_at_the_rate_of_bare_ground() -> None:
    """A fifth of 5,000 ft2 at 2.5 lb/1000 ft2 of bluegrass, on soil freed of its mats."""
    plan = plan_of(PATCH)
    cleared, sown = first(plan, "clear_stand"), first(plan, "overseed")
    assert 0 <= (sown.start - cleared.end).days <= 7
    assert amount(sown, "sown area") == pytest.approx(M2_PER_1000_FT2, rel=0.001)
    assert amount(sown, "seed rate") / LB_PER_1000FT2_G_M2 == pytest.approx(2.5, rel=0.01)
    assert amount(sown, "seed") == pytest.approx(2.5 * 0.45359, rel=0.01)
    assert "down to the soil" in " ".join(told(line) for line in cleared.how)


@pytest.mark.full
def test_the_starter_of_patches_goes_where_the_seed_goes() -> None:
    """Its rate is that of any starter, its mass that of a fifth of the lawn."""
    plan = plan_of(PATCH, {"site": None, "feeding": {"clippings": "removed"}})
    for task in kind(plan, "starter_feed"):
        rate, whole = amount(task, "nitrogen"), amount(task, "nitrogen_total")
        assert whole == pytest.approx(rate * M2_PER_1000_FT2 / 1000, rel=0.01)
    assert kind(plan, "starter_feed")


@pytest.mark.full
def test_plugs_are_counted_for_the_share_that_is_dead() -> None:
    """A foot apart over 30 % of 5,000 ft2."""
    plan = plan_of(PLUGS)
    planted = first(plan, "plant")
    assert amount(planted, "plugs") == pytest.approx(1500, abs=2)
    assert first(plan, "clear_stand").end <= planted.start


@pytest.mark.full
@pytest.mark.parametrize(("lawn", "told_share"), [(PATCH, "25%"), (PLUGS, "50%")])
def test_a_share_that_nobody_said_is_assumed_aloud(lawn: dict[str, Any], told_share: str) -> None:
    """With the area it comes to; a share that was said is no assumption."""
    unsaid = plan_of(lawn, {"lawn": {"thin_share": None}})
    (line,) = [line for line in unsaid.assumptions if "thin, dead or bare" in told(line)]
    assert told_share in told(line).replace(" %", "%") and "ft²" in told(line)
    assert "thin_share" in typed(line)
    assert not [a for a in plan_of(lawn).assumptions if "thin, dead or bare" in told(a)]


@pytest.mark.full
def test_thin_turf_is_not_raked_off() -> None:
    """Shade leaves no mats: what only stands thin is overseeded as it is."""
    plan = plan_of({"site": {"thin_cause": ["shade"]}, "lawn": {"thin_share": 0.2}})
    assert not kind(plan, "clear_stand")
    assert any("the work still goes over all of it" in told(line) for line in plan.assumptions)


@pytest.mark.full
def test_moss_stays_until_the_week_of_the_seed() -> None:
    """Looked into in spring, where nothing is raked off; taken off within days of the seed of
    autumn."""
    grass = {"grass": "perennial_ryegrass", "condition": "patchy", "thin_share": 0.15}
    flat = {"leveling": {"depth": "0 in"}, "seeding": {"intent": "patch"}}
    plan = plan_of({"site": {"thin_cause": ["moss"]}, "lawn": grass, **flat})
    (look,) = [task for task in plan.tasks if task.id == "diagnose.moss"]
    assert not any("take the moss off" in told(line).lower() for line in look.how)
    assert any("until the week of the seed" in told(line) for line in look.how)
    (off,) = kind(plan, "clear_stand")
    sown = first(plan, "overseed").start
    assert timedelta(0) <= sown - off.start <= timedelta(7) < sown - look.start
    assert "moss" in told(off.title) and "moss off" in told(off.how[0])


def test_moss_is_raked_off_before_seed_that_waits_for_spring() -> None:
    """With the raking that opens the ground for it; no word of it where none stands."""
    asleep = Campaign("dormant", as_written(""), (), (), None, 0.0)
    sleeping = replace(
        asleep, sow_window=days_of("dormant_seed", date(2027, 11, 20), date(2027, 11, 20))
    )
    for causes in ((), ("moss",)):
        how = _opening(lawn("dormant", causes=causes), sleeping).how
        assert how is not None and (open_turf.moss_off() in how) is bool(causes)


@pytest.mark.parametrize(("intent", "advised"), [("none", True), ("overseed", False)])
def test_treated_moss_is_raked_out_once_it_is_black(intent: str, advised: bool) -> None:
    """Two to three weeks after the iron, whatever follows; the look says the same, and where
    nothing is sown seed is advised.
    """
    treated = date(2027, 3, 1)
    plan = plan_of(
        {
            "history": {"moss": [{"on": treated}]},
            "site": {"thin_cause": ["moss"]},
            "seeding": {"intent": intent},
        }
    )
    off = first(plan, "rake_moss")
    assert timedelta(14) <= off.start - treated <= timedelta(28)
    (look,) = [task for task in plan.tasks if task.id == "diagnose.moss"]
    keys = {line.key for line in look.how}
    assert "open_turf.moss_treated_off" in keys
    assert not keys & {"open_turf.moss_until_seed", "open_turf.moss_no_seed"}
    assert (open_turf.black_moss_seed() in off.how) is advised


@pytest.mark.parametrize(
    ("intent", "said"), [("none", "moss_no_seed"), ("overseed", "moss_until_seed")]
)
def test_moss_that_nobody_treated_lies_until_seed(intent: str, said: str) -> None:
    """Of a treatment a year ago nothing is left to rake."""
    past = {"moss": [{"on": date(2026, 2, 1)}]}
    site = {"thin_cause": ["moss"]}
    plan = plan_of({"history": past, "site": site, "seeding": {"intent": intent}})
    assert not kind(plan, "rake_moss")
    (look,) = [task for task in plan.tasks if task.id == "diagnose.moss"]
    assert f"open_turf.{said}" in {line.key for line in look.how}


def lawn(
    intent: Any = "overseed", form: str | None = None, causes: tuple[str, ...] = ()
) -> ResolvedLawn:
    """The plain lawn with another wish, and what made it thin."""
    setting = plain()
    site = setting.brief.site.model_copy(update={"thin_cause": causes})
    seeding = setting.brief.seeding.model_copy(update={"form": form})
    brief = setting.brief.model_copy(update={"site": site, "seeding": seeding})
    return replace(setting, brief=brief, sowing=replace(setting.sowing, intent=intent))


def test_mats_lie_where_turf_was_killed_or_patched_or_is_replaced_by_sod() -> None:
    """Not where it is thin alone, nor where nothing goes in that needs soil, nor on bare ground."""
    assert leaves_mats(lawn("patch")) and leaves_mats(lawn("plant", "sod"))
    assert not leaves_mats(lawn("plant", "plugs")) and not leaves_mats(lawn("overseed", "sod"))
    for cause in KILLS:
        assert leaves_mats(lawn(causes=("shade", cause)))
    assert not leaves_mats(lawn()) and not leaves_mats(lawn(causes=("shade",)))
    for intent in ("none", "winter_overseed", "dormant"):
        assert not leaves_mats(lawn(intent, causes=("grubs",)))
    bare = lawn("patch")
    assert not leaves_mats(replace(bare, turf=replace(bare.turf, condition="bare")))


def test_mats_come_off_the_day_before_what_covers_them() -> None:
    """The first pass of the session that is sown on, else the seed; over what is thin."""
    setting = lawn("patch")
    day = date(2027, 9, 1)
    layers = tuple(Pass(n, 2, 6.0, 1.0, True, 6.0, as_written("")) for n in (3, 4))
    sessions = tuple(Session(n, days_of("topdress", day, day), layers, n == 2) for n in (1, 2))
    sown = days_of("overseed", day, day)
    way = Campaign("autumn", as_written(""), (), sessions, sown, 0.0)
    (on_pass,) = dead_turf(setting, way)
    assert (on_pass.id, on_pass.anchor, on_pass.offset) == ("clear_stand.dead", "topdress.3", -1)
    assert on_pass.session == 2
    area = setting.plot.area_m2 * setting.sowing.share * 0.25
    assert setting.thin_share == 0.25
    assert on_pass.person_hours == round(area * setting.book.si("labour.dead_turf"), 2)
    (apart,) = dead_turf(setting, replace(way, sessions=sessions[:1]))
    assert (apart.anchor, apart.offset, apart.session) == ("sowing", -1, 0)
    assert list(dead_turf(setting, replace(way, sow_window=None))) == []
    assert list(dead_turf(lawn(), way)) == []


def test_dead_turf_is_off_days_before_sod_and_takes_its_hours() -> None:
    """A thousand square feet by hand take five hours, and not on the day of the sod, which waits
    for nobody; seed may go in on the same day.
    """
    changes = {
        "lawn": {"grass": "st_augustine", "thin_share": 0.2, "condition": "patchy"},
        "place": {"postal_code": "77057", "country": "US"},
        "leveling": {"depth": None, "lows": [{"depth": "0.5 in", "share": 0.05}]},
        "seeding": {"intent": "plant", "form": "sod"},
        "work": {"people": 1, "hours_per_day": 10},
    }
    plan = plan_of(changes)
    cleared, laid = first(plan, "clear_stand"), first(plan, "plant")
    assert cleared.person_hours == pytest.approx(5.0, rel=0.01)
    assert 1 <= (laid.start - cleared.end).days <= 7
    assert any(fact == "labour.dead_turf" for fact in cleared.facts)
