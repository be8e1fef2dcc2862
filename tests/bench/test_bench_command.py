"""CPU of the whole command, beside that of importing the libraries that it stands on: the target is
four times as much.
"""

import os
import sys
from itertools import count
from pathlib import Path

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from planning import EXAMPLES

LIBRARIES = ("-c", "import typer, pydantic, jinja2, icalendar")
PAIRS = 10


def _cpu_s(*arguments: str) -> float:
    """User and system seconds of one run of Python, which must end well."""
    quiet = (os.POSIX_SPAWN_OPEN, 1, os.devnull, os.O_WRONLY, 0)
    child = os.posix_spawn(
        sys.executable, [sys.executable, *arguments], os.environ, file_actions=[quiet]
    )
    _, status, used = os.wait4(child, 0)
    assert os.waitstatus_to_exitcode(status) == 0
    return used.ru_utime + used.ru_stime


@pytest.mark.skipif(not hasattr(os, "wait4"), reason="the CPU of a child is told by wait4")
def test_a_plan_beside_the_import_of_its_libraries(
    benchmark: BenchmarkFixture, tmp_path: Path
) -> None:
    """Runs of both alternate, for a shared machine is quick and slow by turns; the ratio of the
    least is noted.
    """
    plans, libraries, numbers = [], [], count()

    def pair() -> None:
        folder = tmp_path / str(next(numbers))
        plan = (
            "plan",
            str(EXAMPLES / "cool-overseed.toml"),
            "--today",
            "2027-02-01",
            "--output",
            str(folder),
        )
        libraries.append(_cpu_s(*LIBRARIES))
        plans.append(_cpu_s("-m", "turfplan", *plan))

    benchmark.pedantic(pair, rounds=PAIRS, warmup_rounds=1)
    ratio = min(plans[1:]) / min(libraries[1:])
    benchmark.extra_info.update(
        plan_s=min(plans[1:]), libraries_s=min(libraries[1:]), ratio=round(ratio, 2)
    )
    print(f"\nplan {min(plans[1:]):.3f} s, libraries {min(libraries[1:]):.3f} s, ratio {ratio:.2f}")
