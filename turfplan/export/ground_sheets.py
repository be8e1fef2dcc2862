"""The fill of a surveyed lawn for the sheets: its figures and pictures, the stake-out list, and a page for each pass."""

import base64
from collections.abc import Sequence
from dataclasses import dataclass

from turfplan.export.maps import fill_map, finished_map, ground_map, layer_text, pass_map, svg_of
from turfplan.plan import Fill, FillMap, Plan, Task
from turfplan.units import FOOT_M, System, pretty_unit, read_as

# Less than this, mm, is nothing that a stake could show.
LEAST_LAYER_MM = 0.2


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture as an address that holds the picture itself."""

    caption: str
    address: str


@dataclass(frozen=True, slots=True)
class StakeList:
    """The stakes as a table: headings, and a line for each stake."""

    header: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True)
class FillView:
    """The fill map with its figures as people read them; `pictures` are all maps, `map` that of the fill alone."""

    mean_depth: str
    volume: str
    reach: str
    notes: tuple[str, ...]
    pictures: tuple[Picture, ...]
    stakes: StakeList | None
    map: Picture | None = None


@dataclass(frozen=True, slots=True)
class PassSheet:
    """The page of one pass to carry outside: its map and its stakes. `key` names its place in the page."""

    key: str
    task_id: str
    picture: Picture
    stakes: StakeList | None


def fill_view(plan: Plan, *, every: bool = False) -> FillView | None:
    """Figures, the fill map and all stakes of a plan that has a survey; with `every` all its pictures, that of the fill first."""
    fill, system = plan.fill, plan.lawn.units
    if fill is None:
        return None
    maps = _fill_first(fill_pictures(plan)) if every else tuple(found for found in (fill_picture(plan),) if found)
    pictures = tuple(Picture(caption, address(svg)) for caption, svg in (*maps, *(fill.pictures if every else ())))
    # In the steps of the notes beside them, so that one page tells one figure.
    low = read_as(fill.volume_low_m3, "volume", system, "down", step=0.05).text
    high = read_as(fill.volume_high_m3, "volume", system, "up", step=0.05).text
    return FillView(
        mean_depth=layer_text(fill.mean_depth_mm, system),
        volume=read_as(fill.volume_m3, "volume", system, step=0.05).text,
        reach=f"{low} and {high}",
        notes=fill.notes,
        pictures=pictures if every else (),
        stakes=_all_stakes(plan, fill),
        map=pictures[0] if maps else None,
    )


def _fill_first(drawn: Sequence[tuple[str, str]]) -> Sequence[tuple[str, str]]:
    """The maps with that of the fill before those of the ground."""
    return (*drawn[2:3], *drawn[:2], *drawn[3:])


def pass_sheets(plan: Plan) -> tuple[PassSheet, ...]:
    """A page for every pass that is still to be spread, in the order of the passes; none without a survey."""
    found = []
    for number, (task, _) in enumerate(spread_passes(plan), 1):
        drawn = pass_picture(plan, number) if task.closed is None else None
        if drawn is not None:
            picture = Picture(drawn[0], address(drawn[1]))
            found.append(PassSheet(f"map-{task.id.replace('.', '-')}", task.id, picture, _pass_stakes(plan, number)))
    return tuple(found)


def fill_pictures(plan: Plan) -> tuple[tuple[str, str], ...]:
    """Every map of a surveyed plan as (caption, SVG text): ground, finished ground, fill, each pass; none without a survey."""
    found = plan.fill.map if plan.fill else None
    if found is None:
        return ()
    depths, system = [depth for _, depth in spread_passes(plan)], plan.lawn.units
    drawn = [ground_map(found, system), finished_map(found, system), fill_map(found, depths, system)]
    drawn += [pass_map(found, depths, number, system) for number in range(1, len(depths) + 1)]
    return tuple((picture.title, svg_of(picture)) for picture in drawn)


def fill_picture(plan: Plan) -> tuple[str, str] | None:
    """The map of the fill with its stakes, or None where there is no survey."""
    found = plan.fill.map if plan.fill else None
    if found is None:
        return None
    picture = fill_map(found, [depth for _, depth in spread_passes(plan)], plan.lawn.units)
    return picture.title, svg_of(picture)


def pass_picture(plan: Plan, number: int) -> tuple[str, str] | None:
    """The map of one pass for the sheet of its week, or None where there is no survey or no such pass."""
    found, depths = plan.fill.map if plan.fill else None, [depth for _, depth in spread_passes(plan)]
    if found is None or not 1 <= number <= len(depths):
        return None
    picture = pass_map(found, depths, number, plan.lawn.units)
    return picture.title, svg_of(picture)


def spread_passes(plan: Plan) -> tuple[tuple[Task, float], ...]:
    """Every pass that the plan holds with its settled depth in mm, in order: the first is pass 1 of the maps."""
    passes = [t for t in plan.tasks if t.plays("spreading") and t.closed not in ("skipped", "dropped")]
    numbered = sorted(passes, key=lambda task: (task.start, task.id))
    return tuple((task, a.value) for task in numbered for a in task.amounts if a.item == "depth" and a.value > 0)


def address(svg: str) -> str:
    """A picture as a data address: nothing inside it can act on the page, and its ids cannot clash with the page's."""
    return "data:image/svg+xml;base64," + base64.b64encode(svg.encode()).decode("ascii")


def _all_stakes(plan: Plan, fill: Fill) -> StakeList | None:
    """Every stake with its whole fill and the layer of each pass; stakes without a map as they were written."""
    system, depths = plan.lawn.units, [depth for _, depth in spread_passes(plan)]
    if not fill.stakes:
        return None
    if fill.map is None or len(fill.map.stakes) != len(fill.stakes):
        columns = tuple(dict.fromkeys(key for stake in fill.stakes for key in stake))
        rows = (tuple(_stake_value(c, stake.get(c), system) for c in columns) for stake in fill.stakes)
        return StakeList(tuple(_stake_name(column, system) for column in columns), tuple(rows))
    lines = []
    for (sign, _, _, depth), stake in zip(fill.map.stakes, fill.stakes, strict=True):
        layers = _layers(depth, depths, fill.map)
        texts = ["lift and fill", *[""] * (len(depths) - 1)] if layers is None else [_text(v, system) for v in layers]
        lines.append((sign, str(stake["place"]), _text(depth, system), *texts[: max(1, len(depths))]))
    header = ("Stake", "Where", "Fill in all", *(f"Pass {n}" for n in range(1, len(depths) + 1)))
    return StakeList(header if depths else (*header, "Work"), tuple(lines))


def _pass_stakes(plan: Plan, number: int) -> StakeList | None:
    """The stakes that one pass reaches: its own layer, and how high the fill then stands above the old ground."""
    fill, system, depths = plan.fill, plan.lawn.units, [depth for _, depth in spread_passes(plan)]
    if fill is None or fill.map is None or len(fill.map.stakes) != len(fill.stakes):
        return None
    lines = []
    for (sign, _, _, depth), stake in zip(fill.map.stakes, fill.stakes, strict=True):
        layers = _layers(depth, depths, fill.map)
        if layers is not None and layers[number - 1] >= LEAST_LAYER_MM:
            so_far = sum(layers[:number])
            lines.append((sign, str(stake["place"]), _text(layers[number - 1], system), _text(so_far, system)))
    header = ("Stake", "Where", "This pass, settled", "All so far, settled")
    return StakeList(header, tuple(lines)) if lines else None


def _layers(depth_mm: float, depths: Sequence[float], found: FillMap) -> list[float] | None:
    """What each pass leaves at a stake, mm; None where turf is lifted instead."""
    if found.deep_limit_mm is not None and depth_mm > found.deep_limit_mm:
        return None
    layers, done = [], 0.0
    for layer in depths:
        layers.append(min(max(depth_mm - done, 0.0), layer))
        done += layer
    return layers


def _text(mm: float, system: System) -> str:
    return layer_text(mm, system) if mm >= LEAST_LAYER_MM else "–"


def _stake_name(column: str, system: System) -> str:
    if column.endswith("_mm"):
        return column.removesuffix("_mm").replace("_", " ").capitalize()
    if column.endswith("_m"):
        unit = "ft" if system is System.US else "m"
        return f"{column.removesuffix('_m').replace('_', ' ').capitalize()}, {pretty_unit(unit)}"
    return column.replace("_", " ").capitalize()


def _stake_value(column: str, value: object, system: System) -> str:
    """A figure of a stake: depths in mm are read as depths, places in m as distances."""
    if value is None:
        return "–"
    if isinstance(value, int | float) and not isinstance(value, bool):
        if column.endswith("_mm"):
            return ("−" if value < 0 else "") + read_as(abs(value), "depth", system).text
        if column.endswith("_m"):
            return f"{value / FOOT_M if system is System.US else value:.1f}"
    return str(value)
