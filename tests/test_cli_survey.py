"""Surveys through the command: bad ones are told and write nothing, and the same one gives the same
bytes.
"""

import json
import math
import subprocess
import sys
from pathlib import Path

import pytest

from command import run
from planning import EXAMPLES
from tiers import full, sampled

pytest.importorskip("scipy")
BRIEF = """
units = "metric"
[lawn]
grass = "tall_fescue"
{lawn}
[place]
latitude = 40.0
longitude = -76.0
country = "US"
[leveling]
{leveling}
[seeding]
intent = "none"
[season]
from = 2027-03-01
"""
SURVEYED = 'survey = "survey.csv"'
AREA = 'area = "280 m2"'
HEAD = "point,x_m,y_m,height_mm,what"
# Packages that only surveys need are hidden from the import system before the program starts.
WITHOUT = """
import sys
for name in ("numpy", "scipy"):
    sys.modules[name] = None
from turfplan.cli import main
main(sys.argv[1:])
"""


def plan(
    folder: Path,
    survey: str | None,
    lawn: str = AREA,
    leveling: str = SURVEYED,
    start: tuple[str, ...] = (),
) -> subprocess.CompletedProcess[str]:
    """`turfplan plan` on a brief in a folder of its own; begun with `start` it is a process of its
    own.
    """
    (folder / "lawn.toml").write_text(BRIEF.format(lawn=lawn, leveling=leveling))
    if survey is not None:
        (folder / "survey.csv").write_text(survey)
    words = ["plan", str(folder / "lawn.toml"), "-o", str(folder / "out"), "--today", "2027-02-01"]
    if not start:
        return run(*words)
    line = [sys.executable, *start, *words]
    return subprocess.run(line, capture_output=True, text=True, check=False, timeout=300)


def table(*rows: str) -> str:
    """A table of points."""
    return "\n".join((HEAD, *rows)) + "\n"


def edge(*corners: tuple[float, float]) -> list[str]:
    """Edge points in order."""
    return [f"e{n},{x},{y},,edge" for n, (x, y) in enumerate(corners, 1)]


GRID = [f"g{n},{n % 5},{n // 5},{-n % 7},ground" for n in range(25)]
BAD = {
    "a crossing outline": (
        table(*GRID, *edge((0, 0), (4, 4), (4, 0), (0, 4))),
        ("outline 1", "crosses itself", "side 1 and side 3"),
    ),
    "one spot twice, at odds": (
        table(*GRID, "again,2,2,90,ground"),
        (
            "g12 and again",
            "stand on the same spot with different heights",
            "measure that spot again",
        ),
    ),
    "three points in a line": (
        table("a,0,0,1,ground", "b,1,1,2,ground", "c,2,2,1,ground"),
        ("all points lie in one line", "both sides"),
    ),
    "many points in a line": (
        table(*(f"p{n},{n * 0.1},{n * 0.3},{n % 5},ground" for n in range(40))),
        ("all points lie in one line",),
    ),
    "one point": (table("a,0,0,1,ground"), ("three points or more", "got 1")),
    "no point": (HEAD + "\n", ("holds no measurements",)),
    "a height that is no number": (
        table(*GRID, "odd,1.5,1.5,nan,ground"),
        ("line 27: height_mm", "is not a number"),
    ),
    "an endless place": (table(*GRID, "odd,inf,1.5,3,ground"), ("line 27: x_m", "is not a number")),
}


@pytest.mark.parametrize("name", BAD)
def test_a_bad_survey_is_told_and_writes_nothing(name: str, tmp_path: Path) -> None:
    """Exit 3, the file and the fault on stderr, no plan."""
    survey, words = BAD[name]
    done = plan(tmp_path, survey)
    assert done.returncode == 3, done.stderr
    assert done.stdout == "" and done.stderr.startswith("error: ") and "survey.csv" in done.stderr
    assert all(word in done.stderr for word in words), done.stderr
    assert not (tmp_path / "out").exists()


def test_a_crossing_shape_is_told(tmp_path: Path) -> None:
    """A lawn drawn as a bow tie."""
    shape = (
        '[[lawn.shape]]\nkind = "polygon"\n'
        'points = [["0 m", "0 m"], ["9 m", "9 m"], ["9 m", "0 m"], ["0 m", "9 m"]]'
    )
    done = plan(tmp_path, None, shape, 'depth = "10 mm"')
    assert done.returncode == 3 and "crosses itself" in done.stderr
    assert not (tmp_path / "out").exists()


def test_swapped_latitude_and_longitude_are_told(tmp_path: Path) -> None:
    """A map with latitude first lies in the Antarctic; the brief's place gives it away."""
    ring = [[-76.0, 40.0], [-75.9997, 40.0], [-75.9997, 40.0002], [-76.0, 40.0002], [-76.0, 40.0]]
    for swapped, code in ((False, 0), (True, 3)):
        folder = tmp_path / str(swapped)
        folder.mkdir()
        places = [[y, x] for x, y in ring] if swapped else ring
        (folder / "lawn.geojson").write_text(
            json.dumps({"type": "Polygon", "coordinates": [places]})
        )
        done = plan(folder, None, 'geojson = "lawn.geojson"', 'depth = "10 mm"')
        assert done.returncode == code, done.stderr
        assert (folder / "out").exists() is not swapped
        assert ("latitude and longitude are swapped" in done.stderr) is swapped


@pytest.mark.parametrize(("across", "up"), [(50, 40), pytest.param(250, 200, marks=full)])
def test_thousands_of_points_are_planned(across: int, up: int, tmp_path: Path) -> None:
    """A scanner's survey: the plan is made, and its volume is that of the two bowls."""
    rows = ["x_m,y_m,height_mm"]
    for j in range(up):
        for i in range(across):
            x, y = i * 20 / (across - 1), j * 14 / (up - 1)
            low = max(0.0, 40 * (1 - ((x - 6) ** 2 + (y - 7) ** 2) / 4)) + max(
                0.0, 30 * (1 - ((x - 14) ** 2 + (y - 5) ** 2) / 2.25)
            )
            rows.append(f"{x:.3f},{y:.3f},{-20 * x - low:.1f}")
    done = plan(tmp_path, "\n".join(rows) + "\n")
    assert done.returncode == 0, done.stderr
    found = json.loads((tmp_path / "out" / "plan.json").read_text())["fill"]
    truth = math.pi * (4 * 0.040 + 2.25 * 0.030) / 2
    assert found["volume_low_m3"] <= truth <= found["volume_high_m3"]
    assert found["volume_m3"] == pytest.approx(truth, rel=0.05)


class TestWithoutPackages:
    """Without numpy and scipy plain numbers work, and a survey says what to install."""

    def test_a_plain_depth_is_planned(self, tmp_path: Path) -> None:
        """One number needs no reckoning."""
        done = plan(tmp_path, None, AREA, 'depth = "10 mm"', ("-c", WITHOUT))
        assert done.returncode == 0, done.stderr
        assert "Top-dress" in done.stdout

    @full
    def test_a_list_of_hollows_is_planned(self, tmp_path: Path) -> None:
        """It needs no surface."""
        hollows = "point,length_m,width_m,deepest_mm\nby the gate,3,2,30\n"
        done = plan(tmp_path, hollows, AREA, SURVEYED, ("-c", WITHOUT))
        assert done.returncode == 0, done.stderr

    def test_a_survey_says_what_to_install(self, tmp_path: Path) -> None:
        """Exit 5, one error and one hint, nothing written."""
        done = plan(tmp_path, table(*GRID), start=("-c", WITHOUT))
        assert done.returncode == 5, done.stderr
        assert 'pip install "turfplan[survey]"' in done.stderr and "Traceback" not in done.stderr
        assert not (tmp_path / "out").exists()

    @full
    def test_the_measuring_sheet_leaves_its_table_out(self, tmp_path: Path) -> None:
        """The steps are there; how many points for which accuracy takes a reckoning."""
        (tmp_path / "lawn.toml").write_text(BRIEF.format(lawn=AREA, leveling='depth = "10 mm"'))
        words = [
            sys.executable,
            "-c",
            WITHOUT,
            "print",
            str(tmp_path / "lawn.toml"),
            "measure",
            "-o",
            str(tmp_path),
        ]
        done = subprocess.run(words, capture_output=True, text=True, check=False, timeout=120)
        assert done.returncode == 0, done.stderr
        assert (
            "are not counted" in done.stderr
            and "points on" not in (tmp_path / "measure.html").read_text()
        )


@pytest.mark.parametrize("name", sampled(["surveyed-us", "surveyed-metric"], "surveyed-metric"))
def test_planning_again_changes_no_byte(name: str, tmp_path: Path) -> None:
    """The same brief, survey and journal a week later: calendar, checklist and order stay, and so
    does the fill.
    """

    def files_on(day: str) -> dict[str, bytes]:
        done = run("plan", str(EXAMPLES / f"{name}.toml"), "-o", str(tmp_path), "--today", day)
        assert done.returncode == 0, done.stderr
        return {path.name: path.read_bytes() for path in tmp_path.iterdir() if path.is_file()}

    first, again, later = files_on("2027-02-01"), files_on("2027-02-01"), files_on("2027-02-08")
    assert first == again
    assert {n: b for n, b in later.items() if n.endswith((".ics", ".csv"))} == {
        n: b for n, b in first.items() if n.endswith((".ics", ".csv"))
    }
    fills = [json.loads(files["plan.json"])["fill"] for files in (first, later)]
    assert fills[0] == fills[1]
