"""Writes briefs as TOML: one from tables, and a copy of one under another identity."""

import json
import re
import tomllib
from collections.abc import Mapping
from datetime import date
from typing import Any

_BARE = re.compile(r"[A-Za-z0-9_-]+")
_TABLE = re.compile(r"\s*\[")
_LAWN = re.compile(r"\s*\[\s*lawn\s*\]\s*(#.*)?$")
_ID = re.compile(r"(\s*id\s*=\s*)(?:\"[^\"]*\"|'[^']*')(.*)", re.DOTALL)


def brief_text(tables: Mapping[str, Any]) -> str:
    """Tables of texts, numbers, truths, days, lists and tables as TOML; values before tables."""
    return "\n\n".join(_blocks((), tables)) + "\n"


def _blocks(path: tuple[str, ...], table: Mapping[str, Any]) -> list[str]:
    """The table of a path and those within it, each as a block of lines."""
    values = {key: value for key, value in table.items() if not isinstance(value, Mapping)}
    lines = [f"{_key(key)} = {_value(value)}" for key, value in values.items()]
    head = [f"[{'.'.join(map(_key, path))}]"] if path else []
    blocks = ["\n".join((*head, *lines))] if lines else []
    for key, value in table.items():
        if isinstance(value, Mapping):
            blocks += _blocks((*path, key), value)
    return blocks


def _key(key: str) -> str:
    return key if _BARE.fullmatch(key) else _text(key)


def _value(value: Any) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, list):
        return f"[{', '.join(map(_value, value))}]"
    if isinstance(value, Mapping):
        return f"{{ {', '.join(f'{_key(key)} = {_value(part)}' for key, part in value.items())} }}"
    if isinstance(value, int | float | date):
        return value.isoformat() if isinstance(value, date) else repr(value)
    return _text(str(value))


def _text(text: str) -> str:
    """A text in quotes: TOML takes what JSON writes, but for the delete character."""
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007F")


def with_value(text: str, table: str, key: str, value: object) -> str:
    """The text of a brief with another value of a key in one of its tables, all else of it as it
    was written.

    Raises ValueError for a text that says the value in a way that one line does not hold.
    """
    wanted = tomllib.loads(text)
    wanted[table] = {**wanted.get(table, {}), key: value}
    changed = _with_line(text, table, key, f"{_key(key)} = {_value(value)}")
    try:
        if tomllib.loads(changed) == wanted:
            return changed
    except tomllib.TOMLDecodeError:
        pass
    raise ValueError(f"{table}.{key} is not one line")


def _with_line(text: str, table: str, key: str, line: str) -> str:
    """The text with a line in the place of a key's, else at the head of its table, else with the
    table at its end."""
    lines = text.splitlines()
    end = "\r\n" if "\r\n" in text else "\n"
    head_line = re.compile(rf"\s*\[\s*{table}\s*\]\s*(#.*)?")
    own_line = re.compile(rf"\s*{key}\s*=.*")
    head: int | None = None
    within = False
    for number, found in enumerate(lines):
        if _TABLE.match(found):
            within = head_line.fullmatch(found) is not None
            head = number if within else head
        elif within and own_line.fullmatch(found):
            lines[number] = line
            return end.join(lines) + end
    if head is None:
        lines += ["", f"[{table}]", line]
    else:
        lines.insert(head + 1, line)
    return end.join(lines) + end


def with_lawn_id(text: str, lawn_id: str) -> str:
    """The text of a brief with another `lawn.id`, all else of it as it was written.

    For a brief with a table `[lawn]`; a caller looks that the copy says what it should.
    """
    lines, within = text.splitlines(keepends=True), False
    head = None
    for number, line in enumerate(lines):
        if _TABLE.match(line):
            within = _LAWN.match(line.rstrip("\r\n")) is not None
            head = number if within else head
        elif within and (found := _ID.fullmatch(line)) is not None:
            lines[number] = f'{found[1]}"{lawn_id}"{found[2]}'
            return "".join(lines)
    if head is not None:
        end = "\r\n" if lines[head].endswith("\r\n") else "\n"
        lines[head] = f'{lines[head].rstrip()}{end}id = "{lawn_id}"{end}'
    return "".join(lines)
