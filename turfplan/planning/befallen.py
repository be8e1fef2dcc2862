"""What has befallen a lawn, as its journal tells it: events that last, bans of watering, and seed
that did not come up or is gone."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date, timedelta
from typing import Final, cast, get_args

from turfplan.book.entries import Book
from turfplan.message import Day, Days, Message, Number
from turfplan.phrases import befallen as phrases
from turfplan.planning.candidates import MAIN_WORK
from turfplan.records.brief import Brief, Span
from turfplan.records.constraints import Constraint, DayStep, Lag, Reason, Strength
from turfplan.records.journal import EventName, JournalEntry, SeedLoss, standing
from turfplan.records.past import LawnEvent, TaskHistory
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Role, Task
from turfplan.work.campaigns import Campaign
from turfplan.work.day_limits import day_constraints
from turfplan.work.drafts import Draft, SeasonDraft
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.phases.befallen import (
    DRY,
    LOST_SEED,
    held_until,
    look_at,
    look_at_lost,
    rest_from,
    waits_for,
    why_waits,
)

LOSSES: Final = get_args(SeedLoss)
# What receives a load, by which its passes are known to have their mix here.
RECEIVED: Final = "delivery"
# Less than a hundredth is told as nothing.
ALL: Final = 0.995
LATE: Final = date.max.toordinal()
# What is so as long as its value is 0.
_NOT_YET: Final[frozenset[EventName]] = frozenset({"green_up"})


def events_of(entries: Iterable[JournalEntry]) -> tuple[LawnEvent, ...]:
    """The events that are not known to be over: the last word on each counts."""
    last: dict[EventName, LawnEvent | None] = {}
    for entry in entries:
        if entry.quantity not in get_args(EventName) or entry.on is None:
            continue
        name = cast(EventName, entry.quantity)
        so = not entry.value if name in _NOT_YET else bool(entry.value)
        last[name] = LawnEvent(name, entry.on) if so else None
    return tuple(event for event in last.values() if event is not None)


def bans_of(entries: Iterable[JournalEntry]) -> tuple[tuple[date, date], ...]:
    """The first and the last day of each ban of watering; one of no days ends those before it."""
    found: list[tuple[date, date]] = []
    for entry in entries:
        if entry.quantity != "water_ban" or entry.on is None or entry.value is None:
            continue
        eve = entry.on - timedelta(1)
        # What is said of a day on which a ban was known replaces it.
        found = [(first, min(last, eve)) for first, last in found if first <= eve]
        if entry.value:
            found.append((entry.on, eve + timedelta(max(1, round(entry.value)))))
    return tuple(found)


def with_bans(brief: Brief, bans: Sequence[tuple[date, date]]) -> Brief:
    """The brief with the bans that the journal tells of."""
    if not bans:
        return brief
    spans = tuple(Span(start=first, end=last) for first, last in bans)
    water = brief.water.model_copy(update={"banned": (*brief.water.banned, *spans)})
    return brief.model_copy(update={"water": water})


def seed_lost(
    book: Book, entry: JournalEntry, sowing: Task, sown: date, tasks: Mapping[str, Task]
) -> float:
    """The share of what was sown on a day that an entry says did not come up, or is gone; 0 where
    it says nothing of that seed, or no more than the seed that is held back makes good.

    Seed is given its time to come up: before the look at it nothing is said to have failed.
    """
    if entry.on is None or entry.value is None or entry.on < sown or _is_mown(sowing, tasks):
        return 0.0
    if entry.quantity == "germination" and entry.on < _looked_at(book, sowing, sown, tasks):
        return 0.0
    share = 1 - entry.value if entry.quantity == "germination" else entry.value
    return share if share > book.si("seeding.reserve") else 0.0


def why_none_lost(
    book: Book, entry: JournalEntry, plan: Plan, before: Sequence[JournalEntry]
) -> Message | None:
    """Why what an entry says of seed asks for no new seed; None where it does, or says that all is
    well."""
    if entry.quantity not in LOSSES or entry.on is None or entry.value is None:
        return None
    share = 1 - entry.value if entry.quantity == "germination" else entry.value
    tasks = {task.id: task for task in plan.tasks}
    days = {e.task: e.on for e in standing(before) if e.kind == "done" and e.on and e.task}
    sown = {
        task.id: days.get(task.id, task.start)
        for task in plan.tasks
        if task.plays("sowing")
        and (task.id in days or task.closed == "done")
        and not _is_mown(task, tasks)
    }
    lying = {name: on for name, on in sown.items() if on <= entry.on}
    if share <= 0:
        return None
    if not lying:
        return phrases.nothing_sown()
    if any(seed_lost(book, entry, tasks[name], on, tasks) for name, on in lying.items()):
        return None
    name, on = max(lying.items(), key=lambda each: each[1])
    due = _looked_at(book, tasks[name], on, tasks)
    if entry.quantity == "germination" and entry.on < due:
        return phrases.too_early(day=Day(due))
    return phrases.from_reserve(share=Number(book.si("seeding.reserve"), "percent"))


def _is_mown(sowing: Task, tasks: Mapping[str, Task]) -> bool:
    """Whether what came of a sowing has had its first cut."""
    return any(
        task.plays("first_cut") and task.closed == "done" and task.start > sowing.start
        for task in tasks.values()
    )


def _looked_at(book: Book, sowing: Task, sown: date, tasks: Mapping[str, Task]) -> date:
    """The day from which a look tells what has become of seed that was sown on a day."""
    days = [(look.start - sowing.end).days for look in looks_at(sowing, tasks)]
    usual = round(book.fact("seeding.germination_days").high_si)
    # A look that lies before its seed has been put off with it.
    return sown + timedelta(min([day for day in days if day > 0] + [usual]))


def looks_at(sowing: Task, tasks: Mapping[str, Task]) -> list[Task]:
    """The looks at what a task has sown."""
    return [t for t in tasks.values() if t.plays("looking") and sowing.id in t.depends_on]


def because_lost(name: SeedLoss, on: date, share: float) -> Message:
    """Why what was sown is sown again."""
    part, whole = {
        "germination": (phrases.not_up, phrases.none_up),
        "seed_washed": (phrases.washed, phrases.all_washed),
        "animals": (phrases.eaten, phrases.all_eaten),
    }[name]
    if share > ALL:
        return whole(day=Day(on))
    return part(day=Day(on), share=Number(share, "percent"))


def bound_by_events(
    setting: ResolvedLawn, season: SeasonDraft, history: TaskHistory
) -> Iterator[Constraint]:
    """What holds the open tasks until what has befallen the lawn has passed."""
    for draft, event in _waiting(setting, season, history):
        yield rest_from(setting, draft, event)


def _waiting(
    setting: ResolvedLawn, season: SeasonDraft, history: TaskHistory
) -> Iterator[tuple[Draft, LawnEvent]]:
    """Each open task with each event that it waits for. A wet heap holds the passes that are spread
    from it."""
    here = {name.partition(".")[2] for name in history.done if name.startswith(f"{RECEIVED}.")}
    wet = {p for load in season.loads if str(load.number) in here for p in load.passes}
    for event in history.events:
        for draft in season.drafts:
            if draft.id in history.fixed or not waits_for(setting, draft, event):
                continue
            if event.name != "heap_wet" or (draft.position in wet and not setting.on_open_ground):
                yield draft, event


def with_looks(
    setting: ResolvedLawn, campaign: Campaign, season: SeasonDraft, history: TaskHistory
) -> SeasonDraft:
    """The season with a look at what each event has left, and at why seed was lost, less those that
    are left out."""
    looks = [look_at(setting, event) for event in history.events]
    lost = history.lost
    if lost is not None and any(_sows(setting, d) for d in season.drafts):
        why = because_lost(lost.name, lost.on, lost.share)
        looks.append(look_at_lost(setting, lost, why))
    added = [look for look in looks if look.id not in history.skipped]
    if not added:
        return season
    days = day_constraints(setting, campaign, added)
    lags = _found_out_first(setting, season, added)
    constraints = (*season.constraints, *days, *lags)
    return replace(season, drafts=(*season.drafts, *added), constraints=constraints)


def _found_out_first(
    setting: ResolvedLawn, season: SeasonDraft, looks: Sequence[Draft]
) -> Iterator[Lag]:
    """Why seed was lost is found out before more of it goes in, and that the mix is dry before it
    is spread."""
    first: Mapping[str | None, tuple[Role, Message]] = {
        LOST_SEED: ("sowing", phrases.found_out_first()),
        DRY: ("spreading", phrases.heap_dry_first()),
    }
    for look in looks:
        if look.key not in first:
            continue
        role, why = first[look.key]
        for draft in season.drafts:
            if setting.book.operations[draft.operation].plays(role):
                ends = look.end_node, draft.start_node
                reason = Reason(f"befallen.{look.key}", why)
                name = f"found_out:{look.id}>{draft.id}"
                yield Lag(name, *ends, Strength.STRONG, reason, DayStep(0))


def _sows(setting: ResolvedLawn, draft: Draft) -> bool:
    return setting.book.operations[draft.operation].plays("sowing")


def _delays(
    setting: ResolvedLawn, season: SeasonDraft, history: TaskHistory
) -> Iterator[tuple[Draft, int, Message]]:
    """Each open task with the first day that what has befallen the lawn leaves to it, and why; of a
    cause that was found alive and of a ban of watering the work that waits for them by other
    rules."""
    yield from (
        (draft, held_until(setting, event), why_waits(event))
        for draft, event in _waiting(setting, season, history)
    )
    alive_on, again = history.alive_on, setting.alive_until
    for draft in [d for d in season.drafts if d.id not in history.fixed]:
        operation = setting.book.operations[draft.operation]
        held = operation.plays(*MAIN_WORK, "ordering", "low_cut", "relaying")
        if held and alive_on is not None and again is not None:
            why = phrases.found_alive(day=Day(alive_on))
            yield draft, again + setting.days("order.diagnose_lead"), why
        for first, last in history.bans:
            if operation.plays("sowing", "planting"):
                why = phrases.banned(days=Days(first, last, weekday=False))
                yield draft, last.toordinal() + 1, why


def with_event_reasons(
    setting: ResolvedLawn, season: SeasonDraft, history: TaskHistory
) -> TaskHistory:
    """The history with the event that takes its day from each task that was published for a day
    within its rest."""
    because = {
        draft.id: why
        for draft, day, why in _delays(setting, season, history)
        if history.published.get(draft.id, LATE) < day
    }
    return replace(history, because={**because, **history.because}) if because else history
