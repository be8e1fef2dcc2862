"""Quantities as people write them."""

import pytest

from told import told
from turfplan.errors import TurfplanError
from turfplan.units import (
    System,
    convert,
    dimension_name,
    dimension_of,
    dimensions,
    format_number,
    from_inside,
    inside_unit,
    parse_quantity,
    read_as,
    units_of,
    us_twin,
)


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("1 1/2 in", 38.1),
        ("-1 1/2 in", -38.1),
        ("+1 1/2 in", 38.1),
        ("-1/2 in", -12.7),
        ("-0 1/2 in", -12.7),
        ("-3 in", -76.2),
        ("-1.5e1 mm", -15.0),
        ("2 3/4 ft", 838.2),
    ],
)
def test_the_sign_of_a_mixed_number_belongs_to_all_of_it(text: str, mm: float) -> None:
    """Minus one and a half is not minus one, and a half more."""
    assert parse_quantity(text, "length") == pytest.approx(mm)


@pytest.mark.parametrize(
    ("value", "kind", "system", "text"),
    [
        (0.237e3, "spread_weight", System.METRIC, "0.2 kg/m²"),
        (1.0, "depth", System.US, "0.04 in"),
        (0.3, "depth", System.METRIC, "0.3 mm"),
        (240.0, "spread_weight", System.US, "50 lb/1,000 ft²"),
    ],
)
def test_less_than_is_measured_is_told_by_its_first_digit(
    value: float, kind: str, system: System, text: str
) -> None:
    """No 0.237 kg/m² beside amounts that are told in halves."""
    assert read_as(value, kind, system).text == text


# One of each unit in the unit of the inside. Exact definitions, NIST Handbook 44 (2023), Appendix
# C, and NIST Special Publication 811 (2008), Appendix B.8: inch 2.54 cm, pound 453.592 37 g, acre
# 43 560 ft2, gallon 231 in3, short ton 2 000 lb, ounce 1/16 lb, hundredweight 100 lb, mile 5 280
# ft, pound-force per square inch 6.894 757 kPa. Written here as decimals, so that no constant of
# the code is measured with itself.
DEFINED = {
    "length": {
        "mm": 1,
        "cm": 10,
        "m": 1000,
        "km": 1_000_000,
        "in": 25.4,
        "ft": 304.8,
        "yd": 914.4,
        "mi": 1_609_344,
    },
    "area": {
        "m2": 1,
        "cm2": 0.0001,
        "ha": 10_000,
        "in2": 0.00064516,
        "ft2": 0.09290304,
        "yd2": 0.83612736,
        "1000ft2": 92.90304,
        "acre": 4046.8564224,
        "acres": 4046.8564224,
    },
    "volume": {
        "m3": 1,
        "L": 0.001,
        "l": 0.001,
        "mL": 0.000001,
        "ml": 0.000001,
        "ft3": 0.028316846592,
        "yd3": 0.764554857984,
        "gal": 0.003785411784,
        "bu": 0.03523907016688,
    },
    "mass": {
        "kg": 1,
        "g": 0.001,
        "t": 1000,
        "tonnes": 1000,
        "lb": 0.45359237,
        "lbs": 0.45359237,
        "oz": 0.028349523125,
        "cwt": 45.359237,
        "ton": 907.18474,
        "tons": 907.18474,
    },
    "areal_mass": {
        "g/m2": 1,
        "kg/m2": 1000,
        "kg/ha": 0.1,
        "t/ha": 100,
        "ton/acre": 224.1702312388912,
        "kg/100m2": 10,
        "lb/1000ft2": 4.88242763638305,
        "lb/ft2": 4882.42763638305,
        "lb/acre": 0.112085115619446,
        "oz/1000ft2": 0.305151727273941,
        "oz/yd2": 33.9057474748823,
        "g/1000ft2": 0.0107639104167097,
    },
    "areal_volume": {
        "L/m2": 1,
        "m3/ha": 0.1,
        "bu/1000ft2": 0.379310194444444,
        "bu/acre": 0.00870776387613509,
    },
    "density": {
        "kg/m3": 1,
        "g/cm3": 1000,
        "t/m3": 1000,
        "lb/yd3": 0.593276421257783,
        "lb/ft3": 16.0184633739601,
        "ton/yd3": 1186.55284251557,
    },
    "water_rate": {"mm/h": 1, "in/h": 25.4, "cm/h": 10, "mm/min": 60, "L/m2/h": 1},
    "water_depth_rate": {
        "mm/day": 1,
        "in/day": 25.4,
        "mm/week": 0.142857142857143,
        "in/week": 3.62857142857143,
    },
    "water_capacity": {"mm/m": 1, "in/ft": 83.3333333333333, "in/in": 1000, "m3/m3": 1000},
    "flow": {
        "L/min": 1,
        "l/min": 1,
        "L/h": 0.0166666666666667,
        "m3/h": 16.6666666666667,
        "gpm": 3.785411784,
        "gal/min": 3.785411784,
        "gph": 0.0630901964,
    },
    "time": {"min": 1, "minutes": 1, "h": 60, "hours": 60, "s": 0.0166666666666667},
    "days": {
        "day": 1,
        "days": 1,
        "d": 1,
        "week": 7,
        "weeks": 7,
        "month": 30.4375,
        "months": 30.4375,
        "year": 365.25,
        "years": 365.25,
    },
    "share": {"%": 0.01, "share": 1, "1": 1, "ratio": 1, "": 1},
    "labour": {"h/m3": 1, "h/yd3": 1.30795061931439},
    "labour_piece": {"h/piece": 1, "min/piece": 1 / 60, "s/piece": 1 / 3600},
    "labour_area": {
        "h/m2": 1,
        "h/1000ft2": 0.0107639104167097,
        "h/ft2": 10.7639104167097,
        "h/100m2": 0.01,
    },
    "per_mass": {"1/kg": 1, "seeds/kg": 1, "seeds/lb": 2.20462262184878},
    "per_area": {"1/m2": 1, "1/ft2": 10.7639104167097, "1/1000ft2": 0.0107639104167097},
    "degree_days": {"degC day": 1, "degF day": 0.555555555555556},
    "temperature_difference": {"K": 1, "degC": 1, "degF": 0.555555555555556},
    "radiation": {"MJ/m2/day": 1, "W/m2": 0.0864},
    "speed": {
        "m/s": 1,
        "km/h": 0.277777777777778,
        "mph": 0.44704,
        "kn": 0.514444444444444,
        "m/min": 0.0166666666666667,
    },
    "pressure": {"kPa": 1, "hPa": 0.1, "mbar": 0.1, "Pa": 0.001, "psi": 6.89475729316836},
    "concentration": {"mg/kg": 1, "ppm": 1},
    "conductivity": {"dS/m": 1, "mS/cm": 1, "mmhos/cm": 1, "mmho/cm": 1},
    "count": {"": 1},
}


def test_every_unit_is_defined() -> None:
    """The table above holds each unit that can be written, and no other."""
    assert {name: set(units) for name, units in DEFINED.items()} == {
        name: set(units_of(name)) for name in dimensions() if name != "temperature"
    }


@pytest.mark.parametrize("dimension", DEFINED)
def test_units_have_the_size_they_are_defined_by(dimension: str) -> None:
    """Seven of each unit, into the unit of the inside and back again; the inside unit is one of
    itself.
    """
    for unit, size in DEFINED[dimension].items():
        assert convert(7, unit, dimension) == pytest.approx(7 * size, rel=1e-12), unit
        assert from_inside(7 * size, unit, dimension) == pytest.approx(7, rel=1e-12), unit
    assert convert(1, inside_unit(dimension), dimension) == 1


@pytest.mark.parametrize(
    ("fahrenheit", "celsius"), [(32, 0), (212, 100), (-40, -40), (50, 10), (68, 20)]
)
def test_temperatures(fahrenheit: float, celsius: float) -> None:
    """Freezing and boiling water, where the scales meet, and two days; kelvins count from 273.15
    below.
    """
    for unit in ("F", "degF"):
        assert convert(fahrenheit, unit, "temperature") == pytest.approx(celsius)
        assert from_inside(celsius, unit, "temperature") == pytest.approx(fahrenheit)
    for unit in ("C", "degC"):
        assert (
            convert(celsius, unit, "temperature")
            == from_inside(celsius, unit, "temperature")
            == celsius
        )
    assert convert(celsius + 273.15, "K", "temperature") == pytest.approx(celsius)
    assert inside_unit("temperature") == "C"


@pytest.mark.parametrize(
    ("value", "unit", "twin"),
    [
        (0.764554857984, "m3", (1, "yd3")),
        (0.45359237, "kg", (1, "lb")),
        (0.09290304, "m2", (1, "ft2")),
        (25.4, "mm", (1, "in")),
        (4.88242763638305, "g/m2", (1, "lb/1000ft2")),
        (3.785411784, "L", (1, "gal")),
        (378.5411784, "L", (100, "gal")),
        (25.4, "mm/h", (1, "in/h")),
        (0.593276421257783, "kg/m3", (1, "lb/yd3")),
        (20.0, "C", (68, "F")),
        (12.0, "min", (12, "min")),
        (5.0, "loads", (5, "loads")),
    ],
)
def test_twins(value: float, unit: str, twin: tuple[float, str]) -> None:
    """Each unit of a plan beside the customary one; what has none stays as it is."""
    found = us_twin(value, unit)
    assert found[0] == pytest.approx(twin[0], rel=1e-12) and found[1] == twin[1]


@pytest.mark.parametrize(
    ("value", "kind", "system", "rounding", "text"),
    [
        (12.7, "depth", System.US, "nearest", "1/2 in"),
        (11.5, "depth", System.US, "down", "3/8 in"),
        (10.0, "depth", System.US, "up", "1/2 in"),
        (10.4, "depth", System.METRIC, "nearest", "10 mm"),
        (10.5, "depth", System.METRIC, "nearest", "11 mm"),
        (0.764554857984 * 3.01, "volume", System.US, "up", "3.25 yd³"),
        (0.764554857984 * 3.01, "volume", System.US, "nearest", "3 yd³"),
        (0.764554857984 * 3.25, "volume", System.US, "up", "3.25 yd³"),
        (2.31, "volume", System.METRIC, "up", "2.4 m³"),
        (0.003785411784 * 104, "water_volume", System.US, "nearest", "100 gal"),
        (0.003785411784 * 12_340, "water_volume", System.US, "nearest", "12,300 gal"),
        (0.003785411784 * 9_990, "water_volume", System.US, "nearest", "9,990 gal"),
        (1.26, "water_volume", System.METRIC, "nearest", "1,250 L"),
        (0.45359237 * 4.1, "mass", System.US, "up", "4.25 lb"),
        (0.45359237 * 5.1, "mass", System.US, "up", "6 lb"),
        (0.45359237 * 1001, "mass", System.US, "up", "1,050 lb"),
        (4.91, "mass", System.METRIC, "up", "5 kg"),
        (5.1, "mass", System.METRIC, "up", "5.5 kg"),
        (501.0, "mass", System.METRIC, "up", "510 kg"),
        (0.45359237 * 10_000, "load", System.US, "nearest", "5.0 tons"),
        (0.45359237 * 12_240, "load", System.US, "nearest", "6.1 tons"),
        (22_250.0, "load", System.METRIC, "nearest", "22.2 t"),
        (960.0, "load", System.METRIC, "nearest", "1.0 t"),
        (-3.0, "temperature", System.US, "nearest", "27 °F"),
        (20.4, "temperature", System.METRIC, "nearest", "20 °C"),
        (464.5152, "area", System.US, "nearest", "5,000 ft²"),
    ],
)
def test_readings(value: float, kind: str, system: System, rounding: str, text: str) -> None:
    """Rounded as it is measured; finer where there is little, coarser where there is much; exact
    steps stay.
    """
    assert read_as(value, kind, system, rounding).text == text


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (1234.4, "1,234"),
        (1000.0, "1,000"),
        (999.4, "999"),
        (100.0, "100"),
        (99.5, "99.5"),
        (2.25, "2.25"),
        (3.0, "3"),
        (0.12345, "0.123"),
        (0.0, "0"),
        (-1500.0, "-1,500"),
    ],
)
def test_numbers_have_no_needless_digits(value: float, text: str) -> None:
    """Three figures at most below one, two decimals below a hundred, none above."""
    assert format_number(value) == text


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (0.375, "3/8"),
        (0.1875, "3/16"),
        (1.5, "1 1/2"),
        (-0.25, "-1/4"),
        (-2.125, "-2 1/8"),
        (1.3, "1.3"),
        (2.0, "2"),
    ],
)
def test_inches_are_told_as_a_ruler_has_them(value: float, text: str) -> None:
    """Where they are sixteenths exactly."""
    assert format_number(value, fractions=True) == text


@pytest.mark.parametrize(
    ("inches", "text"),
    [(0.175, "3/16 in"), (0.459, "7/16 in"), (0.3, "5/16 in"), (1.2, "1 1/4 in")],
)
def test_a_thin_layer_is_read_in_sixteenths(inches: float, text: str) -> None:
    """An eighth would be a third off; from an inch on eighths do."""
    assert read_as(inches * 25.4, "depth", System.US).text == text


@pytest.mark.parametrize(
    ("text", "dimension", "value"),
    [
        ("4200 ft2", "area", 390.192768),
        (" 1,5 in ", "length", None),
        ("5", "length", None),
        ("50 %", "share", 0.5),
        ("0.5", "share", 0.5),
        (".5 in", "length", 12.7),
        ("5. mm", "length", 5.0),
        ("2e2 mm", "length", 200.0),
        ("", "length", None),
        ("1e999 mm", "length", None),
        ("1/0 in", "length", None),
        ("2 1/0 in", "length", None),
        ("3 lb", "length", None),
        ("3 furlongs", "length", None),
        (3, "length", None),
        ("58 F", "temperature", 14.4444444444444),
    ],
)
def test_quantities_are_read_or_refused(text: object, dimension: str, value: float | None) -> None:
    """A number with a unit of the dimension; all else is refused, with what is allowed."""
    if value is not None:
        assert parse_quantity(text, dimension) == pytest.approx(value)
        return
    with pytest.raises(TurfplanError):
        parse_quantity(text, dimension)


def test_a_wrong_unit_is_told_as_what_it_is() -> None:
    """A known unit of another dimension, an unknown one with the nearest, each apart."""
    with pytest.raises(TurfplanError, match="'lb' is a unit of mass, a unit of length is needed"):
        convert(1, "lb", "length")
    with pytest.raises(TurfplanError, match="unknown unit 'inc'") as caught:
        convert(1, "inc", "length")
    assert told(caught.value.problems[0].hint) == "did you mean 'in'?"
    assert dimension_of("F") == dimension_of("°C") == "temperature"
    assert dimension_of("cu yd") == "volume" and dimension_of("furlong") is None


def test_every_dimension_has_a_name() -> None:
    """An error about a unit can say what is needed and what was given."""
    for dimension in dimensions():
        assert told(dimension_name(dimension)) == dimension.replace("_", " ")


def test_every_eighth_has_its_fraction() -> None:
    """Each by the fraction that a rule shows; what is none stays decimal."""
    eighths = [format_number(number / 8, fractions=True) for number in range(1, 8)]
    assert eighths == ["1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "7/8"]
    assert format_number(0.3, fractions=True) == "0.3"
    assert format_number(0.5) == "0.5"


@pytest.mark.parametrize(
    ("kind", "value", "us", "metric"),
    [
        ("depth", 12.7, "1/2 in", "13 mm"),
        ("depth", 15.875, "5/8 in", "16 mm"),
        ("depth", 3.2, "1/8 in", "3 mm"),
        ("height", 76.2, "3 in", "75 mm"),
        ("area", 371.612, "4,000 ft²", "372 m²"),
        ("volume", 3.0, "4 yd³", "3 m³"),
        ("temperature", 20.0, "68 °F", "20 °C"),
        ("temperature", 0.0, "32 °F", "0 °C"),
        ("rain", 25.4, "1 in", "25 mm"),
        ("depth", 0.0, "0 in", "0 mm"),
    ],
)
def test_each_reader_has_the_steps_of_his_tools(
    kind: str, value: float, us: str, metric: str
) -> None:
    """Eighths of an inch and whole millimetres, tens of square feet and whole square metres."""
    assert read_as(value, kind, System.US).text == us
    assert read_as(value, kind, System.METRIC).text == metric


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (0.0, "0"),
        (0.1234, "0.123"),
        (0.5, "0.5"),
        (1.256, "1.26"),
        (1.5, "1.5"),
        (99.4, "99.4"),
        (99.994, "99.99"),
        (100.0, "100"),
        (100.4, "100"),
        (100.6, "101"),
        (-100.4, "-100"),
        (999.4, "999"),
        (1234.5, "1,234"),
    ],
)
def test_a_number_has_no_needless_digits(value: float, text: str) -> None:
    """Three digits below one, two decimals up to a hundred, none from there on."""
    assert format_number(value) == text


@pytest.mark.parametrize(
    ("kind", "us", "metric"),
    [
        ("depth", (25.4, 0.125), (1.0, 1.0)),
        ("height", (25.4, 0.25), (1.0, 5.0)),
        ("distance", (304.8, 1.0), (1000.0, 1.0)),
        ("area", (0.09290304, 10.0), (1.0, 1.0)),
        ("volume", (0.764554857984, 0.25), (1.0, 0.1)),
        ("water_volume", (0.003785411784, 10.0), (0.001, 50.0)),
        ("mass", (0.45359237, 1.0), (1.0, 0.5)),
        ("rate", (4.88242763638305, 0.05), (1.0, 0.1)),
        ("spread_weight", (4.88242763638305, 10.0), (1000.0, 0.5)),
        ("sprig_volume", (0.03523907016688, 0.5), (0.001, 5.0)),
        ("sprig_rate", (0.379310194444444, 0.5), (1.0, 0.1)),
        ("rain", (25.4, 0.05), (1.0, 1.0)),
        ("minutes", (1.0, 1.0), (1.0, 1.0)),
        ("water_rate", (25.4, 0.05), (1.0, 1.0)),
        ("flow", (3.785411784, 0.5), (1.0, 1.0)),
    ],
)
def test_each_kind_is_read_in_its_unit_and_step(
    kind: str, us: tuple[float, float], metric: tuple[float, float]
) -> None:
    """Of a unit's size in inside units and a step: what lies just over half between two steps is
    read as the higher, just under it as the lower; many steps up, where the step is the usual.
    """
    for system, (size, step) in ((System.US, us), (System.METRIC, metric)):
        steps = {"mass": 150, "water_volume": 30}.get(kind, 41)
        for part, read in ((0.51, steps + 1), (0.49, steps), (0.0, steps)):
            found = read_as((steps + part) * step * size, kind, system)
            assert found.value == pytest.approx(read * step), (system, part)


@pytest.mark.parametrize(
    ("kind", "system", "unit"),
    [
        ("distance", System.US, "ft"),
        ("minutes", System.US, "min"),
        ("rate", System.METRIC, "g/m2"),
        ("flow", System.METRIC, "L/min"),
        ("flow", System.US, "gpm"),
        ("water_rate", System.US, "in/h"),
        ("rain", System.US, "in"),
    ],
)
def test_a_reading_names_its_unit(kind: str, system: System, unit: str) -> None:
    """As the reader writes it."""
    assert read_as(100.0, kind, system).unit == unit


def test_differences_of_temperature_are_read_without_the_shift() -> None:
    """Five degrees Celsius are nine Fahrenheit; half a degree is none or one, never its digits."""
    assert read_as(5.0, "temperature_difference", System.US).text == "9 °F"
    assert read_as(4.6, "temperature_difference", System.METRIC).text == "5 °C"
    assert read_as(4.4, "temperature_difference", System.METRIC).text == "4 °C"
    assert read_as(7.0, "temperature_difference", System.METRIC).text == "7 °C"
    assert read_as(7 / 1.8, "temperature_difference", System.US).text == "7 °F"
    assert read_as(7.0, "temperature", System.METRIC).text == "7 °C"
    assert read_as(0.3, "temperature_difference", System.METRIC).text == "0 °C"
    assert read_as(0.3, "temperature", System.METRIC).text == "0 °C"
    assert read_as(-17.6, "temperature", System.US).text == "0 °F"
    assert read_as(-17.4, "temperature", System.US).text == "1 °F"


@pytest.mark.parametrize(
    ("kg", "system", "up", "value"),
    [
        (4.94, System.METRIC, False, 4.9),
        (4.99, System.METRIC, False, 5.0),
        (5.0, System.METRIC, False, 5.0),
        (5.26, System.METRIC, False, 5.5),
        (5.24, System.METRIC, False, 5.0),
        (99.7, System.METRIC, False, 99.5),
        (499.4, System.METRIC, False, 499.0),
        (500.0, System.METRIC, False, 500.0),
        (506.0, System.METRIC, False, 510.0),
        (504.0, System.METRIC, False, 500.0),
        (0.45359237 * 4.9, System.US, False, 5.0),
        (0.45359237 * 4.8, System.US, False, 4.75),
        (0.45359237 * 5.4, System.US, False, 5.0),
        (0.45359237 * 999.4, System.US, False, 999.0),
        (0.45359237 * 1026, System.US, False, 1050.0),
        (0.45359237 * 1024, System.US, False, 1000.0),
        (6.0004, System.METRIC, True, 6.0),
        (6.0006, System.METRIC, True, 6.5),
    ],
)
def test_masses_are_measured_finer_where_little_and_coarser_where_much(
    kg: float, system: System, *, up: bool, value: float
) -> None:
    """Below five and from five hundred kilograms, or a thousand pounds; the last decimal that is
    kept adds nothing.
    """
    assert read_as(kg, "mass", system, "up" if up else "nearest").value == pytest.approx(value)


@pytest.mark.parametrize(
    ("litres", "system", "value"),
    [
        (497.0, System.METRIC, 495.0),
        (498.0, System.METRIC, 500.0),
        (524.0, System.METRIC, 500.0),
        (526.0, System.METRIC, 550.0),
        (9_970.0, System.METRIC, 9_950.0),
        (10_240.0, System.METRIC, 10_000.0),
        (10_260.0, System.METRIC, 10_500.0),
        (3.785411784 * 99.4, System.US, 99.0),
        (3.785411784 * 104.0, System.US, 100.0),
        (3.785411784 * 106.0, System.US, 110.0),
        (3.785411784 * 9_994, System.US, 9_990.0),
        (3.785411784 * 10_049, System.US, 10_000.0),
        (3.785411784 * 10_051, System.US, 10_100.0),
    ],
)
def test_waterings_are_measured_finer_where_little_and_coarser_where_much(
    litres: float, system: System, value: float
) -> None:
    """Below a hundred gallons or five hundred litres, and from ten thousand of either."""
    assert read_as(litres / 1000, "water_volume", system).value == pytest.approx(value)


def test_a_hair_of_error_does_not_reach_the_next_step() -> None:
    """A ten-thousandth of a step, up as down; more does."""
    yard = 0.764554857984
    assert read_as(yard * (3 + 0.25 * 0.9e-4), "volume", System.US, "up").value == 3.0
    assert read_as(yard * (3 + 0.25 * 1.2e-4), "volume", System.US, "up").value == 3.25
    assert read_as(yard * (3 - 0.25 * 0.9e-4), "volume", System.US, "down").value == 3.0
    assert read_as(yard * (3 - 0.25 * 1.2e-4), "volume", System.US, "down").value == 2.75


def test_a_step_of_its_own_comes_before_the_usual_one() -> None:
    """And what is less than it is told by its first digit, or as one step when it is bought."""
    assert read_as(3.3, "volume", System.METRIC, step=0.25).text == "3.25 m³"
    assert read_as(3.9, "volume", System.METRIC, "down", step=0.5).text == "3.5 m³"
    assert read_as(0.034, "volume", System.METRIC).text == "0.03 m³"
    assert read_as(0.034, "volume", System.METRIC, "up").text == "0.1 m³"
    assert read_as(0.0, "volume", System.METRIC, "up").text == "0 m³"


def test_a_load_is_told_to_a_tenth_even_where_that_is_nought() -> None:
    """A weighbridge says 5.0, in the units of both readers."""
    found = read_as(22_360.0, "load", System.METRIC)
    assert (found.value, found.unit, found.text) == (22.4, "t", "22.4 t")
    assert read_as(30.0, "load", System.METRIC).text == "0.0 t"
    assert read_as(907.18474 * 2.04, "load", System.US).text == "2.0 tons"


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (999.0, "999"),
        (1000.0, "1,000"),
        (999.6, "1000"),
        (99.994, "99.99"),
        (100.0, "100"),
        (1.0, "1"),
        (0.9996, "1"),
        (0.99949, "0.999"),
        (1.004, "1"),
        (-0.5, "-0.5"),
        (-99.75, "-99.75"),
    ],
)
def test_digits_change_at_one_a_hundred_and_a_thousand(value: float, text: str) -> None:
    """Commas from a thousand on, no decimals from a hundred on, three figures below one."""
    assert format_number(value) == text


def test_a_whole_number_of_inches_has_no_fraction() -> None:
    """Below nought as well."""
    cases = {-3.0: "-3", 3.0: "3", -0.5: "-1/2", 0.0: "0", 12.875: "12 7/8", 1.0625: "1 1/16"}
    assert [format_number(v, fractions=True) for v in cases] == list(cases.values())


def test_units_are_found_however_they_are_spaced_and_spelt() -> None:
    """Blanks do not matter; a count has no unit, nor need a share."""
    assert parse_quantity("12   ft2", "area") == parse_quantity(" 12ft2 ", "area")
    assert convert(1, "lb / 1000ft2".replace(" ", ""), "areal_mass") == pytest.approx(4.882428)
    assert parse_quantity("7", "count") == 7.0 and parse_quantity("0.25", "share") == 0.25
    assert parse_quantity("25 %", "share") == 0.25
    assert [dimension_of(unit) for unit in ("C", "%", "gpm", "in/week")] == [
        "temperature",
        "share",
        "flow",
        "water_depth_rate",
    ]


def test_what_is_no_quantity_is_told_apart() -> None:
    """No text, no number, no end, no unit; with an example of its own where there is one."""
    told_of = {}
    for text in (3, "much", "1e999 mm", "5"):
        with pytest.raises(TurfplanError) as caught:
            parse_quantity(text, "length")
        (problem,) = caught.value.problems
        assert "0.5 in" in told(problem.hint)
        told_of[text] = str(problem.message.key), problem.allowed is not None  # type: ignore[union-attr]
    assert len({key for key, _ in told_of.values()}) == 4
    assert [listed for _, listed in told_of.values()] == [False, False, False, True]
    with pytest.raises(TurfplanError) as caught:
        parse_quantity("much", "flow")
    hint = told(caught.value.problems[0].hint)
    assert "gpm" in hint and "0.5 in" not in hint


def test_a_unit_of_another_dimension_has_no_nearest_one() -> None:
    """It is known, so nothing was misspelt; what is allowed is listed for both."""
    for unit, hinted in (("lb", False), ("inc", True)):
        with pytest.raises(TurfplanError) as caught:
            convert(1.5, unit, "length")
        (problem,) = caught.value.problems
        assert (problem.hint is not None) == hinted
        assert problem.got == f"1.5 {unit}" and problem.allowed is not None
    with pytest.raises(TurfplanError):
        convert(1, "ft", "temperature")


@pytest.mark.parametrize("kg", [100.2, 158.191, 358.338, 358.5, 499.5])
def test_what_is_bought_by_the_hundred_kilograms_is_never_told_short(kg: float) -> None:
    """Halves of a kilogram are not printed there, so that none are reckoned."""
    told = read_as(kg, "mass", System.METRIC, "up")
    assert float(told.text.split()[0]) == told.value >= kg
