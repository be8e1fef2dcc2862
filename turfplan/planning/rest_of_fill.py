"""What is left to spread once passes were thicker, thinner or left out: the depth asked for less
what lies there, over the passes still to come, each within its cap."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from turfplan.phrases import befallen as phrases
from turfplan.phrases import changes
from turfplan.records.past import TaskHistory
from turfplan.work.campaigns import Campaign
from turfplan.work.drafts import Pass
from turfplan.work.lawn import ResolvedLawn

# What differs by less than this part of a pass is how people spread. A layer that is thinner than
# this part of what was planned is not worth a pass of its own.
ALIKE, WORTH_A_PASS = 0.15, 0.25
# A depth that differs by no more is the same.
TOLD_MM = 0.05


@dataclass(frozen=True, slots=True)
class RestOfFill:
    """The campaign with what is left for its open passes, the passes that nothing is left for, and
    the settled depth that no pass takes up, mm where the fill is deepest (None: none is open, and
    those that are done are as thick as they were to be)."""

    campaign: Campaign
    needless: frozenset[str] = frozenset()
    missing_mm: float | None = None


def rest_of_fill(setting: ResolvedLawn, campaign: Campaign, history: TaskHistory) -> RestOfFill:
    """What is left to spread of a campaign after what was spread, or left out.

    A pass of which nobody says how much it took took what was planned. Lifts of ground without
    grass are left as they are.
    """
    layers = {f"topdress.{layer.number}": layer for layer in campaign.passes}
    over = history.fixed.keys() | history.left_out | history.part_done.keys()
    over -= history.held.keys() - history.done.keys() - history.part_done.keys()
    still = [layer for name, layer in layers.items() if name not in over]
    lacking = {
        name: layer.settled_m3 * (1 - laid_part(name, layer, history))
        for name, layer in layers.items()
    }
    missing_m3 = sum(m3 for name, m3 in lacking.items() if name in over)
    if setting.on_open_ground or not campaign.passes:
        return RestOfFill(campaign)
    deep = sum(p.depth_mm for p in campaign.passes) / sum(p.settled_m3 for p in campaign.passes)
    if not still:
        thin_m3 = sum(m3 for name, m3 in lacking.items() if name in history.done)
        told = thin_m3 >= ALIKE * min(layer.settled_m3 for layer in campaign.passes)
        return RestOfFill(campaign, missing_mm=max(0.0, missing_m3) * deep if told else None)
    least_m3 = min(layer.settled_m3 for layer in still)
    if abs(missing_m3) < ALIKE * least_m3:
        return RestOfFill(campaign, missing_mm=max(0.0, missing_m3) * deep)
    wanted_m3 = sum(layer.settled_m3 for layer in still) + missing_m3
    kept = list(still)
    # The last passes stay: the seed goes with them.
    while kept and wanted_m3 < WORTH_A_PASS * sum(layer.settled_m3 for layer in kept):
        kept.pop(0)
    times = _times(kept, wanted_m3)
    needless = frozenset(n for n, layer in layers.items() if layer in still and layer not in kept)
    sessions = tuple(
        replace(s, passes=tuple(_scaled(p, times.get(p.number, 1.0)) for p in s.passes))
        for s in campaign.sessions
    )
    spread_m3 = sum(layer.settled_m3 * times[layer.number] for layer in kept)
    left_mm = max(0.0, wanted_m3 - spread_m3) * deep
    return RestOfFill(replace(campaign, sessions=sessions), needless, left_mm)


def laid_part(name: str, layer: Pass, history: TaskHistory) -> float:
    """The part of a pass that lies there: as logged, else what the plan before had of it, however
    that divided the fill; nothing of one that is left out before it was begun."""
    if name in history.left_out and name not in history.done:
        return history.part_done.get(name, 0.0)
    actual, planned_m3 = history.actual.get(name), history.planned_m3.get(name, 0.0)
    used = [] if actual is None else [a.value for a in actual.amounts if a.unit == "m3"]
    over = name in history.done or name in history.overdue
    # What is left of one that is begun is still to be spread by itself.
    as_planned = history.planned_mm.get(name, layer.depth_mm) / layer.depth_mm if over else 1.0
    measured = name in history.done and used and planned_m3
    return as_planned * sum(used) / planned_m3 if measured else as_planned


def _times(layers: Sequence[Pass], wanted_m3: float) -> Mapping[int, float]:
    """By how much each pass is thicker so that all take a volume, as far as their caps let them."""
    most = {p.number: max(1.0, p.cap_mm / p.depth_mm) for p in layers}
    times: dict[int, float] = {}
    left, left_m3 = list(layers), wanted_m3
    while left:
        each = left_m3 / sum(p.settled_m3 for p in left)
        full = [p for p in left if each > most[p.number]]
        if not full:
            times |= {p.number: each for p in left}
            break
        times |= {p.number: most[p.number] for p in full}
        left_m3 -= sum(p.settled_m3 * most[p.number] for p in full)
        left = [p for p in left if p not in full]
    return times


def _scaled(layer: Pass, times: float) -> Pass:
    if times == 1.0:
        return layer
    return replace(
        layer,
        depth_mm=layer.depth_mm * times,
        settled_m3=layer.settled_m3 * times,
        zones=tuple((name, m3 * times) for name, m3 in layer.zones),
        rest_mm=None if layer.rest_mm is None else layer.rest_mm * times,
    )


def with_depths_told(campaign: Campaign, history: TaskHistory, rest: RestOfFill) -> TaskHistory:
    """The history with why passes take another depth than the plan before had for them, with what
    is dragged in after them; `campaign` has them as they were to be."""
    asked = {p.number: p.depth_mm for p in campaign.passes}
    told = {
        f"{operation}.{layer.number}": changes.because_rest_of_fill()
        for layer in rest.campaign.passes
        if abs(layer.depth_mm - asked[layer.number]) > TOLD_MM
        if abs(layer.depth_mm - history.planned_mm.get(f"topdress.{layer.number}", 0.0)) > TOLD_MM
        for operation in ("topdress", "incorporate")
    }
    return replace(history, because={**told, **history.because}) if told else history


def without_needless(history: TaskHistory, rest: RestOfFill) -> TaskHistory:
    """The history with the passes that nothing is left for as left out, and why."""
    if not rest.needless:
        return history
    told = dict.fromkeys(rest.needless, phrases.fill_lies_there())
    return replace(
        history,
        skipped=history.skipped | rest.needless,
        needless=rest.needless,
        because={**history.because, **told},
        held={n: day for n, day in history.held.items() if n not in rest.needless},
        published={n: day for n, day in history.published.items() if n not in rest.needless},
    )
