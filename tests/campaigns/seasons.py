"""Random lawns through random seasons: planned, then planned again week after week around whatever
happens.
"""

from datetime import date, timedelta
from pathlib import Path
from random import Random
from typing import Any

from campaigns.records import Campaign, Figures
from planning import brief_of
from test_planning_random import COOL, HOMES, SOILS, intents
from test_seasons import Season
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Role, Task

VERSIONS = 10


def lawn(chance: Random) -> dict[str, Any]:
    """Changes to the plain brief."""
    grass = chance.choice(sorted(HOMES))
    wish = chance.choice([i for i in intents(grass) if i != "dormant" or grass in COOL])
    return {
        "lawn": {
            "grass": grass,
            "soil": chance.choice(SOILS),
            "area": f"{chance.randint(50, 3000)} m2",
            "condition": chance.choice(("dense", "thin", "patchy")),
        },
        "place": chance.choice(HOMES[grass]),
        "leveling": {"depth": f"{chance.randint(3, 30)} mm"},
        "seeding": {"intent": wish},
        "season": {"from": date(2027, 2, 1) + timedelta(days=chance.randrange(300))},
        "calendar": {"weekdays": chance.choice((["sat", "sun"], ["fri", "sat", "sun"]))},
    }


def happen(chance: Random, season: Season, today: date) -> None:
    """One thing: work done, skipped, moved, rained off, or nothing but a note."""
    open_jobs = [
        t
        for t in season.plan.tasks
        if t.closed is None and t.series is None and t.status != "CANCELLED"
    ]
    near = [t for t in open_jobs if t.start <= today + timedelta(days=10)] or open_jobs[:1]
    if not near:
        return
    task: Task = chance.choice(near)
    deed = chance.choice(("done", "done", "done", "skipped", "moved", "rained_off", "note"))
    if deed == "done":
        season.log(
            "done", task=task.id, on=min(today, task.end), share=chance.choice((1.0, 1.0, 0.5))
        )
    elif deed == "skipped":
        season.log("skipped", task=task.id, on=today)
    elif deed == "moved":
        season.log(
            "moved", task=task.id, to=max(today, task.start) + timedelta(days=chance.randint(1, 9))
        )
    elif deed == "rained_off":
        season.log("rained_off", on=today)
    else:
        season.log("note", text="Looked at it.")


BOUGHT_AGAIN: tuple[Role, ...] = ("ordering", "calling", "delivery")


def held(before: Plan, after: Plan, today: date) -> None:
    """Nothing is lost, no identity changes, no number falls, the past stays, open work that nobody
    holds lies ahead of today.
    """
    names = {r.id: None for r in after.retired} | {t.id: t for t in after.tasks}
    for task in before.tasks:
        assert task.id in names, f"{task.id} is lost"
        now = names[task.id]
        if now is not None:
            assert now.uid == task.uid and now.sequence >= task.sequence, task.id
            # A load that was sent away is asked for again under its name.
            again = now.closed is None and now.start > task.start and now.plays(*BOUGHT_AGAIN)
            if task.closed == "done" and not again:
                assert (now.start, now.closed) == (task.start, "done"), task.id
    # A day that somebody chose stands, also once it is over: such a job is held and not asked
    # about.
    past = [t for t in after.tasks if t.closed is None and t.series is None and t.end < today]
    late = [t.id for t in past if not (t.overdue or t.held)]
    assert not late, f"{late} lie before {today}"


def run(count: int, seed: int, folder: Path) -> Figures:
    """Fails where a version breaks what must hold between two, or where there is none; a lawn of
    which there is no first plan ends there.
    """
    versions = ended = 0
    for number in range(count):
        chance = Random(seed + number)
        season, day = Season(brief_of(lawn(chance))), date(2027, 2, 1)
        try:
            season.make(day)
            for _ in range(VERSIONS):
                before = season.plan
                day += timedelta(days=chance.choice((3, 7, 14, 30)))
                happen(chance, season, day)
                held(before, season.make(day), day)
                versions += 1
        except AssertionError as fault:
            # Season.make fails with the conflict of a plan that cannot be: of a first plan that is
            # an answer, of a later one a fault.
            if season.versions or "Conflict" not in repr(fault):
                raise AssertionError(f"season {seed + number}: {fault}") from fault
            ended += 1
    return {"versions": versions, "ended_in_a_conflict": ended}


CAMPAIGN = Campaign("seasons", size=200, seed=500, unit="seasons", run=run)
