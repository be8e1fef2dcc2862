"""Chooses what is sown where: by the stand, the light, and the parts of the lawn."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from turfplan.book.entries import Book
from turfplan.book.words import grass_name
from turfplan.message import Message, Number, listed, said
from turfplan.phrases import light as light_phrases
from turfplan.phrases import living as living_phrases
from turfplan.phrases import parts as part_phrases
from turfplan.phrases import seed_mix as phrases
from turfplan.phrases import unnamed_grass
from turfplan.records.brief import Brief
from turfplan.site.outlines.shapes import LawnZone
from turfplan.work.grass_for_place import not_bought, risks
from turfplan.work.light import (
    Light,
    daylight_h,
    hours_of,
    named_anyway,
    not_borne,
    too_dark,
)
from turfplan.work.parts import PlotPart
from turfplan.work.planted import plants
from turfplan.work.seed_mix import SownArea, grasses_of, rates_g_m2, seed_name

# Of a new lawn, or on bare ground, the old grass need not be what is sown.
ANEW = ("renovate",)


@dataclass(slots=True)
class SeedChoice:
    """What is sown where, what was assumed, what to mind, why nothing is sown at all, and the names
    of parts that are left unsown."""

    areas: list[SownArea] = field(default_factory=list)
    notes: list[Message] = field(default_factory=list)
    cautions: list[Message] = field(default_factory=list)
    refused: Message | None = None
    unsown: list[Message] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class Ground:
    """Where seed may go: the light, zones that were drawn, and parts that were named."""

    light: Light
    zones: Sequence[LawnZone]
    parts: Sequence[PlotPart]


def choose_seed(brief: Brief, book: Book, ground: Ground, *, unnamed: bool) -> SeedChoice:
    """What a brief's intent sows or plants where; no areas where it sows nothing.

    `unnamed` says that nobody could name the lawn's grass.
    """
    choice, intent, light = SeedChoice(), brief.seeding.intent, ground.light
    asked, dominant = brief.seeding.species, brief.dominant.species
    planted = plants(brief, book)
    if intent == "none":
        return choice
    if brief.site.shade_hours is not None and light.hours is not None:
        daylight = daylight_h(book, light.climate, book.species[dominant].season)
        choice.notes.append(
            light_phrases.from_shade(
                daylight=hours_of(daylight),
                shade=hours_of(brief.site.shade_hours),
                hours=hours_of(light.hours),
            )
        )
    if intent != "winter_overseed":
        choice.refused = too_dark(light)
    if intent == "winter_overseed":
        grasses: Mapping[str, float] = {asked or book.winter_cover: 1.0}
    elif asked is not None:
        grasses = {asked: 1.0}
        choice.cautions += named_anyway(light, (asked,))
        if light.too_little(asked):
            choice.refused = choice.refused or not_borne(light, asked)
    elif unnamed and (book.species[dominant].season == "warm" or planted):
        grasses = {dominant: 1.0}
        names = listed([grass_name(book, g.species) for g in brief.lawn.grass], "or")
        choice.refused = unnamed_grass.name_seed(grasses=names)
    else:
        grasses = _of_stand(_without_coarse(brief, book) if unnamed else brief, book, light, choice)
    _lay_out(choice, grasses, book, ground, plants=planted or intent == "winter_overseed")
    if intent != "winter_overseed":
        choice.refused = choice.refused or not_bought(light, grasses_of(choice.areas))
        choice.cautions += risks(light, choice.areas) if choice.refused is None else ()
    if not choice.areas:
        choice.refused = choice.refused or part_phrases.none_left()
    return choice


def _without_coarse(brief: Brief, book: Book) -> Brief:
    """The brief without grasses of broad blades, which would stand like weeds in an unnamed lawn
    of finer ones; with them where the blade was looked at."""
    finer = tuple(g for g in brief.lawn.grass if book.species[g.species].leaf != "broad")
    if brief.lawn.leaf is not None or not finer:
        return brief
    return brief.model_copy(update={"lawn": brief.lawn.model_copy(update={"grass": finer})})


def _of_stand(brief: Brief, book: Book, light: Light, choice: SeedChoice) -> Mapping[str, float]:
    """The grasses of the stand that live on its light, else another that does."""
    dominant = book.species[brief.dominant.species]
    if plants(brief, book):
        if not light.bears(dominant.id):
            choice.refused = choice.refused or not_borne(light, dominant.id)
        return {dominant.id: 1.0}
    stand = {
        grass.species: grass.share
        for grass in brief.lawn.grass
        if book.species[grass.species].seedable
        and book.species[grass.species].season == dominant.season
    } or {dominant.id: 1.0}
    living = _living(stand, book, light, choice)
    borne = {grass: share for grass, share in living.items() if light.bears(grass)}
    if light.dark or len(borne) == len(living):
        return living if light.dark else _told_mix(living, book, brief, choice)
    hours = hours_of(light.hours or 0.0)
    if borne:
        left = listed([grass_name(book, grass) for grass in living if grass not in borne], "and")
        kept = seed_name(book, tuple(borne))
        choice.notes.append(light_phrases.kept_of_stand(kept=kept, left=left, hours=hours))
        return _told_mix(borne, book, brief, choice)
    others = light.sown_others(dominant.season)
    anew = brief.seeding.intent in ANEW or brief.lawn.condition == "bare"
    if not others or not (anew or dominant.season == "cool"):
        choice.refused = not_borne(light, dominant.id)
        return {dominant.id: 1.0}
    choice.notes.append(
        light_phrases.sown_instead(
            sown=grass_name(book, others[0]),
            hours=hours,
            grass=grass_name(book, dominant.id),
            needs=hours_of(light.needs_h(dominant.id)),
        )
    )
    return {others[0]: 1.0}


def _living(
    stand: Mapping[str, float], book: Book, light: Light, choice: SeedChoice
) -> Mapping[str, float]:
    """The grasses of a mixed stand that live at the place; all of it where none does."""
    living = {grass: share for grass, share in stand.items() if light.lives(grass)}
    if not living or len(living) == len(stand):
        return stand
    left = listed([grass_name(book, grass) for grass in stand if grass not in living], "and")
    choice.notes.append(
        living_phrases.kept_of_stand(kept=seed_name(book, tuple(living)), left=left)
    )
    return living


def _told_mix(
    stand: Mapping[str, float], book: Book, brief: Brief, choice: SeedChoice
) -> Mapping[str, float]:
    """The grasses as shares of one stand; of several, what each is of the seeds and the weight."""
    total = sum(stand.values())
    shares = {grass: share / total for grass, share in stand.items()}
    if len(shares) > 1:
        new = brief.seeding.intent in ANEW or brief.lawn.condition == "bare"
        rates = rates_g_m2(
            book, SownArea(1.0, shares), "seed_rate_new" if new else "seed_rate_overseed"
        )
        whole = sum(rates.values())
        each = [
            phrases.part(
                share=Number(shares[grass], "percent"),
                grass=grass_name(book, grass),
                weight=Number(rate / whole, "percent"),
            )
            for grass, rate in rates.items()
        ]
        choice.notes.append(phrases.by_stand(grasses=listed(each, "and")))
    return shares


def _lay_out(
    choice: SeedChoice,
    grasses: Mapping[str, float],
    book: Book,
    ground: Ground,
    *,
    plants: bool,
) -> None:
    """Lays the grasses over the lawn; parts with a grass or light of their own are apart."""
    left = 1.0
    for name, share, grass, hours in _apart(ground):
        if grass is None and hours is None:
            choice.unsown.append(name)
            left -= share
            continue
        light = replace(ground.light, hours=hours)
        own = None if plants else _own_grasses(grasses, grass, light)
        if light.dark or own == {}:
            choice.notes.append(part_phrases.dark(part=name))
            choice.unsown.append(name)
            left -= share
        elif own is not None and own.keys() != grasses.keys():
            left -= share
            choice.areas.append(SownArea(share, own, name))
            sown = seed_name(book, tuple(own))
            choice.notes.append(phrases.area_apart(area=name, grasses=sown))
    if left > 1e-9:
        choice.areas.insert(0, SownArea(left, grasses))


def _apart(ground: Ground) -> Iterable[tuple[Message, float, str | None, float | None]]:
    """Zones and parts with a grass or light of their own, or without seed (neither of the two).

    Each with its name and share.
    """
    shade_h = ground.light.least_h
    for zone in ground.zones:
        if zone.grass or zone.sun == "shade":
            yield said(zone.name), zone.share, zone.grass, shade_h if zone.sun == "shade" else None
    for part in ground.parts:
        hours = part.sun_h
        if hours is None and part.kind == "shade":
            hours = shade_h
        if not part.sown:
            yield part.name, part.share, None, None
        elif part.grass is not None or hours is not None:
            yield part.name, part.share, part.grass, hours


def _own_grasses(
    grasses: Mapping[str, float], grass: str | None, light: Light
) -> Mapping[str, float] | None:
    """What is sown in a part by itself: its own grass, or those that live in its light.

    None where the lawn's seed does there too; empty where no seed does.
    """
    species = light.book.species
    if grass is not None:
        return {grass: 1.0} if species[grass].seedable else None
    borne = {g: share for g, share in grasses.items() if light.bears(g)}
    if len(borne) == len(grasses):
        return None
    if borne:
        return {g: share / sum(borne.values()) for g, share in borne.items()}
    season = species[next(iter(grasses))].season
    others = light.sown_others(season) if season == "cool" else ()
    return {others[0]: 1.0} if others else {}
