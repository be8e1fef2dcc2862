"""Reads a lawn's outline from a GeoJSON map and takes its area on the ellipsoid."""

import json
import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from turfplan.errors import Problem, TurfplanError, library_words
from turfplan.files.reading.named_files import named_bytes, utf8_text
from turfplan.message import Message, Worded, listed, said
from turfplan.phrases import ground as phrases
from turfplan.site.outlines.geodesy import distance_m, ellipsoid_area_m2, to_plane
from turfplan.site.outlines.polygons import Point, Ring, crossing_sides
from turfplan.site.outlines.shapes import holds, overlap

LARGEST_BYTES = 20_000_000
# Nobody mows beyond; such a latitude is a longitude in the wrong place.
FARTHEST_LATITUDE = 72.0
FAR_FROM_PLACE_M = 200_000.0
POLYGONS = phrases.map_polygons(
    types=listed(("Polygon", "MultiPolygon"), "or"), features="features"
)
TYPES = ("FeatureCollection", "Feature", "Polygon", "MultiPolygon")


@dataclass(frozen=True, slots=True)
class Outline:
    """One polygon of a map: outer ring and holes in (longitude, latitude), its name and use."""

    outer: Ring
    holes: tuple[Ring, ...]
    name: str | None = None
    is_hole: bool = False


def area_of_geojson(path: Path, near: tuple[float, float] | None = None) -> float:
    """Area in m2 of the lawn in a GeoJSON file, on the ellipsoid, holes taken out.

    `near` is the (latitude, longitude) of the brief: a map that lies far from it is an error, and
    swapped coordinates are told as such. Raises TurfplanError with every fault, MissingToolError
    where geographiclib is absent.
    """
    try:
        outlines = outlines_of_text(_text(path), near)
        return area_of_outlines(outlines)
    except TurfplanError as error:
        raise error.located(path.name) from None


def area_of_outlines(outlines: tuple[Outline, ...]) -> float:
    """The area in m2 of the lawns less their holes, on the ellipsoid.

    Raises TurfplanError where no lawn is left, MissingToolError where geographiclib is absent.
    """
    total = 0.0
    for outline in outlines:
        area = ellipsoid_area_m2(outline.outer) - sum(
            ellipsoid_area_m2(hole) for hole in outline.holes
        )
        total += -area if outline.is_hole else area
    if total <= 0:
        raise TurfplanError(Problem("", phrases.fault_no_lawn(), f"{total:.1f} m2"))
    return total


def outlines_of_text(text: str, near: tuple[float, float] | None = None) -> tuple[Outline, ...]:
    """The polygons of a GeoJSON text (RFC 7946); raises TurfplanError with every fault of them."""
    try:
        data = json.loads(text)
    except json.JSONDecodeError as error:
        place = phrases.name_line(number=error.lineno)
        raise TurfplanError(
            Problem(place, phrases.map_not_json(reason=library_words(error.msg)))
        ) from None
    faults = _other_coordinates(data)
    outlines = list(_polygons(data, _MapPlace(), faults))
    if not faults and not outlines:
        faults.append(Problem("", phrases.map_no_polygon(), None, POLYGONS))
    for number, outline in enumerate(outlines, 1):
        faults += _faults(phrases.name_polygon(number=number), outline, near)
    if not faults:
        faults += _together(outlines)
    if faults:
        raise TurfplanError(faults)
    return tuple(outlines)


def _other_coordinates(data: Any) -> list[Problem]:
    """The fault of a map in another system of coordinates than GeoJSON's own."""
    crs = data.get("crs") if isinstance(data, dict) else None
    if not crs or any(name in json.dumps(crs) for name in ("CRS84", "4326")):
        return []
    return [Problem("crs", phrases.map_other_crs(), None, None, phrases.map_other_crs_hint())]


def _text(path: Path) -> str:
    raw = named_bytes(path, "lawn.geojson")
    if len(raw) > LARGEST_BYTES:
        raise TurfplanError(Problem("", phrases.map_too_large()))
    return utf8_text(raw)


@dataclass(frozen=True, slots=True)
class _MapPlace:
    """Where in a map an object stands, and what the feature around it says of it."""

    where: Worded = ""
    name: str | None = None
    is_hole: bool = False

    def of(self, kind: str) -> Worded:
        """The place of an object of that kind here."""
        return phrases.name_within(place=said(self.where), kind=kind) if self.where else kind


def _polygons(data: Any, at: _MapPlace, faults: list[Problem]) -> Iterator[Outline]:
    """Every polygon in a GeoJSON object; points and lines are passed over: they have no area."""
    if not isinstance(data, dict):
        faults.append(Problem(at.where, phrases.map_not_geojson()))
        return
    kind = data.get("type")
    here = at.of(str(kind))
    if kind == "FeatureCollection":
        features = _list(
            data.get("features"), phrases.name_within(place=said(here), kind="features"), faults
        )
        for n, feature in enumerate(features, 1):
            yield from _polygons(feature, replace(at, where=phrases.name_feature(number=n)), faults)
    elif kind == "Feature":
        yield from _polygons(data.get("geometry"), _described(data, at), faults)
    elif kind == "GeometryCollection":
        for geometry in _list(data.get("geometries"), here, faults):
            yield from _polygons(geometry, replace(at, where=here), faults)
    elif kind in ("Polygon", "MultiPolygon"):
        yield from _outlines(data, replace(at, where=here), faults)
    elif kind not in ("Point", "MultiPoint", "LineString", "MultiLineString"):
        faults.append(
            Problem(at.where or "type", phrases.map_unknown_type(), repr(kind), ", ".join(TYPES))
        )


def _described(feature: dict[str, Any], at: _MapPlace) -> _MapPlace:
    """The place of a feature's geometry, with what the feature's properties say of it."""
    properties = feature.get("properties") or {}
    title = properties.get("name")
    name = str(title) if title else at.name
    return replace(at, name=name, is_hole=properties.get("hole") is True)


def _outlines(data: dict[str, Any], at: _MapPlace, faults: list[Problem]) -> Iterator[Outline]:
    """The outlines of a Polygon or a MultiPolygon, those without a broken ring."""
    coordinates = _list(data.get("coordinates"), at.where, faults)
    parts = [coordinates] if data.get("type") == "Polygon" else coordinates
    for n, rings in enumerate(parts, 1):
        read = [
            _ring(ring, phrases.name_ring(place=said(at.where), number=n, ring=m), faults)
            for m, ring in enumerate(_list(rings, at.where, faults), 1)
        ]
        whole = [ring for ring in read if ring is not None]
        if read and len(whole) == len(read):
            yield Outline(whole[0], tuple(whole[1:]), at.name, at.is_hole)


def _list(value: Any, where: Worded, faults: list[Problem]) -> list[Any]:
    if isinstance(value, list):
        return value
    faults.append(Problem(where, phrases.map_not_list()))
    return []


def _ring(value: Any, where: Message, faults: list[Problem]) -> Ring | None:
    points: list[Point] = []
    for n, position in enumerate(_list(value, where, faults), 1):
        numbers = position[:2] if isinstance(position, list) else []
        if len(numbers) < 2 or not all(
            isinstance(v, int | float) and not isinstance(v, bool) and math.isfinite(v)
            for v in numbers
        ):
            faults.append(
                Problem(
                    phrases.name_position(ring=where, number=n),
                    phrases.map_no_pair(),
                    json.dumps(position)[:60],
                )
            )
            return None
        points.append((float(numbers[0]), float(numbers[1])))
    if len(points) < 4 or points[0] != points[-1]:
        faults.append(Problem(where, phrases.map_not_closed(), None, phrases.map_closed()))
        return None
    return tuple(points[:-1])


def _faults(where: Message, outline: Outline, near: tuple[float, float] | None) -> list[Problem]:
    """What is wrong with one polygon: where it lies first, then its shape."""
    misplaced = _misplaced(where, outline, near)
    if misplaced is not None:
        return [misplaced]
    outer, *holes = to_plane((outline.outer, *outline.holes))
    names = [phrases.name_polygon_hole(polygon=where, hole=n) for n in range(1, len(holes) + 1)]
    crossing = [
        Problem(
            name,
            phrases.fault_outline_crosses(),
            phrases.fault_sides(first=sides[0], second=sides[1]),
        )
        for name, ring in zip((where, *names), (outer, *holes), strict=True)
        if (sides := crossing_sides(ring))
    ]
    return crossing or [
        Problem(name, phrases.map_hole_outside())
        for name, hole in zip(names, holes, strict=True)
        if not holds(outer, hole)
    ]


def _misplaced(
    where: Message, outline: Outline, near: tuple[float, float] | None
) -> Problem | None:
    """The fault of a polygon that lies where no lawn can be: mostly its coordinates are swapped."""
    hint = phrases.map_longitude_first()
    for x, y in (p for ring in (outline.outer, *outline.holes) for p in ring):
        if abs(y) > 90 or abs(x) > 180:
            swapped = abs(x) <= 90 and abs(y) <= 180
            fault = phrases.map_swapped() if swapped else phrases.map_not_on_earth()
            return Problem(where, fault, _pair(x, y), phrases.map_ranges(), hint)
    x, y = outline.outer[0]
    if near is not None and distance_m((x, y), (near[1], near[0])) > FAR_FROM_PLACE_M:
        swapped = abs(x) <= 90 and distance_m((y, x), (near[1], near[0])) < FAR_FROM_PLACE_M
        fault = phrases.map_swapped() if swapped else phrases.map_far()
        wanted = phrases.map_near(place=_pair(near[1], near[0]))
        return Problem(where, fault, _pair(x, y), wanted, hint)
    if abs(y) > FARTHEST_LATITUDE and abs(x) <= FARTHEST_LATITUDE:
        return Problem(where, phrases.map_looks_swapped(), _pair(x, y), None, hint)
    return None


def _pair(x: float, y: float) -> str:
    """Longitude and latitude as GeoJSON writes them."""
    return f"[{x:g}, {y:g}]"


def _together(outlines: list[Outline]) -> list[Problem]:
    """Lawns that overlap would count twice."""
    rings = to_plane(tuple(outline.outer for outline in outlines))
    lawns = [
        (phrases.name_polygon(number=n), ring)
        for n, (outline, ring) in enumerate(zip(outlines, rings, strict=True), 1)
        if not outline.is_hole
    ]
    return [
        Problem(name, phrases.map_overlaps(), other_name)
        for i, (name, ring) in enumerate(lawns)
        for other_name, other in lawns[:i]
        if overlap(ring, other)
    ]
