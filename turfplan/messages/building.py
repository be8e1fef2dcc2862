"""Builds what is read of catalogs: compiled sentences, and a typed function for each key.

`python -m turfplan.messages.building` after a change of a catalog; a test says when it was
forgotten. Needs Babel, which only developers have.
"""

import sys
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from io import BytesIO
from keyword import iskeyword
from pathlib import Path
from string import Formatter
from textwrap import wrap

from turfplan.errors import Problem, TurfplanError, nearest
from turfplan.messages.catalog import SHEETS_FOLDER

HERE = Path(__file__).parent
PHRASES = HERE.parent / "phrases"
# The columns that a line of the project may have.
WIDTH = 100
# What only the telling itself uses: it has no function.
INNER = "common"
# The files whose sentences printed sheets say themselves, which have a catalog of their own too:
# printing a plan, whose texts are told, asks for no other.
OF_SHEETS = frozenset(
    (
        INNER,
        "changes_page",
        "charts",
        "facts",
        "glossary",
        "ground_sheet",
        "handover",
        "items",
        "maps",
        "order_sheet",
        "parts",
        "reasons",
        "season_book",
        "sheet",
        "sign",
        "slips_told",
        "units",
        "watering_card",
        "week",
    )
)
# The kinds of values, with the types that a function takes for them.
KINDS = {
    "text": "str",
    "count": "int",
    "plural": "int",
    "quantity": "Quantity",
    "sold": "Sold",
    "printed": "Printed",
    "amount": "Amounted",
    "number": "Number",
    "day": "Day",
    "days": "Days",
    "month_day": "DateInYear",
    "month": "Month",
    "weekday": "NamedWeekday",
    "clock": "Clock",
    "rod_reading": "RodReading",
    "spot": "SurveySpot",
    "list": "Listed",
    "message": "Message",
}
PLAIN = ("str", "int", "Message")
HEAD = ("Language", "Plural-Forms", "MIME-Version", "Content-Type", "Content-Transfer-Encoding")


@dataclass(frozen=True, slots=True)
class Entry:
    """One message of a catalog: its key, its sentences (two with plurals), its values' kinds."""

    key: str
    texts: tuple[str, ...]
    kinds: tuple[tuple[str, str], ...]


def read_entries(path: Path, faults: list[Problem]) -> list[Entry]:
    """The messages of one file of a catalog, in order.

    What is wrong with them is added to `faults`.
    """
    from babel.messages.pofile import read_po

    entries = []
    with path.open("rb") as file:
        catalog = read_po(file)
    for message in catalog:
        if not message.id:
            continue
        key = message.id if isinstance(message.id, str) else message.id[0]
        texts = (
            (message.string,) if isinstance(message.string, str) else tuple(message.string or ())
        )
        where = f"{path.parent.name}/{path.name}: {key}"
        kinds = tuple(_declared(where, message.auto_comments, faults))
        entry = Entry(key, texts, kinds)
        entries.append(entry)
        _check(where, path.stem, entry, faults)
    return entries


def _declared(
    where: str, comments: Iterable[str], faults: list[Problem]
) -> Iterator[tuple[str, str]]:
    """The values of a message, from its comment `#. name: kind, name: kind`."""
    for part in ", ".join(comments).split(","):
        if not part.strip():
            continue
        name, _, kind = (piece.strip() for piece in part.partition(":"))
        if kind not in KINDS:
            near = nearest(kind, KINDS)
            faults.append(
                Problem(
                    where,
                    f"{name} is of an unknown kind",
                    kind,
                    ", ".join(KINDS),
                    near and f"did you mean {near!r}?",
                )
            )
            continue
        yield name, kind


def _check(where: str, area: str, entry: Entry, faults: list[Problem]) -> None:
    declared = {name for name, _ in entry.kinds}
    placed = {name for text in entry.texts for name in places(text)}
    numbers = {name for name, kind in entry.kinds if kind == "plural"}
    if not all(entry.texts):
        faults.append(Problem(where, "has no sentence"))
    if area != INNER and not entry.key.startswith(f"{area}."):
        faults.append(
            Problem(where, "its key begins with another name than its file", entry.key, f"{area}.…")
        )
    for name in sorted(placed - declared):
        faults.append(Problem(where, "a place has no declared kind", name, f"#. {name}: kind"))
    for name in sorted(declared - placed - numbers):
        faults.append(Problem(where, "a declared value has no place", name))
    if (len(entry.texts) > 1) != bool(numbers) or (numbers and numbers != {"n"}):
        faults.append(
            Problem(
                where,
                "a sentence with a plural declares `n: plural`, and no other does",
                ", ".join(numbers) or None,
            )
        )


def places(text: str) -> tuple[str, ...]:
    """The names of the places of a sentence; amounts in two units (`{3 in|8 cm}`) are none."""
    return tuple(
        name for _, name, _, _ in Formatter().parse(text) if name is not None and "|" not in name
    )


def function_of(entry: Entry, area: str) -> str:
    """The typed function that makes the message of a key."""
    name = entry.key.removeprefix(f"{area}.").replace(".", "_")
    name += "_" if iskeyword(name) else ""
    given = tuple(f"{value}: {KINDS[kind]}" for value, kind in entry.kinds)
    pairs = tuple(f'("{value}", {value})' for value, _ in entry.kinds)
    values = _bracketed(" " * 8, "(", pairs, "),", comma=len(pairs) == 1)
    made = (f'"{entry.key}"', values.strip(" ,")) if pairs else (f'"{entry.key}"',)
    return "\n".join(
        (
            "\n",
            _bracketed("", f"def {name}(", ("*", *given) if given else (), ") -> Message:"),
            _docstring(entry.texts[-1]),
            _bracketed("    ", "return Message(", made, ")"),
            "",
        )
    )


def _bracketed(
    indent: str, head: str, parts: tuple[str, ...], tail: str, *, comma: bool = False
) -> str:
    """Parts between brackets, on as few lines as the project's formatter gives them.

    `comma` keeps the one that makes a tuple of its only part.
    """
    flat = ", ".join(parts) + ("," if comma else "")
    if "\n" not in flat:
        if len(whole := f"{indent}{head}{flat}{tail}") <= WIDTH:
            return whole
        if len(middle := f"{indent}    {flat}") <= WIDTH:
            return f"{indent}{head}\n{middle}\n{indent}{tail}"
    lines = (f"{indent}    {part},\n" for part in parts)
    return f"{indent}{head}\n{''.join(lines)}{indent}{tail}"


def _docstring(sentence: str) -> str:
    """A sentence as a function's docstring."""
    words = sentence.strip().replace("\\", "\\\\").replace('"', '\\"')
    if len(words) + 10 <= WIDTH:
        return f'    """{words}"""'
    # The formatter draws the closing quotes up to a line that stands alone, too long or not.
    width = WIDTH if len(words) + 7 > WIDTH else WIDTH - 3
    lines = wrap(
        f'"""{words}',
        width,
        initial_indent="    ",
        subsequent_indent="    ",
        break_long_words=False,
        break_on_hyphens=False,
    )
    return "\n".join((*lines, '    """'))


def module_of(area: str, entries: list[Entry]) -> str:
    """The module of typed functions of one file of the source catalog."""
    kinds = {KINDS[kind] for entry in entries for _, kind in entry.kinds}
    names = sorted({"Message", *(kinds - set(PLAIN))})
    made_by = "made from it by `turfplan.messages.building`"
    head = f'"""Messages of `messages/en/{area}.po`, {made_by}."""\n\n'
    imported = f"from turfplan.message import {', '.join(names)}\n"
    if len(imported) > WIDTH:
        listed = "".join(f"    {name},\n" for name in names)
        imported = f"from turfplan.message import (\n{listed})\n"
    return head + imported + "".join(function_of(e, area) for e in entries)


def compiled(files: Iterable[Path]) -> bytes:
    """The files of one language as one compiled catalog; the same bytes for the same sentences."""
    from babel.messages.catalog import Catalog
    from babel.messages.mofile import write_mo
    from babel.messages.pofile import read_po

    class Undated(Catalog):
        """A catalog whose head has no date and no version of the program that wrote it."""

        mime_headers = property(lambda self: [(k, v) for k, v in super().mime_headers if k in HEAD])

    whole = Undated()
    for path in sorted(files):
        with path.open("rb") as file:
            part = read_po(file)
        whole.locale, whole.charset = part.locale, part.charset
        for message in part:
            if message.id:
                whole[message.id] = message
    out = BytesIO()
    write_mo(out, whole)
    return out.getvalue()


def built(language: str = "en") -> dict[Path, bytes]:
    """Every file that is built from the catalogs of a language.

    Raises TurfplanError with all that is wrong with them.
    """
    faults: list[Problem] = []
    found: dict[Path, bytes] = {}
    seen: set[str] = set()
    files = sorted((HERE / language).glob("*.po"))
    for path in files:
        entries = read_entries(path, faults)
        faults += [
            Problem(f"{path.name}: {e.key}", "the key is used twice")
            for e in entries
            if e.key in seen
        ]
        seen |= {entry.key for entry in entries}
        if path.stem != INNER and language == "en":
            found[PHRASES / f"{path.stem}.py"] = module_of(path.stem, entries).encode()
    if faults:
        raise TurfplanError(faults)
    of_sheets = [path for path in files if path.stem in OF_SHEETS]
    return {
        HERE / f"{language}.mo": compiled(files),
        HERE / SHEETS_FOLDER / f"{language}.mo": compiled(of_sheets),
        **found,
    }


def main() -> None:
    """Write what is built from the catalogs."""
    for language in sorted(
        path.name for path in HERE.iterdir() if path.is_dir() and any(path.glob("*.po"))
    ):
        for path, content in built(language).items():
            if not path.is_file() or path.read_bytes() != content:
                path.write_bytes(content)
                sys.stdout.write(f"{path.relative_to(HERE.parent)}\n")


if __name__ == "__main__":
    main()
