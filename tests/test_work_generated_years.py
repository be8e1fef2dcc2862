"""Generated years judge what rain decides: dry ends of spreading, and seed on rain alone."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import Any

from planning import climate_at
from turfplan.calendar_days import day_index
from turfplan.files.reading.book import load_book
from turfplan.phrases import rain_years as rain_phrases
from turfplan.phrases import real_years as phrases
from turfplan.work.generated_years import GeneratedYears, generated_years
from turfplan.work.rain_years import dry_years, moist_years

BOOK = load_book()
CLIMATE = climate_at(40.0, -76.3)
DAY, LATER = date(2027, 9, 10), date(2027, 9, 13)


@dataclass(frozen=True)
class Rain:
    """Four years of rain: dry; 20 mm on the first day; on the fourth day; 3 mm on every day."""

    def of_day(self, index: int) -> Sequence[float]:
        """The rain of each year on a day."""
        first, fourth = day_index(DAY), day_index(LATER)
        return (0.0, 20.0 * (index == first), 20.0 * (index == fourth), 3.0)


def years(on_rain: tuple[int, int] | None = None) -> GeneratedYears:
    """These years where the reference grass loses 2 mm a day."""
    rain: Any = Rain()
    return GeneratedYears(rain, BOOK, (2.0,) * 365, on_rain)


def test_rain_decides_over_what_is_spread_dry_and_over_seed_on_rain_alone() -> None:
    """Not over seed that is watered, nor over seed that waits for spring, nor over what grows."""
    assert years().asks("topdress") and years((10, 24)).asks("topdress")
    assert not years().asks("overseed") and years((10, 24)).asks("overseed")
    assert years((10, 24)).asks("seed") and years((10, 24)).asks("plant")
    assert not years((10, 24)).asks("dormant_seed")
    assert not years().asks("fill"), "its ground is to be dry, not the day"
    assert not years().asks("incorporate"), "nothing is spread"
    assert not years((10, 24)).asks("core_aerate")


def test_a_pass_is_dry_in_the_years_in_which_both_of_its_ends_are() -> None:
    """One end where it takes a day; the two are told as both."""
    one = dry_years(BOOK, years(), day_index(DAY))
    other = dry_years(BOOK, years(), day_index(LATER))
    assert one[0] and not one[1] and other[0] and not other[2]
    assert one != other, "one of the four is dry at one end alone"
    tally = years().tally("topdress", DAY, DAY)
    assert (tally.years, tally.worked, tally.parts) == (4, sum(one), ((phrases.dry(), sum(one)),))
    both = sum(a and b for a, b in zip(one, other, strict=True))
    tally = years().tally("topdress", DAY, LATER)
    assert (tally.years, tally.worked) == (4, both) and both < sum(one)
    assert tally.parts == ((rain_phrases.dry_both_ends(), both),)


def test_seed_on_rain_is_right_in_the_years_in_which_it_stays_moist() -> None:
    """Told with its days; what a wet seedbed loses is what falls at least."""
    alone = years((2, 5))
    losses = [BOOK.si("water.kc_wet_surface") * 2.0] * 365
    moist = moist_years(alone, losses, (2, 5), day_index(DAY))
    assert alone.moist(DAY) == moist and not moist[0] and moist[3]
    tally = alone.tally("overseed", DAY, LATER)
    assert (tally.years, tally.worked) == (4, sum(moist))
    assert tally.parts == ((phrases.rain_enough(n=5), sum(moist)),)
    assert years().moist(DAY) == [], "where seed is watered no span of days is asked about"
    thirsty = replace(alone, et0_mm=(4.0,) * 365)
    assert not thirsty.moist(DAY)[3] and sum(thirsty.moist(DAY)) < sum(moist)


def test_years_are_generated_where_wet_days_were_estimated() -> None:
    """With the losses of the climate and the days on rain; none without wet days."""
    found = generated_years(CLIMATE, BOOK, (3, 9))
    assert found is not None
    assert (found.et0_mm, found.on_rain, found.book) == (CLIMATE.et0_mm, (3, 9), BOOK)
    assert tuple(found.of_day(40)) == tuple(found.rain.of_day(40))
    assert generated_years(replace(CLIMATE, wet_days=None), BOOK) is None
    bare = generated_years(CLIMATE, BOOK)
    assert bare is not None and bare.on_rain is None
