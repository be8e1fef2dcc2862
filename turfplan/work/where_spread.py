"""What the parts of a lawn are called that a pass is spread on, where it is not all of it."""

from collections.abc import Sequence

from turfplan.message import Message, listed
from turfplan.phrases import places as phrases
from turfplan.work.drafts import Band
from turfplan.work.lawn import ResolvedLawn

# Less of a lawn than this is what rounding leaves.
HAIR = 1e-6


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
    lifted_share = setting.levelling.lift_share
    never = 1.0 - held - lifted_share - sum(band.share for band in bands) > HAIR
    # What is lifted has its fill; where it is a zone of its own, the names of the others say so.
    lifted = [phrases.lifted()] if lifted_share and None in zones else []
    if not full and not never and (lifted or not lifted_share):
        return all_but([*(part.name for part in unfilled), *lifted])
    if None in zones and not never and not _unnamed(full):
        return all_but([*_zones(full), *spared, *lifted])
    surveyed = setting.brief.leveling.survey is not None
    parts = [
        phrases.hollows_left()
        if zone is None and lifted and not surveyed
        else _named(zone, full, surveyed=surveyed)
        for zone in dict.fromkeys(b.zone for b in got)
    ]
    if surveyed:
        spared += lifted
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
