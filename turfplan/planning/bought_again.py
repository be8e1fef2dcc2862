"""What has to be asked for or fetched again: a load that was sent back, and mix that is short."""

from dataclasses import replace

from turfplan.planning.bought_for_tasks import bulk_orders, spreading
from turfplan.planning.candidates import Drafted
from turfplan.planning.stock import LEAST_M3, MORE_MIX, is_more
from turfplan.records.constraints import Lag
from turfplan.records.past import TaskHistory
from turfplan.work.buying_lags import buying_lags
from turfplan.work.day_limits import day_constraints
from turfplan.work.drafts import Draft, SeasonDraft
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.phases.buying import fetched_more, refused_call


def with_bought_again(
    setting: ResolvedLawn, drafted: Drafted, season: SeasonDraft, history: TaskHistory
) -> SeasonDraft:
    """A season with a call for each load that was refused, and a trip for the mix that is short
    with no order left to take it."""
    added = [
        refused_call(setting, draft)
        for draft in season.drafts
        if draft.id in history.refused and not draft.bags
        if "delivery" in setting.book.operations[draft.operation].roles
    ]
    added += _more_mix(setting, drafted, season, history)
    if not added:
        return season
    drafts = (*season.drafts, *added)
    new = {draft.id for draft in added}
    lags = [lag for lag in buying_lags(setting, drafts) if _of(lag, new)]
    days = day_constraints(setting, drafted.campaign, added)
    return replace(season, drafts=drafts, constraints=(*season.constraints, *days, *lags))


def _of(lag: Lag, names: set[str]) -> bool:
    return lag.before in names


def _more_mix(
    setting: ResolvedLawn, drafted: Drafted, season: SeasonDraft, history: TaskHistory
) -> list[Draft]:
    """The trip for what is short of the mix, before the passes that are still to come."""
    _, stock = bulk_orders(setting, season, drafted.mix, drafted.volumes, history)
    coming = [d for d in spreading(setting, season) if d.id not in stock.settled]
    if stock.short_m3 <= LEAST_M3 or not coming or any(map(is_more, history.skipped)):
        return []
    name, turn = MORE_MIX, 1
    while name in history.done:
        turn += 1
        name = f"{MORE_MIX}.{turn}"
    return [fetched_more(setting, name.partition(".")[2], coming, stock.short_m3)]
