"""The only place where a unit is converted.

Inside turfplan every number is in the unit of its dimension below (the suffix its name ends in); people write and read
US customary or metric. An unknown unit, or a unit of another dimension, is an error.
"""

import math
import re
from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from functools import lru_cache

from turfplan.errors import Problem, TurfplanError, nearest


class System(StrEnum):
    """The units a person reads and writes."""

    US = "us"
    METRIC = "metric"


# Exact definitions (international yard and pound, US gallon), NIST Handbook 44, Appendix C.
INCH_MM = 25.4
FOOT_M = 0.3048
SQUARE_FOOT_M2 = FOOT_M**2
CUBIC_YARD_M3 = (3 * FOOT_M) ** 3
POUND_KG = 0.45359237
GALLON_L = 3.785411784
THOUSAND_SQUARE_FEET_M2 = 1000 * SQUARE_FOOT_M2
LB_PER_1000FT2_G_M2 = POUND_KG * 1000 / THOUSAND_SQUARE_FEET_M2
SHORT_TON_KG = 2000 * POUND_KG
HECTARE_M2 = 10_000.0
ACRE_M2 = 43_560 * SQUARE_FOOT_M2
FREEZING_F = 32.0
FAHRENHEIT_PER_CELSIUS = 1.8

# dimension -> (unit of the inside, {written unit: size in that unit}); temperatures are treated apart.
_DIMENSIONS: dict[str, tuple[str, dict[str, float]]] = {
    "length": (
        "mm",
        {"mm": 1, "cm": 10, "m": 1000, "km": 1e6, "in": INCH_MM, "ft": 304.8, "yd": 914.4, "mi": 1609344.0},
    ),
    "area": (
        "m2",
        {
            "m2": 1, "ft2": SQUARE_FOOT_M2, "yd2": 9 * SQUARE_FOOT_M2, "acre": ACRE_M2, "acres": ACRE_M2,
            "ha": HECTARE_M2, "1000ft2": THOUSAND_SQUARE_FEET_M2, "in2": INCH_MM**2 / 1e6, "cm2": 1e-4,
        },
    ),
    "volume": (
        "m3",
        {
            "m3": 1, "yd3": CUBIC_YARD_M3, "ft3": FOOT_M**3, "L": 1e-3, "l": 1e-3, "gal": GALLON_L / 1000,
            "mL": 1e-6, "ml": 1e-6,
        },
    ),
    "mass": (
        "kg",
        {"kg": 1, "g": 1e-3, "t": 1000, "tonnes": 1000, "lb": POUND_KG, "lbs": POUND_KG, "oz": POUND_KG / 16,
         "ton": SHORT_TON_KG, "tons": SHORT_TON_KG, "cwt": 100 * POUND_KG},
    ),
    "areal_mass": (
        "g/m2",
        {"g/m2": 1, "kg/m2": 1000, "kg/ha": 0.1, "lb/1000ft2": LB_PER_1000FT2_G_M2, "lb/ft2": LB_PER_1000FT2_G_M2 * 1000,
         "lb/acre": POUND_KG * 1000 / ACRE_M2, "oz/1000ft2": LB_PER_1000FT2_G_M2 / 16, "oz/yd2": POUND_KG / 16 * 1000 / (9 * SQUARE_FOOT_M2),
         "kg/100m2": 10, "g/1000ft2": 1 / THOUSAND_SQUARE_FEET_M2},
    ),
    "density": (
        "kg/m3",
        {"kg/m3": 1, "g/cm3": 1000, "t/m3": 1000, "lb/yd3": POUND_KG / CUBIC_YARD_M3, "lb/ft3": POUND_KG / FOOT_M**3,
         "ton/yd3": SHORT_TON_KG / CUBIC_YARD_M3},
    ),
    "water_rate": ("mm/h", {"mm/h": 1, "in/h": INCH_MM, "cm/h": 10, "mm/min": 60, "L/m2/h": 1}),
    "water_depth_rate": ("mm/day", {"mm/day": 1, "in/day": INCH_MM, "mm/week": 1 / 7, "in/week": INCH_MM / 7}),
    "water_capacity": ("mm/m", {"mm/m": 1, "in/ft": INCH_MM / FOOT_M, "in/in": 1000.0, "m3/m3": 1000.0}),
    "flow": ("L/min", {"L/min": 1, "l/min": 1, "L/h": 1 / 60, "m3/h": 1000 / 60, "gpm": GALLON_L, "gal/min": GALLON_L, "gph": GALLON_L / 60}),
    "time": ("min", {"min": 1, "minutes": 1, "h": 60, "hours": 60, "s": 1 / 60}),
    "days": ("day", {"day": 1, "days": 1, "d": 1, "week": 7, "weeks": 7, "month": 30.4375, "months": 30.4375, "years": 365.25, "year": 365.25}),
    "share": ("", {"%": 0.01, "share": 1, "1": 1, "ratio": 1, "": 1}),
    "labour": ("h/m3", {"h/m3": 1, "h/yd3": 1 / CUBIC_YARD_M3}),
    "labour_area": ("h/m2", {"h/m2": 1, "h/1000ft2": 1 / THOUSAND_SQUARE_FEET_M2, "h/ft2": 1 / SQUARE_FOOT_M2, "h/100m2": 0.01}),
    "per_mass": ("1/kg", {"1/kg": 1, "seeds/lb": 1 / POUND_KG, "seeds/kg": 1}),
    "per_area": ("1/m2", {"1/m2": 1, "1/ft2": 1 / SQUARE_FOOT_M2, "1/1000ft2": 1 / THOUSAND_SQUARE_FEET_M2}),
    "degree_days": ("degC day", {"degC day": 1, "degF day": 1 / FAHRENHEIT_PER_CELSIUS}),
    "temperature_difference": ("K", {"K": 1, "degC": 1, "degF": 1 / FAHRENHEIT_PER_CELSIUS}),
    "radiation": ("MJ/m2/day", {"MJ/m2/day": 1, "W/m2": 0.0864}),
    "speed": ("m/s", {"m/s": 1, "km/h": 1 / 3.6, "mph": 0.44704, "m/min": 1 / 60}),
    "pressure": ("kPa", {"kPa": 1, "hPa": 0.1, "mbar": 0.1, "Pa": 0.001, "psi": 6.894757293168}),
    "concentration": ("mg/kg", {"mg/kg": 1, "ppm": 1}),
    "count": ("", {"": 1}),
}  # fmt: skip
_TEMPERATURE = ("C", "F", "degC", "degF", "K")
_SPELLINGS = {
    "inch": "in", "inches": "in", '"': "in", "feet": "ft", "foot": "ft", "'": "ft", "yards": "yd", "yard": "yd",
    "sq ft": "ft2", "sqft": "ft2", "ft^2": "ft2", "ft²": "ft2", "sq m": "m2", "m^2": "m2", "m²": "m2", "sqm": "m2",
    "yd^3": "yd3", "yd³": "yd3", "cu yd": "yd3", "m^3": "m3", "m³": "m3", "cu ft": "ft3", "ft³": "ft3",
    "°C": "C", "°F": "F", "deg C": "C", "deg F": "F", "litres": "L", "liters": "L", "gallons": "gal", "pounds": "lb",
    "lb/1000 ft2": "lb/1000ft2", "lb/1000 sq ft": "lb/1000ft2", "mm/hr": "mm/h", "in/hr": "in/h", "hour": "h",
    "hectare": "ha", "hectares": "ha", "metre": "m", "metres": "m", "meter": "m", "meters": "m", "tonne": "t",
}  # fmt: skip
_QUANTITY = re.compile(
    r"^\s*(?P<number>[-+]?(?:\d+\s+\d+/\d+|\d+/\d+|\d*\.?\d+(?:[eE][-+]?\d+)?|\d+\.))\s*(?P<unit>.*?)\s*$"
)


def dimensions() -> tuple[str, ...]:
    """The names that `parse_quantity` and `convert` accept as a dimension."""
    return (*_DIMENSIONS, "temperature")


def inside_unit(dimension: str) -> str:
    """The unit that numbers of this dimension have inside turfplan."""
    return "C" if dimension == "temperature" else _DIMENSIONS[dimension][0]


def units_of(dimension: str) -> tuple[str, ...]:
    """The units that can be written for this dimension."""
    return _TEMPERATURE if dimension == "temperature" else tuple(_DIMENSIONS[dimension][1])


@lru_cache(maxsize=256)
def _canonical(unit: str) -> str:
    unit = " ".join(unit.split())
    return _SPELLINGS.get(unit, _SPELLINGS.get(unit.lower(), unit))


@lru_cache(maxsize=256)
def dimension_of(unit: str) -> str | None:
    """The dimension a written unit belongs to, or None for an unknown unit."""
    unit = _canonical(unit)
    if unit in ("C", "F"):
        return "temperature"
    return next((name for name, (_, units) in _DIMENSIONS.items() if unit in units), None)


def convert(value: float, unit: str, dimension: str) -> float:
    """`value` in `unit` as the inside unit of `dimension`; raises TurfplanError for a unit that does not belong."""
    unit = _canonical(unit)
    if dimension == "temperature":
        if unit in ("F", "degF"):
            return (value - FREEZING_F) / FAHRENHEIT_PER_CELSIUS
        if unit in ("C", "degC"):
            return value
        if unit == "K":
            return value - 273.15
    elif unit in _DIMENSIONS[dimension][1]:
        return value * _DIMENSIONS[dimension][1][unit]
    known = units_of(dimension)
    other = dimension_of(unit)
    message = f"{unit!r} is a unit of {other.replace('_', ' ')}" if other else f"unknown unit {unit!r}"
    raise TurfplanError(
        Problem(
            "",
            f"{message}, a {dimension.replace('_', ' ')} is needed",
            f"{value:g} {unit}",
            ", ".join(u for u in known if u),
            f"did you mean {near!r}?" if not other and (near := nearest(unit, known)) else None,
        )
    )


def from_inside(value: float, unit: str, dimension: str) -> float:
    """A number in the inside unit of `dimension` as `unit`: the inverse of `convert`."""
    unit = _canonical(unit)
    if dimension == "temperature":
        return value * FAHRENHEIT_PER_CELSIUS + FREEZING_F if unit in ("F", "degF") else value
    return value / _DIMENSIONS[dimension][1][unit]


def parse_quantity(text: object, dimension: str) -> float:
    """A written quantity such as "1 1/2 in" or "4200 ft2" in the inside unit of `dimension`.

    Raises TurfplanError when it is not a text, has no number or no unit, or has a unit of another dimension.
    """
    example = {"temperature": "58 F", "length": "0.5 in", "area": "4200 ft2"}.get(dimension)
    hint = (
        f'write it like "{example}"' if example else f"write a number and one of {', '.join(units_of(dimension)[:6])}"
    )
    if not isinstance(text, str):
        raise TurfplanError(Problem("", "a quantity is a text with a unit", repr(text), None, hint))
    match = _QUANTITY.match(text)
    if not match:
        raise TurfplanError(Problem("", "not a quantity", repr(text), None, hint))
    # The sign of a mixed number belongs to all of it: minus one and a half.
    size = float(sum(Fraction(part) for part in match["number"].lstrip("+-").split()))
    number = -size if match["number"].startswith("-") else size
    if not math.isfinite(number):
        raise TurfplanError(Problem("", "not a finite number", repr(text), None, hint))
    if not match["unit"] and dimension not in ("share", "count"):
        raise TurfplanError(
            Problem("", "a unit is missing", repr(text), ", ".join(u for u in units_of(dimension) if u), hint)
        )
    return convert(number, match["unit"], dimension)


@dataclass(frozen=True, slots=True)
class Measure:
    """A number as a person measures it: rounded, with its unit and the words to print."""

    value: float
    unit: str
    text: str


# What people read: dimension -> (US unit, US step, metric unit, metric step, metric size in inside units).
_READING: dict[str, tuple[str, float, str, float]] = {
    "depth": ("in", 0.125, "mm", 1.0),
    "height": ("in", 0.25, "mm", 5.0),
    "distance": ("ft", 1.0, "m", 1.0),
    "area": ("ft2", 10.0, "m2", 1.0),
    "volume": ("yd3", 0.25, "m3", 0.1),
    "water_volume": ("gal", 10.0, "L", 50.0),
    "mass": ("lb", 1.0, "kg", 0.5),
    "rate": ("lb/1000ft2", 0.05, "g/m2", 0.5),
    "spread_weight": ("lb/1000ft2", 10.0, "kg/m2", 0.5),
    "temperature": ("F", 1.0, "C", 1.0),
    "rain": ("in", 0.05, "mm", 1.0),
    "minutes": ("min", 1.0, "min", 1.0),
    "water_rate": ("in/h", 0.05, "mm/h", 1.0),
}
# Small masses are weighed finer: below this many of the unit, in these steps; great ones coarser, from so many up.
_FINE = {"lb": (5.0, 0.25), "kg": (5.0, 0.1)}
_COARSE = {"lb": (1000.0, 50.0), "kg": (500.0, 10.0), "gal": (10000.0, 100.0), "L": (10000.0, 500.0)}
HAIR = 1e-4  # of a step: far below what anybody can measure
_READING_DIMENSION = {
    "depth": "length", "height": "length", "distance": "length", "rain": "length", "area": "area", "volume": "volume",
    "water_volume": "volume", "mass": "mass", "rate": "areal_mass", "spread_weight": "areal_mass", "temperature": "temperature", "minutes": "time",
    "water_rate": "water_rate",
}  # fmt: skip
_PRETTY = {
    "ft2": "ft²",
    "m2": "m²",
    "yd3": "yd³",
    "m3": "m³",
    "lb/1000ft2": "lb/1,000 ft²",
    "g/m2": "g/m²",
    "kg/m2": "kg/m²",
    "g/cm3": "g/cm³",
    "F": "°F",
    "C": "°C",
    "degC day": "°C days",
    "degF day": "°F days",
}
_EIGHTHS = {0.125: "1/8", 0.25: "1/4", 0.375: "3/8", 0.5: "1/2", 0.625: "5/8", 0.75: "3/4", 0.875: "7/8"}


_ROUNDED: dict[str, Callable[[float], int]] = {
    "nearest": lambda steps: math.floor(steps + 0.5),
    "up": lambda steps: math.ceil(steps - HAIR),
    "down": lambda steps: math.floor(steps + HAIR),
}


def read_as(value: float, kind: str, system: System, rounding: str = "nearest", step: float | None = None) -> Measure:
    """An inside number as a person of `system` measures it.

    `kind` is a key of the reading table (depth, height, area, volume, mass, rate, temperature, ...); `rounding` is
    nearest, up or down: what is bought is rounded up, so that an order is never short. `step` overrides the table's.
    """
    us_unit, us_step, metric_unit, metric_step = _READING[kind]
    unit, default_step = (us_unit, us_step) if system is System.US else (metric_unit, metric_step)
    amount = from_inside(value, unit, _READING_DIMENSION[kind])
    if step is None:
        step = _usual_step(unit, amount, default_step)
    steps = amount / step
    # A hair of error (floats, the six decimals of plan.json) must not push an exact half yard up to the next quarter.
    rounded = _ROUNDED[rounding](steps) * step
    if rounded == 0 and amount > 0 and kind not in ("temperature",):
        # Less than is measured is told by its first digit: 0.2 kg, not 0.237.
        rounded = step if rounding == "up" else float(f"{amount:.1g}")
    return Measure(rounded, unit, f"{format_number(rounded, fractions=unit == 'in')} {_PRETTY.get(unit, unit)}")


def _usual_step(unit: str, amount: float, default: float) -> float:
    """The step in which so much of a unit is measured: finer where there is little of it, coarser where there is much."""
    if unit in _FINE and amount < _FINE[unit][0]:
        return _FINE[unit][1]
    return _COARSE[unit][1] if unit in _COARSE and amount >= _COARSE[unit][0] else default


def format_number(value: float, *, fractions: bool = False) -> str:
    """A number without needless digits; inches in eighths where `fractions` is asked and it is one exactly."""
    if fractions:
        whole, part = divmod(abs(value), 1)
        if part in _EIGHTHS:
            sign = "-" if value < 0 else ""
            return f"{sign}{int(whole)} {_EIGHTHS[part]}" if whole else sign + _EIGHTHS[part]
    if abs(value) >= 1000:
        return f"{value:,.0f}"
    if value == 0 or abs(value) >= 100:
        return f"{value:.0f}"
    return f"{value:.3g}" if abs(value) < 1 else f"{value:.2f}".rstrip("0").rstrip(".")


def pretty_unit(unit: str) -> str:
    """The unit as it is printed, with raised figures."""
    return _PRETTY.get(unit, unit)


_TWINS = {
    "m3": ("yd3", "volume"), "kg": ("lb", "mass"), "m2": ("ft2", "area"), "mm": ("in", "length"), "g/m2": ("lb/1000ft2", "areal_mass"),
    "L": ("gal", "volume"), "mm/h": ("in/h", "water_rate"), "kg/m3": ("lb/yd3", "density"), "C": ("F", "temperature"),
}  # fmt: skip


def us_twin(value: float, unit: str) -> tuple[float, str]:
    """A value in a unit of the plan (m3, kg, m2, mm, g/m2, L, ...) with its customary US twin; min and counts stay."""
    if unit not in _TWINS:
        return value, unit
    twin, dimension = _TWINS[unit]
    return from_inside(convert(value, unit, dimension), twin, dimension), twin
