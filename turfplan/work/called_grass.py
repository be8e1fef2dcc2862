"""Puts the book's grasses where a brief calls them by the names of its country."""

from turfplan.book.entries import Book
from turfplan.book.grass_names import grasses_called
from turfplan.records.brief import Brief
from turfplan.work.unnamed_grass import UNNAMED


def with_book_grasses(brief: Brief, book: Book, country: str | None) -> Brief:
    """The brief with the ids of its grasses; a name that means none or several stays as it is."""

    def id_of(said: str) -> str:
        meant = () if said in UNNAMED else grasses_called(book, said, country)
        return meant[0] if len(meant) == 1 else said

    def of(said: str | None) -> str | None:
        return None if said is None else id_of(said)

    lawn, seeding, history = brief.lawn, brief.seeding, brief.history
    grass = tuple(g.model_copy(update={"species": id_of(g.species)}) for g in lawn.grass)
    part = tuple(p.model_copy(update={"grass": of(p.grass)}) for p in lawn.part)
    shape = tuple(s.model_copy(update={"grass": of(s.grass)}) for s in lawn.shape)
    sowings = tuple(s.model_copy(update={"species": of(s.species)}) for s in history.sowings)
    return brief.model_copy(
        update={
            "lawn": lawn.model_copy(update={"grass": grass, "part": part, "shape": shape}),
            "seeding": seeding.model_copy(update={"species": of(seeding.species)}),
            "history": history.model_copy(update={"sowings": sowings}),
        }
    )
