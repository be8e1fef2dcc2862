"""A table of heights in the place of a depth: looked at before it is kept, named by the brief."""

from pathlib import Path

import pytest

from command import run
from turfplan.app.asked_words import words_where
from turfplan.app.brief_questions import SURVEY, SURVEY_FILE, brief_of, steps_of
from turfplan.app.sent_survey import MOST_FAULTS, survey_faults, survey_told
from turfplan.files.reading.plan import read_plan
from turfplan.message import Quantity

GRID = "x_m,y_m,height_mm\n" + "\n".join(
    f"{x},{y},{-40 if (x, y) == (5, 5) else -x - y}" for y in (0, 5, 10) for x in (0, 5, 10)
)
FIRST = {"place": "Reading, GB", "area": "100 m2", "grass": "tall fescue", "depth": ""}
OPTIONS = ["--area", "100 m2", "--grass", "tall fescue", "--town", "Reading, GB"]


def test_a_table_is_said_back_with_what_it_comes_to() -> None:
    """Points, area, mean and deepest are those of the fill that is planned."""
    values = dict(survey_told({**FIRST, SURVEY: GRID}).values)
    assert values["n"] == 9
    area, deepest = values["area"], values["deepest"]
    assert isinstance(area, Quantity) and area.value == pytest.approx(100.0)
    assert isinstance(deepest, Quantity) and 20 < deepest.value < 40


def test_every_fault_of_a_table_is_told_by_its_line_and_not_more_than_are_read() -> None:
    """All at once; of a file that is no table the first ones and how many more."""
    bad = GRID.replace("5,5,-40", "5,five,deep").replace("10,10,-20", "10,10,low")
    words = words_where(FIRST)
    told = [words.text(fault) for fault in survey_faults({**FIRST, SURVEY: bad})]
    assert len(told) == 3
    assert "line 6" in told[0] and "line 6" in told[1] and "line 10" in told[2]
    many = "x_m,y_m,height_mm\n" + "a,b,c\n" * 40
    assert len(survey_faults({**FIRST, SURVEY: many})) == MOST_FAULTS + 1
    assert survey_faults({**FIRST, SURVEY: "root:x:0:0"}) and survey_faults({**FIRST, SURVEY: ","})


def test_a_surveyed_lawn_is_filled_by_its_table_and_asked_why_but_not_where() -> None:
    """The brief names the table and no depth."""
    answers = {**FIRST, SURVEY: GRID}
    brief = brief_of(answers)
    assert brief.leveling.survey == SURVEY_FILE and brief.leveling.depth_mm is None
    assert "cause" in steps_of(answers) and "everywhere" not in steps_of(answers)


def test_the_command_keeps_the_table_beside_the_brief(tmp_path: Path) -> None:
    """And plans from it; a wrong one, one beside a depth, and another file in its place are refused
    with nothing written."""
    table, file = tmp_path / "heights.csv", tmp_path / "lawn" / "brief.toml"
    table.write_text(GRID.replace("-40", "deep"), encoding="utf-8")
    words = ["new", str(file), *OPTIONS, "--survey", str(table), "--intent", "none"]
    refused = run(*words)
    assert refused.returncode == 3 and "line 6" in refused.stderr and not file.parent.exists()
    table.write_text(GRID, encoding="utf-8")
    assert run(*words, "--depth", "1 in").returncode == 3 and not file.parent.exists()
    file.parent.mkdir()
    kept = file.with_name(SURVEY_FILE)
    kept.write_text("another one", encoding="utf-8")
    assert run(*words).returncode == 3 and not file.exists()
    kept.unlink()
    assert run(*words).returncode == 0 and kept.read_text(encoding="utf-8") == GRID
    assert run("plan", str(file), "--today", "2027-03-01").returncode == 0
    assert read_plan(file.parent).fill is not None
