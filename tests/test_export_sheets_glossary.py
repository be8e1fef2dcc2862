"""Every word of the trade that a page uses has its line in plain words."""

import re

import pytest

from page_plan import page_plan
from planning import POSSIBLE, example
from printed import book_html, terms_in
from tiers import sampled

# Words a gardener may not know. A new one on a page is a word to replace or to explain.
TRADE = (
    "aerate",
    "barrow load",
    "canopy",
    "catch can",
    "common practice",
    "compost",
    "cool-season",
    "core-aerate",
    "degree days",
    "depletion",
    "dethatch",
    "dormant",
    "evaporation",
    "field capacity",
    "germination",
    "herbicide",
    "infiltration",
    "intake",
    "judgement",
    "lime",
    "loam",
    "median",
    "nitrogen",
    "overseed",
    "phosphate",
    "phosphorus",
    "plugs",
    "potash",
    "preventer",
    "quartiles",
    "runoff",
    "scarify",
    "screened",
    "silt",
    "sod",
    "soil temperature",
    "sprigs",
    "starter",
    "stolons",
    "thatch",
    "tine",
    "top-dress",
    "uniformity",
    "warm-season",
    "wilting",
    "window",
)


@pytest.mark.parametrize("word", TRADE)
def test_a_word_of_the_trade_has_its_line(word: str) -> None:
    """A sentence that holds the word brings its meaning, which is a sentence of its own."""
    found = terms_in(f"Here {word} is told.")
    assert found
    assert all(meaning[0].isupper() and meaning.endswith(".") for _, meaning in found)


def test_a_plain_sentence_needs_no_glossary() -> None:
    """Nothing is explained that nobody uses."""
    assert terms_in("Begin early and drink enough.") == ()


def test_terms_stand_in_order_of_the_alphabet_and_once() -> None:
    """A reader finds a word where it is looked for."""
    names = [word.lower() for word, _ in terms_in(" ".join(TRADE))]
    assert names == sorted(set(names))


@pytest.mark.full
@pytest.mark.parametrize(
    "name", sampled(["invented", *POSSIBLE], "invented", "st-augustine-plugs", "surveyed-us")
)
def test_the_words_of_a_book_are_explained_in_it(name: str) -> None:
    """Each trade word in the text of a season book has its meaning in its glossary."""
    plan = page_plan() if name == "invented" else example(name)
    # Titles of publications are not explained.
    sources = re.compile(r'<section[^>]*id="sources".*?</section>', re.DOTALL)
    html = sources.sub("", book_html(plan))
    before, after = re.split(r'<dl class="glossary[^"]*">', html)
    glossary, rest = after.split("</dl>")
    text = re.sub(r"<style>.*?</style>|<svg.*?</svg>|<[^>]+>", " ", before + rest, flags=re.DOTALL)
    used = [word for word in TRADE if re.search(rf"\b{word}", text, re.IGNORECASE)]
    missing = {
        term
        for word in used
        for term, _ in terms_in(word, plan)
        if f"<dt>{term}</dt>" not in glossary
    }
    assert len(used) > 5
    assert missing == set()


def test_a_machine_that_is_reserved_is_no_seed() -> None:
    """The book of a lawn without seed does not explain what is kept of it."""
    assert "Seed kept for" not in book_html(example("st-augustine-plugs"))
    assert "Seed kept for" in book_html(example("cool-overseed"))
