"""Checks the names and the sense of a brief against the book."""

from collections.abc import Iterable
from dataclasses import replace

from turfplan.book.bag_analysis import parse_analysis
from turfplan.book.entries import Book, Species
from turfplan.book.grass_names import countries_of, grasses_called, names_said
from turfplan.book.words import grass_name
from turfplan.errors import Problem, TurfplanError, did_you_mean, one_of
from turfplan.message import Message, Quantity, length_mm, listed
from turfplan.phrases import brief_check as phrases
from turfplan.records.book_names import CARE
from turfplan.records.brief import Brief
from turfplan.site.outlines.shapes import area_of_shape
from turfplan.work.feeding.lime_need import TENTHS, ph_goal
from turfplan.work.planted import plants
from turfplan.work.unnamed_grass import UNNAMED
from turfplan.work.watering.sprinklers import zones


def check_brief(brief: Brief, book: Book) -> tuple[Problem, ...]:
    """Every name that the book does not know, and every wish that contradicts itself."""
    return (
        *_names(brief, book),
        *_zones(brief, book),
        *_parts(brief),
        *_sense(brief, book),
        *_contradicts_itself(brief, book),
        *_bags_and_cans(brief, book),
    )


def _names(brief: Brief, book: Book) -> Iterable[Problem]:
    """Names that the book does not know; those of the lawn's parts are told elsewhere."""
    lawn, leveling = brief.lawn, brief.leveling
    for number, grass in enumerate(lawn.grass):
        where = "lawn.grass" if len(lawn.grass) == 1 else f"lawn.grass.{number}.species"
        if grass.species not in UNNAMED:
            yield from _grass(where, grass.species, book, UNNAMED)
    for number, part in enumerate(lawn.part, 1):
        if part.grass:
            where = f"lawn.part.{number}.grass"
            yield from _grass(where, part.grass, book)
        if part.zone:
            drawn = [shape.name for shape in lawn.shape if shape.name and not shape.hole]
            unknown = phrases.unknown_zone()
            yield from _known(f"lawn.part.{number}.zone", part.zone, drawn, unknown)
    for number, sowing in enumerate(brief.history.sowings, 1):
        if sowing.species:
            where = f"history.sowings.{number}.species"
            yield from _grass(where, sowing.species, book)
    if lawn.soil:
        soil = lawn.soil.strip().lower().replace(" ", "_").replace("-", "_")
        known = (*book.soils, "unknown")
        yield from _known("lawn.soil", soil, known, phrases.unknown_soil())
    mixes = ("auto", *book.mixes)
    yield from _known("leveling.material", leveling.material, mixes, phrases.unknown_mix())
    for item in leveling.parts or {}:
        where = f"leveling.parts.{item}"
        yield from _known(where, item, book.materials, phrases.unknown_material())
    if sown := brief.seeding.species:
        yield from _grass("seeding.species", sown, book)
    campaign, campaigns = brief.season.campaign, ("auto", *book.campaigns)
    yield from _known("season.campaign", campaign, campaigns, phrases.unknown_campaign())
    if region := brief.place.region:
        yield from _known("place.region", region, book.region_ids, phrases.unknown_region())


def _parts(brief: Brief) -> Iterable[Problem]:
    """Parts that are as large as the lawn, where its area is typed, or as the zone they lie in."""
    lawn = brief.lawn
    drawn = {shape.name: area_of_shape(shape) for shape in lawn.shape if not shape.hole}
    for number, part in enumerate(lawn.part, 1):
        zone_m2 = drawn.get(part.zone) if part.zone else None
        if zone_m2 and (part.area_m2 or (part.share or 0.0) * sum(drawn.values())) >= zone_m2:
            yield Problem(f"lawn.part.{number}.zone", phrases.part_beyond_zone(), repr(part.zone))
    if lawn.area_m2 is None:
        return
    shares = [part.share or (part.area_m2 or 0.0) / lawn.area_m2 for part in lawn.part]
    if sum(shares) >= 1:
        yield Problem("lawn.part", phrases.parts_too_large(), f"{sum(shares):.0%}")


def _zones(brief: Brief, book: Book) -> Iterable[Problem]:
    """Faults of zones: grasses unknown to the book or of another season, depths said twice."""
    lawn = book.species.get(brief.dominant.species)
    for number, shape in enumerate(brief.lawn.shape, 1):
        where = f"lawn.shape.{number}"
        grass = book.species.get(shape.grass) if shape.grass else None
        if shape.grass and grass is None:
            yield from _grass(f"{where}.grass", shape.grass, book)
        elif grass is not None and lawn is not None and grass.season != lawn.season:
            yield _of_another_season(f"{where}.grass", book, grass, lawn)
        if shape.depth_mm is not None and brief.leveling.survey is not None:
            allowed = phrases.depth_or_survey()
            yield Problem(f"{where}.depth", phrases.survey_says(), None, allowed)
        if shape.depth_mm is not None and brief.leveling.lows:
            allowed = phrases.depth_or_lows()
            yield Problem(f"{where}.depth", phrases.depth_twice(), None, allowed)


def _of_another_season(where: str, book: Book, grass: Species, lawn: Species) -> Problem:
    """A part of the lawn whose grass grows while that of the rest sleeps."""
    names = grass_name(book, grass.id), grass_name(book, lawn.id)
    if lawn.season == "warm":
        message = phrases.cool_in_warm(grass=names[0], lawn=names[1])
        allowed = phrases.a_warm_grass()
    else:
        message = phrases.warm_in_cool(grass=names[0], lawn=names[1])
        allowed = phrases.a_cool_grass()
    return Problem(where, message, repr(grass.id), allowed, phrases.lawn_of_its_own())


def _known(where: str, name: str, known: Iterable[str], unknown: Message) -> list[Problem]:
    names = tuple(known)
    if name in names:
        return []
    return [Problem(where, unknown, repr(name), one_of(names), did_you_mean(name, names))]


def _grass(where: str, said: str, book: Book, also: tuple[str, ...] = ()) -> list[Problem]:
    problem = grass_fault(where, said, book, also)
    return [problem] if problem else []


def grass_fault(where: str, said: str, book: Book, also: tuple[str, ...] = ()) -> Problem | None:
    """What is wrong with the name of a grass: the book does not know it, or it means several.

    `also` are words that stand beside the book's grasses.
    """
    if said in book.species:
        return None
    meant = grasses_called(book, said, None)
    if len(meant) > 1:
        allowed = listed((_meant(book, said, grass) for grass in meant), "comma")
        fault = phrases.grass_of_several(n=len(meant))
        by_country = any(countries_of(book, said, grass) for grass in meant)
        hint = phrases.say_where_or_which_grass() if by_country else phrases.say_which_grass()
        return Problem(where, fault, repr(said), allowed, hint)
    known = (*book.species, *also)
    near = did_you_mean(said, known) or did_you_mean(said, names_said(book))
    return Problem(where, phrases.unknown_grass(), repr(said), one_of(known), near)


def _meant(book: Book, said: str, grass: str) -> Message:
    """One of the grasses that bear a name, and where they are called so."""
    name, countries = grass_name(book, grass), countries_of(book, said, grass)
    if not countries:
        return phrases.grass_meant(id=grass, grass=name)
    return phrases.grass_meant_in(id=grass, grass=name, countries=listed(countries))


def _bags_and_cans(brief: Brief, book: Book) -> Iterable[Problem]:
    """Faults of catch cans, flows and the analysis on a bag."""
    try:
        zones(brief.water, book, brief.lawn.area_m2 or 100.0)
    except TurfplanError as error:
        yield from error.problems
    if brief.feeding.analysis:
        try:
            bag = parse_analysis(brief.feeding.analysis)
            bag.product_g_m2(1.0)
        except TurfplanError as error:
            yield from (
                replace(problem, where=problem.where or "feeding.analysis")
                for problem in error.problems
            )
        else:
            if bag.phosphate_percent > 0 and brief.local.phosphorus == "banned":
                yield Problem(
                    "feeding.analysis",
                    phrases.phosphate_banned(),
                    repr(brief.feeding.analysis),
                    phrases.phosphate_free(),
                    phrases.phosphate_free_bag(),
                )


def _sense(brief: Brief, book: Book) -> Iterable[Problem]:
    """Wishes that contradict the grass, or each other; an unknown grass is told elsewhere."""
    sown = book.species.get(brief.seeding.species or brief.dominant.species)
    lawn = book.species.get(brief.dominant.species)
    if sown is None or lawn is None:
        return
    yield from _seed_or_plants(brief, book, sown)
    yield from _out_of_season(brief, lawn)
    yield from _no_winter_cover(brief, book, sown)
    yield from _lime_of_the_laboratory(brief, book)


def _seed_or_plants(brief: Brief, book: Book, sown: Species) -> Iterable[Problem]:
    """Seed of a grass that gives none, plants of one that is sown, or a form that is not sold."""
    intent, grass = brief.seeding.intent, grass_name(book, sown.id)
    planted = plants(brief, book)
    seeded = intent in ("patch", "overseed", "renovate", "dormant")
    if seeded and not planted and not sown.seedable:
        yield Problem(
            "seeding.intent",
            phrases.no_seed(grass=grass),
            repr(intent),
            "none, plant",
            phrases.plant_plugs(),
        )
    if intent == "plant" and not sown.plantable:
        yield Problem(
            "seeding.intent",
            phrases.not_planted(grass=grass),
            repr(intent),
            "none, patch, overseed, renovate, dormant",
        )
    if planted and brief.seeding.form and brief.seeding.form not in sown.plantable:
        yield Problem(
            "seeding.form",
            phrases.not_sold_as(grass=grass, form=brief.seeding.form),
            repr(brief.seeding.form),
            one_of(sown.plantable),
        )


def _out_of_season(brief: Brief, lawn: Species) -> Iterable[Problem]:
    """A way of sowing that belongs to lawns of the other season."""
    intent = brief.seeding.intent
    if intent == "dormant" and lawn.season == "warm":
        yield Problem(
            "seeding.intent",
            phrases.not_dormant(),
            repr(intent),
            "none, overseed, renovate, plant",
        )
    if intent == "winter_overseed" and lawn.season == "cool":
        yield Problem(
            "seeding.intent",
            phrases.winter_is_warm(),
            repr(intent),
            "none, patch, overseed, renovate, dormant",
            phrases.stays_green(),
        )


def _no_winter_cover(brief: Brief, book: Book, sown: Species) -> Iterable[Problem]:
    """A grass over a sleeping lawn that sleeps through the winter itself, or is not sown."""
    covers = may_cover_winter(book)
    if brief.seeding.intent != "winter_overseed" or brief.seeding.species is None:
        return
    if sown.id not in covers:
        yield Problem(
            "seeding.species",
            phrases.winter_cover_sleeps(grass=grass_name(book, sown.id)),
            repr(sown.id),
            one_of(covers),
            phrases.take_winter_cover(grass=grass_name(book, book.winter_cover)),
        )


def may_cover_winter(book: Book) -> tuple[str, ...]:
    """The grasses that may be sown over a lawn that sleeps in winter: they grow then, from seed."""
    return tuple(
        name for name, grass in book.species.items() if grass.season == "cool" and grass.seedable
    )


def _contradicts_itself(brief: Brief, book: Book) -> Iterable[Problem]:
    """Briefs that ask for work of which other keys say that it is not, and the other way round.

    A brief that asks for neither fill nor seed is one of care alone.
    """
    filled = brief.leveling.depth_mm or brief.leveling.lows or brief.leveling.survey
    filled = filled or any(shape.depth_mm for shape in brief.lawn.shape)
    campaign = brief.season.campaign
    if filled or brief.seeding.intent != "none":
        if campaign == CARE:
            hint = phrases.drop_care()
            yield Problem("season.campaign", phrases.care_with_work(), repr(campaign), None, hint)
        return
    something = _asked_instead(brief, book)
    if brief.lawn.condition == "bare":
        yield Problem("seeding.intent", phrases.bare_unsown(), "'none'", None, something)
    if campaign not in ("auto", CARE):
        yield Problem("season.campaign", phrases.nothing_to_do(), repr(campaign), None, something)
    for key in ("species", "form", "rate_g_m2"):
        if getattr(brief.seeding, key) is not None:
            where = f"seeding.{key.removesuffix('_g_m2')}"
            yield Problem("seeding.intent", phrases.seed_not_asked(key=where), "'none'", None, None)


def _asked_instead(brief: Brief, book: Book) -> Message:
    """How fill or seed is asked for, with the thatch that goes before it."""
    limit, thatch_mm = book.si("dethatch.limit"), brief.lawn.thatch_mm or 0.0
    lawn = book.species.get(brief.dominant.species)
    if thatch_mm > limit and lawn is not None and lawn.dethatch != "never":
        return phrases.thatch_goes_first(thatch=length_mm(thatch_mm), limit=length_mm(limit))
    return phrases.give_something()


def _lime_of_the_laboratory(brief: Brief, book: Book) -> Iterable[Problem]:
    """A lime rate beyond what any laboratory asks for, or what the pH bears out: a slip of its
    point or its unit. Acidity or a buffer pH beside it bears it out.
    """
    test = brief.soil_test
    rate = test.lime_rate_g_m2
    if rate is None or test.acidity_cmol_kg is not None or test.buffer_ph is not None:
        return
    most = book.si("lime.rate_most")
    if test.ph is not None:
        rise = ph_goal(brief, book, brief.dominant.species).goal - test.ph
        by_ph = max(rise, book.si("lime.rate_least_rise")) * book.si("lime.rate_most_a_unit")
        most = min(most, by_ph)
    if rate > most:
        yield Problem(
            "soil_test.lime_rate",
            phrases.much_lime(),
            phrases.lime_rate(rate=Quantity(rate, "rate")),
            phrases.lime_most(rate=Quantity(most, "rate")),
            phrases.lime_slip(tenth=Quantity(rate / TENTHS, "rate")),
        )
