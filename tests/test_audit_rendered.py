"""The second check of a plan: it reads what is shown, in every language, and finds each fault in a
text that has it alone.
"""

from collections.abc import Callable
from pathlib import Path
from typing import get_args

import pytest

from planning import EXAMPLES, LAWN_ID, POSSIBLE, TODAY, example, example_brief
from pseudo_language import LANGUAGE, install
from turfplan.app.inputs import input_of
from turfplan.audit.rendered import Shown, TextFaultKind, audit_text
from turfplan.messages import catalog, words_for
from turfplan.planning import KnownPlace, make_plan
from turfplan.publishing import publish
from turfplan.records.plan import Plan

Texts = dict[str, Shown]
TASK = "topdress.1"


def shown(plan: Plan) -> Texts:
    """What the calendar shows of each task, with all reasons of its day below."""
    return {
        task.id: Shown(
            task.published.summary,
            "\n".join(
                (
                    task.published.description,
                    str(task.title),
                    *map(str, (*task.not_earlier, *task.not_later, *task.cautions)),
                )
            ),
        )
        for task in plan.tasks
        if task.published is not None
    }


def said_anew(texts: Texts, old: str, new: str, task: str = TASK) -> Texts:
    """The texts with one passage of one task said otherwise."""
    text = texts[task].text
    assert old in text
    return {**texts, task: Shown(texts[task].title, text.replace(old, new))}


def more(texts: Texts, line: str) -> Texts:
    """The texts with one more line in one task."""
    return {**texts, TASK: Shown(texts[TASK].title, f"{texts[TASK].text}\n{line}")}


# One text of a sound plan spoilt for each kind; where it can be spoilt in several ways, each of
# them.
SPOILT: list[tuple[TextFaultKind, Callable[[Texts], Texts]]] = [
    ("entry_missing", lambda texts: {name: text for name, text in texts.items() if name != TASK}),
    ("brace_left", lambda texts: more(texts, "Spread {depth} of it.")),
    ("brace_left", lambda texts: more(texts, "Spread it}.")),
    ("sentence_empty", lambda texts: more(texts, "Take care:")),
    ("sentence_empty", lambda texts: more(texts, "How much: .")),
    ("sentence_empty", lambda texts: more(texts, "-")),
    ("sentence_empty", lambda texts: {**texts, "soil_test": Shown("", texts["soil_test"].text)}),
    ("nothing_named", lambda texts: more(texts, "Spread it with a None.")),
    ("nothing_named", lambda texts: more(texts, "Take nan of it.")),
    ("key_left", lambda texts: more(texts, "Only if: weather.dry_ground")),
    ("key_left", lambda texts: more(texts, "Then order_material.")),
    ("key_left", lambda texts: more(texts, "Because order.pass.spacing holds.")),
    ("amount_missing", lambda texts: said_anew(texts, "7,250 lb", "much")),
    ("amount_missing", lambda texts: said_anew(texts, "7,250 lb", "2,750 lb")),
    ("date_missing", lambda texts: said_anew(texts, "Sat, Apr 17", "soon")),
    ("date_missing", lambda texts: said_anew(texts, "Sat, Apr 17", "Sun, May 2")),
]


@pytest.mark.parametrize("name", POSSIBLE)
def test_an_example_reads_well(name: str) -> None:
    """What an example shows has no fault."""
    assert audit_text(example(name), shown(example(name))) == ()


@pytest.mark.parametrize("name", ("cool-overseed", "british-metric", "st-augustine-plugs"))
def test_an_example_reads_well_in_another_language(
    name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What a calendar in a language made by program shows has no fault either."""
    install(tmp_path)
    monkeypatch.setenv(catalog.MORE, str(tmp_path))
    brief = example_brief(name)
    given = input_of(brief, EXAMPLES)
    place = KnownPlace(given.climate, given.ground)
    draft = make_plan(brief, given.book, place, now=TODAY, lawn_id=LAWN_ID)
    plan = publish(draft, None, TODAY, words_for(LANGUAGE, draft.lawn.units))
    assert audit_text(plan, shown(plan)) == ()


@pytest.mark.parametrize("number", range(len(SPOILT)))
def test_a_spoilt_text_is_found(number: int) -> None:
    """Each kind is found in a text that it alone catches."""
    kind, spoil = SPOILT[number]
    plan = example("cool-overseed")
    assert {fault.kind for fault in audit_text(plan, spoil(shown(plan)))} == {kind}


def test_every_kind_is_seen() -> None:
    """No kind of the closed list is without a spoilt text."""
    assert {kind for kind, _ in SPOILT} == set(get_args(TextFaultKind))


@pytest.mark.parametrize("weight", ["7.250 lb", "7 250 lb", "7\u202f250 lb", "7'250 lb", "7250 lb"])
def test_numbers_of_other_countries_are_read(weight: str) -> None:
    """A number is known in whatever way a country parts its thousands."""
    plan = example("cool-overseed")
    assert audit_text(plan, said_anew(shown(plan), "7,250 lb", weight)) == ()
