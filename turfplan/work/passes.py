"""How the fill is divided into sessions and passes."""

import math
from collections.abc import Iterator, Sequence
from datetime import date
from typing import Literal, NamedTuple

from turfplan.book.citations import who_says
from turfplan.book.words import book_message, grass_name
from turfplan.message import Message, length_mm, listed
from turfplan.phrases import ground_fill as of_ground
from turfplan.phrases import passes as phrases
from turfplan.phrases.light import slow as slow_in_shade
from turfplan.reckoned_once import reckoned_once
from turfplan.records.book_names import (
    FactName,
    NamedFact,
    of_species,
    option_of_family,
    option_of_species,
)
from turfplan.records.fact_names import SpeciesOption
from turfplan.work.drafts import Band, OpenDays, Pass
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.layers import Layers, divided, measurable_mm, sessions_of
from turfplan.work.light import hours_of
from turfplan.work.where_spread import where_spread

SEEDED = ("overseed", "seed", "dormant_seed")


@reckoned_once
def low_floor(setting: ResolvedLawn, seeded: bool) -> tuple[float, tuple[FactName, ...]]:
    """The least height in mm to which this lawn is cut before a pass, and the facts behind it."""
    floors = {
        name: setting.book.si(name) for _, name in _by_grass(setting, "low_cut_floor", seeded)
    }
    name = max(floors, key=lambda fact: floors[fact])
    return floors[name], (name,)


def _by_grass(
    setting: ResolvedLawn, fact: Literal["low_cut_floor", "pass_cap"], seeded: bool
) -> Iterator[tuple[str, NamedFact]]:
    """Every grass that counts in the stand and that of every zone, each with the name of a fact.

    For a seeded pass it is the fact for such a one, where the grass has it.
    """
    when_seeded: SpeciesOption = (
        "low_cut_floor_seeded" if fact == "low_cut_floor" else "pass_cap_seeded"
    )
    for grass in _grasses(setting):
        own = setting.book.known(option_of_species(grass, when_seeded)) if seeded else None
        yield grass, own or of_species(grass, fact)


def _grasses(setting: ResolvedLawn) -> tuple[str, ...]:
    """The grasses that grow through a pass: the main one, those that count, those of zones."""
    own, stand = setting.turf.species.id, setting.turf.stand
    return tuple(dict.fromkeys((own, *stand, *setting.zone_grasses)))


class PassCap(NamedTuple):
    """The deepest pass that a turf bears, settled mm, with what holds it there and its facts."""

    depth_mm: float
    why: Message
    facts: tuple[FactName, ...]


def pass_cap(
    setting: ResolvedLawn, seeded: bool, share: float = 1.0, *, most: bool = False
) -> PassCap:
    """The deepest pass this turf bears on a part that with all deeper ones takes `share` of it.

    The least of the hard cap, the habit's, a third of the height, thin turf's; of a hollow, with
    standing grass around it, less of these hold, and between the two the cap goes over by share.
    """
    rest = _least_cap(setting, seeded)
    if share >= 1.0 or setting.on_open_ground:
        return rest
    known = setting.book.fact("passes.hollow_share")
    if share >= known.high_si:
        return rest
    hollow = _least_hollow_cap(setting, seeded, most)
    if hollow.depth_mm <= rest.depth_mm:
        return rest
    of_hollow = min(1.0, (known.high_si - share) / (known.high_si - known.low_si))
    depth = rest.depth_mm + of_hollow * (hollow.depth_mm - rest.depth_mm)
    return PassCap(depth, hollow.why, (*hollow.facts, "passes.hollow_share"))


@reckoned_once
def _least_cap(setting: ResolvedLawn, seeded: bool) -> PassCap:
    """The limit that holds a pass over the lawn."""
    return min(_caps(setting, seeded), key=lambda cap: cap.depth_mm)


@reckoned_once
def _least_hollow_cap(setting: ResolvedLawn, seeded: bool, most: bool) -> PassCap:
    """The limit that holds a pass in a small hollow."""
    return min(_hollow_caps(setting, seeded, most=most), key=lambda cap: cap.depth_mm)


def _cap(setting: ResolvedLawn, name: FactName, why: Message) -> PassCap:
    return PassCap(setting.book.si(name), why, (name,))


def _caps(setting: ResolvedLawn, seeded: bool) -> Iterator[PassCap]:
    """Every limit on the depth of a pass over the lawn; of equal ones the first is told."""
    if setting.on_open_ground:
        yield _cap(setting, "open_ground.lift_depth", of_ground.cap())
        return
    yield _cap(setting, "passes.hard_cap", phrases.cap_at_one_time())
    for grass, habit in _by_grass(setting, "pass_cap", seeded):
        grows = phrases.cap_grows_through(grass=grass_name(setting.book, grass))
        yield _cap(setting, habit, grows)
    if not seeded and (why := _slow(setting)):
        yield _cap(setting, "passes.thin_cap", why)
    yield from _height_cap(setting, seeded)


def _hollow_caps(setting: ResolvedLawn, seeded: bool, *, most: bool) -> Iterator[PassCap]:
    """Every limit on the depth of a pass in a small hollow, which the grass around it closes."""
    species, kinds = setting.turf.species, setting.book.species
    creeps = all(kinds[grass].creeps for grass in _grasses(setting))
    creeps = creeps and not setting.zone_grasses and _slow(setting) is None
    if creeps and not seeded:
        known = setting.book.fact("passes.hollow_creeper")
        closes = phrases.cap_creeper(grass=grass_name(setting.book, species.id))
        yield PassCap(known.high_si if most else known.si, closes, ("passes.hollow_creeper",))
        return
    yield _cap(setting, "passes.hard_cap", phrases.cap_in_hollow())
    yield from _height_cap(setting, seeded)


def _height_cap(setting: ResolvedLawn, seeded: bool) -> Iterator[PassCap]:
    """A third of the height left, of grass that does not grow out of the deepest cover."""
    strong = setting.book.campaigns["summer"].strong
    if not all(grass in strong for grass in _grasses(setting)):
        floor, facts = low_floor(setting, seeded)
        share = setting.book.si("passes.height_share")
        yield PassCap(floor * share, phrases.cap_height(), facts)


def _slow(setting: ResolvedLawn) -> Message | None:
    """Why grass grows through slowly here (thin or thatchy turf, shade), or None."""
    thatchy = setting.turf.thatch_mm > setting.book.si("dethatch.limit")
    if setting.turf.condition in ("thin", "patchy") or thatchy:
        return phrases.cap_thin_turf()
    if setting.plot.dark_h is not None:
        return slow_in_shade(hours=hours_of(setting.plot.dark_h))
    shaded = setting.plot.shaded
    return phrases.cap_shade(zones=listed(shaded, "comma")) if shaded else None


def sessions_needed(setting: ResolvedLawn) -> int:
    """How many sessions of growth the fill asks for (0 when nothing is filled)."""
    depth = setting.levelling.mean_mm
    if depth <= 0:
        return 0
    if setting.on_open_ground:
        # No grass has to grow through it: the lifts follow each other as they settle.
        return 1
    book = setting.book
    strong = setting.turf.species.id in book.campaigns["summer"].strong
    one = book.si("campaign.fill_strong_summer" if strong else "campaign.fill_one_session")
    if depth <= one + 1e-6:
        return 1
    each = max(book.si("campaign.fill_two_sessions") / 2, one)
    return max(2, math.ceil(depth / each - 1e-9))


def plan_passes(setting: ResolvedLawn, room: Sequence[int], seeded_last: bool) -> tuple[Pass, ...]:
    """Divides the fill into the fewest passes within their caps, and those over the sessions.

    `room` is how many passes each session has time for. The depths are ones that people can measure
    (1/8 in or 1 mm) and add up to the whole; the last pass takes the rest. Each part of the lawn
    is capped by what it gets: where the lawn has its fill, only hollows go on.
    """
    bands = setting.levelling.bands
    if not bands or not room:
        return ()
    caps, (depths, layers) = _divided(setting, len(room), seeded_last)
    if len(depths) > sum(room):
        # What is planned in hollows of strong creepers leaves room up to the most they ever take.
        caps, (depths, layers) = _divided(setting, len(room), seeded_last, most=True)
    sessions = sessions_of(len(depths), room)
    passes: list[Pass] = []
    for number, (depth, layer, session) in enumerate(zip(depths, layers, sessions, strict=True), 1):
        is_last = number == len(depths)
        cap = caps[0].last if is_last else caps[0].plain
        got = [(band, mm) for band, mm in zip(bands, layer, strict=True) if mm > 1e-9]
        passes.append(
            Pass(
                number,
                session,
                depth,
                sum(band.share * mm for band, mm in got) * setting.plot.area_m2 / 1000,
                seeded_last and is_last,
                cap.depth_mm,
                cap.why,
                cap.facts,
                _by_zone(setting, got),
                min(1.0, sum(band.share for band, _ in got)),
                min(layer) if min(layer) < depth - 1e-6 else None,
                where_spread(setting, layer),
            )
        )
    return tuple(passes)


@reckoned_once
def _divided(
    setting: ResolvedLawn, least: int, seeded_last: bool, *, most: bool = False
) -> tuple[tuple["BandCap", ...], Layers]:
    """The caps of the bands, with the depths of the passes and the layers of each."""
    caps = band_caps(setting, seeded_last, most=most)
    limits = [(cap.plain.depth_mm, cap.last.depth_mm) for cap in caps]
    return caps, divided(
        [b.depth_mm for b in setting.levelling.bands], limits, least, measurable_mm(setting.system)
    )


class BandCap(NamedTuple):
    """What a part of the lawn bears of a pass, and of the last one, which may be seeded."""

    plain: PassCap
    last: PassCap


def band_caps(
    setting: ResolvedLawn, seeded_last: bool, *, most: bool = False
) -> tuple[BandCap, ...]:
    """The caps of every band, deepest first; a drawn zone is filled all over and no hollow.

    `most` takes hollows to what is ever spread in one.
    """
    found: list[BandCap] = []
    share = 0.0
    for band in setting.levelling.bands:
        share += band.share
        reach = share if band.zone is None else 1.0
        plain = pass_cap(setting, seeded=False, share=reach, most=most)
        last = pass_cap(setting, seeded=True, share=reach) if seeded_last else plain
        # A seeded pass is no reason to spread less into a hollow than one without seed.
        found.append(BandCap(plain, max(plain, last, key=lambda cap: cap.depth_mm)))
    return tuple(found)


def _by_zone(
    setting: ResolvedLawn, layers: Sequence[tuple[Band, float]]
) -> tuple[tuple[Message, float], ...]:
    """What each named zone takes of one pass, settled m3; a zone that is full takes nothing."""
    found: dict[Message, float] = {}
    for band, layer_mm in layers:
        if band.zone is not None:
            volume = band.share * setting.plot.area_m2 * layer_mm / 1000
            found[band.zone] = found.get(band.zone, 0.0) + volume
    return tuple(found.items())


def passes_needed(setting: ResolvedLawn) -> int:
    """How many passes, each as deep as the turf bears, fill the deepest part; 0 without a fill."""
    caps = band_caps(setting, seeded_last=False)
    each = zip(setting.levelling.bands, caps, strict=True)
    return max(
        (math.ceil(band.depth_mm / cap.plain.depth_mm - 1e-6) for band, cap in each), default=0
    )


def next_dressing(setting: ResolvedLawn, ready: date) -> OpenDays | None:
    """The first window for dressing living turf whose best day is not before `ready`."""
    return next((w for w in setting.open("topdress") if w.best >= ready), None)


def beyond_custom(setting: ResolvedLawn, passes: Sequence[Pass]) -> Message | None:
    """What is told where a pass is deeper than is customary in the lawn's region, else None."""
    book = setting.book
    name = book.known(option_of_family("passes.custom_{region}", book.region))
    deepest = max((p.depth_mm for p in passes), default=0.0)
    if name is None or setting.on_open_ground or deepest <= book.fact(name).high_si + 1e-6:
        return None
    return phrases.beyond_custom(
        region=book_message(book, f"regions.{book.region}.name"),
        most=length_mm(book.fact(name).high_si),
        source=who_says(book, book.fact(name).source),
        depth=length_mm(deepest),
    )
