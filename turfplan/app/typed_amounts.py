"""Reads amounts, parts and measured values as somebody typed them into an entry."""

import re

from turfplan.errors import Problem, TurfplanError, did_you_mean, one_of
from turfplan.phrases import journal as phrases
from turfplan.phrases import slips as slip_phrases
from turfplan.records.journal import MeasuredQuantity
from turfplan.units import dimension_of, inside_unit, parse_quantity

MEASURED: dict[MeasuredQuantity, str] = {
    "soil_temperature": "temperature",
    "rain": "length",
    "grass_height": "length",
    "depth_missing": "length",
    "germination": "share",
    "seed_washed": "share",
    "animals": "share",
    "live_cause": "share",
    "cause_left": "share",
    "grubs": "per_area",
    "tips_buried": "share",
    "burned": "share",
    "heat_stress": "share",
    "sickness": "share",
    "weed_killer": "share",
    "green_up": "share",
    "heap_wet": "share",
    "water_ban": "days",
}


# "5 per ft2", "50 grubs/m2", "5 in a square foot".
_COUNTED = re.compile(
    r"(\d+(?:\.\d+)?)\s*(?:grubs?)?\s*(?:per|in a|a|/)\s*"
    r"(ft|m|square foot|sq ft|square met(?:re|er))(?:2|²)?",
    re.IGNORECASE,
)


def _per_area(text: str) -> str:
    """How many on an area, as people count them; another spelling as it is."""
    found = _COUNTED.fullmatch(text.strip())
    if found is None:
        return text
    return f"{found[1]} 1/{'m2' if 'm' in found[2].lower() else 'ft2'}"


def amount_of(text: str | None) -> tuple[float | None, str | None]:
    """An amount as typed, in SI with its unit: volume in m3, mass in kg or area in m2.

    Raises TurfplanError.
    """
    if text is None:
        return None, None
    unit = text.strip().lstrip("+-0123456789./ ")
    dimension = dimension_of(unit)
    if dimension not in ("volume", "mass", "area"):
        raise TurfplanError(
            Problem("--amount", phrases.not_an_amount(), repr(text), phrases.for_example())
        )
    return parse_quantity(text, dimension), inside_unit(dimension)


def share_of(text: str) -> float:
    """The part of a task as typed: 0.5, 1/2 or 50 %.

    Raises TurfplanError for what is no part of a whole.
    """
    try:
        share = parse_quantity(text, "share")
    except TurfplanError as error:
        raise error.located("--share") from None
    if not 0 < share <= 1:
        whole = slip_phrases.whole_share(value=text)
        raise TurfplanError(Problem("--share", whole, None, None, slip_phrases.share_example()))
    return share


def measure_of(quantity: str, text: str) -> tuple[MeasuredQuantity, float, str]:
    """A measured quantity as typed, with its value in the inside unit and that unit.

    Raises TurfplanError.
    """
    known = next((name for name in MEASURED if name == quantity), None)
    if known is None:
        hint = did_you_mean(quantity, MEASURED)
        raise TurfplanError(
            Problem("QUANTITY", phrases.not_known(), quantity, one_of(MEASURED), hint)
        )
    if MEASURED[known] == "per_area":
        text = _per_area(text)
    try:
        return known, parse_quantity(text, MEASURED[known]), inside_unit(MEASURED[known])
    except TurfplanError as error:
        raise error.located("VALUE") from None
