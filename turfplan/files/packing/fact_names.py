"""Writes `turfplan/records/fact_names.py` from the schema of the book.

`python -m turfplan.files.packing.fact_names` runs it.

So every name of a fact that code reads is checked by mypy; a test compares the file with the
schema.
"""

import tomllib
from collections.abc import Iterable
from importlib.resources import files
from pathlib import Path

from turfplan.book.schema import FILE, THINGS, Row, Schema, schema_of

_HEAD = '''"""The names of the facts that code may read.

Written by `turfplan.files.packing.fact_names` from schema.toml.
"""

from typing import Literal

'''


def main() -> None:
    """Writes the module beside the package's other ones."""
    Path(str(files("turfplan") / "records" / "fact_names.py")).write_text(
        source_of(packaged_schema()), encoding="utf-8"
    )


def packaged_schema() -> Schema:
    """The schema that comes with turfplan."""
    return schema_of(tomllib.loads((files("turfplan") / "data" / FILE).read_text(encoding="utf-8")))


def source_of(schema: Schema) -> str:
    """The text of the module."""
    groups: list[str] = []
    families: list[str] = []
    options: list[str] = []
    for group, rows in schema.facts.items():
        if group in THINGS:
            continue
        for name, row in rows.items():
            if row.by == "entries":
                continue
            full = f"{group}.{name}"
            (groups if "{" not in name else options if row.needed == "no" else families).append(
                full
            )
    parts = [
        _literal("GroupFact", groups),
        _literal("Family", families),
        _literal("FamilyOption", options),
    ]
    for name, file in (
        ("Species", "species"),
        ("Material", "materials"),
        ("Herbicide", "herbicides"),
    ):
        rows = {key: row for key, row in schema.facts[file].items() if row.by == "code"}
        parts.append(_literal(f"{name}Fact", _named(rows, optional=False)))
        if optional := _named(rows, optional=True):
            parts.append(_literal(f"{name}Option", optional))
    return _HEAD + "\n".join(parts)


def _named(rows: dict[str, Row], *, optional: bool) -> list[str]:
    return [name for name, row in rows.items() if (row.needed == "no") is optional]


def _literal(name: str, values: Iterable[str]) -> str:
    quoted = [f'"{value}"' for value in values]
    if len(quoted) == 1:
        return f"{name} = Literal[{quoted[0]}]\n"
    lines = "".join(f"    {value},\n" for value in quoted)
    return f"{name} = Literal[\n{lines}]\n"


if __name__ == "__main__":
    main()
