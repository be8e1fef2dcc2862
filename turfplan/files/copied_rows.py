"""What the rows of an index have in common as they are copied, and brought into one again."""

import sqlite3
from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

Moment = Annotated[str, Field(pattern=r"^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\+00:00$")]
IsoDay = Annotated[str, Field(pattern=r"^\d{4}-\d\d-\d\d$")]
Text = Annotated[str, Field(max_length=10_000)]
Sha256 = Annotated[str, Field(pattern=r"^[0-9a-f]{64}$")]
Base64 = Annotated[str, Field(pattern=r"^[A-Za-z0-9+/=]*$")]


class CopiedRow(BaseModel):
    """A row of a copy; what a newer program adds is not looked at."""

    model_config = ConfigDict(extra="ignore", frozen=True, strict=True)


def free_number(
    connection: sqlite3.Connection, table: Literal["token", "house_token"], number: int
) -> int | None:
    """The number that a row had in its table, where no other has it; None for the next one."""
    taken = connection.execute(f"SELECT 1 FROM {table} WHERE id = ?", (number,)).fetchone()
    return None if taken else number
