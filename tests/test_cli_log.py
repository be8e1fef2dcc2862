"""The journal on the command line: what is told after planning again, and what `log` answers."""

import io
import json
import re
import shlex
import subprocess
from collections.abc import Callable
from datetime import date, timedelta
from pathlib import Path

import pytest

from command import run
from planning import EXAMPLES
from test_cli import GOOD, written
from turfplan.app.typed_amounts import MEASURED
from turfplan.cli import journal_words, log, log_writing
from turfplan.files.journal import read_journal
from turfplan.files.reading.plan import read_plan
from turfplan.records.journal import JournalEntry
from turfplan.records.plan_task import Task


def season_of(tmp_path: Path) -> Path:
    """A brief that was planned in February."""
    brief = written(tmp_path, GOOD + '[leveling]\ndepth = "0.5 in"\n[season]\nfrom = 2027-03-01\n')
    done = run("plan", str(brief), "--today", "2027-02-01")
    assert done.returncode == 0, done.stderr
    return brief


def test_overdue_work_comes_with_the_commands_that_answer(tmp_path: Path) -> None:
    """What is over without an entry is named with commands that can be pasted as they stand, and
    asked for no more after.
    """
    brief = season_of(tmp_path)
    said = run("plan", str(brief), "--today", "2027-05-01").stdout
    answers = [
        line.strip()
        for line in said.splitlines()
        if line.startswith("  turfplan log ") and " done " in line
    ]
    assert answers and f"turfplan plan {brief} --assume not-done" in said
    for line in answers:
        assert run(*shlex.split(line)[1:]).returncode == 0
    after = run("plan", str(brief), "--today", "2027-05-01").stdout
    assert "Overdue" not in after and "(done)" in after


def test_changes_are_told_once(tmp_path: Path) -> None:
    """A run that changes something says what, by title; the next run has no news."""
    brief = season_of(tmp_path)
    assert run("log", str(brief), "skipped", "soil_test", "--on", "2027-02-02").returncode == 0
    first, second = (run("plan", str(brief), "--today", "2027-02-03").stdout for _ in range(2))
    assert "Skipped: Take a soil sample" in first and "Skipped" not in second


def test_log_says_what_can_be_logged(tmp_path: Path) -> None:
    """Without a word, or with a misspelt one, `log` lists the words and the nearest; quantities are
    repeated as given.
    """
    brief = season_of(tmp_path)
    for words, needle in (((), "is missing"), (("don", "soil_test"), "Did you mean 'done'?")):
        wrong = run("log", str(brief), *words)
        assert wrong.returncode == 2 and needle in wrong.stderr and "rained-off" in wrong.stderr
    said = run("log", str(brief), "measured", "soil_temperature", "58 F", "--on", "2027-02-02")
    told, effect = said.stdout.splitlines()
    assert told == "Entry 1: soil temperature: 58 F on 2027-02-02." and effect.startswith(
        "It moves"
    )


# A value of each dimension that is measured, as somebody types it.
TYPED = {
    "temperature": "58 F",
    "length": "12 mm",
    "share": "1",
    "per_area": "12 1/ft2",
    "days": "14 days",
}


def test_every_quantity_that_can_be_measured_is_told(tmp_path: Path) -> None:
    """Each quantity has a name of its own: it is logged and said without a fault."""
    brief, told = season_of(tmp_path), set()
    for quantity, dimension in MEASURED.items():
        value = TYPED[dimension]
        said = run("log", str(brief), "measured", quantity, value, "--on", "2027-02-02")
        assert said.returncode == 0 and f": {value} on 2027-02-02." in said.stdout, said.stderr
        told.add(said.stdout.split(": ")[1])
    assert len(told) == len(MEASURED)


def test_nothing_is_written_that_cannot_be_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where an entry cannot be put into words, or nobody knows in which, the journal stays."""
    brief = season_of(tmp_path)
    entry = ("log", str(brief), "note", "the north corner stays wet")
    monkeypatch.setenv("TURFPLAN_LANGUAGE", "xx")
    assert run(*entry).returncode == run("log", str(brief), "undo").returncode == 3
    monkeypatch.delenv("TURFPLAN_LANGUAGE")

    def fails(*_: object) -> None:
        raise KeyError("screen.log.note")

    with monkeypatch.context() as broken:
        broken.setattr(journal_words, "entry_told", fails)
        with pytest.raises(KeyError):
            run(*entry)
    assert run(*entry).stdout.startswith("Entry 1: ")


Answer = Callable[[str], None]


@pytest.fixture
def answering(monkeypatch: pytest.MonkeyPatch) -> Answer:
    """Somebody at a terminal who types what they are given."""

    def types(text: str) -> None:
        for module in (log, log_writing):
            monkeypatch.setattr(module, "on_terminal", lambda: True)
        monkeypatch.setattr("sys.stdin", io.StringIO(text))

    return types


def entries(brief: Path) -> tuple[JournalEntry, ...]:
    """What the journal beside a brief holds."""
    return read_journal(brief.with_suffix(".journal.jsonl")).entries


def tasks(brief: Path) -> dict[str, Task]:
    """The tasks of the plan in the brief's folder, by id."""
    plan = read_plan(brief.with_suffix(""))
    assert plan is not None
    return {task.id: task for task in plan.tasks}


def logged(brief: Path, *words: str) -> "subprocess.CompletedProcess[str]":
    """One call of `log`."""
    return run("log", str(brief), *words)


SLIPS = (
    (("done", "topdress.1", "--on", "2029-09-04"), "--on"),
    (("done", "soil_test", "--on", "2027-03-06", "--today", "2027-03-05"), "--on"),
    (("done", "topdress.1", "--on", "2027-09-04", "--amount", "80 yd3"), "--amount"),
    (("done", "overseed", "--on", "2027-09-12", "--amount", "24 kg"), "--amount"),
    (("delivered", "topdress.1", "--on", "2027-09-04"), "TASK"),
    (("rained-off", "soil_test", "--on", "2027-03-06"), "TASK"),
    (("refused", "overseed", "--on", "2027-09-12"), "TASK"),
    (("measured", "soil_temperature", "58 C", "--on", "2027-04-02"), "VALUE"),
)


@pytest.mark.parametrize(("words", "where"), SLIPS)
def test_a_slip_is_refused_with_its_reason_and_kept_with_yes(
    tmp_path: Path, words: tuple[str, ...], where: str
) -> None:
    """Without a terminal: exit code 3, nothing written, the option that keeps it named; with it,
    written as it stands."""
    brief = season_of(tmp_path)
    refused = logged(brief, *words)
    assert refused.returncode == 3 and refused.stderr.startswith(f"error: {where}: ")
    assert "--yes" in refused.stderr and not entries(brief) and not refused.stdout
    kept = logged(brief, *words, "--yes")
    assert kept.returncode == 0, kept.stderr
    assert [entry.task for entry in entries(brief)] == [
        words[1] if words[0] != "measured" else None
    ]


@pytest.mark.parametrize(
    "words",
    [
        ("measured", "germination", "300 %", "--on", "2027-09-30"),
        ("measured", "soil_temperature", "580 F", "--on", "2027-04-02"),
        ("done", "overseed", "--on", "2027-09-12", "--share", "20"),
        ("done", "overseed", "--on", "2027-09-12", "--share", "1.2"),
        ("delivered", "delivery.1", "--on", "2027-09-04", "--amount", "0 yd3"),
        ("note", ""),
        ("note", "x", "--key", ""),
    ],
)
def test_what_cannot_be_true_is_never_written(tmp_path: Path, words: tuple[str, ...]) -> None:
    """Not even where somebody stands by it."""
    brief = season_of(tmp_path)
    for more in ((), ("--yes",)):
        done = logged(brief, *words, *more)
        assert done.returncode == 3 and "error:" in done.stderr, done.stderr
    assert not entries(brief)


def test_somebody_at_a_terminal_is_asked_and_no_is_the_answer(
    tmp_path: Path, answering: Answer
) -> None:
    """The question says what looks wrong; only a yes writes it."""
    brief = season_of(tmp_path)
    words = ("done", "topdress.1", "--on", "2029-09-04")
    for typed, code, count in (("\n", 3, 0), ("n\n", 3, 0), ("y\n", 0, 1)):
        answering(typed)
        done = logged(brief, *words)
        assert done.returncode == code and "This looks like a slip" in done.stderr
        assert len(entries(brief)) == count
        assert ("Nothing was written." in done.stderr) == (code == 3)


def test_the_same_key_counts_once(tmp_path: Path) -> None:
    """A program that writes again gets the entry that stands; its undo too; a key is drawn where
    none is given."""
    brief = season_of(tmp_path)
    words = ("note", "dry corner", "--key", "k-1", "--by", "Robin")
    once, twice = logged(brief, *words), logged(brief, *words)
    assert once.returncode == twice.returncode == 0
    assert twice.stdout.startswith("Already written, as entry 1: noted: dry corner")
    (only,) = entries(brief)
    assert (only.key, only.by, only.way) == ("k-1", "Robin", "command")
    answer = json.loads(logged(brief, *words, "--json").stdout)
    assert answer["schema"] == 1 and answer["already_written"] and answer["number"] == 1
    logged(brief, "note", "a")
    logged(brief, "note", "a")
    drawn = [entry.key for entry in entries(brief)]
    assert len(drawn) == len(set(drawn)) == 3 and all(drawn)
    for _ in range(2):
        assert logged(brief, "undo", "--key", "u-1").returncode == 0
    assert [entry.undoes for entry in entries(brief)][3:] == [3]


def test_undo_says_what_it_took_back_and_list_what_stands(tmp_path: Path) -> None:
    """In words, in the lawn's units, with numbers; as JSON the entries themselves."""
    brief = season_of(tmp_path)
    titles = {name: str(task.title) for name, task in tasks(brief).items()}
    assert logged(brief, "list").stdout == "No entry stands.\n"
    logged(brief, "done", "soil_test", "--on", "2027-03-06", "--by", "Robin")
    logged(brief, "delivered", "delivery.1", "--on", "2027-08-28", "--amount", "8 yd3", "--yes")
    logged(brief, "rained-off", "--on", "2027-04-03")
    back = logged(brief, "undo", "3").stdout
    assert "entry 3 no longer counts: everything that needs a dry day rained off" in back
    assert logged(brief, "list").stdout.splitlines() == [
        f"Entry 1: “{titles['soil_test']}” (soil_test) done on 2027-03-06. Written by Robin.",
        f"Entry 2: “{titles['delivery.1']}” (delivery.1) delivered on 2027-08-28, 8 yd³.",
    ]
    listed = json.loads(logged(brief, "list", "--json").stdout)
    assert listed["schema"] == 1 and [e["number"] for e in listed["entries"]] == [1, 2]
    again = logged(brief, "undo", "4").stdout
    assert "the taking back of entry 3" in again
    assert len(logged(brief, "list").stdout.splitlines()) == 3


def test_a_wish_that_breaks_a_rule_is_not_written(tmp_path: Path) -> None:
    """Cool turf is not dressed in July: why, and the days that work, each of which is taken."""
    brief = tmp_path / "lawn.toml"
    brief.write_text((EXAMPLES / "cool-overseed.toml").read_text("utf-8"), "utf-8")
    assert run("plan", str(brief), "--today", "2027-02-01").returncode == 0
    for word in ("moved", "booked"):
        refused = logged(brief, word, "topdress.1", "--to", "2027-07-03", "--yes")
        assert refused.returncode == 3 and not entries(brief)
        assert "Passes go on while tall fescue grows" in refused.stderr
        assert "hint: days that work: " in refused.stderr
    for month, day in re.findall(r"(Apr|May|Jun) (\d+), 2027", refused.stderr.split("hint:")[1]):
        near = date(2027, {"Apr": 4, "May": 5, "Jun": 6}[month], int(day))
        taken = logged(brief, "moved", "topdress.1", "--to", str(near))
        assert taken.returncode == 0 and "It drags along" in taken.stdout, taken.stderr
    assert len(entries(brief)) == 3


@pytest.mark.parametrize(
    ("words", "why"),
    [
        (("moved", "overseed", "--to", "2026-09-12", "--today", "2027-02-01"), "before today"),
        (("moved", "overseed", "--to", "2035-09-12"), "season of the plan"),
        (("booked", "water.germination.w1.morning", "--to", "2027-09-20"), "no day of its own"),
        (("booked", "qqq", "--to", "2027-09-20"), "no such task"),
    ],
)
def test_a_wish_that_cannot_be_is_refused(tmp_path: Path, words: tuple[str, ...], why: str) -> None:
    """Past days, other years, waterings, tasks that are not there."""
    brief = season_of(tmp_path)
    if words[1].startswith("water"):
        series = next(task.id for task in tasks(brief).values() if task.series is not None)
        words = (words[0], series, *words[2:])
    refused = logged(brief, *words)
    assert refused.returncode == 3 and why in refused.stderr and not entries(brief)


def test_a_tuesday_is_taken_and_says_what_it_drags_along(tmp_path: Path) -> None:
    """Weekdays are a preference; the plan then has what was told, and a booking does not move what
    its owner moved."""
    brief = season_of(tmp_path)
    task = tasks(brief)["topdress.1"]
    tuesday = task.start + timedelta(days=(1 - task.start.weekday()) % 7)
    done = logged(brief, "moved", "topdress.1", "--to", str(tuesday))
    assert done.returncode == 0, done.stderr
    told = [line for line in done.stdout.splitlines() if line.startswith("It drags along")]
    before = tasks(brief)
    assert run("plan", str(brief), "--today", "2027-02-01").returncode == 0
    after = tasks(brief)
    assert after["topdress.1"].start == tuesday and after["topdress.1"].held
    moved = {
        name
        for name, one in after.items()
        if one.series is None and name != "topdress.1" and one.start != before[name].start
    }
    assert moved and told and all(f"({name})" in told[0] for name in moved)
    week = str(tuesday + timedelta(days=4))
    booked = logged(brief, "booked", "topdress.1", "--to", week)
    assert booked.returncode == 3 and "entry 1" in booked.stderr
    assert logged(brief, "moved", "topdress.1", "--to", week).returncode == 0


def test_what_is_over_cannot_be_wished_for(tmp_path: Path) -> None:
    """Done, or left out."""
    brief = season_of(tmp_path)
    logged(brief, "done", "soil_test", "--on", "2027-03-06")
    logged(brief, "skipped", "overseed", "--on", "2027-03-06")
    for task in ("soil_test", "overseed"):
        refused = logged(brief, "moved", task, "--to", "2027-09-20")
        assert refused.returncode == 3 and "done or left out" in refused.stderr


def test_an_entry_says_what_it_changes(tmp_path: Path) -> None:
    """A day of rain moves the pass; a note moves nothing."""
    brief = season_of(tmp_path)
    day = tasks(brief)["topdress.1"].start
    rain = logged(brief, "rained-off", "topdress.1", "--on", str(day))
    assert "It moves" in rain.stdout and "nothing" not in rain.stdout
    assert "It moves nothing in the plan." in logged(brief, "note", "windy").stdout
    back = logged(brief, "undo", "1").stdout
    assert "It moves" in back and "nothing" not in back
    assert "It moves nothing in the plan." in logged(brief, "undo", "2").stdout


def test_an_entry_calls_its_task_by_its_title(tmp_path: Path) -> None:
    """When it is written, taken back and listed; a watering too."""
    brief = season_of(tmp_path)
    for name in ("soil_test", next(n for n, task in tasks(brief).items() if task.series)):
        called = f"“{tasks(brief)[name].title}” ({name})"
        kind = ("skipped", name, "--on", "2027-03-06", "--yes")
        assert f": {called} skipped." in logged(brief, *kind).stdout
        assert f": {called} skipped." in logged(brief, "list").stdout
        assert f"no longer counts: {called} skipped." in logged(brief, "undo").stdout


def test_days_of_a_ban_are_told_as_days(tmp_path: Path) -> None:
    """In the list and when they are taken back."""
    brief = season_of(tmp_path)
    logged(brief, "measured", "water_ban", "30 days", "--on", "2027-02-03", "--yes")
    said = "days on which watering is banned: 30 on 2027-02-03."
    assert said in logged(brief, "list").stdout and said in logged(brief, "undo").stdout


def test_a_note_may_have_its_day(tmp_path: Path) -> None:
    """A day to come too; it is told with the note, and moves nothing."""
    brief = season_of(tmp_path)
    for day in ("2027-02-20", "2027-01-30"):
        noted = logged(brief, "note", "hail", "--on", day, "--today", "2027-02-05").stdout
        assert f": noted of {day}: hail" in noted and "It moves nothing in the plan." in noted
    assert [str(entry.on) for entry in entries(brief)] == ["2027-02-20", "2027-01-30"]
    assert "noted of 2027-02-20: hail" in logged(brief, "list").stdout


def test_what_an_entry_changes_is_told_as_unknown_where_it_cannot_be_planned(
    tmp_path: Path,
) -> None:
    """The brief's climate file is gone: what happened is written all the same, and so it says."""
    brief = season_of(tmp_path)
    text = brief.read_text("utf-8").replace("[place]", '[place]\nnormals = "gone.csv"')
    brief.write_text(text, "utf-8")
    done = logged(brief, "done", "soil_test", "--on", "2027-03-06")
    assert done.returncode == 0 and len(entries(brief)) == 1
    assert "It is written; what it changes could not be worked out" in done.stderr
    wish = logged(brief, "moved", "overseed", "--to", "2027-09-19")
    assert wish.returncode == 3 and len(entries(brief)) == 1


def test_today_prints_what_was_due_with_commands_that_answer(tmp_path: Path) -> None:
    """Each can be pasted; what is answered is asked no more; what is still to come is not due."""
    brief = season_of(tmp_path)
    today = ("today", "--today", "2027-03-31")
    said = logged(brief, *today).stdout
    due = json.loads(logged(brief, *today, "--json").stdout)["due"]
    assert due and all(one["end"] <= "2027-03-31" for one in due)
    answers = [line.strip() for line in said.splitlines() if " done " in line]
    assert len(answers) == len(due)
    for line in answers:
        done = run(*shlex.split(line)[1:], "--today", "2027-03-31")
        assert done.returncode == 0, done.stderr
    assert logged(brief, *today).stdout == "Everything that was due has its entry.\n"


def test_today_asks_again_of_what_was_put_off_or_begun_and_is_over_again(tmp_path: Path) -> None:
    """An entry answers for the days before the plan that knows it; so `plan` says too."""
    brief = season_of(tmp_path)
    plan = read_plan(brief.with_suffix(""))
    sample = next(t for t in plan.tasks if t.id == "soil_test")
    cut = next(t for t in plan.tasks if t.plays("low_cut"))
    day = str(cut.start + timedelta(days=1))
    rained = ("rained-off", sample.id, "--on", str(sample.start), "--today", str(sample.start))
    begun = ("done", cut.id, "--on", str(cut.start), "--share", "0.5", "--today", day)
    late = str(cut.start + timedelta(days=30))
    for entry, again in ((rained, sample.id), (begun, cut.id)):
        assert logged(brief, *entry, "--yes").returncode == 0
        due = json.loads(logged(brief, "today", "--today", late, "--json").stdout)["due"]
        assert again not in [one["task"] for one in due]
        assert run("plan", str(brief), "--today", entry[-1]).returncode == 0
        said = logged(brief, "today", "--today", late, "--json").stdout
        assert again in [one["task"] for one in json.loads(said)["due"]]


def test_today_asks_one_question_each_at_a_terminal(tmp_path: Path, answering: Answer) -> None:
    """As planned, on another day, not done, or later; what is no answer is asked again."""
    brief = season_of(tmp_path)
    due = json.loads(logged(brief, "today", "--today", "2027-09-30", "--json").stdout)["due"]
    assert len(due) > 4
    planned, other, left = (date.fromisoformat(one["end"]) for one in due[:3])
    looks = [one for one in due if one["task"].startswith("inspect.")]
    # Several looks are asked of first, at once.
    typed = [
        *([""] if len(looks) > 1 else []),
        "d",
        "q",
        "o",
        "someday",
        str(other + timedelta(days=1)),
        "n",
    ]
    answering("\n".join(typed) + "\n" * (len(due) - 2))
    done = logged(brief, "today", "--today", "2027-09-30", "--by", "Robin")
    assert done.returncode == 0, done.stderr
    assert "One of d, o, n" in done.stderr and "That is no day." in done.stderr
    assert [(e.kind, e.task, e.on, e.by) for e in entries(brief)] == [
        ("done", due[0]["task"], planned, "Robin"),
        ("done", due[1]["task"], other + timedelta(days=1), "Robin"),
        ("not_done", due[2]["task"], None, "Robin"),
    ]
    assert left


def test_today_asks_of_several_looks_at_once(tmp_path: Path, answering: Answer) -> None:
    """All as planned, by one answer; what is no answer is asked again."""
    brief = season_of(tmp_path)
    due = json.loads(logged(brief, "today", "--today", "2028-06-30", "--json").stdout)["due"]
    looks = [one for one in due if one["task"].startswith("inspect.")]
    assert len(looks) > 1
    answering("q\nd\n" + "\n" * (len(due) - len(looks)))
    done = logged(brief, "today", "--today", "2028-06-30")
    assert done.returncode == 0, done.stderr
    assert f"{len(looks)} looks were due" in done.stderr
    assert [(e.kind, e.task, str(e.on)) for e in entries(brief)] == [
        ("done", one["task"], one["end"]) for one in looks
    ]


def test_a_torn_journal_is_told_by_who_adds_to_it(tmp_path: Path) -> None:
    """What is put aside is named."""
    brief = season_of(tmp_path)
    journal = brief.with_suffix(".journal.jsonl")
    journal.write_text("topdress.1 done on Saturday", "utf-8")
    said = logged(brief, "list")
    assert "written by hand" in said.stderr and said.stdout == "No entry stands.\n"
    added = logged(brief, "note", "dry")
    assert "lawn.journal.aside.txt" in added.stderr or ".aside.txt" in added.stderr
    assert len(entries(brief)) == 1


@pytest.mark.parametrize("name", ["southern-hemisphere", "st-augustine-plugs", "surveyed-us"])
def test_yes_refuses_nothing_that_can_be_true(tmp_path: Path, name: str) -> None:
    """Of every task of a southern lawn, one of plugs and one that was surveyed: done two weeks late
    with half, all or double of its amount."""
    for file in (EXAMPLES / f"{name}.toml", *EXAMPLES.glob("*-survey.csv")):
        (tmp_path / file.name).write_bytes(file.read_bytes())
    brief = tmp_path / f"{name}.toml"
    assert run("plan", str(brief), "--today", "2027-02-01").returncode == 0
    jobs = [task for task in tasks(brief).values() if task.series is None]
    for number, task in enumerate(jobs):
        on = task.end + timedelta(days=14)
        words = ["done", task.id, "--on", str(on), "--yes", "--json"]
        counted = [a for a in task.amounts if a.unit in ("m3", "kg", "m2") and a.value > 0.01]
        if counted:
            words += [
                "--amount",
                f"{counted[0].value * (0.5, 1, 2)[number % 3]:.3f} {counted[0].unit}",
            ]
        done = logged(brief, *words)
        assert done.returncode == 0, (words, done.stderr)
    assert len(entries(brief)) == len(jobs)
