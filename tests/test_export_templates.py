"""Templates say what they say by keys of the catalog, with the values that each declares."""

import re
from collections.abc import Iterator

import jinja2
import pytest
from jinja2 import nodes
from markupsafe import Markup

from told import words_of
from turfplan.export.templates import (
    FIRST_SIGN,
    environment,
    render,
    sentence,
    speaker,
    templates_dir,
)
from turfplan.messages import building

# Those that still hold words of their own.
UNTOLD = (
    "maps.svg.jinja",
    "print/ground.html.jinja",
    "print/measure.html.jinja",
)
TEMPLATES = sorted(
    str(path.relative_to(templates_dir())) for path in templates_dir().rglob("*.jinja")
)


def tree(template: str) -> nodes.Template:
    """A template as it is parsed."""
    return environment().parse((templates_dir() / template).read_text(encoding="utf-8"))


def sayings(template: str) -> Iterator[nodes.Call]:
    """Every place where a template says a sentence."""
    for call in tree(template).find_all(nodes.Call):
        if isinstance(call.node, nodes.Name) and call.node.name == "say":
            yield call


def declared() -> dict[str, set[str]]:
    """The names of the values of each key of the English catalog."""
    found: dict[str, set[str]] = {}
    for path in sorted((building.HERE / "en").glob("*.po")):
        for entry in building.read_entries(path, []):
            found[entry.key] = {name for name, _ in entry.kinds}
    return found


@pytest.mark.parametrize("template", TEMPLATES)
def test_every_sentence_of_a_template_is_in_the_catalog(template: str) -> None:
    """A key that is misspelt, or told with other values than it declares, is found before a page is
    printed.
    """
    known = declared()
    for call in sayings(template):
        (key,) = call.args
        assert isinstance(key, nodes.Const), f"line {call.lineno}: a key is written out"
        assert key.value in known, f"line {call.lineno}: {key.value}"
        assert {value.key for value in call.kwargs} == known[key.value], key.value


@pytest.mark.parametrize("template", [name for name in TEMPLATES if name not in UNTOLD])
def test_no_word_of_a_language_stands_in_a_template(template: str) -> None:
    """What is left beside tags, styles and places is marks and figures.

    No label is written in an attribute.
    """
    source = (templates_dir() / template).read_text(encoding="utf-8")
    source = re.sub(r"\{% block style %\}.*?\{% endblock %\}", "", source, flags=re.DOTALL)
    page = re.sub(r"\{\{.*?\}\}|\{%.*?%\}|\{#.*?#\}", "", source, flags=re.DOTALL)
    assert re.findall(r'(?:aria-label|alt|title)="([^"]+)"', page) == []
    text = re.sub(r'<style>.*?</style>|<[^>]*>|[\w-]+="[^"]*"|&#?\w+;', " ", page, flags=re.DOTALL)
    assert re.findall(r"[^\W\d_]{2,}", text) == []


def test_markup_in_a_sentence_stays_markup_and_all_else_is_escaped() -> None:
    """A lawn's name in a heading is set apart and never acts; signs of private use stay text."""
    say = speaker(words_of())
    name = Markup("<bdi>{}</bdi>").format("A & <b>")
    assert say("week.checklist_for", lawn=name) == Markup(
        "Weekly checklist for <bdi>A &amp; &lt;b&gt;</bdi>"
    )
    both = say("week.see_map", link=Markup("<a>x</a>"))
    assert isinstance(both, Markup) and both.startswith("<a>x</a>: ")
    typed = say("season_book.frost", what=f"<i>{chr(FIRST_SIGN + 7)}", day=Markup("<b>1</b>"))
    assert typed == Markup("&lt;i&gt;: <b>1</b> in a middling year.")
    assert not isinstance(say("week.week"), Markup)


def test_a_missing_sentence_is_an_error() -> None:
    """A page never prints a key, nor nothing in the place of a value."""
    say = speaker(words_of())
    with pytest.raises(KeyError):
        say("week.nothing_like_it")
    with pytest.raises(KeyError):
        say("week.checklist_for")
    with pytest.raises(jinja2.UndefinedError):
        render("print/changes.html.jinja", words_of())


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("marks come first. (It hangs on “Mow”.)", "Marks come first. (It hangs on “Mow”.)"),
        ("it is in time for “Mow”", "It is in time for “Mow”."),
        ("is it dry?", "Is it dry?"),
        ("once (or twice)", "Once (or twice)."),
        ("", ""),
    ],
)
def test_a_sentence_has_one_stop(text: str, told: str) -> None:
    """Also where one stands within brackets."""
    assert sentence(text) == told
