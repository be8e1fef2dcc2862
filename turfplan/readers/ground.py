"""Reads what a brief says of the ground: its shapes, a map, or a survey."""

from pathlib import Path

from turfplan.agronomy import Book
from turfplan.brief import Brief
from turfplan.planner import Ground
from turfplan.site.shapes import area_of_shapes


def read_ground(brief: Brief, folder: Path, book: Book) -> Ground | None:
    """Area, bands of fill and map from shapes, GeoJSON or a survey; None where the brief gives plain numbers."""
    area = brief.lawn.area_m2
    if brief.lawn.shape:
        area = area_of_shapes(brief.lawn.shape)
    elif brief.lawn.geojson is not None:
        from turfplan.readers.geojson import area_of_geojson

        area = area_of_geojson(folder / brief.lawn.geojson)
    if brief.leveling.survey is not None:
        from turfplan.readers.survey import ground_of_survey

        return ground_of_survey(brief, folder / brief.leveling.survey, book, area)
    if area == brief.lawn.area_m2 or area is None:
        return None
    return Ground(area)
