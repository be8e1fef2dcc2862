"""What an earlier version wrote, kept as digests: says which output differs now, and shows how.

    python tests/frozen_outputs.py --check [--only CASE]
        which outputs differ from tests/frozen/digests.json
    python tests/frozen_outputs.py --show CASE OUTPUT
        the output as it is written now
    python tests/frozen_outputs.py --show CASE OUTPUT --against REV
        how it differs from what a revision writes
    python tests/frozen_outputs.py --write [--only CASE]
        keep what is written now; say why in frozen/differences.md

CASE is `example NAME`, `season NAME STEP` or `random NN`; the beginning of a name stands for all
that begin so. The program is run through its command line, inside this process, on copies of the
briefs in a temporary folder; of its output only the folder's path, the program's version and those
of its book and of the time zones are evened out.
"""

import argparse
import contextlib
import difflib
import hashlib
import io
import json
import re
import shutil
import subprocess
import sys
import tarfile
import tempfile
from collections.abc import Callable, Iterator, Mapping, Sequence
from datetime import date
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[1]
if __name__ == "__main__":
    # The tree that this file lies in is what is asked about, whatever is installed.
    sys.path[:0] = [str(ROOT), str(ROOT / "tests")]

# ---- All that this file takes from the program: its command line. A renamed module is followed
# here and nowhere else.
from turfplan.cli import main as command_line  # noqa: E402

# ---- Below: only what lies beside this file.
# isort: split
from frozen_cases import (  # noqa: E402
    ACTED,
    RANDOM_BRIEFS,
    STEPS,
    TODAY,
    Script,
    random_brief,
)

FROZEN = ROOT / "tests" / "frozen"
DIGESTS = FROZEN / "digests.json"
EXAMPLES = ROOT / "examples"
EXAMPLE_NAMES = tuple(sorted(path.stem for path in EXAMPLES.glob("*.toml")))
# How to measure is alike for all but units, paper and area, and costs seconds: one of each will do.
MEASURED = ("british-metric", "surveyed-us")
IMPOSSIBLE = 4

Outputs = dict[str, str]
Case = tuple[str, Outputs]


class Lawn:
    """A brief in a folder of its own, planned through the command line."""

    def __init__(self, folder: Path, brief: Path) -> None:
        self.folder, self.brief, self.output = folder, brief, folder / "out"

    def run(self, *words: object) -> tuple[int, str]:
        """The exit code of a command, and all that it put on the screen."""
        out, err, code = io.StringIO(), io.StringIO(), 0
        with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
            try:
                command_line([str(word) for word in words])
            except SystemExit as end:
                code = int(end.code or 0)
        return code, self.evened(f"exit {code}\n{out.getvalue()}-- stderr\n{err.getvalue()}")

    def evened(self, text: str) -> str:
        """A text without what differs between machines and versions."""
        text = text.replace(str(self.folder), "FOLDER")
        return re.sub(r"turfplan \d+\.\d+(\.\d+)?", "turfplan VERSION", text)

    def plan(self) -> dict[str, Any]:
        """The plan as its file holds it."""
        found: dict[str, Any] = json.loads((self.output / "plan.json").read_bytes())
        return found

    def planned(self, day: date, *more: object) -> tuple[int, Outputs]:
        """Plan on a day: the exit code, the screen, every file that was written, and the facts by
        themselves.
        """
        words = ("plan", self.brief, "-o", self.output, "--today", day, *more)
        code, screen = self.run(*words)
        made = {"screen": screen}
        if code == IMPOSSIBLE:
            _, said = self.run(*words, "--json")
            made["facts"] = shown(facts_of(json.loads(said.split("\n")[1])))
        elif code == 0:
            made |= self.files()
        return code, made

    def files(self) -> Outputs:
        """The files of the plan's folder by name, and the facts by themselves."""
        found = {}
        for path in sorted(self.output.iterdir()):
            if path.suffix in (".ics", ".html", ".csv"):
                found[path.name] = self.evened(path.read_bytes().decode())
        plan = self.plan()
        found["facts"] = shown(facts_of(plan))
        evened = {"program": "turfplan VERSION", "data_version": "VERSION", "tzdata": "VERSION"}
        found["plan.json"] = shown(without_joined(plan | evened))
        return found

    def why(self, every: int = 1) -> str:
        """The reasons for the tasks: of all, or of one in `every`."""
        names = [task["id"] for task in self.plan()["tasks"]][::every]
        return "".join(
            f"== {name}\n{self.run('why', self.brief, name, '-o', self.output)[1]}"
            for name in names
        )

    def sheet(self, name: str) -> str:
        """A sheet as `print` writes it, with what it says on the screen."""
        target = self.folder / f"{name}.html"
        _, screen = self.run(
            "print", self.brief, name, "-o", target if name == "measure" else self.output
        )
        written = target if name == "measure" else self.output / "season-book.html"
        text = screen + self.evened(written.read_bytes().decode())
        written.unlink()
        return text


def shown(data: object) -> str:
    """Data as JSON that reads line by line; numbers to nine digits, as machines differ in the last
    ones.
    """
    return json.dumps(_rounded(data), ensure_ascii=False, indent=1, sort_keys=True) + "\n"


def _rounded(data: object) -> object:
    if isinstance(data, float):
        return float(f"{data:.9g}")
    if isinstance(data, dict):
        return {key: _rounded(value) for key, value in data.items()}
    return [_rounded(value) for value in data] if isinstance(data, list) else data


# The keys that have joined `plan.json` since 0.1: of the plan, and of each task. All that 0.1 wrote
# stays compared.
JOINED = ("said", "language", "names")
JOINED_TASK = ("stage",)


def without_joined(plan: Mapping[str, Any]) -> dict[str, Any]:
    """A plan as its file holds it, less the keys that have joined since."""
    kept = {key: value for key, value in plan.items() if key not in JOINED}
    return kept | {
        "tasks": [
            {key: value for key, value in task.items() if key not in JOINED_TASK}
            for task in plan["tasks"]
        ]
    }


TASK = (
    "id",
    "uid",
    "operation",
    "phase",
    "start",
    "end",
    "best",
    "duration_days",
    "person_hours",
    "status",
    "window",
    "fallback_day",
    "depends_on",
    "strength",
    "overdue",
    "closed",
    "held",
    "series",
    "sequence",
    "created",
    "alarm",
)
NUMBERS = ("item", "value", "unit", "value_us", "unit_us")
LINE = (*NUMBERS, "parts", "loads", "order_by", "deliver_by")
WINDOW = ("operation", "season", "start", "end", "best")


def facts_of(plan: Mapping[str, Any]) -> dict[str, Any]:
    """What a plan says without a word: ids, days, states, numbers; equal wherever only sentences
    change.
    """

    def task(one: Mapping[str, Any]) -> dict[str, Any]:
        actual = one["actual"]
        return _only(one, TASK) | {
            "amounts": [_only(a, NUMBERS) for a in one["amounts"]],
            "actual": actual
            and actual | {"amounts": [_only(a, NUMBERS) for a in actual["amounts"]]},
        }

    fill = plan["fill"]
    return {
        "lawn_id": plan["lawn_id"],
        "timezone": plan["timezone"],
        "horizon": plan["horizon"],
        "campaign": plan["campaign"],
        "tasks": [task(one) for one in sorted(plan["tasks"], key=lambda t: t["id"])],
        "order": [_only(line, LINE) for line in plan["order"]],
        "windows": [_only(window, WINDOW) for window in plan["windows"]],
        "ledgers": [
            _only(ledger, ("item", "unit", "opening", "weeks")) for ledger in plan["ledgers"]
        ],
        "real_years": [_only(one, ("task", "years", "worked")) for one in plan["real_years"]],
        "fill": fill
        and _only(fill, ("mean_depth_mm", "volume_m3", "volume_low_m3", "volume_high_m3")),
        "retired": plan["retired"],
        "alarm": plan["alarm"],
        "rejected": len(plan["rejected"]),
        "conflict": plan["conflict"] and plan["conflict"]["tasks"],
        "options": len(plan["options"]),
    }


def _only(record: Mapping[str, Any], names: Sequence[str]) -> dict[str, Any]:
    return {name: record[name] for name in names}


def example(name: str) -> Iterator[Case]:
    """One example, planned once, with every sheet and every reason."""
    with lawn_of_example(name) as lawn:
        code, made = lawn.planned(TODAY, "--todos")
        if code == 0:
            made |= {"why": lawn.why(), "book": lawn.sheet("book")}
        if name in MEASURED:
            made["measure"] = lawn.sheet("measure")
        yield f"example {name}", made


def season(name: str) -> Iterator[Case]:
    """An example planned and planned again ten times while its season goes its own way."""
    with lawn_of_example(name) as lawn:
        _, made = lawn.planned(TODAY)
        yield f"season {name} 00", made
        script = Script(lawn.plan())
        for step in range(STEPS):
            yield f"season {name} {step + 1:02}", acted(lawn, script, step)


def acted(lawn: Lawn, script: Script, step: int) -> Outputs:
    """One step of a season; what makes a plan impossible is taken back, entry by entry.

    What is asked back is kept; a wish that cannot be planned is not written.
    """
    said, entries = "", []
    for words in script.entries(step, lawn.plan()):
        code, screen = lawn.run("log", lawn.brief, *words, "-o", lawn.output)
        if code:
            said += screen
            code, screen = lawn.run("log", lawn.brief, *words, "--yes", "-o", lawn.output)
        if code and words[0] != "moved":
            raise SystemExit(f"{lawn.brief.stem}, step {step}: {words}\n{screen}")
        if not code:
            entries.append(words)
        said += screen
    forecast, more = script.forecast(step, lawn.plan()), ()
    if forecast is not None:
        file = lawn.folder / "forecast.json"
        file.write_text(json.dumps(forecast), encoding="utf-8")
        more = ("--weather", file)
    code, made = lawn.planned(script.days[step], *more)
    for _ in entries:
        if code == IMPOSSIBLE:
            said += made["screen"] + lawn.run("log", lawn.brief, "undo", "-o", lawn.output)[1]
            code, made = lawn.planned(script.days[step], *more)
    if code == 0 and step in (STEPS // 2, STEPS - 1):
        made |= {"why": lawn.why(every=1 if step == STEPS - 1 else 5), "book": lawn.sheet("book")}
    return made | {"log": said}


def random_lawn(number: int) -> Iterator[Case]:
    """A lawn drawn from a seed, planned once; every fifth task explains itself."""
    with tempfile.TemporaryDirectory() as folder:
        brief = Path(folder).resolve() / "random.toml"
        brief.write_text(random_brief(number), encoding="utf-8")
        lawn = Lawn(brief.parent, brief)
        code, made = lawn.planned(TODAY)
        if code == 0:
            made |= {"why": lawn.why(every=5), "book": lawn.sheet("book")}
        yield f"random {number:02}", made


@contextlib.contextmanager
def lawn_of_example(name: str) -> Iterator[Lawn]:
    """An example with the files it names, in a folder that goes away."""
    with tempfile.TemporaryDirectory() as folder:
        copy = Path(folder).resolve() / "briefs"
        shutil.copytree(EXAMPLES, copy, ignore=shutil.ignore_patterns("pictures"))
        yield Lawn(copy.parent, copy / f"{name}.toml")


# Each group by name, run from its beginning: the steps of a season follow from one another.
GROUPS: dict[str, Callable[[], Iterator[Case]]] = {
    **{f"example {name}": (lambda name=name: example(name)) for name in EXAMPLE_NAMES},
    **{f"season {name}": (lambda name=name: season(name)) for name in ACTED},
    **{
        f"random {number:02}": (lambda number=number: random_lawn(number))
        for number in range(RANDOM_BRIEFS)
    },
}


def cases(wanted: str = "") -> Iterator[Case]:
    """The cases whose names begin with `wanted`, each made once."""
    for group, make in GROUPS.items():
        if group.startswith(wanted) or wanted.startswith(group):
            for name, made in make():
                if name.startswith(wanted):
                    yield name, made


def digests_of(made: Outputs) -> dict[str, str]:
    """The SHA-256 of each output."""
    return {name: hashlib.sha256(text.encode()).hexdigest() for name, text in sorted(made.items())}


def frozen() -> dict[str, dict[str, str]]:
    """The digests that are kept: case, output, SHA-256."""
    kept: dict[str, dict[str, str]] = json.loads(DIGESTS.read_bytes()) if DIGESTS.is_file() else {}
    return kept


def differing(case: str, made: Outputs, kept: Mapping[str, Mapping[str, str]]) -> list[str]:
    """The outputs of a case that are not as they were kept, come or gone ones too."""
    now, was = digests_of(made), kept.get(case, {})
    return sorted(name for name in now.keys() | was.keys() if now.get(name) != was.get(name))


def check(only: str) -> int:
    """List what differs."""
    kept, count = frozen(), 0
    for case, made in cases(only):
        for name in differing(case, made, kept):
            count += 1
            print(f"{case}: {name}")
    print(f"{count} outputs differ from {DIGESTS.relative_to(ROOT)}", file=sys.stderr)
    return 1 if count else 0


def write(only: str) -> int:
    """Keep what is written now."""
    kept = frozen() if only else {}
    kept |= {case: digests_of(made) for case, made in cases(only)}
    DIGESTS.write_text(json.dumps(kept, indent=1, sort_keys=True) + "\n", encoding="utf-8")
    return 0


def output_of(case: str, output: str) -> str:
    """One output as this tree writes it."""
    for name, made in cases(case):
        if name == case and output in made:
            return made[output]
        if name == case:
            raise SystemExit(f"{case} has no output {output!r}; it has: {', '.join(sorted(made))}")
    raise SystemExit(f"there is no case {case!r}; digests.json names them all")


def archive_of(revision: str) -> bytes:
    """The tree of a revision as a tar file."""
    return subprocess.run(
        ["git", "-C", str(ROOT), "archive", revision], capture_output=True, check=True
    ).stdout


def output_at(revision: str, case: str, output: str) -> str:
    """One output as an older revision writes it: its own copy of this file is run on its own
    package.
    """
    with tempfile.TemporaryDirectory() as folder:
        with tarfile.open(fileobj=io.BytesIO(archive_of(revision))) as tar:
            tar.extractall(folder, filter="data")
        script = Path(folder) / "tests" / Path(__file__).name
        if not script.is_file():
            raise SystemExit(f"{revision} is older than this tool and cannot be compared with")
        run = subprocess.run(
            [sys.executable, str(script), "--show", case, output],
            capture_output=True,
            check=False,
            cwd=folder,
        )
        if run.returncode:
            raise SystemExit(f"{revision}: {run.stderr.decode()}")
        return run.stdout.decode()


def show(case: str, output: str, against: str | None) -> int:
    """Print an output, or how it differs from an older one."""
    now = output_of(case, output)
    if against is None:
        sys.stdout.buffer.write(now.encode())
        return 0
    was = output_at(against, case, output)
    lines = difflib.unified_diff(
        was.splitlines(), now.splitlines(), against, "now", lineterm="", n=1
    )
    print("\n".join(lines))
    return 0 if was == now else 1


def main() -> int:
    """The tool."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    task = parser.add_mutually_exclusive_group(required=True)
    task.add_argument("--check", action="store_true")
    task.add_argument("--write", action="store_true")
    task.add_argument("--show", nargs=2, metavar=("CASE", "OUTPUT"))
    parser.add_argument("--only", default="", metavar="CASE")
    parser.add_argument("--against", metavar="REV")
    given = parser.parse_args()
    if given.show:
        return show(*given.show, given.against)
    return check(given.only) if given.check else write(given.only)


if __name__ == "__main__":
    sys.exit(main())
