"""What a reading of phosphorus or potassium means: low, medium or high for its own extraction."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from turfplan.book.citations import who_says
from turfplan.book.entries import Book
from turfplan.message import Message, Number
from turfplan.phrases import feeding as phrases
from turfplan.phrases import soil_test as found
from turfplan.records.book_names import FactName
from turfplan.records.brief import Brief, Extraction, Level, SoilReading
from turfplan.work.feeding.lime_need import grasses_limed, ph_range, soil_of

Tested = Literal["phosphorus", "potassium"]
LEVELS: Mapping[Level, Message] = {
    "low": phrases.level_low(),
    "medium": phrases.level_medium(),
    "high": phrases.level_high(),
}
# The range of each extraction that the book has one for.
RANGES: Mapping[tuple[Tested, Extraction], FactName] = {
    ("phosphorus", "mehlich_3"): "reading.phosphorus_mehlich_3",
    ("phosphorus", "bray_1"): "reading.phosphorus_bray_1",
    ("phosphorus", "olsen"): "reading.phosphorus_olsen",
    ("potassium", "mehlich_3"): "reading.potassium_mehlich_3",
}
LEAST: Mapping[Tested, FactName] = {
    "phosphorus": "reading.phosphorus_least",
    "potassium": "reading.potassium_least",
}
SANDS = ("sand", "loamy_sand")


@dataclass(frozen=True, slots=True)
class FoundLevel:
    """The level of a nutrient, how it is told, and the facts behind it."""

    level: Level
    told: Message
    facts: tuple[FactName, ...] = ()


def reading_of(brief: Brief, nutrient: Tested) -> SoilReading | None:
    """What the brief says of a nutrient."""
    test = brief.soil_test
    return test.phosphorus if nutrient == "phosphorus" else test.potassium


def level_of(brief: Brief, book: Book, nutrient: Tested) -> FoundLevel | None:
    """The level of a nutrient; None where nothing was said, or a number that cannot be read."""
    reading = reading_of(brief, nutrient)
    if reading is None:
        return None
    if reading.level is not None:
        return FoundLevel(reading.level, LEVELS[reading.level])
    name = _range(brief, nutrient, reading)
    if name is None or reading.value_mg_kg is None:
        return None
    between = book.fact(name)
    level: Level = "medium"
    if reading.value_mg_kg < between.low_si:
        level = "low"
    elif reading.value_mg_kg > between.high_si:
        level = "high"
    told = found.level_by_reading(
        level=LEVELS[level],
        value=Number(reading.value_mg_kg, "plain"),
        method=method_name(reading.method),
        low=Number(between.low_si, "plain"),
        high=Number(between.high_si, "plain"),
    )
    return FoundLevel(level, told, (name,))


def _range(brief: Brief, nutrient: Tested, reading: SoilReading) -> FactName | None:
    if reading.method is None:
        return None
    if (nutrient, reading.method) == ("potassium", "mehlich_3") and soil_of(brief) in SANDS:
        return "reading.potassium_mehlich_3_sand"
    return RANGES.get((nutrient, reading.method))


def another_school(brief: Brief, book: Book, nutrient: Tested) -> Message | None:
    """What those say who keep turf on less than the usual range; None where both agree."""
    reading, level = reading_of(brief, nutrient), level_of(brief, book, nutrient)
    if reading is None or reading.value_mg_kg is None or level is None or level.level == "high":
        return None
    least = book.fact(LEAST[nutrient])
    if reading.method != "mehlich_3" or reading.value_mg_kg < least.si:
        return None
    wants_more = level.level == "low" or nutrient == "potassium"
    if not wants_more:
        return None
    return found.another_school(
        nutrient=NAMES[nutrient],
        value=Number(reading.value_mg_kg, "plain"),
        least=Number(least.si, "plain"),
        source=who_says(book, least.source),
    )


def unread(brief: Brief, book: Book, nutrient: Tested) -> Message | None:
    """What is asked where a number cannot be read: its extraction, or the laboratory's level."""
    reading = reading_of(brief, nutrient)
    if reading is None or level_of(brief, book, nutrient) is not None:
        return None
    value = Number(reading.value_mg_kg or 0.0, "plain")
    if reading.method is None:
        return found.no_extraction(nutrient=NAMES[nutrient], value=value, key=nutrient)
    return found.no_range(
        nutrient=NAMES[nutrient], value=value, key=nutrient, method=method_name(reading.method)
    )


def too_alkaline(brief: Brief, book: Book) -> bool:
    """True where a grass that yellows on limed soil stands on a pH above what it likes."""
    return yellowing(brief, book) is not None


def yellowing(brief: Brief, book: Book) -> str | None:
    """The first grass of the stand that yellows on limed soil and stands on a pH above what it
    likes; None where none does."""
    ph, limy = brief.soil_test.ph, soil_of(brief) == "chalk"
    for grass in grasses_limed(brief, book, brief.dominant.species):
        liked = book.fact(ph_range(grass))
        yellows = liked.si < book.si("high_ph.compost_goal")
        if yellows and (limy or (ph is not None and ph > liked.high_si)):
            return grass
    return None


def method_name(method: Extraction | None) -> Message:
    """What an extraction is called."""
    return METHODS[method] if method is not None else found.method_unknown()


METHODS: Mapping[Extraction, Message] = {
    "mehlich_3": found.method_mehlich_3(),
    "mehlich_1": found.method_mehlich_1(),
    "bray_1": found.method_bray_1(),
    "olsen": found.method_olsen(),
    "morgan": found.method_morgan(),
    "modified_morgan": found.method_modified_morgan(),
    "ammonium_acetate": found.method_ammonium_acetate(),
}
NAMES: Mapping[Tested, Message] = {
    "phosphorus": found.name_phosphorus(),
    "potassium": found.name_potassium(),
}
