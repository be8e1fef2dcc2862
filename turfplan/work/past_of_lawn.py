"""What earlier sowings, treated moss and live causes leave to the days of a task."""

from collections.abc import Iterator
from datetime import timedelta
from typing import TypedDict

from turfplan.calendar_days import DAYS
from turfplan.message import Day, Message, as_written, listed
from turfplan.phrases import past_of_lawn as phrases
from turfplan.phrases import plan_cautions
from turfplan.records.book_names import FactName, OperationName, of_species
from turfplan.records.brief import EarlierSowing, HerbicideUse
from turfplan.records.constraints import Reason, Strength
from turfplan.work.drafts import Draft, OpenDays
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.order import SOWING
from turfplan.work.pesticide_law import takes_preventer
from turfplan.work.phases.cause_seasons import LOOKED_AGAIN
from turfplan.work.weed_killers import barrier_until

# What buries, tears or poisons seedlings.
HARMS: frozenset[OperationName] = frozenset(
    {"topdress", "touch_up", "core_aerate", "dethatch", "weed_control", "preemergent"}
)
# What they bear once they have been mown.
_AFTER_CUT: frozenset[OperationName] = frozenset({"mow_low", "feed_nitrogen"})


def rests(setting: ResolvedLawn, draft: Draft) -> Iterator[tuple[int, Strength, Reason]]:
    """The first days (ordinals) that the lawn's past leaves to a task, how strongly, and why."""
    for sowing in () if setting.on_open_ground else setting.brief.history.sowings:
        if draft.operation in HARMS or draft.operation in _AFTER_CUT:
            yield _of_seedlings(setting, draft, sowing)
    for moss in setting.brief.history.moss:
        if draft.operation in SOWING or draft.operation in ("plant", "dethatch", "rake_moss"):
            rest: FactName = "site.moss_rest"
            reason = Reason("past.moss", phrases.moss(day=Day(moss.on)), (rest,))
            yield moss.on.toordinal() + setting.days(rest), Strength.HARD, reason
    if draft.id == LOOKED_AGAIN and setting.alive_until is not None:
        yield setting.alive_until, Strength.HARD, Reason("past.alive", phrases.alive())


def _of_seedlings(
    setting: ResolvedLawn, draft: Draft, sowing: EarlierSowing
) -> tuple[int, Strength, Reason]:
    if draft.operation in HARMS:
        rest: FactName = "seeding.no_dressing"
        day, why = (
            _wakes(setting, sowing) + setting.days(rest),
            phrases.no_dressing(day=Day(sowing.on)),
        )
        strong = Strength.HARD if draft.operation in ("topdress", "touch_up") else Strength.STRONG
        return day, strong, Reason("past.seedlings", why, (rest,))
    day = _up(setting, sowing) + setting.days("setting.seedling_growth_days")
    facts: tuple[FactName, ...] = ("setting.seedling_growth_days",)
    why = phrases.not_mown_yet(day=Day(sowing.on))
    return day, Strength.ADVICE, Reason("past.seedlings", why, facts)


def _up(setting: ResolvedLawn, sowing: EarlierSowing) -> int:
    """The day (an ordinal) by which the last of that seed should be up."""
    grass = sowing.species or setting.turf.species.id
    own = setting.book.get(of_species(grass, "germination_days"))
    days = own or setting.book.fact("seeding.germination_days")
    return _wakes(setting, sowing) + round(days.high_si)


def _wakes(setting: ResolvedLawn, sowing: EarlierSowing) -> int:
    """The day (an ordinal) from which that seed counts: of dormant seed the first of growth."""
    least, day = setting.book.si("site.growing_day"), sowing.on
    for _ in range(DAYS):
        if setting.climate.growth_potential(day, setting.turf.species.season) >= least:
            break
        day += timedelta(days=1)
    return day.toordinal()


def young_sowings(setting: ResolvedLawn) -> tuple[tuple[EarlierSowing, int], ...]:
    """The sowings whose seedlings are young as the plan begins, with the day of the look (an
    ordinal) that finds the last of them up."""
    rest = setting.days("seeding.no_dressing")
    return tuple(
        (sowing, max(_up(setting, sowing) + 1, setting.first_day))
        for sowing in setting.brief.history.sowings
        if _wakes(setting, sowing) + rest >= setting.first_day
    )


def rests_told(setting: ResolvedLawn) -> tuple[Message, ...]:
    """What is said at the head of a plan of sowings and moss of the past that are waited for."""
    young = [phrases.young(day=Day(sowing.on)) for sowing, _ in young_sowings(setting)]
    return (*young, *(phrases.moss_treated(**use) for use in _moss(setting, over=False)))


def over_told(setting: ResolvedLawn) -> tuple[Message, ...]:
    """What is said of those that nothing waits for any more: old enough, or black."""
    black = (phrases.moss_black(**use) for use in _moss(setting, over=True))
    return (*grown_sowings(setting), *black, *barrier_told(setting))


def still_to_come(setting: ResolvedLawn) -> Iterator[Message]:
    """What is said of entries of the brief's history that lie ahead: they count as done."""
    past = setting.brief.history
    told = [use.on for use in past.herbicides] + [use.on for use in past.nitrogen]
    told += [use.on for use in past.sowings] + [use.on for use in past.moss]
    told += [use.on for use in past.lime]
    days = sorted({day for day in told if day > setting.today})
    if days:
        ahead = listed((Day(day) for day in days), "and")
        yield phrases.still_to_come(days=ahead, today=Day(setting.today))


class _MossWords(TypedDict):
    """When moss was treated, and with what."""

    day: Day
    ingredient: Message


def _moss(setting: ResolvedLawn, *, over: bool) -> Iterator[_MossWords]:
    """Moss that was treated: that which is still to turn black on the plan's first day, or is
    `over`. None where it goes with the turf."""
    for use in () if setting.worked == "killed" else setting.brief.history.moss:
        black = use.on.toordinal() + setting.days("site.moss_rest")
        name = use.active_ingredient
        if (black <= setting.first_day) is over:
            ingredient = as_written(name) if name else phrases.moss_killer()
            yield _MossWords(day=Day(use.on), ingredient=ingredient)


def grown_sowings(setting: ResolvedLawn) -> tuple[Message, ...]:
    """What is said of sowings of the past whose grass is old enough for all that is planned."""
    young = [sowing for sowing, _ in young_sowings(setting)]
    older = (sowing for sowing in setting.brief.history.sowings if sowing not in young)
    return tuple(phrases.grown(day=Day(sowing.on)) for sowing in older)


def barrier_in(setting: ResolvedLawn, window: OpenDays) -> HerbicideUse | None:
    """The preventer of the past that guards the grass in a window of another: it was given by its
    end, and still keeps weeds down as it opens."""
    for use in setting.brief.history.herbicides:
        until = barrier_until(setting.book, use)
        if until is not None and use.on <= window.end and until >= window.start.toordinal():
            return use
    return None


def barrier_told(setting: ResolvedLawn) -> tuple[Message, ...]:
    """What is said of a preventer of the past that takes the place of the plan's own."""
    if not setting.cool or not takes_preventer(setting):
        return ()
    ahead = (w for w in setting.open("preemergent") if w.end.toordinal() >= setting.first_day)
    uses = dict.fromkeys(use for w in ahead if (use := barrier_in(setting, w)) is not None)
    return tuple(
        phrases.preventer_down(ingredient=use.active_ingredient, day=Day(use.on)) for use in uses
    )


def barriers_torn(setting: ResolvedLawn, day: int) -> tuple[Message, ...]:
    """What is said where blades go through preventers of the past that still work on a day (an
    ordinal)."""
    uses = ((use, barrier_until(setting.book, use)) for use in setting.brief.history.herbicides)
    return tuple(
        plan_cautions.barrier_torn(ingredient=use.active_ingredient, day=Day(use.on))
        for use, until in uses
        if until is not None and until >= day
    )


def last_rest(setting: ResolvedLawn) -> int | None:
    """The last day (an ordinal) on which seedlings of the past bear no weed barrier; None where
    there were none."""
    rest = setting.days("seeding.no_dressing")
    return max(
        (_wakes(setting, sowing) + rest for sowing in setting.brief.history.sowings), default=None
    )
