"""When seed wakes, is up, is mown, tells by its colour, and bears a layer again: by growth."""

from bisect import bisect_left
from dataclasses import dataclass
from datetime import date
from functools import lru_cache

from turfplan.calendar_days import DAYS
from turfplan.climate.record import Climate
from turfplan.reckoned_once import reckoned_once
from turfplan.work.campaigns import Campaign
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.seed_mix import germination_days

# Seed that is sown in autumn has been mown and looked at well within this time.
_REACH_DAYS = 2 * DAYS


@dataclass(frozen=True, slots=True)
class Emergence:
    """Days from sowing to what comes of the seed.

    `wakes` is when it takes up water (0 but for dormant seed); then the first and the last of it
    are up; then the first mow and the look at its colour, each with the first, the best and the
    last day; on `undressed` it has been mown three times and bears a layer, a preventer or tines.
    """

    wakes: int
    first: int
    last: int
    mow_least: int
    mow_best: int
    mow_most: int
    colour_least: int
    colour_best: int
    colour_most: int
    undressed: int


def waits_for_spring(campaign: Campaign) -> bool:
    """Whether the seed of a campaign rests in the ground until spring."""
    return campaign.sow_window is not None and campaign.sow_window.operation == "dormant_seed"


@reckoned_once
def emergence(setting: ResolvedLawn, campaign: Campaign) -> Emergence | None:
    """How long this seed takes here, with the days counted from sowing on the window's best day.

    Days of good growth are told by the book; where growth is slow they grow longer, and what a
    winter interrupts goes on in spring.
    """
    if campaign.sow_window is None or setting.sowing.operation in (None, "plant"):
        return None
    book = setting.book
    quick, slow = germination_days(book, setting.sowing.grasses)
    least, most = round(quick), round(slow)
    growth = _Growth(setting, campaign.sow_window.best.toordinal())
    if waits_for_spring(campaign):
        # Nothing happens before the soil has warmed again: growth counts from the turn of the year.
        # Dormant seed has taken up its water over winter: it wakes ready, and only the slow part
        # follows after the quick.
        rested = setting.days("seeding.dormant_rest")
        first = growth.after(rested, book.si("seeding.dormant_wakes"))
        wakes, last = max(rested, first - least), first + most - least
    else:
        wakes, first, last = 0, least, most
    grow, spread = (
        book.fact("setting.seedling_growth_days"),
        setting.days("setting.first_mow_spread_days"),
    )
    colour = book.fact("setting.colour_look_days")
    more = setting.days("seeding.third_mowing")
    mow_least = growth.days(first, round(grow.low_si))
    mow_best = growth.days((first + last) // 2, round((grow.low_si + grow.si + spread) / 2))
    # What can be mown before winter is not left to stand until spring.
    mow_best = growth.before_rest(mow_least, mow_best)
    looked = growth.awake(max(last + round(colour.low_si), mow_best + more // 2))
    # A look that winter puts off has as many days in spring as it would have had before.
    look_span = round(colour.high_si - colour.low_si)
    return Emergence(
        wakes=wakes,
        first=first,
        last=last,
        mow_least=mow_least,
        mow_best=mow_best,
        mow_most=growth.days(last, round(grow.si) + spread),
        colour_least=looked,
        colour_best=growth.awake(max(last + round(colour.si), mow_best + more)),
        colour_most=max(
            growth.awake(max(last + round(colour.high_si), mow_best + 2 * more)),
            looked + look_span,
        ),
        undressed=max(
            wakes + setting.days("seeding.no_dressing"),
            growth.days(mow_best, more),
        ),
    )


class _Growth:
    """The growth of what is sown on a day, counted from that day."""

    def __init__(self, setting: ResolvedLawn, sown: int) -> None:
        self._good = setting.book.si("setting.good_growth")
        self._least = setting.book.si("water.dormant_growth")
        self._sums = _sums(setting.climate, setting.sowing.grass.season, sown)

    def after(self, day: int, units: float) -> int:
        """The day by which growth has come to `units` since another, in days of full growth."""
        start = min(day, _REACH_DAYS)
        return min(bisect_left(self._sums, self._sums[start] + units), _REACH_DAYS)

    def days(self, day: int, count: int) -> int:
        """The day that lies so many days of good growth after another, never one of rest."""
        return self.awake(max(day + count, self.after(day, count * self._good)))

    def awake(self, day: int) -> int:
        """The day itself, or the first after it on which grass does not rest."""
        reached = day
        while reached < _REACH_DAYS and self._today(reached) < self._least:
            reached += 1
        return reached

    def before_rest(self, day: int, until: int) -> int:
        """The last day up to `until` that no rest parts from `day`."""
        reached = day
        while reached < until and self._today(reached + 1) >= self._least:
            reached += 1
        return reached

    def _today(self, day: int) -> float:
        return self._sums[day + 1] - self._sums[day]


@lru_cache(maxsize=64)
def _sums(climate: Climate, season: str, sown: int) -> tuple[float, ...]:
    """The growth potential summed up before each day from sowing on."""
    sums = [0.0]
    for day in range(sown, sown + _REACH_DAYS + 1):
        sums.append(sums[-1] + climate.growth_potential(date.fromordinal(day), season))
    return tuple(sums)


def undressed_days(setting: ResolvedLawn, campaign: Campaign) -> int:
    """Days from sowing or planting in which nothing is spread over what is young; 0 without
    either.
    """
    if campaign.sow_window is None:
        return 0
    up = emergence(setting, campaign)
    return setting.days("seeding.no_dressing") if up is None else up.undressed


def given_back_on(setting: ResolvedLawn, sown: date) -> date | None:
    """The best day to give the lawn back to the grass below one that was sown for a winter.

    None where none is open in the plan.
    """
    spring = setting.open("spring_transition")
    return next((window.best for window in spring if window.start > sown), None)
