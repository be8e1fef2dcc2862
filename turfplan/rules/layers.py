"""What the mix is as a soil, beside the soil it is spread on: whether it is a layer of its own, and what that asks for."""

from collections.abc import Mapping

from turfplan.rules.setting import Setting
from turfplan.site.texture import Texture, middle_of, mixed, texture_class

A_TWENTIETH = 0.05  # shares of sand are told to the nearest twentieth: a soil named by its class is known no better


def beside_the_soil(setting: Setting, parts: Mapping[str, float]) -> str:
    """What the mix is by its sand, silt and clay, and what that asks for; empty where the brief names no soil.

    A material of the book names its own texture; compost has none.
    """
    book = setting.book
    earths = [item for item in parts if book.materials[item].texture]
    if setting.brief.lawn.soil is None or not earths:
        return ""
    weights = {item: parts[item] * book.si(f"materials.{item}.density") for item in earths}
    mix, own = mixed([(_of(setting, item), weight) for item, weight in weights.items()]), middle_of(setting.soil)
    made, topsoil = texture_class(mix), "topsoil" in earths
    given = f", if its topsoil is {_a(setting, book.materials['topsoil'].texture)}" if topsoil else ""
    if made == setting.soil:
        return f"As a soil the mix is {_a(setting, made)} like your own{given}: no foreign layer."
    said = (
        f"As a soil the mix is {_a(setting, made)}{given}: about {_share(mix)} sand, where your {book.soils[setting.soil].name} "
        f"has about {_share(own)}."
    )
    if mix.sand <= own.sand:
        return f"{said} Ask for a sandier one: water stands in a heavy layer on a light soil."
    return f"{said} {_what_it_asks_for(setting, mix, sum(weights.values()), topsoil=topsoil)}"


def _what_it_asks_for(setting: Setting, mix: Texture, density: float, *, topsoil: bool) -> str:
    """How a mix lighter than the soil is kept from lying on it as a foreign layer, and what it does not do for the soil."""
    book, deep = setting.book, setting.book.si("topdress.worked_depth")
    said = "A lighter layer dries out first; the cores tie it to the soil below"
    said += ", and the best topsoil for it is the one nearest to your own soil." if topsoil else "."
    below = deep * book.si("materials.topsoil.density")
    after = texture_class(mixed([(middle_of(setting.soil), below), (mix, setting.depth_mm * density)]))
    if after == setting.soil and book.soils[after].fine:
        said += f" It levels and does not loosen: worked into the top {setting.length(deep)}, that would still be {_a(setting, after)}."
    return said


def _of(setting: Setting, item: str) -> Texture:
    texture = setting.book.materials[item].texture
    assert texture is not None
    return middle_of(texture)


def _share(soil: Texture) -> str:
    return f"{round(soil.sand / A_TWENTIETH) * A_TWENTIETH:.0%}"


def _a(setting: Setting, soil: str | None) -> str:
    name = setting.book.soils[soil].name if soil else "soil"
    return f"a {name}" if name.endswith("loam") else name
