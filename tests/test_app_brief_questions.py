"""The questions of a new brief: an answer alone is judged by itself."""

import pytest

from turfplan.app.asked_words import told_wrong, words_where
from turfplan.app.brief_questions import INTENTS, faults_of


@pytest.mark.parametrize("intent", INTENTS)
def test_an_intent_alone_is_no_fault(intent: str) -> None:
    """No intent is refused for a grass or a place that nobody has answered yet."""
    assert faults_of({"intent": intent}) == ()


def test_a_fault_is_that_of_the_answer_that_is_looked_at() -> None:
    """An intent that the answered grass cannot have is a fault, and so is a word for none."""
    assert len(faults_of({"intent": "winter_overseed", "grass": "tall_fescue"})) == 1
    assert len(faults_of({"intent": "oats"})) == 1


@pytest.mark.parametrize(
    ("place", "grass", "sod"),
    [("Houston, TX", "St Augustine", "sod"), ("Perth, WA", "buffalo", "turf")],
)
def test_a_grass_that_is_never_sown_is_no_fault_before_it_is_asked_what_is_sown(
    place: str, grass: str, sod: str
) -> None:
    """Refused is seed of it, with the choice that there is instead; plants are not."""
    answers = {"place": place, "grass": grass}
    assert faults_of(answers) == () == faults_of({**answers, "intent": "plant"})
    wrong = {**answers, "intent": "overseed"}
    told = told_wrong("intent", wrong, faults_of(wrong, hints=False))
    assert [words_where(answers).text(fault) for fault in told] == [
        "St. Augustinegrass is not grown from seed",
        f"Choose “Plant it: {sod}, plugs or sprigs” instead",
    ]
