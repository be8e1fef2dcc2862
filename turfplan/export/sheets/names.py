"""What the book calls the things that a plan names by their id."""

from collections.abc import Mapping

from turfplan.message import Message
from turfplan.messages import Words
from turfplan.records.plan import Plan


def operation_name(plan: Plan, operation: str, words: Words) -> str:
    """What a kind of work is called."""
    return name_of(plan.names, f"operations.{operation}", words)


def soil_name(plan: Plan, words: Words) -> str:
    """What the lawn's soil is called."""
    return name_of(plan.names, f"soils.{plan.lawn.soil}", words)


def name_of(names: Mapping[str, Message], key: str, words: Words) -> str:
    """The name that a plan keeps; that of the book in force where an older plan keeps none."""
    name = names.get(key)
    return name.text if name is not None else words.say(f"book.{key}.name")
