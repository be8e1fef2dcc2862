"""Repairs of random seasons against an independent solver."""

from pathlib import Path

from campaigns.records import Campaign, Figures
from test_network_oracle import compared_with_the_oracle


def run(count: int, seed: int, folder: Path) -> Figures:
    """Fails where a repair is not as small as the solver finds, or gives up what could be kept."""
    compared, moved, dropped = compared_with_the_oracle(range(seed, seed + count))
    return {"compared": compared, "moved": moved, "dropped": dropped}


CAMPAIGN = Campaign("oracle", size=3000, seed=10_000, unit="seasons", run=run)
