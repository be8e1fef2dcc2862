"""Names the grasses of a lawn whose owner could not: by three looks, else by what lives there."""

from collections.abc import Sequence

from turfplan.book.entries import Book, Species
from turfplan.book.words import grass_name
from turfplan.climate.record import Climate
from turfplan.message import Message, listed
from turfplan.phrases import unnamed_grass as phrases
from turfplan.records.book_names import of_species
from turfplan.records.brief import Brief, GrassShare
from turfplan.work.light import Light

UNKNOWN, MIXED = "unknown", "mixed"
# What a brief may say where it cannot name a grass.
UNNAMED = (UNKNOWN, MIXED)
# Of more grasses than these nothing could be planned that suits each.
MOST = 3


def is_unnamed(brief: Brief) -> bool:
    """Whether the lawn's grass, or the largest part of it, has no name."""
    return brief.dominant.species in UNNAMED


def with_named_grass(
    brief: Brief, book: Book, climate: Climate, *, alone: bool = False
) -> tuple[Brief, list[Message]]:
    """The brief with grasses for `unknown` and `mixed`, and what was made of them.

    The strictest comes first: what is planned is held to what each of them bears. A part of a
    stand that has no name takes that of the largest part that has one. Care `alone` has no passes.
    """
    grasses = brief.lawn.grass
    if not any(grass.species in UNNAMED for grass in grasses):
        return brief, []
    if not is_unnamed(brief):
        named = tuple(
            GrassShare(species=brief.dominant.species, share=g.share) if g.species in UNNAMED else g
            for g in grasses
        )
        note = phrases.part_of_stand(grass=grass_name(book, brief.dominant.species))
        return _with(brief, _merged(named)), [note]
    found = likely(brief, book, climate)
    shares = tuple(GrassShare(species=grass, share=1 / len(found)) for grass in found)
    names = listed([grass_name(book, grass) for grass in found], "or")
    looked = brief.lawn.green_in_winter is not None or brief.lawn.leaf is not None
    by_place = phrases.by_place_care if alone else phrases.by_place
    note = phrases.by_looks(grasses=names) if looked else by_place(grasses=names)
    missing = [
        message()
        for given, message in (
            (brief.lawn.green_in_winter, phrases.ask_winter),
            (brief.lawn.runners, phrases.ask_runners),
            (brief.lawn.leaf, phrases.ask_leaf),
        )
        if given is None
    ]
    asked = [phrases.ask(looks=listed(missing, "semicolon"))] if missing else []
    return _with(brief, shares), [note, *asked]


def _with(brief: Brief, grasses: tuple[GrassShare, ...]) -> Brief:
    return brief.model_copy(update={"lawn": brief.lawn.model_copy(update={"grass": grasses})})


def _merged(grasses: Sequence[GrassShare]) -> tuple[GrassShare, ...]:
    shares: dict[str, float] = {}
    for grass in grasses:
        shares[grass.species] = shares.get(grass.species, 0.0) + grass.share
    return tuple(GrassShare(species=name, share=share) for name, share in shares.items())


def likely(brief: Brief, book: Book, climate: Climate) -> tuple[str, ...]:
    """The grasses that fit what was seen, else those of lawns there, the strictest first.

    Where grass of either season may grow and nobody looked in winter, it is one of each.
    """
    seasons = _seasons(brief, book, climate)
    most = MOST if len(seasons) == 1 else 1
    found = [
        grass for season in seasons for grass in _of_season(brief, book, climate, season)[:most]
    ]
    return tuple(grass.id for grass in found)


def _of_season(brief: Brief, book: Book, climate: Climate, season: str) -> list[Species]:
    """The grasses of a season that fit, the strictest first."""
    lawn = brief.lawn
    light = Light(book, climate, None, brief.water.possible is not False)
    grasses = [entry for entry in book.species.values() if entry.season == season]
    living = [e for e in grasses if light.lives(e.id)] or grasses
    seen = lawn.runners is not None or lawn.leaf is not None
    # What somebody looked at may stand there only just.
    there = living if seen else [e for e in living if light.sure(e.id)] or living
    fits = [
        entry
        for entry in there
        if (lawn.runners is None or lawn.runners is (entry.habit != "bunch"))
        and (lawn.leaf is None or lawn.leaf == entry.leaf)
    ] or there
    common = [entry for entry in fits if entry.common] or fits
    return sorted(common, key=lambda entry: book.si(of_species(entry.id, "pass_cap")))


def _seasons(brief: Brief, book: Book, climate: Climate) -> tuple[str, ...]:
    """Cool- or warm-season grass: green in winter or brown, else by how cold midwinter is.

    Where warm-season grass stays green all winter too, the look tells nothing.
    """
    winter, green = min(climate.air_mean_c), brief.lawn.green_in_winter
    if winter <= book.si("site.cool_winter"):
        return ("cool",)
    if winter >= book.si("site.warm_winter"):
        return ("warm",)
    if green is not None:
        return ("cool",) if green else ("warm",)
    cool_first = winter < (book.si("site.cool_winter") + book.si("site.warm_winter")) / 2
    return ("cool", "warm") if cool_first else ("warm", "cool")
