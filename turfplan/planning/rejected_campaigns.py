"""What speaks against campaigns that were not chosen: too few days for their passes, or a better
one."""

from turfplan.book.words import book_message
from turfplan.calendar_days import HALF_A_YEAR
from turfplan.message import Days, Message
from turfplan.phrases import campaign_choice as phrases
from turfplan.work.campaigns import Campaign, Session, crowded
from turfplan.work.lawn import ResolvedLawn


def against_dearer(lawn: ResolvedLawn, best: Campaign, other: Campaign) -> Message:
    """Why a campaign that costs more was not dated: the sum where its days are too few, else what
    speaks for the better one."""
    short = crowded(lawn, other)
    return too_many_passes(lawn, *short) if short else second_best(lawn, best, other)


def too_many_passes(setting: ResolvedLawn, session: Session, most: int) -> Message:
    """Why a session cannot take its passes, in numbers."""
    days = Days(session.window.start, session.window.end, weekday=False)
    between = phrases.settled_between() if setting.on_open_ground else phrases.grown_between()
    passes = len(session.passes)
    if most == 0:
        return phrases.no_time_for_passes(days=days, passes=passes, between=between)
    return phrases.too_many_passes(days=days, passes=passes, most=most, between=between)


def second_best(setting: ResolvedLawn, best: Campaign, other: Campaign) -> Message:
    """Why a campaign that does not break a rule at first sight was not chosen."""
    if other.id == best.id:
        return phrases.more_than_needed()
    ends = [
        (c.sow_window or c.sessions[-1].window).best
        for c in (best, other)
        if c.sow_window or c.sessions
    ]
    if len(ends) == 2 and (ends[1] - ends[0]).days > HALF_A_YEAR:
        return phrases.year_later()
    return book_message(setting.book, f"campaigns.{other.id}.against")
