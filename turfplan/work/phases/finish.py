"""Finishing: see how the fill has settled, and make good what is still low."""

from turfplan.message import Message, length_mm
from turfplan.phrases import finish as phrases
from turfplan.phrases import ground_fill as of_ground
from turfplan.phrases import level as of_level
from turfplan.phrases import places
from turfplan.work.campaigns import Campaign
from turfplan.work.drafts import Draft
from turfplan.work.emergence import undressed_days
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.operations import FINISH, Extent, Timing, Wording, handled, make
from turfplan.work.phases.level import wished_spacing
from turfplan.work.places import filled_place


def finish(
    setting: ResolvedLawn, campaign: Campaign, touch_up_m3: float, spacing_days: int
) -> tuple[list[Draft], list[Message]]:
    """The check and the touch-up in the next growth with time for both, and notes if none has."""
    if not campaign.sessions and setting.levelling.lift_share:
        return [_check_of_hollows(setting)], []
    if not campaign.sessions:
        return [], []
    if setting.on_open_ground and campaign.sow_window is None:
        return [], [of_ground.touch_up_later()]
    if not setting.touch_up_depth_mm:
        return [], [phrases.nothing_low()]
    book, last = setting.book, _last_work(setting, campaign, spacing_days)
    rest = undressed_days(setting, campaign)
    checked = (
        last + round(book.si("order.settle_check_least")) + round(book.si("order.touch_up_lead"))
    )
    ready = max(checked, last + rest)
    least = setting.days("windows.least_days")
    for window in setting.open("touch_up") or setting.open("topdress"):
        if ready + least <= window.end.toordinal() <= setting.last_day:
            return _touch_up(setting, max(window.best.toordinal(), ready), touch_up_m3), []
    return [], [phrases.next_season()]


def _last_work(setting: ResolvedLawn, campaign: Campaign, spacing_days: int) -> int:
    """The wished day of the last pass, or of the seed where that comes later."""
    session = campaign.sessions[-1]
    between = wished_spacing(setting, session, spacing_days)
    spread = session.window.best.toordinal() + between * (len(session.passes) - 1)
    return max(spread, campaign.sow_window.best.toordinal() if campaign.sow_window else spread)


def _check_of_hollows(setting: ResolvedLawn) -> Draft:
    """The check where hollows were filled and nothing was spread."""
    settled = round(setting.book.si("order.settle_check_least"))
    return make(
        setting,
        "settle_check",
        timing=Timing(FINISH, anchor="lift_and_fill", offset=settled),
        wording=Wording(phrases.settle_check_hollows()),
    )


def _touch_up(setting: ResolvedLawn, best: int, loose_m3: float) -> list[Draft]:
    """The touch-up, wished on its best day, and the check before it."""
    depth = min(setting.touch_up_depth_mm, setting.book.si("passes.hard_cap"))
    composted, place = "compost" in handled(setting, "touch_up"), filled_place(setting)
    return [
        make(
            setting,
            "settle_check",
            timing=Timing(FINISH, anchor="touch_up", offset=-setting.days("wish.settle_check")),
            wording=Wording(phrases.settle_check_passes()),
        ),
        make(
            setting,
            "touch_up",
            timing=Timing(FINISH, ideal=best),
            wording=Wording(
                phrases.touch_up(),
                {"depth": length_mm(depth)},
                how=(of_level.compost_touch_up(),) if composted else None,
                go=of_level.compost_touch_up_go() if composted else None,
            ),
            extent=Extent(
                setting.plot.area_m2 * place.share * setting.book.si("topdress.touch_up_share"),
                loose_m3,
                depth,
                where=place.name,
                # A tenth of it is low: its whole area would be told as what is filled.
                where_step=None if place.name is None else places.first(where=place.name),
            ),
            facts=("topdress.touch_up_depth", "topdress.touch_up_share"),
        ),
    ]
