"""The weeks of a stage with what each asks for, and what spares a week its watering."""

from collections.abc import Mapping, Sequence
from datetime import date, timedelta
from itertools import groupby
from typing import Literal, NamedTuple

from turfplan.message import Days, Message
from turfplan.phrases import watering as phrases
from turfplan.work.watering.lawful_days import TENDER
from turfplan.work.watering.needs import Need, need_of
from turfplan.work.watering.request import WEEK, WateredGround
from turfplan.work.watering.stages import FIRST_WATER, OF_PLANTS, Stage


class WeekNeed(NamedTuple):
    """A week of a stage, or a longer stretch that is watered alike, and what it asks for."""

    number: int
    start: date
    end: date
    need: Need


def weeks_of(ground: WateredGround, stage: Stage) -> list[WeekNeed]:
    """The weeks of a stage in order, each with its need."""
    weeks: list[WeekNeed] = []
    start = stage.start
    while start <= stage.end:
        end = min(stage.end, start + timedelta(_days_alike(ground, stage) - 1))
        weeks.append(WeekNeed(len(weeks) + 1, start, end, need_of(ground, stage, start, end)))
        start = end + timedelta(1)
    return weeks


# What spares a week its watering: usual rain, or cold in which grass hardly uses water.
Spare = Literal["rain", "cold"]


def spared(ground: WateredGround, stage: Stage, week: WeekNeed) -> Spare | None:
    """What spares a week its watering; None where it is watered.

    Work that has just been done is always watered in.
    """
    if stage.name in FIRST_WATER and stage.name != "settle":
        return None
    least = ground.request.book.si("water.dormant_growth")
    if stage.name in OF_PLANTS:
        # Sod and plugs lose water while their leaves rest; only frozen ground gives them none.
        cold = ground.frozen(week.start) and ground.frozen(week.end)
    else:
        cold = not (ground.growing(week.start, least) or ground.growing(week.end, least))
    if cold and stage.name in TENDER:
        return "cold"
    # Seed that has swollen is not left to what rain usually does: a run is skipped after rain.
    rain_does_it = week.need.rain_does_it and stage.name != "germination"
    return "rain" if rain_does_it else "cold" if cold else None


def told_spared(
    stage: Stage, weeks: Sequence[WeekNeed], spares: Mapping[int, Spare | None]
) -> list[Message]:
    """The stretches of weeks that are not watered, each told once; winter grass goes without."""
    told: list[Message] = []
    for spare, stretch in groupby(weeks, key=lambda week: spares[week.number]):
        found = list(stretch)
        days = Days(found[0].start, found[-1].end, weekday=False, year=False)
        if spare == "rain" and stage.name != "winter":
            told.append(phrases.week_rain_does_it(stage=stage.title, days=days))
        elif spare == "cold" and stage.name != "winter":
            told.append(phrases.week_grass_rests(stage=stage.title, days=days))
    return told


def _days_alike(ground: WateredGround, stage: Stage) -> int:
    """Days that are watered alike: a week; four in winter, where dates do not decide."""
    return 4 * WEEK if stage.name == "winter" and ground.law.parity is None else WEEK
