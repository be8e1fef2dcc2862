"""What an earlier version wrote is written still, byte for byte, but for what frozen/differences.md
lists with its reason.
"""

import tarfile
from io import BytesIO
from pathlib import Path

import pytest

import frozen_outputs
from frozen_outputs import (
    EXAMPLE_NAMES,
    GROUPS,
    cases,
    differing,
    digests_of,
    facts_of,
    frozen,
    shown,
    without_joined,
)
from tiers import sampled

# Some of each kind stand for all in the quick tier: an example that cannot be done, US, metric and
# surveyed ones, the shortest season, and lawns drawn from seeds.
QUICK = (
    *(f"example {name}" for name in ("bermuda-sand", "late-start", "surveyed-metric")),
    "season st-augustine-plugs",
    *(f"random {number:02}" for number in (10, 28, 46)),
)
# Of the fifty random lawns a sixth; `python tests/frozen_outputs.py --check` asks them all.
ASKED = [g for g in GROUPS if not g.startswith("random") or int(g.split()[1]) % 6 == 4]


@pytest.mark.parametrize("group", sampled(ASKED, *QUICK))
def test_written_as_before(group: str) -> None:
    """No output of a group differs; `python tests/frozen_outputs.py --show CASE OUTPUT --against
    REV` shows how one does.
    """
    kept = frozen()
    made = dict(cases(group))
    assert made.keys() == {case for case in kept if case == group or case.startswith(f"{group} ")}
    differences = {
        case: names for case, outputs in made.items() if (names := differing(case, outputs, kept))
    }
    assert differences == {}


def test_every_case_is_kept_and_none_beside_them() -> None:
    """The digests are of the groups that there are; each has a screen and its facts."""
    kept = frozen()
    assert {case if case in GROUPS else case.rsplit(" ", 1)[0] for case in kept} == set(GROUPS)
    assert all({"screen", "facts"} <= outputs.keys() for outputs in kept.values())
    assert len(kept) == len(EXAMPLE_NAMES) + 6 * 11 + 50


def test_a_difference_is_named() -> None:
    """Another byte, an output that is gone and one that has come are each told."""
    kept = {"case": digests_of({"a": "one", "b": "two", "c": "three"})}
    assert differing("case", {"a": "one", "b": "2", "d": "four"}, kept) == ["b", "c", "d"]
    assert differing("case", {"a": "one", "b": "two", "c": "three"}, kept) == []


def test_facts_hold_no_sentence() -> None:
    """The facts of a plan stay equal when its words change, and differ with a day."""
    with frozen_outputs.lawn_of_example("cool-overseed") as lawn:
        lawn.planned(frozen_outputs.TODAY)
        plan = lawn.plan()
    before = shown(facts_of(plan))
    assert not [
        line for line in before.splitlines() if line.count(" ") - line.index(line.strip()) > 3
    ]
    for task in plan["tasks"]:
        task |= {
            "title": "Other words",
            "why": "Because.",
            "how": [],
            "not_earlier": ["No."],
            "published": None,
        }
    assert shown(facts_of(plan)) == before
    plan["tasks"][0]["start"] = "2027-01-01"
    assert shown(facts_of(plan)) != before


def test_only_the_keys_that_have_joined_are_left_out() -> None:
    """Of a plan and of a task; whatever 0.1 wrote, on whatever level, is compared."""
    task = {"id": "seed", "stage": {"id": "germination"}, "series": {"stage": "kept"}}
    plan = {"tasks": [task], "said": {}, "language": "de", "stage": "kept", "lawn": {"said": 1}}
    assert without_joined(plan) == {
        "tasks": [{"id": "seed", "series": {"stage": "kept"}}],
        "stage": "kept",
        "lawn": {"said": 1},
    }
    assert plan["tasks"] == [task] and "stage" in task


def test_difference_from_an_older_revision_is_shown(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """The tool runs the older tree's own copy of itself and shows line by line what differs; equal
    outputs show nothing.
    """
    script = tmp_path / "older.py"
    script.write_text("print('exit 4')\nprint('old words')\n", encoding="utf-8")
    archive = BytesIO()
    with tarfile.open(fileobj=archive, mode="w") as tar:
        tar.add(script, "tests/frozen_outputs.py")
    monkeypatch.setattr(frozen_outputs, "archive_of", lambda revision: archive.getvalue())
    monkeypatch.setattr(frozen_outputs, "output_of", lambda case, output: "exit 4\nnew words\n")
    assert frozen_outputs.show("example late-start", "screen", "some-revision") == 1
    shown_now = capsys.readouterr().out
    assert "-old words" in shown_now and "+new words" in shown_now
    monkeypatch.setattr(frozen_outputs, "output_of", lambda case, output: "exit 4\nold words\n")
    assert frozen_outputs.show("example late-start", "screen", "some-revision") == 0
