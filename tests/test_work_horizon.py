"""How long a plan runs: as its follow-ups need where nobody gave an end; a given end is real."""

from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest

from planning import amount, brief_of, first, kind, plan_of
from resolved_lawns import setting_of
from test_seasons import begun
from told import told
from turfplan.files.reading.book import load_book
from turfplan.work.campaigns import campaigns
from turfplan.work.horizon import _follow_ups

BOOK = load_book()
BOZEMAN: dict[str, Any] = {
    "place": {"postal_code": "59715"},
    "lawn": {"grass": "kentucky_bluegrass"},
    "leveling": {"depth": "0 in"},
    "seeding": {"intent": "dormant"},
    "calendar": {"weekdays": ["fri", "sat", "sun"]},
    "season": {"from": date(2027, 9, 20)},
}
AUTUMN = datetime(2027, 9, 20, 12, tzinfo=UTC)


def test_dormant_seed_is_mown_when_it_has_grown_not_when_a_plan_ends() -> None:
    """Bozeman: not on 21 March, in the snow, eighteen months after the first day."""
    plan = plan_of(BOZEMAN, now=AUTUMN, options=False)
    assert plan.conflict is None
    mown = first(plan, "first_mow").start
    assert (mown.month, mown.day) > (5, 20) and mown.year == 2028
    assert mown < plan.horizon.end


@pytest.mark.full
def test_a_late_start_still_has_its_touch_up() -> None:
    """Work of late summer 2028 is looked at again in the spring of 2029."""
    plan = plan_of({"season": {"from": date(2027, 10, 10)}}, now=AUTUMN, options=False)
    assert kind(plan, "settle_check") and kind(plan, "touch_up")
    assert first(plan, "touch_up").end <= plan.horizon.end


@pytest.mark.full
def test_a_deep_fill_in_a_cool_summer_is_sown_in_autumn() -> None:
    """An inch and a half near Coventry ends with seed in September, not in June."""
    plan = plan_of(
        {
            "place": {"postal_code": None, "latitude": 52.5, "longitude": -1.5, "country": "GB"},
            "lawn": {"grass": "perennial_ryegrass"},
            "leveling": {"depth": "1.5 in"},
        },
        options=False,
    )
    assert first(plan, "overseed").start.month in (8, 9)
    assert sum(amount(t, "depth") for t in kind(plan, "topdress")) == pytest.approx(38.1)


@pytest.mark.full
def test_an_assumed_end_lies_within_three_years_and_no_plan_is_shorter_than_its_tasks() -> None:
    """Two inches take their years; nothing lies behind the end."""
    plan = plan_of({"leveling": {"depth": "2 in"}}, options=False)
    most = timedelta(days=round(BOOK.si("setting.horizon_most")))
    assert plan.conflict is None and plan.horizon.end <= plan.horizon.start + most
    assert all(task.end <= plan.horizon.end for task in plan.tasks)


@pytest.mark.full
def test_a_plan_made_again_never_ends_earlier() -> None:
    """The end that was published is only put off."""
    season = begun()
    end = season.versions[0].horizon.end
    again = season.make(date(2027, 4, 1))
    assert again.horizon.end >= end and again.horizon.start == season.versions[0].horizon.start


@pytest.mark.full
@pytest.mark.parametrize("end", [date(2027, 9, 15), date(2027, 9, 30), date(2027, 12, 31)])
def test_what_follows_a_given_end_is_handed_over(end: date) -> None:
    """The work fits in; check, touch-up and last mow are told with their own season."""
    plan = plan_of({"season": {"until": end}, "lawn": {"area": "3000 ft2"}}, options=False)
    assert plan.conflict is None and plan.horizon.end == end
    assert all(task.end <= end for task in plan.tasks)
    later = {item.operation: item for item in plan.handover}
    assert {"settle_check", "touch_up"} <= set(later)
    assert all(item.end >= item.start > end for item in plan.handover)
    assert any("whoever looks after the lawn" in str(line) for line in plan.cautions)


@pytest.mark.full
def test_a_plan_whose_end_nobody_gave_hands_nothing_over() -> None:
    """Its follow-ups are in it."""
    assert plan_of(options=False).handover == ()


@pytest.mark.full
def test_where_seed_does_not_fit_the_days_ways_out_that_do_come_first() -> None:
    """June to mid August: no seed or sod before another year is asked for."""
    plan = plan_of({"season": {"from": date(2027, 6, 20), "until": date(2027, 8, 18)}})
    assert plan.conflict is not None
    changes = [str(option.change) for option in plan.options]
    later = next((n for n, change in enumerate(changes) if "until" in change), len(changes))
    assert all(n < later for n, change in enumerate(changes) if "intent" in change)


@pytest.mark.full
def test_follow_ups_beyond_a_given_end_do_not_cost_the_leveling() -> None:
    """A lawn that is to be done in September is leveled and sown about when one without an end is:
    the first mow and the cuts after it are handed over, each after what it waits for.
    """
    begin, end = date(2027, 8, 1), date(2027, 9, 20)
    ended = plan_of({"season": {"from": begin, "until": end}}, options=False)
    unended = plan_of({"season": {"from": begin}}, options=False)
    for name in ("topdress", "overseed"):
        within, free = first(ended, name), first(unended, name)
        assert abs((within.start - free.start).days) <= 14 and free.start.year == begin.year
    assert kind(ended, "topdress") and not kind(ended, "first_mow")
    (look,) = kind(ended, "inspect")
    (mow,) = (item for item in ended.handover if item.operation == "first_mow")
    assert look.id == "inspect.germination" and mow.start > max(end, look.end)
    assert all(
        any(item.operation == name and item.start > mow.start for item in ended.handover)
        for name in ("mow", "last_mow")
    )


@pytest.mark.full
def test_dormant_seed_is_leveled_ahead_of_as_far_as_there_are_days() -> None:
    """Where one pass fits ahead of seed that waits for spring, that pass is spread and the rest is
    left; all of the fill is left out only where no pass fits at all.
    """
    fargo = {
        "place": {"postal_code": "58102", "country": "US"},
        "lawn": {"grass": "kentucky_bluegrass"},
        "leveling": {"depth": "0.3 in"},
        "seeding": {"intent": "dormant"},
    }
    plan = plan_of(fargo, {"season": {"from": date(2027, 8, 15)}}, options=False)
    (level,), (sowing,) = kind(plan, "topdress"), kind(plan, "dormant_seed")
    assert level.end <= date(2027, 9, 5) and sowing.start.year == 2027
    # What is left is no more than a touch-up takes, and no season of its own.
    assert any("than the touch-up takes" in told(note.text) for note in plan.ranked)
    late = plan_of(fargo, {"season": {"from": date(2027, 8, 28)}}, options=False)
    assert kind(late, "dormant_seed") and not kind(late, "topdress")
    assert any("too few days left" in told(note.text) for note in late.ranked if note.told_first)


DESERT: dict[str, Any] = {
    "lawn": {"grass": "bermuda_common", "condition": "dense"},
    "place": {"postal_code": "85001"},
    "leveling": {"depth": "0 in"},
    "seeding": {"intent": "winter_overseed"},
}


@pytest.mark.full
@pytest.mark.parametrize(
    ("changes", "follows"),
    [
        ({}, ["touch_up", "preemergent", "last_mow"]),
        ({"leveling": {"depth": "0 in"}}, ["preemergent", "last_mow"]),
        (
            {
                "lawn": {"grass": "bermuda_common"},
                "place": {"postal_code": "30606"},
                "seeding": {"intent": "none"},
            },
            ["touch_up", "last_mow"],
        ),
        (DESERT, ["spring_transition"]),
    ],
    ids=["levelled and seeded", "seeded", "warm", "winter cover"],
)
def test_a_plan_lasts_for_what_follows_its_work(
    changes: dict[str, Any], follows: list[str]
) -> None:
    """A touch-up where something was spread, a preventer on cool grass, giving the lawn back where
    a second grass covered it, and the last mow.
    """
    setting = setting_of(brief_of(changes))
    found = dict(_follow_ups(setting, campaigns(setting)[0][0], 42))
    assert list(found) == follows
    assert found.get("last_mow", 0) == found.get("spring_transition", 0) == 0
    if "touch_up" in follows:
        assert found["touch_up"] >= 42
