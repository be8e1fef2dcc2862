"""What is bought, at the prices that a brief gives: nothing else has a cost."""

from collections.abc import Iterable, Mapping
from typing import Final

from turfplan.records.brief import Prices
from turfplan.records.items import OrderItem
from turfplan.records.plan import OrderLine

# The price of each thing by its name in the brief; what is not here is sold in sizes that nobody
# knows.
PRICED: Final[Mapping[OrderItem, str]] = {
    "mix": "mix_per_m3",
    "topsoil": "topsoil_per_m3",
    "sprigs": "sprigs_per_m3",
    "seed": "seed_per_kg",
    "lime": "lime_per_kg",
    "sod": "sod_per_m2",
    "plugs": "plug",
    "straw": "bale",
    "machine": "hire",
}
CENTS = 2
NO_PRICES = Prices()


def priced(lines: Iterable[OrderLine], prices: Prices) -> tuple[OrderLine, ...]:
    """The lines with what they cost, as far as their prices are given; loads cost what it takes to
    bring them, where that is given.
    """
    return tuple(_with_cost(line, prices) for line in lines)


def _with_cost(line: OrderLine, prices: Prices) -> OrderLine:
    name = PRICED.get(line.item)
    price = getattr(prices, name) if name is not None else None
    if price is None:
        return line
    cost = line.value * price + len(line.loads) * (prices.load or 0.0)
    return line.model_copy(update={"cost": round(cost, CENTS)})
