"""A house with two invented lawns, planned once for all tests that look at it."""

import shutil
import tempfile
from datetime import date
from functools import cache
from pathlib import Path

from planning import EXAMPLES
from turfplan.app.house_files import write_house
from turfplan.app.plan_house import plan_house
from turfplan.app.plan_lawn import PlanRun

TODAY = date(2027, 2, 1)
LAWNS = ("back", "front")
# The lawns differ in size and name alone, so that they would wish for the same days.
AREAS = {"back": "2600 ft2", "front": "4200 ft2"}


def write_lawn(root: Path, name: str, *replaced: tuple[str, str]) -> Path:
    """A lawn of a house, from the example whose grass is thin tall fescue."""
    brief = root / "lawns" / name / "brief.toml"
    text = (EXAMPLES / "cool-overseed.toml").read_text(encoding="utf-8")
    text = text.replace('id = "maple-back-01"\n', "")
    text = text.replace("Maple Street back lawn (invented)", f"{name.title()} lawn (invented)")
    text = text.replace("4200 ft2", AREAS.get(name, "3000 ft2"))
    for old, new in replaced:
        assert old in text
        text = text.replace(old, new)
    brief.parent.mkdir(parents=True)
    brief.write_text(text, encoding="utf-8")
    return brief


def replanned(root: Path, today: date = TODAY) -> None:
    """Plans every lawn of a house, and writes what is of all of them."""
    for result in plan_house(root, PlanRun(today), lambda _: lambda _: None):
        if result.fault is not None:
            raise result.fault
    write_house(root)


@cache
def _planned() -> Path:
    root = Path(tempfile.mkdtemp(prefix="house-"))
    for name in LAWNS:
        write_lawn(root, name)
    replanned(root)
    return root


def planned_house(where: Path) -> Path:
    """A house of its own with both lawns planned."""
    root = where / "house"
    shutil.copytree(_planned(), root)
    return root
