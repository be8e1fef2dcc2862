"""How clients stand: paused, left, sold; rules of groups and places; callbacks; hours used."""

import csv
import io
import json
import re
import shutil
import tomllib
import zipfile
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest

from command import run as command
from planned_business import DAY, MARKS, held_in
from turfplan.app import client_callbacks as callbacks
from turfplan.app import client_ends as ends
from turfplan.app import client_pauses as pauses
from turfplan.app.backup_lawns import backup_lawns
from turfplan.app.client_hours import list_hours
from turfplan.app.client_letters import lawns_to_write_to
from turfplan.app.client_lists import AskedList, list_jobs
from turfplan.app.client_material import list_material
from turfplan.app.client_messages import client_messages, mark_told
from turfplan.app.client_quotes import accept_quote, list_quotes, offer_quote
from turfplan.app.client_rules import AskedRule, add_rule, ban_of, place_of, undo_rule
from turfplan.app.client_season import ClientSeason
from turfplan.app.client_sheets import crew_sheet
from turfplan.app.import_clients import import_clients
from turfplan.app.lawn_day import open_jobs
from turfplan.app.log_clients import DayLog, log_day, log_file, undo_batch
from turfplan.app.outputs import words_of
from turfplan.app.plan_clients import plan_clients
from turfplan.app.plan_lawn import PlanRun
from turfplan.app.restore_lawns import restore_lawns
from turfplan.app.spreading_record import record_page, spreading_record
from turfplan.business.groups import ClientGroup
from turfplan.business.lawn_glance import glance_of
from turfplan.business.used_hours import LEAST_JOBS, WorkedJob, hours_by_operation
from turfplan.calendar_days import week_of
from turfplan.errors import TurfplanError
from turfplan.export.sheets.go_signs import told_by
from turfplan.export.sheets.task_amounts import quantities
from turfplan.export.typography import typeset
from turfplan.files import index as store
from turfplan.files.data_folder import INDEX, known_lawn_id
from turfplan.files.journal import append_entry, read_journal
from turfplan.files.lawn_standing import read_owners, read_pauses
from turfplan.files.reading.business import read_client
from turfplan.files.reading.plan import read_plan
from turfplan.records.journal import JournalEntry
from turfplan.records.plan import Plan
from turfplan.serve.client_addresses import client_address

NORTH = ClientGroup("crew", "north")
DAY_S = timedelta(days=1)


@pytest.fixture
def data(planned_once: Path, tmp_path: Path) -> Path:
    """Two lawns alike, planned, to be written to; the client file lies beside it."""
    shutil.copy(planned_once.parent / "clients.csv", tmp_path)
    return Path(shutil.copytree(planned_once, tmp_path / "data"))


def plan_of(data: Path, name: str = "ash") -> Plan:
    """The plan of a lawn."""
    plan = read_plan(data / "lawns" / name)
    assert plan is not None
    return plan


def planned(data: Path, today: date, file: Path | None = None) -> dict[str, ClientSeason]:
    """What became of each lawn on a day."""
    done = plan_clients(file, data, seen=lambda *_: None, run=PlanRun(today), processes=1)
    return {season.client: season for season in done.seasons}


def pause(data: Path, start: date, end: date | None, *names: str) -> str:
    """Pause lawns; the name of the call."""
    asked = pauses.AskedPause(start, end, "office", "roof work (invented)")
    return pauses.pause_clients(data, pauses.lawns_meant(data, names, None), asked, start).name


def test_a_paused_client_gets_no_plan_job_material_or_message(data: Path) -> None:
    """The others do; each list says until when; once it is over the lawn is planned again, and what
    the pause took was not done."""
    plan = plan_of(data)
    job = next(t for t in plan.tasks if t.series is None and t.plays("headline") and t.is_open)
    start, end = job.start - DAY_S, job.start + timedelta(days=10)
    name = pause(data, start, end, "ash")
    asked = AskedList("week", job.start)
    listed = list_jobs(data, asked)
    assert [lawn.id for lawn in listed.lawns] == ["elm"]
    assert any("is_paused" in note.key for note in listed.notes)
    found, notes = client_messages(data, job.start)
    assert [one.folder.name for one in found] == ["elm"] and len(notes) == 1
    lawns, _ = lawns_to_write_to(data, None, None, job.start)
    assert [lawn.name for lawn in lawns] == ["elm"]
    bought = {s.lawn for load in list_material(data, today=start).loads for s in load.shares}
    assert bought == {"elm"}
    before = (data / "lawns" / "ash" / "plan.json").read_bytes()
    seasons = planned(data, job.start)
    assert seasons["ash"].state == "paused" and str(end.day) in seasons["ash"].campaign
    assert (data / "lawns" / "ash" / "plan.json").read_bytes() == before
    after = end + DAY_S
    assert planned(data, after)["ash"].state == "planned"
    moved = plan_of(data).task(job.id)
    assert moved is not None and moved.start >= after, "what the pause took is still to be done"
    assert planned(data, after)["ash"].news == "none"
    assert pauses.undo_pauses(data, name) == 1
    with pytest.raises(TurfplanError, match="no such call"):
        pauses.undo_pauses(data, name)


def test_a_pause_is_looked_at_first(data: Path) -> None:
    """All faults at once and nothing written; the same pause again is one; a group's; an end."""
    lawns = pauses.lawns_meant(data, (), NORTH)
    assert len(lawns) == 2
    with pytest.raises(TurfplanError) as told:
        pauses.lawns_meant(data, ("ahs", "lem"), None)
    assert len(told.value.problems) == 2
    with pytest.raises(TurfplanError, match="before it begins"):
        pauses.pause_clients(data, lawns, pauses.AskedPause(DAY, DAY - DAY_S), DAY)
    late = pauses.AskedPause(DAY - 2 * DAY_S, DAY - DAY_S)
    with pytest.raises(TurfplanError, match="is over since"):
        pauses.pause_clients(data, lawns, late, DAY)
    pauses.pause_clients(data, lawns, pauses.AskedPause(DAY, None), DAY, dry=True)
    assert not any(read_pauses(folder) for folder in lawns)
    first = pauses.pause_clients(data, lawns, pauses.AskedPause(DAY), DAY)
    again = pauses.pause_clients(data, lawns, pauses.AskedPause(DAY), DAY)
    assert first == again and all(len(read_pauses(folder)) == 1 for folder in lawns)
    with pytest.raises(TurfplanError) as told:
        pauses.pause_clients(data, lawns, pauses.AskedPause(DAY + DAY_S, DAY + 3 * DAY_S), DAY)
    assert len(told.value.problems) == 2, "paused already"
    assert pauses.end_pauses(data, lawns, DAY + 5 * DAY_S) == 2
    with pytest.raises(TurfplanError, match="not paused"):
        pauses.end_pauses(data, lawns, DAY + 5 * DAY_S)


def test_a_rule_holds_where_it_says_and_for_who_comes_later(data: Path) -> None:
    """A ban takes no lawn elsewhere; what it held for is planned again, nothing else; it ends in
    one line."""
    plan = plan_of(data)
    water = next(task for task in plan.tasks if task.series is not None)
    ban = ban_of(f"{water.start}..{water.start + timedelta(days=60)}")
    asked = AskedRule(banned=ban, group=ClientGroup("crew", "south"))
    with pytest.raises(TurfplanError, match="south"):
        add_rule(data, asked, DAY)
    (data / "lawns" / "elm" / "client.toml").write_text('own = { Crew = "south" }\n')
    planned(data, DAY)
    dry = add_rule(data, asked, DAY, dry=True)
    assert dry.lawns == ("elm",) and not (data / "clients.rules.json").exists()
    first = add_rule(data, asked, DAY)
    assert add_rule(data, asked, DAY).rule.name == first.rule.name
    before = (data / "lawns" / "ash" / "plan.json").read_bytes()
    seasons = planned(data, DAY)
    assert seasons["elm"].news == "changed" or seasons["elm"].state == "not possible"
    assert seasons["ash"].news == "none"
    assert (data / "lawns" / "ash" / "plan.json").read_bytes() == before
    later = (data.parent / "clients.csv").read_text().splitlines()
    later.append(later[1].replace("ash", "oak").replace("Ash", "Oak").replace("north", "south"))
    (data.parent / "clients.csv").write_text("\n".join(later) + "\n")
    (data / "lawns" / "elm" / "client.toml").unlink()
    import_clients(data.parent / "clients.csv", data)
    (data / "lawns" / "elm" / "client.toml").write_text('own = { Crew = "south" }\n')
    assert add_rule(data, asked, DAY, dry=True).lawns == ("elm", "oak")
    undo_rule(data, first.rule.name)
    assert planned(data, DAY)["elm"].state == "planned"
    with pytest.raises(TurfplanError, match="no such call"):
        undo_rule(data, first.rule.name)


def test_a_permit_for_a_place(data: Path) -> None:
    """By a part of the place, as briefs name it; another one holds for nobody."""
    with pytest.raises(TurfplanError, match="says so"):
        add_rule(data, AskedRule(permit=False, place=place_of("postal_code=99999")), DAY)
    found = add_rule(data, AskedRule(permit=False, place=place_of("Postal_code = 17601")), DAY)
    assert found.lawns == ("ash", "elm")
    for text in ("county=Lancaster", "17601"):
        with pytest.raises(TurfplanError, match="no part of a place"):
            place_of(text)
    for text in ("2027-06-01", "2027-06-03..2027-06-01", "June..July"):
        with pytest.raises(TurfplanError, match="no span of days"):
            ban_of(text)


def has_addresses(data: Path) -> int:
    """How many addresses are open."""
    with store.opened(data / INDEX, create=False) as connection:
        query = "SELECT count(*) FROM token WHERE revoked IS NULL"
        return int(connection.execute(query).fetchone()[0])


def test_a_client_leaves_and_comes_back(data: Path) -> None:
    """Into the archive, with addresses ended; handed over without anything of client or business;
    the row brings nothing back, and is no fault; one line takes it back."""
    client_address(data, data / "lawns" / "ash")
    lawn_id = known_lawn_id(data / "lawns" / "ash")
    dry = ends.leave(data, "ash", DAY, None, dry=True)
    assert not dry.archive.exists() and (data / "lawns" / "ash").is_dir()
    left = ends.leave(data, "ash", DAY, None, by="office", note="moved away")
    assert not (data / "lawns" / "ash").exists() and has_addresses(data) == 0
    whole = held_in(left.archive)
    assert not [name for name, mark in MARKS.items() if mark.encode() in whole]
    home = data.parent / "home"
    brought = restore_lawns(left.archive, home)
    assert [lawn.lawn_id for lawn in brought.lawns] == [lawn_id]
    names = {path.name for path in home.rglob("*") if path.is_file()}
    assert {"brief.toml", "plan.json"} <= names
    assert not {"client.toml", "business.toml", "business.key", "quotes.json"} & names
    file = data.parent / "clients.csv"
    assert planned(data, DAY, file)["ash"].state == "left"
    read = import_clients(file, data)
    assert [row.state for row in read.rows] == ["left", "unchanged"] and read.written
    assert not (data / "lawns" / "ash").exists()
    assert ends.come_back(data, "ash") == "ash"
    assert known_lawn_id(data / "lawns" / "ash") == lawn_id
    assert planned(data, DAY, file)["ash"].state == "planned"
    with pytest.raises(TurfplanError, match="not in the archive"):
        ends.come_back(data, "ash")


def test_a_lawn_is_sold_with_its_history(data: Path) -> None:
    """The new owner is its client, nothing of the one before stands in what is written to it;
    records keep who it was; quotes are counted on; the row of the one before stays out, the next
    one is taken; one line takes it back."""
    lawn = data / "lawns" / "ash"
    client_address(data, lawn)
    number = offer_quote(data, "ash", DAY).quote.number
    accept_quote(data, "ash", DAY, number)
    for message in client_messages(data, DAY)[0]:
        mark_told(message)
    plan, was = plan_of(data), (lawn / "client.toml").read_bytes()
    feeding = next(task for task in plan.tasks if task.plays("feeding") and task.series is None)
    rows = data.parent / "log.csv"
    rows.write_text(f"lawn,task,day,product\nash,{feeding.id},{feeding.start},Green (invented)\n")
    log_file(rows, data, feeding.start, sure=True)
    today = feeding.start + 5 * DAY_S
    owner = ends.NewOwner("Mx New (invented)", {"telephone": "555 0100"})
    with pytest.raises(TurfplanError, match="no column"):
        ends.sell(data, "ash", today, ends.NewOwner("x", {"fone": "1"}, ("rout",)), None)
    assert ends.sell(data, "ash", today, owner, None, dry=True).name == owner.name
    assert (lawn / "client.toml").read_bytes() == was
    sold = ends.sell(data, "ash", today, owner, None, by="office")
    client = read_client(lawn)
    assert (client.name, client.telephone) == ("Mx New (invented)", "555 0100")
    assert client.address == MARKS["street"] and client.access is None
    assert client.own == {"Crew": "north"}, "a note of the owner before is nobody's business"
    assert has_addresses(data) == 0 and list_quotes(data) == ()
    assert plan_of(data).lawn_id == plan.lawn_id and len(read_owners(lawn)) == 1
    assert not [mark for mark in MARKS.values() if mark.encode() in held_in(sold.archive)]
    (row,) = csv.DictReader(io.StringIO(spreading_record(data).content.decode("utf-8-sig")))
    assert row["client"] == "Ash (invented)", "whose lawn it was on that day"
    assert offer_quote(data, "ash", DAY).quote.number > number
    file = data.parent / "clients.csv"
    assert import_clients(file, data).counted("unchanged") == 2
    assert read_client(lawn).name == "Mx New (invented)"
    file.write_text(file.read_text().replace("Ash (invented)", "M. New (invented)"))
    assert import_clients(file, data).counted("changed") == 1
    assert read_client(lawn).name == "M. New (invented)"
    assert ends.unsell(data, "ash").name == "Ash (invented)"
    assert (lawn / "client.toml").read_bytes() == was and read_owners(lawn) == ()
    assert len(list_quotes(data)) == 2
    with pytest.raises(TurfplanError, match="was not sold"):
        ends.unsell(data, "ash")


@pytest.mark.parametrize("ending", ["sell", "leave"])
def test_words_of_the_journal_stay_with_whom_they_were_told(data: Path, ending: str) -> None:
    """What is handed over has every entry, so that its plan holds, and nobody's own words; the
    journal that is kept has them."""
    lawn = data / "lawns" / "ash"
    job = next(task for task in plan_of(data).tasks if task.plays("spreading"))
    at = datetime(2027, 2, 1, 9, tzinfo=UTC)
    said = (
        JournalEntry(number=1, at=at, kind="note", text="the dog is called Rex"),
        JournalEntry(number=2, at=at, kind="skipped", task=job.id, on=DAY, text="a wedding here"),
    )
    for entry in said:
        append_entry(lawn / "journal.jsonl", lambda _, one=entry: one)
    if ending == "leave":
        archive = ends.leave(data, "ash", DAY, None).archive
    else:
        archive = ends.sell(data, "ash", DAY, ends.NewOwner("Mx New (invented)", {}), None).archive
        assert read_journal(lawn / "journal.jsonl").entries == said
    held = held_in(archive)
    assert b"Rex" not in held and b"wedding" not in held
    home = data.parent / "home"
    restore_lawns(archive, home)
    (journal,) = home.rglob("journal.jsonl")
    kinds = [(entry.number, entry.kind, entry.on) for entry in read_journal(journal).entries]
    assert kinds == [(1, "note", None), (2, "skipped", DAY)]


@pytest.mark.parametrize("ending", ["sell", "leave"])
@pytest.mark.parametrize("form", ["one line", "lines"])
def test_days_away_go_with_their_owner(data: Path, ending: str, form: str) -> None:
    """What is handed over says nothing of when nobody was at home: neither brief nor plan; the lawn
    that was sold is planned without these days, and has them again once the sale is taken back."""
    job = next(task for task in plan_of(data).tasks if task.plays("spreading"))
    first, last = job.start - 9 * DAY_S, job.start + 20 * DAY_S
    brief = data / "lawns" / "ash" / "brief.toml"
    line = f"away = [{{ from = {first}, to = {last} }}, {{ from = 2027-12-24, to = 2027-12-25 }}]"
    if form == "lines":
        line = line.replace("}, {", "},\n  {")
    mine = brief.read_text(encoding="utf-8").replace('by = "contractor"', 'by = "household"')
    text = f"{mine}\n[calendar]\n{line}\nalarm = false\n"
    brief.write_text(text, encoding="utf-8")
    planned(data, DAY)
    before = (brief.parent / "plan.json").read_text(encoding="utf-8")
    assert "absences." in before, "the plan waits for who is away"
    if ending == "leave":
        archive = ends.leave(data, "ash", DAY, None).archive
    else:
        archive = ends.sell(data, "ash", DAY, ends.NewOwner("Mx New (invented)", {}), None).archive
        assert "2027-12-24" not in brief.read_text(encoding="utf-8")
        assert "alarm = false" in brief.read_text(encoding="utf-8")
    with zipfile.ZipFile(archive) as files:
        for name in files.namelist():
            held = files.read(name).decode()
            assert "absences." not in held, name
            assert "2027-12-24" not in held or not name.endswith(".toml"), name
            assert not re.search(r"away = \[\{", held), name
        restored = [name for name in files.namelist() if name.endswith(("brief.toml", "plan.json"))]
    assert len(restored) == 2
    if ending == "sell":
        ends.unsell(data, "ash")
        again = tomllib.loads(brief.read_text(encoding="utf-8"))
        assert again == tomllib.loads(text)


def test_a_sale_that_was_stopped_goes_on(data: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Stopped before the client is written, the owner before is the client and nothing is lost;
    the same command then ends it, and puts nobody aside twice."""
    offer_quote(data, "ash", DAY)
    owner = ends.NewOwner("Mx New (invented)", {})

    def stopped(*_: object) -> None:
        raise KeyboardInterrupt

    with monkeypatch.context() as patch:
        patch.setattr(ends, "write_into_folders", stopped)
        with pytest.raises(KeyboardInterrupt):
            ends.sell(data, "ash", DAY, owner, None)
    assert read_client(data / "lawns" / "ash").name == "Ash (invented)"
    ends.sell(data, "ash", DAY, owner, None)
    (former,) = read_owners(data / "lawns" / "ash")
    assert former.name == "Ash (invented)" and len(former.quotes) == 1


def test_a_departure_that_was_stopped_goes_on(data: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Stopped before the folder goes, the lawn is still there; the same command then ends it."""

    def stopped(*_: object) -> None:
        raise KeyboardInterrupt

    with monkeypatch.context() as patch:
        patch.setattr(ends, "archive_lawn", stopped)
        with pytest.raises(KeyboardInterrupt):
            ends.leave(data, "ash", DAY, None)
    assert list_jobs(data, AskedList("week", DAY)).notes == ()
    assert (data / "lawns" / "ash" / "plan.json").is_file()
    ends.leave(data, "ash", DAY, None)
    assert ends.come_back(data, "ash") == "ash"


def test_a_callback_is_a_visit(data: Path) -> None:
    """In lists with its hours, on the crew's sheet, done with all of its day and taken back with
    it; written once."""
    asked = callbacks.AskedCallback("bare spot at the gate", DAY + DAY_S, 0.5, "office")
    one = callbacks.add_callback(data, "ash", asked, DAY)
    assert callbacks.add_callback(data, "ash", asked, DAY) == one
    day = AskedList("day", DAY + DAY_S)
    (lawn,) = list_jobs(data, day).lawns
    assert [(job.task, job.hours) for job in lawn.jobs] == [("callback.1", 0.5)]
    html, _, _ = crew_sheet(data, day, None)
    assert "bare spot at the gate" in html and MARKS["access"] in html
    done = log_day(data, DayLog(day.day, "done"), day.day)
    assert (done.written, done.lawns) == (1, 1) and callbacks.list_callbacks(data) == ()
    assert undo_batch(data, done.batch).written == 1
    assert len(callbacks.list_callbacks(data)) == 1
    file = data.parent / "done.csv"
    file.write_text(f"lawn,task,day,hours\nash,callback.1,{day.day},0.75\nash,callback.7,{DAY},1\n")
    with pytest.raises(TurfplanError, match="no callback"):
        log_file(file, data, day.day)
    file.write_text(f"lawn,task,day,hours\nash,callback.1,{day.day},0.75\n")
    assert log_file(file, data, day.day).written == 1
    assert (log_file(file, data, day.day).written, log_file(file, data, day.day).known) == (0, 1)
    (hours,) = list_hours(data).operations
    assert (hours.operation, hours.quoted, hours.used, hours.rate) == ("callback", 0.5, 0.75, None)
    with pytest.raises(TurfplanError, match="over already"):
        callbacks.drop_callback(data, "ash", 1, DAY)
    assert callbacks.reopen_callback(data, "ash", 1).is_open
    moved = callbacks.move_callback(data, "ash", 1, DAY + 3 * DAY_S)
    assert moved.on == DAY + 3 * DAY_S
    pause(data, DAY, DAY + 9 * DAY_S, "elm")
    with pytest.raises(TurfplanError) as told:
        callbacks.add_callback(data, "elm", callbacks.AskedCallback("x", DAY - DAY_S), DAY)
    assert len(told.value.problems) == 1
    with pytest.raises(TurfplanError, match="paused"):
        callbacks.add_callback(data, "elm", callbacks.AskedCallback("x", DAY), DAY)


def test_hours_used_against_quoted(data: Path) -> None:
    """By what was accepted, else by the plan; what nobody wrote down is counted apart; a rate is
    proposed from three jobs on, and is what lists and quotes then go by."""
    accept_quote(data, "ash", DAY, offer_quote(data, "ash", DAY).quote.number)
    plan = plan_of(data)
    job = next(t for t in plan.tasks if t.operation == "soil_test")
    file = data.parent / "log.csv"
    file.write_text(f"lawn,task,day,hours\nash,{job.id},{job.start},3\nelm,{job.id},{job.start},\n")
    log_file(file, data, job.start, sure=True)
    (found,) = list_hours(data).operations
    assert (found.operation, found.jobs, found.missing, found.used) == ("soil_test", 1, 1, 3.0)
    assert found.quoted == pytest.approx(job.person_hours) and found.rate is None
    jobs = [WorkedJob("seed", "Seed", 2.0, 2.5, used) for used in (2.0, 3.0, 4.0, None)]
    (seed,) = hours_by_operation(jobs, {"seed": 1.2})
    assert (seed.rate, seed.rate_now, seed.jobs, seed.missing) == (1.5, 1.2, LEAST_JOBS, 1)
    assert (seed.least, seed.most) == (0.8, 1.6) and seed.times == pytest.approx(9 / 7.5)
    later = AskedList("week", next(t.start for t in plan.tasks if t.plays("coring")))
    before = {job.task: job.hours for lawn in list_jobs(data, later).lawns for job in lawn.jobs}
    people = {line.kind: line for line in offer_quote(data, "elm", DAY).quote.choices[0].lines}
    with (data / "business.toml").open("a", encoding="utf-8") as business:
        business.write("\n[hours]\ncore_aerate = 2.0\n")
    after = {job.task: job.hours for lawn in list_jobs(data, later).lawns for job in lawn.jobs}
    assert any(task.startswith("core_aerate") for task in before)
    for task, hours in before.items():
        times = 2.0 if task.startswith("core_aerate") else 1.0
        assert after[task] == pytest.approx(times * hours)
    dearer = {line.kind: line for line in offer_quote(data, "elm", DAY).quote.choices[0].lines}
    assert dearer["people"].quantity > people["people"].quantity


def test_the_record_as_a_page(data: Path) -> None:
    """What the table says, with what is missing marked; texts are only texts."""
    plan = plan_of(data)
    feeding = next(task for task in plan.tasks if task.plays("feeding") and task.series is None)
    file = data.parent / "log.csv"
    file.write_text(
        "lawn,task,day,amount,by,product,area,time,wind\n"
        f"ash,{feeding.id},{feeding.start},8 kg,Kim,<b>Green</b>,200 m2,07:30,calm\n"
        f"elm,{feeding.id},{feeding.start},,Kim,,,,\n"
    )
    log_file(file, data, feeding.start, sure=True)
    page = record_page(spreading_record(data), DAY, None)
    page = page.replace("\xa0", " ").replace("\u2060", "")
    assert "&lt;b&gt;Green" in page and "17.64 lb" in page and "2152.78 ft" in page
    assert "8.19 lb/1,000 ft" in page and page.count("2027") >= 2 and "2027 2027" not in page
    assert page.count("not said") == 2 and "Elm (invented)" in page and "07:30" in page


def test_what_is_kept_is_in_a_copy(data: Path) -> None:
    """Pauses, callbacks, former owners and rules."""
    pause(data, DAY, None, "elm")
    callbacks.add_callback(data, "ash", callbacks.AskedCallback("x", DAY), DAY)
    ends.sell(data, "ash", DAY, ends.NewOwner("Mx New (invented)", {}), None)
    add_rule(data, AskedRule(permit=True), DAY)
    kept = backup_lawns(data.parent / "all.copy", [data], None)
    names = {name.rpartition("/")[2] for name in kept.files}
    assert {"pauses.json", "callbacks.json", "owners.json", "clients.rules.json"} <= names


def test_by_commands(data: Path) -> None:
    """In one line each, with the line that takes it back."""
    said = command(
        "clients", "pause", str(data), "ash", "--until", "2027-03-05", "--today", f"{DAY}"
    )
    assert said.returncode == 0 and "--undo" in said.stderr and "ash: paused" in said.stdout
    listed = command("clients", "list", str(data), "--today", f"{DAY}")
    assert "Paused until Fri 5 Mar 2027: ash" in listed.stderr
    assert (
        command("clients", "pause", str(data), "ash", "--over", "--today", f"{DAY}").returncode == 0
    )
    ban = ("--group", "crew=north", "--ban", "2027-07-01..2027-08-15")
    said = command("clients", "rule", str(data), *ban)
    assert said.returncode == 0 and "2 lawns now" in said.stdout and "--undo" in said.stderr
    assert "crew=north" in command("clients", "rule", str(data)).stdout
    assert command("clients", "rule", str(data), "--place", "town=x").returncode == 2
    add = ("clients", "callback", "add", str(data), "elm", "worms (invented)")
    assert command(*add, "--on", "2027-02-03", "--today", f"{DAY}").returncode == 0
    assert command(*add, "--today", f"{DAY}").returncode == 2
    assert "worms" in command("clients", "callback", "list", str(data)).stdout
    told = json.loads(command("clients", "hours", str(data), "--json").stdout)
    assert told == {"schema": 1, "hours": []}
    out = data.parent / "elm.copy"
    assert command("clients", "leave", str(data), "elm", "-o", str(out)).stdout.strip() == str(out)
    assert command("clients", "leave", str(data), "elm", "--undo").returncode == 0
    assert command("clients", "sell", str(data), "elm").returncode == 2
    page = data.parent / "spread.html"
    done = command("clients", "record", str(data), "-o", str(page))
    assert done.returncode == 0 and "Nothing was spread" in page.read_text()


def test_the_sheet_of_a_week_says_what_the_checklist_says(data: Path) -> None:
    """Of each job at each lawn its figures, when it goes and when it waits; steps that lawns share,
    when it is done and what to do if it goes wrong stand once, before them, under a letter; where
    lawns share nothing they stand at the lawn."""
    plan = plan_of(data)
    job = next(task for task in plan.tasks if task.plays("coring"))
    asked = AskedList("week", job.start)
    text = plain_page(crew_sheet(data, asked, None)[0])
    shared, _, visits = text.partition("Ash (invented)")
    week = week_of(job.start)
    due = [t for t in plan.tasks if t.series is None and t.is_open and t.start in week]
    assert len(due) > 1
    once = [setting(step.text) for task in due for step in task.how]
    for task in due:
        keys = (f"operations.{task.operation}.{name}" for name in ("done_when", "wrong"))
        once += [setting(told) for key in keys if (told := told_by(plan.on_sheets, key))]
        for one in quantities(task, words_of(plan)):
            set_so = " ".join(typeset(one.planned, words_of(plan)).split())
            assert visits.count(set_so) >= 2, one.planned
    for told in once:
        assert told and told in shared and told not in visits, told
    assert visits.count("Go if") >= 2 and visits.count("Wait for") >= 2
    assert re.search(r"steps A ?, above", visits)
    (data / "lawns" / "elm" / "plan.json").unlink()
    alone = plain_page(crew_sheet(data, asked, None)[0])
    assert ", above" not in alone
    assert all(told in alone.partition("Ash (invented)")[2] for told in once)


def plain_page(html: str) -> str:
    """What a page says, on one line."""
    body = html.partition("<body>")[2]
    return re.sub(r"\s+", " ", re.sub("<[^>]*>", " ", body).replace("\xa0", " "))


def setting(text: str) -> str:
    """The first words of a text, up to what print sets in another way."""
    return re.split(r"[\d'\"&<>]", " ".join(text.split()))[0].strip()


def test_the_last_safe_day_moves_what_follows_along(data: Path) -> None:
    """It lies no later than the season's, at or after the last day with all others where they are,
    and leaves what follows room within its own."""
    plan = plan_of(data)
    glance = glance_of(plan, open_jobs(plan, ()))
    of_task = {job.task: job for job in glance.jobs}
    sooner = 0
    for job in glance.jobs:
        task = plan.task(job.task)
        assert task is not None and task.slack is not None and job.alone == task.slack.end
        last = max(task.start, task.window.end - timedelta(days=task.duration_days - 1))
        assert job.start <= job.last <= last
        sooner += job.last < last
        for name in task.slack.moves:
            moved = of_task.get(name)
            if moved is not None and task.id not in moves_of(plan, name):
                assert job.last - task.slack.end <= moved.last - moved.start, (job.task, name)
        if not task.slack.moves:
            assert job.last == min(task.slack.end, last)
    assert sooner, "the season of a job alone says too much"


def moves_of(plan: Plan, name: str) -> tuple[str, ...]:
    """What a later day of a task would move."""
    task = plan.task(name)
    return task.slack.moves if task is not None and task.slack is not None else ()


def test_a_plan_that_stands_is_not_told_again(data: Path) -> None:
    """The table holds lawns that are new or have no plan; the summary holds all."""
    first = command("clients", "plan", str(data), "--today", f"{DAY}", "--processes", "1")
    assert first.returncode == 0 and first.stdout == "" and "2 of 2 planned" in first.stderr
    assert len((data / "summary.csv").read_text().splitlines()) == 3
