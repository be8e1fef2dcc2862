"""Turns the waterings of a dated season into tasks, and brings both accounts of the plan."""

from collections.abc import Mapping, Sequence
from datetime import date, timedelta

from turfplan.amounts.sprinkler import zones
from turfplan.plan import Ledger, Plan, Series, Task, Window
from turfplan.planner.comparing import Candidate
from turfplan.planner.feeding import nitrogen_account
from turfplan.planner.history import History
from turfplan.rules.setting import Setting
from turfplan.rules.water import WateringRequest, WaterRun, WeatherDay, known_series, season_watering


def watered(
    setting: Setting,
    candidate: Candidate,
    tasks: tuple[Task, ...],
    history: History,
    weather: Mapping[date, WeatherDay],
    previous: Plan | None = None,
) -> tuple[tuple[Task, ...], tuple[Ledger, ...], tuple[str, ...]]:
    """Watering tasks, the accounts of water and nitrogen, and what the plan must say about water."""
    sowing = next((t for t in tasks if t.plays("sowing")), None)
    planting = next((t for t in tasks if t.plays("planting")), None)
    passes = tuple(t.end for t in tasks if t.plays("spreading"))
    first_mow = next((t.start for t in tasks if t.plays("first_cut")), None)
    known = {**{day: WeatherDay(rain_mm=rain) for day, rain in history.rain.items()}, **weather}
    start, last = date.fromordinal(setting.first_day), date.fromordinal(setting.last_day)
    # A plan of several years is watered for its first season and through the first season of what is sown at its end.
    season = timedelta(round(setting.book.si("setting.horizon_days")))
    sown = max((t.end for t in (sowing, planting) if t is not None), default=start)
    water = setting.brief.water
    request = WateringRequest(
        water=water, book=setting.book, climate=setting.climate, season=setting.species.season, soil=setting.soil,
        area_m2=setting.area_m2, zones=zones(water, setting.book, setting.area_m2), start=start,
        end=min(last, max(start, sown) + season), system=setting.system,
        seeded_on=sowing.end if sowing else None, dormant=bool(sowing and sowing.plays("dormant")),
        planted_on=planting.end if planting else None, passes=passes,
        germination_days=_germination_days(setting),
        germinated_on=history.germinated, first_mow_on=first_mow,
        slope_percent=setting.brief.site.slope_percent or 0.0,
        away=tuple((s.start, s.end) for s in setting.brief.calendar.away), weather=known,
        previous=known_series(previous.tasks) if previous is not None else {}, today=setting.today,
    )  # fmt: skip
    plan = season_watering(request)
    spreading = sorted((t for t in tasks if t.plays("spreading")), key=lambda t: t.end)
    young = next((t for t in tasks if t.plays("sowing", "planting")), None)
    runs = tuple(_task(run, _anchor(run, spreading, young)) for run in plan.series)
    ledgers = (plan.ledger, nitrogen_account(setting, candidate, tasks))
    return runs, ledgers, plan.cautions


def _germination_days(setting: Setting) -> int:
    """Days within which the seed is up; for a grass that is never sown, those of any grass."""
    fact = setting.book.get(f"species.{setting.sown.id}.germination_days") or setting.book.fact(
        "seeding.germination_days"
    )
    return round(fact.high_si)


def _anchor(run: WaterRun, spreading: Sequence[Task], young: Task | None) -> Task | None:
    """The task that a watering follows: the last of the passes before it, or the sowing or planting (`young`)."""
    if run.stage not in ("settle", "recover"):
        return young
    return next((t for t in reversed(spreading) if t.end <= run.start), None)


def _task(run: WaterRun, anchor: Task | None) -> Task:
    days = run.days()
    after = f"It follows “{anchor.title}”." if anchor is not None else "It begins with the plan."
    return Task(
        id=run.id, uid="", operation="water", phase="seed" if run.stage not in ("settle", "recover") else "level",
        title=run.title, why=run.why, start=days[0], end=days[-1], best=days[0], duration_days=1, person_hours=0.0,
        window=Window(start=run.start, end=run.end), not_earlier=(after,), not_later=(run.why,),
        amounts=run.amounts, how=run.how, go="Skip it after real rain; look at the soil, not at the clock.",
        fallback=None, depends_on=(anchor.id,) if anchor is not None else (), facts=run.facts, strength="strong",
        series=Series(
            start=run.start, end=run.end, start_time=run.start_time, minutes=run.minutes, weekdays=run.weekdays, skip=run.skip
        ),
    )  # fmt: skip
