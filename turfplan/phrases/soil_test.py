"""Messages of `messages/en/soil_test.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Message, Number


def name_phosphorus() -> Message:
    """phosphorus"""
    return Message("soil_test.name.phosphorus")


def name_potassium() -> Message:
    """potassium"""
    return Message("soil_test.name.potassium")


def method_mehlich_3() -> Message:
    """Mehlich-3"""
    return Message("soil_test.method.mehlich_3")


def method_mehlich_1() -> Message:
    """Mehlich-1"""
    return Message("soil_test.method.mehlich_1")


def method_bray_1() -> Message:
    """Bray-1"""
    return Message("soil_test.method.bray_1")


def method_olsen() -> Message:
    """Olsen"""
    return Message("soil_test.method.olsen")


def method_morgan() -> Message:
    """Morgan"""
    return Message("soil_test.method.morgan")


def method_modified_morgan() -> Message:
    """modified Morgan"""
    return Message("soil_test.method.modified_morgan")


def method_ammonium_acetate() -> Message:
    """ammonium acetate"""
    return Message("soil_test.method.ammonium_acetate")


def method_unknown() -> Message:
    """an extraction nobody named"""
    return Message("soil_test.method.unknown")


def level_by_reading(
    *, level: Message, value: Number, method: Message, low: Number, high: Number
) -> Message:
    """{level} ({value} ppm by {method}; {low} to {high} is medium)"""
    return Message(
        "soil_test.level_by_reading",
        (("level", level), ("value", value), ("method", method), ("low", low), ("high", high)),
    )


def another_school(*, nutrient: Message, value: Number, least: Number, source: Message) -> Message:
    """Schools differ on {nutrient}: by the usual ranges {value} ppm asks for more, while above
    {least} ppm turf keeps well without ({source}). The plan follows the usual ranges; the
    laboratory's own advice comes first.
    """
    return Message(
        "soil_test.another_school",
        (("nutrient", nutrient), ("value", value), ("least", least), ("source", source)),
    )


def no_extraction(*, nutrient: Message, value: Number, key: str) -> Message:
    """The soil test gives {value} ppm of {nutrient} without its extraction, and the same soil reads
    differently by each: ask the laboratory, and tell the plan which it is (Mehlich 3, Bray 1,
    Olsen)⟦, as `{key} = \"{value} ppm mehlich_3\"`⟧, or its level (low, medium, high). Until then
    none is given.
    """
    return Message(
        "soil_test.no_extraction", (("nutrient", nutrient), ("value", value), ("key", key))
    )


def no_range(*, nutrient: Message, value: Number, key: str, method: Message) -> Message:
    """For {value} ppm of {nutrient} by {method} there is no range here: ask the laboratory whether
    that is low, medium or high, and tell the plan what it says⟦, as `{key} = \"low\"`⟧. Until then
    none is given.
    """
    return Message(
        "soil_test.no_range",
        (("nutrient", nutrient), ("value", value), ("key", key), ("method", method)),
    )


def buffer_sikora() -> Message:
    """Sikora"""
    return Message("soil_test.buffer.sikora")


def buffer_mehlich() -> Message:
    """Mehlich"""
    return Message("soil_test.buffer.mehlich")


def buffer_smp() -> Message:
    """SMP"""
    return Message("soil_test.buffer.smp")


def buffer_adams_evans() -> Message:
    """Adams-Evans"""
    return Message("soil_test.buffer.adams_evans")


def buffer_moore_sikora() -> Message:
    """Moore-Sikora"""
    return Message("soil_test.buffer.moore_sikora")


def buffer_woodruff() -> Message:
    """Woodruff"""
    return Message("soil_test.buffer.woodruff")
