"""Entries of a calendar that are no task's own: waterings by the day, evenings before, weeks; and
what leaves where another form is asked for.
"""

import re
from collections import Counter
from dataclasses import replace
from datetime import date, datetime, time, timedelta
from pathlib import Path
from random import Random
from typing import get_args

import pytest
import recurring_ical_events
from icalendar import Calendar

from outside_checks import feed_faults, needs_libical, needs_tools, update_faults
from planning import example
from printed import english
from random_lawns import COUNT, random_plan
from sample_plan import NOW, moved, revise, sample_draft, without
from test_update_seasons import Life
from tiers import sampled, sampled_pairs
from turfplan.export.calendar.season_ics import season_ics
from turfplan.message import Clock, Message, as_written
from turfplan.messages.day_entry import DayRun, watering_description, watering_title
from turfplan.messages.entry import amounts_text, description, shortly
from turfplan.phrases import changes, watering
from turfplan.records.plan import Plan
from turfplan.records.plan_calendar import CalendarEntry, CalendarForm, CalendarPart, WateringForm
from turfplan.records.plan_task import Task
from turfplan.revision.reminders import AT_ONCE
from turfplan.revision.watering_days import common_id

DAY = timedelta(days=1)
EACH, BY_DAY, NONE = (CalendarForm(watering=form) for form in get_args(WateringForm))
CHANGES = [(form, to) for form in (EACH, BY_DAY, NONE) for to in (EACH, BY_DAY, NONE)]
FULL = CalendarForm(watering="day", eve=True, week=True)


def shown(plan: Plan, part: CalendarPart = "all") -> bytes:
    """A part of a plan's calendar."""
    return season_ics(plan, english(plan), part=part)


def in_form(plan: Plan, form: CalendarForm) -> Plan:
    """A draft that asks for a form."""
    return plan.model_copy(update={"calendar": form})


def entry(plan: Plan, name: str) -> CalendarEntry:
    """The entry of an id."""
    return next(entry for entry in plan.calendar_entries if entry.id == name)


def events(calendar: bytes) -> list[tuple[date, str, str]]:
    """Day, identity and title of everything that a reader shows, but what is cancelled."""
    found = recurring_ical_events.of(Calendar.from_ical(calendar)).between(
        date(2026, 1, 1), date(2031, 1, 1)
    )
    return sorted(
        (
            event.start.date() if isinstance(event.start, datetime) else event.start,
            str(event["uid"]),
            str(event["summary"]),
        )
        for event in found
        if event.get("status") != "CANCELLED"
    )


def test_the_runs_of_a_day_are_one_entry() -> None:
    """Three runs a day stand in one entry, with their times; no run is lost and none told twice."""
    plan = example("cool-overseed")
    week = entry(plan, "water.germination.w1")
    assert week.published.days[0] == date(2027, 9, 13) and len(week.published.days) == 7
    assert week.published.summary == "Keep the seed moist: 4 min, 3 times"
    told = week.published.description.splitlines()
    assert told[0] == "At 6:00 am, 11:00 am and 4:00 pm: Keep the seed moist: 4 min."
    assert len(set(told)) == len(told)
    runs = {
        (common_id(task.id), day)
        for task in plan.tasks
        if task.published is not None and task.series is not None
        for day in (task.series.start + n * DAY for n in range(40))
        if day <= task.series.end
        and day not in task.series.skip
        and (not task.series.weekdays or f"{day:%a}".lower() in task.series.weekdays)
    }
    days = Counter(day for day, _, _ in events(shown(plan, "water")))
    assert set(days.values()) == {1} and set(days) == {day for _, day in runs}


def test_a_family_bears_the_first_example() -> None:
    """At most sixty entries of work; parts add up to the whole; titles are short and bear the place
    of their job, in the order of each day's work."""
    plan = example("cool-overseed")
    work, water, both = (events(shown(plan, part)) for part in ("work", "water", "all"))
    assert len(work) <= 60 and sorted(work + water) == both
    assert max(len(title) for _, _, title in both) <= 50
    titles = {task.uid: task for task in plan.tasks if task.series is None}
    jobs = [(day, title, titles[uid]) for day, uid, title in work if uid in titles]
    assert all(title.startswith(f"{plan.places[job.operation]} ") for _, title, job in jobs)
    for day, title, job in jobs:
        before = {t for other, t, _ in jobs if other == day and t < title}
        waits = {t.published.summary for t in plan.tasks if t.id in job.depends_on and t.published}
        of_day = {t for other, t, _ in jobs if other == day}
        assert waits & of_day <= before, title


ENGINE_WORDS = re.compile(
    r"\b(brief|plan again|sessions?|campaigns?|series|facts?|accounts?|logs?|logged)\b",
    re.IGNORECASE,
)


@pytest.mark.parametrize("number", sampled(range(COUNT), 0, 2, 22))
def test_a_calendar_of_any_lawn(number: int) -> None:
    """Never two waterings on one day, every run in the entry of its day with its minutes, short
    titles, no word of the engine, and every job's amounts as plan.json has them."""
    plan = random_plan(number)
    if plan is None:
        return
    days = Counter(day for day, _, _ in events(shown(plan, "water")))
    assert set(days.values()) <= {1}
    words = english(plan)
    for one in (entry for entry in plan.calendar_entries if entry.kind == "watering"):
        for name in one.tasks:
            task = plan.task(name)
            assert task is not None and task.series is not None
            clock = words.value(Clock(task.series.start_time))
            lines = [at for at in one.published.description.splitlines() if str(task.title) in at]
            assert any(clock in line for line in lines), name
    texts = [task.published for task in plan.tasks] + [e.published for e in plan.calendar_entries]
    for text in texts:
        assert text is not None and len(text.summary) <= 50
        assert not ENGINE_WORDS.search(f"{text.summary} {text.description}"), text.summary
    for task in plan.tasks:
        told = amounts_text(words, task)
        assert task.published is not None and told in task.published.description


def test_one_job_moved_rewords_no_other() -> None:
    """Only the job, and the list of the evening before, change; the evening of a job goes with
    it."""
    before = sample_plan_in(FULL)
    after = revise(moved(in_form(sample_draft(), FULL), "dethatch", 7), before, NOW + 5 * DAY)
    titles = {task.id: task.published and task.published.summary for task in before.tasks}
    assert {t.id: t.published and t.published.summary for t in after.tasks} == titles
    assert {e.id for e in after.calendar_entries} >= {e.id for e in before.calendar_entries}
    for now, was in ((entry(after, one.id), one) for one in before.calendar_entries):
        assert now.published.cancelled or now.published.summary == was.published.summary


def test_a_job_that_joins_takes_a_place_between() -> None:
    """Places that were given stay; a later operation sorts behind what comes before it."""
    first = revise(without(sample_draft(), "dethatch", "core_aerate.1"), None, NOW)
    later = revise(sample_draft(), first, NOW + DAY)
    assert first.places.items() <= later.places.items()
    joined = later.places.keys() - first.places.keys()
    assert joined == {"dethatch", "core_aerate"}
    assert all(later.places[name] not in first.places.values() for name in joined)


def test_a_text_begins_with_what_is_asked_on_the_day() -> None:
    """How much and whether the day will do come first, what stops it before the steps; where the
    title is cut the text says it whole; no reason that says only that a day is good."""
    for plan in (example("cool-overseed"), example("st-augustine-plugs")):
        words = english(plan)
        for task in plan.tasks:
            assert task.published is not None
            lines = task.published.description.splitlines()
            assert len(set(lines)) == len(lines), task.id
            assert not any("(It hangs on" in line or "working days only" in line for line in lines)
            if task.published.summary.endswith("…"):
                assert words.text(task.title) in lines
            # What a small screen does not hold stands on the sheet of the week.
            more = words.say("entry.more_on_sheet") in lines
            for step in () if more else task.how:
                assert f"- {words.text(shortly(step))}" in lines or not words.text(step)
            steps = [n for n, line in enumerate(lines) if line.startswith("- ")]
            for caution in task.cautions:
                told = words.text(shortly(caution))
                at = next((n for n, line in enumerate(lines) if told in line), None)
                if at is None:
                    assert more, told
                    continue
                every_time = caution.key.startswith("book.cautions.")
                assert every_time or not steps or at < steps[0], told
            if task.go is not None:
                at = next(n for n, line in enumerate(lines) if words.text(task.go) in line)
                assert not steps or at < steps[0]
                assert (task.series is None) == (lines[at] != words.text(task.go))


def test_what_is_ordered_or_received_says_of_what() -> None:
    """Its order's lines stand in the text, with the amounts that the order has."""
    plan = example("cool-overseed")
    for line in plan.order:
        for name in line.tasks:
            task = plan.task(name)
            if task is not None and {"ordering", "delivery"} & set(task.roles):
                assert task.published is not None
                assert str(line.text) in task.published.description, name


@pytest.mark.parametrize("days_before", [1, 2])
def test_one_reminder_rings_for_a_day(days_before: int) -> None:
    """Where the evening before has an entry, that rings and no job by itself; a reminder that is
    wanted on another day stays with the jobs."""
    alarm = (days_before, time(19))
    draft = in_form(sample_draft(), FULL).model_copy(update={"alarm": alarm})
    plan = revise(draft, None, NOW)
    jobs = {task.published.alarm for task in plan.tasks if task.published and task.alarm}
    eves = {one.published.alarm for one in plan.calendar_entries if one.kind == "eve"}
    rings = ({None}, {AT_ONCE}) if days_before == 1 else ({alarm}, {None})
    assert (jobs, eves) == rings


def test_a_reminder_that_leaves_does_not_call_work_off() -> None:
    """Where two jobs that had evenings of their own come on one day, one evening tells of both."""
    before = sample_plan_in(FULL)
    eves = [one for one in before.calendar_entries if one.kind == "eve"]
    first, second = sorted(eves, key=lambda one: one.published.start)[:2]
    apart = (second.published.start - first.published.start).days
    draft = moved(in_form(sample_draft(), FULL), first.id.removeprefix("eve."), apart)
    after = revise(draft, before, NOW + DAY)
    left = [e for e in after.calendar_entries if e.kind == "eve" and e.published.cancelled]
    assert left
    assert all(not one.published.summary.startswith("Cancelled") for one in left)


def test_zones_and_stages_of_a_day_are_told_in_one_title() -> None:
    """Minutes from the least to the most, how often; each kind of run with its amount; what has
    moved says once why."""
    plan = example("cool-overseed")
    runs = [t for t in plan.tasks if common_id(t.id) == "water.germination.w1"]
    because = changes.because_other_water()
    of_zones = [
        DayRun(_zoned(task, zone, minutes, because), task.series, "", (task.series.start,))
        for task in runs
        if task.series is not None
        for zone, minutes in (("Upper", 3), ("Lower", 9))
    ]
    words = english(plan)
    assert watering_title(words, of_zones) == "Keep the seed moist: 3 to 9 min, 3 times"
    told = [replace(one, description=description(words, one.task)) for one in of_zones]
    lines = watering_description(words, told, told[0].days).splitlines()
    assert lines[0] == f"Changed: {words.text(because)}"
    assert [line.startswith("At ") for line in lines[1:5]] == [True, False, True, False]
    assert sum(line.startswith("Changed") for line in lines) == 1


def _zoned(task: Task, zone: str, minutes: int, because: Message) -> Task:
    """A run as it would be in a zone, moved from a time of its own."""
    assert task.stage is not None and task.series is not None
    run = watering.title_run(stage=task.stage.name, minutes=minutes)
    before = as_written(f"{minutes} min at {task.series.start_time:%H:%M}")
    update = {
        "title": watering.title_of_zone(run=run, zone=as_written(zone)),
        "change": changes.was(before=before, because=because),
    }
    return task.model_copy(update=update)


def sample_plan_in(form: CalendarForm) -> Plan:
    """The invented plan in a form."""
    return revise(in_form(sample_draft(), form), None, NOW)


@needs_tools
@needs_libical
@pytest.mark.parametrize(("form", "to"), sampled_pairs(CHANGES, (EACH, BY_DAY), (BY_DAY, NONE)))
def test_another_form_says_where_entries_went(
    form: CalendarForm, to: CalendarForm, tmp_path: Path
) -> None:
    """Nothing vanishes, nothing is called cancelled that is only shown otherwise, and after the
    grace what has left is gone for good, also when the first form comes back."""
    before, after = tmp_path / "before.ics", tmp_path / "after.ics"
    plan, moment = sample_plan_in(form), NOW
    before.write_bytes(shown(plan))
    for turn, wanted in enumerate((to, to, form)):
        moment += timedelta(days=40)
        draft = moved(in_form(sample_draft(), wanted), "settle_check", turn)
        plan = revise(draft, plan, moment)
        after.write_bytes(shown(plan))
        faults = update_faults(before, after)
        # A run that a calendar showed long ago has versions: it comes back as a later one.
        assert [f for f in faults if turn < 2 or "U11" not in f] == []
        assert feed_faults(after) == []
        assert b"SUMMARY:Cancelled" not in after.read_bytes()
        before.write_bytes(after.read_bytes())
    draft = moved(in_form(sample_draft(), form), "settle_check", 2)
    first = revise(draft, None, NOW)
    assert [(day, title) for day, _, title in events(shown(plan))] == [
        (day, title) for day, _, title in events(shown(first))
    ]


def test_what_has_begun_goes_on_in_its_form() -> None:
    """A week that is running, and all that is over, stay as they were shown."""
    old = sample_plan_in(EACH)
    running = "water.germination.w1.morning"
    now = next(t.start for t in old.tasks if t.id == running) + DAY
    moment = datetime(now.year, now.month, now.day, 12, tzinfo=NOW.tzinfo)
    new = revise(in_form(sample_draft(), BY_DAY), old, moment)
    for task in old.tasks:
        kept = next(t for t in new.tasks if t.id == task.id)
        if task.start < now:
            assert kept.published == task.published and kept.sequence == task.sequence
        elif task.series is not None:
            assert kept.published is not None and kept.published.hidden
    assert all(e.published.start >= now for e in new.calendar_entries if e.kind == "watering")


@needs_tools
@pytest.mark.full
@pytest.mark.parametrize("seed", range(3))
def test_a_season_in_which_anything_happens(seed: int, tmp_path: Path) -> None:
    """Versions in forms that change: no fault between any two in any part, none in every tenth;
    what is over stays; planning again changes no byte."""
    chance = Random(f"forms {seed}")
    life = Life(Random(seed))
    life.draft = in_form(life.draft, FULL)
    life.plan = sample_plan_in(FULL)
    old = {part: tmp_path / f"{part}-old.ics" for part in get_args(CalendarPart)}
    new = {part: tmp_path / f"{part}.ics" for part in get_args(CalendarPart)}
    for part, path in old.items():
        path.write_bytes(shown(life.plan, part))
    for number in range(25):
        was = life.plan
        life.today += timedelta(days=life.random.choice((0, 1, 3, 9)))
        for _ in range(life.random.choice((0, 1, 1, 2, 4))):
            life.happen()
        if chance.random() < 0.15:
            form = CalendarForm(
                watering=chance.choice(get_args(WateringForm)),
                eve=chance.random() < 0.5,
                week=chance.random() < 0.5,
            )
            life.draft = in_form(life.draft, form)
        plan = life.make()
        for part, path in new.items():
            path.write_bytes(shown(plan, part))
            faults = update_faults(old[part], path, f"{life.today:%Y%m%d}T000000Z")
            assert [fault for fault in faults if "U11" not in fault] == [], number
            # A calendar without an entry must have some component, and has its zone alone.
            empty = b"BEGIN:VEVENT" not in path.read_bytes()
            assert number % 10 or empty or feed_faults(path) == []
        over = {e.id: e.published for e in was.calendar_entries if e.published.end < life.today}
        for one in plan.calendar_entries:
            if one.id in over and one.published.end < life.today:
                assert one.published == over[one.id], one.id
        again = life.make()
        for part, path in new.items():
            assert shown(again, part) == path.read_bytes()
            old[part].write_bytes(path.read_bytes())
