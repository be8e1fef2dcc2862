"""How high, how low and how often grass is mown."""

import math
from calendar import month_name
from datetime import date

from turfplan.agronomy import Book
from turfplan.climate.record import Climate
from turfplan.units import System, read_as

A_YEAR = 2027  # any year without a 29 February: normals know none
ONE_THIRD = 1 / 3  # the rule's own name: no mowing takes more than a third of the height


def due_height_mm(height_mm: float) -> float:
    """Height at which grass kept at `height_mm` is due, so that the mowing takes a third of it."""
    return height_mm / (1 - ONE_THIRD)


def mowing_interval_days(
    book: Book, height_mm: float, growth_potential: float, *, full_growth_mm_day: float | None = None
) -> int:
    """Days between mowings at a height: the time in which growth adds what one mowing may take off.

    `growth_potential` is 0 to 1; `full_growth_mm_day` the leaf growth at 1 (default: the book's, read for tall fescue and
    the best there is for other grasses). Between 1 day and the book's longest interval.
    """
    full = full_growth_mm_day if full_growth_mm_day is not None else book.si("mowing.full_growth")
    longest = round(book.si("mowing.longest_interval"))
    growth = full * growth_potential
    if growth <= 0:
        return longest
    room = due_height_mm(height_mm) - height_mm
    return max(1, min(longest, math.floor(room / growth + 1e-9)))


def low_cut_steps(from_mm: float, floor_mm: float, sliver: float) -> tuple[float, ...]:
    """Heights of the cuts from the present height down to the floor by the one-third rule, the floor last.

    The fewest cuts, each taking the same share; that share may pass a third by a sliver that is not worth a cut of its own.
    Empty where the grass is low enough already.
    """
    if from_mm <= floor_mm + 0.05:
        return ()
    cuts = math.log(from_mm / floor_mm) / -math.log(1 - ONE_THIRD)
    count = max(1, math.ceil(cuts - sliver))
    share = (floor_mm / from_mm) ** (1 / count)
    return (*(from_mm * share**n for n in range(1, count)), floor_mm)


def mowing_notes(book: Book, climate: Climate, species_id: str, system: System) -> tuple[str, ...]:
    """When grass is due, at the middle of its mowing heights, and how often that is in each month in which it grows."""
    height = book.fact(f"species.{species_id}.mow_height")
    middle = (height.low_si + height.high_si) / 2
    season, least = book.species[species_id].season, book.si("water.dormant_growth")
    months: dict[int, list[str]] = {}
    for month in range(1, 13):
        growth = climate.growth_potential(date(A_YEAR, month, 15), season)
        if growth >= least:
            months.setdefault(mowing_interval_days(book, middle, growth), []).append(month_name[month])
    kept, due = (read_as(mm, "height", system).text for mm in (middle, due_height_mm(middle)))
    often = "; ".join(f"{days} days in {', '.join(names)}" for days, names in sorted(months.items()))
    return (
        f"Mow when the grass stands at {due}, down to {kept}: never more than a third off. The height decides, not the day.",
        f"By the usual warmth it gets there in about {often}; a flush after spring rain or a feeding asks for it sooner.",
    )
