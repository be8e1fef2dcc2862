"""Draws the maps of a surveyed lawn: the ground, the finished surface, the fill, and each pass."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from turfplan.export.maps.contours import levels, outlines
from turfplan.export.maps.frame import Frame, Mark, frame_of, letter_spots, path
from turfplan.export.maps.picture import Contour, MapClass, MapPicture, bare_picture
from turfplan.export.maps.relief import (
    CellValues,
    arrows,
    height_lines,
    height_text,
    highest,
    lowest,
    unit_name,
)
from turfplan.message import Message, Quantity, listed, sentences
from turfplan.messages import Words
from turfplan.phrases import maps as phrases
from turfplan.records.plan import FillMap
from turfplan.units import INCH_MM, System, convert

# Patterns from light to dark; the letter on each class says the same without them.
PATTERNS = ("dots", "rain", "slant", "steep", "cross", "net")
LIFT = "bars"
# A layer thinner than this, mm, is not drawn.
THINNEST_MM = 0.2
# Areas of fewer units than this are told in single ones.
FEW_UNITS = 20


@dataclass(frozen=True, slots=True)
class _DepthClass:
    """A class of the fill.

    Its sign and pattern, what it means, the depths in mm between which it lies.
    """

    sign: str
    pattern: str
    name: Message
    low: float
    high: float

    @property
    def span(self) -> tuple[str, float, float]:
        """The sign with its depths."""
        return self.sign, self.low, self.high


def ground_map(lawn: FillMap, words: Words) -> MapPicture:
    """The bare ground in contours above its lowest point, with arrows down the slope."""
    heights, frame = _above_lowest(lawn), frame_of(lawn)
    step, contours, labels = height_lines("ground", heights, frame, lawn, words)
    every, rise = height_text(step, words), height_text(highest(heights), words)
    return replace(
        bare_picture(lawn, frame, "ground", phrases.ground_title(), words),
        contours=contours,
        labels=labels,
        arrows=arrows(heights, lawn, frame),
        description=words.text(phrases.ground_description(step=every, rise=rise)),
        note=words.text(phrases.ground_note(step=every, unit=unit_name(words))),
    )


def finished_map(lawn: FillMap, words: Words) -> MapPicture:
    """The finished surface in contours, the bare ground dotted behind them."""
    bare, frame = _above_lowest(lawn), frame_of(lawn)
    done = tuple(
        None if a is None or b is None else a + b for a, b in zip(bare, lawn.fill_mm, strict=True)
    )
    step, contours, labels = height_lines("finished", done, frame, lawn, words)
    steps = levels(0.0, highest(bare), step)
    before = outlines("ground", bare, lawn.columns, lawn.rows, steps)
    lines = (path(traced, frame) for traced in before)
    every = height_text(step, words)
    return replace(
        bare_picture(lawn, frame, "finished", phrases.finished_title(), words),
        contours=(Contour("".join(lines), heavy=False, old=True), *contours),
        labels=labels,
        arrows=arrows(done, lawn, frame),
        description=words.text(phrases.finished_description(step=every)),
        note=words.text(phrases.finished_note(step=every, unit=unit_name(words))),
    )


def fill_map(lawn: FillMap, depths: Sequence[float], words: Words) -> MapPicture:
    """The fill in classes by the passes it takes, with the stakes; `depths` are the passes, mm."""
    frame = frame_of(lawn)
    stakes = tuple(Mark(*frame.place(x, y), sign) for sign, x, y, _ in lawn.stakes)
    picture, legend = _classed(
        bare_picture(lawn, frame, "fill", phrases.fill_title(), words),
        lawn,
        _classes(_edges(lawn, depths), lawn),
        stakes,
        words,
    )
    described = sentences(
        phrases.fill_description(depth=Quantity(highest(lawn.fill_mm), "depth")),
        *legend,
        phrases.fill_stakes(n=len(stakes)),
    )
    return replace(picture, description=words.text(described), note=words.text(phrases.fill_note()))


def pass_map(lawn: FillMap, depths: Sequence[float], number: int, words: Words) -> MapPicture:
    """One pass: where it is spread at its full depth, and where it runs out to nothing.

    `depths` are those of all passes, mm; `number` counts from 1.
    """
    done, layer = sum(depths[: number - 1]), depths[number - 1]
    here, full = replace_fill(lawn, _layer(lawn, done, layer)), Quantity(layer, "depth")
    edge = layer - THINNEST_MM
    classes = [
        _DepthClass("E", "dots", phrases.class_feathered(depth=full), THINNEST_MM, edge),
        _DepthClass("F", "slant", phrases.class_full(depth=full), edge, math.inf),
    ]
    title = phrases.pass_title(number=number, passes=len(depths), depth=full)
    frame = frame_of(lawn)
    picture, legend = _classed(
        bare_picture(lawn, frame, f"pass{number}", title, words),
        here,
        classes,
        _pass_stakes(lawn, frame, done, layer, words),
        words,
    )
    described = phrases.pass_description(number=number, classes=listed(legend, "sentences"))
    return replace(picture, description=words.text(described), note=words.text(phrases.pass_note()))


def replace_fill(lawn: FillMap, fill: CellValues) -> FillMap:
    """The same map with another fill, mm."""
    return lawn.model_copy(update={"fill_mm": fill})


def layer_text(mm: float, words: Words) -> str:
    """The depth of a layer; less than the least that is measured is told as such."""
    least = INCH_MM / 8 if words.system is System.US else 1.0
    if mm < least / 2:
        return words.text(phrases.under(amount=Quantity(least, "depth")))
    return words.value(Quantity(max(mm, least), "depth"))


def _above_lowest(lawn: FillMap) -> CellValues:
    """The bare ground above its lowest point, mm."""
    low = lowest(lawn.ground_mm)
    return tuple(None if v is None else v - low for v in lawn.ground_mm)


def _layer(lawn: FillMap, done: float, layer: float) -> CellValues:
    """What a pass leaves on each cell when `done` lies there already, mm."""
    limit = lawn.deep_limit_mm or math.inf
    return tuple(
        None
        if v is None
        else 0.0
        if v > limit or v <= lawn.least_mm
        else min(max(v - done, 0.0), layer)
        for v in lawn.fill_mm
    )


def _classed(
    picture: MapPicture,
    lawn: FillMap,
    classes: Sequence[_DepthClass],
    stakes: tuple[Mark, ...],
    words: Words,
) -> tuple[MapPicture, tuple[Message, ...]]:
    """The picture with classes, letters, stakes and legend, and the legend as sentences."""
    frame = frame_of(lawn)
    edges = [c.low for c in classes]
    traced = outlines(picture.uid, lawn.fill_mm, lawn.columns, lawn.rows, edges)
    areas = _areas(lawn, classes)
    shown = [(c, _area_text(areas[c.sign], words)) for c in classes if areas.get(c.sign)]
    legend = tuple(
        (c.sign, c.pattern, words.text(phrases.class_legend(name=c.name, area=area)))
        for c, area in shown
    )
    drawn = replace(
        picture,
        bands=tuple(
            MapClass(c.sign, c.pattern, words.text(c.name), path(above, frame))
            for c, above in zip(classes, traced, strict=True)
        ),
        stakes=stakes,
        letters=letter_spots(lawn, [c.span for c in classes], frame, stakes),
        legend=legend,
        height=picture.height + 22.0 * ((len(legend) + 1) // 2),
    )
    return drawn, tuple(phrases.class_sentence(name=c.name, area=area) for c, area in shown)


def _edges(lawn: FillMap, depths: Sequence[float]) -> tuple[float, ...]:
    """The depths at which one more pass is needed; without passes, quarters of the deepest fill."""
    most = highest(lawn.fill_mm)
    cap = min(most, lawn.deep_limit_mm or most)
    if not depths:
        return tuple(cap * n / 4 for n in range(1, 4)) if cap > 0 else ()
    sums = [sum(depths[:n]) for n in range(1, len(depths) + 1)]
    return tuple(value for value in sums[:-1] if value < cap - 1e-6)


def _classes(edges: Sequence[float], lawn: FillMap) -> list[_DepthClass]:
    """The classes of the fill between the depths at which one more pass is needed, mm."""
    limit, most = lawn.deep_limit_mm or math.inf, highest(lawn.fill_mm)
    lows, highs = [max(lawn.least_mm, THINNEST_MM), *edges], [*edges, limit]
    classes = [
        _DepthClass(
            str(number),
            PATTERNS[min(number, len(PATTERNS)) - 1],
            phrases.class_passes(n=number, depth=Quantity(min(high, most), "depth")),
            low,
            high,
        )
        for number, (low, high) in enumerate(zip(lows, highs, strict=True), 1)
    ]
    if most > limit:
        name = phrases.class_lift(depth=Quantity(limit, "depth"))
        classes.append(_DepthClass("L", LIFT, name, limit, math.inf))
    return classes


def _areas(lawn: FillMap, classes: Sequence[_DepthClass]) -> dict[str, float]:
    """The area of each class in m2, by its cells."""
    each = lawn.width_m * lawn.depth_m
    return {
        c.sign: each * sum(c.low < v <= c.high for v in lawn.fill_mm if v is not None)
        for c in classes
    }


def _area_text(area_m2: float, words: Words) -> str:
    """An area on the map: whole feet or metres, as finely as cells can tell."""
    one = convert(1.0, "ft2" if words.system is System.US else "m2", "area")
    if area_m2 < one / 2:
        return words.text(phrases.under(amount=Quantity(one, "area", us_step=1, metric_step=1)))
    step = 1.0 if area_m2 < FEW_UNITS * one else None
    return words.value(Quantity(area_m2, "area", us_step=step, metric_step=step))


def _pass_stakes(
    lawn: FillMap, frame: Frame, done: float, layer: float, words: Words
) -> tuple[Mark, ...]:
    """The stakes that a pass reaches, with its depth there."""
    limit = lawn.deep_limit_mm or math.inf
    marks = []
    for sign, x, y, depth in lawn.stakes:
        here = 0.0 if depth > limit else min(max(depth - done, 0.0), layer)
        if here >= THINNEST_MM:
            text = words.text(phrases.stake(sign=sign, depth=layer_text(here, words)))
            marks.append(Mark(*frame.place(x, y), text))
    return tuple(marks)
