"""All lawns that have news are planned, the others stand, and nothing stops the rest."""

import csv
import errno
import shutil
import subprocess
from collections.abc import Callable
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from tiers import full
from turfplan.app import plan_clients as module
from turfplan.app.client_lists import AskedList, list_jobs
from turfplan.app.client_season import ClientSeason
from turfplan.app.client_sheets import crew_sheet
from turfplan.app.plan_clients import PlannedClients, plan_clients
from turfplan.app.plan_lawn import PlanRun
from turfplan.business.groups import ClientGroup
from turfplan.errors import TurfplanError
from turfplan.export.pdf import to_pdf
from turfplan.files import plan_folder
from turfplan.files.data_folder import GLANCES
from turfplan.files.glance_index import glance_index, stamp_of
from turfplan.files.reading.plan import read_plan

DAY = date(2027, 2, 1)
HEADS = (
    "id,lawn.name,lawn.area,lawn.grass,seeding.intent,leveling.depth,place.latitude,"
    "place.longitude,place.country,calendar.weekdays,season.from,client.address,client.access,Route,Crew"
)
ROWS = (
    "north,=1+1,400 m2,tall_fescue,overseed,0.25 in,40.04,-76.3,US,mon;tue,2027-03-01,"
    "1 Quill Lane,gate zq4711,east,small",
    "south,South,400 m2,perennial_ryegrass,overseed,,-43.53,172.6,NZ,sat;sun,2027-02-01,"
    "1 Quill Lane,<b>hofhund</b>,west,all",
)
# Filled in with the files above, and looked for where they do not belong.
PRIVATE = ("zq4711", "Quill", "hofhund")
BUSINESS = """
name = "Turf and Tine (invented)"
country = "US"
[[crew]]
name = "all"
people = 1
hours_per_day = 0.5
[[crew]]
name = "small"
people = 1
hours_per_day = 0.25
"""


def ignored(_: ClientSeason, done: int, rows: int) -> None:
    """Hears of each lawn."""
    assert 0 < done <= rows


def planned(
    data: Path, file: Path | None = None, today: date = DAY, **how: Any
) -> dict[str, ClientSeason]:
    """What became of each lawn."""
    return {one.client: one for one in all_planned(data, file, today, **how).seasons}


def all_planned(
    data: Path, file: Path | None = None, today: date = DAY, **how: Any
) -> PlannedClients:
    """What became of all lawns."""
    return plan_clients(file, data, seen=ignored, run=PlanRun(today), processes=1, **how)


@pytest.fixture(scope="module")
def first(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with a clients file, and its lawns planned in `data`."""
    home = tmp_path_factory.mktemp("business")
    (home / "clients.csv").write_text("\n".join((HEADS, *ROWS)) + "\n", encoding="utf-8")
    (home / "data").mkdir()
    (home / "data" / "business.toml").write_text(BUSINESS, encoding="utf-8")
    found = planned(home / "data", home / "clients.csv")
    assert [(one.state, one.news) for one in found.values()] == [("planned", "first")] * 2
    return home


@pytest.fixture
def data(first: Path, tmp_path: Path) -> Path:
    """The same, to be changed, with what is known of it."""
    shutil.copytree(first, tmp_path, dirs_exist_ok=True)
    data = tmp_path / "data"
    with glance_index(data) as index:
        for name, lawn in index.known().items():
            stamp = stamp_of(data / "lawns" / name, lawn.stamp)
            index.keep(name, replace(lawn, stamp=stamp))
    return data


@pytest.fixture
def asked(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Names of lawns that are planned from now on."""
    names: list[str] = []
    plan = module.plan_client

    def noted(lawn: module.ToPlan, *, run: PlanRun) -> Any:
        names.append(lawn.folder.name)
        return plan(lawn, run=run)

    monkeypatch.setattr(module, "plan_client", noted)
    return names


def test_a_lawn_without_fill_and_seed_is_planned_for_care(data: Path) -> None:
    """Its line is a planned one, and its jobs stand in the lists of the office."""
    file, row = data.parent / "clients.csv", ROWS[0].replace("north,=1+1", "cared,Cared for")
    bare = row.replace("overseed,0.25 in", "none,")
    file.write_text("\n".join((HEADS, *ROWS, bare)) + "\n", encoding="utf-8")
    found = planned(data, file)["cared"]
    assert (found.state, found.campaign) == ("planned", "care alone")
    assert found.glance is not None and found.glance.jobs


def test_lawns_without_news_are_not_planned(data: Path, asked: list[str]) -> None:
    """From the file and without it, and the summary says the same; a lost or damaged index changes
    nothing but the time."""
    file = data.parent / "clients.csv"
    before = planned(data, file)
    summary = (data / "summary.csv").read_bytes()
    assert asked == [] and planned(data).keys() == before.keys() and asked == []
    with glance_index(data) as index:
        for name, lawn in index.known().items():
            index.keep(name, replace(lawn, said="{}"))
    assert planned(data, file).keys() == before.keys() and len(asked) == 2
    asked.clear()
    (data / GLANCES).write_bytes(b"no index" * 99)
    again = planned(data, file)
    assert sorted(asked) == ["north", "south"]
    assert [one.glance for one in again.values()] == [one.glance for one in before.values()]
    assert (data / "summary.csv").read_bytes() == summary
    plan = read_plan(data / "lawns" / "south")
    assert plan is not None and plan.lawn.units.value == "metric"


def edit_brief(north: Path) -> None:
    """Another area."""
    text = (north / "brief.toml").read_text(encoding="utf-8")
    (north / "brief.toml").write_text(text.replace("400 m2", "500 m2"), encoding="utf-8")


def take_sheet(north: Path) -> None:
    """A sheet that is gone."""
    (north / "checklist.html").unlink()


def bar_day(north: Path) -> None:
    """A day on which nobody may come."""
    text = (north / "client.toml").read_text(encoding="utf-8")
    (north / "client.toml").write_text('barred_weekdays = ["tue"]\n' + text, encoding="utf-8")


@pytest.mark.parametrize("change", [edit_brief, take_sheet, bar_day])
def test_one_lawn_with_news_is_planned_alone(
    change: Callable[[Path], None], data: Path, asked: list[str]
) -> None:
    """A brief, a sheet, a client that has changed: it is told what moved."""
    north = data / "lawns" / "north"
    change(north)
    found = planned(data)
    assert asked == ["north"] and (north / "checklist.html").is_file()
    assert found["north"].news == ("none" if change is take_sheet else "changed")
    assert bool(found["north"].changes) == (change is not take_sheet)
    assert planned(data)["north"].news == "none" and asked == ["north"]
    if change is bar_day:
        assert found["north"].glance is not None
        days = {job.start.weekday() for job in found["north"].glance.jobs if job.main}
        assert days == {0}


def test_a_job_that_is_over_is_news_once(data: Path, asked: list[str]) -> None:
    """Its sheet says that it is overdue; lists say whose job."""
    found = planned(data, today=date(2027, 4, 1))
    late = sorted(
        name for name, one in found.items() if one.glance and one.glance.overdue(date(2027, 4, 1))
    )
    assert sorted(asked) == late != []
    planned(data, today=date(2027, 4, 1))
    assert len(asked) == len(late)
    listed = list_jobs(data, AskedList("overdue", date(2027, 4, 1)))
    assert [lawn.id for lawn in listed.lawns] == late


def test_a_fault_is_the_line_of_its_lawn(
    data: Path, monkeypatch: pytest.MonkeyPatch, asked: list[str]
) -> None:
    """Of the program, of the input, and of the summary: what else there is stands."""
    north = data / "lawns" / "north"
    edit_brief(north)
    (data / "lawns" / "south" / "brief.toml").write_text("[lawn", encoding="utf-8")
    (data / "summary.csv").unlink()
    (data / "summary.csv").mkdir()

    def broken(*_: object, **__: object) -> None:
        raise ZeroDivisionError("by nought")

    with monkeypatch.context() as patched:
        patched.setattr(module, "plan_lawn", broken)
        done = all_planned(data)
    found = {one.client: one for one in done.seasons}
    assert {name: one.state for name, one in found.items()} == {
        "north": "fault",
        "south": "bad row",
    }
    assert "by nought" in found["north"].campaign
    assert done.problem is not None and "summary.csv" in str(done.problem)
    assert planned(data)["north"].news == "changed"


def test_nothing_private_leaves_its_place(data: Path) -> None:
    """Addresses and ways in stand in the client's file and on the crew's sheet alone; what looks
    like a formula or markup is none."""
    html, name, _ = crew_sheet(data, AskedList("week", date(2027, 3, 2)), None)
    week = list_jobs(data, AskedList("week", date(2027, 3, 2)))
    assert {lawn.id for lawn in week.lawns} == {"north", "south"} and name.startswith("week-2027")
    assert "zq4711" in html and "<b>hofhund" not in html and "&lt;b&gt;hofhund" in html
    own = {"client.toml", "clients.csv"}
    for path in (path for path in data.rglob("*") if path.is_file() and path.name not in own):
        content = path.read_bytes()
        assert not any(word.encode() in content for word in PRIVATE), path
    with (data / "summary.csv").open(encoding="utf-8", newline="") as file:
        assert (
            next(row for row in csv.DictReader(file) if row["client"] == "north")["name"] == "'=1+1"
        )


def test_hours_needed_stand_beside_hours_there(data: Path) -> None:
    """Of each day of a week; days with too many are named; a group is listed alone, and one that
    there is not is told."""
    found = list_jobs(data, AskedList("week", date(2027, 2, 15), by="route"))
    assert len(found.hours) == 7 and any(day.is_over for day in found.hours)
    # Presidents' Day, and the week-end.
    assert [day.there for day in found.hours] == [0, 0.75, 0.75, 0.75, 0.75, 0, 0]
    jobs = [job for lawn in found.lawns for job in lawn.jobs]
    inside = [job for job in jobs if job.start.isocalendar().week == job.end.isocalendar().week]
    if len(inside) == len(jobs):
        assert sum(day.needed for day in found.hours) == pytest.approx(sum(j.hours for j in jobs))
    east = list_jobs(data, AskedList("week", date(2027, 3, 2), ClientGroup("route", "east")))
    assert [lawn.id for lawn in east.lawns] == ["north"]
    small = list_jobs(data, AskedList("week", date(2027, 3, 2), ClientGroup("crew", "small")))
    assert {day.there for day in small.hours} == {0, 0.25}
    with pytest.raises(TurfplanError, match="has the column"):
        list_jobs(data, AskedList("week", date(2027, 3, 2), ClientGroup("branch", "east")))


@full
def test_the_crews_sheet_prints(data: Path) -> None:
    """With lawns and without, as a PDF that says the same on its pages."""
    for day, said in ((date(2027, 3, 2), "gate zq4711"), (date(2027, 12, 28), "No lawn is due")):
        html, _, _ = crew_sheet(data, AskedList("day" if "No" in said else "week", day), "letter")
        printed = to_pdf(html, None)
        words = subprocess.run(
            ["pdftotext", "-", "-"], input=printed, capture_output=True, check=True
        ).stdout.decode()
        assert said in " ".join(words.split()) and "Turf and Tine" in words


def test_a_full_disk_is_no_bad_row(data: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What the disk did not take is told as not written; with room the same run goes on."""

    def full(*_: object, **__: object) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    for plan in [*data.rglob("plan.json")]:
        plan.unlink()
    with monkeypatch.context() as patch:
        patch.setattr(plan_folder, "write_whole", full)
        found = planned(data)
        assert {season.state for season in found.values()} == {"not written"}
        assert "No space left" in found["north"].campaign
    assert {season.state for season in planned(data).values()} == {"planned"}
