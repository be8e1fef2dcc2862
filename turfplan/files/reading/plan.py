"""Reads the plan of a folder."""

import hashlib
import json
from contextlib import suppress
from dataclasses import replace
from functools import lru_cache
from pathlib import Path
from typing import Any

from pydantic import ValidationError
from pydantic_core import from_json, to_json

from turfplan.errors import Problem, TurfplanError, library_words
from turfplan.files.data_folder import PLAN
from turfplan.files.system_faults import unreadable
from turfplan.message import Message, as_written
from turfplan.phrases import errors, libraries
from turfplan.phrases import files as phrases
from turfplan.records.form_faults import form_message
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Task, WateringStage

SCHEMA = 1


def read_plan(folder: Path, *, to_show: bool = False) -> Plan | None:
    """The plan in a folder's plan.json, or None when there is none.

    One that is read `to_show` on paper alone, and never written again, is without its table `said`
    and without what calendars showed of it, which are a third of it. Raises TurfplanError for one
    that cannot be read.
    """
    path = folder / PLAN
    try:
        known = _PlanBytes(path.read_bytes())
    except FileNotFoundError:
        return None
    except NotADirectoryError:
        raise TurfplanError(
            Problem(str(folder), phrases.file_not_folder(), hint=phrases.choose_folder())
        ) from None
    except OSError as error:
        raise TurfplanError(unreadable(path, error)) from None
    try:
        return _plan_of(known, to_show=to_show)
    except TurfplanError as error:
        raise error.located(str(path)) from None


class _PlanBytes:
    """The bytes of a plan until they are read; what was read is known by their digest then."""

    def __init__(self, raw: bytes) -> None:
        self._raw = raw
        self._digest = hashlib.sha256(raw).digest()

    def __hash__(self) -> int:
        return hash(self._digest)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _PlanBytes) and self._digest == other._digest

    def taken(self) -> bytes:
        """The bytes, which are let go."""
        raw, self._raw = self._raw, b""
        return raw


def plan_from_json(raw: bytes) -> Plan:
    """The plan in JSON bytes. Keys that this version does not know, at any depth, are passed over.

    Raises TurfplanError for damaged bytes, and for a schema that is newer or no schema of a plan.
    """
    return _plan_of(_PlanBytes(raw), to_show=False)


# A served plan is read for every page that shows it, and stays the same until it is planned again.
@lru_cache(maxsize=8)
def _plan_of(known: _PlanBytes, *, to_show: bool) -> Plan:
    raw, refused = known.taken(), False
    try:
        # Unlike json.loads it keeps once what is said often.
        data = from_json(raw)
    except ValueError:
        refused, data = True, _decoded(raw)
    else:
        # It is as large as what is made of it.
        raw = b""
    if not isinstance(data, dict) or data.get("schema") != SCHEMA:
        raise TurfplanError(_other_schema(data))
    try:
        plan = _validated(raw, data, refused=refused)
    except ValidationError as error:
        raise TurfplanError(
            Problem(".".join(str(s) for s in e["loc"]), form_message(e, of_json=True))
            for e in error.errors(include_url=False)
        ) from None
    tasks = map(_with_stage, plan.tasks)
    if not to_show:
        return plan.model_copy(update={"tasks": tuple(tasks)})
    shown = tuple(task.model_copy(update={"published": None}) for task in tasks)
    return plan.model_copy(update={"tasks": shown, "said": {}, "calendar_entries": ()})


def _decoded(raw: bytes) -> object:
    """What stands in JSON bytes that were refused, as far as Python's own reader takes them.

    Raises TurfplanError for damaged bytes.
    """
    try:
        return json.loads(raw)
    except ValueError as error:
        damaged = errors.damaged(reason=_reason(error))
        raise TurfplanError(Problem("", damaged, hint=phrases.plan_anew())) from None


def _validated(raw: bytes, data: dict[str, Any], *, refused: bool) -> Plan:
    """The plan in decoded JSON, for which its texts are not copied; raises ValidationError, in the
    words for JSON. What was `refused` as JSON is read from its bytes, and says why.
    """
    context = {"said": data.get("said") or {}}
    # Only here: a plan that this program makes still refuses a key that its records do not have.
    if not refused:
        with suppress(ValidationError):
            return Plan.model_validate(data, context=context, extra="ignore")
    again = raw if refused else to_json(data)
    return Plan.model_validate_json(again, context=context, extra="ignore")


def _with_stage(task: Task) -> Task:
    """A watering with its stage; version 0.1 wrote it into id and title alone."""
    if task.series is None or task.stage is not None:
        return task
    name = task.title.text.partition(":")[0]
    stage = WateringStage(id=task.id.split(".")[1], name=replace(as_written(name), text=name))
    return task.model_copy(update={"stage": stage})


def _other_schema(data: object) -> Problem:
    """What is said of a file whose `schema` is not the one that is read here."""
    got = data.get("schema") if isinstance(data, dict) else type(data).__name__
    if isinstance(got, int) and got > SCHEMA:
        return Problem("schema", phrases.newer(), repr(got), str(SCHEMA), phrases.upgrade())
    return Problem(
        "schema", phrases.other_schema(), repr(got), str(SCHEMA), phrases.other_turfplan()
    )


def _reason(error: ValueError) -> Message:
    """Why bytes are no JSON."""
    if not isinstance(error, json.JSONDecodeError):
        undecoded = isinstance(error, UnicodeDecodeError)
        return errors.not_text() if undecoded else library_words(str(error))
    return libraries.json_at(
        what=library_words(error.msg),
        line=str(error.lineno),
        column=str(error.colno),
        place=str(error.pos),
    )
