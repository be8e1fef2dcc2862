"""The stages of watering, which end by growth, and what each asks for."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta
from math import ceil
from types import MappingProxyType
from typing import Literal

from turfplan.book.entries import Book
from turfplan.message import Message, Number, Quantity, length_mm
from turfplan.phrases import watering as phrases
from turfplan.records.book_names import FactName, of_family
from turfplan.work.watering.hours import Law
from turfplan.work.watering.intake import PERCENT
from turfplan.work.watering.request import WEEK, WateredGround, WateredPart, WateringRequest

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

    @property
    def key(self) -> str:
        """Its part of a task id."""
        name = _KEYS.get(self.name, self.name)
        return name if self.number is None else f"{name}.{self.number}"

    @property
    def title(self) -> Message:
        """What the stage is called."""
        return STAGE_NAMES[self.name]


def stages(request: WateringRequest) -> tuple[Stage, ...]:
    """The stages of the season in order of time: what passes, seed and plants ask for."""
    book = request.book
    stretches: list[Stage] = []
    part = request.sown_part
    anchors = sorted(d for d in (request.moist_from, request.planted_on) if d is not None)
    passes = sorted(request.passes)
    for number, day in enumerate(passes, 1):
        if request.open_ground:
            # No grass below is to recover: each lift is wetted through, and settles.
            days = request.days_of(day)
            share = request.pass_shares.get(day, 1.0)
            settle = Stage("settle_fill", days[0], day, number, days, share)
            stretches.append(replace(settle, part=request.pass_parts.get(day)))
            continue
        follows = min((d for d in (*passes[number:], *anchors) if d >= day), default=None)
        stretches.extend(_after_pass(book, request, day, number, follows))
    if request.moist_from is not None:
        seeded = _seed_stages(request, request.moist_from)
        stretches.extend(replace(stage, part=part) for stage in seeded)
    if request.relaid_on is not None:
        stretches.extend(_relaid_stages(request, request.relaid_on))
    if request.planted_on:
        planted = _plant_stages(request, request.planted_on)
        stretches.extend(replace(s, share=request.sown_share, part=part) for s in planted)
    return tuple(
        stage if stage.end <= request.end else replace(stage, end=request.end)
        for stage in sorted(stretches, key=lambda s: (s.start, s.key))
        if stage.start <= request.end
    )


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
    settled = settling_day(book, request.law, day) or day
    first = settled + timedelta(round(book.si("water.recover_first")))
    recover = Stage("recover", first, end, number, share=share, part=part)
    return [settle, recover] if first <= end else [settle]


def settling_day(book: Book, law: Law, worked: date, *, permitted: bool = False) -> date | None:
    """The day on which work is watered in: its own, afterwards, where its late hours are lawful.

    Else it is the next open one. `permitted`: it holds new seed or plants, with the permit in hand.
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
    strips, share = request.sown_days(sown), request.sown_share
    wet = settling_day(book, request.law, strips[0], permitted=True) or strips[0]
    soak = Stage("soak", strips[0], sown, strips=strips, share=share)
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
    wet = settling_day(book, request.law, strips[0], permitted=True) or strips[0]
    return [
        Stage("soak_plants", strips[0], planted, strips=strips),
        Stage("rooting", min(rooted, wet + timedelta(1)), rooted, strips=strips),
        Stage("weaning", rooted + timedelta(1), weaned),
    ]


def _relaid_stages(request: WateringRequest, relaid: date) -> list[Stage]:
    """Turf that was lifted lives by its upper roots until it has rooted anew, as sod does."""
    book, strips, share = request.book, request.relaid_strips or (relaid,), request.relaid_share
    rooted = relaid + timedelta(round(book.si("water.rooting_days")) - 1)
    wet = settling_day(book, request.law, strips[0], permitted=True) or strips[0]
    return [
        Stage("soak_relaid", strips[0], relaid, strips=strips, share=share),
        Stage("relaid", min(rooted, wet + timedelta(1)), rooted, strips=strips, share=share),
    ]


@dataclass(frozen=True, slots=True)
class Need:
    """What a week of a stage asks for: runs a day, water for each, how many days a week, and why.

    `runs` counts those of a day that is watered; `days` is None where every day is. Between two
    watered days lie `gap` days, by choice and at the least, across the weeks of a stage too; None
    where the week alone counts. With `rain_does_it` usual rain leaves nothing to be watered.
    """

    runs: int
    depth_mm: float
    days: int | None
    why: Message
    facts: tuple[FactName, ...]
    rain_does_it: bool = False
    gap: tuple[float, float] | None = None


def _on_a_bank(ground: WateredGround) -> bool:
    """Whether water runs off before it has soaked in."""
    request = ground.request
    return request.slope_percent > PERCENT * request.book.si("site.slope_steep")


def _on_mix(request: WateringRequest, stage: Stage) -> bool:
    """Whether the seed lies on a layer of mix that was spread with it."""
    follows = timedelta(round(request.book.si("water.seed_follows_days")))
    return not request.open_ground and any(
        stage.start - follows <= day <= stage.end for day in request.passes
    )


def need_of(ground: WateredGround, stage: Stage, start: date, end: date) -> Need:
    """The need of the days from start to end of a stage."""
    if stage.name in FIRST_WATER:
        fact, why = FIRST_WATER[stage.name]
        if stage.name == "settle_fill" and _on_a_bank(ground):
            why = phrases.why_settle_bank()
        if stage.name == "soak" and _on_mix(ground.request, stage):
            why = phrases.why_soak_on_mix()
        return Need(1, ground.request.book.si(fact), 1, why, (fact,))
    if stage.name in ("germination", "rooting", "establishment", "relaid"):
        return _moist_need(ground, stage, start, end)
    if stage.name == "recover":
        need = _recover_need(ground, start, end)
    elif stage.name == "winter":
        need = _winter_need(ground, start, end)
    else:
        need = _weaning_need(ground, start, end)
    return replace(need, rain_does_it=need.depth_mm < ground.request.book.si("water.least_run"))


def _winter_need(ground: WateredGround, start: date, end: date) -> Need:
    """What a second grass that is green in winter uses, less the rain that is counted on.

    Once a week, or as often as its roots run out of water.
    """
    book = ground.request.book
    use = book.si("water.rye_kc") * ground.mean_et0_mm(start, end)
    rain = ground.mean_rain_mm(start, end)
    counted = book.si("water.counted_rain_share")
    net = max(0.0, use - counted * rain)
    ready = ground.soil.ready_mm(ground.root_depth_mm(start), use)
    days = min(WEEK, max(1, ceil(WEEK * net / ready - 1e-9)))
    why = phrases.why_winter(
        use=Quantity(WEEK * use, "rain"),
        rain=Quantity(WEEK * rain, "rain"),
        share=Number(counted, "percent"),
    )
    facts: tuple[FactName, ...] = ("water.rye_kc", "water.counted_rain_share")
    return Need(1, WEEK * net / days, days, why, (*facts, *ground.soil.facts))


def _weaning_need(ground: WateredGround, start: date, end: date) -> Need:
    """Fewer and deeper runs of a week: what grass uses less the rain that is counted on."""
    book = ground.request.book
    use = ground.kc[start.month - 1] * ground.mean_et0_mm(start, end)
    rain = ground.mean_rain_mm(start, end)
    counted = book.si("water.counted_rain_share")
    net = max(0.0, use - counted * rain)
    ready = ground.soil.ready_mm(ground.root_depth_mm(start), use)
    often = book.fact("water.weaning_per_week")
    most = often.high_si
    days = round(min(most, max(often.low_si, WEEK * net / ready if ready else most)))
    return Need(
        1,
        WEEK * net / days,
        days,
        phrases.why_weaning(
            use=Quantity(WEEK * use, "rain"),
            rain=Quantity(WEEK * rain, "rain"),
            share=Number(counted, "percent"),
        ),
        (
            "water.weaning_per_week",
            "water.counted_rain_share",
            "water.root_depth",
            "water.root_growth",
            *ground.soil.facts,
        ),
    )


def _recover_need(ground: WateredGround, start: date, end: date) -> Need:
    """What covered grass uses between two waterings, up to the book's depth, less the rain that is
    counted on."""
    book = ground.request.book
    often = book.fact("water.recover_gap")
    gap = often.si
    rain = gap * book.si("water.counted_rain_share") * ground.mean_rain_mm(start, end)
    use = gap * ground.kc[start.month - 1] * ground.mean_et0_mm(start, end)
    depth = max(0.0, min(book.si("water.recover_depth"), use) - rain)
    why = phrases.why_recover(
        days=round(book.si("water.recover_days")),
        fewest=Number(often.low_si),
        most=Number(often.high_si),
    )
    return Need(
        1,
        depth,
        ceil(WEEK / gap),
        why,
        (
            "water.recover_depth",
            "water.recover_gap",
            "water.recover_days",
            "water.counted_rain_share",
        ),
        gap=(gap, often.low_si),
    )


def _moist_need(ground: WateredGround, stage: Stage, start: date, end: date) -> Need:
    """Daily water of a stage that must not dry out, in as many runs as its shallow layer needs.

    Normal rain takes nothing off a run: it does not come daily, and seed that dries once is dead.
    Real rain skips runs. Where as much of the usual rain as is counted on outdoes the need of a
    sunny week, rain leaves nothing dry.
    """
    book = ground.request.book
    coefficient: FactName = (
        "water.kc_wet_surface"
        if stage.name == "germination"
        else of_family("water.kc_{season}_initial", ground.request.season)
    )
    need = book.si("water.seed_margin") * book.si(coefficient) * ground.mean_et0_mm(start, end)
    roots_mm = ground.root_depth_mm(start)
    if stage.name in OF_RELAID:
        roots_mm = min(roots_mm, book.si("water.seed_moist_depth"))
    ready = ground.soil.ready_mm(roots_mm, need)
    event = book.si("water.light_event")
    most = round(book.fact("water.runs_a_day").high_si) if stage.name == "germination" else 2
    runs = min(
        most,
        max(
            1,
            ceil(need / event - 1e-9) if stage.name == "germination" else 1,
            ceil(need / ready - 1e-9),
        ),
    )
    depth = max(need / runs, book.si("water.least_run"))
    why = phrases.why_moist(
        layer=length_mm(roots_mm),
        ready=Quantity(ready, "rain"),
        need=Quantity(need, "rain"),
        n=runs,
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
            "water.counted_rain_share",
            *ground.soil.facts,
        ),
        book.si("water.counted_rain_share") * ground.mean_whole_rain_mm(start, end) >= need,
    )
