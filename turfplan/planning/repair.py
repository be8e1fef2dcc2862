"""Plans again: the same campaign, its done tasks where they happened, the open ones moved as little
as possible."""

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date

from turfplan.calendar_days import HALF_A_YEAR
from turfplan.message import Message, sentences
from turfplan.network import Conflict
from turfplan.planning.bought_again import with_bought_again
from turfplan.planning.candidates import (
    MAIN_WORK,
    Candidate,
    Comparison,
    Drafted,
    Feeder,
    all_campaigns,
    draft_campaign,
    lawfully_fed,
)
from turfplan.planning.dry_days import dry_day_constraints
from turfplan.planning.falling import dated_without, falling, without, without_tasks
from turfplan.planning.fed import fed
from turfplan.planning.giving_way import (
    holds_in_the_way,
    with_closed_told,
    with_moves_given_up,
    with_moves_told,
    with_work_closed,
    work_to_close,
)
from turfplan.planning.history import fixed_nodes, history_constraints
from turfplan.planning.marks_again import (
    asked_before,
    run_out_requests,
    with_requests_again,
    with_run_out_told,
)
from turfplan.planning.past_binds import (
    NEW,
    among_the_open,
    apart_from_passes,
    outlived,
    plays,
    rest_after_seed,
    without_followers,
)
from turfplan.planning.preparation_again import (
    marks_for_preparation,
    prepared_before,
    run_out_preparation,
    stranded_preparation,
    with_preparation_again,
)
from turfplan.planning.reasons import conflict_reasons
from turfplan.planning.schedule import Dated, repair_season
from turfplan.planning.settled_by_work import with_bought_for_done
from turfplan.planning.task_names import plain_titles
from turfplan.planning.too_late import without_too_late
from turfplan.planning.waiting import without_waiting
from turfplan.planning.ways_still_open import ways_still_open
from turfplan.planning.wished_days import compare_wished, with_booked
from turfplan.records.constraints import Allowed, Strength
from turfplan.records.past import TaskHistory
from turfplan.records.plan import Plan
from turfplan.work.campaigns import Campaign
from turfplan.work.drafts import SeasonDraft, task_of_node
from turfplan.work.feeding.starter import STARTER_TASK
from turfplan.work.filling import leaves_all
from turfplan.work.horizon import within
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.phases.open_turf import AHEAD
from turfplan.work.watering.season import Verdict, WeatherDay


@dataclass(frozen=True, slots=True)
class _Repairing:
    """What a campaign is repaired with; where it is `closing`, work that no day is left for is
    closed, else the campaign cannot be kept."""

    feeder: Feeder
    permit: bool
    history: TaskHistory
    weather: Mapping[date, WeatherDay]
    closing: bool = False


def compare_again(
    setting: ResolvedLawn,
    feeder: Feeder,
    verdict: Verdict,
    previous: Plan,
    history: TaskHistory,
    weather: Mapping[date, WeatherDay],
) -> Comparison:
    """The campaign of the plan before, repaired; only when it can no longer be done are the others
    compared, and only where none of them can is work closed that no day is left for.

    A day off that somebody wished for is a day of work only as long as the wish holds.
    """
    return compare_wished(
        setting,
        history,
        previous,
        lambda lawn, past: _compared_again(lawn, feeder, verdict, previous, past, weather),
    )


def _compared_again(
    setting: ResolvedLawn,
    feeder: Feeder,
    verdict: Verdict,
    previous: Plan,
    history: TaskHistory,
    weather: Mapping[date, WeatherDay],
) -> Comparison:
    """The campaigns compared around what has happened."""
    if setting.sowing.needs_water and not verdict.ok:
        return Comparison(None, (), verdict.reasons)
    given = _Repairing(feeder, verdict.needs_permit, history, weather)
    if _in_strips(previous):
        setting = replace(setting, strip_days=2)
    if any(task.id == AHEAD for task in previous.tasks):
        setting = replace(setting, dethatched_ahead=True)
    ways = ways_still_open(setting, previous, history)
    same = [way for way in ways if _as_deep(way, previous)] or ways
    known, ruled_out = all_campaigns(same)
    near = [way for way in known if way[1].id == previous.campaign]
    near.sort(key=lambda way: _distance(way[1], previous))
    kept = [way for way in near if _distance(way[1], previous) < HALF_A_YEAR]
    conflict: tuple[Message, ...] = ()
    rejected = tuple((r.campaign, r.reason) for r in previous.rejected)
    for lawn, campaign in kept:
        result = _refed(within(lawn, campaign), campaign, given)
        if not isinstance(result, tuple):
            return Comparison(result, rejected or ruled_out, ())
        conflict = conflict or result
    # The campaign cannot be kept: what is left of the time is laid out anew, around what is done.
    left = replace(
        setting,
        first_day=max(setting.first_day, _first_open_day(setting).toordinal()),
        thatch_down=AHEAD in history.done,
    )
    possible, ruled_out = all_campaigns(ways_still_open(left, previous, history))
    if any(plays(setting.book, name, NEW) for name in history.done):
        # What is in the ground waits for nothing: the fill is not left out for its sake.
        possible.sort(key=lambda way: leaves_all(way[0].levelling))
    # A campaign that is no longer among those to choose from stands with the others ruled out.
    given_up = ((previous.campaign_name, sentences(*conflict)),) if conflict else ()
    for lawn, campaign in possible:
        result = _refed(within(lawn, campaign), campaign, given)
        if not isinstance(result, tuple):
            return Comparison(result, (*given_up, *ruled_out), ())
    closing = replace(given, closing=True)
    found = [
        result
        for lawn, campaign in (*(kept or near[:1] or known[:1]), *possible[:1])
        for result in (_refed(within(lawn, campaign), campaign, closing),)
        if not isinstance(result, tuple)
    ]
    if found:
        best = min(found, key=lambda candidate: _left_undone(setting, candidate))
        return Comparison(best, (*given_up, *ruled_out), ())
    reasons = conflict or tuple(reason for _, reason in ruled_out)
    return Comparison(None, (*given_up, *ruled_out), reasons)


def _left_undone(setting: ResolvedLawn, candidate: Candidate) -> int:
    """How much main work a candidate closes."""
    taken = candidate.dated.history
    closed = () if taken is None else taken.closed
    return sum(plays(setting.book, name, MAIN_WORK) for name in closed)


def coming_rain(weather: Mapping[date, WeatherDay], today: date) -> dict[date, float]:
    """The rain that is forecast, mm by day from today on."""
    return {day: w.rain_mm for day, w in weather.items() if w.rain_mm is not None and day >= today}


def _first_open_day(setting: ResolvedLawn) -> date:
    """The first day for what is still to be done: today, or later where the brief asks for a later
    start."""
    return max(setting.today, setting.brief.season.start or setting.today)


def _as_deep(lawn: ResolvedLawn, previous: Plan) -> bool:
    """Whether a lawn is filled in the way of the plan before."""
    return round(abs(lawn.levelling.depth_mm - previous.lawn.depth_mm), 3) == 0


def _distance(campaign: Campaign, previous: Plan) -> int:
    """How far the sowing, or the last session, of a campaign lies from the plan before, in days."""
    sown = [
        t.start for t in previous.tasks if t.plays("sowing", "planting") and t.status != "CANCELLED"
    ]
    last = [t.start for t in previous.tasks if t.plays("spreading") and t.status != "CANCELLED"]
    there = max(sown or last, default=None)
    here = (
        campaign.sow_window.best
        if campaign.sow_window
        else campaign.sessions[-1].window.best
        if campaign.sessions
        else None
    )
    count = abs(len(campaign.passes) - _passes_of(previous))
    return (abs((here - there).days) if here and there else 0) + 1000 * count


def _in_strips(previous: Plan) -> bool:
    """Whether the plan before does every pass of several days strip by strip.

    Mowing, cores or seed then share the days of the pass, beside the dragging.
    """
    long = [t for t in previous.tasks if t.plays("spreading") and t.start != t.end]
    jobs = [t for t in previous.tasks if t.series is None and not t.plays("spreading")]
    others = Counter((t.start, t.end) for t in jobs)
    # What is worked in has the days of its pass in any case.
    return bool(long) and all(others[t.start, t.end] > 1 for t in long)


def _passes_of(previous: Plan) -> int:
    return sum(t.plays("spreading") and t.status != "CANCELLED" for t in previous.tasks)


def _refed(
    setting: ResolvedLawn, campaign: Campaign, given: _Repairing
) -> Candidate | tuple[Message, ...]:
    """A campaign repaired and fed; a starter that is given already, or moved by hand, stays as it
    is."""
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
    setting: ResolvedLawn, campaign: Campaign, given: _Repairing
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
    setting: ResolvedLawn, drafted: Drafted, given: _Repairing
) -> Candidate | tuple[Message, ...]:
    """A campaign around what has happened, or why it cannot be kept; cuts, cores and marks that run
    out before the work they were for come again, where there are the days for it.
    """
    history = with_bought_for_done(setting.book, drafted.season, given.history)
    season = without_followers(setting, drafted.season, history)
    season = with_booked(_without_skipped(season, history), history)
    history = without_waiting(setting.book, season, history)
    season, history = without_too_late(setting, season, history, _first_open_day(setting))
    season = with_bought_again(setting, drafted, season, history)
    given = replace(given, history=history)
    done_again = prepared_before(setting, season, history)
    season = with_preparation_again(setting, drafted.campaign, season, done_again, history)
    known = asked_before(season, history)
    season = with_requests_again(setting, drafted.campaign, season, known, history)
    first = _dated_again(setting, drafted, season, given)
    if not isinstance(first, Candidate):
        return first
    again = run_out_preparation(setting, first.dated, history)
    prepared = with_preparation_again(setting, drafted.campaign, season, again, history)
    second = _dated_again(setting, drafted, prepared, given) if again else first
    if isinstance(second, Candidate):
        first, season = second, prepared
    run_out = run_out_requests(season, first.dated.dropped)
    run_out |= marks_for_preparation(season, again, history)
    if not run_out:
        return first
    season = with_requests_again(setting, drafted.campaign, season, run_out, history)
    third = _dated_again(setting, drafted, season, given)
    return third if isinstance(third, Candidate) else first


def _dated_again(
    setting: ResolvedLawn, drafted: Drafted, season: SeasonDraft, given: _Repairing
) -> Candidate | tuple[Message, ...]:
    """A season on its days around what has happened, or why it has none.

    A day that was chosen by hand gives way before the campaign does; where work is closed, it goes
    until the rest has its days.
    """
    history = given.history
    while True:
        fixed = fixed_nodes(season, history)
        bound = _with_history(setting, drafted.campaign, season, fixed, history, given.weather)
        dated = _repaired_days(setting, bound, history, fixed)
        lost = dated if isinstance(dated, Conflict) else _lost_windows(dated)
        if not lost:
            assert isinstance(dated, Dated)  # what has no days has lost them
            stranded = stranded_preparation(setting, dated, fixed)
            if not stranded:
                break
            season = without(setting, season, stranded)
            continue
        reasons = conflict_reasons(lost, plain_titles(setting, season))
        moves = holds_in_the_way(lost, history)
        gone = work_to_close(setting, season, lost, history) if given.closing else set()
        if moves:
            history = with_moves_given_up(history, moves, reasons)
        elif gone:
            season, history = with_work_closed(setting, season, history, gone, reasons)
        else:
            return reasons
    season = with_moves_told(dated.season, history)
    season = with_closed_told(setting, drafted.season, season, history)
    season = with_run_out_told(season, dated.dropped, fixed, history.done)
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
    open_from = _first_open_day(setting).toordinal()
    constraints = (
        *(part for c in season.constraints for part in outlived(c, fixed, history, open_from)),
        *rest_after_seed(setting, campaign, season, history),
        *apart_from_passes(setting, season, history),
        *among_the_open(setting, campaign, season, history),
        *history_constraints(history, season.drafts, _first_open_day(setting), last),
        *dry_day_constraints(setting.book, season.drafts, rain, setting.calendar.work, first, last),
    )
    return replace(season, constraints=constraints)


def _without_skipped(season: SeasonDraft, history: TaskHistory) -> SeasonDraft:
    """A season without the tasks that were skipped, and without the rules that bound them."""
    return without_tasks(season, set(history.skipped) - set(history.done))


def _published_nodes(season: SeasonDraft, history: TaskHistory) -> dict[str, int]:
    return {d.id: history.published[d.id] for d in season.drafts if d.id in history.published}
