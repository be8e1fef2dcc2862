"""Answers of a new brief that are chosen, not typed: how the grass stands, why it is uneven, how it
is watered, what was sprayed, how many people work; each with the lines of a brief that say it."""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from turfplan.message import Message
from turfplan.phrases import open_answers as seen
from turfplan.phrases import page as phrases

# What is chosen, or typed, by who does not know.
NOT_KNOWN = "unknown"
# What is kept of nobody having sprayed.
NOTHING_SPRAYED = "none"
# A bag that feeds and kills weeds at once, as a brief says it where nobody read its label.
FEEDS_TOO = "weed and feed"


@dataclass(frozen=True, slots=True)
class BriefChoice:
    """An answer that can be chosen: its key, its words, and the lines that it adds to tables of a
    brief."""

    key: str
    told: Callable[[], Message]
    lines: Mapping[str, str]


def _stands(key: str, told: Callable[[], Message]) -> BriefChoice:
    return BriefChoice(key, told, {"lawn": f'condition = "{key}"'})


def _bumps(key: str, told: Callable[[], Message], *, over: bool = False) -> BriefChoice:
    cleared = f'\ncleared = ["{key}"]' if over else ""
    return BriefChoice(key, told, {"site": f'bump_cause = "{key}"{cleared}'})


def _watered(key: str, told: Callable[[], Message], lines: str, *, heads: bool) -> BriefChoice:
    site = f"sprinklers = {str(heads).lower()}"
    return BriefChoice(key, told, {"water": lines, "site": site})


def _heads(key: str, told: Callable[[], Message]) -> BriefChoice:
    return BriefChoice(key, told, {"water": f'head = "{key}"'})


def _hands(number: str, told: Callable[[], Message]) -> BriefChoice:
    return BriefChoice(number, told, {"work": f"people = {number}"})


_BY_HAND = "\n".join(("possible = true", "timer = false"))
_BY_TIMER = "\n".join(("possible = true", "timer = true"))
# By the names of the questions, in the order in which they are offered.
CHOICES: Mapping[str, tuple[BriefChoice, ...]] = {
    "condition": (
        _stands("dense", phrases.stands_dense),
        _stands("thin", phrases.stands_thin),
        _stands("patchy", phrases.stands_patchy),
        _stands("bare", phrases.stands_bare),
    ),
    "cause": (
        _bumps("settling", phrases.cause_settled, over=True),
        _bumps("construction", seen.built, over=True),
        _bumps("trench", seen.trench),
        _bumps("stump", seen.stump),
        _bumps("moles", seen.moles),
        _bumps("worms", seen.worms),
        _bumps("frost", seen.frost),
        _bumps("traffic", seen.traffic),
    ),
    "water": (
        _watered("hose", phrases.water_hose, _BY_HAND, heads=False),
        _watered("timer", phrases.water_timer, _BY_TIMER, heads=False),
        _watered("system", phrases.water_system, _BY_TIMER, heads=True),
        _watered("rain", phrases.water_rain, "possible = false", heads=False),
    ),
    "heads": (
        _heads("spray", phrases.heads_spray),
        _heads("rotor", phrases.heads_rotor),
        _heads("rotary_nozzle", phrases.heads_streams),
    ),
    "sprayed": (
        BriefChoice(NOTHING_SPRAYED, phrases.sprayed_nothing, {}),
        BriefChoice("sprouting", phrases.sprayed_sprouting, {}),
        BriefChoice("leaves", phrases.sprayed_leaves, {}),
        BriefChoice("feed", phrases.sprayed_feed, {}),
    ),
    "people": (
        _hands("1", phrases.people_one),
        _hands("2", phrases.people_two),
        _hands("3", phrases.people_three),
        _hands("4", phrases.people_four),
    ),
}
_KINDS: Mapping[str, tuple[tuple[str, str], ...]] = {
    "condition": (
        (r"bare|gone|dead|no\sgrass", "bare"),
        (r"patch|spots?\b|hol(e|es)\b", "patchy"),
        (r"thin|weak|poor|sparse", "thin"),
        (r"thick|dense|good|full|fine|healthy|ok\b", "dense"),
    ),
    "cause": (
        (r"mole|vole|gopher|dig|tunnel", "moles"),
        (r"worm", "worms"),
        (r"stump|root|tree", "stump"),
        (r"pipe|trench|drain|cable", "trench"),
        (r"frost|heav|winter", "frost"),
        (r"rubble|build|construction", "construction"),
        (r"settl|sunk|sank|old", "settling"),
        (r"dog|traffic|wheel|feet|walk|car\b|mower|play", "traffic"),
    ),
    "water": (
        (
            r"^(?!.*(hose|sprinkler|barrel|butt|tank)).*rain|^no\b|^none|^not|nothing|never|can.?t",
            "rain",
        ),
        (r"ground|pop.?up|irrigation|reticulation|system|install", "system"),
        (r"timer", "timer"),
        (r"hose|can\b|yes|sprinkler|hand|barrel|butt|tank|bore|well\b|tap\b", "hose"),
    ),
    "heads": (
        (r"stream|nozzle", "rotary_nozzle"),
        (r"rotor|turn|gear", "rotor"),
        (r"spray|fan|fixed|pop", "spray"),
    ),
    "sprayed": (
        (r"^no\b|none|nothing|never|nope", NOTHING_SPRAYED),
        (r"feed", "feed"),
        (r"pre.?em|prevent|crabgrass|sprout|seed", "sprouting"),
        (r"weed|leaf|leaves|spray|kill|yes", "leaves"),
    ),
    "people": (
        (r"[4-9]|\d\d|four|five|six|famil", "4"),
        (r"3|three", "3"),
        (r"2|two|wife|husband|partner|both|us\b", "2"),
        (r"1|one|me\b|alone|self", "1"),
    ),
}


def chosen(name: str, answer: str) -> BriefChoice | None:
    """The choice that an answer to a question names; None for an answer that names none."""
    return next((choice for choice in CHOICES.get(name, ()) if choice.key == answer), None)


def spelled_choice(name: str, answer: str) -> str | None:
    """The key of the choice that an answer in free words means; None where it means none."""
    plain = answer.strip().lower()
    if plain == NOT_KNOWN or chosen(name, plain):
        return plain
    return next((key for said, key in _KINDS[name] if re.search(said, plain)), None)


def lines_of(told: Mapping[str, str]) -> dict[str, list[str]]:
    """The lines that all choices among answers add to each table of a brief, and what was sprayed:
    the name on its label as far as somebody read it, and the day."""
    found: dict[str, list[str]] = {}
    for name in CHOICES:
        if name == "heads" and told.get("water") != "system":
            continue
        choice = chosen(name, told.get(name, ""))
        for table, lines in choice.lines.items() if choice else ():
            found.setdefault(table, []).append(lines)
    return found


def was_sprayed(answers: Mapping[str, str]) -> bool:
    """Whether somebody said that weeds were killed."""
    return answers.get("sprayed", NOT_KNOWN) not in (NOT_KNOWN, NOTHING_SPRAYED)


def killer_of(answers: Mapping[str, str]) -> str:
    """The name of what killed weeds, as a brief says it."""
    named = answers.get("killer", NOT_KNOWN)
    if named != NOT_KNOWN:
        return named
    return FEEDS_TOO if answers.get("sprayed") == "feed" else NOT_KNOWN
