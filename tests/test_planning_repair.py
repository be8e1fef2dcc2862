"""What becomes of a season whose windows were missed."""

from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta
from pathlib import Path
from typing import Any

import pytest

from outside_checks import TOOLS, update_faults
from planning import TODAY, amount, brief_of, example, example_brief, kind, plan_brief, plan_of
from printed import day_text, season_ics
from resolved_lawns import setting_of
from sample_plan import sample_plan, with_task
from test_seasons import Season, begun, done_until
from test_work_thatch import INVERNESS
from turfplan.app.inputs import input_of
from turfplan.export.tables.plan_json import plan_to_json
from turfplan.files.reading.plan import plan_from_json
from turfplan.message import as_written
from turfplan.planning import Weather
from turfplan.planning.kept_words import with_kept_words, with_window_reasons
from turfplan.planning.past_binds import outlived
from turfplan.planning.repair import (
    _published_nodes,
    coming_rain,
    first_open_day,
)
from turfplan.planning.task_roles import with_roles
from turfplan.planning.too_late import without_too_late
from turfplan.planning.ways_still_open import ways_still_open
from turfplan.records.book_names import OperationName
from turfplan.records.brief import Brief
from turfplan.records.constraints import DayStep, Lag, Reason, Strength
from turfplan.records.journal import EntryKind, JournalEntry
from turfplan.records.past import TaskHistory
from turfplan.records.plan import Plan
from turfplan.units import System
from turfplan.work.assumptions import resolve
from turfplan.work.drafts import Draft, SeasonDraft
from turfplan.work.filling import ways_of_filling
from turfplan.work.watering.request import WeatherDay

DEEP = {"leveling": {"depth": "1 in"}}
LATE = date(2027, 11, 20)
APRIL = date(2027, 4, 10)


def asked(season: Season, brief: Brief, day: date = LATE) -> Plan:
    """The plan that a re-planning would give, with nothing that is over taken for done."""
    now = datetime(day.year, day.month, day.day, 12, tzinfo=UTC)
    return plan_brief(
        brief, now=now, journal=tuple(season.journal), previous=season.plan, assume_not_done=True
    )


def until(brief: Brief, day: date) -> Brief:
    """The brief with another last day."""
    return brief.model_copy(update={"season": brief.season.model_copy(update={"until": day})})


def sound(season: Season, plan: Plan, tmp_path: Path, day: date = LATE) -> None:
    """Nothing open lies in the past, identities stay, and the checker of versions has nothing to
    say.
    """
    for task in plan.tasks:
        before = season.plan.task(task.id)
        if task.closed is None and task.status != "CANCELLED" and task.series is None:
            assert task.start >= day, task.id
        assert before is None or (before.uid == task.uid and before.sequence <= task.sequence)
    if TOOLS.is_dir():
        files = [tmp_path / name for name in ("before.ics", "after.ics")]
        for path, version in zip(files, (season.plan, plan), strict=True):
            path.write_bytes(season_ics(version))
        assert update_faults(*files) == []


SAMPLE = sample_plan()


def test_rain_that_is_forecast_is_that_from_today_on() -> None:
    """Nothing where only the air was measured; a dry day is one."""
    weather = {
        LATE - timedelta(1): WeatherDay(rain_mm=9.0),
        LATE: WeatherDay(rain_mm=4.0),
        LATE + timedelta(1): WeatherDay(et0_mm=2.0),
        LATE + timedelta(2): WeatherDay(rain_mm=0.0),
    }
    assert coming_rain(weather, LATE) == {LATE: 4.0, LATE + timedelta(2): 0.0}


def test_what_is_still_to_be_done_begins_today_or_when_it_is_asked_to() -> None:
    """Whichever is later."""
    setting = setting_of(brief_of())
    today, start = setting.today, setting.brief.season.start
    assert start is not None and start > today
    assert first_open_day(setting) == start
    later = replace(setting, today=start + timedelta(5))
    assert first_open_day(later) == start + timedelta(5)


def test_an_older_program_wrote_no_roles() -> None:
    """They are those of the book; what the book does not know keeps its own."""
    book = setting_of(brief_of()).book
    odd = with_task(SAMPLE, "dethatch", operation="unheard_of", roles=("thatching",))
    plan = with_roles(with_task(odd, "topdress.1", roles=()), book)
    spread, other = plan.task("topdress.1"), plan.task("dethatch")
    assert spread is not None and spread.roles == book.operations["topdress"].roles
    assert other is not None and other.roles == ("thatching",)


def test_marks_that_may_have_run_out_are_told_and_no_longer_hold_the_day() -> None:
    """Of what is done, before what is open; the least days stay, and so does advice."""
    reason = Reason("x", as_written(""))
    lag = Lag("marks", "a", "b", Strength.STRONG, reason, minimum=DayStep(2), maximum=DayStep(9))
    history = TaskHistory(done={"a": 5})
    least, most = outlived(lag, {}, history, 0)
    assert isinstance(least, Lag) and isinstance(most, Lag)
    assert (least.minimum, least.maximum, least.id) == (DayStep(2), None, "marks")
    assert (most.minimum, most.maximum) == (None, DayStep(9))
    assert (most.id, most.strength, most.runs_out) == ("marks:run_out", Strength.ADVICE, True)
    limit = replace(lag, minimum=None)
    assert [c.id for c in outlived(limit, {}, history, 0)] == ["marks:run_out"]
    for kept in (replace(lag, maximum=None), replace(lag, strength=Strength.ADVICE)):
        assert outlived(kept, {}, history, 0) == (kept,)
    assert outlived(lag, {"b": 9}, history, 0) == (lag,)
    assert outlived(lag, {}, TaskHistory(), 0) == (lag,)
    unsaid = TaskHistory(overdue=history.done)
    assert [c.id for c in outlived(limit, {}, unsaid, 0)] == ["marks:run_out"]
    assert len(outlived(replace(lag, strength=Strength.HARD), {}, history, 0)) == 2


def test_published_days_are_those_of_tasks_that_are_still_there() -> None:
    """By the node of their first day."""
    drafts = tuple(Draft(name, "topdress", "level", as_written(""), 1) for name in ("a", "b"))
    history = TaskHistory(published={"a": 5, "c": 6})
    assert _published_nodes(SeasonDraft(drafts, ()), history) == {"a": 5}


def test_tasks_that_stay_keep_the_words_they_were_published_with() -> None:
    """As long as brief and book are the same; their windows too, unless those have moved."""
    task = SAMPLE.tasks[0]
    other = task.model_copy(
        update={
            "not_earlier": (as_written("now"),),
            "fallback_day": None,
            "best": task.best + timedelta(1),
        }
    )

    def kept(of: Any = other, moved: Any = (), brief: str = "", data: str = "") -> Any:
        (found,) = with_kept_words(
            (of,),
            SAMPLE,
            brief or SAMPLE.brief_sha256,
            data or SAMPLE.data_version,
            moved,
        )
        return found.not_earlier == task.not_earlier, found.best == task.best

    assert kept() == (True, True)
    assert kept(moved=(task.operation,)) == (True, False)
    assert kept(brief="other") == kept(data="other") == (False, False)
    shifted = other.model_copy(update={"end": task.end + timedelta(1)})
    assert kept(shifted) == (False, False)
    assert with_kept_words((other,), None, "", "") == (other,)


def test_why_a_task_has_moved_is_the_journal_the_forecast_or_its_window() -> None:
    """Of those that have, in that order; a day that the window still holds is no reason."""
    task = SAMPLE.task("topdress.1")
    assert task is not None
    moved = task.model_copy(update={"start": task.start + timedelta(1)})
    words = {name: as_written(name) for name in ("journal", "forecast", "window")}

    def why(of: Any = moved, **window: Any) -> dict[str, str]:
        narrow = of.model_copy(update={"window": of.window.model_copy(update=window)})
        found = with_window_reasons({}, [narrow], SAMPLE, {"topdress": words["window"]}, {})
        return {name: str(text) for name, text in found.items()}

    assert why() == {}
    assert why(start=task.start) == why(end=task.start) == {}
    assert why(start=task.start + timedelta(1)) == {"topdress.1": "window"}
    assert why(end=task.start - timedelta(1)) == {"topdress.1": "window"}
    assert why(task, start=task.start + timedelta(1)) == {}
    late = moved.model_copy(
        update={"window": moved.window.model_copy(update={"start": moved.start})}
    )
    given = {"topdress": words["window"]}, {"topdress.1": words["forecast"]}
    assert with_window_reasons({}, [late], SAMPLE, *given) == {"topdress.1": words["forecast"]}
    logged = {"topdress.1": words["journal"]}
    assert with_window_reasons(logged, [late], SAMPLE, *given) == logged
    assert with_window_reasons({}, [task], SAMPLE, *given) == {}
    assert with_window_reasons({}, [late], None, *given) == {}


@pytest.mark.full
def test_a_missed_window_offers_options_that_hold(tmp_path: Path) -> None:
    """With every window of the plan's days missed the work is closed with its cause, and there are
    ways on; the one with more time is as told.
    """
    season = begun(DEEP, {"season": {"until": date(2028, 3, 1)}})
    plan = asked(season, season.brief)
    assert plan.conflict is None
    closed = [task for task in plan.tasks if task.plays("spreading", "sowing")]
    assert closed and all(task.closed == "dropped" for task in closed)
    told = {change.task: str(change.because) for change in plan.changes}
    assert all("no day is left for it" in told[task.id] for task in closed)
    assert sum("no day is left in this plan" in str(caution) for caution in plan.cautions) == 1
    changes = {str(option.change): option.reason.text for option in plan.options}
    assert "until = 2029-03-02" in changes and len(changes) >= 2
    taken = asked(season, until(season.brief, date(2029, 3, 2)))
    assert taken.conflict is None and taken.campaign_name.text in changes["until = 2029-03-02"]
    sound(season, taken, tmp_path)


@pytest.mark.full
def test_a_missed_window_is_planned_anew_where_there_is_time(tmp_path: Path) -> None:
    """With another year inside the plan's days the rest is laid out anew around what is done, and
    the plan says why.
    """
    season = begun(DEEP, {"season": {"until": date(2029, 6, 1)}})
    first = season.day("topdress.1")
    done_until(season, first + timedelta(days=5))
    season.make(first + timedelta(days=6))
    plan = asked(season, season.brief)
    assert plan.conflict is None
    sound(season, plan, tmp_path)
    done = plan.task("topdress.1")
    assert done is not None and done.closed == "done" and done.start == first
    assert sum(t.status != "COMPLETED" for t in kind(plan, "topdress")) >= 1
    assert kind(plan, "overseed")[0].start.year == 2028
    assert any(
        r.campaign == season.plan.campaign_name and "still to be done" in r.reason.text
        for r in plan.rejected
    )
    assert {c.kind for c in plan.changes} >= {"moved"}


@pytest.mark.full
def test_another_last_day_counts_when_planning_again() -> None:
    """A brief that asks for another end has it, also in a folder that was planned before; the first
    day stays.
    """
    season = begun()
    season.brief = until(season.brief, date(2028, 6, 30))
    again = season.make(date(2027, 2, 3))
    assert (
        again.horizon.end == date(2028, 6, 30)
        and again.horizon.start == season.versions[0].horizon.start
    )


@pytest.mark.full
def test_a_forecast_moves_work_off_wet_days_and_says_so() -> None:
    """Rain forecast for a pass moves it, and report and feed name the forecast; without a forecast
    it stays; no rule is hard.
    """
    season = begun(DEEP)
    day = season.day("topdress.1")
    done_until(season, day - timedelta(days=1))
    before = day - timedelta(days=1)
    season.make(before)
    plan = season.make(before, 10, weather=Weather({day: WeatherDay(rain_mm=15.0)}))
    task = plan.task("topdress.1")
    assert task is not None and task.start > day + timedelta(days=1) and task.published is not None
    told = {c.task: c.because.text for c in plan.changes}
    assert (
        told["topdress.1"]
        == f"Rain is forecast: {day_text(day, System.US, year=False)} will be too wet."
    )
    assert told["topdress.1"] in task.published.description
    flood = {before + timedelta(days=n): WeatherDay(rain_mm=20.0) for n in range(90)}
    assert season.make(before, 12, weather=Weather(flood)).conflict is None


@pytest.mark.full
def test_a_forecast_looks_at_every_day_of_a_pass() -> None:
    """A pass of two days with rain forecast for its second is moved to two dry ones, and told
    why.
    """
    season = begun(DEEP, {"work": {"people": 1}})
    task = season.plan.task("topdress.1")
    assert task is not None and (task.end - task.start).days == 1
    before, wet = task.start - timedelta(days=1), task.end
    done_until(season, before)
    season.make(before)
    moved = season.make(before, 10, weather=Weather({wet: WeatherDay(rain_mm=3.0)})).task(
        "topdress.1"
    )
    assert moved is not None and moved.start != task.start and not moved.start <= wet <= moved.end
    (told,) = [c.because.text for c in season.plan.changes if c.task == "topdress.1"]
    assert told == f"Rain is forecast: {day_text(wet, System.US, year=False)} will be too wet."


@pytest.mark.full
def test_a_forecast_holds_a_delivery() -> None:
    """A load is not taken on a day of rain that is forecast, where another day will do."""
    season = begun(DEEP)
    day = season.day("delivery.1")
    done_until(season, day - timedelta(days=1))
    season.make(day - timedelta(days=2))
    season.make(day - timedelta(days=2), 10, weather=Weather({day: WeatherDay(rain_mm=5.0)}))
    assert season.day("delivery.1") != day
    (told,) = [c.because.text for c in season.plan.changes if c.task == "delivery.1"]
    assert told.startswith("Rain is forecast")


@pytest.mark.full
def test_marks_that_run_out_are_asked_for_again() -> None:
    """Marks of buried lines run out while rain holds the tines up: a second request comes before
    them, and stays once it is made.
    """
    season = begun(DEEP)
    marks, tines = season.day("locate_utilities.1"), season.day("core_aerate.1")
    done_until(season, tines)
    season.journal = [
        e for e in season.journal if e.task not in ("locate_utilities.1", "raise_fittings")
    ]
    season.log("done", task="locate_utilities.1", on=marks - timedelta(days=30))
    season.log("rained_off", on=tines)
    plan = season.make(tines + timedelta(days=1))
    again, task = plan.task("locate_utilities.1.again"), plan.task("core_aerate.1")
    assert task is not None and again is not None and again.closed is None
    assert tines < again.start and timedelta(3) <= task.start - again.end <= timedelta(28)
    assert not any("have it done again" in caution.text for caution in task.cautions)
    season.log("done", task=again.id, on=again.start)
    later = season.make(again.start + timedelta(days=1))
    kept = later.task(again.id)
    assert kept is not None and kept.closed == "done" and season.day("core_aerate.1") == task.start


@pytest.mark.full
def test_history_of_an_older_program_learns_its_roles() -> None:
    """A plan written before tasks had roles: what is done in it plays its part all the same once it
    is planned again.
    """
    first_plan = plan_of()
    ordered = next(t for t in first_plan.tasks if t.plays("ordering"))
    older = first_plan.model_copy(
        update={"tasks": tuple(t.model_copy(update={"roles": ()}) for t in first_plan.tasks)}
    )
    done = JournalEntry(number=1, at=TODAY, kind="done", task=ordered.id, on=ordered.end)
    later = datetime.combine(ordered.end + timedelta(days=2), time(12), UTC)
    again = plan_of(journal=(done,), previous=older, now=later)
    kept = again.task(ordered.id)
    assert kept is not None and kept.closed == "done" and kept.roles == ordered.roles


@pytest.mark.full
def test_a_task_of_newer_rules_does_not_come_before_work_that_is_done() -> None:
    """A plan without the marks that today's rules ask for first: once the tines have gone in, the
    marks before them are asked for no more, and the season goes on.
    """
    season = begun(DEEP)
    asked = season.plan.task("locate_utilities.1")
    assert asked is not None
    left = tuple(task for task in season.plan.tasks if task.id != asked.id)
    season.versions = [season.plan.model_copy(update={"tasks": left})]
    tines = season.day("core_aerate.1")
    done_until(season, tines + timedelta(days=1))
    plan = season.make(tines + timedelta(days=1))
    assert plan.task(asked.id) is None
    cored, spread = plan.task("core_aerate.1"), plan.task("topdress.1")
    assert cored is not None and cored.closed == "done"
    assert spread is not None and spread.closed is None and spread.start > tines


def test_what_must_come_before_work_that_is_over_goes_with_what_leads_to_it() -> None:
    """Open tasks bound before a job that is done go, also through others; main work, what is held
    or begun, and what is only advised or in time, stay.
    """
    brief = brief_of(DEEP)
    given = input_of(brief, Path())
    setting = resolve(brief, given.book, given.climate, TODAY.date())
    kinds: dict[str, OperationName] = {
        "call": "soil_test",
        "mark": "locate_utilities",
        "held": "raise_fittings",
        "begun": "mow_low",
        "advised": "preemergent",
        "seed": "overseed",
        "done": "core_aerate",
        "later": "first_mow",
    }
    why = as_written("because")
    drafts = tuple(Draft(name, kind, "prepare", why, 1) for name, kind in kinds.items())
    reason = Reason("test", why)
    lags = [
        Lag(f"{one}>{other}", one, other, Strength.HARD, reason, DayStep(0))
        for one, other in [
            ("call", "mark"),
            *((name, "done") for name in ("mark", "held", "begun", "seed")),
            ("done", "later"),
        ]
    ]
    lags.append(Lag("advised", "advised", "done", Strength.ADVICE, reason, DayStep(0)))
    day = TODAY.toordinal()
    history = TaskHistory(done={"done": day - 1}, held={"held": day + 3}, part_done={"begun": 0.5})
    left, _ = without_too_late(setting, SeasonDraft(drafts, tuple(lags)), history, TODAY.date())
    assert {draft.id for draft in left.drafts} == kinds.keys() - {"call", "mark"}
    assert "call>mark" not in {lag.id for lag in left.constraints}
    same_day = replace(history, done={"done": day})
    whole, _ = without_too_late(setting, SeasonDraft(drafts, tuple(lags)), same_day, TODAY.date())
    assert whole.drafts == drafts


@pytest.mark.full
def test_days_of_work_logged_out_of_order_span_them_all() -> None:
    """Parts logged of the first, the fifth and, remembered later, the third day: the work lasted
    from the first to the fifth.
    """
    plan = plan_of({"leveling": {"depth": "0.25 in"}})
    spread = next(t for t in plan.tasks if t.plays("spreading"))
    days = [spread.start + timedelta(number) for number in (0, 4, 2)]
    entries = tuple(
        JournalEntry(number=number, at=TODAY, kind="done", task=spread.id, on=day, share=share)
        for number, (day, share) in enumerate(zip(days, (0.3, 0.4, 0.3), strict=True), 1)
    )
    now = datetime.combine(max(days) + timedelta(1), time(12), UTC)
    again = plan_of(
        {"leveling": {"depth": "0.25 in"}}, journal=entries, previous=plan, now=now
    ).task(spread.id)
    assert again is not None and again.closed == "done" and again.actual is not None
    assert (again.actual.start, again.actual.end) == (min(days), max(days))


@pytest.mark.full
def test_a_campaign_that_is_gone_is_given_up_with_a_reason_or_not_named() -> None:
    """A warm-season lawn of plants whose campaign is no longer among those to choose from: what is
    told as ruled out has its reason, so that the plan can be kept.
    """
    brief = brief_of(
        {
            "lawn": {"grass": "st_augustine", "soil": "sand", "area": "1967 m2"},
            "place": {"postal_code": "33139"},
            "leveling": {"depth": "21 mm"},
            "seeding": {"intent": "plant"},
            "season": {"from": date(2027, 8, 24)},
        }
    )
    first = plan_brief(brief)
    moved = JournalEntry(
        number=1, at=TODAY, kind="moved", task="irrigation_check", to=date(2027, 8, 29)
    )
    again = plan_brief(brief, TODAY + timedelta(days=14), (moved,), first)
    assert all(rejected.reason.text for rejected in again.rejected)
    assert plan_from_json(plan_to_json(again)).rejected == again.rejected


def test_rain_to_come_begins_today() -> None:
    """What fell yesterday is no forecast; a day of which nobody knows its rain says nothing."""
    weather = {
        APRIL + timedelta(n): WeatherDay(rain_mm=mm)
        for n, mm in ((-1, 9.0), (0, 5.0), (1, 0.0), (2, None), (3, 7.0))
    }
    assert coming_rain(weather, APRIL) == {
        APRIL: 5.0,
        APRIL + timedelta(1): 0.0,
        APRIL + timedelta(3): 7.0,
    }


@pytest.mark.full
def test_a_moved_task_says_what_the_journal_the_forecast_or_its_window_says() -> None:
    """In that order; a window speaks only of a task whose old day lies outside of it, and of none
    that stands on its day.
    """
    plan = begun().plan
    task = next(t for t in plan.tasks if t.operation == "topdress")
    other = next(t for t in plan.tasks if t.operation != "topdress")
    opens, shuts = task.window.start, task.window.end
    why = {name: as_written(name) for name in ("moved", "rain", "hand")}
    windows, forecast = {task.operation: why["moved"]}, {task.id: why["rain"]}

    def told(was: date, **more: object) -> dict[str, object]:
        before = task.model_copy(update={"start": was, "end": was})
        previous = plan.model_copy(update={"tasks": (before, other)})
        rain = forecast if more.get("rain") else {}
        hand = {task.id: why["hand"]} if more.get("hand") else {}
        return dict(with_window_reasons(hand, (task, other), previous, windows, rain))

    early, late = opens - timedelta(1), shuts + timedelta(1)
    assert told(early) == told(late) == {task.id: why["moved"]}
    inside = opens if opens != task.start else shuts
    assert told(inside) == told(task.start) == {}
    assert told(early, rain=True) == told(inside, rain=True) == {task.id: why["rain"]}
    assert told(task.start, rain=True) == {}
    assert told(early, rain=True, hand=True) == {task.id: why["hand"]}
    assert with_window_reasons({}, (task,), None, windows, forecast) == {}


OMAHA = {
    "lawn": {
        "area": "3600 ft2",
        "grass": [
            {"species": "kentucky_bluegrass", "share": 0.6},
            {"species": "perennial_ryegrass", "share": 0.4},
        ],
        "soil": "silt loam",
        "thatch": "0.4 in",
        "condition": "patchy",
        "thin_share": 0.25,
    },
    "place": {"postal_code": "68104", "state": "NE"},
    "leveling": {
        "depth": None,
        "lows": [{"depth": "1.25 in", "share": 0.06}, {"depth": "0.5 in", "share": 0.15}],
    },
    "seeding": {"intent": "patch"},
    "water": None,
    "work": None,
}
# What lies before the work of late August.
SPRING_DONE = ("diagnose", "delivery.lifting", "mow_low.1", "lift_and_fill", "inspect.relaid")


def omaha_rained_off(today: date, *done: str, off: tuple[date, ...]) -> tuple[Plan, Plan]:
    """A plan with relaid hollows and the one made again today, some jobs done on their days, some
    days rained off."""
    before = plan_of(OMAHA, options=False)
    days = {task.id: task.end for task in before.tasks}
    said = [*({"kind": "done", "task": name, "on": days[name]} for name in (*SPRING_DONE, *done))]
    said += [{"kind": "rained_off", "on": day} for day in off]
    journal = tuple(JournalEntry(number=n, at=TODAY, **words) for n, words in enumerate(said, 1))
    now = datetime.combine(today, time(12), UTC)
    again = plan_of(OMAHA, now=now, journal=journal, previous=before, options=False)
    return before, again


def test_rain_on_two_weekends_moves_the_work_within_its_season() -> None:
    """The cut over seed that was to be yesterday waits with the seed: pass and seed go on on the
    last Saturday of the season."""
    off = (date(2027, 8, 28), date(2027, 8, 29), date(2027, 9, 4), date(2027, 9, 5))
    before, again = omaha_rained_off(
        date(2027, 9, 6), "irrigation_check", "locate_utilities", "delivery.1", off=off
    )
    cut = kind(before, "mow_old")[0]
    assert cut.start < date(2027, 9, 6)
    assert again.conflict is None
    passed, seed, later = (kind(again, name)[0] for name in ("topdress", "overseed", "mow_old"))
    assert date(2027, 9, 6) < passed.start <= passed.window.end
    assert seed.start.year == 2027 and (later.start - seed.end).days >= 7 and not later.overdue


def test_marks_without_a_word_keep_no_work_out_of_its_season() -> None:
    """They are taken as not asked for: the tines wait for new ones, in the same autumn."""
    off = (date(2027, 8, 28), date(2027, 8, 29), date(2027, 9, 4), date(2027, 9, 5))
    _, again = omaha_rained_off(date(2027, 9, 6), "delivery.1", off=off)
    tines, marks = kind(again, "core_aerate")[0], again.task("locate_utilities.again")
    assert kind(again, "topdress")[0].start.year == kind(again, "overseed")[0].start.year == 2027
    assert marks is not None and date(2027, 9, 6) <= marks.end < tines.start


@pytest.mark.parametrize("today", [date(2027, 9, 13), date(2027, 10, 18)])
def test_hollows_that_were_lifted_are_not_filled_again(today: date) -> None:
    """Rain takes the whole season of the pass: what another way spreads lies beside them."""
    days = (date(2027, 8, 28) + timedelta(n) for n in range((today - date(2027, 8, 28)).days))
    off = tuple(day for day in days if day.weekday() >= 5)
    before, again = omaha_rained_off(
        today, "irrigation_check", "locate_utilities", "delivery.1", off=off
    )
    assert again.conflict is None and again.campaign != "" and before.lawn.depth_mm < 13
    lifted = [t for t in again.tasks if t.plays("relaying")]
    assert [t.closed for t in lifted] == ["done"]
    spread = [t for t in kind(again, "topdress") if t.closed is None]
    whole_m3 = 3600 * 0.3048**2 * 0.15 * 0.0127
    assert sum(amount(t, "depth") for t in spread) <= 12.7 + 0.01
    assert sum(amount(t, "volume") for t in spread) <= whole_m3 * 1.3
    told = [str(line) for line in again.cautions]
    assert not any("Nothing of the" in line for line in told)


def test_ways_left_are_those_of_the_lifted_hollows() -> None:
    """Done or begun; all of them while nothing was lifted, or where the brief asks for others."""
    before, setting = plan_of(OMAHA, options=False), setting_of(brief_of(OMAHA))
    every = ways_of_filling(setting)
    assert ways_still_open(setting, before, TaskHistory()) == every
    for history in (
        TaskHistory(done={"lift_and_fill": 1}),
        TaskHistory(part_done={"lift_and_fill": 0.5}),
    ):
        ways = ways_still_open(setting, before, history)
        assert ways and {round(way.levelling.lift_depth_mm, 2) for way in ways} == {31.75}
        assert all(band.depth_mm <= 12.71 for way in ways for band in way.levelling.bands)
        assert any(not way.levelling.bands for way in ways)
    # A permit that is refused once turf is up lays no turf back unfilled.
    refused = setting_of(brief_of(OMAHA, {"water": {"allowed_weekdays": ["sat"], "permit": False}}))
    assert not any(way.levelling.lift_share for way in ways_of_filling(refused))
    ways = ways_still_open(refused, before, TaskHistory(part_done={"lift_and_fill": 0.5}))
    assert ways and {round(way.levelling.lift_depth_mm, 2) for way in ways} == {31.75}
    shallow = {"leveling": {"lows": [{"depth": "1 in", "share": 0.06}]}}
    other = setting_of(brief_of(OMAHA, shallow))
    lifted = TaskHistory(done={"lift_and_fill": 1})
    assert ways_still_open(other, before, lifted) == ways_of_filling(other)


@pytest.mark.parametrize("later", [0, 2, 3, 6])
def test_a_load_that_was_refused_comes_again(later: int) -> None:
    """However many days after the refusal the plan is made again: the mix is on site, and kept dry,
    before the pass."""
    brief = example_brief("transition-fescue")
    before = example("transition-fescue")
    load = kind(before, "delivery")[0]
    refused = JournalEntry(number=1, at=TODAY, kind="refused", task=load.id, on=load.end)
    day = load.end + timedelta(later)
    now = datetime.combine(day, time(12), UTC)
    again = plan_brief(brief, now=now, journal=(refused,), previous=before, options=False)
    new, spread = again.task(load.id), kind(again, "topdress")[0]
    assert new is not None and new.closed is None and new.status != "CANCELLED"
    assert max(day, load.end + timedelta(1)) <= new.start <= spread.start
    kept = [t for t in kind(again, "dry_material") if load.id in t.depends_on]
    assert all(new.end <= task.start and not task.overdue for task in kept)
    assert any(new.start == line.deliver_by for line in again.order)


RELAID = "inspect.relaid"
CHRISTCHURCH = {
    "lawn": {
        "area": "380 m2",
        "grass": [
            {"species": "perennial_ryegrass", "share": 0.7},
            {"species": "browntop", "share": 0.3},
        ],
        "soil": "silt loam",
        "thatch": "8 mm",
        "condition": "dense",
    },
    "place": {"postal_code": None, "country": "NZ", "latitude": -43.49, "longitude": 172.6},
    "leveling": {
        "depth": None,
        "lows": [{"depth": "35 mm", "share": 0.05}, {"depth": "12 mm", "share": 0.2}],
    },
    "seeding": {"intent": "none"},
    "water": None,
    "season": {"from": date(2027, 2, 1), "campaign": "autumn"},
    "site": {"bump_cause": "settling"},
    "work": None,
}


@pytest.mark.parametrize("late", [0, 6])
def test_relaid_turf_is_looked_at_a_week_before_the_pass_and_cored_once_rooted(late: int) -> None:
    """In the first plan, and where the turf was lifted some days later: there is time to order more
    mix or to wait, and neither blade nor tine tears what has not rooted."""
    plan = plan_of(CHRISTCHURCH, options=False)
    if late:
        lifted = kind(plan, "lift_and_fill")[0]
        day = lifted.end + timedelta(late)
        early = [t for t in plan.tasks if t.series is None and t.end < day and t.id != lifted.id]
        said = [(t.id, t.end) for t in early] + [(lifted.id, day)]
        journal = tuple(
            JournalEntry(number=n, at=TODAY, kind="done", task=name, on=on)
            for n, (name, on) in enumerate(said, 1)
        )
        now = datetime.combine(day, time(12), UTC)
        plan = plan_of(CHRISTCHURCH, now=now, journal=journal, previous=plan, options=False)
    (lifted,), (look,) = kind(plan, "lift_and_fill"), [t for t in plan.tasks if t.id == RELAID]
    tines, spread, cut = (kind(plan, name) for name in ("core_aerate", "topdress", "mow_low"))
    assert (look.start - lifted.end).days >= 14
    assert (spread[0].start - look.end).days >= 7
    assert look.end <= tines[0].start and (tines[0].start - lifted.end).days >= 14
    assert look.end <= cut[-1].start


@pytest.mark.parametrize(
    ("kind_of", "task", "on"),
    [
        ("rained_off", "overseed", date(2027, 8, 28)),
        ("refused", "delivery.2", date(2027, 8, 14)),
    ],
)
def test_seed_that_missed_its_season_goes_in_a_year_later(
    kind_of: EntryKind, task: str, on: date
) -> None:
    """Strip by strip too: the cut over seed that was never sown does not count as done, and the
    plan made again in October has a season for the seed."""
    before = plan_of(INVERNESS, options=False)
    lost = JournalEntry(number=1, at=TODAY, kind=kind_of, task=task, on=on)
    now = datetime(2027, 10, 4, 12, tzinfo=UTC)
    again = plan_of(INVERNESS, now=now, journal=(lost,), previous=before, options=False)
    assert again.conflict is None
    seed = [t for t in again.tasks if t.plays("sowing") and t.status != "CANCELLED"]
    assert [t.start.year for t in seed if not t.overdue] == [2028]
    cut = kind(again, "mow_old")[0]
    assert not cut.overdue and (cut.start - seed[0].start).days >= 7
