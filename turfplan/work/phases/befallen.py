"""What has befallen a lawn: which work waits for it and how long, and when it is looked at."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from turfplan.message import Day, Message
from turfplan.phrases import befallen as phrases
from turfplan.records.book_names import FactName, OperationName
from turfplan.records.constraints import Allowed, DaySet, Reason, Strength
from turfplan.records.journal import EventName, SeedLoss
from turfplan.records.past import LawnEvent, SeedLost
from turfplan.records.plan_task import Role
from turfplan.work.drafts import Draft
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.operations import CARE, PREPARE, Timing, Wording, make

# What tears at grass, or lies on it.
_HARSH: tuple[Role, ...] = ("spreading", "mending", "low_cut", "thatching", "coring")
_SPRAYED: frozenset[OperationName] = frozenset({"weed_control", "preemergent"})
# The look at what has become of seed, which its new sowing follows.
LOST_SEED: Final = "lost_seed"
# The look at a heap that was wet, which its passes follow.
DRY: Final = "heap"


@dataclass(frozen=True, slots=True)
class _Kind:
    """What waits for an event, by roles and by operations that have none; how long, and why. `look`
    is the key of the look at its end."""

    rest: FactName
    why: Callable[..., Message]
    look: str
    roles: tuple[Role, ...]
    operations: frozenset[OperationName] = frozenset()


_KINDS: Mapping[EventName, _Kind] = MappingProxyType(
    {
        "tips_buried": _Kind("befallen.tips", phrases.tips_buried, "tips", _HARSH),
        "burned": _Kind(
            "befallen.burn",
            phrases.burned,
            "burn",
            (*_HARSH, "feeding"),
            frozenset({*_SPRAYED, "lime", "amend"}),
        ),
        "heat_stress": _Kind(
            "befallen.heat", phrases.heat_stress, "heat", (*_HARSH, "feeding"), _SPRAYED
        ),
        "sickness": _Kind("befallen.sickness", phrases.sickness, "sickness", (*_HARSH, "feeding")),
        "weed_killer": _Kind(
            "befallen.weed_killer", phrases.weed_killer, "label", ("sowing", "planting")
        ),
        "green_up": _Kind(
            "befallen.green_up",
            phrases.green_up,
            "green_up",
            (*_HARSH, "feeding"),
            frozenset({"weed_control", "spring_transition"}),
        ),
        "heap_wet": _Kind("befallen.heap", phrases.heap_wet, DRY, ("spreading",)),
    }
)


def held_until(setting: ResolvedLawn, event: LawnEvent) -> int:
    """The first day (an ordinal) on which what waits for an event may be done."""
    return event.on.toordinal() + setting.days(_KINDS[event.name].rest)


def look_id(name: EventName) -> str:
    """The id of the look at what an event has left."""
    return f"inspect.{_KINDS[name].look}"


def waits_for(setting: ResolvedLawn, draft: Draft, event: LawnEvent) -> bool:
    """Whether a task waits for an event. Seed has a starter, which goes with it."""
    kind, operation = _KINDS[event.name], setting.book.operations[draft.operation]
    if operation.plays("starter"):
        return False
    return operation.plays(*kind.roles) or draft.operation in kind.operations


def why_waits(event: LawnEvent) -> Message:
    """Why work waits for an event."""
    return _KINDS[event.name].why(day=Day(event.on))


def rest_from(setting: ResolvedLawn, draft: Draft, event: LawnEvent) -> Allowed:
    """What holds a task until an event has passed."""
    first, kind = held_until(setting, event), _KINDS[event.name]
    days = DaySet.of([(first, max(first, setting.last_day))])
    reason = Reason(f"befallen.{event.name}", why_waits(event), (kind.rest,))
    name = f"befallen:{event.name}:{draft.id}"
    return Allowed(name, draft.start_node, days, Strength.HARD, reason)


def look_at(setting: ResolvedLawn, event: LawnEvent) -> Draft:
    """The look at what an event has left, once its time is over; which weed killer it was is asked
    at once."""
    kind, on_rain = _KINDS[event.name], setting.brief.water.possible is False
    title, steps = _LOOKS[event.name]
    day = event.on.toordinal() if event.name == "weed_killer" else held_until(setting, event)
    return _look(
        setting, kind.look, day, Wording(why_waits(event), title=title, how=steps(on_rain)), CARE
    )


def look_at_lost(setting: ResolvedLawn, lost: SeedLost, why: Message) -> Draft:
    """The look at why seed was lost, on the next day."""
    title, steps = _LOST[lost.name]
    wording = Wording(why, title=title, how=steps)
    return _look(setting, LOST_SEED, lost.on.toordinal() + 1, wording, PREPARE)


def _look(setting: ResolvedLawn, key: str, day: int, wording: Wording, priority: int) -> Draft:
    told = Wording(
        wording.why,
        title=wording.title,
        how=wording.how,
        go=phrases.go(),
        fallback=phrases.fallback(),
    )
    ideal = max(day, setting.today.toordinal())
    timing = Timing(priority, session=-1, ideal=min(ideal, setting.last_day))
    return make(setting, "inspect", key, timing=timing, wording=told)


def _burned(on_rain: bool) -> tuple[Message, ...]:
    return (phrases.burned_sweep() if on_rain else phrases.burned_soak(), phrases.burned_look())


def _sick(on_rain: bool) -> tuple[Message, ...]:
    look = phrases.sickness_look_on_rain() if on_rain else phrases.sickness_look()
    return (look, phrases.sickness_ask())


def _hot(on_rain: bool) -> tuple[Message, ...]:
    return (phrases.heat_stress_look_on_rain() if on_rain else phrases.heat_stress_look(),)


_LOOKS: Mapping[EventName, tuple[Message, Callable[[bool], tuple[Message, ...]]]] = (
    MappingProxyType(
        {
            "tips_buried": (phrases.tips_buried_title(), lambda _: (phrases.tips_buried_look(),)),
            "burned": (phrases.burned_title(), _burned),
            "heat_stress": (phrases.heat_stress_title(), _hot),
            "sickness": (phrases.sickness_title(), _sick),
            "weed_killer": (
                phrases.weed_killer_title(),
                lambda _: (phrases.weed_killer_label(), phrases.weed_killer_pot()),
            ),
            "heap_wet": (phrases.heap_wet_title(), lambda _: (phrases.heap_wet_look(),)),
            "green_up": (phrases.green_up_title(), lambda _: (phrases.green_up_look(),)),
        }
    )
)
_LOST: Mapping[SeedLoss, tuple[Message, tuple[Message, ...]]] = MappingProxyType(
    {
        "germination": (
            phrases.not_up_title(),
            (phrases.not_up_scratch(), phrases.not_up_mend()),
        ),
        "seed_washed": (
            phrases.washed_title(),
            (phrases.washed_look(), phrases.washed_reserve()),
        ),
        "animals": (phrases.eaten_title(), (phrases.eaten_look(), phrases.washed_reserve())),
    }
)
