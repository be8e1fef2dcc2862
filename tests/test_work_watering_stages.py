"""What a pass asks for after it, and the water that goes on right after the work."""

from datetime import date, timedelta
from typing import Any

import pytest

import water_cases as cases
from turfplan.work.watering.hours import law_of
from turfplan.work.watering.stages import (
    Stage,
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


def day_of(month: int, number: int) -> date:
    """A day of 2027."""
    return date(2027, month, number)


def spans(**changes: Any) -> list[tuple[str, date, date]]:
    """The stages of a request by key, first and last day."""
    return [(s.key, s.start, s.end) for s in stages(cases.request(BOOK, COOL, **changes))]


SEEDED = [
    ("soak", PASS, PASS),
    ("germination", day_of(4, 11), day_of(4, 30)),
    ("establishment", day_of(5, 1), day_of(5, 20)),
    ("weaning", day_of(5, 21), day_of(6, 10)),
]


def test_seed_is_soaked_kept_moist_until_it_is_up_and_weaned_after_its_first_cut() -> None:
    """Up on the 21st day, counting that of sowing; three weeks of weaning after the cut."""
    assert round(BOOK.si("water.weaning_days")) == 21
    assert spans(seeded_on=PASS, first_mow_on=day_of(5, 20)) == SEEDED


def test_seed_that_was_seen_to_be_up_is_cut_no_earlier_than_the_day_after() -> None:
    """As seen, not as usual; a cut before that counts from the day after."""
    found = spans(seeded_on=PASS, first_mow_on=day_of(4, 12), germinated_on=day_of(4, 20))
    assert found[1:3] == [
        ("germination", day_of(4, 11), day_of(4, 20)),
        ("establishment", day_of(4, 21), day_of(4, 21)),
    ]


def test_seedlings_grow_for_a_usual_time_where_no_cut_is_known() -> None:
    """From the day they are up."""
    growth = timedelta(round(BOOK.si("setting.seedling_growth_days")))
    (_, _, young, weaned) = spans(seeded_on=PASS)
    assert young == ("establishment", day_of(5, 1), day_of(4, 30) + growth)
    assert weaned[2] - young[2] == timedelta(21)


def test_seed_that_woke_is_not_soaked_again() -> None:
    """It counts from the day it wakes."""
    found = spans(seeded_on=date(2027, 1, 5), wakes_on=PASS, first_mow_on=day_of(5, 20))
    assert found == SEEDED[1:]


def test_a_second_grass_is_watered_over_winter_until_its_lawn_is_green() -> None:
    """From the end of its weaning, where that comes before."""
    asked = {"seeded_on": PASS, "first_mow_on": day_of(5, 20), "sown_season": "cool"}
    winter = ("winter", day_of(6, 11), day_of(7, 4))
    assert spans(**asked, second_until=day_of(7, 4)) == [*SEEDED, winter]
    last = ("winter", day_of(6, 11), day_of(6, 11))
    assert spans(**asked, second_until=day_of(6, 11))[-1] == last
    assert spans(**asked, second_until=day_of(6, 10)) == SEEDED


EARLY = cases.brief(water={"possible": True, "allowed_hours": ["06:00-09:00"]})


def test_moist_days_begin_the_day_after_the_soaking() -> None:
    """Which is a day later where evenings are closed; never after the seed is up."""
    found = spans(the_brief=EARLY, seeded_on=PASS, first_mow_on=day_of(5, 20))
    assert found[:2] == [SEEDED[0], ("germination", day_of(4, 12), day_of(4, 30))]
    up = spans(the_brief=EARLY, seeded_on=PASS, germinated_on=day_of(4, 11))
    assert up[1] == ("germination", day_of(4, 11), day_of(4, 11))


def test_plants_root_for_two_weeks_and_are_weaned_for_three() -> None:
    """The day of planting is the first of the fourteen; turf laid back is not weaned."""
    planted = [
        ("soak", PASS, PASS),
        ("rooting", day_of(4, 11), day_of(4, 23)),
        ("weaning", day_of(4, 24), day_of(5, 14)),
    ]
    assert spans(planted_on=PASS) == planted
    assert spans(planted_on=PASS, the_brief=EARLY)[1][1] == day_of(4, 12)
    relaid = [("soak_relaid", PASS, PASS), ("relaid", day_of(4, 11), day_of(4, 23))]
    assert spans(relaid_on=PASS) == relaid
    assert spans(relaid_on=PASS, the_brief=EARLY)[1][1] == day_of(4, 12)


def test_strips_are_soaked_from_the_first_and_shares_go_with_their_stages() -> None:
    """Work of three days: soaked and kept moist from the first, by the last day of all."""
    strips = tuple(PASS - timedelta(n) for n in (2, 1, 0))
    asked = {"relaid_on": PASS, "relaid_strips": strips, "relaid_share": 0.25}
    found = stages(cases.request(BOOK, COOL, **asked))
    assert [(s.start, s.end, s.strips, s.share) for s in found] == [
        (day_of(4, 8), PASS, strips, 0.25),
        (day_of(4, 9), day_of(4, 23), strips, 0.25),
    ]
    sown = stages(cases.request(BOOK, COOL, seeded_on=PASS, sown_strips=strips, sown_share=0.5))
    assert [(s.start, s.strips, s.share) for s in sown] == [
        (day_of(4, 8), strips, 0.5),
        (day_of(4, 9), strips, 0.5),
        (day_of(5, 1), (), 0.5),
        (sown[3].start, (), 0.5),
    ]
    plants = stages(
        cases.request(BOOK, COOL, planted_on=PASS, planted_strips=strips, sown_share=0.75)
    )
    assert [(s.start, s.share) for s in plants[:2]] == [(day_of(4, 8), 0.75), (day_of(4, 9), 0.75)]


def test_stages_end_with_the_account_and_none_begins_after_it() -> None:
    """The last is cut short; that of the last day alone stays."""
    cut = spans(seeded_on=PASS, first_mow_on=day_of(5, 20), end=day_of(5, 1))
    assert cut == [*SEEDED[:2], ("establishment", day_of(5, 1), day_of(5, 1))]
    assert spans(seeded_on=PASS, end=day_of(4, 30)) == SEEDED[:2]


def test_lifts_on_open_ground_settle_and_nothing_recovers() -> None:
    """Each by its own days, numbered in order of time."""
    strips = {day_of(4, 14): (day_of(4, 13), day_of(4, 14))}
    asked = {"passes": (day_of(4, 14), PASS), "strips": strips, "open_ground": True}
    found = stages(cases.request(BOOK, COOL, **asked))
    assert [(s.name, s.key, s.start, s.end) for s in found] == [
        ("settle_fill", "settle.1", PASS, PASS),
        ("settle_fill", "settle.2", day_of(4, 13), day_of(4, 14)),
    ]
    assert found[1].strips == strips[day_of(4, 14)]


def test_a_part_of_a_lawn_done_in_strips_is_watered_as_it_is_done() -> None:
    """Half a lawn in four strips: first water each by itself, then what was done before that day,
    one strip at the least.
    """
    days = tuple(PASS + timedelta(n) for n in range(4))
    moist = Stage("germination", PASS, PASS + timedelta(20), strips=days, share=0.5)
    shares = [moist.watered_share(PASS + timedelta(n)) for n in (0, 1, 2, 3, 4, 9)]
    assert shares == [0.125, 0.125, 0.25, 0.375, 0.5, 0.5]
    soak = Stage("soak", PASS, PASS + timedelta(3), strips=days, share=0.5)
    assert soak.watered_share(PASS + timedelta(3)) == 0.125
    pair = Stage("soak", PASS, PASS, strips=days[:2], share=0.5)
    assert pair.watered_share(PASS) == 0.25
    alone = Stage("germination", PASS, PASS, strips=days[:1], share=0.5)
    assert (alone.watered_share(PASS), Stage("winter", PASS, PASS).watered_share(PASS)) == (0.5, 1)


def test_a_pass_before_seed_waters_until_it_recovers_and_no_longer_than_the_surface_may() -> None:
    """Recovery begins three days after the day on which the pass is watered in."""
    assert recovery(passes=(PASS,), the_brief=EARLY) == [("settle.1", 0, 0), ("recover.1", 4, 14)]
    assert recovery(passes=(PASS,), seeded_on=PASS + timedelta(4)) == [("settle.1", 0, 0)]


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
