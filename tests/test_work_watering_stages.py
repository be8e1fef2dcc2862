"""What a pass asks for after it, and the water that goes on right after the work."""

from datetime import date, timedelta
from typing import Any

import pytest

import water_cases as cases
from turfplan.records.book_names import FactName
from turfplan.work.watering.hours import law_of
from turfplan.work.watering.request import ground_of
from turfplan.work.watering.stages import (
    FIRST_WATER,
    Need,
    Stage,
    StageName,
    need_of,
    settling_day,
    stages,
)

BOOK, COOL = cases.book(), cases.cool_climate()
PASS = date(2027, 4, 10)


def recovery(**changes: Any) -> list[tuple[str, int, int]]:
    """The stages of passes with their first and last days, counted from the pass of 10 April."""
    found = stages(cases.request(BOOK, COOL, **changes))
    return [
        (s.key, (s.start - PASS).days, (s.end - PASS).days)
        for s in found
        if s.name in ("settle", "recover")
    ]


def test_recovery_lasts_two_weeks_or_until_the_surface_must_be_dry() -> None:
    """From three days after the settling: fourteen days, or to two days before what follows; where
    seed follows within two days its own water settles the layer.
    """
    assert recovery(passes=(PASS,)) == [("settle.1", 0, 0), ("recover.1", 3, 14)]
    followed = recovery(passes=(PASS, PASS + timedelta(10)))
    assert followed[:2] == [("settle.1", 0, 0), ("recover.1", 3, 8)]
    assert followed[2:] == [("settle.2", 10, 10), ("recover.2", 13, 24)]
    assert recovery(passes=(PASS,), seeded_on=PASS + timedelta(9))[1] == ("recover.1", 3, 7)
    assert recovery(passes=(PASS,), planted_on=PASS + timedelta(5)) == [
        ("settle.1", 0, 0),
        ("recover.1", 3, 3),
    ]
    assert recovery(passes=(PASS,), seeded_on=PASS + timedelta(3)) == [("settle.1", 0, 0)]
    assert recovery(passes=(PASS,), seeded_on=PASS + timedelta(2)) == []
    assert recovery(passes=(PASS,), seeded_on=PASS) == []


def test_seed_of_before_does_not_end_the_recovery_of_a_later_pass() -> None:
    """What lies behind a pass has no part in it."""
    assert recovery(passes=(PASS,), seeded_on=PASS - timedelta(5)) == [
        ("settle.1", 0, 0),
        ("recover.1", 3, 14),
    ]


@pytest.mark.parametrize(
    ("water", "permitted", "after"),
    [
        ({}, False, 0),
        ({"allowed_hours": ["06:00-09:00"]}, False, 1),
        ({"allowed_hours": ["06:00-16:00"]}, False, 1),
        ({"allowed_hours": ["06:00-16:30"]}, False, 0),
        ({"allowed_weekdays": ["tue"]}, False, 3),
        ({"allowed_weekdays": ["fri"]}, False, 6),
        ({"allowed_weekdays": ["sat"], "allowed_hours": ["06:00-09:00"]}, False, None),
        ({"allowed_weekdays": ["tue"], "permit": True}, True, 0),
        ({"allowed_weekdays": ["tue"], "permit": True}, False, 3),
    ],
)
def test_work_is_watered_in_on_its_evening_or_the_next_open_day(
    water: dict[str, Any], *, permitted: bool, after: int | None
) -> None:
    """Work of a Saturday: that evening where hours after four are open, else the next open day
    within the week; a permit opens days, no hours.
    """
    law = law_of(cases.brief(water={"possible": True, **water}).water)
    wanted = None if after is None else PASS + timedelta(after)
    assert settling_day(BOOK, law, PASS, permitted=permitted) == wanted


FIRST: dict[StageName, FactName] = {
    "settle": "water.settle_depth",
    "settle_fill": "water.settle_fill",
    "soak": "water.settle_depth",
    "soak_plants": "water.soak_plants",
    "soak_relaid": "water.soak_plants",
}


@pytest.mark.parametrize("name", FIRST)
def test_the_water_right_after_the_work_is_one_run_of_its_own_depth(name: StageName) -> None:
    """Once, by the number of the book that its reason goes by."""
    ground = ground_of(cases.request(BOOK, COOL))
    fact = FIRST[name]
    assert need_of(ground, Stage(name, PASS, PASS), PASS, PASS) == Need(
        1, BOOK.si(fact), 1, FIRST_WATER[name][1], (fact,)
    )


def test_recovery_asks_for_half_an_inch_less_rain_every_few_days() -> None:
    """No more runs a week than its gap allows, and none of the rain is counted that is not
    usable.
    """
    ground = ground_of(cases.request(BOOK, COOL))
    end = PASS + timedelta(6)
    need = need_of(ground, Stage("recover", PASS, end), PASS, end)
    gap = BOOK.si("water.recover_gap")
    rain = gap * BOOK.si("water.counted_rain_share") * ground.mean_rain_mm(PASS, end)
    assert need.depth_mm == pytest.approx(BOOK.si("water.recover_depth") - rain)
    assert (need.runs, need.days) == (1, -(-7 // gap))


def test_water_of_a_pass_goes_where_the_pass_lies() -> None:
    """Settling and recovery of a pass in hollows are of its part of the lawn; one over all of it
    has none, and neither has a lift on open ground.
    """
    second = PASS + timedelta(30)
    request = cases.request(BOOK, COOL, passes=(PASS, second), pass_shares={second: 0.15})
    shares = {s.key: s.share for s in stages(request)}
    assert shares == {"settle.1": 1.0, "recover.1": 1.0, "settle.2": 0.15, "recover.2": 0.15}
    lift = cases.request(BOOK, COOL, passes=(PASS,), pass_shares={PASS: 0.4}, open_ground=True)
    assert [(s.key, s.share) for s in stages(lift)] == [("settle.1", 0.4)]
