"""Rain of the grid is doubtful in mountains and far from the grid's height: it is not built on."""

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from planning import climate_at, plan_of
from told import told
from turfplan.climate.rain_doubt import rain_doubt
from turfplan.climate.world_grid import Months, months_at
from turfplan.files.reading.book import load_book
from turfplan.files.reading.place import load_grid, load_models, located
from turfplan.records.brief import Place
from turfplan.records.plan import in_turn
from turfplan.work.generated_years import generated_years

AOSTA: dict[str, Any] = {
    "postal_code": None,
    "latitude": 45.74,
    "longitude": 7.32,
    "country": "IT",
    "elevation": "583 m",
}
PALMIRA = (3.48, -76.35)
MODELS = load_models()
FLAT = Months((10.0,) * 12, (50.0,) * 12, 400.0, 20.0, 4)


def key(months: Months, height_m: float | None) -> str | None:
    """The key of what is said of the rain, or None."""
    doubt = rain_doubt(MODELS, months, height_m)
    return None if doubt is None else doubt.key


def test_rain_is_doubtful_far_from_the_height_of_the_grid_and_in_mountains() -> None:
    """From more than the numbers of the models on, above as below; height is told first."""
    apart, relief = (MODELS.number("rain", f"doubtful_{n}_m") for n in ("apart", "relief"))
    steep = replace(FLAT, relief_m=relief + 1)
    assert key(FLAT, None) is None and key(replace(FLAT, relief_m=relief), None) is None
    assert key(FLAT, 400 + apart) is None and key(FLAT, 400 - apart) is None
    for height_m in (401 + apart, 399 - apart):
        assert key(FLAT, height_m) == key(steep, height_m) == "climate.rain_doubtful.height"
    assert key(steep, None) == key(steep, 400) == "climate.rain_doubtful.relief"


def test_a_valley_whose_rain_the_grid_gets_three_times_is_doubtful() -> None:
    """Palmira's station has 902 mm a year; a plain's rain is not doubtful, nor that of a place of
    hills that it holds for (Chiang Mai, within 3 %)."""
    assert sum(months_at(load_grid(), *PALMIRA).rain_mm) > 3 * 902
    assert climate_at(*PALMIRA).rain_doubt is not None
    for where in ((38.95, -92.33), (52.1, 5.2), (18.8, 98.98)):
        assert climate_at(*where).rain_doubt is None


def test_no_years_are_generated_from_doubtful_rain() -> None:
    """But they are from other rain."""
    climate, book = climate_at(*PALMIRA), load_book()
    assert generated_years(climate, book) is None
    assert generated_years(replace(climate, rain_doubt=None), book) is not None


def test_a_watered_plan_tells_of_doubtful_rain_and_counts_no_years() -> None:
    """At the head, with the way to better rain."""
    plan = plan_of({"place": AOSTA})
    assert plan.tasks and plan.season_years is None and plan.generated_years == ()
    said = [told(caution) for caution in plan.cautions if "doubtful" in told(caution)]
    assert len(said) == 1 and "normals of a station nearby" in said[0]
    first = next(note for note in in_turn(plan.ranked) if note.rank != "stop")
    assert told(first.text) == said[0]


@pytest.mark.parametrize("intent", ["overseed", "plant"])
def test_nothing_is_sown_or_planted_on_doubtful_rain_alone(intent: str) -> None:
    """The way out is normals of one's own; with rain that is known it is planned."""
    dry = {"water": {"possible": False, "application_rate": None}}
    lawn = {"grass": "kentucky_bluegrass"}
    plan = plan_of({"place": AOSTA, "seeding": {"intent": intent}, "lawn": lawn}, dry)
    assert plan.conflict is not None and not plan.tasks
    reasons = " ".join(told(reason) for reason in plan.conflict.reasons)
    assert "doubtful" in reasons and "normals of a station nearby" in reasons


def test_what_is_not_sown_is_planned_on_doubtful_rain() -> None:
    """With the caution."""
    dry = {"water": {"possible": False, "application_rate": None}}
    plan = plan_of({"place": AOSTA, "seeding": {"intent": "none"}}, dry)
    assert plan.tasks and any("doubtful" in told(caution) for caution in plan.cautions)


@pytest.mark.parametrize("rain", [True, False])
def test_rain_of_own_normals_is_not_doubtful(tmp_path: Path, rain: bool) -> None:
    """Where the file holds none, the grid's is taken, and is as doubtful as ever."""
    columns = ["STATION", "LATITUDE", "LONGITUDE", "DATE"]
    columns += [f"MLY-{name}-NORMAL" for name in ("TAVG", "TMIN", "TMAX")]
    columns += ["MLY-PRCP-NORMAL"] if rain else []
    rows: list[list[object]] = [
        ["A", 45.74, 7.32, f"{n:02}", 50 + n, 40 + n, 60 + n, *([1.8] if rain else [])]
        for n in range(1, 13)
    ]
    lines = [",".join(columns), *(",".join(str(cell) for cell in row) for row in rows)]
    (tmp_path / "own.csv").write_text("\n".join(lines) + "\n", encoding="utf-8")
    place = Place(latitude=45.74, longitude=7.32, normals="own.csv")
    doubt = located(place, tmp_path).climate.rain_doubt
    assert (doubt is None) == rain
