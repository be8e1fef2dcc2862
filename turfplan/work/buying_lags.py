"""What binds the tasks of buying: the days that a grower, a yard or a shop needs, and what comes
before anything is bought.

What waits for the goods moves with them.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final, cast

from turfplan.phrases import buying as phrases
from turfplan.phrases import doubts as doubt_phrases
from turfplan.records.book_names import FactName, PlantForm
from turfplan.records.constraints import DayStep, Lag, Reason, Strength
from turfplan.records.fact_names import GroupFact
from turfplan.work.drafts import Draft
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.phases.doubts import look_of

PLANTS_LEAD: Final = "delivery.plants_lead"
# The soil tests whose answer may change what is bought.
SAMPLES: Final = ("soil_test", "soil_test.topsoil")
_ANSWERED: Final = (phrases.estimate_soil(), phrases.estimate_test())
KEEPS: Mapping[PlantForm, GroupFact] = MappingProxyType(
    {
        "sod": "planting.keeps_sod",
        "plugs": "planting.keeps_plugs",
        "sprigs": "planting.keeps_sprigs",
    }
)


@dataclass(frozen=True, slots=True)
class _Binding:
    """How what is bought binds what it is bought for: days at least and at most between them."""

    reason: Reason
    least: int | None = 0
    most: int | None = None
    strength: Strength = Strength.HARD


def buying_lags(setting: ResolvedLawn, drafts: Iterable[Draft]) -> list[Lag]:
    """What is ordered, reserved or fetched comes before what it is for, with the days that takes;
    seed and plants come after the look for a cause and the permit, and what the soil test may
    change after its answer, where there is time for it."""
    by_id = {draft.id: draft for draft in drafts}
    lags: list[Lag] = []
    for draft in by_id.values():
        users = [by_id[name] for name in draft.buys_for if name in by_id]
        for bound in _bindings(setting, draft):
            lags += [_lag(draft, user, bound) for user in users]
        ordered = by_id.get(f"order_material.{draft.key}") if _of_plants(draft) else None
        if draft.operation == "delivery" and ordered is not None:
            reason = Reason("buying.plants_lead", phrases.grower_needs(), (PLANTS_LEAD,))
            lags.append(_lag(ordered, draft, _Binding(reason, setting.days(PLANTS_LEAD))))
        if draft.operation == "call" and not draft.hired:
            for ordered in _orders_of(users, by_id.values()):
                reason = Reason("buying.confirmed", phrases.ordered_first())
                lags.append(_lag(ordered, draft, _Binding(reason, strength=Strength.STRONG)))
        for before, bound in _awaited(setting, draft, by_id.values()):
            lags.append(_lag(before, draft, bound))
    return lags


def _orders_of(deliveries: Iterable[Draft], drafts: Iterable[Draft]) -> Iterator[Draft]:
    """The orders that ask for some loads."""
    loads = {delivery.load for delivery in deliveries if delivery.load is not None}
    return (d for d in drafts if d.operation == "order_material" and loads.intersection(d.loads))


def awaits_answer(draft: Draft) -> bool:
    """Whether the answer of a soil test may change what a task buys."""
    return draft.estimate in _ANSWERED


def wished_ahead(
    setting: ResolvedLawn, drafts: Sequence[Draft], days: Mapping[str, int]
) -> dict[str, int]:
    """The wished day of each task of buying once what it is for has its day: so many days before
    the first of its jobs, but not before the answer of a soil test that may change what is
    bought. `days` are those of the network's nodes."""
    sampled = [days[d.end_node] for d in drafts if d.id in SAMPLES and d.end_node in days]
    answer = max(sampled, default=0) + setting.days("order.soil_test_lead")
    wishes = {}
    for draft in drafts:
        used = [days[name] for name in draft.buys_for if name in days]
        if used:
            ahead = max(setting.first_day, min(used) + draft.offset)
            wishes[draft.id] = max(ahead, answer) if sampled and awaits_answer(draft) else ahead
    return wishes


def _awaited(
    setting: ResolvedLawn, draft: Draft, drafts: Iterable[Draft]
) -> Iterator[tuple[Draft, _Binding]]:
    """What a task of buying is better done after."""
    of_new_grass = draft.id == "collect.seed" or (
        draft.operation == "order_material" and _of_plants(draft)
    )
    answered, look = awaits_answer(draft), look_of(draft.estimate)
    for other in drafts if of_new_grass or answered or look else ():
        if other.id == look:
            reason = Reason("buying.after_look", doubt_phrases.first())
            yield other, _Binding(reason, 1, strength=Strength.PREFERENCE)
        if of_new_grass and other.operation == "diagnose":
            reason = Reason("buying.after_cause", phrases.cause_first())
            yield other, _Binding(reason, strength=Strength.ADVICE)
        elif of_new_grass and other.id == "permit":
            lead: FactName = "order.permit_lead"
            reason = Reason("buying.after_permit", phrases.permit_first(), (lead,))
            yield other, _Binding(reason, setting.days(lead), strength=Strength.PREFERENCE)
        elif answered and other.id in SAMPLES:
            reason = Reason("buying.after_sample", phrases.answer_first())
            yield other, _Binding(reason, strength=Strength.PREFERENCE)


def _bindings(setting: ResolvedLawn, draft: Draft) -> Iterator[_Binding]:
    """How a task of buying binds those that it buys for; an order of plants binds their delivery
    alone. Where days are short, a call asks for as many as it can have."""
    if draft.operation == "collect":
        yield _Binding(Reason("buying.fetched", phrases.fetched_first()))
    elif draft.operation == "delivery" and _of_plants(draft):
        keeps = KEEPS[cast(PlantForm, draft.key)]
        reason = Reason("buying.plants_fresh", phrases.plants_fresh(), (keeps,))
        yield _Binding(reason)
        fresh = Reason("buying.plants_keep", phrases.plants_fresh(), (keeps,))
        yield _Binding(fresh, None, setting.days(keeps), Strength.ADVICE)
    elif draft.operation == "call":
        if (draft.key or "").rpartition(".")[2] in KEEPS:
            grown = Reason("buying.plants_lead", phrases.grower_needs(), (PLANTS_LEAD,))
            yield _Binding(grown, setting.days(PLANTS_LEAD))
        lead: FactName = "delivery.hire_lead" if draft.hired else "delivery.confirm_lead"
        why = phrases.hired_first() if draft.hired else phrases.confirmed()
        if draft.hired and draft.urgent:
            # Work that waits again is not put off by the days that a shop would like to have.
            yield _Binding(Reason("buying.called", why), 1, strength=Strength.STRONG)
            return
        yield _Binding(Reason("buying.called", why), strength=Strength.STRONG)
        ahead = Reason("buying.called_ahead", why, (lead,))
        yield _Binding(ahead, setting.days(lead), strength=Strength.PREFERENCE)


def _lag(before: Draft, after: Draft, bound: _Binding) -> Lag:
    """What a binding asks of two tasks."""
    name, ends = f"{bound.reason.rule}:{before.id}>{after.id}", (before.end_node, after.start_node)
    least = None if bound.least is None else DayStep(bound.least)
    most = None if bound.most is None else DayStep(bound.most)
    return Lag(name, *ends, bound.strength, bound.reason, least, most)


def _of_plants(draft: Draft) -> bool:
    """Whether a task orders or receives sod, plugs or sprigs."""
    return bool(draft.buys_for) and draft.key in KEEPS
