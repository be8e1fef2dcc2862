"""Reads the plan of a folder."""

import json
from dataclasses import replace
from functools import lru_cache
from pathlib import Path

from pydantic import ValidationError

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


def read_plan(folder: Path) -> Plan | None:
    """The plan in a folder's plan.json, or None when there is none.

    Raises TurfplanError for one that cannot be read.
    """
    path = folder / PLAN
    try:
        raw = path.read_bytes()
    except FileNotFoundError:
        return None
    except NotADirectoryError:
        raise TurfplanError(
            Problem(str(folder), phrases.file_not_folder(), hint=phrases.choose_folder())
        ) from None
    except OSError as error:
        raise TurfplanError(unreadable(path, error)) from None
    try:
        return plan_from_json(raw)
    except TurfplanError as error:
        raise error.located(str(path)) from None


# A served plan is read for every page that shows it, and stays the same until it is planned again.
@lru_cache(maxsize=8)
def plan_from_json(raw: bytes) -> Plan:
    """The plan in JSON bytes. Keys that this version does not know, at any depth, are passed over.

    Raises TurfplanError for damaged bytes, and for a schema that is newer or no schema of a plan.
    """
    try:
        data = json.loads(raw)
    except ValueError as error:
        damaged = errors.damaged(reason=_reason(error))
        raise TurfplanError(Problem("", damaged, hint=phrases.plan_anew())) from None
    if not isinstance(data, dict) or data.get("schema") != SCHEMA:
        raise TurfplanError(_other_schema(data))
    try:
        # Only here: a plan that this program makes still refuses a key that its records do not
        # have.
        plan = Plan.model_validate_json(
            raw, context={"said": data.get("said") or {}}, extra="ignore"
        )
    except ValidationError as error:
        raise TurfplanError(
            Problem(".".join(str(s) for s in e["loc"]), form_message(e, of_json=True))
            for e in error.errors(include_url=False)
        ) from None
    return plan.model_copy(update={"tasks": tuple(_with_stage(task) for task in plan.tasks)})


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
