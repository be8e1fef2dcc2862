"""The bytes of the book's data files, and the version that stands for them."""

import hashlib
from collections.abc import Mapping
from importlib.resources.abc import Traversable
from pathlib import Path


def contents_of(folder: Traversable | Path) -> dict[str, bytes]:
    """The data files of a book by name, those of its regions as `regions/NAME`."""
    contents = _tables_in(folder)
    contents |= {f"regions/{name}": table for name, table in _tables_in(folder / "regions").items()}
    return contents


def version_of(contents: Mapping[str, bytes]) -> str:
    """Twelve hexadecimal digits that another name or another byte changes."""
    digest = hashlib.sha256()
    for name, content in contents.items():
        digest.update(name.removeprefix("regions/").encode() + b"\0" + content)
    return digest.hexdigest()[:12]


def _tables_in(folder: Traversable | Path) -> dict[str, bytes]:
    tables = (entry for entry in folder.iterdir() if entry.name.endswith(".toml"))
    return {table.name: table.read_bytes() for table in sorted(tables, key=lambda file: file.name)}
