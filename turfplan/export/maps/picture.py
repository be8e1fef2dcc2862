"""The empty map of a surveyed lawn (outline, features, ticks, scale, north), and how it is SVG."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from turfplan.export.maps.frame import Frame, Mark, ScaleBar, scale_of, ticks_of
from turfplan.export.templates import environment, speaker
from turfplan.message import Message
from turfplan.messages import Words
from turfplan.phrases import maps as phrases
from turfplan.records.plan import FillMap
from turfplan.units import System

# What stands between the lawn and the legend: numbers, scale bar, key of features, note.
BELOW = 102.0
NAMES = {
    "wall": phrases.feature_wall(),
    "paving": phrases.feature_paving(),
    "swale": phrases.feature_swale(),
    "trunk": phrases.feature_trunk(),
}


@dataclass(frozen=True, slots=True)
class MapClass:
    """One class of the map.

    Its sign, its pattern, what it means, and its outline as SVG path data.
    """

    sign: str
    pattern: str
    text: str
    path: str


@dataclass(frozen=True, slots=True)
class Contour:
    """Lines of one height as SVG path data; heavy ones carry a number."""

    path: str
    heavy: bool = True
    old: bool = False


@dataclass(frozen=True, slots=True)
class MapFeature:
    """A wall, an edge of paving, a swale or a trunk as path data, and where its name stands."""

    kind: str
    path: str
    name: str
    x: float
    y: float


@dataclass(frozen=True, slots=True)
class MapPicture:
    """One map, laid out: everything in the units of its viewBox, y downward."""

    uid: str
    title: str
    description: str
    width: float
    height: float
    outline: str
    bands: tuple[MapClass, ...]
    contours: tuple[Contour, ...]
    labels: tuple[Mark, ...]
    letters: tuple[Mark, ...]
    stakes: tuple[Mark, ...]
    arrows: str
    features: tuple[MapFeature, ...]
    ticks: tuple[tuple[str, float, float, str], ...]
    axis_note: str
    scale: ScaleBar
    north: float | None
    axes: float | None
    legend: tuple[tuple[str, str, str], ...]
    legend_y: float
    note: str
    keys: tuple[tuple[str, str], ...] = ()


def svg_of(picture: MapPicture, words: Words) -> str:
    """The picture as SVG text that stands alone."""
    template = environment().get_template("maps.svg.jinja")
    module = template.make_module({"say": speaker(words)})
    return str(module.map(picture))  # type: ignore[attr-defined]  # a macro of the template


def bare_picture(lawn: FillMap, frame: Frame, uid: str, title: Message, words: Words) -> MapPicture:
    """The empty map: outline, features, ticks, scale and north."""
    ticks = ticks_of(lawn, frame, words)
    unit = "ft" if words.system is System.US else "m"
    return MapPicture(
        uid=f"map-{uid}",
        title=words.text(title),
        description="",
        width=frame.width,
        height=frame.bottom + BELOW,
        outline="".join(_ring(ring, frame) for ring in (*lawn.outline, *lawn.holes)),
        bands=(),
        contours=(),
        labels=(),
        letters=(),
        stakes=(),
        arrows="",
        features=_features(lawn, frame, words),
        ticks=ticks,
        axis_note=words.text(phrases.axes(unit=unit)) if ticks else "",
        scale=scale_of(frame, words),
        north=None if lawn.north is None else math.degrees(frame.angle) - lawn.north,
        axes=None if ticks else math.degrees(frame.angle),
        legend=(),
        legend_y=frame.bottom + BELOW,
        note="",
        keys=_keys(lawn, words),
    )


def _ring(ring: Sequence[tuple[float, float]], frame: Frame) -> str:
    return (
        "M" + " ".join(f"{x:.1f},{y:.1f}" for x, y in (frame.place(*point) for point in ring)) + "Z"
    )


def _features(lawn: FillMap, frame: Frame, words: Words) -> tuple[MapFeature, ...]:
    drawn = []
    for kind, line in lawn.features:
        spots = [frame.place(*point) for point in line]
        x, y = (
            spots[len(spots) // 2]
            if len(spots) != 2
            else ((spots[0][0] + spots[1][0]) / 2, (spots[0][1] + spots[1][1]) / 2)
        )
        data = "M" + " L".join(f"{a:.1f},{b:.1f}" for a, b in spots)
        name = words.text(NAMES[kind])
        drawn.append(MapFeature(kind, data, name, round(x, 1), round(y, 1)))
    return tuple(drawn)


def _keys(lawn: FillMap, words: Words) -> tuple[tuple[str, str], ...]:
    """The kinds of features on the map with their names, each once."""
    kinds = dict.fromkeys(kind for kind, _ in lawn.features)
    return tuple((kind, words.text(NAMES[kind])) for kind in kinds)
