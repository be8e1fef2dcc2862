"""Messages: keys with typed values, told in words at the edge alone."""

import json
import pickle
from dataclasses import replace
from datetime import date, time
from pathlib import Path

import pytest

from pseudo_language import LANGUAGE, MARKED, install
from turfplan.errors import TurfplanError
from turfplan.message import (
    Clock,
    DateInYear,
    Day,
    Days,
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
    as_written,
    message_from_json,
    message_json,
    sentences,
)
from turfplan.messages import building, catalog, words_for
from turfplan.messages.entry import amount_value
from turfplan.records.plan_task import Amount
from turfplan.units import System

US, METRIC = (words_for("en", system) for system in (System.US, System.METRIC))
EVERY = Message(
    "key",
    (
        ("text", "as it is"),
        ("count", 3),
        ("quantity", Quantity(12.7, "depth", "down", us_step=0.25)),
        ("sold", Sold(5.5, "m3", 7.25, "yd3")),
        ("printed", Printed(0.125, "in", named=False)),
        ("number", Number(0.25, "percent")),
        ("day", Day(date(2027, 8, 14), year=False)),
        ("days", Days(date(2027, 8, 14), date(2027, 9, 1))),
        ("every", DateInYear("12-01")),
        ("month", Month(5)),
        ("weekday", NamedWeekday(6)),
        ("clock", Clock(time(6, 5))),
        ("rod", RodReading(3.2)),
        ("spot", SurveySpot(-1.5, 0.25)),
        ("list", Listed(("a", Message("inner"), 2), "or")),
    ),
)


def test_what_is_built_from_the_catalogs_is_current() -> None:
    """The compiled catalog and the typed functions are those of the sentences as they stand."""
    for path, content in building.built().items():
        assert path.read_bytes() == content, (
            f"{path.name}: run python -m turfplan.messages.building"
        )


def test_sheets_have_whole_files_of_the_catalog() -> None:
    """A key that sheets have no sentence of stands in none of their files: nothing is hidden."""
    whole = catalog._keys(catalog.place_of("en"))
    place = catalog.place_of("en")
    of_sheets = catalog._keys_in(catalog._read(place.parent / catalog.SHEETS_FOLDER / place.name))
    begin = {catalog._beginning(key) for key in of_sheets}
    assert 500 < len(of_sheets) < len(whole) / 4
    assert of_sheets == {key for key in whole if catalog._beginning(key) in begin}


def test_a_message_comes_back_from_json_as_it_was() -> None:
    """Every kind of value, nested ones too."""
    assert message_from_json(json.loads(json.dumps(message_json(EVERY)))) == EVERY
    assert pickle.loads(pickle.dumps(EVERY)) == EVERY


def test_a_value_of_an_unknown_kind_is_refused() -> None:
    """Only what the program knows is read."""
    with pytest.raises(ValueError, match="smell"):
        message_from_json({"key": "k", "values": {"x": {"is": "smell"}}})


@pytest.mark.parametrize(
    ("value", "us", "metric"),
    [
        (Day(date(2027, 8, 14)), "Sat, Aug 14, 2027", "Sat 14 Aug 2027"),
        (Day(date(2027, 8, 14), weekday=False, year=False), "Aug 14", "14 Aug"),
        (
            Days(date(2027, 8, 14), date(2027, 9, 1)),
            "Sat, Aug 14 to Wed, Sep 1, 2027",
            "Sat 14 Aug to Wed 1 Sep 2027",
        ),
        (
            Days(date(2027, 12, 31), date(2028, 1, 1), weekday=False),
            "Dec 31, 2027 to Jan 1, 2028",
            "31 Dec 2027 to 1 Jan 2028",
        ),
        (Clock(time(0, 5)), "12:05 am", "00:05"),
        (Clock(time(12, 0)), "12:00 pm", "12:00"),
        (DateInYear("12-01"), "Dec 1", "1 Dec"),
        (Quantity(12.7, "depth"), "1/2 in", "13 mm"),
        (Quantity(2.5, "temperature_difference"), "5 °F", "3 °C"),
        (Quantity(0.1, "temperature_difference"), "0 °F", "0 °C"),
        (Printed(0.125, "in"), "0.125 in", "0.125 in"),
        (Printed(50.0, "F"), "50 °F", "10 °C"),
        (Printed(50.0, "F", named=False), "50", "10"),
        (Printed(50.0, "F", scaled=False), "50 °F", "50 °F"),
        (Number(0.125, "percent"), "12%", "12%"),
        (Number(12345.6, "grouped"), "12,346", "12,346"),
        (Number(0.125, "percent_tenth"), "12.5%", "12.5%"),
        (Number(1.5, "trimmed"), "1.5", "1.5"),
        (RodReading(12.7), "0.50 in", "13 mm"),
        (RodReading(0.1), "less than 0.01 in", "less than 1 mm"),
        (SurveySpot(3.048, -1.6), "x 10 ft, y -5 ft 3 in", "x 3.0 m, y -1.6 m"),
        (Listed(("a", "b", "c")), "a, b and c", "a, b and c"),
        (Listed(("a", "b"), "or"), "a or b", "a or b"),
        (Listed(()), "", ""),
    ],
)
def test_values_are_written_for_units_and_country(value: Day, us: str, metric: str) -> None:
    """Dates, times, amounts and lists as a person of the place reads them."""
    assert (US.value(value), METRIC.value(value)) == (us, metric)


def test_an_untold_message_cannot_be_printed() -> None:
    """A key never stands on a page: whoever prints one before it is told gets an error."""
    with pytest.raises(TypeError, match="must be told"):
        str(Message("entry.step"))
    assert f"{US.told(Message('reasons.plan_ends'))}" == "The plan ends then."


def test_a_key_that_is_gone_is_told_as_it_was() -> None:
    """A plan of an older book still says what it said; what was never told is an error."""
    gone = Message("book.order.gone.reason")
    was = replace(gone, text="The spade comes last.")
    assert US.text(Message("reasons.hangs_on", (("reason", was), ("task", "Dig")))) == (
        "The spade comes last. (It hangs on “Dig”.)"
    )
    with pytest.raises(KeyError):
        METRIC.text(gone)


def test_words_of_a_person_stand_as_they_are() -> None:
    """What somebody typed is told letter by letter, braces too."""
    assert US.text(as_written("Ann's {lawn}")) == "Ann's {lawn}"


def test_sentences_follow_one_another() -> None:
    """Several messages are one text; a single one is itself."""
    one, two = Message("reasons.plan_starts"), Message("reasons.plan_ends")
    assert sentences(one, None) == one
    assert US.text(sentences(one, two)) == "The plan starts then. The plan ends then."


def test_an_unknown_language_is_told_with_the_known_ones() -> None:
    """The error names what there is."""
    with pytest.raises(TurfplanError) as caught:
        words_for("xx", System.US)
    assert "en" in str(caught.value.problems[0].allowed)


def test_the_pseudo_language_marks_every_word(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A catalog in a folder of its own is a language like another, and no word of it is English."""
    install(tmp_path)
    monkeypatch.setenv(catalog.MORE, str(tmp_path))
    words = words_for(LANGUAGE, System.METRIC)
    told = words.day(date(2027, 8, 14)) + words.say("reasons.plan_ends")
    assert not any("a" <= letter.lower() <= "z" for letter in told)
    assert any(letter in MARKED for letter in told)


def test_a_language_is_there_where_its_catalog_lies_today(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """One read from a folder does not stay when another folder is named."""
    for name in ("one", "other"):
        (tmp_path / name).mkdir()
    install(tmp_path / "one")
    monkeypatch.setenv(catalog.MORE, str(tmp_path / "one"))
    words_for(LANGUAGE, System.METRIC)
    monkeypatch.setenv(catalog.MORE, str(tmp_path / "other"))
    with pytest.raises(TurfplanError):
        words_for(LANGUAGE, System.METRIC)


FAULTY = {
    'msgid "odd.key"\nmsgstr "a {place}"': "a place has no declared kind",
    '#. place: smell\nmsgid "odd.key"\nmsgstr "a {place}"': "unknown kind",
    '#. place: text\nmsgid "odd.key"\nmsgstr "nothing"': "has no place",
    'msgid "other.key"\nmsgstr "a"': "begins with another name",
    'msgid "odd.key"\nmsgid_plural "odd.key"\nmsgstr[0] "a"\nmsgstr[1] "b"': "plural",
    'msgid "odd.key"\nmsgstr ""': "has no sentence",
}


@pytest.mark.parametrize("entry", FAULTY)
def test_a_faulty_catalog_is_refused(entry: str, tmp_path: Path) -> None:
    """Each fault of a catalog is told with file, key and what is wrong."""
    path = tmp_path / "odd.po"
    path.write_text(
        'msgid ""\nmsgstr "Content-Type: text/plain; charset=UTF-8\\n"\n\n' + entry + "\n", "utf-8"
    )
    faults: list = []  # type: ignore[type-arg]
    building.read_entries(path, faults)
    assert any(FAULTY[entry] in fault.message for fault in faults) and all(
        "odd.po" in fault.where for fault in faults
    )


@pytest.mark.parametrize(
    ("item", "kg", "us", "metric"),
    [
        ("nitrogen_total", 3.629, "8 lb", "3.65 kg"),
        ("nitrogen_total", 5.4 * 0.45359237, "5.4 lb", "2.45 kg"),
        ("product", 10.0, "22 lb", "10 kg"),
        ("lime", 3.629, "8 lb", "3.7 kg"),
        ("lime", 3.7, "9 lb", "3.7 kg"),
    ],
)
def test_what_has_a_limit_is_not_rounded_up(item: str, kg: float, us: str, metric: str) -> None:
    """3.629 kg are 8 lb and 5.4 lb are no six: nitrogen is told to a tenth of a pound; what is
    bought is rounded up, but not by the last digit of a kilogram.
    """
    amount = Amount.of(item, kg, "kg", "Why.")  # type: ignore[arg-type]
    told = [words.value(amount_value(amount)) for words in (US, METRIC)]
    assert told == [us, metric]


@pytest.mark.parametrize("limit_lb", [0.7, 0.9, 1.0])
def test_a_rate_is_never_told_above_its_limit(limit_lb: float) -> None:
    """The most at once is told as it is in pounds, in grams within a tenth."""
    limit = limit_lb * 4.88242763638305
    metric = float(METRIC.value(Quantity(limit, "rate")).split()[0])
    assert metric <= limit + 0.05
    assert US.value(Quantity(limit, "rate")).startswith(f"{limit_lb:g} lb")
