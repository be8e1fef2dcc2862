"""What an entry of the journal has to say, and which entries stand."""

from datetime import UTC, date, datetime

import pytest
from pydantic import ValidationError

from turfplan.records.journal import JournalEntry, says_more, standing

AT = datetime(2027, 5, 1, 8, 0, tzinfo=UTC)
DAY = date(2027, 5, 1)


def entry(number: int = 1, kind: str = "note", **keys: object) -> JournalEntry:
    """An entry as a file holds it."""
    return JournalEntry.model_validate({"number": number, "at": AT, "kind": kind, **keys})


def taken(kind: str, **keys: object) -> bool:
    """Whether an entry says what its kind needs."""
    try:
        entry(1, kind, **keys)
    except ValidationError:
        return False
    return True


@pytest.mark.parametrize("kind", ["done", "skipped", "delivered", "refused"])
def test_what_became_of_a_task_has_its_task_and_its_day(kind: str) -> None:
    """Both of them."""
    assert taken(kind, task="seed", on=DAY)
    assert not taken(kind, task="seed") and not taken(kind, on=DAY)
    assert not taken(kind, task="", on=DAY)


def test_each_other_kind_has_what_it_needs() -> None:
    """A new day, a day without a task, a task without a day, words, a measurement, a number."""
    assert taken("moved", task="seed", to=DAY) and not taken("moved", to=DAY)
    assert not taken("moved", task="seed")
    assert taken("booked", task="seed", to=DAY) and not taken("booked", to=DAY)
    assert not taken("booked", task="seed")
    assert taken("rained_off", on=DAY) and not taken("rained_off")
    assert taken("not_done", task="seed") and not taken("not_done")
    assert taken("note", text="dry") and not taken("note") and not taken("note", text="")
    assert taken("measured", on=DAY, quantity="rain", value=0.0)
    assert not taken("measured", on=DAY, quantity="rain")
    assert not taken("measured", on=DAY, value=3.0)
    assert not taken("measured", quantity="rain", value=3.0)
    assert taken("undo", undoes=0) and not taken("undo")


def test_an_entry_has_its_number_its_moment_and_its_share() -> None:
    """Numbers count from 1; the moment has a zone; the whole task where no share is told."""
    assert entry(1, text="x").share == 1.0
    for number in (0, -1):
        with pytest.raises(ValidationError):
            entry(number, text="x")
    with pytest.raises(ValidationError):
        entry(1, text="x", at=AT.replace(tzinfo=None))
    for share, sound in ((0.01, True), (1, True), (0, False), (1.01, False)):
        assert taken("done", task="seed", on=DAY, share=share) == sound


def test_undone_entries_do_not_stand_and_undos_of_undos_do() -> None:
    """In order of writing, whatever their order; the last word counts."""
    one, two = entry(1, text="a"), entry(2, text="b")
    undo = entry(3, "undo", undoes=1)
    assert standing([two, one]) == (one, two)
    assert standing([undo, two, one]) == (two,)
    again = entry(4, "undo", undoes=3)
    assert standing([one, two, undo, again]) == (one, two)
    assert standing([again, one, undo, entry(5, "undo", undoes=4), two]) == (two,)
    assert standing([one, entry(2, "undo", undoes=9)]) == (one,)
    assert standing([]) == ()


def test_entries_of_one_key_are_one() -> None:
    """The first of them counts, also where it was taken back; entries without a key are each their
    own."""
    one, other = entry(1, text="a", key="k"), entry(2, text="b", key="l")
    again = entry(3, text="a", key="k")
    assert standing([one, other, again]) == (one, other)
    assert standing([again, other, one]) == (one, other)
    undo = entry(4, "undo", undoes=1)
    assert standing([one, undo, again.model_copy(update={"number": 5})]) == ()
    bare = [entry(number, text="a") for number in (1, 2)]
    assert standing(bare) == tuple(bare)


def test_an_entry_says_who_wrote_it_and_which_way() -> None:
    """Nobody in particular where nothing is said; only ways that there are; no empty key."""
    assert (entry(text="a").by, entry(text="a").way, entry(text="a").key) == ("", None, None)
    for way, sound in (("command", True), ("page", True), ("file", True), ("mail", False)):
        assert taken("note", text="a", way=way) == sound
    assert taken("note", text="a", key="k") and not taken("note", text="a", key="")


def test_a_journal_says_more_where_something_else_stands() -> None:
    """A note says nothing of the work, nor does what is taken back at once, nor its own note taken
    back; an entry does, one taken back that was known, and entries that are lost."""
    done = entry(1, "done", task="seed", on=DAY)
    assert not says_more([], 0) and not says_more([done], 1)
    assert says_more([done], 0) and says_more([], 1)
    noted = entry(2, text="Looked at it.")
    assert not says_more([done, noted], 1) and not says_more([done, noted], 2)
    assert not says_more([done, noted, entry(3, "undo", undoes=2)], 1)
    slip = entry(2, "skipped", task="seed", on=DAY)
    assert not says_more([done, slip, entry(3, "undo", undoes=2)], 1)
    assert says_more([done, slip, entry(3, "undo", undoes=2)], 2)
    assert says_more([done, entry(2, "undo", undoes=1)], 1)
