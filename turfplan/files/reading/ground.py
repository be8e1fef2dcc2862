"""Reads what a brief says of the ground: its shapes, a map, or a survey."""

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from turfplan.book.entries import Book
from turfplan.climate.record import Climate
from turfplan.planning import LawnGround
from turfplan.records.brief import Brief
from turfplan.site.outlines.shapes import LawnZone, area_of_shapes, zones_of_shapes
from turfplan.work.drafts import Band


def read_ground(brief: Brief, folder: Path, book: Book, climate: Climate) -> LawnGround | None:
    """Area, zones, bands of fill and map from shapes, GeoJSON or a survey.

    None where the brief gives plain numbers. Raises TurfplanError with every fault of them. A map
    must lie near the place of `climate`, where the brief says that place more closely than by a
    zone.
    """
    placed = brief.place.latitude is not None or brief.place.postal_code is not None
    area = lawn_area_m2(brief, folder, (climate.latitude, climate.longitude) if placed else None)
    zones = _zones(brief)
    if brief.leveling.survey is not None:
        from turfplan.files.reading.survey import ground_of_survey

        ground = ground_of_survey(brief, folder / brief.leveling.survey, book, area)
        return ground if ground.zones else replace(ground, zones=zones)
    if not brief.lawn.shape and brief.lawn.geojson is None:
        return None
    return LawnGround(area, _bands(brief, zones), zones=zones)


def lawn_area_m2(brief: Brief, folder: Path, near: tuple[float, float] | None = None) -> float:
    """The lawn's area in m2, typed, drawn or from a map that lies near (latitude, longitude).

    Raises TurfplanError for a drawing or a map that cannot be used.
    """
    if brief.lawn.shape:
        return area_of_shapes(brief.lawn.shape)
    if brief.lawn.geojson is not None:
        from turfplan.files.reading.geojson import area_of_geojson

        return area_of_geojson(folder / brief.lawn.geojson, near)
    assert brief.lawn.area_m2 is not None  # a brief gives one of the three
    return brief.lawn.area_m2


def _zones(brief: Brief) -> tuple[LawnZone, ...]:
    """The drawn zones, where one has a depth, grass or sun of its own.

    A zone without a depth is filled as the lawn is.
    """
    zones = zones_of_shapes(brief.lawn.shape) if brief.lawn.shape else ()
    if not any(zone.depth_mm is not None or zone.grass or zone.sun for zone in zones):
        return ()
    if not any(zone.depth_mm is not None for zone in zones):
        return zones
    rest = brief.leveling.depth_mm or 0.0
    return tuple(
        zone if zone.depth_mm is not None else replace(zone, depth_mm=rest) for zone in zones
    )


def _bands(brief: Brief, zones: Sequence[LawnZone]) -> tuple[Band, ...] | None:
    """Each zone as a band of its depth; None where no zone has one of its own."""
    if all(zone.depth_mm is None for zone in zones):
        return None
    return tuple(Band(zone.depth_mm, zone.share, zone.name) for zone in zones if zone.depth_mm)
