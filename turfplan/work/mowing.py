"""How high, how low and how often grass is mown."""

import math

from turfplan.book.entries import Book
from turfplan.calendar_days import MID_MONTHS
from turfplan.climate.record import Climate
from turfplan.message import Message, Month, length_mm, listed
from turfplan.phrases import mowing as phrases
from turfplan.records.book_names import of_species

ONE_THIRD = 1 / 3  # the rule's own name: no mowing takes more than a third of the height


def due_height_mm(height_mm: float) -> float:
    """Height at which grass kept at `height_mm` is due, so that the mowing takes a third of it."""
    return height_mm / (1 - ONE_THIRD)


def mown_height_mm(stands_mm: float) -> float:
    """Height at which a mowing that takes a third of it leaves grass."""
    return stands_mm * (1 - ONE_THIRD)


def mowing_interval_days(
    book: Book,
    height_mm: float,
    growth_potential: float,
    *,
    full_growth_mm_day: float | None = None,
) -> int:
    """Days between mowings at a height: the time in which growth adds what one mowing may take off.

    `growth_potential` is 0 to 1; `full_growth_mm_day` the leaf growth at 1 (default: the book's,
    read for tall fescue and the best there is for other grasses). Between 1 day and the book's
    longest interval.
    """
    full = full_growth_mm_day if full_growth_mm_day is not None else book.si("mowing.full_growth")
    longest = round(book.si("mowing.longest_interval"))
    growth = full * growth_potential
    if growth <= 0:
        return longest
    room = due_height_mm(height_mm) - height_mm
    return max(1, min(longest, math.floor(room / growth + 1e-9)))


def young_height_mm(book: Book, species_id: str) -> float:
    """The height that young grass, or old grass over seed, is cut to: the lowest usual one, but
    never lower than a home mower leaves on ground that is not yet firm.
    """
    return max(book.low_si(of_species(species_id, "mow_height")), book.si("mowing.young_least"))


def low_cut_steps(from_mm: float, floor_mm: float, sliver: float) -> tuple[float, ...]:
    """Heights in mm of the cuts down to the floor by the one-third rule, the floor last.

    The fewest cuts, each taking the same share; that share may pass a third by a sliver that is not
    worth a cut of its own. Empty where the grass is low enough already.
    """
    if from_mm <= floor_mm + 0.05:
        return ()
    cuts = math.log(from_mm / floor_mm) / -math.log(1 - ONE_THIRD)
    count = max(1, math.ceil(cuts - sliver))
    share = (floor_mm / from_mm) ** (1 / count)
    return (*(from_mm * share**n for n in range(1, count)), floor_mm)


def mowing_notes(book: Book, climate: Climate, species_id: str) -> tuple[Message, ...]:
    """When grass is due at the middle of its heights, and how often in each month of growth."""
    height = book.fact(of_species(species_id, "mow_height"))
    middle = (height.low_si + height.high_si) / 2
    season, least = book.species[species_id].season, book.si("water.dormant_growth")
    months: dict[int, list[Month]] = {}
    for day in MID_MONTHS:
        growth = climate.growth_potential(day, season)
        if growth >= least:
            days = mowing_interval_days(book, middle, growth)
            months.setdefault(days, []).append(Month(day.month))
    often = (
        phrases.days_in(n=days, months=listed(named, "comma"))
        for days, named in sorted(months.items())
    )
    often_told = phrases.often if climate.water_share is None else phrases.often_on_rain
    return (
        phrases.height(
            due=length_mm(due_height_mm(middle), kind="height"),
            kept=length_mm(middle, kind="height"),
        ),
        often_told(often=listed(often, "semicolon")),
    )
