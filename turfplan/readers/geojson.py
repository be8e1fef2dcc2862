"""Reads a lawn's outline from a GeoJSON map and takes its area on the ellipsoid."""

import json
import math
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from turfplan.errors import Problem, TurfplanError
from turfplan.site.geodesy import distance_m, ellipsoid_area_m2, to_plane
from turfplan.site.polygons import Point, Ring, crossing_sides
from turfplan.site.shapes import holds, overlap

LARGEST_BYTES = 20_000_000
# Nobody mows beyond; such a latitude is a longitude in the wrong place.
FARTHEST_LATITUDE = 72.0
FAR_FROM_PLACE_M = 200_000.0
HINT_ORDER = "GeoJSON writes longitude first, then latitude"


@dataclass(frozen=True, slots=True)
class Outline:
    """One polygon of a map: its outer ring and its holes, in (longitude, latitude), with its name and use."""

    outer: Ring
    holes: tuple[Ring, ...]
    name: str | None = None
    is_hole: bool = False


def area_of_geojson(path: Path, near: tuple[float, float] | None = None) -> float:
    """Area in m2 of the lawn in a GeoJSON file, its sides the shortest lines on the ellipsoid, holes taken out.

    `near` is the (latitude, longitude) of the brief: a map that lies far from it is an error, and swapped coordinates are
    told as such. Raises TurfplanError with every fault, MissingToolError where geographiclib is absent.
    """
    try:
        outlines = outlines_of_text(_text(path), near)
        return area_of_outlines(outlines)
    except TurfplanError as error:
        raise error.located(path.name) from None


def area_of_outlines(outlines: tuple[Outline, ...]) -> float:
    """The area in m2 of the lawns less their holes, on the ellipsoid."""
    total = 0.0
    for outline in outlines:
        area = ellipsoid_area_m2(outline.outer) - sum(ellipsoid_area_m2(hole) for hole in outline.holes)
        total += -area if outline.is_hole else area
    if total <= 0:
        raise TurfplanError(Problem("", "no lawn is left once the holes are taken out", f"{total:.1f} m2"))
    return total


def outlines_of_text(text: str, near: tuple[float, float] | None = None) -> tuple[Outline, ...]:
    """The polygons of a GeoJSON text (RFC 7946), checked."""
    try:
        data = json.loads(text)
    except json.JSONDecodeError as error:
        raise TurfplanError(Problem(f"line {error.lineno}", f"is not JSON: {error.msg}")) from None
    faults: list[Problem] = []
    if (
        isinstance(data, dict)
        and data.get("crs")
        and "CRS84" not in json.dumps(data["crs"])
        and "4326" not in json.dumps(data["crs"])
    ):
        faults.append(
            Problem(
                "crs",
                "coordinates must be longitude and latitude (WGS 84)",
                None,
                None,
                "export the map as GeoJSON in WGS 84",
            )
        )
    found = list(_polygons(data, "", None, False, faults))
    if not faults and not found:
        faults.append(Problem("", "holds no polygon", None, "Polygon or MultiPolygon, alone or in features"))
    for number, outline in enumerate(found, 1):
        faults += _faults(f"polygon {number}", outline, near)
    if not faults:
        faults += _together(found)
    if faults:
        raise TurfplanError(faults)
    return tuple(found)


def _text(path: Path) -> str:
    try:
        raw = path.read_bytes()
    except FileNotFoundError:
        raise TurfplanError(
            Problem("", "no such file", str(path), None, "lawn.geojson is found from the brief's folder")
        ) from None
    except OSError as error:
        raise TurfplanError(Problem("", f"cannot be read ({error.strerror})")) from None
    if len(raw) > LARGEST_BYTES:
        raise TurfplanError(Problem("", "is too large for the map of a lawn"))
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise TurfplanError(Problem("", f"is not UTF-8 text (byte {error.start})")) from None


def _polygons(data: Any, where: str, name: str | None, is_hole: bool, faults: list[Problem]) -> Iterator[Outline]:
    """Every polygon in a GeoJSON object; points and lines beside them are passed over, since they have no area."""
    if not isinstance(data, dict):
        faults.append(Problem(where, "is not a GeoJSON object"))
        return
    kind = data.get("type")
    here = f"{where}.{kind}" if where else str(kind)
    if kind == "FeatureCollection":
        for n, feature in enumerate(_list(data.get("features"), f"{here}.features", faults), 1):
            yield from _polygons(feature, f"feature {n}", name, is_hole, faults)
    elif kind == "Feature":
        properties = data.get("properties") or {}
        title = properties.get("name")
        yield from _polygons(
            data.get("geometry"), where, str(title) if title else name, properties.get("hole") is True, faults
        )
    elif kind == "GeometryCollection":
        for geometry in _list(data.get("geometries"), here, faults):
            yield from _polygons(geometry, here, name, is_hole, faults)
    elif kind in ("Polygon", "MultiPolygon"):
        coordinates = _list(data.get("coordinates"), here, faults)
        for n, rings in enumerate([coordinates] if kind == "Polygon" else coordinates, 1):
            read = [
                _ring(ring, f"{here} {n}, ring {m}", faults) for m, ring in enumerate(_list(rings, here, faults), 1)
            ]
            if read and all(ring is not None for ring in read):
                rings_read = [ring for ring in read if ring is not None]
                yield Outline(rings_read[0], tuple(rings_read[1:]), name, is_hole)
    elif kind not in ("Point", "MultiPoint", "LineString", "MultiLineString"):
        faults.append(
            Problem(
                where or "type",
                "is not a type of GeoJSON",
                repr(kind),
                "FeatureCollection, Feature, Polygon, MultiPolygon",
            )
        )


def _list(value: Any, where: str, faults: list[Problem]) -> list[Any]:
    if isinstance(value, list):
        return value
    faults.append(Problem(where, "is not a list"))
    return []


def _ring(value: Any, where: str, faults: list[Problem]) -> Ring | None:
    points: list[Point] = []
    for n, position in enumerate(_list(value, where, faults), 1):
        numbers = position[:2] if isinstance(position, list) else []
        if len(numbers) < 2 or not all(
            isinstance(v, int | float) and not isinstance(v, bool) and math.isfinite(v) for v in numbers
        ):
            faults.append(Problem(f"{where}, position {n}", "is not a pair of numbers", json.dumps(position)[:60]))
            return None
        points.append((float(numbers[0]), float(numbers[1])))
    if len(points) < 4 or points[0] != points[-1]:
        faults.append(
            Problem(
                where, "is not closed", None, "four positions or more, the last equal to the first (RFC 7946, 3.1.6)"
            )
        )
        return None
    return tuple(points[:-1])


def _faults(where: str, outline: Outline, near: tuple[float, float] | None) -> list[Problem]:
    """What is wrong with one polygon: where it lies first, then its shape."""
    misplaced = _misplaced(where, outline, near)
    if misplaced is not None:
        return [misplaced]
    outer, *holes = to_plane((outline.outer, *outline.holes))
    found = []
    for n, ring in enumerate((outer, *holes)):
        if sides := crossing_sides(ring):
            name = where if n == 0 else f"{where}, hole {n}"
            found.append(Problem(name, "the outline crosses itself", f"side {sides[0]} and side {sides[1]}"))
    if not found:
        found += [
            Problem(f"{where}, hole {n}", "does not lie inside its polygon")
            for n, hole in enumerate(holes, 1)
            if not holds(outer, hole)
        ]
    return found


def _misplaced(where: str, outline: Outline, near: tuple[float, float] | None) -> Problem | None:
    """The fault of a polygon that lies where no lawn can be, most often for its coordinates being swapped."""
    for x, y in (p for ring in (outline.outer, *outline.holes) for p in ring):
        if abs(y) > 90 or abs(x) > 180:
            swapped = abs(x) <= 90 and abs(y) <= 180
            words = "latitude and longitude are swapped" if swapped else "is not on the Earth"
            allowed = "longitude -180 to 180, then latitude -90 to 90"
            return Problem(where, words, f"[{x:g}, {y:g}]", allowed, HINT_ORDER)
    x, y = outline.outer[0]
    got = f"[{x:g}, {y:g}]"
    if near is not None and distance_m((x, y), (near[1], near[0])) > FAR_FROM_PLACE_M:
        swapped = abs(x) <= 90 and distance_m((y, x), (near[1], near[0])) < FAR_FROM_PLACE_M
        words = "latitude and longitude are swapped" if swapped else "lies far from the place of the brief"
        return Problem(where, words, got, f"near [{near[1]:g}, {near[0]:g}]", HINT_ORDER)
    if abs(y) > FARTHEST_LATITUDE and abs(x) <= FARTHEST_LATITUDE:
        return Problem(where, "latitude and longitude look swapped: no lawn grows there", got, None, HINT_ORDER)
    return None


def _together(outlines: list[Outline]) -> list[Problem]:
    """Lawns that overlap would count twice."""
    rings = to_plane(tuple(outline.outer for outline in outlines))
    lawns = [(n, ring) for n, (outline, ring) in enumerate(zip(outlines, rings, strict=True), 1) if not outline.is_hole]
    return [
        Problem(f"polygon {n}", "overlaps another polygon, whose area would count twice", f"polygon {m}")
        for i, (n, ring) in enumerate(lawns)
        for m, other in lawns[:i]
        if overlap(ring, other)
    ]
