"""Finishing: see how the fill has settled, and make good what is still low."""

from turfplan.rules.build import FINISH, make
from turfplan.rules.campaign import Campaign
from turfplan.rules.draft import Draft
from turfplan.rules.level import wished_spacing
from turfplan.rules.setting import Setting


def finish(
    setting: Setting, campaign: Campaign, touch_up_m3: float, spacing_days: int
) -> tuple[list[Draft], list[str]]:
    """The check and the touch-up in the next season of growth that has time for both, and notes when there is none."""
    if not campaign.sessions and setting.lift_share:
        return [_check_of_hollows(setting)], []
    if not campaign.sessions:
        return [], []
    if not setting.touch_up_depth_mm:
        return [], ["Measured: nothing is low any more, so there is nothing to touch up."]
    book, last = setting.book, _last_work(setting, campaign, spacing_days)
    ready = last + round(book.si("order.settle_check_least"))
    lead = round(book.si("order.touch_up_lead"))
    rest = round(book.si("seeding.no_dressing")) if setting.sowing else 0
    least = setting.days("windows.least_days")
    for window in setting.open("touch_up") or setting.open("topdress"):
        if window.end.toordinal() < max(ready + lead, last + rest) + least or window.end.toordinal() > setting.last_day:
            continue
        return _touch_up(setting, max(window.best.toordinal(), ready + lead, last + rest), touch_up_m3), []
    return [], [
        "The settle check and the touch-up fall after the last day of the plan: look again in the next season of growth."
    ]


def _last_work(setting: Setting, campaign: Campaign, spacing_days: int) -> int:
    """The wished day of the last pass, or of the seed where that comes later."""
    session = campaign.sessions[-1]
    between = wished_spacing(setting, session, spacing_days)
    spread = session.window.best.toordinal() + between * (len(session.passes) - 1)
    return max(spread, campaign.sow_window.best.toordinal() if campaign.sow_window else spread)


def _check_of_hollows(setting: Setting) -> Draft:
    """The check where hollows were filled and nothing was spread."""
    return make(
        setting, "settle_check", why="Deep fill settles most: measure before you add.", priority=FINISH,
        anchor="lift_and_fill", offset=round(setting.book.si("order.settle_check_least")),
    )  # fmt: skip


def _touch_up(setting: Setting, best: int, loose_m3: float) -> list[Draft]:
    """The touch-up, wished on its best day, and the check before it."""
    depth = min(setting.touch_up_depth_mm, setting.book.si("passes.hard_cap"))
    return [
        make(
            setting, "settle_check", why="Loose fill settles over a winter or a wet season: measure before you add.",
            priority=FINISH, anchor="touch_up", offset=-setting.days("wish.settle_check"),
        ),
        make(
            setting, "touch_up", why="A little is always missing somewhere; thin spots are touched up once, with the same mix.",
            priority=FINISH, ideal=best, loose_m3=loose_m3, area_m2=setting.area_m2 * setting.book.si("topdress.touch_up_share"),
            depth_mm=depth, words={"depth": setting.length(depth)},
            facts=("topdress.touch_up_depth", "topdress.touch_up_share"),
        ),
    ]  # fmt: skip
