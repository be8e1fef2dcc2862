"""Keeps how the client file of a business was written when it last came in, so that it can be given
back in the same form."""

from collections.abc import Mapping
from pathlib import Path

from pydantic import BaseModel, ConfigDict, ValidationError

from turfplan.files.data_folder import CLIENTS_FORM
from turfplan.files.plan_folder import write_beside
from turfplan.files.reading.clients import ClientFile


class ClientFileForm(BaseModel):
    """How a client file is written: its separator, encoding and line ends, its heads and the ids of
    its rows in their order, and by id and head the cells that turfplan would write otherwise."""

    model_config = ConfigDict(frozen=True, extra="ignore")
    version: int = 1
    separator: str = ","
    encoding: str = "utf-8"
    line_end: str = "\r\n"
    heads: tuple[str, ...] = ()
    ids: tuple[str, ...] = ()
    cells: Mapping[str, Mapping[str, str]] = {}


def read_form(folder: Path) -> ClientFileForm:
    """The form in a data folder; the usual one where none is kept or it cannot be read: it only
    says how a file looks."""
    try:
        return ClientFileForm.model_validate_json((folder / CLIENTS_FORM).read_bytes())
    except (OSError, ValidationError):
        return ClientFileForm()


def keep_form(folder: Path, read: ClientFile) -> None:
    """Keep the form of a file that came in; raises TurfplanError where that cannot be written."""
    form = ClientFileForm(
        separator=read.form.separator,
        encoding=read.form.encoding,
        line_end=read.form.line_end,
        heads=tuple(column.head for column in read.columns),
        ids=tuple(row.id for row in read.rows),
        cells={row.id: row.written for row in read.rows if row.written},
    )
    write_beside({folder / CLIENTS_FORM: form.model_dump_json(indent=1).encode()})
