"""Passes divided otherwise: no longer than that can help."""

from types import SimpleNamespace
from typing import Any

import pytest

from turfplan.message import Message, as_written
from turfplan.planning import divided_again
from turfplan.planning.divided_again import ALIKE, datable

SAME, OTHER = (as_written("too late"),), (as_written("too early"),)


def tried(
    monkeypatch: pytest.MonkeyPatch,
    answers: list[tuple[Message, ...]],
    shut: set[tuple[Message, ...]],
) -> int:
    """How many divisions of a campaign are tried that has these answers, one each."""
    given: Any = SimpleNamespace(history=SimpleNamespace(done={}, part_done={}))
    left: Any = None
    asked = iter(answers)
    counted: list[int] = []

    def answer(*_: object) -> tuple[Message, ...]:
        counted.append(1)
        return next(asked)

    monkeypatch.setattr(divided_again, "refed_freely", answer)
    monkeypatch.setattr(divided_again, "within", lambda lawn, campaign: lawn)
    monkeypatch.setattr(divided_again, "redivided", lambda *_: range(1, len(answers)))
    way: Any = (None, 0)
    assert datable(left, way, given, True, shut) == []
    return len(counted)


def test_what_stands_against_three_divisions_alike_ends_them(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Of this campaign and of the next; what differs from division to division does not."""
    shut: set[tuple[Message, ...]] = set()
    assert tried(monkeypatch, [SAME, OTHER, SAME, OTHER], shut) == 4 and not shut
    assert tried(monkeypatch, [SAME] * 9, shut) == ALIKE and shut == {SAME}
    assert tried(monkeypatch, [SAME] * 9, shut) == 1
    assert tried(monkeypatch, [OTHER, SAME, OTHER], shut) == 2
