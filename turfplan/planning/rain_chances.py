"""Asks the rain of years about a plan: real years where a daily series is known, else generated
ones.

How often the season gets through, how often a pass finds its dry day, how often rain alone keeps
what is sown moist.
"""

from collections.abc import Sequence
from datetime import date

from turfplan.calendar_days import day_index
from turfplan.climate.weather_generator import YEARS
from turfplan.message import Day, Message, Number, sentences
from turfplan.phrases import rain_years as phrases
from turfplan.planning.window_dates import rain_alone
from turfplan.records.constraints import DaySet
from turfplan.records.plan import Plan
from turfplan.records.plan_task import NOTHING, Task
from turfplan.records.plan_years import SeasonYears, YearsWorked
from turfplan.work.days_off import days_for
from turfplan.work.generated_years import GeneratedYears, generated_years
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.rain_years import DryJob, dry_week_share, of_ten, years_done
from turfplan.work.real_years import RealYears, Tally

# Saturday and Sunday, as a date counts weekdays.
_WEEKEND = (5, 6)


def with_rain(plan: Plan, setting: ResolvedLawn) -> Plan:
    """The plan with the chances of its open passes and sowings; as it is where there is none, but
    for a caution where the rain is doubtful.

    Open task by open task where generated rain tells it, for the whole season, and a caution for
    what depends on rain alone.
    """
    years = setting.openings.record or generated_years(
        setting.climate, setting.book, rain_alone(setting)
    )
    doubt = setting.climate.rain_doubt
    if doubt is not None:
        plan = plan.model_copy(update={"cautions": (doubt, *plan.cautions)})
    if years is None:
        return plan
    ahead = [task for task in plan.tasks if _is_open(task)]
    passes = [task for task in ahead if _is_dry_pass(setting, task)]
    sown = _on_rain(years, ahead)
    each = () if isinstance(years, RealYears) else _each(setting, years, (*passes, *sown))
    return plan.model_copy(
        update={
            "generated_years": each,
            "season_years": _season(setting, years, passes, sown),
            "cautions": (*plan.cautions, *_cautions(years, sown)),
        }
    )


def _is_open(task: Task) -> bool:
    past = task.closed is not None or task.status == "CANCELLED" or task.overdue
    return not past and task.series is None


def _is_dry_pass(setting: ResolvedLawn, task: Task) -> bool:
    return task.plays("spreading") and setting.book.operations[task.operation].weather == "dry"


def _on_rain(years: RealYears | GeneratedYears, tasks: Sequence[Task]) -> list[Task]:
    """What is sown or planted to live on rain alone; seed that rests over winter does not."""
    if years.on_rain is None:
        return []
    return [t for t in tasks if t.plays("sowing", "planting") and not t.plays("dormant")]


def _each(
    setting: ResolvedLawn, years: GeneratedYears, tasks: Sequence[Task]
) -> tuple[YearsWorked, ...]:
    """How often each task has its weather on its days."""
    told = []
    for task in sorted(tasks, key=lambda t: (t.start, t.id)):
        tally = years.tally(task.operation, task.start, task.end)
        reason = phrases.generated(tally=tally.message)
        weeks = dry_weeks(setting, years, task)
        told.append(
            YearsWorked(
                task=task.id,
                years=tally.years,
                worked=tally.worked,
                reason=reason if weeks is None else sentences(reason, weeks),
            )
        )
    return tuple(told)


def dry_weeks(
    setting: ResolvedLawn, years: RealYears | GeneratedYears, task: Task
) -> Message | None:
    """How many of the week-ends in the window of a pass bring a dry day of work; of the weeks,
    where other days are worked on too.

    None for what is no pass, and for a window without days of work.
    """
    if not _is_dry_pass(setting, task):
        return None
    days = _days(setting, task, task.window.start, task.window.end)
    if not days:
        return None
    share = dry_week_share(setting.book, years, days, day_index(date.fromordinal(days[0])))
    weekends = all(date.fromordinal(day).weekday() in _WEEKEND for day in days)
    said = phrases.weekends if weekends else phrases.weeks
    return None if share is None else said(share=of_ten(share))


def _days(setting: ResolvedLawn, task: Task, first: date, last: date) -> tuple[int, ...]:
    """The days of work for a task from one date to another."""
    span = DaySet(((first.toordinal(), last.toordinal()),))
    return days_for(setting, task.operation).intersect(span).days()


def _season(
    setting: ResolvedLawn,
    years: RealYears | GeneratedYears,
    passes: Sequence[Task],
    sown: Sequence[Task],
) -> SeasonYears | None:
    """In how many years every pass finds a dry day of work before its window closes, and what is
    sown on rain has rain enough."""
    parts: list[tuple[Message, list[bool]]] = []
    jobs = _jobs(setting, passes)
    if jobs:
        index = day_index(date.fromordinal(jobs[0].days[0]))
        parts.append((phrases.pass_done(n=len(jobs)), years_done(setting.book, years, jobs, index)))
    for task in sown:
        parts.append((_moist(years, task), years.moist(task.start)))
    if not parts:
        return None
    through = [all(year) for year in zip(*(held for _, held in parts), strict=True)]
    tally = Tally(len(through), sum(through), tuple((what, sum(held)) for what, held in parts))
    return SeasonYears(
        weather="measured" if isinstance(years, RealYears) else "generated",
        years=tally.years,
        worked=tally.worked,
        reason=_told(years, tally),
        method=_method(setting, years),
    )


def _jobs(setting: ResolvedLawn, passes: Sequence[Task]) -> list[DryJob]:
    """The passes as jobs that wait for dry days: as far apart as planned, or as grass needs."""
    jobs: list[DryJob] = []
    before: date | None = None
    for task in sorted(passes, key=lambda t: (t.start, t.id)):
        last = max(task.window.end, task.start)
        days = _days(setting, task, task.start, last) or (task.start.toordinal(),)
        apart = 0 if before is None else (task.start - before).days
        span = (task.end - task.start).days
        jobs.append(DryJob(days, span, min(apart, setting.pass_interval_days)))
        before = task.start
    return jobs


def _moist(years: RealYears | GeneratedYears, task: Task) -> Message:
    said = phrases.plants_moist if task.plays("planting") else phrases.seed_moist
    return said(day=Day(task.start), n=years.on_rain[1] if years.on_rain else 0)


def _method(setting: ResolvedLawn, years: RealYears | GeneratedYears) -> Message:
    """How generated weather was made, and what it is worth; nothing to say of real years."""
    if isinstance(years, RealYears):
        return NOTHING
    percent = Number(setting.climate.wet_days_error * 100)
    return phrases.how_generated(years=YEARS, percent=percent)


def _told(years: RealYears | GeneratedYears, tally: Tally) -> Message:
    share = of_ten(tally.share)
    if isinstance(years, RealYears):
        return phrases.season_measured(years=years.labels, share=share, tally=tally.message)
    return phrases.season_generated(share=share, tally=tally.message)


def _cautions(years: RealYears | GeneratedYears, sown: Sequence[Task]) -> tuple[Message, ...]:
    """How often rain alone is enough, for each thing that lives on it."""
    said = []
    for task in sown:
        held = years.moist(task.start)
        share, day = of_ten(sum(held) / len(held)), Day(task.start)
        plants = task.plays("planting")
        if isinstance(years, RealYears):
            real = phrases.plants_on_real_rain if plants else phrases.seed_on_real_rain
            said.append(real(years=years.labels, share=share, day=day))
        else:
            made = phrases.plants_on_rain if plants else phrases.seed_on_rain
            said.append(made(share=share, day=day))
    return tuple(said)
