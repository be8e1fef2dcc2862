"""Plants that came too long before they can go in: what waits is ordered and brought afresh."""

from collections.abc import Collection
from dataclasses import replace
from typing import cast

from turfplan.phrases import changes
from turfplan.planning.schedule import Dated
from turfplan.records.book_names import PlantForm
from turfplan.records.past import TaskHistory
from turfplan.work.buying_lags import KEEPS
from turfplan.work.lawn import ResolvedLawn


def stale_plants(setting: ResolvedLawn, dated: Dated, history: TaskHistory) -> frozenset[str]:
    """The order and the delivery of plants that are here, and keep no longer until the day on which
    they, or the rest of them, are planted."""
    found: set[str] = set()
    for draft in dated.season.drafts:
        if draft.form not in KEEPS or draft.id in history.fixed:
            continue
        form = cast(PlantForm, draft.form)
        came = history.done.get(f"delivery.{form}")
        if came is None:
            continue
        if dated.day(draft.start_node) - came > setting.days(KEEPS[form]):
            found |= {f"order_material.{form}", f"delivery.{form}"}
    return frozenset(found)


def with_fresh_told(history: TaskHistory, names: Collection[str]) -> TaskHistory:
    """The history with why plants are ordered and brought once more."""
    told = dict.fromkeys(names, changes.because_fresh_plants())
    return replace(history, because={**history.because, **told})
