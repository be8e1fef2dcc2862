"""Random walks through the journal: anything that may be logged, in any order, with plans made
again in between.

Whatever has happened, a plan comes out that its judge passes; made twice it is the same, and no
day that is over moves.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from random import Random
from typing import Any

from campaigns.records import Campaign, Figures
from planning import EXAMPLES, POSSIBLE, brief_of, example_brief
from test_planning_random import COOL, HOMES, SOILS, UNSEEDED
from turfplan.app.inputs import PlanInputs, input_of
from turfplan.app.plan_lawn import planned
from turfplan.app.typed_amounts import MEASURED
from turfplan.audit.sowings import NOT_WATERED, WEEK
from turfplan.errors import TurfplanError
from turfplan.export.tables.plan_json import plan_to_json
from turfplan.files.reading.book import load_book
from turfplan.files.reading.plan import plan_from_json
from turfplan.message import Message
from turfplan.planning.candidates import MAIN_WORK
from turfplan.planning.slips import slips_of
from turfplan.records.brief import Brief
from turfplan.records.journal import SHARES, JournalEntry
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Task

BEGIN = date(2027, 2, 1)
MOST_ENTRIES = 12
YEARS_DAYS = 2 * 365
# So near to its task what is written can be true.
NEAR_DAYS = 21
# What an owner writes down most: work that was done.
DEEDS = (
    *("done",) * 8,
    *("half",) * 2,
    *("skipped",) * 3,
    *("moved",) * 3,
    "booked",
    *("rained_off",) * 3,
    *("refused",) * 2,
    *("delivered",) * 2,
    *("not_done",) * 3,
    *("measured",) * 5,
    *("undo",) * 2,
    "note",
)
READINGS = {
    "temperature": (2.0, 30.0),
    "length": (0.0, 60.0),
    "share": (0.0, 1.0),
    "per_area": (0.0, 200.0),
    "days": (0.0, 40.0),
}
LOWS = (
    ({"depth": "60 mm", "share": 0.05}, {"depth": "15 mm", "share": 0.2}),
    ({"depth": "80 mm", "share": 0.1},),
    ({"depth": "30 mm", "share": 0.3},),
)


@dataclass
class Walk:
    """One lawn with its journal and its newest plan, as the command makes it: through plan.json,
    unless it is not `by_file`; `versions` counts, and `refused` holds what `log --yes` does not
    write, with why."""

    given: PlanInputs
    plan: Plan
    journal: list[JournalEntry] = field(default_factory=list)
    versions: int = 1
    by_file: bool = True
    refused: list[tuple[JournalEntry, str]] = field(default_factory=list)

    def log(self, kind: str, **entry: Any) -> None:
        """Write into the journal."""
        number = len(self.journal) + 1
        at = datetime(2027, 1, 1, tzinfo=UTC) + timedelta(minutes=number)
        fields = {"number": number, "at": at, "kind": kind, **entry}
        self.journal.append(JournalEntry.model_validate(fields))

    def log_if_taken(self, kind: str, today: date, **entry: Any) -> bool:
        """Write what `log --yes` writes, and whether it does: all but what cannot be true."""
        self.log(kind, **entry)
        written = self.journal.pop()
        book = load_book(self.plan.place.region)
        found = slips_of(written, self.journal, self.plan, book, today=today)
        never = [slip.what.key for slip in found if not slip.possible]
        if never:
            self.refused.append((written, ", ".join(never)))
            return False
        self.journal.append(written)
        return True

    def again(self, today: date, *, assume_not_done: bool = False) -> Plan:
        """The plan of a day."""
        before = plan_from_json(plan_to_json(self.plan)) if self.by_file else self.plan
        journal = tuple(self.journal)
        made = planned(self.given, journal, before, today=today, assume_not_done=assume_not_done)
        assert made.conflict is None, f"no plan: {made.conflict}"
        return made

    def go(self, today: date, *, assume_not_done: bool = False) -> Plan:
        """Plan again on a day, and go on from there."""
        self.plan = self.again(today, assume_not_done=assume_not_done)
        self.versions += 1
        return self.plan

    def day(self, task: str) -> date:
        """The first day of a task of the newest plan."""
        found = self.plan.task(task)
        assert found is not None, task
        return found.start

    def done_until(self, day: date, *left_out: str) -> None:
        """Log every open task that is over by a day as done on its own, but for some."""
        for task in sorted(self.plan.tasks, key=lambda t: t.start):
            still = task.closed is None and task.series is None and task.status != "CANCELLED"
            if still and task.end < day and task.id not in left_out:
                self.log("done", task=task.id, on=task.end)


def lawn(chance: Random) -> Brief:
    """An example, or a lawn that nobody wrote: any grass at home, any ground and any wish."""
    if chance.random() < 0.25:
        return example_brief(chance.choice(POSSIBLE))
    grass = chance.choice(sorted(HOMES))
    leveling: dict[str, Any] = {"depth": f"{chance.randint(3, 45)} mm"}
    if chance.random() < 0.3:
        leveling |= {"lows": list(chance.choice(LOWS))}
    elif chance.random() < 0.1:
        leveling = {"depth": "0 in"}
    away = BEGIN + timedelta(days=chance.randrange(60, 400))
    return brief_of(
        {
            "lawn": {
                "grass": grass,
                "soil": chance.choice(SOILS),
                "area": f"{chance.randint(40, 2500)} m2",
                "condition": chance.choice(("dense", "thin", "patchy", "bare")),
                "thatch": chance.choice(("0 in", "0.3 in", "0.6 in")),
            },
            "place": chance.choice(HOMES[grass]),
            "leveling": leveling,
            "seeding": _wish(chance, grass),
            "season": {"from": BEGIN + timedelta(days=chance.randrange(300))},
            "calendar": {
                "weekdays": chance.choice((["sat", "sun"], ["fri", "sat", "sun"], ["sat"])),
                **(
                    {"unavailable": [{"from": away, "to": away + timedelta(days=9)}]}
                    if chance.random() < 0.3
                    else {}
                ),
            },
            "site": {"bump_cause": "settling"} if chance.random() < 0.4 else None,
            "work": {"people": chance.randint(1, 4), "hours_per_day": 6},
        }
    )


def _wish(chance: Random, grass: str) -> dict[str, Any]:
    planted = ("sod", "plugs")
    if grass in UNSEEDED:
        intent = chance.choice(("none", "plant", "winter_overseed"))
    elif grass in COOL:
        intent = chance.choice(("none", "patch", "overseed", "renovate", "dormant", "plant"))
    else:
        intent = chance.choice(("none", "overseed", "renovate", "plant", "winter_overseed"))
    form = {"form": "sod" if grass in COOL else chance.choice(planted)}
    return {"intent": intent, **(form if intent == "plant" else {})}


def begun(brief: Brief, today: date = BEGIN) -> Walk:
    """The first plan of a lawn."""
    given = input_of(brief, EXAMPLES)
    return Walk(given, planned(given, today=today))


def happen(chance: Random, season: Walk, today: date) -> None:
    """One entry of any kind, of any task, on any day."""
    deed = chance.choice(DEEDS)
    if deed == "measured":
        quantity = chance.choice(sorted(MEASURED))
        low, high = READINGS[MEASURED[quantity]]
        value = round(chance.uniform(low, high), 1 if high > 1 or quantity in SHARES else 0)
        on = _some_day(chance, None, today)
        season.log_if_taken("measured", today, quantity=quantity, value=value, on=on)
    elif deed == "undo":
        if season.journal:
            season.log("undo", undoes=chance.choice(season.journal).number)
    elif deed == "note":
        season.log("note", text="Looked at it.")
    elif deed == "rained_off" and chance.random() < 0.6:
        season.log("rained_off", on=_some_day(chance, _some_task(chance, season, today), today))
    else:
        _of_task(chance, season, deed, _some_task(chance, season, today), today)


def _of_task(chance: Random, season: Walk, deed: str, task: Task, today: date) -> None:
    on = _some_day(chance, task, today)
    if deed in ("moved", "booked"):
        # What cannot be planned of a wish is not written; one that comes from elsewhere gives way.
        season.log(deed, task=task.id, to=on + timedelta(days=chance.randint(-3, 30)))
    elif deed == "not_done":
        season.log_if_taken(
            "not_done", today, task=task.id, on=on if chance.random() < 0.5 else None
        )
    elif deed == "half":
        share = chance.choice((0.25, 0.5, 0.9))
        season.log_if_taken("done", today, task=task.id, on=on, share=share)
    else:
        used = _amount(chance, task) if deed in ("done", "delivered", "refused") else {}
        season.log_if_taken(deed, today, task=task.id, on=on, **used)


def _amount(chance: Random, task: Task) -> dict[str, Any]:
    """Now and then what was used or came: half of what was planned to double, or anything."""
    planned = [a for a in task.amounts if a.unit in ("m3", "kg", "m2") and a.value > 0]
    if not planned or chance.random() < 0.6:
        return {}
    amount = chance.choice(planned)
    times = chance.choice((0.5, 0.8, 1.0, 1.2, 2.0, 0.1, 7.0))
    return {"amount": round(amount.value * times, 2) or amount.value, "unit": amount.unit}


def _some_task(chance: Random, season: Walk, today: date) -> Task:
    """A job near today as a rule, main work or a load now and then, else any task of the plan."""
    tasks = season.plan.tasks
    still = [t for t in tasks if t.closed is None and t.series is None and t.status != "CANCELLED"]
    near = sorted(still, key=lambda t: abs((t.start - today).days))[:6]
    main = [t for t in still if t.plays(*MAIN_WORK, "delivery", "relaying", "low_cut", "coring")]
    kind = chance.random()
    return chance.choice((near if kind < 0.6 else main if kind < 0.85 else tasks) or tasks)


def _some_day(chance: Random, task: Task | None, today: date) -> date:
    """The day of a task or near it, today or before, now and then any day of two years."""
    kind = chance.random()
    if task is not None and kind < 0.5:
        return task.start + timedelta(days=chance.choice((0, 0, 0, 1, -1, 7, -7, 20, -40)))
    if kind < 0.93:
        return today - timedelta(days=chance.choice((0, 0, 1, 2, 5, 15, 45)))
    return BEGIN + timedelta(days=chance.randrange(YEARS_DAYS))


def diligent(chance: Random, season: Walk, today: date, share: float) -> None:
    """An owner who logs most of what was to be done, on its day."""
    for task in sorted(season.plan.tasks, key=lambda t: t.start):
        over = task.closed is None and task.series is None and task.end < today
        if over and task.status != "CANCELLED" and chance.random() < share:
            season.log("done", task=task.id, on=task.end)


def walk(number: int, tell: Callable[[str], None] = lambda _: None) -> Mapping[str, int]:
    """One lawn until its entries are used up; fails where a plan does not hold."""
    season = walked(number, tell)
    if isinstance(season, str):
        return {season: 1}
    return {
        "walks": 1,
        "versions": season.versions,
        "entries": len(season.journal),
        "not_written": len(season.refused),
    }


def walked(
    number: int,
    tell: Callable[[str], None] = lambda _: None,
    made: type[Walk] = Walk,
    *,
    checked: bool = True,
) -> Walk | str:
    """A lawn whose entries are used up, or why it has no plan: its wish is `refused`, or
    `impossible`. It is `checked` that a plan made twice is the same, and that the past stays."""
    chance = Random(number)
    today = BEGIN
    try:
        given = input_of(lawn(chance), EXAMPLES)
        first = planned(given, today=today)
    except TurfplanError:  # a wish that the book does not bear out
        return "refused"
    if first.conflict is not None:
        return "impossible"
    season = made(given, first)
    share = chance.choice((0.0, 0.0, 0.7, 0.95))
    left = chance.randint(3, MOST_ENTRIES)
    while left > 0:
        today = _next_day(chance, season, today)
        diligent(chance, season, today, share)
        for _ in range(min(left, chance.choice((1, 1, 2, 3)))):
            happen(chance, season, today)
            left -= 1
        before = season.plan
        tell(f"{today}: {[e for e in season.journal if e.number > before.journal_entries]}")
        after = season.go(today, assume_not_done=chance.random() < 0.05)
        if chance.random() < 0.3 and checked:
            same_again(season, today)
        if checked:
            past_stays(before, after, today)
            bought_once(after)
            kept_moist(after, season.given.brief)
            could_be_true(season)
    if checked:
        same_again(season, today)
    return season


def _next_day(chance: Random, season: Walk, today: date) -> date:
    """Some days on, or to the next main work."""
    coming = [
        t.start
        for t in season.plan.tasks
        if t.closed is None and t.start >= today and t.plays(*MAIN_WORK, "delivery", "relaying")
    ]
    if coming and chance.random() < 0.5:
        return min(coming) + timedelta(days=chance.choice((0, 1, 2, 8)))
    return today + timedelta(days=chance.choice((0, 1, 7, 20, 45, 90)))


def same_again(season: Walk, today: date) -> None:
    """The plan made again with nothing new is the same to the byte."""
    once, again = plan_to_json(season.plan), plan_to_json(season.again(today))
    assert once == again, f"made twice it differs on {today}"


def bought_once(plan: Plan) -> None:
    """Nothing stands on the order whose buying is closed; a machine that is reserved does, until it
    is used."""
    for line in [line for line in plan.order if line.item != "machine"]:
        steps = [task for name in line.tasks if (task := plan.task(name)) is not None]
        assert not steps or any(t.closed is None for t in steps), f"{line.item} is bought twice"


def kept_moist(plan: Plan, brief: Brief) -> None:
    """What is still to be sown is watered from its days on, seed that rests never before it wakes;
    so is what went in before the rest, from the day of the plan on."""
    water, today = brief.water, plan.now.date()
    told = {said.key for said in plan.cautions if isinstance(said, Message)}
    state = plan.state
    banned = state is not None and state.of_kind("banned")
    if water.possible is False or banned or told & {*NOT_WATERED}:
        return
    runs = [t for t in plan.tasks if t.stage is not None and t.status != "CANCELLED"]
    wet = [t for t in runs if t.stage and t.stage.id in ("soak", "germination")]
    for sowing in plan.tasks:
        last = plan.horizon.end - timedelta(WEEK)
        still = sowing.closed is None and not sowing.overdue and not sowing.held
        if not still or not sowing.plays("sowing") or sowing.end > last or sowing.end < today:
            continue
        if sowing.plays("dormant"):
            early = [run for run in wet if sowing.end <= run.start <= sowing.end + timedelta(WEEK)]
            assert not early, f"{sowing.id} is woken in winter"
        else:
            soon = [run for run in wet if sowing.start <= run.start <= sowing.end + timedelta(WEEK)]
            assert soon, f"{sowing.id} on {sowing.start} is left dry"


def could_be_true(season: Walk) -> None:
    """Nothing is refused that lies near its task in days and amount."""
    for entry, why in season.refused:
        task = season.plan.task(entry.task) if entry.task else None
        # What is told as over of a day long to come cannot be so.
        if task is None or entry.on is None or entry.amount == 0 or "slips.to_come" in why:
            continue
        near = abs((entry.on - task.start).days) <= NEAR_DAYS
        assert not near, f"{entry.kind} {entry.task} on {entry.on} is refused: {why}"


def past_stays(before: Plan, after: Plan, today: date) -> None:
    """What was over in the feed stays on its days, or is planned again from today on; nothing new
    lies before today, unless its owner put it there."""
    now = {t.id: t for t in after.tasks}
    gone = {r.id for r in after.retired}
    for old in before.tasks:
        assert old.id in now or old.id in gone, f"{old.id} is lost"
        if old.id not in now or old.published is None or old.end >= today:
            continue
        new = now[old.id]
        assert new.uid == old.uid and new.sequence >= old.sequence, old.id
        shown = new.published
        assert shown is not None, old.id
        stays = (shown.start, shown.end) == (old.published.start, old.published.end)
        assert stays or (new.end >= today and new.closed is None), (
            f"{old.id} was over on {old.end} and is now {new.start} to {new.end} ({new.closed})"
        )
    late = [
        t.id
        for t in after.tasks
        if t.closed is None and t.series is None and t.status != "CANCELLED"
        if t.end < today and not (t.overdue or t.held)
    ]
    assert not late, f"{late} lie before {today}"


def run(count: int, seed: int, folder: Path) -> Figures:
    """Fails where a walk does."""
    names = ("walks", "versions", "entries", "not_written", "impossible", "refused")
    figures = dict.fromkeys(names, 0)
    for number in range(seed, seed + count):
        try:
            for name, value in walk(number).items():
                figures[name] += value
        except AssertionError as fault:
            raise AssertionError(f"walk {number}: {fault}") from fault
    return figures


CAMPAIGN = Campaign("walks", size=100, seed=7000, unit="walks", run=run)
