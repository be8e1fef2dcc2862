"""The only place where a unit is converted.

Inside turfplan every number is in the unit of its dimension below (the suffix its name ends in);
people write and read US customary or metric. An unknown unit, or a unit of another dimension, is an
error.
"""

import math
import re
from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from functools import lru_cache

from turfplan.errors import Problem, TurfplanError, did_you_mean, one_of
from turfplan.message import Message
from turfplan.phrases import units as phrases
from turfplan.unit_sizes import CUBIC_YARD_M3 as CUBIC_YARD_M3
from turfplan.unit_sizes import DIMENSIONS, FREEZING_F, SPELLINGS, TEMPERATURE
from turfplan.unit_sizes import FAHRENHEIT_PER_CELSIUS as FAHRENHEIT_PER_CELSIUS
from turfplan.unit_sizes import FOOT_M as FOOT_M
from turfplan.unit_sizes import GALLON_L as GALLON_L
from turfplan.unit_sizes import INCH_MM as INCH_MM
from turfplan.unit_sizes import LB_PER_1000FT2_G_M2 as LB_PER_1000FT2_G_M2
from turfplan.unit_sizes import POUND_KG as POUND_KG
from turfplan.unit_sizes import SQUARE_FOOT_M2 as SQUARE_FOOT_M2
from turfplan.unit_sizes import THOUSAND_SQUARE_FEET_M2 as THOUSAND_SQUARE_FEET_M2


class System(StrEnum):
    """The units a person reads and writes."""

    US = "us"
    METRIC = "metric"


_QUANTITY = re.compile(
    r"^\s*(?P<number>[-+]?(?:\d+\s+\d+/\d+|\d+/\d+|\d+\.(?!\d)|\d*\.?\d+(?:[eE][-+]?\d+)?))"
    r"\s*(?P<unit>.*?)\s*$"
)


def dimensions() -> tuple[str, ...]:
    """The names that `parse_quantity` and `convert` accept as a dimension."""
    return (*DIMENSIONS, "temperature")


def inside_unit(dimension: str) -> str:
    """The unit that numbers of this dimension have inside turfplan."""
    return "C" if dimension == "temperature" else DIMENSIONS[dimension][0]


def units_of(dimension: str) -> tuple[str, ...]:
    """The units that can be written for this dimension."""
    return TEMPERATURE if dimension == "temperature" else tuple(DIMENSIONS[dimension][1])


@lru_cache(maxsize=256)
def _canonical(unit: str) -> str:
    unit = " ".join(unit.split())
    return SPELLINGS.get(unit, SPELLINGS.get(unit.lower(), unit))


@lru_cache(maxsize=256)
def dimension_of(unit: str) -> str | None:
    """The dimension a written unit belongs to, or None for an unknown unit."""
    unit = _canonical(unit)
    if unit in ("C", "F"):
        return "temperature"
    return next((name for name, (_, units) in DIMENSIONS.items() if unit in units), None)


def convert(value: float, unit: str, dimension: str) -> float:
    """`value` in `unit` as the inside unit of `dimension`.

    Raises TurfplanError for a unit that does not belong.
    """
    unit = _canonical(unit)
    if dimension == "temperature":
        if unit in ("F", "degF"):
            return (value - FREEZING_F) / FAHRENHEIT_PER_CELSIUS
        if unit in ("C", "degC"):
            return value
        if unit == "K":
            return value - 273.15
    elif unit in DIMENSIONS[dimension][1]:
        return value * DIMENSIONS[dimension][1][unit]
    raise TurfplanError(_misplaced(value, unit, dimension))


def _misplaced(value: float, unit: str, dimension: str) -> Problem:
    """What is said of a unit that does not belong to the dimension."""
    known, other, needed = units_of(dimension), dimension_of(unit), dimension_name(dimension)
    message = (
        phrases.of_another(unit=repr(unit), other=dimension_name(other), needed=needed)
        if other
        else phrases.unknown(unit=repr(unit), needed=needed)
    )
    hint = None if other else did_you_mean(unit, known)
    return Problem("", message, f"{value:g} {unit}", one_of(u for u in known if u), hint)


def dimension_name(dimension: str) -> Message:
    """What a dimension is called."""
    return Message(f"units.dimension.{dimension}")


def from_inside(value: float, unit: str, dimension: str) -> float:
    """A number in the inside unit of `dimension` as `unit`: the inverse of `convert`."""
    unit = _canonical(unit)
    if dimension == "temperature":
        return value * FAHRENHEIT_PER_CELSIUS + FREEZING_F if unit in ("F", "degF") else value
    return value / DIMENSIONS[dimension][1][unit]


def parse_quantity(text: object, dimension: str) -> float:
    """A written quantity such as "1 1/2 in" or "4200 ft2" in the inside unit of `dimension`.

    Raises TurfplanError when it is not a text, has no number or no unit, or has a unit of another
    dimension.
    """
    hint = _example(dimension)
    if not isinstance(text, str):
        raise TurfplanError(Problem("", phrases.not_text(), repr(text), None, hint))
    match = _QUANTITY.match(text)
    if not match:
        raise TurfplanError(Problem("", phrases.not_quantity(), repr(text), None, hint))
    # The sign of a mixed number belongs to all of it: minus one and a half.
    try:
        size = float(sum(Fraction(part) for part in match["number"].lstrip("+-").split()))
    except (OverflowError, ZeroDivisionError):
        size = math.inf
    number = -size if match["number"].startswith("-") else size
    if not math.isfinite(number):
        raise TurfplanError(Problem("", phrases.not_finite(), repr(text), None, hint))
    if not match["unit"] and dimension not in ("share", "count"):
        allowed = one_of(u for u in units_of(dimension) if u)
        raise TurfplanError(Problem("", phrases.missing(), repr(text), allowed, hint))
    return convert(number, match["unit"], dimension)


def _example(dimension: str) -> Message:
    """How a quantity of a dimension is written."""
    example = {"temperature": "58 F", "length": "0.5 in", "area": "4200 ft2"}.get(dimension)
    if example is None:
        return phrases.write_number(units=one_of(units_of(dimension)[:6]))
    return phrases.write_like(example=example)


@dataclass(frozen=True, slots=True)
class Measure:
    """A number as a person measures it: rounded, with its unit and the words to print."""

    value: float
    unit: str
    text: str


# What people read: dimension -> (US unit, US step, metric unit, metric step, metric size in inside
# units).
_READING: dict[str, tuple[str, float, str, float]] = {
    "depth": ("in", 0.125, "mm", 1.0),
    "height": ("in", 0.25, "mm", 5.0),
    "distance": ("ft", 1.0, "m", 1.0),
    "haul": ("ft", 10.0, "m", 5.0),
    "pace": ("ft", 0.5, "m", 0.1),
    "way": ("mi", 1.0, "km", 1.0),
    "area": ("ft2", 10.0, "m2", 1.0),
    "volume": ("yd3", 0.25, "m3", 0.1),
    "loose": ("yd3", 0.01, "m3", 0.01),
    "water_volume": ("gal", 10.0, "L", 50.0),
    "sprig_volume": ("bu", 0.5, "L", 5.0),
    "sprig_rate": ("bu/1000ft2", 0.5, "L/m2", 0.1),
    "mass": ("lb", 1.0, "kg", 0.5),
    "load": ("ton", 0.1, "t", 0.1),
    "rate": ("lb/1000ft2", 0.05, "g/m2", 0.1),
    "spread_weight": ("lb/1000ft2", 10.0, "kg/m2", 0.5),
    "temperature": ("F", 1.0, "C", 1.0),
    "temperature_difference": ("degF", 1.0, "degC", 1.0),
    "rain": ("in", 0.05, "mm", 1.0),
    "seedbed": ("in", 0.01, "mm", 0.1),
    "minutes": ("min", 1.0, "min", 1.0),
    "water_rate": ("in/h", 0.05, "mm/h", 1.0),
    "flow": ("gpm", 0.5, "L/min", 1.0),
}
# Small masses and waterings are measured finer: below this many of the unit, in these steps; great
# ones coarser, from so many up: a number from a hundred on is told without its decimals.
_FINE = {"lb": (5.0, 0.25), "kg": (5.0, 0.1), "gal": (100.0, 1.0), "L": (500.0, 5.0)}
_COARSE = {
    "lb": ((1000.0, 50.0),),
    "kg": ((500.0, 10.0), (100.0, 1.0)),
    "gal": ((10000.0, 100.0),),
    "L": ((10000.0, 500.0),),
}
HAIR = 1e-4  # of a step: far below what anybody can measure
LAST_DIGIT_KG = 0.0005  # a mass is kept to three decimals, which must not add a pound to it
_READING_DIMENSION = {
    "depth": "length",
    "height": "length",
    "distance": "length",
    "haul": "length",
    "pace": "length",
    "way": "length",
    "rain": "length",
    "seedbed": "length",
    "area": "area",
    "volume": "volume",
    "loose": "volume",
    "water_volume": "volume",
    "sprig_volume": "volume",
    "sprig_rate": "areal_volume",
    "mass": "mass",
    "load": "mass",
    "rate": "areal_mass",
    "spread_weight": "areal_mass",
    "temperature": "temperature",
    "temperature_difference": "temperature_difference",
    "minutes": "time",
    "water_rate": "water_rate",
    "flow": "flow",
}
_PRETTY = {
    "ft2": "ft²",
    "m2": "m²",
    "yd3": "yd³",
    "m3": "m³",
    "lb/1000ft2": "lb/1,000 ft²",
    "bu/1000ft2": "bu/1,000 ft²",
    "L/m2": "L/m²",
    "g/m2": "g/m²",
    "kg/m2": "kg/m²",
    "g/cm3": "g/cm³",
    "ton": "tons",
    "F": "°F",
    "C": "°C",
    "degF": "°F",
    "degC": "°C",
    "degC day": "°C days",
    "degF day": "°F days",
}
# The finest division of a ruler, of an inch: thin layers are read in it, thick ones in eighths.
RULER_IN = 1 / 16


_ROUNDED: dict[str, Callable[[float], int]] = {
    "nearest": lambda steps: math.floor(steps + 0.5),
    "up": lambda steps: math.ceil(steps - HAIR),
    "down": lambda steps: math.floor(steps + HAIR),
}


def read_as(
    value: float, kind: str, system: System, rounding: str = "nearest", step: float | None = None
) -> Measure:
    """An inside number as a person of `system` measures it.

    `kind` is a key of the reading table (depth, height, area, volume, mass, rate, temperature,
    ...); `rounding` is nearest, up or down: what is bought is rounded up, so that an order is never
    short. `step` overrides the table's.
    """
    us_unit, us_step, metric_unit, metric_step = _READING[kind]
    unit, default_step = (us_unit, us_step) if system is System.US else (metric_unit, metric_step)
    amount = from_inside(value, unit, _READING_DIMENSION[kind])
    if step is None:
        thin = kind == "depth" and unit == "in" and us_step <= amount < 1
        fine = thin and rounding == "nearest"
        step = RULER_IN if fine else _usual_step(unit, amount, default_step)
        if kind in ("volume", "loose") and in_small_bags(amount, unit):
            step = HALF_HUNDREDTH
    steps = amount / step
    if kind == "mass" and rounding == "up":
        steps -= from_inside(LAST_DIGIT_KG, unit, "mass") / step
    # A hair of error (floats, the decimals of plan.json) must not push an exact half yard up to the
    # next quarter.
    rounded = _ROUNDED[rounding](steps) * step
    if rounded == 0 and amount > 0 and kind not in ("temperature", "temperature_difference"):
        # Less than is measured is told by its first digit: 0.2 kg, not 0.237.
        rounded = step if rounding == "up" else float(f"{amount:.1g}")
    if kind == "load":
        # Told to a tenth, also where that is nought: a weighbridge says 5.0.
        return Measure(round(amount, 1), unit, f"{amount:.1f} {_PRETTY.get(unit, unit)}")
    on_a_tape = unit in ("in", "ft")
    number = format_volume(rounded, unit) or format_number(rounded, fractions=on_a_tape)
    return Measure(rounded, unit, f"{number} {_PRETTY.get(unit, unit)}")


def mass_step(mass: Measure) -> float:
    """The step in which so much of a mass is measured, in its own unit."""
    return _usual_step(mass.unit, mass.value, 1.0 if mass.unit == "lb" else 0.5)


def _usual_step(unit: str, amount: float, default: float) -> float:
    """The step in which so much of a unit is measured: finer for little, coarser for much."""
    if unit in _FINE and amount < _FINE[unit][0]:
        return _FINE[unit][1]
    return next((step for least, step in _COARSE.get(unit, ()) if amount >= least), default)


def format_number(value: float, *, fractions: bool = False) -> str:
    """A number without needless digits.

    As a ruler has it, in halves to sixteenths, where `fractions` is asked and it is one exactly.
    """
    if fractions:
        whole, part = divmod(abs(value), 1)
        if part and (part / RULER_IN).is_integer():
            sign, told = "-" if value < 0 else "", str(Fraction(part))
            return f"{sign}{int(whole)} {told}" if whole else sign + told
    if abs(value) >= 1000:
        return f"{value:,.0f}"
    if value == 0 or abs(value) >= 100:
        return f"{value:.0f}"
    return f"{value:.3g}" if abs(value) < 1 else f"{value:.2f}".rstrip("0").rstrip(".")


# Litres of small bags in cubic metres.
HALF_HUNDREDTH = 0.005


def format_volume(value: float, unit: str) -> str | None:
    """Cubic yards and metres with every hundredth that they are kept in, however many they are:
    what is added up on paper must come out. Bags of 5 L make half hundredths of a cubic metre, and
    are told with them. None for another unit.
    """
    if unit not in ("yd3", "m3"):
        return None
    return f"{value:,.{3 if in_small_bags(value, unit) else 2}f}".rstrip("0").rstrip(".")


def in_small_bags(value: float, unit: str) -> bool:
    """Whether a volume is an odd number of half hundredths of a cubic metre, which bags make; more
    than a cubic metre comes loose.
    """
    if unit != "m3" or not 0 < value < 1:
        return False
    halves = value / HALF_HUNDREDTH
    return round(halves) % 2 == 1 and abs(halves - round(halves)) < HAIR


# Loose material is kept in steps that a shovel can follow: finer for little, coarser for much, up
# to so many of the unit.
_SHOVELLED = {
    System.US: ("yd3", ((10.0, 0.01), (100.0, 0.05), (math.inf, 0.25))),
    System.METRIC: ("m3", ((10.0, 0.01), (100.0, 0.05), (math.inf, 0.1))),
}


def shovelled_m3(volume_m3: float, system: System) -> float:
    """Loose material in m3, rounded up once, where it is reckoned, to what a reader is told of it:
    what is told then adds up to every total that is made of it.
    """
    unit, steps = _SHOVELLED[system]
    amount = from_inside(volume_m3, unit, "volume")
    step = next(each for most, each in steps if amount < most)
    return convert(math.ceil(amount / step - HAIR) * step, unit, "volume")


def told_step_m3(system: System) -> float:
    """The finest step in which loose material is told, in m3."""
    unit, steps = _SHOVELLED[system]
    return convert(steps[0][1], unit, "volume")


def pretty_unit(unit: str) -> str:
    """The unit as it is printed, with raised figures."""
    return _PRETTY.get(unit, unit)


def pretty_units() -> tuple[str, ...]:
    """Every unit that amounts are told in, as it is printed."""
    read = {unit for us, _, metric, _ in _READING.values() for unit in (us, metric)}
    sold = ("ft³", "yd", "cm", "oz", "t", "bu")
    return (*sorted({_PRETTY.get(unit, unit) for unit in read}), *sold)


_TWINS = {
    "m3": ("yd3", "volume"),
    "kg": ("lb", "mass"),
    "m2": ("ft2", "area"),
    "mm": ("in", "length"),
    "g/m2": ("lb/1000ft2", "areal_mass"),
    "L": ("gal", "volume"),
    "mm/h": ("in/h", "water_rate"),
    "kg/m3": ("lb/yd3", "density"),
    "C": ("F", "temperature"),
}


def us_twin(value: float, unit: str) -> tuple[float, str]:
    """A value in a unit of the plan (m3, kg, m2, mm, g/m2, L, ...) with its customary US twin.

    Min and counts stay.
    """
    if unit not in _TWINS:
        return value, unit
    twin, dimension = _TWINS[unit]
    return from_inside(convert(value, unit, dimension), twin, dimension), twin
