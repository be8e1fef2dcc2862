"""What a lawn may be sown or planted with where it lies, and what is said of the grass it has."""

from collections.abc import Iterable, Iterator, Sequence

from turfplan.book.words import book_message, grass_name
from turfplan.message import Message, listed
from turfplan.phrases import living as phrases
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.light import Light
from turfplan.work.living import Limit, limits_at
from turfplan.work.seed_mix import SownArea

# More grasses than these are not named in one sentence, nor tried as ways out.
MOST_NAMED = 3


def grasses_instead(light: Light, season: str) -> tuple[str, ...]:
    """Grasses that live at a place in its light: sure ones, those at home in its climate, those of
    the season asked for, the common ones, and those of least need for sun first. None that is a
    weed by law somewhere."""
    species = light.book.species
    named = [
        grass
        for grass, entry in species.items()
        if light.lives(grass) and light.bears(grass) and not entry.noxious_in
    ]

    def order(grass: str) -> tuple[bool, bool, bool, bool, float]:
        entry = species[grass]
        return (
            not light.sure(grass),
            light.climate.koppen not in entry.at_home_in,
            entry.season != season,
            not entry.common,
            light.needs_h(grass),
        )

    return tuple(sorted(named, key=order))


def not_bought(light: Light, grasses: Iterable[str]) -> Message | None:
    """Why grass is not bought that does not live here, and what would; None where all of it may."""
    for grass, limits in _of_each(light, grasses):
        beyond = [limit.why for limit in limits if limit.beyond]
        if beyond:
            others = _safe(light, grass)
            if not others:
                return phrases.not_bought(why=beyond[0])
            return phrases.not_bought_others(why=beyond[0], others=listed(others, "or"))
    return None


def risks(light: Light, areas: Iterable[SownArea]) -> Iterator[Message]:
    """What is said of grass that is bought although it lives here only just; a small part of a
    mixture is no risk to the lawn."""
    least = light.book.si("setting.counted_share")
    counted = [grass for area in areas for grass, share in area.grasses.items() if share >= least]
    for grass, limits in _of_each(light, counted):
        others = _safe(light, grass)
        for limit in limits:
            if not others:
                yield phrases.risk(why=limit.why)
            else:
                yield phrases.risk_others(why=limit.why, others=listed(others, "or"))


def told_of_stand(setting: ResolvedLawn) -> Iterator[Message]:
    """What is said of grass that grows here and does not live here for long, or only just.

    Nothing of grass that goes, nor of grass that is bought again, of which more is said.
    """
    sowing, light = setting.sowing, setting.plot.light
    if light is None or setting.on_open_ground or sowing.refused is not None:
        return
    bought = sowing.operation is not None and sowing.intent != "winter_overseed"
    again = sowing.grasses if bought else ()
    own = [part.species for part in setting.brief.lawn.grass if part.species not in again]
    for grass, limits in _of_each(light, own):
        others = _safe(light, grass)
        for limit in limits:
            if not limit.beyond:
                yield limit.why
            elif others:
                yield phrases.stands_others(why=limit.why, others=listed(others, "or"))
            else:
                yield phrases.stands(why=limit.why)


def noxious(setting: ResolvedLawn) -> Iterator[Message]:
    """What is said of grass that is bought although the law of the country calls it a weed."""
    if setting.sowing.operation is None or setting.sowing.refused is not None:
        return
    for grass in setting.sowing.grasses:
        if setting.country in setting.book.species[grass].noxious_in:
            name = grass_name(setting.book, grass)
            yield book_message(setting.book, "cautions.noxious_grass.text", {"grass": name})


def _of_each(light: Light, grasses: Iterable[str]) -> Iterator[tuple[str, tuple[Limit, ...]]]:
    return (
        (grass, limits_at(light.book, light.climate, grass, watered=light.watered))
        for grass in dict.fromkeys(grasses)
    )


def _safe(light: Light, grass: str) -> Sequence[Message]:
    """The names of a few grasses that surely live here in the stead of one."""
    season = light.book.species[grass].season
    sure = [other for other in grasses_instead(light, season) if light.sure(other)]
    return [grass_name(light.book, other) for other in sure if other != grass][:MOST_NAMED]
