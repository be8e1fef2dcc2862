"""Digests of what a brief and the files that it names say: of their values, not of their bytes."""

import gzip
import hashlib
import json
import zlib
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import Any

from turfplan.records.brief import Brief

GZIP_MARK = b"\x1f\x8b"
NOTHING: tuple[object, ...] = ({}, [], None)


def digest_of_brief(brief: Brief) -> str:
    """The digest of what a brief says, by its values.

    How it is written (remarks, blanks, line ends, the order of its keys, one unit for another)
    changes nothing of it, nor do keys that it does not say: what a later program asks for leaves
    the digest of an older brief as it is.
    """
    said = _said(brief.model_dump(mode="json", exclude_unset=True))
    return _hashed(json.dumps(said, sort_keys=True).encode())


def digest_of_files(brief: Brief, folder: Path) -> str | None:
    """The digest of what stands in the files that a brief names, None where it names none.

    Another survey, map or table of normals is news, the same one written in another way is none.
    File names start from `folder`.
    """
    found = [_values(path, rows) for path, rows in _named(brief, folder)]
    return _hashed("\n\n".join(found).encode()) if found else None


def earlier_digests(brief: Brief, raw: bytes | None = None) -> frozenset[str]:
    """By what earlier programs knew the same brief: by its values with those that it does not say,
    or by the bytes of its file (`raw`), where it came from one."""
    written = frozenset() if raw is None else frozenset({_hashed(raw)})
    return written | {_with_unsaid(brief)}


def earlier_digest_of_files(brief: Brief, folder: Path) -> str | None:
    """By what earlier programs knew the files that a brief names: by their bytes."""
    paths = [path for path, _ in _named(brief, folder)]
    return _hashed(b"".join(path.read_bytes() for path in paths)) if paths else None


Rows = Callable[[str], list[list[str]]]


def _named(brief: Brief, folder: Path) -> list[tuple[Path, Rows]]:
    """The files that a brief names, each with how its text is cut into rows of cells."""
    files: list[tuple[str | None, Rows]] = [
        (brief.lawn.geojson, _lines),
        (brief.leveling.survey, _survey_rows),
        (brief.place.normals, _lines),
    ]
    named = [(folder / name, rows) for name, rows in files if name is not None]
    return [(path, rows) for path, rows in named if path.is_file()]


def _values(path: Path, rows: Rows) -> str:
    """What a file says, written in one way; of what is no text the bytes."""
    raw = path.read_bytes()
    try:
        raw = gzip.decompress(raw) if raw.startswith(GZIP_MARK) else raw
        text = raw.decode("utf-8-sig")
    except (OSError, EOFError, zlib.error, UnicodeDecodeError):
        return raw.hex()
    try:
        return json.dumps(json.loads(text), sort_keys=True)
    except ValueError:
        return json.dumps([[_number(cell) for cell in row] for row in rows(text)])


def _lines(text: str) -> list[list[str]]:
    """The lines that say something, cut at their commas."""
    lines = (line.rstrip() for line in text.splitlines())
    return [
        [cell.strip() for cell in line.split(",")] if "," in line else [line]
        for line in lines
        if line
    ]


def _survey_rows(text: str) -> list[list[str]]:
    """The rows of a survey without its remarks; its columns in the order of their names."""
    from turfplan.files.reading.survey_table import cells_of_text, is_grid

    rows = [cells for _, cells in cells_of_text(text)]
    if not rows or is_grid(rows[0]):
        return rows
    order = sorted(range(len(rows[0])), key=lambda column: rows[0][column].lower())
    return [_ordered(row, order) for row in rows]


def _ordered(row: Sequence[str], order: Sequence[int]) -> list[str]:
    return [row[column] if column < len(row) else "" for column in order]


def _number(cell: str) -> float | str:
    try:
        return float(cell)
    except ValueError:
        return cell


def _said(values: object) -> object:
    """Values without the tables that say nothing."""
    if isinstance(values, Mapping):
        kept = {key: _said(value) for key, value in values.items()}
        return {key: value for key, value in kept.items() if value not in NOTHING}
    if isinstance(values, list):
        return [_said(value) for value in values]
    return values


def _hashed(raw: bytes) -> str:
    return hashlib.sha256(raw).hexdigest()


# Keys that came later: where a brief does not say them, its earlier digest does not know them.
_LATER: Mapping[str, tuple[str, ...]] = {
    "calendar": ("holidays", "watering", "prepare"),
    "place": ("town",),
    "lawn": ("part", "green_in_winter", "runners", "leaf", "thin_share"),
    "water": ("timer", "hours_per_day"),
    "work": ("by",),
    "delivery": ("least_load_m3", "form", "heap_area_m2"),
    "local": ("quiet_days", "machine_hours"),
    "soil_test": (
        "lime_rate_g_m2",
        "buffer_ph",
        "buffer_method",
        "free_lime",
        "salts_ds_m",
        "sar",
        "gypsum_rate_g_m2",
        "of",
    ),
    "history": ("sowings", "moss", "lime"),
    "prices": (
        "currency",
        "mix_per_m3",
        "topsoil_per_m3",
        "sprigs_per_m3",
        "seed_per_kg",
        "lime_per_kg",
        "sod_per_m2",
        "plug",
        "bale",
        "hire",
        "load",
    ),
    "site": ("sun_hours", "thin_cause", "cleared", "ground", "rock_depth_mm"),
}


def _with_unsaid(brief: Brief) -> str:
    """The digest of the values of a brief with those that it does not say, as it was before there
    were the keys of a later program."""
    if brief.water.permit is None:
        # A permit that nobody spoke of was written down as none.
        brief = brief.model_copy(update={"water": brief.water.model_copy(update={"permit": False})})
    values = brief.model_dump_json(exclude=_unsaid(brief))
    return _hashed(values.encode())


def _unsaid(brief: Brief) -> dict[str, Any]:
    """What of the later keys a brief does not say."""
    unsaid: dict[str, Any] = {"language": True} if brief.language is None else {}
    for table, keys in _LATER.items():
        left = {key for key in keys if getattr(getattr(brief, table), key) in (None, (), [])}
        if left == type(getattr(brief, table)).model_fields.keys():
            # A table that came later is not known at all.
            unsaid[table] = True
        elif left:
            unsaid[table] = dict.fromkeys(left, True)
    anywhere = {n: {"zone"} for n, part in enumerate(brief.lawn.part) if part.zone is None}
    if anywhere:
        unsaid.setdefault("lawn", {})["part"] = anywhere
    return unsaid
