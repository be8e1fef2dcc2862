"""Seasons that go their own way: twelve scripted ones, each version checked against the one before
it.
"""

import itertools
import subprocess
import sys
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest

import planning
from planning import SHARED, brief_of, kind, plan_brief
from printed import season_ics
from tiers import full
from turfplan.export.tables.plan_json import plan_to_json
from turfplan.files.reading.plan import plan_from_json
from turfplan.planning import plan_header
from turfplan.records.brief import Brief
from turfplan.records.journal import JournalEntry
from turfplan.records.plan import Plan
from turfplan.records.plan_calendar import CalendarEntry
from turfplan.records.plan_task import Task
from turfplan.revision import feed_entries
from turfplan.work.watering.request import WeatherDay

CHECK = SHARED / "tools" / "check_update.py"


@dataclass
class Season:
    """One lawn over a season: its brief, its journal, and every version of its plan."""

    brief: Brief
    journal: list[JournalEntry] = field(default_factory=list)
    versions: list[Plan] = field(default_factory=list)

    @property
    def plan(self) -> Plan:
        """The newest plan."""
        return self.versions[-1]

    def make(self, day: date, hour: int = 8, **options: Any) -> Plan:
        """Plan on a day, through plan.json as the command does."""
        previous = plan_from_json(plan_to_json(self.versions[-1])) if self.versions else None
        now = datetime(day.year, day.month, day.day, hour, tzinfo=UTC)
        made = plan_brief(
            self.brief, now=now, journal=tuple(self.journal), previous=previous, **options
        )
        assert made.conflict is None, made.conflict
        self.versions.append(made)
        return made

    def log(self, kind: str, **entry: Any) -> None:
        """Write into the journal."""
        at = datetime(2027, 1, 1, tzinfo=UTC) + timedelta(minutes=len(self.journal))
        number = len(self.journal) + 1
        self.journal.append(
            JournalEntry(number=number, at=at, kind=kind, **entry)  # type: ignore[arg-type]
        )

    def day(self, task: str) -> date:
        """The day of a task in the newest plan."""
        found = self.plan.task(task)
        assert found is not None, task
        return found.start


def begun(*changes: dict[str, Any]) -> Season:
    """A season planned in February, with everything before the first pass logged as done."""
    season = Season(
        brief_of(
            {"leveling": {"depth": "0.5 in"}, "calendar": {"weekdays": ["fri", "sat", "sun"]}},
            *changes,
        )
    )
    season.make(date(2027, 2, 1))
    return season


def done_until(season: Season, day: date) -> None:
    """Log every open task before a day as done on its day."""
    for task in sorted(season.plan.tasks, key=lambda t: t.start):
        if task.series is None and task.end < day and task.closed is None:
            season.log("done", task=task.id, on=task.end)


def late(s: Season) -> None:
    """A job is done days after its date."""
    first = s.day("core_aerate.1")
    done_until(s, first)
    s.make(first)
    s.log("done", task="core_aerate.1", on=first + timedelta(days=2))
    s.make(first + timedelta(days=3))


def rained_off(s: Season) -> None:
    """Rain takes the day of the first pass."""
    first = s.day("topdress.1")
    done_until(s, first)
    s.make(first)
    s.log("rained_off", on=first)
    s.make(first, 18)


def skipped(s: Season) -> None:
    """A job is left out."""
    s.log("skipped", task="raise_fittings", on=s.day("raise_fittings"))
    s.make(date(2027, 2, 20))


def early(s: Season) -> None:
    """A job is done before its day."""
    s.log("done", task="soil_test", on=s.day("soil_test") - timedelta(days=6))
    s.make(s.day("soil_test") - timedelta(days=5))


def moved_by_hand(s: Season) -> None:
    """The owner holds a delivery on another day."""
    s.log("moved", task="delivery.1", to=s.day("delivery.1") + timedelta(days=1))
    s.make(date(2027, 3, 1))


def wet_load(s: Season) -> None:
    """The load is refused at the gate."""
    day = s.day("delivery.1")
    done_until(s, day)
    s.make(day)
    s.log("refused", task="delivery.1", on=day)
    s.make(day, 12)


def rain_forecast(s: Season) -> None:
    """Rain is forecast for the day of the first pass."""
    from turfplan.planning import Weather

    day = s.day("topdress.1")
    done_until(s, day - timedelta(days=2))
    s.make(day - timedelta(days=2), weather=Weather({day: WeatherDay(rain_mm=8.0)}))


def two_on_one_day(s: Season) -> None:
    """Two plans on one day, with a change between them."""
    s.log("done", task="soil_test", on=s.day("soil_test"))
    s.make(s.day("soil_test"), 9)
    s.log("skipped", task="raise_fittings", on=s.day("soil_test"))
    s.make(s.day("soil_test"), 9)


def undone(s: Season) -> None:
    """An entry is taken back."""
    s.log("skipped", task="raise_fittings", on=date(2027, 2, 10))
    s.make(date(2027, 2, 10))
    s.log("undo", undoes=len(s.journal))
    s.make(date(2027, 2, 11))


def brief_edited(s: Season) -> None:
    """The fill turns out deeper."""
    s.brief = brief_of(
        {"leveling": {"depth": "0.75 in"}, "calendar": {"weekdays": ["fri", "sat", "sun"]}}
    )
    s.make(date(2027, 2, 15))


def grass_corrected(s: Season) -> None:
    """The grass is bluegrass, not tall fescue."""
    s.brief = brief_of(
        {"lawn": {"grass": "kentucky_bluegrass"}, "calendar": {"weekdays": ["fri", "sat", "sun"]}}
    )
    s.make(date(2027, 2, 15))


def region_changed(s: Season) -> None:
    """Another region's facts are chosen."""
    s.brief = brief_of(
        {"place": {"region": "transition_zone"}, "calendar": {"weekdays": ["fri", "sat", "sun"]}}
    )
    s.make(date(2027, 2, 15))


def days_lost(s: Season) -> None:
    """A week in autumn is lost, half of a pass is done, and the season ends."""
    day = s.day("topdress.1")
    done_until(s, day)
    s.make(day)
    s.log("done", task="topdress.1", on=day, share=0.5, amount=1.0, unit="m3")
    s.make(day + timedelta(days=1))
    s.log("done", task="topdress.1", on=day + timedelta(days=1), share=0.5)
    s.make(day + timedelta(days=2))


SEASONS: tuple[Callable[[Season], None], ...] = (
    late,
    rained_off,
    skipped,
    early,
    moved_by_hand,
    wet_load,
    rain_forecast,
    two_on_one_day,
    undone,
    brief_edited,
    grass_corrected,
    region_changed,
    days_lost,
)


def pairs(versions: list[Plan]) -> Iterator[tuple[Plan, Plan]]:
    """Each version with the one before it."""
    return itertools.pairwise(versions)


@pytest.mark.full
@pytest.mark.parametrize("script", SEASONS, ids=lambda f: f.__name__)
def test_scripted_season(script: Callable[[Season], None], tmp_path: Path) -> None:
    """Identities stay, sequences and stamps only rise, and the outside checker finds nothing
    between any two versions.
    """
    season = begun()
    script(season)
    assert len(season.versions) >= 2
    for number, (before, after) in enumerate(pairs(season.versions)):
        old = {t.id: t for t in before.tasks}
        for task in after.tasks:
            if task.id in old:
                assert task.uid == old[task.id].uid and task.sequence >= old[task.id].sequence
                assert task.created == old[task.id].created
        gone = set(old) - {t.id for t in after.tasks} - {r.id for r in after.retired}
        assert not gone
        if CHECK.is_file():
            files = [tmp_path / f"{number}{side}.ics" for side in "ab"]
            for path, plan in zip(files, (before, after), strict=True):
                path.write_bytes(season_ics(plan))
            run = subprocess.run(
                [sys.executable, str(CHECK), *map(str, files)],
                capture_output=True,
                text=True,
                check=False,
            )
            assert run.returncode == 0, run.stdout


@pytest.mark.full
def test_rain_moves_as_little_as_possible() -> None:
    """Rain on the day of a pass moves what hangs on it by days; the seed in autumn and next spring
    stay where they were.
    """
    season = begun({"leveling": {"depth": "1 in"}})
    rained_off(season)
    before, after = season.versions[-2], season.versions[-1]
    old = {t.id: t.start for t in before.tasks}
    moved = {t.id for t in after.tasks if t.series is None and t.id in old and t.start != old[t.id]}
    assert "topdress.1" in moved
    assert not moved & {"overseed", "last_mow", "settle_check", "touch_up", "soil_test"}
    told = {c.task: c.because for c in after.changes}
    assert "rained off" in str(told["topdress.1"])


@pytest.mark.full
def test_done_tasks_stay_where_they_happened() -> None:
    """What is done is kept on its day and in the words it was published with."""
    season = begun()
    late(season)
    task = season.plan.task("core_aerate.1")
    assert task is not None and task.closed == "done" and task.status == "COMPLETED"
    assert task.actual is not None and task.actual.start == season.versions[0].task(
        "core_aerate.1"
    ).start + timedelta(days=2)  # type: ignore[union-attr]


@pytest.mark.full
def test_planning_again_changes_no_byte() -> None:
    """The same brief and journal give the same feed on a later day, however much later inside the
    season.
    """
    season = begun()
    first = season_ics(season.plan)
    for day in (date(2027, 2, 2), date(2027, 3, 1), date(2027, 6, 15), date(2027, 11, 1)):
        season.make(day)
        assert season_ics(season.plan) == first, day
        assert season.plan.revision == 1


@pytest.mark.full
def test_overdue_tasks_are_named_and_can_be_put_off() -> None:
    """A task that is over without an entry is overdue and stays; told not done it is planned
    again.
    """
    season = begun()
    day = season.day("soil_test") + timedelta(days=1)
    plan = season.make(day)
    assert plan.task("soil_test").overdue  # type: ignore[union-attr]
    season.log("not_done", task="soil_test")
    again = season.make(day, 10)
    task = again.task("soil_test")
    assert task is not None and not task.overdue and task.start >= day


def events(plan: Plan) -> dict[str, bytes]:
    """The events of a plan's feed as they are written, by UID."""
    parts = season_ics(plan).split(b"BEGIN:VEVENT\r\n")[1:]
    return {part.split(b"UID:", 1)[1].split(b"\r\n", 1)[0].decode(): part for part in parts}


def upgraded(patch: pytest.MonkeyPatch) -> None:
    """Another version of the program, which says everything differently, with another version of
    the book.
    """
    real, known = feed_entries.description, planning.input_of
    patch.setattr(plan_header, "__version__", "99.0")
    patch.setattr(
        feed_entries,
        "description",
        lambda *words, **told: real(*words, **told) + "\nSaid by another program.",
    )

    def input_of(*places: Any) -> Any:
        given = known(*places)
        return replace(given, book=replace(given.book, version="another"))

    patch.setattr(planning, "input_of", input_of)


def is_over(before: Task, after: Task, today: date) -> bool:
    """Whether a task is history: closed as it was, or over and still on its days."""
    closed = before.closed is not None and before.closed == after.closed
    assert before.published is not None
    return closed or (
        before.published.end < today and (before.start, before.end) == (after.start, after.end)
    )


def compare_feeds(
    before: Plan, was: Mapping[str, bytes], after: Plan, now: Mapping[str, bytes], today: date
) -> int:
    """Check two versions of a plan, event by event of their feeds; how many are history."""
    past = 0
    for new in after.tasks:
        old = before.task(new.id)
        if old is None:
            assert new.sequence == 0 and new.created == new.last_modified == after.stamp
            continue
        assert old.published is not None and new.published is not None and new.uid == old.uid
        assert new.created == old.created
        if new.published.hidden:
            assert new.uid not in now and (new.sequence, old.sequence) == (0, 0)
            continue
        if is_over(old, new, today):
            past += 1
            assert now[new.uid] == was[new.uid], new.id
        compare_entries(old, was, new, now)
    known = {entry.id: entry for entry in before.calendar_entries}
    for entry in after.calendar_entries:
        earlier = known.get(entry.id)
        if earlier is None:
            assert entry.sequence == 0 and entry.created == entry.last_modified == after.stamp
            continue
        if max(entry.published.end, earlier.published.end) < today:
            past += 1
            assert now[entry.uid] == was[entry.uid], entry.id
        compare_entries(earlier, was, entry, now)
    return past


def compare_entries(
    old: Task | CalendarEntry,
    was: Mapping[str, bytes],
    new: Task | CalendarEntry,
    now: Mapping[str, bytes],
) -> None:
    """Check two versions of one entry: other days raise its sequence, whatever else its stamp."""
    assert old.published is not None and new.published is not None
    assert (new.uid, new.created) == (old.uid, old.created)
    same_days = all(
        getattr(new.published, name) == getattr(old.published, name)
        for name in ("start", "end", "series", "days", "cancelled", "timezone")
    )
    assert new.sequence == old.sequence + (not same_days), new.id
    assert (
        (now[new.uid] == was[new.uid])
        == (new.published == old.published)
        == (new.last_modified == old.last_modified)
    )


WORK = ("core_aerate", "topdress", "overseed")


@full
def test_a_long_season_of_many_plans(monkeypatch: pytest.MonkeyPatch) -> None:
    """Forty plans over a season, with an upgrade half-way: UIDs constant, sequences rising only
    with other days, history byte for byte.
    """
    season = begun()
    end = max(t.end for t in season.plan.tasks)
    day = date(2027, 2, 10)
    step = (end - day) // 40
    past, now = 0, events(season.plan)
    for number in range(40):
        day += step
        for task in sorted(season.plan.tasks, key=lambda t: t.start):
            if task.series is None and task.closed is None and task.end < day and number % 3:
                season.log("done", task=task.id, on=task.end)
        coming = [
            t
            for t in season.plan.tasks
            if t.operation in WORK and t.closed is None and t.start >= day
        ]
        if number % 5 == 4 and coming:
            season.log("rained_off", on=min(t.start for t in coming))
        if number == 20:
            upgraded(monkeypatch)
        season.make(day)
        was, now = now, events(season.plan)
        past = max(past, compare_feeds(season.versions[-2], was, season.plan, now, day))
    assert len(season.versions) == 41 and past > 30
    for before, after in pairs(season.versions):
        assert after.revision in (before.revision, before.revision + 1)
        assert (after.stamp > before.stamp) == (after.revision > before.revision)
    assert any(t.sequence for t in season.plan.tasks)
    assert kind(season.plan, "overseed")[0].closed == "done"
    assert (season.plan.program, season.plan.data_version) == ("turfplan 99.0", "another")
    assert b"another program" in season_ics(season.plan)
