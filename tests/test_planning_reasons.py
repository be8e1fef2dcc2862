"""Rules that cannot all hold, as reasons: each rule once, with every task it speaks of."""

from dataclasses import replace

from turfplan.message import Message, as_written
from turfplan.messages import words_for
from turfplan.messages.binding_reasons import is_choice, says_little, telling
from turfplan.network import Link
from turfplan.phrases import day_limits, season, task_names
from turfplan.phrases import reasons as phrases
from turfplan.planning.reasons import (
    conflict_reasons,
    days_off_alone,
    reasons,
    wish_earlier,
    wish_later,
)
from turfplan.records.constraints import Allowed, Constraint, DaySet, DayStep, Lag, Reason, Strength
from turfplan.units import System
from turfplan.work.days_off import WORK_DAYS
from turfplan.work.drafts import Draft

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


WISH, NOTHING = as_written("It is its best day."), as_written("Nothing holds it.")
FREE = Allowed(
    "work_days:overseed",
    "overseed",
    DaySet.of([(1, 2)]),
    Strength.HARD,
    Reason(WORK_DAYS, day_limits.work_days()),
)


def test_only_days_off_of_the_task_itself_say_little() -> None:
    """Its wish and its days without work, and none of another task; a chain that begins with no
    rule says something, and so does any other rule.
    """
    off = Link("overseed", 5, "not_before", "allowed", FREE)
    wish = Link("overseed", 4, "not_before", "wish")
    assert days_off_alone((off,)) and days_off_alone((off, wish)) and days_off_alone((off, off))
    assert (
        not days_off_alone(()) and not days_off_alone((wish,)) and not days_off_alone((wish, off))
    )
    other = Link("topdress.1", 3, "not_before", "wish")
    assert not days_off_alone((off, other)) and not days_off_alone((off, other, other))
    bound = Link("overseed", 5, "not_before", "allowed", window("overseed"))
    assert not days_off_alone((bound,)) and not days_off_alone((off, bound))
    assert not days_off_alone((off, Link("overseed", 1, "not_before", "horizon")))


def test_the_ends_of_the_plan_and_work_that_is_done_are_reasons() -> None:
    """It begins, or ends; what is done holds what comes after; a wish speaks for its own task."""

    def said(*links: Link) -> tuple[Message, ...]:
        return reasons(links, TITLES, WISH, NOTHING)

    assert said(Link("overseed", 1, "not_before", "horizon")) == (phrases.plan_starts(),)
    assert said(Link("overseed", 9, "not_after", "horizon")) == (phrases.plan_ends(),)
    assert said(Link("overseed", 1, "not_before", "fixed")) == (phrases.before_is_done(),)
    assert said(Link("overseed", 1, "not_before", "wish")) == (WISH,)
    assert said() == (NOTHING,)
    lag = Lag(
        "x",
        "topdress.1",
        "overseed",
        Strength.HARD,
        Reason("seed", as_written("Seed goes on the pass.")),
        DayStep(0),
    )
    found = said(
        Link("overseed", 5, "not_before", "lag", lag, "topdress.1"),
        Link("topdress.1", 5, "not_before", "wish"),
    )
    assert found[-1] == phrases.on_best_day(task=TITLES["topdress.1"]) and len(found) == 2


def test_a_wished_day_hangs_on_its_anchor() -> None:
    """Ahead of it, with it or after it; without an anchor of this plan the day itself is best."""
    draft = Draft("mow_low.1", "mow_low", "level", NOTHING, 0, anchor="overseed")
    seed = TITLES["overseed"]
    ahead, behind = replace(draft, offset=-3), replace(draft, offset=3)
    assert wish_earlier(ahead, TITLES) == phrases.earlier_in_time_for(task=seed)
    assert wish_earlier(behind, TITLES) == phrases.earlier_distance_from(task=seed)
    assert wish_earlier(draft, TITLES) == phrases.earlier_with(task=seed)
    assert wish_later(ahead, TITLES) == phrases.later_too_little(task=seed)
    assert wish_later(behind, TITLES) == wish_later(draft, TITLES)
    assert wish_later(draft, TITLES) == phrases.later_keeps_step(task=seed)
    for lost in (replace(draft, anchor=None), replace(draft, anchor="gone")):
        assert wish_earlier(lost, TITLES) == phrases.earlier_best()
        assert wish_later(lost, TITLES) == phrases.later_less_time()


def test_what_binds_a_job_is_told_before_what_was_chosen() -> None:
    """Rules first; that another job is on its best day only where no rule is told, days off never
    beside anything else.
    """
    rule, best = phrases.plan_starts(), phrases.earlier_best()
    other, off = phrases.on_best_day(task=TITLES["overseed"]), day_limits.work_days()
    assert telling((best, off, rule, other)) == (rule, best)
    assert telling((off, other)) == (other,) and telling((off,)) == (off,) and telling(()) == ()
    assert is_choice(off) and is_choice(best) and is_choice(other) and not is_choice(rule)
