"""Tables of the book as records, with the faults of their form."""

from collections.abc import Mapping
from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from turfplan.errors import Problem, did_you_mean, one_of
from turfplan.phrases import book_faults as phrases
from turfplan.phrases import errors
from turfplan.records.form_faults import choices, form_message

Model = TypeVar("Model", bound=BaseModel)
# The files of the book by name, each with its tables.
Raw = dict[str, dict[str, Any]]


def form_fault(where: str, error: ErrorDetails, model: type[BaseModel]) -> Problem:
    """A fault of form with the key it lies in, and the nearest name where one is misspelt."""
    key = ".".join(str(step) for step in error["loc"])
    place = f"{where}.{key}" if key else where
    if error["type"] == "extra_forbidden":
        known = tuple(model.model_fields)
        return Problem(place, errors.unknown_key(), key, one_of(known), did_you_mean(key, known))
    if error["type"] in ("literal_error", "union_tag_invalid"):
        context = error["ctx"]
        got = str(context.get("tag", error["input"]))
        allowed = choices(context)
        hint = did_you_mean(got, allowed)
        return Problem(place, phrases.unknown_word(), repr(got), one_of(allowed), hint)
    return Problem(place, form_message(error))


def things_of(raw: Raw, file: str, model: type[Model], faults: list[Problem]) -> dict[str, Model]:
    """The things of a file, in words."""
    return each_of(f"{file}.toml", _plain(raw[file]), model, faults)


def _plain(tables: Mapping[str, dict[str, Any]]) -> dict[str, dict[str, Any]]:
    """The words of things, without their facts."""
    return {
        key: {name: value for name, value in table.items() if not isinstance(value, dict)}
        for key, table in tables.items()
    }


def for_each_operation(rows: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """Windows as they are written, each once for every operation that it serves."""
    found = []
    for row in rows:
        rest = {key: value for key, value in row.items() if key != "operations"}
        named = str(row.get("id", ""))
        for operation in row.get("operations", ("",)):
            found.append(
                {**rest, "id": named.replace("{operation}", operation), "operation": operation}
            )
    return found


def validated(
    where: str, data: dict[str, Any], model: type[Model], faults: list[Problem]
) -> Model | None:
    """The record of a table, or None with its faults added to `faults`."""
    try:
        return model.model_validate(data)
    except ValidationError as error:
        faults += [form_fault(where, e, model) for e in error.errors(include_url=False)]
        return None


def each_of(
    where: str, tables: dict[str, Any], model: type[Model], faults: list[Problem]
) -> dict[str, Model]:
    """The records of tables that stand under their ids."""
    found = {}
    for key, table in tables.items():
        if (item := validated(f"{where}: {key}", {"id": key, **table}, model, faults)) is not None:
            found[key] = item
    return found


def in_a_list(
    where: str, rows: list[dict[str, Any]], model: type[Model], faults: list[Problem]
) -> list[Model]:
    """The records of an array of tables, each with an id of its own."""
    found = []
    seen: set[str] = set()
    for number, row in enumerate(rows, 1):
        name = str(row.get("id", number))
        if name in seen:
            faults.append(Problem(f"{where}: {name}", phrases.id_twice()))
        seen.add(name)
        if (item := validated(f"{where}: {name}", row, model, faults)) is not None:
            found.append(item)
    return found
