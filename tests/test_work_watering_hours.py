"""The law of watering: days and hours that are open."""

from datetime import date, timedelta
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planning import brief_of
from turfplan.work.watering.hours import Law, in_a_row, law_of, place, session_names, spread


def law(**water: object) -> Law:
    """The law of a brief."""
    return law_of(brief_of({"water": water}).water)


def test_hours_are_minutes_of_the_day() -> None:
    """Hours over midnight belong to both days; without any, the whole day is open."""
    assert law(allowed_hours=["06:15-09:30"]).spans == ((375, 570),)
    assert law(allowed_hours=["22:00-05:00"]).spans == ((0, 300), (1320, 1440))
    assert law(allowed_hours=["20:00-22:00", "04:30-06:00"]).open_min == 120 + 90
    assert law().spans == ((0, 1440),)


def test_a_ban_holds_from_its_first_to_its_last_day() -> None:
    """Day by day and for many days at once."""
    banned = law(banned=[{"from": date(2027, 7, 3), "to": date(2027, 7, 5)}])
    days = [date(2027, 7, day) for day in range(1, 8)]
    wanted = [True, True, False, False, False, True, True]
    assert [banned.open(day) for day in days] == banned.days_open(days[0], 7) == wanted


@pytest.mark.parametrize(
    ("water", "restricts", "gap"),
    [
        ({}, False, 1),
        ({"allowed_weekdays": ["mon"]}, True, 7),
        ({"allowed_weekdays": ["mon", "wed", "fri"]}, True, 3),
        ({"allowed_weekdays": ["mon", "tue", "wed", "thu", "fri", "sat", "sun"]}, False, 1),
        ({"parity": "even"}, True, 3),
        ({"parity": "odd"}, True, 2),
    ],
)
def test_the_longest_gap_between_lawful_days(
    water: dict[str, object], restricts: bool, gap: int
) -> None:
    """From one to the next; even days are furthest apart over the end of a month of 31."""
    assert (law(**water).restricts_days, law(**water).longest_gap_days()) == (restricts, gap)


def test_a_permit_opens_days_but_no_ban() -> None:
    """For new seed, where the brief has the permit."""
    water = {"allowed_weekdays": ["mon"], "permit": True}
    ban = {"banned": [{"from": date(2027, 7, 6), "to": date(2027, 7, 6)}]}
    tuesday = date(2027, 7, 6)
    assert law(**water).open(tuesday, permitted=True) and not law(**water).open(tuesday)
    assert not law(**water, **ban).open(tuesday, permitted=True)


def test_days_are_spread_as_evenly_as_they_lie() -> None:
    """Every first day of a part of the week; of three days of a week the first, third and sixth."""
    week = [date(2027, 6, 7) + timedelta(n) for n in range(7)]
    assert spread(week, 3) == (week[0], week[2], week[5])
    assert spread(week, 2) == (week[0], week[4])
    assert spread(week[:1], 1) == tuple(week[:1]) and spread(week, 9) == tuple(week)


def test_as_many_days_are_chosen_as_are_asked_for_however_they_lie() -> None:
    """Of any open days of a week: the first, then later ones in order, none twice."""
    week = [date(2027, 6, 7) + timedelta(n) for n in range(7)]
    for some in (some for size in range(1, 8) for some in combinations(week, size)):
        for count in range(1, len(some) + 1):
            chosen = spread(some, count)
            assert chosen == tuple(sorted(set(chosen))) and set(chosen) <= set(some)
            assert len(chosen) == count and chosen[0] == some[0]


def test_a_law_restricts_hours_where_less_than_the_day_is_open() -> None:
    """One minute less is less."""
    assert not law().restricts_hours
    assert law(allowed_hours=["00:00-23:59"]).restricts_hours
    two = law(allowed_hours=["06:15-09:30", "20:00-21:00"])
    assert two.after(9 * 60).spans == ((540, 570), (1200, 1260))
    assert two.after(9.5 * 60).spans == ((1200, 1260),) and two.after(21 * 60).spans == ()
    assert not law().permit and law(permit=True).permit


def test_even_and_odd_days_are_those_of_the_month() -> None:
    """On days of a parity a weekday of the law has to fall too."""
    july = [date(2027, 7, day) for day in range(1, 8)]
    assert [law(parity="odd").open(day) for day in july] == [True, False] * 3 + [True]
    assert [law(parity="even").open(day) for day in july] == [False, True] * 3 + [False]
    both = law(parity="even", allowed_weekdays=["fri", "sat"])
    wanted = [day == date(2027, 7, 2) for day in july]
    assert [both.open(day) for day in july] == both.days_open(july[0], 7) == wanted
    assert law(parity="odd").days_open(july[0], 3) == [True, False, True]
    assert law(parity="even").days_open(july[0], 2) == [False, True]
    assert law().days_open(july[0], 3) == [True] * 3
    assert law(allowed_weekdays=["thu"]).days_open(july[0], 8) == [True, *[False] * 6, True]


def test_a_permit_is_needed_in_hand_and_for_new_seed() -> None:
    """Without one, seed waits for its weekday as the lawn does."""
    assert not law(allowed_weekdays=["mon"]).open(date(2027, 7, 6), permitted=True)


def test_a_place_without_a_lawful_day_has_a_gap_of_a_year() -> None:
    """One that never comes."""
    assert Law((), None, (), ((0, 1440),), permit=False).longest_gap_days() == 365


def test_sessions_begin_at_their_wish_one_zone_after_the_other() -> None:
    """Twenty and thirty minutes from six and from four; a session waits for the one before."""
    assert place([360.0, 960.0], [20, 30], 120.0, law()) == ((360, 380), (960, 980))
    assert place([360.0, 400.0], [20, 30], 120.0, law()) == ((360, 380), (530, 550))
    assert place([360.0, 400.0], [20], 19.0, law()) == ((360,), (400,))
    assert place([], [20], 120.0, law()) == ()


def test_starts_are_rounded_down_to_five_minutes_where_there_is_room() -> None:
    """Not before the hours are open, nor before the zone before is through."""
    assert place([363.0], [20], 0.0, law()) == ((360,),)
    assert place([363.0], [20], 0.0, law(allowed_hours=["06:02-09:00"])) == ((363,),)
    assert place([362.5], [20], 0.0, law(allowed_hours=["06:02-09:00"])) == ((363,),)
    assert place([360.0], [3, 20], 0.0, law()) == ((360, 363),)
    assert place([360.0], [20], 0.0, law(allowed_hours=["06:02-09:00"])) == ((362,),)


def test_a_run_takes_the_lawful_hours_nearest_to_its_wish() -> None:
    """Those it fits into to the minute; nothing is placed where none hold it."""
    two = law(allowed_hours=["04:00-05:00", "09:00-10:00"])
    assert place([360.0], [30], 0.0, two) == ((270,),), "it ends at five"
    assert place([480.0], [30], 0.0, two) == ((540,),)
    assert place([360.0], [60], 0.0, two) == ((240,),)
    assert place([360.0], [61], 0.0, two) is None
    assert place([360.0], [60, 60], 0.0, two) == ((240, 540),)
    assert place([360.0], [60, 60, 1], 0.0, two) is None
    # An hour each way: the first hours are taken.
    assert place([420.0], [60], 0.0, law(allowed_hours=["05:00-06:00", "09:00-10:00"])) == ((300,),)


def test_a_session_is_kept_together_where_any_hours_hold_all_of_it() -> None:
    """It begins earlier for that, or in other hours; only what no hours hold is parted."""
    two = law(allowed_hours=["18:00-24:00", "00:00-10:00"])
    assert place([360.0], [250, 100], 0.0, two) == ((250, 500),)
    assert place([360.0], [400, 300], 0.0, two) == ((200, 1080),)
    assert in_a_row((250, 500), (250, 100)) and not in_a_row((200, 1080), (400, 300))
    assert in_a_row((360,), (20,)) and in_a_row((), ())


def test_hours_that_meet_are_one() -> None:
    """What begins in the one may end in the other; hours that overlap are not counted twice."""
    meet = law(allowed_hours=["04:00-06:00", "06:00-08:00", "07:00-09:00"])
    assert meet.spans == ((240, 540),) and meet.open_min == 300
    assert meet.holds(350, 60) and meet.holds(480, 60) and not meet.holds(481, 60)
    assert not meet.holds(239, 60)


HOURS = st.sampled_from(
    [
        ("18:00-24:00", "00:00-10:00"),
        ("22:00-05:00",),
        ("00:01-08:00", "18:00-23:59"),
        ("05:30-06:15", "20:00-20:40", "23:00-24:00"),
        ("06:00-07:00",),
        ("19:00-00:00",),
        (),
    ]
)


@given(
    HOURS,
    st.lists(st.integers(1, 400), min_size=1, max_size=4),
    st.lists(st.integers(0, 1380), min_size=1, max_size=4),
    st.integers(0, 180),
)
def test_nothing_is_placed_outside_the_hours(
    hours: tuple[str, ...], elapsed: list[int], wishes: list[int], gap: int
) -> None:
    """Each run is through within one lawful span, none before the one before it is over."""
    own = law(allowed_hours=list(hours))
    placed = place([float(wish) for wish in sorted(wishes)], elapsed, float(gap), own)
    if placed is None:
        return
    over = 0
    for session in placed:
        for start, minutes in zip(session, elapsed, strict=True):
            assert own.holds(start, minutes) and start >= over
            over = start + minutes
        over += gap
    assert len(placed) == len(wishes)


@pytest.mark.parametrize(
    ("hour", "name"),
    [
        (9, "forenoon"),
        (11, "midday"),
        (13, "afternoon"),
        (15, "late-afternoon"),
        (17, "evening"),
        (20, "night"),
    ],
)
def test_parts_of_the_day_begin_on_the_hour(hour: int, name: str) -> None:
    """A minute before it is still the part before; a second session of a part has a number."""
    parts = ["morning", "forenoon", "midday", "afternoon", "late-afternoon", "evening", "night"]
    before = parts[parts.index(name) - 1]
    assert session_names([60 * hour - 1, 60 * hour]) == (before, name)
    assert session_names([60 * hour, 60 * hour + 1]) == (name, f"{name}-2")


def test_days_that_lie_unevenly_are_chosen_nearest_to_even() -> None:
    """Two of the first, second and seventh day of a week: half a week on lies the seventh."""
    week = [date(2027, 6, 7) + timedelta(n) for n in range(7)]
    some = [week[0], week[1], week[6]]
    assert spread(some, 2) == (week[0], week[6])
    assert spread([week[0], week[2], week[5], week[6]], 2) == (week[0], week[5])
    assert spread(week, 4) == (week[0], week[2], week[4], week[5])
    assert spread(week, 1) == (week[0],)
    assert spread(week, 7) == tuple(week)
