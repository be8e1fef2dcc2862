"""Runs campaigns: `PYTHONPATH=tests python -m campaigns [NAME …] [--share 0.1] [--seed N]
[--folder DIR] [--record]`.
"""

import argparse
import sys
import tempfile
import time
from pathlib import Path

from campaigns import (
    clients,
    from_state,
    kills,
    load,
    mutants,
    oracle,
    places,
    recomputed,
    seasons,
    smooth,
    surveys,
    walks,
    wet_seasons,
)
from campaigns.records import Campaign, Figures, record

CAMPAIGNS: dict[str, Campaign] = {
    module.CAMPAIGN.name: module.CAMPAIGN
    for module in (
        clients,
        from_state,
        kills,
        load,
        mutants,
        oracle,
        places,
        recomputed,
        seasons,
        smooth,
        surveys,
        walks,
        wet_seasons,
    )
}


def main() -> int:
    """Run what is asked for, one after the other; the exit code counts those that failed."""
    parser = argparse.ArgumentParser(prog="campaigns")
    parser.add_argument(
        "names", nargs="*", choices=[[], *CAMPAIGNS], help="all where none is named"
    )
    parser.add_argument(
        "--share", type=float, default=1.0, help="the share of its size that each is run at"
    )
    parser.add_argument("--seed", type=int, help="another seed than the recorded one")
    parser.add_argument("--record", action="store_true", help="keep the figures of a full run")
    parser.add_argument(
        "--folder", type=Path, help="kept for the next run, where a campaign can go on"
    )
    asked = parser.parse_args()
    if asked.record and (asked.share != 1.0 or asked.seed is not None):
        parser.error("only a full run with its own seed is recorded")
    failed = 0
    for name in asked.names or CAMPAIGNS:
        failed += not _ran(
            CAMPAIGNS[name], asked.share, asked.seed, asked.folder, keep=asked.record
        )
    return failed


def _ran(
    campaign: Campaign, share: float, seed: int | None, folder: Path | None, *, keep: bool
) -> bool:
    """One campaign, told on a line; whether it held."""
    count, seed, begin = (
        campaign.share(share),
        campaign.seed if seed is None else seed,
        time.monotonic(),
    )
    with tempfile.TemporaryDirectory() as passing:
        try:
            home = folder if folder and campaign.goes_on else Path(passing)
            found = campaign.run(count, seed, home)
        except AssertionError as fault:
            print(
                f"{campaign.name}: FAILED with {count} {campaign.unit}, seed {seed}: {fault}",
                flush=True,
            )
            return False
    figures: Figures = {
        "size": count,
        "seed": seed,
        **found,
        "minutes": round((time.monotonic() - begin) / 60, 1),
    }
    print(
        f"{campaign.name}: "
        + ", ".join(f"{k} {v}" for k, v in figures.items() if not isinstance(v, list)),
        flush=True,
    )
    if keep:
        record(campaign.name, figures)
    return True


if __name__ == "__main__":
    sys.exit(main())
