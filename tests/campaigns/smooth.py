"""Walks of the world from cell to cell of the packed grid: where climates are alike, windows are.

Between two places whose monthly means differ by at most half a degree and whose yearly rain by at
most a tenth, no season of an operation appears or vanishes, and no end of it moves by more than
ten days, for every grass: between neighbours along lines over the world, and between places far
apart that are drawn by their likeness. A season is the days on which the operation is open, by
whichever rule. One that an end has left shorter than a week is none; so one of up to sixteen days
may go when its end moves by ten. Where both places have no seasons (their months differ by less
than 5 C) a window has no place in the year to move from: there its length may change as both ends
may.

A grass that does not live at one of the two places is not judged there: its windows answer to no
lawn, and lie where its marks meet curves they were not made for (cool-season feeding in the heat
of the Zambezi). Places drawn by likeness are held to this without exception where both have their
seasons in full (`windows.seasonal_year`). Where seasons fade into one another, half a degree is a
larger part of the year: it moves the turn of a yearly wave by asin(0.64 / amplitude), seven days
where the months differ by 10 C and fourteen where by 5, and the day on which a mark is passed as
much again. There an end may move in proportion farther, up to twice as far; and in the savannas
with a second warm time after the rains, where the turns themselves are in doubt, one season in a
hundred farther still (all of one pair, where fewer than a hundred pairs are drawn).
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from functools import cache
from itertools import pairwise
from pathlib import Path
from random import Random
from typing import NamedTuple

from campaigns.records import Campaign, Figures
from planning import climate_at
from turfplan.calendar_days import DAYS, MONTH_LENGTHS, MONTH_STARTS, day_index
from turfplan.climate.record import Climate
from turfplan.climate.world_grid import cells_of_row
from turfplan.errors import TurfplanError
from turfplan.files.reading.book import load_book
from turfplan.files.reading.place import load_grid
from turfplan.work.living import lives_at
from turfplan.work.windows import WindowPolicy, operation_windows

ALIKE_C, ALIKE_RAIN = 0.5, 0.1
MOST_DAYS, LEAST_DAYS = 10, 7
NO_SEASONS_C = 5.0
STEP = 0.5
# How many pairs of places are drawn for each line that is walked, and how far apart they lie.
PAIRS, APART = 25, 1.5
FADING_SHARE = 0.01
EVERY_POLICY = WindowPolicy(late_nitrogen=True, spring_aeration=True)

Place = tuple[float, float]
# From where to where, as latitude and longitude; over land most of the way.
LINES: tuple[tuple[str, Place, Place], ...] = (
    ("Gulf coast", (31, -98), (31, -82)),
    ("United States", (40, -124), (40, -74)),
    ("Canada", (50.5, -114), (50.5, -66)),
    ("Andes", (5, -76), (-55, -70)),
    ("Brazil to Patagonia", (-2, -50), (-40, -65)),
    ("England to Ukraine", (51, -4), (51, 30)),
    ("central Europe", (38, 16), (69, 24)),
    ("Africa", (31, 30), (-34, 20)),
    ("India", (8, 77), (33, 77)),
    ("Europe to Siberia", (52, 5), (52, 130)),
    ("China to Manchuria", (22, 110), (50, 125)),
    ("Australia", (-12, 133), (-38, 146)),
)
Open = tuple[bool, ...]


class Jump(NamedTuple):
    """Where the season of an operation is not alike, and by how many days."""

    line: str
    here: Place
    there: Place
    grass: str
    operation: str
    days: int


def cells(start: Place, end: Place, shift: float) -> list[Place]:
    """The cells of the grid on the way from one place to another, shifted eastward."""
    steps = round(max(abs(end[0] - start[0]), abs(end[1] - start[1])) / STEP)
    ways = [
        (
            round((start[0] + k / steps * (end[0] - start[0])) / STEP) * STEP,
            round((start[1] + shift + k / steps * (end[1] - start[1])) / STEP) * STEP,
        )
        for k in range(steps + 1)
    ]
    return list(dict.fromkeys(ways))


@cache
def climate(place: Place) -> Climate | None:
    """The climate of a cell; None over the sea."""
    try:
        return climate_at(*place)
    except TurfplanError:
        return None


def months(there: Climate) -> list[float]:
    """Monthly means, degrees C."""
    return [
        sum(there.air_mean_c[start : start + length]) / length
        for start, length in zip(MONTH_STARTS, MONTH_LENGTHS, strict=True)
    ]


def alike(one: Climate, other: Climate) -> bool:
    """Whether two climates are as near to each other as windows are held to."""
    rains = sum(one.rain_mm), sum(other.rain_mm)
    return max(
        abs(a - b) for a, b in zip(months(one), months(other), strict=True)
    ) <= ALIKE_C and max(rains) - min(rains) <= ALIKE_RAIN * max(rains)


def seasons(there: Climate, grass: str) -> dict[str, Open]:
    """On which days of the year each operation is open."""
    found: dict[str, list[bool]] = {}
    windows = operation_windows(there, load_book(), (grass,), 2027, EVERY_POLICY).windows
    for window in windows:
        days = found.setdefault(window.operation, [False] * DAYS)
        first = day_index(window.start)
        for day in range(min(DAYS, (window.end - window.start).days + 1)):
            days[(first + day) % DAYS] = True
    return {operation: tuple(days) for operation, days in found.items()}


def runs(days: Open, state: bool) -> Iterator[tuple[int, int]]:
    """First day and length of each stretch of days that are open (or closed), round the year."""
    if all(day == state for day in days):
        yield 0, DAYS
    for first in range(DAYS):
        if days[first] == state and days[first - 1] != state:
            yield first, next(n for n in range(DAYS) if days[(first + n) % DAYS] != state)


def strayed(days: Open, other: Open, state: bool, passing: int) -> int:
    """How far the farthest open (or closed) day of one place lies from such a day of the other.

    Stretches of up to `passing` days are passed over: they may close.
    """

    def away(day: int) -> int:
        near = (
            n
            for n in range(DAYS // 2 + 1)
            if state in (other[(day + n) % DAYS], other[(day - n) % DAYS])
        )
        return next(near, DAYS)

    return max(
        (
            away((first + n) % DAYS)
            for first, length in runs(days, state)
            if length > passing
            for n in range(length)
        ),
        default=0,
    )


def moved(days: Open, other: Open, *, without_seasons: bool) -> int:
    """By how many days the ends of the seasons of an operation differ."""
    if days == other:
        return 0
    if without_seasons:
        return abs(sum(days) - sum(other)) // 2
    short, gap = LEAST_DAYS + MOST_DAYS - 1, 2 * MOST_DAYS
    return max(
        strayed(a, b, state, passing)
        for a, b in ((days, other), (other, days))
        for state, passing in ((True, short), (False, gap))
    )


def pairs(line: str, shift: float) -> Iterator[tuple[Place, Climate, Place, Climate]]:
    """The neighbours of a line that are alike."""
    _, start, end = next(one for one in LINES if one[0] == line)
    way = [(place, climate(place)) for place in cells(start, end, shift)]
    for (here, one), (there, other) in pairwise(way):
        if one is not None and other is not None and alike(one, other):
            yield here, one, there, other


Months = tuple[tuple[float, ...], float]


@cache
def cells_by_months() -> dict[tuple[int, int], list[tuple[Place, Months]]]:
    """The cells of the grid with their monthly means and their yearly rain, by January and July to
    the next degree."""
    grid, found = load_grid(), defaultdict[tuple[int, int], list[tuple[Place, Months]]](list)
    for row in grid.rows:
        for cell in cells_of_row(grid, row):
            place = (grid.south + row * STEP, (cell.column * STEP + 180) % 360 - 180)
            key = (round(cell.mean_c[0]), round(cell.mean_c[6]))
            found[key].append((place, (cell.mean_c, sum(cell.rain_mm))))
    return found


def likenesses(place: Place, there: Months) -> list[Place]:
    """The cells that are alike, and lie apart."""
    means, rain = there
    near = [
        found
        for january in (-1, 0, 1)
        for july in (-1, 0, 1)
        for found in cells_by_months().get((round(means[0]) + january, round(means[6]) + july), ())
    ]
    return [
        other
        for other, (their_means, their_rain) in near
        if max(abs(other[0] - place[0]), abs(other[1] - place[1])) > APART
        and abs(their_rain - rain) <= ALIKE_RAIN * max(their_rain, rain)
        and max(abs(a - b) for a, b in zip(means, their_means, strict=True)) <= ALIKE_C
    ]


def drawn(count: int, seed: int) -> Iterator[tuple[Place, Climate, Place, Climate]]:
    """So many pairs of places that are alike and lie apart, all over the land."""
    chance = Random(seed)
    everywhere = [cell for cells in cells_by_months().values() for cell in cells]
    found = 0
    while found < count:
        here, months_here = chance.choice(everywhere)
        others = likenesses(here, months_here)
        if not others:
            continue
        there = chance.choice(others)
        one, other = climate(here), climate(there)
        if one is not None and other is not None and alike(one, other):
            found += 1
            yield here, one, there, other


def full_seasons(*places: Climate) -> bool:
    """Whether all of the places have their seasons in full."""
    least = load_book().si("windows.seasonal_year")
    return all(max(there.air_mean_c) - min(there.air_mean_c) >= least for there in places)


def may_move(*places: Climate) -> float:
    """By how many days an end may move between places that are alike: the more, the less the
    months differ; without seasons as far as where they begin to be told apart."""
    least = min(max(there.air_mean_c) - min(there.air_mean_c) for there in places)
    full = load_book().si("windows.seasonal_year")
    return MOST_DAYS * max(1, full / max(least, NO_SEASONS_C))


def beyond(jump: Jump) -> bool:
    """Whether a season jumps farther than seasons may where the months differ so little."""
    places = [there for there in map(climate, (jump.here, jump.there)) if there is not None]
    return jump.days > may_move(*places)


def jumps(line: str, shift: float, grasses: Sequence[str]) -> tuple[int, list[Jump]]:
    """How many seasons were compared along a line, and those that are not alike."""
    return compare(line, pairs(line, shift), grasses)


def compare(
    line: str, both: Iterable[tuple[Place, Climate, Place, Climate]], grasses: Sequence[str]
) -> tuple[int, list[Jump]]:
    """How many seasons of grasses that live at both places were compared, and those that are not
    alike."""
    compared, found, book = 0, list[Jump](), load_book()
    for here, one, there, other in both:
        flat = all(max(c.air_mean_c) - min(c.air_mean_c) < NO_SEASONS_C for c in (one, other))
        for grass in grasses:
            if not (lives_at(book, one, grass) and lives_at(book, other, grass)):
                continue
            mine, theirs = seasons(one, grass), seasons(other, grass)
            for operation in sorted(mine.keys() | theirs.keys()):
                closed = (False,) * DAYS
                days = moved(
                    mine.get(operation, closed),
                    theirs.get(operation, closed),
                    without_seasons=flat,
                )
                compared += 1
                if days > MOST_DAYS:
                    found.append(Jump(line, here, there, grass, operation, days))
    return compared, found


def run(count: int, seed: int, folder: Path) -> Figures:
    """Fails with the first jumps; a seed shifts the lines east or west by up to two degrees, and
    draws the pairs of places by their likeness."""
    shift = 0.0 if seed == 0 else Random(seed).uniform(-2, 2)
    grasses = sorted(load_book().species)
    compared, found = 0, list[Jump]()
    for line, _, _ in LINES[:count]:
        more, jumped = jumps(line, shift, grasses)
        compared += more
        found += [jump for jump in jumped if beyond(jump)]
    assert compared, "no neighbours that are alike"
    sure, fading, faded = 0, 0, list[Jump]()
    for pair in drawn(count * PAIRS, seed):
        more, jumped = compare("likeness", [pair], grasses)
        if full_seasons(pair[1], pair[3]):
            sure += more
            found += jumped
        else:
            fading += more
            faded += [jump for jump in jumped if beyond(jump)]
    assert not found, f"{len(found)} of {compared + sure} seasons jump: {found[:5]}"
    # A few lines draw few pairs: there one pair alone is more than one season in a hundred.
    alone = len({(jump.here, jump.there) for jump in faded}) <= 1
    few = alone and count * PAIRS * FADING_SHARE < 1
    assert few or len(faded) <= FADING_SHARE * fading, f"{len(faded)} of {fading}: {faded[:5]}"
    return {
        "seasons_compared": compared,
        "by_likeness": sure,
        "where_seasons_fade": fading,
        "jumps": len(found),
        "jumps_where_seasons_fade": len(faded),
    }


CAMPAIGN = Campaign("smooth", size=len(LINES), seed=0, unit="lines", run=run)
