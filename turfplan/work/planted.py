"""Whether plants go in and no seed: asked for, or by the grass of a lawn that is made anew."""

from turfplan.book.entries import Book
from turfplan.records.brief import Brief


def plants(brief: Brief, book: Book) -> bool:
    """Whether a brief plants: a lawn made anew is planted where its grass gives no seed, or where
    the brief says in which form it is bought."""
    seeding = brief.seeding
    if seeding.intent != "renovate":
        return seeding.intent == "plant"
    grass = book.species[seeding.species or brief.dominant.species]
    return bool(grass.plantable) and (seeding.form is not None or not grass.seedable)
