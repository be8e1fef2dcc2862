"""Areas and outlines in longitude and latitude."""

import math
from itertools import pairwise

import pytest

from turfplan.message import Message
from turfplan.site.outlines.geodesy import (
    EQUATOR_M,
    FLATTENING,
    distance_m,
    ellipsoid_area_m2,
    missing_survey_tools,
    to_plane,
)
from turfplan.site.outlines.polygons import Ring, signed_area

pytest.importorskip("geographiclib")


def earth_fixed(longitude: float, latitude: float) -> tuple[float, float, float]:
    """Cartesian coordinates on WGS 84 (the defining formula of geodetic latitude), m."""
    lon, lat = math.radians(longitude), math.radians(latitude)
    e2 = FLATTENING * (2 - FLATTENING)
    n = EQUATOR_M / math.sqrt(1 - e2 * math.sin(lat) ** 2)
    return (
        n * math.cos(lat) * math.cos(lon),
        n * math.cos(lat) * math.sin(lon),
        n * (1 - e2) * math.sin(lat),
    )


def flat_area(ring: Ring) -> float:
    """The area of a small ring from its corners in space: half the length of the vector area."""
    corners = [earth_fixed(*p) for p in ring]
    first = corners[0]
    total = [0.0, 0.0, 0.0]
    for a, b in pairwise(corners[1:]):
        u, v = ([q - p for p, q in zip(first, c, strict=True)] for c in (a, b))
        for n in range(3):
            total[n] += u[n - 2] * v[n - 1] - u[n - 1] * v[n - 2]
    return math.hypot(*total) / 2


def ring_around(longitude: float, latitude: float, size_m: float) -> Ring:
    """A lopsided outline of about that size."""
    north = size_m / 111_000
    east = north / math.cos(math.radians(latitude))
    return tuple(
        (longitude + east * x, latitude + north * y)
        for x, y in ((0, 0), (1, 0.1), (1.2, 0.9), (0.4, 0.6), (-0.1, 1))
    )


@pytest.mark.parametrize("latitude", [-45.9, -33.8, -0.2, 0.3, 25.8, 40.04, 53.8, 64.1])
@pytest.mark.parametrize("longitude", [-157.8, -76.3, 0.0, 151.2, 179.9999])
def test_a_lawn_has_its_area_within_a_hundredth_of_a_percent(
    longitude: float, latitude: float
) -> None:
    """Against corners in space, which share no code with the geodesics; on the date line too."""
    ring = ring_around(longitude, latitude, 60.0)
    assert ellipsoid_area_m2(ring) == pytest.approx(flat_area(ring), rel=1e-4)


@pytest.mark.parametrize("latitude", [-33.8, 0.3, 40.04, 60.0])
def test_the_plane_picture_keeps_areas_of_lawns(latitude: float) -> None:
    """The drawn outline is true to scale to a thousandth, and starts at the origin."""
    ring = ring_around(-76.3, latitude, 150.0)
    (plane,) = to_plane((ring,))
    assert plane[0] == (0.0, 0.0)
    assert abs(signed_area(plane)) == pytest.approx(ellipsoid_area_m2(ring), rel=1e-3)


def test_direction_and_starting_corner_do_not_matter() -> None:
    """Clockwise or not, from any corner."""
    ring = ring_around(10.0, 50.0, 40.0)
    assert ellipsoid_area_m2(ring[::-1]) == pytest.approx(ellipsoid_area_m2(ring), rel=1e-9)
    assert ellipsoid_area_m2(ring[2:] + ring[:2]) == pytest.approx(
        ellipsoid_area_m2(ring), rel=1e-9
    )


def test_a_degree_of_the_equator_is_its_length() -> None:
    """On the sphere of the equator."""
    assert distance_m((10.0, 0.0), (11.0, 0.0)) == pytest.approx(
        2 * math.pi * EQUATOR_M / 360, rel=1e-9
    )


# Lengths of a degree of latitude and of longitude at 0, 45 and 60 degrees on WGS 84, m, by the
# radii of curvature a (1 - e2) / (1 - e2 sin2)^1.5 and a cos / (1 - e2 sin2)^0.5 with a = 6 378 137
# m and e2 = 0.006 694 379 990 14 (NIMA TR8350.2, table 3.3).
DEGREES = {
    0.0: (110_574.2758, 111_319.4908),
    45.0: (111_131.7774, 78_846.8351),
    60.0: (111_412.2875, 55_800.0016),
}


@pytest.mark.parametrize("latitude", DEGREES)
def test_the_plane_has_the_curvature_of_the_ellipsoid(latitude: float) -> None:
    """A thousandth of a degree north and east is a thousandth of a degree's length there."""
    north, east = DEGREES[latitude]
    ring = ((7.0, latitude), (7.001, latitude), (7.0, latitude + 0.001))
    ((_, right, up),) = to_plane((ring,))
    assert right == pytest.approx((east / 1000, 0.0), rel=1e-6)
    assert up == pytest.approx((0.0, north / 1000), rel=1e-6)


def test_distances_are_those_of_a_sphere() -> None:
    """From pole to equator, to the other side of the world, over the date line; a degree of
    longitude at sixty degrees is half of one at the equator.
    """
    quarter = math.pi / 2 * 6_378_137
    assert distance_m((20.0, 90.0), (70.0, 0.0)) == pytest.approx(quarter)
    assert distance_m((0.0, 10.0), (180.0, -10.0)) == pytest.approx(2 * quarter)
    assert distance_m((179.0, 0.0), (-179.0, 0.0)) == pytest.approx(quarter / 45)
    assert distance_m((7.0, 60.0), (7.01, 60.0)) == pytest.approx(quarter / 18_000, rel=1e-6)
    assert distance_m((7.0, -30.0), (7.0, -31.0)) == pytest.approx(quarter / 90)
    assert distance_m((7.0, 50.0), (7.0, 50.0)) == 0.0
    # By the cosines of the sides of a triangle at the pole.
    a, b, turn = (math.radians(v) for v in (40.0, 52.0, 80.0))
    cosine = math.sin(a) * math.sin(b) + math.cos(a) * math.cos(b) * math.cos(turn)
    found = distance_m((-75.0, 40.0), (5.0, 52.0))
    assert found == pytest.approx(math.acos(cosine) * 6_378_137)


def test_the_plane_goes_the_short_way_over_the_date_line() -> None:
    """Holes lie beside the outline, both from its first point."""
    ring = ((179.999, -10.0), (-179.999, -10.0), (-179.999, -9.999))
    hole = ((180.0, -10.0), (179.998, -9.9995))
    (outer, inner) = to_plane((ring, hole))
    step = outer[1][0] / 2
    assert step == pytest.approx(109.64, abs=0.05)
    assert inner[0] == pytest.approx((step, 0.0))
    assert inner[1] == pytest.approx((-step, outer[2][1] / 2))
    assert outer[2][1] > 0


def test_what_is_missing_is_told_with_how_to_get_it() -> None:
    """By its name."""
    problem = missing_survey_tools("shapely").problems[0]
    assert isinstance(problem.message, Message)
    assert dict(problem.message.values) == {"package": "shapely"}
    assert problem.hint == 'pip install "turfplan[survey]"'
