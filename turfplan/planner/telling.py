"""What a plan says beside its tasks: the lawn, the place, the choice made, assumptions, cautions, sources."""

from collections.abc import Iterable
from datetime import UTC, date, datetime, timedelta
from functools import cache, lru_cache
from importlib.metadata import PackageNotFoundError, version
from typing import Protocol

from turfplan import __version__
from turfplan.agronomy import Book, citation, printed
from turfplan.climate.record import Climate
from turfplan.plan import (
    ClimateFacts,
    Conflict,
    Fill,
    GrassPart,
    LawnFacts,
    OperationWindow,
    OrderLine,
    PlaceFacts,
    Plan,
    Rejected,
    Task,
    Window,
)
from turfplan.planner.comparing import Candidate, Comparison
from turfplan.planner.quantities import quoted_depth
from turfplan.rules.campaign import following_autumn
from turfplan.rules.setting import Setting
from turfplan.rules.water import Verdict
from turfplan.units import System, read_as
from turfplan.wording import capital, day_text

CURVE_STEP_DAYS = 5


class GroundLike(Protocol):
    """The part of the ground that the plan tells of."""

    @property
    def fill(self) -> Fill | None:
        """The fill map, if there is one."""

    @property
    def notes(self) -> tuple[str, ...]:
        """What was assumed of the ground."""


def frame(
    setting: Setting,
    verdict: Verdict,
    comparison: Comparison,
    *,
    now: datetime,
    lawn_id: str,
    brief_sha256: str,
    journal_entries: int,
    ground: GroundLike | None,
) -> Plan:
    """The plan without its tasks."""
    best = comparison.best
    return Plan(
        program=f"turfplan {__version__}",
        data_version=setting.book.version,
        stamp=now.astimezone(UTC).replace(microsecond=0),
        now=now.astimezone(UTC).replace(microsecond=0),
        lawn_id=lawn_id,
        brief_sha256=brief_sha256,
        journal_entries=journal_entries,
        timezone=setting.climate.timezone,
        tzdata=_tzdata(),
        horizon=Window(start=date.fromordinal(setting.first_day), end=date.fromordinal(setting.last_day)),
        lawn=_lawn(setting, lawn_id, best.mix.name if best and best.campaign.sessions else None),
        place=_place(setting),
        climate=_climate(setting.climate),
        campaign=best.campaign.id if best else "none",
        campaign_name=best.campaign.name if best else "",
        campaign_reason=_why(setting, comparison),
        cautions=_cautions(setting, verdict, comparison),
        assumptions=(*setting.assumptions, *(ground.notes if ground else ()), *(best.season.notes if best else ())),
        disagreements=best.season.disagreements if best else (),
        rejected=tuple(Rejected(campaign=name, reason=reason) for name, reason in comparison.rejected),
        conflict=Conflict(reasons=comparison.conflict) if best is None else None,
        windows=_windows(setting),
        fill=ground.fill if ground else None,
        sources=_sources(setting),
        alarm=_alarm(setting),
    )


@cache
def _tzdata() -> str:
    try:
        return version("tzdata")
    except PackageNotFoundError:
        return "unknown"


def _lawn(setting: Setting, lawn_id: str, mix: str | None) -> LawnFacts:
    brief = setting.brief
    return LawnFacts(
        id=lawn_id, name=brief.lawn.name, area_m2=round(setting.area_m2, 4),
        grass=tuple(
            GrassPart(species=g.species, name=setting.book.species[g.species].name, share=g.share) for g in brief.lawn.grass
        ),
        soil=setting.soil, thatch_mm=round(setting.thatch_mm, 3), condition=setting.condition, units=setting.system,
        depth_mm=round(setting.depth_mm, 6), intent=setting.intent, mix=mix,
    )  # fmt: skip


def _place(setting: Setting) -> PlaceFacts:
    climate, place = setting.climate, setting.brief.place
    return PlaceFacts(
        latitude=round(climate.latitude, 4), longitude=round(climate.longitude, 4), country=setting.country, state=place.state,
        region=setting.book.region, region_name=setting.book.region_name, elevation_m=climate.elevation_m, koppen=climate.koppen,
        name=place.postal_code,
    )  # fmt: skip


def _climate(climate: Climate) -> ClimateFacts:
    days = tuple(range(0, 365, CURVE_STEP_DAYS))

    def every(curve: Iterable[float], digits: int = 1) -> tuple[float, ...]:
        values = tuple(curve)
        return tuple(round(values[d], digits) for d in days)

    def words(frost: object) -> str | None:
        median = getattr(frost, "median", None)
        return None if median is None else f"{date(2027, 1, 1) + timedelta(days=int(median)):%m-%d}"

    return ClimateFacts(
        source=climate.source, error_days=climate.error_days, attribution=climate.attribution,
        last_frost=words(climate.last_frost), first_frost=words(climate.first_frost), day_of_year=days,
        air_mean_c=every(climate.air_mean_c), soil_10cm_c=every(climate.soil_10cm_c), soil_error_c=round(climate.soil_error_c, 2),
        soil_error_days=climate.soil_error_days,
        rain_mm=every(climate.rain_mm, 2), et0_mm=every(climate.et0_mm, 2),
    )  # fmt: skip


def _why(setting: Setting, comparison: Comparison) -> tuple[str, ...]:
    best = comparison.best
    if best is None:
        return ()
    why = list(best.campaign.why)
    if best.campaign.sessions:
        why.append(best.mix.reason)
    if best.feeding.starter_reason and setting.sowing is not None and setting.intent != "winter_overseed":
        why.append(best.feeding.starter_reason)
    if best.campaign.sessions and best.mix.soil:
        why.append(best.mix.soil)
    return tuple(why)


def _cautions(setting: Setting, verdict: Verdict, comparison: Comparison) -> tuple[str, ...]:
    """Cautions of the whole plan: loads first where they are large, then site, water, mix and feeding, then the law."""
    book, best = setting.book, comparison.best
    found: list[str] = []
    if best is not None:
        volume = sum(best.volumes.passes.values())
        deep = setting.mean_fill_mm >= book.si("campaign.fill_warning") - 1e-6
        if volume >= book.si("campaign.volume_warning") or (deep and volume):
            found.append(
                f"This is {read_as(volume, 'volume', setting.system, 'up').text} of material to move by hand, about "
                f"{volume / book.si('labour.barrow'):,.0f} barrow loads: be sure the depth is the mean, not the deepest dip."
            )
        found += _spring_seed(setting, best)
    quoted = quoted_depth(setting)
    found += [quoted] if quoted else []
    if setting.sowing is not None:
        found += [*verdict.reasons, *verdict.cautions]
    if best is not None:
        found += [*best.season.cautions, *best.feeding.cautions]
    found += _site(setting)
    found += [c.text for c in book.cautions.values() if c.always]
    return tuple(dict.fromkeys(found))


def _spring_seed(setting: Setting, best: Candidate) -> list[str]:
    """What to write into the brief where seed goes in in spring only because the plan ends before the next autumn."""
    sow, season = best.campaign.sow_window, setting.brief.season
    autumn = following_autumn(setting, sow) if sow is not None else None
    if (
        autumn is None
        or season.until is not None
        or season.campaign != "auto"
        or autumn.toordinal() <= setting.last_day
    ):
        return []
    return [
        f"Seed goes in in spring, and meets weeds and its first summer young, because the plan ends on "
        f"{day_text(date.fromordinal(setting.last_day), setting.system)}. With until = {autumn} in the brief's season it may wait for late summer."
    ]


def _site(setting: Setting) -> list[str]:
    site, book = setting.brief.site, setting.book
    found = []
    if setting.intent == "winter_overseed" and setting.species.id not in book.campaigns["winter_cover"].strong:
        found.append(book.cautions["winter_cover_elsewhere"].text.format(grass=setting.species.name))
    if setting.thatch_mm >= book.si("dethatch.strip_limit") and setting.condition != "bare":
        found.append(
            "The thatch is too thick to build on: what is set or sown must reach the soil, and the thatch comes down over a year."
            if setting.living
            else "The old turf goes with its thatch: strip it before the first layer, nothing levels on a sponge."
        )
    if (site.weeds_percent or 0) / 100 > book.si("seeding.rebuild_weeds"):
        found.append("More than half of this is weeds: a season of dressing does not mend that; rebuild the lawn.")
    if site.shade_hours is not None and 24 - site.shade_hours < book.si("site.sun_least"):
        found.append("Too little sun for turf that must recover: thin the trees or choose another cover here.")
    if site.pets:
        found.append("Fence dogs out for four to eight weeks after seeding.")
    if site.septic_field:
        found.append("Septic field: know where it lies, no heavy machine over it, and ask before its cover is changed.")
    if site.slope_percent and site.slope_percent / 100 > book.si("site.slope_steep"):
        found.append("Steep ground: shorter waterings, cover over seed, thin layers.")
    return found


def _windows(setting: Setting) -> tuple[OperationWindow, ...]:
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
        for w in setting.windows
    )


def _sources(setting: Setting) -> dict[str, str]:
    return {key: f"{source.institution}: {source.title}" for key, source in sorted(setting.book.sources.items())}


def _alarm(setting: Setting) -> tuple[int, object] | None:
    alarm = setting.brief.calendar.alarm
    return None if alarm is False else (alarm.days_before, alarm.at)


def citations_of(book: Book, tasks: Iterable[Task], lines: Iterable[OrderLine], system: System) -> dict[str, str]:
    """What stands behind each fact that a task, an amount or an order names: the fact, its value and its source."""
    names = {name for task in tasks for name in task.facts}
    names |= {name for task in tasks for amount in task.amounts for name in amount.facts}
    names |= {name for line in lines for name in line.facts}
    cited = {name: _cited(book, name, system) for name in sorted(names)}
    return {name: words for name, words in cited.items() if words is not None}


@lru_cache(maxsize=4096)
def _cited(book: Book, name: str, system: System) -> str | None:
    """A fact with its value and its source in words, or None where the book has no such fact; a book's facts never change."""
    fact = book.get(name)
    if fact is None:
        return None
    words = name.replace(".", ", ").replace("_", " ")
    return f"{capital(words)}: {printed(fact, system)}. {citation(book, fact)}"
