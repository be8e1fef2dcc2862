"""The story of a plan on one screen: resolve, compare, date, reckon, explain, check, number."""

import hashlib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

from turfplan.agronomy import Book
from turfplan.amounts.sprinkler import zones
from turfplan.brief import Brief
from turfplan.check import check_plan
from turfplan.climate.real_years import RealYear
from turfplan.climate.record import Climate
from turfplan.errors import TurfplanError
from turfplan.journal import JournalEntry
from turfplan.numbering import in_rules_words
from turfplan.plan import Fill, Plan
from turfplan.planner.assembling import tasks_of, with_amounts
from turfplan.planner.briefing import check_brief
from turfplan.planner.comparing import Candidate, Comparison, compare
from turfplan.planner.feeding import feeder_for, feeding_warnings
from turfplan.planner.history import History, forecast_reasons, read_history, still_missing_mm
from turfplan.planner.judging import judged
from turfplan.planner.openings import measured_climate, moved_by_soil, with_windows
from turfplan.planner.options import MainWork, ways_out
from turfplan.planner.quantities import order_lines
from turfplan.planner.replanning import coming_rain, compare_again, with_kept_words, with_roles, with_window_reasons
from turfplan.planner.sentences import plan_told_in, told_in
from turfplan.planner.telling import citations_of, frame
from turfplan.planner.watering import watered
from turfplan.revision import revise
from turfplan.rules.draft import Band
from turfplan.rules.setting import Setting, resolve
from turfplan.rules.surface import too_thick
from turfplan.rules.water import Verdict, WeatherDay, watering_verdict
from turfplan.site.shapes import Zone
from turfplan.units import System
from turfplan.wording import in_units


@dataclass(frozen=True, slots=True)
class Ground:
    """What shapes or a survey say of the ground: the area, the bands of fill, the map for the sheets, and the zones."""

    area_m2: float
    bands: tuple[Band, ...] | None = None
    fill: Fill | None = None
    notes: tuple[str, ...] = ()
    zones: tuple[Zone, ...] = ()


@dataclass(frozen=True, slots=True)
class Weather:
    """Days of weather that are known: measured ones, and a forecast."""

    days: Mapping[date, WeatherDay] = field(default_factory=dict)
    forecast_from: date | None = None


class UnsoundPlanError(AssertionError):
    """A finished plan failed the independent check: a fault of this program, never of the brief."""


def make_plan(
    brief: Brief,
    book: Book,
    climate: Climate,
    journal: Sequence[JournalEntry] = (),
    previous: Plan | None = None,
    *,
    now: datetime,
    ground: Ground | None = None,
    weather: Weather | None = None,
    real_years: Sequence[RealYear] = (),
    brief_sha256: str = "",
    assume_not_done: bool = False,
    options: bool = True,
) -> Plan:
    """The season of one lawn. Pure: the same arguments give the same plan.

    `real_years` of a daily series judge every date, and choose among dates that are as good as each other. `now` is aware; today is its date in the lawn's zone. With the plan before (`previous`) and a longer `journal` it
    re-plans with the fewest moved tasks. A plan that cannot be done as asked comes back with `conflict` and `options`
    and no tasks. Raises TurfplanError for names or wishes that the book does not bear out.
    """
    previous = with_roles(previous, book) if previous is not None else None
    given = _Given(
        book, climate, journal, previous, now, ground, weather or Weather(), real_years, assume_not_done=assume_not_done
    )
    chosen = _chosen(brief, given)
    setting = chosen.setting
    shell = frame(
        setting, chosen.verdict, chosen.comparison, now=now, lawn_id=lawn_id_of(brief, climate, previous),
        brief_sha256=brief_sha256, journal_entries=len(journal), ground=ground,
    )  # fmt: skip
    shell = plan_told_in(shell, setting.system)
    if chosen.comparison.best is None:
        found = ways_out(brief, setting, lambda other: _main_work(_chosen(other, given))) if options else ()
        return shell.model_copy(update={"options": found})
    plan, history = _filled(shell, chosen, chosen.comparison.best, given)
    plan = revise(plan, previous, now, history=history.as_record())
    plan = plan.model_copy(update={"real_years": told_in(judged(setting, plan.tasks), setting.system)})
    if faults := check_plan(plan, brief, book):
        raise UnsoundPlanError("; ".join(faults))
    return plan


@dataclass(frozen=True, slots=True)
class _Given:
    """What a plan is made from, beside the brief: the same for the brief as asked and for every way out of it."""

    book: Book
    climate: Climate
    journal: Sequence[JournalEntry]
    previous: Plan | None
    now: datetime
    ground: Ground | None
    weather: Weather
    real_years: Sequence[RealYear]
    assume_not_done: bool


@dataclass(frozen=True, slots=True)
class _Chosen:
    """How far a plan has come once its campaign is chosen and every task has its day; `previous` is in the rules' words."""

    setting: Setting
    verdict: Verdict
    comparison: Comparison
    history: History
    previous: Plan | None


def _chosen(brief: Brief, given: _Given) -> _Chosen:
    """The campaign of a brief with its days, or why there is none; raises TurfplanError for what the book does not bear out."""
    book = given.book
    if problems := check_brief(brief, book):
        raise TurfplanError(problems)
    today = given.now.astimezone(ZoneInfo(given.climate.timezone)).date()
    previous, entries = in_rules_words(given.previous, given.journal)
    history = read_history(book, entries, previous, today, assume_not_done=given.assume_not_done)
    climate = measured_climate(given.climate, book, history.soil, today)
    setting = _setting(brief, book, climate, today, previous, given.ground, given.real_years)
    verdict = watering_verdict(brief, book, climate, setting.sown.id, zones(brief.water, book, setting.area_m2))
    closed = tuple((a.toordinal(), b.toordinal()) for a, b in verdict.closed)
    setting = replace(setting, no_sowing=closed, missing_mm=still_missing_mm(history, previous))
    if previous is not None and not previous.conflict:
        comparison = compare_again(setting, feeder_for(setting), verdict, previous, history, given.weather.days)
    else:
        comparison = _compare(setting, verdict)
    return _Chosen(setting, verdict, comparison, history, previous)


def _filled(shell: Plan, chosen: _Chosen, best: Candidate, given: _Given) -> tuple[Plan, History]:
    """The plan with its tasks, waterings, order, accounts and warnings, and the history with what the weather explains."""
    setting, book, system, previous = chosen.setting, given.book, chosen.setting.system, chosen.previous
    drafts, bought = with_amounts(setting, best, chosen.history)
    tasks = tasks_of(setting, best, drafts)
    runs, ledgers, said = watered(setting, best, tasks, chosen.history, given.weather.days, previous)
    warnings = _in_units(feeding_warnings(setting, best, tasks), system)
    moved = moved_by_soil(setting)
    tasks = told_in((*tasks, *runs), system)
    tasks = with_kept_words(tasks, previous, shell.brief_sha256, book.version, moved)
    days = {task.id: (task.start, task.end) for task in tasks}
    lines = order_lines(
        bought, days, setting.lead_days, round(book.si("delivery.small_lead")), date.fromordinal(setting.first_day)
    )
    filled = {
        "tasks": tasks,
        "order": told_in(lines, system),
        "citations": citations_of(book, tasks, lines, system),
        "ledgers": told_in(ledgers, system),
        "cautions": tuple(dict.fromkeys((*shell.cautions, *warnings, *_in_units(said, system)))),
        "warnings": warnings,
    }
    wet = forecast_reasons(book, previous, coming_rain(given.weather.days, setting.today), system)
    because = with_window_reasons(chosen.history.because, tasks, previous, moved, wet)
    return shell.model_copy(update=filled), replace(chosen.history, because=because)


def _main_work(chosen: _Chosen) -> MainWork | None:
    """The open main work of a chosen campaign, or None where there is no campaign."""
    best, past = chosen.comparison.best, chosen.history
    if best is None:
        return None
    operations = chosen.setting.book.operations
    work = [
        draft for draft in best.season.drafts
        if draft.id not in past.done and draft.id not in past.skipped and {"spreading", "sowing", "planting"}.intersection(operations[draft.operation].roles)
    ]  # fmt: skip
    days = [date.fromordinal(best.dated.day(node)) for draft in work for node in (draft.start_node, draft.end_node)]
    return MainWork(best.campaign.name, min(days, default=None), max(days, default=None))


def _in_units(sentences: Sequence[str], system: System) -> tuple[str, ...]:
    """Sentences that name each amount once, in the units of the reader."""
    return tuple(in_units(sentence, system) for sentence in sentences)


def _setting(
    brief: Brief, book: Book, climate: Climate, today: date, previous: Plan | None, ground: Ground | None,
    real_years: Sequence[RealYear],
) -> Setting:  # fmt: skip
    horizon = _horizon(brief, book, previous) if previous is not None else None
    setting = resolve(
        brief, book, climate, today, horizon=horizon,
        area_m2=ground.area_m2 if ground else None, bands=ground.bands if ground else None,
        zones=ground.zones if ground else (),
    )  # fmt: skip
    return with_windows(setting, real_years)


def _horizon(brief: Brief, book: Book, previous: Plan) -> tuple[date, date]:
    """The days of a plan that was made before: from its first day on, to another end only where the brief asks for one."""
    start, end = previous.horizon.start, previous.horizon.end
    if brief.season.start is not None:
        end = max(end, brief.season.start + timedelta(days=round(book.si("setting.horizon_days"))))
    return start, brief.season.until or end


def _compare(setting: Setting, verdict: Verdict) -> Comparison:
    """The campaigns compared; where seed cannot be kept moist, or the turf is a sponge, there is nothing to compare."""
    if sponge := too_thick(setting):
        return Comparison(None, (), (sponge,))
    needs_water = setting.sowing in ("seed", "overseed", "plant")
    if needs_water and not verdict.ok:
        return Comparison(None, (), verdict.reasons)
    return compare(setting, feeder_for(setting), permit=needs_water and verdict.needs_permit)


def lawn_id_of(brief: Brief, climate: Climate, previous: Plan | None) -> str:
    """The lawn's id: the brief's, else the one that was given once, else one derived from what the lawn is."""
    if brief.lawn.id:
        return brief.lawn.id
    if previous is not None:
        return previous.lawn_id
    what = f"{brief.lawn.name}\n{climate.latitude:.3f} {climate.longitude:.3f}\n{brief.lawn.area_m2}"
    return "lawn-" + hashlib.sha256(what.encode()).hexdigest()[:10]
