"""On which day a condition that opens or closes a window is met at a place."""

from typing import NamedTuple, assert_never

from turfplan.book.window_rules import (
    AirFalling,
    AirRising,
    AnyCondition,
    DegreeDaysLeft,
    Drying,
    GrowthLeft,
    GrowthRising,
    NightsFalling,
    SoilFalling,
    SoilRising,
    WindowRule,
)
from turfplan.calendar_days import DAYS
from turfplan.climate.growth import air_of_growth
from turfplan.climate.record import Curve
from turfplan.message import Message
from turfplan.records.book_names import NamedFact
from turfplan.work.growing_year import GrowingYear, coming, share_below
from turfplan.work.window_reasons import event, from_nights, named_for, nights_cooling, turned

_Passing = AirRising | AirFalling | SoilRising | SoilFalling | GrowthRising | GrowthLeft | Drying
_RISING = ("air_rising", "soil_rising", "growth_rising", "drying")


class Met(NamedTuple):
    """The day number on which a condition is met, and what is told of it."""

    day: int
    told: Message


def met_on(year: GrowingYear, rule: WindowRule, condition: AnyCondition) -> Met | None:
    """When a condition is met in the rule's half of the year; None where what it waits for never
    comes."""
    if isinstance(condition, _Passing):
        return _passed(year, rule, condition)
    day = _event(year, condition)
    if day is None:
        return None
    return _told(year, condition, day)


def _told(year: GrowingYear, condition: AnyCondition, day: int) -> Met:
    if condition.shift is not None:
        day += round(year.book.si(named_for(year.species, condition.shift)))
    if condition.kind == "nights_falling" and condition.mild_days is not None and year.mild:
        blur, mark = year.book.si("windows.nights_apart"), year.number(condition.threshold)
        away = day - year.falls(year.climate.air_min_c, mark, blur)
        return Met(day, from_nights(year.book, year.species, condition.threshold, round(away)))
    return Met(day, event(year.book, year.species, condition, year.summer))


def _passed(year: GrowingYear, rule: WindowRule, condition: _Passing) -> Met:
    """When a curve has passed a mark: at the turn of the year, where it never does."""
    curve, mark, blur = _curve_and_mark(year, condition)
    rising = condition.kind in _RISING
    # Soil is warmest up to a fortnight after the air.
    lag = round(year.book.si("windows.soil_lag")) if condition.kind == "soil_rising" else 0
    if condition.kind == "drying":
        day = year.dries(curve, mark, blur)
    else:
        day = year.rises(curve, mark, blur, lag) if rising else year.falls(curve, mark, blur)
    if (clear := min(curve) - mark) > 0:
        # Months that are alike and clear of a mark have no turn at which it is passed.
        turn = year.coldest if rising else year.next_coldest
        share = min(1.0, clear / (blur if condition.kind == "drying" else year.blur))
        day += round(share * (year.evened(day, turn) - day))
    if rising and rule.half == "falling":
        # What opened in autumn is closed by the rise after the winter.
        day += DAYS
    if isinstance(condition, SoilFalling) and condition.sooner_nights is not None:
        cooled = year.number(condition.sooner_nights)
        sooner = year.falls(year.climate.air_min_c, cooled, blur)
        if sooner < day and min(year.climate.air_min_c) < cooled:
            return Met(round(sooner), nights_cooling(year.book, condition.sooner_nights))
    if min(curve) < mark <= max(curve):
        return _told(year, condition, day)
    cold = min(curve) >= mark
    return Met(_told(year, condition, day).day, turned(cold=cold))


def _curve_and_mark(year: GrowingYear, condition: _Passing) -> tuple[Curve, float, float]:
    """The curve that a condition watches, the mark it passes, and how far years lie around it."""
    climate, number = year.climate, year.number
    season = year.book.species[year.species].season
    blur = year.blur
    match condition.kind:
        case "air_rising" | "air_falling":
            return climate.air_mean_c, number(condition.threshold, condition.cool_threshold), blur
        case "soil_rising" | "soil_falling":
            soil, mark = climate.soil_10cm_c, number(condition.threshold)
            if condition.surely:
                mark -= blur * (1 - share_below(min(soil), mark - blur, 2 * blur))
            return soil, mark, blur
        case "growth_rising" | "growth_left":
            share = number(condition.threshold, condition.cool_threshold)
            if condition.of_best:
                share *= max(climate.warmth_curve(season))
                # The best of a year lies as far from its normal as its days do.
                blur = max(blur, 2 * year.book.si("windows.years_apart"))
            air = climate.air_mean_c
            if condition.kind == "growth_left":
                air = coming(air, round(number(condition.days)))
            return air, air_of_growth(share, season), blur
        case "drying":
            dried = coming(climate.drying_mm, round(number(condition.days)))
            return dried, -number(condition.surplus), year.book.si("windows.water_apart")
        case _:
            assert_never(condition.kind)


def _event(year: GrowingYear, condition: AnyCondition) -> int | None:
    number = year.number
    match condition.kind:
        case "last_frost" | "first_frost" | "before_first_frost":
            return _frost_day(year, condition.kind, round(number(condition.days)))
        case "hottest":
            day = year.hottest + number(condition.days, condition.cool_days)
            turn = year.hottest if condition.even == "summer" else year.next_coldest
            return round(day if condition.even is None else year.evened(day, turn))
        case "nights_falling":
            return _nights_cool(year, condition)
        case "coldest":
            day = year.coldest + number(condition.days)
            return round(day if condition.even is None else year.evened(day, year.coldest))
        case "degree_days_left":
            ends = _frost_ends(year, condition)
            last = _degree_days_left(year, number(condition.sum), number(condition.base), ends)
            # No frost ends a year without seasons: its turn is no end of anything.
            frostless = last is not None and year.climate.first_frost is None
            return round(year.evened(last, year.next_coldest)) if last and frostless else last
        case "warmth_left":
            ends = year.next_coldest
            last = _degree_days_left(year, number(condition.sum), number(condition.base), ends)
            return None if last is None else round(year.evened(last, ends))
        case _:
            raise ValueError(condition.kind)


def _nights_cool(year: GrowingYear, condition: NightsFalling) -> int | None:
    """So many days from the fall of the nights, as far as they do fall; never too soon.

    Nights that are warm in some years alone close the later the fewer those are, up to the end of
    the season without frost (where months are alike, of the year); None where no night of any year
    is warm: what never opened does not close.
    """
    blur, mark = year.book.si("windows.nights_apart"), year.number(condition.threshold)
    nights = year.climate.air_min_c
    # Nights as warm as the mark in most years are no doubtful ones.
    doubt = mark + year.book.si("windows.years_apart") - blur
    never = share_below(max(nights), doubt, blur)
    if never >= 1:
        return None
    earliest = year.hottest + round(year.number(condition.earliest))
    last = year.hottest + round(year.number(NamedFact("windows.frost_free_last")))
    # Nights that are alike all year end nothing: there the season goes on to the turn of the year.
    last += round(year.endless * (year.next_coldest - last))
    cools, cool = year.falls(nights, mark, blur), share_below(min(nights), mark, blur)
    plain = cools + cool * year.number(condition.days)
    mild = min(cools + cool * _mild_days(year, condition), _mild_last(year, condition))
    day = max(year.evened(max(plain, mild), last), earliest)
    return round(day + never * max(0, last - day))


def _mild_days(year: GrowingYear, condition: NightsFalling) -> float:
    """The days from the fall of the nights, by how mild winters are."""
    plain = year.number(condition.days)
    if condition.mild_days is None:
        return plain
    return plain + year.mild * (year.number(condition.mild_days) - plain)


def _mild_last(year: GrowingYear, condition: NightsFalling) -> float:
    """The day beyond which a mild winter puts nothing off."""
    if condition.mild_last is None:
        return year.next_coldest
    return year.hottest + year.number(condition.mild_last)


def _frost_day(year: GrowingYear, kind: str, days: int) -> int | None:
    """So many days after the median last or first frost, or before the first one.

    None where frost does not come.
    """
    frost = year.climate.last_frost if kind == "last_frost" else year.climate.first_frost
    if frost is None:
        return None
    median = year.after(frost.median, year.coldest if kind == "last_frost" else year.hottest)
    return median - days if kind == "before_first_frost" else median + days


def _frost_ends(year: GrowingYear, condition: DegreeDaysLeft) -> int:
    """The day of the median first frost, or of the one that kills; the depth of winter where most
    years have none."""
    first = _frost_day(year, "first_frost", 0)
    if first is None or condition.killing is None:
        return year.next_coldest if first is None else first
    nights = year.climate.air_min_c
    killed = nights[first % DAYS] + year.number(condition.killing)
    days = range(first, year.next_coldest)
    return next((day for day in days if nights[day % DAYS] <= killed), max(first, days.stop))


def _degree_days_left(year: GrowingYear, needed: float, base_c: float, last: int) -> int | None:
    """The last day with so many degree days to come before the day that ends them."""
    total = 0.0
    for day in range(last - 1, year.coldest, -1):
        total += max(0.0, year.air_c(day) - base_c)
        if total >= needed:
            return day
    return None
