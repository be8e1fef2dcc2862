"""The days of a week on which a stage may be watered, by law and by who is there."""

from datetime import date
from typing import Literal, NamedTuple

from turfplan.calendar_days import recurring_days
from turfplan.message import Day, Message
from turfplan.phrases import watering as phrases
from turfplan.work.watering.hours import law_of
from turfplan.work.watering.request import WateredGround
from turfplan.work.watering.stages import Stage, late_hours

TENDER = ("soak", "soak_plants", "germination", "establishment", "rooting", "relaid")
# Those whose surface is kept moist, day by day, once the work is watered in.
KEPT_MOIST = ("germination", "establishment", "rooting", "relaid")
# What must not dry out: seed, plants and relaid turf until they have rooted.
THIRSTY = (*TENDER, "soak_relaid")
# What an establishment permit is given for: all of that, and young grass until it is weaned.
PERMITTED = (*THIRSTY, "weaning")
AFTER_WORK = ("settle", "settle_fill", "soak", "soak_plants", "soak_relaid")

# What a week lacks: some of its days for what must not dry out, or all of them by law, or because
# nobody is there.
Lack = Literal["some", "law", "away"]


class ClosedDays(NamedTuple):
    """Days in a row on which a stage cannot be watered as it should: how many are closed of how
    many."""

    stage: Stage
    start: date
    end: date
    lack: Lack
    closed: int
    days: int


def lawful_days(
    ground: WateredGround, stage: Stage, start: date, end: date, lacks: list[ClosedDays]
) -> tuple[date, ...]:
    """The days of a week that are open to watering; `lacks` gets the week where that is too few."""
    law = ground.law
    every = recurring_days(start, end)
    lawful = [day for day in every if law.open(day, permitted=stage.name in PERMITTED)]
    of_law, permitted = law_of(ground.request.water), stage.name in PERMITTED
    closed_days = [day for day in every if not of_law.open(day, permitted=permitted)]
    if stage.name in TENDER and closed_days:
        lacks.append(ClosedDays(stage, start, end, "some", len(closed_days), len(every)))
    elif not lawful and stage.name not in TENDER:
        absent = any(of_law.open(day) for day in every)
        lack: Lack = "away" if absent else "law"
        lacks.append(ClosedDays(stage, start, end, lack, len(every), len(every)))
    return tuple(lawful)


class Evening(NamedTuple):
    """A day of work, the day on which it is watered in (None where that is not lawful within a
    week), and whether hours of its own evening are open at all."""

    worked: date
    wetted: date | None
    open: bool


def evenings(
    ground: WateredGround, stage: Stage, start: date, end: date, cautions: list[Message]
) -> tuple[Evening, ...]:
    """When what was worked on the days of a week is watered in: each strip by itself, on its own
    evening or, where that is closed or too short, on the next open day; a caution where it waits.
    """
    law, late = ground.law, late_hours(ground.request.book, ground.law)
    found: list[Evening] = []
    for worked in stage.strips or (stage.start,):
        if not start <= worked <= end:
            continue
        lawful = law.open(worked, permitted=stage.name in PERMITTED)
        wetted = stage.settled_on(ground.request, worked)
        evening = Evening(worked, wetted, lawful and bool(late.spans))
        if wetted != worked and not evening.open:
            cautions.append(_wetted_late(stage, worked, wetted, after_work=lawful))
        found.append(evening)
    return tuple(found)


def _wetted_late(stage: Stage, worked: date, wetted: date | None, *, after_work: bool) -> Message:
    """That work is not watered in on its own day.

    `after_work`: the day is lawful, its late hours are not.
    """
    day = Day(worked, year=False)
    if wetted is None:
        left_out = phrases.week_left_out_after_work if after_work else phrases.week_left_out
        return left_out(stage=stage.title, day=day)
    waits = phrases.week_waits_after_work if after_work else phrases.week_waits
    return waits(stage=stage.title, day=day, next=Day(wetted, year=False))
