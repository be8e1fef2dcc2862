"""What is sown where: the grasses of the seed with their shares, and the parts of the lawn."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from turfplan.book.entries import Book
from turfplan.book.words import grass_name
from turfplan.message import Message, listed
from turfplan.phrases import seed_mix as phrases
from turfplan.records.book_names import of_species
from turfplan.records.fact_names import SpeciesFact


@dataclass(frozen=True, slots=True, eq=False)
class SownArea:
    """A part of the lawn that is sown alike: its share of the whole lawn, its grasses and the share
    of each in the stand, 0 to 1; `name` is None for the lawn itself."""

    share: float
    grasses: Mapping[str, float]
    name: Message | None = None


def grasses_of(areas: Sequence[SownArea]) -> tuple[str, ...]:
    """Every grass that is sown somewhere, once."""
    return tuple(dict.fromkeys(grass for area in areas for grass in area.grasses))


def rates_g_m2(
    book: Book, area: SownArea, fact: SpeciesFact, asked: float | None = None
) -> dict[str, float]:
    """Seed of each grass of an area, g/m2, so that its share of the seeds is that of the stand.

    Each grass alone would be sown at the rate of `fact`; of a mixture each takes the part of its
    own rate that its seeds stand for, so that the parts make one whole. `asked` is the rate that
    the owner wants in all.
    """
    if len(area.grasses) == 1:
        (grass,) = area.grasses
        return {grass: asked or book.si(of_species(grass, fact))}
    weights = {
        grass: share * book.si(of_species(grass, "thousand_seeds"))
        for grass, share in area.grasses.items()
    }
    whole = (
        sum(weights.values()) / asked
        if asked
        else sum(w / book.si(of_species(grass, fact)) for grass, w in weights.items())
    )
    return {grass: weight / whole for grass, weight in weights.items()}


def germination_days(book: Book, grasses: Sequence[str]) -> tuple[float, float]:
    """The days until the first seed of the quickest grass is up, and the last of the slowest."""
    days = [
        fact
        for grass in grasses
        if (fact := book.get(of_species(grass, "germination_days"))) is not None
    ] or [book.fact("seeding.germination_days")]
    return min(fact.low_si for fact in days), max(fact.high_si for fact in days)


def slowest(book: Book, grasses: Sequence[str]) -> str:
    """The grass whose seed is up last."""
    return max(grasses, key=lambda grass: germination_days(book, (grass,))[1])


def seed_name(book: Book, grasses: Sequence[str]) -> Message:
    """What the seed is called within a sentence: its grass, or the grasses of a mixture."""
    names = [grass_name(book, grass) for grass in grasses]
    return names[0] if len(names) == 1 else phrases.mixture(grasses=listed(names, "and"))


def main_grass(areas: Sequence[SownArea]) -> str:
    """The grass that most of the lawn is sown with."""
    covers: dict[str, float] = {}
    for area in areas:
        for grass, share in area.grasses.items():
            covers[grass] = covers.get(grass, 0.0) + area.share * share
    return max(covers, key=lambda grass: covers[grass])
