"""A calendar is read on a phone: its texts and titles are short, its entries few, and a job stands
on its working days alone.
"""

from collections import Counter
from datetime import date, timedelta

import pytest
import recurring_ical_events
from icalendar import Calendar

from planning import POSSIBLE, example, example_brief
from printed import english, season_ics
from test_export_agree import made, published
from test_seasons import Season
from tiers import sampled
from turfplan.export.calendar.season_ics import season_ics as written
from turfplan.plain_text import LONGEST_SUMMARY, LONGEST_TEXT
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Task
from turfplan.revision.feed_entries import shown_in, uid

# A text may be so long where conditions that stop the day take it: none of these is left out.
LONGEST_OF_STOPS = 1200
# As many entries of work as the first example has at most.
MOST_OF_FIRST = 60
DAY = timedelta(days=1)


def assert_fits_a_phone(plan: Plan) -> None:
    """No text and no title of a plan's calendar is too long, whatever it tells of; what is left out
    of a text is to be found."""
    more = english(plan).say("entry.more_on_sheet")
    before = english(plan).say("entry.before_you_start", cautions="").strip()
    for part in ("work", "water"):
        for of, entry in shown_in(plan, part):
            stops = any(line.startswith(before) for line in entry.description.splitlines())
            most = LONGEST_OF_STOPS if stops else LONGEST_TEXT
            assert len(entry.description) <= most, (of.id, len(entry.description))
            assert len(entry.summary) <= LONGEST_SUMMARY, entry.summary
            assert entry.description.count(more) <= 1
            if more in entry.description:
                assert entry.description.endswith(more) and len(entry.description) > 200


@pytest.mark.parametrize("name", sampled(POSSIBLE, "st-augustine-plugs", "transition-fescue"))
def test_texts_and_titles_fit_a_phone(name: str) -> None:
    """Of jobs, of waterings, of evenings before."""
    assert_fits_a_phone(published(example(name)))
    assert_fits_a_phone(example(name))


def test_what_a_long_text_leaves_out_is_on_the_sheet() -> None:
    """It keeps how much, whether the day will do, what stops it and what protects; a short text
    keeps all."""
    plan, sheets = made("st-augustine-plugs")
    task = plan.task("plant")
    assert task is not None and task.published is not None
    text = task.published.description
    for needed in ("1,950 pieces", "Only if:", "Before you start:", "Take care:"):
        assert needed in text
    said = [str(step) for step in task.how]
    assert any(step not in text for step in said)
    page = sheets.checklist.of()
    assert all(step.split(":")[-1].split(";")[0].strip() in page for step in said)
    short = next(t for t in plan.tasks if t.operation == "fetch" or t.plays("collecting"))
    assert short.published is not None
    assert english(plan).say("entry.more_on_sheet") not in short.published.description


def test_the_first_example_has_few_entries_and_one_watering_a_day() -> None:
    """Not more than sixty of work, and one a day at most of waterings."""
    plan = example("cool-overseed")
    assert len(shown_in(plan, "work")) <= MOST_OF_FIRST
    days: Counter[date] = Counter()
    feed = Calendar.from_ical(written(plan, english(plan), part="water"))
    for event in recurring_ical_events.of(feed).between(
        plan.horizon.start - DAY, plan.horizon.end + DAY
    ):
        days[event["dtstart"].dt if type(event["dtstart"].dt) is date else event.start.date()] += 1
    assert days and set(days.values()) == {1}


def spread_over_weekends(plan: Plan) -> Task:
    """The pass of the southern example, which takes two weekends."""
    task = plan.task("topdress.1")
    assert task is not None and task.end - task.start == 8 * DAY and task.duration_days == 4
    return task


def days_in_feed(plan: Plan, task: Task) -> list[date]:
    """The days on which a reader's calendar shows a job."""
    events = recurring_ical_events.of(Calendar.from_ical(season_ics(plan))).between(
        plan.horizon.start - DAY, plan.horizon.end + DAY
    )
    found = []
    for event in (one for one in events if one["uid"] == task.uid):
        start, end = event["dtstart"].dt, event["dtend"].dt
        found += [start + n * DAY for n in range((end - start).days)]
    return sorted(found)


def test_a_job_over_days_off_stands_on_its_working_days_alone() -> None:
    """One entry with its own identity, on two weekends and not between; its to-do spans them."""
    plan = example("southern-hemisphere")
    task = spread_over_weekends(plan)
    wanted = [task.start, task.start + DAY, task.end - DAY, task.end]
    assert days_in_feed(plan, task) == wanted == list(task.worked_on)
    assert task.uid == uid(plan.lawn_id, task.id)
    alone = next(t for t in plan.tasks if t.start == t.end and not t.series)
    assert alone.worked_on == () and alone.published and alone.published.days == ()


@pytest.mark.full
def test_a_feed_of_the_older_form_keeps_its_identities() -> None:
    """A bar over days off becomes the working days of the same entry, as its next version; from
    then on every byte stays."""
    season = Season(example_brief("southern-hemisphere"))
    season.make(date(2027, 2, 1))
    older = tuple(
        t.model_copy(
            update={
                "worked_on": (),
                "published": t.published and t.published.model_copy(update={"days": ()}),
            }
        )
        for t in season.plan.tasks
    )
    season.versions[-1] = season.plan.model_copy(update={"tasks": older})
    bar = spread_over_weekends(season.plan)
    assert len(days_in_feed(season.plan, bar)) == 9
    later = season.make(date(2027, 2, 2))
    now = spread_over_weekends(later)
    assert now.uid == bar.uid and len(days_in_feed(later, now)) == 4
    assert now.sequence == bar.sequence + 1 and now.created == bar.created
    assert season_ics(season.make(date(2027, 2, 3))) == season_ics(later)
