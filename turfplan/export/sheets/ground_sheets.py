"""The fill of a surveyed lawn for the sheets: figures, pictures, stakes, a page for each pass.

What draws maps is imported where a lawn has any: most have none.
"""

import base64
from collections.abc import Sequence
from dataclasses import dataclass

from turfplan.message import Message, Quantity
from turfplan.messages import Words
from turfplan.phrases import ground_sheet as phrases
from turfplan.records.plan import Fill, FillMap, Plan
from turfplan.records.plan_task import Task

# Less than this, mm, is nothing that a stake could show.
LEAST_LAYER_MM = 0.2
NOTHING_THERE = "–"
# Volumes are told in the steps of the notes beside them, so that one page tells one figure.
VOLUME_STEP = 0.05


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
    """The fill map with its figures as people read them.

    `pictures` are all maps, `map` that of the fill alone.
    """

    mean_depth: str
    volume: str
    reach: str
    notes: tuple[str, ...]
    pictures: tuple[Picture, ...]
    stakes: StakeList | None
    map: Picture | None = None


@dataclass(frozen=True, slots=True)
class PassSheet:
    """The page of one pass to carry outside.

    Its map and its stakes. `key` names its place in the page.
    """

    key: str
    task_id: str
    picture: Picture
    stakes: StakeList | None


def fill_view(plan: Plan, words: Words, *, every: bool = False) -> FillView | None:
    """Figures, the fill map and all stakes of a plan that has a survey; None for one without.

    With `every` those of the ground too, that of the fill first.
    """
    fill = plan.fill
    if fill is None:
        return None
    from turfplan.export.maps.fill_maps import layer_text

    maps = (
        _fill_first(fill_pictures(plan, words))
        if every
        else tuple(picture for picture in (fill_picture(plan, words),) if picture)
    )
    pictures = tuple(
        Picture(caption, address(svg))
        for caption, svg in (*maps, *(fill.pictures if every else ()))
    )
    reach = phrases.reach(
        low=_volume(fill.volume_low_m3, "down"), high=_volume(fill.volume_high_m3, "up")
    )
    return FillView(
        mean_depth=layer_text(fill.mean_depth_mm, words),
        volume=words.value(_volume(fill.volume_m3)),
        reach=words.text(reach),
        notes=tuple(note.text for note in fill.notes),
        pictures=pictures if every else (),
        stakes=_all_stakes(plan, fill, words),
        map=pictures[0] if maps else None,
    )


def _volume(m3: float, rounding: str = "nearest") -> Quantity:
    return Quantity(m3, "volume", rounding, VOLUME_STEP, VOLUME_STEP)


def _fill_first(drawn: Sequence[tuple[str, str]]) -> Sequence[tuple[str, str]]:
    """The map of the fill before those of the ground; those of the passes go with their weeks."""
    return (*drawn[2:3], *drawn[:2])


def pass_sheets(plan: Plan, words: Words) -> tuple[PassSheet, ...]:
    """A page for every pass that is still to be spread, in their order; none without a survey."""
    sheets = []
    for number, (task, _) in enumerate(spread_passes(plan), 1):
        drawn = pass_picture(plan, number, words) if task.closed is None else None
        if drawn is not None:
            key, picture = f"map-{task.id.replace('.', '-')}", Picture(drawn[0], address(drawn[1]))
            sheets.append(PassSheet(key, task.id, picture, _pass_stakes(plan, number, words)))
    return tuple(sheets)


def fill_pictures(plan: Plan, words: Words) -> tuple[tuple[str, str], ...]:
    """Every map of a surveyed plan as (caption, SVG text): ground, finished ground, fill, passes.

    None of them without a survey.
    """
    lawn = plan.fill.map if plan.fill else None
    if lawn is None:
        return ()
    from turfplan.export.maps.fill_maps import fill_map, finished_map, ground_map, pass_map
    from turfplan.export.maps.picture import svg_of

    depths = [depth for _, depth in spread_passes(plan)]
    drawn = [ground_map(lawn, words), finished_map(lawn, words), fill_map(lawn, depths, words)]
    drawn += [pass_map(lawn, depths, number, words) for number in range(1, len(depths) + 1)]
    return tuple((picture.title, svg_of(picture, words)) for picture in drawn)


def trace_ahead(plan: Plan, words: Words) -> None:
    """Trace what the maps of the ground show while arrays are at hand: the book is printed later,
    from what is kept of it. Without a survey nothing.
    """
    lawn = plan.fill.map if plan.fill else None
    if lawn is not None:
        from turfplan.export.maps.fill_maps import finished_map, ground_map

        ground_map(lawn, words), finished_map(lawn, words)


def fill_picture(plan: Plan, words: Words) -> tuple[str, str] | None:
    """The map of the fill with its stakes, or None where there is no survey."""
    lawn = plan.fill.map if plan.fill else None
    if lawn is None:
        return None
    from turfplan.export.maps.fill_maps import fill_map
    from turfplan.export.maps.picture import svg_of

    picture = fill_map(lawn, [depth for _, depth in spread_passes(plan)], words)
    return picture.title, svg_of(picture, words)


def pass_picture(plan: Plan, number: int, words: Words) -> tuple[str, str] | None:
    """The map of one pass for the sheet of its week; None without a survey or such a pass."""
    lawn, depths = (
        plan.fill.map if plan.fill else None,
        [depth for _, depth in spread_passes(plan)],
    )
    if lawn is None or not 1 <= number <= len(depths):
        return None
    from turfplan.export.maps.fill_maps import pass_map
    from turfplan.export.maps.picture import svg_of

    picture = pass_map(lawn, depths, number, words)
    return picture.title, svg_of(picture, words)


def spread_passes(plan: Plan) -> tuple[tuple[Task, float], ...]:
    """Every pass of the plan with its settled depth in mm, in order.

    The first is pass 1 of the maps.
    """
    passes = [
        t for t in plan.tasks if t.plays("spreading") and t.closed not in ("skipped", "dropped")
    ]
    numbered = sorted(passes, key=lambda task: (task.start, task.id))
    return tuple(
        (task, a.value)
        for task in numbered
        for a in task.amounts
        if a.item == "depth" and a.value > 0
    )


def address(svg: str) -> str:
    """A picture as a data address: nothing in it can act on the page or clash with its ids."""
    return "data:image/svg+xml;base64," + base64.b64encode(svg.encode()).decode("ascii")


def _all_stakes(plan: Plan, fill: Fill, words: Words) -> StakeList | None:
    """Every stake with its whole fill and the layer of each pass.

    Without a map its work in words.
    """
    depths = [depth for _, depth in spread_passes(plan)]
    if not fill.stakes:
        return None
    mapped = fill.map if fill.map and len(fill.map.stakes) == len(fill.stakes) else None
    if mapped is None:
        header = _told(words, phrases.stake(), phrases.where(), phrases.fill(), phrases.work())
        unmapped = (
            (line.stake, str(line.place), _text(line.fill_mm, words), str(line.work))
            for line in fill.stakes
        )
        return StakeList(header, tuple(unmapped))
    rows = (
        (
            sign,
            str(line.place),
            _text(depth, words),
            *_layer_texts(_layers(depth, depths, mapped), len(depths), words),
        )
        for (sign, _, _, depth), line in zip(mapped.stakes, fill.stakes, strict=True)
    )
    last = [phrases.pass_(number=n) for n in range(1, len(depths) + 1)] or [phrases.work()]
    header = _told(words, phrases.stake(), phrases.where(), phrases.fill_in_all(), *last)
    return StakeList(header, tuple(rows))


def _layer_texts(layers: Sequence[float] | None, passes: int, words: Words) -> tuple[str, ...]:
    """What stands in the columns of the passes, or in the one of the work where there are none."""
    if layers is None:
        return (words.text(phrases.lift()), *[""] * (passes - 1))
    return tuple(_text(layer, words) for layer in layers)


def _told(words: Words, *messages: Message) -> tuple[str, ...]:
    return tuple(words.text(message) for message in messages)


def _pass_stakes(plan: Plan, number: int, words: Words) -> StakeList | None:
    """The stakes that one pass reaches: its own layer, and how high the fill then stands."""
    fill, depths = plan.fill, [depth for _, depth in spread_passes(plan)]
    if fill is None or fill.map is None or len(fill.map.stakes) != len(fill.stakes):
        return None
    lines = []
    for (sign, _, _, depth), line in zip(fill.map.stakes, fill.stakes, strict=True):
        layers = _layers(depth, depths, fill.map)
        if layers is not None and layers[number - 1] >= LEAST_LAYER_MM:
            here, so_far = layers[number - 1], sum(layers[:number])
            lines.append((sign, str(line.place), _text(here, words), _text(so_far, words)))
    header = (phrases.stake(), phrases.where(), phrases.this_pass(), phrases.so_far())
    return StakeList(_told(words, *header), tuple(lines)) if lines else None


def _layers(depth_mm: float, depths: Sequence[float], lawn: FillMap) -> list[float] | None:
    """What each pass leaves at a stake, mm; None where turf is lifted instead."""
    if lawn.deep_limit_mm is not None and depth_mm > lawn.deep_limit_mm:
        return None
    layers, done = [], 0.0
    for layer in depths:
        layers.append(min(max(depth_mm - done, 0.0), layer))
        done += layer
    return layers


def _text(mm: float, words: Words) -> str:
    from turfplan.export.maps.fill_maps import layer_text

    return layer_text(mm, words) if mm >= LEAST_LAYER_MM else NOTHING_THERE
