"""Looks through the countries, states and local words that the book names."""

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from turfplan.errors import Problem, did_you_mean, one_of
from turfplan.message import Message
from turfplan.phrases import book_faults as phrases

if TYPE_CHECKING:
    from turfplan.files.reading.book_audit import Entries


def unknown_name(where: str, fault: Message, got: str, known: Iterable[str]) -> Problem:
    """A name that is none of those known: the nearest is the hint, and few are listed whole."""
    # A set has another order in every run.
    names = tuple(sorted(known) if isinstance(known, set | frozenset) else known)
    allowed = one_of(names) if len(names) <= 40 else None
    return Problem(where, fault, repr(got), allowed, did_you_mean(got, names))


def region_faults(entries: "Entries") -> Iterator[Problem]:
    """Countries and states that grasses and regions name, and local words for words that stand
    nowhere."""
    countries = entries.schema.countries
    named = [grass.name for grass in entries.species.values()]
    named += [
        text
        for o in entries.operations.values()
        for text in (o.name, o.title, o.machine_name)
        if text is not None
    ]
    for grass in entries.species.values():
        for name in set(grass.noxious_in) - countries.keys():
            yield unknown_name(
                f"species.toml: {grass.id}", phrases.names_country(), name, countries
            )
    for overlay in entries.overlays.values():
        where = f"regions/{overlay.id}.toml"
        states = tuple(
            state for country in overlay.countries for state in countries.get(country, ())
        )
        for name, fault, known in (
            *((name, phrases.names_country(), tuple(countries)) for name in overlay.countries),
            *((name, phrases.names_state(), states) for name in overlay.states),
        ):
            if name not in known:
                yield unknown_name(where, fault, name, known)
        for term in overlay.terms:
            if not any(term in text for text in named):
                yield Problem(where, phrases.local_word(), repr(term))


def grass_name_faults(entries: "Entries") -> Iterator[Problem]:
    """Grasses and countries that the names people say lead to."""
    countries = entries.schema.countries
    for name in entries.grass_names:
        where = f"names.toml: {name.said[0]}"
        if name.grass not in entries.ids("species"):
            yield unknown_name(where, phrases.names_grass(), name.grass, entries.ids("species"))
        for country in (*name.countries, *name.unlike):
            if country not in countries:
                yield unknown_name(where, phrases.names_country(), country, countries)
