"""Which lawns a folder holds, wherever they lie in it, each once."""

from pathlib import Path

import pytest

from turfplan.files.lawn_files import lawns_at

BRIEF = '[lawn]\nid = "{}"\n'
PLAN = '{{"schema": 1, "lawn_id": "{}"}}'


def made(home: Path, *paths: str) -> None:
    """Briefs and plans, each with the id that follows its path after a colon."""
    for each in paths:
        path, _, lawn_id = each.partition(":")
        (home / path).parent.mkdir(parents=True, exist_ok=True)
        form = PLAN if path.endswith("plan.json") else BRIEF
        (home / path).write_text(form.format(lawn_id), encoding="utf-8")


# What lies in a folder, and the lawns in it: folder and brief.
FOLDERS: dict[str, tuple[tuple[str, ...], list[tuple[str, str | None]]]] = {
    "a brief and its plan": (("a.toml:1", "a/plan.json:1"), [("a", "a.toml")]),
    "a brief without a plan": (("a.toml:1",), [("a", "a.toml")]),
    "a plan without a brief": (("a/plan.json:1",), [("a", None)]),
    "a plan made into another folder": (("a.toml:1", "out/plan.json:1"), [("out", "a.toml")]),
    "another lawn's plan": (
        ("a.toml:1", "out/plan.json:2"),
        [("a", "a.toml"), ("out", None)],
    ),
    "a data folder": (
        ("lawns/a/brief.toml:1", "lawns/a/plan.json:1", "lawns/b/brief.toml:2"),
        [("lawns/a", "lawns/a/brief.toml"), ("lawns/b", "lawns/b/brief.toml")],
    ),
    "a data folder below": (
        ("data/lawns/a/brief.toml:1", "data/business.toml"),
        [("data/lawns/a", "data/lawns/a/brief.toml")],
    ),
    "clients as they were": (
        ("out/a/plan.json:1", "out/b/plan.json:2"),
        [("out/a", None), ("out/b", None)],
    ),
    "a lawn's own folder": (("brief.toml:1", "plan.json:1"), [(".", "brief.toml")]),
    "nothing": (("x/y/z/deep/plan.json:1",), []),
}


@pytest.mark.parametrize(("paths", "wanted"), FOLDERS.values(), ids=FOLDERS)
def test_the_lawns_of_a_folder(
    paths: tuple[str, ...], wanted: list[tuple[str, str | None]], tmp_path: Path
) -> None:
    """By folder and brief."""
    made(tmp_path, *paths)
    root = tmp_path.resolve()
    found = [
        (
            lawn.folder.relative_to(root).as_posix(),
            lawn.brief and lawn.brief.relative_to(root).as_posix(),
        )
        for lawn in lawns_at(tmp_path)
    ]
    assert found == wanted


def test_other_toml_is_no_brief(tmp_path: Path) -> None:
    """A table of something else is none; one that is damaged counts where a lawn lies beside it."""
    (tmp_path / "pyproject.toml").write_text("[project]\n", encoding="utf-8")
    (tmp_path / "broken.toml").write_text("[lawn\n", encoding="utf-8")
    assert lawns_at(tmp_path) == ()
    (tmp_path / "broken.journal.jsonl").touch()
    assert [lawn.brief for lawn in lawns_at(tmp_path)] == [tmp_path.resolve() / "broken.toml"]


def test_a_brief_by_its_name(tmp_path: Path) -> None:
    """One lawn alone, with what lies beside it."""
    made(tmp_path, "a.toml:1", "b.toml:2", "a/plan.json:1")
    (tmp_path / "a.journal.jsonl").touch()
    (tmp_path / "a" / "client.toml").touch()
    (lawn,) = lawns_at(tmp_path / "a.toml")
    root = tmp_path.resolve()
    assert lawn.journals == (root / "a.journal.jsonl",)
    assert lawn.records == (root / "a" / "client.toml",)
    assert lawn.plan == root / "a" / "plan.json"
