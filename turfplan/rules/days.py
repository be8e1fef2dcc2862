"""Which days a task may take: days off for work, delivery days, and the open windows of its operation."""

from collections.abc import Iterable, Sequence
from datetime import date
from functools import lru_cache

from turfplan.agronomy import Herbicide
from turfplan.brief import HerbicideUse
from turfplan.constraints import Allowed, Days, DaySet, Lag, Reason, Strength
from turfplan.rules.campaign import Campaign
from turfplan.rules.draft import Draft, OpenDays
from turfplan.rules.order import SOWING
from turfplan.rules.setting import Setting, without
from turfplan.rules.steps import span_step
from turfplan.wording import day_text

WORK_DAYS = "calendar.work_days"
# Operations bound to a window, with how hard it binds. What is missing here is bound by its order of work alone.
_WINDOW_STRENGTH = {
    "dethatch": Strength.STRONG,
    "core_aerate": Strength.ADVICE,
    "lift_and_fill": Strength.ADVICE,
    "soil_test": Strength.ADVICE,
    "weed_control": Strength.ADVICE,
    "preemergent": Strength.STRONG,
    "last_mow": Strength.STRONG,
    "spring_transition": Strength.STRONG,
    "settle_check": Strength.ADVICE,
    "touch_up": Strength.STRONG,
}


def day_constraints(setting: Setting, campaign: Campaign, drafts: Sequence[Draft]) -> tuple[Allowed | Lag, ...]:
    """Every constraint on the days of single tasks, and the length of those that take more than one working day."""
    found: list[Allowed | Lag] = []
    for draft in drafts:
        found += _calendar(setting, draft)
        found += _windows(setting, campaign, draft)
        if draft.operation in SOWING or draft.operation == "plant":
            found += _watering_people(setting, draft)
            found += _watering_bans(setting, draft)
            found += _herbicide_holds(setting, draft)
    return tuple(found)


def _calendar(setting: Setting, draft: Draft) -> list[Allowed | Lag]:
    delivery = draft.operation == "delivery"
    days = setting.delivery_days if delivery else setting.work_days
    why = (
        "The supplier delivers, and somebody is there, on certain days only."
        if delivery and setting.brief.delivery.allowed_weekdays
        else "Work is possible on your working days only."
    )
    reason = Reason(WORK_DAYS, why)
    found: list[Allowed | Lag] = [Allowed(f"work_days:{draft.id}", draft.start_node, days, Strength.HARD, reason)]
    if draft.duration_days > 1:
        step = span_step(days, setting.first_day, setting.last_day, draft.duration_days)
        words = f"The work takes {draft.duration_days} working days."
        if _longest_run(days) >= draft.duration_days:
            together = Reason(
                "work.in_one_go", "What is begun is finished on the days that follow, so that nothing lies half spread."
            )
            most = Days(draft.duration_days - 1)
            found.append(
                Lag(f"in_one_go:{draft.id}", draft.start_node, draft.end_node, Strength.STRONG, together, maximum=most)
            )
        found.append(
            Lag(
                f"length:{draft.id}",
                draft.start_node,
                draft.end_node,
                Strength.HARD,
                Reason("work.length", words),
                step,
                step,
            )
        )
    return found


@lru_cache(maxsize=64)
def _longest_run(days: DaySet) -> int:
    """The longest stretch of days on end in a set."""
    return max((end - start + 1 for start, end in days.ranges), default=0)


def _allow(draft: Draft, name: str, ranges: Iterable[tuple[date, date]], strength: Strength, reason: Reason) -> Allowed:
    days = DaySet.of((a.toordinal(), b.toordinal()) for a, b in ranges)
    return Allowed(f"{name}:{draft.id}", draft.start_node, days, strength, reason)


def _windows(setting: Setting, campaign: Campaign, draft: Draft) -> list[Allowed]:
    operation = draft.operation
    if operation == "topdress":
        window = campaign.sessions[draft.session - 1].window
        return [_window(draft, (window,), Strength.STRONG)]
    if (operation in SOWING or operation == "plant") and campaign.sow_window:
        return [_window(draft, (campaign.sow_window,), Strength.HARD)]
    if operation == "feed_nitrogen" or operation not in _WINDOW_STRENGTH:
        return []
    windows = setting.open(operation)
    if operation in ("core_aerate", "dethatch") and 0 < draft.session <= len(campaign.sessions):
        # What opens the turf for a pass is filled within days: it may come as soon as the pass may.
        windows = (*windows, campaign.sessions[draft.session - 1].window)
    if draft.window is not None:
        windows = tuple(w for w in windows if (w.start.toordinal(), w.end.toordinal()) == draft.window)
    return [_window(draft, windows, _WINDOW_STRENGTH[operation])] if windows else []


def _window(draft: Draft, windows: Sequence[OpenDays], strength: Strength) -> Allowed:
    text = (
        windows[0].reason
        if len({w.reason for w in windows}) == 1
        else " Or: ".join(dict.fromkeys(w.reason for w in windows))
    )
    facts = tuple(dict.fromkeys(f for w in windows for f in w.facts))
    reason = Reason(f"window.{windows[0].rule or draft.operation}", text, facts)
    return _allow(draft, "window", ((w.start, w.end) for w in windows), strength, reason)


def _watering_people(setting: Setting, draft: Draft) -> list[Allowed]:
    """Seed is not sown while nobody can water through the first weeks."""
    if draft.operation == "dormant_seed" or not setting.brief.calendar.away:
        return []
    weeks = round(setting.book.si("seeding.watering_commitment"))
    blocked = [(s.start.toordinal() - weeks, s.end.toordinal()) for s in setting.brief.calendar.away]
    free = DaySet.from_days(
        d for d in range(setting.first_day, setting.last_day + 1) if not any(a <= d <= b for a, b in blocked)
    )
    reason = Reason(
        "seed.somebody_waters",
        f"Somebody must water for {weeks} days from seeding: seed that has swollen and dries out is dead.",
        ("seeding.watering_commitment",),
    )
    return [Allowed(f"away:{draft.id}", draft.start_node, free, Strength.HARD, reason)]


def _watering_bans(setting: Setting, draft: Draft) -> list[Allowed]:
    """Nothing is sown or planted whose first weeks would fall into a watering ban."""
    if draft.operation == "dormant_seed" or not setting.no_sowing:
        return []
    free = without(DaySet.of([(setting.first_day, setting.last_day)]), setting.no_sowing)
    words = "A watering ban would fall into the weeks in which the young grass must be watered."
    return [Allowed(f"ban:{draft.id}", draft.start_node, free, Strength.HARD, Reason("seed.watering_ban", words))]


def _herbicide_holds(setting: Setting, draft: Draft) -> list[Allowed]:
    """The days that a weed killer, by its active ingredient, asks for before seed may follow."""
    found = []
    for number, use in enumerate(setting.brief.history.herbicides, 1):
        key = use.active_ingredient.strip().lower().replace(" ", "_").replace("-", "_")
        hold, words, facts = _hold(setting, use, setting.book.herbicides.get(key))
        until = use.on.toordinal() + hold
        days = DaySet.of([(max(until, setting.first_day), setting.last_day)])
        found.append(
            Allowed(
                f"herbicide.{key}.{number}:{draft.id}",
                draft.start_node,
                days,
                Strength.HARD,
                Reason("seed.herbicide_hold", words, facts),
            )
        )
    return found


def _hold(setting: Setting, use: HerbicideUse, known: Herbicide | None) -> tuple[int, str, tuple[str, ...]]:
    """The days that a treatment keeps free of seed, with a sentence and its facts; of what harms the grass no interval is known."""
    book, grass, used = setting.book, setting.sown, f"{use.active_ingredient} of {day_text(use.on, setting.system)}"
    harmed = next((h.source for h in known.harms if h.grass == grass.id), None) if known is not None else None
    name = f"herbicides.{known.id}.hold" if known is not None and harmed is None else "herbicides.unknown.hold"
    hold = round(book.fact(name).high_si)
    weeks = f"{hold // 7} weeks"
    if known is None:
        return (
            hold,
            f"{use.active_ingredient} is not in the book: {weeks} are kept free of seed; read the label.",
            (name,),
        )
    if harmed is not None:
        words = (
            f"{used} harms young {grass.name} ({book.said_by(harmed)}), and no interval is published for it: {weeks} are "
            "kept free of it, the longest of any preventer; the label decides if it says longer, or never."
        )
        return hold, words, (name,)
    return hold, f"{used} keeps seed from growing for about {weeks}; the label decides if it says longer.", (name,)
