"""Every sentence of a plan names its amounts in the units of its reader."""

import re
from collections.abc import Iterator
from datetime import timedelta

import pytest

from planning import NAMES, POSSIBLE, example, example_brief
from tiers import sampled
from turfplan.files.reading.book import load_book
from turfplan.message import Message, as_written
from turfplan.records.plan import Plan
from turfplan.records.plan_task import PlanRecord
from turfplan.units import System

NUMBER = r"\d[\d.,/]* ?"
METRIC = re.compile(NUMBER + r"(?:°C|mm|cm|m|kg|g|L|m²|m³|g/m²|kg/m²|t/m³|L/min)(?![\w²³/])")
US = re.compile(NUMBER + r"(?:°F|in|ft|yd|lb|oz|gal|ft²|yd³|gpm)(?![\w²³])")
WORDS = re.compile(r"\b(?:inch|inches|feet|foot|gallons?|pounds?|yards?|degrees)\b")
# Names that a person typed, notes that quote a publication in its own words, and the keys behind
# the texts.
QUOTED = frozenset({"lawn", "sources", "citations", "addresses", "lawn_id", "published", "said"})


def sentences(record: object) -> Iterator[str]:
    """Every text in a record and in what it holds, but for the quoted ones."""
    if isinstance(record, str):
        yield record
    elif isinstance(record, Message):
        yield str(record)
    elif isinstance(record, tuple):
        for item in record:
            yield from sentences(item)
    elif isinstance(record, dict):
        for item in record.values():
            yield from sentences(item)
    elif isinstance(record, PlanRecord):
        for name in type(record).model_fields:
            if name not in QUOTED:
                yield from sentences(getattr(record, name))


@pytest.mark.full
@pytest.mark.parametrize("name", NAMES)
def test_every_text_of_a_plan_is_read(name: str) -> None:
    """Titles, reasons, steps and cautions are among the sentences that the tests below look
    through.
    """
    plan = example(name)
    told = set(sentences(plan))
    assert {str(caution) for caution in plan.cautions} <= told and plan.cautions
    for task in plan.tasks:
        assert {str(text) for text in (task.title, task.why, *task.how, *task.not_later)} <= told


def foreign(plan: Plan) -> list[str]:
    """The sentences of a plan that speak in units its reader does not measure in."""
    pattern = METRIC if plan.lawn.units is System.US else US
    spelt = WORDS if plan.lawn.units is System.METRIC else None
    return [
        s
        for s in sentences(plan)
        if pattern.search(s) or (spelt and spelt.search(s) and "yard:" not in s)
    ]


@pytest.mark.full
@pytest.mark.parametrize("name", NAMES)
def test_a_plan_speaks_one_system_of_units(name: str) -> None:
    """A US plan holds no metric amount and a metric plan no US one, in tasks, windows, orders,
    accounts and cautions.
    """
    assert foreign(example(name)) == []


@pytest.mark.full
@pytest.mark.parametrize("name", ["british-metric", "surveyed-us"])
def test_a_foreign_amount_would_be_found(name: str) -> None:
    """A sentence with both scales is one that the test above reports."""
    plan = example(name)
    both = plan.model_copy(
        update={"cautions": (*plan.cautions, as_written("Not above 85 °F (29 °C)."))}
    )
    assert foreign(both) == ["Not above 85 °F (29 °C)."]


@pytest.mark.full
@pytest.mark.parametrize(("name", "scale"), [("british-metric", "°F"), ("surveyed-us", "°C")])
def test_temperatures_of_the_notes_are_in_the_reader_s_scale(name: str, scale: str) -> None:
    """The book's thresholds are cited in the scale the weeks are read in."""
    cited = [str(text) for text in example(name).citations.values()]
    assert any("°" in text for text in cited) and not [text for text in cited if scale in text]


def bare_keys(plan: Plan) -> list[str]:
    """The sentences that name a key of the brief or of the book as if it were a word; commands are
    set as code, and lines of a brief stand alone.
    """
    prose = (
        re.sub(r"`[^`]*`|^\w+ = \S+(?:; leave out \w+)?$", "", text)
        for text in sentences(plan)
        if " " in text
    )
    return [
        text
        for text in prose
        if re.search(
            r"\b[a-z]+_[a-z]+|\b[a-z]+\.[a-z]{3,}\b|\bsource [A-Z]+[0-9_]|\d{4}-\d\d-\d\d", text
        )
    ]


@pytest.mark.full
@pytest.mark.parametrize("name", NAMES)
def test_a_plan_speaks_words_not_keys(name: str) -> None:
    """No sentence holds a bare key of a file, the short name of a source or a day in figures."""
    assert bare_keys(example(name)) == []


@pytest.mark.full
def test_a_bare_key_would_be_found() -> None:
    """Such a sentence is one that the test above reports."""
    plan = example("surveyed-us")
    keyed = (
        "Enter it as local.nitrogen_blackouts.",
        "It is usual (source NY_ECL).",
        "Set site.trees there.",
        "Nobody is there from 2027-07-03 on.",
    )
    assert bare_keys(plan.model_copy(update={"cautions": tuple(map(as_written, keyed))})) == list(
        keyed
    )


@pytest.mark.parametrize("name", sampled(POSSIBLE, "cool-overseed", "bermuda-sand"))
def test_a_step_speaks_of_this_lawn(name: str) -> None:
    """Of clay where the soil may hold some, of seedlings where something is sown, of seed where the
    grass is sold as seed, and of plugs where it is as plugs; the check of the watering of what
    comes next."""
    plan, told_soil = example(name), example_brief(name).lawn.soil
    book = load_book()
    grass = book.species[max(plan.lawn.grass, key=lambda part: part.share).species]
    sowings = [task for task in plan.tasks if task.plays("sowing", "planting")]
    passes = [task for task in plan.tasks if task.plays("spreading")]
    for task in plan.tasks:
        told = " ".join([*(step.text for step in task.how), task.go.text if task.go else ""])
        if task.operation == "core_aerate" and "Dry soil: water" in told:
            fine = told_soil is None or book.soils[plan.lawn.soil].fine
            assert ("clay never" in told) == fine
        if task.operation == "last_mow":
            assert ("seedlings" in told) == bool(sowings)
        if "Bare patches after" in told:
            asked = told.split("note them for ")[1]
            assert ("seed" in asked) == grass.seedable
            assert ("plugs" in asked or "planting" in asked) == ("plugs" in grass.plantable)
        if task.operation == "irrigation_check" and sowings and passes:
            later = sowings[0].start - passes[0].start > timedelta(days=60)
            assert ("Each layer" in str(task.why)) == later
