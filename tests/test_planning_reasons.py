"""Rules that cannot all hold, as reasons: each rule once, with every task it speaks of."""

from turfplan.message import Message, as_written
from turfplan.messages import words_for
from turfplan.phrases import day_limits, season, task_names
from turfplan.phrases import reasons as phrases
from turfplan.planning.reasons import conflict_reasons, says_little
from turfplan.records.constraints import Allowed, Constraint, DaySet, DayStep, Lag, Reason, Strength
from turfplan.units import System

TITLES = {
    **{
        f"topdress.{n}": task_names.numbered(name=as_written("Top-dress"), number=n)
        for n in (1, 2, 3)
    },
    "overseed": as_written("Overseed"),
}


def told(reasons: tuple[Message, ...]) -> tuple[str, ...]:
    """Reasons as an American reads them."""
    return tuple(words_for("en", System.US).text(reason) for reason in reasons)


def window(task: str, words: str = "Passes go on while the grass grows.") -> Constraint:
    """A window that binds a task."""
    return Allowed(
        f"window:{task}",
        task,
        DaySet.of([(1, 2)]),
        Strength.STRONG,
        Reason("window", as_written(words)),
    )


def test_a_rule_that_binds_several_passes_is_said_once() -> None:
    """The window of three passes is one sentence that names all three."""
    said = told(conflict_reasons(tuple(window(f"topdress.{n}") for n in (1, 2, 3)), TITLES))
    assert said == ("Top-dress 1, 2 and 3: Passes go on while the grass grows.",)


def test_other_rules_keep_a_sentence_of_their_own() -> None:
    """Two tasks of different names are both named; the end of a task counts as the task; another
    reason is another sentence.
    """
    lag = Lag(
        "x",
        "topdress.3@end",
        "overseed",
        Strength.HARD,
        Reason("seed", as_written("Seed goes on the last pass.")),
        DayStep(0),
        DayStep(2),
    )
    said = told(conflict_reasons((window("topdress.2"), window("overseed"), lag, lag), TITLES))
    assert said == (
        "Top-dress 2 and Overseed: Passes go on while the grass grows.",
        "Overseed: Seed goes on the last pass.",
    )


def test_nothing_known_is_said_as_such() -> None:
    """A conflict that names no rule still says something."""
    assert told(conflict_reasons((), TITLES)) == ("The days of the plan are too few for the work.",)


def test_what_holds_for_every_job_says_little_of_one() -> None:
    """Days off and a full day before say nothing of a task, whatever they hang on; its own window
    does.
    """
    full = season.day_full()
    assert says_little(day_limits.work_days())
    assert says_little(phrases.hangs_on(reason=full, task=TITLES["overseed"]))
    assert not says_little(phrases.hangs_on(reason=phrases.first_day(), task=TITLES["overseed"]))
    assert not says_little(as_written("Passes go on while the grass grows."))
