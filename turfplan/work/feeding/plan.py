"""How much nitrogen a season takes, in which feedings, and when none may or need be given."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from turfplan.book.entries import Book
from turfplan.climate.record import Climate
from turfplan.message import Message, Quantity
from turfplan.phrases import feeding as phrases
from turfplan.records.book_names import of_species
from turfplan.records.brief import Brief
from turfplan.records.constraints import Allowed, DaySet
from turfplan.records.past import KnownFeeding
from turfplan.work.feeding.balance import Given
from turfplan.work.feeding.blackouts import blackouts_of
from turfplan.work.feeding.cautions import bag_cautions, history_cautions
from turfplan.work.feeding.compost import CompostCredit, compost_credit
from turfplan.work.feeding.feedings import (
    Account,
    NitrogenFeeding,
    NitrogenYear,
    feedings,
    nitrogen_budget,
)
from turfplan.work.feeding.known_feedings import with_known_keys
from turfplan.work.feeding.lime_need import on_fresh_ground
from turfplan.work.feeding.limits import told_of_limits
from turfplan.work.feeding.nitrogen_windows import OpenWindow
from turfplan.work.feeding.nutrients import (
    LimePlan,
    Nutrient,
    NutrientItem,
    lime_plan,
    phosphorus_plan,
    potassium_plan,
    soil_test_notes,
)
from turfplan.work.feeding.slots import FeedingSeason, OpenTo, Skips, sowing_of
from turfplan.work.feeding.soil_nutrients import (
    NutrientDays,
    NutrientPart,
    carried_g_m2,
    phosphate_parts,
    potash_parts,
    still_to_come,
    without_bearer,
)
from turfplan.work.feeding.stages import NO_STAGES, Stages
from turfplan.work.feeding.starter import SeedOn, left_out, starter_days, starter_of
from turfplan.work.planted import plants


@dataclass(frozen=True, slots=True)
class FeedingWork:
    """What is done to a lawn in the days that are fed, from `first` to `last`.

    `windows` are the open windows of every operation; those of `feed_nitrogen` take feedings.
    `compost` holds the days on which compost is spread, each with its depth in mm, compost alone,
    settled. `seeded`: seed (not plants) is sown, on the day `sown` where that is known. Without
    `starter` seed gets none, since no day open to nitrogen is near enough to it; `starter_share` is
    the part of the lawn that gets one. `stages` says when
    the stand takes none and what it is fed with at its own time; feedings follow `passes` and fall
    on `days` of work. `fresh_ground` is loosened
    before it is sown, so that lime is worked in. `known` are the feedings of the plan before, by
    whose keys those of this one go; None for a first plan.
    """

    windows: Sequence[OpenWindow]
    first: date
    last: date
    seeded: bool = False
    compost: Sequence[tuple[date, float]] = ()
    compost_in_mix: bool = False
    starter: bool = True
    starter_share: float = 1.0
    fresh_ground: bool = False
    sown: date | None = None
    stages: Stages = NO_STAGES
    passes: Sequence[date] = ()
    days: DaySet | None = None
    known: Sequence[KnownFeeding] | None = None
    today: date = date.min

    @property
    def compost_mm(self) -> float:
        """The compost of all passes, mm."""
        return sum(depth for _, depth in self.compost)


@dataclass(frozen=True, slots=True)
class FeedingPlan:
    """The feedings of a season, what was left out and why, and what the soil test asks for.

    `compost_feeds` is true where compost in the mix takes the place of a starter. `budget_g_m2` is
    the year's nitrogen before `credit` (compost) and what was given already. `starter_days` are
    those that a starter is held to where a blackout closes others.
    """

    starter: NitrogenFeeding | None
    starter_reason: Message
    feeds: tuple[NitrogenFeeding, ...]
    skipped: tuple[tuple[str, Message], ...]
    lime: LimePlan | None
    potassium: Nutrient | None
    phosphorus: Nutrient | None
    cautions: tuple[Message, ...]
    notes: tuple[Message, ...]
    budget_g_m2: float
    credit: CompostCredit | None
    compost_feeds: bool
    starter_days: Allowed | None = None
    fresh_ground: bool = False
    potash: tuple[NutrientPart, ...] = ()
    phosphate: tuple[NutrientPart, ...] = ()
    known: Sequence[KnownFeeding] | None = None

    @property
    def phosphorus_short(self) -> bool:
        """Whether test and law leave room for phosphorus."""
        return self.phosphorus is not None and self.phosphorus.short

    def potash_g_m2(self, key: str) -> float:
        """The potash that goes on with a feeding; none where all of it is worked into fresh
        ground."""
        return carried_g_m2(self.potash, self._bearers("potash", self.feeds), key)

    def phosphate_with_g_m2(self, key: str) -> float:
        """The phosphate that goes on with a feeding or the starter; none where all of it is worked
        into fresh ground."""
        fed = self.feeds if self.starter is None else (self.starter, *self.feeds)
        return carried_g_m2(self.phosphate, self._bearers("phosphate", fed), key)

    def _bearers(
        self, item: NutrientItem, feeds: Sequence[NitrogenFeeding]
    ) -> Sequence[NitrogenFeeding]:
        """The feedings that a nutrient goes on with, or went."""
        gone = without_bearer(item, self.known)
        return [feed for feed in feeds if feed.key not in gone]


def feeding_plan(
    brief: Brief, book: Book, climate: Climate, species_id: str, work: FeedingWork
) -> FeedingPlan:
    """Nitrogen of a season and what goes with it.

    Raises TurfplanError for a fertilizer bag that cannot be.
    """
    blackouts, of_blackouts = blackouts_of(brief, book)
    season = FeedingSeason(brief, book, climate, species_id, blackouts)
    budget, why = nitrogen_budget(brief, book, species_id)
    credit = compost_credit(brief, book, work.compost_mm) if work.compost_mm > 0 else None
    nitrogen = _nitrogen(season, work, budget)
    given = nitrogen.left_g_m2
    fresh_ground = on_fresh_ground(brief, renewed=work.seeded or plants(brief, season.book))
    lime = lime_plan(brief, book, species_id, fresh_ground=fresh_ground)
    potassium = potassium_plan(brief, book)
    on_grass = _days_on_grass(season, work)
    if work.fresh_ground and potassium is not None and potassium.rate_g_m2 > 0:
        potassium = replace(potassium, reason=phrases.potash_worked_in())
    # Sod and plugs on loosened ground root into it as seedlings do.
    anew = work.seeded or work.fresh_ground
    phosphorus = phosphorus_plan(
        brief, book, seeded=anew, compost=work.compost_in_mix, today=work.first
    )
    phosphate = (
        phosphate_parts(season, phosphorus, nitrogen.starter, nitrogen.feeds, on_grass)
        if on_grass is not None
        else ()
    )
    potash = potash_parts(season, potassium, nitrogen.feeds, on_grass) if on_grass else ()
    if on_grass is not None and not phosphate and phosphorus.rate_g_m2 > 0:
        phosphorus = replace(phosphorus, rate_g_m2=0.0, reason=phrases.phosphate_no_day())
    cautions = [
        *([of_blackouts] if of_blackouts else []),
        *told_of_limits(brief, book, max((f.rate_g_m2 for f in nitrogen.all), default=0.0)),
        *history_cautions(brief, book, species_id, blackouts),
        *bag_cautions(season, nitrogen.all, phosphorus),
        *_asked_for(brief, potassium, phosphorus),
    ]
    counted = [
        *([credit.reason()] if credit else []),
        *([phrases.counted(rate=Quantity(given, "rate"))] if given else []),
    ]
    return FeedingPlan(
        nitrogen.starter,
        nitrogen.starter_reason,
        tuple(nitrogen.feeds),
        tuple(dict.fromkeys(nitrogen.skipped)),
        lime,
        potassium,
        phosphorus,
        tuple(dict.fromkeys(cautions)),
        (
            why,
            *counted,
            *nitrogen.short,
            *_left_out(nitrogen.skipped),
            *soil_test_notes(lime, (potassium, phosphorus)),
            phrases.other_nutrients(),
        ),
        budget,
        credit,
        compost_feeds=work.compost_in_mix and work.seeded,
        starter_days=nitrogen.starter_days,
        fresh_ground=work.fresh_ground,
        potash=still_to_come(potash, "potash", work.known, work.today),
        phosphate=still_to_come(phosphate, "phosphate", work.known, work.today),
        known=work.known,
    )


def _days_on_grass(season: FeedingSeason, work: FeedingWork) -> NutrientDays | None:
    """The days on which the nutrients of a soil test are spread on grass; None where they are
    worked into fresh ground."""
    if work.fresh_ground:
        return None
    brief = season.brief
    anew = brief.lawn.condition == "bare" or brief.seeding.intent == "renovate"
    # Before the seed living turf is kept from nitrogen alone.
    quiet = [q for q in work.stages.quiet if anew or work.sown is None or q.last >= work.sown]
    fed = [window for window in work.windows if window.operation == "feed_nitrogen"]
    return NutrientDays(work.first, work.last, quiet, work.days, fed)


@dataclass(frozen=True, slots=True)
class _Nitrogen:
    """The starter and the feedings of a season, with what was left out, and what is left of the
    nitrogen before the plan."""

    starter: NitrogenFeeding | None
    starter_reason: Message
    starter_days: Allowed | None
    feeds: Sequence[NitrogenFeeding]
    skipped: Skips
    short: Sequence[Message]
    left_g_m2: float

    @property
    def all(self) -> tuple[NitrogenFeeding, ...]:
        """The feedings and the starter."""
        return (*self.feeds, *([self.starter] if self.starter else []))


def _nitrogen(season: FeedingSeason, work: FeedingWork, budget_g_m2: float) -> _Nitrogen:
    """The starter, and what it leaves of each year's nitrogen shared out to feedings."""
    book, brief = season.book, season.brief
    fact = book.fact(of_species(season.species_id, "nitrogen_year"))
    compost = [
        (day, credit.g_m2, credit.low_g_m2)
        for day, depth in work.compost
        for credit in (compost_credit(brief, book, depth),)
    ]
    year = NitrogenYear(budget_g_m2, fact.low_si, fact.high_si, compost)
    before = [Given(use.on, use.on, use.rate_g_m2) for use in brief.history.nitrogen]
    sowing = sowing_of(work.windows, work.first, work.last)
    sown = SeedOn(sowing, work.sown, work.first, work.last)
    starter, reason = starter_of(
        season,
        sown,
        seeded=work.seeded,
        compost_in_mix=work.compost_in_mix,
        given=before,
        high_g_m2=year.high_g_m2,
    )
    if starter is not None and not work.starter:
        starter, reason = None, left_out(season, sowing)
    given = [
        *before,
        *([_of_starter(season, sown, starter, work.starter_share)] if starter else []),
    ]
    open_to = OpenTo(given, work.stages.quiet, work.passes, work.days)
    account = Account(work.windows, work.first, work.last, year, open_to)
    skipped: Skips = []
    feeds, short = feedings(season, account, work.stages.feedings, skipped)
    instead = work.stages.instead
    if instead is not None and (short or not any(feed.if_pale for feed in feeds)):
        # A look that no feeding can follow, or in a year that gets too little anyway, is none.
        skipped = []
        quiet = (*instead.quiet, *work.stages.quiet[len(instead.quiet) :])
        account = replace(account, open_to=replace(open_to, quiet=quiet))
        feeds, short = feedings(season, account, instead.feedings, skipped)
    days = starter_days(season, sowing) if starter is not None else None
    if work.known is not None:
        within = round(book.fact("feeding.least_gap").high_si)
        feeds = list(with_known_keys(feeds, work.known, work.today, within))
    return _Nitrogen(starter, reason, days, feeds, skipped, short, account.left_g_m2(book, given))


def _of_starter(
    season: FeedingSeason, sown: SeedOn, starter: NitrogenFeeding, share: float
) -> Given:
    """The starter in the account: on its day, or within days of a known day of seed."""
    if sown.day is None:
        return Given(starter.best, starter.best, starter.rate_g_m2, share=share)
    late = timedelta(round(season.book.si("order.starter_most")))
    return Given(sown.day, sown.day + late, starter.rate_g_m2, share=share)


def _left_out(skipped: Skips) -> list[Message]:
    """The reasons for which feedings are left out, each once."""
    return [phrases.left_out_note(why=why) for why in dict.fromkeys(why for _, why in skipped)]


def _asked_for(
    brief: Brief, potassium: Nutrient | None, phosphorus: Nutrient | None
) -> tuple[Message, ...]:
    """What the soil test asks for, where it looked; lime has a task of its own."""
    looked = (brief.soil_test.phosphorus, brief.soil_test.potassium) != (None, None)
    return soil_test_notes(None, (potassium, phosphorus)) if looked else ()
