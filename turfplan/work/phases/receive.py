"""Receiving the mix: each load is ordered, taken in, and kept dry until it is spread."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Final

from turfplan.book.words import book_message
from turfplan.message import Number, Quantity
from turfplan.phrases import ground_fill as of_ground
from turfplan.phrases import level as phrases
from turfplan.records.book_names import of_material
from turfplan.work.bags import car_trips, in_bags
from turfplan.work.days_off import on_sundays_alone, somebody_there
from turfplan.work.drafts import Draft, Load
from turfplan.work.labour import hours_of_trucks, working_days
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.mix_choice import blend_of, mix_parts
from turfplan.work.operations import PREPARE, SURFACE, Extent, Timing, Wording, handled, make
from turfplan.work.phases.prepare import orders_of

# The soil of lifted hollows is a load of its own, beside those of the mix, which count from 1.
LIFTING: Final = "lifting"
SOIL_LOAD = 0


def with_loads(
    setting: ResolvedLawn, drafts: Sequence[Draft], loads: Sequence[Load]
) -> list[Draft]:
    """The drafts, each pass with its loads, and what orders, receives and keeps each load."""
    orders = orders_of(setting, loads)
    if setting.on_open_ground:
        # The soil of the lifts is received with them.
        fetched = {load.number for load in loads if load.bags}
        received = [
            _in_bags(setting, draft, mix_parts(setting))
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
    lifts = [d for d in drafts if d.operation == "lift_and_fill"]
    return [
        *passes,
        *orders,
        *(draft for load in loads for draft in _load(setting, load)),
        *(draft for lift in lifts for draft in _soil_of(setting, lift)),
    ]


def _soil_of(setting: ResolvedLawn, lift: Draft) -> list[Draft]:
    """Ordering and receiving the soil of the hollows: as moist as it is firmed, never bone dry."""
    if in_bags(setting, lift.loose_m3):
        fetched = _soil_received(setting, lift, Wording(phrases.soil()))
        return [_in_bags(setting, fetched, {"topsoil": 1.0})]
    spot = book_message(setting.book, "operations.order_material.how.2")
    ordered = make(
        setting,
        "order_material",
        LIFTING,
        timing=Timing(
            PREPARE,
            anchor=f"delivery.{LIFTING}",
            offset=-(setting.labour.lead_days + setting.days("wish.order_ahead")),
        ),
        wording=Wording(of_ground.order(), how=(of_ground.order_ask(), spot)),
    )
    tip = book_message(setting.book, "operations.delivery.how.2")
    wording = Wording(
        phrases.soil(),
        how=(of_ground.delivery_look(), tip),
        go=of_ground.delivery_go(),
        fallback=of_ground.delivery_fallback(),
    )
    return [replace(ordered, loads=(SOIL_LOAD,)), _soil_received(setting, lift, wording)]


def _soil_received(setting: ResolvedLawn, lift: Draft, wording: Wording) -> Draft:
    received = make(
        setting,
        "delivery",
        LIFTING,
        timing=Timing(SURFACE, anchor=lift.id, offset=-1),
        wording=wording,
        extent=Extent(loose_m3=lift.loose_m3, more_hours=hours_of_trucks(setting, lift.loose_m3)),
    )
    # Soil is brought, whatever the mix of the passes holds.
    mix, soil = (
        book_message(setting.book, f"cautions.{name}.text") for name in ("lifting", "lifting_soil")
    )
    cautions = tuple(soil if caution == mix else caution for caution in received.cautions)
    return replace(received, load=SOIL_LOAD, cautions=cautions)


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
        wording=replace(
            _of_delivery(setting), cautions=() if load.bags else somebody_there(setting)
        ),
        extent=Extent(loose_m3=load.loose_m3, more_hours=hours_of_trucks(setting, load.loose_m3)),
    )
    if load.bags:
        return [_in_bags(setting, replace(received, load=load.number), mix_parts(setting))]
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


def _in_bags(setting: ResolvedLawn, received: Draft, parts: Mapping[str, float]) -> Draft:
    """The receiving of a load as an errand to a shop, as often as the car must go."""
    trips = car_trips(setting, parts, received.loose_m3)
    hours = setting.book.si("labour.delivery") / 60 * trips
    own_soil = received.load == SOIL_LOAD
    several = sum(share > 0 for share in parts.values()) > 1
    opened = phrases.bags_mix(blend=blend_of(setting.book, parts)) if several else None
    kept = () if own_soil else (opened or phrases.bags_open(),)
    if on_sundays_alone(setting.calendar.errands):
        kept = (phrases.bags_sunday(), *kept)
    if trips > setting.book.si("delivery.trips_most"):
        kept = (phrases.bags_bulk(volume=Quantity(received.loose_m3, "volume", "up")), *kept)
    return replace(
        received,
        why=phrases.soil_bags() if own_soil else phrases.bags(),
        how=(phrases.bags_shop(), phrases.bags_trips(n=trips), *kept),
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
