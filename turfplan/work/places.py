"""Which part of the lawn a job is for: its share, and what it is called where it is not all."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from turfplan.message import Message, listed
from turfplan.phrases import places as phrases
from turfplan.work.drafts import Band, Pass
from turfplan.work.lawn import ResolvedLawn

# Less of a lawn than this is what rounding leaves.
HAIR = 1e-6


@dataclass(frozen=True, slots=True)
class Place:
    """A part of the lawn: its share of the area, 0 to 1, and its name; None for the whole lawn."""

    share: float = 1.0
    name: Message | None = None


def where_spread(setting: ResolvedLawn, layer_mm: Sequence[float]) -> Message | None:
    """What the parts that a pass is spread on are called, by what each band gets of it in mm.

    None where the whole lawn gets some.
    """
    bands = setting.levelling.bands
    got = [band for band, mm in zip(bands, layer_mm, strict=True) if mm > HAIR]
    full = [band for band, mm in zip(bands, layer_mm, strict=True) if mm <= HAIR]
    zones = {band.zone for band in got}
    unfilled = [part for part in setting.plot.parts if not part.filled]
    spared = [part.name for part in unfilled if part.zone is None or part.zone in zones]
    held = sum(part.share for part in unfilled)
    never = 1.0 - held - sum(band.share for band in bands) > HAIR
    if not full and not never:
        return all_but([part.name for part in unfilled])
    if None in zones and not never and not _unnamed(full):
        return all_but([*_zones(full), *spared])
    surveyed = setting.brief.leveling.survey is not None
    parts = [_named(zone, full, surveyed=surveyed) for zone in dict.fromkeys(b.zone for b in got)]
    if spared:
        return phrases.these_but(parts=listed(parts), spared=listed(spared, "or"))
    return phrases.these(parts=listed(parts))


def _named(zone: Message | None, full: Sequence[Band], *, surveyed: bool) -> Message:
    """What the bands of a zone (None: of no zone) are called that still get some fill."""
    deep = any(band.zone == zone for band in full)
    if not surveyed:
        return phrases.hollows() if zone is None else zone
    if zone is None:
        return phrases.deep_ground() if deep else phrases.low_ground()
    return phrases.deep_ground_of(zone=zone) if deep else phrases.low_ground_of(zone=zone)


def _unnamed(bands: Sequence[Band]) -> bool:
    return any(band.zone is None for band in bands)


def _zones(bands: Sequence[Band]) -> list[Message]:
    return list(dict.fromkeys(band.zone for band in bands if band.zone is not None))


def all_but(names: Sequence[Message]) -> Message | None:
    """The lawn without some parts of it; None where there are none."""
    return phrases.all_but(parts=listed(names)) if names else None


def these(names: Iterable[Message]) -> Message:
    """Some parts of the lawn, one after the other."""
    return phrases.these(parts=listed(names))


def sown_place(setting: ResolvedLawn) -> Place:
    """What of the lawn may be sown or planted."""
    return Place(setting.sowing.share, all_but(setting.sowing.unsown))


def mended_place(setting: ResolvedLawn) -> Place:
    """What of the lawn is sown or planted: of turf that is mended the spots alone."""
    whole = sown_place(setting)
    if setting.mended_share >= 1:
        return whole
    unsown, spots = setting.sowing.unsown, (phrases.spots(),)
    name = (
        phrases.these_but(parts=listed(spots), spared=listed(unsown, "or"))
        if unsown
        else phrases.these(parts=listed(spots))
    )
    return Place(whole.share * setting.mended_share, name)


def renewed_place(setting: ResolvedLawn) -> Place:
    """The ground that is made anew where no living grass is kept: what is sown, else filled."""
    if setting.sowing.operation is not None:
        return sown_place(setting)
    return filled_place(setting)


def filled_place(setting: ResolvedLawn) -> Place:
    """The lawn without what nothing may be spread on."""
    spared = [part for part in setting.plot.parts if not part.filled]
    return Place(1.0 - sum(part.share for part in spared), all_but([p.name for p in spared]))


def surface_place(setting: ResolvedLawn, first: Pass | None) -> Place:
    """Where the turf is cut low and cored before the `first` pass of a session; None: before seed.

    Hollows lie among turf that is mown and cored with them; zones that were drawn do not.
    """
    if first is None:
        return sown_place(setting) if setting.sowing.operation else Place()
    zones = {zone.name for zone in setting.plot.zones}
    of_zones = bool(first.drawn) and zones.issuperset(first.drawn)
    if of_zones and setting.brief.leveling.survey is None:
        return Place(first.share, first.where)
    return filled_place(setting)
