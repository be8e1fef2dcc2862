"""What befalls a lawn moves what waits for it, by its true cause; lost seed is sown again."""

from copy import deepcopy
from datetime import date, timedelta
from functools import cache
from typing import Any, get_args

import pytest

from campaigns.walks import Walk, begun
from planning import brief_of
from told import told
from turfplan.files.reading.book import load_book
from turfplan.planning.befallen import bans_of, events_of, why_none_lost
from turfplan.records.journal import EventName, JournalEntry
from turfplan.records.plan_task import Task
from turfplan.work.phases.befallen import held_until

SOWN = date(2027, 9, 5)


@cache
def _until(day: date) -> Walk:
    """The lawn with everything done until a day."""
    season = begun(brief_of({}))
    season.done_until(day)
    season.go(day)
    return season


def on(day: date, quantity: str, value: float, *more: dict[str, Any]) -> Walk:
    """The lawn on a day on which something is found, planned again."""
    season = deepcopy(_until(day))
    season.log("measured", quantity=quantity, value=value, on=day)
    for entry in more:
        season.log("measured", on=day, **entry)
    season.go(day)
    return season


def task(season: Walk, name: str) -> Task:
    """A task of the newest plan."""
    found = season.plan.task(name)
    assert found is not None, name
    return found


def moved(season: Walk, name: str) -> str:
    """Why a task is on another day than before."""
    return next(told(c.because) for c in season.plan.changes if c.task == name)


HELD = (
    # What happened on which day; what waits, how long, why; and what is looked at.
    (date(2027, 8, 15), "burned", "mow_low.1", 21, "burned", "inspect.burn"),
    (date(2027, 8, 25), "sickness", "topdress.1", 21, "sick", "inspect.sickness"),
    (date(2027, 8, 25), "heat_stress", "core_aerate.1", 14, "heat", "inspect.heat"),
    (date(2027, 8, 25), "weed_killer", "overseed", 42, "weed killer", "inspect.label"),
    (date(2027, 9, 3), "heap_wet", "topdress.1", 2, "wet", "inspect.heap"),
)


@pytest.mark.parametrize(("day", "name", "waits", "days", "why", "look"), HELD[:2])
def test_work_waits_for_what_has_befallen_the_lawn(
    day: date, name: str, waits: str, days: int, why: str, look: str
) -> None:
    """As long as the book says, and says why; then it is looked at."""
    season = on(day, name, 1.0)
    held = task(season, waits)
    assert held.start >= day + timedelta(days) > _until(day).day(waits)
    assert why in moved(season, waits)
    assert task(season, look).closed is None
    over = on(day, name, 1.0, {"quantity": name, "value": 0.0})
    assert over.day(waits) == _until(day).day(waits) and over.plan.task(look) is None


@pytest.mark.full
@pytest.mark.parametrize(("day", "name", "waits", "days", "why", "look"), HELD[2:])
def test_other_work_waits_too(
    day: date, name: str, waits: str, days: int, why: str, look: str
) -> None:
    """Every kind of event has work that waits for it."""
    test_work_waits_for_what_has_befallen_the_lawn(day, name, waits, days, why, look)


@pytest.mark.full
def test_what_befalls_the_lawn_again_is_looked_at_again(washed: Walk) -> None:
    """A look that was made is none at what came later; so is seed that was fetched none for what is
    lost since."""
    season = on(date(2027, 8, 15), "burned", 1.0)
    look = season.day("inspect.burn")
    season.log("done", task="inspect.burn", on=look)
    season.log("measured", quantity="burned", value=1.0, on=look + timedelta(3))
    season.go(look + timedelta(4))
    again = task(season, "inspect.burn")
    assert again.closed is None and again.start > look + timedelta(3)
    season, day = deepcopy(washed), washed.day("overseed")
    for name in ("inspect.lost_seed", "collect.seed.more", "overseed"):
        season.log("done", task=name, on=day)
    season.log("measured", quantity="animals", value=0.5, on=day + timedelta(2))
    season.go(day + timedelta(3))
    open_now = [task(season, name).closed for name in ("inspect.lost_seed", "collect.seed.more")]
    assert open_now == [None, None] and task(season, "overseed").closed is None
    assert [line for line in season.plan.order if line.item == "seed"]


@pytest.mark.full
def test_grass_that_is_not_green_yet_is_not_fed() -> None:
    """The spring feeding waits for the green, which is looked for."""
    day = date(2027, 4, 30)
    season = on(day, "green_up", 0.0)
    assert season.day("feed_nitrogen.spring") >= day + timedelta(14)
    assert "not green" in moved(season, "feed_nitrogen.spring")
    assert task(season, "inspect.green_up").closed is None


@pytest.mark.full
def test_buried_tips_hold_the_next_pass() -> None:
    """Nothing is put on leaves that are still buried, and they are brushed free."""
    season = begun(brief_of({"leveling": {"depth": "1.2 in"}, "seeding": {"intent": "none"}}))
    first, second = season.day("topdress.1"), season.day("topdress.2")
    season.done_until(second - timedelta(1))
    assert first < second
    eve = second - timedelta(2)
    season.log("measured", quantity="tips_buried", value=1, on=eve)
    season.go(second - timedelta(1))
    assert season.day("topdress.2") >= eve + timedelta(7)
    assert "buried" in moved(season, "topdress.2")


def test_a_ban_of_watering_holds_the_seed_and_takes_its_days_off() -> None:
    """What was found of a ban before counts until the next word on it."""
    day = date(2027, 8, 30)
    season = on(day, "water_ban", 14)
    assert season.day("overseed") > day + timedelta(13)
    assert "banned" in moved(season, "overseed")
    runs = [t.series for t in season.plan.tasks if t.series is not None and t.closed is None]
    last = day + timedelta(13)
    assert not [run for run in runs if run.start <= last and run.end >= day]


def _entry(number: int, quantity: str, value: float, day: date) -> JournalEntry:
    fields = {"number": number, "at": "2027-01-01T00:00:00Z", "kind": "measured", "on": day}
    return JournalEntry.model_validate({**fields, "quantity": quantity, "value": value})


def test_the_last_word_counts() -> None:
    """Of an event, and of a ban, which one of no days ends."""
    first, later = date(2027, 6, 1), date(2027, 6, 10)
    found = (_entry(1, "burned", 1, first), _entry(2, "green_up", 0, first))
    assert {e.name for e in events_of(found)} == {"burned", "green_up"}
    over = (*found, _entry(3, "burned", 0, later), _entry(4, "green_up", 1, later))
    assert events_of(over) == ()
    bans = (_entry(1, "water_ban", 30, first), _entry(2, "water_ban", 0, later))
    assert bans_of(bans[:1]) == ((first, first + timedelta(29)),)
    assert bans_of(bans) == ((first, later - timedelta(1)),)
    longer = (bans[0], _entry(2, "water_ban", 40, later))
    assert bans_of(longer)[-1] == (later, later + timedelta(39))


@pytest.fixture(scope="module")
def washed() -> Walk:
    """Three tenths of the seed are gone three days after it was sown."""
    return on(SOWN + timedelta(3), "seed_washed", 0.3)


def test_seed_that_is_washed_off_is_sown_again_for_its_part(washed: Walk) -> None:
    """With the seed for that part, fetched for it, after a look, by its true cause."""
    before, again = task(_until(SOWN + timedelta(3)), "overseed"), task(washed, "overseed")
    kg = [next(a.value for a in t.amounts if a.item == "seed") for t in (before, again)]
    assert kg[1] == pytest.approx(0.3 * kg[0])
    assert again.closed is None and again.start > SOWN + timedelta(3)
    look, trip = task(washed, "inspect.lost_seed"), task(washed, "collect.seed.more")
    assert look.end <= again.start and trip.end <= again.start
    assert "washed away" in moved(washed, "overseed")
    (line,) = (line for line in washed.plan.order if line.item == "seed")
    assert line.value == pytest.approx(kg[1], rel=1e-3)


def test_what_is_left_of_the_seed_is_kept_moist(washed: Walk) -> None:
    """From its own day on without a gap, and the part that is sown again after it."""
    days = {
        run.series.start + timedelta(number)
        for run in washed.plan.tasks
        if run.series is not None and run.status != "CANCELLED" and run.stage is not None
        if run.stage.id in ("soak", "germination")
        for number in range((run.series.end - run.series.start).days + 1)
    }
    first, again = SOWN, washed.day("overseed")
    assert {first + timedelta(n) for n in range((again - first).days + 14)} <= days


@pytest.mark.full
def test_it_is_done_once_it_is_sown_again(washed: Walk) -> None:
    """And then nothing more is bought or moved for it."""
    season = deepcopy(washed)
    day = season.day("overseed")
    season.done_until(day)
    season.log("done", task="overseed", on=day)
    season.go(day + timedelta(1))
    assert task(season, "overseed").closed == "done"
    assert not [line for line in season.plan.order if line.item == "seed"]
    assert not [t for t in season.plan.tasks if t.id == "inspect.germination" and t.closed]


@pytest.mark.full
@pytest.mark.parametrize(
    ("day", "same_season"), [(date(2027, 9, 28), True), (date(2027, 11, 9), False)]
)
def test_seed_that_never_came_up_is_sown_again_or_in_another_season(
    day: date, same_season: bool
) -> None:
    """All of it, in this season while that is open, else where the next one opens."""
    season = begun(brief_of({}))
    season.done_until(day, "first_mow")
    season.log("measured", quantity="germination", value=0.0, on=day)
    season.go(day)
    sowing = next(t for t in season.plan.tasks if t.plays("sowing") and t.closed is None)
    assert (sowing.start < day + timedelta(14)) is same_season
    assert task(season, "inspect.lost_seed").end <= sowing.start
    assert "none of the seed" in " ".join(told(c.because) for c in season.plan.changes)


NOTHING_LOST = (
    ("germination", 0.2, timedelta(4), "Seed is given its time"),
    ("seed_washed", 0.05, timedelta(4), "held back"),
    ("animals", 0.5, timedelta(-30), "No seed"),
)


@pytest.mark.parametrize(("quantity", "value", "since", "why"), NOTHING_LOST)
def test_what_loses_no_seed_is_said(
    quantity: str, value: float, since: timedelta, why: str
) -> None:
    """Seed has its time to come up, a little is made good from what was held back, and what is not
    sown cannot be lost."""
    season, day = _until(date(2027, 9, 8)), SOWN + since
    entry = _entry(99, quantity, value, day)
    said = why_none_lost(load_book(), entry, season.plan, season.journal)
    assert said is not None and why in told(said)
    lost = _entry(99, "seed_washed", 0.5, SOWN + timedelta(2))
    assert why_none_lost(load_book(), lost, season.plan, season.journal) is None
    well = _entry(99, "germination", 1.0, SOWN + timedelta(30))
    assert why_none_lost(load_book(), well, season.plan, season.journal) is None


@pytest.mark.full
def test_a_cause_that_is_found_holds_the_work_of_any_lawn() -> None:
    """Also where the brief names none; what waits says so."""
    day = date(2027, 8, 10)
    season = on(day, "live_cause", 1.0)
    assert task(season, "diagnose.again").closed is None
    assert season.day("topdress.1") > day + timedelta(30)
    assert "the cause" in moved(season, "topdress.1")


@pytest.mark.full
def test_the_sown_part_of_a_begun_sowing_is_watered_and_never_buried() -> None:
    """What is left is told for its own part."""
    season = begun(brief_of({}))
    season.done_until(SOWN)
    for name in ("topdress.1", "incorporate.1"):
        season.log("done", task=name, on=SOWN)
    season.log("done", task="overseed", on=SOWN, share=0.5)
    season.log("not_done", task="overseed", on=SOWN + timedelta(1))
    whole = next(a.value for a in task(season, "overseed").amounts if a.item == "seed")
    season.go(SOWN + timedelta(1))
    rest = task(season, "overseed")
    assert next(a.value for a in rest.amounts if a.item == "seed") == pytest.approx(whole / 2)
    assert "still to be sown" in told(rest.title)
    wet = [
        t.series for t in season.plan.tasks if t.stage is not None and t.stage.id == "germination"
    ]
    assert any(run is not None and run.start <= SOWN + timedelta(1) <= run.end for run in wet)


def test_every_event_has_its_time() -> None:
    """In the book, for all kinds."""
    from turfplan.records.past import LawnEvent

    setting = _until(SOWN + timedelta(3))
    assert setting.plan.task("overseed") is not None
    from resolved_lawns import setting_of

    lawn = setting_of(brief_of({}))
    for name in get_args(EventName):
        assert held_until(lawn, LawnEvent(name, SOWN)) > SOWN.toordinal()


def test_seed_that_is_sown_again_stands_on_its_new_days(washed: Walk) -> None:
    """On every list, and without a word of strips that are over."""
    again = task(washed, "overseed")
    assert again.days == (again.start, again.end) and again.actual is None
    assert not [c for c in again.cautions if getattr(c, "key", "").startswith("strips.")]
