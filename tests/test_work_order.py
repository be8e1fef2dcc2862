"""The order of work: every rule binds somewhere, and the plan keeps it."""

import tomllib
from dataclasses import replace
from typing import Any

import pytest

from planning import EXAMPLES, ROOT, TODAY, brief_of, example_brief
from tiers import sampled
from turfplan.app.inputs import input_of
from turfplan.files.reading.book import load_book
from turfplan.planning.candidates import compare
from turfplan.planning.fed import fed
from turfplan.planning.feeding import feeder_for
from turfplan.planning.schedule import date_season
from turfplan.planning.window_dates import with_windows
from turfplan.records.brief import Brief
from turfplan.records.constraints import Lag
from turfplan.work.assumptions import resolve
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


def test_every_rule_has_a_case() -> None:
    """No rule of order.toml is without a case, and no case without a rule."""
    assert set(CASES) == {rule.id for rule in load_book().order}


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
