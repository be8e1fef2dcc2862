"""The closed names of what amounts are of, and of what is bought."""

from typing import Annotated, Literal

from pydantic import PlainValidator, WithJsonSchema

# What an amount is of.
AmountItem = Literal[
    "depth",
    "volume",
    "weight",
    "weight per area",
    "barrow loads",
    "seed rate",
    "seed",
    "seed held back",
    "sown area",
    "sod",
    "plugs",
    "sprigs",
    "straw",
    "mat",
    "pegs",
    "water",
    "water each time",
    "lime",
    "lime rate",
    "sulfur",
    "sulfur rate",
    "iron sulfate",
    "iron sulfate rate",
    "gypsum",
    "gypsum rate",
    "nitrogen",
    "nitrogen_total",
    "slow_nitrogen",
    "product_rate",
    "product",
    "phosphate",
    "potash",
    "potash to add",
    "potash to add in all",
    "phosphate to add",
    "phosphate to add in all",
    "used",
]
# Of these the unit is part of the name.
UNIT_IN_NAME: frozenset[AmountItem] = frozenset({"barrow loads"})
# What is bought.
OrderItem = Literal[
    "mix",
    "topsoil",
    "seed",
    "straw",
    "mat",
    "pegs",
    "sod",
    "plugs",
    "sprigs",
    "lime",
    "sulfur",
    "iron sulfate",
    "gypsum",
    "potash",
    "phosphate",
    "fertilizer",
    "preventer",
    "weed killer",
    "machine",
]


def _named(value: object) -> object:
    """An item by its name; a plan of a newer program may hold some that this one does not know."""
    if not isinstance(value, str):
        raise ValueError("is not a text")
    return value


NamedAmount = Annotated[AmountItem, PlainValidator(_named), WithJsonSchema({"type": "string"})]
NamedOrder = Annotated[OrderItem, PlainValidator(_named), WithJsonSchema({"type": "string"})]
