"""Preparing: what is found out, asked for and ordered before the first machine runs."""

from collections.abc import Sequence
from dataclasses import replace

from turfplan.book.words import book_messages
from turfplan.phrases import ground_fill as of_ground
from turfplan.phrases import prepare as phrases
from turfplan.phrases import weed_killers as killers
from turfplan.work.campaigns import Campaign
from turfplan.work.drafts import Draft, Load, OpenDays
from turfplan.work.emergence import emergence, waits_for_spring
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.operations import PREPARE, Timing, Wording, make
from turfplan.work.phases.causes import causes_looked_for, insects_again
from turfplan.work.phases.soil_tests import soil_tests
from turfplan.work.watering.verdict import only_dark_hours, too_few_days
from turfplan.work.weed_killers import Hold


def prepare(setting: ResolvedLawn, campaign: Campaign, *, permit: bool) -> list[Draft]:
    """Diagnosis, soil test, water check, permit and weeds."""
    return [
        *_found_out(setting, campaign),
        *_before_seed(setting, campaign, permit=permit),
    ]


def _found_out(setting: ResolvedLawn, campaign: Campaign) -> list[Draft]:
    """Why the ground is uneven or the grass thin, and what the soil holds."""
    again = insects_again(setting, campaign.sow_window)
    looks = causes_looked_for(setting, _begins(campaign))
    return [*looks, *([again] if again is not None else []), *soil_tests(setting)]


def _begins(campaign: Campaign) -> OpenDays | None:
    """The days for the work with which a campaign begins."""
    windows = [session.window for session in campaign.sessions]
    windows += [campaign.sow_window] if campaign.sow_window else []
    return min(windows, key=lambda window: window.best, default=None)


def _before_seed(setting: ResolvedLawn, campaign: Campaign, *, permit: bool) -> list[Draft]:
    """Measured water, the permit to water, and weeds."""
    drafts: list[Draft] = []
    sows = setting.sowing.operation is not None
    if sows and setting.brief.water.possible is not False:
        ahead = _days_to_water_check(setting, campaign)
        plants = setting.sowing.operation == "plant"
        why = phrases.irrigation_check_plants() if plants else phrases.irrigation_check()
        if not plants and campaign.sessions and not campaign.sessions[0].sows:
            why = phrases.irrigation_check_passes()
        drafts.append(
            make(
                setting,
                "irrigation_check",
                timing=Timing(PREPARE, anchor="sowing", offset=ahead),
                wording=Wording(why),
            )
        )
    elif setting.levelling.lift_share and setting.brief.water.possible is not False:
        ahead = -setting.days("wish.irrigation_check")
        timing = Timing(PREPARE, anchor="lift_and_fill", offset=ahead)
        why = phrases.irrigation_check_relaid()
        drafts.append(make(setting, "irrigation_check", timing=timing, wording=Wording(why)))
    unread = [h for h in setting.holds if h.unread and (h.until or 0) > setting.first_day]
    if sows and unread:
        drafts.append(_read_the_bag(setting, unread))
    if permit:
        drafts += _permits(setting, campaign)
    weeds = (setting.brief.site.weeds_percent or 0) / 100
    worth_treating = weeds >= setting.book.si("seeding.weeds_worth_treating")
    if sows and worth_treating and not setting.on_open_ground:
        drafts.append(
            make(
                setting,
                "weed_control",
                timing=Timing(PREPARE, anchor="sowing", offset=-setting.days("wish.weed_control")),
                wording=Wording(phrases.weed_control()),
            )
        )
    return drafts


def _permits(setting: ResolvedLawn, campaign: Campaign) -> list[Draft]:
    """The permits for daily watering, or watering by day: of relaid turf, and of seed or plants.

    Where both fall into one season one permit is asked for, before the first of them.
    """
    ahead = -setting.days("wish.permit")
    lifts, sows = setting.levelling.lift_share > 0, setting.sowing.needs_water
    lifts = lifts and setting.brief.water.permit is True
    drafts: list[Draft] = []
    if lifts:
        relaid_alone = Wording(
            phrases.permit_relaid(),
            go=phrases.permit_relaid_go(),
            fallback=phrases.permit_relaid_fallback(),
        )
        together = sows and _of_one_season(setting, campaign)
        drafts.append(
            make(
                setting,
                "permit",
                "relaying",
                timing=Timing(PREPARE, anchor="lift_and_fill", offset=ahead),
                wording=Wording(phrases.permit()) if together else relaid_alone,
            )
        )
        sows = sows and not together
    if sows:
        killed = setting.worked == "killed"
        by_day = only_dark_hours(setting.brief, setting.book)
        if by_day and not too_few_days(setting.brief, setting.book):
            return [*drafts, _hours_by_day(setting, ahead)]
        asleep = setting.cool and any(setting.open("dormant_seed"))
        drafts.append(
            make(
                setting,
                "permit",
                timing=Timing(PREPARE, anchor="kill_stand" if killed else "sowing", offset=ahead),
                wording=Wording(
                    phrases.permit(),
                    go=phrases.permit_killed_go() if killed else None,
                    fallback=None if asleep else phrases.permit_fallback(),
                ),
            )
        )
    return drafts


def _of_one_season(setting: ResolvedLawn, campaign: Campaign) -> bool:
    """Whether turf is lifted in the season of the seed or plants: with the pass they go on, or,
    where nothing is spread, in days of lifting that reach into theirs."""
    if campaign.sessions:
        return campaign.sessions[0].sows
    sown = campaign.sow_window
    lifting = setting.open("lift_and_fill")
    return sown is not None and any(w.start <= sown.end and sown.start <= w.end for w in lifting)


def _hours_by_day(setting: ResolvedLawn, ahead: int) -> Draft:
    """The exemption that is asked for where the days are open and the hours of daylight are not."""
    return make(
        setting,
        "permit",
        timing=Timing(PREPARE, anchor="sowing", offset=ahead),
        wording=Wording(
            phrases.permit_hours(),
            title=phrases.permit_hours_title(),
            fallback=phrases.permit_hours_fallback(),
        ),
    )


def _read_the_bag(setting: ResolvedLawn, unread: Sequence[Hold]) -> Draft:
    """The name of a weed killer that nobody wrote down, asked for at once; of one that the book
    lacks what its label says."""
    if any(hold.unnamed for hold in unread):
        wording = Wording(
            killers.read_bag(),
            title=killers.read_bag_title(),
            how=(killers.read_bag_how(), killers.read_bag_write()),
            go=killers.read_bag_go(),
        )
    else:
        given = setting.brief.history.herbicides[unread[0].number - 1]
        wording = Wording(
            killers.read_label(),
            title=killers.read_label_title(ingredient=given.active_ingredient),
            how=(killers.read_label_how(), killers.read_label_write()),
            go=killers.read_bag_go(),
        )
    timing = Timing(PREPARE, session=-1, ideal=setting.first_day)
    return make(setting, "inspect", "bag", timing=timing, wording=wording)


def _days_to_water_check(setting: ResolvedLawn, campaign: Campaign) -> int:
    """Days from sowing to the check of the watering: ahead of it, or of the waking of seed that
    waits for spring, when pipes are full again.
    """
    up = emergence(setting, campaign)
    if up is not None and waits_for_spring(campaign):
        return up.wakes - setting.days("order.irrigation_lead")
    return -setting.days("wish.irrigation_check")


def orders_of(setting: ResolvedLawn, loads: Sequence[Load]) -> list[Draft]:
    """The orders of what comes loose: one for the loads of a session, each on its own day."""
    numbers = dict.fromkeys(load.order for load in loads if not load.bags)
    return [_order(setting, [load for load in loads if load.order == first]) for first in numbers]


def _order(setting: ResolvedLawn, loads: Sequence[Load]) -> Draft:
    first = loads[0]
    drafted = make(
        setting,
        "order_material",
        str(first.order),
        timing=Timing(
            PREPARE,
            session=first.session,
            position=first.number,
            anchor=f"delivery.{first.number}",
            offset=-(setting.labour.lead_days + setting.days("wish.order_ahead")),
        ),
        wording=_of_order(setting, len(loads)),
    )
    return replace(drafted, loads=tuple(load.number for load in loads))


def _of_order(setting: ResolvedLawn, deliveries: int) -> Wording:
    if setting.on_open_ground:
        return Wording(of_ground.order(), how=(of_ground.order_ask(), of_ground.order_spot()))
    if deliveries == 1:
        return Wording(phrases.order_material())
    how = book_messages(setting.book, "operations.order_material.how")
    return Wording(phrases.order_material(), how=(phrases.order_days(n=deliveries), *how))
