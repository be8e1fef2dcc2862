"""What is still to be sown of a sowing that was begun, or whose seed was lost in part: its ground,
its hours, and the seed that has to be fetched for it."""

from dataclasses import replace
from datetime import timedelta

from turfplan.message import Days, Message, Number, Quantity
from turfplan.phrases import befallen as phrases
from turfplan.phrases import order as of_order
from turfplan.phrases import places
from turfplan.planning.amounts import seed_amounts
from turfplan.planning.falling import without_tasks
from turfplan.planning.lacking_goods import is_short_of_seed
from turfplan.planning.past_binds import NEW, plays, sown_first
from turfplan.records.past import TaskHistory
from turfplan.work.drafts import Draft, SeasonDraft
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.phases.buying import MORE_SEED, more_seed

# What is left by rounding is no part.
HAIR = 1e-6
# What is said of work that goes strip by strip with its pass.
STRIPS = "strips."


def with_rest_to_sow(
    setting: ResolvedLawn, season: SeasonDraft, history: TaskHistory
) -> SeasonDraft:
    """The season whose sowings are for what is still to be sown alone; nothing is dragged in over
    seed that lies there."""
    drafts = tuple(
        _rest(setting, d, history) if plays(setting.book, d.id, NEW) else d for d in season.drafts
    )
    season = replace(season, drafts=drafts)
    if not sown_first(setting.book, history):
        return season
    dragged = {
        d.id
        for d in drafts
        if d.operation == "incorporate"
        and f"topdress.{d.position}" in history.done
        and d.id not in history.fixed
    }
    return without_tasks(season, dragged)


def _sows(setting: ResolvedLawn, draft: Draft) -> bool:
    return setting.book.operations[draft.operation].plays("sowing")


def _rest(setting: ResolvedLawn, draft: Draft, history: TaskHistory) -> Draft:
    """A sowing for what is left of it; as it was where it is over, or nothing of it is done."""
    left = history.left_to_sow(draft.id)
    if draft.id in history.done or not HAIR < left < 1 - HAIR:
        return draft
    area_m2 = draft.area_m2 * left
    where, step = _where(area_m2, sown=_sows(setting, draft))
    several = draft.duration_days > 1
    alone = draft.id in sown_first(setting.book, history)
    told = () if _sows(setting, draft) else _left_dry(setting, draft.id, history)
    return replace(
        draft,
        left=left,
        area_m2=area_m2,
        # Those of several days go with their days (`begun_work`).
        person_hours=draft.person_hours if several else round(draft.person_hours * left, 2),
        # The pass that it shared its strips with is over, or comes later.
        strips=() if alone else draft.strips,
        cautions=(
            *told,
            *(c for c in draft.cautions if not (alone and c.key.startswith(STRIPS))),
        ),
        where=where,
        where_step=step,
    )


def _left_dry(setting: ResolvedLawn, task: str, history: TaskHistory) -> tuple[Message, ...]:
    """What becomes of the plants that went in before the rest, where a ban of watering meets them
    before they have rooted."""
    planted = history.actual.get(task)
    if planted is None or task not in history.part_done:
        return ()
    rooted = planted.end + timedelta(setting.days("water.rooting_days"))
    share = Number(history.part_done[task], "percent")
    return tuple(
        phrases.planted_dry(share=share, days=Days(first, last, weekday=False))
        for first, last in history.bans
        if first <= rooted and last >= planted.start
    )


def _where(area_m2: float, *, sown: bool) -> tuple[Message, Message]:
    where = phrases.unsown_part() if sown else phrases.unplanted_part()
    return where, places.first_of(where=where, area=Quantity(area_m2, "area"))


def seed_again(setting: ResolvedLawn, season: SeasonDraft, history: TaskHistory) -> list[Draft]:
    """The trip for seed in place of what was lost, where that has been fetched already, and for
    what is missing where less was fetched than is sown; one that was made stays."""
    sowing = next((d for d in season.drafts if _sows(setting, d)), None)
    if sowing is None or not any(name in history.done for name in sowing.bought_by):
        return []
    amounts = seed_amounts(setting, sowing.sown_share, sowing.left)
    made = f"collect.{MORE_SEED}" in history.done
    if history.lost is not None:
        why = phrases.seed_why()
    elif made or is_short_of_seed(sowing, amounts, history):
        why = of_order.more_seed_why()
    else:
        return []
    trip = more_seed(setting, sowing, why)
    return [] if trip.id in history.skipped else [trip]
