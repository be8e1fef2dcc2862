"""Runs campaigns: `PYTHONPATH=tests python -m campaigns [NAME …] [--share 0.1] [--seed N]
[--folder DIR] [--at-once N] [--part K/N] [--record]`.
"""

import argparse
import subprocess
import sys
import tempfile
import time
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

from campaigns import (
    clients,
    from_state,
    kills,
    load,
    mixed,
    mutants,
    office_season,
    oracle,
    places,
    recomputed,
    seasons,
    sheets,
    smooth,
    surveys,
    walks,
    wet_seasons,
)
from campaigns.records import Campaign, Figures, record
from tiers import part_of

CAMPAIGNS: dict[str, Campaign] = {
    module.CAMPAIGN.name: module.CAMPAIGN
    for module in (
        clients,
        from_state,
        kills,
        load,
        mixed,
        mutants,
        office_season,
        oracle,
        places,
        recomputed,
        seasons,
        sheets,
        smooth,
        surveys,
        walks,
        wet_seasons,
    )
}


def main() -> int:
    """Run what is asked for, so many at once; the exit code counts those that failed."""
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
    parser.add_argument("--part", help="2/3: every third campaign, from the second on")
    parser.add_argument("--at-once", type=int, default=1, help="how many run side by side")
    asked = parser.parse_args()
    if asked.record and (asked.share != 1.0 or asked.seed is not None or asked.at_once != 1):
        parser.error("only a full run with its own seed, each campaign alone, is recorded")
    names = asked.names or list(CAMPAIGNS)
    if asked.part is not None:
        try:
            one, of = part_of(asked.part)
        except ValueError as fault:
            parser.error(f"--part: {fault}")
        names = names[one - 1 :: of]
    if asked.at_once == 1:
        return sum(
            not _ran(name, asked.share, asked.seed, asked.folder, keep=asked.record)
            for name in names
        )
    with ThreadPoolExecutor(asked.at_once) as pool:
        return sum(pool.map(lambda name: _aside(name, asked), names))


def _aside(name: str, asked: argparse.Namespace) -> int:
    """One campaign in a process of its own; its exit code."""
    line = [sys.executable, "-m", "campaigns", name, "--share", str(asked.share)]
    line += [] if asked.seed is None else ["--seed", str(asked.seed)]
    line += [] if asked.folder is None else ["--folder", str(asked.folder)]
    return subprocess.run(line, check=False).returncode


def _ran(name: str, share: float, seed: int | None, folder: Path | None, *, keep: bool) -> bool:
    """One campaign, told on a line; whether it held."""
    campaign = CAMPAIGNS[name]
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
