"""How much loose material may lie at once beside the lawn: a heap is a cone on hard ground."""

import math

from turfplan.message import Message, Quantity
from turfplan.phrases import heap as phrases
from turfplan.work.lawn import ResolvedLawn


def cone_m3(area_m2: float, slope: float) -> float:
    """The volume of a cone on a round of this area, whose sides rise by `slope` (rise over run)."""
    radius_m = math.sqrt(area_m2 / math.pi)
    return area_m2 * radius_m * slope / 3


def cone_area_m2(volume_m3: float, slope: float) -> float:
    """The ground that a cone of this volume takes."""
    radius_m = math.cbrt(3 * volume_m3 / (math.pi * slope))
    return math.pi * radius_m**2


def heap_room_m3(setting: ResolvedLawn) -> float | None:
    """The most that may lie at once, loose m3; None where nobody said how much room there is."""
    area_m2 = setting.brief.delivery.heap_area_m2
    return None if area_m2 is None else cone_m3(area_m2, setting.book.si("delivery.heap_slope"))


def too_large(setting: ResolvedLawn, load_m3: float) -> tuple[Message, ...]:
    """What is said of a load, in m3 as it is bought, that there is no room for at once; soil for
    open ground is tipped where it is spread.
    """
    room = heap_room_m3(setting)
    if room is None or setting.on_open_ground or load_m3 <= room:
        return ()
    needed = cone_area_m2(load_m3, setting.book.si("delivery.heap_slope"))
    area = Quantity(setting.brief.delivery.heap_area_m2 or 0.0, "area")
    told = phrases.too_large(
        load=Quantity(load_m3, "volume", "up"),
        needed=Quantity(needed, "area", "up"),
        area=area,
        room=Quantity(room, "volume"),
    )
    return (told,)


def ask_for_room(setting: ResolvedLawn, largest_m3: float) -> tuple[Message, ...]:
    """The ground that the largest delivery takes, where nobody said how much there is; none where
    it is tipped on the ground that is filled."""
    known = setting.brief.delivery.heap_area_m2 is not None
    if known or setting.on_open_ground or not largest_m3:
        return ()
    needed = cone_area_m2(largest_m3, setting.book.si("delivery.heap_slope"))
    load, area = Quantity(largest_m3, "volume", "up"), Quantity(needed, "area", "up")
    return (phrases.ask_for_room(load=load, area=area),)
