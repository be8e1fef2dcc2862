"""What the way from a heap to the lawn does to the hours of material that is wheeled."""

from turfplan.book.entries import Book
from turfplan.message import Message, Number, Quantity
from turfplan.phrases import lawn as phrases
from turfplan.records.brief import Brief


def told_of_wheeling(brief: Brief, book: Book) -> list[Message]:
    """What the way of wheeling does to the hours of material, or would do where nobody said how
    long it is: up to the reach of the figures it changes none."""
    way, reach = brief.work.haul_distance_mm, book.si("labour.haul_reach")
    asked = brief.leveling
    if not asked.depth_mm and not asked.lows and asked.survey is None:
        return []
    up_to = Quantity(reach, "haul")
    if way is None:
        return [phrases.wheeling(reach=up_to)]
    if way <= reach:
        return []
    times = Number(way / reach, "short")
    return [phrases.wheeled_far(way=Quantity(way, "haul"), reach=up_to, times=times)]
