"""Answers as people spell them, in the words of a brief: "60 x 70 ft", "an inch", "weekends"."""

import re
from collections.abc import Callable, Collection, Mapping

from turfplan.app.brief_choices import CHOICES, spelled_choice
from turfplan.app.typed_areas import area_of_pieces
from turfplan.errors import TurfplanError
from turfplan.files.reading.book import load_book
from turfplan.units import from_inside, parse_quantity

_NUMBER = r"\d+(?:\.\d+)?"
_SHARE = re.compile(rf"({_NUMBER})\s*(%|percent)?", re.IGNORECASE)
_FRACTION = re.compile(r"(\d+)\s*/\s*([1-9]\d*)")
_PARTED = rf"\d+\s*/\s*[1-9]\d*|{_NUMBER}"
# The unit of the first may stand there again: "half an inch to 2 inches".
_RANGE = re.compile(
    rf"({_PARTED})\s*([a-z]+?|[\"”″])?\s*(?:to|-|–|or)\s*({_PARTED})\s*([^\d\s/].*)",
    re.IGNORECASE,
)
_DAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
# As few letters of a day as tell it from the others, and as the brief has them.
_LETTERS = 3
_JOINING = ("and", "the", "on", "also", "")
_UNTIL = ("to", "till", "until", "through", "thru")
_ALL_DAYS = re.compile(
    r"(on\s)?(every|any|each|all)(\sof\sthe)?(\sdays?)?(\sof\sthe\sweek)?|always|daily"
)
# A finger laid flat: "one finger thick", "two fingers".
_FINGERS = re.compile(
    rf"({_PARTED}|two|three|four)\s*fingers?(?:.?s)?(?:\s*(?:thick|deep|wide|widths?|breadths?))?",
    re.IGNORECASE,
)
_SPELLED_NUMBERS = {"two": 2.0, "three": 3.0, "four": 4.0}
# What stands before an amount and says that nobody measured it.
_ABOUT = re.compile(r"^(about|around|roughly|approximately|approx\.?|circa|ca\.?|some|~)\s*", re.I)
_THOUSANDS = re.compile(r"(?<=\d),(?=\d{3}(?!\d))")
_AREAS = (
    (re.compile(r"\b(square|sq\.?)\s*(feet|foot|ft\.?)|\bsf\b", re.I), "ft2"),
    (re.compile(r"\b(square|sq\.?)\s*(yards?|yds?\.?)", re.I), "yd2"),
    (re.compile(r"\b(square|sq\.?)\s*(met(er|re)s?|m)\b|\b(qm|sqm)\b", re.I), "m2"),
)
_PARTS = (
    (re.compile(r"^three quarters( of)?( an?)?\s", re.I), "3/4 "),
    (re.compile(r"^(a |one )?half( of)?( an?)?\s", re.I), "1/2 "),
    (re.compile(r"^(a |one )?(quarter|fourth)( of)?( an?)?\s", re.I), "1/4 "),
    (re.compile(r"^(a |one )?third( of)?( an?)?\s", re.I), "1/3 "),
    (re.compile(r"^a couple( of)?\s", re.I), "2 "),
    (re.compile(r"^(an?|one)\s", re.I), "1 "),
)
_NOTHING = ("0", "none", "nothing", "no", "nil", "zero", "not at all", "flat", "level", "even")
_UNKNOWN = re.compile(
    r"\?+|unknown|idk|dunno|no\s(idea|clue)"
    r"|((sorry,?\s)?i\s)?(do\snot|don.?t)\sknow(\s(it|that))?|(i\sam\s|i.m\s)?not\ssure",
    re.IGNORECASE,
)
_SPELLED_SHARES = {
    "a half": 1 / 2,
    "half": 1 / 2,
    "a third": 1 / 3,
    "a quarter": 1 / 4,
    "a fifth": 1 / 5,
    "a tenth": 1 / 10,
}
_EVERYWHERE = ("all over", "all of it", "the whole lawn", "everywhere", "whole", "all")
_INTENTS = {
    "nothing": "none",
    "no": "none",
    "care": "none",
    "sow nothing": "none",
    "bare spots": "patch",
    "patches": "patch",
    "spots": "patch",
    "over seed": "overseed",
    "seed over": "overseed",
    "new lawn": "renovate",
    "start again": "renovate",
    "plugs": "plant",
    "sod": "plant",
}
# What is said of a soil beside its texture.
_BESIDE_TEXTURE = re.compile(
    r"an?|the|very|quite|rather|mostly|mainly|of|is|it|bit|and|some|with|soil|ground|earth|dirt"
    r"|garden|top|topsoil|gr[ea]y|red|brown|black|yellow|orange|white|blue|dark|pale|light|deep"
    r"|gumbo|good|old|poor|wet|damp|dry|hard|soft|stiff|heavy|sticky|dense|stony|stones|pebbles|gravel"
)
# Soils as they are spoken of, by the words that are left; a soil that is "sandy" is a loam of sand.
_SOILS = {
    "clayey": "clay",
    "sandy": "sandy loam",
    "silty": "silt loam",
    "loamy": "loam",
    "peaty": "peat",
    "chalky": "chalk",
}
_HEAVY = frozenset({"heavy", "sticky", "stiff", "dense"})
_DEGREES = re.compile(rf"({_NUMBER})\s*°?\s*([NS])[\s,;]+({_NUMBER})\s*°?\s*([EW])", re.IGNORECASE)
_STATE = re.compile(r"([^\d,]+?)\s+([A-Z]{2,3})")


def plainly(name: str, answer: str) -> str:
    """An answer to a question in the words of the brief; one that is spelled otherwise as it is,
    so that the check of the brief says what is wrong with it."""
    if name in CHOICES:
        return spelled_choice(name, answer) or answer
    spelled = _SPELLED.get(name)
    return answer if spelled is None else spelled(answer.strip()) or answer


def is_unknown(answer: str) -> bool:
    """Whether somebody says that they do not know: "I don't know", "not sure", "?"."""
    return _UNKNOWN.fullmatch(answer.strip().rstrip(".!")) is not None


def _amount(answer: str) -> str:
    """An amount without what is said around its number."""
    answer = _THOUSANDS.sub("", _ABOUT.sub("", answer))
    for pattern, written in _PARTS:
        answer = pattern.sub(written, answer, count=1)
    return answer


def _area(answer: str) -> str:
    """Two sides, or several pieces: what they cover; else the area itself."""
    answer = _amount(answer)
    for pattern, unit in _AREAS:
        answer = pattern.sub(unit, answer)
    return area_of_pieces(answer) or answer


def _depth(answer: str) -> str:
    """A depth; of a range the middle, for a mean is asked for."""
    if answer.lower() in _NOTHING:
        return "0 in"
    answer = _amount(answer)
    if fingers := _FINGERS.fullmatch(answer):
        number = _SPELLED_NUMBERS.get(fingers[1].lower()) or _number(fingers[1])
        return f"{number * load_book().si('by_hand.finger'):.4g} mm"
    found = _RANGE.fullmatch(answer)
    if found is None:
        return answer
    first, own, second, unit = found.groups()
    try:
        between = [parse_quantity(f"{_number(first)} {own or unit}", "length")]
        between.append(parse_quantity(f"{_number(second)} {unit}", "length"))
        alike = from_inside(sum(between) / 2, "in", "length")
    except TurfplanError:
        return answer
    if own is None or own[:2].lower() == unit[:2].lower():
        return f"{(_number(first) + _number(second)) / 2:g} {unit}"
    return f"{alike:.4g} in"


def _number(text: str) -> float:
    """A number, or a fraction of one."""
    part = _FRACTION.fullmatch(text)
    return float(text) if part is None else int(part[1]) / int(part[2])


def _share(answer: str) -> str | None:
    words = answer.lower()
    if words in _EVERYWHERE:
        return "e"
    if words in _SPELLED_SHARES:
        return f"{_SPELLED_SHARES[words]:.6g}"
    answer = _ABOUT.sub("", answer)
    if part := _FRACTION.fullmatch(answer):
        return f"{int(part[1]) / int(part[2]):.6g}"
    found = _SHARE.fullmatch(answer)
    if found is None:
        return None
    number = float(found[1])
    return f"{number / 100:.6g}" if found[2] or number > 1 else found[1]


def _weekdays(answer: str) -> str | None:
    """The days that are named, in the order of the week."""
    plain = answer.strip().lower()
    if _ALL_DAYS.fullmatch(plain):
        return _written(_DAYS)
    spaced = re.sub(r"\s*[-–—]\s*", " to ", plain)
    words = [word for word in re.split(r"[^a-z]+", spaced) if word not in _JOINING]
    days: list[str] = []
    goes_on = False
    for word in words:
        if word in _UNTIL and days and not goes_on:
            goes_on = True
            continue
        named = _named(word)
        if not named:
            return None
        days += _between(days[-1], named[0]) if goes_on else named
        goes_on = False
    return _written(days) if days and not goes_on else None


def _written(days: Collection[str]) -> str:
    return ",".join(day[:_LETTERS] for day in _DAYS if day in days)


def _named(word: str) -> tuple[str, ...]:
    """The days that a word stands for: one that it begins, also where it stands for all of them
    ("Sundays"), a weekend, the days of work."""
    if word in ("weekend", "weekends"):
        return _DAYS[5:]
    if word in ("weekday", "weekdays", "workdays"):
        return _DAYS[:5]
    for day in _DAYS:
        if len(word) >= _LETTERS and (day.startswith(word) or word == f"{day}s"):
            return (day,)
    return ()


def _between(first: str, last: str) -> tuple[str, ...]:
    """The days from one to another, over the end of the week too."""
    begin, end = _DAYS.index(first), _DAYS.index(last)
    return tuple(_DAYS[(begin + n) % len(_DAYS)] for n in range((end - begin) % len(_DAYS) + 1))


def _place(answer: str) -> str | None:
    """Degrees with their quarters as signs; a town with its state behind a comma."""
    if found := _DEGREES.fullmatch(answer):
        latitude = found[1] if found[2] in "nN" else f"-{found[1]}"
        longitude = found[3] if found[4] in "eE" else f"-{found[3]}"
        return f"{latitude}, {longitude}"
    town = _STATE.fullmatch(answer)
    return f"{town[1]}, {town[2]}" if town else None


def _intent(answer: str) -> str | None:
    words = " ".join(re.split(r"[^a-z]+", answer.lower())).strip()
    return _INTENTS.get(words) or words.replace(" ", "_") or None


def _soil(answer: str) -> str | None:
    """A texture without what is said around it: "grey silt", "rather sandy"; what is only heavy or
    sticky is clay."""
    words = re.findall(r"[^\W\d_]+", answer.lower())
    left = [word for word in words if not _BESIDE_TEXTURE.fullmatch(word)]
    if not left:
        return "clay" if _HEAVY.intersection(words) else None
    texture = " ".join(left)
    return _SOILS.get(texture, texture) if left != words or texture in _SOILS else None


def _grass(answer: str) -> str | None:
    """A stand of many grasses has no name of its own."""
    words = re.split(r"[^a-z]+", answer.lower())
    return "mixed" if {"mixed", "mixture", "mix"}.intersection(words) else None


_SPELLED: Mapping[str, Callable[[str], str | None]] = {
    "area": _area,
    "depth": _depth,
    "everywhere": _share,
    "weekdays": _weekdays,
    "place": _place,
    "intent": _intent,
    "soil": _soil,
    "grass": _grass,
}
