"""Speed and memory of a survey of 2,500 points, from points to maps."""

import subprocess
import sys

from pytest_benchmark.fixture import BenchmarkFixture

from bench.clock import array_loop, ratio
from lawn_surveys import BOOK_LIKE, added, bowl, scattered, slope
from turfplan.export.maps.contours import field_of
from turfplan.export.maps.fill_maps import fill_map, ground_map, pass_map
from turfplan.export.maps.picture import svg_of
from turfplan.files.reading.survey import fill_of
from turfplan.messages import words_for
from turfplan.site.survey.surveyed_fill import fill_from_survey
from turfplan.units import System

POINTS = scattered(40, 25, 2496, added(slope(-2), bowl(12, 8, 2, 40), bowl(30, 15, 1.8, 30)), 1)
MOST_MB = 300


def points_to_maps() -> int:
    """Volumes, classes, stakes, and the four maps as SVG."""
    found = fill_of(fill_from_survey(POINTS, BOOK_LIKE), BOOK_LIKE).map
    assert found is not None
    words, depths = words_for("en", System.US), (10.0, 10.0, 10.0, 10.0)
    drawn = (
        ground_map(found, words),
        fill_map(found, depths, words),
        pass_map(found, depths, 1, words),
    )
    return sum(len(svg_of(picture, words)) for picture in drawn)


def test_2500_points_to_volumes_and_maps(benchmark: BenchmarkFixture) -> None:
    """At most 25 times a load of arrays: half a second where that takes 20 ms."""
    assert ratio(points_to_maps, array_loop) < 25
    benchmark(points_to_maps)


def test_contours_cost_less_than_the_survey(benchmark: BenchmarkFixture) -> None:
    """Filling a grid out to its margin and tracing is no part to worry about."""
    found = fill_of(fill_from_survey(POINTS, BOOK_LIKE), BOOK_LIKE).map
    assert found is not None
    contours = lambda: field_of(found.fill_mm, found.columns, found.rows)  # noqa: E731
    assert ratio(contours, lambda: fill_from_survey(POINTS, BOOK_LIKE)) < 1
    benchmark(contours)


def test_2500_points_stay_within_300_megabytes() -> None:
    """The whole process, libraries included."""
    code = (
        "import resource, sys\n"
        f"sys.path.insert(0, {str(__file__).rsplit('/', 2)[0]!r})\n"
        "from bench.test_bench_site import points_to_maps\n"
        "points_to_maps()\n"
        "print(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024)\n"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert float(done.stdout) < MOST_MB
