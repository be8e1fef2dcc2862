"""The answers to what is still open of a season, as its page takes them: by a choice or in a field,
each of which becomes lines of the brief."""

import json
import re
from collections.abc import Callable, Mapping
from datetime import date

from starlette.datastructures import FormData

from turfplan.message import Message
from turfplan.messages import Words
from turfplan.phrases import open_answers as phrases
from turfplan.serve.forms import plain_field

LONGEST = 40
_NUMBER = re.compile(r"\d{1,2}(?:[.,]\d{1,2})?")
# What a look at bumps and hollows can show, with the lines of a brief that say it; those that are
# over hold nothing up.
_SEEN: tuple[tuple[str, Callable[[], Message]], ...] = (
    ('bump_cause = "settling", cleared = ["settling"]', phrases.settled),
    ('bump_cause = "construction", cleared = ["construction"]', phrases.built),
    ('bump_cause = "settling"', phrases.settling),
    ('bump_cause = "trench"', phrases.trench),
    ('bump_cause = "stump"', phrases.stump),
    ('bump_cause = "moles"', phrases.moles),
    ('bump_cause = "worms"', phrases.worms),
    ('bump_cause = "frost"', phrases.frost),
    ('bump_cause = "traffic"', phrases.traffic),
)
_SOILS: Mapping[str, Callable[[], Message]] = {
    "clay": phrases.clay,
    "silt loam": phrases.silt,
    "loam": phrases.loam,
    "sandy loam": phrases.sandy,
    "sand": phrases.sand,
}
_LEVELS: Mapping[str, Callable[[], Message]] = {
    "low": phrases.low,
    "medium": phrases.medium,
    "high": phrases.high,
}
# The values of a soil test that are asked for, by their keys of the brief.
TESTED = ("phosphorus", "potassium")


def choices(kind: str, words: Words) -> list[tuple[str, str]]:
    """What can be chosen for an answer, each as lines of the brief with its words; none for a
    question that is answered otherwise."""
    if kind == "look":
        return [(lines, words.text(told())) for lines, told in _SEEN]
    if kind == "soil":
        return [(f"soil = {json.dumps(soil)}", words.text(t())) for soil, t in _SOILS.items()]
    if kind == "test":
        return [(level, words.text(told())) for level, told in _LEVELS.items()]
    return []


def tested_lines(form: FormData) -> str:
    """The lines of a brief that say what a soil test found; nothing where none was filled in. What
    is no number stands there as it was typed, so that the check of the brief names it."""
    acidity = plain_field(form, "ph", LONGEST)
    lines = []
    if acidity:
        is_number = _NUMBER.fullmatch(acidity) is not None
        lines.append(f"ph = {acidity.replace(',', '.') if is_number else json.dumps(acidity)}")
    for nutrient in TESTED:
        level = str(form.get(nutrient, ""))
        lines += [f'{nutrient} = "{level}"'] if level in _LEVELS else []
    day = plain_field(form, "sampled", LONGEST)
    if lines and day:
        lines.append(f"on = {day if _is_day(day) else json.dumps(day)}")
    return ", ".join(lines)


def _is_day(text: str) -> bool:
    """Whether a text is a date as a field of a browser sends it."""
    try:
        return date.fromisoformat(text).isoformat() == text
    except ValueError:
        return False
