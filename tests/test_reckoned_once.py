"""What is asked again of the same lawn is reckoned once, of another one anew."""

from turfplan.reckoned_once import reckoned_once


def test_the_same_thing_is_reckoned_once_and_an_equal_one_anew() -> None:
    """Records are known by being the same object, numbers by their value; names make no
    difference to the answer.
    """
    asked: list[tuple[list[int], int]] = []

    @reckoned_once
    def longest(lawn: list[int], share: int) -> int:
        asked.append((lawn, share))
        return len(lawn) * share

    lawn, alike = [1, 2], [1, 2]
    assert [longest(lawn, 3), longest(lawn, 3), longest(lawn, share=4)] == [6, 6, 8]
    assert longest(alike, 3) == 6
    assert [(held is lawn, share) for held, share in asked] == [(True, 3), (True, 4), (False, 3)]
