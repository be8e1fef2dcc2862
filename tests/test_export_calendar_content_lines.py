"""Content lines are the library's, byte for byte."""

from datetime import UTC, date, datetime, timedelta, timezone
from random import Random

import pytest
from icalendar.parser import Contentline
from icalendar.prop import vDatetime, vText

from turfplan.export.calendar.content_lines import escaped, folded, instant, on_day, written

LETTERS = "abc ,;\\\n\r^:\"'N½°–€\U0001f331é"


@pytest.mark.parametrize("seed", range(4))
def test_lines_are_folded_and_escaped_as_the_library_does(seed: int) -> None:
    """Texts of every length about the fold, with signs of one to four octets and escapes."""
    chance = Random(seed)
    for length in range(160):
        text = "".join(chance.choice(LETTERS) for _ in range(length))
        value = vText(text).to_ical().decode()
        assert escaped(text) == value
        line = f"DESCRIPTION:{value}"
        assert folded(line) == Contentline(line).to_ical(), text


def test_days_and_moments() -> None:
    """As the library writes them; a moment of another zone in universal time."""
    moment = datetime(2027, 3, 1, 23, 5, 9, tzinfo=timezone(timedelta(hours=-5)))
    assert instant(moment) == "20270302T040509Z"
    assert instant(moment) == vDatetime(moment.astimezone(UTC)).to_ical().decode()
    assert on_day(date(2027, 3, 1)) == "20270301"
    assert written(("A:1", "B:2")) == b"A:1\r\nB:2\r\n"
