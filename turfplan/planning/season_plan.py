"""The story of a plan on one screen: resolve, compare, date, reckon, explain, check, number."""

from dataclasses import dataclass, replace
from datetime import date, datetime
from functools import partial
from zoneinfo import ZoneInfo

from turfplan.book.entries import Book
from turfplan.errors import TurfplanError
from turfplan.network import Conflict
from turfplan.phrases import lawn as phrases
from turfplan.planning.absences import put_off
from turfplan.planning.befallen import with_bans
from turfplan.planning.bought_for_tasks import with_amounts
from turfplan.planning.brief_check import check_brief
from turfplan.planning.calendar_form import calendar_form
from turfplan.planning.candidates import MAIN_WORK, Candidate, Comparison, compare
from turfplan.planning.closed_work import main_work, with_ways_on
from turfplan.planning.comparison_again import compare_again
from turfplan.planning.day_hours import hours_shared, unloaded, with_overfull_told
from turfplan.planning.dry_days import coming_rain, forecast_reasons
from turfplan.planning.falling import dated_without
from turfplan.planning.fed import fed
from turfplan.planning.feeding import feeder_for, feeding_warnings, taken_of_bag
from turfplan.planning.fresh_loads import with_plans_before, with_spoiled_written_off
from turfplan.planning.handover import handed_over, told, touch_up_mm, undone
from turfplan.planning.history import looked_again, read_history, still_missing_mm
from turfplan.planning.kept_words import with_kept_words, with_window_reasons
from turfplan.planning.left_over import told_of_material
from turfplan.planning.machines_told import with_machines_told
from turfplan.planning.plan_header import PlanOrigin, behind_numbers, frame
from turfplan.planning.plan_sources import NOTHING_YET, KnownPlace, SoFar
from turfplan.planning.promised_campaigns import with_kept_promises
from turfplan.planning.public_holidays import HolidayList
from turfplan.planning.purchases import largest_delivery_m3, order_lines
from turfplan.planning.rain_chances import with_rain
from turfplan.planning.ranked_notes import ranked_plan
from turfplan.planning.reliability import judged
from turfplan.planning.schedule import Dated, date_season
from turfplan.planning.sheet_words import sheet_words
from turfplan.planning.task_roles import with_roles
from turfplan.planning.tasks import tasks_of
from turfplan.planning.waiting import as_dated
from turfplan.planning.watering import watered
from turfplan.planning.ways_out import MainWork, ways_out, whole_fill
from turfplan.planning.weed_killer_answers import answers_told
from turfplan.planning.window_dates import (
    less_dry_days,
    measured_climate,
    moved_by_soil,
    with_windows,
)
from turfplan.records.brief import Brief
from turfplan.records.numbering import in_rules_words
from turfplan.records.past import TaskHistory
from turfplan.records.plan import Handover, Plan
from turfplan.work.assumptions import resolve
from turfplan.work.days_off import ASKED_BEFORE_DAYS
from turfplan.work.drafts import SeasonDraft
from turfplan.work.heap import ask_for_room
from turfplan.work.horizon import shortest
from turfplan.work.lawn import ResolvedLawn, country_of
from turfplan.work.phases.cause_seasons import answered_looks
from turfplan.work.phases.open_turf import too_thick
from turfplan.work.phases.sow import nothing_sown
from turfplan.work.salt_holds import told_of_salt
from turfplan.work.seed_mix import slowest
from turfplan.work.slopes import too_steep
from turfplan.work.state_of_lawn import state_of_lawn
from turfplan.work.watering.season import Verdict, watering_verdict
from turfplan.work.watering.sprinklers import zones
from turfplan.work.watering.verdict import asking_for_permit


def make_plan(
    brief: Brief,
    book: Book,
    place: KnownPlace,
    so_far: SoFar = NOTHING_YET,
    *,
    now: datetime,
    lawn_id: str,
    options: bool = True,
) -> Plan:
    """The season of one lawn in facts and keys: a draft, which `publish` tells and stamps.

    Pure: the same arguments give the same draft. `now` is aware; today is its date in the lawn's
    zone. `lawn_id` is the identity of the lawn, from which those of its tasks follow. With a plan
    before and a longer journal it re-plans with the fewest moved tasks. What cannot be done as
    asked has `conflict`, `options`, no tasks. Raises TurfplanError for names the book has not.
    """
    given, chosen = _without_spoiled(brief, _PlanSources(book, place, so_far, now))
    tried = partial(_work_of, given=given)
    kept = with_kept_promises(chosen.comparison, brief, tried)
    chosen = replace(chosen, comparison=kept)
    setting, best = chosen.setting, chosen.comparison.best
    origin = PlanOrigin(now, lawn_id, so_far.brief_sha256, place.files_sha256, len(so_far.journal))
    shell = frame(setting, chosen.verdict, chosen.comparison, place.ground, origin)
    ways = partial(ways_out, brief, setting, tried)
    if best is None:
        if not options:
            return shell
        shell = ranked_plan(shell, so_far.inputs)
        return shell.model_copy(update={"options": ways()})
    shell = shell.model_copy(update={"retired": given.so_far.retired})
    later = _handed_over(brief, chosen, best, given)
    shell = _with_what_is_undone(shell, brief, chosen, later, given)
    plan, history = _filled(shell, chosen, best, given, later)
    plan = _with_absences(plan, brief, chosen, given, options=options)
    if options:
        plan = _with_answers(plan, brief, chosen, given)
        plan = with_ways_on(plan, history, book, ways)
    plan = ranked_plan(with_rain(plan, setting), so_far.inputs)
    years = judged(setting, plan.tasks)
    said = sheet_words(book, plan.tasks, setting.sowing.grasses)
    return plan.model_copy(update={"past": history, "real_years": years, "on_sheets": said})


def dated_season(
    brief: Brief, book: Book, place: KnownPlace, so_far: SoFar, *, now: datetime
) -> tuple[Candidate | None, TaskHistory]:
    """The season of one lawn with its days and what binds them, as `make_plan` chooses it, before
    anything of it is told; with what has happened."""
    _, chosen = _without_spoiled(brief, _PlanSources(book, place, so_far, now))
    return chosen.comparison.best, chosen.history


@dataclass(frozen=True, slots=True)
class _PlanSources:
    """What a plan is made from, for the brief as asked and for every way out of it."""

    book: Book
    place: KnownPlace
    so_far: SoFar
    now: datetime


@dataclass(frozen=True, slots=True)
class _ChosenCampaign:
    """How far a plan has come once its campaign is chosen and every task has its day.

    `previous` is in the rules' words.
    """

    setting: ResolvedLawn
    verdict: Verdict
    comparison: Comparison
    history: TaskHistory
    previous: Plan | None


def _without_spoiled(brief: Brief, given: _PlanSources) -> tuple[_PlanSources, _ChosenCampaign]:
    """The campaign of a brief, and what it is made from: without the loads that will have spoiled
    by then, where that leaves no more of the work undone than looking at the old heap again."""
    chosen = _chosen(brief, given)
    best = chosen.comparison.best
    if best is None:
        return given, chosen
    so_far = with_spoiled_written_off(given.so_far, best, chosen.history, chosen.setting.today)
    if so_far is None:
        return given, chosen
    fresh = replace(given, so_far=so_far)
    anew = _chosen(brief, fresh)
    if anew.comparison.best is None or len(anew.history.closed) > len(chosen.history.closed):
        return given, chosen
    return fresh, anew


def _chosen(brief: Brief, given: _PlanSources, *, whole: bool = True) -> _ChosenCampaign:
    """The campaign of a brief with its days, or why there is none.

    Not `whole` it has the days of its work alone, which no feeding moves. Raises TurfplanError for
    what the book does not bear out.
    """
    book, place, so_far = given.book, given.place, given.so_far
    if problems := check_brief(brief, book):
        raise TurfplanError(problems)
    unasked, brief = brief, asking_for_permit(brief, book)
    today = given.now.astimezone(ZoneInfo(place.climate.timezone)).date()
    previous = with_roles(so_far.previous, book) if so_far.previous is not None else None
    previous, entries = in_rules_words(previous, so_far.journal)
    history = read_history(book, entries, previous, today, assume_not_done=so_far.assume_not_done)
    history = with_plans_before(history, so_far)
    brief = with_bans(brief, history.bans)
    climate = measured_climate(place.climate, book, history.soil, today)
    setting = _setting(brief, book, replace(place, climate=climate), today, previous)
    verdict = watering_verdict(
        brief,
        book,
        climate,
        slowest(book, setting.sowing.grasses),
        zones(brief.water, book, setting.plot.area_m2),
    )
    alive_until = looked_again(history, book)
    setting = replace(
        setting,
        openings=less_dry_days(setting, verdict),
        levelling=replace(setting.levelling, missing_mm=still_missing_mm(history, previous)),
        alive_until=alive_until,
        answered=answered_looks(history.done, history.skipped, alive_until),
    )
    if previous is not None and not previous.conflict:
        past = history if so_far.promised else history.unpromised
        feeder = feeder_for(setting)
        comparison = compare_again(setting, feeder, verdict, previous, past, place.days)
    else:
        comparison = _compare(setting, verdict)
        if whole and comparison.best is not None:
            comparison = replace(comparison, best=_finished(comparison.best))
    best = comparison.best
    history = as_dated((best.dated.history if best else None) or history, best)
    lawn = shortest(setting) if best is None else best.setting
    if brief.water.permit != unasked.water.permit and lawn.needs_daily_water:
        lawn = replace(lawn, assumptions=(*lawn.assumptions, phrases.permit_asked()))
    return _ChosenCampaign(lawn, verdict, comparison, history, previous)


def _handed_over(
    brief: Brief, chosen: _ChosenCampaign, best: Candidate, given: _PlanSources
) -> tuple[Handover, ...]:
    """What is left to do after the last day of the plan."""
    lawn = chosen.setting
    if lawn.kept_end is not None and not lawn.levelling.left:
        return ()
    unended = brief.model_copy(update={"season": brief.season.model_copy(update={"until": None})})
    place = replace(given.place, climate=lawn.climate)
    wide = _setting(unended, given.book, place, lawn.today, chosen.previous)
    closed = less_dry_days(wide, chosen.verdict)
    permit = any(draft.operation == "permit" for draft in best.season.drafts)
    wide = replace(wide, openings=closed)
    return handed_over(wide, best, feeder_for(wide), permit=permit)


def _with_what_is_undone(
    shell: Plan,
    brief: Brief,
    chosen: _ChosenCampaign,
    later: tuple[Handover, ...],
    given: _PlanSources,
) -> Plan:
    """The plan with what it leaves of the fill told first, and the way that would do all of it.

    A re-plan keeps the way that was found first, as long as there is one, or a season for the rest.
    """
    if not chosen.setting.levelling.left:
        return shell
    before = chosen.previous if chosen.previous and not chosen.previous.conflict else None
    ways = before.options if before is not None else ()
    if before is None or not (ways or any(item.operation == "topdress" for item in later)):
        way = whole_fill(
            brief,
            chosen.setting,
            chosen.comparison.whole,
            lambda other: _work_of(other, given),
        )
        ways = () if way is None else (way,)
    taken = 0.0 if chosen.comparison.best is None else touch_up_mm(chosen.comparison.best)
    said = undone(chosen.setting.levelling, later, ways, taken)
    return shell.model_copy(update={"options": ways, "cautions": (said, *shell.cautions)})


def _filled(
    shell: Plan,
    chosen: _ChosenCampaign,
    best: Candidate,
    given: _PlanSources,
    later: tuple[Handover, ...],
) -> tuple[Plan, TaskHistory]:
    """The plan with its tasks, waterings, order, accounts and warnings, and the history with what
    the weather explains."""
    setting, previous, history, book = chosen.setting, chosen.previous, chosen.history, given.book
    drafts, bought = with_amounts(setting, best, history)
    tasks = tasks_of(setting, best, drafts)
    runs, ledgers, about_water = watered(setting, best, tasks, history, given.place.days, previous)
    warnings = feeding_warnings(setting, best, tasks)
    moved = moved_by_soil(setting)
    tasks = with_kept_words((*tasks, *runs), previous, shell.brief_sha256, book.version, moved)
    tasks = with_machines_told(tasks, previous, history)
    days = {task.id: (task.start, task.end) for task in tasks}
    open_from = max(setting.today, date.fromordinal(setting.first_day))
    lead = round(book.si("delivery.small_lead"))
    lines = order_lines(bought, days, lead, open_from, history.done, setting.brief.prices)
    kept = _holidays(setting.brief, given.place, previous)
    first = setting.first_day - ASKED_BEFORE_DAYS
    tasks, overfull = with_overfull_told(setting, tasks)
    of_bag = taken_of_bag(setting, tasks)
    of_mix = told_of_material(setting, best, history)
    cautions = (*shell.cautions, *of_mix, *warnings, *about_water, *of_bag, *overfull)
    filled = {
        "calendar": calendar_form(setting.brief.calendar, previous),
        "holidays": kept.record(first, setting.last_day, setting.calendar.public),
        "assumptions": (*shell.assumptions, *ask_for_room(setting, largest_delivery_m3(lines))),
        "tasks": tasks,
        "handover": later,
        "order": lines,
        **behind_numbers(book, tasks, lines),
        "ledgers": ledgers,
        "cautions": tuple(dict.fromkeys(filter(None, (*cautions, told(later))))),
        "warnings": warnings,
        "elsewhere": hours_shared(setting, tasks),
        "state": state_of_lawn(setting, best.campaign, best.season, best.drafted, history),
    }
    wet = forecast_reasons(book, previous, coming_rain(given.place.days, setting.today))
    because = with_window_reasons(history.because, tasks, previous, moved, wet)
    return shell.model_copy(update=filled), replace(history, because=because)


def _with_absences(
    plan: Plan, brief: Brief, chosen: _ChosenCampaign, given: _PlanSources, *, options: bool
) -> Plan:
    """The plan with what waits for another season because nobody is there, and what would spare it;
    as it is once spreading, sowing or planting has begun.

    The brief as it stands waits as long as this plan lets it; what the household can change is
    dated as if nothing had been planned yet.
    """
    begun = {**chosen.history.done, **chosen.history.part_done}
    if any(task.id in begun and task.plays(*MAIN_WORK) for task in plan.tasks):
        return plan
    anew = replace(given, so_far=NOTHING_YET)

    def dated(other: Brief) -> MainWork | None:
        return _main_work(chosen) if other is brief else _work_of(other, anew)

    found = put_off(brief, chosen.setting, dated, options=options)
    if found is None:
        return plan
    told = {"put_off": (found.told,), "cautions": (*plan.cautions, found.told)}
    return plan.model_copy(update={**told, "options": found.options})


def _with_answers(plan: Plan, brief: Brief, chosen: _ChosenCampaign, given: _PlanSources) -> Plan:
    """The plan with what the name of an unnamed weed killer would change, told where it stops."""
    told = answers_told(brief, chosen.setting, lambda other: _work_of(other, given))
    if told is None:
        return plan
    first = {"cautions": (told, *plan.cautions), "holds": (told, *plan.holds)}
    return plan.model_copy(update=first)


def _work_of(brief: Brief, given: _PlanSources) -> MainWork | None:
    """The main work of another brief; a re-plan repairs it whole, a first plan only dates it."""
    return _main_work(_chosen(brief, given, whole=False))


def _main_work(chosen: _ChosenCampaign) -> MainWork | None:
    """The open main work of a chosen campaign, or None where there is no campaign."""
    best = chosen.comparison.best
    return None if best is None else main_work(best, chosen.history)


def _setting(
    brief: Brief, book: Book, place: KnownPlace, today: date, previous: Plan | None
) -> ResolvedLawn:
    """The lawn as resolved, with its windows; a plan that was made before keeps its days."""
    setting = resolve(
        brief,
        book,
        place.climate,
        today,
        kept=(previous.horizon.start, previous.horizon.end) if previous is not None else None,
        ground=place.ground,
        holidays=_holidays(brief, place, previous).between,
    )
    return with_windows(setting, place.real_years, place.elsewhere)


def _holidays(brief: Brief, place: KnownPlace, previous: Plan | None) -> HolidayList:
    """The public holidays of the lawn's country, as far as the brief names it."""
    state = brief.place.state or place.climate.state
    kept = previous.holidays if previous is not None else None
    return HolidayList(country_of(brief), state, kept, place.holidays)


def _compare(setting: ResolvedLawn, verdict: Verdict) -> Comparison:
    """The campaigns compared.

    Where seed cannot be kept moist, or the turf is a sponge, there is nothing to compare.
    """
    if refused := nothing_sown(setting) or told_of_salt(setting):
        return Comparison(None, (), refused)
    if steep := too_steep(setting):
        return Comparison(None, (), (steep,))
    # Whoever thins the thatch would next be told of the water: both are said at once.
    dry = verdict.reasons if setting.sowing.needs_water else ()
    if against := (*filter(None, (too_thick(setting),)), *dry):
        return Comparison(None, (), against)
    return compare(setting, feeder_for(setting), permit=verdict.needs_permit)


def _finished(best: Candidate) -> Candidate:
    """The chosen campaign with its feedings, and no day that asks for more hours than it has."""
    lawn = best.setting

    def dated(season: SeasonDraft) -> Dated | Conflict:
        return dated_without(lawn, season, lambda left: date_season(lawn, left))

    whole = fed(lawn, best, feeder_for(lawn), dated)
    lighter = unloaded(lawn, whole.dated, dated)
    return replace(whole, season=lighter.season, dated=lighter)
