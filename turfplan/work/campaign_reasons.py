"""What speaks for a way through the season, on this lawn and in this climate."""

from turfplan.book.words import book_messages
from turfplan.message import Message, length_mm
from turfplan.phrases import campaigns as phrases
from turfplan.phrases import ground_fill as of_ground
from turfplan.records.book_names import CampaignName
from turfplan.work.ground_fill import waits_a_season
from turfplan.work.lawn import ResolvedLawn


def _of_open_ground(setting: ResolvedLawn) -> tuple[Message, ...]:
    """What is done to ground without living grass before it is sown."""
    fills = bool(setting.levelling.bands) and setting.sowing.operation is not None
    return tuple(
        message
        for message, holds in (
            (of_ground.campaign_killed(), setting.worked == "killed"),
            (of_ground.campaign(), fills),
            (
                of_ground.campaign_loosened(),
                not setting.levelling.bands and setting.worked == "bare",
            ),
            (of_ground.campaign_season(), fills and waits_a_season(setting)),
        )
        if holds
    )


def _of_climate(setting: ResolvedLawn, kind: CampaignName) -> tuple[Message, ...]:
    """What speaks for a campaign where summers are hot for this grass, or where it freezes."""
    book, climate = setting.book, setting.climate
    hot = max(climate.air_mean_c) > book.si("windows.cool_feed_spring_closes")
    return (
        *(book_messages(book, f"campaigns.{kind}.why_in_heat") if hot else ()),
        *(book_messages(book, f"campaigns.{kind}.why_with_frost") if climate.first_frost else ()),
    )


def why_campaign(setting: ResolvedLawn, kind: CampaignName, *, passes: bool) -> tuple[Message, ...]:
    """What speaks for a campaign."""
    book = setting.book
    if setting.on_open_ground:
        return (
            *_of_open_ground(setting),
            *book_messages(book, f"campaigns.{kind}.why_without_passes"),
        )
    why = book_messages(book, f"campaigns.{kind}.{'why' if passes else 'why_without_passes'}")
    if passes:
        why = (*why[:1], *_of_climate(setting, kind), *why[1:])
    strong = book.si("campaign.fill_strong_summer") + 1e-6
    if kind == "two_years" and not setting.cool and setting.levelling.mean_mm <= strong:
        # The fill as a whole would do for one summer: it is its depth at one place that does not.
        deep = phrases.more_than_one_summer(depth=length_mm(setting.levelling.depth_mm))
        return (deep, *why[1:])
    return why
