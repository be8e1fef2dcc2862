"""Which of three sentences tells how something is watered: on any day, by the law's, or by rain."""

from turfplan.message import Message
from turfplan.records.brief import Water
from turfplan.work.watering.hours import law_of


def as_water_allows(water: Water, *, freely: Message, by_law: Message, on_rain: Message) -> Message:
    """`by_law` where only some days are open to watering, `on_rain` where nobody waters."""
    if water.possible is False:
        return on_rain
    return by_law if law_of(water).restricts_days else freely
