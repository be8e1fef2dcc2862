"""Slips made on purpose in the core, one at a time in a copy: a comparison, a sign, a number or a
`not` changed.

First it is noted which tests run which lines (`lines_run`), so that a mutant is shown only to the
tests that run its line: to those that mirror its package (the file named like the module first),
then to the README's others, and last to those marked `full`: to each only where those before
notice less than the whole suite must, for what they notice, the whole suite does. In each, the
first case of every test comes before its other cases and the quick before the slow, until their
seconds have reached BUDGET_S: a mutant that only a test beyond it would notice counts as one that
survives. A part of less than LEAST_NOTED mutants notes nothing, and shows each to the PART_FILES
nearest files of tests of its package for PART_S seconds, which notice LEAST_IN_PART of them. In a
folder that is kept, notes and what was noticed stand as long as what they are about does. Packages
and their tests are named in MIRRORS and nowhere else.
"""

import ast
import hashlib
import json
import os
import tomllib
from collections import Counter, defaultdict
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from itertools import islice
from pathlib import Path
from queue import Queue
from random import Random

from campaigns.mutant_bench import ELSEWHERE, TOO_LONG, Bench, WarmTests
from campaigns.records import Campaign, Figures
from campaigns.slips import PACKAGE, Mutant, Reach, lines_naming, reach_of, sensible, slips_of
from lines_run import BY_IMPORT, FOLDER, WATCHED, Masks, TestRun, joined, mask_of, note_of, notes_in
from planning import ROOT

# A package or module of the core, and the tests that are there for it.
MIRRORS: dict[str, tuple[str, ...]] = {
    "work": ("test_work_*.py", "published/test_water_tables.py", "published/test_agronomy.py"),
    "planning": ("test_planning_*.py", "test_seasons.py"),
    "network": ("test_network*.py", "published/test_scheduling_cases.py"),
    "site": ("test_site_*.py", "published/test_earthwork.py", "published/test_texture.py"),
    "climate": ("test_climate_*.py", "published/test_fao56.py", "published/test_agronomy.py"),
    "units.py": ("test_units.py",),
    "calendar_days.py": ("test_calendar_days.py", "test_work_watering*.py"),
    "book": ("test_book_*.py", "test_work_windows.py", "published/test_printed_sums.py"),
    "records": (
        "test_records_*.py",
        "test_bad_briefs.py",
        "test_files_journal.py",
        "test_revision_*.py",
        "test_network*.py",
    ),
}
# Tests of paper, screens, kills and disks are long, and none is there to notice a slip of the core;
# those of the text of the code would notice a changed number by its look, and those of frozen bytes
# any change, neither by what it means.
LEFT_OUT = (
    "test_export_screen.py",
    "test_export_layout.py",
    "test_export_pdf.py",
    "test_disk_full.py",
    "test_killed.py",
    "test_reader_programs.py",
    "test_work_numbers.py",
    "test_frozen_outputs.py",
    "test_tiers.py",
    "test_campaigns.py",
)
EQUAL = Path(__file__).with_name("equal_mutants.toml")
WORKERS = 2
LEAST_PERCENT = {"README": 75, "all": 85}
# How many seconds of tests, as they were noted, a mutant may cost at each stage, and how many tests
# a first process is asked: most mutants fall there, and the files of the others would be read in
# vain.
BUDGET_S = {"own": 20.0, "README": 30.0, "all": 30.0}
FIRST_TESTS = 25
BATCH_FILES = 24
LEAST_NOTED, PART_FILES, PART_S, LEAST_IN_PART = 60, 4, 8.0, 1 / 3


@dataclass
class Outcome:
    """What became of it: the stage whose tests noticed it, and the first of them; no stage when
    it survived.
    """

    mutant: Mutant
    stage: str | None = None
    by: str = ""


def mirrored(module: str) -> tuple[str, ...]:
    """The tests of a module's package; raises KeyError for a module outside the core."""
    return MIRRORS[module.split("/")[0]]


def core_modules() -> list[str]:
    """The modules of the core, below the package."""
    found: list[str] = []
    for name in MIRRORS:
        path = ROOT / PACKAGE / name
        found += (
            [name]
            if path.is_file()
            else sorted(str(p.relative_to(ROOT / PACKAGE)) for p in path.rglob("*.py"))
        )
    return found


def chosen(count: int, seed: int) -> list[Mutant]:
    """So many of all slips of the core at random, never two alike."""
    chance = Random(seed)
    sources = {name: (ROOT / PACKAGE / name).read_text(encoding="utf-8") for name in core_modules()}
    every = [
        mutant for name, source in sources.items() for mutant in slips_of(name, source, chance)
    ]
    chance.shuffle(every)
    return list(
        islice((mutant for mutant in every if sensible(mutant, sources[mutant.module])), count)
    )


def own_files(module: str) -> list[str]:
    """The files of tests that mirror a module's package, below the checkout.

    The one that is named like it comes first, then those that import it, and of them the short
    ones.
    """
    dotted = module.removesuffix(".py").replace("/", ".")
    named = f"test_{dotted.replace('.', '_')}.py"
    found = {path for glob in mirrored(module) for path in (ROOT / "tests").glob(glob)}

    def nearness(path: Path) -> tuple[bool, bool, int]:
        text = path.read_text(encoding="utf-8")
        return path.name != named, f"{PACKAGE}.{dotted} import" not in text, len(text)

    asked = sorted((p for p in found if p.name not in LEFT_OUT), key=nearness)
    return [str(path.relative_to(ROOT)) for path in asked]


@dataclass(frozen=True)
class Notes:
    """Which tests run which lines: those of the README's command, and those marked `full`."""

    README: dict[str, TestRun]
    full: dict[str, TestRun]
    imported: TestRun
    naming: dict[str, Masks]

    @classmethod
    def taken(cls, bench: Bench, folder: Path, stages: Sequence[str]) -> "Notes":
        """Those of some stages. What was noted before is not noted again for files of tests that
        are as they were, beside a core that is.
        """
        mirrors = {file for name in MIRRORS for file in own_files(name)}
        paths = [p for p in (bench.home / "tests").rglob("test_*.py") if p.parent.name != "bench"]
        names = [str(p.relative_to(bench.home)) for p in paths if p.name not in LEFT_OUT]
        files = sorted(names if stages != ("own",) else mirrors & {*names})
        texts = (p for p in sorted(bench.home.rglob("*")) if p.suffix in (".py", ".toml", ".po"))
        core = digest_of(
            *(p for p in texts if not {p.stem[:5], p.parent.name} & {"test_", "campaigns"})
        )
        stamps = {file: f"{core}:{digest_of(bench.home / file)}:{file}" for file in files}
        README, full = (
            _noted(bench, folder / tier, stamps, ["-m", marked]) if stage in stages else {}
            for stage, tier, marked in (("own", "README", "not full"), ("all", "full", "full"))
        )
        imported = [notes.pop(BY_IMPORT) for notes in (README, full) if BY_IMPORT in notes]
        return cls(README, full, TestRun(0.0, joined(*(one.masks for one in imported))), _naming())

    def asked_of(self, mutant: Mutant, reach: Reach) -> dict[str, dict[str, TestRun]]:
        """The tests that a mutant is shown to, by stage."""
        own = own_files(mutant.module)
        source = f"{PACKAGE}/{mutant.module}"
        masks: Masks = {source: mask_of(reach.lines)}
        for name in reach.names:
            masks = joined(masks, self.naming.get(name, {}))
        quick = {test: run for test, run in self.README.items() if run.runs(masks)}
        full = {test: run for test, run in self.full.items() if run.runs(masks)}
        if not (quick or full):
            quick = {test: run for test, run in self.README.items() if run.runs({source: -1})}
        if self.at_import(mutant, reach) or not (quick or full):
            # Run before any test, or by other processes: no one can say which test looks at it.
            quick |= {test: run for test, run in self.README.items() if _file(test) in own}
        return {
            "own": {test: run for test, run in quick.items() if _file(test) in own},
            "README": {test: run for test, run in quick.items() if _file(test) not in own},
            "all": full,
        }

    def at_import(self, mutant: Mutant, reach: Reach) -> bool:
        """Whether its line is run when modules are read."""
        lines = {f"{PACKAGE}/{mutant.module}": mask_of(reach.lines)}
        return not reach.lines or self.imported.runs(lines)

    def outcome(self, bench: Bench, warm: WarmTests, mutant: Mutant) -> Outcome:
        """Show it to the tests that run its line, stage by stage."""
        source = (ROOT / PACKAGE / mutant.module).read_text(encoding="utf-8")
        reach = reach_of(ast.parse(source), mutant.line)
        own = own_files(mutant.module)
        cold = self.at_import(mutant, reach)
        for stage, runs in self.asked_of(mutant, reach).items():
            tests, seconds = within_budget(stage, runs, own)
            limit_s = 90 + 10 * seconds
            by = ELSEWHERE if cold else warm.noticed(mutant, mutant.applied(source), tests, limit_s)
            if by == ELSEWHERE:
                cold = True
                by = bench.noticed(mutant, tests[:FIRST_TESTS], limit_s)
                by = by or bench.noticed(mutant, tests[FIRST_TESTS:], limit_s)
            if by is not None:
                return Outcome(mutant, stage, by)
        return Outcome(mutant)


def _file(test: str) -> str:
    return test.partition("::")[0]


def digest_of(*paths: Path) -> str:
    digest = hashlib.sha256()
    for path in paths:
        digest.update(path.read_bytes())
    return digest.hexdigest()[:16]


def _noted(
    bench: Bench, folder: Path, stamps: dict[str, str], words: Sequence[str]
) -> dict[str, TestRun]:
    """The notes of one tier; in batches, so that what is noted stands when a run is broken off."""
    folder.mkdir(parents=True, exist_ok=True)
    kept = folder / "stamps.txt"
    before = set(kept.read_text(encoding="utf-8").splitlines() if kept.exists() else ())
    before &= set(stamps.values())
    asked = [file for file, stamp in stamps.items() if stamp not in before]
    watched = (str(bench.home / PACKAGE / name) for name in MIRRORS)
    patterns = os.pathsep.join(n if n.endswith(".py") else f"{n}/*" for n in watched)
    for begin in range(0, len(asked), BATCH_FILES):
        batch = asked[begin : begin + BATCH_FILES]
        for file in batch:
            note_of(folder, file).unlink(missing_ok=True)
        plugins = ["-p", "lines_run", "-n", str(WORKERS)]
        env = {FOLDER: str(folder), WATCHED: patterns}
        code, out = bench.pytest([*batch, *plugins, *words], None, **env)
        assert code in (0, 1, 5), out[-2000:]
        print(f"noted {folder.name}: {out.strip().splitlines()[-1]}", flush=True)
        before |= {stamps[file] for file in batch}
        kept.write_text("\n".join(sorted(before)), encoding="utf-8")
    return notes_in(folder)


def _naming() -> dict[str, Masks]:
    """The lines of the core that use a name."""
    found: dict[str, Masks] = defaultdict(lambda: defaultdict(int))
    for module in core_modules():
        source = f"{PACKAGE}/{module}"
        for name, line in lines_naming(ast.parse((ROOT / source).read_text(encoding="utf-8"))):
            found[name][source] |= 1 << line
    return found


def within_budget(
    stage: str, tests: dict[str, TestRun], own: Sequence[str]
) -> tuple[list[str], float]:
    """Tests in the order in which they are asked, as far as the seconds of their stage go, and
    their seconds.
    """
    by_seconds = sorted(tests, key=lambda test: (tests[test].seconds, test))
    cases = Counter[str]()
    nth: dict[str, int] = {}
    for test in by_seconds:
        function = test.partition("[")[0]
        nth[test] = cases[function]
        cases[function] += 1
    by_seconds.sort(key=lambda test: (_file(test) != own[0], nth[test]))
    asked, spent = list[str](), 0.0
    for test in by_seconds:
        if spent + tests[test].seconds <= BUDGET_S[stage]:
            asked.append(test)
            spent += tests[test].seconds
    return asked, spent


def part_outcome(bench: Bench, warm: WarmTests, mutant: Mutant) -> Outcome:
    """Show it to the nearest files of tests of its package, as long as a part of the campaign
    may.
    """
    source = (ROOT / PACKAGE / mutant.module).read_text(encoding="utf-8")
    files = own_files(mutant.module)[:PART_FILES]
    tests = [test for file in files for test in warm.tests() if _file(test) == file]
    by = warm.noticed(mutant, mutant.applied(source), tests, PART_S)
    if by == ELSEWHERE:
        by = bench.noticed(mutant, files, PART_S, marked="not full")
    return Outcome(mutant) if by in (None, TOO_LONG) else Outcome(mutant, "own", by)


@dataclass
class Noticed:
    """Mutants that were noticed before, in a file; they stand as long as their module and the
    test do.
    """

    path: Path

    def before(self, mutant: Mutant) -> Outcome | None:
        """What became of it, where it stands."""
        stage, by, digest = self._all().get(_stamp(mutant), (None, "", ""))
        return Outcome(mutant, stage, by) if stage and digest == digest_of_test(by) else None

    def keep(self, outcome: Outcome) -> None:
        """Keep it, when it was noticed."""
        if outcome.stage is not None:
            line = (outcome.stage, outcome.by, digest_of_test(outcome.by))
            kept = {**self._all(), _stamp(outcome.mutant): line}
            self.path.write_text(json.dumps(kept, indent=1), encoding="utf-8")

    def _all(self) -> dict[str, tuple[str, str, str]]:
        found: dict[str, tuple[str, str, str]] = (
            json.loads(self.path.read_text(encoding="utf-8")) if self.path.exists() else {}
        )
        return found


def digest_of_test(test: str) -> str:
    path = ROOT / _file(test)
    return digest_of(path) if path.is_file() else ""


def _stamp(mutant: Mutant) -> str:
    path = ROOT / PACKAGE / mutant.module
    return f"{mutant.module}:{digest_of(path)}:{mutant.start}:{mutant.new}"


def outcomes(
    mutants: Sequence[Mutant],
    benches: Sequence[Bench],
    words: Sequence[str],
    ask: Callable[[Bench, WarmTests, Mutant], Outcome],
) -> Iterator[Outcome]:
    """What became of each, by all benches together beside a pytest that has read the tests of
    some words; told as it goes.
    """
    free = Queue[Bench]()
    for bench in benches[:-1]:
        free.put(bench)

    def one(mutant: Mutant) -> Outcome:
        bench = free.get()
        try:
            return ask(bench, warm, mutant)
        finally:
            free.put(bench)

    with (
        WarmTests.started(benches[-1], words) as warm,
        ThreadPoolExecutor(len(benches) - 1) as pool,
    ):
        for found in pool.map(one, mutants):
            mutant = found.mutant
            slip = f"{mutant.module}:{mutant.line} {mutant.old} -> {mutant.new}"
            print(f"{found.stage or 'SURVIVED':8} {slip}  {found.by}", flush=True)
            yield found


def run(count: int, seed: int, folder: Path) -> Figures:
    """Fails where fewer are noticed than is asked; equal mutants, with their reasons, are not
    counted.
    """
    equal = tomllib.loads(EQUAL.read_text(encoding="utf-8"))
    mutants = [m for m in chosen(count, seed) if m.key not in equal]
    # One more than there are workers: in the last nothing is changed, the tests that are kept warm
    # are read from it.
    benches = [Bench.laid_out(folder / f"bench-{number}") for number in range(WORKERS + 1)]
    if count < LEAST_NOTED:
        files = sorted({file for m in mutants for file in own_files(m.module)[:PART_FILES]})
        found = list(outcomes(mutants, benches, ["-m", "not full", *files], part_outcome))
        noticed = sum(one.stage is not None for one in found)
        short = f"the tests of the packages notice {noticed} of {len(found)} in their time"
        assert noticed >= LEAST_IN_PART * len(found), short
        return {"mutants": len(found), "noticed_by_own_in_time": noticed}
    stages = ("own", "README", "all")
    for number in range(1, len(stages) + 1):
        found = _shown(mutants, benches, folder, stages[:number])
        if _percent(found)["all"] >= LEAST_PERCENT["all"]:
            break
    return {"mutants": len(found), "equal": count - len(mutants), **figures_of(found)}


def _shown(
    mutants: Sequence[Mutant], benches: Sequence[Bench], folder: Path, stages: Sequence[str]
) -> list[Outcome]:
    """What became of each, shown to the tests of some stages; what was noticed before stands."""
    notes = Notes.taken(benches[-1], folder / "notes", stages)
    noticed_before = Noticed(folder / "noticed")
    found = [one for mutant in mutants if (one := noticed_before.before(mutant))]
    stand = {one.mutant for one in found}
    words = ["-m", "", *(f"--ignore=tests/{name}" for name in LEFT_OUT)]
    for one in outcomes([m for m in mutants if m not in stand], benches, words, notes.outcome):
        noticed_before.keep(one)
        found.append(one)
    return found


def figures_of(found: Sequence[Outcome]) -> Figures:
    """Percentages by what noticed, and the survivors; fails where too few are noticed."""
    percent = _percent(found)
    survivors = sorted(
        f"{o.mutant.module}:{o.mutant.line} {o.mutant.key}" for o in found if o.stage is None
    )
    short = {name: percent[name] for name, least in LEAST_PERCENT.items() if percent[name] < least}
    assert not short, f"too few noticed, percent: {percent}; survivors: {survivors}"
    return {**{f"noticed_by_{k}_percent": v for k, v in percent.items()}, "survivors": survivors}


def _percent(found: Sequence[Outcome]) -> dict[str, float]:
    """How many of each hundred were noticed by the tests of a stage and of those before it."""
    stages = Counter(one.stage for one in found)
    own, quick = stages["own"], stages["own"] + stages["README"]
    return {
        name: round(100 * number / max(1, len(found)), 1)
        for name, number in (("own", own), ("README", quick), ("all", quick + stages["all"]))
    }


CAMPAIGN = Campaign("mutants", size=300, seed=12, unit="mutants", run=run, goes_on=True)
