"""Every command of a business, killed at a moment of its own: what was there before is there, and
the same line again ends as if nobody had stopped it."""

import json
import os
import random
import re
import shutil
import signal
import time
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import timedelta
from pathlib import Path

from command import run as command
from planned_business import DAY, planned_business
from tiers import full
from turfplan.app.client_callbacks import AskedCallback, add_callback
from turfplan.app.client_quotes import accept_quote, offer_quote
from turfplan.files.reading.plan import read_plan

TODAY = DAY + timedelta(7)
KILLS = 2
# What is drawn or stamped anew by each call, and what is left where a process was killed.
DRAWN = re.compile(
    rb'"(?:name|batch|key|at|written|sum)": ?"[^"]*"|'
    rb"lawn-[0-9a-f]{12}|/lawn/[\w-]{43}|data:image[^\"]*|plan [\w.]+( [0-9a-f]{16})+"
)
APART = re.compile(r"(^|/)(\.|turfplan\.index|clients\.index|business\.key)|\.lock$|^fault$")
ARCHIVES = (".gz", ".left", ".sold")
# Of what is named after a drawn identity, or tells what one run did, it is asked that it is there.
THERE = re.compile(r"\.(gz|left|sold)$|fir/[\w.]+$|summary\.csv$")


@dataclass(frozen=True)
class KilledLine:
    """A line as it is typed beside a data folder `data`; one that is said `once` is refused, or
    means something else, when it was done, such as a second offer."""

    words: tuple[str, ...]
    once: bool = False


def line(*words: str, once: bool = False) -> KilledLine:
    """A line of `turfplan clients` of a day."""
    return KilledLine(("clients", *words, "--today", TODAY.isoformat()), once)


def lines() -> Mapping[str, KilledLine]:
    """Every command that writes, by what it is."""
    quote = ("quote", "accept", "data", "elm", "--choice", "2")
    return {
        "import": KilledLine(("clients", "import", "changed.csv", "-o", "data")),
        "import of fewer": KilledLine(
            ("clients", "import", "fewer.csv", "-o", "data", "--archive")
        ),
        "plan": line("plan", "data", "--processes", "1"),
        "plan of rows": line("plan", "changed.csv", "-o", "data", "--processes", "1"),
        "log": line("log", "data", "log.csv", "--yes"),
        "pause": line("pause", "data", "ash", "elm", "--until", "2027-05-01"),
        "pause over": line("pause", "data", "oak", "--over", once=True),
        "leave": line("leave", "data", "ash", "-o", "ash.left", once=True),
        "sell": line(
            "sell", "data", "elm", "--name", "Mx New (invented)", "-o", "elm.sold", once=True
        ),
        "rule": line("rule", "data", "--group", "Crew=north", "--ban", "2027-07-01..2027-08-01"),
        "callback": line("callback", "add", "data", "ash", "bare spot", "--on", "2027-03-01"),
        "callback done": line("callback", "done", "data", "oak", "1", "--on", str(DAY), once=True),
        "offer": line("quote", "offer", "data", "ash", once=True),
        "accept": line(*quote, once=True),
        "decline": line("quote", "decline", "data", "oak", once=True),
        "letter": line("letter", "data"),
        "withdraw": line("letter", "data", "ash", "--withdraw", once=True),
        "messages": line("messages", "data"),
        "material": line("material", "data", "--told"),
        "visit": KilledLine(("clients", "visit", "data")),
        "print": KilledLine(("clients", "print", "week", "data", "--on", "2027-08-30")),
        "export": KilledLine(("clients", "export", "data", "-o", "out.csv")),
        "record": line("record", "data", "-o", "record.csv"),
        "backup": KilledLine(("backup", "copy.tar.gz", "data"), once=True),
        "restore": KilledLine(("restore", "all.tar.gz", "--to", "home")),
    }


def begun(home: Path) -> Path:
    """Three lawns with quotes, a callback, a pause and files that come in."""
    data = planned_business(home, ("ash", "elm", "oak"))
    for name in ("elm", "oak"):
        offer_quote(data, name, DAY, ["thin: leveling.depth = 0.25 in"])
    offer_quote(data, "ash", DAY)
    accept_quote(data, "ash", DAY)
    add_callback(data, "oak", AskedCallback("edge", DAY), DAY)
    assert command(*line("pause", "data", "oak", "--from", "2027-04-01").words, cwd=home)
    head, *rows = (home / "clients.csv").read_text(encoding="utf-8").splitlines()
    (home / "fewer.csv").write_text("\n".join((head, *rows[:2])) + "\n", encoding="utf-8")
    changed = [rows[0].replace("400 m2", "450 m2"), *rows[1:], rows[0].replace("ash", "fir")]
    (home / "changed.csv").write_text("\n".join((head, *changed)) + "\n", encoding="utf-8")
    plan = read_plan(data / "lawns" / "ash")
    assert plan is not None
    jobs = [task for task in plan.tasks if task.series is None][:2]
    said = [f"{name},{job.id},{TODAY},done" for name in ("ash", "elm") for job in jobs]
    (home / "log.csv").write_text("\n".join(("lawn,task,day,kind", *said)) + "\n")
    assert command("backup", "all.tar.gz", "data", cwd=home).returncode == 0
    return home


def ran(words: tuple[str, ...], home: Path, kill_after: float | None = None) -> float:
    """A line in a process of its own, forked from this one; killed after so many seconds if it is
    still at work then. How long it took; fails where it fails by itself."""
    begin, child = time.monotonic(), os.fork()
    if not child:
        code = 1
        try:
            done = command(*words, cwd=home)
            code = done.returncode
            if code:
                (home / "fault").write_text(done.stdout + done.stderr, encoding="utf-8")
        finally:
            os._exit(code)
    if kill_after is not None:
        time.sleep(kill_after)
        os.kill(child, signal.SIGKILL)
    _, status = os.waitpid(child, 0)
    if kill_after is None:
        fault = home / "fault"
        told = fault.read_text(encoding="utf-8") if fault.exists() else ""
        assert status == 0, (words, told[-1500:])
    return time.monotonic() - begin


def stands(home: Path) -> dict[str, bytes]:
    """All that lies in a folder, but for what is drawn anew by each call; of archives that they are
    there."""
    found = {}
    for path in sorted(home.rglob("*")):
        name = str(path.relative_to(home))
        if path.is_file() and not APART.search(name):
            raw = b"" if THERE.search(name) else path.read_bytes()
            found[name] = DRAWN.sub(_undrawn, raw)
    return found


def _undrawn(found: re.Match[bytes]) -> bytes:
    """What stands for something that is drawn: a key with its value stays one."""
    return b'"X":"X"' if found.group().startswith(b'"') else b"X"


def killed_while_commanding(home: Path, kills: int, seed: int) -> int:
    """Each command is killed so many times at random moments; how many kills it came to.

    Fails where a file is half-written, what the command does is neither undone nor done, or the
    same line again does not end as it would have.
    """
    chance, count = random.Random(seed), 0
    (home / "first").mkdir(parents=True)
    first = begun(home / "first")
    for what, asked in lines().items():
        whole = copied(first, home / "whole")
        lasts = ran(asked.words, whole)
        meant, before = stands(whole), stands(first)
        for _ in range(kills):
            work = copied(first, home / "work")
            ran(asked.words, work, chance.uniform(0, lasts))
            check_nothing_half(what, stands(work), before, meant)
            if not asked.once or settled(stands(work)) != settled(meant):
                ran(asked.words, work)
            differs = differing(stands(work), meant)
            assert not differs, (what, differs)
            count += 1
    return count


def copied(first: Path, to: Path) -> Path:
    """A copy of the beginning, in the place of what was there."""
    shutil.rmtree(to, ignore_errors=True)
    shutil.copytree(first, to)
    return to


def settled(found: Mapping[str, bytes]) -> dict[str, bytes]:
    """The records and archives of a business alone, by which a line is known to be done."""
    return {n: raw for n, raw in found.items() if n.endswith((".json", ".toml", *ARCHIVES))}


def check_nothing_half(
    what: str, found: Mapping[str, bytes], before: Mapping[str, bytes], after: Mapping[str, bytes]
) -> None:
    """Each file is as it was or as it will be, and can be read."""
    for name, raw in found.items():
        if name.endswith(".json"):
            json.loads(raw)
        if name.endswith((".csv", ".toml", ".json")) and name in before and name in after:
            assert raw in (before[name], after[name]), (what, name)


def differing(found: Mapping[str, bytes], meant: Mapping[str, bytes]) -> list[str]:
    """The files that are not as they were meant."""
    names = sorted({*found, *meant})
    return [name for name in names if found.get(name) != meant.get(name)]


@full
def test_every_command_is_killed(tmp_path: Path) -> None:
    """A share of what the campaign does."""
    assert killed_while_commanding(tmp_path, 1, 12) == len(lines())
