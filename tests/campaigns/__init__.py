"""Tests too large for every run: each campaign has its size, its seed, and the figures of its last
full run on record.

    PYTHONPATH=tests python -m campaigns [NAME …] [--share 0.1] [--record]

runs them, all or by name, at a share of their size; the last full run is kept in `record.toml` with
`--record`. Matrices take one thread, as in the tests: more would wait for each other.
"""

import os

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
