"""Draws the maps of a surveyed lawn: the ground, the finished surface, the fill, and each pass."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from turfplan.export.contours import Field, field_of, levels, loops
from turfplan.export.mapframe import Frame, Mark, Scale, frame_of, letter_spots, path, scale_of, ticks_of
from turfplan.export.templates import environment
from turfplan.plan import FillMap
from turfplan.units import INCH_MM, System, convert, from_inside, pretty_unit, read_as

# Patterns from light to dark; the letter on each class says the same without them.
PATTERNS = ("dots", "rain", "slant", "steep", "cross", "net")
LIFT = "bars"
# What stands between the lawn and the legend: numbers, scale bar, key of features, note.
BELOW = 102.0
NAMES = {"wall": "building", "paving": "edge of paving", "swale": "swale", "trunk": "tree"}
Cells = tuple[float | None, ...]


@dataclass(frozen=True, slots=True)
class Band:
    """One class of the map: its sign, its pattern, what it means, and its outline as SVG path data."""

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
class Feature:
    """A wall, an edge of paving, a swale or a trunk as path data, with its name and where that stands."""

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
    words: str
    width: float
    height: float
    outline: str
    bands: tuple[Band, ...]
    contours: tuple[Contour, ...]
    labels: tuple[Mark, ...]
    letters: tuple[Mark, ...]
    stakes: tuple[Mark, ...]
    arrows: str
    features: tuple[Feature, ...]
    ticks: tuple[tuple[str, float, float, str], ...]
    axis_note: str
    scale: Scale
    north: float | None
    axes: float | None
    legend: tuple[tuple[str, str, str], ...]
    legend_y: float
    note: str
    keys: tuple[tuple[str, str], ...] = ()


def svg_of(picture: MapPicture) -> str:
    """The picture as SVG text that stands alone."""
    module = environment().get_template("maps.svg.jinja").module
    return str(module.map(picture))  # type: ignore[attr-defined]  # a macro of the template


def ground_map(found: FillMap, system: System) -> MapPicture:
    """The bare ground in contours above its lowest point, with arrows down the slope."""
    low = min(v for v in found.ground_mm if v is not None)
    heights = tuple(None if v is None else v - low for v in found.ground_mm)
    picture, field, frame = _base(found, heights, "ground", "The ground as it is", system)
    step, contours, labels = _height_lines(heights, field, frame, found, system)
    rise = max(v for v in heights if v is not None)
    return replace(
        picture, contours=contours, labels=labels, arrows=_arrows(heights, found, frame),
        words=f"Plan view of the ground with contours every {_height(step, system)}; it rises {_height(rise, system)} from its lowest to its highest point.",
        note=f"Contours every {_height(step, system)}; the numbers are {_unit_words(system)} above the lowest point. Arrows point downhill.",
    )  # fmt: skip


def finished_map(found: FillMap, system: System) -> MapPicture:
    """The finished surface in contours, the bare ground dotted behind them."""
    low = min(v for v in found.ground_mm if v is not None)
    bare = tuple(None if v is None else v - low for v in found.ground_mm)
    done = tuple(None if a is None or b is None else a + b for a, b in zip(bare, found.fill_mm, strict=True))
    picture, field, frame = _base(found, done, "finished", "The ground when it is leveled", system)
    step, contours, labels = _height_lines(done, field, frame, found, system)
    before = field_of(bare, found.columns, found.rows)
    old = Contour(
        "".join(path(loops(before, level), frame) for level in levels(0.0, _most(bare), step)), heavy=False, old=True
    )
    return replace(
        picture, contours=(old, *contours), labels=labels, arrows=_arrows(done, found, frame),
        words=f"Plan view of the finished ground with contours every {_height(step, system)}; dotted contours are the ground before.",
        note=f"Contours every {_height(step, system)}; the numbers are {_unit_words(system)} above the lowest point; dotted: before. Arrows point downhill.",
    )  # fmt: skip


def fill_map(found: FillMap, depths: Sequence[float], system: System) -> MapPicture:
    """The fill in classes by the passes it takes, with the stakes."""
    picture, field, frame = _base(found, found.fill_mm, "fill", "The fill and its stakes", system)
    edges = _edges(found, depths)
    bands = tuple(
        Band(sign, pattern, text, path(loops(field, low), frame))
        for sign, pattern, text, low, _ in _classes(edges, found, system)
    )
    stakes = _stakes(found, frame)
    letters = letter_spots(
        found, [(sign, low, high) for sign, _, _, low, high in _classes(edges, found, system)], frame, stakes
    )
    areas = _areas(found, [(sign, low, high) for sign, _, _, low, high in _classes(edges, found, system)])
    legend = tuple(
        (b.sign, b.pattern, f"{b.text}: {_area_text(areas[b.sign], system)}") for b in bands if areas.get(b.sign)
    )
    return replace(
        _with_legend(picture, legend), bands=bands, stakes=stakes, letters=letters,
        words=f"Plan view of the fill, up to {read_as(_most(found.fill_mm), 'depth', system).text} deep. " + " ".join(f"{text}." for _, _, text in legend)
        + f" {len(stakes)} stakes stand where the stake list gives the depth.",
        note="White is left alone. A cross marks a stake; its sign is in the list.",
    )  # fmt: skip


def pass_map(found: FillMap, depths: Sequence[float], number: int, system: System) -> MapPicture:
    """One pass: where it is spread at its full depth, and where it runs out to nothing."""
    done, layer = sum(depths[: number - 1]), depths[number - 1]
    limit = found.deep_limit_mm or math.inf
    here = tuple(
        None if v is None else 0.0 if v > limit or v <= found.least_mm else min(max(v - done, 0.0), layer)
        for v in found.fill_mm
    )
    full = read_as(layer, "depth", system).text
    picture, field, frame = _base(found, here, f"pass{number}", f"Pass {number} of {len(depths)}: up to {full}", system)
    classes = [
        ("E", "dots", f"feathered out, less than {full}", 0.2, layer - 0.2),
        ("F", "slant", f"full depth, {full}", layer - 0.2, math.inf),
    ]
    bands = tuple(Band(sign, pattern, text, path(loops(field, low), frame)) for sign, pattern, text, low, _ in classes)
    spans = [(sign, low, high) for sign, _, _, low, high in classes]
    areas = _areas(replace_fill(found, here), spans)
    stakes = _stakes(found, frame, done, layer, system)
    legend = tuple(
        (b.sign, b.pattern, f"{b.text}: {_area_text(areas[b.sign], system)}") for b in bands if areas.get(b.sign)
    )
    return replace(
        _with_legend(picture, legend), bands=bands, stakes=stakes,
        letters=letter_spots(replace_fill(found, here), spans, frame, stakes),
        words=f"Plan view of pass {number}: " + " ".join(f"{text}." for _, _, text in legend),
        note="White gets nothing in this pass. A cross marks a stake with the depth of this pass there, settled.",
    )  # fmt: skip


def replace_fill(found: FillMap, fill: Cells) -> FillMap:
    """The same map with another fill."""
    return found.model_copy(update={"fill_mm": fill})


def _edges(found: FillMap, depths: Sequence[float]) -> tuple[float, ...]:
    """The depths at which one more pass is needed; without passes, quarters of the deepest fill."""
    most = _most(found.fill_mm)
    cap = min(most, found.deep_limit_mm or most)
    if not depths:
        return tuple(cap * n / 4 for n in range(1, 4)) if cap > 0 else ()
    sums = [sum(depths[:n]) for n in range(1, len(depths) + 1)]
    return tuple(value for value in sums[:-1] if value < cap - 1e-6)


def _classes(edges: Sequence[float], found: FillMap, system: System) -> list[tuple[str, str, str, float, float]]:
    """Sign, pattern, meaning, and the depths between which a class lies."""
    limit = found.deep_limit_mm or math.inf
    lows = [max(found.least_mm, 0.2), *edges]
    highs = [*edges, limit]
    found_classes = []
    for number, (low, high) in enumerate(zip(lows, highs, strict=True), 1):
        upper = min(high, _most(found.fill_mm))
        text = f"{number} pass{'es' if number > 1 else ''}, up to {read_as(upper, 'depth', system).text}"
        found_classes.append((str(number), PATTERNS[min(number, len(PATTERNS)) - 1], text, low, high))
    if _most(found.fill_mm) > limit:
        found_classes.append(
            ("L", LIFT, f"lift the turf and fill, over {read_as(limit, 'depth', system).text}", limit, math.inf)
        )
    return found_classes


def _areas(found: FillMap, spans: Sequence[tuple[str, float, float]]) -> dict[str, float]:
    """The area of each class in m2, by its cells."""
    each = found.width_m * found.depth_m
    return {sign: each * sum(low < v <= high for v in found.fill_mm if v is not None) for sign, low, high in spans}


def _area_text(area_m2: float, system: System) -> str:
    """An area on the map: whole feet or metres, as finely as cells can tell."""
    one = convert(1.0, "ft2" if system is System.US else "m2", "area")
    if area_m2 < one / 2:
        return f"under {read_as(one, 'area', system, step=1).text}"
    return read_as(area_m2, "area", system, step=1 if area_m2 < 20 * one else None).text


def _most(values: Sequence[float | None]) -> float:
    return max((v for v in values if v is not None), default=0.0)


def _base(found: FillMap, values: Cells, uid: str, title: str, system: System) -> tuple[MapPicture, Field, Frame]:
    """The empty map: outline, features, ticks, scale and north."""
    frame = frame_of(found)
    ticks = ticks_of(found, frame, system)
    return (
        MapPicture(
            uid=f"map-{uid}", title=title, words="", width=frame.width, height=frame.bottom + BELOW,
            outline="".join(_ring(ring, frame) for ring in (*found.outline, *found.holes)), bands=(), contours=(), labels=(),
            letters=(), stakes=(), arrows="", features=_features(found, frame), ticks=ticks,
            axis_note=f"x and y of the survey, {'ft' if system is System.US else 'm'}" if ticks else "",
            scale=scale_of(frame, system),
            north=None if found.north is None else math.degrees(frame.angle) - found.north,
            axes=None if ticks else math.degrees(frame.angle), legend=(), legend_y=frame.bottom + BELOW, note="", keys=_keys(found),
        ),
        field_of(values, found.columns, found.rows),
        frame,
    )  # fmt: skip


def _with_legend(picture: MapPicture, legend: tuple[tuple[str, str, str], ...]) -> MapPicture:
    return replace(picture, legend=legend, height=picture.height + 22.0 * ((len(legend) + 1) // 2))


def _ring(ring: Sequence[tuple[float, float]], frame: Frame) -> str:
    return "M" + " ".join(f"{x:.1f},{y:.1f}" for x, y in (frame.place(*point) for point in ring)) + "Z"


def _height_lines(
    heights: Cells, field: Field, frame: Frame, found: FillMap, system: System
) -> tuple[float, tuple[Contour, ...], tuple[Mark, ...]]:
    """Contours of a surface at a round step, each with its number where there is room."""
    step = _step(_most(heights) - min(v for v in heights if v is not None), system)
    contours: list[Contour] = []
    labels: list[Mark] = []
    for level in levels(min(v for v in heights if v is not None), _most(heights), step):
        traced = loops(field, level)
        contours.append(Contour(path(traced, frame)))
        for loop in sorted(traced, key=len, reverse=True)[:3]:
            if (spot := frame.label_spot(loop, found, labels)) is not None:
                labels.append(Mark(*spot, _number(level, system)))
    return step, tuple(contours), tuple(labels)


def _step(rise_mm: float, system: System) -> float:
    """A round step that gives about eight contours."""
    unit = INCH_MM if system is System.US else 1.0
    steps = (0.25, 0.5, 1, 2, 3, 6, 12, 24, 48) if system is System.US else (5, 10, 20, 50, 100, 200, 500, 1000)
    return next((s * unit for s in steps if rise_mm <= 9.5 * s * unit), steps[-1] * unit)


def _number(mm: float, system: System) -> str:
    value = from_inside(mm, "in", "length") if system is System.US else mm
    return f"{value:.2f}".rstrip("0").rstrip(".")


def _height(mm: float, system: System) -> str:
    return f"{_number(mm, system)} {_unit(system)}"


def _unit(system: System) -> str:
    return pretty_unit("in" if system is System.US else "mm")


def _unit_words(system: System) -> str:
    return "inches" if system is System.US else "millimetres"


def layer_text(mm: float, system: System) -> str:
    """The depth of a layer; less than the least that is measured is told as such."""
    least = INCH_MM / 8 if system is System.US else 1.0
    return (
        f"under {read_as(least, 'depth', system).text}"
        if mm < least / 2
        else read_as(max(mm, least), "depth", system).text
    )


def _stakes(
    found: FillMap, frame: Frame, done: float = 0.0, layer: float | None = None, system: System | None = None
) -> tuple[Mark, ...]:
    """The stakes of the map; for one pass those it reaches, with its depth there."""
    marks = []
    for sign, x, y, depth in found.stakes:
        text = sign
        if layer is not None and system is not None:
            here = 0.0 if depth > (found.deep_limit_mm or math.inf) else min(max(depth - done, 0.0), layer)
            if here < 0.2:
                continue
            text = f"{sign} {layer_text(here, system)}"
        marks.append(Mark(*frame.place(x, y), text))
    return tuple(marks)


def _features(found: FillMap, frame: Frame) -> tuple[Feature, ...]:
    drawn = []
    for kind, line in found.features:
        spots = [frame.place(*point) for point in line]
        x, y = (
            spots[len(spots) // 2]
            if len(spots) != 2
            else ((spots[0][0] + spots[1][0]) / 2, (spots[0][1] + spots[1][1]) / 2)
        )
        data = "M" + " L".join(f"{a:.1f},{b:.1f}" for a, b in spots)
        drawn.append(Feature(kind, data, NAMES[kind], round(x, 1), round(y, 1)))
    return tuple(drawn)


def _keys(found: FillMap) -> tuple[tuple[str, str], ...]:
    """The kinds of features on the map with their names, each once."""
    return tuple((kind, NAMES[kind]) for kind in dict.fromkeys(kind for kind, _ in found.features))


def _arrows(heights: Cells, found: FillMap, frame: Frame) -> str:
    """Short arrows down the slope on a coarse net, all of one length: the direction of water, not its speed."""
    step = max(2, round(max(found.columns, found.rows) / 7))
    reach = max(1, step // 3)
    data = []
    for row in range(step // 2, found.rows, step):
        for column in range(step // 2, found.columns, step):
            near = [
                _at(heights, found, column + dx, row + dy)
                for dx, dy in ((reach, 0), (-reach, 0), (0, reach), (0, -reach))
            ]
            if any(v is None for v in near):
                continue
            east, west, up, down = (v for v in near if v is not None)
            gx, gy = (west - east) / found.width_m, (down - up) / found.depth_m
            size = math.hypot(gx, gy)
            if size / (2 * reach) < 0.5:
                continue
            x, y = frame.cell(column, row)
            data.append(_arrow(x, y, gx / size, -gy / size))
    return "".join(data)


def _at(values: Cells, found: FillMap, column: int, row: int) -> float | None:
    if not (0 <= column < found.columns and 0 <= row < found.rows):
        return None
    return values[row * found.columns + column]


def _arrow(x: float, y: float, dx: float, dy: float, length: float = 18.0) -> str:
    tip_x, tip_y = x + dx * length / 2, y + dy * length / 2
    head = "".join(
        f"M{tip_x:.1f},{tip_y:.1f}l{-5 * (dx * math.cos(t) - dy * math.sin(t)):.1f},{-5 * (dx * math.sin(t) + dy * math.cos(t)):.1f}"
        for t in (0.5, -0.5)
    )
    return f"M{x - dx * length / 2:.1f},{y - dy * length / 2:.1f}L{tip_x:.1f},{tip_y:.1f}{head}"
