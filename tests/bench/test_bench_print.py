"""CPU and memory of printing a sheet, beside those of importing the libraries that it stands on.

Beside the same import stood printing by version 0.1 (commit 015d762), of the same brief: the
targets are its ratios.
"""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from planning import EXAMPLES, example
from turfplan.export.tables.plan_json import plan_to_json

RUNS = 5
LARGEST = "deep-two-inches"
LIBRARIES = "import typer, pydantic, jinja2"
COMMAND = "import runpy; runpy.run_module('turfplan', run_name='__main__', alter_sys=True)"
# Not what wait4 tells: its peak counts the process that started this one as well.
TOLD = """
import sys
try:
    {work}
finally:
    with open("/proc/self/status") as status:
        peak = next(line.split()[1] for line in status if line.startswith("VmHWM"))
    print(peak, file=sys.stderr)
"""
# Sheet: CPU and peak of memory of version 0.1, in those of the import.
OLD = {"week": (3.2, 1.555), "book": (4.3, 1.63), "order": (3.0, 1.54)}


def _used(work: str, *words: str) -> tuple[float, float]:
    """Seconds of the processor, its end included, and kB at the peak of a process that does some
    work."""
    command = [sys.executable, "-c", TOLD.format(work=work), *words]
    with subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE) as child:
        assert child.stderr is not None
        told = child.stderr.read().decode()
        _, status, used = os.wait4(child.pid, 0)
        child.returncode = os.waitstatus_to_exitcode(status)
    assert child.returncode == 0, told
    return used.ru_utime + used.ru_stime, float(told.split()[-1])


@pytest.mark.skipif(not Path("/proc/self/status").exists(), reason="peaks are read from /proc")
@pytest.mark.parametrize("sheet", OLD)
def test_a_sheet_beside_the_import_of_its_libraries(
    sheet: str, benchmark: BenchmarkFixture, tmp_path: Path
) -> None:
    """Runs of both alternate; the ratios of the least stay below those of version 0.1, that of
    memory within a twentieth."""
    (tmp_path / "plan.json").write_bytes(plan_to_json(example(LARGEST)))
    words = ("print", str(EXAMPLES / f"{LARGEST}.toml"), sheet, "-o", str(tmp_path))
    printed, imported = [], []

    def pair() -> None:
        imported.append(_used(LIBRARIES))
        printed.append(_used(COMMAND, *words))

    benchmark.pedantic(pair, rounds=RUNS, warmup_rounds=1)
    cpu, memory = (
        min(run[part] for run in printed) / min(run[part] for run in imported) for part in (0, 1)
    )
    benchmark.extra_info.update(cpu=round(cpu, 2), memory=round(memory, 3))
    print(f"\n{sheet}: CPU {cpu:.2f}, memory {memory:.3f} of importing the libraries")
    old_cpu, old_memory = OLD[sheet]
    assert cpu < old_cpu and memory < 1.05 * old_memory
