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
of the Zambezi).

This holds without exception where summer and winter lie 15 C apart (`windows.marked_year`), but
for what hangs on nights. Where they are nearer, half a degree is a larger part of the year: it
moves the turn of a yearly wave by asin(0.64 / amplitude), seven days at 10 C and fifteen at 5, and
the day on which a mark is passed as much again. There an end may move in that proportion farther,
and no end by more than 25 days; where the months are alike by up to 35, since a year that never
reaches a mark and one that is open throughout lie four degrees apart, and 182 days at either end
pass within them. Seasons that move by more than ten days are few: one in 200 where summer and
winter lie 10 C apart or more, else one in 25 (those of one pair of places, where few are drawn).

Nights are not bound by likeness: their normals differ by up to 1.3 C between such places, since the
daily range follows latitude, height and the rain of each month. Where they differ by more than half
a degree, work that hangs on them (that ends before frost, or as nights cool) may move in that
proportion farther, up to 25 days, or as far as the first frost does: the passes of cool-season
grass on mild coasts.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from functools import cache
from itertools import chain, pairwise
from pathlib import Path
from random import Random
from typing import NamedTuple

from campaigns.records import Campaign, Figures
from turfplan.calendar_days import DAYS, MONTH_LENGTHS, MONTH_STARTS, day_index
from turfplan.climate.from_normals import ClimateBasis, Normals, Spot, build_climate
from turfplan.climate.record import Climate, Curve
from turfplan.climate.world_grid import cells_of_row, months_at
from turfplan.errors import TurfplanError
from turfplan.files.reading.book import load_book
from turfplan.files.reading.place import load_grid, load_models
from turfplan.message import as_written
from turfplan.work.growing_year import swing
from turfplan.work.living import lives_at
from turfplan.work.windows import WindowPolicy, operation_windows

ALIKE_C, ALIKE_RAIN = 0.5, 0.1
MOST_DAYS, LEAST_DAYS = 10, 7
NO_SEASONS_C = 5.0
STEP = 0.5
# How many pairs of places are drawn for each line that is walked, and how far apart they lie.
PAIRS, APART = 25, 1.5
# Where seasons fade: the days by which any end may move, the swing of the year from which they are
# nearly full, and the shares of seasons that may move by more than ten days there and elsewhere.
FADING_DAYS, NEARLY_FULL_C, NEARLY_FULL_SHARE, FADING_SHARE = 25, 10.0, 1 / 200, 1 / 25
# By how many days the ends of windows may move where neither place has seasons.
EVEN_DAYS = 35
# Conditions of windows that follow the nights.
NIGHTLY = frozenset({"nights_falling", "first_frost", "before_first_frost", "degree_days_left"})
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
# The days of the year that are open: bit 0 is 1 January.
Open = int
ALL_OPEN: Open = (1 << DAYS) - 1


class Jump(NamedTuple):
    """Where the season of an operation is not alike, by how many days, and how many it may move."""

    line: str
    here: Place
    there: Place
    grass: str
    operation: str
    days: int
    may: float


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
    """The climate of a cell, without what a reader is told of it; None over the sea."""
    try:
        cell = months_at(load_grid(), *place)
    except TurfplanError:
        return None
    normals = Normals(cell.mean_c, cell.rain_mm, elevation_m=cell.elevation_m)
    # The climates of the campaign are told apart by their source.
    basis = ClimateBasis(as_written(str(place)), 0, 0.0)
    return build_climate(load_models(), Spot(*place, "UTC"), normals, basis)


def apart(curve: Curve, other: Curve) -> float:
    """By how much the monthly means of two curves differ at most."""
    return max(abs(a - b) for a, b in zip(months(curve), months(other), strict=True))


def months(curve: Curve) -> list[float]:
    """The mean of each month."""
    return [
        sum(curve[start : start + length]) / length
        for start, length in zip(MONTH_STARTS, MONTH_LENGTHS, strict=True)
    ]


def alike(one: Climate, other: Climate) -> bool:
    """Whether two climates are as near to each other as windows are held to."""
    rains = sum(one.rain_mm), sum(other.rain_mm)
    near = apart(one.air_mean_c, other.air_mean_c) <= ALIKE_C
    return near and max(rains) - min(rains) <= ALIKE_RAIN * max(rains)


def seasons(there: Climate, grass: str) -> dict[str, Open]:
    """On which days of the year each operation is open."""
    found = defaultdict[str, Open](int)
    windows = operation_windows(there, load_book(), (grass,), 2027, EVERY_POLICY).windows
    for window in windows:
        days = min(DAYS, (window.end - window.start).days + 1)
        found[window.operation] |= later((1 << days) - 1, day_index(window.start))
    return found


def later(days: Open, by: int) -> Open:
    """Days that lie so many days later in the year, or earlier, round it."""
    by %= DAYS
    return (days << by | days >> (DAYS - by)) & ALL_OPEN


def lasting(days: Open, passing: int) -> Open:
    """Those of stretches that are longer than `passing` days."""

    def widened(found: Open, way: int, *, together: bool) -> Open:
        width = 1
        while width <= passing:
            step = min(width, passing + 1 - width)
            moved_on = later(found, way * step)
            found = found & moved_on if together else found | moved_on
            width += step
        return found

    return widened(widened(days, 1, together=True), -1, together=False)


def strayed(days: Open, other: Open, passing: int) -> int:
    """How far the farthest open day of one place lies from an open day of the other; 365 where
    that has none.

    Stretches of up to `passing` days are passed over: they may close.
    """
    far = lasting(days, passing)
    if not far:
        return 0
    if not other:
        return DAYS
    away = 0
    while far & ~other:
        other |= later(other, 1) | later(other, -1)
        away += 1
    return away


def moved(days: Open, other: Open, *, even: bool, may: float = MOST_DAYS) -> int:
    """By how many days the ends of the seasons of an operation differ.

    What closes when an end moves as far as it `may` is passed over. Of `even` years, which have no
    seasons, half of what their lengths differ by.
    """
    if days == other:
        return 0
    if even:
        return abs(days.bit_count() - other.bit_count()) // 2
    short, gap = LEAST_DAYS + int(may) - 1, 2 * int(may)
    return max(
        strayed(one & ALL_OPEN, two & ALL_OPEN, passing)
        for a, b in ((days, other), (other, days))
        for one, two, passing in ((a, b, short), (~a, ~b, gap))
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


def least_swing(*places: Climate) -> float:
    """How far apart summer and winter are where they are nearest, degrees C."""
    return min(swing(there.air_mean_c) for there in places)


def frost_in_year(there: Climate) -> int:
    """The median first frost as a place in the year; the coldest night where there is none."""
    nights = there.air_min_c
    return there.first_frost.median if there.first_frost else nights.index(min(nights))


@cache
def of_nights(grass: str) -> frozenset[str]:
    """The operations whose windows hang on nights."""
    season = load_book().species[grass].season
    return frozenset(
        rule.operation
        for rule in load_book().windows
        if rule.grass in ("any", season) and (not rule.species or grass in rule.species)
        for condition in (*rule.opens, *rule.closes)
        if condition.kind in NIGHTLY or getattr(condition, "sooner_nights", None) is not None
    )


def without_seasons(*places: Climate) -> bool:
    """Whether the months of all places differ so little that none has seasons."""
    return all(max(there.air_mean_c) - min(there.air_mean_c) < NO_SEASONS_C for there in places)


def may_move(one: Climate, other: Climate, *, nights: bool = False) -> float:
    """By how many days an end may move between places that are alike: the more, the less summer
    and winter lie apart; with `nights`, what hangs on them, the more, the less those are alike, and
    as far as the first frost."""
    if without_seasons(one, other):
        return EVEN_DAYS
    marked = load_book().si("windows.marked_year")
    fading = MOST_DAYS * max(1, marked / least_swing(one, other))
    if not nights:
        return min(fading, FADING_DAYS)
    farther = fading * max(1, apart(one.air_min_c, other.air_min_c) / ALIKE_C)
    frost = abs((frost_in_year(one) - frost_in_year(other) + DAYS // 2) % DAYS - DAYS // 2)
    return max(min(farther, FADING_DAYS), frost)


def jumps(line: str, shift: float, grasses: Sequence[str]) -> tuple[int, list[Jump]]:
    """How many seasons were compared along a line, and those that are not alike."""
    return compare(line, pairs(line, shift), grasses)


def compare(
    line: str, both: Iterable[tuple[Place, Climate, Place, Climate]], grasses: Sequence[str]
) -> tuple[int, list[Jump]]:
    """How many seasons of grasses that live at both places were compared, and those that move by
    more than ten days."""
    compared, found, book = 0, list[Jump](), load_book()
    for here, one, there, other in both:
        even = without_seasons(one, other)
        for grass in grasses:
            if not (lives_at(book, one, grass) and lives_at(book, other, grass)):
                continue
            mine, theirs = seasons(one, grass), seasons(other, grass)
            for operation in sorted(mine.keys() | theirs.keys()):
                pair = mine.get(operation, 0), theirs.get(operation, 0)
                compared += 1
                if moved(*pair, even=even) > MOST_DAYS:
                    may = may_move(one, other, nights=operation in of_nights(grass))
                    days = moved(*pair, even=even, may=may)
                    found.append(Jump(line, here, there, grass, operation, days, may))
    return compared, found


class Class(NamedTuple):
    """Pairs of places that are judged alike: how many seasons were compared, and those that moved
    by more than ten days."""

    share: float
    compared: int
    moved: list[Jump]

    def few(self) -> bool:
        """Whether no more seasons moved than may, or those of one pair of places alone."""
        places = {(jump.here, jump.there) for jump in self.moved}
        return len(places) <= 1 or len(self.moved) <= self.share * self.compared


def run(count: int, seed: int, folder: Path) -> Figures:
    """Fails with the first jumps; a seed shifts the lines east or west by up to two degrees, and
    draws the pairs of places by their likeness."""
    shift = 0.0 if seed == 0 else Random(seed).uniform(-2, 2)
    grasses = sorted(load_book().species)
    drawn_pairs = (("likeness", pair) for pair in drawn(count * PAIRS, seed))
    walked = ((line, pair) for line, _, _ in LINES[:count] for pair in pairs(line, shift))
    marked = load_book().si("windows.marked_year")
    classes = {
        "marked": Class(1.0, 0, []),
        "nearly_full": Class(NEARLY_FULL_SHARE, 0, []),
        "fading": Class(FADING_SHARE, 0, []),
    }
    for line, pair in chain(walked, drawn_pairs):
        swung = least_swing(pair[1], pair[3])
        name = (
            "marked" if swung >= marked else "nearly_full" if swung >= NEARLY_FULL_C else "fading"
        )
        before = classes[name]
        compared, jumped = compare(line, [pair], grasses)
        classes[name] = before._replace(
            compared=before.compared + compared, moved=before.moved + jumped
        )
    compared = sum(each.compared for each in classes.values())
    assert compared, "no neighbours that are alike"
    jumped = [jump for each in classes.values() for jump in each.moved]
    far = [jump for jump in jumped if jump.days > jump.may]
    assert not far, f"{len(far)} of {compared} seasons jump: {far[:5]}"
    for name, each in classes.items():
        assert each.few(), f"{len(each.moved)} of {each.compared} {name}: {each.moved[:5]}"
    return {
        "seasons_compared": compared,
        "jumps": len(far),
        **{f"{name}_seasons": each.compared for name, each in classes.items()},
        **{f"{name}_beyond_ten_days": len(each.moved) for name, each in classes.items()},
    }


CAMPAIGN = Campaign("smooth", size=len(LINES), seed=0, unit="lines", run=run)
