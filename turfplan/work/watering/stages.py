"""The stages of watering, which end by growth, and what each asks for."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from types import MappingProxyType
from typing import Literal

from turfplan.book.entries import Book
from turfplan.message import Message
from turfplan.phrases import watering as phrases
from turfplan.records.book_names import FactName
from turfplan.work.watering.hose import part_of
from turfplan.work.watering.hours import Law, place
from turfplan.work.watering.intake import intake_of
from turfplan.work.watering.request import WEEK, WateredPart, WateringRequest

StageName = Literal[
    "settle",
    "settle_fill",
    "recover",
    "soak",
    "soak_plants",
    "germination",
    "establishment",
    "rooting",
    "weaning",
    "winter",
    "soak_relaid",
    "relaid",
]
STAGE_NAMES: Mapping[StageName, Message] = MappingProxyType(
    {
        "settle": phrases.stage_settle(),
        "settle_fill": phrases.stage_settle_fill(),
        "recover": phrases.stage_recover(),
        "soak": phrases.stage_soak(),
        "soak_plants": phrases.stage_soak_plants(),
        "germination": phrases.stage_germination(),
        "establishment": phrases.stage_establishment(),
        "rooting": phrases.stage_rooting(),
        "weaning": phrases.stage_weaning(),
        "winter": phrases.stage_winter(),
        "soak_relaid": phrases.stage_soak_relaid(),
        "relaid": phrases.stage_relaid(),
    }
)


# The watering right after the work: its depth in the book, and why.
FIRST_WATER: Mapping[StageName, tuple[FactName, Message]] = MappingProxyType(
    {
        "settle": ("water.settle_depth", phrases.why_settle()),
        "settle_fill": ("water.settle_fill", phrases.why_settle_fill()),
        "soak": ("water.settle_depth", phrases.why_soak()),
        "soak_plants": ("water.soak_plants", phrases.why_soak_plants()),
        "soak_relaid": ("water.soak_plants", phrases.why_soak_relaid()),
    }
)
# The stages of turf that was lifted and laid back: a part of a lawn that has rooted elsewhere.
OF_RELAID: tuple[StageName, ...] = ("soak_relaid", "relaid")
# The first water of seed, plants and relaid turf: what an establishment permit is given for.
OF_YOUNG: tuple[StageName, ...] = ("soak", "soak_plants", "soak_relaid")
# Stages of grass that came with leaves of its own and has not rooted.
OF_PLANTS: tuple[StageName, ...] = ("rooting", "relaid")


# Stages that go by the name of the one they stand in for.
_KEYS: Mapping[StageName, str] = MappingProxyType({"soak_plants": "soak", "settle_fill": "settle"})


@dataclass(frozen=True, slots=True)
class Stage:
    """One stretch of days watered alike; `number` tells passes apart.

    `strips` are the days on which its work was done, strip by strip; none where it was done at
    once. `share` is the part of the lawn that it waters in the end, `part` what that is called,
    None for the whole lawn.
    """

    name: StageName
    start: date
    end: date
    number: int | None = None
    strips: tuple[date, ...] = ()
    share: float = 1.0
    part: WateredPart | None = None

    def watered_share(self, end: date) -> float:
        """The part of the lawn that is watered in a week that ends on that day.

        What is done on that last day has its first water in the evening.
        """
        if len(self.strips) < 2:
            return self.share
        if self.name in FIRST_WATER:
            return self.share / len(self.strips)
        return self.share * max(1, sum(day < end for day in self.strips)) / len(self.strips)

    def settled_on(self, request: WateringRequest, worked: date) -> date | None:
        """The day on which the first water of a day's work is all down."""
        return settling_day(
            request.book,
            request.law,
            worked,
            permitted=self.name in OF_YOUNG,
            runs_min=self._first_water_min(request),
        )

    def _first_water_min(self, request: WateringRequest) -> tuple[int, ...]:
        """Minutes of the first water of a day's work, from the first drop to the last, by zone."""
        book, share = request.book, self.watered_share(self.end)
        fact, _ = FIRST_WATER[self.name]
        intake = intake_of(book, request.soil, request.slope_percent, bare=request.open_ground)
        zones = (part_of(zone, share) for zone in request.zones)
        runs = (intake.run(zone.exposure * book.si(fact), zone) for zone in zones)
        return tuple(run.elapsed_min for run in runs)

    @property
    def key(self) -> str:
        """Its part of a task id."""
        name = _KEYS.get(self.name, self.name)
        return name if self.number is None else f"{name}.{self.number}"

    @property
    def title(self) -> Message:
        """What the stage is called."""
        return STAGE_NAMES[self.name]


# The stages of plants that went in before the rest are told apart from those of the rest.
FIRST_PLANTS = 1


def stages(request: WateringRequest) -> tuple[Stage, ...]:
    """The stages of the season in order of time: what passes, seed and plants ask for."""
    book = request.book
    stretches: list[Stage] = []
    part = request.sown_part
    young = request.young_days
    passes = sorted(request.passes)
    for number, day in enumerate(passes, 1):
        if request.open_ground:
            # No grass below is to recover: each lift is wetted through, and settles.
            days = request.days_of(day)
            share = request.pass_shares.get(day, 1.0)
            settle = Stage("settle_fill", days[0], day, number, days, share)
            stretches.append(replace(settle, part=request.pass_parts.get(day)))
            continue
        # What goes in strip by strip lies there from its first day on.
        sown = (max(first, day) for first, last in young if last >= day)
        follows = min((*passes[number:], *sown), default=None)
        stretches.extend(_after_pass(book, request, day, number, follows))
    if request.moist_from is not None:
        seeded = [*_begun_stages(request), *_seed_stages(request, request.moist_from)]
        stretches.extend(replace(stage, part=part) for stage in seeded)
    if request.relaid_on is not None:
        stretches.extend(_relaid_stages(request, request.relaid_on))
    if request.planted_on:
        planted = [*_plants_before(request), *_plant_stages(request, request.planted_on)]
        stretches.extend(replace(stage, part=part) for stage in planted)
    return tuple(
        stage if stage.end <= request.end else replace(stage, end=request.end)
        for stage in sorted(stretches, key=lambda s: (s.start, s.key))
        if stage.start <= request.end
    )


def _plants_before(request: WateringRequest) -> list[Stage]:
    """The stages of the plants that went in before the rest, until that goes in."""
    before, rest = request.planted_before, request.planted_on
    if before is None or rest is None:
        return []
    alone = replace(request, planted_on=before, planted_before=None, planted_strips=())
    eve = rest - timedelta(1)
    stages_of = (s for s in _plant_stages(alone, before) if s.start < rest)
    return [replace(s, end=min(s.end, eve), number=FIRST_PLANTS) for s in stages_of]


def _after_pass(
    book: Book, request: WateringRequest, day: date, number: int, follows: date | None
) -> list[Stage]:
    """Settling on the evening of a pass and two weeks of recovery.

    Both are of the part of the lawn that the pass covers. Recovery is cut short before the surface
    must be dry again.
    """
    if follows is not None and (follows - day).days <= book.si("water.seed_follows_days"):
        return []
    end = day + timedelta(round(book.si("water.recover_days")))
    if follows is not None:
        end = min(end, follows - timedelta(round(book.si("water.dry_before_pass")) + 1))
    days = request.days_of(day)
    share = request.pass_shares.get(day, 1.0)
    part = request.pass_parts.get(day)
    settle = Stage("settle", days[0], day, number, strips=days, share=share, part=part)
    settled = settle.settled_on(request, day) or day
    first = settled + timedelta(round(book.si("water.recover_first")))
    recover = Stage("recover", first, end, number, share=share, part=part)
    return [settle, recover] if first <= end else [settle]


def late_hours(book: Book, law: Law) -> Law:
    """The law of the hours of a day in which its work is over."""
    return law.after(book.si("water.start_afternoon"))


def settling_day(
    book: Book,
    law: Law,
    worked: date,
    *,
    permitted: bool = False,
    runs_min: Sequence[int] = (),
) -> date | None:
    """The day on which work is watered in: its own, afterwards, where its late hours are lawful and
    hold the runs of its zones, of so many minutes, one after the other.

    Else it is the next open one. `permitted`: it holds new seed or plants, with the permit in hand.
    """
    late = late_hours(book, law)
    evening = late.spans and place([book.si("water.start_evening")], runs_min, 0, late)
    days = (worked + timedelta(n) for n in range(0 if evening else 1, WEEK))
    return next((day for day in days if law.open(day, permitted=permitted)), None)


def _begun_stages(request: WateringRequest) -> list[Stage]:
    """What went in before the rest of the seed is watered until that goes in: from then on one
    water keeps both moist."""
    begun, moist = request.of_begun, request.moist_from
    if begun is None or begun.seeded_on is None or moist is None:
        return []
    last = request.sown_days(moist)[0] - timedelta(1)
    return [
        replace(stage, end=min(stage.end, last))
        for stage in _seed_stages(begun, begun.seeded_on)
        if stage.start <= last
    ]


def _seed_stages(request: WateringRequest, sown: date) -> list[Stage]:
    """The stages of seed that was sown by a day; those of seed that was sown anew have numbers."""
    stretches, number = _of_seed(request, sown), 1 + request.resown
    return [replace(s, number=number) for s in stretches] if request.resown else stretches


def _of_seed(request: WateringRequest, sown: date) -> list[Stage]:
    book = request.book
    up = request.up_on(sown)
    mown = request.first_mow_on or up + timedelta(round(book.si("setting.seedling_growth_days")))
    mown = max(mown, up + timedelta(1))
    weaned = mown + timedelta(round(book.si("water.weaning_days")))
    strips, share = request.sown_days(sown), request.sown_share
    soak = Stage("soak", strips[0], sown, strips=strips, share=share)
    wet = soak.settled_on(request, strips[0]) or strips[0]
    green = request.second_until
    winter = green is not None and weaned < green
    return [
        *([] if request.wakes_on else [soak]),
        Stage("germination", min(up, wet + timedelta(1)), up, strips=strips, share=share),
        Stage("establishment", up + timedelta(1), mown, share=share),
        Stage("weaning", mown + timedelta(1), weaned, share=share),
        *([Stage("winter", weaned + timedelta(1), green, share=share)] if winter and green else []),
    ]


def _plant_stages(request: WateringRequest, planted: date) -> list[Stage]:
    book, strips = request.book, request.planted_strips or (planted,)
    rooted = planted + timedelta(round(book.si("water.rooting_days")) - 1)
    weaned = rooted + timedelta(round(book.si("water.weaning_days")))
    share = request.sown_share
    soak = Stage("soak_plants", strips[0], planted, strips=strips, share=share)
    wet = soak.settled_on(request, strips[0]) or strips[0]
    return [
        soak,
        Stage("rooting", min(rooted, wet + timedelta(1)), rooted, strips=strips, share=share),
        Stage("weaning", rooted + timedelta(1), weaned, share=share),
    ]


def _relaid_stages(request: WateringRequest, relaid: date) -> list[Stage]:
    """Turf that was lifted lives by its upper roots until it has rooted anew, as sod does."""
    book, strips, share = request.book, request.relaid_strips or (relaid,), request.relaid_share
    rooted = relaid + timedelta(round(book.si("water.rooting_days")) - 1)
    soak = Stage("soak_relaid", strips[0], relaid, strips=strips, share=share)
    wet = soak.settled_on(request, strips[0]) or strips[0]
    return [
        soak,
        Stage("relaid", min(rooted, wet + timedelta(1)), rooted, strips=strips, share=share),
    ]
