"""How large each written unit is, and how people spell it."""

# Exact definitions (international yard and pound, US gallon), NIST Handbook 44, Appendix C.
INCH_MM = 25.4
MINUTES_IN_HOUR, SECONDS_IN_HOUR = 60, 3600
FOOT_M = 0.3048
SQUARE_FOOT_M2 = FOOT_M**2
CUBIC_YARD_M3 = (3 * FOOT_M) ** 3
POUND_KG = 0.45359237
GALLON_L = 3.785411784
BUSHEL_L = 35.23907016688
THOUSAND_SQUARE_FEET_M2 = 1000 * SQUARE_FOOT_M2
LB_PER_1000FT2_G_M2 = POUND_KG * 1000 / THOUSAND_SQUARE_FEET_M2
SHORT_TON_KG = 2000 * POUND_KG
HECTARE_M2 = 10_000.0
ACRE_M2 = 43_560 * SQUARE_FOOT_M2
FREEZING_F = 32.0
FAHRENHEIT_PER_CELSIUS = 1.8

# dimension -> (unit of the inside, {written unit: size in that unit}); temperatures are treated
# apart.
DIMENSIONS: dict[str, tuple[str, dict[str, float]]] = {
    "length": (
        "mm",
        {
            "mm": 1,
            "cm": 10,
            "m": 1000,
            "km": 1e6,
            "in": INCH_MM,
            "ft": 304.8,
            "yd": 914.4,
            "mi": 1609344.0,
        },
    ),
    "area": (
        "m2",
        {
            "m2": 1,
            "ft2": SQUARE_FOOT_M2,
            "yd2": 9 * SQUARE_FOOT_M2,
            "acre": ACRE_M2,
            "acres": ACRE_M2,
            "ha": HECTARE_M2,
            "1000ft2": THOUSAND_SQUARE_FEET_M2,
            "in2": INCH_MM**2 / 1e6,
            "cm2": 1e-4,
        },
    ),
    "volume": (
        "m3",
        {
            "m3": 1,
            "yd3": CUBIC_YARD_M3,
            "ft3": FOOT_M**3,
            "L": 1e-3,
            "l": 1e-3,
            "gal": GALLON_L / 1000,
            "bu": BUSHEL_L / 1000,
            "mL": 1e-6,
            "ml": 1e-6,
        },
    ),
    "mass": (
        "kg",
        {
            "kg": 1,
            "g": 1e-3,
            "t": 1000,
            "tonnes": 1000,
            "lb": POUND_KG,
            "lbs": POUND_KG,
            "oz": POUND_KG / 16,
            "ton": SHORT_TON_KG,
            "tons": SHORT_TON_KG,
            "cwt": 100 * POUND_KG,
        },
    ),
    "areal_mass": (
        "g/m2",
        {
            "g/m2": 1,
            "kg/m2": 1000,
            "kg/ha": 0.1,
            "lb/1000ft2": LB_PER_1000FT2_G_M2,
            "lb/ft2": LB_PER_1000FT2_G_M2 * 1000,
            "lb/acre": POUND_KG * 1000 / ACRE_M2,
            "oz/1000ft2": LB_PER_1000FT2_G_M2 / 16,
            "oz/yd2": POUND_KG / 16 * 1000 / (9 * SQUARE_FOOT_M2),
            "t/ha": 100,
            "ton/acre": SHORT_TON_KG * 1000 / ACRE_M2,
            "kg/100m2": 10,
            "g/1000ft2": 1 / THOUSAND_SQUARE_FEET_M2,
        },
    ),
    "areal_volume": (
        "L/m2",
        {
            "L/m2": 1,
            "m3/ha": 1000 / HECTARE_M2,
            "bu/1000ft2": BUSHEL_L / THOUSAND_SQUARE_FEET_M2,
            "bu/acre": BUSHEL_L / ACRE_M2,
        },
    ),
    "density": (
        "kg/m3",
        {
            "kg/m3": 1,
            "g/cm3": 1000,
            "t/m3": 1000,
            "lb/yd3": POUND_KG / CUBIC_YARD_M3,
            "lb/ft3": POUND_KG / FOOT_M**3,
            "ton/yd3": SHORT_TON_KG / CUBIC_YARD_M3,
        },
    ),
    "water_rate": ("mm/h", {"mm/h": 1, "in/h": INCH_MM, "cm/h": 10, "mm/min": 60, "L/m2/h": 1}),
    "water_depth_rate": (
        "mm/day",
        {"mm/day": 1, "in/day": INCH_MM, "mm/week": 1 / 7, "in/week": INCH_MM / 7},
    ),
    "water_capacity": (
        "mm/m",
        {"mm/m": 1, "in/ft": INCH_MM / FOOT_M, "in/in": 1000.0, "m3/m3": 1000.0},
    ),
    "flow": (
        "L/min",
        {
            "L/min": 1,
            "l/min": 1,
            "L/h": 1 / 60,
            "m3/h": 1000 / 60,
            "gpm": GALLON_L,
            "gal/min": GALLON_L,
            "gph": GALLON_L / 60,
        },
    ),
    "time": ("min", {"min": 1, "minutes": 1, "h": 60, "hours": 60, "s": 1 / 60}),
    "days": (
        "day",
        {
            "day": 1,
            "days": 1,
            "d": 1,
            "week": 7,
            "weeks": 7,
            "month": 30.4375,
            "months": 30.4375,
            "years": 365.25,
            "year": 365.25,
        },
    ),
    "share": ("", {"%": 0.01, "share": 1, "1": 1, "ratio": 1, "": 1}),
    "labour": ("h/m3", {"h/m3": 1, "h/yd3": 1 / CUBIC_YARD_M3}),
    "labour_area": (
        "h/m2",
        {
            "h/m2": 1,
            "h/1000ft2": 1 / THOUSAND_SQUARE_FEET_M2,
            "h/ft2": 1 / SQUARE_FOOT_M2,
            "h/100m2": 0.01,
        },
    ),
    "labour_piece": (
        "h/piece",
        {"h/piece": 1, "min/piece": 1 / MINUTES_IN_HOUR, "s/piece": 1 / SECONDS_IN_HOUR},
    ),
    "per_mass": ("1/kg", {"1/kg": 1, "seeds/lb": 1 / POUND_KG, "seeds/kg": 1}),
    "per_area": (
        "1/m2",
        {"1/m2": 1, "1/ft2": 1 / SQUARE_FOOT_M2, "1/1000ft2": 1 / THOUSAND_SQUARE_FEET_M2},
    ),
    "degree_days": ("degC day", {"degC day": 1, "degF day": 1 / FAHRENHEIT_PER_CELSIUS}),
    "temperature_difference": ("K", {"K": 1, "degC": 1, "degF": 1 / FAHRENHEIT_PER_CELSIUS}),
    "radiation": ("MJ/m2/day", {"MJ/m2/day": 1, "W/m2": 0.0864}),
    "speed": (
        "m/s",
        {"m/s": 1, "km/h": 1 / 3.6, "mph": 0.44704, "kn": 1852 / 3600, "m/min": 1 / 60},
    ),
    "pressure": ("kPa", {"kPa": 1, "hPa": 0.1, "mbar": 0.1, "Pa": 0.001, "psi": 6.894757293168}),
    "concentration": ("mg/kg", {"mg/kg": 1, "ppm": 1}),
    "conductivity": ("dS/m", {"dS/m": 1, "mS/cm": 1, "mmhos/cm": 1, "mmho/cm": 1}),
    "count": ("", {"": 1}),
}
TEMPERATURE = ("C", "F", "degC", "degF", "K")
SPELLINGS = {
    "inch": "in",
    "inches": "in",
    '"': "in",
    "feet": "ft",
    "foot": "ft",
    "'": "ft",
    "yards": "yd",
    "yard": "yd",
    "sq ft": "ft2",
    "sqft": "ft2",
    "ft^2": "ft2",
    "ft²": "ft2",
    "sq m": "m2",
    "m^2": "m2",
    "m²": "m2",
    "sqm": "m2",
    "yd^3": "yd3",
    "yd³": "yd3",
    "cu yd": "yd3",
    "m^3": "m3",
    "m³": "m3",
    "cu ft": "ft3",
    "ft³": "ft3",
    "°C": "C",
    "°F": "F",
    "deg C": "C",
    "deg F": "F",
    "litres": "L",
    "liters": "L",
    "gallons": "gal",
    "pounds": "lb",
    "lb/1000 ft2": "lb/1000ft2",
    "lb/1000 sq ft": "lb/1000ft2",
    "mm/hr": "mm/h",
    "in/hr": "in/h",
    "hour": "h",
    "hectare": "ha",
    "hectares": "ha",
    "metre": "m",
    "metres": "m",
    "meter": "m",
    "meters": "m",
    "tonne": "t",
}
