"""The season book is read: short, each sentence once, and it ends with what was done."""

import base64
import re
from html import unescape
from io import BytesIO
from pathlib import Path

import pytest

from page_plan import on, page_plan, task
from planning import NAMES, POSSIBLE, example
from printed import book_html, english, order_html, unset
from tiers import sampled
from turfplan.errors import TurfplanError
from turfplan.export.sheets.book_sources import sources_of
from turfplan.export.sheets.said_once import SaidOnce, sentences_of
from turfplan.export.sheets.season_book import text_of
from turfplan.files.reading.photos import photos_beside
from turfplan.units import System

MOST_WORDS = 4500
# What stands in pictures and in lists of names is no sentence.
PICTURE = re.compile(r"<svg.*?</svg>|<dl class=\"poster\".*?</dl>", re.DOTALL)
MAPS = re.compile(
    r'<section class="page sheet follows" id="fill".*?</section>\s*(?=<section class="page)',
    re.DOTALL,
)
BLOCK = re.compile(
    r'<(p|li|dd|h\d)(?! class="(?:lawn|sheet-name|colophon)")\b[^>]*>(.*?)</\1>', re.DOTALL
)
# So long is a sentence that nobody wants to read twice.
LEAST_WORDS = 6


def read(html: str) -> str:
    """A book without its charts and its maps."""
    return MAPS.sub("", PICTURE.sub("", html))


@pytest.mark.parametrize("name", sampled(NAMES, "cool-overseed", "st-augustine-plugs"))
def test_no_example_has_too_many_words_nor_says_a_sentence_twice(name: str) -> None:
    """Beside maps and the labels of charts."""
    html = read(book_html(example(name)))
    assert len(text_of(html.split("<main")[1]).split()) <= MOST_WORDS
    said = [
        sentence
        for _, block in BLOCK.findall(html.split("<main")[1])
        for sentence in sentences_of(text_of(block))
        if len(sentence.split()) >= LEAST_WORDS
    ]
    twice = {sentence for sentence in said if said.count(sentence) > 1}
    assert twice == set() and len(said) > 30


def test_a_sentence_is_said_once() -> None:
    """Also where it stood inside another; a stop before a small letter ends none."""
    said = SaidOnce()
    assert said.new_of("Squeeze test: it falls apart. Look at it.") == (
        "Squeeze test: it falls apart. Look at it."
    )
    assert said.new_of("It falls apart. Smell it.") == "Smell it."
    assert said.all_new(["Look at it.", "It is dry."]) == ("It is dry.",)
    assert sentences_of("About 0.5 in. of it. Then 2 more.") == [
        "About 0.5 in. of it.",
        "Then 2 more.",
    ]


def test_what_was_done_fills_the_last_page() -> None:
    """Day, job and share; lines are left for the rest."""
    done = task(
        "seed",
        "seed",
        "Sow",
        on(8, 20),
        closed="done",
        status="COMPLETED",
        actual={"start": on(8, 23), "end": on(8, 23), "share": 0.5},
    )
    text = unset(text_of(book_html(page_plan(tasks=(done,)))))
    record = text[text.rindex("What I did") :]
    assert "Aug 23, 2027 Sow" in record and "50% of it done" in record
    assert "Aug 20" not in record


def test_sources_are_grouped_by_who_says_so() -> None:
    """Published ones with their address where it is known, practice, our judgement."""
    plan = example("cool-overseed")
    found = sources_of(plan, plan.citations, english(plan), SaidOnce())
    assert found.published and found.practice and found.judgement
    titles = [one.title for one in found.published]
    assert titles == sorted(titles, key=str.casefold) and len(titles) == len(set(titles))
    assert sum(one.address.startswith("http") for one in found.published) > len(titles) / 3
    assert not any("judgement" in line for line in found.judgement)


# What a sentence of our judgement may be no shorter than, and what no metric or US reader measures.
SHORTEST = 5
FOREIGN = {
    System.US: r"\d ?(?:mm|cm|m|kg|g|L|°C)\b",
    System.METRIC: r"\d ?(?:in|ft|lb|gal|°F)\b|\b(?:inch|inches|feet)\b",
}


@pytest.mark.parametrize("name", sampled(POSSIBLE, "st-augustine-plugs", "surveyed-metric"))
def test_what_is_judged_is_told_in_sentences_that_say_what_they_are_about(name: str) -> None:
    """No fragment such as a bare stretch of time, no name of a number, one system of units."""
    plan = example(name)
    found = sources_of(plan, plan.citations, english(plan), SaidOnce())
    for line in (*found.judgement, *found.practice):
        assert len(line.split()) >= SHORTEST, line
        assert not re.search(FOREIGN[plan.lawn.units], line), line
    assert not any(line.count(",") > 1 and line.startswith("Mixes") for line in found.practice)


def picture(path: Path) -> None:
    """A picture that tells where it was taken, lying on its side."""
    image = pytest.importorskip("PIL.Image", reason="the extra pdf is not installed")
    made = image.new("RGB", (40, 20), "green")
    tags = made.getexif()
    tags[0x0112] = 6
    tags.get_ifd(0x8825)[1] = "N"
    made.save(path, "JPEG", exif=tags, comment=b"secret place")


def test_pictures_fill_the_frames_without_where_they_were_taken(tmp_path: Path) -> None:
    """Drawn anew and upright, by name."""
    (tmp_path / "photos").mkdir()
    picture(tmp_path / "photos" / "2-after_the_work.jpg")
    picture(tmp_path / "photos" / "1-before.jpg")
    found = photos_beside(tmp_path / "lawn.toml")
    assert [called for called, _ in found] == ["1 before", "2 after the work"]
    image = pytest.importorskip("PIL.Image", reason="the extra pdf is not installed")
    for _, address in found:
        kept = base64.b64decode(address.partition(",")[2])
        with image.open(BytesIO(kept)) as drawn:
            assert drawn.size == (20, 40) and not drawn.getexif()
        assert b"secret" not in kept
    assert photos_beside(tmp_path / "photos" / "lawn.toml") == ()


def test_a_picture_that_is_none_is_told(tmp_path: Path) -> None:
    """With its name."""
    pytest.importorskip("PIL", reason="the extra pdf is not installed")
    (tmp_path / "photos").mkdir()
    (tmp_path / "photos" / "a.png").write_bytes(b"no picture")
    with pytest.raises(TurfplanError) as caught:
        photos_beside(tmp_path / "lawn.toml")
    assert "a.png" in str(caught.value.problems[0])


def test_words_are_explained_that_the_book_uses() -> None:
    """Those of its sources are not."""
    html = unescape(book_html(example("bermuda-sand")))
    assert "The words used here" in html and "Barrow" not in html.split('id="words"')[1]


@pytest.mark.parametrize("name", sampled(POSSIBLE, "bermuda-sand", "cool-overseed"))
def test_no_column_of_the_months_of_water_is_empty(name: str) -> None:
    """How much runs in at once is a column where some month tells it."""
    page = unset(book_html(example(name)))
    table = page.partition('months-table">')[2].partition("</table>")[0]
    heads, rows = re.findall(r"<th scope=\"col\">", table), re.findall(r"<td [^>]*>([^<]*)", table)
    assert heads and rows
    columns = len(heads) - 1
    assert all(set(rows[n::columns]) != {"–"} for n in range(columns))


def test_a_heading_begins_where_its_text_does() -> None:
    """What goes over two columns of the page has its heading at their edge."""
    for page in (book_html(example("cool-overseed")), order_html(example("cool-overseed"))):
        over = re.findall(
            r"<h3([^>]*)>[^<]*</h3>\s*<\w+ class=\"[^\"]*(?:two-columns|two-lists|steps full)", page
        )
        assert over and set(over) == {' class="full"'}


def test_no_key_of_a_chart_names_a_color() -> None:
    """What a key says is true of a grey print too."""
    page = unset(book_html(example("cool-overseed")))
    keys = re.findall(r"<(?:p|figcaption) class=\"key\">(.*?)</(?:p|figcaption)>", page, re.DOTALL)
    colors = re.compile(r"\b(?:green|red|blue|brown|yellow|orange)\b", re.IGNORECASE)
    assert any("on which each work is open" in key for key in keys)
    assert not [key for key in keys if colors.search(re.sub(r"<[^>]*>", "", key))]
