"""Seed without a day in reserve goes down strip by strip, and after days off where need be."""

from dataclasses import replace
from datetime import date, timedelta

from campaigns.wet_seasons import begun, in_window
from planning import kind
from resolved_lawns import lawn
from sample_plan import sample_plan, with_task
from turfplan.message import as_written
from turfplan.planning.days_apart import goes_on_apart
from turfplan.work.day_limits import length_of
from turfplan.work.days_off import days_of
from turfplan.work.drafts import Draft

SAMPLE = sample_plan()


def test_a_pass_goes_on_after_days_off_where_it_lasts_longer_than_its_days_of_work() -> None:
    """As long as it is still to come, and only where as many days of work lie on end as it takes:
    three days of work on week-ends are no strips put apart for the seed. Nor is there any reason
    to where nothing is sown."""
    setting, spread = lawn(), SAMPLE.task("topdress.2")
    assert spread is not None and spread.duration_days == 2 and not goes_on_apart(setting, SAMPLE)
    apart = with_task(SAMPLE, spread.id, end=spread.start + timedelta(6))
    assert goes_on_apart(setting, apart)
    assert not goes_on_apart(setting, with_task(apart, spread.id, closed="done"))
    assert not goes_on_apart(setting, with_task(apart, spread.id, duration_days=3))
    assert not goes_on_apart(lawn({"seeding": {"intent": "none"}}), apart)


def test_days_off_may_lie_between_the_days_of_a_pass_alone() -> None:
    """What shares its days has them, too; other jobs are done in one go."""
    setting = lawn()
    apart = replace(setting, passes_apart=True)

    def rules(where: object, operation: str, strips: tuple[str, ...] = ()) -> list[str]:
        job = Draft(
            operation, operation, "level", as_written(""), 1, duration_days=2, strips=strips
        )  # type: ignore[arg-type]
        return [lag.id.partition(":")[0] for lag in length_of(where, job, days_of(where, job))]  # type: ignore[arg-type]

    assert rules(setting, "topdress") == ["in_one_go", "length"]
    assert rules(apart, "topdress") == rules(apart, "incorporate") == ["length"]
    assert rules(apart, "core_aerate") == ["in_one_go", "length"]
    assert rules(apart, "core_aerate", ("core_aerate", "topdress")) == ["length"]


def test_seed_that_has_no_day_in_reserve_is_sown_strip_by_strip_before_it_waits() -> None:
    """Two wet week-ends before the last of a window: pass and seed go side by side, a week sooner
    than cuts, cores, pass and seed one after the other."""
    season = begun("cordoba", "weekend")
    first, cut = season.plan, date(2027, 2, 28)
    asked = kind(first, "overseed")[0]
    season.done_until(cut)
    for day in (cut, date(2027, 3, 14)):
        season.done_until(day)
        season.log("rained_off", on=day)
        season.go(day + timedelta(1))
    spread, sown = kind(season.plan, "topdress")[0], kind(season.plan, "overseed")[0]
    assert in_window(first, season.plan) and (spread.start, spread.end) == (sown.start, sown.end)
    assert sown.end + timedelta(7) <= asked.window.end
    cores = kind(season.plan, "core_aerate")[0]
    assert (cores.start, cores.end) == (spread.start, spread.end)
    again = season.go(season.plan.now.date())
    assert kind(again, "overseed")[0].start == sown.start
