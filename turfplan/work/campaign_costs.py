"""What a way through the season costs by its kind, in the judgement of the trade."""

from turfplan.records.book_names import CampaignName
from turfplan.work.campaign_reasons import heat_of_summer
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.year_seasons import Half

ENDS_IN_SPRING: frozenset[CampaignName] = frozenset({"spring", "autumn_then_spring"})
"""Priced by their seed, which goes down in spring."""


def cost_of_kind(setting: ResolvedLawn, kind: CampaignName, sown: Half | None) -> float:
    """What the kind of a campaign costs that sows in a half of the growing year, or never: seed in
    spring as much as the summer is hot that it meets, and nothing of it where no seed goes down."""
    book = setting.book
    cost = book.si(book.campaigns[kind].cost)
    if kind in ENDS_IN_SPRING:
        return cost * _loss_in_spring(setting) if sown else 0.0
    if kind == "two_years" and setting.cool and sown == "spring":
        # However long the way, seed at its end meets weeds and its first summer young.
        cost += book.si("campaign.cost_spring") * _loss_in_spring(setting)
    return cost


def _loss_in_spring(setting: ResolvedLawn) -> float:
    """What seed in spring costs here, as a share of what it costs where summers are hot."""
    cool = setting.book.si("campaign.cost_spring_cool_share")
    return cool + (1 - cool) * heat_of_summer(setting)
