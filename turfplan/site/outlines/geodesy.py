"""Outlines in longitude and latitude: their area on the ellipsoid and their shape in a plane."""

import math
from collections.abc import Sequence

from turfplan.errors import MissingToolError, Problem
from turfplan.phrases import ground as phrases
from turfplan.site.outlines.polygons import Point, Ring

# WGS 84 (defining constants of the datum): equatorial radius in m, flattening.
EQUATOR_M = 6_378_137.0
FLATTENING = 1 / 298.257223563


def missing_survey_tools(tool: str) -> MissingToolError:
    """The error of a machine without the optional packages that surveys and maps need."""
    return MissingToolError(
        Problem(
            "",
            phrases.fault_needs_package(package=tool),
            None,
            None,
            'pip install "turfplan[survey]"',
        )
    )


def ellipsoid_area_m2(ring: Sequence[Point]) -> float:
    """Area in m2 inside a ring of (longitude, latitude) in degrees.

    Its sides are the shortest lines on WGS 84. Computed by geographiclib (C. F. F. Karney,
    Algorithms for geodesics, J. Geodesy 87, 2013, section 6). Raises MissingToolError where that
    package is absent.
    """
    try:
        from geographiclib.geodesic import Geodesic
    except ImportError:
        raise missing_survey_tools("geographiclib") from None
    polygon = Geodesic.WGS84.Polygon()
    for longitude, latitude in ring:
        polygon.AddPoint(latitude, longitude)
    _, _, area = polygon.Compute()
    return abs(float(area))


def to_plane(rings: Sequence[Ring]) -> tuple[Ring, ...]:
    """Rings of (longitude, latitude) in degrees as metres east and north of their first point.

    For pictures and checks. Uses the radii of curvature of the ellipsoid at that point; within a
    kilometre it errs by centimetres. Areas are taken from `ellipsoid_area_m2`, not from here.
    """
    east0, north0 = rings[0][0]
    e2 = FLATTENING * (2 - FLATTENING)
    sine = math.sin(math.radians(north0))
    across = EQUATOR_M / math.sqrt(1 - e2 * sine * sine)
    along = across * (1 - e2) / (1 - e2 * sine * sine)

    def place(point: Point) -> Point:
        # The short way around, so that a lawn on the date line does not reach around the world.
        turn = (point[0] - east0 + 180) % 360 - 180
        return (
            math.radians(turn) * across * math.cos(math.radians(north0)),
            math.radians(point[1] - north0) * along,
        )

    return tuple(tuple(place(point) for point in ring) for ring in rings)


def distance_m(first: Point, second: Point) -> float:
    """Distance in m between two (longitude, latitude), on a sphere: good to half a percent."""
    (lon0, lat0), (lon1, lat1) = ((math.radians(v) for v in point) for point in (first, second))
    half = (
        math.sin((lat1 - lat0) / 2) ** 2
        + math.cos(lat0) * math.cos(lat1) * math.sin((lon1 - lon0) / 2) ** 2
    )
    return 2 * EQUATOR_M * math.asin(min(1.0, math.sqrt(half)))
