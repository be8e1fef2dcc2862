"""Plans every lawn of a house, one after the other."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from pathlib import Path

from turfplan.app.inputs import read_input
from turfplan.app.plan_lawn import PlannedLawn, PlanRun, Tell, plan_lawn
from turfplan.errors import TurfplanError
from turfplan.files.data_folder import BRIEF
from turfplan.files.house_folder import lawns_of_house
from turfplan.files.reading.brief import journal_beside


@dataclass(frozen=True, slots=True)
class HouseWeather:
    """The weather that a house is planned with: a file, or a forecast server."""

    file: Path | None = None
    url: str | None = None
    fall_back: bool = False


@dataclass(frozen=True, slots=True)
class LawnResult:
    """What came of planning a lawn of a house: its plan, or why there is none."""

    folder: Path
    done: PlannedLawn | None
    fault: TurfplanError | None = None


def plan_house(
    root: Path, run: PlanRun, tell: Callable[[Path], Tell], weather: HouseWeather = HouseWeather()
) -> Iterator[LawnResult]:
    """Plan the lawns of a house in the order of their folders; each is told of as it is done.

    Each is planned around the hours that the others have promised: what stands, stands, and what
    is planned anew gives way. One that fails keeps its plan before, and the others are planned.
    What is of the whole house is not written here: it follows once all are planned.
    """
    run = replace(run, refreshes_house=False)
    for folder in lawns_of_house(root):
        brief = folder / BRIEF
        try:
            given = read_input(
                brief,
                weather_file=weather.file,
                weather_url=weather.url,
                fall_back=weather.fall_back,
            )
            done = plan_lawn(given, folder, journal_beside(brief), tell=tell(folder), run=run)
        except TurfplanError as error:
            yield LawnResult(folder, None, error)
        else:
            yield LawnResult(folder, done)
