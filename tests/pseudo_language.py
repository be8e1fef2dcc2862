"""A language made from the English catalog by program: every word in it is marked, so that one
without a mark was not told from a catalog.

The marks are the letters themselves: each ASCII letter becomes another one of the same case, so
that a text keeps its length and its capitals, and no word of it can be an English one.
"""

import re
from functools import cache
from io import BytesIO
from pathlib import Path

from babel.messages.catalog import Catalog
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po

from turfplan.book.words import english_of
from turfplan.files.reading.book import load_book
from turfplan.messages import building

LANGUAGE = "qps"  # a code that no language has: ISO 639 keeps qaa to qtz for private use
PLAIN = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"
MARKED = "αβςδεφγηιϳκλμνοπθρστυϖωχψζΑΒΣΔΕΦΓΗΙЈΚΛΜΝΟΠΘΡЅΤΥѴΩΧΨΖ"
_MARKS = str.maketrans(PLAIN, MARKED)
# What stands in braces is a place, in tags markup, in back-quotes a command: they are no words.
_KEPT = re.compile(r"(\{[^}|]*\}|<[^>]*>|`[^`]*`|&\w+;)")
_BOTH = re.compile(r"\{([^}|]*)\|([^}]*)\}")


def marked(text: str) -> str:
    """An English sentence with every word marked; places stay, units of amounts too."""
    return "".join(
        piece if _KEPT.fullmatch(piece) or _BOTH.fullmatch(piece) else piece.translate(_MARKS)
        for piece in re.split(r"(\{[^}]*\}|<[^>]*>|`[^`]*`|&\w+;)", text)
    )


@cache
def pseudo_catalog() -> bytes:
    """The compiled catalog of the pseudo-language, with the book's own words."""
    catalog = Catalog(locale="en")
    for path in sorted((building.HERE / "en").glob("*.po")):
        with path.open("rb") as file:
            for message in read_po(file):
                if message.id:
                    texts = message.string
                    catalog.add(
                        message.id,
                        marked(texts)
                        if isinstance(texts, str)
                        else tuple(marked(t) for t in texts or ()),
                    )
    for key, text in english_of(load_book()).items():
        catalog.add(key, marked(text))
    out = BytesIO()
    write_mo(out, catalog)
    return out.getvalue()


def install(folder: Path) -> None:
    """Put the pseudo-language into a folder of catalogs."""
    (folder / f"{LANGUAGE}.mo").write_bytes(pseudo_catalog())
