"""The id by which a lawn is known in its plans and feeds."""

import hashlib

from turfplan.climate.record import Climate
from turfplan.records.brief import Brief
from turfplan.records.plan import Plan


def lawn_id_of(brief: Brief, climate: Climate, previous: Plan | None) -> str:
    """The lawn's id: the brief's, else the one that was given once, else one derived from what the
    lawn is."""
    if brief.lawn.id:
        return brief.lawn.id
    if previous is not None:
        return previous.lawn_id
    what = (
        f"{brief.lawn.name}\n{climate.latitude:.3f} {climate.longitude:.3f}\n{brief.lawn.area_m2}"
    )
    return "lawn-" + hashlib.sha256(what.encode()).hexdigest()[:10]
