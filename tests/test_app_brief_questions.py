"""The questions of a new brief: an answer alone is judged by itself."""

import pytest

from turfplan.app.brief_questions import INTENTS, faults_of


@pytest.mark.parametrize("intent", INTENTS)
def test_an_intent_alone_is_no_fault(intent: str) -> None:
    """No intent is refused for a grass or a place that nobody has answered yet."""
    assert faults_of({"intent": intent}) == ()


def test_a_fault_is_that_of_the_answer_that_is_looked_at() -> None:
    """An intent that the answered grass cannot have is a fault, and so is a word for none."""
    assert len(faults_of({"intent": "winter_overseed", "grass": "tall_fescue"})) == 1
    assert len(faults_of({"intent": "oats"})) == 1
