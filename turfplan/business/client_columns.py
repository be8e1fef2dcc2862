"""Says what each column of a client file holds: the id, a key of brief or client, or the business's
own."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from turfplan.business.column_cells import form_of
from turfplan.business.column_forms import CLIENT, ID, column_forms
from turfplan.errors import Problem, did_you_mean, nearest, one_of
from turfplan.phrases import business as phrases
from turfplan.phrases import errors

ColumnKind = Literal["id", "brief", "client", "own"]
# What a spreadsheet would run as a formula.
FORMULA = ("=", "+", "-", "@", "\t", "\r")


@dataclass(frozen=True, slots=True)
class ClientColumn:
    """A column of a client file: its head as it is written, what it holds, and under which key
    (of a client, without `client.`; of the business's own, the head)."""

    head: str
    kind: ColumnKind
    key: str


def columns_of(
    heads: Sequence[str], named: Mapping[str, str]
) -> tuple[tuple[ClientColumn, ...], tuple[Problem, ...]]:
    """The columns by their heads, `named` being the keys that a business gives its own heads;
    capitals are no difference. Also what is wrong with the heads."""
    given = {head.casefold(): key for head, key in named.items()}
    columns: list[ClientColumn] = []
    problems: list[Problem] = []
    for number, head in enumerate(heads, 1):
        asked = given.get(head.casefold(), head)
        column = _column(head, asked)
        if not head:
            problems.append(Problem(phrases.column_number(number=number), phrases.no_head()))
        elif column is None or (column.kind == "own" and asked != head):
            near, known = did_you_mean(asked, column_forms()), one_of(_beside(asked))
            problems.append(Problem(head, errors.unknown_key(), asked, known, near))
        elif any(
            (one.kind, one.key.casefold()) == (column.kind, column.key.casefold())
            for one in columns
        ):
            problems.append(Problem(head, errors.used_twice(), asked))
        if column is not None:
            columns.append(column)
    keys = {column.key for column in columns if column.kind == "brief"}
    within = [
        column.head
        for column in columns
        if column.kind == "brief" and any(key.startswith(f"{column.key}.") for key in keys)
    ]
    problems += [Problem(head, phrases.value_and_table()) for head in within]
    return tuple(columns), tuple(problems)


def _column(head: str, asked: str) -> ClientColumn | None:
    """The column of a head; None for a key that brief and client do not have."""
    key = asked.casefold()
    if key == ID:
        return ClientColumn(head, "id", ID)
    if form_of(key) is not None:
        table, _, rest = key.partition(".")
        return (
            ClientColumn(head, "client", rest)
            if table == CLIENT
            else ClientColumn(head, "brief", key)
        )
    table, dot, rest = key.partition(".")
    tables = {name.partition(".")[0] for name in column_forms() if "." in name}
    looks_like_key = dot and rest and " " not in key and nearest(table, tables) is not None
    return None if looks_like_key else ClientColumn(head, "own", asked)


def _beside(asked: str) -> Iterable[str]:
    """The keys of the table that a key is asked of."""
    table = asked.casefold().partition(".")[0]
    of_table = [name for name in column_forms() if name.startswith(f"{table}.")]
    return of_table or column_forms()


def safe_cell(text: str) -> str:
    """A cell that no spreadsheet runs."""
    return f"'{text}" if text.lstrip("'").startswith(FORMULA) else text


def said_cell(text: str) -> str:
    """What a cell said before it was made safe."""
    return text[1:] if text[:1] == "'" and text.lstrip("'").startswith(FORMULA) else text
