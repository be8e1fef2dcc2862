"""What is still to be ordered follows what was ordered, delivered and used."""

from datetime import timedelta

import pytest

from test_seasons import Season, begun, done_until
from turfplan.plan import OrderLine

DEEP = {"leveling": {"depth": "1 in"}}


def mixes(season: Season) -> list[OrderLine]:
    """The lines of mix that are still to be bought."""
    return [line for line in season.plan.order if line.item == "mix"]


@pytest.fixture
def season() -> Season:
    """Two sessions of passes, each with an order of its own; everything before the first delivery is done."""
    season = begun(DEEP)
    assert len(mixes(season)) == 2
    done_until(season, season.day("delivery.1"))
    return season


def test_what_has_come_is_not_ordered_again(season: Season) -> None:
    """A delivered line leaves the order; the other stays as it was to the last digit."""
    _, second = mixes(season)
    day = season.day("delivery.1")
    season.log("delivered", task="delivery.1", on=day)
    season.make(day)
    (left,) = mixes(season)
    assert (left.value, left.reason) == (second.value, second.reason) and left.deliver_by == second.deliver_by


@pytest.mark.parametrize(("beyond", "sign"), [(1.5, -1), (-1.5, 1)])
def test_more_or_less_came(season: Season, beyond: float, sign: int) -> None:
    """What came beyond the first order is left out of the second; what is short is added; task, title and change say so."""
    first, second = mixes(season)
    day = season.day("delivery.1")
    season.log("delivered", task="delivery.1", on=day, amount=first.value + beyond, unit="m3")
    season.make(day)
    (left,) = mixes(season)
    assert sign * (left.value - second.value) == pytest.approx(1.5, abs=0.35)
    assert ("more" if sign > 0 else "less") in left.reason
    order = season.plan.task("order_material.2")
    assert order is not None and next(a for a in order.amounts if a.item == "volume").value == left.value
    assert order.published is not None and order.change is not None and order.change.startswith("was ")
    assert any(c.task == "order_material.2" and c.kind == "amount" for c in season.plan.changes)
    assert sum(part.value for part in left.parts) == pytest.approx(left.value)


def test_what_is_here_already_is_not_ordered(season: Season) -> None:
    """When the first load holds all that is needed, the second is neither ordered nor received: both leave the feed, with a reason."""
    first, second = mixes(season)
    day = season.day("delivery.1")
    season.log("delivered", task="delivery.1", on=day, amount=first.value + second.value + 0.5, unit="m3")
    season.make(day)
    assert not mixes(season)
    for name in ("order_material.2", "delivery.2"):
        task = season.plan.task(name)
        assert task is not None and task.status == "CANCELLED" and task.closed == "dropped"
        assert any(c.task == name and c.kind == "dropped" and c.because for c in season.plan.changes)
    left = [t for t in season.plan.tasks if t.status != "CANCELLED"]
    assert not any(" 0 " in t.title for t in left)
    assert not any("delivery.2" in t.depends_on for t in left)
    spread = season.plan.task("topdress.3")
    assert spread is not None and spread.status == "NEEDS-ACTION"


@pytest.mark.parametrize(("factor", "sign"), [(1.4, 1), (0.6, -1)])
def test_a_pass_takes_more_or_less(season: Season, factor: float, sign: int) -> None:
    """What a pass used beyond its plan is ordered more next time, also where it was logged in two parts."""
    _, second = mixes(season)
    day = season.day("topdress.1")
    done_until(season, day)
    season.make(day)
    task = season.plan.task("topdress.1")
    assert task is not None
    planned = next(a.value for a in task.amounts if a.item == "volume")
    for part in (0.4, 0.6):
        season.log("done", task="topdress.1", on=day, share=part, amount=planned * factor * part, unit="m3")
    season.make(day + timedelta(days=1))
    (left,) = mixes(season)
    assert sign * (left.value - second.value) == pytest.approx(0.4 * planned, abs=0.35)


def test_short_with_no_order_left(season: Season) -> None:
    """When the last load is short, what is missing is a line of its own, wanted for the next open pass."""
    for number in (1, 2):
        day = season.day(f"delivery.{number}")
        done_until(season, day)
        line = mixes(season)[0]
        season.log(
            "delivered", task=f"delivery.{number}", on=day, amount=line.value - (2.0 if number == 2 else 0), unit="m3"
        )
        season.make(day + timedelta(days=1))
    (left,) = mixes(season)
    assert 1.2 <= left.value <= 2.4 and "less came" in left.reason
    assert left.deliver_by == min(t.start for t in season.plan.tasks if t.operation == "topdress" and t.closed is None)


def test_rounding_up_covers_a_little(season: Season) -> None:
    """A load that is short by less than the rounding leaves the next order alone."""
    first, second = mixes(season)
    day = season.day("delivery.1")
    need = sum(
        a.value for t in season.plan.tasks if t.operation == "topdress" for a in t.amounts if a.item == "volume" and t.start < second.order_by
    )  # fmt: skip
    assert need < first.value
    season.log("delivered", task="delivery.1", on=day, amount=need + 0.002, unit="m3")
    season.make(day)
    assert mixes(season)[0].value == second.value


@pytest.mark.parametrize(("missing_mm", "sign"), [(6.0, 1), (0.0, -1)])
def test_depth_still_missing_sets_the_touch_up(missing_mm: float, sign: int) -> None:
    """Measured after the last pass, what is still missing is the depth of the touch-up; nothing missing cancels it."""
    season = begun()
    day = season.day("settle_check")
    done_until(season, day)
    season.make(day)
    before = season.plan.task("touch_up")
    assert before is not None
    season.log("done", task="settle_check", on=day)
    season.log("measured", quantity="depth_missing", value=missing_mm, unit="mm", on=day)
    season.make(day + timedelta(days=1))
    after = season.plan.task("touch_up")
    assert after is not None
    if sign < 0:
        assert after.status == "CANCELLED" and after.closed == "dropped"
        return
    depths = [next(a.value for a in t.amounts if a.item == "depth") for t in (before, after)]
    assert depths[1] == missing_mm > depths[0] and after.change is not None and "was" in after.change
