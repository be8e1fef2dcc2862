"""A large file of clients, some rows of it wrong: each good row gets its folder, each bad one is
told, none stops the rest.
"""

import csv
from pathlib import Path
from random import Random

from campaigns.records import Campaign, Figures
from command import run as command
from planning import EXAMPLES

# One row in so many is wrong.
BAD_EVERY = 10


def run(count: int, seed: int, folder: Path) -> Figures:
    """Fails where a folder is missing or one too many, a bad row is not told, or the summary lacks
    a row.
    """
    chance = Random(seed)
    with (EXAMPLES / "clients.csv").open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    good, broken = rows[:4], next(row for row in rows if row["id"] == "elm-05")
    made, bad = [], set()
    for number in range(count):
        wrong = number % BAD_EVERY == BAD_EVERY - 1
        row = dict(broken if wrong else chance.choice(good))
        row["id"] = f"client-{number:05d}"
        bad |= {row["id"]} if wrong else set()
        made.append(row)
    path, out = folder / "clients.csv", folder / "out"
    with path.open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, rows[0].keys())
        writer.writeheader()
        writer.writerows(made)
    done = command("clients", "plan", str(path), "-o", str(out), "--today", "2027-02-01")
    assert done.returncode == (3 if bad else 0), done.stderr[-2000:]
    folders = {p.name for p in out.iterdir() if p.is_dir()}
    assert folders == {row["id"] for row in made} - bad, "folders"
    assert all(name in done.stderr for name in bad), "a bad row is not told"
    summary = len((out / "summary.csv").read_text(encoding="utf-8").splitlines())
    assert summary == count + 1, f"{summary} lines in the summary"
    return {"planned": len(folders), "refused": len(bad)}


CAMPAIGN = Campaign("clients", size=1000, seed=1, unit="clients", run=run)
