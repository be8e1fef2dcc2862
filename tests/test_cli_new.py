"""`turfplan new` at a terminal: each answer is checked at once, and a draft is kept."""

import sys
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

import pytest
import typer

from command import run
from turfplan.app.asked_words import if_unknown, words_where
from turfplan.app.brief_questions import BY_NAME, steps_of
from turfplan.cli.new import new
from turfplan.files.reading.brief import read_brief

OPTIONS = "source name area grass soil postal_code town latitude longitude country depth"
MORE = "condition bump_cause water sprayed sprayed_on people hollow_share intent weekdays"
GIVEN: dict[str, Any] = dict.fromkeys([*OPTIONS.split(), *MORE.split()])


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
    new(file, survey=None, force=False, **GIVEN)
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
    rest = ["thick", "1 in", "20%", "moles", "", "pop-up heads", "rotor"]
    sprayed = ["weed and feed", "in April", "?"]
    ends = ["Sat, Sun", "me and my wife", "overseed"]
    shown = asked(monkeypatch, ["", "", "", *rest, *sprayed, *ends], file)
    assert [default for _, default in shown[:3]] == ["17601", "60 x 70 ft", "tall fescue"]
    brief = read_brief(file).brief
    assert brief.lawn.name == "Lawn" and round(brief.lawn.area_m2 or 0) == 390
    assert brief.lawn.condition == "dense" and brief.leveling.lows[0].share == 0.2
    assert brief.site.bump_cause == "moles" and brief.site.sprinklers is True
    assert brief.water.timer is True and brief.water.head == "rotor" and brief.work.people == 2
    (use,) = brief.history.herbicides
    assert use.active_ingredient == "weed and feed" and (use.on.month, use.on.day) == (4, 30)
    assert not (tmp_path / "lawn.toml.draft").exists()


def test_it_is_asked_as_on_the_page(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    """The same questions in the same order, with what each takes of who does not know."""
    answers = ["Lancaster PA", "half an acre", *["?", "not sure", "I don't know"] * 3]
    shown = asked(monkeypatch, answers, tmp_path / "lawn.toml")
    place = {"place": "Lancaster PA"}
    words = words_where(place)
    shown_names = steps_of({"depth": "0 in"})
    wanted = [BY_NAME[name].asked() for name in shown_names]
    assert [text for text, _ in shown] == [words.text(message) for message in wanted]
    told = capsys.readouterr().err
    for name in shown_names[2:]:
        assert if_unknown(name, words, place) in told
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
    rest = ["17601", "400 m2", *looks, "", "none", *feel, "", "no", "weekends", "", "overseed"]
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
    rest = [
        "Berlin, Germany",
        "20 x 20 m",
        "mixed",
        "",
        "0",
        *jars,
        "",
        "",
        "every day",
        "",
        "none",
    ]
    asked(monkeypatch, rest, tmp_path / "lawn.toml")
    lawn = read_brief(tmp_path / "lawn.toml").brief.lawn
    assert lawn.soil == "loam" and lawn.grass[0].species == "mixed"
    told = capsys.readouterr().err
    assert "all with the same ruler" in told and "48 hours" in told


def test_options_in_plain_words_are_read_and_others_refused_together(tmp_path: Path) -> None:
    """What is chosen may be spelled as people do; each option that names nothing is told."""
    here = ("--area", "400 m2", "--grass", "tall fescue", "--postal-code", "17601")
    plain = ("--water", "only rain", "--people", "two", "--condition", "bald spots")
    done = run("new", "a.toml", *here, *plain, "--sprayed", "nothing", cwd=tmp_path)
    brief = read_brief(tmp_path / "a.toml").brief
    assert done.returncode == 0 and brief.water.possible is False and brief.work.people == 2
    assert brief.lawn.condition == "patchy" and brief.history.herbicides == ()
    wrong = ("--water", "foo", "--sprayed", "yes", "--sprayed-on", "next week")
    refused = run("new", "b.toml", *here, *wrong, cwd=tmp_path)
    assert refused.returncode == 3 and not (tmp_path / "b.toml").exists()
    assert "--water" in refused.stderr and "--sprayed-on" in refused.stderr
