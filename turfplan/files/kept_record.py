"""Small records that a business keeps beside its lawns, as JSON: read whole, written whole."""

import json
from collections.abc import Collection
from pathlib import Path
from typing import Literal, TypeVar

from pydantic import BaseModel, ConfigDict, Field, ValidationError

from turfplan.errors import Problem, TurfplanError
from turfplan.files.system_faults import unreadable, unwritable
from turfplan.files.whole_files import write_into_folders
from turfplan.phrases import files as phrases

SCHEMA = 1


class KeptRecord(BaseModel):
    """Base of such records: frozen; keys of a newer program are passed over, another `schema` is
    refused."""

    model_config = ConfigDict(frozen=True, extra="ignore", populate_by_name=True)
    schema_version: Literal[1] = Field(1, alias="schema")


Record = TypeVar("Record", bound=KeptRecord)


def read_kept(path: Path, record: type[Record]) -> Record | None:
    """The record in a file; None where there is none.

    Raises TurfplanError for one that is damaged or of a newer program.
    """
    try:
        content = path.read_bytes()
    except FileNotFoundError:
        return None
    except OSError as error:
        raise TurfplanError(unreadable(path, error)) from None
    try:
        data = json.loads(content)
        if isinstance(data, dict) and data.get("schema", SCHEMA) != SCHEMA:
            raise TurfplanError(Problem(str(path), phrases.newer(), hint=phrases.upgrade()))
        return record.model_validate(data)
    except (ValueError, ValidationError):
        hint = phrases.kept_from_backup()
        raise TurfplanError(Problem(str(path), phrases.kept_damaged(), hint=hint)) from None


def write_kept(path: Path, record: KeptRecord, private: Collection[Path] = ()) -> None:
    """Write a record whole; raises TurfplanError where that cannot be done."""
    content = record.model_dump_json(by_alias=True, indent=1).encode() + b"\n"
    try:
        write_into_folders({path: content}, private=private)
    except OSError as error:
        raise TurfplanError(unwritable(path, error)) from error
