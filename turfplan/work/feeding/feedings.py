"""The feedings of each year of a plan: the budget of the grass on the days that suit it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from functools import partial
from math import ceil

from turfplan.book.entries import Book
from turfplan.book.words import grass_name
from turfplan.calendar_days import DAYS
from turfplan.message import Day, Message, Number, Quantity, sentences
from turfplan.phrases import feeding as phrases
from turfplan.records.book_names import FactName, of_family, of_species
from turfplan.records.brief import Brief, StandCondition
from turfplan.work.feeding.balance import (
    Given,
    room_g_m2,
    share_of_growth,
)
from turfplan.work.feeding.given_before import left_of_before
from turfplan.work.feeding.nitrogen_windows import OpenWindow
from turfplan.work.feeding.sharing import share_out, water_fill
from turfplan.work.feeding.slots import (
    AFTER_PASS,
    FeedingSeason,
    FeedingSlot,
    OpenTo,
    Skips,
    closed_by,
    late_reason,
    open_spans,
    slots_of,
)
from turfplan.work.feeding.stages import RYE, StageFeeding

# Rates are told and added in thousandths of a gram.
HAIR_G_M2 = 0.005
# Why a day is left out for another one: no reason for a year that gets too little.
BY_CHOICE = frozenset(
    message.key
    for message in (
        phrases.left_out_fewer(),
        phrases.left_out_too_close(n=0),
        phrases.left_out_near_other(n=0),
        phrases.left_out_fresh_layer(),
    )
)
STANDS: Mapping[StandCondition, Message] = {
    "dense": phrases.stand_dense(),
    "thin": phrases.stand_thin(),
    "patchy": phrases.stand_patchy(),
    "bare": phrases.stand_bare(),
}


@dataclass(frozen=True, slots=True)
class NitrogenFeeding:
    """One feeding: rate of nitrogen, its window and best day, and why."""

    key: str
    season: str
    rate_g_m2: float
    start: date
    end: date
    best: date
    reason: Message
    facts: tuple[FactName, ...] = ()
    if_pale: bool = False


def nitrogen_budget(brief: Brief, book: Book, species_id: str) -> tuple[float, Message]:
    """The year's nitrogen (g/m2): within the grass's range by condition, less its clippings."""
    fact = book.fact(of_species(species_id, "nitrogen_year"))
    condition: StandCondition = brief.lawn.condition or "thin"
    share = book.si(of_family("feeding.budget_share_{condition}", condition))
    budget = fact.low_si + share * (fact.high_si - fact.low_si)
    stand, grass, way = STANDS[condition], grass_name(book, species_id), Number(share, "percent")
    if brief.feeding.clippings == "removed":
        return budget, phrases.budget_removed(stand=stand, grass=grass, share=way)
    credit = book.si("feeding.clippings_credit")
    why = phrases.budget_returned if brief.feeding.clippings else phrases.budget_assumed
    return (
        max(fact.low_si, budget * (1 - credit)),
        why(stand=stand, grass=grass, share=way, credit=Number(credit, "percent")),
    )


@dataclass(frozen=True, slots=True)
class NitrogenYear:
    """The nitrogen of a year, g/m2: what is wished, and the ends of the grass's range.

    `compost` holds the days on which compost is spread with what each counts for (the middle and
    the least, g/m2).
    """

    budget_g_m2: float
    low_g_m2: float
    high_g_m2: float
    compost: Sequence[tuple[date, float, float]] = ()

    @property
    def compost_given(self) -> list[Given]:
        """What compost counts for in any twelve months."""
        return [Given(day, day, rate, feeding=False) for day, rate, _ in self.compost]


@dataclass(frozen=True, slots=True)
class Account:
    """What a plan's feedings are reckoned from: the open windows, its days, what is given apart
    from them."""

    windows: Sequence[OpenWindow]
    first: date
    last: date
    year: NitrogenYear
    open_to: OpenTo

    def left_g_m2(self, book: Book, given: Sequence[Given]) -> float:
        """What of the nitrogen before the plan still feeds in its first year."""
        return left_of_before(book, self.first, given, self.open_to.quiet)


def feedings(
    season: FeedingSeason,
    account: Account,
    stage_feedings: Sequence[StageFeeding],
    skipped: Skips,
) -> tuple[list[NitrogenFeeding], list[Message]]:
    """The feedings in order of time, and what is said of years that get too little.

    First those that follow the stand, then the rest of each year's nitrogen on the days of its
    windows. What is left out is added to `skipped`.
    """
    staged = _staged(season, account, stage_feedings, skipped)
    taken = [*account.open_to.given, *(_given(feed) for feed in staged)]
    feeds = list(staged)
    short: list[Message] = []
    for first, last in _years(account.first, account.last):
        found = _of_year(season, account, taken, (first, last), skipped)
        feeds += found
        taken += [_given(feed) for feed in found]
        if (last - first).days >= DAYS - 1 and (
            why := _short(season, account, taken, (first, last), skipped)
        ):
            short.append(why)
    return _numbered(feeds), short


def _given(feed: NitrogenFeeding) -> Given:
    return Given(feed.start, feed.end, feed.rate_g_m2, own=feed.season != RYE)


def _staged(
    season: FeedingSeason,
    account: Account,
    wished: Sequence[StageFeeding],
    skipped: Skips,
) -> list[NitrogenFeeding]:
    """The feedings that follow the stand, each on the open day nearest its best."""
    book, feeds = season.book, list[NitrogenFeeding]()
    room = timedelta(round(book.si("feeding.tolerance")))
    for wish in wished:
        given = [*account.open_to.given, *(_given(feed) for feed in feeds)]
        open_to = replace(account.open_to, given=given, quiet=())
        spans = [
            span
            for span in open_spans(
                season,
                open_to,
                wish.first,
                min(wish.last, account.last),
                partial(_grows, season, account, wish),
            )
            if open_to.work_day(*span, min(max(wish.best, span[0]), span[1])) is not None
        ]
        if not spans:
            why = closed_by(season, open_to, wish.best) or _too_late(season, account, wish)
            skipped.append((wish.key, why))
            continue
        first, last = min(
            spans, key=lambda s: max((s[0] - wish.best).days, (wish.best - s[1]).days)
        )
        nearest = min(max(wish.best, first), last)
        best = open_to.work_day(first, last, nearest) or nearest
        first, last = max(first, best - room), min(last, best + room)
        rate = min(wish.rate_g_m2, season.most_g_m2)
        if wish.key != RYE:
            within = [*given, *account.year.compost_given]
            rate = min(rate, room_g_m2(account.year.high_g_m2, within, first, last))
        if rate < book.si("feeding.least_rate") - 1e-9:
            skipped.append((wish.key, _full(season, account.year)))
            continue
        feeds.append(
            NitrogenFeeding(
                wish.key,
                wish.key,
                rate,
                first,
                last,
                best,
                wish.reason,
                wish.facts,
                wish.if_pale,
            )
        )
    return feeds


def _grows(season: FeedingSeason, account: Account, wish: StageFeeding, day: date) -> bool:
    """True where the grass can still use a feeding that follows the stand: a warm-season grass in
    its own days of nitrogen, any other while it grows, up to a last date that binds it too. What a
    law has put off is given while it grows well."""
    if wish.put_off:
        growth = season.climate.growth_potential(day, season.kind)
        return growth >= season.book.si("setting.good_growth")
    if season.kind == "warm" and wish.key != RYE:
        windows = (w for w in account.windows if w.operation == "feed_nitrogen")
        return any(w.start <= day <= w.end for w in windows)
    if wish.key != RYE and season.past_last(account.windows, day):
        return False
    growth = season.climate.growth_potential(day, "cool")
    return growth >= season.book.si("water.dormant_growth")


def _too_late(season: FeedingSeason, account: Account, wish: StageFeeding) -> Message:
    if _grows(season, account, wish, wish.best):
        return phrases.left_out_no_day()
    past = wish.key != RYE and season.past_last(account.windows, wish.best)
    return phrases.left_out_last_date() if past else phrases.left_out_too_late()


def _full(season: FeedingSeason, year: NitrogenYear) -> Message:
    return phrases.left_out_year_full(
        grass=grass_name(season.book, season.species_id), high=Quantity(year.high_g_m2, "rate")
    )


def _of_year(
    season: FeedingSeason,
    account: Account,
    taken: Sequence[Given],
    days: tuple[date, date],
    skipped: Skips,
) -> list[NitrogenFeeding]:
    """The feedings of one year of the plan, or of the part that is left of one."""
    first, last = days
    windows = [w for w in account.windows if w.operation == "feed_nitrogen"]
    windows = [w for w in windows if w.start <= last and w.end >= first]
    open_to = replace(account.open_to, given=taken)
    slots = slots_of(season, windows, first, last, open_to, skipped)
    year, curve = account.year, season.climate.growth_curve(season.kind)
    share = share_of_growth(curve, first, last)
    spent = sum(g.mean_g_m2 for g in taken if g.own and first <= g.last <= last) + (
        account.left_g_m2(season.book, taken) if first == account.first else 0.0
    )
    shares = share_out(season.book, slots, year.budget_g_m2 * share - spent, skipped)
    shares = _less_compost(season, year, shares, days, year.low_g_m2 * share - spent)
    feeds: list[NitrogenFeeding] = []
    for slot, wished in sorted(shares, key=lambda s: s[0].best):
        within = [*taken, *(_given(feed) for feed in feeds), *year.compost_given]
        rate = min(wished, room_g_m2(year.high_g_m2, within, slot.start, slot.end))
        if rate < season.book.si("feeding.least_rate") - 1e-9:
            skipped.append((slot.key, _full(season, year)))
        else:
            feeds.append(_feeding(season, slot, rate, year.budget_g_m2))
    return feeds


def _less_compost(
    season: FeedingSeason,
    year: NitrogenYear,
    shares: Sequence[tuple[FeedingSlot, float]],
    days: tuple[date, date],
    least_g_m2: float,
) -> list[tuple[FeedingSlot, float]]:
    """The shares less what compost gives after it is spread, never below the least of the year.

    What compost gives is uncertain: only what it gives for sure counts towards the least.
    """
    curve, (first, last) = season.climate.growth_curve(season.kind), days
    reduced = list(shares)
    for day, middle, sure in year.compost:
        if day > last or (first - day).days >= DAYS:
            continue
        released = share_of_growth(curve, day, last)
        if day < first:
            released = 1 - share_of_growth(curve, day, first)
        total = sum(rate for _, rate in reduced)
        spared = [_spared(season.book, share) if share[0].start > day else 0.0 for share in reduced]
        after = sum(spared)
        spare = total - max(0.0, least_g_m2 - sure * released)
        less = min(middle * released, after, spare)
        if less <= 0 or after <= 0:
            continue
        reduced = [
            (slot, rate - part * less / after)
            for (slot, rate), part in zip(reduced, spared, strict=True)
        ]
    return _worth_the_walk(season.book, reduced)


def _spared(book: Book, share: tuple[FeedingSlot, float]) -> float:
    """What compost can take the place of in a share: one that opens the year stays worth a walk."""
    slot, rate = share
    return max(0.0, rate - book.si("feeding.least_rate")) if slot.opens_year else rate


def _worth_the_walk(
    book: Book, shares: Sequence[tuple[FeedingSlot, float]]
) -> list[tuple[FeedingSlot, float]]:
    """The shares with those that are too small given with the others, as far as these take more."""
    kept = sorted(shares, key=lambda share: share[1])
    least = book.si("feeding.least_rate")
    while kept and kept[0][1] < least - 1e-9:
        total = sum(rate for _, rate in kept)
        kept = kept[1:]
        rates = water_fill([rate for _, rate in kept], [s.cap_g_m2 for s, _ in kept], total)
        kept = sorted(zip((s for s, _ in kept), rates, strict=True), key=lambda share: share[1])
    return kept


def _short(
    season: FeedingSeason,
    account: Account,
    taken: Sequence[Given],
    days: tuple[date, date],
    skipped: Skips,
) -> Message | None:
    """What is said of a year whose feedings stay below the least of the grass, and why they do."""
    first, last = days
    total = sum(
        g.mean_g_m2
        for g in (*taken, *account.year.compost_given)
        if g.own and first <= g.last <= last
    ) + (account.left_g_m2(season.book, taken) if first == account.first else 0.0)
    if total >= account.year.low_g_m2 - HAIR_G_M2:
        return None
    quiet = [q.reason for q in account.open_to.quiet if q.first <= last and q.last >= first]
    told = (reason for _, reason in skipped if reason.key not in BY_CHOICE)
    why = tuple(dict.fromkeys((*quiet, *told)))
    return phrases.short_year(
        first=Day(first),
        last=Day(last),
        rate=Quantity(total, "rate"),
        grass=grass_name(season.book, season.species_id),
        low=Quantity(account.year.low_g_m2, "rate"),
        why=sentences(*why) if why else phrases.short_no_days(),
    )


def _years(start: date, end: date) -> list[tuple[date, date]]:
    """The plan's days cut into years from its first day."""
    count = max(1, ceil(((end - start).days + 1) / DAYS))
    firsts = [start + timedelta(DAYS * n) for n in range(count)]
    return [(first, min(end, first + timedelta(DAYS - 1))) for first in firsts]


def _feeding(
    season: FeedingSeason, slot: FeedingSlot, rate_g_m2: float, budget_g_m2: float
) -> NitrogenFeeding:
    why = phrases.why(
        rate=Quantity(rate_g_m2, "rate"),
        budget=Quantity(budget_g_m2, "rate"),
        growth=Number(season.climate.growth_potential(slot.best, season.kind), "percent"),
        most=Quantity(slot.cap_g_m2, "rate"),
    )
    facts: tuple[FactName, ...] = (
        of_species(season.species_id, "nitrogen_year"),
        "feeding.single_max",
        "feeding.least_gap",
        "feeding.clippings_credit",
    )
    return NitrogenFeeding(
        slot.key,
        slot.window.season,
        rate_g_m2,
        slot.start,
        slot.end,
        slot.best,
        sentences(
            why,
            late_reason(season) if slot.key == "late" else None,
            phrases.after_pass() if slot.rank == AFTER_PASS else None,
        ),
        facts,
    )


def _numbered(feeds: Sequence[NitrogenFeeding]) -> list[NitrogenFeeding]:
    """Keys made unique in order of time: autumn, autumn2."""
    seen: dict[str, int] = {}
    numbered = []
    for feed in sorted(feeds, key=lambda f: f.best):
        seen[feed.key] = seen.get(feed.key, 0) + 1
        again = seen[feed.key] > 1
        numbered.append(replace(feed, key=f"{feed.key}{seen[feed.key]}") if again else feed)
    return numbered
