"""How much sun a lawn has while its grass grows, and which grasses live there on so little."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache

from turfplan.book.entries import Book
from turfplan.book.words import grass_name
from turfplan.climate.evapotranspiration import daylight_hours
from turfplan.climate.growth import growth_potential
from turfplan.climate.record import Climate
from turfplan.message import Message, Number, listed
from turfplan.phrases import light as phrases
from turfplan.records.book_names import of_species
from turfplan.records.brief import Brief
from turfplan.work.living import lives_at, sure_at

MINUTES = 60.0


@dataclass(frozen=True, slots=True)
class Light:
    """Where grass is to grow: the book, the climate, the hours of sun (None: nobody said), and
    whether anybody can water it.
    """

    book: Book
    climate: Climate
    hours: float | None
    watered: bool = True

    @property
    def least_h(self) -> float:
        """The hours of direct sun below which no grass is sown."""
        return self.book.si("site.sun_least") / MINUTES

    @property
    def dark(self) -> bool:
        """True where no grass is sown at all."""
        return self.hours is not None and self.hours < self.least_h

    def needs_h(self, grass: str) -> float:
        """The fewest hours of direct sun that a grass lives on."""
        return self.book.low_si(of_species(grass, "sun_least")) / MINUTES

    def bears(self, grass: str) -> bool:
        """Whether a grass lives on the sun there is; where nobody said how much, it does."""
        return self.hours is None or self.hours >= self.needs_h(grass)

    def only_just(self, grass: str) -> bool:
        """Whether it lives on the sun there is by cultivar alone: within the range of its least."""
        return self.hours is not None and self.needs_h(grass) <= self.hours < self.enough_h(grass)

    def enough_h(self, grass: str) -> float:
        """The hours of direct sun on which any cultivar of a grass lives."""
        return self.book.fact(of_species(grass, "sun_least")).high_si / MINUTES

    def lives(self, grass: str) -> bool:
        """Whether a grass outlives the summers and winters of the place, if only just."""
        return lives_at(self.book, self.climate, grass, self.watered)

    def sure(self, grass: str) -> bool:
        """Whether a grass outlives them without any doubt."""
        return sure_at(self.book, self.climate, grass, self.watered)

    def too_little(self, grass: str) -> bool:
        """Whether the sun is so little that a grass is not even sown for those who ask for it."""
        doubt_h = self.book.si("lives.sun_doubt") / MINUTES
        return self.hours is not None and self.hours < self.needs_h(grass) - doubt_h

    def others(self, season: str) -> tuple[str, ...]:
        """The grasses of a season that live here on this sun: the sure ones, then those of least
        need, first.
        """
        named = [
            grass
            for grass, entry in self.book.species.items()
            if entry.season == season and self.bears(grass) and self.lives(grass)
        ]
        return tuple(sorted(named, key=lambda grass: (not self.sure(grass), self._need(grass))))

    def sown_others(self, season: str) -> tuple[str, ...]:
        """Of those, what is grown from seed."""
        return tuple(g for g in self.others(season) if self.book.species[g].seedable)

    def _need(self, grass: str) -> float:
        return self.book.si(of_species(grass, "sun_least"))


def light_of(brief: Brief, book: Book, climate: Climate, season: str) -> Light:
    """The light of a lawn whose grass grows in a season: what was told, in hours of direct sun."""
    site, watered = brief.site, brief.water.possible is not False
    if site.sun_hours is not None or site.shade_hours is None:
        return Light(book, climate, site.sun_hours, watered)
    hours = max(0.0, daylight_h(book, climate, season) - site.shade_hours)
    return Light(book, climate, hours, watered)


@lru_cache(maxsize=64)
def daylight_h(book: Book, climate: Climate, season: str) -> float:
    """The mean hours of daylight of the days on which a grass of that season grows here."""
    least = book.si("site.growing_day")
    growing = [
        day for day, air in enumerate(climate.air_mean_c) if growth_potential(air, season) >= least
    ]
    days = growing or range(len(climate.air_mean_c))
    return sum(daylight_hours(climate.latitude, day + 1) for day in days) / len(days)


def too_dark(light: Light) -> Message | None:
    """Why nothing is sown or planted in so little sun; None where there is enough of it."""
    if light.hours is None or not light.dark:
        return None
    return phrases.too_dark(hours=hours_of(light.hours), least=hours_of(light.least_h))


def not_borne(light: Light, grass: str) -> Message:
    """Why this grass is not sown in so little sun, and which would live here."""
    book = light.book
    instead = [grass_name(book, other) for other in light.others(book.species[grass].season)]
    needs, name = hours_of(light.needs_h(grass)), grass_name(book, grass)
    hours = hours_of(light.hours or 0.0)
    if not instead:
        return phrases.not_borne(grass=name, needs=needs, hours=hours)
    others = listed(instead, "or")
    return phrases.not_borne_others(grass=name, needs=needs, hours=hours, others=others)


def named_anyway(light: Light, sown: Sequence[str]) -> Iterator[Message]:
    """What is said of grasses that were asked for by name in less sun than they need."""
    return (not_borne(light, grass) for grass in sown if not light.bears(grass))


def told_of_shade(light: Light, sown: Sequence[str], *, blamed: bool) -> Iterator[Message]:
    """What is said of grasses in sun that is only just enough for them; where shade is `blamed` for
    the thin grass, of those too that have enough of it."""
    if light.hours is None or light.dark:
        return
    for grass in sown:
        name, needs = grass_name(light.book, grass), hours_of(light.needs_h(grass))
        hours = hours_of(light.hours)
        if light.only_just(grass):
            enough = hours_of(light.enough_h(grass))
            yield phrases.only_just(grass=name, needs=needs, enough=enough, hours=hours)
        elif blamed and light.bears(grass):
            yield phrases.not_the_shade(grass=name, needs=needs, hours=hours)


def hours_of(hours: float) -> Number:
    """Hours as they are told."""
    return Number(round(hours, 1), "plain")
