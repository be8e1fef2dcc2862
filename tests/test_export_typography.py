"""Printed text: one sign for a fraction, no break within an amount or a date."""

import re

import pytest

from planning import POSSIBLE, example
from printed import book_html, checklist_html, order_html, season_ics, unset
from tiers import sampled
from turfplan.export.typography import (
    BLOCK,
    FRACTIONS,
    JOINER,
    NO_BREAK,
    typeset,
    typeset_pieces,
)
from turfplan.messages import words_for
from turfplan.units import System

US, METRIC = (words_for("en", system) for system in (System.US, System.METRIC))


@pytest.mark.parametrize(
    ("plain", "printed"),
    [
        ("2 7/8 in", "2⅞~in"),
        ("1/4 to 3/8 in", "¼ to ⅜~in"),
        ("about 1/32 in", "about ¹⁄₃₂~in"),
        ("11 1/2 ft by 8 ft", "11½~ft by 8~ft"),
        ("0.5 lb/1,000 ft² N", "0.5~lb/^1,000~ft²~N"),
        ("2.1 g/m² N, 3 bu/1,000 ft²", "2.1~g/^m²~N, 3~bu/^1,000~ft²"),
        ("25 mm, 4 kg/m², 18 °C, 30 min, 10 %", "25~mm, 4~kg/^m², 18~°C, 30~min, 10~%"),
        ("4 m² No, and/or 12 mm/h", "4~m² No, and/or 12~mm/^h"),
        ("Sat, Aug 14, 2027", "Sat,~Aug~14,~2027"),
        ("from Aug 14 to Sat, Sep 4", "from Aug~14 to Sat,~Sep~4"),
        ("Sat 14 Aug 2027", "Sat~14~Aug~2027"),
        ("10 to 15 cores, 3 inches, 2 more", "10 to 15 cores, 3 inches, 2 more"),
        ("50:25:25, 0-46-0, 1/5", "50:25:25, 0-46-0, 1/5"),
        ("Maybe 5 of May 2", "Maybe 5 of May~2"),
    ],
)
def test_text_is_set(plain: str, printed: str) -> None:
    """A break stands nowhere between a figure and its unit, nor within a day."""
    printed = printed.replace("~", NO_BREAK).replace("^", JOINER)
    assert typeset(f"<p>{plain}</p>", US) == f"<p>{printed}</p>"


def test_tags_and_what_is_typed_stay() -> None:
    """Attributes, styles and code are no text."""
    page = '<style>a{width:1 in}</style><p title="1/2 in"><code>depth = "1/2 in"</code> 1/2 in</p>'
    set_for_print = page[: -len("1/2 in</p>")] + f"½{NO_BREAK}in</p>"
    assert typeset(page, METRIC) == set_for_print


@pytest.mark.parametrize("length", [1, 3, 7, 1_000])
def test_a_page_is_set_alike_however_it_comes(length: int) -> None:
    """Wherever a piece or a block ends: within a date, an amount, a tag, a style or a script."""
    part = (
        '<p title="1/2 in">Sat, Aug 14, 2027: 2 7/8 in<br/>of 25 mm</p>'
        "<script>if (a < 1 in && b > 2 in) {}</script><style>a > b{width:1 in}</style>"
        "<code>1/2 in</code>3 lb < 4 lb"
    )
    page = part * (2 * BLOCK // len(part)) + " 5 lb"
    pieces = (page[at : at + length] for at in range(0, len(page), length))
    assert "".join(typeset_pieces(pieces, US)) == typeset(page, US)
    assert typeset(page, US).startswith(typeset(part, US)[:-4])


@pytest.mark.parametrize("name", sampled(POSSIBLE, "cool-overseed", "british-metric"))
def test_every_sheet_is_set_and_no_calendar(name: str) -> None:
    """No fraction with a stroke and no breaking unit on any sheet; a calendar stays plain."""
    plan = example(name)
    for write in (checklist_html, order_html, book_html):
        page = write(plan)
        text = re.sub(r"<(style|code)[^>]*>.*?</\1>|<[^>]*>", "", page, flags=re.DOTALL)
        assert not re.findall(r"(?<![\d/])[1357]/[248](?![\d/])", text)
        assert not re.findall(r"\d (?:mm|lb|ft²|yd³|m³|°F|min)\b", text)
        assert NO_BREAK in text and unset(page) != page
    feed = season_ics(plan).decode()
    assert NO_BREAK not in feed and not set(feed) & set(FRACTIONS.values())
