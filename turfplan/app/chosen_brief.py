"""A lawn's brief with some keys said otherwise: planned to be offered, and written when taken."""

import tomllib
from collections.abc import Mapping
from datetime import date
from pathlib import Path
from typing import Any

from turfplan.app.inputs import brief_of_client, input_of
from turfplan.app.lawn_journal import entries_of_lawn
from turfplan.app.plan_lawn import planned
from turfplan.business.column_cells import cell_of, form_of, leaves, value_of
from turfplan.business.column_forms import column_forms
from turfplan.errors import Problem, TurfplanError, did_you_mean
from turfplan.files.brief_text import brief_text
from turfplan.files.data_folder import BRIEF
from turfplan.files.plan_folder import folder_lock
from turfplan.files.reading.brief import brief_from
from turfplan.files.system_faults import unreadable, unwritable
from turfplan.files.whole_files import write_whole
from turfplan.message import listed
from turfplan.phrases import errors
from turfplan.phrases import quotes as phrases
from turfplan.records.plan import Plan

OPTION = "--choice"


def plan_as_chosen(
    folder: Path, plan: Plan, text: str, today: date
) -> tuple[Plan, str, Mapping[str, str]]:
    """The plan of a lawn whose brief says some keys otherwise, what that is called, and these keys;
    nothing is written.

    Raises TurfplanError for what is no change of a brief, and what cannot be planned.
    """
    before, colon, after = text.partition(":")
    name, asked = (before.strip(), after) if colon and "=" not in before else (text, text)
    changes = _changes_in(asked)
    brief = brief_from(_changed(_tables(folder), changes))
    brief = brief_of_client(brief, folder)
    entries = entries_of_lawn(folder)
    given = input_of(brief, folder)
    found = planned(given, entries, None, today=today, lawn_id=plan.lawn_id)
    if found.conflict is not None:
        reasons = phrases.because(reasons=listed(found.conflict.reasons, "semicolon"))
        raise TurfplanError(Problem(OPTION, phrases.not_planned_so(), text, hint=reasons))
    return found, name, changes


def write_choice(folder: Path, changes: Mapping[str, str | None]) -> Mapping[str, str | None]:
    """Write what a choice changes into the brief of a lawn, None for a key that goes; nothing where
    it changes nothing. Returns what stood there before, as it is written back.

    The lines that say where the brief came from stay. Raises TurfplanError for a brief that was
    written by hand, whose comments would be lost.
    """
    if not changes:
        return {}
    path = folder / BRIEF
    with folder_lock(folder):
        tables, text = _tables(folder), _text(path)
        head = _head(text)
        if text.removeprefix(head).strip() != brief_text(tables).strip():
            told = ", ".join(f"{key} = {value or ''}" for key, value in changes.items())
            hint = phrases.change_brief(changes=told)
            raise TurfplanError(Problem(str(path), phrases.by_hand(), hint=hint))
        changed = _changed(tables, changes)
        brief_from(changed)
        try:
            write_whole({path: (head + brief_text(changed)).encode()})
        except OSError as error:
            raise TurfplanError(unwritable(path, error)) from error
    known = dict(leaves("", tables))
    return {key: cell_of(key, known[key]) if key in known else None for key in changes}


def _changes_in(text: str) -> dict[str, str]:
    found: dict[str, str] = {}
    for part in filter(None, map(str.strip, text.split(";"))):
        key, equals, value = (piece.strip() for piece in part.partition("="))
        if not equals or not key or not value:
            hint = phrases.such_a_choice()
            raise TurfplanError(Problem(OPTION, phrases.not_a_choice(), text, hint=hint))
        if form_of(key) is None or key.startswith("client."):
            near = did_you_mean(key, column_forms())
            raise TurfplanError(Problem(OPTION, errors.unknown_key(), key, None, near))
        found[key] = value
    if not found:
        hint = phrases.such_a_choice()
        raise TurfplanError(Problem(OPTION, phrases.not_a_choice(), repr(text), hint=hint))
    return found


def _changed(tables: Mapping[str, Any], changes: Mapping[str, str | None]) -> dict[str, Any]:
    """Tables of a brief with some keys said otherwise."""
    found = {name: dict(one) if isinstance(one, Mapping) else one for name, one in tables.items()}
    for key, text in changes.items():
        *path, last = key.split(".")
        table = found
        for step in path:
            table[step] = dict(table.get(step, {}))
            table = table[step]
        if text is not None:
            table[last] = value_of(key, text)
        else:
            table.pop(last, None)
    return {name: one for name, one in found.items() if one != {}}


def _tables(folder: Path) -> dict[str, Any]:
    return tomllib.loads(_text(folder / BRIEF))


def _text(path: Path) -> str:
    try:
        return path.read_bytes().decode("utf-8-sig")
    except OSError as error:
        raise TurfplanError(unreadable(path, error)) from None


def _head(text: str) -> str:
    """The comments that a text begins with."""
    lines = text.splitlines(keepends=True)
    count = next((n for n, line in enumerate(lines) if not line.startswith("#")), len(lines))
    return "".join(lines[:count])
