"""Writes the page of what many lawns buy: by supplier, with loads, days, and who shares them."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from turfplan.business.client_record import Client
from turfplan.business.material import MaterialLoad, MovedDelivery
from turfplan.export.sheets.look import Look, Paper, plain_name
from turfplan.export.templates import render, stylesheet
from turfplan.message import Message, Sold, listed
from turfplan.messages import Words
from turfplan.phrases import material as phrases
from turfplan.units import us_twin

# Shares are told so finely.
_DECIMALS = 2


@dataclass(frozen=True, slots=True)
class LoadView:
    """A load in words: what, how much, when to order it, when it comes, where to, for whom.

    `drops` are the addresses of a load that goes to lawns, in the order of its shares.
    """

    material: str
    amount: str
    order_by: str
    deliver_on: str
    to: str
    shares: str
    left: str
    late: str
    estimate: str
    drops: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SupplierView:
    """A supplier with its loads, and the deliveries of which it was told another day."""

    name: str
    loads: tuple[LoadView, ...]
    moved: tuple[str, ...]


def material_html(
    business: str,
    suppliers: Sequence[SupplierView],
    made: date,
    words: Words,
    paper: Paper,
) -> str:
    """The page as one that stands alone, a section for each supplier."""
    return render(
        "print/material.html.jinja",
        words,
        look=Look(paper, False, stylesheet()),
        business=plain_name(business, words),
        suppliers=suppliers,
        made=words.day(made, weekday=False),
    )


def supplier_views(
    loads: Sequence[MaterialLoad],
    moved: Sequence[MovedDelivery],
    clients: Mapping[str, Client],
    words: Words,
) -> tuple[SupplierView, ...]:
    """Loads, by the day on which to order them, and moved deliveries, by supplier; those without
    one stand last."""
    by_order = sorted(loads, key=lambda load: (load.order_by, load.deliver_on))
    names = {load.supplier for load in loads} | {one.supplier for one in moved}
    return tuple(
        SupplierView(
            plain_name(name, words) if name else words.text(phrases.no_supplier()),
            tuple(load_view(one, clients, words) for one in by_order if one.supplier == name),
            tuple(words.text(moved_text(one)) for one in moved if one.supplier == name),
        )
        for name in sorted(names, key=lambda name: (name is None, name or ""))
    )


def load_view(load: MaterialLoad, clients: Mapping[str, Client], words: Words) -> LoadView:
    """A load in words; of clients only the addresses to which something is brought."""
    drops: tuple[str, ...] = ()
    if load.is_load and not load.to_yard:
        lawns = dict.fromkeys(share.lawn for share in load.shares)
        drops = tuple(
            f"{lawn}: {plain_name(address, words)}"
            for lawn in lawns
            if (address := _address(clients.get(lawn)))
        )
    shares = [phrases.share(lawn=one.lawn, amount=_sold(one.value, load)) for one in load.shares]
    return LoadView(
        material=load.name,
        amount=words.value(_sold(load.value, load)),
        order_by=words.day(load.order_by),
        deliver_on=words.day(load.deliver_on),
        to=words.text(_place(load)),
        shares=words.value(listed(shares, "semicolon")),
        left=words.value(_sold(load.left, load)) if round(load.left, _DECIMALS) else "",
        late=words.text(phrases.late()) if load.late else "",
        estimate=words.text(phrases.estimate()) if load.estimate else "",
        drops=drops,
    )


def moved_text(moved: MovedDelivery) -> Message:
    """A delivery of which its supplier was told another day."""
    told, name = moved.told.isoformat(), moved.name
    if moved.now is None:
        return phrases.not_wanted(lawn=moved.lawn, material=name, told=told)
    now = moved.now.isoformat()
    return phrases.moved(lawn=moved.lawn, material=name, told=told, now=now)


def _address(client: Client | None) -> str | None:
    return client.address if client is not None else None


def _place(load: MaterialLoad) -> Message:
    if not load.is_load:
        return phrases.to_fetch()
    return phrases.to_yard() if load.to_yard else phrases.to_lawn()


def _sold(value: float, load: MaterialLoad) -> Sold:
    value_us, unit_us = us_twin(value, load.unit)
    return Sold(round(value, _DECIMALS), load.unit, round(value_us, _DECIMALS), unit_us)
