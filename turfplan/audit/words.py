"""The one place where faults become messages: the key of each kind, with its values."""

from collections.abc import Sequence
from datetime import date

from turfplan.audit.faults import Fault, FaultValue
from turfplan.message import Day, Listed, Message, Number, Value, listed
from turfplan.phrases import faults as phrases

AREA = "faults."


def faults_listed(faults: Sequence[Fault]) -> Listed:
    """Faults one after the other, each behind the ids of its tasks."""
    return listed((as_message(fault) for fault in faults), "semicolon")


def as_message(fault: Fault) -> Message:
    """What is wrong, behind the ids of the tasks concerned."""
    values = tuple((name, _value(value)) for name, value in fault.values.items())
    bare = Message(f"{AREA}{fault.kind}", values)
    if not fault.tasks:
        return bare
    return phrases.of_tasks(tasks=listed(fault.tasks, "comma"), fault=bare)


def _value(value: FaultValue) -> Value:
    """Days as days; other numbers with the digits that tell them apart."""
    if isinstance(value, date):
        return Day(value)
    return Number(value, "plain") if isinstance(value, float) else value
