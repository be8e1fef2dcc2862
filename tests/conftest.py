"""What holds for every test, set before any of them is read.

There are as many workers as processors: sums of matrices take no threads beside them, which would
wait for each other. Errors are read in English: catalogs are loaded first.
"""

import gc
import os

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import turfplan.messages  # noqa: F401


def pytest_collection_finish() -> None:
    """Thousands of tests stay until the end: the garbage collector need not walk them again for
    each plan that is made.
    """
    gc.collect()
    gc.freeze()
