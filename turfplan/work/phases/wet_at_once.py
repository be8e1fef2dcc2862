"""Plants are wet within minutes: water behind the planting, in the hours that the law leaves."""

from math import ceil

from turfplan.message import Message, Number, Quantity, as_written, listed
from turfplan.phrases import wet_at_once as phrases
from turfplan.records.book_names import FactName
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.plants import LITRES_IN_M3
from turfplan.work.watering.hours import law_of
from turfplan.work.watering.run_times import MINUTES_IN_HOUR

# Minutes are told in steps of so many.
TOLD_MINUTES = 5
FACTS: tuple[FactName, ...] = ("planting.wet_within", "water.light_event", "water.tap_flow")


def wetting_hours(setting: ResolvedLawn, area_m2: float) -> float:
    """The hours of whoever waters stretch after stretch behind the planting; none without water."""
    water, book = setting.brief.water, setting.book
    if water.possible is False:
        return 0.0
    litres_a_minute = water.flow_l_min or book.si("water.tap_flow")
    return book.si("water.light_event") * area_m2 / litres_a_minute / MINUTES_IN_HOUR


def wet_at_once(
    setting: ResolvedLawn, area_m2: float, person_hours: float, days: int
) -> tuple[Message, ...]:
    """How each stretch is watered as soon as it is planted, and what of that the law allows."""
    water, book = setting.brief.water, setting.book
    if water.possible is False or not person_hours:
        return ()
    people = setting.labour.people
    minutes = MINUTES_IN_HOUR * person_hours / people
    within = book.si("planting.wet_within")
    stretch_m2 = min(area_m2, area_m2 * within / minutes)
    behind = phrases.behind(
        area=Quantity(stretch_m2, "area"),
        minutes=round(within),
        volume=Quantity(book.si("water.light_event") * stretch_m2 / LITRES_IN_M3, "water_volume"),
        in_all=Number(_told_minutes(wetting_hours(setting, area_m2)), "grouped"),
    )
    return (behind, *_lawful(setting, minutes / days))


def _told_minutes(hours: float) -> int:
    """Hours as minutes, to the nearest five and never none."""
    return TOLD_MINUTES * max(1, round(hours * MINUTES_IN_HOUR / TOLD_MINUTES))


def _lawful(setting: ResolvedLawn, minutes: float) -> tuple[Message, ...]:
    """What the allowed hours and days leave for a day's planting of so many minutes."""
    water, book = setting.brief.water, setting.book
    law = law_of(water)
    told: list[Message] = []
    held = law.between(book.si("water.start_morning"), book.si("water.start_evening")).open_min
    if water.allowed_hours:
        hours = listed(as_written(text) for text in water.allowed_hours)
        needed, open_hours = (Number(m / MINUTES_IN_HOUR, "tenth") for m in (minutes, held))
        if held >= minutes:
            told.append(phrases.in_hours(hours=hours, needed=needed, held=open_hours))
        elif held:
            hands = ceil(setting.labour.people * minutes / held)
            told.append(
                phrases.hours_short(hours=hours, needed=needed, held=open_hours, people=hands)
            )
        else:
            told.append(phrases.no_hours(hours=hours))
    if (law.weekdays is not None or law.parity is not None) and not water.permit:
        told.append(phrases.closed_days())
    return tuple(told)
