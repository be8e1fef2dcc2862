"""How long a plan runs where nobody gave its end: until the last of its follow-ups is in season."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta

from turfplan.calendar_days import DAYS
from turfplan.records.book_names import OperationName
from turfplan.work.campaigns import Campaign
from turfplan.work.drafts import OpenDays
from turfplan.work.emergence import emergence, undressed_days
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.passes import next_dressing
from turfplan.work.pesticide_law import takes_preventer


def within(setting: ResolvedLawn, campaign: Campaign) -> ResolvedLawn:
    """The lawn with the days that one campaign and what follows it need.

    An end that the owner gave stays; one that a plan was published with is only put off.
    """
    if setting.kept_end is None:
        return setting
    needed = max((day.toordinal() for day in _ends(setting, campaign)), default=0)
    last = min(setting.last_day, max(setting.kept_end, needed))
    ahead = tuple(w for w in setting.openings.windows if w.start.toordinal() <= last)
    return replace(setting, last_day=last, openings=replace(setting.openings, windows=ahead))


def season_for_the_rest(
    setting: ResolvedLawn, campaign: Campaign, worked: date, sown: date | None = None
) -> OpenDays | None:
    """The first season to dress in that is left for what a campaign leaves out of the fill, once
    its seed or its last pass bears a layer; None where none lies in the years of the plan.

    `worked` is the last day of work where it neither sows nor dresses; `sown` is the day of its
    seed or plants, where that is known: a season may last all year, and seed goes in early in it.
    """
    if campaign.sow_window is not None:
        worked = (sown or campaign.sow_window.end) + timedelta(undressed_days(setting, campaign))
    elif campaign.sessions:
        worked = campaign.sessions[-1].window.end + timedelta(setting.pass_interval_days)
    return next_dressing(setting, worked)


def shortest(setting: ResolvedLawn) -> ResolvedLawn:
    """The lawn with the days of a plan in which nothing can be done."""
    return setting if setting.kept_end is None else replace(setting, last_day=setting.kept_end)


def _ends(setting: ResolvedLawn, campaign: Campaign) -> Iterator[date]:
    """The last days of what a campaign does and of what follows it, each in its own season."""
    if setting.care_alone:
        # Its year holds each season once: nothing follows from work.
        return
    work = [session.window for session in campaign.sessions]
    windows = [*work, campaign.sow_window] if campaign.sow_window is not None else work
    over = max((w.end for w in windows), default=date.fromordinal(setting.first_day))
    settled = setting.days("order.settle_check_least") + setting.days("order.touch_up_lead")
    # The check stands some days before what follows from it, and is itself a day of work.
    yield over + timedelta(settled + setting.days("wish.settle_check"))
    yield from _young(setting, campaign)
    for operation, rest in _follow_ups(setting, campaign, settled):
        ready = over + timedelta(rest + setting.days("windows.least_days"))
        following = next((w for w in _open(setting, operation) if w.end >= ready), None)
        years_on = operation == "preemergent" and (
            following is None or following.start > over + timedelta(DAYS)
        )
        if following is not None and not years_on:
            yield following.end


def _follow_ups(
    setting: ResolvedLawn, campaign: Campaign, settled_days: int
) -> Iterator[tuple[OperationName, int]]:
    """What follows the work in a season of its own, with the days that lie between at least."""
    undressed = undressed_days(setting, campaign)
    if campaign.sessions:
        yield "touch_up", max(settled_days, undressed)
    if setting.cool and takes_preventer(setting):
        yield "preemergent", undressed
    if setting.sowing.intent == "winter_overseed":
        # Until then the second grass is mown all winter.
        yield "spring_transition", 0
    else:
        yield "last_mow", 0


def _young(setting: ResolvedLawn, campaign: Campaign) -> Iterator[date]:
    """The last days by which seed is mown and its colour is looked at, or plants have rooted."""
    sow, up = campaign.sow_window, emergence(setting, campaign)
    if sow is not None and up is not None:
        yield sow.end + timedelta(max(up.mow_most, up.colour_most))
    elif sow is not None:
        yield sow.end + timedelta(setting.book.fact("order.plant_mow_most").high_si)


def _open(setting: ResolvedLawn, operation: OperationName) -> tuple[OpenDays, ...]:
    return setting.open(operation) or (setting.open("topdress") if operation == "touch_up" else ())
