"""A sentence that gives each amount twice, in the units of one reader."""

import re
from functools import lru_cache

from turfplan.units import System

_NUMBER = r"\d[\d.,/]*(?: \d+/\d+)?"
_RANGE = rf"{_NUMBER}(?: to {_NUMBER})?"
_TWICE = re.compile(
    rf"(?P<us>(?<![\d/.]){_RANGE} (?:°F|in|ft|yd|lb|gal|lb/yd³)) "
    rf"\((?P<metric>{_RANGE} (?:°C|mm|cm|m|kg|t|L|t/m³))\)"
)


@lru_cache(maxsize=4096)
def in_units(text: str, system: System) -> str:
    """A sentence with each amount in the units of one reader: "3 to 4 in (8 to 10 cm) deep" becomes
    "3 to 4 in deep".

    The book says such amounts in both, the metric ones in brackets.
    """
    return _TWICE.sub(r"\g<us>" if system is System.US else r"\g<metric>", text)
