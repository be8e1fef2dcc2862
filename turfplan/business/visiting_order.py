"""Puts lawns in the order in which they are gone to: by a column, or by where they lie."""

import re
from collections.abc import Mapping
from math import cos, hypot, radians
from typing import TypeVar

from turfplan.business.business_record import Yard
from turfplan.business.client_record import Client

Key = TypeVar("Key")
_HOUSE_NUMBER = re.compile(r"([0-9]+)(.*)")
PlacePoint = tuple[float, float]


def in_order_of_column(clients: Mapping[Key, Client], column: str) -> list[Key]:
    """The clients by what stands in a column of the business's own, numbers as numbers; those with
    nothing there last."""
    asked = column.casefold()

    def rank(key: Key) -> tuple[bool, bool, float, str]:
        own = clients[key].own.items()
        value = next((cell.strip() for name, cell in own if name.casefold() == asked), "")
        number = value.isascii() and value.isdigit()
        return not value, not number, float(value) if number else 0.0, value.casefold()

    return sorted(clients, key=rank)


def in_order_of_place(clients: Mapping[Key, Client], yard: Yard | None = None) -> list[Key]:
    """The clients as one comes to them: always the nearest next, from the yard, else from the first
    that has a point. Those without coordinates follow by their addresses: street by street, the
    numbers of houses as numbers."""
    points = {
        key: (client.latitude, client.longitude)
        for key, client in clients.items()
        if client.latitude is not None and client.longitude is not None
    }
    rest = sorted(
        (key for key in clients if key not in points),
        key=lambda key: _by_street(clients[key].address or ""),
    )
    found: list[Key] = []
    here = None
    if yard is not None and yard.latitude is not None and yard.longitude is not None:
        here = (yard.latitude, yard.longitude)
    while points:
        near = next(iter(points))
        if here is not None:
            at = here
            near = min(points, key=lambda key: _apart(at, points[key]))
        here = points.pop(near)
        found.append(near)
    return [*found, *rest]


def _by_street(address: str) -> tuple[str, tuple[tuple[int, str], ...]]:
    """What sorts addresses: the words of the street, then the numbers, wherever a country has them
    (`10 Oak Rd`, `Eichenweg 10 b`)."""
    words = address.casefold().replace(",", " ").split()
    street = " ".join(word for word in words if not word[0].isdigit())
    numbers = tuple(
        (int(found.group(1)), found.group(2))
        for word in words
        if (found := _HOUSE_NUMBER.match(word)) is not None
    )
    return street, numbers


def _apart(one: PlacePoint, other: PlacePoint) -> float:
    """How far apart two near points are, in degrees of latitude."""
    north = one[0] - other[0]
    east = (one[1] - other[1]) * cos(radians((one[0] + other[0]) / 2))
    return hypot(north, east)
