"""English by country: catalogs and book are written as in the United States, and every word that
Britain spells otherwise is known.
"""

import re
from collections.abc import Iterator
from functools import cache

import pytest

from planning import TODAY, brief_of, input_of
from test_export_plain_words import paper
from turfplan.app.plan_lawn import planned
from turfplan.book.words import english_of
from turfplan.files.reading.book import load_book
from turfplan.messages import words_for
from turfplan.messages.catalog import _whole, place_of
from turfplan.messages.spelling import (
    BRITISH,
    BRITISH_ISLES,
    ELSEWHERE,
    NOT_CANADIAN,
    english_tag,
    respelled,
    spelled_in,
)
from turfplan.units import System

WORD = re.compile(r"(?<![\w`])[a-z]+(?![\w`])")
# Spellings of Britain by their ends, and words that have them everywhere.
BRITISH_ENDS = re.compile(
    r"(?:[bdhlmnrv]ours?|ised?|ising|isers?|isation|ysed?|metres?|litres?|centres?"
    r"|(?:level|label|fuel|model|travel|signal)l(?:ed|ing)|sulph\w+|mould\w*|plough\w*|kerbs?|grey)$"
)
EVERYWHERE = {
    *("advise", "advised", "raise", "raised", "raising", "rise", "rising", "otherwise", "noise"),
    *("lengthwise", "precise", "exercise", "promise", "promised", "surprise", "wise", "likewise"),
    *("hour", "hours", "four", "flour", "your", "yours", "our", "ours", "pour", "sour", "moisture"),
    *("clockwise", "arises", "revised", "supervise", "devised", "comprise"),
    # A dimension, which an error calls by its id.
    "labour",
}
# Spellings of the United States by their ends.
AMERICAN_ENDS = re.compile(
    r"(?:[bdhlmnv]ors?|ized?|izing|izers?|ization|yzed?|meters?|liters?|centers?"
    r"|(?:level|label|fuel|model|travel|signal)(?:ed|ing)|sulf(?:ur|ate)s?|molds?|plows?|curbs?|gray)$"
)
SPELLED_ALIKE = {
    *("color", "door", "doors", "indoor", "indoors", "outdoors", "floor", "poor", "moor", "minor"),
    *("indicator", "size", "sized", "sizes", "donor", "vendor", "tremor", "diameter"),
    *("diameters", "perimeter", "parameter", "parameters", "leveler", "nor", "phosphor"),
    *("aminocyclopyrachlor", "agcenter"),
}


@cache
def sentences() -> tuple[str, ...]:
    """Every sentence of the catalog and the book."""
    compiled = _whole(place_of("en"))._catalog  # type: ignore[attr-defined]
    keys = [key for key in compiled if key]
    # The place in a source is told as the source has it, and a fact is called by its id.
    ids = re.compile(r"book\.(?:facts|regions)\..*\.(?:name|place(?:\.\d+)?)$")
    book = (text for key, text in english_of(load_book()).items() if not ids.match(key))
    return (*(compiled[key] for key in keys), *book)


def words() -> Iterator[str]:
    """Every small word in them, but what is typed as it stands."""
    for sentence in sentences():
        plain = re.sub(r"`[^`]*`|\{[^{}|]*\}", " ", sentence)
        yield from WORD.findall(plain.lower())


def test_the_source_is_spelled_as_in_the_united_states() -> None:
    """No word of the list, nor one that ends as Britain's do."""
    found = set(words())
    assert not found & set(BRITISH.values())
    ends = {word for word in found if BRITISH_ENDS.search(word)} - EVERYWHERE - set(BRITISH)
    assert not ends, sorted(ends)


def test_every_word_that_britain_spells_otherwise_is_known() -> None:
    """A word that ends as those do is on the list, or spelled alike everywhere."""
    unknown = {w for w in set(words()) if AMERICAN_ENDS.search(w)} - set(BRITISH) - SPELLED_ALIKE
    assert not unknown, sorted(unknown)


def test_the_list_is_used_and_sound() -> None:
    """Each word is one, no spelling leads to another of the list, and Canada's part is of it."""
    assert all(re.fullmatch("[a-z]+", word) for pair in BRITISH.items() for word in pair)
    assert not set(BRITISH) & set(BRITISH.values()) and set(BRITISH) >= NOT_CANADIAN
    assert len(set(BRITISH.values())) == len(BRITISH)


@pytest.mark.parametrize(
    ("country", "told", "tag"),
    [
        (None, "Color: a fertilizer {color} `color` colors", "en-US"),
        ("US", "Color: a fertilizer {color} `color` colors", "en-US"),
        ("GB", "Colour: a fertiliser {color} `color` colours", "en-GB"),
        ("NZ", "Colour: a fertiliser {color} `color` colours", "en-GB"),
        ("CA", "Colour: a fertilizer {color} `color` colours", "en-CA"),
    ],
)
def test_words_are_spelled_as_in_their_country(country: str | None, told: str, tag: str) -> None:
    """Whole words with their capitals; places and what is typed stay."""
    assert respelled("Color: a fertilizer {color} `color` colors", country) == told
    assert english_tag(country) == tag
    assert bool(spelled_in(country)) == (tag != "en-US")


@pytest.mark.parametrize(
    ("country", "told"),
    [
        ("US", "Sod on a truck: ask for utility marks, `sod` {sod}, nothing into a storm drain."),
        ("CA", "Sod on a truck: ask for utility marks, `sod` {sod}, nothing into a storm drain."),
        (
            "GB",
            "Turf on a lorry: ask for marks of buried services, `sod` {sod}, "
            "nothing into a surface-water drain.",
        ),
        (
            "AU",
            "Turf on a truck: ask for marks of buried services, `sod` {sod}, "
            "nothing into a stormwater drain.",
        ),
    ],
)
def test_things_are_called_as_in_their_country(country: str, told: str) -> None:
    """Terms of several words too, with their capitals; places and what is typed stay."""
    american = "Sod on a truck: ask for utility marks, `sod` {sod}, nothing into a storm drain."
    assert respelled(american, country) == told


def test_each_term_is_one_of_the_catalogs() -> None:
    """None of them stands there for a word that nobody says any more, and none leads to another."""
    text = "\n".join(sentences()).lower()
    for terms in (ELSEWHERE, BRITISH_ISLES):
        assert [term for term in terms if not re.search(rf"(?<!\w){term}(?!\w)", text)] == []
    assert not set(ELSEWHERE.values()) & {*ELSEWHERE, *BRITISH_ISLES}


def test_a_name_keeps_its_spelling() -> None:
    """What somebody typed is no sentence of a catalog."""
    british = words_for("en", System.METRIC, country="GB")
    assert british.say("week.title", lawn="Gray Center") == "Gray Center: week by week"
    assert british.tag == "en-GB"


@pytest.mark.parametrize(
    ("place", "wrong"),
    [
        ({"country": "GB", "latitude": 53.5, "longitude": -2.0}, "british"),
        ({"postal_code": "17601"}, "american"),
    ],
)
def test_sheets_and_calendar_are_spelled_as_in_the_country(
    place: dict[str, object], wrong: str
) -> None:
    """As the command plans it: no word of the other spelling on paper or in the feed."""
    given = input_of(
        brief_of({"place": {"postal_code": None, **place}, "leveling": {"depth": "0.5 in"}}), None
    )
    plan = planned(given, today=TODAY.date())
    texts = paper(plan).values()
    wrongly = set(BRITISH) if wrong == "british" else set(BRITISH.values())
    rightly = set(BRITISH.values()) if wrong == "british" else set(BRITISH)
    found = {word for text in texts for word in re.findall(r"[a-z]+", text.lower())}
    assert not found & wrongly and found & rightly
    told = " ".join(texts).lower()
    terms = {term: bool(re.search(rf"(?<!\w){term}(?!\w)", told)) for term in BRITISH_ISLES}
    assert terms["storm drain"] is terms["truck"] is (wrong == "american")
    assert not (wrong == "british" and any(terms.values()))
