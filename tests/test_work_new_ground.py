"""Ground without living grass: filled in lifts and sown within weeks, or killed first; nothing of
turf is done to it.
"""

from datetime import date, timedelta
from functools import cache
from typing import Any

import pytest

from planning import amount, first, kind, plan_of
from told import all_told, told
from turfplan.audit.case import series_days
from turfplan.calendar_days import WEEKDAYS
from turfplan.records.plan import Plan

OF_TURF = ("mow_low", "dethatch", "core_aerate", "topdress", "incorporate", "mow", "dry_material")
RENOVATE = {"leveling": {"depth": "0 in"}, "seeding": {"intent": "renovate"}}
TEST = {"on": date(2026, 11, 1), "ph": 5.4, "acidity_cmol_kg": 7.0, "potassium": "low"}


def bare(depth: str, **changes: Any) -> dict[str, Any]:
    """Bare ground that is filled so deep and sown anew, with changes."""
    return {
        "lawn": {"condition": "bare", **changes.pop("lawn", {})},
        "leveling": {"depth": depth},
        "seeding": {"intent": "renovate", **changes.pop("seeding", {})},
        **changes,
    }


SAN_DIEGO = bare("1 in", place={"postal_code": "92104"}, seeding={"intent": "plant", "form": "sod"})
PERTH = bare(
    "25 mm",
    lawn={"grass": "bermuda_common", "soil": "sand"},
    place={"postal_code": None, "country": "AU", "latitude": -31.95, "longitude": 115.86},
    seeding={"intent": "plant", "form": "sprigs"},
    season={"from": date(2027, 7, 1)},
)
DUNEDIN = {
    **RENOVATE,
    "lawn": {"grass": "fine_fescue", "condition": "patchy"},
    "place": {"postal_code": None, "country": "NZ", "latitude": -45.87, "longitude": 170.5},
    "season": {"from": date(2027, 10, 1)},
}
LAWNS: dict[str, dict[str, Any]] = {
    "four inches": bare("4 in"),
    "nothing to fill": bare("0 in"),
    "under sod": SAN_DIEGO,
    "under sprigs": PERTH,
    "nine inches": bare("9 in", lawn={"area": "1500 ft2"}),
    "made anew": RENOVATE,
    "made anew and filled": {**RENOVATE, "leveling": {"depth": "1 in"}},
    "made anew in the south": DUNEDIN,
    "filled and left": bare("1 in", seeding={"intent": "none"}),
}


@cache
def plan(name: str) -> Plan:
    """The plan of one of these lawns."""
    made = plan_of(LAWNS[name])
    assert made.conflict is None
    return made


def new_grass(made: Plan) -> date | None:
    """The day of the seed or of the plants, None where there are none."""
    return next((t.start for t in made.tasks if t.plays("sowing", "planting")), None)


@pytest.mark.full
@pytest.mark.parametrize("name", LAWNS)
def test_nothing_of_turf_is_done_to_ground_without_grass(name: str) -> None:
    """No low cut, no holes, no dragging, nothing dry as bone, no word of living turf."""
    made = plan(name)
    assert not [t.id for t in made.tasks if t.operation in OF_TURF]
    sown = new_grass(made) or date.max
    ahead = [t for t in made.tasks if t.start <= sown]
    said = " ".join(told(text) for t in ahead for text in (t.title, t.why, *t.how))
    reasons = " ".join(told(text) for text in made.campaign_reason)
    assert "tips" not in said and "Living turf" not in reasons + said


@pytest.mark.full
@pytest.mark.parametrize("name", LAWNS)
def test_nothing_is_fed_cut_or_guarded_before_there_is_grass(name: str) -> None:
    """Feeding, preventer and mowing wait for the new grass; nothing sown asks for none."""
    made = plan(name)
    sown = new_grass(made)
    early = [
        t.id
        for t in made.tasks
        if (t.plays("feeding", "first_cut") or t.operation in ("preemergent", "last_mow"))
        and (sown is None or t.start < sown)
    ]
    assert not early
    # The starter goes with the seed; the first feeding of the year comes once it is up.
    for task in kind(made, "feed_nitrogen"):
        assert sown is not None and task.start >= sown + timedelta(14)


@pytest.mark.full
def test_four_inches_go_on_in_the_weeks_before_the_seed() -> None:
    """Two lifts, each settled, the last two weeks before a final grade; seed within four weeks."""
    made = plan("four inches")
    lifts, grade, seed = kind(made, "fill"), first(made, "grade"), first(made, "seed")
    assert [round(amount(t, "depth"), 1) for t in lifts] == [50.8, 50.8]
    assert all(amount(t, "volume") > 0 for t in lifts)
    assert first(made, "till").end <= lifts[0].start
    assert timedelta(14) <= grade.start - lifts[-1].end <= timedelta(28)
    assert seed.start - lifts[-1].end <= timedelta(28) and seed.start.year == 2027
    assert told(made.order[0].name) == "screened topsoil"


@pytest.mark.full
def test_each_lift_is_soaked_and_no_grass_below_is_watered() -> None:
    """What is filled in a day is watered through on it, in as many runs as the ground takes it in;
    no fortnight of recovery follows."""
    made = plan("four inches")
    stages = {t.stage.id for t in made.tasks if t.stage is not None}
    assert not {"settle", "recover"} & stages
    runs = [t for t in made.tasks if t.stage is not None and t.stage.id == "settle_fill"]
    soaked = {day for run in runs for day in series_days(run)}
    assert soaked == {
        lift.start + timedelta(n)
        for lift in kind(made, "fill")
        for n in range((lift.end - lift.start).days + 1)
        if WEEKDAYS[(lift.start + timedelta(n)).weekday()] in ("sat", "sun")
    }


@pytest.mark.full
def test_an_inch_under_sod_is_one_lift_in_the_season_of_the_sod() -> None:
    """It is not split over two seasons: sod follows the fill within four weeks."""
    made = plan("under sod")
    (lift,) = kind(made, "fill")
    assert timedelta(7) <= first(made, "plant").start - lift.end <= timedelta(28)


@pytest.mark.full
def test_the_fill_does_not_hold_the_plants_back() -> None:
    """In Perth sprigs go in on the same days with an inch of fill and without any."""
    without = plan_of({**PERTH, "leveling": {"depth": None}})
    late = first(plan("under sprigs"), "plant").start - first(without, "plant").start
    assert abs(late) <= timedelta(7)


@pytest.mark.full
def test_deep_fill_settles_for_a_season_under_a_cover() -> None:
    """Nine inches lie two months at least, covered, before the grade; seed keeps its season."""
    made = plan("nine inches")
    last, cover, grade = kind(made, "fill")[-1], first(made, "nurse_cover"), first(made, "grade")
    assert timedelta(0) <= cover.start - last.end <= timedelta(7)
    assert grade.start - last.end >= timedelta(60)
    assert first(made, "seed").start.month in (8, 9)


@pytest.mark.full
def test_filled_ground_that_is_not_sown_is_covered() -> None:
    """Nothing is promised of grass that is not there: no touch-up, no check, a cover."""
    made = plan("filled and left")
    operations = {t.operation for t in made.tasks}
    assert "nurse_cover" in operations and not {"touch_up", "grade", "settle_check"} & operations


@pytest.mark.full
def test_a_fill_that_takes_weeks_is_covered() -> None:
    """What one person fills in months is covered, on a slope sooner; a few week-ends are not."""
    alone = {"work": {"people": 1, "hours_per_day": 5}}
    small = bare("2 in", lawn={"area": "600 ft2"})
    steep: dict[str, Any] = {"site": {"slope_percent": 12}}
    assert kind(plan_of(bare("4 in", lawn={"area": "6000 ft2"}), alone), "nurse_cover")
    assert not kind(plan_of(small, alone), "nurse_cover")
    assert kind(plan_of(bare("4 in", lawn={"area": "900 ft2"}), alone, steep), "nurse_cover")


def days_of(made: Plan, *names: str) -> set[tuple[date, date]]:
    """The first and last days of tasks of a plan."""
    found = {task.id: (task.start, task.end) for task in made.tasks}
    return {found[name] for name in names}


PITTSBURGH: dict[str, Any] = {
    "lawn": {"area": "2000 ft2"},
    "place": {"postal_code": "15222"},
}


@pytest.mark.parametrize("percent", [9, 12, 18])
def test_no_slope_lies_open_overnight(percent: int) -> None:
    """What is loosened is filled and covered on the same days, and what is graded is sown and
    covered; the mat of a steep slope is bought for the fill and pegged again over the seed."""
    made = plan_of(
        bare("1 in", **PITTSBURGH, seeding={"intent": "overseed"}, site={"slope_percent": percent})
    )
    assert len(days_of(made, "till", "fill.1", "nurse_cover")) == 1
    assert len(days_of(made, "grade", "seed", "cover", "starter_feed")) == 1
    settled = first(made, "grade").start - first(made, "fill").end
    assert settled >= timedelta(7)
    mats = [line for line in made.order if line.item == "mat"]
    assert [line.tasks for line in mats] == ([("collect.covers",)] if percent >= 15 else [])
    assert all(line.deliver_by <= first(made, "nurse_cover").start for line in mats)
    bales = [line for line in made.order if line.item == "straw"]
    assert bool(bales) is (percent < 15)


@pytest.mark.full
def test_a_slope_that_is_sown_without_a_fill_is_loosened_the_same_day() -> None:
    """It is not left to settle; sod follows the grade within a day, and level ground settles."""
    sown = bare("0 in", **PITTSBURGH, seeding={"intent": "overseed"})
    slope: dict[str, Any] = {"site": {"slope_percent": 12}}
    assert len(days_of(plan_of(sown, slope), "till", "grade", "seed", "cover")) == 1
    level = plan_of(sown)
    assert first(level, "grade").start - first(level, "till").end >= timedelta(7)
    sod = plan_of(bare("0 in", **PITTSBURGH, seeding={"intent": "plant"}), slope)
    assert len(days_of(sod, "till", "grade")) == 1
    assert first(sod, "plant").start - first(sod, "grade").end <= timedelta(1)


@pytest.mark.full
def test_each_lift_on_a_slope_has_its_cover() -> None:
    """A lift settles under straw until the next one goes on, here at Christchurch in metric; what a
    thatch sponge leaves is stripped no sooner than it is filled."""
    christchurch = {
        "lawn": {"area": "150 m2"},
        "place": {"postal_code": None, "latitude": -43.5, "longitude": 172.6, "country": "NZ"},
        "seeding": {"intent": "overseed"},
        "site": {"slope_percent": 12},
        "season": {"from": date(2027, 2, 1)},
    }
    made = plan_of(bare("130 mm", **christchurch))
    for lift, cover in (("fill.1", "nurse_cover.lift.1"), ("fill.2", "nurse_cover")):
        assert len(days_of(made, lift, cover)) == 1
    stripped = plan_of(
        {
            **PITTSBURGH,
            "lawn": {"area": "2000 ft2", "condition": "thin", "thatch": "1.6 in"},
            "leveling": {"depth": "1 in"},
            "seeding": {"intent": "renovate"},
            "site": {"slope_percent": 12},
        }
    )
    assert len(days_of(stripped, "clear_stand", "till", "fill.1", "nurse_cover")) == 1


@pytest.mark.full
def test_hollows_of_bare_ground_are_filled_and_not_lifted() -> None:
    """There is no turf to lift: three inches in one place are a lift like the rest."""
    lows = [{"depth": "3 in", "share": 0.1}, {"depth": "0.5 in", "share": 0.9}]
    made = plan_of(bare("1 in"), {"leveling": {"depth": None, "lows": lows}})
    assert kind(made, "fill") and not kind(made, "lift_and_fill")


@pytest.mark.full
def test_bare_ground_is_seeded_not_overseeded() -> None:
    """Who asks to overseed bare ground gets a new lawn's seed, on loosened ground."""
    made = plan_of(bare("0 in", seeding={"intent": "overseed"}))
    assert not kind(made, "overseed")
    assert first(made, "till").end + timedelta(7) <= first(made, "grade").start
    assert amount(first(made, "seed"), "seed rate") == pytest.approx(34.2, abs=0.1)


@pytest.mark.full
def test_what_the_soil_test_asks_for_is_worked_in_at_once() -> None:
    """Lime in full and all the potash go on before the tiller, no half with the first feedings."""
    made = plan_of(bare("1 in"), {"soil_test": TEST})
    till, (lime,) = first(made, "till"), kind(made, "lime")
    assert lime.end <= till.start
    assert amount(till, "potash to add") == pytest.approx(9.76, abs=0.01)
    assert not any(
        a.item == "potash to add" for t in kind(made, "feed_nitrogen") for a in t.amounts
    )


@pytest.mark.full
@pytest.mark.parametrize("name", ["made anew", "made anew and filled", "made anew in the south"])
def test_the_old_stand_is_killed_looked_at_and_cleared_first(name: str) -> None:
    """Treated while it grows, looked at two weeks later, treated again, cleared, then sown."""
    made = plan(name)
    kills, look = kind(made, "kill_stand"), made.task("inspect.regrowth")
    clear, seed = first(made, "clear_stand"), first(made, "seed")
    assert look is not None and len(kills) == 2
    assert look.start - kills[0].end >= timedelta(14) and kills[1].start >= look.end
    assert clear.start - kills[1].end >= timedelta(7)
    assert seed.start - kills[1].end >= timedelta(14)
    assert not kind(made, "weed_control")
    assert bool(kind(made, "slit")) != bool(kind(made, "till"))
    summer = (1, 2, 3) if name.endswith("south") else (7, 8)
    assert kills[0].start.month in summer
    assert any("label is the law" in told(text) for text in kills[0].how)


@pytest.mark.full
def test_what_creeps_is_given_longer_to_show() -> None:
    """Bermudagrass shoots again from its runners: the look comes four weeks after the kill."""
    made = plan_of(
        RENOVATE, {"lawn": {"grass": "bermuda_common"}, "place": {"postal_code": "30606"}}
    )
    look = made.task("inspect.regrowth")
    assert look is not None
    assert look.start - first(made, "kill_stand").end >= timedelta(28)


@pytest.mark.full
def test_a_lawn_of_weeds_is_offered_renovation_first() -> None:
    """Over half weeds: the first caution says that overseeding is the exception asked for."""
    weeds = {"site": {"weeds_percent": 60}}
    assert "renovation is the plan" in told(plan_of(weeds).cautions[0])
    anew = " ".join(told(text) for text in plan_of(RENOVATE, weeds).cautions)
    assert "half of this is weeds" not in anew
    few = plan_of({"site": {"weeds_percent": 40}})
    assert not any("half of this is weeds" in told(text) for text in few.cautions)


@pytest.mark.full
def test_what_is_sown_anew_is_the_lawn() -> None:
    """Fescue in Georgia made anew as bermudagrass: killed in spring, sown in its own summer."""
    made = plan_of(
        RENOVATE,
        {"place": {"postal_code": "30606"}, "seeding": {"species": "bermuda_common"}},
    )
    assert made.conflict is None
    kill, seed = first(made, "kill_stand"), first(made, "seed")
    assert kill.start.month in (3, 4, 5) and seed.start.month in (5, 6, 7)
    assert made.campaign == "summer"


BANKS = {
    "clay": {"lawn": {"soil": "clay", "condition": "bare"}, "site": {"slope_percent": 18}},
    "metric": {
        "lawn": {
            "soil": "clay",
            "condition": "bare",
            "area": "200 m2",
            "grass": "perennial_ryegrass",
        },
        "place": {"postal_code": None, "latitude": 53.8, "longitude": -1.5, "country": "GB"},
        "site": {"slope_percent": 12},
    },
}
DEEP_AND_SOWN = {"seeding": {"intent": "renovate"}, "leveling": {"depth": "3 in"}}


@pytest.mark.full
@pytest.mark.parametrize("bank", BANKS)
def test_a_bank_is_not_flooded(bank: str) -> None:
    """On a slope the fill is firmed and moistened in short cycles: no step soaks it through, no
    caution speaks of grass where there is none, and it is filled from the foot up alone.
    """
    plan = plan_of(DEEP_AND_SOWN, BANKS[bank])
    (lift, *_) = kind(plan, "fill")
    said = " ".join(all_told((*lift.how, *lift.cautions)))
    assert "short cycles" in said and "Water it through" not in said
    assert "from the foot up" in said and "from the top" not in said
    (tilled,) = kind(plan, "till")
    assert not any("Water it through" in told(line) for line in tilled.how)
    settling = [t for t in plan.tasks if t.id.startswith("water.settle")]
    assert settling and all("soaking" not in told(t.why) for t in settling)
    cautions = [told(c) for c in plan.cautions if "without runoff" in told(c)]
    assert any(c.startswith("Settle the fill:") and "firm" in c for c in cautions)
    assert not any("thirsty" in caution for caution in cautions)


@pytest.mark.full
def test_level_ground_is_still_watered_through() -> None:
    """Where water stays, a soaking settles the lift."""
    plan = plan_of(DEEP_AND_SOWN, {"lawn": {"condition": "bare"}})
    (lift, *_) = kind(plan, "fill")
    assert any("Water it through" in told(line) for line in lift.how)
    assert any("soaking" in told(t.why) for t in plan.tasks if t.id.startswith("water.settle"))
