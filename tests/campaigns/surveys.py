"""Simulated surveys on grids of random spacing: the printed band holds the truth in nine of ten."""

from pathlib import Path

import numpy as np

from campaigns.records import Campaign, Figures
from test_site_survey_broad_hollows import bands_held
from test_site_survey_doubt import surveys

# For each lawn with ordinary hollows, so many with a broad one.
BROAD_SHARE = 0.25


def run(count: int, seed: int, folder: Path) -> Figures:
    """Fails where fewer bands hold than nine in ten, less what chance allows a sample (three
    standard errors).
    """
    held, widths, errors = surveys(None, least_mm=3.0, first=seed, count=count)
    _enough(held, count)
    broad = max(1, round(BROAD_SHARE * count))
    broad_held, broad_widths, broad_errors = bands_held(seed, broad)
    _enough(broad_held, broad)
    return {
        "held_percent": round(100 * held / count, 1),
        "median_width": round(float(np.median(widths)), 3),
        "mean_error": round(float(errors.mean()), 3),
        "broad_held_percent": round(100 * broad_held / broad, 1),
        "broad_median_width": round(float(np.median(broad_widths)), 3),
        "broad_median_error": round(float(np.median(broad_errors)), 3),
    }


def _enough(held: int, count: int) -> None:
    least = 0.9 * count - 3 * (0.9 * 0.1 * count) ** 0.5
    assert held >= least, f"{held} of {count} bands hold the truth"


CAMPAIGN = Campaign("surveys", size=2000, seed=100_000, unit="surveys", run=run)
