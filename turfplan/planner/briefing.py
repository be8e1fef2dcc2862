"""Checks the names and the sense of a brief against the book."""

from collections.abc import Iterable

from turfplan.agronomy import Book, Species
from turfplan.amounts.sprinkler import zones
from turfplan.brief import Brief
from turfplan.errors import Problem, TurfplanError, nearest
from turfplan.fertilizer import parse_analysis


def check_brief(brief: Brief, book: Book) -> tuple[Problem, ...]:
    """Every name that the book does not know, and every wish that contradicts itself."""
    found: list[Problem] = []
    for number, grass in enumerate(brief.lawn.grass):
        where = "lawn.grass" if len(brief.lawn.grass) == 1 else f"lawn.grass.{number}.species"
        found += _known(where, grass.species, book.species, "grass")
    if brief.lawn.soil:
        found += _known(
            "lawn.soil", brief.lawn.soil.strip().lower().replace(" ", "_").replace("-", "_"), book.soils, "soil texture"
        )
    if brief.leveling.material != "auto":
        found += _known("leveling.material", brief.leveling.material, ("auto", *book.mixes), "mix")
    for item in brief.leveling.parts or {}:
        found += _known(f"leveling.parts.{item}", item, book.materials, "material")
    if brief.seeding.species:
        found += _known("seeding.species", brief.seeding.species, book.species, "grass")
    if brief.season.campaign != "auto":
        found += _known("season.campaign", brief.season.campaign, ("auto", *book.campaigns), "campaign")
    if brief.place.region:
        found += _known("place.region", brief.place.region, book.region_ids, "region")
    return tuple(found + list(_zones(brief, book)) + list(_sense(brief, book)) + list(_bags_and_cans(brief, book)))


def _zones(brief: Brief, book: Book) -> Iterable[Problem]:
    """Faults of zones: grasses that the book does not know or that keep other seasons, and depths said twice."""
    lawn = book.species.get(brief.dominant.species)
    for number, shape in enumerate(brief.lawn.shape, 1):
        where = f"lawn.shape.{number}"
        grass = book.species.get(shape.grass) if shape.grass else None
        if shape.grass and grass is None:
            yield from _known(f"{where}.grass", shape.grass, book.species, "grass")
        elif grass is not None and lawn is not None and grass.season != lawn.season:
            yield Problem(
                f"{where}.grass", f"{grass.name} grows in the {grass.season} season and {lawn.name} in the {lawn.season}: one plan cannot suit both",
                repr(shape.grass), f"a {lawn.season}-season grass", "give this part a brief of its own, as a lawn of its own",
            )  # fmt: skip
        if shape.depth_mm is not None and brief.leveling.survey is not None:
            yield Problem(
                f"{where}.depth", "the survey says how deep; give the depth once", None, "depth or leveling.survey"
            )
        if shape.depth_mm is not None and brief.leveling.lows:
            yield Problem(f"{where}.depth", "the depth is said twice", None, "depth of a zone or leveling.lows")


def _known(where: str, name: str, known: Iterable[str], what: str) -> list[Problem]:
    names = tuple(known)
    if name in names:
        return []
    near = nearest(name, names)
    return [Problem(where, f"unknown {what}", repr(name), ", ".join(names), near and f"did you mean {near!r}?")]


def _bags_and_cans(brief: Brief, book: Book) -> Iterable[Problem]:
    """Faults of catch cans, flows and the analysis on a bag."""
    try:
        zones(brief.water, book, brief.lawn.area_m2 or 100.0)
    except TurfplanError as error:
        yield from error.problems
    if brief.feeding.analysis:
        try:
            parse_analysis(brief.feeding.analysis).product_g_m2(1.0)
        except TurfplanError as error:
            yield from (
                Problem(p.where or "feeding.analysis", p.message, p.got, p.allowed, p.hint) for p in error.problems
            )


def _sense(brief: Brief, book: Book) -> Iterable[Problem]:
    """Wishes that contradict the grass, or each other; a grass that the book does not know is told elsewhere."""
    sown = book.species.get(brief.seeding.species or brief.dominant.species)
    lawn = book.species.get(brief.dominant.species)
    if sown is None or lawn is None:
        return
    yield from _seed_or_plants(brief, sown)
    yield from _out_of_season(brief, lawn)
    yield from _nothing_comes_of_it(brief)


def _seed_or_plants(brief: Brief, sown: Species) -> Iterable[Problem]:
    """Seed wished of a grass that gives none, plants of one that is sown, or a form in which it is not sold."""
    intent = brief.seeding.intent
    if intent in ("patch", "overseed", "renovate", "dormant") and not sown.seedable:
        yield Problem(
            "seeding.intent", f"{sown.name} is not grown from seed", repr(intent), "none, plant",
            'plant plugs or sod: intent = "plant"',
        )  # fmt: skip
    if intent == "plant" and not sown.plantable:
        yield Problem(
            "seeding.intent",
            f"{sown.name} is sown, not planted",
            repr(intent),
            "none, patch, overseed, renovate, dormant",
        )
    if intent == "plant" and brief.seeding.form and brief.seeding.form not in sown.plantable:
        yield Problem(
            "seeding.form",
            f"{sown.name} is not sold as {brief.seeding.form}",
            repr(brief.seeding.form),
            ", ".join(sown.plantable),
        )


def _out_of_season(brief: Brief, lawn: Species) -> Iterable[Problem]:
    """A way of sowing that belongs to lawns of the other season."""
    intent = brief.seeding.intent
    if intent == "dormant" and lawn.season == "warm":
        yield Problem(
            "seeding.intent", "warm-season grass is not sown dormant", repr(intent), "none, overseed, renovate, plant"
        )
    if intent == "winter_overseed" and lawn.season == "cool":
        yield Problem(
            "seeding.intent", "winter overseeding is for warm-season lawns", repr(intent), "none, patch, overseed, renovate, dormant",
            'a cool-season lawn stays green: use "overseed"',
        )  # fmt: skip


def _nothing_comes_of_it(brief: Brief) -> Iterable[Problem]:
    """Briefs that ask for no work at all, or for work that would fail without water."""
    intent = brief.seeding.intent
    filled = brief.leveling.depth_mm or brief.leveling.lows or brief.leveling.survey
    if intent == "none" and not filled and not any(shape.depth_mm for shape in brief.lawn.shape):
        yield Problem(
            "seeding.intent", "nothing is to be done: no fill and no seed", repr(intent), None,
            'give [leveling] depth, or a seeding intent such as "overseed"',
        )  # fmt: skip
    if brief.water.possible is False and intent in ("overseed", "renovate", "plant", "patch", "winter_overseed"):
        yield Problem(
            "water.possible", f"without water nothing can be sown or planted (intent {intent!r})", "False", None,
            'use intent = "none", or "dormant" for cool-season grass',
        )  # fmt: skip
