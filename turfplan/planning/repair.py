"""Plans again: the same campaign, its done tasks where they happened, the open ones moved as little
as possible."""

from collections import Counter
from collections.abc import Collection, Mapping, Sequence
from dataclasses import replace
from datetime import date

from turfplan.book.entries import Book
from turfplan.calendar_days import HALF_A_YEAR
from turfplan.message import Message, sentences
from turfplan.network import Conflict
from turfplan.planning.candidates import (
    Candidate,
    Comparison,
    Drafted,
    Feeder,
    all_campaigns,
    draft_campaign,
    lawfully_fed,
)
from turfplan.planning.falling import dated_without, falling, without, without_tasks
from turfplan.planning.fed import fed
from turfplan.planning.history import dry_day_constraints, fixed_nodes, history_constraints
from turfplan.planning.marks_again import (
    asked_before,
    run_out_requests,
    with_requests_again,
    with_run_out_told,
)
from turfplan.planning.reasons import conflict_reasons
from turfplan.planning.schedule import Dated, repair_season
from turfplan.planning.task_names import plain_titles
from turfplan.planning.too_late import without_too_late
from turfplan.planning.waiting import without_waiting
from turfplan.planning.ways_still_open import ways_still_open
from turfplan.planning.wished_days import with_booked
from turfplan.records.constraints import Allowed, Constraint, Lag, Strength
from turfplan.records.past import TaskHistory
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Task
from turfplan.work.campaigns import Campaign
from turfplan.work.drafts import SeasonDraft, task_of_node
from turfplan.work.feeding.starter import STARTER_TASK
from turfplan.work.horizon import within
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.phases.open_turf import AHEAD
from turfplan.work.watering.season import Verdict, WeatherDay


def compare_again(
    setting: ResolvedLawn,
    feeder: Feeder,
    verdict: Verdict,
    previous: Plan,
    history: TaskHistory,
    weather: Mapping[date, WeatherDay],
) -> Comparison:
    """The campaign of the plan before, repaired; only when it can no longer be done are the others
    compared.
    """
    if setting.sowing.needs_water and not verdict.ok:
        return Comparison(None, (), verdict.reasons)
    permit = verdict.needs_permit
    if _in_strips(previous):
        setting = replace(setting, strip_days=2)
    if any(task.id == AHEAD for task in previous.tasks):
        setting = replace(setting, dethatched_ahead=True)
    ways = ways_still_open(setting, previous, history)
    same = [way for way in ways if _as_deep(way, previous)] or ways
    possible, ruled_out = all_campaigns(same)
    kept = [
        way
        for way in possible
        if way[1].id == previous.campaign and _distance(way[1], previous) < HALF_A_YEAR
    ]
    conflict: tuple[Message, ...] = ()
    rejected = tuple((r.campaign, r.reason) for r in previous.rejected)
    for lawn, campaign in sorted(kept, key=lambda way: _distance(way[1], previous)):
        result = _refed(within(lawn, campaign), campaign, feeder, permit, history, weather)
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
    # A campaign that is no longer among those to choose from stands with the others ruled out.
    given_up = ((previous.campaign_name, sentences(*conflict)),) if conflict else ()
    for lawn, campaign in possible:
        result = _refed(within(lawn, campaign), campaign, feeder, permit, history, weather)
        if not isinstance(result, tuple):
            return Comparison(result, (*given_up, *ruled_out), ())
    reasons = conflict or tuple(reason for _, reason in ruled_out)
    return Comparison(None, (*given_up, *ruled_out), reasons)


def coming_rain(weather: Mapping[date, WeatherDay], today: date) -> dict[date, float]:
    """The rain that is forecast, mm by day from today on."""
    return {day: w.rain_mm for day, w in weather.items() if w.rain_mm is not None and day >= today}


def _first_open_day(setting: ResolvedLawn) -> date:
    """The first day for what is still to be done: today, or later where the brief asks for a later
    start."""
    return max(setting.today, setting.brief.season.start or setting.today)


def with_roles(plan: Plan, book: Book) -> Plan:
    """The plan before with the roles that the book in force gives its operations.

    An older program wrote none.
    """
    tasks = tuple(
        task.model_copy(update={"roles": book.operations[task.operation].roles})
        if task.operation in book.operations
        else task
        for task in plan.tasks
    )
    return plan.model_copy(update={"tasks": tasks})


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
    setting: ResolvedLawn,
    campaign: Campaign,
    feeder: Feeder,
    permit: bool,
    history: TaskHistory,
    weather: Mapping[date, WeatherDay],
) -> Candidate | tuple[Message, ...]:
    """A campaign repaired and fed; a starter that is given already, or moved by hand, stays as it
    is."""
    unfed = _starter_kept(setting, campaign, feeder, permit, history, weather)
    if isinstance(unfed, tuple):
        return unfed

    def dated(season: SeasonDraft) -> Dated | None:
        drafted = Drafted(campaign, unfed.mix, unfed.feeding, unfed.volumes, season)
        again = _repaired(setting, drafted, history, weather)
        return None if isinstance(again, tuple) else replace(again.dated, season=again.season)

    return fed(setting, unfed, feeder, dated, base=unfed.drafted, fixed=history.fixed)


def _starter_kept(
    setting: ResolvedLawn,
    campaign: Campaign,
    feeder: Feeder,
    permit: bool,
    history: TaskHistory,
    weather: Mapping[date, WeatherDay],
) -> Candidate | tuple[Message, ...]:
    """A campaign repaired before it is fed, with the starter that was given or moved by hand."""
    if STARTER_TASK in history.fixed:
        drafted = draft_campaign(setting, campaign, feeder, permit=permit)
        return _repaired(setting, drafted, history, weather)
    return lawfully_fed(
        setting,
        campaign,
        feeder,
        lambda drafted: _repaired(setting, drafted, history, weather),
        permit=permit,
    )


def _repaired(
    setting: ResolvedLawn,
    drafted: Drafted,
    history: TaskHistory,
    weather: Mapping[date, WeatherDay],
) -> Candidate | tuple[Message, ...]:
    """A campaign around what has happened, or why it cannot be kept; marks that run out before the
    work they were asked for are asked for again, where there are the days for it.
    """
    season = with_booked(_without_skipped(drafted.season, history), history)
    history = without_waiting(setting.book, season, history)
    season = without_too_late(setting, season, history, _first_open_day(setting))
    known = asked_before(season, history)
    season = with_requests_again(setting, drafted.campaign, season, known, history)
    first = _dated_again(setting, drafted, season, history, weather)
    if not isinstance(first, Candidate):
        return first
    run_out = run_out_requests(season, first.dated.dropped)
    if not run_out:
        return first
    season = with_requests_again(setting, drafted.campaign, season, run_out, history)
    second = _dated_again(setting, drafted, season, history, weather)
    return second if isinstance(second, Candidate) else first


def _dated_again(
    setting: ResolvedLawn,
    drafted: Drafted,
    season: SeasonDraft,
    history: TaskHistory,
    weather: Mapping[date, WeatherDay],
) -> Candidate | tuple[Message, ...]:
    """A season on its days around what has happened, or why it has none."""
    fixed = fixed_nodes(season, history)
    season = _with_history(setting, season, fixed, history, weather)
    dated, titles = _repaired_days(setting, season, history, fixed), plain_titles(setting, season)
    if isinstance(dated, Conflict):
        return conflict_reasons(dated, titles)
    if lost := _lost_windows(dated):
        return conflict_reasons(lost, titles)
    season = dated.season
    season = with_run_out_told(season, dated.dropped, fixed, history.done)
    return Candidate(
        setting,
        drafted.campaign,
        drafted.mix,
        drafted.feeding,
        drafted.volumes,
        drafted.season,
        season,
        dated,
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
    season: SeasonDraft,
    fixed: Mapping[str, int],
    history: TaskHistory,
    weather: Mapping[date, WeatherDay],
) -> SeasonDraft:
    """A season with what the journal and the forecast bind in it besides its own rules."""
    rain = coming_rain(weather, setting.today)
    first, last = setting.first_day, setting.last_day
    constraints = (
        *(part for c in season.constraints for part in _outlived(c, fixed, history)),
        *history_constraints(history, season.drafts, _first_open_day(setting), last),
        *dry_day_constraints(setting.book, season.drafts, rain, setting.calendar.work, first, last),
    )
    return replace(season, constraints=constraints)


def _outlived(
    constraint: Constraint, fixed: Mapping[str, int], history: TaskHistory
) -> tuple[Constraint, ...]:
    """A constraint after a repair's facts: what is done, or was to be, may run out before an open
    task comes, and is then done again.

    So the most days that may lie behind it are advice, told where it cannot be kept; the least days
    stay.
    """
    if (
        not isinstance(constraint, Lag)
        or constraint.maximum is None
        or constraint.strength < Strength.STRONG
    ):
        return (constraint,)
    before = task_of_node(constraint.before)
    if not (before in history.done or before in history.overdue) or constraint.after in fixed:
        return (constraint,)
    most = replace(
        constraint,
        id=f"{constraint.id}:run_out",
        minimum=None,
        strength=Strength.ADVICE,
        runs_out=True,
    )
    return (most,) if constraint.minimum is None else (replace(constraint, maximum=None), most)


def _without_skipped(season: SeasonDraft, history: TaskHistory) -> SeasonDraft:
    """A season without the tasks that were skipped, and without the rules that bound them."""
    return without_tasks(season, set(history.skipped) - set(history.done))


def _published_nodes(season: SeasonDraft, history: TaskHistory) -> dict[str, int]:
    return {d.id: history.published[d.id] for d in season.drafts if d.id in history.published}


def with_kept_words(
    tasks: tuple[Task, ...],
    previous: Plan | None,
    brief_sha256: str,
    data_version: str,
    moved: Collection[str] = (),
) -> tuple[Task, ...]:
    """Tasks that have not moved keep the reasons they were published with, as long as brief and
    book are the same.

    A repair explains a day by its published day; the first plan explained it by the rules, and that
    stays true. `moved` are operations whose windows are others than before.
    """
    if previous is None or (previous.brief_sha256, previous.data_version) != (
        brief_sha256,
        data_version,
    ):
        return tasks
    old = {t.id: t for t in previous.tasks}
    return tuple(
        _kept(task, old.get(task.id), with_window=task.operation not in moved) for task in tasks
    )


def _kept(task: Task, before: Task | None, *, with_window: bool) -> Task:
    if before is None or (before.start, before.end) != (task.start, task.end):
        return task
    kept = [
        "not_earlier",
        "not_later",
        *(["window", "best", "fallback_day"] if with_window else []),
    ]
    return task.model_copy(update={name: getattr(before, name) for name in kept})


def with_window_reasons(
    because: Mapping[str, Message],
    tasks: Sequence[Task],
    previous: Plan | None,
    moved: Mapping[str, Message],
    forecast: Mapping[str, Message],
) -> dict[str, Message]:
    """Why tasks have moved: what the journal says of them, else the forecast for the day they were
    on (`forecast`, by task), else what moved their windows (`moved`, by operation)."""
    before = {t.id: t.start for t in previous.tasks} if previous is not None else {}
    away = [t for t in tasks if before.get(t.id, t.start) != t.start]
    windows = {
        t.id: moved[t.operation]
        for t in away
        if t.operation in moved and not t.window.start <= before[t.id] <= t.window.end
    }
    return {**windows, **{t.id: forecast[t.id] for t in away if t.id in forecast}, **because}
