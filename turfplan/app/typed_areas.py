"""Reads an area as somebody typed what they measured or paced off: two sides, a triangle, or a sum
of such pieces: "60 x 70 ft", "triangle 18 x 12 m", "11 strides by 6 and 4 by 4"."""

import re
from dataclasses import dataclass

from turfplan.errors import TurfplanError
from turfplan.files.reading.book import load_book
from turfplan.units import from_inside, parse_quantity

MM2_IN_M2 = 1e6
_NUMBER = r"\d+(?:\.\d+)?"
_UNIT = r"[^\d\s×*/]+"
_SIDES = re.compile(
    rf"({_NUMBER})\s*({_UNIT}?)?\s*(?:x|×|\*|by|times)\s*({_NUMBER})\s*({_UNIT})?", re.IGNORECASE
)
_JOINED = re.compile(r"\s*(?:\+|&|\b(?:and|plus)\b)\s*(?:another\s+|an?\s+)?", re.IGNORECASE)
_TRIANGLE = re.compile(
    r"\s*\b(?:(?:an?|1)\s+)?triang(?:le|ular)\b(?:\s+of\b)?[\s:,]*", re.IGNORECASE
)
_HALVED = re.compile(r"\s*(?:/\s*2|÷\s*2|halved)$", re.IGNORECASE)
_STRIDES = re.compile(r"(?:long\s)?(?:strides?|paces?|steps?)", re.IGNORECASE)
_METRIC = re.compile(r"(?:mm|cm|m|met.*)", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class _TypedPiece:
    """A rectangle by its sides as typed, or a triangle by its base and its height; what has no unit
    takes that of the pieces beside it."""

    sides: tuple[str, str]
    units: tuple[str | None, str | None]
    triangle: bool

    def area_mm2(self, unit: str) -> float:
        """The area with a unit where a side has none; raises TurfplanError for one that is none."""
        own = self.units[0] or self.units[1] or unit, self.units[1] or self.units[0] or unit
        length, width = (_length_mm(n, u) for n, u in zip(self.sides, own, strict=True))
        return length * width / (2 if self.triangle else 1)


def area_of_pieces(typed: str) -> str | None:
    """An area in the words of a brief; a number alone where no unit was said, and None for what is
    no sum of pieces."""
    pieces = [_piece(part) for part in _JOINED.split(typed.strip())]
    read = [piece for piece in pieces if piece is not None]
    if len(read) < len(pieces):
        return None
    units = [unit for piece in read for unit in piece.units if unit]
    if not units:
        return read[0].sides[0]  # what is missing is a unit
    try:
        area = sum(piece.area_mm2(units[0]) for piece in read)
    except TurfplanError:
        return None
    metric = _METRIC.fullmatch(units[0]) or _STRIDES.fullmatch(units[0])
    written = "m2" if metric else "ft2"
    return f"{from_inside(area / MM2_IN_M2, written, 'area'):.6g} {written}"


def _piece(part: str) -> _TypedPiece | None:
    bare = _TRIANGLE.sub(" ", part)
    whole = _HALVED.sub("", bare).strip()
    found = _SIDES.fullmatch(whole)
    if found is None:
        return None
    first, own, second, unit = found.groups()
    # A triangle that is halved by whoever types it is halved once.
    triangle = bare != part or whole != bare.strip()
    return _TypedPiece((first, second), (own or None, unit or None), triangle)


def _length_mm(number: str, unit: str) -> float:
    if _STRIDES.fullmatch(unit):
        return float(number) * load_book().si("by_hand.stride")
    return parse_quantity(f"{number} {unit}", "length")
