"""Tells messages to a reader: the only place where dates, numbers and units become words."""

import re
from collections.abc import Mapping
from datetime import date, time
from decimal import Decimal
from functools import lru_cache
from string import Formatter

from turfplan.message import (
    AS_WRITTEN,
    Clock,
    DateInYear,
    Day,
    Days,
    Form,
    Listed,
    Message,
    Month,
    NamedWeekday,
    Number,
    Printed,
    Quantity,
    RodReading,
    Sold,
    SurveySpot,
    Value,
)
from turfplan.messages.catalog import SOURCE, Catalog, catalog_of, place_of
from turfplan.messages.reader_units import in_units
from turfplan.messages.spelling import english_tag, respelled
from turfplan.reckoned_once import reckoned_once
from turfplan.units import (
    System,
    convert,
    dimension_of,
    format_number,
    format_volume,
    from_inside,
    pretty_unit,
    read_as,
)

# The units of what is told in the scale of the reader, whatever the source of it prints: in the US,
# and elsewhere.
_SCALES = {"temperature": ("F", "C"), "degree_days": ("degF day", "degC day")}
# What stands between these is told on a terminal alone: keys of the brief, commands.
ASIDE = "⟦⟧"
_ASIDES = re.compile(r"⟦([^⟧]*)⟧")
# So many messages are kept as they were told.
MOST_KEPT = 8_000
PLURAL = "n"  # the value of a message whose number decides the form of its sentence


class Words:
    """The words of one reader: a language, and the units and ways of writing dates of a country."""

    def __init__(
        self,
        catalog: Catalog,
        system: System,
        country: str | None = None,
        *,
        terminal: bool = False,
    ) -> None:
        self.catalog = catalog
        self.system = system
        self.country = country
        self._terminal = terminal
        self._told: dict[Message, Message] = {}
        self._days: dict[tuple[date, bool, bool], str] = {}
        self._labels: dict[str, str] = {}
        self._ways = "us" if system is System.US else "other"

    @property
    def language(self) -> str:
        """The language of the words."""
        return self.catalog.language

    @property
    def tag(self) -> str:
        """The language tag of the words: of English with the country whose spelling it has."""
        return english_tag(self.country) if self.language == SOURCE else self.language

    def on_terminal(self) -> "Words":
        """The same words with the keys and commands that only whoever sits at one can use."""
        return Words(self.catalog, self.system, self.country, terminal=True)

    def told(self, message: Message) -> Message:
        """The message with its text in these words; a message is worked out once."""
        known = self._told.get(message)
        if known is None:
            if len(self._told) >= MOST_KEPT:
                self._told.clear()
            known = Message(message.key, message.values, self._text_of(message))
            self._told[message] = known
        return known

    def text(self, message: Message | str) -> str:
        """A message in these words; a text stands as it is."""
        return message if isinstance(message, str) else self.told(message).text

    def say(self, key: str, **values: Value) -> str:
        """The sentence of a key, for what is only ever said at the edge: labels, headings,
        prompts.
        """
        if values:
            return self.told(Message(key, tuple(values.items()))).text
        # What has no values is as often said as there are keys: no more than the catalog holds.
        label = self._labels.get(key)
        if label is None:
            label = self._labels[key] = self._text_of(Message(key))
        return label

    def value(self, value: Value) -> str:
        """A value as a person of this language and these units reads it."""
        match value:
            case str():
                return value
            case int():
                return self._signs(str(value))
            case Message():
                return self.told(value).text
            case Quantity():
                step = value.us_step if self.system is System.US else value.metric_step
                return self._signs(
                    read_as(value.value, value.kind, self.system, value.rounding, step).text
                )
            case Printed():
                return self._printed(value)
            case Sold():
                return self._sold(value)
            case Number():
                return self._signs(_digits(value.value, value.form))
            case Day() | Days() | DateInYear() | Month() | NamedWeekday() | Clock():
                return self._when(value)
            case RodReading():
                return self._rod(value.mm)
            case SurveySpot():
                return f"x {self._along(value.x_m)}, y {self._along(value.y_m)}"
            case Listed():
                return self._joined([self.value(item) for item in value.items], value.joint)

    def _when(self, value: Day | Days | DateInYear | Month | NamedWeekday | Clock) -> str:
        match value:
            case Day():
                return self.day(value.day, weekday=value.weekday, year=value.year)
            case Days():
                return self.days(value.start, value.end, weekday=value.weekday, year=value.year)
            case DateInYear():
                month, day = (int(part) for part in value.month_day.split("-"))
                return self.say(f"date.{self._ways}.day", month=Month(month, short=True), day=day)
            case Month():
                return self._template(f"month.{'short' if value.short else 'full'}.{value.number}")
            case NamedWeekday():
                return self._template(f"weekday.{value.number}")
            case Clock():
                return self.clock(value.at)

    def day(self, day: date, *, weekday: bool = True, year: bool = True) -> str:
        """A date as it is read aloud: "Sat, Aug 14, 2027" in the US, "Sat 14 Aug 2027"
        elsewhere.
        """
        asked = day, weekday, year
        told = self._days.get(asked)
        if told is None:
            if len(self._days) >= MOST_KEPT:
                self._days.clear()
            told = self._days[asked] = self._day(day, weekday=weekday, year=year)
        return told

    def _day(self, day: date, *, weekday: bool, year: bool) -> str:
        parts = ("weekday_" if weekday else "") + "day" + ("_year" if year else "")
        values: dict[str, Value] = {"month": Month(day.month, short=True), "day": day.day}
        if weekday:
            values["weekday"] = NamedWeekday(day.weekday())
        if year:
            values["year"] = str(day.year)
        return self.say(f"date.{self._ways}.{parts}", **values)

    def days(self, start: date, end: date, *, weekday: bool = True, year: bool = True) -> str:
        """One day, or the first to the last of several; the year is said once where it is the
        same.
        """
        if start == end:
            return self.day(start, weekday=weekday, year=year)
        first = self.day(start, weekday=weekday, year=year and start.year != end.year)
        return self.say("range", first=first, last=self.day(end, weekday=weekday, year=year))

    def money(self, value: Decimal, currency: str) -> str:
        """A price with its currency, three letters of ISO 4217, before it."""
        return f"{currency} {self._signs(f'{value:,}')}"

    def clock(self, at: time) -> str:
        """A time of day: "6:00 am" in the United States, "06:00" elsewhere."""
        if self.system is not System.US:
            return self.say("clock.24", hour=f"{at.hour:02d}", minute=f"{at.minute:02d}")
        half = "clock.am" if at.hour < 12 else "clock.pm"
        return self.say(half, hour=str((at.hour - 1) % 12 + 1), minute=f"{at.minute:02d}")

    def _text_of(self, message: Message) -> str:
        try:
            return self._worded(message)
        except KeyError:
            # A key of an older plan that book or catalog no longer has: what was told then still
            # stands.
            if message.text:
                return message.text
            raise

    def _worded(self, message: Message) -> str:
        if message.key == AS_WRITTEN:
            text = message.values[0][1]
            assert isinstance(text, str)
            return in_units(text, self.system)
        values = dict(message.values)
        count = values.get(PLURAL)
        template = self._template(message.key, count if isinstance(count, int) else None)
        if ASIDE[0] in template:
            template = _ASIDES.sub(r"\1" if self._terminal else "", template)
        return "".join(self._piece(piece, values) for piece in _pieces(template))

    def _template(self, key: str, count: int | None = None) -> str:
        """The sentence of a key as the country of the reader spells it."""
        template = self.catalog.template(key, count)
        return respelled(template, self.country) if self.language == SOURCE else template

    def _piece(self, piece: tuple[str, str | None, str], values: Mapping[str, Value]) -> str:
        """Plain words, or a place with its value, with a capital or a small letter where the
        sentence asks for one.
        """
        plain, name, how = piece
        if name is None:
            return plain
        if "|" in name:
            us, metric = name.split("|")
            return plain + self._signs((us if self.system is System.US else metric).strip())
        told = self.value(values[name])
        match how:
            case "capital":
                told = told[:1].upper() + told[1:]
            case "small":
                told = told[:1].lower() + told[1:]
        return plain + told

    def _sold(self, sold: Sold) -> str:
        number, name = (
            (sold.value_us, sold.unit_us) if self.system is System.US else (sold.value, sold.unit)
        )
        unit = self._unit(name)
        digits = format_volume(number, name) or format_number(number, fractions=name == "in")
        return f"{self._signs(digits)} {unit}".strip()

    def _unit(self, name: str) -> str:
        """A unit as it is written.

        What is counted by the piece or the day has a word for it; all else a sign that is the same
        in every language.
        """
        key = f"unit.{name.replace(' ', '_')}"
        return self._template(key) if self.catalog.has(key) else pretty_unit(name)

    def _printed(self, printed: Printed) -> str:
        dimension = dimension_of(printed.unit) or ""
        unit, value = printed.unit, printed.value
        if printed.scaled and dimension in _SCALES:
            unit = _SCALES[dimension][self.system is not System.US]
        if unit != printed.unit:
            value = from_inside(convert(value, printed.unit, dimension), unit, dimension)
            value = round(value, 1 if abs(value) < 100 else -1)
        name = self._unit(unit) if printed.named else ""
        return self._signs(f"{format_number(value)} {name}".strip())

    def _rod(self, mm: float) -> str:
        unit, least = ("in", 0.01) if self.system is System.US else ("mm", 1.0)
        height = from_inside(mm, unit, "length")
        if height < least / 2:
            return self.say("less_than", amount=self._signs(f"{least:g} {unit}"))
        return self._signs(f"{_digits(height, 'hundredth' if unit == 'in' else 'whole')} {unit}")

    def _along(self, m: float) -> str:
        """A distance along an axis of a survey."""
        if self.system is not System.US:
            return self._signs(f"{m:.1f} m")
        inches = round(from_inside(abs(m) * 1000, "in", "length"))
        feet, rest = divmod(inches, 12)
        sign = "-" if m < 0 and inches else ""
        return f"{sign}{feet} ft" + (f" {rest} in" if rest else "")

    def _joined(self, items: list[str], joint: str) -> str:
        if len(items) < 2:
            return "".join(items)
        if joint in ("and", "or"):
            last = self.say(f"list.{joint}", first=items[-2], last=items[-1])
            return self.catalog.template("list.comma").join([*items[:-2], last])
        return self.catalog.template(f"list.{joint}").join(items)

    def _signs(self, digits: str) -> str:
        """Digits written in English with the signs of the language for decimals and thousands."""
        if self.language == SOURCE:
            return digits
        signs = {
            ".": self.catalog.template("number.decimal"),
            ",": self.catalog.template("number.thousands"),
        }
        return "".join(signs.get(sign, sign) for sign in digits)


def words_for(
    language: str,
    system: System,
    book: Mapping[str, str] | None = None,
    *,
    country: str | None = None,
    terminal: bool = False,
) -> Words:
    """The words of a reader; `book` are the English words of the book by key.

    English is spelled as in their `country`, and as in the catalogs where that is unknown. On a
    `terminal` keys and commands are told too. Raises TurfplanError for an unknown language.
    """
    place = str(place_of(language))
    return _words(place, language, system, book, country=country, terminal=terminal)


@reckoned_once
def _words(
    place: str,
    language: str,
    system: System,
    book: Mapping[str, str] | None,
    *,
    country: str | None,
    terminal: bool,
) -> Words:
    """The words of a reader by a catalog that lies at `place`: many lawns of a business have one
    reader, to whom much is said again and again."""
    return Words(catalog_of(language, book), system, country, terminal=terminal)


def _digits(value: float, form: Form) -> str:
    match form:
        case "whole":
            return f"{value:.0f}"
        case "tenth":
            return f"{value:.1f}"
        case "hundredth":
            return f"{value:.2f}"
        case "trimmed":
            return f"{value:.2f}".rstrip("0").rstrip(".")
        case "grouped":
            return f"{value:,.0f}"
        case "percent":
            return f"{value:.0%}"
        case "percent_tenth":
            return f"{value:.1%}"
        case "short":
            return format_number(value)
        case "plain":
            return f"{value:g}"


@lru_cache(maxsize=8192)
def _pieces(template: str) -> tuple[tuple[str, str | None, str], ...]:
    """A sentence cut at its places: the words before, the name of the place (None at the end), how
    it is written.
    """
    return tuple((plain, name, how or "") for plain, name, how, _ in Formatter().parse(template))
