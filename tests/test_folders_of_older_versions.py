"""Folders that older versions left are opened: the first run changes no day, identity, past entry
or address.
"""

import json
import shutil
from collections.abc import Iterator
from datetime import date, timedelta
from itertools import product
from pathlib import Path
from typing import Any

import pytest
import recurring_ical_events
from icalendar import Calendar

from frozen_outputs import Lawn, command_line
from outside_checks import needs_tools, update_faults
from tiers import sampled, sampled_pairs
from turfplan.files import index as store
from turfplan.serve import tokens

pytest.importorskip("starlette", reason="the extra web is not installed")
from starlette.testclient import TestClient  # after the skip

from turfplan.serve.app import ServerSettings, create_app

OLD = Path(__file__).parent / "folders" / "0.1"
CONTENTS: dict[str, Any] = json.loads((OLD / "contents.json").read_bytes())
LAWNS = [name for name in CONTENTS["days"] if name != "clients"]
# Each lawn on the day it was planned on, and on the next; in the quick tier on one of the two.
FIRST_RUNS = list(product(LAWNS, (0, 1)))
EACH_ONCE = [(name, number % 2) for number, name in enumerate(LAWNS)]
CLIENTS = ("ash-01", "birch-02", "cedar-03")
MID_SEASON = ("british-metric", "deep-two-inches")
# What nothing may change on the first run: identity, days, place in the history.
KEPT = (
    "id",
    "uid",
    "operation",
    "start",
    "end",
    "series",
    "sequence",
    "created",
    "closed",
    "held",
    "actual",
)


@pytest.fixture
def folder(tmp_path: Path) -> Iterator[Path]:
    """A copy of everything that the older version left."""
    yield Path(shutil.copytree(OLD, tmp_path.resolve() / "lawns"))


def plan_in(folder: Path) -> dict[str, Any]:
    found: dict[str, Any] = json.loads((folder / "plan.json").read_bytes())
    return found


def kept_of(plan: dict[str, Any]) -> dict[str, Any]:
    """What must stay of each task, by id, and the numbers that have left the feed."""
    tasks = {task["id"]: {name: task[name] for name in KEPT} for task in plan["tasks"]}
    return {
        "tasks": tasks,
        "retired": plan["retired"],
        "lawn_id": plan["lawn_id"],
        "timezone": plan["timezone"],
    }


def past_entries(folder: Path, plan: dict[str, Any], today: date) -> dict[str, bytes]:
    """The events of the feed that are over, closed or cancelled, as their bytes, by UID."""
    parts = (folder / "season.ics").read_bytes().split(b"BEGIN:VEVENT\r\n")[1:]
    events = {part.split(b"UID:", 1)[1].split(b"\r\n", 1)[0].decode(): part for part in parts}
    past = [
        t["uid"] for t in plan["tasks"] if t["closed"] or t["published"]["end"] < today.isoformat()
    ]
    return {uid: events[uid].split(b"END:VEVENT")[0] for uid in past if uid in events}


def test_mid_season_folders_hold_every_kind_of_task() -> None:
    """The folders really hold what they are kept for: done, dropped, held, retired, and open
    tasks.
    """
    for name in MID_SEASON:
        plan = plan_in(OLD / name)
        assert {"done", "skipped", "dropped", None} == {task["closed"] for task in plan["tasks"]}
        assert any(
            task["status"] == "CANCELLED" and task["closed"] == "dropped" for task in plan["tasks"]
        )
        assert (
            any(task["held"] and task["closed"] is None for task in plan["tasks"])
            and plan["retired"]
        )
        assert past_entries(OLD / name, plan, date.fromisoformat(CONTENTS["days"][name]))
        journal = (OLD / f"{name}.journal.jsonl").read_text(encoding="utf-8")
        assert all(
            f'"{word}"' in journal
            for word in ("done", "skipped", "moved", "rained_off", "measured")
        )


@pytest.mark.parametrize(("name", "later"), sampled_pairs(FIRST_RUNS, *EACH_ONCE))
def test_first_run_changes_no_day_identity_or_past_entry(
    name: str, later: int, folder: Path
) -> None:
    """Planned again on the day it was planned on, and on the next: days, UIDs, sequences stay,
    history byte for byte.
    """
    last = date.fromisoformat(CONTENTS["days"][name])
    before = plan_in(folder / name)
    past = past_entries(folder / name, before, last)
    lawn = Lawn(folder, folder / f"{name}.toml")
    lawn.output = folder / name
    code, made = lawn.planned(last + timedelta(days=later))
    assert code == 0, made["screen"]
    assert kept_of(lawn.plan()) == kept_of(before)
    # A job that is over by the next day counts as completed then; on the same day no state changes.
    was, now = ({t["id"]: t["status"] for t in plan["tasks"]} for plan in (before, lawn.plan()))
    changed = {now[name] for name in was if now[name] != was[name]}
    assert changed <= ({"COMPLETED"} if later else set())
    after = past_entries(folder / name, before, last)
    assert after == past and (past or name not in MID_SEASON)


def waterings(folder: Path, since: date) -> list[tuple[date, str]]:
    """Day and title of every watering that the calendar shows, from a day on."""
    calendar = Calendar.from_ical((folder / "water.ics").read_bytes())
    found = recurring_ical_events.of(calendar).between(since, date(2032, 1, 1))
    return [(e.start, str(e["SUMMARY"])) for e in found if e["STATUS"] != "CANCELLED"]


@needs_tools
@pytest.mark.parametrize("name", sampled(MID_SEASON, MID_SEASON[0]))
def test_waterings_keep_their_form_until_it_is_set_by_hand(name: str, folder: Path) -> None:
    """A plan of the older version shows each run, as it did, and no evening before; with the key in
    its brief the runs to come are one entry a day, what leaves says so, and history stays."""
    last = date.fromisoformat(CONTENTS["days"][name])
    lawn = Lawn(folder, folder / f"{name}.toml")
    lawn.output = folder / name
    assert lawn.planned(last)[0] == 0
    kept = lawn.plan()
    assert kept["calendar"] == {"watering": "each", "eve": False, "week": False}
    assert kept["calendar_entries"] == []
    assert not any("hidden" in task["published"] for task in kept["tasks"])
    before = folder / "before.ics"
    before.write_bytes((folder / name / "season.ics").read_bytes())
    brief = folder / f"{name}.toml"
    text = brief.read_text(encoding="utf-8")
    head = "" if "[calendar]" in text else "\n[calendar]\n"
    line = 'watering = "day"\n'
    brief.write_text(
        text.replace("[calendar]\n", f"[calendar]\n{line}") if not head else text + head + line,
        encoding="utf-8",
    )
    code, made = lawn.planned(last)
    assert code == 0, made["screen"]
    assert update_faults(before, folder / name / "season.ics", f"{last:%Y%m%d}T000000Z") == []
    days = [day for day, _ in waterings(folder / name, last + timedelta(days=7))]
    assert len(days) == len(set(days))


@pytest.mark.parametrize("later", sampled([0, 1], 1))
def test_first_run_of_clients(later: int, folder: Path) -> None:
    """A clients' folder is planned again with no day or identity changed."""
    before = {name: kept_of(plan_in(folder / "clients" / name)) for name in CLIENTS}
    lawn = Lawn(folder, folder / "clients.csv")
    day = date.fromisoformat(CONTENTS["days"]["clients"]) + timedelta(days=later)
    code, screen = lawn.run(
        "clients", "plan", folder / "clients.csv", "-o", folder / "clients", "--today", day
    )
    assert code == 0, screen
    assert {name: kept_of(plan_in(folder / "clients" / name)) for name in CLIENTS} == before


def check_addresses(index: Path, folder: Path, *, moved: bool) -> None:
    """Each address opens the lawn it was given for, and the one that was taken back none."""
    with store.opened(index, create=False) as connection:
        for entry in CONTENTS["addresses"]:
            token = tokens.find(connection, entry["address"].rsplit("/", 1)[1].removesuffix(".ics"))
            assert token is not None and token.lawn.folder.name == entry["lawn"]
            assert (token.kind, token.label, token.revoked is not None) == (
                entry["kind"],
                entry["label"],
                entry["revoked"],
            )
            assert token.lawn.lawn_id == plan_in(OLD / entry["lawn"])["lawn_id"]
    with TestClient(create_app(ServerSettings(index=index, hosts=("testserver",)))) as client:
        for entry in CONTENTS["addresses"]:
            answer = client.get(entry["address"])
            if entry["revoked"]:
                assert answer.status_code == 410
            elif entry["kind"] == "feed":
                assert answer.status_code == 200
                assert answer.content == (folder / entry["lawn"] / "season.ics").read_bytes()
            elif moved:
                assert answer.status_code == 200


@pytest.mark.parametrize("which", ["lawns.index", "lawns.copy"])
def test_addresses_still_open(which: str, folder: Path) -> None:
    """The index and its restored copy answer at every address: from the last good bytes where the
    folders are gone, and from the folders once they are named at their new place.
    """
    index = folder / "used.index"
    if which == "lawns.index":
        shutil.copy(folder / which, index)
    else:
        command(["restore", str(folder / which), "--index", str(index), "--with-addresses"])
    check_addresses(index, folder, moved=False)
    with store.opened(index) as connection:
        for name in LAWNS:
            store.move_lawn(connection, folder / name, folder / f"{name}.toml")
    check_addresses(index, folder, moved=True)


def command(words: list[str]) -> None:
    """Run a command that must succeed."""
    try:
        command_line(words)
    except SystemExit as end:
        assert not end.code, words
