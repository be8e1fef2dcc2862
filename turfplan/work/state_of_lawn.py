"""The state of a lawn on the day on which it is planned: what is done, what of it still lasts, and
what has run out, from the brief, the journal and the rules of the book."""

from collections.abc import Iterator, Mapping, Sequence
from datetime import date, timedelta
from math import isclose

from turfplan.records.constraints import Constraint, Lag
from turfplan.records.lawn_state import LawnState, StateFact, StateKind
from turfplan.records.past import TaskHistory
from turfplan.records.plan_task import Role
from turfplan.work.campaigns import Campaign
from turfplan.work.drafts import Draft, SeasonDraft, task_of_node
from turfplan.work.emergence import undressed_days
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.phases.befallen import held_until
from turfplan.work.stand import stage_told

# What work makes true by the roles of its operation, and by the operation where it has none.
BY_ROLE: Mapping[Role, StateKind] = {
    "marking": "marked",
    "low_cut": "cut",
    "thatching": "open",
    "coring": "open",
    "relaying": "relaid",
    "spreading": "filled",
    "sowing": "sown",
    "planting": "planted",
    "feeding": "fed",
}
BY_OPERATION: Mapping[str, StateKind] = {
    "dry_material": "dry",
    "kill_stand": "killed",
    "weed_control": "treated",
    "preemergent": "treated",
    "lime": "limed",
}
# What is known by what was done of it, whoever sees it.
NAMED: frozenset[StateKind] = frozenset({"sown", "planted", "treated", "fed", "open"})


def state_of_lawn(
    setting: ResolvedLawn,
    campaign: Campaign,
    season: SeasonDraft,
    drafted: SeasonDraft,
    history: TaskHistory,
) -> LawnState:
    """What is known of a lawn today, in order of time.

    `season` holds every task, done or not, as it is dated, `drafted` that of the rules before
    history bound it: how long something lasts for the work that it is for follows from both. What
    is over without a word is no part of it.
    """
    rules = (*drafted.constraints, *season.constraints)
    found = [
        *_told(setting),
        *_measured(setting, history),
        *_done(setting, campaign, season, _limits(rules, history), history),
        *_heaps(setting, season, history),
        *_wished(season, history),
    ]
    facts = sorted(found, key=lambda f: (f.since, f.kind, f.task or "", f.of or ""))
    return LawnState(on=setting.today, facts=tuple(facts))


def _day(ordinal: int) -> date:
    return date.fromordinal(ordinal)


def _told(setting: ResolvedLawn) -> Iterator[StateFact]:
    """What the brief says of the lawn and of what was put on it."""
    brief, first = setting.brief, _day(setting.first_day)
    yield StateFact(kind="stand", since=first, of=stage_told(setting.turf.condition))
    holds = {hold.number: hold.until for hold in setting.holds}
    for number, use in enumerate(brief.history.herbicides, 1):
        until = holds.get(number)
        yield StateFact(
            kind="treated",
            since=use.on,
            until=None if until is None else max(use.on, _day(until - 1)),
            of=use.active_ingredient,
        )
    gap = timedelta(setting.days("feeding.least_gap"))
    for nitrogen in brief.history.nitrogen:
        yield StateFact(kind="fed", since=nitrogen.on, until=nitrogen.on + gap)
    for sowing in brief.history.sowings:
        rest = timedelta(setting.days("seeding.no_dressing"))
        yield StateFact(kind="sown", since=sowing.on, until=sowing.on + rest, of=sowing.species)
    for lime in brief.history.lime:
        yield StateFact(kind="limed", since=lime.on)


def _measured(setting: ResolvedLawn, history: TaskHistory) -> Iterator[StateFact]:
    """What was measured or found."""
    for on, celsius in history.soil:
        yield StateFact(kind="soil", since=on, until=on, value=celsius, unit="C")
    for on, rain_mm in history.rain.items():
        yield StateFact(kind="rain", since=on, until=on, value=rain_mm, unit="mm")
    if history.alive_on is not None:
        again = setting.alive_until
        until = None if again is None else max(history.alive_on, _day(again - 1))
        yield StateFact(kind="stressed", since=history.alive_on, until=until)
    for event in history.events:
        rests = _day(held_until(setting, event) - 1)
        yield StateFact(kind="stressed", since=event.on, until=rests, of=event.name)
    for first, last in history.bans:
        yield StateFact(kind="banned", since=first, until=max(first, last))
    if history.germinated is not None:
        yield StateFact(kind="up", since=history.germinated)
    if history.missing_mm is not None:
        since = setting.today
        yield StateFact(kind="lacking", since=since, value=history.missing_mm, unit="mm")


def _done(
    setting: ResolvedLawn,
    campaign: Campaign,
    season: SeasonDraft,
    limits: Mapping[str, int],
    history: TaskHistory,
) -> Iterator[StateFact]:
    """What work that was done, or is begun, has made true."""
    for draft in season.drafts:
        share = 1.0 if draft.id in history.done else history.part_done.get(draft.id, 0.0)
        kind = _kind(setting, draft)
        if not share or kind is None:
            continue
        actual = history.actual.get(draft.id)
        last = _day(history.done[draft.id]) if actual is None else actual.end
        value, unit = (draft.depth_mm, "mm") if kind == "filled" else (None, None)
        yield StateFact(
            kind=kind,
            since=last,
            until=_until(setting, campaign, kind, last, limits.get(draft.id)),
            task=draft.id,
            of=draft.operation if kind in NAMED else None,
            share=share,
            value=value,
            unit=unit,
        )
        if kind == "filled" and not setting.on_open_ground:
            grown = last + timedelta(setting.pass_interval_days)
            yield StateFact(kind="covered", since=last, until=grown, task=draft.id, share=share)


def _kind(setting: ResolvedLawn, draft: Draft) -> StateKind | None:
    roles = setting.book.operations[draft.operation].roles
    by_role = (kind for role, kind in BY_ROLE.items() if role in roles)
    return next(by_role, BY_OPERATION.get(draft.operation))


def _until(
    setting: ResolvedLawn, campaign: Campaign, kind: StateKind, last: date, limit: int | None
) -> date | None:
    """The last day on which something holds, None where it stays."""
    if kind in ("sown", "planted"):
        rest = max(setting.days("seeding.no_dressing"), undressed_days(setting, campaign))
        return last + timedelta(rest)
    if kind == "fed":
        return last + timedelta(setting.days("feeding.least_gap"))
    if kind == "relaid":
        return last + timedelta(round(setting.book.fact("order.plant_rooting").high_si))
    if kind in ("marked", "cut", "open", "dry") and limit is not None:
        return max(last, _day(limit))
    return None


def lasting(rules: Sequence[Constraint], history: TaskHistory) -> dict[str, dict[str, int]]:
    """By task that is done, the last day (an ordinal) on which each task that it was for may still
    follow it: the first to run out of what binds the two."""
    found: dict[str, dict[str, int]] = {}
    for lag in rules:
        if not isinstance(lag, Lag) or lag.maximum is None:
            continue
        before, after = task_of_node(lag.before), task_of_node(lag.after)
        if before in history.done:
            most, each = lag.maximum(history.done[before]), found.setdefault(before, {})
            each[after] = min(most, each.get(after, most))
    return found


def _limits(rules: Sequence[Constraint], history: TaskHistory) -> dict[str, int]:
    """By task that is done, the last day on which anything that it was for may still follow it."""
    return {name: max(each.values()) for name, each in lasting(rules, history).items()}


def heap_keeps(
    setting: ResolvedLawn, drafts: Sequence[Draft], load: int, history: TaskHistory
) -> tuple[int, int] | None:
    """The day (an ordinal) on which a load came, and the last on which it is still good: so long
    after it came, or was looked at and dried once more. None where it has not come."""
    own = [d for d in drafts if d.load == load and d.id in history.done]
    came = next((history.done[d.id] for d in own if d.operation == "delivery"), None)
    if came is None:
        return None
    keep = setting.days("order.storage_days")
    until = came + keep
    looks = sorted(history.done[d.id] for d in own if d.operation != "delivery")
    for number, seen in enumerate(looks):
        # The first look belongs to the days that a fresh heap keeps.
        until = seen + keep if number or seen > until else until
    return came, until


def _heaps(setting: ResolvedLawn, season: SeasonDraft, history: TaskHistory) -> Iterator[StateFact]:
    """The loads that have come, with what is left of them: the oldest is used first."""
    used_m3 = sum(_spread_m3(setting, draft, history) for draft in season.drafts)
    came: dict[int | None, Draft] = {
        d.load: d for d in season.drafts if d.load is not None and d.operation == "delivery"
    }
    for load in sorted(season.loads, key=lambda load: history.done.get(_id(came, load.number), 0)):
        name = _id(came, load.number)
        if name not in history.done:
            continue
        brought_m3 = _logged_m3(name, history)
        brought_m3 = load.loose_m3 if brought_m3 is None else brought_m3
        taken_m3 = min(brought_m3, used_m3)
        used_m3 -= taken_m3
        since = _day(history.done[name])
        kept = None if load.bags else heap_keeps(setting, season.drafts, load.number, history)
        keeps = None if kept is None else _day(kept[1])
        # What rounding leaves is no heap.
        if not isclose(brought_m3, taken_m3):
            left_m3 = brought_m3 - taken_m3
            yield StateFact(
                kind="heap", since=since, until=keeps, task=name, value=left_m3, unit="m3"
            )


def _id(came: Mapping[int | None, Draft], load: int) -> str:
    return came[load].id if load in came else ""


def _spread_m3(setting: ResolvedLawn, draft: Draft, history: TaskHistory) -> float:
    """What was taken off the heaps for a task, loose m3: as logged, else its share of the plan."""
    if "spreading" not in setting.book.operations[draft.operation].roles:
        return 0.0
    share = 1.0 if draft.id in history.done else history.part_done.get(draft.id, 0.0)
    logged_m3 = _logged_m3(draft.id, history)
    return draft.loose_m3 * share if logged_m3 is None else logged_m3


def _logged_m3(task: str, history: TaskHistory) -> float | None:
    if task not in history.actual:
        return None
    logged = [amount.value for amount in history.actual[task].amounts if amount.unit == "m3"]
    return sum(logged) if logged else None


def _wished(season: SeasonDraft, history: TaskHistory) -> Iterator[StateFact]:
    """The days that somebody chose or asked for, of what is in the plan."""
    planned = {draft.id for draft in season.drafts}
    days: tuple[tuple[StateKind, Mapping[str, int]], ...] = (
        ("chosen", history.held),
        ("booked", history.booked),
    )
    for kind, wished in days:
        for task, day in wished.items():
            if task in planned:
                yield StateFact(kind=kind, since=_day(day), until=_day(day), task=task)
