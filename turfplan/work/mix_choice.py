"""Which mix is spread, and what is said of it."""

from collections.abc import Mapping
from dataclasses import dataclass

from turfplan.book.entries import Book, MixChoiceRule
from turfplan.book.words import book_message, grass_name
from turfplan.message import Message, Number, Value, length_mm, listed
from turfplan.phrases import passes as phrases
from turfplan.reckoned_once import reckoned_once
from turfplan.records.book_names import FactName, MixCondition, share_in_mix
from turfplan.site.soil_texture import middle_of
from turfplan.work.feeding.soil_levels import too_alkaline
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.passes import SEEDED
from turfplan.work.soil_layers import beside_the_soil


@dataclass(frozen=True, slots=True)
class MixChoice:
    """The dry mix to spread: id, name, parts by volume, why this one, what it is as a soil."""

    id: str
    name: Message
    parts: Mapping[str, float]
    reason: Message
    cautions: tuple[Message, ...] = ()
    disagreements: tuple[Message, ...] = ()
    facts: tuple[FactName, ...] = ()
    soil: Message | None = None

    @property
    def compost_share(self) -> float:
        """The share of compost by volume."""
        return self.parts.get("compost", 0.0)


def choose_mix(setting: ResolvedLawn) -> MixChoice:
    """The mix for this lawn: what the owner asked for, else by seeding, depth, soil and grass."""
    book, asked = setting.book, setting.brief.leveling
    parts = mix_parts(setting)
    facts: tuple[FactName, ...] = ()
    reason = phrases.mix_asked_for()
    if asked.parts:
        named = (
            phrases.own_part(share=Number(share, "percent"), material=item)
            for item, share in parts.items()
        )
        mix, name = "own", phrases.own_mix(parts=listed(named, "comma"))
    else:
        mix = asked.material
        if mix == "auto":
            mix, reason, facts = _by_rule(setting)
        name = book_message(book, f"mixes.{mix}.name")
    return MixChoice(
        mix,
        name,
        parts,
        reason,
        _warnings(setting, parts),
        _experts(setting, parts),
        facts,
        beside_the_soil(setting, parts) if setting.levelling.bands else None,
    )


def mix_parts(setting: ResolvedLawn) -> Mapping[str, float]:
    """The shares by volume of what is spread.

    The owner's own parts, else those of the mix asked for or chosen.
    """
    asked = setting.brief.leveling
    if asked.parts:
        return dict(asked.parts)
    return _parts(
        setting.book, _choice(setting).mix if asked.material == "auto" else asked.material
    )


def is_straight_sand(setting: ResolvedLawn, parts: Mapping[str, float]) -> bool:
    """Whether a mix behaves as straight sand."""
    return _share(setting.book, parts, "sand") > setting.book.si("topdress.straight_sand")


def mostly_sand(book: Book, soil: str) -> bool:
    """Whether a soil is sand enough that sand over it is no layer of its own."""
    if book.soils[soil].beyond:
        return False
    return middle_of(soil).sand >= book.si("topdress.sand_alike")


def _share(book: Book, parts: Mapping[str, float], kind: str) -> float:
    """The share of one kind of material in a mix."""
    return sum(share for item, share in parts.items() if book.materials[item].kind == kind)


def _by_rule(setting: ResolvedLawn) -> tuple[str, Message, tuple[FactName, ...]]:
    """Mix id, reason and facts by the first choice of the book that holds here."""
    book, choice = setting.book, _choice(setting)
    values: dict[str, Value] = {
        "blend": blend(book, choice.mix),
        "depth": length_mm(setting.levelling.depth_mm),
        "grass": grass_name(book, setting.turf.species.id),
    }
    shares = tuple(share_in_mix(choice.mix, part) for part in _parts(book, choice.mix))
    reason = book_message(book, f"mix_choices.{choice.id}.reason", values)
    return choice.mix, reason, choice.facts or shares


@reckoned_once
def _choice(setting: ResolvedLawn) -> MixChoiceRule:
    """The first choice of the book that holds here."""
    holds = _conditions(setting)
    return next(c for c in setting.book.mix_choices if holds[c.mix].issuperset(c.when))


def sows_on_mix(setting: ResolvedLawn) -> bool:
    """Whether the mix is chosen for the seed that follows its last pass."""
    intent = setting.sowing.intent
    return setting.sowing.operation in SEEDED and intent != "winter_overseed"


def _conditions(setting: ResolvedLawn) -> dict[str, frozenset[MixCondition]]:
    """What holds of this lawn for each mix, in the words of the choices."""
    book, limit = setting.book, setting.book.si("topdress.sand_limit")
    of_lawn: dict[MixCondition, bool] = {
        "open_ground": setting.on_open_ground,
        "seeded": sows_on_mix(setting),
        "beside_water": setting.brief.site.water_body,
        "limed_too_far": too_alkaline(setting.brief, book),
        "shallow": setting.levelling.depth_mm <= limit + 1e-6,
        "deep": setting.levelling.depth_mm > limit,
        "coarse": not book.soils[setting.plot.soil].fine,
        "alike": mostly_sand(book, setting.plot.soil),
    }
    conditions: dict[str, frozenset[MixCondition]] = {}
    for mix in book.mixes.values():
        of_mix: dict[MixCondition, bool] = {
            "soil_suits": setting.plot.soil in mix.soils,
            "habit_suits": setting.turf.species.habit in mix.habits,
        }
        flags = of_lawn | of_mix
        conditions[mix.id] = frozenset(name for name, holds in flags.items() if holds)
    return conditions


# Shares that have a name of their own.
NAMED_SHARES = {1 / 2: phrases.half, 1 / 4: phrases.quarter}


def blend(book: Book, mix: str) -> Message:
    """The parts of a mix: half dry topsoil, half dry fine sand."""
    return blend_of(book, _parts(book, mix))


def blend_of(book: Book, parts: Mapping[str, float]) -> Message:
    """The same of parts by their shares."""
    told = (_part(book, item, share) for item, share in parts.items() if share > 0)
    return phrases.blend(parts=listed(told, "comma"))


def _part(book: Book, item: str, share: float) -> Message:
    material = book_message(book, f"materials.{item}.name")
    if share in NAMED_SHARES:
        return NAMED_SHARES[share](material=material)
    return phrases.share(share=Number(share, "percent"), material=material)


def _parts(book: Book, mix: str) -> dict[str, float]:
    return {item: book.si(share_in_mix(mix, item)) for item in book.mixes[mix].parts}


def _warnings(setting: ResolvedLawn, parts: Mapping[str, float]) -> tuple[Message, ...]:
    warned: list[Message] = []
    straight, limit = is_straight_sand(setting, parts), setting.book.si("topdress.sand_limit")
    compost = _share(setting.book, parts, "compost")
    alike = mostly_sand(setting.book, setting.plot.soil)
    if straight and not alike and setting.levelling.depth_mm > limit + 1e-6:
        warned.append(
            phrases.too_much_sand(
                limit=length_mm(limit),
                depth=length_mm(setting.levelling.depth_mm),
                blend=blend(setting.book, "topsoil_sand"),
            )
        )
    own = setting.book.soils[setting.plot.soil]
    if straight and own.fine and not own.beyond:
        warned.append(phrases.sand_over_clay())
    most = setting.book.si("compost.year_depth_max")
    if compost * setting.levelling.depth_mm > most + 1e-6:
        warned.append(phrases.too_much_compost(depth=length_mm(most)))
    if compost and too_alkaline(setting.brief, setting.book):
        warned.append(phrases.compost_on_high_ph())
    if compost and setting.brief.site.water_body:
        warned.append(phrases.compost_beside_water())
    return tuple(warned)


def _experts(setting: ResolvedLawn, parts: Mapping[str, float]) -> tuple[Message, ...]:
    """On what experts disagree here: sand over a heavy soil, the depth that grass bears."""
    if not setting.levelling.bands:
        return ()
    sand = setting.book.soils[setting.plot.soil].fine and _share(setting.book, parts, "sand")
    told = {"experts_on_sand": sand, "experts_on_depth": not setting.on_open_ground}
    names = (name for name, holds in told.items() if holds)
    return tuple(book_message(setting.book, f"cautions.{name}.text") for name in names)
