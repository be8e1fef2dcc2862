"""What a campaign is, and the record of its last full run."""

import tomllib
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path

RECORD = Path(__file__).with_name("record.toml")
Figures = Mapping[str, float | int | str | list[str]]


@dataclass(frozen=True)
class Campaign:
    """A test of a size and a seed.

    `run` takes how many, the seed and an empty folder; it returns figures, or fails.

    `unit` says what the size counts; one that `goes_on` may also be given the folder of its last
    run.
    """

    name: str
    size: int
    seed: int
    unit: str
    run: Callable[[int, int, Path], Figures]
    goes_on: bool = False

    def share(self, part: float) -> int:
        """How many a share of it is: one at least."""
        return max(1, round(self.size * part))


def recorded() -> dict[str, dict[str, object]]:
    """The figures of the last full run of each campaign, by name."""
    return tomllib.loads(RECORD.read_text(encoding="utf-8")) if RECORD.exists() else {}


def record(name: str, figures: Figures) -> None:
    """Keep the figures of a full run; those of the other campaigns stand."""
    everything = {**recorded(), name: dict(figures)}
    lines = ["# The last full run of each campaign; written by `python -m campaigns --record`."]
    for key in sorted(everything):
        lines += [
            "",
            f"[{key}]",
            *(f"{word} = {_toml(value)}" for word, value in everything[key].items()),
        ]
    RECORD.write_text("\n".join(lines) + "\n", encoding="utf-8")


def _toml(value: object) -> str:
    if isinstance(value, list | tuple):
        return "[\n" + "".join(f"    {_toml(one)},\n" for one in value) + "]"
    if isinstance(value, str):
        return '"' + value.replace("\\", "\\\\").replace('"', '\\"') + '"'
    return str(value)
