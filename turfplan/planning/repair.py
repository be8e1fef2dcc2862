"""Repairs a campaign: its done tasks where they happened, the open ones moved as little as
possible."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace
from datetime import date

from turfplan.message import Message
from turfplan.network import Conflict
from turfplan.planning.befallen import bound_by_events, with_event_reasons, with_looks
from turfplan.planning.begun_work import (
    held_open_for_begun,
    with_apart_told,
    with_rest_of_begun,
    with_rest_told,
)
from turfplan.planning.bought_again import with_bought_again
from turfplan.planning.candidates import (
    Candidate,
    Drafted,
    Feeder,
    draft_campaign,
    given_up,
    lawfully_fed,
)
from turfplan.planning.days_left import fixed_nodes, history_constraints
from turfplan.planning.dry_days import coming_rain, dry_day_constraints
from turfplan.planning.falling import (
    dated_without,
    falling,
    without,
    without_renewals,
    without_tasks,
)
from turfplan.planning.fed import fed
from turfplan.planning.fresh_loads import with_spoiled_told
from turfplan.planning.fresh_plants import stale_plants, with_fresh_told
from turfplan.planning.giving_way import (
    holds_in_the_way,
    mostly_up,
    sown_in_part,
    with_closed_told,
    with_missing_told,
    with_moves_given_up,
    with_moves_told,
    with_rest_unsown,
    with_work_closed,
    work_to_close,
)
from turfplan.planning.heap_again import (
    as_if_open,
)
from turfplan.planning.marks_again import (
    asked_before,
    run_out_requests,
    short_requests,
    untold_requests,
    with_requests_again,
    with_run_out_told,
)
from turfplan.planning.past_binds import (
    among_the_open,
    apart_from_passes,
    freed_of_passes,
    outlived,
    rest_after_seed,
    without_followers,
)
from turfplan.planning.preparation_again import (
    begun_again,
    prepared_before,
    run_out_preparation,
    stranded_preparation,
    untold_preparation,
    with_preparation_again,
)
from turfplan.planning.reasons import conflict_reasons
from turfplan.planning.rest_of_fill import rest_of_fill, with_depths_told, without_needless
from turfplan.planning.rest_to_sow import with_rest_to_sow
from turfplan.planning.schedule import Dated, repair_season
from turfplan.planning.settled_by_work import settled_by_work
from turfplan.planning.task_names import plain_titles
from turfplan.planning.too_late import without_too_late
from turfplan.planning.waiting import without_waiting
from turfplan.planning.wished_days import with_booked
from turfplan.planning.worth import last_work, of_people
from turfplan.records.constraints import Allowed, Constraint, Strength
from turfplan.records.past import TaskHistory
from turfplan.work.campaigns import Campaign
from turfplan.work.drafts import SeasonDraft, task_of_node
from turfplan.work.feeding.starter import STARTER_TASK
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.phases.marks import spare_renewals
from turfplan.work.watering.season import WeatherDay


@dataclass(frozen=True, slots=True)
class Repairing:
    """What a campaign is repaired with; where it is `closing`, work that no day is left for is
    closed, else the campaign cannot be kept. `missing_mm` of settled fill no pass takes up (None:
    no pass is open)."""

    feeder: Feeder
    permit: bool
    history: TaskHistory
    weather: Mapping[date, WeatherDay]
    closing: bool = False
    missing_mm: float | None = None


def first_open_day(setting: ResolvedLawn) -> date:
    """The first day for what is still to be done: today, or later where the brief asks for a later
    start."""
    return max(setting.today, setting.brief.season.start or setting.today)


def refed(
    setting: ResolvedLawn, campaign: Campaign, given: Repairing
) -> Candidate | tuple[Message, ...]:
    """A campaign repaired and fed; a starter that is given already, or moved by hand, stays as it
    is. What lies there already changes how deep its passes are."""
    rest = rest_of_fill(setting, campaign, given.history)
    past = with_depths_told(campaign, without_needless(given.history, rest), rest)
    campaign = held_open_for_begun(setting, rest.campaign, given.history)
    given = replace(given, history=past, missing_mm=rest.missing_mm)
    unfed = _starter_kept(setting, campaign, given)
    if isinstance(unfed, tuple):
        return unfed

    def dated(season: SeasonDraft) -> Dated | None:
        drafted = Drafted(campaign, unfed.mix, unfed.feeding, unfed.volumes, season)
        again = _repaired(setting, drafted, given)
        return None if isinstance(again, tuple) else replace(again.dated, season=again.season)

    fixed = given.history.fixed
    return fed(setting, unfed, given.feeder, dated, base=unfed.drafted, fixed=fixed)


def _starter_kept(
    setting: ResolvedLawn, campaign: Campaign, given: Repairing
) -> Candidate | tuple[Message, ...]:
    """A campaign repaired before it is fed, with the starter that was given or moved by hand."""
    if STARTER_TASK in given.history.fixed:
        drafted = draft_campaign(setting, campaign, given.feeder, permit=given.permit)
        return _repaired(setting, drafted, given)
    return lawfully_fed(
        setting,
        campaign,
        given.feeder,
        lambda drafted: _repaired(setting, drafted, given),
        permit=given.permit,
    )


def _repaired(
    setting: ResolvedLawn, drafted: Drafted, given: Repairing
) -> Candidate | tuple[Message, ...]:
    """A campaign around what has happened, or why it cannot be kept.

    Cuts, cores and marks of which nobody says that they were made are made again, where there are
    the days for it: else they are taken as made.
    """
    history = settled_by_work(setting, drafted.season, given.history)
    season = with_missing_told(setting, drafted.season, given.missing_mm, history)
    season = without_followers(setting, season, history)
    season = with_booked(_without_skipped(season, history), history)
    history = without_waiting(setting.book, season, history)
    season, history = without_too_late(setting, season, history, first_open_day(setting))
    season = with_rest_to_sow(setting, season, history)
    season = with_rest_told(setting, with_rest_of_begun(setting, season, history), history)
    season = with_bought_again(setting, drafted, season, history)
    season = with_looks(setting, drafted.campaign, season, history)
    season = with_spoiled_told(setting, season, history)
    history = with_event_reasons(setting, season, history)
    given = replace(given, history=history)
    cuts = prepared_before(setting, season, history)
    found = _prepared(setting, drafted, season, given, cuts)
    begun = cuts & begun_again(season, history)
    if cuts == begun or (isinstance(found, Candidate) and not _is_strained(found)):
        return found
    # A second turn that the plan before asked for may stand in the way of work on other days.
    anew = _prepared(setting, drafted, season, given, begun)
    if isinstance(found, Candidate) and isinstance(anew, Candidate):
        return anew if _bent(anew) < _bent(found) else found
    return anew if isinstance(anew, Candidate) else found


def _bent(way: Candidate) -> float:
    """What the rules cost that a way gives up."""
    return given_up(way.setting, way.dated.dropped)


def _is_strained(way: Candidate) -> bool:
    """Whether a way bends a strong rule."""
    return _bent(way) >= way.setting.book.si("campaign.cost_strong_rule")


def _prepared(
    setting: ResolvedLawn,
    drafted: Drafted,
    season: SeasonDraft,
    given: Repairing,
    cuts: frozenset[str],
) -> Candidate | tuple[Message, ...]:
    """A season on its days with the second turns of some `cuts`, cores and looks at heaps, and of
    those of which nobody says that they were made, where there are the days for them."""
    history = given.history
    marks = asked_before(season, history)
    untold_cuts = untold_preparation(setting, season, history)
    opened = with_preparation_again(setting, drafted.campaign, season, cuts | untold_cuts, history)
    untold_marks = untold_requests(opened, history)
    safe = _repeated(setting, drafted, opened, given, marks | untold_marks)
    if not (untold_cuts or untold_marks):
        return safe
    if isinstance(safe, Candidate) and not _is_strained(safe):
        return safe
    opened = with_preparation_again(setting, drafted.campaign, season, cuts, history)
    plain = _repeated(setting, drafted, opened, given, marks)
    if isinstance(safe, Candidate) and isinstance(plain, Candidate):
        return safe if _bent(safe) <= _bent(plain) else plain
    return safe if isinstance(safe, Candidate) else plain


def _repeated(
    setting: ResolvedLawn,
    drafted: Drafted,
    season: SeasonDraft,
    given: Repairing,
    marks: Collection[str],
) -> Candidate | tuple[Message, ...]:
    """A season on its days with some requests for marks made again; so are cuts, cores and marks
    that run out before the work they were for, where there are the days for it."""
    history, campaign = given.history, drafted.campaign
    season = with_requests_again(setting, campaign, season, marks, history)
    first = _dated_again(setting, drafted, season, given)
    if not isinstance(first, Candidate):
        return first
    if stale := stale_plants(setting, first.dated, history):
        fresh = replace(given, history=with_fresh_told(as_if_open(history, stale), stale))
        brought = _dated_again(setting, drafted, season, fresh)
        if isinstance(brought, Candidate):
            first, given, history = brought, fresh, fresh.history
    again = run_out_preparation(setting, first.dated, history)
    prepared = with_preparation_again(setting, campaign, season, again, history)
    second = _dated_again(setting, drafted, prepared, given) if again else first
    if isinstance(second, Candidate):
        first, season = second, prepared
    run_out = run_out_requests(season, first.dated.dropped)
    short = short_requests(season, first.dated, history)
    if short:
        reserved = with_requests_again(setting, campaign, season, run_out | short, history)
        third = _dated_again(setting, drafted, reserved, given)
        # What still holds is not asked for again where that takes days from the work.
        if isinstance(third, Candidate) and not _is_worse(third, first, history):
            return third
    if not run_out:
        return first
    season = with_requests_again(setting, campaign, season, run_out, history)
    third = _dated_again(setting, drafted, season, given)
    return third if isinstance(third, Candidate) else first


def _is_worse(other: Candidate, than: Candidate, history: TaskHistory) -> bool:
    """Whether the main work of one way ends later than that of another, or bends more rules."""
    days = (last_work(way, history) or (0, 0) for way in (other, than))
    return next(days) > next(days) or _bent(other) > _bent(than)


def _dated_again(
    setting: ResolvedLawn, drafted: Drafted, season: SeasonDraft, given: Repairing
) -> Candidate | tuple[Message, ...]:
    """A season on its days around what has happened, or why it has none.

    A day chosen by hand gives way before the campaign does; work is closed until the rest has days.
    """
    history = given.history
    while True:
        fixed = fixed_nodes(season, history, first_open_day(setting).toordinal())
        bound = _with_history(setting, drafted.campaign, season, fixed, history, given.weather)
        dated = _repaired_days(setting, bound, history, fixed)
        lost = dated if isinstance(dated, Conflict) else _lost_windows(dated)
        if not lost:
            assert isinstance(dated, Dated)  # what has no days has lost them
            stranded = stranded_preparation(setting, dated, fixed)
            spare = spare_renewals(setting, dated.season.drafts, dated.day) - history.fixed.keys()
            if not (stranded or spare):
                break
            season = without(setting, season, stranded) if stranded else season
            season = without_renewals(setting, season, spare) if spare else season
            continue
        reasons = conflict_reasons(lost, plain_titles(setting, season))
        moves = holds_in_the_way(lost, history)
        gone = work_to_close(setting, season, lost, history)
        lying = sown_in_part(setting, gone, history)
        if not given.closing:
            # What mostly stands does not wait a year for its first cut.
            lying = mostly_up(lying, history)
        if moves:
            history = with_moves_given_up(history, moves, reasons)
        elif lying:
            drafts = drafted.season
            season, history = with_rest_unsown(setting, drafts, season, history, lying, reasons)
        elif gone and given.closing:
            season, history = with_work_closed(setting, season, history, gone, reasons)
        else:
            return reasons
    season = with_apart_told(setting, dated, dated.season)
    season = with_moves_told(season, history)
    season = with_closed_told(setting, drafted.season, season, history)
    season = with_run_out_told(setting.book, season, dated.dropped, fixed, history.done)
    return Candidate(
        setting,
        drafted.campaign,
        drafted.mix,
        drafted.feeding,
        drafted.volumes,
        drafted.season,
        season,
        replace(dated, history=history),
        drafted.campaign.cost,
    )


def _repaired_days(
    setting: ResolvedLawn, season: SeasonDraft, history: TaskHistory, fixed: Mapping[str, int]
) -> Dated | Conflict:
    """A season on its days, less what would be out of season and the work can do without."""
    needed = {task_of_node(node) for node in fixed}
    while True:
        dated = dated_without(
            setting,
            season,
            lambda other: repair_season(setting, other, _published_nodes(other, history), fixed),
            needed,
        )
        if isinstance(dated, Conflict):
            return dated
        lost = {task_of_node(c.node) for c in _lost_windows(dated)}
        falls = falling(setting, dated.season, lost) - needed
        if not falls:
            return dated
        season = without(setting, dated.season, falls)


def _lost_windows(dated: Dated) -> tuple[Allowed, ...]:
    """The windows that a season could not keep."""
    return tuple(
        c
        for c in dated.dropped
        if isinstance(c, Allowed) and c.opens and c.strength >= Strength.STRONG
    )


def _with_history(
    setting: ResolvedLawn,
    campaign: Campaign,
    season: SeasonDraft,
    fixed: Mapping[str, int],
    history: TaskHistory,
    weather: Mapping[date, WeatherDay],
) -> SeasonDraft:
    """A season with what the journal and the forecast bind in it besides its own rules."""
    rain = coming_rain(weather, setting.today)
    first, last = setting.first_day, setting.last_day
    open_from = first_open_day(setting).toordinal()
    rules = freed_of_passes(season.constraints, setting.book, history)
    constraints = (
        *(part for c in rules for part in outlived(c, fixed, history, open_from)),
        *rest_after_seed(setting, campaign, season, history),
        *apart_from_passes(setting, season, history),
        *among_the_open(setting, campaign, season, history),
        *bound_by_events(setting, season, history),
        *history_constraints(history, season.drafts, first_open_day(setting), last),
        *dry_day_constraints(setting.book, season.drafts, rain, setting.calendar.work, first, last),
    )
    return replace(season, constraints=tuple(map(_yielding, constraints)))


def _yielding(constraint: Constraint) -> Constraint:
    """A constraint as a repair takes it: how people divide their days among jobs gives way before
    what the grass needs."""
    return replace(constraint, yields=True) if of_people(constraint) else constraint


def _without_skipped(season: SeasonDraft, history: TaskHistory) -> SeasonDraft:
    """A season without the tasks that were skipped, and without the rules that bound them."""
    return without_tasks(season, set(history.skipped) - set(history.done))


def _published_nodes(season: SeasonDraft, history: TaskHistory) -> dict[str, int]:
    return {d.id: history.published[d.id] for d in season.drafts if d.id in history.published}
