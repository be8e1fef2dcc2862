"""`turfplan new` at a terminal: each answer is checked at once, and a draft is kept."""

import sys
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

import pytest
import typer

from turfplan.app.asked_words import if_unknown
from turfplan.app.brief_questions import BY_NAME, steps_of
from turfplan.app.outputs import words_of_user
from turfplan.cli.new import new
from turfplan.files.reading.brief import read_brief

OPTIONS = "source name area grass soil postal_code town latitude longitude country depth"
GIVEN: dict[str, Any] = dict.fromkeys([*OPTIONS.split(), "hollow_share", "intent", "weekdays"])


def asked(
    monkeypatch: pytest.MonkeyPatch, answers: Sequence[str | None], file: Path
) -> list[tuple[str, str | None]]:
    """Asks at a terminal; None breaks off, an empty answer takes what stands there. What was asked,
    with what stood there."""
    shown: list[tuple[str, str | None]] = []
    turn: Iterator[str | None] = iter(answers)

    def prompt(text: str, *, default: str | None, err: bool) -> str:
        shown.append((text, default))
        answer = next(turn)
        if answer is None:
            raise typer.Abort
        return answer or str(default)

    monkeypatch.setattr(sys.stdin, "isatty", lambda: True)
    monkeypatch.setattr(sys.stderr, "isatty", lambda: True)
    monkeypatch.setattr(typer, "prompt", prompt)
    new(file, force=False, **GIVEN)
    return shown


def test_answers_are_checked_at_once_and_kept(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    """A wrong one is asked again with what is wrong; where the asking breaks off, the next run
    finds the answers; with the brief the draft goes.
    """
    file = tmp_path / "lawn.toml"
    with pytest.raises(typer.Abort):
        asked(monkeypatch, ["17601", "3 parsecs", "60 x 70 ft", "tall fescue", None], file)
    told = capsys.readouterr().err
    assert "parsecs" in told and "last frost about" in told
    assert not file.exists() and (tmp_path / "lawn.toml.draft").exists()
    rest = ["", "1 in", "20%", "overseed", "Sat, Sun", "Shed"]
    shown = asked(monkeypatch, ["", "", "", *rest], file)
    assert [default for _, default in shown[:3]] == ["17601", "60 x 70 ft", "tall fescue"]
    brief = read_brief(file).brief
    assert brief.lawn.name == "Shed" and round(brief.lawn.area_m2 or 0) == 390
    assert brief.leveling.lows[0].share == 0.2
    assert not (tmp_path / "lawn.toml.draft").exists()


def test_it_is_asked_as_on_the_page(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    """The same questions in the same order, with what each takes of who does not know."""
    answers = ["Lancaster PA", "half an acre", "?", "not sure", "I don't know", "?", "?", ""]
    shown = asked(monkeypatch, answers, tmp_path / "lawn.toml")
    words = words_of_user()
    wanted = [BY_NAME[name].asked() for name in steps_of({"depth": "0 in"})]
    assert [text for text, _ in shown] == [words.text(message) for message in wanted]
    told = capsys.readouterr().err
    for name in ("grass", "soil", "depth", "intent", "weekdays"):
        assert if_unknown(name, words) in told
    brief = read_brief(tmp_path / "lawn.toml").brief
    assert brief.lawn.grass[0].species == "unknown" and brief.lawn.soil == "unknown"
    assert brief.seeding.intent == "none" and brief.place.town == "Lancaster, PA"
    assert brief.calendar.weekdays == ("sat", "sun")


def test_what_cannot_be_assumed_is_asked_again(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    """With what is good enough."""
    with pytest.raises(typer.Abort):
        asked(monkeypatch, ["no idea", "17601", "I don't know", None], tmp_path / "lawn.toml")
    told = capsys.readouterr().err
    assert "a town nearby" in told and "paced off" in told


def test_grass_and_soil_are_told_by_what_is_seen(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    """Three looks, a ribbon that is felt; lengths in the units of the place."""
    looks, feel = ["look", "1", "", "3"], ["feel", "4", "1"]
    rest = ["17601", "400 m2", *looks, *feel, "none", "overseed", "weekends", ""]
    asked(monkeypatch, rest, tmp_path / "lawn.toml")
    lawn = read_brief(tmp_path / "lawn.toml").brief.lawn
    assert lawn.green_in_winter is True and lawn.runners is None and lawn.leaf == "broad"
    assert lawn.soil == "sandy clay loam"
    assert "1 in to 2 in" in capsys.readouterr().err


def test_a_soil_is_told_by_a_jar(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    """Three layers; what is no height is asked again."""
    jars = ["jar", "40", "some", "20", "jar", "40 mm", "40 mm", "20 mm"]
    rest = ["Berlin, Germany", "20 x 20 m", "mixed", *jars, "0", "none", "every day", ""]
    asked(monkeypatch, rest, tmp_path / "lawn.toml")
    lawn = read_brief(tmp_path / "lawn.toml").brief.lawn
    assert lawn.soil == "loam" and lawn.grass[0].species == "mixed"
    told = capsys.readouterr().err
    assert "all with the same ruler" in told and "48 hours" in told
