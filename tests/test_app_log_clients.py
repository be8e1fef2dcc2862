"""What happened at many lawns is written at once, looked at as single entries are, and taken back
at once."""

import csv
import io
import shutil
from datetime import date
from pathlib import Path

import pytest

from turfplan.app.log_clients import DayLog, log_day, log_file, undo_batch
from turfplan.app.plan_clients import plan_clients
from turfplan.app.plan_lawn import PlanRun
from turfplan.app.spreading_record import spreading_record
from turfplan.business.groups import ClientGroup
from turfplan.errors import TurfplanError
from turfplan.files.journal import read_journal
from turfplan.files.reading.plan import read_plan
from turfplan.records.journal import JournalEntry, standing

DAY = date(2027, 2, 1)
ROW = "tall_fescue,overseed,0.25 in,17601,US,mon;tue,2027-03-01"
HEADS = (
    "id,lawn.area,lawn.grass,seeding.intent,leveling.depth,place.postal_code,place.country,"
    "calendar.weekdays,season.from,Route"
)


@pytest.fixture(scope="module")
def first(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Three lawns alike, planned, on two routes."""
    home = tmp_path_factory.mktemp("business")
    names = (("ash", "1"), ("elm", "1"), ("oak", "2"))
    rows = (f"{name},400 m2,{ROW},{route}" for name, route in names)
    (home / "clients.csv").write_text("\n".join((HEADS, *rows)) + "\n", encoding="utf-8")
    (home / "data").mkdir()
    plan_clients(
        home / "clients.csv",
        home / "data",
        seen=lambda *_: None,
        run=PlanRun(DAY),
        processes=1,
    )
    return home / "data"


@pytest.fixture
def data(first: Path, tmp_path: Path) -> Path:
    """The same, to be written to."""
    return Path(shutil.copytree(first, tmp_path / "data"))


def stands(data: Path, name: str) -> tuple[JournalEntry, ...]:
    """What stands in the journal of a lawn."""
    return standing(read_journal(data / name / "brief.journal.jsonl").entries)


def soil_test(data: Path) -> date:
    """The day on which all three soils are sampled."""
    plan = read_plan(data / "ash")
    assert plan is not None
    task = plan.task("soil_test")
    assert task is not None
    return task.start


def test_all_jobs_of_a_day_but_some(data: Path) -> None:
    """Each once, with who said it; taken back in one line, and said again."""
    day = soil_test(data)
    done = log_day(data, DayLog(day, "done", ("oak", "elm:soil_test"), by="foreman"), day)
    assert done.lawns >= 1 and stands(data, "oak") == ()
    (entry,) = [one for one in stands(data, "ash") if one.task == "soil_test"]
    assert (entry.kind, entry.on, entry.by) == ("done", day, "foreman")
    assert not [one for one in stands(data, "elm") if one.task == "soil_test"]
    again = log_day(data, DayLog(day, "done", ("oak", "elm:soil_test")), day)
    assert again.written == 0
    assert undo_batch(data, done.batch).written == done.written
    assert stands(data, "ash") == () and undo_fails(data, done.batch)
    assert log_day(data, DayLog(day, "done"), day).lawns == 3


def undo_fails(data: Path, batch: str) -> bool:
    """Whether nothing of a bulk stands any more."""
    with pytest.raises(TurfplanError, match="no entry"):
        undo_batch(data, batch)
    return True


def test_rain_takes_a_day_from_what_it_hinders(data: Path) -> None:
    """At a group alone; a job that goes on is not taken as done."""
    plan = read_plan(data / "ash")
    assert plan is not None
    work = next(task for task in plan.tasks if task.plays("spreading") and task.series is None)
    rain = log_day(
        data, DayLog(work.start, "rained_off", (), ClientGroup("route", "1")), work.start
    )
    assert rain.lawns == 2 and stands(data, "oak") == ()
    assert work.id in {entry.task for entry in stands(data, "ash")}
    assert {entry.kind for entry in stands(data, "ash")} == {"rained_off"}


def test_a_file_of_entries(data: Path) -> None:
    """With hours and amounts; the same file again writes nothing, after it was taken back it
    does."""
    day = soil_test(data)
    file = data / "log.csv"
    file.write_text(
        f"Lawn;Task;Day;Hours;By;Note\nash;soil_test;{day};0,5;Kim;wet\nelm;soil_test;{day};;;\n",
        encoding="utf-8",
    )
    first = log_file(file, data, day)
    assert (first.written, first.lawns) == (2, 2)
    (entry,) = stands(data, "ash")
    assert (entry.hours, entry.by, entry.text, entry.way) == (0.5, "Kim", "wet", "file")
    assert (log_file(file, data, day).written, log_file(file, data, day).known) == (0, 2)
    undo_batch(data, first.batch)
    assert log_file(file, data, day).written == 2 and len(stands(data, "ash")) == 1


def test_every_fault_of_a_file_is_told_and_nothing_is_written(data: Path) -> None:
    """Its line and column; slips too, unless somebody is sure of them."""
    day = soil_test(data)
    file = data / "log.csv"
    file.write_text(
        "lawn,task,day,kind,amount,hours\n"
        f"ash,soil_test,{day},,,\n"
        f"ahs,soil_test,{day},,,\n"
        f"elm,soil_tset,{day},,,\n"
        "elm,soil_test,soon,moved,3 parsecs,many\n",
        encoding="utf-8",
    )
    with pytest.raises(TurfplanError) as told:
        log_file(file, data, day)
    assert len(told.value.problems) == 6 and stands(data, "ash") == ()
    file.write_text(f"lawn,task,day\nash,soil_tset,{day}\nelm,soil_test,2019-01-01\n")
    with pytest.raises(TurfplanError) as told:
        log_file(file, data, day)
    assert len(told.value.problems) == 2 and stands(data, "ash") == ()
    file.write_text("lawn,day\nash,2027-03-01\n")
    with pytest.raises(TurfplanError, match="no column task"):
        log_file(file, data, day)
    with pytest.raises(TurfplanError, match="no job of that day"):
        log_day(data, DayLog(day, "done", ("fir",)), day)


def test_the_record_of_what_was_spread(data: Path) -> None:
    """What entries say of it, with rates and areas; blank where nobody said it; lawns that are gone
    stay in it."""
    plan = read_plan(data / "ash")
    assert plan is not None
    feeding = next(task for task in plan.tasks if task.plays("feeding") and task.series is None)
    day, file = feeding.start, data / "log.csv"
    file.write_text(
        "lawn,task,day,amount,by,product,active_ingredient,area,time,wind,licence\n"
        f"ash,{feeding.id},{day},8 kg,Kim,=Green (invented),urea,200 m2,07:30,calm,L1\n"
        f"elm,{feeding.id},{day},,Kim,,,,,,\n",
        encoding="utf-8",
    )
    log_file(file, data, day, sure=True)
    (data / "archive").mkdir()
    (data / "elm").rename(data / "archive" / "elm")
    found = spreading_record(data)
    assert (found.rows, found.unnamed) == (2, 1)
    rows = list(csv.DictReader(io.StringIO(found.content.decode("utf-8-sig"))))
    assert [row["lawn"] for row in rows] == ["elm", "ash"]
    ash = rows[1]
    assert ash["product"] == "'=Green (invented)" and ash["time"] == "07:30"
    assert (ash["area m2"], ash["amount per m2"], ash["unit"]) == ("200", "0.04", "kg")
    assert rows[0]["area m2"] == "400" and rows[0]["amount"] == ""
    file.write_text(
        f"lawn,task,day,product,time,area\nash,{feeding.id},{day},,7.30,two\n", encoding="utf-8"
    )
    with pytest.raises(TurfplanError):
        log_file(file, data, day, sure=True)
