"""Lawns from GeoJSON maps."""

import json
from pathlib import Path
from typing import Any

import pytest

from told_errors import error_text, problem_text, refused
from turfplan.errors import TurfplanError
from turfplan.files.reading.geojson import area_of_geojson, area_of_outlines, outlines_of_text
from turfplan.site.outlines.geodesy import ellipsoid_area_m2

pytest.importorskip("geographiclib")
LON, LAT = -76.30, 40.04


def square(size: float = 0.0003, dx: float = 0.0, dy: float = 0.0) -> list[list[float]]:
    """A closed ring near an invented address, degrees."""
    x, y = LON + dx, LAT + dy
    return [[x, y], [x + size, y], [x + size, y + size], [x, y + size], [x, y]]


def polygon(*rings: list[list[float]]) -> dict[str, Any]:
    """A polygon with holes."""
    return {"type": "Polygon", "coordinates": list(rings)}


def area(data: object, near: tuple[float, float] | None = None) -> float:
    """The area of a GeoJSON object."""
    return area_of_outlines(outlines_of_text(json.dumps(data), near))


def ring_area(ring: list[list[float]]) -> float:
    """The area of one ring."""
    return ellipsoid_area_m2([(x, y) for x, y in ring[:-1]])


def test_a_polygon_and_its_hole() -> None:
    """Outer less inner."""
    inner = square(0.0001, 0.0001, 0.0001)
    assert area(polygon(square(), inner)) == pytest.approx(ring_area(square()) - ring_area(inner))


def test_every_wrapping_gives_the_same_area() -> None:
    """Bare, as a feature, in a collection, as MultiPolygon; points beside it are passed over;
    altitudes too.
    """
    bare = polygon(square())
    feature = {"type": "Feature", "properties": {"name": "back"}, "geometry": bare}
    spot = {
        "type": "Feature",
        "properties": None,
        "geometry": {"type": "Point", "coordinates": [LON, LAT]},
    }
    high = polygon([[*p, 120.5] for p in square()])
    multi = {"type": "MultiPolygon", "coordinates": [bare["coordinates"]]}
    nested = {"type": "GeometryCollection", "geometries": [multi]}
    for data in (
        feature,
        {"type": "FeatureCollection", "features": [spot, feature]},
        high,
        multi,
        nested,
    ):
        assert area(data) == pytest.approx(area(bare))
    assert outlines_of_text(json.dumps(feature))[0].name == "back"


def test_a_feature_marked_as_a_hole_is_taken_out() -> None:
    """A bed drawn by itself."""
    bed = {
        "type": "Feature",
        "properties": {"hole": True},
        "geometry": polygon(square(0.0001, 0.0001, 0.0001)),
    }
    lawn = {"type": "Feature", "properties": {}, "geometry": polygon(square())}
    together = area({"type": "FeatureCollection", "features": [lawn, bed]})
    assert together == pytest.approx(
        ring_area(square()) - ring_area(square(0.0001, 0.0001, 0.0001))
    )


def swapped(ring: list[list[float]]) -> list[list[float]]:
    """Latitude first."""
    return [[y, x] for x, y in ring]


SYDNEY = [[151.2, -33.8], [151.2003, -33.8], [151.2003, -33.7997], [151.2, -33.8]]
LEEDS = [[-1.55, 53.8], [-1.5497, 53.8], [-1.5497, 53.8003], [-1.55, 53.8]]


@pytest.mark.parametrize(
    ("data", "near", "words"),
    [
        (polygon(swapped(SYDNEY)), None, "latitude and longitude are swapped"),
        (polygon(swapped(square())), None, "look swapped"),
        (polygon(swapped(LEEDS)), (53.8, -1.5), "latitude and longitude are swapped"),
        (polygon(LEEDS), (40.0, -76.0), "lies far from the place that was given"),
        (
            polygon([[200.0, 100.0], [201.0, 100.0], [201.0, 101.0], [200.0, 100.0]]),
            None,
            "not on the Earth",
        ),
        (polygon(square()[:-1]), None, "is not closed"),
        (polygon([square()[n] for n in (0, 2, 1, 3, 0)]), None, "crosses itself"),
        (polygon(square(), square(0.0001, 0.001, 0.0)), None, "does not lie inside"),
        (
            polygon([[LON, "x"], [LON, LAT], [LON, LAT], [LON, "x"]]),
            None,
            "is not a pair of numbers",
        ),
        (
            {
                "type": "FeatureCollection",
                "features": [polygon(square()), polygon(square(0.0003, 0.0001))],
            },
            None,
            "count twice",
        ),
        ({"type": "Point", "coordinates": [LON, LAT]}, None, "holds no polygon"),
        ({"type": "Lawn"}, None, "is not a type of GeoJSON"),
        ([1, 2], None, "is not a GeoJSON object"),
        ({"type": "Polygon", "coordinates": 5}, None, "is not a list"),
        (
            {**polygon(square()), "crs": {"type": "name", "properties": {"name": "EPSG:3857"}}},
            None,
            "must be longitude and latitude",
        ),
    ],
)
def test_each_fault_of_a_map_is_told(
    data: object, near: tuple[float, float] | None, words: str
) -> None:
    """Swapped, far off, open, crossing, outside, not numbers, twice, empty, not GeoJSON."""
    with pytest.raises(TurfplanError) as caught:
        area(data, near)
    assert words in error_text(caught.value)


def test_a_swap_has_the_order_as_its_hint() -> None:
    """Longitude first."""
    with pytest.raises(TurfplanError) as caught:
        area(polygon(swapped(SYDNEY)))
    assert "longitude first" in problem_text(caught.value.problems[0]).rpartition(";")[2]


def test_files_are_named_in_their_faults(tmp_path: Path) -> None:
    """Missing, not JSON, not text; and a good one has its area."""
    with refused(r"none\.geojson: no such file"):
        area_of_geojson(tmp_path / "none.geojson")
    path = tmp_path / "lawn.geojson"
    for raw, words in ((b"{", "line 1: is not JSON"), (b"\xff\xfe{", "is not UTF-8 text")):
        path.write_bytes(raw)
        with refused(f"lawn.geojson: {words}"):
            area_of_geojson(path)
    path.write_text(json.dumps(polygon(square())))
    assert area_of_geojson(path, (40.0, -76.0)) == pytest.approx(ring_area(square()))
