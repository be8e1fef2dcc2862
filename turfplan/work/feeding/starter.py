"""Whether seed gets a starter, how much of one, and when; else why none is given."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from turfplan.book.citations import who_says
from turfplan.book.entries import Book
from turfplan.message import Day, Message, Quantity, listed
from turfplan.phrases import feeding as phrases
from turfplan.records.constraints import Allowed, DaySet, Reason, Strength
from turfplan.work.feeding.balance import Given, near, room_g_m2
from turfplan.work.feeding.blackouts import free_days
from turfplan.work.feeding.feedings import NitrogenFeeding
from turfplan.work.feeding.nitrogen_windows import OpenWindow
from turfplan.work.feeding.slots import FeedingSeason
from turfplan.work.planted import plants

STARTER_TASK = "starter_feed"
# No starter is as large: a limit where no rule names one.
NO_CAP_G_M2 = float("inf")


def feeding_of_plants(book: Book) -> Message:
    """What plugs, sprigs or sod are fed with, and when."""
    rate = book.fact("feeding.plants_rate")
    return phrases.plants_told(rate=Quantity(rate.si, "rate"), source=who_says(book, rate.source))


@dataclass(frozen=True, slots=True)
class SeedOn:
    """When seed goes in: its window, the day where it is known, and the days of the plan."""

    window: OpenWindow | None
    day: date | None
    first: date
    last: date

    @property
    def days(self) -> tuple[date, date, date]:
        """The first, the last and the best day of the seed."""
        if self.day is not None:
            return self.day, self.day, self.day
        if self.window is not None:
            return self.window.start, self.window.end, self.window.best
        return self.first, self.last, self.first


def starter_of(
    season: FeedingSeason,
    sown: SeedOn,
    *,
    seeded: bool,
    compost_in_mix: bool,
    given: Sequence[Given] = (),
    high_g_m2: float = NO_CAP_G_M2,
) -> tuple[NitrogenFeeding | None, Message]:
    """The starter of a season, or None, with the reason for either.

    `given` is the nitrogen before the plan, `high_g_m2` the most of any twelve months.
    """
    why_none = _none_needed(season, seeded=seeded, compost_in_mix=compost_in_mix)
    if why_none is not None:
        return None, why_none
    start, end, best = sown.days
    late = timedelta(round(season.book.si("order.starter_most")))
    free = free_days(start, end + late if sown.day else end, season.blackouts)
    if not free:
        return None, left_out(season)
    first, last = min(free, key=lambda span: max((span[0] - best).days, (best - span[1]).days, 0))
    day = min(max(best, first), last)
    rate = min(
        season.book.si("feeding.starter_rate"),
        season.most_g_m2,
        room_g_m2(high_g_m2, given, day, day),
    )
    if (against := _against(season, day, rate, given)) is not None:
        return None, against
    asleep = sown.window is not None and sown.window.operation == "dormant_seed"
    starter = NitrogenFeeding(
        "starter",
        sown.window.season if sown.window else "",
        rate,
        first,
        last,
        day,
        phrases.starter_wakes() if asleep else phrases.starter_why(),
        ("feeding.starter_rate",),
    )
    return starter, starter.reason


def _against(
    season: FeedingSeason, day: date, rate_g_m2: float, given: Sequence[Given]
) -> Message | None:
    """What speaks against a starter on a day: cold soil, nitrogen just given, or a full year."""
    book = season.book
    if season.climate.soil_c(day) < book.si("feeding.least_soil"):
        return phrases.starter_cold()
    least = round(book.low_si("feeding.least_gap"))
    before = [g.last for g in given if near([g], day, least)]
    if before:
        return phrases.starter_fed_before(day=Day(max(before)))
    if rate_g_m2 < book.si("feeding.least_rate") - 1e-9:
        return phrases.starter_year_full()
    return None


def left_out(season: FeedingSeason, sowing: OpenWindow | None = None) -> Message:
    """Why seed gets no starter though it wants one: the days near it are closed to nitrogen, or
    no day of work lies near enough."""
    if season.blackouts and (sowing is None or starter_days(season, sowing) is not None):
        return phrases.starter_blackout(blackout=season.blackouts[0].what)
    return phrases.starter_no_day()


def starter_days(season: FeedingSeason, sowing: OpenWindow | None) -> Allowed | None:
    """The days open to nitrogen on which the seed of a window could get its starter.

    None where no blackout closes any of them.
    """
    if sowing is None:
        return None
    last = sowing.end + timedelta(round(season.book.si("order.starter_most")))
    free = free_days(sowing.start, last, season.blackouts)
    if free == [(sowing.start, last)]:
        return None
    closed = listed((b.what for b in season.blackouts), "comma")
    return Allowed(
        f"window:{STARTER_TASK}",
        STARTER_TASK,
        DaySet.of((start.toordinal(), end.toordinal()) for start, end in free),
        Strength.STRONG,
        Reason(
            f"window.{STARTER_TASK}",
            phrases.starter_open_days(blackouts=closed),
            ("feeding.starter_rate",),
        ),
        opens=True,
    )


def _none_needed(season: FeedingSeason, *, seeded: bool, compost_in_mix: bool) -> Message | None:
    """Why no starter is wanted at all; None where seed wants one."""
    if plants(season.brief, season.book):
        return feeding_of_plants(season.book)
    if not seeded:
        return phrases.starter_nothing_sown()
    if compost_in_mix:
        return phrases.starter_compost_feeds()
    return None
