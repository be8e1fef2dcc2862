"""Receiving the mix: each load is ordered, taken in, and kept dry until it is spread."""

from collections.abc import Sequence
from dataclasses import replace

from turfplan.book.words import book_message
from turfplan.message import Number
from turfplan.phrases import level as phrases
from turfplan.records.book_names import of_material
from turfplan.work.bags import car_trips
from turfplan.work.drafts import Draft, Load
from turfplan.work.heap import too_large
from turfplan.work.labour import hours_of_trucks, working_days
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.mix_choice import mix_parts
from turfplan.work.operations import PREPARE, SURFACE, Extent, Timing, Wording, handled, make
from turfplan.work.phases.prepare import orders_of


def with_loads(
    setting: ResolvedLawn, drafts: Sequence[Draft], loads: Sequence[Load]
) -> list[Draft]:
    """The drafts, each pass with its loads, and what orders, receives and keeps each load."""
    orders = orders_of(setting, loads)
    if setting.on_open_ground:
        # The soil of the lifts is received with them.
        fetched = {load.number for load in loads if load.bags}
        received = [
            _in_bags(setting, draft)
            if draft.operation == "delivery" and draft.position in fetched
            else draft
            for draft in drafts
        ]
        return [*received, *orders]
    served = {
        p: tuple(load.number for load in loads if p in load.passes and load.strips is None)
        for load in loads
        for p in load.passes
    }
    passes = [
        replace(d, loads=served.get(d.position, ())) if d.operation == "topdress" else d
        for d in drafts
    ]
    return [*passes, *orders, *(draft for load in loads for draft in _load(setting, load))]


def _load(setting: ResolvedLawn, load: Load) -> list[Draft]:
    """Receiving and keeping dry of one load; closed bags keep dry by themselves."""
    key, anchor = str(load.number), f"topdress.{load.passes[0]}"
    later = load.strips is not None and load.strips[0] > 1
    wished = setting.days("wish.delivery")
    received = make(
        setting,
        "delivery",
        key,
        timing=Timing(
            SURFACE,
            session=load.session,
            position=load.number,
            anchor=anchor,
            offset=wished if later else -wished,
        ),
        wording=replace(_of_delivery(setting), cautions=too_large(setting, load)),
        extent=Extent(loose_m3=load.loose_m3, more_hours=hours_of_trucks(setting, load.loose_m3)),
    )
    if load.bags:
        return [_in_bags(setting, replace(received, load=load.number))]
    kept_dry = make(
        setting,
        "dry_material",
        key,
        timing=Timing(
            PREPARE, session=load.session, position=load.number, anchor=f"delivery.{key}", offset=1
        ),
        wording=_of_drying(setting),
    )
    return [replace(d, load=load.number) for d in (received, kept_dry)]


def _in_bags(setting: ResolvedLawn, received: Draft) -> Draft:
    """The receiving of a load as an errand to a shop, as often as the car must go."""
    trips = car_trips(setting, mix_parts(setting), received.loose_m3)
    hours = setting.book.si("labour.delivery") / 60 * trips
    return replace(
        received,
        why=phrases.bags(),
        how=(phrases.bags_shop(), phrases.bags_trips(n=trips), phrases.bags_mix()),
        go=phrases.bags_go(),
        fallback=phrases.bags_fallback(),
        name=phrases.bags_name(),
        bags=True,
        person_hours=round(hours, 2),
        duration_days=working_days(setting, hours),
    )


def _of_delivery(setting: ResolvedLawn) -> Wording:
    """How a load is looked at: compost is damp by nature, sand and soil are bone dry."""
    if "compost" not in handled(setting, "delivery"):
        return Wording(phrases.delivery())
    tip = book_message(setting.book, "operations.delivery.how.2")
    return Wording(
        phrases.compost_delivery(),
        how=(phrases.compost_look(), tip),
        go=phrases.compost_load_go(),
        fallback=phrases.compost_load_fallback(),
    )


def _of_drying(setting: ResolvedLawn) -> Wording:
    """How the mix is kept; the damp that compost keeps is not dried out of it."""
    if "compost" not in handled(setting, "dry_material"):
        return Wording(phrases.dry_material())
    damp = setting.book.fact(of_material("compost", "moisture"))
    heap = phrases.compost_heap(
        least=Number(damp.low_si, "percent"), most=Number(damp.high_si, "percent")
    )
    return Wording(
        phrases.dry_material(),
        title=phrases.compost_title(),
        how=(heap, phrases.compost_dry()),
        go=phrases.compost_go(),
        fallback=phrases.compost_fallback(),
    )
