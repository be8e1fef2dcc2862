"""The command line: exit codes, what goes to stdout and stderr, and what is left alone."""

import json
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

from command import run, run_apart
from planning import EXAMPLES, ROOT


def written(tmp_path: Path, text: str | bytes, name: str = "lawn.toml") -> Path:
    """A brief on disk."""
    path = tmp_path / name
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    return path


GOOD = (
    '[lawn]\narea = "4000 ft2"\ngrass = "tall_fescue"\n[place]\npostal_code = "17601"\n[seeding]\n'
    'intent = "overseed"\n'
)


def test_plan_writes_its_folder(tmp_path: Path) -> None:
    """The main job writes calendar, checklist, order and plan, and prints a summary on stdout."""
    out = tmp_path / "out"
    done = run_apart(
        "plan", str(EXAMPLES / "cool-overseed.toml"), "-o", str(out), "--today", "2027-02-01"
    )
    assert done.returncode == 0, done.stderr
    assert {
        "season.ics",
        "checklist.html",
        "order.html",
        "plan.json",
        "tasks.csv",
        "order.csv",
    } <= {p.name for p in out.iterdir()}
    assert "Top-dress pass 1 of" in done.stdout and "Order:" in done.stdout
    assert done.stderr.startswith("Written to")


def test_plan_json_is_one_object(tmp_path: Path) -> None:
    """--json prints one object with its schema, equal to plan.json."""
    out = tmp_path / "out"
    done = run(
        "plan",
        str(EXAMPLES / "bermuda-sand.toml"),
        "-o",
        str(out),
        "--today",
        "2027-02-01",
        "--json",
    )
    data = json.loads(done.stdout)
    assert data["schema"] == 1 and data == json.loads(
        (out / "plan.json").read_text(encoding="utf-8")
    )


def test_not_possible_is_4_and_writes_nothing(tmp_path: Path) -> None:
    """A plan that cannot be done exits with 4, prints ways out, and leaves no folder."""
    out = tmp_path / "out"
    done = run("plan", str(EXAMPLES / "late-start.toml"), "-o", str(out), "--today", "2027-10-10")
    assert done.returncode == 4
    assert "cannot be done as asked" in done.stdout and "each checked" in done.stdout
    assert not out.exists()


def test_why_nothing_can_be_done_is_told_once(tmp_path: Path) -> None:
    """A reason that is told of the whole is not told of a way through the season again."""
    done = run("plan", str(EXAMPLES / "late-start.toml"), "-o", str(tmp_path / "out"))
    lines = [line for line in done.stdout.splitlines() if "last safe day" in line]
    assert lines and len({line.split("last safe day")[1] for line in lines}) == len(lines)


BAD = {
    "unknown key": (GOOD.replace("grass", "gras", 1), ("lawn.gras", "did you mean 'grass'?")),
    "wrong unit": (GOOD.replace("4000 ft2", "4000 acres2"), ("lawn.area", "unknown unit")),
    "wrong dimension": (GOOD.replace("4000 ft2", "40 ft"), ("lawn.area", "is a unit of length")),
    "negative area": (GOOD.replace("4000 ft2", "-4 ft2"), ("lawn.area", "negative")),
    "absurd area": (
        GOOD.replace("4000 ft2", "900 acres"),
        ("lawn.area", "out of any sensible range"),
    ),
    "absurd depth": (
        GOOD + '[leveling]\ndepth = "9 ft"\n',
        ("leveling.depth", "out of any sensible range"),
    ),
    "unknown species": (
        GOOD.replace("tall_fescue", "tall_fescu"),
        ("lawn.grass", "did you mean 'tall_fescue'?"),
    ),
    "impossible date": (GOOD + '[season]\nfrom = "2027-02-30"\n', ("season.from",)),
    "until before from": (
        GOOD + "[season]\nfrom = 2027-05-01\nuntil = 2027-04-01\n",
        ("season", "not after"),
    ),
    "depth without area": (
        '[lawn]\ngrass = "tall_fescue"\n[place]\npostal_code = "17601"\n[leveling]\n'
        'depth = "1 in"\n',
        ("lawn", "area"),
    ),
    "seed for none": (
        GOOD.replace("tall_fescue", "st_augustine"),
        ("seeding.intent", "not grown from seed"),
    ),
    "unknown postal code": (GOOD.replace("17601", "00000"), ("place.postal_code", "not known")),
    "empty": ("", ("is empty",)),
    "binary": (b"\x00\x01\x02" * 50, ("not a text file",)),
    "not toml": ("area 4000", ("is not TOML",)),
    "sea": (
        GOOD.replace('postal_code = "17601"', "latitude = 30\nlongitude = -40"),
        ("no land near this place",),
    ),
    "pole": (GOOD.replace('postal_code = "17601"', "latitude = -89\nlongitude = 10"), ("place",)),
    "quantity without unit": (
        GOOD.replace('"4000 ft2"', '"4000"'),
        ("lawn.area", "unit is missing"),
    ),
    "number for a quantity": (
        GOOD.replace('"4000 ft2"', "4000"),
        ("lawn.area", "text with a unit"),
    ),
    "catch cans without minutes": (
        GOOD + '[water]\ncatch_cans = ["0.3 in", "0.4 in"]\n',
        ("water", "catch_minutes"),
    ),
    "bag over 100": (GOOD + '[feeding]\nanalysis = "60-40-20"\n', ("feeding.analysis",)),
    "negative depth": (GOOD + '[leveling]\ndepth = "-1 in"\n', ("leveling.depth", "negative")),
    "not utf-8": (GOOD.encode() + b"# caf\xe9\n", ("is not UTF-8 text",)),
    "unknown soil": (
        GOOD.replace("grass =", 'soil = "cley"\ngrass =', 1),
        ("lawn.soil", "did you mean 'clay'?"),
    ),
    "dormant seed of a warm-season grass": (
        GOOD.replace("tall_fescue", "bermuda_common").replace('"overseed"', '"dormant"'),
        ("seeding.intent", "not sown dormant"),
    ),
    "winter cover on a cool-season lawn": (
        GOOD.replace('"overseed"', '"winter_overseed"'),
        ("seeding.intent", "warm-season lawns"),
    ),
    "a campaign without work": (
        GOOD.replace('"overseed"', '"none"') + '[season]\ncampaign = "autumn"\n',
        ("season.campaign", "neither fill nor seed that it could bring"),
    ),
    "plugs of a grass that has none": (
        GOOD.replace('"overseed"', '"plant"\nform = "plugs"'),
        ("seeding.form", "is not sold as plugs"),
    ),
}
APART = ("not utf-8",)
"""Called as a process of its own: what stands on its stderr went through the encoding of a
terminal.
"""


@pytest.mark.parametrize("name", BAD)
def test_bad_brief(name: str, tmp_path: Path) -> None:
    """Every kind of bad brief exits with 3, says where and what, and writes nothing."""
    text, needles = BAD[name]
    out = tmp_path / "out"
    call = run_apart if name in APART else run
    done = call("plan", str(written(tmp_path, text)), "-o", str(out))
    assert done.returncode == 3, (done.stdout, done.stderr)
    assert done.stderr.startswith("error:") and "Traceback" not in done.stderr
    for needle in needles:
        assert needle in done.stderr, done.stderr
    assert not out.exists() and done.stdout == ""


def test_all_errors_at_once(tmp_path: Path) -> None:
    """Faults of form are told together, each on a line of its own."""
    text = GOOD.replace("4000 ft2", "4 in").replace("overseed", "oversead") + 'colour = "green"\n'
    done = run("plan", str(written(tmp_path, text)))
    assert done.returncode == 3
    assert sum(line.startswith("error:") for line in done.stderr.splitlines()) == 3


def test_form_names_and_place_are_told_together(tmp_path: Path) -> None:
    """Faults of form do not hide a misspelt grass, soil or campaign, or an unknown place: one
    report names all six.
    """
    text = (
        GOOD.replace("4000 ft2", "-4000 ft2")
        .replace("tall_fescue", "tall_fescu")
        .replace("17601", "00000")
        + 'colour = "green"\n[season]\ncampaign = "autum"\n[leveling]\ndepth = "1 lb"\n'
    )
    out = tmp_path / "out"
    done = run("plan", str(written(tmp_path, text)), "-o", str(out))
    assert done.returncode == 3 and done.stdout == "" and not out.exists()
    told = [line for line in done.stderr.splitlines() if line.startswith("error:")]
    for place in (
        "lawn.area",
        "seeding.colour",
        "leveling.depth",
        "lawn.grass",
        "season.campaign",
        "place.postal_code",
    ):
        assert sum(f": {place}: " in line for line in told) == 1, (place, told)
    assert len(told) == 6


@pytest.mark.skipif(os.geteuid() == 0, reason="root reads every file")
def test_a_brief_that_may_not_be_read(tmp_path: Path) -> None:
    """A brief without the right to read it is told plainly."""
    brief = written(tmp_path, GOOD)
    brief.chmod(0)
    done = run("plan", str(brief))
    assert done.returncode == 3 and "cannot be read" in done.stderr


def test_names_and_place_are_told_together(tmp_path: Path) -> None:
    """An unknown grass and an unknown postal code are one report."""
    done = run(
        "plan",
        str(written(tmp_path, GOOD.replace("tall_fescue", "tal_fescue").replace("17601", "00000"))),
    )
    assert "unknown grass" in done.stderr and "place.postal_code" in done.stderr


def test_missing_file_and_folder(tmp_path: Path) -> None:
    """A file that is not there and a folder in its place are told plainly."""
    assert "no such file" in run("plan", str(tmp_path / "none.toml")).stderr
    assert "is a folder" in run("plan", str(tmp_path)).stderr


def test_usage_is_2_with_the_nearest_command() -> None:
    """A misspelt command exits with 2 and names the nearest one."""
    done = run("pln")
    assert done.returncode == 2 and "Did you mean 'plan'?" in done.stderr


@pytest.mark.skipif(os.geteuid() == 0, reason="root writes into read-only folders")
def test_read_only_folder(tmp_path: Path) -> None:
    """A folder that cannot be written is an error, and what is in it stands."""
    out = tmp_path / "out"
    out.mkdir()
    out.chmod(0o500)
    done = run("plan", str(EXAMPLES / "bermuda-sand.toml"), "-o", str(out))
    assert done.returncode == 3 and "cannot be written" in done.stderr


@pytest.mark.full
def test_full_disk_keeps_the_previous_outputs(tmp_path: Path) -> None:
    """When the disk is full the outputs of the run before stand untouched, and nothing half-written
    is left.
    """
    out = tmp_path / "out"
    brief = written(tmp_path, GOOD)
    assert run("plan", str(brief), "-o", str(out), "--today", "2027-02-01").returncode == 0
    before = {p.name: p.read_bytes() for p in out.iterdir() if p.is_file()}
    brief.write_text(GOOD.replace("4000", "5000"), encoding="utf-8")
    code = (
        "import resource, sys; resource.setrlimit(resource.RLIMIT_FSIZE, (2000, 2000)); "
        "import signal; signal.signal(signal.SIGXFSZ, signal.SIG_IGN); "
        "from turfplan.cli import main; main(sys.argv[1:])"
    )
    done = subprocess.run(
        [
            sys.executable,
            "-B",
            "-c",
            code,
            "plan",
            str(brief),
            "-o",
            str(out),
            "--today",
            "2027-02-02",
        ],
        capture_output=True,
        text=True,
        check=False,
        cwd=ROOT,
    )
    assert done.returncode == 3 and "could not be written" in done.stderr, done.stderr
    assert {p.name: p.read_bytes() for p in out.iterdir() if p.is_file()} == before


def test_help_is_light() -> None:
    """--help imports neither icalendar, pydantic nor jinja2, and begins with an example."""
    code = (
        "import sys\nfrom turfplan.cli import main\n"
        "try:\n    main(['--help'])\nexcept SystemExit:\n    pass\n"
        "bad = [m for m in ('icalendar', 'pydantic', 'jinja2', 'sqlite3', 'starlette', 'numpy') "
        "if m in sys.modules]\n"
        "sys.exit('loaded: ' + ', '.join(bad) if bad else 0)"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=False, cwd=ROOT
    )
    assert done.returncode == 0, done.stderr
    assert "Example:" in done.stdout


@pytest.mark.parametrize(
    "command", ["new", "plan", "windows", "why", "facts", "log", "print", "clients"]
)
def test_every_help_has_an_example(command: str) -> None:
    """The help of each command shows an example."""
    done = run(command, "--help")
    assert done.returncode == 0 and "Example: turfplan" in done.stdout, done.stdout + done.stderr


def test_a_day_is_told_in_the_order_of_its_work(tmp_path: Path) -> None:
    """Jobs of one day stand in the order they are done, in what is printed as in the table: mow,
    core, spread, drag.
    """
    brief = written(tmp_path, GOOD + '[leveling]\ndepth = "0.25 in"\n')
    printed = run("plan", str(brief), "--today", "2027-02-01", "-o", str(tmp_path / "out")).stdout
    table = (tmp_path / "out" / "tasks.csv").read_text(encoding="utf-8")
    for text in (printed, table):
        places = [
            text.index(name)
            for name in ("core_aerate.1", "topdress.1", "incorporate.1", "overseed")
        ]
        assert places == sorted(places)


def test_why_answers(tmp_path: Path) -> None:
    """`why` tells not earlier, not later and how much, and notices that the brief has changed."""
    brief = written(tmp_path, GOOD + '[leveling]\ndepth = "0.5 in"\n')
    assert run("plan", str(brief), "--today", "2027-02-01").returncode == 0
    done = run("why", str(brief), "topdress.1")
    for needle in ("Why not earlier", "Why not later", "Why this much", "It rests on"):
        assert needle in done.stdout
    assert "plan again" not in done.stdout
    brief.write_text(brief.read_text(encoding="utf-8") + "# a remark\n", encoding="utf-8")
    assert "plan again" not in run("why", str(brief), "topdress.1").stdout
    shallow = brief.read_text(encoding="utf-8").replace('"0.5 in"', '"0.4 in"')
    brief.write_text(shallow, encoding="utf-8")
    assert "plan again" in run("why", str(brief), "topdress.1").stdout
    assert "did you mean 'topdress.1'" in run("why", str(brief), "topdres.1").stderr


def test_windows_json() -> None:
    """`windows --json` prints the contract's object, for both hemispheres."""
    for place in (("--postal-code", "17601"), ("--latitude", "-37.8", "--longitude", "145")):
        data = json.loads(
            run("windows", *place, "--grass", "tall_fescue", "--year", "2027", "--json").stdout
        )
        assert data["schema"] == 1
        assert {"operation", "season", "start", "end", "best", "reason", "source"} <= set(
            data["windows"][0]
        )
        autumn = [
            w
            for w in data["windows"]
            if w["operation"] == "overseed" and w["season"] in ("autumn", "summer")
        ]
        assert autumn and (autumn[0]["start"][5:7] in ("08", "09")) == (place[0] == "--postal-code")


def test_days_are_told_as_the_reader_says_them(tmp_path: Path) -> None:
    """`why` and `windows` name days and temperatures as the lawn's country does: "Sat, Apr 24,
    2027" here, "Sat 24 Apr 2027" there.
    """
    brief = written(tmp_path, GOOD + '[leveling]\ndepth = "0.5 in"\n')
    assert run("plan", str(brief), "--today", "2027-02-01").returncode == 0
    american, elsewhere = (
        re.compile(r"\b[A-Z][a-z]{2}, [A-Z][a-z]{2} \d{1,2}, 20"),
        re.compile(r"\b\d{1,2} [A-Z][a-z]{2} 20"),
    )
    here = run("why", str(brief), "topdress.1").stdout.split("It rests on")[0]
    assert american.search(here) and not elsewhere.search(here)
    here = run(
        "windows", "--postal-code", "17601", "--grass", "tall_fescue", "--year", "2027"
    ).stdout
    there = run(
        "windows",
        "--latitude",
        "52.5",
        "--longitude",
        "-1.5",
        "--grass",
        "tall_fescue",
        "--year",
        "2027",
    ).stdout
    assert (
        american.search(here) and not elsewhere.search(here) and "°F" in here and "°C" not in here
    )
    assert (
        elsewhere.search(there)
        and not american.search(there)
        and "°C" in there
        and "°F" not in there
    )


def test_facts_count_judgement() -> None:
    """`facts` prints numbers with sources and counts the judgement."""
    done = run("facts", "species.tall_fescue")
    assert (
        "species.tall_fescue.mow_height" in done.stdout
        and "judgement" in done.stdout.splitlines()[-1]
    )
    assert run("facts", "species.tall_fescu").returncode in (0, 3)
    assert "did you mean" in run("facts", "topdress.setle").stderr


def test_new_without_a_terminal(tmp_path: Path) -> None:
    """`new` needs its answers as options where there is no terminal, tells all that are missing,
    and writes a brief that plans.
    """
    path = tmp_path / "mine.toml"
    done = run_apart("new", str(path))
    assert (
        done.returncode == 3
        and "--area" in done.stderr
        and "--grass" in done.stderr
        and not path.exists()
    )
    words = (
        "--area",
        "3000 ft2",
        "--grass",
        "zoysia",
        "--postal-code",
        "30606",
        "--depth",
        "0.25 in",
        "--intent",
        "none",
    )
    assert run("new", str(path), *words).returncode == 0
    assert run("new", str(path), *words).returncode == 3
    assert run("plan", str(path), "--today", "2027-02-01").returncode == 0


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--depth", ""), "leveling.depth"),
        (("--depth", "deep"), "leveling.depth"),
        (("--postal-code", "north, west"), "place.latitude"),
    ],
)
def test_new_tells_what_cannot_be_read(tmp_path: Path, words: tuple[str, str], said: str) -> None:
    """An answer that is no amount, or no coordinates, is told with its place in the brief, and
    nothing is written.
    """
    path = tmp_path / "mine.toml"
    asked = {
        "--area": "3000 ft2",
        "--grass": "zoysia",
        "--postal-code": "30606",
        "--depth": "0 in",
    } | dict([words])
    done = run("new", str(path), *(word for pair in asked.items() for word in pair))
    assert (
        done.returncode == 3
        and said in done.stderr
        and "Traceback" not in done.stderr
        and not path.exists()
    )


def test_clients_report_a_bad_row_and_go_on(tmp_path: Path) -> None:
    """Each row gets a folder; a bad row is told and never stops the rest."""
    done = run(
        "clients",
        "plan",
        str(EXAMPLES / "clients.csv"),
        "-o",
        str(tmp_path / "out"),
        "--today",
        "2027-02-01",
    )
    assert done.returncode == 3
    assert "elm-05" in done.stderr and "lawn.area" in done.stderr
    folders = {p.name for p in (tmp_path / "out").iterdir() if p.is_dir()}
    assert folders == {"ash-01", "birch-02", "cedar-03", "dogwood-04"}
    assert len((tmp_path / "out" / "summary.csv").read_text(encoding="utf-8").splitlines()) == 6


def test_another_lawns_folder_is_refused(tmp_path: Path) -> None:
    """A folder that holds another lawn's plan is not written over."""
    out = tmp_path / "out"
    assert (
        run(
            "plan", str(EXAMPLES / "bermuda-sand.toml"), "-o", str(out), "--today", "2027-02-01"
        ).returncode
        == 0
    )
    done = run(
        "plan", str(EXAMPLES / "cool-overseed.toml"), "-o", str(out), "--today", "2027-02-01"
    )
    assert done.returncode == 3 and "another lawn" in done.stderr


def test_clients_tell_a_torn_journal(tmp_path: Path) -> None:
    """A client's journal that was cut off is told as `plan` tells it, with the client's name, and
    the plan is made.
    """
    (tmp_path / "c.csv").write_text(
        "id,lawn.area,lawn.grass,seeding.intent,place.postal_code\n"
        "ash,400 m2,tall_fescue,overseed,17601\n",
        encoding="utf-8",
    )
    journal = tmp_path / "out" / "ash" / "journal.jsonl"
    journal.parent.mkdir(parents=True)
    journal.write_text('{"sum":"a1', encoding="utf-8")
    done = run(
        "clients",
        "plan",
        str(tmp_path / "c.csv"),
        "-o",
        str(tmp_path / "out"),
        "--today",
        "2027-02-01",
    )
    assert done.returncode == 0
    assert (
        "note: ash: journal.jsonl: the last line was cut off while it was written and "
        "is passed over" in done.stderr
    )


def test_clients_refuse_the_folder_of_another_lawn(tmp_path: Path) -> None:
    """A client whose folder holds the plan of another lawn is a bad row, and that plan stands."""
    rows = (
        "id,lawn.id,lawn.area,lawn.grass,seeding.intent,place.postal_code\n"
        "ash,{},400 m2,tall_fescue,overseed,17601\n"
    )
    words = (
        "clients",
        "plan",
        str(tmp_path / "c.csv"),
        "-o",
        str(tmp_path / "out"),
        "--today",
        "2027-02-01",
    )
    (tmp_path / "c.csv").write_text(rows.format("one"), encoding="utf-8")
    assert run(*words).returncode == 0
    plan = (tmp_path / "out" / "ash" / "plan.json").read_bytes()
    (tmp_path / "c.csv").write_text(rows.format("other"), encoding="utf-8")
    done = run(*words)
    assert done.returncode == 3 and "holds the plan of another lawn" in done.stderr
    assert (tmp_path / "out" / "ash" / "plan.json").read_bytes() == plan
