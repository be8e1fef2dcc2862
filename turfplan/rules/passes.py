"""How the fill is divided into sessions and passes, and which mix is spread."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from turfplan.agronomy import Book
from turfplan.rules.draft import Pass
from turfplan.rules.layers import beside_the_soil
from turfplan.rules.setting import Setting
from turfplan.units import INCH_MM, System
from turfplan.wording import capital

SEEDED = ("overseed", "seed", "dormant_seed")


@dataclass(frozen=True, slots=True)
class MixChoice:
    """The dry mix to spread: its id and name, the parts by volume, why this one, and what it is as a soil."""

    id: str
    name: str
    parts: Mapping[str, float]
    reason: str
    cautions: tuple[str, ...] = ()
    disagreements: tuple[str, ...] = ()
    facts: tuple[str, ...] = ()
    soil: str = ""

    @property
    def compost_share(self) -> float:
        """The share of compost by volume."""
        return self.parts.get("compost", 0.0)


def choose_mix(setting: Setting) -> MixChoice:
    """The mix for this lawn: what the owner asked for, else by seeding, depth, soil and grass."""
    book, brief = setting.book, setting.brief
    said = _experts_on_sand(setting)
    asked = "The mix is the one asked for in the brief."
    if brief.leveling.parts:
        parts = dict(brief.leveling.parts)
        name = ", ".join(f"{share:.0%} {item}" for item, share in parts.items())
        return _chosen(setting, MixChoice("own", name, parts, asked, _warnings(setting, parts), said))
    if brief.leveling.material != "auto":
        mix, parts = book.mixes[brief.leveling.material], _parts(book, brief.leveling.material)
        return _chosen(setting, MixChoice(mix.id, mix.name, parts, asked, _warnings(setting, parts), said))
    chosen, reason, facts = _by_rule(setting)
    parts = _parts(book, chosen)
    return _chosen(
        setting, MixChoice(chosen, book.mixes[chosen].name, parts, reason, _warnings(setting, parts), said, facts)
    )


def _chosen(setting: Setting, mix: MixChoice) -> MixChoice:
    """The mix with what it is as a soil, beside the soil below."""
    return replace(mix, soil=beside_the_soil(setting, mix.parts)) if setting.bands else mix


def _by_rule(setting: Setting) -> tuple[str, str, tuple[str, ...]]:
    """Mix id, reason and facts by the rules of the trade."""
    book = setting.book
    limit = book.si("topdress.sand_limit")
    blend = capital(blend_words(book, "topsoil_sand"))
    seeded = setting.sowing in SEEDED and setting.intent != "winter_overseed"
    if seeded and setting.brief.site.water_body:
        return (
            "topsoil_sand",
            f"{blend}: seed would take a blend with compost, but beside open water its phosphorus washes off.",
            tuple(f"mixes.topsoil_sand.{part}" for part in _parts(book, "topsoil_sand")),
        )
    if seeded:
        return (
            "topsoil_sand_compost",
            f"Seed goes with it: {blend_words(book, 'topsoil_sand_compost')}; the compost feeds the seedlings.",
            tuple(f"mixes.topsoil_sand_compost.{part}" for part in _parts(book, "topsoil_sand_compost")),
        )
    fine, sandy = book.soils[setting.soil].fine, setting.soil in book.mixes["sand"].soils
    creeping = setting.species.id in book.mixes["sand"].species
    depth = setting.length(setting.depth_mm)
    # Experts disagree on sand over clay: it is left to an owner who asks for it.
    if setting.depth_mm <= limit + 1e-6 and not fine and (sandy or creeping):
        why = "the soil is sandy" if sandy else f"{setting.species.name} creeps and grows up through it"
        return (
            "sand",
            f"Straight sand: {depth} is no more than straight sand may level in all, and {why}.",
            ("topdress.sand_limit",),
        )
    return (
        "topsoil_sand",
        (
            f"{blend}: {depth} is deeper than straight sand may go, so part of it is soil."
            if setting.depth_mm > limit
            else f"{blend}: nearer to the soil below than straight sand, which would sit on it as a foreign layer."
        ),
        tuple(f"mixes.topsoil_sand.{part}" for part in _parts(book, "topsoil_sand")),
    )


SHARES = {1 / 2: "half", 1 / 4: "a quarter"}


def blend_words(book: Book, mix: str) -> str:
    """The parts of a mix in words: half dry topsoil, half dry fine sand."""
    parts = _parts(book, mix)
    return ", ".join(
        f"{SHARES.get(share, f'{share:.0%}')} {book.materials[item].name}" for item, share in parts.items()
    )


def _parts(book: Book, mix: str) -> dict[str, float]:
    return {item: book.si(f"mixes.{mix}.{item}") for item in book.mixes[mix].parts}


def _warnings(setting: Setting, parts: Mapping[str, float]) -> tuple[str, ...]:
    warned: list[str] = []
    sand, limit = parts.get("sand", 0.0), setting.book.si("topdress.sand_limit")
    straight = sand > setting.book.si("topdress.straight_sand")
    if straight and setting.depth_mm > limit + 1e-6:
        warned.append(
            f"Straight sand levels only up to {setting.length(limit)} in all; {setting.length(setting.depth_mm)} of it changes "
            f"the soil: {blend_words(setting.book, 'topsoil_sand')} is safer."
        )
    if straight and setting.book.soils[setting.soil].fine:
        warned.append(
            "Sand over a clay or silt soil is a layer, not an improvement: keep it thin, and never mix a little sand into clay."
        )
    compost_mm = parts.get("compost", 0.0) * setting.depth_mm
    if compost_mm > setting.book.si("compost.year_depth_max") + 1e-6:
        warned.append(
            f"More than {setting.length(setting.book.si('compost.year_depth_max'))} of compost a year overfeeds and softens the surface."
        )
    if parts.get("compost", 0.0) and setting.brief.site.water_body:
        warned.append("Compost is not recommended beside water: its phosphorus washes off. Ask for a mix without it.")
    return tuple(warned)


def _experts_on_sand(setting: Setting) -> tuple[str, ...]:
    if not setting.bands:
        return ()
    return tuple(setting.book.cautions[name].text for name in ("experts_on_sand", "experts_on_depth"))


def low_floor(setting: Setting, seeded: bool) -> tuple[float, tuple[str, ...]]:
    """The height in mm below which no grass of this lawn is cut before a pass, and the facts behind it."""
    floors = {name: setting.book.si(name) for name in _by_grass(setting, "low_cut_floor", seeded)}
    name = max(floors, key=lambda fact: floors[fact])
    return floors[name], (name,)


def _by_grass(setting: Setting, fact: str, seeded: bool) -> tuple[str, ...]:
    """The names of a fact for the lawn's grass and that of every zone, in the form for a seeded pass where there is one."""
    names = (f"species.{grass}.{fact}" for grass in (setting.species.id, *setting.zone_grasses))
    return tuple(f"{name}_seeded" if seeded and setting.book.get(f"{name}_seeded") else name for name in names)


def pass_cap(setting: Setting, seeded: bool) -> tuple[float, str, tuple[str, ...]]:
    """The deepest pass this turf bears, in mm: the least of the hard cap, the habit's, a third of the height, thin turf's."""
    book, species = setting.book, setting.species.id
    hard = "passes.hard_cap"
    limits = [(book.si(hard), "more is never spread at one time", hard)]
    if not setting.living:
        depth, why, fact = limits[0]
        return depth, why, (fact,)
    # A zone that is filled all over is no hollow with standing grass around it.
    hollow = setting.covered_share < 1.0 and not any(zone.depth_mm for zone in setting.zones)
    if not hollow:
        for habit in _by_grass(setting, "pass_cap", seeded):
            grass = book.species[habit.split(".")[1]].name
            limits.append((book.si(habit), f"the most {grass} grows through", habit))
        slow = setting.condition in ("thin", "patchy") or setting.thatch_mm > book.si("dethatch.limit")
        if slow and not seeded:
            limits.append((book.si("passes.thin_cap"), "thin or thatchy turf takes no more", "passes.thin_cap"))
        elif not seeded and (shaded := setting.shaded_zones):
            limits.append(
                (book.si("passes.thin_cap"), f"shaded turf ({', '.join(shaded)}) takes no more", "passes.thin_cap")
            )
    if species not in book.campaigns["summer"].strong:
        floor, facts = low_floor(setting, seeded)
        limits.append(
            (floor * book.si("passes.height_share"), "a third of the height left after the low cut", facts[0])
        )
    depth, why, fact = min(limits, key=lambda limit: limit[0])
    return depth, why, (fact,)


def sessions_needed(setting: Setting) -> int:
    """How many sessions of growth the fill asks for (0 when nothing is filled)."""
    depth = setting.mean_fill_mm
    if depth <= 0:
        return 0
    if not setting.living:
        # No grass has to grow through it: the layers follow each other as they settle.
        return 1
    book = setting.book
    strong = setting.species.id in book.campaigns["summer"].strong
    one = book.si("campaign.fill_strong_summer" if strong else "campaign.fill_one_session")
    if depth <= one + 1e-6:
        return 1
    each = max(book.si("campaign.fill_two_sessions") / 2, one)
    return max(2, math.ceil(depth / each - 1e-9))


def plan_passes(setting: Setting, room: Sequence[int], seeded_last: bool) -> tuple[Pass, ...]:
    """Divides the fill into the fewest passes within their caps, and those over the sessions by the room each has.

    `room` is how many passes each session has time for. The depths are ones that people can measure (1/8 in or 1 mm) and
    add up to the whole; the last pass takes the rest.
    """
    if not setting.bands or not room:
        return ()
    plain, plain_why, plain_facts = pass_cap(setting, seeded=False)
    last, last_why, last_facts = pass_cap(setting, seeded=True) if seeded_last else (plain, plain_why, plain_facts)
    depths = _depths(setting.depth_mm, len(room), plain, last, _step(setting))
    sessions = _sessions(len(depths), room)
    passes: list[Pass] = []
    done = 0.0
    for number, (depth, session) in enumerate(zip(depths, sessions, strict=True), 1):
        is_last = number == len(depths)
        volume = sum(
            band.share * setting.area_m2 * max(0.0, min(depth, band.depth_mm - done)) / 1000 for band in setting.bands
        )
        passes.append(
            Pass(
                number, session, depth, volume, seeded_last and is_last,
                last if is_last else plain, last_why if is_last else plain_why, last_facts if is_last else plain_facts,
                _by_zone(setting, depth, done),
            )
        )  # fmt: skip
        done += depth
    return tuple(passes)


def _by_zone(setting: Setting, depth_mm: float, done_mm: float) -> tuple[tuple[str, float], ...]:
    """What each named zone takes of one pass, settled m3; zones that are full already take nothing."""
    found: dict[str, float] = {}
    for band in setting.bands:
        if band.zone is not None and (layer := min(depth_mm, band.depth_mm - done_mm)) > 1e-9:
            found[band.zone] = found.get(band.zone, 0.0) + band.share * setting.area_m2 * layer / 1000
    return tuple(found.items())


def _step(setting: Setting) -> float:
    return INCH_MM / 8 if setting.system is System.US else 1.0


def _depths(total: float, least: int, plain: float, last: float, step: float) -> list[float]:
    """Depths of the fewest passes (at least `least`, where the total has that many) that carry the total, even as far as measuring allows."""
    count = least + max(0, math.ceil((total - (least - 1) * plain - last) / plain - 1e-9))
    # Thinner than half of what the turf bears is not worth a pass: a fill that small asks for fewer of them.
    thinnest = math.ceil(plain / 2 / step - 1e-9) * step
    each = min(plain, max(thinnest, math.floor(total / count / step + 0.5 + 1e-6) * step))
    if total - (count - 1) * each > last + 1e-6:
        # Rounding down left too much for the last pass: the others go to what they may bear.
        each = min(plain, (total - last) / (count - 1)) if count > 1 else each
    depths: list[float] = []
    left = total
    while len(depths) < count - 1 and left > each + 1e-6:
        depths.append(each)
        left -= each
    return [*depths, left]


def _sessions(count: int, room: Sequence[int]) -> list[int]:
    """The session of each pass: one in each, the others where most room is left, earlier sessions first."""
    places = [1] * len(room)
    for _ in range(count - len(room)):
        free = [r - p for r, p in zip(room, places, strict=True)]
        places[free.index(max(free))] += 1
    return [number for number, held in enumerate(places, 1) for _ in range(held)][:count]
