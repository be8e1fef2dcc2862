"""What can be seen, felt or measured by somebody who knows no name: a grass by three looks, a soil
by a handful or by what settles in a jar.

A terminal and the page ask the same. The classes of a soil by the length of its ribbon and by how
it rubs are those of S. J. Thien, A flow diagram for teaching texture by feel analysis, Journal of
Agronomic Education 8 (1979); those of layers follow from the triangle of textures.
"""

import math
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from turfplan.book.entries import Book
from turfplan.message import Message, length_mm
from turfplan.phrases import page as phrases
from turfplan.site.soil_texture import Texture, texture_class
from turfplan.units import from_inside

GrassLook = Callable[[Book], Message]


@dataclass(frozen=True, slots=True)
class Looked:
    """What is looked at or felt, under a key, and what can be found: each value with its words, and
    with the name of its drawing where there is one."""

    key: str
    asked: Callable[[], Message]
    kinds: tuple[tuple[str, str, GrassLook], ...]


def _plain(told: Callable[[], Message]) -> GrassLook:
    return lambda _: told()


# By the keys of the brief.
GRASS: tuple[Looked, ...] = (
    Looked(
        "green_in_winter",
        phrases.look_winter,
        (
            ("true", "green", _plain(phrases.look_green)),
            ("false", "straw", _plain(phrases.look_straw)),
        ),
    ),
    Looked(
        "runners",
        phrases.look_runners,
        (
            ("true", "runners", _plain(phrases.look_creeps)),
            ("false", "tufts", _plain(phrases.look_tufts)),
        ),
    ),
    Looked(
        "leaf",
        phrases.look_leaf,
        (
            ("fine", "fine", _plain(phrases.look_fine)),
            ("medium", "medium", _plain(phrases.look_medium)),
            ("broad", "broad", _plain(phrases.look_broad)),
        ),
    ),
)


def _short(book: Book) -> Message:
    return phrases.feel_short(short=length_mm(book.si("by_hand.ribbon_loam")))


def _middle(book: Book) -> Message:
    short, long = book.si("by_hand.ribbon_loam"), book.si("by_hand.ribbon_clay_loam")
    return phrases.feel_middle(short=length_mm(short), long=length_mm(long))


def _long(book: Book) -> Message:
    return phrases.feel_long(long=length_mm(book.si("by_hand.ribbon_clay_loam")))


SOIL: tuple[Looked, ...] = (
    Looked(
        "ribbon",
        phrases.feel_ribbon,
        (
            ("crumbles", "", _plain(phrases.feel_crumbles)),
            ("ball", "", _plain(phrases.feel_ball)),
            ("short", "", _short),
            ("middle", "", _middle),
            ("long", "", _long),
            ("springs", "", _plain(phrases.feel_springs)),
        ),
    ),
    Looked(
        "rubbed",
        phrases.feel_rub,
        (
            ("gritty", "", _plain(phrases.feel_gritty)),
            ("smooth", "", _plain(phrases.feel_smooth)),
            ("neither", "", _plain(phrases.feel_neither)),
        ),
    ),
)
# What a soil is by how it rubs (gritty, smooth, neither), for each ribbon.
_BY_FEEL: Mapping[str, Mapping[str, str]] = {
    "short": {"gritty": "sandy loam", "smooth": "silt loam", "neither": "loam"},
    "middle": {
        "gritty": "sandy clay loam",
        "smooth": "silty clay loam",
        "neither": "clay loam",
    },
    "long": {"gritty": "sandy clay", "smooth": "silty clay", "neither": "clay"},
}
_WITHOUT_RIBBON: Mapping[str, str] = {
    "crumbles": "sand",
    "ball": "loamy sand",
    "springs": "peat",
}
LAYERS: tuple[tuple[str, Callable[[], Message]], ...] = (
    ("sand", phrases.jar_sand),
    ("silt", phrases.jar_silt),
    ("clay", phrases.jar_clay),
)
_HEIGHT = re.compile(r"(\d+(?:[.,]\d+)?)\s*(mm|cm|in|%)?\.?")


def soil_by_feel(found: Mapping[str, str]) -> str | None:
    """The soil by what was felt, under the keys of `SOIL`; None where the ribbon was not tried.
    Who did not rub it has neither."""
    ribbon = found.get("ribbon", "")
    if ribbon in _WITHOUT_RIBBON:
        return _WITHOUT_RIBBON[ribbon]
    by_rubbing = _BY_FEEL.get(ribbon)
    if by_rubbing is None:
        return None
    return by_rubbing.get(found.get("rubbed", ""), by_rubbing["neither"])


def soil_by_jar(heights: Mapping[str, str]) -> str | None:
    """The soil by the heights of its layers as typed, in one unit; None where they cannot be."""
    found = [_HEIGHT.fullmatch(heights.get(name, "").strip()) for name, _ in LAYERS]
    if len({match[2] for match in found if match}) > 1:
        return None
    layers = [float(match[1].replace(",", ".")) for match in found if match]
    whole = math.fsum(layers)
    if len(layers) != len(LAYERS) or not 0 < whole < math.inf:
        return None
    sand, silt, clay = (layer / whole for layer in layers)
    return texture_class(Texture(sand, silt, clay)).replace("_", " ")


def jar_told(book: Book) -> Message:
    """How the jar is made, and when its layers are marked."""
    silt, clay = book.si("by_hand.jar_silt"), book.si("by_hand.jar_clay")
    return phrases.jar_say(
        sand=round(book.si("by_hand.jar_sand")),
        silt=round(from_inside(silt, "h", "time")),
        clay=round(from_inside(clay, "h", "time")),
    )
