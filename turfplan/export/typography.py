"""Sets the text of a printed page: fractions as one sign, no break between a number and its unit or
within a date.

It works on the finished page, on what stands between tags alone, so that every sheet is set alike
and nothing of it gets into a calendar, a table or plan.json.
"""

import re
from collections.abc import Callable, Iterator
from functools import lru_cache

from turfplan.messages import Words
from turfplan.units import pretty_units

NO_BREAK = "\u00a0"
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
}
# What is set as it was typed.
AS_TYPED = frozenset({"style", "script", "code", "pre", "textarea"})
_TAG = re.compile(r"(<[^>]*>)")
_NAME = re.compile(r"</?([a-zA-Z0-9]+)")
_FRACTION = re.compile(r"(?:(?<=\d) )?(?<![\d/.,])(\d/\d)(?![\d/])")
# Units that have no row in the tables of units: of time, of chemistry, and the share.
OTHER_UNITS = ("%", "h", "am", "pm", "ppm", "dS/m", "oz", "in²", "hPa", "psi")


def typeset(page: str, words: Words) -> str:
    """A finished page with its text set for print in the language of its reader."""
    return "".join(_pieces(page, _setter(words)))


def _pieces(page: str, set_text: Callable[[str], str]) -> Iterator[str]:
    typed = 0
    for n, piece in enumerate(_TAG.split(page)):
        if n % 2 == 0:
            yield piece if typed else set_text(piece)
            continue
        name = _NAME.match(piece)
        if name is not None and name[1].lower() in AS_TYPED and not piece.endswith("/>"):
            typed += -1 if piece.startswith("</") else 1
        yield piece


def _setter(words: Words) -> Callable[[str], str]:
    units, dates = _units(), _dates(words)

    def set_text(text: str) -> str:
        if not any(map(str.isdigit, text)):
            return text
        text = _FRACTION.sub(lambda found: FRACTIONS.get(found[1], found[0]), text)
        text = dates.sub(lambda found: found[0].replace(" ", NO_BREAK), text)
        return units.sub(lambda found: found[0].replace(" ", NO_BREAK), text)

    return set_text


@lru_cache(maxsize=1)
def _units() -> re.Pattern[str]:
    """A figure with the unit that follows it."""
    names = sorted({*pretty_units(), *OTHER_UNITS}, key=len, reverse=True)
    signs = "|".join(map(re.escape, names))
    figure = "[\\d" + "".join(FRACTIONS.values()) + "]"
    return re.compile(rf"({figure}) ({signs})(?![\w²³])")


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
