"""Sets of days as ranges."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from turfplan.records.constraints import DaySet, DayStep, Strength, TableStep

DAYS = DaySet.of([(3, 5), (10, 12), (6, 7), (9, 8)])


def test_ranges_that_touch_are_one_and_empty_ones_vanish() -> None:
    """In any order."""
    assert DAYS.ranges == ((3, 7), (10, 12))


def test_a_set_holds_the_days_of_its_ranges() -> None:
    """Its first range as well as its last, and none before, between or after them."""
    assert [day for day in range(15) if day in DAYS] == [3, 4, 5, 6, 7, 10, 11, 12]
    assert 0 not in DaySet.of([])


@pytest.mark.parametrize(
    ("day", "after", "before"), [(2, 3, None), (3, 3, 3), (8, 10, 7), (12, 12, 12), (13, None, 12)]
)
def test_the_nearest_members_on_both_sides(day: int, after: int | None, before: int | None) -> None:
    """The day itself where it is a member; none beyond the ends."""
    assert (DAYS.next(day), DAYS.previous(day)) == (after, before)


def test_ranges_are_joined_where_they_touch_or_overlap() -> None:
    """A day apart stays apart; one inside another is swallowed; single days too."""
    cases: dict[tuple[tuple[int, int], ...], tuple[tuple[int, int], ...]] = {
        ((1, 3), (4, 6)): ((1, 6),),
        ((1, 3), (5, 6)): ((1, 3), (5, 6)),
        ((1, 9), (2, 3), (5, 11)): ((1, 11),),
        ((5, 5), (3, 3), (4, 4), (7, 7)): ((3, 5), (7, 7)),
        ((6, 5), (2, 2)): ((2, 2),),
        (): (),
    }
    for given_, ranges in cases.items():
        assert DaySet.of(given_).ranges == ranges


def test_days_become_the_ranges_that_hold_them() -> None:
    """In any order, each once or often."""
    assert DaySet.from_days([9, 3, 4, 5, 9, 10, 1]).ranges == ((1, 1), (3, 5), (9, 10))
    assert DaySet.from_days([7]).ranges == ((7, 7),) and DaySet.from_days([]).ranges == ()
    assert DaySet.from_days([7, 8]).days() == (7, 8)


def test_ranges_apart_are_their_starts_and_ends() -> None:
    """None of none."""
    assert DAYS.columns == ((3, 10), (7, 12)) and DaySet(()).columns == ((), ())


@pytest.mark.parametrize(
    ("first", "second", "both", "left"),
    [
        ([(1, 9)], [(3, 5)], ((3, 5),), ((1, 2), (6, 9))),
        ([(3, 5)], [(1, 9)], ((3, 5),), ()),
        ([(1, 5)], [(5, 9)], ((5, 5),), ((1, 4),)),
        ([(5, 9)], [(1, 5)], ((5, 5),), ((6, 9),)),
        ([(1, 4)], [(5, 9)], (), ((1, 4),)),
        (
            [(1, 3), (6, 8), (11, 12)],
            [(3, 6), (8, 11)],
            ((3, 3), (6, 6), (8, 8), (11, 11)),
            ((1, 2), (7, 7), (12, 12)),
        ),
        ([(1, 9)], [(1, 1), (9, 9)], ((1, 1), (9, 9)), ((2, 8),)),
        ([(1, 9)], [(1, 9)], ((1, 9),), ()),
        ([(4, 6)], [(1, 2), (5, 5), (8, 9)], ((5, 5),), ((4, 4), (6, 6))),
        ([], [(1, 2)], (), ()),
        ([(1, 2)], [], (), ((1, 2),)),
    ],
)
def test_what_two_sets_share_and_what_one_has_left(
    first: list[tuple[int, int]],
    second: list[tuple[int, int]],
    both: tuple[tuple[int, int], ...],
    left: tuple[tuple[int, int], ...],
) -> None:
    """Borders belong to both; the order of the two does not matter for what they share."""
    one, other = DaySet.of(first), DaySet.of(second)
    assert one.intersect(other).ranges == both == other.intersect(one).ranges
    assert one.without(other).ranges == left


def test_steps_lead_to_their_days() -> None:
    """Some days on or back; by a table, whose ends hold beyond it."""
    assert (DayStep(3)(10), DayStep(-3)(10)) == (13, 7)
    table = TableStep(100, (104, 104, 107))
    assert [table(day) for day in (98, 100, 101, 102, 103, 200)] == [104, 104, 104, 107, 107, 107]
    assert TableStep(0, (5,))(-7) == 5


@pytest.mark.parametrize("targets", [(), (5, 4), (1, 3, 2)])
def test_a_table_never_decreases_and_holds_something(targets: tuple[int, ...]) -> None:
    """Equal targets in turn are fine."""
    with pytest.raises(ValueError, match="unordered"):
        TableStep(0, targets)
    assert TableStep(0, (4, 4, 5)).targets == (4, 4, 5)


def test_strengths_are_ordered() -> None:
    """From what is given up first to what never is."""
    order = [Strength.PREFERENCE, Strength.ADVICE, Strength.STRONG, Strength.HARD]
    assert sorted(Strength) == order and len(set(order)) == 4


SPANS = st.lists(st.tuples(st.integers(0, 40), st.integers(0, 40)), max_size=6)


@pytest.mark.full
@given(SPANS, SPANS)
def test_what_is_taken_out_is_gone_and_nothing_else(
    whole: list[tuple[int, int]], gone: list[tuple[int, int]]
) -> None:
    """Day by day, and as ranges that lie apart."""
    left = DaySet.of(whole).without(DaySet.of(gone))
    assert left == DaySet.from_days(set(DaySet.of(whole).days()) - set(DaySet.of(gone).days()))
