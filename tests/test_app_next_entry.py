"""Two who write of one job at the same moment: neither the look for slips nor the key of a page
lets it be written twice.
"""

from datetime import date
from pathlib import Path
from typing import Any

import pytest

from planning import EXAMPLES, example
from printed import outputs
from turfplan.app import log_entry as logging
from turfplan.app.lawn_day import tick_key
from turfplan.app.log_entry import Happening, log_entry, tick_entries, undo_entry
from turfplan.errors import TurfplanError
from turfplan.files.journal import read_journal
from turfplan.files.plan_folder import write_outputs
from turfplan.files.reading.brief import journal_beside
from turfplan.files.reading.plan import read_plan
from turfplan.records.plan import Plan

NAME = "cool-overseed"
DAY, NEXT = date(2027, 3, 6), date(2027, 3, 7)


@pytest.fixture
def lawn(tmp_path: Path) -> tuple[Path, Path, Plan]:
    """The brief, the folder and the plan of a lawn."""
    brief, folder = tmp_path / f"{NAME}.toml", tmp_path / NAME
    brief.write_bytes((EXAMPLES / brief.name).read_bytes())
    folder.mkdir()
    write_outputs(folder, outputs(example(NAME)))
    plan = read_plan(folder)
    assert plan is not None
    return brief, folder, plan


def done(by: str, on: date = DAY, **more: Any) -> Happening:
    """The soil sample was taken."""
    return Happening("done", "soil_test", on=on, by=by, **more)


def by_command(lawn: tuple[Path, Path, Plan], happening: Happening) -> None:
    """Writes as `turfplan log` does."""
    log_entry(lawn[0], lawn[1], happening, today=NEXT, with_effect=False)


def ticked(lawn: tuple[Path, Path, Plan], *ticks: Happening) -> Any:
    """Ticks as the page writes them."""
    return tick_entries(journal_beside(lawn[0]), lawn[2], ticks, NEXT, sure=False)


def entries(lawn: tuple[Path, Path, Plan]) -> list[tuple[str, str]]:
    """Kind and writer of each entry."""
    return [(entry.kind, entry.by) for entry in read_journal(journal_beside(lawn[0])).entries]


def test_a_tick_of_what_the_command_wrote_since_is_the_command_s(
    lawn: tuple[Path, Path, Plan],
) -> None:
    """It counts once, and is told as the other's; on another day it is asked back, and once the
    command's is taken back it is written."""
    key = tick_key((), "soil_test")
    by_command(lawn, done("Cleo"))
    told = ticked(lawn, done("Ana", key=key, way="page"))
    assert [entry.by for entry in told.known] == ["Cleo"] and told.entries == told.known
    assert ticked(lawn, done("Ana", NEXT, key=key, way="page")).slips
    assert entries(lawn) == [("done", "Cleo")]
    undo_entry(lawn[0], lawn[1], 1)
    fresh = tick_key(read_journal(journal_beside(lawn[0])).entries, "soil_test")
    assert not ticked(lawn, done("Ana", key=fresh, way="page")).known
    assert entries(lawn) == [("done", "Cleo"), ("undo", ""), ("done", "Ana")]


@pytest.mark.parametrize("on", [DAY, NEXT])
def test_what_is_written_between_the_look_and_the_writing_is_seen(
    lawn: tuple[Path, Path, Plan], monkeypatch: pytest.MonkeyPatch, on: date
) -> None:
    """By a page: another's word of the same job is found all the same, and nothing is written
    twice; other jobs of the same form are written once."""
    looked = logging.slips_of_ticks
    once = [True]

    def look(*given: Any) -> Any:
        found = looked(*given)
        if once and once.pop():
            by_command(lawn, done("Cleo", on))
        return found

    monkeypatch.setattr(logging, "slips_of_ticks", look)
    other = Happening("skipped", "inspect.depth", on=DAY, by="Ana", way="page", key="k")
    told = ticked(lawn, other, done("Ana", key=tick_key((), "soil_test"), way="page"))
    assert ("done", "Ana") not in entries(lawn)
    assert entries(lawn).count(("done", "Cleo")) == 1
    if on == DAY:
        assert [entry.by for entry in told.known if entry.task == "soil_test"] == ["Cleo"]
        assert entries(lawn).count(("skipped", "Ana")) == 1
    else:
        assert told.slips and not told.entries


def test_the_command_sees_what_a_page_wrote_meanwhile(
    lawn: tuple[Path, Path, Plan], monkeypatch: pytest.MonkeyPatch
) -> None:
    """It is asked back as what is written already, and is not written twice."""
    asked = logging._ask_back
    once = [True]

    def ask(*given: Any) -> None:
        asked(*given)
        if once and once.pop():
            ticked(lawn, done("Ana", key=tick_key((), "soil_test"), way="page"))

    monkeypatch.setattr(logging, "_ask_back", ask)
    with pytest.raises(TurfplanError, match="entry 1 says the same"):
        by_command(lawn, done("Cleo"))
    assert entries(lawn) == [("done", "Ana")]
