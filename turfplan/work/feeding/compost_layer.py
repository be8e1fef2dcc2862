"""Whether compost in the mix feeds what is sown: only where it lies fresh under the seed."""

from datetime import date, timedelta

from turfplan.work.campaigns import Campaign, Session
from turfplan.work.emergence import emergence
from turfplan.work.feeding.stages import WorkedDays
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.mix_choice import MixChoice


def compost_feeds_seed(setting: ResolvedLawn, campaign: Campaign, mix: MixChoice) -> bool:
    """Whether a layer with compost lies under most of the seed (or, where none is sown, of the
    lawn), and is fresh when the seed wakes.

    What lies on a few hollows, or was spread a season before, feeds no seed on all the lawn.
    """
    if mix.compost_share <= 0 or not campaign.sessions:
        return False
    book = setting.book
    last = campaign.sessions[-1]
    place = setting.sowing.share if campaign.sow_window is not None else 1.0
    covered = max((layer.share for layer in last.passes), default=0.0)
    if covered < book.si("feeding.compost_covers") * place:
        return False
    wakes = _wakes(setting, campaign)
    return wakes is None or (wakes - _spread(last)).days <= book.si("feeding.compost_fresh")


def still_fresh(setting: ResolvedLawn, worked: WorkedDays) -> bool:
    """Whether the last layer was spread so shortly before the seed that it feeds it: not where rain
    has put the seed off for a season."""
    if worked.sown is None or not worked.passes:
        return True
    last = max(day for day, _ in worked.passes)
    return (worked.sown - last).days <= setting.book.si("feeding.compost_fresh")


def _spread(session: Session) -> date:
    return session.window.best


def _wakes(setting: ResolvedLawn, campaign: Campaign) -> date | None:
    """The day on which seed that goes in apart from the last pass wakes; None where there is
    none."""
    sow, up = campaign.sow_window, emergence(setting, campaign)
    if sow is None or up is None or campaign.sow_on_pass:
        return None
    return sow.best + timedelta(up.wakes)
