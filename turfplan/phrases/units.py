"""Messages of `messages/en/units.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Listed, Message


def of_another(*, unit: str, other: Message, needed: Message) -> Message:
    """{unit} is a unit of {other}, a unit of {needed} is needed"""
    return Message("units.of_another", (("unit", unit), ("other", other), ("needed", needed)))


def unknown(*, unit: str, needed: Message) -> Message:
    """unknown unit {unit}, a unit of {needed} is needed"""
    return Message("units.unknown", (("unit", unit), ("needed", needed)))


def write_like(*, example: str) -> Message:
    """write it like \"{example}\""""
    return Message("units.write_like", (("example", example),))


def write_number(*, units: Listed) -> Message:
    """write a number and one of {units}"""
    return Message("units.write_number", (("units", units),))


def not_text() -> Message:
    """a quantity is a text with a unit"""
    return Message("units.not_text")


def not_quantity() -> Message:
    """not a quantity"""
    return Message("units.not_quantity")


def not_finite() -> Message:
    """not a finite number"""
    return Message("units.not_finite")


def missing() -> Message:
    """a unit is missing"""
    return Message("units.missing")


def dimension_length() -> Message:
    """length"""
    return Message("units.dimension.length")


def dimension_area() -> Message:
    """area"""
    return Message("units.dimension.area")


def dimension_volume() -> Message:
    """volume"""
    return Message("units.dimension.volume")


def dimension_mass() -> Message:
    """mass"""
    return Message("units.dimension.mass")


def dimension_areal_mass() -> Message:
    """areal mass"""
    return Message("units.dimension.areal_mass")


def dimension_areal_volume() -> Message:
    """areal volume"""
    return Message("units.dimension.areal_volume")


def dimension_density() -> Message:
    """density"""
    return Message("units.dimension.density")


def dimension_water_rate() -> Message:
    """water rate"""
    return Message("units.dimension.water_rate")


def dimension_water_depth_rate() -> Message:
    """water depth rate"""
    return Message("units.dimension.water_depth_rate")


def dimension_water_capacity() -> Message:
    """water capacity"""
    return Message("units.dimension.water_capacity")


def dimension_flow() -> Message:
    """flow"""
    return Message("units.dimension.flow")


def dimension_time() -> Message:
    """time"""
    return Message("units.dimension.time")


def dimension_share() -> Message:
    """share"""
    return Message("units.dimension.share")


def dimension_labour() -> Message:
    """labour"""
    return Message("units.dimension.labour")


def dimension_labour_piece() -> Message:
    """labour piece"""
    return Message("units.dimension.labour_piece")


def dimension_labour_area() -> Message:
    """labour area"""
    return Message("units.dimension.labour_area")


def dimension_per_mass() -> Message:
    """per mass"""
    return Message("units.dimension.per_mass")


def dimension_per_area() -> Message:
    """per area"""
    return Message("units.dimension.per_area")


def dimension_degree_days() -> Message:
    """degree days"""
    return Message("units.dimension.degree_days")


def dimension_temperature_difference() -> Message:
    """temperature difference"""
    return Message("units.dimension.temperature_difference")


def dimension_radiation() -> Message:
    """radiation"""
    return Message("units.dimension.radiation")


def dimension_speed() -> Message:
    """speed"""
    return Message("units.dimension.speed")


def dimension_pressure() -> Message:
    """pressure"""
    return Message("units.dimension.pressure")


def dimension_concentration() -> Message:
    """concentration"""
    return Message("units.dimension.concentration")


def dimension_conductivity() -> Message:
    """conductivity"""
    return Message("units.dimension.conductivity")


def dimension_count() -> Message:
    """count"""
    return Message("units.dimension.count")


def dimension_temperature() -> Message:
    """temperature"""
    return Message("units.dimension.temperature")


def dimension_days() -> Message:
    """days"""
    return Message("units.dimension.days")
