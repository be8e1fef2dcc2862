"""An invented business with planned lawns, whose private marks tests look for."""

import shutil
import zipfile
from datetime import date
from pathlib import Path

from planning import EXAMPLES
from turfplan.app.plan_clients import plan_clients
from turfplan.app.plan_lawn import PlanRun

DAY = date(2027, 2, 1)
# What must be found only where it belongs, by what it is.
MARKS = {
    "street": "7 Marked Lane",
    "telephone": "555 0777",
    "access": "gate code 4711",
    "note": "owes for spring",
}
HEADS = (
    "Number;Customer;Street;Phone;Gate;Office note;Lawn size;lawn.grass;lawn.soil;seeding.intent;"
    "leveling.depth;place.postal_code;season.from;Crew"
)
ROW = "400 m2;tall_fescue;loam;overseed;0.5 in;17601;2027-03-01"


def planned_business(home: Path, names: tuple[str, ...] = ("ash", "elm")) -> Path:
    """The data folder of the example's business with some lawns alike, planned on DAY."""
    data = home / "data"
    data.mkdir()
    shutil.copy(EXAMPLES / "business" / "business.toml", data)
    marks = ";".join((MARKS["street"], MARKS["telephone"], MARKS["access"], MARKS["note"]))
    rows = (f"{name};{name.title()} (invented);{marks};{ROW};north" for name in names)
    (home / "clients.csv").write_text("\n".join((HEADS, *rows)) + "\n", encoding="utf-8")
    plan_again(data, DAY, home / "clients.csv")
    return data


def plan_again(data: Path, today: date, file: Path | None = None) -> None:
    """Plan what has news as of a day."""
    plan_clients(file, data, seen=lambda *_: None, run=PlanRun(today), processes=1)


def held_in(archive: Path) -> bytes:
    """All that the files of an archive hold, which is packed in it."""
    with zipfile.ZipFile(archive) as files:
        return b"".join(files.read(name) for name in files.namelist())


def written(data: Path, old: str, new: str) -> None:
    """Change a text of business.toml."""
    file = data / "business.toml"
    text = file.read_text(encoding="utf-8")
    assert old in text
    file.write_text(text.replace(old, new), encoding="utf-8")
