"""The questions that a new brief is made from, and the brief that their answers make.

A terminal and a page ask the same ones, in the same order, and make the same brief of what is
answered.
"""

import json
import re
import tomllib
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from turfplan.app.brief_choices import (
    CHOICES,
    NOT_KNOWN,
    chosen,
    killer_of,
    lines_of,
    was_sprayed,
)
from turfplan.app.inputs import in_book_names
from turfplan.app.plain_answers import is_unknown, plainly
from turfplan.app.seen_answers import GRASS
from turfplan.app.typed_days import spans_of
from turfplan.calendar_days import PLAIN_YEAR, date_of
from turfplan.climate.record import Frost
from turfplan.errors import Problem, TurfplanError
from turfplan.files.reading.book import load_book
from turfplan.files.reading.brief import brief_from
from turfplan.files.reading.place import located
from turfplan.files.reading.towns import country_near, with_town
from turfplan.message import DateInYear, Listed, Message, listed, said
from turfplan.phrases import errors, screen
from turfplan.planning import check_brief
from turfplan.records.brief import Brief
from turfplan.units import System
from turfplan.work.lawn import country_of

INTENTS = ("none", "patch", "overseed", "renovate", "dormant", "plant", "winter_overseed")
WEEKDAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
EVERYWHERE = "e"
_ISO_DAY = re.compile(r"\d{4}-\d\d-\d\d")
# Beside the days of work: when nobody is there, as `typed_days.written_spans` writes it.
AWAY = "away"
# Beside how uneven it is: the table of a survey, which then tells the depth, and what its file is
# called beside the brief.
SURVEY, SURVEY_FILE = "survey", "survey.csv"
# Of more words than these nobody reads which are allowed.
MOST_ALLOWED = 12
# What is seen of a grass that nobody can name, by the keys of the brief.
LOOKS: Mapping[str, tuple[str, ...]] = {
    look.key: tuple(value for value, _, _ in look.kinds) for look in GRASS
}


@dataclass(frozen=True, slots=True)
class Question:
    """A question with its name; `usual` is the answer of who gives none (None: one is needed), and
    `unknown` that of who does not know."""

    name: str
    asked: Callable[[], Message]
    usual: str | None = None
    unknown: str | None = None


# The place goes first: it can be said back with something true.
QUESTIONS: tuple[Question, ...] = (
    Question("place", screen.new_place),
    Question("area", screen.new_area),
    Question("grass", screen.new_grass, unknown="unknown"),
    Question("condition", screen.new_condition, NOT_KNOWN),
    Question("depth", screen.new_depth, "0 in"),
    Question("everywhere", screen.new_everywhere, EVERYWHERE),
    Question("cause", screen.new_cause, NOT_KNOWN),
    Question("soil", screen.new_soil, "loam", "unknown"),
    Question("water", screen.new_water, NOT_KNOWN),
    Question("heads", screen.new_heads, NOT_KNOWN),
    Question("sprayed", screen.new_sprayed, NOT_KNOWN),
    Question("sprayed_on", screen.new_sprayed_on, NOT_KNOWN),
    Question("killer", screen.new_killer, NOT_KNOWN),
    Question("weekdays", screen.new_weekdays, "sat,sun"),
    Question("people", screen.new_people, NOT_KNOWN),
    Question("intent", lambda: screen.new_intent(intents=", ".join(INTENTS)), "none"),
    Question("name", screen.new_name, "Lawn"),
)
BY_NAME: Mapping[str, Question] = {question.name: question for question in QUESTIONS}
# What is asked together, by the question that goes first; what a lawn is called is not asked.
SCREENS: Mapping[str, tuple[str, ...]] = {
    "place": (),
    "area": (),
    "grass": ("condition",),
    "depth": ("everywhere", "cause"),
    "soil": (),
    "water": ("heads",),
    "sprayed": ("sprayed_on", "killer"),
    "weekdays": ("people",),
    "intent": (),
}
# Answers that are beyond doubt: beside them a fault is that of the answer that is looked at. A
# grass that is not known bars no intent, and where nothing is sown any grass may grow, also one
# that is never seeded.
_BEYOND_DOUBT = {
    "area": "400 m2",
    "grass": "unknown",
    "place": "17601",
    "depth": "1 in",
    "intent": "none",
    "sprayed_on": "2026-01-01",
}


def asks_hollows(depth: str) -> bool:
    """Whether it is asked where it is low: not where nothing is filled."""
    return plainly("depth", depth).split()[:1] not in ([], ["0"], ["0.0"])


def is_filled(answers: Mapping[str, str]) -> bool:
    """Whether something is filled: by a depth, or by what was surveyed."""
    return bool(answers.get(SURVEY)) or asks_hollows(answers.get("depth", "1"))


def steps_of(answers: Mapping[str, str]) -> list[str]:
    """The questions that are asked one after the other, in their order: of hollows only where
    something is filled, of heads and of a label only where there are any."""
    filled = is_filled(answers)
    left_out = {
        "everywhere": not filled or bool(answers.get(SURVEY)),
        "cause": not filled,
        "heads": answers.get("water") != "system",
        "sprayed_on": not was_sprayed(answers),
        "killer": not was_sprayed(answers),
    }
    asked = [name for first, further in SCREENS.items() for name in (first, *further)]
    return [name for name in asked if not left_out.get(name, False)]


def is_whole(answers: Mapping[str, str]) -> bool:
    """Whether every screen is answered."""
    return all(name in answers for name in SCREENS)


def answer_of(name: str, answer: str) -> str | None:
    """An answer as it is kept: that of who does not know where somebody says so, in any words; None
    where nothing can be assumed."""
    question = BY_NAME[name]
    return (question.unknown or question.usual) if is_unknown(answer) else answer


def unassumed(name: str) -> Message:
    """What helps who does not know where nothing can be assumed."""
    return screen.new_near() if name == "place" else screen.new_pace()


def brief_text(answers: Mapping[str, str], lawn_id: str) -> str:
    """The TOML of a brief of answers by the names of their questions; what has no answer is as
    usual.

    When nobody is there may be answered under `AWAY`, and the table of a survey under `SURVEY`; it
    lies beside the brief as `SURVEY_FILE`. Of a grass without a name it may also be
    answered how it looks, by the keys of `LOOKS`. The place may also be said by `postal_code`,
    `town`, or `latitude` and `longitude`, with a `country`.
    """
    usual = {question.name: question.usual or "" for question in QUESTIONS}
    told = {name: plainly(name, answer) for name, answer in (usual | dict(answers)).items()}
    more = lines_of(told)
    tables = {
        "lawn": [
            f'id = "{lawn_id}"',
            *(f"{key} = {_quoted(told[key])}" for key in ("name", "area", "grass", "soil")),
            *_seen(told),
            *more.get("lawn", ()),
        ],
        "place": _place(told),
        "leveling": [_filled(told)],
        "seeding": [f"intent = {_quoted(told['intent'])}"],
        "water": more.get("water", []),
        "calendar": [f"weekdays = [{_days(told['weekdays'])}]", *_away(told.get(AWAY, ""))],
        "history": _sprayed(told),
        "site": _site(told, more.get("site", [])),
        "work": more.get("work", []),
    }
    return "\n\n".join("\n".join((f"[{name}]", *of)) for name, of in tables.items() if of) + "\n"


def faults_of(answers: Mapping[str, str], *, hints: bool = True) -> tuple[Message, ...]:
    """What is wrong with answers, as far as they go: nothing where a brief can be made of them.
    Without `hints` who asks helps in other words."""
    unread = [_unchosen(name) for name, answer in answers.items() if _is_unchosen(name, answer)]
    if unread:
        return tuple(unread)
    try:
        brief = in_book_names(brief_of(answers))
        if problems := check_brief(brief, load_book()):
            raise TurfplanError(problems)
        if "place" in answers:
            located(brief.place, Path())
    except TurfplanError as error:
        return tuple(_fault(problem, hints=hints) for problem in error.problems)
    return ()


def brief_of(answers: Mapping[str, str]) -> Brief:
    """The brief of answers, with the town that they name; what is not answered yet is beyond doubt.

    Raises TurfplanError.
    """
    text = brief_text({**_BEYOND_DOUBT, **answers}, "lawn")
    return with_town(brief_from(tomllib.loads(text)))


def _is_unchosen(name: str, answer: str) -> bool:
    """Whether an answer names none of the choices of its question."""
    plain = plainly(name, answer)
    return name in CHOICES and plain != NOT_KNOWN and chosen(name, plain) is None


def _unchosen(name: str) -> Message:
    allowed = listed([choice.told() for choice in CHOICES[name]], "or")
    return screen.new_one_of(choices=allowed)


def _fault(problem: Problem, *, hints: bool) -> Message:
    """What is wrong, with what helps: a hint, else the few words that are allowed; without `hints`
    what is wrong alone."""
    message, allowed = said(problem.message), problem.allowed
    hint = problem.hint if hints else None
    if hints and isinstance(allowed, Listed) and len(allowed.items) <= MOST_ALLOWED:
        message = errors.allowed(what=message, allowed=allowed)
    return message if hint is None else screen.new_fault(fault=message, hint=said(hint))


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
    climate = located(brief_of({"place": place}).place, Path()).climate
    frosts = (climate.last_frost, climate.first_frost)
    return FoundPlace(climate.found, *map(_in_year, frosts))


def country_of_place(place: str) -> str | None:
    """The country that a place lies in; None where that is not known, or not yet."""
    try:
        brief = brief_of({"place": place} if place else {})
    except TurfplanError:
        return "US"
    return country_of(brief) or country_near(brief.place)


def units_of_place(place: str) -> System:
    """The units that are read where a place lies; US ones where it is not known yet."""
    return System.US if country_of_place(place) == "US" else System.METRIC


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


def _seen(told: Mapping[str, str]) -> list[str]:
    """What was seen of the grass, as far as somebody looked."""
    seen = {key: told[key] for key, values in LOOKS.items() if told.get(key) in values}
    return [f"{key} = {_quoted(v) if key == 'leaf' else v}" for key, v in seen.items()]


def _site(told: Mapping[str, str], lines: list[str]) -> list[str]:
    """What limits the work; why the ground is uneven counts only where it is filled."""
    cause = None if is_filled(told) else chosen("cause", told["cause"])
    return [line for line in lines if cause is None or line not in cause.lines.values()]


def _sprayed(told: Mapping[str, str]) -> list[str]:
    """What killed weeds, and when; nothing where nobody sprayed, or knows of it."""
    if not was_sprayed(told):
        return []
    day = told["sprayed_on"]
    on = day if _ISO_DAY.fullmatch(day) else _quoted(day)
    return [f"herbicides = [{{ active_ingredient = {_quoted(killer_of(told))}, on = {on} }}]"]


def _filled(told: Mapping[str, str]) -> str:
    """How much is filled, everywhere, in hollows, or as it was surveyed."""
    if told.get(SURVEY):
        return f"survey = {_quoted(SURVEY_FILE)}"
    depth, everywhere = told["depth"], told["everywhere"]
    if everywhere.lower().startswith(EVERYWHERE):
        return f"depth = {_quoted(depth)}"
    return f"lows = [{{ depth = {_quoted(depth)}, share = {_number(everywhere)} }}]"


def _days(text: str) -> str:
    return ", ".join(_quoted(day.strip()) for day in text.split(",") if day.strip())


def _away(written: str) -> list[str]:
    """When nobody is there; nothing where nothing was said."""
    spans = spans_of(written, date.min) or ()
    days = ", ".join(f"{{ from = {first}, to = {last} }}" for first, last in spans)
    return [f"away = [{days}]"] if days else []


def _number(text: str) -> str:
    """A number as typed; anything else in quotes, so that the check of the brief says where it
    stands and what is allowed.
    """
    return text.strip() if re.fullmatch(r"\s*[-+]?\d+(\.\d+)?\s*", text) else _quoted(text)


def _quoted(text: str) -> str:
    return json.dumps(text, ensure_ascii=False)
