"""Reads what a business says of itself and of its clients: `business.toml` and `client.toml`."""

import tomllib
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any, TypeVar

from pydantic import ValidationError

from turfplan.business.business_record import Business
from turfplan.business.client_record import Client
from turfplan.business.column_cells import form_of, leaves
from turfplan.business.column_forms import ID, column_forms
from turfplan.errors import Problem, TurfplanError, did_you_mean
from turfplan.files.data_folder import BUSINESS, CLIENT
from turfplan.files.reading.toml_faults import not_toml
from turfplan.files.system_faults import unreadable
from turfplan.phrases import brief as phrases
from turfplan.phrases import errors
from turfplan.records.brief import BriefTable, form_problems

BusinessForm = TypeVar("BusinessForm", bound=BriefTable)


def read_business(folder: Path) -> Business | None:
    """What the `business.toml` of a data folder says; None where there is none.

    Raises TurfplanError naming the file and every fault in it.
    """
    business = _read(folder / BUSINESS, Business)
    if business is not None and (problems := tuple(_unknown_keys(business))):
        raise TurfplanError(problems).located(str(folder / BUSINESS))
    return business


def _unknown_keys(business: Business) -> Iterator[Problem]:
    """The keys that a business names and that brief and client do not have."""
    named = [(f"brief.{key}", key) for key, _ in leaves("", business.brief)]
    named += [(f"columns.{head}", key) for head, key in business.columns.items()]
    for where, key in named:
        if key.casefold() != ID and form_of(key.casefold()) is None:
            near = did_you_mean(key, column_forms())
            yield Problem(where, errors.unknown_key(), key, None, near)


def read_client(folder: Path) -> Client:
    """What the `client.toml` in a lawn's folder says; nothing where there is none.

    Raises TurfplanError naming the file and every fault in it.
    """
    return _read(folder / CLIENT, Client) or Client()


def record_from(data: Mapping[str, Any], record: type[BusinessForm]) -> BusinessForm:
    """The record in tables as people write them; raises TurfplanError with every fault of form."""
    try:
        return record.model_validate(data, by_alias=True, by_name=False)
    except ValidationError as error:
        raise TurfplanError(form_problems(error, record)) from None


def _read(path: Path, record: type[BusinessForm]) -> BusinessForm | None:
    try:
        text = path.read_bytes().decode("utf-8-sig")
    except FileNotFoundError:
        return None
    except UnicodeDecodeError as error:
        raise TurfplanError(Problem(str(path), errors.not_utf8(byte=error.start))) from None
    except OSError as error:
        raise TurfplanError(unreadable(path, error)) from None
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise TurfplanError(not_toml(str(path), error, phrases.quoted())) from None
    try:
        return record_from(data, record)
    except TurfplanError as error:
        raise error.located(str(path)) from None
