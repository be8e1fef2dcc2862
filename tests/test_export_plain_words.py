"""Nothing of the engine stands on paper or in a calendar: no key of the brief, no command, no word
that only the program uses.
"""

import html
import re
from datetime import timedelta

import pytest

from planning import POSSIBLE, example
from printed import unset
from random_lawns import COUNT, random_plan
from test_export_add_up import plan_called
from test_seasons import begun, done_until
from tiers import sampled
from turfplan.app.outputs import words_of
from turfplan.export.calendar.season_ics import season_ics
from turfplan.export.sheets.changes_page import changes_html
from turfplan.export.sheets.checklist import checklist_html
from turfplan.export.sheets.order_sheet import order_html, order_lines
from turfplan.export.sheets.season_book import book_html
from turfplan.export.sheets.watering_card import water_html
from turfplan.messages import words_for
from turfplan.messages.telling import ASIDE
from turfplan.records.plan import Plan
from turfplan.units import System

QUICK = ("cool-overseed", "british-metric", "transition-fescue", 0, 9, 18, 27)
# Words that only the program, its documents and its terminal use.
ENGINE = re.compile(
    r"\b(brief|plan(?:ned)? (?:it )?again|re-?plan\w*|session|sessions|campaigns?|accounts?"
    r"|logged|log (?:it|this|what|the)|turfplan|person-hours?)\b"
    r"|`|[⟦⟧]|\b[a-z]+_[a-z_]+\b",
    re.IGNORECASE,
)
# The sources at the end of the book, where publications are named as they name
# themselves.
NOTES = '<section class="page sheet follows" id="sources"'


def paper(plan: Plan) -> dict[str, str]:
    """What a reader sees of each sheet, and of the calendar."""
    words = words_of(plan)
    pages = {
        "week": checklist_html(plan, words),
        "order": order_html(plan, words),
        "changes": changes_html(plan, words),
        "water": water_html(plan, words),
        "book": book_html(plan, words).split(NOTES)[0],
    }
    seen = {name: text_of(page) for name, page in pages.items()}
    feed = season_ics(plan, words).decode().replace("\r\n ", "")
    said = (line.partition(":") for line in feed.splitlines())
    shown = (text for name, _, text in said if re.match("SUMMARY|DESCRIPTION|X-WR-CAL|NAME", name))
    return seen | {"calendar": "\n".join(shown).replace("\\n", "\n")}


def text_of(page: str) -> str:
    """The text of a page between its tags."""
    shown = re.sub(r"<(style|script)[^>]*>.*?</\1>|<[^>]*>", "\n", page, flags=re.DOTALL)
    return unset(html.unescape(shown))


@pytest.mark.parametrize("name", sampled((*POSSIBLE, *range(COUNT)), *QUICK))
def test_no_word_of_the_engine_is_printed(name: str | int) -> None:
    """On the weekly sheet, order, changes and book, and in the calendar."""
    assert_plain(plan_called(name))


def assert_plain(plan: Plan) -> None:
    """No word of the engine stands on any sheet, or in the calendar."""
    for sheet, text in paper(plan).items():
        found = [
            (hit[0], text[max(0, hit.start() - 60) : hit.end() + 60])
            for hit in ENGINE.finditer(text.replace(plan.lawn.name, ""))
        ]
        assert not found, (sheet, found[:5])


@pytest.mark.parametrize(
    ("kind", "name"),
    [
        ("refused", "delivery.1"),
        ("refused", "collect.seed"),
        ("not_done", "call.machines.1"),
        ("skipped", "collect.fertilizer"),
    ],
)
def test_buying_again_is_told_plainly(kind: str, name: str) -> None:
    """What was refused, missed or left out is told on paper without the engine's words."""
    season = begun()
    day = season.day(name)
    done_until(season, day)
    season.log(kind, task=name, on=day)
    season.make(day + timedelta(1))
    assert_plain(season.plan)


def test_mix_that_is_short_is_told_plainly_and_as_it_is_sold() -> None:
    """Its one load is in whole steps, what it is made of adds up to it, and its trip says it."""
    season = begun()
    day = season.day("delivery.1")
    done_until(season, day)
    season.log("delivered", task="delivery.1", on=day, amount=2.0, unit="m3")
    season.make(day + timedelta(1))
    plan, words = season.plan, words_of(season.plan)
    assert_plain(plan)
    (view,) = (view for view in order_lines(plan, words) if view.line.item == "mix")
    sold = view.line.value_us
    trip = plan.task("collect.mix")
    assert sold == pytest.approx(round(sold * 4) / 4, abs=1e-3) and sold > 0
    assert view.loads == (view.amount,) and trip is not None and view.amount in str(trip.title)
    parts = [float(n) for n in re.findall(r" ([\d.]+) [a-z]", view.made_of)]
    assert len(parts) == len(view.line.parts) and sum(parts) == pytest.approx(sold, abs=0.0051)


def test_a_refused_plan_says_its_ways_out_in_plain_words() -> None:
    """What else could be asked for, without the line of the brief that asks for it."""
    plan = example("late-start")
    assert plan.conflict is not None
    for page in (checklist_html, order_html, book_html):
        assert not ENGINE.findall(text_of(page(plan, words_of(plan))))


def test_a_terminal_tells_the_keys() -> None:
    """What paper leaves out is told to whoever can type it, and only there."""
    plan = next(
        plan
        for number in range(COUNT)
        if (plan := random_plan(number)) is not None
        and any("tell the plan" in str(note.text) for note in plan.ranked)
    )
    words = words_of(plan).on_terminal()
    notes = [note.text for note in plan.ranked if "tell the plan" in str(note.text)]
    assert all("`" not in str(text) for text in notes)
    assert any("`" in words.text(text) for text in notes)
    assert not any(sign in words.text(text) for text in notes for sign in ASIDE)


def test_an_aside_holds_values_too() -> None:
    """Its places are filled on a terminal, and missed by nobody on paper."""
    told = {
        terminal: words_for("en", System.US, terminal=terminal).say(
            "handover.undone.way", title="Wait", change="x = 1", reason="It fits."
        )
        for terminal in (True, False)
    }
    assert told[True] == "All of it: Wait (`x = 1`). It fits."
    assert told[False] == "All of it: Wait. It fits."
