"""Random walks through the journal, and the seasons that once ended without a plan or with an
unsound one."""

from datetime import date, timedelta

import pytest

from campaigns.walks import Walk, begun, past_stays, same_again, walk
from planning import brief_of, kind
from test_work_thatch import INVERNESS
from tiers import sampled
from turfplan.records.plan import Plan

CHRISTCHURCH = {
    "lawn": {"grass": "perennial_ryegrass", "area": "300 m2", "soil": "silt loam"},
    "place": {"postal_code": None, "country": "NZ", "latitude": -43.5, "longitude": 172.6},
    "leveling": {"depth": "10 mm", "lows": [{"depth": "60 mm", "share": 0.05}]},
    "site": {"bump_cause": "settling"},
    "season": {"from": date(2027, 7, 1)},
}
BARE = {"lawn": {"condition": "bare"}, "seeding": {"intent": "renovate"}}


# Those that once found a fault, beside some of any: seed that is washed away while a ban holds, a
# day that was chosen for what the plan no longer has, seed that may be in the ground without a
# word, a part of the fill that a ban leaves no season for.
NUMBERS = (*range(8), 30074, 30094, 30137, 30208)


@pytest.mark.parametrize("number", sampled(NUMBERS, 2))
def test_a_walk_has_a_plan_at_every_step(number: int) -> None:
    """Sound, the same when it is made twice, and no day that is over moves."""
    assert sum(walk(number).values())


def stepped(season: Walk, today: date) -> Plan:
    """Plan again, with what holds of every step."""
    before = season.plan
    after = season.go(today)
    past_stays(before, after, today)
    same_again(season, today)
    return after


@pytest.mark.full
def test_a_refused_load_and_rain_move_the_pass_and_its_water() -> None:
    """Topsoil is refused, the second low cut rained off, lifting never logged and the pass missed:
    the season goes on, and the seed is watered on its new days."""
    season = begun(brief_of(CHRISTCHURCH), date(2027, 6, 1))
    came = season.day("delivery.lifting")
    season.done_until(came)
    season.log("refused", task="delivery.lifting", on=came)
    stepped(season, came)
    season.log("done", task="mow_low.1", on=season.day("mow_low.1"))
    season.log("rained_off", task="mow_low.2", on=season.day("mow_low.2"))
    plan = stepped(season, season.day("topdress.1") + timedelta(days=12))
    sown = kind(plan, "overseed")[0]
    wet = [t for t in plan.tasks if t.stage is not None and t.stage.id == "germination"]
    moist = {t.start for t in wet if t.closed is None and t.status == "NEEDS-ACTION"}
    assert sown.end + timedelta(days=1) in moist


@pytest.mark.full
def test_seed_without_its_pass_is_not_buried_and_the_pass_comes_back_prepared() -> None:
    """Seed is in and the pass is not: it waits until the seedlings are mown, and has its low cuts,
    cores and marks anew; nothing is rolled weeks after it was sown, nothing bought twice."""
    season = begun(brief_of(INVERNESS, {"leveling": {"depth": "10 mm"}}))
    sown = season.day("overseed")
    ordered = {line.item: line.value for line in season.plan.order}
    season.done_until(sown, "topdress.1")
    season.log("done", task="overseed", on=sown)
    stepped(season, sown + timedelta(days=2))
    season.log("not_done", task="topdress.1")
    plan = stepped(season, sown + timedelta(days=3))
    passes = kind(plan, "topdress")
    assert len(passes) == 2 and all(t.start > sown + timedelta(days=56) for t in passes)
    again = [plan.task(f"{name}.again") for name in ("mow_low.2", "core_aerate.1")]
    first = min(passes, key=lambda t: t.start)
    assert all(t is not None and t.start <= first.start <= t.end + timedelta(14) for t in again)
    marks = plan.task("locate_utilities.1.again")
    assert marks is not None and marks.end < first.start < marks.end + timedelta(days=28)
    roll = plan.task("roll")
    assert roll is not None and roll.closed == "dropped"
    assert {line.item: line.value for line in plan.order}.items() <= ordered.items() or not [
        line for line in plan.order if line.item == "seed"
    ]


@pytest.mark.full
def test_seed_before_the_fill_closes_the_work_on_its_ground() -> None:
    """What is sown on bare ground is neither tilled nor filled over: that work is closed, and the
    plan says why."""
    season = begun(brief_of(BARE))
    tilled = season.day("till")
    season.log("done", task="seed", on=tilled - timedelta(days=5))
    plan = stepped(season, tilled - timedelta(days=4))
    assert all(t.closed == "dropped" for t in plan.tasks if t.operation in ("till", "fill"))
    assert any("in the ground already" in str(told) for told in plan.cautions)
    why = {change.task: str(change.because) for change in plan.changes}
    assert "in the ground already" in why["fill.1"]


@pytest.mark.full
@pytest.mark.parametrize(
    "entries",
    [
        [("done", "topdress.1"), ("done", "topdress.1")],
        [("skipped", "topdress.1"), ("done", "topdress.1")],
        [("done", "topdress.1"), ("not_done", "topdress.1")],
        [("skipped", "overseed"), ("not_done", "topdress.1")],
        [("done", "overseed"), ("rained_off", "topdress.1")],
    ],
)
def test_entries_that_contradict_each_other_leave_a_plan(entries: list[tuple[str, str]]) -> None:
    """Whichever comes last, on the day or after it."""
    season = begun(brief_of({"calendar": {"weekdays": ["fri", "sat", "sun"]}}))
    day = season.day("topdress.1")
    season.done_until(day)
    for number, (deed, task) in enumerate(entries):
        on = {} if deed == "not_done" else {"on": day + timedelta(days=number)}
        season.log(deed, task=task, **on)
        stepped(season, day + timedelta(days=3 + number))


@pytest.mark.full
def test_a_move_that_cannot_be_kept_gives_way_and_says_so() -> None:
    """A pass held on the day after the one before it, which is done later than planned."""
    season = begun(brief_of({"leveling": {"depth": "1 in"}}))
    first, then = season.day("topdress.1"), season.day("topdress.2")
    season.done_until(first)
    season.log("moved", task="topdress.2", to=first + timedelta(days=3))
    plan = stepped(season, first + timedelta(days=1))
    task = plan.task("topdress.2")
    assert task is not None and then >= first
    if not task.held:
        assert any("cannot stay on" in str(told) for told in task.cautions)


def untold(*names: str, day: date | None = None) -> Walk:
    """A season in which everything was logged until a day, the first pass as a rule, but some
    tasks; and a note was written that has the rest planned again."""
    season = begun(brief_of())
    today = day or season.day("topdress.1")
    season.done_until(today, *names)
    season.log("note", text="Looked at it.")
    stepped(season, today)
    return season


def test_marks_that_nobody_asked_for_are_asked_for_before_the_tines() -> None:
    """As long as nothing is logged no line is marked; once the first request is, as asked for on
    its day, the second goes and the cores stay."""
    first = begun(brief_of())
    marks = first.day("locate_utilities")
    season = untold("locate_utilities", day=marks + timedelta(days=1))
    again, cores = season.plan.task("locate_utilities.again"), season.plan.task("core_aerate.1")
    assert again is not None and cores is not None
    assert marks < again.end < cores.start == first.day("core_aerate.1")
    season.log("done", task="locate_utilities", on=marks)
    plan = stepped(season, marks + timedelta(days=1))
    gone = plan.task("locate_utilities.again")
    assert gone is None or gone.status == "CANCELLED"
    assert season.day("core_aerate.1") == cores.start


def test_cores_that_nobody_told_of_are_pulled_before_the_pass() -> None:
    """They come again with the pass, a week later: their machine is asked for first. A cut that was
    made lower says it of those before it."""
    season = untold("core_aerate.1", "mow_low.2")
    again, spread = season.plan.task("core_aerate.1.again"), kind(season.plan, "topdress")[0]
    day = begun(brief_of()).day("topdress.1")
    assert again is not None and again.start <= spread.start == day + timedelta(days=7)
    assert day <= season.day("call.machines.1.again") < again.start
    cuts = [t.id for t in season.plan.tasks if t.operation == "mow_low" and "again" in t.id]
    # The last cut is made on the day of the pass, whichever that is.
    assert cuts == ["mow_low.3.again"]


def test_a_session_that_nobody_told_of_is_prepared_anew_in_its_season() -> None:
    """Marks, cores and the low cut come again before the pass, which stays in its window, and the
    seed with it."""
    season = untold("locate_utilities", "core_aerate.1", "mow_low.1", "mow_low.2", "mow_low.3")
    plan, spread = season.plan, kind(season.plan, "topdress")[0]
    days = [
        season.day(f"{name}.again")
        for name in ("locate_utilities", "mow_low.1", "core_aerate.1", "mow_low.3")
    ]
    assert days[0] < days[2] and max(days) <= spread.start
    sown = kind(plan, "overseed")[0]
    assert sown.start.year == 2027 and sown.end <= sown.window.end
