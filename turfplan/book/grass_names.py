"""Which grass of the book people mean by a name, where they live."""

import unicodedata
from collections.abc import Mapping
from functools import lru_cache

from turfplan.book.entries import Book, GrassName


def plain_name(said: str) -> str:
    """A name as it is compared: letters and digits alone, without capitals and accents."""
    parts = unicodedata.normalize("NFKD", said.casefold())
    return "".join(c for c in parts if c.isalnum())


def grasses_called(book: Book, said: str, country: str | None) -> tuple[str, ...]:
    """The grasses that a name may mean: one, several where the country does not tell, or none.

    What a country calls so goes before all else there, then an id of the book as it is written,
    then every grass that bears the name anywhere.
    """
    rows = [row for row in _rows(book).get(plain_name(said), ()) if country not in row.unlike]
    here = [row.grass for row in rows if country in row.countries]
    if here:
        return tuple(dict.fromkeys(here))
    if said in book.species:
        return (said,)
    own = [
        grass.id
        for grass in book.species.values()
        if plain_name(said) in (plain_name(grass.id), plain_name(grass.name))
    ]
    return tuple(dict.fromkeys([*own, *(row.grass for row in rows)]))


def names_said(book: Book) -> tuple[str, ...]:
    """Every name that some row of the book knows."""
    return tuple(dict.fromkeys(said for row in book.grass_names for said in row.said))


def countries_of(book: Book, said: str, grass: str) -> tuple[str, ...]:
    """The countries in which a grass bears a name, where the book says which."""
    rows = (row for row in _rows(book).get(plain_name(said), ()) if row.grass == grass)
    return tuple(dict.fromkeys(country for row in rows for country in row.countries))


@lru_cache(maxsize=16)
def _rows(book: Book) -> Mapping[str, tuple[GrassName, ...]]:
    found: dict[str, tuple[GrassName, ...]] = {}
    for row in book.grass_names:
        for key in dict.fromkeys(map(plain_name, row.said)):
            found[key] = (*found.get(key, ()), row)
    return found
