"""What of a lawn is cut low, cored and mown for a session of passes: all of it, or a part of it."""

from turfplan.message import Quantity, listed
from turfplan.phrases import dressed as phrases
from turfplan.phrases import places
from turfplan.work.campaigns import Campaign
from turfplan.work.drafts import Pass
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.places import WorkPlace, but_relaid, filled_place, sown_place


def dressed_share(setting: ResolvedLawn, campaign: Campaign, number: int) -> float:
    """The share of the area that is prepared for a session by its number, 0 to 1.

    Of a few hollows it is theirs, with what is sown on the last pass; the standing grass around
    them stays as it is. A share that makes them the lawn itself is all of it, as is seed alone.
    """
    session = next((each for each in campaign.sessions if each.number == number), None)
    if session is None:
        return 1.0
    share = max(layer.share for layer in session.passes)
    if session.sows:
        share = max(share, setting.mended_share)
    return share if share <= setting.book.low_si("passes.hollow_share") + 1e-9 else 1.0


def surface_place(
    setting: ResolvedLawn, campaign: Campaign, number: int, layer: Pass | None = None
) -> WorkPlace:
    """Where the turf is prepared for a session by its number, or for one pass of it.

    For seed it is all that is sown, but for turf that is relaid: that gets no pass, and tears up
    until it has rooted, on loose soil. Drawn zones are prepared by themselves, and so are a few
    hollows; many lie among turf that is mown and cored with them.
    """
    session = next((each for each in campaign.sessions if each.number == number), None)
    if session is None:
        return sown_place(setting) if setting.sowing.operation else WorkPlace()
    first = layer or session.passes[0]
    zones = {zone.name for zone in setting.plot.zones}
    drawn = setting.brief.leveling.survey is None and bool(first.drawn)
    if drawn and zones.issuperset(first.drawn) and (layer is not None or not session.sows):
        return WorkPlace(first.share, first.where)
    share = dressed_share(setting, campaign, number)
    if share < 1.0:
        part = share if layer is None else layer.share
        return _dressed_alone(setting, first, part, patched=session.sows and layer is None)
    if layer is not None:
        return filled_place(setting)
    return but_relaid(setting, (sown_place if session.sows else filled_place)(setting))


def _dressed_alone(setting: ResolvedLawn, first: Pass, share: float, *, patched: bool) -> WorkPlace:
    """A few hollows, with the spots that are sown where a session ends with seed."""
    spots = [places.spots()] if patched and setting.mended_share < 1 else []
    name = places.these(parts=listed([first.where or places.hollows(), *spots]))
    area = Quantity(setting.plot.area_m2 * share, "area")
    return WorkPlace(share, name, phrases.only_there(area=area))
