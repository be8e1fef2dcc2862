"""What the days of a stage of watering ask for: runs, depth, days of a week, and why."""

from dataclasses import dataclass, replace
from datetime import date, timedelta
from math import ceil

from turfplan.message import Message, Number, Quantity, length_mm
from turfplan.phrases import watering as phrases
from turfplan.records.book_names import FactName, of_family
from turfplan.work.watering.intake import PERCENT
from turfplan.work.watering.request import WEEK, WateredGround, WateringRequest
from turfplan.work.watering.stages import FIRST_WATER, OF_RELAID, Stage


@dataclass(frozen=True, slots=True)
class Need:
    """What a week of a stage asks for: runs a day, water for each, how many days a week, and why.

    `runs` counts those of a day that is watered; `days` is None where every day is. Between two
    watered days lie `gap` days, by choice and at the least, across the weeks of a stage too; None
    where the week alone counts. With `rain_does_it` usual rain leaves nothing to be watered.
    `moist` is the layer that must not dry out, what it gives, and what a sunny day takes: it is
    told with the runs of a day as they are. `why_often` is said where it is watered on more days or
    more often than this asks for.
    """

    runs: int
    depth_mm: float
    days: int | None
    why: Message
    facts: tuple[FactName, ...]
    rain_does_it: bool = False
    gap: tuple[float, float] | None = None
    moist: tuple[Quantity, Quantity, Quantity] | None = None
    why_often: Message | None = None

    def why_of(self, runs: int, *, often: bool) -> Message:
        """Why it is watered, in so many runs a day; `often`: more often than is asked for."""
        if self.moist is not None:
            layer, ready, need = self.moist
            return _why_moist(layer, ready, need, runs)
        return self.why_often if often and self.why_often is not None else self.why


def _why_moist(layer: Quantity, ready: Quantity, need: Quantity, runs: int) -> Message:
    """Why a shallow layer is wet so often, and that it dries between where that is not enough."""
    enough = runs * ready.value >= need.value - 1e-9
    told = phrases.why_moist if enough else phrases.why_moist_less
    return told(layer=layer, ready=ready, need=need, n=runs)


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
    roots_mm = ground.root_depth_mm(start)
    ready, total = ground.soil.ready_mm(roots_mm, use), ground.soil.total_mm(roots_mm)
    often = book.fact("water.weaning_per_week")
    # Between two runs grass may be thirsty, but never without any water that its soil can hold.
    most = max(often.high_si, min(WEEK, ceil(WEEK * net / total - 1e-9)) if total else 0)
    days = round(min(most, max(often.low_si, WEEK * net / ready if ready else most)))
    told = {
        "use": Quantity(WEEK * use, "rain"),
        "rain": Quantity(WEEK * rain, "rain"),
    }
    share = Number(counted, "percent")
    often_told = phrases.why_weaning_often(**told, share=share)
    return Need(
        1,
        WEEK * net / days,
        days,
        phrases.why_weaning(**told, share=share) if days <= often.high_si else often_told,
        (
            "water.weaning_per_week",
            "water.counted_rain_share",
            "water.root_depth",
            "water.root_growth",
            *ground.soil.facts,
        ),
        why_often=often_told,
    )


def _recover_need(ground: WateredGround, start: date, end: date) -> Need:
    """What covered grass uses between two waterings, up to the book's depth, less the rain that is
    counted on."""
    book = ground.request.book
    often = book.fact("water.recover_gap")
    gap = often.si
    rain = gap * book.si("water.counted_rain_share") * ground.mean_rain_mm(start, end)
    use = gap * ground.kc[start.month - 1] * ground.mean_et0_mm(start, end)
    most = book.si("water.recover_depth")
    depth = max(0.0, min(most, use) - rain)
    days, few, many = round(book.si("water.recover_days")), often.low_si, often.high_si
    between = {"fewest": Number(few), "most": Number(many)}
    why = (
        phrases.why_recover_capped(days=days, cap=length_mm(most), **between)
        if use > most
        else phrases.why_recover(days=days, **between)
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
    moist = length_mm(roots_mm), Quantity(ready, "seedbed"), Quantity(need, "seedbed")
    why = _why_moist(*moist, runs)
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
        moist=moist,
    )
