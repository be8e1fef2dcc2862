"""Rules that cannot all hold, in sentences: each rule once, with every task it speaks of."""

from turfplan.constraints import Allowed, Constraint, Days, DaySet, Lag, Reason, Strength
from turfplan.planner.explaining import conflict_sentences

TITLES = {"topdress.1": "Top-dress 1", "topdress.2": "Top-dress 2", "topdress.3": "Top-dress 3", "overseed": "Overseed"}


def window(task: str, words: str = "Passes go on while the grass grows.") -> Constraint:
    """A window that binds a task."""
    return Allowed(f"window:{task}", task, DaySet.of([(1, 2)]), Strength.STRONG, Reason("window", words))


def test_a_rule_that_binds_several_passes_is_said_once() -> None:
    """The window of three passes is one sentence that names all three."""
    said = conflict_sentences(tuple(window(f"topdress.{n}") for n in (1, 2, 3)), TITLES)
    assert said == ("Top-dress 1, 2 and 3: Passes go on while the grass grows.",)


def test_other_rules_keep_a_sentence_of_their_own() -> None:
    """Two tasks of different names are both named; the end of a task counts as the task; another reason is another sentence."""
    lag = Lag(
        "x",
        "topdress.3@end",
        "overseed",
        Strength.HARD,
        Reason("seed", "Seed goes on the last pass."),
        Days(0),
        Days(2),
    )
    said = conflict_sentences((window("topdress.2"), window("overseed"), lag, lag), TITLES)
    assert said == (
        "Top-dress 2 and Overseed: Passes go on while the grass grows.",
        "Overseed: Seed goes on the last pass.",
    )


def test_nothing_known_is_said_as_such() -> None:
    """A conflict that names no rule still says something."""
    assert conflict_sentences((), TITLES) == ("The days of the plan are too few for the work.",)
