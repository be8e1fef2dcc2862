"""What thatch asks for, by how a grass grows: comb it out, level weeks later, or strip it."""

from dataclasses import replace
from datetime import date, timedelta

from turfplan.book.entries import Book, Species
from turfplan.records.book_names import FactName
from turfplan.records.brief import Brief
from turfplan.work.drafts import OpenDays
from turfplan.work.lawn import ResolvedLawn

HAIR_MM = 1e-6


def strip_limit(species: Species) -> FactName:
    """From how much thatch on nothing is levelled or sown on a grass.

    Strong creepers are cut back to the soil and grow together again in one summer.
    """
    if species.creeps:
        return "dethatch.strip_limit_creeper"
    return "dethatch.strip_limit" if species.season == "cool" else "dethatch.strip_limit_warm"


def strip_limit_here(brief: Brief, book: Book) -> FactName:
    """The least of these limits among the grasses that count in a stand: what one of them does not
    bear is not done to the lawn."""
    least = book.si("setting.counted_share")
    counted = [g.species for g in brief.lawn.grass if g.share >= least]
    limits = [strip_limit(book.species[g]) for g in counted or [brief.dominant.species]]
    return min(limits, key=book.si)


def stripped_mm(brief: Brief, book: Book) -> float:
    """The thatch that goes with the old turf of a lawn made anew, mm; 0 where it may stay."""
    renewed = brief.seeding.intent == "renovate" and brief.lawn.condition != "bare"
    thatch = brief.lawn.thatch_mm or 0.0
    limit = book.si(strip_limit_here(brief, book))
    return thatch if renewed and thatch >= limit - HAIR_MM else 0.0


def combed(setting: ResolvedLawn) -> bool:
    """Whether every grass that counts in the stand bears a dethatcher."""
    return all(setting.book.species[grass].combed for grass in setting.turf.stand)


def dethatches(setting: ResolvedLawn) -> bool:
    """Thatch over the limit is taken off under what is spread or sown, and in care alone, where
    this grass bears it.

    Over the strip limit it is not levelled on at all.
    """
    book, turf = setting.book, setting.turf
    under = bool(setting.levelling.bands) or setting.sowing.operation in ("seed", "overseed")
    return (
        (under or setting.care_alone)
        and not setting.thatch_down
        and turf.thatch_mm > book.si("dethatch.limit")
        and turf.thatch_mm < book.si(strip_limit_here(setting.brief, book))
        and combed(setting)
        # Ground without grass has no turf to comb.
        and not setting.on_open_ground
    )


def season_ahead(setting: ResolvedLawn, work: OpenDays) -> OpenDays | None:
    """The days, a rest before some work, on which thatch is taken down ahead of it: those of the
    last season of which half is left and whose best day lies among them, else of the first that
    has any; None where no season is left before the work."""
    rest = timedelta(setting.days("dethatch.rest_before_dressing"))
    begins = date.fromordinal(setting.first_day)
    seasons = [
        w for w in setting.open("dethatch") if max(w.start, begins) <= min(w.end, work.start - rest)
    ]
    before = [w for w in seasons if begins <= w.best <= work.start - rest]
    season = before[-1] if before else next(iter(seasons), None)
    if season is None:
        return None
    last = min(season.end, work.start - rest)
    return replace(season, end=last, best=min(season.best, last))


def grows_together_first(setting: ResolvedLawn) -> bool:
    """Whether a strong creeper is dethatched weeks before it is levelled, in the same summer."""
    creeps = setting.turf.species.creeps and not setting.on_open_ground
    return creeps and bool(setting.levelling.bands) and dethatches(setting)
