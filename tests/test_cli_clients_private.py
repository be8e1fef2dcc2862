"""What is private of a client is looked for in all that the commands of a business print and write:
it stands where it belongs, and nowhere else."""

import json
import re
import shutil
from collections.abc import Iterator
from pathlib import Path

from command import run as command
from planned_business import held_in
from planning import EXAMPLES

DAY, SPREAD = "2027-02-01", "2027-09-03"
# Of two clients, by what it is.
PRIVATE = {
    "ash": {
        "street": "7 Marked Lane",
        "telephone": "555 0777",
        "access": "gate code 4711",
        "note": "owes for spring",
        "price": "47.35",
        "point": "40.0377123",
        "away": "2027-07-19",
    },
    "elm": {
        "street": "9 Hidden Row",
        "telephone": "555 0999",
        "access": "gate code 9911",
        "note": "sold the house",
        "price": "43.15",
        "point": "40.0388456",
        "away": "2027-07-21",
    },
}
HEADS = (
    "id;client.name;client.address;client.telephone;client.access;Office note;client.prices;"
    "client.latitude;client.longitude;calendar.away;lawn.area;lawn.grass;lawn.soil;"
    "seeding.intent;leveling.depth;place.postal_code;season.from;Crew"
)
ROW = "400 m2;tall_fescue;loam;overseed;0.5 in;17601;2027-03-01"
# Where each may stand: files by their names, and what commands print by their first words. What
# is kept of a client is in its record, and in what hands all over: exports, copies of the office.
KEPT = {"client.toml", "owners.json", "clients.csv", "out.csv", "export"}
OFFICE_PAPER = {"quote", "letter", "measure", "day", "week", "material", "visit", "list --json"}
BELONGS = {
    "street": KEPT | OFFICE_PAPER,
    "telephone": KEPT | {"day", "week"},
    "access": KEPT | {"day", "week"},
    "note": KEPT,
    "price": KEPT | {"quote", "quotes.json"},
    "point": KEPT,
    "away": KEPT | {"brief.toml", "plan.json"},
}
SHOWN_AS = {"2027-07-19": ("20270719", "Jul 19"), "2027-07-21": ("20270721", "Jul 21")}


def begun(home: Path) -> Path:
    """The clients of two crews come in."""
    (home / "data").mkdir()
    shutil.copy(EXAMPLES / "business" / "business.toml", home / "data")
    rows = [HEADS]
    for name, crew in (("ash", "north"), ("elm", "south")):
        own = PRIVATE[name]
        rows.append(
            f"{name};{name.title()} (invented);{own['street']};{own['telephone']};{own['access']};"
            f"{own['note']};person_hour@{own['price']};{own['point']};-76.3;"
            f"{own['away']}..{own['away']};{ROW};{crew}"
        )
    (home / "clients.csv").write_text("\n".join(rows) + "\n", encoding="utf-8")
    return home


LINES = (
    ("import", "clients.csv", "-o", "data"),
    ("plan", "data", "--today", DAY, "--processes", "1"),
    ("list", "data", "--week", SPREAD, "--today", DAY),
    ("list", "data", "--week", SPREAD, "--today", DAY, "--json"),
    ("list", "data", "--overdue", "--today", "2027-04-20"),
    ("list", "data", "--last-days", "--today", SPREAD),
    ("print", "day", "data", "--on", SPREAD, "--group", "Crew=north"),
    ("print", "week", "data", "--on", SPREAD, "--group", "Crew=north"),
    ("quote", "offer", "data", "ash", "--today", DAY, "--choice", "leveling.depth=0.25 in"),
    ("quote", "offer", "data", "elm", "--today", DAY),
    ("quote", "accept", "data", "ash", "--today", DAY, "--choice", "2"),
    ("quote", "change", "data", "ash", "--note", "less", "--price", "-10", "--today", DAY),
    ("quote", "print", "data", "ash", "--today", DAY),
    ("quote", "decline", "data", "elm", "--today", DAY),
    ("list", "data", "--quotes", "--today", DAY),
    ("letter", "data", "--today", DAY),
    ("messages", "data", "--today", DAY),
    ("visit", "data"),
    ("material", "data", "--today", DAY, "--told"),
    ("material", "data", "--today", DAY, "-o", "material.html"),
    ("rule", "data", "--group", "Crew=north", "--ban", "2027-06-01..2027-06-09", "--today", DAY),
    ("callback", "add", "data", "ash", "bare spot", "--on", SPREAD, "--today", DAY),
    ("callback", "list", "data"),
    ("pause", "data", "elm", "--until", "2027-02-20", "--today", DAY),
    ("plan", "data", "--today", DAY, "--processes", "1"),
    ("log", "data", "--on", "2027-03-01", "--all", "done", "--today", "2027-03-01", "--yes"),
    ("log", "data", "--on", "2027-03-01", "--all", "done", "--except", "fir", "--today", DAY),
    ("plan", "data", "--today", "2027-03-02", "--processes", "1"),
    ("hours", "data"),
    ("record", "data", "-o", "record.csv", "--today", DAY),
    ("record", "data", "-o", "record.html", "--today", DAY),
    ("export", "data", "-o", "out.csv"),
    ("import", "bad.csv", "-o", "data"),
    ("sell", "data", "elm", "--name", "Mx New (invented)", "-o", "elm.sold", "--today", DAY),
    ("leave", "data", "ash", "-o", "ash.left", "--today", DAY),
    ("letter", "data", "--today", DAY),
    ("plan", "data", "--today", "2027-03-03", "--processes", "1"),
)


def shown(home: Path) -> Iterator[tuple[str, str]]:
    """What each line prints, by its first words, and at last what every file holds, by its name."""
    kept = dict[str, bytes]()
    for words in LINES:
        done = command("clients", *words, cwd=home)
        assert "Traceback" not in done.stderr
        name = " ".join((words[0], *(word for word in words if word == "--json")))
        yield name, done.stdout + done.stderr
        for path in home.rglob("*"):
            if path.is_file() and not path.name.endswith((".index", ".left", ".sold")):
                raw = path.read_bytes()
                if kept.get(str(path)) != raw:
                    kept[str(path)] = raw
                    yield f"{path.relative_to(home)}", raw.decode("utf-8", errors="replace")


def place_of(name: str) -> str:
    """The kind of a file or of what is printed."""
    base = name.rpartition("/")[2]
    found = re.match(r"(quote|letter|measure|day|week|material)\b[\w.-]*\.html$", base)
    return found.group(1) if found else base


def test_private_marks_stand_where_they_belong(tmp_path: Path) -> None:
    """Through every command, one after the other, also the faulty ones and those after a client has
    gone; of the other crew's lawn nothing stands on a crew's sheet; archives that are handed over
    hold nothing of it."""
    home = begun(tmp_path)
    head, row = (home / "clients.csv").read_text(encoding="utf-8").splitlines()[:2]
    (home / "bad.csv").write_text(f"{head}\n{row.replace('400 m2', 'wide')}\n", encoding="utf-8")
    seen = set[str]()
    for name, text in shown(home):
        place = place_of(name)
        seen.add(place)
        for lawn, own in PRIVATE.items():
            for kind, mark in own.items():
                marks = (mark, *SHOWN_AS.get(mark, ()))
                if place in BELONGS[kind] or name in ("bad.csv", "clients.csv"):
                    continue
                assert not [one for one in marks if one in text], (name, kind, lawn)
        if place in ("day", "week"):
            assert not [mark for mark in PRIVATE["elm"].values() if mark in text], name
        if place in ("letter", "quote") and "/ash/" in name:
            assert not [mark for mark in PRIVATE["elm"].values() if mark in text], name
    assert {"day", "week", "quote", "letter", "measure", "material", "record.html"} <= seen
    crew = (home / "data" / f"day-{SPREAD}.html").read_text(encoding="utf-8")
    assert PRIVATE["ash"]["access"] in crew and PRIVATE["ash"]["telephone"] in crew
    for archive in ("ash.left", "elm.sold"):
        raw = held_in(home / archive)
        assert b"tall_fescue" in raw
        for own in PRIVATE.values():
            assert not [
                kind for kind, mark in own.items() if mark.encode() in raw and kind != "away"
            ]
    told = json.loads((home / "data" / "archive" / "ash" / "quotes.json").read_text("utf-8"))
    assert PRIVATE["ash"]["price"] in json.dumps(told)
