"""The questions that a new brief is made from, and the brief that their answers make.

A terminal and a page ask the same ones, in the same order, and make the same brief of what is
answered.
"""

import json
import re
import tomllib
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path

from turfplan.app.inputs import in_book_names
from turfplan.calendar_days import PLAIN_YEAR, date_of
from turfplan.climate.record import Frost
from turfplan.errors import TurfplanError
from turfplan.files.reading.book import load_book
from turfplan.files.reading.brief import brief_from
from turfplan.files.reading.place import located
from turfplan.files.reading.towns import with_town
from turfplan.message import DateInYear, Message, Worded, said
from turfplan.phrases import screen
from turfplan.planning import check_brief

INTENTS = ("none", "patch", "overseed", "renovate", "dormant", "plant", "winter_overseed")
WEEKDAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
EVERYWHERE = "e"


@dataclass(frozen=True, slots=True)
class Question:
    """A question with its name; `usual` is the answer of who gives none (None: one is needed), and
    `unknown` that of who does not know."""

    name: str
    asked: Callable[[], Message]
    usual: str | None = None
    unknown: str | None = None


QUESTIONS: tuple[Question, ...] = (
    Question("name", screen.new_name, "Lawn"),
    Question("area", screen.new_area),
    Question("grass", screen.new_grass, unknown="unknown"),
    Question("soil", screen.new_soil, "loam", "unknown"),
    Question("place", screen.new_place),
    Question("depth", screen.new_depth, "0 in"),
    Question("everywhere", screen.new_everywhere, EVERYWHERE),
    Question("intent", lambda: screen.new_intent(intents=", ".join(INTENTS)), "none"),
    Question("weekdays", screen.new_weekdays, "sat,sun"),
)
BY_NAME: Mapping[str, Question] = {question.name: question for question in QUESTIONS}
# Answers that are beyond doubt: beside them a fault is that of the answer that is looked at. A
# grass that is not known bars no intent.
_BEYOND_DOUBT = {
    "area": "400 m2",
    "grass": "unknown",
    "place": "17601",
    "depth": "1 in",
    "intent": "overseed",
}


def asks_hollows(depth: str) -> bool:
    """Whether it is asked where it is low: not where nothing is filled."""
    return depth.split()[:1] not in ([], ["0"], ["0.0"])


def brief_text(answers: Mapping[str, str], lawn_id: str) -> str:
    """The TOML of a brief of answers by the names of their questions; what has no answer is as
    usual.

    The place may also be said by `postal_code`, `town`, or `latitude` and `longitude`, with a
    `country`.
    """
    usual = {question.name: question.usual or "" for question in QUESTIONS}
    told = usual | dict(answers)
    tables = (
        [
            "[lawn]",
            f'id = "{lawn_id}"',
            *(f"{key} = {_quoted(told[key])}" for key in ("name", "area", "grass", "soil")),
        ],
        ["[place]", *_place(told)],
        ["[leveling]", _filled(told["depth"], told["everywhere"])],
        ["[seeding]", f"intent = {_quoted(told['intent'])}"],
        ["[calendar]", f"weekdays = [{_days(told['weekdays'])}]"],
    )
    return "\n\n".join("\n".join(lines) for lines in tables) + "\n"


def faults_of(answers: Mapping[str, str]) -> tuple[Message, ...]:
    """What is wrong with answers, as far as they go: nothing where a brief can be made of them."""
    try:
        text = brief_text({**_BEYOND_DOUBT, **answers}, "lawn")
        brief = in_book_names(with_town(brief_from(tomllib.loads(text))))
        if problems := check_brief(brief, load_book()):
            raise TurfplanError(problems)
        if "place" in answers:
            located(brief.place, Path())
    except TurfplanError as error:
        return tuple(_fault(p.message, p.hint) for p in error.problems)
    return ()


def _fault(message: Worded, hint: Worded | None) -> Message:
    return said(message) if hint is None else screen.new_fault(fault=said(message), hint=said(hint))


@dataclass(frozen=True, slots=True)
class FoundPlace:
    """Where a place lies as people know it, and the days of the last and the first frost of a usual
    year there; None where most years have none."""

    name: Message | None
    last_frost: DateInYear | None
    first_frost: DateInYear | None


def place_of(place: str) -> FoundPlace:
    """What is known of a place that was answered, to be said back.

    Raises TurfplanError for one that is not found.
    """
    text = brief_text({**_BEYOND_DOUBT, "place": place}, "lawn")
    climate = located(with_town(brief_from(tomllib.loads(text))).place, Path()).climate
    frosts = (climate.last_frost, climate.first_frost)
    return FoundPlace(climate.found, *map(_in_year, frosts))


def _in_year(frost: Frost | None) -> DateInYear | None:
    return None if frost is None else DateInYear(f"{date_of(frost.median, PLAIN_YEAR):%m-%d}")


def _place(told: Mapping[str, str]) -> list[str]:
    """Where the lawn is: one answer holds a postal code, a town or two coordinates."""
    country = [f"country = {_quoted(told['country'])}"] if told.get("country") else []
    if told.get("town"):
        return [f"town = {_quoted(told['town'])}", *country]
    if told.get("latitude") and told.get("longitude"):
        latitude, longitude = _number(told["latitude"]), _number(told["longitude"])
        return [f"latitude = {latitude}", f"longitude = {longitude}", *country]
    code = told.get("postal_code")
    where = code or told["place"]
    parts = [part.strip() for part in where.split(",")]
    if code is None and parts[0][:1].isalpha():
        return [f"town = {_quoted(where)}", *country]
    if len(parts) == 2:
        latitude, longitude = map(_number, parts)
        return [f"latitude = {latitude}", f"longitude = {longitude}", *country]
    return [f"postal_code = {_quoted(where)}", *country]


def _filled(depth: str, everywhere: str) -> str:
    """How much is filled, everywhere or in hollows."""
    if everywhere.lower().startswith(EVERYWHERE):
        return f"depth = {_quoted(depth)}"
    return f"lows = [{{ depth = {_quoted(depth)}, share = {_number(everywhere)} }}]"


def _days(text: str) -> str:
    return ", ".join(_quoted(day.strip()) for day in text.split(",") if day.strip())


def _number(text: str) -> str:
    """A number as typed; anything else in quotes, so that the check of the brief says where it
    stands and what is allowed.
    """
    return text.strip() if re.fullmatch(r"\s*[-+]?\d+(\.\d+)?\s*", text) else _quoted(text)


def _quoted(text: str) -> str:
    return json.dumps(text, ensure_ascii=False)
