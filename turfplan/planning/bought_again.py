"""What has to be asked for or fetched again: a load that was sent back, mix that is short, and seed
in place of what was lost."""

from dataclasses import replace

from turfplan.phrases import order as of_order
from turfplan.planning.bought_for_tasks import bulk_orders, spreading
from turfplan.planning.candidates import Drafted
from turfplan.planning.falling import without_tasks
from turfplan.planning.rest_to_sow import seed_again
from turfplan.planning.short_of_mix import LEAST_M3, MORE_MIX, is_more, short_passes
from turfplan.records.constraints import Lag
from turfplan.records.past import TaskHistory
from turfplan.records.plan_task import Amount
from turfplan.work.buying_lags import buying_lags
from turfplan.work.day_limits import day_constraints
from turfplan.work.drafts import Draft, SeasonDraft
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.material_amounts import sold_volume_m3
from turfplan.work.phases.buying import (
    NUTRIENT_TRIPS,
    fetched_more,
    nutrient_trip,
    refused_call,
)

FERTILIZER = "collect.fertilizer"


def with_bought_again(
    setting: ResolvedLawn, drafted: Drafted, season: SeasonDraft, history: TaskHistory
) -> SeasonDraft:
    """A season with a call for each load that was refused, a trip for the mix that is short with no
    order left to take it, one for seed in place of what was lost, and one for what a soil test asks
    for after the fertilizer was fetched; a refused load of which nothing is spread any more does
    not come."""
    season = without_tasks(season, _refused_for_nothing(season, history))
    added = [
        refused_call(setting, draft)
        for draft in season.drafts
        if draft.id in history.refused and not draft.bags
        if "delivery" in setting.book.operations[draft.operation].roles
    ]
    added += _more_mix(setting, drafted, season, history)
    added += seed_again(setting, season, history)
    added += _nutrients_after_fertilizer(setting, drafted, season, history)
    if not added:
        return season
    drafts = (*season.drafts, *added)
    new = {draft.id for draft in added}
    lags = [lag for lag in buying_lags(setting, drafts) if _of(lag, new)]
    days = day_constraints(setting, drafted.campaign, added)
    return replace(season, drafts=drafts, constraints=(*season.constraints, *days, *lags))


def _nutrients_after_fertilizer(
    setting: ResolvedLawn, drafted: Drafted, season: SeasonDraft, history: TaskHistory
) -> list[Draft]:
    """The trips for potash and phosphate of which the plan knew nothing when the fertilizer was
    fetched; what nothing takes falls again when it is reckoned."""
    over = history.done.keys() | history.left_out
    feeds = [
        draft
        for draft in season.drafts
        if FERTILIZER in draft.bought_by and draft.id not in over | history.overdue.keys()
    ]
    if FERTILIZER not in history.done or not feeds:
        return []
    asked = {"potash": drafted.feeding.potassium, "phosphate": drafted.feeding.phosphorus}
    return [
        nutrient_trip(setting, key, feeds)
        for key in NUTRIENT_TRIPS
        if (tested := asked[key]) is not None and tested.rate_g_m2 > 0
        if f"collect.{key}" not in history.skipped
        if f"collect.{key}" in history.planned or key not in history.nutrients
    ]


def _refused_for_nothing(season: SeasonDraft, history: TaskHistory) -> set[str]:
    """The loads that were refused and whose passes are all done, or left out, each with its call
    and the look at it."""
    passes = {d.position: d.id for d in season.drafts if d.operation == "topdress"}
    over = history.done.keys() | history.left_out
    idle = {
        load.number
        for load in season.loads
        if f"delivery.{load.number}" in history.refused
        and all(passes.get(number, f"topdress.{number}") in over for number in load.passes)
    }
    return {
        d.id
        for d in season.drafts
        if d.id not in history.fixed and (d.load in idle or (d.loads and idle.issuperset(d.loads)))
    }


def _of(lag: Lag, names: set[str]) -> bool:
    return lag.before in names


def _more_mix(
    setting: ResolvedLawn, drafted: Drafted, season: SeasonDraft, history: TaskHistory
) -> list[Draft]:
    """The trip for what is short of the mix, before the first pass that is short of it."""
    _, stock = bulk_orders(setting, season, drafted.mix, drafted.volumes, history)
    coming = [d for d in spreading(setting, season) if d.id not in stock.settled]
    if stock.short_m3 <= LEAST_M3 or not coming or any(map(is_more, history.skipped)):
        return []
    short = short_passes(stock.lacks, coming, season.loads, history)
    # What no pass is known to lack is fetched before the next one.
    lacking = {d.id: d for passes in short.values() for d in passes}
    coming = list(lacking.values()) or coming
    name, turn = MORE_MIX, 1
    while name in history.done:
        turn += 1
        name = f"{MORE_MIX}.{turn}"
    sold = sold_volume_m3(stock.short_m3, setting.system)
    trip = fetched_more(setting, name.partition(".")[2], coming, stock.short_m3)
    amount = Amount.of("volume", sold, "m3", of_order.mix_short())
    return [replace(trip, amounts=(amount.model_copy(update={"facts": drafted.mix.facts}),))]
