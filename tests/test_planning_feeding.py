"""What a campaign is fed with, and what is said of feedings that somebody moved or gave by hand."""

import json
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from command import run
from planning import brief_of, plan_brief
from resolved_lawns import lawn, setting_of
from sample_plan import job as sample_job
from test_cli import written
from test_nitrogen_account import from_compost
from turfplan.message import Day, as_written
from turfplan.planning.feeding import (
    _compost,
    _without_grass,
    amounts_of_feed,
    amounts_of_lime,
    amounts_worked_in,
    bag_used,
    feeder_for,
    feeding_warnings,
    nitrogen_account,
    taken_of_bag,
)
from turfplan.records.plan_task import Amount, Task
from turfplan.units import System
from turfplan.work.campaigns import campaigns
from turfplan.work.drafts import Draft
from turfplan.work.feeding.feedings import NitrogenFeeding
from turfplan.work.feeding.nutrients import LimePlan, Nutrient
from turfplan.work.feeding.plan import FeedingPlan
from turfplan.work.feeding.soil_nutrients import NutrientPart
from turfplan.work.feeding.stages import RYE_RATE, WorkedDays
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.mix_choice import choose_mix

NEW_YORK = """
[lawn]
id = "feed-test"
area = "4000 ft2"
grass = "tall_fescue"
soil = "loam"
[place]
postal_code = "13203"
state = "NY"
[leveling]
depth = "0.375 in"
[seeding]
intent = "overseed"
[water]
possible = true
[season]
from = 2027-03-01
"""


def planned(brief: Path, out: Path) -> dict[str, object]:
    """The plan of a brief in March."""
    done = run("plan", str(brief), "-o", str(out), "--today", "2027-03-01")
    assert done.returncode == 0, done.stderr
    plan: dict[str, object] = json.loads((out / "plan.json").read_text(encoding="utf-8"))
    return {**plan, "stdout": done.stdout}


DAY = date(2027, 5, 10)


def feed(key: str, rate_g_m2: float) -> NitrogenFeeding:
    """A feeding of some days in May."""
    return NitrogenFeeding(key, "spring", rate_g_m2, DAY, DAY + timedelta(6), DAY, as_written("w"))


def fed(setting: ResolvedLawn, **changes: Any) -> FeedingPlan:
    """The feeding of a lawn, with changes."""
    campaign = campaigns(setting)[0][0]
    return replace(feeder_for(setting)(setting, campaign, choose_mix(setting)), **changes)


def si(amounts: tuple[Amount, ...]) -> dict[str, float]:
    """SI values by item."""
    return {amount.item: amount.value for amount in amounts}


def test_a_feeding_is_told_by_rate_and_in_all() -> None:
    """The one of its key, in all over the ground that it is for."""
    setting = lawn()
    area = setting.plot.area_m2
    plan = fed(
        setting, feeds=(feed("spring", 2.0), feed("autumn", 3.0)), starter=feed("starter", 4.0)
    )
    spring, autumn, starter, none = (
        si(amounts_of_feed(setting, plan, key, area))
        for key in ("spring", "autumn", "starter", "late")
    )
    assert [a["nitrogen"] for a in (spring, autumn, starter)] == [2.0, 3.0, 4.0] and none == {}
    assert autumn["nitrogen_total"] == pytest.approx(3 * area / 1000, abs=0.001)
    assert starter["nitrogen_total"] == pytest.approx(4 * area / 1000, abs=0.001)
    part = si(amounts_of_feed(setting, plan, "starter", area / 4))
    assert part["nitrogen"] == 4.0
    assert part["nitrogen_total"] == pytest.approx(area / 1000, abs=0.001)
    alone = replace(plan, starter=None)
    assert amounts_of_feed(setting, alone, "starter", area) == ()


def test_a_bag_at_hand_is_used_where_its_phosphate_may_be_spread() -> None:
    """By its analysis; its slow part with it."""
    bag = lawn({"feeding": {"analysis": "20-0-5", "slow_release_percent": 30}})
    plan = fed(bag, feeds=(feed("spring", 2.0),))
    assert bag_used(bag, plan) == "20-0-5" and bag_used(lawn(), plan) is None
    amounts = si(amounts_of_feed(bag, plan, "spring", 100.0))
    assert amounts["product_rate"] == pytest.approx(10) and amounts["potash"] == pytest.approx(0.5)
    assert amounts["slow_nitrogen"] == pytest.approx(0.6)
    rich = lawn({"feeding": {"analysis": "20-10-5"}})
    refused = fed(rich, feeds=(feed("spring", 2.0),), phosphorus=None)
    assert bag_used(rich, refused) is None
    assert "product_rate" not in si(amounts_of_feed(rich, refused, "spring", 100.0))


def test_potash_goes_on_with_a_feeding_beyond_what_the_bag_brings() -> None:
    """Where that is worth a mention."""
    setting = lawn()
    area, least = setting.plot.area_m2, setting.book.si("feeding.potash_least")

    def potash(
        rate: float, base: ResolvedLawn = setting, *, tested: bool = True
    ) -> dict[str, float]:
        nutrient = Nutrient("potash", 9.0, as_written("why"), ()) if tested else None
        part = NutrientPart(1, rate, DAY, DAY, "spring")
        plan = fed(base, feeds=(feed("spring", 2.0),), potassium=nutrient, potash=(part,))
        found = si(amounts_of_feed(base, plan, "spring", area))
        return {name: value for name, value in found.items() if "to add" in name}

    assert potash(3.0) == {
        "potash to add": 3.0,
        "potash to add in all": pytest.approx(3 * area / 1000, abs=0.001),
    }
    assert potash(least) != {} and potash(least * 0.9) == {} and potash(3.0, tested=False) == {}
    bag = lawn({"feeding": {"analysis": "20-0-5"}})
    assert potash(3.0, bag)["potash to add"] == pytest.approx(2.5)
    assert potash(0.5 + least * 1.1, bag) != {} and potash(0.5 + least * 0.9, bag) == {}


def test_phosphate_goes_on_with_the_starter_beyond_what_the_bag_brings() -> None:
    """On patches where these are sown alone; a fertilizer that brings it all leaves none to add."""
    nutrient = Nutrient("phosphate", 5.0, as_written("why"), (), short=True)

    setting = lawn()
    area = setting.plot.area_m2

    def phosphate(
        base: ResolvedLawn, wanted: float = 5.0, ground: float = area
    ) -> dict[str, float]:
        part = NutrientPart(1, wanted, DAY, DAY, "starter")
        plan = fed(base, starter=feed("starter", 4.0), phosphorus=nutrient, phosphate=(part,))
        found = si(amounts_of_feed(base, plan, "starter", ground))
        return {name: value for name, value in found.items() if "phosphate" in name}

    in_all = pytest.approx(5 * area / 1000, abs=0.001)
    assert phosphate(setting) == {"phosphate to add": 5.0, "phosphate to add in all": in_all}
    part = phosphate(setting, ground=area / 5)
    assert part["phosphate to add in all"] == pytest.approx(area / 1000, abs=0.001)
    rich = lawn({"feeding": {"analysis": "20-10-5"}})
    assert phosphate(rich) == {"phosphate": 2.0, "phosphate to add": 3.0} | {
        "phosphate to add in all": pytest.approx(3 * area / 1000, abs=0.001)
    }
    assert phosphate(rich, 2.0) == {"phosphate": 2.0}


def test_lime_is_told_by_one_of_its_parts() -> None:
    """None where none is given."""
    setting = lawn()
    area = setting.plot.area_m2
    lime = LimePlan(400.0, 450.0, (225.0, 225.0), (120, 180), as_written("why"), ())
    found = si(amounts_of_lime(fed(setting, lime=lime), area))
    assert found == {"lime": pytest.approx(225 * area / 1000, abs=0.001), "lime rate": 225.0}
    assert amounts_of_lime(fed(setting, lime=None), area) == ()


def test_what_a_test_asks_for_is_worked_into_fresh_ground() -> None:
    """With the tiller, or raked into the last lift where topsoil buries what is tilled; only what
    is more than nothing.
    """
    setting = lawn()
    area = setting.plot.area_m2 / 2
    potash = Nutrient("potash", 9.0, as_written("k"), ())
    phosphate = Nutrient("phosphate", 5.0, as_written("p"), ())

    def worked(
        operation: Any = "till", base: ResolvedLawn = setting, **plan: Any
    ) -> dict[str, float]:
        given = {"fresh_ground": True, "potassium": potash, "phosphorus": phosphate, **plan}
        ground = Draft(operation, operation, "surface", as_written("why"), 1, area_m2=area)
        return si(amounts_worked_in(base, fed(base, **given), ground))

    whole = {
        "potash to add": 9.0,
        "potash to add in all": pytest.approx(9 * area / 1000, abs=0.001),
        "phosphate to add": 5.0,
        "phosphate to add in all": pytest.approx(5 * area / 1000, abs=0.001),
    }
    assert worked() == whole and worked("grade") == {} and worked(fresh_ground=False) == {}
    only = {name: value for name, value in whole.items() if "phosphate" in name}
    assert worked(potassium=None) == worked(potassium=replace(potash, rate_g_m2=0.0)) == only
    without = {name: value for name, value in whole.items() if "potash" in name}
    assert worked(phosphorus=None) == without
    assert worked(phosphorus=replace(phosphate, rate_g_m2=0.0)) == without
    deep = lawn(
        {
            "lawn": {"condition": "bare"},
            "seeding": {"intent": "renovate"},
            "leveling": {"depth": "4 in"},
        }
    )
    assert worked(base=deep) == {} and worked("grade", deep) != {}


def job(name: str, day: date, role: Any, rate: float | None = None, **more: Any) -> Task:
    """A task with nitrogen by rate."""
    amounts = () if rate is None else (("nitrogen", rate, "g/m2", as_written("why")),)
    base = sample_job(name, "care", name, day, roles=(role,), **more)
    return base.model_copy(update={"amounts": tuple(Amount.of(*a) for a in amounts)})


def test_how_much_of_the_bag_is_taken_is_told_with_its_first_day() -> None:
    """Of open feedings; without a bag at hand nothing is."""
    bag = lawn({"feeding": {"analysis": "20-0-5"}})

    def product(day: date, kg: float, closed: Any = None) -> Task:
        task = job("feed_nitrogen.a", day, "feeding")
        amounts = (Amount.of("product", kg, "kg", as_written("why")),)
        return task.model_copy(update={"amounts": amounts, "closed": closed})

    tasks = (product(DAY + timedelta(9), 3.0), product(DAY, 2.0), product(DAY, 7.0, "done"))
    (told,) = taken_of_bag(bag, tasks)
    values = dict(told.values)
    assert (values["n"], values["mass"].value, values["first"].value) == (2, 5.0, 2.0)  # type: ignore[union-attr]
    assert values["day"] == Day(DAY)
    assert taken_of_bag(lawn(), tasks) == () and taken_of_bag(bag, tasks[2:]) == ()


def test_a_feeding_outside_its_days_is_doubted_and_one_within_is_not() -> None:
    """To the first and the last of them; what is no feeding is not looked at."""
    setting = lawn({"local": {"nitrogen_blackouts": [{"from": "01-01", "to": "12-31"}]}})
    candidate: Any = SimpleNamespace(feeding=SimpleNamespace(feeds=[feed("a", 2.0)]))

    def doubted(after: int, name: str = "feed_nitrogen.a", role: Any = "feeding") -> int:
        task = job(name, DAY + timedelta(after), role)
        return len(feeding_warnings(setting, candidate, (task,)))

    assert [doubted(n) > 0 for n in (-1, 0, 6, 7)] == [True, False, False, True]
    assert doubted(3, "feed_nitrogen.b") > 0 and doubted(7, role="spreading") == 0


def test_the_account_of_nitrogen_takes_what_is_given_and_what_compost_gives() -> None:
    """By the depth of each pass; ryegrass has its own."""
    setting = lawn()
    begin = date.fromordinal(setting.first_day)
    credit = SimpleNamespace(g_m2=6.0)
    chosen = campaigns(setting)[0][0]
    candidate: Any = SimpleNamespace(
        feeding=SimpleNamespace(credit=credit, budget_g_m2=10.0, notes=()), campaign=chosen
    )

    def spread(after: int, depth: float) -> Task:
        task = job("topdress.1", begin + timedelta(after), "spreading")
        return task.model_copy(
            update={"amounts": (Amount.of("volume", depth, "m3", as_written("why")),)}
        )

    tasks = (
        job("feed_nitrogen.a", begin + timedelta(9), "feeding", 2.0),
        job("feed_nitrogen.b", begin + timedelta(9), "feeding", 1.0),
        job("feed_nitrogen.rye", begin + timedelta(9), "feeding", 4.0, facts=(RYE_RATE,)),
        spread(30, 4.0),
        spread(60, 8.0),
    )
    ledger = nitrogen_account(setting, candidate, tasks)
    assert sum(week.entries["feed"] for week in ledger.weeks) == pytest.approx(3.0)
    rye = [note for note in ledger.notes if getattr(note, "key", "") == "feeding.rye.apart"]
    assert len(rye) == 1 and dict(rye[0].values)["rate"].value == 4.0  # type: ignore[union-attr]

    def compost(*passes: Task) -> list[float]:
        found = nitrogen_account(setting, candidate, passes)
        return [week.entries["compost"] for week in found.weeks]

    both, first = compost(*tasks[3:]), compost(tasks[3])
    week = 5  # before the second pass
    assert both[week] == pytest.approx(first[week] / 3, abs=0.002) and first[week] > 0
    none = replace_credit(candidate)
    assert set(nitrogen_account(setting, none, tasks).weeks[20].entries) >= {"feed", "growth"}
    assert all(w.entries["compost"] == 0 for w in nitrogen_account(setting, none, tasks).weeks)
    assert not [n for n in nitrogen_account(setting, candidate, tasks[:2]).notes if n in rye]


def replace_credit(candidate: Any) -> Any:
    """The candidate whose compost gives nothing."""
    feeding = SimpleNamespace(credit=None, budget_g_m2=10.0, notes=())
    return SimpleNamespace(feeding=feeding, campaign=candidate.campaign)


def test_ground_without_grass_is_so_until_what_is_sown_begins() -> None:
    """To the end of the account where nothing is."""
    bare = lawn({"lawn": {"condition": "bare"}, "seeding": {"intent": "renovate"}})
    candidate: Any = SimpleNamespace(campaign=campaigns(bare)[0][0])
    sown = job("seed", DAY, "sowing")
    found = _without_grass(bare, candidate, [sown, job("seed.2", DAY + timedelta(9), "sowing")])
    assert found is not None and found[1] == DAY
    never = _without_grass(bare, candidate, [])
    assert never == (found[0], bare.accounted_until + timedelta(1))
    turf = lawn()
    assert _without_grass(turf, SimpleNamespace(campaign=campaigns(turf)[0][0]), [sown]) is None  # type: ignore[arg-type]


@pytest.mark.full
@pytest.mark.parametrize(
    ("day", "said", "words"),
    [
        (
            "2027-12-18",
            "Sat, Dec 18, 2027",
            "inside the blackout Dec 1 to Apr 1",
        ),
        ("2027-07-18", "Sun, Jul 18, 2027", "after the last day on which this grass is fed"),
    ],
)
def test_a_feeding_is_not_moved_into_a_blackout_or_heat(
    tmp_path: Path, day: str, said: str, words: str
) -> None:
    """The wish is refused with what stands against it, and the journal stays empty."""
    brief, out = written(tmp_path, NEW_YORK), tmp_path / "out"
    planned(brief, out)
    logged = run("log", str(brief), "moved", "feed_nitrogen.spring", "--to", day, "-o", str(out))
    assert logged.returncode == 3
    assert said in logged.stderr and words in logged.stderr
    assert not list(tmp_path.glob("*.journal.jsonl"))


@pytest.mark.full
def test_nitrogen_given_in_a_blackout_or_above_the_range_is_told(tmp_path: Path) -> None:
    """In a blackout, more than at once, more than a year's range, each with its source."""
    history = '[history]\nnitrogen = [{ rate = "5 lb/1000ft2", on = 2026-12-15 }]\n'
    plan = planned(written(tmp_path, NEW_YORK + history), tmp_path / "out")
    said = " ".join(plan["cautions"])  # type: ignore[arg-type]
    assert "fell on days closed to it" in said and "State of New York statute" in said
    assert (
        "more than grass takes at once (" in said
        and "more than its yearly range of nitrogen (" in said
    )


DANGEROUS = {
    "rate of nothing": ('application_rate = "0 in/h"', "water.application_rate"),
    "rate of a flood": ('application_rate = "10 in/h"', "water.application_rate"),
    "one can": ('catch_cans = ["0.3 in"]\ncatch_minutes = 20', "too few cans"),
    "empty cans": (
        'catch_cans = ["0 in", "0 in", "0 in", "0 in"]\ncatch_minutes = 20',
        "every can is empty",
    ),
    "heads without spacing": ('head_flow = "2 gpm"', "head_flow and head_spacing"),
    "more than the bag": ('[feeding]\nanalysis = "60-30-20"', "more than the bag"),
    "a bag without nitrogen": ('[feeding]\nanalysis = "0-0-50"', "holds no nitrogen"),
}


@pytest.mark.full
@pytest.mark.parametrize("case", DANGEROUS)
def test_what_cannot_be_is_refused(tmp_path: Path, case: str) -> None:
    """Exit code 3, the place and what is allowed, and nothing written."""
    line, words = DANGEROUS[case]
    text = NEW_YORK.replace("possible = true", f"possible = true\n{line}")
    done = run("plan", str(written(tmp_path, text)), "-o", str(tmp_path / "out"))
    assert done.returncode == 3 and words in done.stderr and "lawn.toml" in done.stderr
    assert not (tmp_path / "out").exists()


@pytest.mark.full
def test_a_rate_faster_than_sprinklers_is_warned_of(tmp_path: Path) -> None:
    """3 in/h is planned with, and doubted with the source of what sprinklers give."""
    text = NEW_YORK.replace("possible = true", 'possible = true\napplication_rate = "3 in/h"')
    plan = planned(written(tmp_path, text), tmp_path / "out")
    assert any(
        "faster than sprinklers usually are (California State University" in c
        for c in plan["cautions"]
    )  # type: ignore[attr-defined]


def test_compost_is_its_share_of_each_pass() -> None:
    """A quarter of the mix is a quarter of the depth: on the best days of the sessions, then of
    what each pass takes on its own day, settled; none where the mix holds none. What lies in
    hollows alone is the less of the lawn's.
    """
    setting = setting_of(brief_of({"leveling": {"depth": "1 in"}}))
    campaign, mix = campaigns(setting)[0][0], choose_mix(setting)
    assert mix.compost_share == 0.25
    rough = _compost(setting, campaign, mix, None)
    passes = [(s.window.best, p.depth_mm) for s in campaign.sessions for p in s.passes]
    assert [day for day, _ in rough] == [day for day, _ in passes]
    assert [mm for _, mm in rough] == pytest.approx([depth / 4 for _, depth in passes])
    days = [date(2027, 4, 10 + number) for number in range(len(passes))]
    loose_m3 = setting.plot.area_m2 * (1 + setting.levelling.settle_share) / 1000
    worked = WorkedDays(spread=[(day, number * loose_m3) for number, day in enumerate(days, 1)])
    found = _compost(setting, campaign, mix, worked)
    assert [day for day, _ in found] == days
    assert [mm for _, mm in found] == pytest.approx([n / 4 for n in range(1, len(days) + 1)])
    assert _compost(setting, campaign, replace(mix, parts={"sand": 1.0}), worked) == []
    lows = {"depth": None, "lows": [{"depth": "0.5 in", "share": 0.1}]}
    hollows = setting_of(brief_of({"leveling": lows}))
    in_hollows = _compost(hollows, campaigns(hollows)[0][0], mix, None)
    assert sum(mm for _, mm in in_hollows) == pytest.approx(0.1 * 12.7 / 4)


@pytest.mark.full
def test_a_full_year_with_compost_in_hollows_is_planned() -> None:
    """Carpetgrass near the equator takes so little that compost, starter and feedings fill its
    year: it is planned all the same, and the judge finds no more than the grass takes."""
    told = {
        "lawn": {
            "area": "380 m2",
            "grass": "carpetgrass",
            "soil": "sandy clay loam",
            "thatch": "6 mm",
        },
        "place": {"postal_code": None, "latitude": 6.95, "longitude": 79.95, "country": "LK"},
        "leveling": {
            "depth": None,
            "lows": [{"depth": "35 mm", "share": 0.12}, {"depth": "12 mm", "share": 0.5}],
        },
        "water": {"application_rate": None, "flow": "18 l/min", "head": "oscillating"},
        "calendar": {"weekdays": ["sun"]},
        "work": {"people": 1, "hours_per_day": 3},
        "season": {"from": date(2028, 1, 15)},
    }
    now = datetime(2028, 1, 15, 6, tzinfo=UTC)
    brief = brief_of(told).model_copy(update={"units": System.METRIC})
    plan = plan_brief(brief, now=now, options=False)
    assert any(task.plays("feeding") for task in plan.tasks) and from_compost(plan, brief)


@pytest.mark.full
def test_the_account_gives_the_credit_of_the_compost_over_its_year() -> None:
    """All of it where the account goes on for a year after the pass."""
    brief = brief_of({"leveling": {"depth": "0.25 in"}, "season": {"from": date(2027, 8, 1)}})
    plan = plan_brief(brief, options=False)
    (ledger,) = (one for one in plan.ledgers if one.item == "nitrogen")
    credits = from_compost(plan, brief)
    over = ledger.weeks[-1].end
    assert credits and all(day + timedelta(365) <= over for day, _ in credits)
    given = sum(week.entries["compost"] for week in ledger.weeks)
    assert given == pytest.approx(sum(rate for _, rate in credits), rel=0.01)


SAND: dict[str, Any] = {"leveling": {"parts": {"topsoil": 0.5, "sand": 0.5}}}
RYE: dict[str, Any] = {
    "lawn": {"grass": "bermuda_common", "condition": "dense"},
    "place": {"postal_code": "85001"},
    "leveling": {"depth": "0 in"},
    "seeding": {"intent": "winter_overseed"},
}


@pytest.mark.full
@pytest.mark.parametrize(
    ("changes", "starts"),
    [
        (SAND, True),
        ({}, False),
        ({**SAND, "seeding": {"intent": "none"}}, False),
        (RYE, False),
    ],
    ids=["seed without compost", "with compost", "unsown", "winter cover"],
)
def test_a_starter_goes_with_seed_that_no_compost_feeds(
    changes: dict[str, Any], *, starts: bool
) -> None:
    """Ryegrass of one winter over a lawn is fed in its own way."""
    setting = setting_of(brief_of(changes))
    campaign = campaigns(setting)[0][0]
    found = feeder_for(setting)(setting, campaign, choose_mix(setting))
    assert (found.starter is not None) is starts
