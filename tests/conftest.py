"""What holds for every test, set before any of them is read; and `--part K/N`, which runs the files
of one of N parts.

There are as many workers as processors: sums of matrices take no threads beside them, which would
wait for each other. Errors are read in English: catalogs are loaded first.
"""

import gc
import os
import shutil
from pathlib import Path
from zlib import crc32

import pytest
from hypothesis import settings

from tiers import part_of

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import turfplan.messages  # noqa: F401

# No test fails because another process was busy.
settings.register_profile("untimed", deadline=None)
settings.load_profile("untimed")


def pytest_collection_finish() -> None:
    """Thousands of tests stay until the end: the garbage collector need not walk them again for
    each plan that is made.
    """
    gc.collect()
    gc.freeze()


def pytest_addoption(parser: pytest.Parser) -> None:
    """What is said of parts."""
    parser.addoption("--part", help="2/3: the files that fall into the second of three parts")


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Keep one part, where one is asked for: a file falls into the same one everywhere."""
    asked = config.getoption("--part")
    if asked is None:
        return
    try:
        one, of = part_of(asked)
    except ValueError as fault:
        raise pytest.UsageError(f"--part: {fault}") from fault
    mine = {item: crc32(item.location[0].encode()) % of == one - 1 for item in items}
    config.hook.pytest_deselected(items=[item for item in items if not mine[item]])
    items[:] = [item for item in items if mine[item]]


@pytest.fixture(scope="session")
def planned_once(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A business with two lawns alike, planned; to be read alone."""
    # Most tests plan no business.
    from planned_business import planned_business

    return planned_business(tmp_path_factory.mktemp("business"))


@pytest.fixture
def data(planned_once: Path, tmp_path: Path) -> Path:
    """The same, to be written to."""
    return Path(shutil.copytree(planned_once, tmp_path / "data"))
