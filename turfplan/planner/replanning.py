"""Plans again: the same campaign, its done tasks where they happened, the open ones moved as little as possible."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import replace
from datetime import date

from turfplan.agronomy import Book
from turfplan.constraints import Constraint, Lag, Strength
from turfplan.network import Conflict
from turfplan.plan import Plan, Task
from turfplan.planner.comparing import Candidate, Comparison, Drafted, Feeder, draft_campaign, plain_titles
from turfplan.planner.dating import repair_season
from turfplan.planner.explaining import conflict_sentences
from turfplan.planner.history import History, dry_day_constraints, history_constraints
from turfplan.rules.campaign import Campaign, campaigns
from turfplan.rules.draft import SeasonDraft
from turfplan.rules.setting import Setting
from turfplan.rules.water import Verdict, WeatherDay
from turfplan.wording import day_text

RUN_OUT = ":run_out"


def compare_again(
    setting: Setting,
    feeder: Feeder,
    verdict: Verdict,
    previous: Plan,
    history: History,
    weather: Mapping[date, WeatherDay],
) -> Comparison:
    """The campaign of the plan before, repaired; only when it can no longer be done are the others compared."""
    needs_water = setting.sowing in ("seed", "overseed", "plant")
    if needs_water and not verdict.ok:
        return Comparison(None, (), verdict.reasons)
    permit = needs_water and verdict.needs_permit
    possible, ruled_out = campaigns(setting)
    kept = [c for c in possible if c.id == previous.campaign] or list(possible)
    conflict: tuple[str, ...] = ()
    rejected = tuple((r.campaign, r.reason) for r in previous.rejected)
    for campaign in sorted(kept, key=lambda c: _distance(c, previous)):
        result = _repaired(setting, draft_campaign(setting, campaign, feeder, permit=permit), history, weather)
        if not isinstance(result, tuple):
            return Comparison(result, rejected or ruled_out, ())
        conflict = conflict or result
    # The campaign cannot be kept: what is left of the time is laid out anew, around what is done.
    left = replace(setting, first_day=max(setting.first_day, _first_open_day(setting).toordinal()))
    possible, ruled_out = campaigns(left)
    told = (previous.campaign_name, " ".join(conflict))
    for campaign in possible:
        result = _repaired(left, draft_campaign(left, campaign, feeder, permit=permit), history, weather)
        if not isinstance(result, tuple):
            return Comparison(result, (told, *ruled_out), ())
    return Comparison(None, (told, *ruled_out), conflict)


def coming_rain(weather: Mapping[date, WeatherDay], today: date) -> dict[date, float]:
    """The rain that is forecast, mm by day from today on."""
    return {day: w.rain_mm for day, w in weather.items() if w.rain_mm is not None and day >= today}


def _first_open_day(setting: Setting) -> date:
    """The first day for what is still to be done: today, or later where the brief asks for a later start."""
    return max(setting.today, setting.brief.season.start or setting.today)


def with_roles(plan: Plan, book: Book) -> Plan:
    """The plan before with the roles that the book in force gives its operations; an older program wrote none."""
    tasks = tuple(
        task.model_copy(update={"roles": book.operations[task.operation].roles})
        if task.operation in book.operations
        else task
        for task in plan.tasks
    )
    return plan.model_copy(update={"tasks": tasks})


def _distance(campaign: Campaign, previous: Plan) -> int:
    """How far the sowing, or the last session, of a campaign lies from the plan before, in days."""
    sown = [t.start for t in previous.tasks if t.plays("sowing", "planting") and t.status != "CANCELLED"]
    last = [t.start for t in previous.tasks if t.plays("spreading") and t.status != "CANCELLED"]
    there = max(sown or last, default=None)
    here = (
        campaign.sow_window.best
        if campaign.sow_window
        else campaign.sessions[-1].window.best
        if campaign.sessions
        else None
    )
    count = abs(len(campaign.sessions) - _sessions_of(previous))
    return (abs((here - there).days) if here and there else 0) + 1000 * count


def _sessions_of(previous: Plan) -> int:
    return sum(t.plays("delivery") and t.status != "CANCELLED" for t in previous.tasks)


def _repaired(
    setting: Setting, drafted: Drafted, history: History, weather: Mapping[date, WeatherDay]
) -> Candidate | tuple[str, ...]:
    season = _without_skipped(drafted.season, history)
    rain = coming_rain(weather, setting.today)
    fixed = _fixed_nodes(season, history)
    season = replace(
        season,
        constraints=(
            *(part for c in season.constraints for part in _outlived(c, fixed, history)),
            *history_constraints(history, season.drafts, _first_open_day(setting), setting.last_day),
            *dry_day_constraints(
                setting.book, season.drafts, rain, setting.work_days, setting.first_day, setting.last_day
            ),
        ),
    )
    dated = repair_season(setting, season, _published_nodes(season, history), fixed)
    titles = plain_titles(setting, season)
    if isinstance(dated, Conflict):
        return conflict_sentences(dated, titles)
    lost = [c for c in dated.dropped if c.strength >= Strength.STRONG and c.id.startswith("window:")]
    if lost:
        return conflict_sentences(tuple(lost), titles)
    season = _with_run_out(setting, season, dated.dropped, fixed)
    return Candidate(
        drafted.campaign, drafted.mix, drafted.feeding, drafted.volumes, season, dated, drafted.campaign.cost
    )


def _outlived(constraint: Constraint, fixed: Mapping[str, int], history: History) -> tuple[Constraint, ...]:
    """A constraint after a repair's facts: what is done may run out before an open task comes, and is then done again.

    So the most days that may lie behind something done are advice, told where it cannot be kept; the least days stay.
    """
    if not isinstance(constraint, Lag) or constraint.maximum is None or constraint.strength < Strength.STRONG:
        return (constraint,)
    if constraint.before.removesuffix("@end") not in history.done or constraint.after in fixed:
        return (constraint,)
    most = replace(constraint, id=constraint.id + RUN_OUT, minimum=None, strength=Strength.ADVICE)
    return (most,) if constraint.minimum is None else (replace(constraint, maximum=None), most)


def _with_run_out(
    setting: Setting, season: SeasonDraft, dropped: Sequence[Constraint], fixed: Mapping[str, int]
) -> SeasonDraft:
    """The season with a caution on every task before which something done has run out."""
    told: dict[str, str] = {}
    for constraint in dropped:
        if isinstance(constraint, Lag) and constraint.id.endswith(RUN_OUT):
            day = day_text(date.fromordinal(fixed[constraint.before]), setting.system)
            words = (
                f"It comes later than it should after what was done on {day}; where that has run out, have it done again "
                f"first. {constraint.reason.text}"
            )
            told[constraint.after.removesuffix("@end")] = words
    if not told:
        return season
    drafts = tuple(replace(d, cautions=(told[d.id], *d.cautions)) if d.id in told else d for d in season.drafts)
    return replace(season, drafts=drafts)


def _without_skipped(season: SeasonDraft, history: History) -> SeasonDraft:
    """A season without the tasks that were skipped, and without the rules that bound them."""
    gone = set(history.skipped) - set(history.done)
    if not gone:
        return season
    drafts = tuple(d for d in season.drafts if d.id not in gone)

    def speaks_of_gone(constraint: object) -> bool:
        names = (getattr(constraint, name, "") or "" for name in ("node", "before", "after"))
        return any(name.removesuffix("@end") in gone for name in names)

    return replace(season, drafts=drafts, constraints=tuple(c for c in season.constraints if not speaks_of_gone(c)))


def _fixed_nodes(season: SeasonDraft, history: History) -> dict[str, int]:
    """Start and end nodes of what is done, overdue or held."""
    fixed: dict[str, int] = {}
    for draft in season.drafts:
        day = history.fixed.get(draft.id)
        if day is None:
            continue
        fixed[draft.end_node] = day
        if draft.duration_days > 1:
            began = (
                history.actual[draft.id].start.toordinal()
                if draft.id in history.actual
                else history.published.get(draft.id, day)
            )
            fixed[draft.start_node] = min(began, day)
    return fixed


def _published_nodes(season: SeasonDraft, history: History) -> dict[str, int]:
    return {d.id: history.published[d.id] for d in season.drafts if d.id in history.published}


def with_kept_words(
    tasks: tuple[Task, ...], previous: Plan | None, brief_sha256: str, data_version: str, moved: Collection[str] = ()
) -> tuple[Task, ...]:
    """Tasks that have not moved keep the reasons they were published with, as long as brief and book are the same.

    A repair explains a day by its published day; the first plan explained it by the rules, and that stays true. `moved` are
    operations whose windows are others than before.
    """
    if previous is None or (previous.brief_sha256, previous.data_version) != (brief_sha256, data_version):
        return tasks
    old = {t.id: t for t in previous.tasks}
    return tuple(_kept(task, old.get(task.id), with_window=task.operation not in moved) for task in tasks)


def _kept(task: Task, before: Task | None, *, with_window: bool) -> Task:
    if before is None or (before.start, before.end) != (task.start, task.end):
        return task
    kept = ["not_earlier", "not_later", *(["window", "best", "fallback_day"] if with_window else [])]
    return task.model_copy(update={name: getattr(before, name) for name in kept})


def with_window_reasons(
    because: Mapping[str, str], tasks: Sequence[Task], previous: Plan | None, moved: Mapping[str, str],
    forecast: Mapping[str, str],
) -> dict[str, str]:  # fmt: skip
    """Why tasks have moved: what the journal says of them, else the forecast for the day they were on (`forecast`, by task),
    else what moved their windows (`moved`, by operation)."""
    before = {t.id: t.start for t in previous.tasks} if previous is not None else {}
    away = [t for t in tasks if before.get(t.id, t.start) != t.start]
    windows = {
        t.id: moved[t.operation]
        for t in away
        if t.operation in moved and not t.window.start <= before[t.id] <= t.window.end
    }
    return {**windows, **{t.id: forecast[t.id] for t in away if t.id in forecast}, **because}
