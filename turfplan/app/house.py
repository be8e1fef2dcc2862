"""Finds the lawns of a house with their plans, and says what each is called beside the others."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from turfplan.app.outputs import words_of
from turfplan.errors import Problem, TurfplanError
from turfplan.export.house_ids import lawn_key
from turfplan.export.house_plan import HousePart
from turfplan.files.data_folder import BRIEF
from turfplan.files.house_folder import lawns_of_house
from turfplan.files.reading.brief import read_brief
from turfplan.files.reading.plan import read_plan
from turfplan.messages import Words
from turfplan.phrases import errors
from turfplan.phrases import files as phrases
from turfplan.plain_text import plain_text, shortened
from turfplan.records.plan import Plan

LONGEST_LABEL = 24


@dataclass(frozen=True, slots=True)
class HouseLawn:
    """A planned lawn of a house, by what it is called beside the others."""

    folder: Path
    plan: Plan
    label: str

    @property
    def brief(self) -> Path:
        """Its brief."""
        return self.folder / BRIEF

    @property
    def words(self) -> Words:
        """The words of its sheets."""
        return words_of(self.plan)

    @property
    def part(self) -> HousePart:
        """What the sheets of the house take of it."""
        key = lawn_key(self.folder.name, self.plan.lawn_id)
        return HousePart(key, self.label, self.plan, self._truck_limit_m3())

    def _truck_limit_m3(self) -> float | None:
        """What a truck may bring; None where its brief says nothing, or cannot be read."""
        try:
            return read_brief(self.brief).brief.delivery.truck_limit_m3
        except TurfplanError:
            return None


def planned_in_house(root: Path) -> tuple[tuple[HouseLawn, ...], tuple[TurfplanError, ...]]:
    """The planned lawns of a house in the order of their folders, and why others cannot be shown.

    A lawn whose plan cannot be made as it is asked shows nothing, and says so. Raises
    TurfplanError where no lawn has a plan.
    """
    faults: list[TurfplanError] = []
    found: list[tuple[Path, Plan]] = []
    for folder in lawns_of_house(root):
        try:
            plan = read_plan(folder)
        except TurfplanError as error:
            faults.append(error)
            continue
        if plan is None or plan.conflict is not None:
            hint = errors.make_plan_first(command=f"turfplan plan {root}")
            faults.append(TurfplanError(Problem(str(folder), phrases.no_plan_yet(), hint=hint)))
        else:
            found.append((folder, plan))
    if not found:
        raise TurfplanError([problem for error in faults for problem in error.problems])
    labels = _labels(found)
    lawns = zip(found, labels, strict=True)
    return tuple(HouseLawn(folder, plan, label) for (folder, plan), label in lawns), tuple(faults)


def _labels(found: Sequence[tuple[Path, Plan]]) -> tuple[str, ...]:
    """What lawns are called: their names, cut, or their folders where names say nothing or the
    same."""
    names = [shortened(plain_text(plan.lawn.name), LONGEST_LABEL) for _, plan in found]
    often = Counter(name.casefold() for name in names)
    return tuple(
        name if name and often[name.casefold()] == 1 else folder.name
        for (folder, _), name in zip(found, names, strict=True)
    )
