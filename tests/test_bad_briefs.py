"""Briefs that cannot be planned, through the command: one report with every error, exit code 3, and
nothing written.
"""

import io
import os
from contextlib import redirect_stderr, redirect_stdout
from dataclasses import dataclass
from pathlib import Path

import pytest

from turfplan.cli import main

PLACE = '[place]\npostal_code = "17601"\n'
LAWN = '[lawn]\narea = "4000 ft2"\ngrass = "tall_fescue"\n'
GOOD = f'{LAWN}{PLACE}[leveling]\ndepth = "0.5 in"\n[seeding]\nintent = "overseed"\n'


@dataclass(frozen=True)
class Done:
    """How a command ended and what it said."""

    returncode: int
    stdout: str
    stderr: str


def planned(path: Path, out: Path) -> Done:
    """`turfplan plan` of a brief."""
    return called("plan", str(path), "-o", str(out), "--today", "2027-02-01")


def called(*words: str) -> Done:
    """One call of the command in this process."""
    said, told = io.StringIO(), io.StringIO()
    code = 0
    with redirect_stdout(said), redirect_stderr(told):
        try:
            main(list(words))
        except SystemExit as end:
            code = end.code if isinstance(end.code, int) else 1
    return Done(code, said.getvalue(), told.getvalue())


def refused(tmp_path: Path, brief: bytes, name: str = "lawn.toml") -> list[str]:
    """The error lines of a brief that must be refused, after what holds for every refusal."""
    folder = tmp_path / "briefs"
    folder.mkdir()
    path, out = folder / name, tmp_path / "out"
    path.write_bytes(brief)
    done = planned(path, out)
    said = done.stderr
    assert done.returncode == 3, (done.stdout, said)
    assert done.stdout == "" and "Traceback" not in said
    assert not out.exists() and [p.name for p in folder.iterdir()] == [name]
    lines = said.splitlines()
    assert all(line.startswith(("error:", "hint:")) for line in lines), said
    errors = [line for line in lines if line.startswith("error:")]
    assert errors and len(set(errors)) == len(errors)
    return lines


def with_line(table: str, line: str) -> str:
    """The good brief with one more line in one of its tables, or in a table of its own."""
    head = f"[{table}]\n"
    return GOOD.replace(head, f"{head}{line}\n") if head in GOOD else f"{GOOD}{head}{line}\n"


FORM: dict[str, tuple[str, str, str]] = {
    "key of no table": (f"colour = 3\n{GOOD}", "colour", "unknown"),
    "table of no name": (f'{GOOD}[levelling]\ndepth = "1 in"\n', "levelling", "leveling"),
    "misspelt key": (GOOD.replace("depth", "dept"), "leveling.dept", "did you mean 'depth'?"),
    "negative depth": (GOOD.replace("0.5 in", "-0.5 in"), "leveling.depth", "negative"),
    "depth as an area": (GOOD.replace("0.5 in", "0.5 ft2"), "leveling.depth", "is a unit of area"),
    "depth without a unit": (GOOD.replace("0.5 in", "0.5"), "leveling.depth", "unit is missing"),
    "depth in words": (GOOD.replace("0.5 in", "half an inch"), "leveling.depth", ""),
    "depth of no number": (GOOD.replace("0.5 in", "nan in"), "leveling.depth", ""),
    "endless area": (GOOD.replace("4000 ft2", "inf ft2"), "lawn.area", ""),
    "no area at all": (GOOD.replace("4000 ft2", "0 ft2"), "lawn.area", ""),
    "date that is none": (with_line("season", "from = 2027-13-01"), "lawn.toml", "not TOML"),
    "date in words": (with_line("season", 'from = "next spring"'), "season.from", ""),
    "date as a number": (with_line("season", "from = 20270301"), "season.from", ""),
    "years that end before they begin": (
        with_line("calendar", "unavailable = [{ from = 2027-06-10, to = 2027-06-01 }]"),
        "calendar.unavailable",
        "",
    ),
    "weekday of no week": (
        with_line("calendar", 'weekdays = ["sat", "sunday"]'),
        "calendar.weekdays",
        "",
    ),
    "share over the whole": (
        GOOD.replace('"tall_fescue"', '[{ species = "tall_fescue", share = 1.4 }]'),
        "lawn.grass",
        "",
    ),
    "key given twice": (
        GOOD.replace('area = "4000 ft2"', 'area = "4000 ft2"\narea = "5000 ft2"'),
        "lawn.toml",
        "not TOML",
    ),
    "depth without an area": (GOOD.replace('area = "4000 ft2"\n', ""), "lawn", "area"),
    "no place": (GOOD.replace(PLACE, ""), "place", ""),
    "latitude past the pole": (
        GOOD.replace('postal_code = "17601"', "latitude = 97\nlongitude = 10"),
        "place.latitude",
        "",
    ),
}


@pytest.mark.full
@pytest.mark.parametrize("case", FORM)
def test_fault_of_form(case: str, tmp_path: Path) -> None:
    """A wrong key, unit, dimension, number or date is told with its place in the brief."""
    text, where, words = FORM[case]
    said = " ".join(refused(tmp_path, text.encode()))
    assert where in said and words in said, said


SENSE: dict[str, tuple[str, str, str]] = {
    "seed for a grass that has none": (
        GOOD.replace("tall_fescue", "bermuda_hybrid"),
        "seeding.intent",
        "not grown from seed",
    ),
    "seed of another grass that has none": (
        with_line("seeding", 'species = "st_augustine"'),
        "seeding",
        "not grown from seed",
    ),
    "dormant seed on warm-season grass": (
        GOOD.replace("tall_fescue", "zoysia").replace('"overseed"', '"dormant"'),
        "seeding.intent",
        "dormant",
    ),
    "winter green on a lawn that stays green": (
        GOOD.replace('"overseed"', '"winter_overseed"'),
        "seeding.intent",
        "warm-season",
    ),
    "plugs of a grass that is sold as sod": (
        GOOD.replace('"overseed"', '"plant"\nform = "plugs"'),
        "seeding.form",
        "sod",
    ),
    "care of ground without grass": (
        GOOD.replace("0.5 in", "0 in")
        .replace('"overseed"', '"none"')
        .replace("[lawn]", '[lawn]\ncondition = "bare"'),
        "seeding.intent",
        "no grass stands there",
    ),
    "seed named and none asked for": (
        GOOD.replace("0.5 in", "0 in").replace('"overseed"', '"none"\nspecies = "tall_fescue"'),
        "seeding.intent",
        "seeding.species is given, and nothing is to be sown",
    ),
    "care beside seed": (with_line("season", 'campaign = "care"'), "season.campaign", "care alone"),
    "soil of no texture": (with_line("lawn", 'soil = "lome"'), "lawn.soil", "did you mean 'loam'?"),
    "mix of no book": (
        with_line("leveling", 'material = "gravel"'),
        "leveling.material",
        "unknown mix",
    ),
    "part of no book": (
        with_line("leveling", "parts = { gravel = 1.0 }"),
        "leveling.parts",
        "unknown material",
    ),
    "campaign of no book": (
        with_line("season", 'campaign = "winter"'),
        "season.campaign",
        "unknown campaign",
    ),
    "region of no book": (
        with_line("place", 'region = "atlantis"'),
        "place.region",
        "unknown region",
    ),
}


@pytest.mark.full
@pytest.mark.parametrize("case", SENSE)
def test_fault_of_sense(case: str, tmp_path: Path) -> None:
    """A name that the book does not know, or wishes that contradict each other, are told before
    anything is planned.
    """
    text, where, words = SENSE[case]
    said = " ".join(refused(tmp_path, text.encode()))
    assert where in said and words in said, said


FILES: dict[str, tuple[bytes, str]] = {
    "empty": (b"", "is empty"),
    "blank": (b" \n\t\n\r\n", "is empty"),
    "comment alone": (b"# my lawn\n", "lawn"),
    "other alphabet": (GOOD.replace("tall_fescue", "caf\u00e9").encode("latin-1"), "not UTF-8"),
    "picture": (b"\x89PNG\r\n\x1a\n" + bytes(range(256)), "not a text file"),
    "two bytes a letter": (GOOD.encode("utf-16"), "not a text file"),
    "list of values": (b"[1, 2, 3]\n", "not TOML"),
    "another format": (b'{"lawn": {"area": "4000 ft2"}}\n', "not TOML"),
    "cut off in the middle": (GOOD.encode()[:40], "not TOML"),
    "too large": (b"# " + b"a" * 1_000_001, "not a text file"),
}


@pytest.mark.full
@pytest.mark.parametrize("case", FILES)
def test_file_that_is_no_brief(case: str, tmp_path: Path) -> None:
    """A file that is empty, binary, in another encoding or another format is told as what it is."""
    content, words = FILES[case]
    lines = refused(tmp_path, content)
    assert words in " ".join(lines), lines


def test_all_errors_of_form_in_one_report(tmp_path: Path) -> None:
    """Six faults in six tables are six error lines of one report."""
    text = (
        '[lawn]\narea = "-4000 ft2"\ngrass = "tall_fescue"\nthatch = "0.2 lb"\n[place]\n'
        'postal_code = "17601"\nzip = 1\n[leveling]\n'
        'depth = "9 ft"\n[seeding]\nintent = "oversead"\n[season]\n'
        'from = "2027-02-30"\n'
    )
    said = refused(tmp_path, text.encode())
    errors = [line for line in said if line.startswith("error:")]
    wanted = (
        "lawn.area",
        "lawn.thatch",
        "place.zip",
        "leveling.depth",
        "seeding.intent",
        "season.from",
    )
    assert len(errors) == len(wanted), said
    assert all(any(where in line for line in errors) for where in wanted), said


def test_all_errors_of_sense_in_one_report(tmp_path: Path) -> None:
    """An unknown grass, soil, mix and campaign and a place that does not exist are told
    together.
    """
    text = with_line("season", 'campaign = "winter"').replace(
        '"0.5 in"', '"0.5 in"\nmaterial = "gravel"'
    )
    text = (
        text.replace("tall_fescue", "tall_fescu")
        .replace("17601", "00000")
        .replace("[place]", 'soil = "lome"\n[place]')
    )
    said = refused(tmp_path, text.encode())
    for where in (
        "lawn.grass",
        "lawn.soil",
        "leveling.material",
        "season.campaign",
        "place.postal_code",
    ):
        assert any(line.startswith("error:") and where in line for line in said), (where, said)


OTHERS = {
    "why": ("why", "{brief}", "topdress.1", "-o", "{out}"),
    "log": ("log", "{brief}", "note", "a remark", "-o", "{out}"),
    "print": ("print", "{brief}", "measure", "-o", "{out}"),
}


@pytest.mark.full
@pytest.mark.parametrize("form", ["area", "sound"])
@pytest.mark.parametrize("command", OTHERS)
def test_other_commands_tell_what_plan_tells(command: str, form: str, tmp_path: Path) -> None:
    """Faults of form, of names and of the place together, in the same lines as `plan` gives, and
    nothing is written.
    """
    text = (
        with_line("season", 'campaign = "winter"')
        .replace("tall_fescue", "tall_fescu")
        .replace("17601", "00000")
    )
    path, out = tmp_path / "lawn.toml", tmp_path / "out"
    path.write_text(
        text.replace('area = "', 'area = "-') if form == "area" else text, encoding="utf-8"
    )
    wanted = [line for line in planned(path, out).stderr.splitlines() if line.startswith("error:")]
    assert len(wanted) == (4 if form == "area" else 3)
    done = called(*(word.format(brief=path, out=out) for word in OTHERS[command]))
    assert (
        done.returncode == 3
        and [li for li in done.stderr.splitlines() if li.startswith("error:")] == wanted
    )
    assert not out.exists() and not path.with_suffix(".journal.jsonl").exists()


@pytest.mark.full
def test_plan_before_stands_when_the_brief_turns_bad(tmp_path: Path) -> None:
    """A brief that was planned and is then spoilt leaves the outputs of the good one as they
    were.
    """
    path, out = tmp_path / "lawn.toml", tmp_path / "out"
    path.write_text(GOOD, encoding="utf-8")
    assert planned(path, out).returncode == 0
    before = {p.name: p.read_bytes() for p in out.rglob("*") if p.is_file()}
    path.write_text(GOOD.replace("0.5 in", "0.5 ft2"), encoding="utf-8")
    assert planned(path, out).returncode == 3
    assert {p.name: p.read_bytes() for p in out.rglob("*") if p.is_file()} == before


@pytest.mark.skipif(os.geteuid() == 0, reason="root reads files that are closed to others")
def test_file_that_may_not_be_read(tmp_path: Path) -> None:
    """A file without the right to read it is told as that."""
    path = tmp_path / "lawn.toml"
    path.write_text(GOOD, encoding="utf-8")
    path.chmod(0)
    done = planned(path, tmp_path / "out")
    assert (
        done.returncode == 3 and "cannot be read" in done.stderr and not (tmp_path / "out").exists()
    )


def test_link_to_itself(tmp_path: Path) -> None:
    """A link that leads round in a circle cannot be read, and is told without a traceback."""
    path = tmp_path / "lawn.toml"
    path.symlink_to(path)
    done = planned(path, tmp_path / "out")
    assert (
        done.returncode == 3 and done.stderr.startswith("error:") and "Traceback" not in done.stderr
    )
