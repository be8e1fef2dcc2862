"""Says which columns a client file may have, and what stands in their cells, from the records."""

from collections.abc import Iterator, Mapping
from datetime import date
from functools import lru_cache
from types import UnionType
from typing import Annotated, Any, Literal, Union, get_args, get_origin

from pydantic import BaseModel, BeforeValidator
from pydantic.fields import FieldInfo

from turfplan.business.client_record import Client
from turfplan.records.brief import Brief

CellForm = Literal["text", "number", "truth", "day", "texts", "named", "tables"]
CLIENT = "client"
ID = "id"
# Of several forms that a value may have, the one that a cell is read as.
_FIRST: tuple[CellForm, ...] = ("tables", "texts", "named", "day", "truth", "number", "text")


@lru_cache(maxsize=1)
def column_forms() -> Mapping[str, CellForm]:
    """Every column that is a key of the brief or of the client, dotted, with the form of its
    cells."""
    found = dict(_columns("", Brief))
    own = ((name, form) for name, form in _columns("", Client) if name != "own")
    return found | {f"{CLIENT}.{name}": form for name, form in own}


@lru_cache(maxsize=1)
def table_keys() -> Mapping[str, tuple[str, ...]]:
    """The keys of one entry of each column that holds tables, in their order."""
    return dict(_tables("", Brief))


def _columns(before: str, record: type[BaseModel]) -> Iterator[tuple[str, CellForm]]:
    for name, field in record.model_fields.items():
        key = f"{before}{field.alias or name}"
        inner = _inner(field.annotation)
        if inner is not None and not _many(field.annotation):
            # A whole table is no column but where a text, or false, may stand for it.
            if "truth" in _forms(field.annotation):
                yield key, "truth"
            elif Annotated in _origins(field.annotation):
                yield key, "text"
            yield from _columns(f"{key}.", inner)
            continue
        yield key, _form(field)


def _tables(before: str, record: type[BaseModel]) -> Iterator[tuple[str, tuple[str, ...]]]:
    for name, field in record.model_fields.items():
        key, inner = f"{before}{field.alias or name}", _inner(field.annotation)
        if inner is None:
            continue
        if _many(field.annotation):
            yield key, tuple(part.alias or own for own, part in inner.model_fields.items())
        else:
            yield from _tables(f"{key}.", inner)


def _form(field: FieldInfo) -> CellForm:
    # What only looks at a list of tables leaves their cells as they are.
    tables = _many(field.annotation) and _inner(field.annotation) is not None
    if _is_read(field.metadata) and not tables:
        return "text"
    forms = set(_forms(field.annotation))
    return next((form for form in _FIRST if form in forms), "text")


def _forms(annotation: Any) -> Iterator[CellForm]:
    origin, parts = get_origin(annotation), get_args(annotation)
    if origin is Annotated:
        if _is_read(parts[1:]):
            yield "text"
        else:
            yield from _forms(parts[0])
    elif origin in (Union, UnionType):
        for part in parts:
            yield from _forms(part)
    elif origin is tuple:
        yield "tables" if _inner(parts[0]) is not None else "texts"
    elif origin is not None and isinstance(origin, type) and issubclass(origin, Mapping):
        yield "named"
    elif annotation is bool or (origin is Literal and any(isinstance(one, bool) for one in parts)):
        yield "truth"
    elif annotation in (int, float):
        yield "number"
    elif annotation is date:
        yield "day"
    elif annotation is not type(None):
        yield "text"


def _is_read(metadata: Any) -> bool:
    """Whether a value is written as a text that a validator reads: a quantity with its unit."""
    return any(isinstance(one, BeforeValidator) for one in metadata)


def _origins(annotation: Any) -> set[Any]:
    """What an annotation is made of, through unions."""
    origin, parts = get_origin(annotation), get_args(annotation)
    if origin in (Union, UnionType):
        return {found for part in parts for found in _origins(part)}
    return {origin}


def _inner(annotation: Any) -> type[BaseModel] | None:
    """The record that a value is, or is made of."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    return next((found for part in get_args(annotation) if (found := _inner(part))), None)


def _many(annotation: Any) -> bool:
    """Whether a value is several records."""
    origin, parts = get_origin(annotation), get_args(annotation)
    if origin in (Union, UnionType, Annotated):
        return any(_many(part) for part in parts)
    return origin is tuple
