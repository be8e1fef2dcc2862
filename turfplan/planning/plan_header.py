"""What a plan says beside its tasks: the lawn, the place, the choice made, assumptions, cautions,
sources."""

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from datetime import UTC, date, datetime
from typing import Any

from turfplan import __version__
from turfplan.book.citations import cited
from turfplan.book.entries import Book
from turfplan.book.facts import Source
from turfplan.book.words import book_message, grass_name, operation_name
from turfplan.calendar_days import DAYS, PLAIN_YEAR, date_of
from turfplan.climate.record import Climate
from turfplan.message import Day, Message, Number, Quantity, said
from turfplan.phrases import care_alone as of_care
from turfplan.phrases import ground_fill as of_ground
from turfplan.phrases import parts as part_phrases
from turfplan.phrases import plan_cautions as phrases
from turfplan.planning.candidates import Candidate, Comparison
from turfplan.planning.care_notes import causes_of_thin_grass, spoken_of, told_of_thick_thatch
from turfplan.planning.installed import version_of
from turfplan.planning.plan_sources import LawnGround
from turfplan.planning.purchases import quoted_depth
from turfplan.planning.rejected_campaigns import not_sooner
from turfplan.planning.thatch_left import thatch_left
from turfplan.records.plan import (
    ClimateFacts,
    GrassPart,
    LawnFacts,
    OperationWindow,
    OrderLine,
    PlaceFacts,
    Plan,
    PlanConflict,
    Rejected,
)
from turfplan.records.plan_task import Task, TaskWindow
from turfplan.work.campaign_reasons import heat_of_summer
from turfplan.work.campaigns import following_autumn
from turfplan.work.feeding.soil_findings import soil_findings
from turfplan.work.grass_for_place import noxious, told_of_stand
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.material_amounts import counted
from turfplan.work.passes import beyond_custom
from turfplan.work.past_of_lawn import over_told, rests_told, still_to_come
from turfplan.work.pesticide_law import closed_by, told_of_law
from turfplan.work.phases.causes import asks_why_thin, waits_for
from turfplan.work.thatch import strip_limit_here, stripped_mm
from turfplan.work.watering.season import Verdict
from turfplan.work.weed_killers import carried_on

CURVE_STEP_DAYS = 5


@dataclass(frozen=True, slots=True)
class PlanOrigin:
    """Which lawn a plan is of, when it is made, and from which brief and how many entries.

    `now` is aware; `brief_sha256` is the digest of the brief, `files_sha256` of what it names.
    """

    now: datetime
    lawn_id: str
    brief_sha256: str
    files_sha256: str | None
    journal_entries: int


def frame(
    setting: ResolvedLawn,
    verdict: Verdict,
    comparison: Comparison,
    ground: LawnGround | None,
    origin: PlanOrigin,
) -> Plan:
    """The plan without its tasks."""
    moment = origin.now.astimezone(UTC).replace(microsecond=0)
    shell = Plan(
        program=f"turfplan {__version__}",
        data_version=setting.book.version,
        stamp=moment,
        now=moment,
        lawn_id=origin.lawn_id,
        brief_sha256=origin.brief_sha256,
        files_sha256=origin.files_sha256,
        journal_entries=origin.journal_entries,
        timezone=setting.climate.timezone,
        tzdata=version_of("tzdata"),
        horizon=TaskWindow(
            start=date.fromordinal(setting.begins or setting.first_day),
            end=date.fromordinal(setting.last_day),
        ),
        lawn=_lawn(setting, origin.lawn_id, comparison.best),
        place=_place(setting),
        climate=_climate(setting.climate),
        campaign="none",
        windows=_windows(setting),
        fill=ground.fill if ground else None,
        sources=_sources(setting),
        names=_names(setting.book, setting.plot.soil),
        currency=setting.brief.prices.currency or "",
        alarm=_alarm(setting),
    )
    return shell.model_copy(update=_of_choice(setting, verdict, comparison, ground))


def _of_choice(
    setting: ResolvedLawn, verdict: Verdict, comparison: Comparison, ground: LawnGround | None
) -> dict[str, Any]:
    """What a plan says of the campaign that was chosen, or of why none could be."""
    best = comparison.best
    measured = map(said, ground.notes) if ground else ()
    told = (*_over(setting, best), *over_told(setting), *asks_why_thin(setting))
    assumed = (*setting.assumptions, *told, *measured)
    choice = {
        "cautions": _cautions(setting, verdict, comparison),
        "holds": tuple(dict.fromkeys(_of_past(setting, comparison.best))),
        "rejected": tuple(Rejected(campaign=n, reason=r) for n, r in comparison.rejected),
        "assumptions": assumed,
    }
    if best is None:
        return choice | {"conflict": PlanConflict(reasons=comparison.conflict)}
    return choice | {
        "campaign": best.campaign.id,
        "campaign_name": best.campaign.name,
        "campaign_reason": (
            *_why(setting, best),
            *not_sooner(setting, best.campaign, comparison.rejected),
        ),
        "assumptions": (*assumed, *best.season.notes),
        "disagreements": best.season.disagreements,
    }


def _names(book: Book, soil: str) -> dict[str, Message]:
    """What the book calls each operation, and the soil of the lawn."""
    names = {f"operations.{name}": operation_name(book, name) for name in book.operations}
    return names | {f"soils.{soil}": book_message(book, f"soils.{soil}.name")}


def _lawn(setting: ResolvedLawn, lawn_id: str, best: Candidate | None) -> LawnFacts:
    return LawnFacts(
        id=lawn_id,
        name=setting.brief.lawn.name,
        area_m2=round(setting.plot.area_m2, 4),
        grass=tuple(
            GrassPart(species=g.species, name=grass_name(setting.book, g.species), share=g.share)
            for g in setting.brief.lawn.grass
        ),
        soil=setting.plot.soil,
        thatch_mm=round(setting.turf.thatch_mm, 3),
        condition=setting.turf.condition,
        units=setting.system,
        depth_mm=round(setting.levelling.depth_mm, 6),
        intent=setting.sowing.intent,
        mix=best.mix.name if best and best.campaign.sessions else None,
        people=setting.labour.people,
    )


def _place(setting: ResolvedLawn) -> PlaceFacts:
    climate, place, book = setting.climate, setting.brief.place, setting.book
    return PlaceFacts(
        latitude=round(climate.latitude, 4),
        longitude=round(climate.longitude, 4),
        country=setting.country,
        state=place.state,
        region=setting.book.region,
        region_name=book_message(book, f"regions.{book.region}.name") if book.region else None,
        elevation_m=climate.elevation_m,
        koppen=climate.koppen,
        name=climate.found,
    )


def _climate(climate: Climate) -> ClimateFacts:
    days = tuple(range(0, DAYS, CURVE_STEP_DAYS))

    def every(curve: Iterable[float], digits: int = 1) -> tuple[float, ...]:
        values = tuple(curve)
        return tuple(round(values[d], digits) for d in days)

    def words(frost: object) -> str | None:
        median = getattr(frost, "median", None)
        return None if median is None else f"{date_of(median, PLAIN_YEAR):%m-%d}"

    return ClimateFacts(
        source=climate.source,
        error_days=climate.error_days,
        attribution=climate.attribution,
        last_frost=words(climate.last_frost),
        first_frost=words(climate.first_frost),
        day_of_year=days,
        air_mean_c=every(climate.air_mean_c),
        soil_10cm_c=every(climate.soil_10cm_c),
        soil_error_c=round(climate.soil_error_c, 2),
        soil_error_days=climate.soil_error_days,
        rain_mm=every(climate.rain_mm, 2),
        et0_mm=every(climate.et0_mm, 2),
    )


def _why(setting: ResolvedLawn, best: Candidate) -> tuple[Message, ...]:
    """Why this campaign, this mix and this starter."""
    why: list[Message | None] = list(best.campaign.why)
    if best.campaign.sessions:
        why.append(best.mix.reason)
    if setting.sowing.operation is not None and setting.sowing.intent != "winter_overseed":
        why.append(best.feeding.starter_reason)
    if best.campaign.sessions:
        why.append(best.mix.soil)
    return tuple(reason for reason in why if reason)


def _cautions(
    setting: ResolvedLawn, verdict: Verdict, comparison: Comparison
) -> tuple[Message, ...]:
    """Cautions of the whole plan: loads first where they are large, then site, water, mix and
    feeding, then the law."""
    book, best = setting.book, comparison.best
    found = [
        *_mostly_weeds(setting),
        *causes_of_thin_grass(setting),
        *_of_past(setting, best),
        *still_to_come(setting),
    ]
    if best is not None:
        compost = best.mix.parts.get("compost", 0.0) > 0
        found += carried_on(setting.holds, book, compost=compost)
    if best is not None:
        volume = sum(best.volumes.passes.values())
        deep = setting.levelling.mean_mm >= book.si("campaign.fill_warning") - 1e-6
        if volume >= book.si("campaign.volume_warning") or (deep and volume):
            found.append(_to_move(setting, best.volumes.passes.values()))
        found += _spring_seed(setting, best)
        custom = beyond_custom(setting, best.campaign.passes)
        found += [custom] if custom else []
    quoted = quoted_depth(setting)
    found += [quoted] if quoted else []
    if setting.sowing.operation is not None:
        found += [*verdict.reasons, *verdict.cautions]
    if best is not None:
        found += [*best.season.cautions, *best.feeding.cautions]
    else:
        found += soil_findings(setting).cautions
    found += _site(setting)
    if closed_by(setting) is not None and (law := told_of_law(setting)) is not None:
        found.append(law)
    found += [
        book_message(book, f"cautions.{c.id}.text") for c in book.cautions.values() if c.always
    ]
    return tuple(dict.fromkeys(found))


def _to_move(setting: ResolvedLawn, volumes: Collection[float]) -> Message:
    """How much material is moved: in barrow loads where no loader is at hand."""
    volume = Quantity(sum(volumes), "loose")
    if "loader" in setting.brief.work.machines:
        return phrases.by_loader(volume=volume)
    barrow = setting.book.si("labour.barrow")
    loads = sum(counted(each, barrow) for each in volumes)
    return phrases.by_hand(volume=volume, loads=Number(loads, "grouped"))


def _of_past(setting: ResolvedLawn, best: Candidate | None) -> list[Message]:
    """What holds seed back, or must be found out first, by what was done to the lawn before."""
    sow = best.campaign.sow_window if best is not None else None
    begins = max(setting.first_day, 0 if sow is None else sow.start.toordinal())
    sows = setting.sowing.operation is not None
    found = [hold.why for hold in setting.holds if sows and hold.binds(begins)]
    rest = rests_told(setting) if best is not None else ()
    drafted = frozenset(draft.id for draft in best.season.drafts) if best is not None else ()
    return [*waits_for(setting, drafted), *found, *setting.sowing.cautions, *rest]


def _over(setting: ResolvedLawn, best: Candidate | None) -> list[Message]:
    """What weed killers of the past no longer hold back."""
    return [hold.why for hold in setting.holds if hold.why not in _of_past(setting, best)]


def _spring_seed(setting: ResolvedLawn, best: Candidate) -> list[Message]:
    """What to write into the brief where the plan's end alone puts seed before a hot summer."""
    sow, season = best.campaign.sow_window, setting.brief.season
    autumn = following_autumn(setting, sow) if sow is not None else None
    if (
        autumn is None
        or season.until is None
        or season.campaign != "auto"
        or not heat_of_summer(setting)
        or autumn.toordinal() <= setting.last_day
    ):
        return []
    end = Day(date.fromordinal(setting.last_day))
    return [phrases.spring_seed(day=end, until=autumn.isoformat())]


def _mostly_weeds(setting: ResolvedLawn) -> list[Message]:
    """What is said first of a lawn that is mostly weeds, where it is not made anew."""
    weeds = (setting.brief.site.weeds_percent or 0) / 100
    if weeds <= setting.book.si("seeding.rebuild_weeds") or setting.on_open_ground:
        return []
    if setting.care_alone:
        return [of_care.mostly_weeds()]
    sown = setting.sowing.intent in ("overseed", "patch")
    return [of_ground.weeds() if sown else phrases.mostly_weeds()]


def _site(setting: ResolvedLawn) -> list[Message]:
    site, book = setting.brief.site, setting.book
    found: list[Message] = []
    if setting.sowing.intent == "winter_overseed" and not setting.bears_winter_cover:
        found.append(
            book_message(
                book,
                "cautions.winter_cover_elsewhere.text",
                {"grass": grass_name(book, setting.turf.species.id)},
            )
        )
    if (
        setting.turf.thatch_mm >= book.si(strip_limit_here(setting.brief, book))
        and setting.turf.condition != "bare"
        and not stripped_mm(setting.brief, book)
    ):
        found.append(told_of_thick_thatch(setting))
    found += [*noxious(setting), *told_of_stand(setting), *thatch_left(setting)]
    light = setting.plot.light
    if light is not None and light.dark:
        found.append(phrases.too_little_sun())
    found += setting.told_of_shade
    if site.pets:
        found.append(phrases.dogs())
    parts = {part.kind for part in setting.plot.parts}
    if site.septic_field and "septic_field" not in parts:
        found += [part_phrases.ask_septic(), phrases.septic_field()]
    if site.slope_percent and site.slope_percent / 100 > book.si("site.slope_steep"):
        found.append(phrases.steep())
    return found


def _windows(setting: ResolvedLawn) -> tuple[OperationWindow, ...]:
    return tuple(
        OperationWindow(
            operation=w.operation,
            season=w.season,
            start=w.start,
            end=w.end,
            best=w.best,
            reason=w.reason,
            source=w.source,
        )
        for w in setting.openings.windows
        if spoken_of(setting, w.operation)
    )


def _sources(setting: ResolvedLawn) -> dict[str, str]:
    return {
        key: f"{source.institution}: {source.title}"
        for key, source in sorted(setting.book.sources.items())
    }


def _alarm(setting: ResolvedLawn) -> tuple[int, object] | None:
    alarm = setting.brief.calendar.alarm
    return None if alarm is False else (alarm.days_before, alarm.at)


def citations_of(
    book: Book, tasks: Iterable[Task], lines: Iterable[OrderLine]
) -> dict[str, Message]:
    """What stands behind each fact that a task, an amount or an order names: the fact, its value
    and its source."""
    names = {name for task in tasks for name in task.facts}
    names |= {name for task in tasks for amount in task.amounts for name in amount.facts}
    names |= {name for line in lines for name in line.facts}
    return {name: fact for name in sorted(names) if (fact := cited(book, name)) is not None}


def behind_numbers(
    book: Book, tasks: Iterable[Task], lines: Iterable[OrderLine]
) -> dict[str, dict[str, Message] | dict[str, str]]:
    """The citations of a plan, and where their sources can be read, by the names of the sources:
    the year that a title does not tell, and the address.
    """
    cited_facts = citations_of(book, tasks, lines)
    used = {book.facts[name].source for name in cited_facts} & book.sources.keys()
    found = {name: _where(book.sources[name]) for name in sorted(used)}
    addresses = {name: where for name, where in found.items() if where}
    return {"citations": cited_facts, "addresses": addresses}


def _where(source: Source) -> str:
    year = str(source.year or "")
    return ", ".join(
        part for part in (year if year not in source.title else "", source.address) if part
    )
