"""Judges dates by generated rain, where no daily years of the place are known.

Only what rain decides is asked: windows, frost and growth of a made-up year would be those of the
normals.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from turfplan.book.entries import Book
from turfplan.calendar_days import day_index
from turfplan.climate.record import Climate
from turfplan.climate.weather_generator import GeneratedRain, generated_rain
from turfplan.message import Message
from turfplan.phrases import rain_years as rain_phrases
from turfplan.phrases import real_years as phrases
from turfplan.records.plan_task import Role
from turfplan.work.rain_years import dry_years, moist_years
from turfplan.work.real_years import Tally

_YOUNG: tuple[Role, ...] = ("sowing", "planting")


@dataclass(frozen=True, slots=True)
class GeneratedYears:
    """The generated years of a place.

    `on_rain` are the days until what is sown is up, and those in which it must not dry out, where
    nobody waters.
    """

    rain: GeneratedRain
    book: Book
    et0_mm: tuple[float, ...]
    on_rain: tuple[int, int] | None = None

    def of_day(self, index: int) -> Sequence[float]:
        """The rain (mm) of every year at a place in the year; beyond its end the next goes on."""
        return self.rain.of_day(index)

    def asks(self, operation: str) -> bool:
        """Whether rain decides over a day of this operation: it spreads, or what it sows lives on
        rain alone."""
        return self._spreads(operation) or self._on_rain(operation)

    def tally(self, operation: str, first: date, last: date) -> Tally:
        """In how many years the first and the last day of the work would have been right for it."""
        parts: list[tuple[Message, list[bool]]] = []
        if self._spreads(operation):
            ends = [
                dry_years(self.book, self, day_index(day)) for day in dict.fromkeys((first, last))
            ]
            dry = phrases.dry() if first == last else rain_phrases.dry_both_ends()
            parts.append((dry, [all(days) for days in zip(*ends, strict=True)]))
        if self.on_rain is not None and self._on_rain(operation):
            parts.append((phrases.rain_enough(n=self.on_rain[1]), self.moist(first)))
        held = [all(year) for year in zip(*(years for _, years in parts), strict=True)]
        counted = tuple((condition, sum(years)) for condition, years in parts)
        return Tally(len(held), sum(held), counted)

    def _spreads(self, operation: str) -> bool:
        entry = self.book.operations[operation]
        return entry.weather == "dry" and "spreading" in entry.roles

    def _on_rain(self, operation: str) -> bool:
        roles = self.book.operations[operation].roles
        young = any(role in roles for role in _YOUNG)
        return self.on_rain is not None and young and "dormant" not in roles

    def moist(self, day: date) -> list[bool]:
        """For every year whether as much rain as a wet seedbed loses falls from a day on, until
        what was sown is up and for as long as it must not dry out."""
        wet = self.book.si("water.kc_wet_surface")
        losses = [wet * et for et in self.et0_mm]
        return moist_years(self, losses, self.on_rain or (0, 0), day_index(day))


def generated_years(
    climate: Climate, book: Book, on_rain: tuple[int, int] | None = None
) -> GeneratedYears | None:
    """The generated years of a climate; None where nobody estimated its wet days, or the rain that
    they would be made from is doubtful."""
    if climate.rain_doubt is not None:
        return None
    rain = generated_rain(climate)
    return None if rain is None else GeneratedYears(rain, book, climate.et0_mm, on_rain)
