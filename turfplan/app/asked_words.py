"""The questions of a new brief in words, for a terminal and a page alike: what is said back, and
what who does not know is told that is taken."""

import re
from collections.abc import Callable, Mapping
from pathlib import Path

from turfplan.app.brief_choices import CHOICES, NOT_KNOWN
from turfplan.app.brief_questions import (
    BY_NAME,
    INTENTS,
    LOOKS,
    WEEKDAYS,
    brief_of,
    country_of_place,
    faults_of,
    place_of,
    units_of_place,
)
from turfplan.app.plain_answers import plainly
from turfplan.app.reader_language import language_of
from turfplan.book.grass_names import grasses_called
from turfplan.book.words import english_of, grass_name
from turfplan.errors import TurfplanError
from turfplan.files.reading.book import load_book
from turfplan.files.reading.place import located
from turfplan.files.reading.towns import namesakes
from turfplan.message import Message, NamedWeekday, Quantity, length_mm, listed, said
from turfplan.messages import Words, words_for
from turfplan.phrases import page as phrases
from turfplan.records.book_names import of_herbicide
from turfplan.units import System
from turfplan.work.unnamed_grass import likely

_MEASURED_SIDES = re.compile(r"[\d.]+ ?\w* ?(x|×|\*|by) ?[\d.]+ ?(ft|feet|m|yd|yards?|met\w+)")
# What grows in a lawn and is no grass, as people answer it.
_NO_GRASS = re.compile(
    r"\b(moss(es|y)?|weeds?|weedy|clovers?|dandelions?|daisies|plantains?)\b", re.IGNORECASE
)
_ASSUMED: Mapping[str, Callable[[], Message]] = {
    "condition": phrases.not_sure_condition,
    "soil": phrases.not_sure_soil,
    "depth": phrases.not_sure_depth,
    "everywhere": phrases.not_sure_everywhere,
    "cause": phrases.not_sure_cause,
    "water": phrases.not_sure_water,
    "sprayed": phrases.not_sure_sprayed,
    "sprayed_on": phrases.not_sure_sprayed_on,
    "intent": phrases.not_sure_intent,
}

# What is left for a grass that is not sown.
PLANT = "plant"
_INTENTS: Mapping[str, Callable[[], Message]] = {
    "none": phrases.intent_none,
    "patch": phrases.intent_patch,
    "overseed": phrases.intent_overseed,
    "renovate": phrases.intent_renovate,
    "dormant": phrases.intent_dormant,
    "plant": phrases.intent_plant,
    "winter_overseed": phrases.intent_winter_overseed,
}


def intent_names(words: Words) -> list[tuple[str, str]]:
    """Each intent with its name, in the order in which they are offered."""
    return [(key, words.text(_INTENTS[key]())) for key in INTENTS]


def words_where(answers: Mapping[str, str]) -> Words:
    """The words of who is asked, the book's among them, in the units and the spelling of the place
    that they answered."""
    country, english = country_of_place(answers.get("place", "")), english_of(load_book())
    units = System.US if country == "US" else System.METRIC
    return words_for(language_of(None), units, english, country=country, terminal=True)


def choice_names(name: str, words: Words) -> list[tuple[str, str]]:
    """Each choice of a question with its words, in the order in which they are offered."""
    if name == "intent":
        return intent_names(words)
    return [(choice.key, words.text(choice.told())) for choice in CHOICES.get(name, ())]


def if_unknown(name: str, words: Words, answers: Mapping[str, str] | None = None) -> str:
    """What who does not know the answer presses or types: it says what is then assumed, at the
    place that was answered; nothing where nothing can be."""
    book = load_book()
    if name == "weekdays":
        days = weekday_names(BY_NAME[name].usual or "", words)
        return words.text(phrases.not_sure_weekdays(days=days))
    if name == "grass":
        return words.text(_usual_grass(answers or {}))
    if name == "people":
        return words.text(phrases.not_sure_people(people=round(book.si("setting.people_assumed"))))
    if name == "heads":
        rate = Quantity(book.si("water.rate_assumed"), "water_rate")
        return words.text(phrases.not_sure_heads(rate=rate))
    if name == "killer":
        return words.text(phrases.killer_say(weeks=weeks_unknown()))
    return words.text(_ASSUMED[name]()) if name in _ASSUMED else ""


def weeks_unknown() -> int:
    """The weeks that seed waits after a weed killer that nobody can name."""
    return round(load_book().fact(of_herbicide(NOT_KNOWN, "hold")).high_si) // len(WEEKDAYS)


def _usual_grass(answers: Mapping[str, str]) -> Message:
    """The grasses of lawns at the place that was answered."""
    found = _likely(answers)
    if found is None:
        return phrases.not_sure_grass_yet()
    return phrases.not_sure_grass(grasses=listed(found, "or"))


def _likely(answers: Mapping[str, str]) -> list[Message] | None:
    """The grasses that fit what was seen of one without a name, else those of lawns at the place;
    None as long as no place is answered that is found."""
    if "place" not in answers:
        return None
    kept = {name: answers[name] for name in ("place", *LOOKS) if name in answers}
    try:
        brief = brief_of(kept)
        climate = located(brief.place, Path()).climate
    except TurfplanError:
        return None  # it is asked again, and told there
    book = load_book()
    return [grass_name(book, grass) for grass in likely(brief, book, climate)]


def weekday_names(answer: str, words: Words) -> str:
    """The days of an answer as they are called."""
    days = [WEEKDAYS.index(day) for day in answer.split(",") if day in WEEKDAYS]
    return ", ".join(words.value(NamedWeekday(day)) for day in days)


def towns_meant(answer: str, words: Words) -> list[tuple[str, str]]:
    """The towns that a place may mean where several bear its name: each as it is answered, and in
    words; nothing for what is no town, or one alone."""
    if not answer[:1].isalpha():
        return []
    return [(said, words.text(told)) for said, told in namesakes(answer)]


def place_said_back(answers: Mapping[str, str], words: Words) -> str:
    """Where the place lies, with something that its owner knows to be true."""
    if "place" not in answers:
        return ""
    try:
        found = place_of(answers["place"])
    except TurfplanError:
        return ""  # it is asked again, and told there
    name = found.name or said(answers["place"])
    if found.last_frost is None or found.first_frost is None:
        return words.text(phrases.place_without_frost(place=name))
    return words.text(
        phrases.place_found(place=name, last=found.last_frost, first=found.first_frost)
    )


# Asked with an answer as it may be typed.
WITH_EXAMPLE = ("area", "depth")
# Helped in words of the page, not in those of a brief.
HELPED = (*WITH_EXAMPLE, "intent")
_EXAMPLES = {"area": ("60 x 70 ft", "18 x 21 m"), "depth": ("1 in", "2 cm")}


def example_of(name: str, answers: Mapping[str, str]) -> str:
    """An answer to a question as it may be typed, in the units of the place that was answered."""
    return _in_us(answers, *_EXAMPLES[name])


def _in_us(answers: Mapping[str, str], us: str, metric: str) -> str:
    """Of two the one in the units of the place that was answered."""
    return us if units_of_place(answers.get("place", "")) is System.US else metric


def help_with(name: str, answers: Mapping[str, str]) -> tuple[Message, ...]:
    """What helps who has answered something that cannot be read; nothing where the fault says
    it."""
    if name == "area":
        pieces = _in_us(answers, "60 x 40 ft + 30 x 10 ft", "18 x 12 m + 9 x 3 m")
        triangle = _in_us(answers, "60 x 40 ft / 2", "18 x 12 m / 2")
        example = example_of(name, answers)
        return (phrases.help_area(example=example, pieces=pieces, triangle=triangle),)
    if name == "depth":
        finger = length_mm(load_book().si("by_hand.finger"))
        unit, example = _in_us(answers, "inches", "mm or cm"), example_of(name, answers)
        return (phrases.help_depth(unit=unit, example=example, finger=finger),)
    if name == "grass":
        no_grass = _NO_GRASS.search(answers.get("grass", "")) is not None
        return (phrases.help_no_grass() if no_grass else phrases.help_grass(),)
    return (phrases.help_soil(),) if name == "soil" else ()


def told_wrong(
    name: str, answers: Mapping[str, str], faults: tuple[Message, ...]
) -> tuple[Message, ...]:
    """What is wrong with an answer and what helps; of a name that several grasses bear, which of
    them it may be."""
    if name == "grass":
        book, country = load_book(), country_of_place(answers.get("place", ""))
        meant = grasses_called(book, answers.get("grass", ""), country)
        if len(meant) > 1:
            names = listed([grass_name(book, grass) for grass in meant], "or")
            return (phrases.which_grass(grasses=names),)
    if name == "intent" and not faults_of({**answers, name: PLANT}):
        return (*faults, phrases.choose_instead(kind=phrases.intent_plant()))
    return (*faults, *help_with(name, answers))


def area_said_back(answer: str) -> str:
    """An area for the check of the answers: as it was typed, and what that comes to where it is
    more than two sides that were measured."""
    read = plainly("area", answer)
    return answer if _MEASURED_SIDES.fullmatch(answer) or read == answer else f"{answer} ({read})"


def by_looks(answers: Mapping[str, str], words: Words) -> str:
    """The grasses that fit what was seen of one that nobody named, for the check of the answers;
    none as long as no place is answered."""
    found = _likely(answers)
    if found is None:
        return words.text(phrases.by_looks())
    return words.text(phrases.by_looks_of(grasses=listed(found, "or")))
