"""Reads the cell of a client file as the value of a key, and writes it again.

Lists are joined by `;`. One entry of a table is `key=value, key=value`; where two keys are enough
they stand alone: `prodiamine@2027-03-20`, `2027-08-20..2027-08-29`. What a text holds of these
signs stands between quotes, and a quote is written twice.
"""

import json
import re
from collections.abc import Iterator, Mapping
from contextlib import suppress
from datetime import date
from typing import Any

from turfplan.business.column_forms import CellForm, column_forms, table_keys
from turfplan.errors import FormError
from turfplan.phrases import business as phrases

_AT, _TO = "@", ".."
# Columns of tables whose entries are told by two keys, in this order.
_PAIRS: Mapping[str, tuple[str, str]] = {
    "history.herbicides": ("active_ingredient", "on"),
    "history.moss": ("active_ingredient", "on"),
    "history.nitrogen": ("rate", "on"),
    "history.lime": ("rate", "on"),
    "history.sowings": ("species", "on"),
    "leveling.lows": ("depth", "share"),
    "lawn.grass": ("species", "share"),
}
_DAYS = frozenset({"on", "seed_after"})
_SPAN = ("from", "to")
_NUMBER = re.compile(r"[-+]?\d+([.,]\d+)?([eE][-+]?\d+)?")
_PERCENT = re.compile(r"(\d+(?:\.\d+)?)\s*%")
_TRUTHS = {"true": True, "false": False}
# What needs quotes within an entry.
_SIGNS = re.compile(r'[;,=@"\n\[\]]|\.\.|^\s|\s$')
HUNDRED = 100


def form_of(column: str) -> CellForm | None:
    """The form of the cells of a column; None for one that is no key of brief or client."""
    known = column_forms()
    above = column.rpartition(".")[0]
    if column not in known and known.get(above) == "named":
        return "number"
    return known.get(column)


def value_of(column: str, text: str) -> Any:
    """What a cell says; a text that is no number, day or truth stays a text, which the record
    refuses. Raises FormError for an entry of a table that cannot be told apart."""
    form = form_of(column)
    if form == "number":
        return _number(text)
    if form == "truth":
        return _TRUTHS.get(text.casefold(), text)
    if form == "day":
        return _day(text)
    if form == "texts":
        return [_plain(part) for part in _split(text, ";")]
    if form == "named":
        return dict(_named(part) for part in _split(text, ";"))
    if form == "tables":
        return _entries(column, text)
    return text


def cell_of(column: str, value: Any) -> str:
    """The cell of a value as `value_of` reads it again."""
    form = form_of(column)
    if form == "texts" and isinstance(value, list):
        return ";".join(map(_quoted, value))
    if form == "named" and isinstance(value, Mapping):
        return "; ".join(f"{_quoted(key)}{_AT}{part}" for key, part in value.items())
    if form == "tables" and isinstance(value, list):
        return "; ".join(_entry_cell(column, entry) for entry in value)
    return _text(value)


def leaves(before: str, table: Mapping[str, Any]) -> Iterator[tuple[str, Any]]:
    """The values of tables by their dotted keys, each as one cell holds it."""
    for key, value in table.items():
        name = f"{before}{key}"
        if isinstance(value, Mapping) and form_of(name) != "named":
            yield from leaves(f"{name}.", value)
        else:
            yield name, value


def _number(text: str) -> Any:
    """A number; a comma is its point, as spreadsheets of many countries write it."""
    if not _NUMBER.fullmatch(text):
        return text
    number = text.replace(",", ".")
    return float(number) if set(number) & set(".eE") else int(number)


def _day(text: str) -> Any:
    with suppress(ValueError):
        return date.fromisoformat(text)
    return text


def _entries(column: str, text: str) -> Any:
    parts = _split(text, ";")
    # One grass alone is written as its name.
    if column == "lawn.grass" and len(parts) == 1 and len(_split(parts[0], ",")) == 1:
        first, at, _ = _cut(parts[0], _AT)
        if not at:
            return _plain(first)
    return [_entry(column, part) for part in parts]


def _entry(column: str, text: str) -> dict[str, Any]:
    first, *rest = _split(text, ",")
    found: dict[str, Any] = {}
    if _cut(first, "=")[1]:
        rest = [first, *rest]
    elif column in _PAIRS:
        values = [part.strip() for part in _cut(first, _AT)]
        keys = _PAIRS[column]
        # A sowing of which no grass is known is a day alone.
        known = keys if values[1] else (("on",) if column == "history.sowings" else keys[:1])
        given = (values[0], values[2]) if values[1] else (values[0],)
        found = {key: _part(key, value) for key, value in zip(known, given, strict=True)}
    elif table_keys().get(column) == _SPAN:
        start, to, end = _cut(first, _TO)
        if not to:
            raise FormError(phrases.not_a_span(got=text), phrases.such_a_span())
        yearly = column.endswith("blackouts")
        read = _plain if yearly else _day
        found = {"from": read(start.strip()), "to": read(end.strip())}
    else:
        raise FormError(phrases.not_an_entry(got=text), phrases.such_an_entry())
    for part in rest:
        key, equals, value = _cut(part, "=")
        if not equals:
            raise FormError(phrases.not_an_entry(got=part), phrases.such_an_entry())
        found[key.strip()] = _part(key.strip(), value.strip())
    return found


def _named(text: str) -> tuple[str, Any]:
    name, at, value = _cut(text, _AT)
    if not at:
        raise FormError(phrases.not_named(got=text), phrases.such_named())
    return _plain(name.strip()), _part("share", value.strip())


def _part(key: str, text: str) -> Any:
    """The value of a key of an entry; a share may be written in percent."""
    if text.startswith('"'):
        return _plain(text)
    if key in _DAYS:
        return _day(text)
    if text.startswith("["):
        with suppress(ValueError):
            return json.loads(text)
    percent = _PERCENT.fullmatch(text)
    if percent is not None and key == "share":
        return float(percent[1]) / HUNDRED
    if text.casefold() in _TRUTHS:
        return _TRUTHS[text.casefold()]
    return _number(text)


def _entry_cell(column: str, entry: Mapping[str, Any]) -> str:
    rest = dict(entry)
    short: list[str] = []
    if set(_PAIRS.get(column, ("",))) <= rest.keys():
        first, second = (_part_cell(rest.pop(key)) for key in _PAIRS[column])
        short = [f"{first}{_AT}{second}"]
    elif table_keys().get(column) == _SPAN:
        short = [_TO.join(_text(rest.pop(key)) for key in _SPAN)]
    return ", ".join((*short, *(f"{key}={_part_cell(value)}" for key, value in rest.items())))


def _part_cell(value: Any) -> str:
    if isinstance(value, list):
        return _quoted(json.dumps(value)) if not value else json.dumps(value)
    if not isinstance(value, str):
        return _text(value)
    # A text that reads like a number or a truth is told from one by its quotes.
    is_other = not isinstance(_number(value), str) or value.casefold() in _TRUTHS
    return f'"{value}"' if is_other else _quoted(value)


def _text(value: Any) -> str:
    if isinstance(value, bool):
        return str(value).lower()
    return value.isoformat() if isinstance(value, date) else str(value)


def _quoted(text: Any) -> str:
    doubled = str(text).replace('"', '""')
    return f'"{doubled}"' if _SIGNS.search(str(text)) else str(text)


def _plain(text: str) -> str:
    """A text without the quotes around it."""
    text = text.strip()
    if len(text) > 1 and text[0] == text[-1] == '"':
        return text[1:-1].replace('""', '"')
    return text


def _split(text: str, sign: str) -> list[str]:
    """The parts between signs that stand neither within quotes nor within brackets; empty ones are
    left out."""
    parts, start, depth, quoted = [], 0, 0, False
    for place, letter in enumerate(text):
        quoted ^= letter == '"'
        depth += 0 if quoted else (letter == "[") - (letter == "]")
        if letter == sign and not quoted and depth <= 0:
            parts.append(text[start:place])
            start = place + 1
    parts.append(text[start:])
    return [part.strip() for part in parts if part.strip()]


def _cut(text: str, sign: str) -> tuple[str, str, str]:
    """A text before and after the first sign that does not stand within quotes, as `partition`
    cuts it."""
    quoted = False
    for place, letter in enumerate(text):
        quoted ^= letter == '"'
        if not quoted and text.startswith(sign, place):
            return text[:place], sign, text[place + len(sign) :]
    return text, "", ""
