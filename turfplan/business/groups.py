"""Picks clients by what stands in a column of the business's own file: route, branch, crew."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TypeVar

from turfplan.business.client_record import Client
from turfplan.errors import Problem, TurfplanError, did_you_mean, one_of
from turfplan.phrases import business as phrases

GroupKey = TypeVar("GroupKey")
OPTION = "--group"


@dataclass(frozen=True, slots=True)
class ClientGroup:
    """The clients that have a value in a column; neither asks for capitals."""

    column: str
    value: str


def group_of(text: str | None) -> ClientGroup | None:
    """A group as it is typed, COLUMN=VALUE, None where none is; raises TurfplanError for another
    text."""
    if text is None:
        return None
    column, equals, value = (part.strip() for part in text.partition("="))
    if not equals or not column or not value:
        fault = phrases.not_a_group()
        raise TurfplanError(Problem(OPTION, fault, repr(text), phrases.such_a_group()))
    return ClientGroup(column, value)


def in_group(clients: Mapping[GroupKey, Client], group: ClientGroup | None) -> tuple[GroupKey, ...]:
    """The clients of a group, all without one, in their order.

    Raises TurfplanError for a column that no client has, and a value that none has in it.
    """
    if group is None:
        return tuple(clients)
    column = group.column.casefold()
    values = {
        key: value
        for key, client in clients.items()
        for name, value in client.own.items()
        if name.casefold() == column
    }
    if not values:
        known = list(dict.fromkeys(name for one in clients.values() for name in one.own))
        hint = did_you_mean(group.column, known)
        fault = phrases.no_group(column=group.column)
        raise TurfplanError(Problem(OPTION, fault, None, one_of(known), hint))
    wanted = group.value.casefold()
    found = tuple(key for key, value in values.items() if value.strip().casefold() == wanted)
    if not found:
        known = sorted(set(values.values()))
        fault = phrases.no_client_of_group(value=group.value)
        hint = did_you_mean(group.value, known)
        raise TurfplanError(Problem(OPTION, fault, None, one_of(known), hint))
    return found
