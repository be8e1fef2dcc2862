"""The order of work: every rule binds somewhere, and the plan keeps it."""

import tomllib
from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from planning import EXAMPLES, ROOT, TODAY, brief_of, example_brief
from resolved_lawns import setting_of
from tiers import sampled
from turfplan.app.inputs import input_of
from turfplan.files.reading.book import load_book
from turfplan.message import as_written
from turfplan.planning.candidates import compare
from turfplan.planning.fed import fed
from turfplan.planning.feeding import feeder_for
from turfplan.planning.schedule import date_season
from turfplan.planning.window_dates import with_windows
from turfplan.records.brief import Brief
from turfplan.records.constraints import Lag
from turfplan.work.assumptions import resolve
from turfplan.work.drafts import Draft
from turfplan.work.order import _lags, _Named, _paired, order_lags
from turfplan.work.watering.season import watering_verdict

CASES: dict[str, dict[str, Any]] = tomllib.loads(
    (ROOT / "tests" / "cases" / "order.toml").read_text(encoding="utf-8")
)
# Rules that may give way as advice: their days are looked at only where the plan could keep them.
ADVICE = {rule.id for rule in load_book().order if rule.strength in ("advice", "preference")}


def brief_for(case: dict[str, Any]) -> Brief:
    """The brief of a case."""
    return (
        example_brief(case["example"]) if "example" in case else brief_of(case.get("changes", {}))
    )


SETTING = setting_of(brief_of())
BEGIN = SETTING.first_day


def job(name: str, **more: Any) -> Draft:
    """A task of the first session."""
    operation: Any = name.split(".")[0]
    given: dict[str, Any] = {"session": 1, **more}
    return Draft(name, operation, "level", as_written(""), 1, **given)


def rule(before: str, after: str, **more: Any) -> Any:
    """A rule between two names, such as the first of the book, with changes."""
    given: dict[str, Any] = {
        "before": before,
        "after": after,
        "minimum": None,
        "maximum": None,
        "unit": "days",
        "either": False,
        "whole": False,
        "when": (),
        "strength": "strong",
    }
    return load_book().order[0].model_copy(update={**given, **more})


@pytest.mark.parametrize(
    ("before", "after", "bound"),
    [
        ({}, {}, True),
        ({"session": 1}, {"session": 2}, False),
        ({"session": 0}, {"session": 2}, True),
        ({"session": 2}, {"session": 0}, True),
        ({"session": 0}, {"session": -1}, False),
        ({"session": -1}, {"session": -1}, True),
        ({"strips": ("a", "b")}, {"strips": ("a", "b")}, False),
        ({"strips": ("a", "b")}, {"strips": ("a", "c")}, True),
        ({"load": 1}, {"load": 1, "session": 2}, True),
        ({"load": 1}, {"load": 2}, False),
        ({"loads": (1, 2)}, {"load": 2}, True),
        ({"loads": (1, 2)}, {"load": 3}, False),
        ({"load": 1}, {"loads": (1, 2)}, True),
        ({"load": 3}, {"loads": (1, 2)}, False),
    ],
)
def test_tasks_of_a_session_are_bound_or_of_a_load(
    before: dict[str, Any], after: dict[str, Any], *, bound: bool
) -> None:
    """Those of all sessions with any; of none with none but their own."""
    pair = job("mow_low.1", **before), job("topdress.1", **after)
    assert _paired(rule("mow_low", "topdress"), *pair) is bound


def test_neighbours_are_bound_by_number() -> None:
    """The pass before and the pass; the look and the next pass; passes over sessions too."""
    follows = rule("topdress.previous", "topdress")
    passes = [job(f"topdress.{n}", position=n, session=s) for n, s in ((1, 1), (2, 1), (3, 2))]
    bound = [(a.position, b.position) for a in passes for b in passes if _paired(follows, a, b)]
    assert bound == [(1, 2), (2, 3)]
    looks = rule("inspect.previous", "topdress")
    look = job("inspect.1", position=1)
    assert [_paired(looks, look, p) for p in passes] == [False, True, False]
    assert not _paired(looks, replace(look, position=2), passes[2])
    ahead = rule("inspect", "topdress.next")
    assert [_paired(ahead, job("inspect.2", position=2), p) for p in passes] == [False, True, False]


def test_marks_are_bound_to_what_they_serve_and_named_tasks_to_each_other() -> None:
    """Whatever session they belong to; of two in either order the one that is wished first."""
    served = rule("locate_utilities", "digging")
    marks, cores = job("locate_utilities.1", serves=("core_aerate.1",)), job("core_aerate.1")
    assert _paired(served, marks, cores) and not _paired(served, marks, job("core_aerate.2"))
    named = rule("inspect.colour", "topdress.9")
    pair = job("inspect.colour", session=1), job("topdress.9", session=2)
    assert _paired(named, *pair)
    assert not _paired(named, pair[0], job("topdress.8", session=2))
    either = rule("lime", "amend", either=True)
    early, late = job("lime.1", ideal=5), job("amend.1", ideal=6)
    assert _paired(either, early, late) and not _paired(either, replace(early, ideal=7), late)
    assert not _paired(either, replace(early, ideal=6), late), "amend.1 comes before lime.1"
    assert not _paired(either, replace(early, ideal=None), late)
    assert not _paired(either, early, replace(late, ideal=None))


def test_a_selector_names_tasks_by_operation_key_or_place() -> None:
    """The first and the last of each session; all but one."""
    tasks = [
        job("topdress.1", position=1),
        job("topdress.2", position=2),
        job("topdress.3", position=3, session=2),
        job("inspect.leaf_tips", session=1),
        job("inspect.leaf_tips.2", session=2),
        job("inspect.colour"),
        job("overseed"),
    ]
    named = _Named(tasks)

    def ids(selector: str) -> list[str]:
        return [draft.id for draft in named.by(selector)]

    assert ids("topdress") == ids("topdress.previous") == [f"topdress.{n}" for n in (1, 2, 3)]
    assert ids("topdress.first") == ["topdress.1", "topdress.3"]
    assert ids("topdress.last") == ["topdress.2", "topdress.3"]
    assert ids("inspect.leaf_tips") == ["inspect.leaf_tips", "inspect.leaf_tips.2"]
    assert ids("inspect.not_colour") == ["inspect.leaf_tips", "inspect.leaf_tips.2"]
    assert ids("sowing") == ["overseed"] and ids("inspect.gone") == [] and ids("roll") == []


def bounds(lag: Lag, day: int = 60) -> tuple[int | None, int | None]:
    """The least and the most days after a day of the plan."""
    at = BEGIN + day
    return tuple(None if s is None else s(at) - at for s in (lag.minimum, lag.maximum))  # type: ignore[return-value]


def lags(of: Any, before: Draft, after: Draft, **computed: float) -> list[tuple[Any, ...]]:
    """What a rule binds between two tasks: its end, its nodes and its days."""
    numbers = {f"setting.{name}": value for name, value in computed.items()}
    return [
        (lag.id.rpartition(">")[2], lag.before, lag.after, *bounds(lag))
        for lag in _lags(SETTING, of, [(before, after)], numbers)
    ]


LOW, HIGH = "setting.least", "setting.most"
CORES, PASS = job("core_aerate.1"), job("topdress.1", duration_days=2)


def test_a_rule_binds_the_end_of_one_task_to_the_start_of_another() -> None:
    """By its least and most days; without a number it says which comes first."""
    both = rule("core_aerate", "topdress", minimum=LOW, maximum=HIGH)
    ends = ("topdress.1", "core_aerate.1", "topdress.1")
    assert lags(both, CORES, PASS, least=2, most=9) == [(*ends, 2, 9)]
    plain = rule("core_aerate", "topdress")
    assert lags(plain, CORES, PASS) == [(*ends, 0, None)]
    least = rule("core_aerate", "topdress", minimum=LOW)
    assert lags(least, CORES, PASS, least=2.6) == [(*ends, 3, None)]
    limit = rule("core_aerate", "topdress", maximum=HIGH)
    order = ("topdress.1:order", "core_aerate.1", "topdress.1")
    assert lags(limit, CORES, PASS, most=9) == [(*ends, None, 9), (*order, 0, None)]
    assert lags(limit, replace(CORES, bags=True), PASS, most=9) == [(*ends, 0, None)]


def test_a_rule_of_the_whole_holds_to_the_last_day_of_long_tasks() -> None:
    """From the first day of the one to the last of the other."""
    whole = rule("core_aerate", "topdress", minimum=LOW, maximum=HIGH, whole=True)
    assert lags(whole, CORES, PASS, least=2, most=9) == [
        ("topdress.1", "core_aerate.1", "topdress.1", 2, None),
        ("topdress.1:whole", "core_aerate.1", "topdress.1@end", None, 9),
    ]
    short = replace(PASS, duration_days=1)
    assert lags(whole, CORES, short, least=2, most=9) == [
        ("topdress.1", "core_aerate.1", "topdress.1", 2, 9)
    ]


def test_what_goes_by_strips_is_bound_from_first_to_first_and_last_to_last() -> None:
    """Where both go by them."""
    both = rule("core_aerate", "topdress", minimum=LOW, maximum=HIGH)
    sown = replace(CORES, strips=("x", "y"), duration_days=2)
    by_strip = replace(PASS, by_strip=True)
    assert lags(both, sown, by_strip, least=2, most=9) == [
        ("topdress.1", "core_aerate.1", "topdress.1", 2, 9),
        ("topdress.1:last", "core_aerate.1@end", "topdress.1@end", 2, 9),
    ]
    assert len(lags(both, CORES, by_strip, least=2, most=9)) == 1


def test_steps_are_days_working_days_or_days_of_growth() -> None:
    """As the rule counts."""
    business = SETTING.calendar.business.days()
    at = BEGIN + 60
    workdays = rule("core_aerate", "topdress", minimum=LOW, unit="workdays")
    third = [day for day in business if day > at][2]
    assert lags(workdays, CORES, PASS, least=3)[0][3] == third - at
    growth = rule("core_aerate", "topdress", minimum=LOW, unit="growth")
    grown, day = 0.0, at
    while grown < 5.0:
        grown += SETTING.climate.growth_potential(date.fromordinal(day), "cool")
        day += 1
    assert lags(growth, CORES, PASS, least=5.0)[0][3] == day - at


def test_a_rule_holds_where_all_its_words_do() -> None:
    """And binds no task to itself."""
    asked = rule("core_aerate", "topdress", when=("living_turf", "sow_on_pass"))
    setting = replace(SETTING, book=replace(SETTING.book, order=(asked,)))
    flags: Any = [{"living_turf"}, {"living_turf", "sow_on_pass"}]
    found = [len(order_lags(setting, [CORES, PASS], frozenset(f), {})) for f in flags]
    assert found == [0, 1]
    same = rule("topdress", "topdress")
    setting = replace(SETTING, book=replace(SETTING.book, order=(same,)))
    assert order_lags(setting, [PASS], frozenset(), {}) == ()


def test_every_rule_has_a_case() -> None:
    """No rule of order.toml is without a case, and no case without a rule."""
    assert set(CASES) == {rule.id for rule in load_book().order}


@pytest.mark.full
@pytest.mark.parametrize("rule", sampled(CASES, *[*CASES][::4]))
def test_rule_binds_and_holds(rule: str) -> None:
    """The rule lays a lag between its two tasks, and their days keep it.

    Without the rule this case fails.
    """
    case = CASES[rule]
    brief = brief_for(case)
    given = input_of(brief, EXAMPLES)
    ground = given.ground
    setting = with_windows(
        resolve(
            brief,
            given.book,
            given.climate,
            TODAY.date(),
            ground=ground,
        )
    )
    verdict = watering_verdict(brief, given.book, given.climate, setting.sowing.grass.id)
    feeder = feeder_for(setting)
    best = compare(setting, feeder, permit=verdict.needs_permit).best
    assert best is not None
    best = fed(setting, best, feeder, lambda season: date_season(setting, season))
    lags = [
        c for c in best.season.constraints if isinstance(c, Lag) and c.id.startswith(f"{rule}:")
    ]
    pairs = {(lag.before.removesuffix("@end"), lag.after.removesuffix("@end")): lag for lag in lags}
    assert (case["before"], case["after"]) in pairs, sorted(pairs)
    lag = pairs[case["before"], case["after"]]
    if lag in best.dated.dropped:
        assert rule in ADVICE
        return
    gap = best.dated.day(lag.after) - best.dated.day(lag.before)
    assert gap >= case["least"], gap
    assert gap <= case.get("most", 10_000), gap


def test_a_rule_taken_out_is_missed() -> None:
    """Taking one rule out of the book takes its lag out of the season: the cases above would
    fail.
    """
    brief = example_brief("cool-overseed")
    given = input_of(brief, EXAMPLES)
    book = replace(
        given.book, order=tuple(r for r in given.book.order if r.id != "seed_on_last_pass")
    )
    setting = with_windows(resolve(brief, book, given.climate, TODAY.date()))
    best = compare(setting, feeder_for(setting), permit=False).best
    assert best is not None
    assert not [c for c in best.season.constraints if c.id.startswith("seed_on_last_pass:")]


def test_a_question_to_the_laboratory_holds_no_tiller() -> None:
    """It is asked by telephone: three weeks are those of a sample."""
    rules = [rule for rule in load_book().order if rule.minimum == "order.soil_test_lead"]
    assert rules and all(rule.before == "soil_test.not_questions" for rule in rules)
