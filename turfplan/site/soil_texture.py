"""The texture of a soil by its sand, silt and clay, and that of a mix of soils.

The classes are those of the United States Department of Agriculture (Soil Science Division Staff,
Soil Survey Manual, Agriculture Handbook 18, chapter 3, definitions of the soil texture classes);
shares are by weight of the fine earth.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache

from turfplan.errors import Problem, TurfplanError
from turfplan.message import Number
from turfplan.phrases import ground as phrases

TextureRule = Callable[[float, float, float], bool]
# How finely the triangle is walked to find the middle of a class, in parts of the whole.
STEPS = 60


@dataclass(frozen=True, slots=True)
class Texture:
    """Sand, silt and clay as shares that add up to 1."""

    sand: float
    silt: float
    clay: float


def mixed(parts: Sequence[tuple[Texture, float]]) -> Texture:
    """The texture of soils mixed by these weights (in any one unit).

    Compost and water have none and are left out. Raises TurfplanError for weights that hold no
    soil.
    """
    whole = sum(weight for _, weight in parts)
    if whole <= 0:
        raise TurfplanError(Problem(phrases.name_mix(), phrases.fault_no_soil(), f"{whole:g}"))
    return Texture(
        sum(soil.sand * weight for soil, weight in parts) / whole,
        sum(soil.silt * weight for soil, weight in parts) / whole,
        sum(soil.clay * weight for soil, weight in parts) / whole,
    )


@cache
def middle_of(name: str) -> Texture:
    """The middle of a class in the triangle: what a soil of that name holds as far as is known.

    Raises TurfplanError for a name that is no class.
    """
    held = _held().get(name)
    if held is None:
        raise TurfplanError(Problem(phrases.name_texture(), phrases.fault_no_class(), repr(name)))
    return mixed(held)


@cache
def _held() -> Mapping[str, Sequence[tuple[Texture, float]]]:
    """The points of the triangle in each class, in the order of the walk; all weigh the same."""
    held: dict[str, list[tuple[Texture, float]]] = {}
    for sand in range(STEPS + 1):
        for clay in range(STEPS + 1 - sand):
            texture = Texture(sand / STEPS, (STEPS - sand - clay) / STEPS, clay / STEPS)
            held.setdefault(texture_class(texture), []).append((texture, 1.0))
    return held


def texture_class(texture: Texture) -> str:
    """The class of a texture, as `soils.toml` names it.

    Raises TurfplanError for shares that do not add up to 1.
    """
    if (
        min(texture.sand, texture.silt, texture.clay) < 0
        or abs(texture.sand + texture.silt + texture.clay - 1) > 0.01
    ):
        sand, silt, clay = (
            Number(part, "plain") for part in (texture.sand, texture.silt, texture.clay)
        )
        got = phrases.fault_texture(sand=sand, silt=silt, clay=clay)
        raise TurfplanError(Problem(phrases.name_texture(), phrases.fault_texture_sum(), got))
    return next(
        name
        for name, holds in _CLASSES
        if holds(100 * texture.sand, 100 * texture.silt, 100 * texture.clay)
    )


# In this order each class takes what those before it have left; together they fill the triangle.
_CLASSES: tuple[tuple[str, TextureRule], ...] = (
    ("sand", lambda sand, silt, clay: silt + 1.5 * clay < 15),
    ("loamy_sand", lambda sand, silt, clay: silt + 2 * clay < 30),
    ("sandy_loam", lambda sand, silt, clay: (clay < 20 and sand > 52) or (clay < 7 and silt < 50)),
    ("loam", lambda sand, silt, clay: clay < 27 and 28 <= silt < 50 and sand <= 52),
    ("silt", lambda sand, silt, clay: clay < 12 and silt >= 80),
    ("silt_loam", lambda sand, silt, clay: clay < 27 and silt >= 50),
    ("sandy_clay_loam", lambda sand, silt, clay: clay < 35 and silt < 28 and sand > 45),
    ("silty_clay_loam", lambda sand, silt, clay: clay < 40 and sand <= 20),
    ("clay_loam", lambda sand, silt, clay: clay < 40 and sand <= 45),
    ("sandy_clay", lambda sand, silt, clay: sand > 45),
    ("silty_clay", lambda sand, silt, clay: silt >= 40),
    ("clay", lambda sand, silt, clay: True),
)
# The names of the classes.
CLASSES = tuple(name for name, _ in _CLASSES)
