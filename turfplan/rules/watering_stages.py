"""The stages of watering, which end by growth, and what each asks for."""

from dataclasses import dataclass
from datetime import date, timedelta
from math import ceil
from typing import Literal

from turfplan.agronomy import Book
from turfplan.rules.watering_hours import Law, law_of
from turfplan.rules.watering_request import WEEK, Ground, WateringRequest
from turfplan.units import read_as

StageName = Literal["settle", "recover", "soak", "soak_plants", "germination", "establishment", "rooting", "weaning"]
STAGE_WORDS: dict[str, str] = {
    "settle": "Settle the new layer",
    "recover": "Water the dressed lawn",
    "soak": "Water in the seed",
    "soak_plants": "Water in the plants",
    "germination": "Keep the seed moist",
    "establishment": "Water the seedlings",
    "rooting": "Water the new plants",
    "weaning": "Water deeper, less often",
}


# The watering right after the work: its depth in the book, and why.
FIRST_WATER: dict[str, tuple[str, str]] = {
    "settle": ("water.settle_depth", "A light watering the same evening settles the new layer among the leaves."),
    "soak": (
        "water.settle_depth",
        "The first water goes on once the seed is down, gently, until its layer is moist all through: not before, since the "
        "mix must be dry when it is spread.",
    ),
    "soak_plants": (
        "water.soak_plants",
        "New plants are watered in at once, until the soil under them is moist: lift a corner and look.",
    ),
}


@dataclass(frozen=True, slots=True)
class Stage:
    """One stretch of days watered alike; `number` tells passes apart."""

    name: StageName
    start: date
    end: date
    number: int | None = None

    @property
    def key(self) -> str:
        """Its part of a task id."""
        name = "soak" if self.name == "soak_plants" else self.name
        return name if self.number is None else f"{name}.{self.number}"


def stages(request: WateringRequest) -> tuple[Stage, ...]:
    """The stages of the season in order of time: what each pass, the seed and the plants ask for."""
    book = request.book
    found: list[Stage] = []
    anchors = sorted(d for d in (request.seeded_on, request.planted_on) if d is not None and not request.dormant)
    passes = sorted(request.passes)
    for number, day in enumerate(passes, 1):
        follows = min((d for d in (*passes[number:], *anchors) if d >= day), default=None)
        found.extend(_after_pass(book, law_of(request.water), day, number, follows))
    if request.seeded_on and not request.dormant:
        found.extend(_seed_stages(request, request.seeded_on))
    if request.planted_on:
        found.extend(_plant_stages(book, law_of(request.water), request.planted_on))
    return tuple(
        stage if stage.end <= request.end else Stage(stage.name, stage.start, request.end, stage.number)
        for stage in sorted(found, key=lambda s: (s.start, s.key))
        if stage.start <= request.end
    )


def _after_pass(book: Book, law: Law, day: date, number: int, follows: date | None) -> list[Stage]:
    """Settling on the evening of a pass and two weeks of recovery, cut short before the surface must be dry again."""
    if follows is not None and (follows - day).days <= book.si("water.seed_follows_days"):
        return []
    end = day + timedelta(round(book.si("water.recover_days")))
    if follows is not None:
        end = min(end, follows - timedelta(round(book.si("water.dry_before_pass")) + 1))
    settle = Stage("settle", day, day, number)
    settled = settling_day(book, law, day) or day
    first = settled + timedelta(round(book.si("water.recover_first")))
    return [settle, Stage("recover", first, end, number)] if first <= end else [settle]


def settling_day(book: Book, law: Law, worked: date, *, permitted: bool = False) -> date | None:
    """The day on which work is watered in: its own, afterwards, where its late hours are lawful, else the next open one.

    `permitted`: it holds new seed or plants, with the permit in hand.
    """
    evening = law.open_until > book.si("water.start_afternoon")
    days = (worked + timedelta(n) for n in range(0 if evening else 1, WEEK))
    return next((day for day in days if law.open(day, permitted=permitted)), None)


def _seed_stages(request: WateringRequest, sown: date) -> list[Stage]:
    book = request.book
    up = request.up_on(sown)
    mown = request.first_mow_on or up + timedelta(round(book.si("setting.seedling_growth_days")))
    mown = max(mown, up + timedelta(1))
    weaned = mown + timedelta(round(book.si("water.weaning_days")))
    wet = settling_day(book, law_of(request.water), sown, permitted=True) or sown
    return [
        Stage("soak", sown, sown),
        Stage("germination", min(up, wet + timedelta(1)), up),
        Stage("establishment", up + timedelta(1), mown),
        Stage("weaning", mown + timedelta(1), weaned),
    ]


def _plant_stages(book: Book, law: Law, planted: date) -> list[Stage]:
    rooted = planted + timedelta(round(book.si("water.rooting_days")) - 1)
    weaned = rooted + timedelta(round(book.si("water.weaning_days")))
    wet = settling_day(book, law, planted, permitted=True) or planted
    soak, rooting = Stage("soak_plants", planted, planted), Stage("rooting", min(rooted, wet + timedelta(1)), rooted)
    return [soak, rooting, Stage("weaning", rooted + timedelta(1), weaned)]


@dataclass(frozen=True, slots=True)
class Need:
    """What a week of a stage asks for: runs a day on the days watered, water for each, how many days a week, and why."""

    runs: int
    depth_mm: float
    days: int | None
    why: str
    facts: tuple[str, ...]


def need_of(ground: Ground, stage: Stage, start: date, end: date) -> Need:
    """The need of the days from start to end of a stage."""
    system = ground.request.system
    book, et0 = ground.request.book, ground.mean_et0_mm(start, end)
    if stage.name in FIRST_WATER:
        fact, why = FIRST_WATER[stage.name]
        return Need(1, book.si(fact), 1, why, (fact,))
    if stage.name == "recover":
        return _recover_need(ground, start, end)
    if stage.name in ("germination", "rooting", "establishment"):
        return _moist_need(ground, stage, start, et0)
    kc = ground.kc[start.month - 1]
    counted = book.si("water.counted_rain_share")
    net = max(0.0, kc * et0 - counted * ground.mean_rain_mm(start, end))
    ready = ground.soil.ready_mm(ground.root_depth_mm(start), kc * et0)
    fewest, most = book.fact("water.weaning_per_week").low_si, book.fact("water.weaning_per_week").high_si
    days = round(min(most, max(fewest, WEEK * net / ready if ready else most)))
    why = (
        f"Grass uses about {read_as(WEEK * kc * et0, 'rain', system).text} a week now and rain usually brings "
        f"{read_as(WEEK * ground.mean_rain_mm(start, end), 'rain', system).text} it can use, of which {counted:.0%} is counted on; fewer, deeper runs send roots down."
    )
    return Need(
        1,
        WEEK * net / days,
        days,
        why,
        (
            "water.weaning_per_week",
            "water.counted_rain_share",
            "water.root_depth",
            "water.root_growth",
            *ground.soil.facts,
        ),
    )


def _recover_need(ground: Ground, start: date, end: date) -> Need:
    book = ground.request.book
    often = book.fact("water.recover_gap")
    gap = often.si
    rain = gap * book.si("water.counted_rain_share") * ground.mean_rain_mm(start, end)
    depth = max(0.0, book.si("water.recover_depth") - rain)
    why = (
        f"For {round(book.si('water.recover_days'))} days after a pass the covered grass is watered every {often.low_si:.0f} to "
        f"{often.high_si:.0f} days, less part of the usual rain."
    )
    return Need(
        1,
        depth,
        ceil(WEEK / gap),
        why,
        ("water.recover_depth", "water.recover_gap", "water.recover_days", "water.counted_rain_share"),
    )


def _moist_need(ground: Ground, stage: Stage, start: date, et0_mm: float) -> Need:
    """Daily water of a stage that must not dry out, in as many runs as its shallow layer needs.

    Normal rain is not counted on: it does not come daily, and seed that dries once is dead. Real rain skips runs.
    """
    book, system = ground.request.book, ground.request.system
    coefficient = "water.kc_wet_surface" if stage.name == "germination" else f"water.kc_{ground.request.season}_initial"
    need = book.si("water.seed_margin") * book.si(coefficient) * et0_mm
    ready = ground.soil.ready_mm(ground.root_depth_mm(start), need)
    event = book.si("water.light_event")
    most = round(book.fact("water.runs_a_day").high_si) if stage.name == "germination" else 2
    runs = min(most, max(1, ceil(need / event - 1e-9) if stage.name == "germination" else 1, ceil(need / ready - 1e-9)))
    depth = max(need / runs, book.si("water.least_run"))
    layer = read_as(ground.root_depth_mm(start), "depth", system).text
    why = (
        f"The top {layer} of this soil gives {read_as(ready, 'rain', system).text} before it is too dry, and a sunny day takes "
        f"{read_as(need, 'rain', system).text}: {runs} {'run' if runs == 1 else 'short runs'} a day."
    )
    return Need(
        runs,
        depth,
        None,
        why,
        (
            coefficient,
            "water.seed_margin",
            "water.light_event",
            "water.least_run",
            "water.seed_moist_depth",
            *ground.soil.facts,
        ),
    )
