"""Finds the sentence of a key in a language.

Catalogs are gettext's: translators have tools for them, plural rules come with each language, and a
compiled one is read in a millisecond without another library. A key is the msgid; English is a
language like any other, and the first that a key must have. `messages.building` compiles
`LANGUAGE/*.po` into `LANGUAGE.mo`.
"""

import gettext
import os
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from pathlib import Path

from turfplan.errors import Problem, TurfplanError, did_you_mean, one_of
from turfplan.phrases import files as phrases

SOURCE = "en"
# Where further languages may lie, beside those that come with the package: one folder of compiled
# catalogs.
MORE = "TURFPLAN_CATALOGS"
# The folder beside a catalog for that of what sheets say themselves: an eighth of
# the whole, and all that printing asks for.
SHEETS_FOLDER = "sheets"


class Catalog:
    """The sentences of one language by key, and the words of the book in it."""

    def __init__(
        self, language: str, sentences: gettext.NullTranslations, book: Mapping[str, str]
    ) -> None:
        self.language = language
        self._sentences = sentences
        self._book = book

    def template(self, key: str, count: int | None = None) -> str:
        """The sentence of a key, in the plural form of `count` where there is one.

        Raises KeyError for an unknown key.
        """
        text = (
            self._sentences.gettext(key)
            if count is None
            else self._sentences.ngettext(key, key, count)
        )
        if text == key:
            # The book's own words stand beside their rule; in English no catalog repeats them.
            return self._book[key]
        return text

    def has(self, key: str) -> bool:
        """Whether the language has that key."""
        return self._sentences.gettext(key) != key or key in self._book


def languages() -> tuple[str, ...]:
    """The languages there is a catalog of."""
    return tuple(
        sorted(
            {path.name.removesuffix(".mo") for folder in _folders() for path in folder.glob("*.mo")}
        )
    )


def complete_languages(book: Mapping[str, str]) -> tuple[str, ...]:
    """The languages in which every sentence of the program and of the book is there; `book` are its
    English words by key.
    """
    needed = {*_keys(place_of(SOURCE)), *book}
    return tuple(name for name in languages() if name == SOURCE or needed <= _keys(place_of(name)))


@cache
def _keys(place: Path) -> frozenset[str]:
    """The keys that a catalog has a sentence of; of one with plural forms, its first."""
    return _keys_in(_whole(place))


def _keys_in(sentences: gettext.GNUTranslations) -> frozenset[str]:
    # gettext offers no list of them.
    catalog = sentences._catalog  # type: ignore[attr-defined]
    keys = (key[0] if isinstance(key, tuple) else key for key in catalog)
    return frozenset(key for key in keys if key)


def catalog_of(language: str, book: Mapping[str, str] | None = None) -> Catalog:
    """The catalog of a language; raises TurfplanError where there is none.

    `book` are the English words of the book by key; another language has its own of them in its
    catalog.
    """
    return Catalog(language, _compiled(place_of(language)), book or {})


def place_of(language: str) -> Path:
    """Where the compiled catalog of a language lies; raises TurfplanError where there is none."""
    for folder in _folders():
        path = folder / f"{language}.mo"
        if path.is_file():
            return path
    known = languages()
    hint = did_you_mean(language, known)
    raise TurfplanError(
        Problem("language", phrases.no_catalog(), repr(language), one_of(known), hint)
    )


class _AskedLater(gettext.NullTranslations):
    """The whole catalog of a language, which is read when it is first asked for a key whose `kin`,
    those with the same beginning, stand elsewhere.
    """

    def __init__(self, place: Path, kin: frozenset[str]) -> None:
        super().__init__()
        self._place, self._kin = place, kin

    def gettext(self, message: str) -> str:
        """The sentence of a key; the key where there is none."""
        if _beginning(message) in self._kin:
            return message
        return _whole(self._place).gettext(message)

    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        """The sentence of a key for so many."""
        return _whole(self._place).ngettext(msgid1, msgid2, n)


def _beginning(key: str) -> str:
    return key.partition(".")[0]


@cache
def _compiled(place: Path) -> gettext.NullTranslations:
    """The catalog of a language; where sheets have one of their own, that with the whole behind."""
    of_sheets = place.parent / SHEETS_FOLDER / place.name
    if not of_sheets.is_file():
        return _whole(place)
    found = _read(of_sheets)
    # Keys with one beginning stand in one file, and a file is there whole or not at all.
    found.add_fallback(_AskedLater(place, frozenset(map(_beginning, _keys_in(found)))))
    return found


@cache
def _whole(place: Path) -> gettext.GNUTranslations:
    return _read(place)


def _read(place: Path) -> gettext.GNUTranslations:
    with place.open("rb") as file:
        return gettext.GNUTranslations(file)


def _folders() -> tuple[Path, ...]:
    packaged = Path(str(files("turfplan"))) / "messages"
    more = os.environ.get(MORE)
    return (packaged, Path(more)) if more else (packaged,)
