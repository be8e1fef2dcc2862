"""Identities, stamps, sequence numbers and history of the tasks of a plan."""

import hashlib
from collections.abc import Mapping
from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest

from printed import season_ics
from sample_plan import (
    NOW,
    SEED_DAY,
    job,
    moved,
    revise,
    sample_draft,
    sample_plan,
    watering,
    with_more,
    with_task,
    without,
)
from turfplan.errors import TurfplanError
from turfplan.export.tables.plan_json import plan_to_json
from turfplan.files.reading.plan import plan_from_json
from turfplan.message import as_written
from turfplan.records.journal import JournalEntry
from turfplan.records.numbering import in_rules_words
from turfplan.records.past import TaskHistory
from turfplan.records.plan import Plan, Retired
from turfplan.records.plan_task import Task, WhatHappened
from turfplan.revision.changes import GRACE
from turfplan.revision.feed_entries import rule_days, uid
from turfplan.units import System

LATER = NOW + timedelta(days=10)
PASS_DAY = date(2027, 9, 5)


def at(day: date, hour: int = 15) -> datetime:
    """A moment of a day in the lawn's zone (New York)."""
    return datetime(day.year, day.month, day.day, hour, tzinfo=UTC)


def done(on: Mapping[str, date], **more: Any) -> TaskHistory:
    """A past in which some tasks were done on some days."""
    actual = {name: WhatHappened(start=day, end=day) for name, day in on.items()}
    return TaskHistory(
        done={name: day.toordinal() for name, day in on.items()}, actual=actual, **more
    )


def task(plan: Plan, task_id: str) -> Task:
    """The task of that id."""
    found = plan.task(task_id)
    assert found is not None and found.published is not None, task_id
    return found


def sequences(plan: Plan) -> dict[str, int]:
    """Sequence numbers by task."""
    return {t.id: t.sequence for t in plan.tasks}


def test_uid_is_the_hash_that_the_contract_names() -> None:
    """32 hex digits of SHA-256 over lawn and task, nothing else."""
    wanted = hashlib.sha256(b"turfplan/1\nsample-lawn\ntopdress.1").hexdigest()[:32] + "@turfplan"
    assert uid("sample-lawn", "topdress.1") == wanted == task(sample_plan(), "topdress.1").uid


def test_first_version() -> None:
    """Revision 1, every sequence 0, every stamp the moment of planning, nothing told as changed."""
    plan = sample_plan()
    assert plan.revision == 1 and plan.stamp == NOW and plan.changes == ()
    assert {(t.sequence, t.created, t.last_modified, t.change) for t in plan.tasks} == {
        (0, NOW, NOW, None)
    }


@pytest.mark.full
@pytest.mark.parametrize("later", [timedelta(seconds=1), timedelta(days=1), timedelta(days=400)])
def test_nothing_new_changes_no_byte(later: timedelta) -> None:
    """The same draft on a later day, also when all of it is long over, gives the same feed,
    revision and changes.
    """
    draft = sample_draft()
    first = revise(draft, None, NOW)
    again = revise(
        draft.model_copy(update={"now": NOW + later}),
        plan_from_json(plan_to_json(first)),
        NOW + later,
    )
    assert season_ics(again) == season_ics(first)
    assert (again.revision, again.stamp, again.changes) == (1, NOW, ())


def test_a_moved_task_alone_changes() -> None:
    """Its sequence, stamp and words; the plan's revision and stamp; not a bit of any other task."""
    before = sample_plan()
    after = revise(moved(sample_draft(), "first_mow", 7), before, LATER)
    assert after.revision == 2 and after.stamp == LATER
    got = task(after, "first_mow")
    assert (got.sequence, got.created, got.last_modified) == (1, NOW, LATER)
    assert (
        got.change is not None
        and "was Sat, Oct 16, 2027" in got.change.text
        and got.change.text in got.published.description
    )  # type: ignore[union-attr]
    assert [c.kind for c in after.changes] == ["moved"] and after.changes[0].task == "first_mow"
    assert {t.id: t for t in after.tasks if t.id != "first_mow"} == {
        t.id: t for t in before.tasks if t.id != "first_mow"
    }


def test_words_alone_leave_the_sequence() -> None:
    """Other instructions are told and stamped, but do not count as another date."""
    before = sample_plan()
    after = revise(
        with_task(sample_draft(), "dethatch", how=(as_written("Another way."),)), before, LATER
    )
    got = task(after, "dethatch")
    assert (got.sequence, got.last_modified) == (0, LATER)
    assert [(c.task, c.kind) for c in after.changes] == [("dethatch", "reworded")]


def test_amounts_are_told_with_what_they_were() -> None:
    """A change that can be read off the printed amount is told in the entry and in the list; a
    smaller one is not.
    """
    before = sample_plan()
    bigger = job(
        "delivery.1", "level", "Receive the mix", date(2027, 9, 4), amounts=(("volume", 7.4, "m3"),)
    ).amounts
    after = revise(with_task(sample_draft(), "delivery.1", amounts=bigger), before, LATER)
    assert (
        str(task(after, "delivery.1").change)
        == "was Volume 8.37 yd³. The amounts follow what was asked for or what was used."
    )
    (news,) = after.changes
    assert (news.kind, str(news.before), str(news.after)) == (
        "amount",
        "Volume 8.37 yd³",
        "Volume 9.68 yd³",
    )
    hair = job("delivery.1", "level", "x", PASS_DAY, amounts=(("volume", 6.401, "m3"),)).amounts
    assert (
        revise(with_task(sample_draft(), "delivery.1", amounts=hair), before, LATER).revision == 1
    )


def test_what_was_told_stands_until_something_else_changes() -> None:
    """The sentence about a change stays with the next version, so that the entry does not
    flicker.
    """
    first = sample_plan()
    draft = moved(sample_draft(), "first_mow", 7)
    second = revise(draft, first, LATER)
    third = revise(moved(draft, "settle_check", 7), second, LATER + timedelta(days=1))
    assert task(third, "first_mow") == task(second, "first_mow")
    assert [c.task for c in third.changes] == ["settle_check"]


def test_two_versions_in_one_second() -> None:
    """The stamp rises by a second even when the clock does not, or goes back."""
    first = sample_plan()
    second = revise(moved(sample_draft(), "first_mow", 7), first, NOW)
    third = revise(sample_draft(), second, NOW - timedelta(days=1))
    assert (second.stamp, third.stamp) == (NOW + timedelta(seconds=1), NOW + timedelta(seconds=2))
    assert (
        task(third, "first_mow").sequence == 2
        and task(third, "first_mow").last_modified == third.stamp
    )


def test_a_new_task_is_born_now() -> None:
    """Sequence 0, created with this version, and told as new."""
    before = sample_plan()
    after = revise(
        with_more(sample_draft(), job("roll", "seed", "Roll once", SEED_DAY)), before, LATER
    )
    got = task(after, "roll")
    assert (got.sequence, got.created, got.last_modified) == (0, LATER, LATER)
    assert str(got.change) == "It is new in the plan." and [
        (c.kind, c.task) for c in after.changes
    ] == [("added", "roll")]


@pytest.mark.parametrize(
    ("past", "closed", "because"),
    [
        (TaskHistory(), "dropped", "The plan no longer needs it."),
        (TaskHistory(skipped=frozenset({"dethatch"})), "skipped", "It was skipped."),
    ],
)
def test_a_removed_task_is_shown_as_cancelled(past: TaskHistory, closed: str, because: str) -> None:
    """On its day, named cancelled, sequence raised, without reminder, and the reason said."""
    before = sample_plan()
    after = revise(without(sample_draft(), "dethatch"), before, LATER, history=past)
    got = task(after, "dethatch")
    assert (got.status, got.closed, got.sequence, got.last_modified) == (
        "CANCELLED",
        closed,
        1,
        LATER,
    )
    assert got.published is not None and got.published.cancelled and got.published.alarm is None
    assert (
        got.published.summary == "Cancelled: Dethatch, rake up and remove"
        and because in got.published.description
    )
    assert [(c.kind, c.task) for c in after.changes] == [(closed, "dethatch")]


def test_a_cancelled_task_comes_back_higher() -> None:
    """Within its grace the same entry is revived, with the sequence raised again."""
    gone = revise(without(sample_draft(), "dethatch"), sample_plan(), LATER)
    back = revise(sample_draft(), gone, LATER + timedelta(days=3))
    got = task(back, "dethatch")
    assert (got.sequence, got.status, got.closed, str(got.change)) == (
        2,
        "NEEDS-ACTION",
        None,
        "It is back in the plan.",
    )
    assert (
        got.published is not None
        and not got.published.cancelled
        and got.published.alarm is not None
    )


@pytest.mark.full
def test_a_cancelled_task_leaves_after_its_grace_with_the_next_change() -> None:
    """Time alone changes no byte; the first change after the grace retires it, and not a day
    before.
    """
    draft = without(sample_draft(), "topdress.2")
    gone = revise(draft, sample_plan(), LATER)
    long_after = LATER + GRACE + timedelta(seconds=1)
    assert season_ics(revise(draft, gone, long_after)) == season_ics(gone)
    early = revise(moved(draft, "settle_check", 7), gone, LATER + GRACE)
    assert early.task("topdress.2") is not None and early.retired == ()
    late = revise(moved(draft, "settle_check", 7), gone, long_after)
    assert late.task("topdress.2") is None and [r.id for r in late.retired] == ["topdress.2"]


def test_a_retired_number_never_comes_back() -> None:
    """What the rules call by a retired number is an entry of its own in the feed; the others keep
    their names.
    """
    draft = without(sample_draft(), "topdress.1", "dethatch")
    gone = revise(draft, sample_plan(), LATER)
    late = LATER + GRACE + timedelta(days=1)
    retired = revise(moved(draft, "settle_check", 7), gone, late)
    again = revise(sample_draft(), retired, late + timedelta(days=1))
    assert again.task("topdress.1") is None and again.task("dethatch") is None
    back = task(again, "topdress.1.again2")
    assert back.uid == uid("sample-lawn", "topdress.1.again2") and back.sequence == 0
    assert task(again, "dethatch.again2").operation == "dethatch"
    assert task(again, "topdress.2") == task(retired, "topdress.2")
    later = revise(sample_draft(), again, at(PASS_DAY), history=done({"topdress.1": PASS_DAY}))
    assert task(later, "topdress.1.again2").closed == "done", "the rules speak of their first pass"


def test_rules_and_feed_understand_each_other() -> None:
    """Plan and journal are translated for the rules; what is said of a retired task is not
    heard.
    """
    retired = (Retired(id="dethatch", on=LATER.date()),)
    plan = sample_plan().model_copy(update={"retired": retired})
    plan = with_task(plan, "dethatch", id="dethatch.again2")
    plan = with_task(plan, "core_aerate.1", depends_on=("dethatch.again2",))
    said = [
        JournalEntry(number=n, at=NOW, kind="done", task=name, on=PASS_DAY)
        for n, name in enumerate(("dethatch", "dethatch.again2", "roll"), 1)
    ]
    seen, heard = in_rules_words(
        plan, [*said, JournalEntry(number=4, at=NOW, kind="note", text="dry")]
    )
    assert seen is not None and seen.task("dethatch") is not None
    assert task(seen, "core_aerate.1").depends_on == ("dethatch",)
    assert [(e.number, e.task) for e in heard] == [(2, "dethatch"), (3, "roll"), (4, None)]


def test_skipped_tasks_stay_for_good() -> None:
    """What its owner has left out is history, not a number to be retired."""
    past = TaskHistory(skipped=frozenset({"dethatch"}))
    draft = without(sample_draft(), "dethatch")
    gone = revise(draft, sample_plan(), LATER, history=past)
    late = revise(moved(draft, "settle_check", 7), gone, LATER + 2 * GRACE, history=past)
    assert task(late, "dethatch") == task(gone, "dethatch")


def test_open_numbers_follow_the_dates() -> None:
    """Where the days of two passes cross, the earlier one is the first; one that is written about
    keeps its number.
    """
    swapped = moved(sample_draft(), "topdress.1", 21)
    free = revise(swapped, None, NOW)
    assert task(free, "topdress.1").start == date(2027, 9, 11) and task(
        free, "topdress.2"
    ).start == date(2027, 9, 26)
    held = revise(
        swapped, None, NOW, history=TaskHistory(held={"topdress.1": date(2027, 9, 26).toordinal()})
    )
    assert task(held, "topdress.1").start == date(2027, 9, 26)


def test_done_on_its_day_changes_no_byte() -> None:
    """The feed shows days, not ticks: plan.json alone tells that it is done."""
    before = sample_plan()
    after = revise(sample_draft(), before, at(PASS_DAY, 20), history=done({"topdress.1": PASS_DAY}))
    assert season_ics(after) == season_ics(before) and after.revision == before.revision
    assert (
        task(after, "topdress.1").closed == "done"
        and task(after, "topdress.1").status == "COMPLETED"
    )


def test_done_within_its_days_keeps_them() -> None:
    """A job of two days that is logged on its last day is not cut to that day."""
    draft = sample_draft()
    after = revise(
        draft, sample_plan(), at(date(2027, 9, 12)), history=done({"topdress.2": date(2027, 9, 12)})
    )
    assert (task(after, "topdress.2").start, task(after, "topdress.2").end) == (
        date(2027, 9, 11),
        date(2027, 9, 12),
    )
    assert after.revision == 1


def test_done_early_moves_the_entry() -> None:
    """An event that is not over goes to the day on which it was done."""
    early = PASS_DAY - timedelta(days=3)
    draft = moved(sample_draft(), "topdress.1", -3)
    after = revise(draft, sample_plan(), at(early), history=done({"topdress.1": early}))
    got = task(after, "topdress.1")
    assert (
        got.published is not None
        and got.published.start == got.published.end == early
        and got.sequence == 1
    )


@pytest.mark.full
def test_done_late_leaves_the_entry() -> None:
    """An event that is over stays where it was, byte for byte, and plan.json has the day; for
    good.
    """
    before = sample_plan()
    late = PASS_DAY + timedelta(days=2)
    past = done({"topdress.1": late})
    draft = with_task(
        moved(sample_draft(), "topdress.1", 2), "topdress.1", title="Other words after an upgrade"
    )
    after = revise(draft, before, at(late), history=past)
    assert task(after, "topdress.1").published == task(before, "topdress.1").published
    assert task(after, "topdress.1").actual == WhatHappened(start=late, end=late)
    assert season_ics(after) == season_ics(before)
    assert season_ics(
        revise(draft, after, at(late + timedelta(days=100)), history=past)
    ) == season_ics(before)


def test_done_is_kept_even_when_the_rules_no_longer_ask_for_it() -> None:
    """What was done is history whatever the brief says now."""
    before = sample_plan()
    draft = without(sample_draft(), "dethatch")
    after = revise(
        draft, before, at(date(2027, 9, 4)), history=done({"dethatch": date(2027, 9, 4)})
    )
    got = task(after, "dethatch")
    assert (got.closed, got.status, got.sequence) == ("done", "COMPLETED", 0)
    assert got.published == task(before, "dethatch").published


def test_overdue_tasks_stay() -> None:
    """Over without an entry: the state says so, the feed does not change."""
    before = sample_plan()
    past = TaskHistory(overdue={"soil_test": date(2027, 3, 13).toordinal()})
    after = revise(sample_draft(), before, at(date(2027, 3, 20)), history=past)
    assert task(after, "soil_test").overdue and season_ics(after) == season_ics(before)


def test_an_open_task_may_leave_the_past() -> None:
    """Told not done it is planned again under its UID, sequence raised."""
    draft = moved(sample_draft(), "soil_test", 14)
    after = revise(draft, sample_plan(), at(date(2027, 3, 20)))
    got = task(after, "soil_test")
    assert (
        got.sequence == 1
        and got.uid == uid("sample-lawn", "soil_test")
        and got.published is not None
    )
    assert got.published.start == date(2027, 3, 27)


def test_what_is_over_is_never_altered() -> None:
    """Over and dropped, over and skipped, over and reworded, over with the alarm switched off: the
    same bytes.
    """
    before = sample_plan()
    now = at(date(2027, 9, 8))
    draft = without(sample_draft(alarm=None), "soil_test", "dethatch")
    draft = with_task(draft, "core_aerate.1", title="Other words", phase="level")
    after = revise(draft, before, now, history=TaskHistory(skipped=frozenset({"dethatch"})))
    for name in ("soil_test", "dethatch", "core_aerate.1", "delivery.1", "topdress.1"):
        assert task(after, name).published == task(before, name).published, name
        assert task(after, name).sequence == 0 and task(after, name).last_modified == NOW
    assert (
        task(after, "dethatch").closed == "skipped"
        and task(after, "dethatch").status == "CANCELLED"
    )
    assert task(after, "overseed").published.alarm is None  # type: ignore[union-attr]


def test_switching_alarms_off_is_no_other_date() -> None:
    """Reminders go, words and sequence stay, stamps of the entries that had one rise."""
    before = sample_plan()
    after = revise(sample_draft(alarm=None), before, LATER)
    rang = {t.id for t in before.tasks if t.published and t.published.alarm}
    assert rang and sequences(after) == sequences(before)
    assert {t.id for t in after.tasks if t.last_modified == LATER} == rang


@pytest.mark.full
def test_a_running_series_ends_early() -> None:
    """Its days that went by stay; from today on they are left out; the entry is not cancelled."""
    today = SEED_DAY + timedelta(days=3)
    name = "water.germination.w1.morning"
    after = revise(without(sample_draft(), name), sample_plan(), at(today))
    got = task(after, name)
    assert (
        got.published is not None
        and got.published.series is not None
        and not got.published.cancelled
    )
    left = [d for d in rule_days(got.published.series) if d not in got.published.series.skip]
    assert left == [SEED_DAY + timedelta(days=1), SEED_DAY + timedelta(days=2)]
    assert got.sequence == 1 and "ended early" in got.published.description
    later = revise(without(sample_draft(), name), after, at(today + timedelta(days=60)))
    assert season_ics(later) == season_ics(after)


def test_a_series_to_come_is_cancelled_once() -> None:
    """One short entry at the hour of its first run, so that programs which ignore the state show
    neither many nor a whole day.
    """
    name = "water.germination.w2.morning"
    after = revise(without(sample_draft(), name), sample_plan(), LATER)
    got = task(after, name)
    assert (
        got.published is not None and got.published.cancelled and got.published.series is not None
    )
    assert rule_days(got.published.series) == (SEED_DAY + timedelta(days=8),) and got.sequence == 1
    entry = season_ics(after).decode().split(got.uid)[1].split("END:VEVENT")[0]
    assert (
        "STATUS:CANCELLED" in entry
        and "COUNT=1" in entry
        and "VALUE=DATE:" not in entry
        and "T060000" in entry
    )


def test_a_day_left_out_of_a_series() -> None:
    """EXDATE raises the sequence; the entry says which run falls out."""
    name, day = "water.germination.w1.morning", SEED_DAY + timedelta(days=5)
    draft = with_task(
        sample_draft(),
        name,
        lambda t: t.model_copy(
            update={"series": t.series and t.series.model_copy(update={"skip": (day,)})}
        ),
    )
    after = revise(draft, sample_plan(), LATER)
    got = task(after, name)
    assert (
        got.sequence == 1
        and got.change is not None
        and got.change.text.startswith("no run on Fri, Sep 17, 2027")
    )


@pytest.mark.full
def test_the_same_runs_written_otherwise_are_the_same() -> None:
    """Weekdays in another order, an end after the last run, a skipped day on which nothing runs:
    nothing has changed.
    """
    name = "water.establishment.w1"
    before = sample_plan()
    old = task(before, name)
    assert old.series is not None
    series = old.series.model_copy(
        update={
            "weekdays": ("sat", "tue"),
            "end": old.series.end + timedelta(days=1),
            "skip": (old.series.start,),
        }
    )
    draft = with_task(sample_draft(), name, series=series)
    assert rule_days(series) == rule_days(old.series)
    after = revise(draft, before, LATER)
    assert after.revision == 1 and season_ics(after) == season_ics(before)


def test_minutes_of_a_series_are_told() -> None:
    """Another length is another DTEND: sequence raised, what it was is said."""
    old = task(sample_plan(), "water.germination.w1.morning")
    clock = old.series.start_time  # type: ignore[union-attr]
    more = watering(old.id, "Keep the seed moist: 11 min", old.start, 7, clock, 11)
    draft = with_more(without(sample_draft(), old.id), more)
    got = task(revise(draft, sample_plan(), LATER), old.id)
    assert (
        got.sequence == 1
        and got.change is not None
        and got.change.text.startswith("was 8 min at 6:00 am")
    )


def test_another_lawn_is_refused() -> None:
    """A plan is never numbered against that of another lawn."""
    with pytest.raises(TurfplanError, match="not the lawn of the plan before"):
        revise(sample_draft(lawn_id="another"), sample_plan(), LATER)


def test_a_renamed_lawn_keeps_its_entries() -> None:
    """The feed's name is new, so its revision rises; no entry is touched."""
    before = sample_plan()
    lawn = before.lawn.model_copy(update={"name": "Front"})
    after = revise(sample_draft(lawn=lawn), before, LATER)
    assert after.revision == 2 and after.tasks == before.tasks


@pytest.mark.parametrize("system", list(System))
def test_plan_json_carries_it_all(system: System) -> None:
    """Reading plan.json back and planning again equals planning on without it."""
    draft = sample_draft(system)
    first = revise(draft, None, NOW)
    read = plan_from_json(plan_to_json(first))
    assert read == first
    assert revise(moved(draft, "overseed", 7), read, LATER) == revise(
        moved(draft, "overseed", 7), first, LATER
    )


def test_what_was_done_and_is_so_no_longer_is_told() -> None:
    """Also where the rules no longer ask for it; what is done twice has the days of both."""
    day = PASS_DAY
    first = revise(sample_draft(), sample_plan(), LATER, history=done({"dethatch": day}))
    bare = without(sample_draft(), "dethatch")
    twice = WhatHappened(start=day, end=day + timedelta(days=9))
    past = TaskHistory(done={"dethatch": twice.end.toordinal()}, actual={"dethatch": twice})
    kept = revise(bare, first, LATER + timedelta(days=1), history=past).task("dethatch")
    assert kept is not None and kept.closed == "done" and kept.actual == twice
    gone = revise(bare, first, LATER + timedelta(days=1)).task("dethatch")
    assert gone is not None and (gone.closed, gone.status) == ("dropped", "CANCELLED")
    assert gone.actual is None
