"""Turns the waterings of a dated season into tasks, and brings both accounts of the plan."""

from collections.abc import Iterable, Mapping, Sequence
from datetime import date, timedelta
from typing import TypedDict

from turfplan.message import Message
from turfplan.phrases import reasons
from turfplan.phrases import watering as phrases
from turfplan.planning.candidates import Candidate
from turfplan.planning.feeding import nitrogen_account
from turfplan.records.past import TaskHistory
from turfplan.records.plan import Ledger, Plan
from turfplan.records.plan_task import Role, Series, Task, TaskWindow, WateringStage
from turfplan.work.drafts import Draft
from turfplan.work.emergence import emergence, given_back_on
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.places import sown_now_place, sown_place
from turfplan.work.season_stand import open_from
from turfplan.work.seed_mix import germination_days
from turfplan.work.watering.request import WateredPart
from turfplan.work.watering.run_times import MINUTES_IN_HOUR
from turfplan.work.watering.season import (
    WateringRequest,
    WaterRun,
    WeatherDay,
    known_series,
    season_watering,
)
from turfplan.work.watering.sprinklers import zones
from turfplan.work.watering.stages import OF_RELAID, StageName

# The stages that follow a pass; the others belong to seed or plants.
OF_PASSES: tuple[StageName, ...] = ("settle", "settle_fill", "recover", *OF_RELAID)


def watered(
    setting: ResolvedLawn,
    candidate: Candidate,
    tasks: tuple[Task, ...],
    history: TaskHistory,
    weather: Mapping[date, WeatherDay],
    previous: Plan | None = None,
) -> tuple[tuple[Task, ...], tuple[Ledger, ...], tuple[Message, ...]]:
    """Watering tasks, the accounts of water and nitrogen, and what there is to say of water."""
    plan = season_watering(_request(setting, candidate, tasks, history, weather, previous))
    spreading = sorted((t for t in tasks if t.plays("spreading")), key=lambda t: t.end)
    young, relaid = _first(tasks, "sowing", "planting"), _first(tasks, "relaying")
    runs = tuple(
        _task(run, relaid if run.stage in OF_RELAID else _anchor(run, spreading, young))
        for run in plan.series
    )
    ledgers = (plan.ledger, nitrogen_account(setting, candidate, tasks))
    return runs, ledgers, plan.cautions


def _request(
    setting: ResolvedLawn,
    candidate: Candidate,
    tasks: Sequence[Task],
    history: TaskHistory,
    weather: Mapping[date, WeatherDay],
    previous: Plan | None,
) -> WateringRequest:
    """What the watering depends on, once the work has its days."""
    sowing, planting = _first(tasks, "sowing"), _first(tasks, "planting")
    first_cut, relaid = _first(tasks, "first_cut"), _first(tasks, "relaying")
    brief, book, water = setting.brief, setting.book, setting.brief.water
    start, end = _span(setting, [t.end for t in (sowing, planting) if t is not None])
    return WateringRequest(
        water=water,
        book=book,
        climate=setting.climate,
        season=setting.turf.species.season,
        soil=setting.plot.soil,
        area_m2=setting.plot.area_m2,
        zones=zones(water, book, setting.plot.area_m2),
        start=start,
        end=end,
        seeded_on=sowing.end if sowing else None,
        **_begun(history, sowing),
        sown_season=setting.sowing.grass.season
        if sowing is not None and setting.sowing.intent == "winter_overseed"
        else None,
        second_until=_given_back(setting, sowing),
        wakes_on=_waking(setting, candidate, sowing),
        planted_on=planting.end if planting else None,
        planted_before=_planted_before(history, planting),
        relaid_on=relaid.end if relaid else None,
        relaid_share=setting.levelling.lift_share,
        passes=tuple(t.end for t in tasks if t.plays("spreading")),
        pass_shares=_pass_shares(candidate, tasks),
        pass_parts=_pass_parts(candidate, tasks),
        open_ground=setting.on_open_ground,
        open_from=open_from(setting, candidate.campaign),
        germination_days=_germination_days(setting),
        germinated_on=_germinated(history, sowing),
        first_mow_on=first_cut.end if first_cut else None,
        slope_percent=brief.site.slope_percent or 0.0,
        rock_depth_mm=brief.site.rock_depth_mm,
        away=tuple((s.start, s.end) for s in brief.calendar.away),
        strips={t.end: _strip_days(setting, t) for t in tasks if _in_strips(t, "spreading")},
        sown_strips=_strips_of(setting, sowing),
        planted_strips=_strips_of(setting, planting),
        relaid_strips=_strips_of(setting, relaid),
        sown_share=min(_sown_share(candidate.season.drafts), setting.sowing.share or 1.0),
        sown_part=_sown_part(setting, candidate.season.drafts),
        weather={**_rain_logged(history), **weather},
        rained=history.rained,
        previous=known_series(previous.tasks) if previous is not None else {},
        today=setting.today,
    )


class _Begun(TypedDict):
    """What went in before the rest of the seed, as a request has it."""

    begun_on: date | None
    resown: int


def _begun(history: TaskHistory, sowing: Task | None) -> _Begun:
    """What went in before the rest of a sowing, and how often that was sown anew.

    Seed that rests over winter is woken as one.
    """
    before = history.actual.get(sowing.id) if sowing is not None else None
    if sowing is None or sowing.plays("dormant"):
        return _Begun(begun_on=None, resown=0)
    losses = [one for one in history.losses if one.task == sowing.id]
    begun = before is not None and before.start < sowing.start
    return _Begun(
        begun_on=before.start if before is not None and begun else None,
        resown=len(losses) or int(begun),
    )


def _planted_before(history: TaskHistory, planting: Task | None) -> date | None:
    """The day on which a part of the plants went in before the rest."""
    before = history.actual.get(planting.id) if planting is not None else None
    if before is None or planting is None or planting.closed == "done":
        return None
    return before.start if before.start < planting.start else None


def _pass_shares(candidate: Candidate, tasks: Sequence[Task]) -> dict[date, float]:
    """The parts of the lawn that passes cover, by day."""
    layers = {layer.number: layer for layer in candidate.campaign.passes}
    layer_of = {d.id: layers.get(d.position) for d in candidate.season.drafts}
    spread = ((task.end, layer_of.get(task.id)) for task in tasks if task.plays("spreading"))
    return {day: layer.share for day, layer in spread if layer is not None}


def _pass_parts(candidate: Candidate, tasks: Sequence[Task]) -> dict[date, WateredPart]:
    """What the parts of the lawn that passes cover are called, by day."""
    layers = {layer.number: layer for layer in candidate.campaign.passes}
    found = {}
    for draft in candidate.season.drafts:
        layer, task = layers.get(draft.position), _of(tasks, draft)
        if draft.where is None or layer is None or task is None or not task.plays("spreading"):
            continue
        found[task.end] = WateredPart(draft.where, layer.drawn)
    return found


def _of(tasks: Sequence[Task], draft: Draft) -> Task | None:
    return next((task for task in tasks if task.id == draft.id), None)


def _sown_part(setting: ResolvedLawn, drafts: Sequence[Draft]) -> WateredPart | None:
    """What is called what is sown or planted and watered: a hose waters spots by themselves."""
    kept_wet = _sown_share(drafts)
    place = sown_now_place(setting, kept_wet) if kept_wet < 1 else sown_place(setting)
    return None if place.name is None else WateredPart(place.name)


def _given_back(setting: ResolvedLawn, sowing: Task | None) -> date | None:
    """The day from which a second grass goes; None where there is none, or beyond the plan."""
    if sowing is None or setting.sowing.intent != "winter_overseed":
        return None
    return given_back_on(setting, sowing.end)


def _waking(setting: ResolvedLawn, candidate: Candidate, sowing: Task | None) -> date | None:
    """The day on which seed that rests over winter wakes; None for seed that comes up at once."""
    up = emergence(setting, candidate.campaign)
    if sowing is None or up is None or not sowing.plays("dormant"):
        return None
    return sowing.end + timedelta(up.wakes)


def _in_strips(task: Task, role: Role) -> bool:
    return task.start != task.end and task.plays(role)


def _strips_of(setting: ResolvedLawn, task: Task | None) -> tuple[date, ...]:
    """The days of a job that goes on for several; none for one that is done in a day."""
    return _strip_days(setting, task) if task is not None and task.start != task.end else ()


def _strip_days(setting: ResolvedLawn, task: Task) -> tuple[date, ...]:
    """The working days of a job of several days: one for each strip."""
    first, last = task.start.toordinal(), task.end.toordinal()
    for days in (setting.calendar.machines, setting.calendar.work):
        found = tuple(date.fromordinal(d) for d in range(first, last + 1) if d in days)
        if len(found) == task.duration_days:
            return found
    return tuple(date.fromordinal(day) for day in sorted({first, last}))


def _sown_share(drafts: Sequence[Draft]) -> float:
    """The part of the lawn that is sown or planted now."""
    return min((draft.sown_share for draft in drafts), default=1.0)


def _first(tasks: Iterable[Task], *roles: Role) -> Task | None:
    """The first task that plays one of these roles."""
    return next((task for task in tasks if task.plays(*roles)), None)


def _rain_logged(history: TaskHistory) -> dict[date, WeatherDay]:
    """The days whose rain is in the journal."""
    return {day: WeatherDay(rain_mm=rain) for day, rain in history.rain.items()}


def _span(setting: ResolvedLawn, young_on: Sequence[date]) -> tuple[date, date]:
    """First and last day of the account; `young_on` are the days of sowing and planting.

    A plan of several years is watered for its first season and through the first season of what is
    sown at its end.
    """
    start, last = date.fromordinal(setting.first_day), date.fromordinal(setting.last_day)
    season = timedelta(round(setting.book.si("setting.horizon_days")))
    return start, min(last, max((start, *young_on)) + season)


def _germinated(history: TaskHistory, sowing: Task | None) -> date | None:
    """The day on which the seed was seen to be up; what was seen before it was sown is not it."""
    seen = history.germinated
    return seen if seen is None or sowing is None or seen > sowing.start else None


def _germination_days(setting: ResolvedLawn) -> int:
    """Days within which the seed is up; for a grass that is never sown, those of any grass."""
    return round(germination_days(setting.book, setting.sowing.grasses)[1])


def _anchor(run: WaterRun, spreading: Sequence[Task], young: Task | None) -> Task | None:
    """The task that a watering follows.

    It is the last pass before it, or the sowing or planting (`young`).
    """
    if run.stage not in OF_PASSES:
        return young
    return next((t for t in reversed(spreading) if t.start <= run.start), None)


def _task(run: WaterRun, anchor: Task | None) -> Task:
    days = run.days()
    after = reasons.follows(task=anchor.title) if anchor is not None else reasons.begins_with_plan()
    return Task(
        id=run.id,
        uid="",
        operation="water",
        phase="level" if run.stage in OF_PASSES else "seed",
        title=run.title,
        why=run.why,
        start=days[0],
        end=days[-1],
        best=days[0],
        duration_days=1,
        person_hours=round(run.work_min * len(days) / MINUTES_IN_HOUR, 2),
        window=TaskWindow(start=run.start, end=run.end),
        not_earlier=(after,),
        not_later=(run.why,),
        amounts=run.amounts,
        how=run.how,
        go=phrases.go(),
        fallback=None,
        depends_on=(anchor.id,) if anchor is not None else (),
        facts=run.facts,
        strength="strong",
        series=Series(
            start=run.start,
            end=run.end,
            start_time=run.start_time,
            minutes=run.minutes,
            weekdays=run.weekdays,
            skip=run.skip,
            elapsed_minutes=run.elapsed_min if run.elapsed_min > run.minutes else None,
        ),
        stage=WateringStage(
            id=run.stage,
            name=run.stage_name,
            stand_in=run.stand_in,
            settings=run.when.settings,
            cycles=run.when.cycles,
            soak_minutes=run.when.soak_min,
            rate_mm_h=run.rate_mm_h,
        ),
    )
