"""Waterings as tasks: what each follows, and the days it holds."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, time, timedelta
from itertools import pairwise
from types import SimpleNamespace
from typing import Any

import pytest
from icalendar import Calendar

from planning import TODAY, example, first, kind, plan_of
from sample_plan import sample_plan
from test_work_campaigns import plain
from told import told
from turfplan.audit.case import series_days
from turfplan.export.calendar.season_ics import season_ics
from turfplan.message import as_written
from turfplan.messages import words_for
from turfplan.phrases import reasons
from turfplan.planning import watering as module
from turfplan.planning.watering import (
    _anchor,
    _germinated,
    _germination_days,
    _given_back,
    _in_strips,
    _pass_shares,
    _rain_logged,
    _sown_share,
    _span,
    _strip_days,
    _strips_of,
    _task,
    _waking,
)
from turfplan.records.constraints import DaySet
from turfplan.records.journal import JournalEntry
from turfplan.records.past import TaskHistory
from turfplan.records.plan_task import Task
from turfplan.unit_sizes import GALLON_L
from turfplan.work.drafts import Draft, Pass, SeasonDraft
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.watering.replan import _scaled
from turfplan.work.watering.run_times import water_amount
from turfplan.work.watering.season import WeatherDay

ENGLISH = words_for("en", "us", {})


@pytest.mark.full
@pytest.mark.parametrize("name", ["cool-overseed", "deep-two-inches"])
def test_a_layer_is_watered_after_its_pass(name: str) -> None:
    """Waterings that settle a layer follow the last pass that is over by then, one of the same day
    too, and say so.
    """
    plan = example(name)
    passes = kind(plan, "topdress")
    settling = [t for t in plan.tasks if t.id.startswith(("water.settle", "water.recover"))]
    assert settling and any(t.start == layer.end for t in settling for layer in passes)
    for task in settling:
        over = [
            layer for layer in passes if task.series is not None and layer.end <= task.series.start
        ]
        assert task.depends_on == (over[-1].id,), task.id
        assert str(over[-1].title) in str(task.not_earlier[0])


@pytest.mark.full
@pytest.mark.parametrize("name", ["cool-overseed", "southern-hemisphere"])
def test_seed_is_watered_after_it_is_sown(name: str) -> None:
    """Waterings of seed hang on the sowing; each lies on the days of its own series."""
    plan = example(name)
    sown = [t for t in plan.tasks if t.plays("sowing")]
    young = [t for t in plan.tasks if t.id.startswith(("water.germination", "water.establishment"))]
    assert len(sown) == 1 and young
    for task in young:
        assert task.depends_on == (sown[0].id,) and task.phase == "seed"
        assert (
            task.series is not None
            and task.series.start <= task.start <= task.end <= task.series.end
        )
        assert task.start == task.best and task.start >= sown[0].start


def test_water_that_keeps_its_times_is_one_amount_in_both_units() -> None:
    """Scaled to more runs, gallons follow from litres: a rounded twin would be scaled with its
    rounding.
    """
    amount = water_amount(0.5, 100.0, as_written("made up"))
    scaled = _scaled(amount, 512.5)
    assert scaled.value == pytest.approx(50.0 * 512.5, abs=0.05)
    assert scaled.value_us == pytest.approx(scaled.value / GALLON_L, abs=0.1)


def test_water_that_nothing_changes_is_told_as_before() -> None:
    """2,568.96 L are told as 2,569 L and 678.6 gal; from the rounded litres it would be 678.7."""
    amount = water_amount(25.6896, 100.0, as_written("made up"))
    assert (amount.value, amount.value_us) == (2569.0, 678.6)
    assert _scaled(amount, 1.0) == amount


DESERT: dict[str, Any] = {
    "lawn": {"area": "3000 ft2", "grass": "bermuda_hybrid", "soil": "sandy_loam"},
    "place": {"postal_code": None, "latitude": 33.45, "longitude": -112.07, "country": "US"},
    "leveling": {"depth": "0 in"},
    "seeding": {"intent": "winter_overseed", "species": "perennial_ryegrass"},
    "water": {"possible": True, "application_rate": "1 in/h", "timer": True},
}


@pytest.mark.full
def test_winter_ryegrass_in_the_desert_is_watered_until_it_is_given_back() -> None:
    """By what the Arizona Meteorological Network reckons for winter rye: 0.7 to 0.8 of ET0."""
    plan = plan_of(DESERT)
    winter = [t for t in plan.tasks if t.id.startswith("water.winter.")]
    back = first(plan, "spring_transition").start
    weaned = max(t.end for t in plan.tasks if t.id.startswith("water.weaning."))
    assert winter and min(t.start for t in winter) - weaned < timedelta(10)
    assert timedelta(0) <= back - max(t.end for t in winter) < timedelta(8)
    (ledger,) = [ledger for ledger in plan.ledgers if ledger.item == "water"]
    deep = [w for w in ledger.weeks if weaned < w.start and w.end < back]
    assert len(deep) >= 8 and all(w.entries["watering"] > 3 for w in deep)
    used = sum(-w.entries["evapotranspiration"] for w in deep) / len(deep)
    assert 6 < used < 20, "mm a week: about a quarter to three quarters of an inch"


@pytest.mark.full
def test_winter_ryegrass_is_fed_monthly_in_the_desert_and_twice_elsewhere() -> None:
    """Every three to four weeks from November to February in Arizona; Louisiana feeds twice."""
    gulf = {**DESERT["place"], "latitude": 32.4, "longitude": -84.9}
    desert, humid = plan_of(DESERT), plan_of(DESERT, {"place": gulf})
    fed = [t for t in desert.tasks if t.id.startswith("feed_nitrogen.rye")]
    gaps = [(b.start - a.start).days for a, b in pairwise(sorted(fed, key=lambda t: t.start))]
    assert len(fed) >= 2 and all(21 <= gap <= 64 for gap in gaps) and min(gaps) <= 35
    assert fed[-1].start < first(desert, "spring_transition").start - timedelta(20)
    assert len([t for t in humid.tasks if t.id.startswith("feed_nitrogen.rye")]) == 2


HOLLOWS: dict[str, Any] = {
    "lawn": {"area": "4000 ft2", "grass": "kentucky_bluegrass"},
    "leveling": {"depth": "0.25 in", "lows": [{"depth": "3 in", "share": 0.05}]},
    "seeding": {"intent": "none"},
    "water": {"application_rate": None, "possible": True, "flow": "5 gpm"},
}


@pytest.mark.full
def test_relaid_turf_is_watered_until_it_has_rooted() -> None:
    """As new sod: two weeks, every day, on what was lifted, with minutes of the hose and litres."""
    plan = plan_of(HOLLOWS)
    lifted = first(plan, "lift_and_fill")
    runs = [
        t for t in plan.tasks if t.stage is not None and t.stage.id in ("soak_relaid", "relaid")
    ]
    assert {t.stage.id for t in runs if t.stage} == {"soak_relaid", "relaid"}
    assert all(t.depends_on == (lifted.id,) and t.phase == "level" for t in runs)
    assert min(t.start for t in runs) == lifted.end
    assert max(t.end for t in runs) == lifted.end + timedelta(13)
    assert all(t.amounts[0].value > 0 and any("hose" in told(line) for line in t.how) for t in runs)
    (ledger,) = [ledger for ledger in plan.ledgers if ledger.item == "water"]
    week = next(w for w in ledger.weeks if w.start <= lifted.end + timedelta(3) <= w.end)
    assert week.entries["watering"] > 0


@pytest.mark.full
def test_relaid_turf_has_a_permit_where_few_days_are_allowed() -> None:
    """One is asked for before the turf is lifted, and the turf watered every day by it; where none
    can be had no turf is lifted, as the permit itself says, and nobody is told to sow."""
    few = {**HOLLOWS["water"], "timer": True, "allowed_weekdays": ["tue", "sat"]}
    plan = plan_of({**HOLLOWS, "water": few})
    permit, lifted = first(plan, "permit"), first(plan, "lift_and_fill")
    assert permit.end + timedelta(7) <= lifted.start
    assert "no turf is lifted" in told(permit.fallback)
    assert not any("seed" in told(text) for text in (permit.why, permit.go, permit.fallback))
    runs = [t for t in plan.tasks if t.stage is not None and t.stage.id == "relaid"]
    assert runs and not any(t.series.weekdays for t in runs if t.series is not None)
    without = plan_of({**HOLLOWS, "water": {**few, "permit": False}})
    assert not any(t.operation in ("permit", "lift_and_fill") for t in without.tasks)
    said = [told(a) for a in without.assumptions if a.key == "watering.verdict.gap_relaid"]
    assert said and not any("sow" in words or "seed" in words for words in said)


@pytest.mark.full
def test_filled_hollows_are_looked_at_before_the_pass() -> None:
    """Once rooted, and before the first pass: what has sunk is measured, and what then is said."""
    plan = plan_of(HOLLOWS)
    look = next(t for t in plan.tasks if t.id == "inspect.relaid")
    assert first(plan, "lift_and_fill").end + timedelta(14) <= look.start
    assert look.end <= first(plan, "topdress").start
    assert any("lift the turf there again" in told(line) for line in look.how)
    level = plan_of({**HOLLOWS, "leveling": {"depth": "0.25 in", "lows": None}})
    assert not any(t.id == "inspect.relaid" for t in level.tasks)


@pytest.mark.full
def test_a_run_ends_in_the_calendar_when_its_last_cycle_ends() -> None:
    """Clay takes water in cycles: the entry holds their pauses, not the minutes of water alone."""
    clay = {"lawn": {"soil": "clay"}, "water": {"application_rate": "2 in/h"}}
    zones = [{"name": f"Zone {n}", "area": "800 ft2", "head": "spray"} for n in range(1, 7)]
    together = {"lawn": {"soil": "clay"}, "water": {"application_rate": None, "zones": zones}}
    for changes in (clay, together):
        plan = plan_of({**changes, "calendar": {"watering": "each"}})
        lasts = {
            str(event["uid"]): event["dtend"].dt - event["dtstart"].dt
            for event in Calendar.from_ical(season_ics(plan, ENGLISH)).walk("VEVENT")
        }
        cycled = 0
        for task in plan.tasks:
            if task.series is None or task.stage is None:
                continue
            pauses = task.stage.soak_minutes * (task.stage.cycles - 1)
            held = task.series.lasts_minutes
            assert lasts[task.uid] == timedelta(minutes=held)
            assert held >= task.series.minutes + pauses
            cycled += held > task.series.minutes
        assert cycled


def test_open_ground_has_no_account_of_grass() -> None:
    """Bare ground takes no nitrogen and is advised no water before it is sown: it loses no more
    than falls on it."""
    plan = plan_of(
        {
            "lawn": {"condition": "bare"},
            "leveling": {"depth": "0 in"},
            "seeding": {"intent": "renovate"},
            "place": {"postal_code": "83709"},
        }
    )
    sown = next(t for t in plan.tasks if t.plays("sowing")).start
    weeks = {led.item: [w for w in led.weeks if w.end < sown] for led in plan.ledgers}
    assert len(weeks["water"]) > 10 and len(weeks["nitrogen"]) > 10
    assert all(week.entries["growth"] == 0 for week in weeks["nitrogen"])
    for week in weeks["water"]:
        entries = week.entries
        assert entries["rooted"] == 0
        assert -entries["evapotranspiration"] <= entries["rain"] + entries["watering"] + 1e-6


@pytest.mark.full
def test_the_account_tells_advice_from_waterings_of_the_calendar() -> None:
    """A week without a series has no watering in the account; what rooted grass is advised stands
    by itself."""
    plan = plan_of({"seeding": {"intent": "none"}, "water": {"timer": True, "possible": True}})
    watered = {day for t in plan.tasks if t.operation == "water" for day in series_days(t)}
    (ledger,) = [ledger for ledger in plan.ledgers if ledger.item == "water"]
    assert any(week.entries["rooted"] > 0 for week in ledger.weeks)
    for week in ledger.weeks:
        served = any(week.start <= day <= week.end for day in watered)
        assert (week.entries["watering"] > 0) == served


@pytest.mark.full
def test_how_much_water_settles_a_layer_is_told_by_its_waterings_alone() -> None:
    """The step of the pass names no depth beside that of the entries, which is one of the mean and
    one where least falls."""
    plan = plan_of({"seeding": {"intent": "none"}, "leveling": {"depth": "0.25 in"}})
    drag = first(plan, "incorporate")
    (step,) = [told(line) for line in drag.how if "settle it" in told(line)]
    assert " in" not in step.replace(" in the", "") and "stand at the waterings" in step
    settle = next(t for t in plan.tasks if t.stage is not None and t.stage.id == "settle")
    assert "on average" in told(settle.amounts[0].reason)
    assert any("where least falls" in told(line) for line in settle.how)


@pytest.mark.full
def test_seed_is_not_up_before_it_is_sown() -> None:
    """What was seen to come up before a sowing that was put off is not that seed: its water begins
    with it."""
    before = plan_of({"leveling": {"depth": "0 in"}})
    sown = next(t.start for t in before.tasks if t.plays("sowing"))
    seen = sown - timedelta(2)
    journal = (
        JournalEntry(number=1, at=TODAY, kind="measured", on=seen, quantity="germination", value=1),
    )
    now = TODAY.replace(year=seen.year, month=seen.month, day=seen.day)
    plan = plan_of({"leveling": {"depth": "0 in"}}, journal=journal, previous=before, now=now)
    runs = [t for t in plan.tasks if t.stage is not None and t.stage.id == "germination"]
    assert runs and min(t.start for t in runs) > sown


@pytest.mark.full
def test_only_the_hollows_are_watered_where_only_they_are_dressed() -> None:
    """The water after a pass over 15 % of the lawn is for 15 % of it."""
    plan = plan_of(
        {"leveling": {"depth": None, "lows": [{"share": 0.15, "depth": "0.75 in"}]}},
        {"seeding": {"intent": "none"}},
    )
    after = [t for t in plan.tasks if t.operation == "water"]
    assert {t.stage.id for t in after if t.stage} == {"settle", "recover"}
    hollows_m2 = 0.15 * plan.lawn.area_m2
    for task in after:
        litres = next(a.value for a in task.amounts if a.item == "water")
        assert task.stage is not None and task.stage.rate_mm_h is not None
        depth_mm = task.stage.rate_mm_h * task.series.minutes / 60 if task.series else 0.0
        assert litres == pytest.approx(depth_mm * hollows_m2 * len(series_days(task)), rel=0.1)


SAMPLE = sample_plan()
DAY = timedelta(1)
SAT = date(2027, 9, 4)


def job(name: str, start: date, days: int = 1, **changes: Any) -> Task:
    """A task of the sample plan on some days."""
    found = SAMPLE.task(name)
    assert found is not None
    on = {"start": start, "end": start + (days - 1) * DAY, "duration_days": days}
    return found.model_copy(update={**on, **changes})


def worked(setting: ResolvedLawn, machines: Sequence[date], work: Sequence[date]) -> ResolvedLawn:
    """A lawn with days of machines and of work."""
    sets = [DaySet.from_days([d.toordinal() for d in days]) for days in (machines, work)]
    calendar = replace(setting.calendar, machines=sets[0], work=sets[1])
    return replace(setting, calendar=calendar)


def test_the_strips_of_a_job_are_its_days_of_work() -> None:
    """Of machines where there are as many, else of all work, else its first and last."""
    days = [SAT, SAT + DAY, SAT + 3 * DAY]
    long = job("topdress.1", SAT, 4, duration_days=3)
    assert _strip_days(worked(plain(), days, []), long) == tuple(days)
    assert _strip_days(worked(plain(), days[:2], days), long) == tuple(days)
    assert _strip_days(worked(plain(), days[:2], days[1:]), long) == (SAT, SAT + 3 * DAY)
    setting = worked(plain(), days, [])
    assert _strips_of(setting, long) == tuple(days)
    assert _strips_of(setting, job("topdress.1", SAT)) == () == _strips_of(setting, None)
    assert _in_strips(long, "spreading") and not _in_strips(long, "sowing")
    assert not _in_strips(job("topdress.1", SAT), "spreading")


def test_the_account_runs_for_a_season_from_the_last_that_is_young() -> None:
    """548 days from the first day, or from the last sowing or planting; to the plan's end."""
    setting = replace(plain(), last_day=plain().first_day + 2000)
    first = date.fromordinal(setting.first_day)
    assert _span(setting, []) == (first, first + 548 * DAY)
    assert _span(setting, [first + 9 * DAY, first + 4 * DAY]) == (first, first + 557 * DAY)
    assert _span(setting, [first - 9 * DAY]) == (first, first + 548 * DAY)
    short = replace(setting, last_day=setting.first_day + 100)
    assert _span(short, [first + 9 * DAY]) == (first, first + 100 * DAY)


def test_seed_is_up_when_it_is_seen_after_it_was_sown() -> None:
    """What was seen on the day of the sowing was not it."""
    sown = job("overseed", SAT)

    def up(seen: date | None, task: Task | None = sown) -> date | None:
        return _germinated(TaskHistory(germinated=seen), task)

    assert up(SAT + DAY) == SAT + DAY and up(SAT) is None and up(None) is None
    assert up(SAT, None) == SAT


def test_a_watering_follows_the_last_pass_before_it_or_what_is_young() -> None:
    """A pass that begins on its day counts; seed hangs on its sowing."""
    passes = [job("topdress.1", SAT), job("topdress.2", SAT + 7 * DAY)]
    seed = job("overseed", SAT + 9 * DAY)

    def anchor(stage: str, day: date) -> Task | None:
        run: Any = SimpleNamespace(stage=stage, start=day)
        return _anchor(run, passes, seed)

    assert anchor("settle", SAT + 6 * DAY) is passes[0]
    assert anchor("recover", SAT + 7 * DAY) is passes[1]
    assert anchor("settle", SAT - DAY) is None and anchor("settle_fill", SAT) is passes[0]
    assert anchor("germination", SAT) is seed


def run_of(**changes: Any) -> Any:
    """A run of ten minutes on three days, in the lawn's first settling."""
    when = SimpleNamespace(settings=2, cycles=3, soak_min=20)
    basis: dict[str, Any] = {
        "id": "water.settle.w1",
        "stage": "settle",
        "title": as_written("t"),
        "why": as_written("w"),
        "start": SAT,
        "end": SAT + 6 * DAY,
        "start_time": time(5, 0),
        "minutes": 10,
        "elapsed_min": 10,
        "weekdays": ("sat", "mon", "wed"),
        "skip": (),
        "work_min": 5.0,
        "amounts": (),
        "how": (),
        "facts": (),
        "when": when,
        "rate_mm_h": 12.0,
        "stage_name": as_written("settle"),
        "stand_in": False,
    }
    days = (SAT, SAT + 2 * DAY, SAT + 4 * DAY)
    return SimpleNamespace(**{**basis, **changes}, days=lambda: days)


def test_a_run_is_a_task_on_its_days() -> None:
    """Three times five minutes are a quarter of an hour; it hangs on its anchor."""
    spread = job("topdress.1", SAT)
    task = _task(run_of(), spread)
    assert (task.start, task.end, task.best) == (SAT, SAT + 4 * DAY, SAT)
    assert (task.person_hours, task.phase, task.depends_on) == (0.25, "level", ("topdress.1",))
    assert (task.window.start, task.window.end) == (SAT, SAT + 6 * DAY)
    assert task.not_earlier == (reasons.follows(task=spread.title),) and task.duration_days == 1
    assert task.series is not None and task.series.elapsed_minutes is None
    assert task.stage is not None
    assert (task.stage.settings, task.stage.cycles, task.stage.soak_minutes) == (2, 3, 20)
    alone = _task(run_of(stage="germination", elapsed_min=11, work_min=4.0), None)
    assert (alone.phase, alone.depends_on, alone.person_hours) == ("seed", (), 0.2)
    assert alone.not_earlier == (reasons.begins_with_plan(),)
    assert alone.series is not None and alone.series.elapsed_minutes == 11
    other = _task(run_of(stage="relaid", stand_in=True, work_min=0.0), None)
    assert other.stage is not None and other.stage.stand_in and other.person_hours == 0
    assert not task.stage.stand_in


def test_the_parts_that_passes_cover_are_told_by_day() -> None:
    """By the place of their draft; a job that is no pass has none."""
    layers = tuple(
        Pass(n, 1, 6.0, 1.0, False, 6.0, as_written(""), share=share)
        for n, share in ((1, 0.5), (2, 0.25))
    )
    drafts = tuple(
        Draft(f"topdress.{n}", "topdress", "level", as_written(""), 1, position=n)
        for n in (1, 2, 3)
    )
    candidate: Any = SimpleNamespace(
        campaign=SimpleNamespace(passes=layers),
        season=SeasonDraft((*drafts, replace(drafts[0], id="overseed", sown_share=0.4)), ()),
    )
    tasks = [job("topdress.1", SAT), job("topdress.2", SAT, 3), job("overseed", SAT + 9 * DAY)]
    assert _pass_shares(candidate, tasks) == {SAT: 0.5, SAT + 2 * DAY: 0.25}
    beyond = [tasks[0].model_copy(update={"id": "topdress.3"})]
    assert _pass_shares(candidate, beyond) == {}
    assert _sown_share(candidate.season.drafts) == 0.4 and _sown_share(drafts) == 1.0
    assert _sown_share(()) == 1.0


def test_seed_that_rests_wakes_so_many_days_after_its_sowing(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Other seed does not rest."""
    up = SimpleNamespace(wakes=120)
    monkeypatch.setattr(module, "emergence", lambda setting, campaign: up)
    candidate: Any = SimpleNamespace(campaign=None)
    resting = job("overseed", SAT, 2, roles=("sowing", "dormant"))
    assert _waking(plain(), candidate, resting) == SAT + 121 * DAY
    assert _waking(plain(), candidate, job("overseed", SAT)) is None
    assert _waking(plain(), candidate, None) is None
    monkeypatch.setattr(module, "emergence", lambda setting, campaign: None)
    assert _waking(plain(), candidate, resting) is None


def test_only_a_second_grass_is_given_back(monkeypatch: pytest.MonkeyPatch) -> None:
    """From the last day of its sowing on it is reckoned."""
    asked: list[date] = []
    monkeypatch.setattr(module, "given_back_on", lambda setting, day: asked.append(day) or SAT)
    second = replace(plain(), sowing=replace(plain().sowing, intent="winter_overseed"))
    assert _given_back(second, job("overseed", SAT, 2)) == SAT and asked == [SAT + DAY]
    assert _given_back(plain(), job("overseed", SAT)) is None
    assert _given_back(second, None) is None
    assert _germination_days(plain()) == 21
    rained = TaskHistory(rain={SAT: 4.5})
    assert _rain_logged(rained) == {SAT: WeatherDay(rain_mm=4.5)}
