"""What the mix is as a soil, beside the soil it is spread on.

Whether it is a layer of its own, and what that asks for.
"""

from collections.abc import Mapping
from typing import Final

from turfplan.book.entries import Book
from turfplan.book.words import book_message
from turfplan.message import Message, Number, length_mm, sentences
from turfplan.phrases import soil_layers as phrases
from turfplan.records.book_names import of_material
from turfplan.site.soil_texture import Texture, middle_of, mixed, texture_class
from turfplan.work.lawn import ResolvedLawn

TOPSOIL: Final = "topsoil"
# Shares of sand are told to the nearest twentieth: a soil named by its class is known no better.
A_TWENTIETH = 0.05
# What a mix is on soils that no texture tells.
_BEYOND: Final[Mapping[str, Message]] = {
    "peat": phrases.on_peat(),
    "chalk": phrases.on_chalk(),
    "subsoil": phrases.on_subsoil(),
    "rubble": phrases.on_subsoil(),
}


def beside_the_soil(setting: ResolvedLawn, parts: Mapping[str, float]) -> Message | None:
    """What the mix is by its sand, silt and clay, and what that asks for.

    None where the brief names no soil.

    A material of the book names its own texture; compost has none.
    """
    book = setting.book
    earths = [item for item in parts if book.materials[item].texture]
    if setting.brief.lawn.soil in (None, "unknown") or not earths:
        return None
    if book.soils[setting.plot.soil].beyond:
        return _BEYOND[setting.plot.soil]
    weights = {item: parts[item] * book.si(of_material(item, "density")) for item in earths}
    mix, own = (
        mixed([(_of(setting, item), weight) for item, weight in weights.items()]),
        middle_of(setting.plot.soil),
    )
    made = texture_class(mix)
    soil = _as_one(book, made)
    topsoil = _as_one(book, book.materials[TOPSOIL].texture or "") if TOPSOIL in earths else None
    if made == setting.plot.soil:
        return (
            phrases.like_own_if(soil=soil, topsoil=topsoil)
            if topsoil
            else phrases.like_own(soil=soil)
        )
    shares = {"sand": _sand(mix), "own_sand": _sand(own)}
    your = book_message(book, f"soils.{setting.plot.soil}.name")
    other = (
        phrases.other_if(soil=soil, topsoil=topsoil, own=your, **shares)
        if topsoil
        else phrases.other(soil=soil, own=your, **shares)
    )
    if mix.sand <= own.sand:
        return sentences(other, phrases.ask_for_sand())
    if setting.on_open_ground:
        # It lies on loosened ground: no cores tie it to it, and none need to.
        return sentences(other, phrases.lighter_raked())
    kept = phrases.lighter_topsoil() if topsoil else phrases.lighter()
    return sentences(other, kept, _does_not_loosen(setting, mix, sum(weights.values())))


def _does_not_loosen(setting: ResolvedLawn, mix: Texture, density: float) -> Message | None:
    """What a mix lighter than the soil does not do for it, worked into the top.

    None where it makes it another soil.
    """
    book, deep = setting.book, setting.book.si("topdress.worked_depth")
    below = deep * book.si(of_material(TOPSOIL, "density"))
    after = texture_class(
        mixed([(middle_of(setting.plot.soil), below), (mix, setting.levelling.depth_mm * density)])
    )
    if after != setting.plot.soil or not book.soils[after].fine:
        return None
    return phrases.does_not_loosen(depth=length_mm(deep, kind="height"), soil=_as_one(book, after))


def _of(setting: ResolvedLawn, item: str) -> Texture:
    texture = setting.book.materials[item].texture
    assert texture is not None
    return middle_of(texture)


def _sand(soil: Texture) -> Number:
    return Number(round(soil.sand / A_TWENTIETH) * A_TWENTIETH, "percent")


def _as_one(book: Book, soil: str) -> Message:
    """A soil as a mix is said to be one: a sandy loam."""
    return book_message(book, f"soils.{soil}.as_one")
