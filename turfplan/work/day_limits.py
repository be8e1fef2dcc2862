"""Which days a task may take.

Days off for work, delivery days, and the open windows of its operation.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date
from functools import lru_cache

from turfplan.message import listed
from turfplan.phrases import day_limits as phrases
from turfplan.records.book_names import COLLECTIVES
from turfplan.records.constraints import Allowed, DaySet, DayStep, Lag, Reason, Strength
from turfplan.work.campaigns import Campaign
from turfplan.work.days_off import days_of, why_days
from turfplan.work.drafts import Draft, OpenDays, on_a_pass
from turfplan.work.lag_steps import span_step
from turfplan.work.lateness import in_time
from turfplan.work.lawn import ResolvedLawn, without
from turfplan.work.order import SOWING
from turfplan.work.past_of_lawn import rests
from turfplan.work.rain_windows import GROWS_FACTS, OPENED_OR_COVERED
from turfplan.work.salt_holds import salt_holds
from turfplan.work.watering.hose import by_hand
from turfplan.work.watering.rain_fed import RAIN_FACTS


def day_constraints(
    setting: ResolvedLawn, campaign: Campaign, drafts: Sequence[Draft]
) -> tuple[Allowed | Lag, ...]:
    """Every constraint on the days of single tasks, and the length of those of several days."""
    constraints: list[Allowed | Lag] = []
    for draft in drafts:
        constraints += _calendar(setting, draft)
        constraints += _windows(setting, campaign, draft)
        constraints += _of_past(setting, draft)
        constraints += _dry_turf(setting, draft)
        if draft.operation in SOWING or draft.operation == "plant":
            constraints += _watering_people(setting, draft)
            constraints += _watering_bans(setting, draft)
            constraints += _rain_alone(setting, draft)
            constraints += _herbicide_holds(setting, draft)
            constraints += salt_holds(setting, draft)
        if "relaying" in setting.book.operations[draft.operation].roles:
            constraints += _rooting_at_home(setting, draft)
        if draft.shows is not None:
            constraints.append(draft.shows)
    return tuple(constraints)


def _calendar(setting: ResolvedLawn, draft: Draft) -> list[Allowed | Lag]:
    days = days_of(setting, draft)
    reason = why_days(setting, draft.operation, fetched=bool(draft.bags))
    if draft.heard:
        days, reason = setting.calendar.machines, why_days(setting, "core_aerate")
    # What shares the days of another task has them whatever day that one is given.
    follows = draft.beside is not None and not on_a_pass(draft)
    strength = Strength.PREFERENCE if follows else Strength.HARD
    constraints: list[Allowed | Lag] = [
        Allowed(f"work_days:{draft.id}", draft.start_node, days, strength, reason)
    ]
    return (
        [*constraints, *length_of(setting, draft, days)] if draft.duration_days > 1 else constraints
    )


def length_of(setting: ResolvedLawn, draft: Draft, days: DaySet) -> Iterator[Lag]:
    """The working days that a task takes, on end where so many lie on end and a pass is not to go
    on after days off."""
    ends = draft.start_node, draft.end_node
    apart = setting.passes_apart and _is_of_pass(draft)
    if not apart and fits_in_one_go(days, draft.duration_days):
        together = Reason("work.in_one_go", phrases.in_one_go())
        most = DayStep(draft.duration_days - 1)
        yield Lag(f"in_one_go:{draft.id}", *ends, Strength.STRONG, together, maximum=most)
    step = span_step(days, setting.first_day, setting.last_day, draft.duration_days)
    length = Reason("work.length", phrases.length(n=draft.duration_days))
    yield Lag(f"length:{draft.id}", *ends, Strength.HARD, length, step, step)


def _is_of_pass(draft: Draft) -> bool:
    """Whether a job is a pass, or shares its days."""
    return draft.operation in ("topdress", "incorporate") or bool(draft.strips)


def fits_in_one_go(days: DaySet, duration_days: int) -> bool:
    """Whether so many working days ever lie on end."""
    return _longest_run(days) >= duration_days


@lru_cache(maxsize=64)
def _longest_run(days: DaySet) -> int:
    """The longest stretch of days on end in a set."""
    return max((end - start + 1 for start, end in days.ranges), default=0)


def _windows(setting: ResolvedLawn, campaign: Campaign, draft: Draft) -> list[Allowed]:
    operation = draft.operation
    if operation in COLLECTIVES["spreading"]:
        window = campaign.sessions[draft.session - 1].window
        return _held_open(draft, _window(draft, (window,), Strength.STRONG))
    if (operation in SOWING or operation == "plant") and campaign.sow_window:
        return _held_open(draft, _window(draft, (campaign.sow_window,), Strength.HARD))
    bound = setting.book.operations[operation].window
    if bound is None:
        return []
    windows = setting.open(operation)
    if operation in ("core_aerate", "dethatch") and 0 < draft.session <= len(campaign.sessions):
        # What opens the turf for a pass is filled within days: it may come as soon as the pass may.
        windows = (*windows, campaign.sessions[draft.session - 1].window)
    if draft.window is not None:
        first, last = (date.fromordinal(day) for day in draft.window)
        windows = tuple(
            replace(w, start=first, end=last) for w in windows if w.start <= first and last <= w.end
        )
    return [_window(draft, windows, Strength[bound.upper()])] if windows else []


def days_in_time(
    setting: ResolvedLawn, campaign: Campaign, drafts: Sequence[Draft]
) -> tuple[Allowed, ...]:
    """The good days, then the safe ones, of what is sown or planted, then of what is spread."""
    sow = campaign.sow_window
    found: list[Allowed] = []
    for draft in drafts:
        if sow is not None and (draft.operation in SOWING or draft.operation == "plant"):
            found[:0] = in_time(setting, draft.end_node, sow)
        elif draft.operation in COLLECTIVES["spreading"]:
            window = campaign.sessions[draft.session - 1].window
            found += in_time(setting, draft.end_node, window)
    return tuple(found)


def _held_open(draft: Draft, window: Allowed) -> list[Allowed]:
    """A window that holds on the last day of a job as on its first."""
    if draft.duration_days == 1:
        return [window]
    last = replace(window, id=f"{window.id}:last", node=draft.end_node, opens=False)
    return [window, last]


def _window(draft: Draft, windows: Sequence[OpenDays], strength: Strength) -> Allowed:
    reasons = tuple(dict.fromkeys(w.reason for w in windows))
    text = (
        reasons[0]
        if len(reasons) == 1
        else phrases.either_window(windows=listed(reasons, "or_sentences"))
    )
    facts = tuple(dict.fromkeys(f for w in windows for f in w.facts))
    reason = Reason(f"window.{windows[0].rule or draft.operation}", text, facts)
    days = DaySet.of((w.start.toordinal(), w.end.toordinal()) for w in windows)
    return Allowed(f"window:{draft.id}", draft.start_node, days, strength, reason, opens=True)


def _watering_people(setting: ResolvedLawn, draft: Draft) -> list[Allowed]:
    """Seed is not sown while nobody can water through the first weeks."""
    by_nobody = setting.brief.calendar.away and by_hand(setting.brief.water)
    if draft.operation == "dormant_seed" or not by_nobody:
        return []
    days = round(setting.book.si("seeding.watering_commitment"))
    blocked = [(s.start.toordinal() - days, s.end.toordinal()) for s in setting.brief.calendar.away]
    free = DaySet.from_days(
        d
        for d in range(setting.first_day, setting.last_day + 1)
        if not any(a <= d <= b for a, b in blocked)
    )
    reason = Reason(
        "seed.somebody_waters",
        phrases.somebody_waters(n=days),
        ("seeding.watering_commitment",),
    )
    return [Allowed(f"away:{draft.id}", draft.start_node, free, Strength.HARD, reason)]


def _rooting_at_home(setting: ResolvedLawn, draft: Draft) -> list[Allowed]:
    """Turf is relaid, where its window leaves a choice, when nobody is away until it has rooted."""
    days = setting.days("water.rooting_days")
    away = setting.brief.calendar.away
    blocked = [(s.start.toordinal() - days, s.end.toordinal()) for s in away]
    if not blocked or setting.brief.water.possible is False:
        return []
    free = without(DaySet.of([(setting.first_day, setting.last_day)]), blocked)
    reason = Reason(
        "relaid.somebody_waters", phrases.relaid_watched(n=days), ("water.rooting_days",)
    )
    return [Allowed(f"away:{draft.id}", draft.end_node, free, Strength.ADVICE, reason)]


def _watering_bans(setting: ResolvedLawn, draft: Draft) -> list[Allowed]:
    """Nothing is sown or planted whose first weeks would fall into a watering ban."""
    if draft.operation == "dormant_seed" or not setting.openings.no_sowing:
        return []
    free = without(DaySet.of([(setting.first_day, setting.last_day)]), setting.openings.no_sowing)
    reason = Reason("seed.watering_ban", phrases.watering_ban())
    return [Allowed(f"ban:{draft.id}", draft.start_node, free, Strength.HARD, reason)]


def _rain_alone(setting: ResolvedLawn, draft: Draft) -> list[Allowed]:
    """Where nobody waters, seed and plants go in only while rain keeps them wet."""
    if draft.operation == "dormant_seed" or not setting.openings.too_dry:
        return []
    free = without(DaySet.of([(setting.first_day, setting.last_day)]), setting.openings.too_dry)
    reason = Reason("seed.rain_alone", phrases.rain_alone(), RAIN_FACTS)
    return [Allowed(f"rain:{draft.id}", draft.start_node, free, Strength.HARD, reason)]


def _dry_turf(setting: ResolvedLawn, draft: Draft) -> list[Allowed]:
    """Turf that nobody waters, or may water, is cut low, opened, lifted and covered while rain lets
    it grow."""
    if not setting.openings.dry_turf or not setting.book.operations[draft.operation].plays(
        *OPENED_OR_COVERED
    ):
        return []
    free = without(DaySet.of([(setting.first_day, setting.last_day)]), setting.openings.dry_turf)
    nobody = setting.brief.water.possible is False
    told = phrases.turf_on_rain() if nobody else phrases.turf_in_ban()
    reason = Reason("turf.on_rain" if nobody else "turf.in_ban", told, GROWS_FACTS)
    return [Allowed(f"dry_turf:{draft.id}", draft.start_node, free, Strength.STRONG, reason)]


def _of_past(setting: ResolvedLawn, draft: Draft) -> list[Allowed]:
    """The days that seedlings of an earlier sowing, moss that was treated, or a cause that was
    found alive leave to a task."""
    found = []
    for number, rest in enumerate(rests(setting, draft), 1):
        day, strength, reason = rest
        days = DaySet.of([(max(day, setting.first_day), max(day, setting.last_day))])
        found.append(Allowed(f"past.{number}:{draft.id}", draft.start_node, days, strength, reason))
    return found


def _herbicide_holds(setting: ResolvedLawn, draft: Draft) -> list[Allowed]:
    """The days that a weed killer, by its active ingredient, asks for before seed may follow."""
    return [
        Allowed(
            f"herbicide.{hold.key}.{hold.number}:{draft.id}",
            draft.start_node,
            DaySet.of([(max(hold.until, setting.first_day), setting.last_day)]),
            Strength.HARD,
            Reason("seed.herbicide_hold", hold.why, hold.facts),
        )
        for hold in setting.holds
        if hold.until is not None
    ]
