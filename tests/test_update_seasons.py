"""Versions of one feed against the one before: scripted changes, and long seasons in which anything
may happen.
"""

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from random import Random

import pytest

from outside_checks import feed_faults, needs_tools, update_faults
from printed import season_ics
from sample_plan import (
    NOW,
    SEED_DAY,
    job,
    moved,
    revise,
    sample_draft,
    sample_plan,
    with_more,
    with_task,
    without,
)
from tiers import sampled
from turfplan.export.tables.plan_json import plan_to_json
from turfplan.files.reading.plan import plan_from_json
from turfplan.message import as_written
from turfplan.records.past import TaskHistory
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Amount, Task, WhatHappened
from turfplan.units import System

pytestmark = needs_tools


def left_out(plan: Plan, task_id: str, *days: date) -> Plan:
    """The plan with days of a watering left out."""

    def change(task: Task) -> Task:
        assert task.series is not None
        return task.model_copy(update={"series": task.series.model_copy(update={"skip": days})})

    return with_task(plan, task_id, change)


def longer(plan: Plan, task_id: str) -> Plan:
    """The plan with more minutes of watering."""

    def change(task: Task) -> Task:
        assert task.series is not None
        return task.model_copy(update={"series": task.series.model_copy(update={"minutes": 25})})

    return with_task(plan, task_id, change)


def doubled(task: Task) -> Task:
    """The task with twice of everything."""
    return task.model_copy(
        update={
            "amounts": tuple(Amount.of(a.item, 2 * a.value, a.unit, a.reason) for a in task.amounts)
        }
    )


PAIRS: dict[str, Callable[[Plan], Plan]] = {
    "nothing": lambda plan: plan,
    "a day later": lambda plan: moved(plan, "first_mow", 1),
    "a year later": lambda plan: moved(plan, "settle_check", 365),
    "two days long": lambda plan: with_task(plan, "dethatch", end=date(2027, 9, 5)),
    "renamed": lambda plan: with_task(
        plan, "last_mow", title=as_written("Mow once more; then rest, until spring")
    ),
    "renumbered titles": lambda plan: with_task(
        plan, "topdress.1", title=as_written("Top-dress pass 1 of 3: 1/8 in")
    ),
    "other amounts": lambda plan: with_task(plan, "topdress.2", doubled),
    "dropped": lambda plan: without(plan, "dethatch", "starter_feed"),
    "a watering dropped": lambda plan: without(plan, "water.establishment.w2"),
    "added": lambda plan: with_more(plan, job("roll", "seed", "Roll once, lightly", SEED_DAY)),
    "swapped for another": lambda plan: with_more(
        without(plan, "overseed"), job("seed", "seed", "Sow 25 lb", SEED_DAY)
    ),
    "a run left out": lambda plan: left_out(
        plan, "water.germination.w1.morning", date(2027, 9, 15)
    ),
    "every run left out": lambda plan: left_out(
        plan, "water.establishment.w1", date(2027, 9, 28), date(2027, 10, 2)
    ),
    "more minutes": lambda plan: longer(plan, "water.germination.w2.afternoon"),
    "watering moved": lambda plan: moved(plan, "water.establishment.w1", 7),
    "alarms off": lambda plan: plan.model_copy(update={"alarm": None}),
    "another campaign": lambda plan: plan.model_copy(
        update={"campaign_name": "the other way round"}
    ),
    "everything a week later": lambda plan: plan.model_copy(
        update={"tasks": tuple(moved(plan, t.id, 7).task(t.id) for t in plan.tasks)}
    ),
    "in another order": lambda plan: plan.model_copy(update={"tasks": tuple(reversed(plan.tasks))}),
}


# The checker of versions is slow: the quick tier asks it about each kind of change.
QUICK = (
    *("a day later", "renamed", "dropped", "added", "a run left out", "every run left out"),
    *("watering moved", "another campaign", "everything a week later"),
)


@pytest.mark.parametrize("name", sampled(PAIRS, *QUICK))
@pytest.mark.parametrize("system", sampled(System, System.US))
def test_one_change(name: str, system: System, tmp_path: Path) -> None:
    """The checker of versions finds nothing between a plan, the plan with one change, and the plan
    with it taken back.
    """
    draft = sample_draft(system)
    later = NOW + timedelta(days=5)
    versions = [sample_plan(system)]
    versions.append(revise(PAIRS[name](draft), versions[0], later))
    versions.append(revise(draft, versions[1], later + timedelta(days=1)))
    files = [tmp_path / f"{n}.ics" for n in range(3)]
    for file, plan in zip(files, versions, strict=True):
        file.write_bytes(season_ics(plan))
    # The first version is the same in every case: "nothing" has it judged.
    assert feed_faults(files[1]) == feed_faults(files[2]) == []
    assert update_faults(files[0], files[1]) == []
    assert update_faults(files[1], files[2]) == []


@dataclass
class Life:
    """A season in which anything may happen: the draft that the rules would give, what happened,
    and the newest plan.
    """

    random: Random
    draft: Plan = field(default_factory=sample_draft)
    today: date = date(2027, 2, 1)
    plan: Plan = field(default_factory=sample_plan)
    done: dict[str, WhatHappened] = field(default_factory=dict)
    skipped: set[str] = field(default_factory=set)
    reopened: set[str] = field(default_factory=set)
    births: int = 0

    def open_tasks(self) -> list[Task]:
        """Tasks of the draft that can still be changed: not over, unless told not done."""
        return [t for t in self.draft.tasks if t.id not in self.done and t.end >= self.today]

    def any_open(self) -> Task | None:
        """One of them, or None when all is over."""
        found = self.open_tasks()
        return self.random.choice(found) if found else None

    def happen(self) -> None:
        """One thing."""
        deeds = (
            self.move,
            self.drop,
            self.restore,
            self.add,
            self.skip,
            self.do,
            self.reword,
            self.turn,
            self.rain,
            self.reopen,
        )
        self.random.choice(deeds)()

    def move(self) -> None:
        """An open task goes to another day."""
        task = self.any_open()
        if task is not None:
            days = self.random.choice((-7, -1, 1, 2, 7, 21))
            if task.start + timedelta(days=days) >= self.today:
                self.draft = moved(self.draft, task.id, days)

    def drop(self) -> None:
        """The rules no longer ask for a task."""
        task = self.any_open()
        if task is not None:
            self.draft = without(self.draft, task.id)

    def restore(self) -> None:
        """The rules ask again for what they once asked for."""
        missing = [
            t
            for t in sample_draft().tasks
            if self.draft.task(t.id) is None and t.id not in self.skipped
        ]
        if missing:
            self.draft = with_more(self.draft, self.random.choice(missing))

    def add(self) -> None:
        """The rules ask for something new."""
        self.births += 1
        name = self.random.choice((f"mow.{self.births}", f"inspect.{self.births}x"))
        self.draft = with_more(
            self.draft,
            job(name, "care", f"Mow, turn {self.births}", self.today + timedelta(days=9)),
        )

    def skip(self) -> None:
        """A task is left out by its owner."""
        task = self.any_open()
        if task is not None:
            self.skipped.add(task.id)
            self.draft = without(self.draft, task.id)

    def do(self) -> None:
        """A task is logged as done, on this day or one before."""
        task = self.any_open()
        if task is not None and task.series is None:
            day = self.today - timedelta(days=self.random.choice((0, 0, 1, 3)))
            self.done[task.id] = WhatHappened(start=day, end=day)
            self.draft = with_task(self.draft, task.id, start=day, end=day)

    def reword(self) -> None:
        """Another version of the program says it differently, also of what is over."""
        for task in self.draft.tasks:
            if self.random.random() < 0.1:
                self.draft = with_task(
                    self.draft, task.id, why=f"Said anew on {self.today.toordinal()}."
                )

    def turn(self) -> None:
        """Reminders are switched off or on."""
        alarm = None if self.draft.alarm else sample_draft().alarm
        self.draft = self.draft.model_copy(update={"alarm": alarm})

    def rain(self) -> None:
        """Coming runs of a watering fall out."""
        series = [t for t in self.open_tasks() if t.series is not None]
        if series:
            task = self.random.choice(series)
            assert task.series is not None
            days = [task.series.start + timedelta(days=n) for n in range(7)]
            coming = [d for d in days if d >= self.today and d not in task.series.skip]
            if coming:
                self.draft = left_out(
                    self.draft, task.id, *task.series.skip, self.random.choice(coming)
                )

    def reopen(self) -> None:
        """A task that is over was not done, and is planned again."""
        over = [
            t
            for t in self.draft.tasks
            if t.end < self.today and t.id not in self.done and t.series is None
        ]
        if over:
            task = self.random.choice(over)
            self.draft = moved(self.draft, task.id, (self.today - task.start).days + 5)

    def make(self) -> Plan:
        """The next version, through plan.json as the command does."""
        past = TaskHistory(
            done={name: actual.end.toordinal() for name, actual in self.done.items()},
            actual=self.done,
            skipped=frozenset(self.skipped),
        )
        now = datetime(self.today.year, self.today.month, self.today.day, 16, tzinfo=UTC)
        self.plan = revise(self.draft, plan_from_json(plan_to_json(self.plan)), now, history=past)
        return self.plan


@pytest.mark.parametrize("seed", sampled(range(4), 0))
def test_a_season_in_which_anything_happens(seed: int, tmp_path: Path) -> None:
    """Sixty versions: no fault between any two, no fault in every tenth, what is over stays,
    running again changes nothing.
    """
    life = Life(Random(seed))
    before, after = tmp_path / "before.ics", tmp_path / "after.ics"
    before.write_bytes(season_ics(life.plan))
    for number in range(60):
        old = life.plan
        life.today += timedelta(days=life.random.choice((0, 1, 3, 9)))
        for _ in range(life.random.choice((0, 1, 1, 2, 4))):
            life.happen()
        plan = life.make()
        after.write_bytes(season_ics(plan))
        assert update_faults(before, after, f"{life.today:%Y%m%d}T000000Z") == []
        assert number % 10 or feed_faults(after) == []
        over = {
            t.id: t.published for t in old.tasks if t.published and t.published.end < life.today
        }
        for task in plan.tasks:
            if task.id in over and (task.published is None or task.published.end < life.today):
                assert task.published == over[task.id], task.id
        assert {t.id for t in old.tasks} <= {t.id for t in plan.tasks} | {
            r.id for r in plan.retired
        }
        assert season_ics(life.make()) == after.read_bytes()
        before.write_bytes(after.read_bytes())


def test_numbers_retire_and_are_not_seen_again(tmp_path: Path) -> None:
    """A pass that comes and goes over months: every number that left the feed stays away, and none
    is used twice.
    """
    draft, plan, now = sample_draft(), sample_plan(), NOW
    gone: set[str] = set()
    born: dict[str, datetime | None] = {t.uid: t.created for t in plan.tasks}
    before, after = tmp_path / "before.ics", tmp_path / "after.ics"
    for turn in range(12):
        now += timedelta(days=31)
        wanted = draft if turn % 3 == 2 else without(draft, "topdress.2")
        before.write_bytes(season_ics(plan))
        plan = revise(moved(wanted, "settle_check", turn + 1), plan, now)
        after.write_bytes(season_ics(plan))
        assert update_faults(before, after) == []
        gone |= {r.id for r in plan.retired}
        assert not gone & {t.id for t in plan.tasks}
        for task in plan.tasks:
            assert born.setdefault(task.uid, task.created) == task.created
    assert len(gone) >= 3
