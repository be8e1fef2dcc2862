"""A plan in the pseudo-language shows no English word: what a reader reads comes from a catalog,
all of it. `test_no_english_answers` asks the same of commands and of the served page.
"""

from pathlib import Path

import pytest

from english_words import AS_THEY_ARE, english_in, own_words, shown
from planning import EXAMPLES, POSSIBLE
from pseudo_language import LANGUAGE, install
from tiers import sampled
from turfplan.cli import main
from turfplan.files.reading.brief import read_brief
from turfplan.files.reading.plan import plan_from_json
from turfplan.messages import catalog

SHEETS = ("book", "order", "changes", "week", "water", "measure")


@pytest.mark.parametrize("name", sampled([*POSSIBLE], "surveyed-metric"))
def test_no_english_word_is_left(
    name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Calendar, checklist, order, every sheet and table, the screen and each task's reasons."""
    install(tmp_path)
    monkeypatch.setenv(catalog.MORE, str(tmp_path))
    # `--language` speaks on to what the command starts: here it must not speak to the next test.
    monkeypatch.setenv("TURFPLAN_LANGUAGE", LANGUAGE)
    brief, out = str(EXAMPLES / f"{name}.toml"), tmp_path / "out"

    def said(*arguments: str) -> str:
        with pytest.raises(SystemExit) as ended:
            main([*arguments, "-o", str(out), "--language", LANGUAGE])
        assert not ended.value.code, capsys.readouterr().err
        return "".join(capsys.readouterr())

    screen = [said("plan", brief, "--today", "2027-02-01")]
    plan = plan_from_json((out / "plan.json").read_bytes())
    for sheet in SHEETS:
        said("print", brief, sheet)
    files = sorted(file for file in out.iterdir() if file.suffix in (".ics", ".html", ".csv"))
    assert len(files) > len(SHEETS)
    allowed = own_words(plan) | AS_THEY_ARE
    for use in read_brief(Path(brief)).brief.history.herbicides:
        allowed |= {use.active_ingredient, use.active_ingredient.capitalize()}
    left = {
        (file.name, word)
        for file in files
        for text in shown(file)
        for word in english_in(text, allowed)
    }
    left |= {("screen", word) for word in english_in(screen[0], allowed)}
    assert left == set()
