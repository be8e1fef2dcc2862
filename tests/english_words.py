"""Finds English words where a plan, or a program, speaks the pseudo-language.

What stays as it is: the user's own words, ids and commands that are typed, columns and brief keys,
units, and titles of publications and data sets, which are named as they name themselves.
"""

import base64
import csv
import html
import re
from collections.abc import Collection, Iterator
from pathlib import Path

from turfplan.message import Message
from turfplan.records.plan import Plan

WORD = re.compile(r"(?<![\w./-])[A-Za-z]{3,}(?![\w/])")
# Units, and what is typed as it stands: commands of the sheets, columns of a survey, words of its
# last column.
AS_THEY_ARE = {
    *(
        "tons",
        "gal",
        "gpm",
        "min",
        "turfplan",
        "log",
        "BRIEF",
        "TASK",
        "refused",
        "measured",
        "germination",
    ),
    *("point", "length", "width", "deepest", "what", "height", "ground"),
    *("wall", "paving", "swale", "trunk", "edge", "north", "light", "dark", "noindex"),
}
# What the licence of the climate data asks for, in its own words.
NOTICE = "Contains modified Copernicus Climate Change Service information"
# Columns of a table that hold ids and units; the items of amounts are ids too.
OF_IDS = ("id", "operation", "phase", "item", "status", "amounts", "unit", "unit_us")
TYPED = re.compile(r"`[^`]*`")


def shown(path: Path) -> Iterator[str]:
    """What a reader sees, or has read out, of a file of a plan."""
    text = path.read_bytes().decode()
    if path.suffix == ".ics":
        for line in text.replace("\r\n ", "").splitlines():
            if re.match("SUMMARY|DESCRIPTION|X-WR-CALNAME|NAME|X-WR-CALDESC|LOCATION", line):
                yield line.partition(":")[2].replace("\\n", " ")
    elif path.suffix == ".html":
        yield from shown_on_page(text)
    elif path.suffix == ".csv":
        for row in csv.DictReader(text.splitlines()):
            yield from (cell for column, cell in row.items() if column not in OF_IDS)


def shown_on_page(text: str) -> Iterator[str]:
    """What a reader sees, or has read out, of a page, with the pictures in it."""
    for picture in re.findall(r'src="data:image/svg\+xml;base64,([^"]*)"', text):
        yield from shown_on_page(base64.b64decode(picture).decode())
    text = re.sub(r"<(style|script).*?</\1>", "", text, flags=re.DOTALL)
    for attribute in re.findall(r'(?:aria-label|alt|title|placeholder)="([^"]*)"', text):
        yield html.unescape(attribute)
    text = re.sub(r"<code.*?</code>", "", text, flags=re.DOTALL)
    yield html.unescape(re.sub(r"<[^>]*>", "\n", text))


def english_in(text: str, allowed: Collection[str] = ()) -> set[str]:
    """The English words of a text; what stands in back-quotes is typed as it stands."""
    return {word for word in WORD.findall(TYPED.sub("", text)) if word not in allowed}


def texts_in(message: Message) -> Iterator[str]:
    """The texts among the values of a message, and of the messages in it."""
    for _, value in message.values:
        if isinstance(value, str):
            yield value
        elif isinstance(value, Message):
            yield from texts_in(value)


def own_words(plan: Plan) -> set[str]:
    """Words that a plan holds as they were given: names of its lawn and zones, of towns, its data
    set, ids, publications.
    """
    texts = [
        plan.lawn.name,
        *plan.sources.values(),
        *plan.addresses.values(),
        NOTICE,
        *texts_in(plan.climate.source),
    ]
    texts += texts_in(plan.place.name) if plan.place.name else []
    texts += [task.id.replace("_", " ") for task in plan.tasks]
    if plan.fill is not None:
        texts += [zone.name for zone in plan.fill.zones] if hasattr(plan.fill, "zones") else []
    return {word for text in texts for word in re.findall(r"[A-Za-z]+", text)}
