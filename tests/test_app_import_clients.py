"""A business's own client file comes in whole or not at all, and goes out as it came."""

import csv
import io
import random
import tomllib
from pathlib import Path

import pytest

from command import run
from tiers import full
from turfplan.app.export_clients import export_clients
from turfplan.app.import_clients import ClientImport, ImportRun, import_clients
from turfplan.business.groups import ClientGroup
from turfplan.errors import TurfplanError
from turfplan.files.index import add_lawn, opened
from turfplan.files.reading.brief import read_brief
from turfplan.files.reading.business import read_client

BUSINESS = """
name = "Turf and Tine (invented)"
[columns]
"Nummer" = "id"
"Kunde" = "client.name"
"Fläche" = "lawn.area"
[brief.work]
by = "contractor"
"""
HEADS = ("Nummer", "Kunde", "Fläche", "lawn.grass", "Place.Postal_Code", "seeding.intent")
MORE = ("leveling.depth", "client.barred_weekdays", "history.herbicides", "Route", "client.access")
# Names as people and machines write them: formula, HTML, path, right to left, a line break.
NAMES = (
    '=HYPERLINK("x")',
    "<b>Ash & Söhne</b>",
    "../../etc/passwd",
    "\u05d0\u05d1\u05d2 \u202eabc",
    "Ash\nback door",
    "+1 555",
)


def row_of(number: int, **changes: str) -> dict[str, str]:
    """A row that can be used; two lawns lie at one address."""
    values = ("kentucky_bluegrass" if number % 2 else "tall_fescue", "17601", "overseed")
    cells = (f"c{number}", NAMES[number % len(NAMES)], "400 m²", *values)
    more = ("1.50 cm", "wed", "prodiamine@2026-03-20", f"{number % 2}", f"gate {number}")
    return dict(zip((*HEADS, *MORE), (*cells, *more), strict=True)) | changes


def table(rows: list[dict[str, str]], separator: str = ",", end: str = "\r\n") -> str:
    """Rows as a spreadsheet writes them."""
    out = io.StringIO(newline="")
    writer = csv.DictWriter(out, (*HEADS, *MORE), delimiter=separator, lineterminator=end)
    writer.writeheader()
    writer.writerows(rows)
    return out.getvalue()


PLAIN_RUN = ImportRun()


@pytest.fixture
def data(tmp_path: Path) -> Path:
    """A data folder of a business."""
    folder = tmp_path / "data"
    folder.mkdir()
    (folder / "business.toml").write_text(BUSINESS, encoding="utf-8")
    return folder


def brought(data: Path, text: str, run: ImportRun = PLAIN_RUN, **how: str) -> ClientImport:
    """A file with this text, brought in."""
    path = data.parent / "clients.csv"
    path.write_bytes(text.encode(how.get("encoding", "utf-8")))
    return import_clients(path, data, run)


def test_what_came_in_goes_out_again(data: Path) -> None:
    """Every cell, own columns and odd names too; the second time nothing is new; a lawn's brief
    holds what its business says of all."""
    text = table([row_of(number) for number in range(len(NAMES))])
    assert brought(data, text).counted("new") == len(NAMES)
    again = brought(data, text)
    assert (again.counted("unchanged"), again.gone) == (len(NAMES), ())
    brief, client = read_brief(data / "lawns" / "c1" / "brief.toml").brief, data / "lawns" / "c1"
    assert brief.work.by == "contractor" and brief.leveling.depth_mm == 15
    assert read_client(client).name == NAMES[1] and read_client(client).own == {"Route": "1"}
    given = export_clients(data).content.decode()
    safe = text.replace('"=HYPER', "\"'=HYPER").replace("+1 555", "'+1 555")
    assert given == safe
    assert export_clients(data).content == given.encode()
    (data.parent / "clients.csv").write_text(given, encoding="utf-8", newline="")
    assert brought(data, given).counted("unchanged") == len(NAMES)
    part = export_clients(data, ClientGroup("route", "1"))
    assert part.clients == 3


def test_what_was_changed_by_hand_goes_out(data: Path) -> None:
    """With a column of its own where the file had none."""
    brought(data, table([row_of(0)]))
    brief = data / "lawns" / "c0" / "brief.toml"
    text = brief.read_text(encoding="utf-8").replace("400 m²", "450 m²")
    brief.write_text(text + "\n[site]\ntrees = true\n", encoding="utf-8")
    heads, cells = csv.reader(io.StringIO(export_clients(data).content.decode()))
    assert dict(zip(heads, cells, strict=True)).items() >= {
        ("Fläche", "450 m²"),
        ("site.trees", "true"),
    }


@pytest.mark.parametrize(
    "separator, encoding", [(";", "cp1252"), ("\t", "utf-16"), (",", "utf-8-sig"), ("|", "utf-8")]
)
def test_spreadsheets_of_each_kind_read_alike(separator: str, encoding: str, data: Path) -> None:
    """Separator, encoding and line ends are found, and given back."""
    rows = [row_of(0, Kunde="Söhne"), row_of(1, Kunde="Ash\nback")]
    text = table(rows, separator)
    found = brought(data, text, encoding=encoding)
    assert found.counted("new") == 2, [row.problems for row in found.rows]
    assert read_client(data / "lawns" / "c0").name == "Söhne"
    assert read_client(data / "lawns" / "c1").name == "Ash\nback"
    assert export_clients(data).content.decode(encoding) == text


def test_every_fault_of_every_row_is_told_and_nothing_is_written(data: Path) -> None:
    """With line and column; form, names, place, client and cells together; good rows alone where
    that is asked for."""
    bad = row_of(1, **{"Fläche": "ten", "lawn.grass": "kb", "Place.Postal_Code": "00000"})
    bad |= {"client.barred_weekdays": "wed;friday", "history.herbicides": "x@y, z"}
    rows = [row_of(0), bad, row_of(2, Nummer="C 2"), row_of(3), row_of(3, Fläche="1 m²")]
    found = brought(data, table(rows))
    assert not found.written and not (data / "lawns").exists()
    told = {row.line: {str(problem.where) for problem in row.problems} for row in found.rows}
    assert told[2] == set()
    wanted = {"Fläche", "lawn.grass", "Place.Postal_Code", "client.barred_weekdays"}
    assert told[3] >= wanted | {"history.herbicides"}
    assert told[4] == told[5] == told[6] == {"id"}
    found = brought(data, table(rows), ImportRun(only_good=True))
    assert [path.name for path in (data / "lawns").iterdir()] == ["c0"]
    assert found.written and found.counted("bad row") == 4


@pytest.mark.parametrize(
    "text, said",
    [
        ("", "empty"),
        ("Nummer;x\n", None),
        ("a,b\n1,2\n", "no column"),
        ("id,lawn.aera\na,1 m2\n", "unknown key"),
    ],
)
def test_files_that_are_no_client_file(text: str, said: str | None, data: Path) -> None:
    """Are told by what they lack; one of heads alone is a file of no rows."""
    if said is None:
        assert brought(data, text).rows == ()
        return
    with pytest.raises(TurfplanError, match=said):
        brought(data, text)


def test_gone_lawns_are_archived_when_asked_and_their_addresses_end(data: Path) -> None:
    """They are told else; one that comes back is the lawn that it was; none goes while an id cannot
    be read, or of another group."""
    both = table([row_of(0), row_of(1)])
    brought(data, both)
    folder = data / "lawns" / "c1"
    known = read_brief(folder / "brief.toml").brief.lawn.id
    (folder / "plan.json").write_text(f'{{"lawn_id": "{known}"}}', encoding="utf-8")
    index = data / "turfplan.index"
    with opened(index) as connection:
        lawn = add_lawn(connection, folder)
        connection.execute(
            "INSERT INTO token (lawn, kind, hash, label, created) VALUES (?, 'feed', 'h', '', '')",
            (lawn.id,),
        )
    one = table([row_of(0)])
    assert brought(data, one).gone == ("c1",) and folder.is_dir()
    kept = brought(data, one, ImportRun(archive=True, group=ClientGroup("route", "0")))
    assert kept.archived == () and folder.is_dir()
    odd = table([row_of(0), row_of(2, Nummer="c 1")])
    assert brought(data, odd, ImportRun(archive=True, only_good=True)).archived == ()
    assert brought(data, one, ImportRun(archive=True)).archived == ("c1",)
    assert not folder.exists() and (data / "archive" / "c1" / "brief.toml").is_file()
    with opened(index) as connection:
        assert connection.execute("SELECT revoked FROM token").fetchone()[0]
    assert brought(data, both).counted("back") == 1
    assert read_brief(folder / "brief.toml").brief.lawn.id == known


def test_a_lawn_without_fill_and_seed_is_planned_for_care(data: Path) -> None:
    """It is brought in and planned for care alone, which is no fault."""
    alone = row_of(0, **{"seeding.intent": "none", "leveling.depth": ""})
    assert brought(data, table([alone])).counted("new") == 1
    done = run("clients", "plan", str(data), "--today", "2027-02-01", "--processes", "1")
    assert done.returncode == 0 and "1 of 1 planned" in done.stderr


@full
def test_five_thousand_rows_are_one_report(data: Path) -> None:
    """With 3 % bad: each is told, none comes in, and a file that names others' files reads none."""
    chance, rows, bad = random.Random(3), [], set()
    for number in range(5000):
        row = row_of(number)
        if chance.random() < 0.03:
            bad.add(number)
            row[chance.choice(["Fläche", "lawn.grass", "seeding.intent"])] = "qqq"
        rows.append(row)
    found = brought(data, table(rows))
    assert {int(row.client[1:]) for row in found.rows if row.problems} == bad
    assert len(found.rows) == 5000 and not found.written and not (data / "lawns").exists()


def test_briefs_are_whole_toml_whatever_stands_in_cells(data: Path) -> None:
    """Own columns and names of any letters are read again as they were."""
    odd = 'a "quoted" \\ [x] = # \u2028 \u0085 é'
    brought(data, table([row_of(0, Route=odd, Kunde=odd)]))
    said = tomllib.loads((data / "lawns" / "c0" / "client.toml").read_text(encoding="utf-8"))
    assert said["own"]["Route"] == odd and said["name"] == odd
    assert export_clients(data).content.decode().count(odd.replace('"', '""')) == 2
