"""Days that a season loses: what it still holds is done, and what is to come keeps its name."""

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

from campaigns.walks import Walk, begun
from planning import brief_of
from resolved_lawns import lawn, setting_of
from sample_plan import sample_plan, with_task
from turfplan.files.reading.book import load_book
from turfplan.message import as_written, length_mm, sentences
from turfplan.phrases import handover as phrases
from turfplan.planning.feedings_before import feedings_before
from turfplan.planning.handover import undone
from turfplan.planning.lost_days import put_off_by
from turfplan.planning.ways_still_open import ways_still_open
from turfplan.planning.window_dates import less_dry_days
from turfplan.records.brief import Span
from turfplan.records.journal import JournalEntry
from turfplan.records.past import KnownFeeding, TaskHistory
from turfplan.work.campaigns import Campaign, campaigns
from turfplan.work.divisions import divided_by_windows, redivided
from turfplan.work.drafts import Band
from turfplan.work.feeding.feedings import NitrogenFeeding
from turfplan.work.feeding.known_feedings import with_known_keys
from turfplan.work.filling import leaves_all, left_share, less_what_lies, ways_of_filling
from turfplan.work.lawn import Levelling, ResolvedLawn
from turfplan.work.passes import passes_needed
from turfplan.work.rain_windows import dry_in_bans, turf_days_in_bans, unfed_days
from turfplan.work.watering.verdict import Verdict

BOOK = load_book()
WET: dict[str, Any] = {
    "lawn": {
        "area": "180 m2",
        "grass": "perennial_ryegrass",
        "soil": "loam",
        "thatch": "8 mm",
        "condition": "thin",
    },
    "place": {
        "postal_code": None,
        "latitude": 53.27,
        "longitude": -9.05,
        "country": "IE",
        "state": None,
    },
    "leveling": {"depth": "34 mm"},
    "seeding": {"intent": "overseed"},
    "water": {"possible": False, "application_rate": None},
    "calendar": {"weekdays": ["sat"]},
    "season": {"from": date(2027, 3, 1)},
}


@pytest.fixture(scope="module")
def lost() -> tuple[Walk, Walk]:
    """A wet place whose six thin passes take three seasons, before and after the first day of
    spreading was lost to rain."""
    season = begun(brief_of(WET))
    first = season.day("topdress.1")
    season.done_until(first)
    before = Walk(season.given, season.plan)
    season.log("rained_off", on=first)
    season.go(first)
    return before, season


@pytest.mark.full
def test_a_lost_day_leaves_out_a_pass_and_moves_no_year(lost: tuple[Walk, Walk]) -> None:
    """The seed keeps its season; five of six passes are spread, and what is left is told."""
    before, after = lost
    assert before.plan.campaign == after.plan.campaign == "two_years"
    assert abs(after.day("overseed") - before.day("overseed")) < timedelta(60)
    assert after.day("topdress.1") - before.day("topdress.1") < timedelta(21)
    passes = [t for t in after.plan.tasks if t.plays("spreading") and t.status != "CANCELLED"]
    assert len(passes) == 5
    told = [c for c in after.plan.cautions if "left" in str(c)]
    assert told


@pytest.mark.full
def test_feedings_a_year_ahead_stay_what_they_are(lost: tuple[Walk, Walk]) -> None:
    """Neither renamed nor dropped by a day that rain took; the plan keeps its first day."""
    before, after = lost
    ahead = {
        t.id: t.start
        for t in before.plan.tasks
        if t.id.startswith("feed_nitrogen.") and t.start.year == 2028
    }
    assert ahead
    for name, day in ahead.items():
        task = after.plan.task(name)
        assert task is not None and task.status != "CANCELLED" and task.start == day
    assert after.plan.horizon.start == before.plan.horizon.start


def two_years() -> tuple[ResolvedLawn, Campaign]:
    """A lawn with a campaign of three sessions."""
    setting = setting_of(brief_of(WET))
    found = [c for c in campaigns(setting)[0] if len(c.sessions) == 3]
    return setting, found[0]


def counts(campaign: Campaign) -> tuple[int, ...]:
    """The passes of each session."""
    return tuple(len(session.passes) for session in campaign.sessions)


def test_passes_are_divided_otherwise_within_the_time_of_each_session() -> None:
    """As many in all, in their order, each with the number of its session; never none in one; what
    is begun stays."""
    setting, whole = two_years()
    fewer = [way for way in ways_of_filling(setting, any_part=True) if way.levelling.left]
    campaign = next(
        c
        for way in fewer
        for c in campaigns(way)[0]
        if len(c.sessions) == 3 and len(c.passes) == len(whole.passes) - 1
    )
    others = list(redivided(setting, campaign, ()))
    assert others and all(sum(counts(o)) == len(campaign.passes) for o in others)
    assert len({counts(o) for o in (campaign, *others)}) == len(others) + 1
    assert all(min(counts(o)) > 0 for o in others)
    for other in others:
        assert [p.number for p in other.passes] == [p.number for p in campaign.passes]
        assert all(p.session == s.number for s in other.sessions for p in s.passes)
    own = counts(campaign)
    begun_ones = {f"topdress.{n + 1}" for n in range(own[0] + 1)}
    assert all(counts(o)[0] == own[0] for o in redivided(setting, campaign, begun_ones))
    one = replace(campaign, sessions=campaign.sessions[:1])
    assert not list(redivided(setting, one, ()))


def test_passes_stay_in_the_sessions_of_the_plan_before() -> None:
    """By their days; as they are where a day lies in none."""
    _, campaign = two_years()
    starts = [session.window.start.toordinal() for session in campaign.sessions]
    total = len(campaign.passes)
    days = [starts[0], starts[1], *[starts[2]] * (total - 2)]
    assert counts(divided_by_windows(campaign, days)) == (1, 1, total - 2)
    assert divided_by_windows(campaign, [*days[:-1], starts[0] - 400]) is campaign
    assert divided_by_windows(campaign, days[:-1]) is campaign


def test_any_part_of_a_fill_is_a_way_as_long_as_half_of_it_is_done() -> None:
    """Each number of passes, most first; without being asked the fewest alone."""
    setting = setting_of(brief_of(WET))
    needed = passes_needed(setting)
    assert needed == 6

    def parts(*, any_part: bool) -> list[float]:
        found = ways_of_filling(setting, any_part=any_part)
        thin = [w for w in found if w.levelling.left and w.levelling.bands]
        return [left_share(way.levelling) for way in thin if not way.levelling.lift_share]

    assert parts(any_part=False) == []
    left = parts(any_part=True)
    assert len(left) == 3 and left == sorted(left) and left[-1] <= BOOK.si("campaign.left_most")


def feed(key: str, on: date) -> NitrogenFeeding:
    """A feeding of a few days."""
    return NitrogenFeeding(key, key, 2.0, on - timedelta(3), on + timedelta(3), on, as_written("x"))


def test_feedings_keep_the_names_that_a_plan_gave_them() -> None:
    """What was given is that one, whatever season it is called by; what comes after it keeps its
    own; new ones take numbers that nothing has, and the past takes no new one."""
    known = [
        KnownFeeding("spring", date(2027, 4, 10), over=True),
        KnownFeeding("summer", date(2027, 7, 1), over=True),
        KnownFeeding("summer2", date(2028, 7, 2), over=False),
        KnownFeeding("late", date(2027, 11, 1), over=False),
    ]
    feeds = [
        feed("summer", date(2027, 6, 20)),
        feed("autumn", date(2027, 9, 10)),
        feed("late", date(2027, 11, 8)),
        feed("summer2", date(2028, 6, 25)),
        feed("summer3", date(2028, 8, 10)),
    ]
    named = with_known_keys(feeds, known, date(2027, 8, 1), 42)
    assert [f.key for f in named] == ["summer", "autumn", "late", "summer2", "summer3"]
    missed = [feed("spring", date(2027, 2, 1)), *feeds]
    assert with_known_keys(missed, known, date(2027, 8, 1), 42) == named


def test_feedings_of_a_plan_are_known_by_what_became_of_them() -> None:
    """Given or left out: over; cancelled: none."""
    plan = sample_plan()
    names = [t.id for t in plan.tasks if t.id.startswith("feed_nitrogen.")]
    assert names
    first = names[0].removeprefix("feed_nitrogen.")
    given = date(2027, 5, 20)
    done = TaskHistory(done={names[0]: given.toordinal()})
    assert KnownFeeding(first, given, over=True) in feedings_before(plan, done)
    left_out = TaskHistory(skipped=frozenset({names[0]}))
    assert any(k.key == first and k.over for k in feedings_before(plan, left_out))
    assert any(k.key == first and not k.over for k in feedings_before(plan, TaskHistory()))
    gone = with_task(plan, names[0], status="CANCELLED")
    assert all(k.key != first for k in feedings_before(gone, TaskHistory()))


def in_ban(first: date, last: date, changes: dict[str, Any]) -> ResolvedLawn:
    """The plain lawn with a ban of watering."""
    setting = lawn(changes)
    banned = (Span(start=first, end=last),)
    water = setting.brief.water.model_copy(update={"banned": banned})
    brief = setting.brief.model_copy(update={"water": water})
    return replace(setting, brief=brief)


DRY = {"lawn": {"grass": "kentucky_bluegrass"}, "place": {"postal_code": "83702", "state": "ID"}}


def test_a_known_ban_binds_what_turf_grows_over_where_rain_is_too_little() -> None:
    """Weeks before it too; feedings on its own days. Where rain lets turf grow it binds nothing."""
    first, last = date(2027, 7, 10), date(2027, 8, 5)
    dry = in_ban(first, last, DRY)
    assert dry_in_bans(dry) == frozenset(range(first.toordinal(), last.toordinal() + 1))
    ((start, end),) = turf_days_in_bans(dry)
    weeks = dry.days("water.grows_over_days")
    assert (start, end) == (first.toordinal() - weeks, last.toordinal())
    assert [(q.first, q.last) for q in unfed_days(dry)] == [(first, last)]
    verdict = Verdict(True, (), False, ())
    assert less_dry_days(dry, verdict).dry_turf == ((start, end),)
    wet = in_ban(date(2027, 12, 1), date(2027, 12, 31), {})
    assert not dry_in_bans(wet) and unfed_days(wet) == () and turf_days_in_bans(wet) == ()
    assert less_dry_days(lawn(), verdict).dry_turf == ()


def test_no_pass_and_no_feeding_lies_in_a_known_ban() -> None:
    """A dry summer in which watering is banned while passes would go on."""
    span = (date(2027, 5, 1), date(2027, 6, 20))
    banned = [{"from": span[0], "to": span[1]}]
    made = begun(brief_of(DRY, {"water": {"banned": banned}, "season": {"from": date(2027, 3, 1)}}))
    for task in made.plan.tasks:
        if task.plays("spreading", "coring", "low_cut", "feeding"):
            assert not span[0] <= task.start <= span[1], task.id


def rain(on: date) -> JournalEntry:
    """Rain took a day."""
    return JournalEntry.model_validate(
        {"number": 1, "at": "2027-01-01T00:00:00Z", "kind": "rained_off", "on": on}
    )


def test_rain_takes_its_day_from_what_waits_too() -> None:
    """A pass that rain put off has no day in the plan until that is made again."""
    plan = sample_plan()
    tasks = {task.id: task for task in plan.tasks}
    task = next(t for t in plan.tasks if t.plays("spreading") and t.closed is None)
    later = task.end + timedelta(5)
    assert task.id not in put_off_by(BOOK, rain(later), tasks, {})
    waiting = {task.id: (task.end + timedelta(1)).toordinal()}
    assert task.id in put_off_by(BOOK, rain(later), tasks, {}, waiting)
    given_anew = {task.id: task.start.toordinal()}
    assert task.id not in put_off_by(BOOK, rain(later), tasks, {}, given_anew)
    held = {task.id: (later + timedelta(9)).toordinal()}
    assert task.id not in put_off_by(BOOK, rain(later), tasks, held, waiting)


def test_what_lies_of_a_fill_is_not_told_as_left() -> None:
    """Seed without more passes leaves what no pass has brought; all of it where that is nothing."""
    left = (Band(15.0, 0.8), Band(4.0, 0.2))
    whole = Levelling((), 0.0, 0.0, 0.1, left=left)
    less = less_what_lies(whole, 6.0)
    assert less.left == (Band(9.0, 0.8),) and leaves_all(less)
    assert less.lies_mm == pytest.approx(0.8 * 6.0 + 0.2 * 4.0)
    assert left_share(less) == pytest.approx(7.2 / (7.2 + less.lies_mm))
    assert less_what_lies(whole, 20.0) == whole
    assert undone(less, (), ()) == phrases.undone_no_more(depth=length_mm(9.0), rest=sentences())


def test_what_the_touch_up_takes_asks_for_no_season() -> None:
    """Beside passes that are spread."""
    part = Levelling((Band(18.0, 1.0),), 0.0, 0.0, 0.1, left=(Band(1.3, 1.0),))
    told = phrases.undone_touched_up(depth=length_mm(18.0), left=length_mm(1.3))
    assert undone(part, (), (), 3.0) == told
    assert undone(part, (), (), 1.0).key == "handover.undone.part"


def test_ways_on_leave_less_once_passes_are_done() -> None:
    """The way that spreads no more keeps what lies there."""
    setting = lawn({"leveling": {"depth": "0.75 in"}})
    plan = sample_plan()
    name = next(t.id for t in plan.tasks if t.operation == "topdress")
    bare = [
        next(w for w in ways_still_open(setting, plan, history) if leaves_all(w.levelling))
        for history in (TaskHistory(), TaskHistory(done={name: plan.task(name).end.toordinal()}))
        if plan.task(name) is not None
    ]
    assert bare[1].levelling.lies_mm > bare[0].levelling.lies_mm == 0.0
    assert left_share(bare[1].levelling) < left_share(bare[0].levelling)
