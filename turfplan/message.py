"""What is said, before it is words: a key of a catalog with typed values.

Rules, planner and judge make messages and compare them; nothing below the edge knows a sentence.
`messages.Words` tells one to a reader, for a language, a country and a system of units.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field, fields
from datetime import date, time
from typing import Any, Literal

AS_WRITTEN = "as_written"
Joint = Literal[
    "and", "or", "every_and", "comma", "semicolon", "sentences", "or_sentences", "range"
]
Form = Literal[
    "whole",
    "tenth",
    "hundredth",
    "trimmed",
    "grouped",
    "percent",
    "percent_tenth",
    "short",
    "plain",
]


@dataclass(frozen=True, slots=True)
class Quantity:
    """So much of something, `value` in the inside unit of its kind (mm, m2, m3, kg, g/m2, degC,
    min, mm/h, L).

    `kind` is a key of the reading table of `units`; `rounding` is nearest, up or down; `us_step`
    and `metric_step` are the steps of reading where they are not the table's.
    """

    value: float
    kind: str
    rounding: str = "nearest"
    us_step: float | None = None
    metric_step: float | None = None


@dataclass(frozen=True, slots=True)
class Sold:
    """A quantity that is already rounded to how it is sold, in SI and in its customary US twin."""

    value: float
    unit: str
    value_us: float
    unit_us: str


@dataclass(frozen=True, slots=True)
class Printed:
    """A number as its source prints it, in the source's unit; a temperature in the reader's scale,
    where it is `scaled`.

    Without `named` the unit is left out.
    """

    value: float
    unit: str
    named: bool = True
    scaled: bool = True


@dataclass(frozen=True, slots=True)
class Number:
    """A number without unit; `form` says how many of its digits are told.

    The percents are of a share from 0 to 1; `trimmed` is hundredths without needless noughts.
    """

    value: float
    form: Form = "whole"


@dataclass(frozen=True, slots=True)
class Day:
    """A date, with its weekday and its year or without."""

    day: date
    weekday: bool = True
    year: bool = True


@dataclass(frozen=True, slots=True)
class Days:
    """The first to the last of some days, both included; one day where they are the same."""

    start: date
    end: date
    weekday: bool = True
    year: bool = True


@dataclass(frozen=True, slots=True)
class DateInYear:
    """A day of every year, written as month and day: `12-01`."""

    month_day: str


@dataclass(frozen=True, slots=True)
class Month:
    """A month by its number from 1 to 12, by its full name or short."""

    number: int
    short: bool = False


@dataclass(frozen=True, slots=True)
class NamedWeekday:
    """A day of the week, 0 for Monday to 6."""

    number: int


@dataclass(frozen=True, slots=True)
class Clock:
    """A time of day."""

    at: time


@dataclass(frozen=True, slots=True)
class RodReading:
    """A height in mm as finely as a rod is read: hundredths of an inch or whole millimetres."""

    mm: float


@dataclass(frozen=True, slots=True)
class SurveySpot:
    """A place of a survey by its x and y in m: feet and inches, or metres with one decimal."""

    x_m: float
    y_m: float


@dataclass(frozen=True, slots=True)
class Listed:
    """Some values one after the other, joined as a language joins them."""

    items: tuple["Value", ...]
    joint: Joint = "and"

    def __bool__(self) -> bool:
        return bool(self.items)


@dataclass(frozen=True, slots=True)
class Message:
    """A key of a catalog with its values; `text` is what it was told as, and no part of what it
    says.

    A message that is `AS_WRITTEN` holds words that somebody typed, that a publication is called by,
    or that an older program wrote without a key.
    """

    key: str
    values: tuple[tuple[str, "Value"], ...] = ()
    text: str = field(default="", compare=False)

    def __str__(self) -> str:
        if self.text:
            return self.text
        if self.key == AS_WRITTEN:
            return str(self.values[0][1])
        # A key on a page is never what was meant: the first test that prints one finds it.
        raise TypeError(f"the message {self.key!r} must be told in words before it is printed")

    def __bool__(self) -> bool:
        return self.key != AS_WRITTEN or bool(self.values[0][1])


# A message, or a text that has no key yet.
Worded = Message | str
# An amount as it is read, or as it is sold.
Amounted = Quantity | Sold
Value = (
    str
    | int
    | Quantity
    | Sold
    | Printed
    | Number
    | Day
    | Days
    | DateInYear
    | Month
    | NamedWeekday
    | Clock
    | RodReading
    | SurveySpot
    | Listed
    | Message
)
_KINDS: dict[str, type[Any]] = {
    "quantity": Quantity,
    "sold": Sold,
    "printed": Printed,
    "number": Number,
    "day": Day,
    "days": Days,
    "month_day": DateInYear,
    "month": Month,
    "weekday": NamedWeekday,
    "clock": Clock,
    "rod_reading": RodReading,
    "spot": SurveySpot,
    "list": Listed,
}
_NAMES = {kind: name for name, kind in _KINDS.items()}
# The fields of each kind of value with their defaults.
_PARTS = {kind: [(part.name, part.default) for part in fields(kind)] for kind in _NAMES}


def said(value: Worded) -> Message:
    """A message; a text that has no key stands as it was written."""
    return as_written(value) if isinstance(value, str) else value


def as_written(text: str) -> Message:
    """Words that stand as somebody wrote them, in whatever language."""
    return Message(AS_WRITTEN, (("text", text),))


def sentences(*messages: Message | None) -> Message:
    """Several messages one after the other, as sentences of one text; those that are None are left
    out.
    """
    kept = tuple(message for message in messages if message is not None)
    return (
        kept[0] if len(kept) == 1 else Message("sentences", (("parts", Listed(kept, "sentences")),))
    )


def listed(items: Iterable[Value], joint: Joint = "and") -> Listed:
    """Values as a list of a sentence."""
    return Listed(tuple(items), joint)


def within(value: Value) -> Iterator[Value]:
    """A value and all that stands in it, each message before what it holds."""
    yield value
    if isinstance(value, Message):
        for _, inner in value.values:
            yield from within(inner)
    elif isinstance(value, Listed):
        for item in value.items:
            yield from within(item)


def length_mm(mm: float, rounding: str = "nearest", kind: str = "depth") -> Quantity:
    """A length in mm as it is read: `depth`, `height`, `distance` or `rain`."""
    return Quantity(mm, kind, rounding)


def cut_height(mm: float) -> Quantity:
    """A height of cut as a mower is set: eighths of an inch or 5 mm, never below what is asked."""
    return Quantity(mm, "height", "up", us_step=0.125, metric_step=5.0)


# Below this the usual step would be more than a tenth of what is told.
_LITTLE_NUTRIENT_KG = 0.5


def nutrient_mass(kg: float) -> Quantity:
    """Nitrogen, phosphate or potash in kg as it is told and bought: to a tenth of a pound, as laws
    and laboratories limit it, never to the bag; of a small lawn finer.

    A half is told alike of what was reckoned and of what a plan keeps of it, with three decimals.
    """
    kg = round(kg, 3)
    if kg < _LITTLE_NUTRIENT_KG:
        return Quantity(kg, "mass", us_step=0.02, metric_step=0.01)
    return Quantity(kg, "mass", us_step=0.1, metric_step=0.05)


# A depth of soil that is asked for is told in steps of this, in mm, or a quarter of an inch.
SOIL_STEP_MM = 5.0


def soil_depth(mm: float) -> Quantity:
    """A least depth of soil, in mm, as it is asked for and written into a brief."""
    return Quantity(mm, "height", "nearest", us_step=0.25, metric_step=SOIL_STEP_MM)


def message_json(message: Message) -> dict[str, Any]:
    """A message as `plan.json` keeps it: its key and its values, each with its kind."""
    return {
        "key": message.key,
        "values": {name: _value_json(value) for name, value in message.values},
    }


def message_from_json(data: dict[str, Any], text: str = "") -> Message:
    """A message as it was kept; values of an unknown kind raise ValueError."""
    return Message(
        data["key"],
        tuple((name, _value_from(value)) for name, value in data["values"].items()),
        text,
    )


def _value_json(value: Value) -> Any:
    if isinstance(value, str | int):
        return value
    if isinstance(value, Message):
        return message_json(value)
    parts: dict[str, Any] = {"is": _NAMES[type(value)]}
    for name, usual in _PARTS[type(value)]:
        part = getattr(value, name)
        if part != usual:
            parts[name] = (
                [_value_json(item) for item in part] if isinstance(part, tuple) else _plain(part)
            )
    return parts


def _plain(part: Any) -> Any:
    if isinstance(part, time):
        return part.strftime("%H:%M")
    return part.isoformat() if isinstance(part, date) else part


def _value_from(data: Any) -> Value:
    if isinstance(data, str | int):
        return data
    if "key" in data:
        return message_from_json(data)
    if data.get("is") not in _KINDS:
        raise ValueError(f"unknown kind of value {data.get('is')!r}")
    parts = {name: value for name, value in data.items() if name != "is"}
    match data["is"]:
        case "list":
            parts["items"] = tuple(_value_from(item) for item in parts.get("items", ()))
        case "day" | "days":
            parts |= {
                name: date.fromisoformat(parts[name])
                for name in ("day", "start", "end")
                if name in parts
            }
        case "clock":
            parts["at"] = time.fromisoformat(parts["at"])
    made: Value = _KINDS[data["is"]](**parts)
    return made
