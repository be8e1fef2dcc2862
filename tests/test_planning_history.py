"""What the journal says of a plan: done, in part, skipped, moved, put off, overdue, and the days
that are too wet.
"""

import re
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest

from sample_plan import sample_plan, with_task, without
from told import told
from turfplan.files.reading.book import load_book
from turfplan.planning.days_left import fixed_nodes, history_constraints
from turfplan.planning.dry_days import dry_day_constraints, forecast_reasons
from turfplan.planning.history import (
    TaskHistory,
    looked_again,
    read_history,
    still_missing_mm,
)
from turfplan.records.constraints import Allowed, DaySet, Strength
from turfplan.records.journal import JournalEntry
from turfplan.records.plan_task import WhatHappened
from turfplan.work.drafts import Draft, SeasonDraft

BOOK = load_book()
PLAN = sample_plan()
AUTUMN = date(2027, 9, 8)


def journal(*entries: dict[str, Any]) -> tuple[JournalEntry, ...]:
    """Entries in the order given."""
    at = datetime(2027, 9, 1, tzinfo=UTC)
    return tuple(
        JournalEntry(number=number, at=at, **entry) for number, entry in enumerate(entries, 1)
    )


def past_of(*entries: dict[str, Any], today: date = AUTUMN, **options: Any) -> TaskHistory:
    """The history of the invented plan."""
    return read_history(BOOK, journal(*entries), PLAN, today, **options)


def done(task: str, day: date, **more: Any) -> dict[str, Any]:
    """An entry of work done."""
    return {"kind": "done", "task": task, "on": day, **more}


def test_parts_of_a_job_add_up() -> None:
    """Two entries out of order, 40 and 60 %, 1 and 1.5 m3: from the first day to the last it is
    done, with 2.5 m3 used.
    """
    later, earlier = date(2027, 9, 7), date(2027, 9, 5)
    found = past_of(
        done("topdress.1", later, share=0.4, amount=1.0, unit="m3"),
        done("topdress.1", earlier, share=0.6, amount=1.5, unit="m3"),
    )
    actual = found.actual["topdress.1"]
    assert (actual.start, actual.end, actual.share) == (earlier, later, 1.0)
    assert [(a.value, a.unit) for a in actual.amounts] == [(2.5, "m3")]
    assert found.done == {"topdress.1": later.toordinal()} and found.part_done == {}
    assert told(found.because["topdress.1"]) == "It is done."


def test_a_part_is_a_part() -> None:
    """40 % is begun and not over; more than the whole is the whole; amounts of other units stay
    apart.
    """
    found = past_of(
        done("topdress.1", AUTUMN, share=0.4, amount=1.0, unit="m3"),
        done("dethatch", AUTUMN, share=0.8),
    )
    assert found.part_done == {"topdress.1": 0.4, "dethatch": 0.8} and found.done == {}
    assert told(found.because["topdress.1"]) == "40% of it is done."
    twice = past_of(
        done("dethatch", AUTUMN, share=0.8, amount=3.0, unit="kg"),
        done("dethatch", AUTUMN, share=0.8, amount=1.0, unit="m3"),
    )
    assert twice.actual["dethatch"].share == 1.0 and twice.part_done == {}
    assert {(a.value, a.unit) for a in twice.actual["dethatch"].amounts} == {
        (3.0, "kg"),
        (1.0, "m3"),
    }


def test_work_takes_the_place_of_a_move() -> None:
    """A job that was moved by hand and then done is not held any more; a move after a skip holds
    nothing.
    """
    to = date(2027, 9, 20)
    held = past_of({"kind": "moved", "task": "topdress.2", "to": to})
    assert (
        held.held == {"topdress.2": to.toordinal()}
        and told(held.because["topdress.2"]) == "It was moved by hand."
    )
    assert (
        past_of(
            {"kind": "moved", "task": "topdress.2", "to": to}, done("topdress.2", AUTUMN, share=0.5)
        ).held
        == {}
    )
    skipped = past_of(
        {"kind": "moved", "task": "topdress.2", "to": to},
        {"kind": "skipped", "task": "topdress.2", "on": AUTUMN},
    )
    assert skipped.held == {} and skipped.skipped == {"topdress.2"}


@pytest.mark.parametrize(("kind", "wait"), [("rained_off", 1), ("refused", 2)])
def test_what_was_put_off_waits(kind: str, wait: int) -> None:
    """A day after rain, two after a load that was sent back; a move by hand falls with it."""
    found = past_of(
        {"kind": "moved", "task": "delivery.1", "to": date(2027, 9, 11)},
        {"kind": kind, "task": "delivery.1", "on": AUTUMN},
    )
    assert found.not_before["delivery.1"][0] == AUTUMN.toordinal() + wait and found.held == {}


def test_rain_puts_off_what_needs_dry_days() -> None:
    """On the second day of the second pass only that pass; a job moved onto the rain is hit on its
    new day, not on its old.
    """
    rain = {"kind": "rained_off", "on": date(2027, 9, 12)}
    assert "topdress.2" in past_of(rain).not_before and "topdress.1" not in past_of(rain).not_before
    assert "soil_test" not in past_of(rain).not_before
    away = {"kind": "moved", "task": "topdress.2", "to": date(2027, 9, 18)}
    assert "topdress.2" not in past_of(away, rain).not_before
    assert "topdress.2" in past_of(away, rain | {"on": date(2027, 9, 19)}).not_before
    for outside in (date(2027, 9, 10), date(2027, 9, 13)):
        assert "topdress.2" not in past_of(rain | {"on": outside}).not_before


def test_overdue_is_what_is_over_without_a_word() -> None:
    """Jobs that ended before today count from their last day; those of today, moved, done, skipped
    or not done do not.
    """
    today = date(2027, 9, 13)
    found = past_of(today=today)
    assert found.overdue["topdress.2"] == date(2027, 9, 12).toordinal()
    assert (
        found.overdue["soil_test"] == date(2027, 3, 13).toordinal()
        and "inspect.germination" not in found.overdue
    )
    assert "topdress.2" not in past_of(today=date(2027, 9, 12)).overdue
    assert not any(name.startswith("water") for name in past_of(today=date(2028, 6, 1)).overdue)
    assert past_of(today=today, assume_not_done=True).overdue == {}
    words = (
        done("dethatch", date(2027, 9, 4)),
        {"kind": "skipped", "task": "soil_test", "on": AUTUMN},
        {"kind": "not_done", "task": "mow_low.1"},
        {"kind": "moved", "task": "core_aerate.1", "to": date(2027, 9, 20)},
        {"kind": "rained_off", "task": "topdress.1", "on": date(2027, 9, 5)},
    )
    answered = past_of(*words, today=today).overdue
    assert not answered.keys() & {
        "dethatch",
        "soil_test",
        "mow_low.1",
        "core_aerate.1",
        "topdress.1",
    }
    assert "topdress.2" in answered


def test_what_follows_work_that_was_put_off_is_not_over() -> None:
    """Rain took the pass: what depends on it, and on that, waits; what was begun, or does not
    depend on it, is asked about."""
    today = date(2027, 9, 20)
    plan = with_task(PLAN, "topdress.2", depends_on=("topdress.1",))
    plan = with_task(plan, "starter_feed", depends_on=("topdress.2",))
    rained = journal({"kind": "rained_off", "task": "topdress.1", "on": date(2027, 9, 5)})
    asked = read_history(BOOK, rained, plan, today).overdue
    assert {"topdress.2", "starter_feed"} <= read_history(BOOK, (), plan, today).overdue.keys()
    assert not {"topdress.2", "starter_feed"} & asked.keys()
    assert "soil_test" in asked
    begun = with_task(
        plan,
        "topdress.2",
        actual=WhatHappened(start=date(2027, 9, 11), end=date(2027, 9, 11), share=0.5),
    )
    assert "topdress.2" in read_history(BOOK, rained, begun, today).overdue
    nearer = journal({"kind": "moved", "task": "topdress.1", "to": date(2027, 9, 6)})
    assert "topdress.2" in read_history(BOOK, nearer, plan, today).overdue
    later = journal({"kind": "moved", "task": "topdress.1", "to": date(2027, 9, 18)})
    assert "topdress.2" not in read_history(BOOK, later, plan, today).overdue


def test_days_that_stand() -> None:
    """What is done stands before what is held, and that before what is overdue."""
    history = TaskHistory(done={"a": 1}, held={"a": 2, "b": 3}, overdue={"a": 4, "b": 5, "c": 6})
    assert history.fixed == {"a": 1, "b": 3, "c": 6}
    assert history.recorded == {"a", "b", "c"}


def test_published_are_the_open_jobs() -> None:
    """Waterings are not among them, nor what is done."""
    found = past_of(done("dethatch", date(2027, 9, 4))).published
    assert found["topdress.2"] == date(2027, 9, 11).toordinal()
    assert "dethatch" not in found and not any(name.startswith("water") for name in found)


def test_measurements_are_kept() -> None:
    """Soil in order, rain by day, the depth that was last measured, the first day on which seed had
    come up.
    """

    def measured(quantity: str, value: float, day: date) -> dict[str, Any]:
        return {"kind": "measured", "quantity": quantity, "value": value, "on": day}

    days = [AUTUMN + timedelta(days=n) for n in range(3)]
    found = past_of(
        measured("soil_temperature", 18.0, days[1]),
        measured("soil_temperature", 0.0, days[2]),
        measured("rain", 4.0, days[0]),
        measured("rain", 6.0, days[0]),
        measured("depth_missing", 3.0, days[0]),
        measured("depth_missing", 0.0, days[1]),
        measured("germination", 0.0, days[0]),
        measured("germination", 1.0, days[1]),
        measured("germination", 1.0, days[2]),
    )
    assert found.soil == ((days[1], 18.0), (days[2], 0.0)) and found.rain == {days[0]: 6.0}
    assert found.missing_mm == 0.0 and found.germinated == days[1]
    assert past_of().missing_mm is None and past_of().germinated is None
    assert past_of(measured("soil_temperature", 18.0, days[0])).germinated is None


def test_what_is_missing_counts_once_all_passes_are_over() -> None:
    """Two passes done, or one done and one skipped; not while one is open, nor without a plan."""
    over = TaskHistory(done={"topdress.1": 1}, skipped=frozenset({"topdress.2"}), missing_mm=3.0)
    assert still_missing_mm(over, PLAN) == 3.0
    assert still_missing_mm(TaskHistory(done={"topdress.1": 1}, missing_mm=3.0), PLAN) is None
    assert still_missing_mm(over, None) is None


def draft(name: str, operation: str, days: int = 1) -> Draft:
    """A job of some days."""
    return Draft(name, operation, "level", "", 1, duration_days=days)


def test_open_jobs_lie_from_today() -> None:
    """And from the day that rain left them; what is fixed is not bound."""
    today = AUTUMN.toordinal()
    drafts = [
        draft("topdress.1", "topdress"),
        draft("topdress.2", "topdress"),
        draft("roll", "roll"),
    ]
    history = TaskHistory(
        done={"roll": today - 3}, not_before={"topdress.2": (today + 2, "It was rained off.")}
    )
    found = {c.id: c for c in history_constraints(history, drafts, AUTUMN, today + 30)}
    assert set(found) == {"today:topdress.1", "today:topdress.2", "put_off:topdress.2"}
    assert found["today:topdress.1"].days == DaySet.of([(today, today + 30)])
    assert found["put_off:topdress.2"].days == DaySet.of([(today + 2, today + 30)])
    assert all(c.strength is Strength.HARD for c in found.values())


def test_spreading_keeps_off_rain_and_off_the_day_after_a_soaking() -> None:
    """1 mm is no rain, 1.1 mm takes its day, 10 mm no more than that, 10.1 mm the day after too."""
    first = AUTUMN.toordinal()
    rain = {AUTUMN + timedelta(days=n): mm for n, mm in ((1, 1.0), (3, 1.1), (5, 10.0), (8, 10.1))}
    days = DaySet.of([(first, first + 11)])
    (found,) = dry_day_constraints(
        BOOK,
        [draft("topdress.1", "topdress"), draft("soil_test", "soil_test")],
        rain,
        days,
        first,
        first + 11,
    )
    assert isinstance(found, Allowed) and found.strength is Strength.STRONG
    assert [day - first for day in found.days.days()] == [0, 1, 2, 4, 6, 7, 10, 11]
    assert (
        dry_day_constraints(BOOK, [draft("topdress.1", "topdress")], {}, days, first, first + 11)
        == ()
    )


def test_a_job_of_two_days_starts_where_both_are_dry() -> None:
    """On working days Monday, Tuesday and Friday with rain on the Tuesday, it starts on Friday and
    goes on on Monday.
    """
    monday = date(2027, 9, 6).toordinal()
    work = DaySet.from_days([monday, monday + 1, monday + 4, monday + 7, monday + 8])
    rain = {date(2027, 9, 7): 5.0}
    (found,) = dry_day_constraints(
        BOOK, [draft("topdress.1", "topdress", 2)], rain, work, monday, monday + 10
    )
    assert isinstance(found, Allowed)
    assert [day - monday for day in found.days.days()] == [4, 7]


def test_a_plan_made_before_the_forecast_says_why_it_changes() -> None:
    """The second pass, of two days: rain on its last day, and the soaking of the day before its
    first.
    """
    for day, mm, words in ((date(2027, 9, 12), 5.0, "Sep 12"), (date(2027, 9, 10), 20.0, "Sep 11")):
        found = forecast_reasons(BOOK, PLAN, {day: mm})
        assert words in told(found["topdress.2"]) and "topdress.1" not in found
    assert forecast_reasons(BOOK, PLAN, {date(2027, 9, 12): 0.5}) == {}
    assert forecast_reasons(BOOK, None, {date(2027, 9, 12): 5.0}) == {}


def measured(quantity: str, value: float, day: date = AUTUMN) -> dict[str, Any]:
    """An entry of something measured."""
    return {"kind": "measured", "quantity": quantity, "value": value, "on": day}


def test_thirds_of_a_job_are_the_whole_of_it() -> None:
    """Though a third is not a number of the machine; two thirds are a part."""
    third = done("dethatch", AUTUMN, share=1 / 3)
    two, three = past_of(third, third), past_of(third, third, third)
    assert two.part_done == {"dethatch": pytest.approx(2 / 3)} and two.done == {}
    assert three.done == {"dethatch": AUTUMN.toordinal()} and three.part_done == {}
    nearly = done("dethatch", AUTUMN, share=0.999)
    assert past_of(nearly).part_done == {"dethatch": 0.999}


def test_a_delivery_is_work_too() -> None:
    """With what came of it, and its days from the first to the last."""
    days = [AUTUMN - timedelta(2), AUTUMN, AUTUMN - timedelta(1)]
    entries = [
        {"kind": "delivered", "task": "delivery.1", "on": day, "share": 0.25} for day in days
    ]
    actual = past_of(*entries).actual["delivery.1"]
    assert (actual.start, actual.end, actual.share, actual.amounts) == (days[0], days[1], 0.75, ())


def test_a_cause_counts_as_alive_until_it_is_found_to_be_over() -> None:
    """As it was seen last; grubs above the number that lawns bear."""
    most = BOOK.si("site.grubs_most")
    assert past_of(measured("live_cause", 1.0)).alive_on == AUTUMN
    later = AUTUMN + timedelta(9)
    assert past_of(measured("live_cause", 1.0), measured("live_cause", 0.0, later)).alive_on is None
    both = past_of(measured("live_cause", 0.0), measured("grubs", most + 0.1, later))
    assert both.alive_on == later
    assert past_of(measured("grubs", most)).alive_on is None
    assert past_of(measured("rain", 3.0)).alive_on is None and past_of().alive_on is None


def test_a_cause_that_is_alive_is_looked_for_again() -> None:
    """After the days of the book."""
    again = round(BOOK.si("site.recheck"))
    assert looked_again(TaskHistory(alive_on=AUTUMN), BOOK) == AUTUMN.toordinal() + again
    assert looked_again(TaskHistory(), BOOK) is None


def test_what_is_closed_or_cancelled_is_not_asked_about() -> None:
    """Neither overdue nor open."""
    today = date(2027, 9, 20)
    plan = with_task(PLAN, "dethatch", status="CANCELLED")
    plan = with_task(plan, "core_aerate.1", closed="done")
    found = read_history(BOOK, (), plan, today)
    assert not {"dethatch", "core_aerate.1"} & (found.overdue.keys() | found.published.keys())
    assert "topdress.1" in found.overdue and "topdress.1" in found.published
    assert found.because == {} and found.done == {}


def test_work_that_was_begun_is_over_on_its_last_day_where_all_of_it_was_done() -> None:
    """A part leaves it to the plan's last day."""
    when = {"start": date(2027, 9, 1), "end": date(2027, 9, 2)}
    today = date(2027, 9, 20)

    def overdue(share: float) -> int:
        actual = WhatHappened(**when, share=share)
        plan = with_task(PLAN, "dethatch", actual=actual)
        return read_history(BOOK, (), plan, today).overdue["dethatch"]

    assert overdue(1.0) == date(2027, 9, 2).toordinal()
    assert overdue(0.9) == date(2027, 9, 4).toordinal()


def test_rain_leaves_alone_what_is_closed_and_what_needs_no_dry_day() -> None:
    """A job of dry weather on that day is put off."""
    rain = journal({"kind": "rained_off", "on": date(2027, 9, 5)})
    found = read_history(BOOK, rain, PLAN, AUTUMN).not_before
    assert "topdress.1" in found
    closed = with_task(PLAN, "topdress.1", closed="done")
    assert "topdress.1" not in read_history(BOOK, rain, closed, AUTUMN).not_before
    weather = {name: BOOK.operations[name.split(".")[0]].weather for name in found}
    assert set(weather.values()) <= {"dry", "dry_ground"}


def test_a_pass_that_was_cancelled_is_not_waited_for() -> None:
    """What is missing counts once the others are over; not where the plan has no pass."""
    over = TaskHistory(done={"topdress.1": 1}, missing_mm=3.0)
    cancelled = with_task(PLAN, "topdress.2", status="CANCELLED")
    assert still_missing_mm(over, cancelled) == 3.0
    bare = without(PLAN, "topdress.1", "topdress.2")
    assert still_missing_mm(over, bare) is None


def test_a_job_that_was_moved_to_days_that_are_over_lasted_as_long_as_it_was_to() -> None:
    """Days to come follow from how long it takes."""
    job = draft("a", "topdress", 2)
    season = SeasonDraft((job,), ())
    moved = TaskHistory(held={"a": 5}, planned={"a": 7})
    assert fixed_nodes(season, moved, 8) == {job.start_node: 5, job.end_node: 7}
    assert fixed_nodes(season, moved, 7) == {job.start_node: 5}
    assert fixed_nodes(season, replace(moved, planned={"a": 3}), 8) == {job.start_node: 5}


def test_a_job_of_several_days_is_fixed_from_the_day_it_began() -> None:
    """As logged, else as published, else its last day; never after it. One of a day has one
    node; what is open has none.
    """
    drafts = [draft(name, "topdress", days) for name, days in (("a", 1), ("b", 2), ("c", 2))]
    drafts += [draft("d", "topdress", 3), draft("e", "topdress"), draft("f", "topdress", 2)]
    began = WhatHappened(start=date.fromordinal(7), end=date.fromordinal(9))
    history = TaskHistory(
        done={"a": 5, "b": 9, "c": 12, "d": 20, "f": 30},
        actual={"b": began},
        published={"a": 1, "b": 2, "c": 11, "d": 25},
    )
    found = fixed_nodes(SeasonDraft(tuple(drafts), ()), history)
    a, b, c, d, _, f = drafts
    assert found == {
        a.end_node: 5,
        b.end_node: 9,
        b.start_node: 7,
        c.end_node: 12,
        c.start_node: 11,
        d.end_node: 20,
        d.start_node: 20,
        f.end_node: 30,
        f.start_node: 30,
    }


def test_days_of_dry_work_are_asked_for_and_of_spreading_more_strongly() -> None:
    """Other dry work is advised; work that bears rain is not held back."""
    first = AUTUMN.toordinal()
    other = next(
        name
        for name, operation in BOOK.operations.items()
        if operation.weather == "dry" and "spreading" not in operation.roles
    )
    found = dry_day_constraints(
        BOOK,
        [draft("a", "topdress"), draft("b", other), draft("c", "soil_test")],
        {AUTUMN: 5.0},
        DaySet.of([(first, first + 3)]),
        first,
        first + 3,
    )
    assert [(c.id, c.strength) for c in found] == [
        ("dry:a", Strength.STRONG),
        ("dry:b", Strength.ADVICE),
    ]
    assert [c.days.days() for c in found] == [tuple(range(first + 1, first + 4))] * 2  # type: ignore[union-attr]


def test_a_job_of_two_days_lies_within_the_days_that_are_planned() -> None:
    """From the first to the last of them; of working days in a row."""
    first = date(2027, 9, 6).toordinal()
    work = DaySet.of([(first - 3, first + 9)])
    (found,) = dry_day_constraints(
        BOOK, [draft("a", "topdress", 2)], {AUTUMN: 5.0}, work, first, first + 6
    )
    # Rain on the third day, the eighth of September.
    assert [day - first for day in found.days.days()] == [0, 3, 4, 5]  # type: ignore[union-attr]


def test_a_job_that_was_not_done_on_its_day_waits_for_the_next() -> None:
    """It is no more asked about, for a day after the one on which it was not done; without a day it
    may be done on any, and a move by hand goes.
    """
    held = {"kind": "moved", "task": "topdress.1", "to": AUTUMN}
    found = past_of(held, {"kind": "not_done", "task": "topdress.1", "on": AUTUMN})
    day, why = found.not_before["topdress.1"]
    assert day == AUTUMN.toordinal() + 1 and told(why) == "It was not done on its day."
    assert found.held == {} and "topdress.1" not in found.overdue
    assert past_of({"kind": "not_done", "task": "topdress.1"}).not_before == {}


def test_what_was_put_off_is_asked_about_again_once_its_new_day_is_over() -> None:
    """As long as the plan does not know the entry the work waits; a plan that does has given it
    another day: that of work that was not done, of the rest of what was done in part on its last
    day, and one that was chosen by hand."""
    known = PLAN.model_copy(update={"journal_entries": 1})
    end = next(task.end for task in PLAN.tasks if task.id == "topdress.1")
    for entry in (
        {"kind": "not_done", "task": "topdress.1"},
        {"kind": "not_done", "task": "topdress.1", "on": end - timedelta(3)},
        done("topdress.1", end, share=0.5),
    ):
        entries, today = journal(entry), end + timedelta(2)
        assert "topdress.1" not in read_history(BOOK, entries, PLAN, today).overdue
        asked = read_history(BOOK, entries, known, today)
        assert asked.overdue["topdress.1"] == end.toordinal()
    chosen = journal({"kind": "moved", "task": "topdress.1", "to": end})
    found = read_history(BOOK, chosen, known, end)
    assert found.held and not found.overdue.keys() & {"topdress.1"}
    over = read_history(BOOK, chosen, known, end + timedelta(1))
    assert over.held == {} and over.overdue["topdress.1"] == end.toordinal()


def test_rain_takes_a_day_off_what_repeats_and_puts_nothing_off() -> None:
    """Of a series the day is kept; a job of that day is put off by an entry of its own alone."""
    series = next(task for task in PLAN.tasks if task.series is not None)
    days = [series.start, series.start + timedelta(days=1)]
    found = past_of(*({"kind": "rained_off", "task": series.id, "on": day} for day in days))
    assert found.rained == {series.id: frozenset(days)} and found.not_before == {}
    spread = past_of({"kind": "rained_off", "task": "topdress.1", "on": AUTUMN})
    assert "topdress.1" in spread.not_before


def test_a_reason_that_the_plan_before_knew_is_not_given_again() -> None:
    """Rain of weeks ago has moved what it moved; another move has a reason of its own."""
    rain = journal({"kind": "rained_off", "on": date(2027, 9, 5)})
    knows = PLAN.model_copy(update={"journal_entries": 1})
    assert "topdress.1" in read_history(BOOK, rain, PLAN, AUTUMN).because
    again = read_history(BOOK, rain, knows, AUTUMN)
    assert not again.because and "topdress.1" in again.recorded
    named = journal(
        {"kind": "rained_off", "task": "topdress.1", "on": date(2027, 9, 5)},
        {"kind": "not_done", "task": "topdress.1"},
    )
    told_now = read_history(BOOK, named, knows, AUTUMN).because["topdress.1"]
    assert told_now.key == "changes.because.not_done"


def test_what_is_taken_as_not_done_moves_for_that_reason() -> None:
    """All that is over without a word, where it is to be planned again."""
    late = read_history(BOOK, (), PLAN, date(2027, 10, 30))
    assumed = read_history(BOOK, (), PLAN, date(2027, 10, 30), assume_not_done=True)
    assert late.overdue and not late.because and not assumed.overdue
    keys = {name: why.key for name, why in assumed.because.items()}
    assert keys == dict.fromkeys(late.overdue, "changes.because.not_done")


@pytest.mark.parametrize("name", sorted(BOOK.operations))
def test_rain_takes_the_day_from_what_its_own_words_want_dry(name: str) -> None:
    """Who reads “dry”, “not wet” or “no rain” on the sheet has that job put off by a day of
    rain; food has days of its own, few as they are, and is asked about."""
    operation = BOOK.operations[name]
    words = (operation.go or "").lower()
    wanted = re.search(r"\b(dry|no rain|too wet|not wet|not soaked)\b", words)
    spared = operation.in_rain or operation.plays("looking", "measuring", "feeding")
    if wanted and not spared and name not in ("lime", "amend"):
        assert operation.weather != "any", words


def test_what_was_taken_back_moves_for_that() -> None:
    """Where the plan before knew the entry; an entry that it never knew changes nothing."""
    entries = journal(
        {"kind": "rained_off", "task": "topdress.1", "on": date(2027, 9, 5)},
        {"kind": "undo", "undoes": 1},
    )
    knows = PLAN.model_copy(update={"journal_entries": 1})
    keys = {n: why.key for n, why in read_history(BOOK, entries, knows, AUTUMN).because.items()}
    assert keys == {"topdress.1": "changes.because.taken_back"}
    assert not read_history(BOOK, entries, PLAN, AUTUMN).because
