"""Sets the text of a printed page: fractions as one sign, no break between a number and its unit or
within a date.

It works on the finished page, on what stands between tags alone, so that every sheet is set alike
and nothing of it gets into a calendar, a table or plan.json.
"""

import re
from collections.abc import Callable, Iterable, Iterator
from functools import lru_cache

from turfplan.messages import Words
from turfplan.units import pretty_units

NO_BREAK = "\u00a0"
# Stands where a line must not break although nothing is between: after the stroke of a rate.
JOINER = "\u2060"
FRACTIONS = {
    "1/2": "½",
    "1/3": "⅓",
    "2/3": "⅔",
    "1/4": "¼",
    "3/4": "¾",
    "1/8": "⅛",
    "3/8": "⅜",
    "5/8": "⅝",
    "7/8": "⅞",
    # Those without a sign of their own are set of raised and lowered figures.
    "1/16": "¹⁄₁₆",
    "3/16": "³⁄₁₆",
    "5/16": "⁵⁄₁₆",
    "7/16": "⁷⁄₁₆",
    "9/16": "⁹⁄₁₆",
    "11/16": "¹¹⁄₁₆",
    "13/16": "¹³⁄₁₆",
    "15/16": "¹⁵⁄₁₆",
    "1/32": "¹⁄₃₂",
}
# What is set as it was typed.
AS_TYPED = frozenset({"style", "script", "code", "pre", "textarea"})
# A tag is known as one of them by so many signs: two before the name, one after it.
LONGEST_NAME = max(map(len, AS_TYPED)) + 3
# So many texts and tags are kept as they were set.
KEPT = 4096
# A page is set in blocks of so many signs.
BLOCK = 16_384
_TAG = re.compile(r"(<[^>]*>)")
_DIGIT = re.compile("[0-9]")
_NAME = re.compile(r"</?([a-zA-Z0-9]+)")
_FRACTION = re.compile(r"(?:(?<=\d) )?(?<![\d/.,])(\d{1,2}/\d{1,2})(?![\d/])")
# Units that have no row in the tables of units: of time, of chemistry, and the share.
OTHER_UNITS = ("%", "h", "am", "pm", "ppm", "dS/m", "oz", "in²", "hPa", "psi")


def typeset(page: str, words: Words) -> str:
    """A finished page with its text set for print in the language of its reader."""
    return "".join(typeset_pieces((page,), words))


def typeset_pieces(written: Iterable[str], words: Words) -> Iterator[str]:
    """A page that is written piece by piece, wherever one ends, set for print as it comes: never
    all of its texts and tags are held beside it."""
    set_text, typed, rest = _setter(words), 0, ""
    for block in _blocks(written):
        # What a tag has not ended yet goes on in the next block.
        *pieces, rest = _TAG.split(rest + block)
        # Texts and tags take turns.
        for place in range(0, len(pieces), 2):
            text, tag = pieces[place], pieces[place + 1]
            if not typed and text and _has_figure(text):
                pieces[place] = set_text(text)
            typed += _typed_by(tag[:LONGEST_NAME], tag.endswith("/>"))
        yield "".join(pieces)
    yield rest if typed else set_text(rest)


def _blocks(written: Iterable[str]) -> Iterator[str]:
    """Pieces joined to blocks of so many signs that setting one is worth its while."""
    held: list[str] = []
    signs = 0
    for piece in written:
        held.append(piece)
        signs += len(piece)
        if signs >= BLOCK:
            yield "".join(held)
            held.clear()
            signs = 0
    yield "".join(held)


@lru_cache(maxsize=KEPT)
def _typed_by(beginning: str, closed: bool) -> int:
    """1 for a tag that begins what is set as it was typed, -1 for one that ends it, else 0; by its
    beginning and whether it is closed in itself.
    """
    name = _NAME.match(beginning)
    if name is None or name[1].lower() not in AS_TYPED or closed:
        return 0
    return -1 if beginning.startswith("</") else 1


def _has_figure(text: str) -> bool:
    """Whether anything in a text can be set: most texts of a page hold no figure."""
    return _DIGIT.search(text) is not None if text.isascii() else any(map(str.isdigit, text))


@lru_cache(maxsize=8)
def _setter(words: Words) -> Callable[[str], str]:
    """What sets a text; pages say much again and again, and so do those of many lawns."""
    units, dates = _units(), _dates(words)

    @lru_cache(maxsize=KEPT)
    def set_text(text: str) -> str:
        text = _FRACTION.sub(lambda found: FRACTIONS.get(found[1], found[0]), text)
        text = dates.sub(lambda found: found[0].replace(" ", NO_BREAK), text)
        return units.sub(_joined, text)

    return set_text


def _joined(found: re.Match[str]) -> str:
    """An amount in one piece."""
    return found[0].replace(" ", NO_BREAK).replace("/", f"/{JOINER}")


@lru_cache(maxsize=1)
def _units() -> re.Pattern[str]:
    """A figure with the unit that follows it, and the sign of what a rate is of."""
    names = sorted({*pretty_units(), *OTHER_UNITS}, key=len, reverse=True)
    signs = "|".join(map(re.escape, names))
    figure = "[\\d" + "".join(FRACTIONS.values()) + "]"
    return re.compile(rf"({figure}) ({signs})(?![\w²³])(?:(?<=[²³]) [NPK](?!\w))?")


@lru_cache(maxsize=8)
def _dates(words: Words) -> re.Pattern[str]:
    """A day with its month, and the weekday before and the year after where they are there."""
    months = "|".join(
        re.escape(words.catalog.template(f"month.{form}.{n}"))
        for n in range(1, 13)
        for form in ("full", "short")
    )
    weekdays = "|".join(re.escape(words.catalog.template(f"weekday.{n}")) for n in range(7))
    day = rf"(?:(?:{months}) \d{{1,2}}|\d{{1,2}}\.? (?:{months}))"
    return re.compile(rf"(?<!\w)(?:(?:{weekdays}),? )?{day}(?!\w)(?:,? \d{{4}}(?!\d))?")
