"""What speaks for a way through the season, or against it, on this lawn and in this climate."""

from turfplan.book.words import book_message, book_messages, optional_message
from turfplan.message import Message, length_mm
from turfplan.phrases import campaigns as phrases
from turfplan.phrases import ground_fill as of_ground
from turfplan.records.book_names import CampaignName
from turfplan.work.drafts import OpenDays
from turfplan.work.ground_fill import waits_a_season
from turfplan.work.growing_year import growing_year
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.passes import sessions_needed


def heat_of_summer(setting: ResolvedLawn) -> float:
    """How hot summers are for what grows here, from 0 (no heat to keep clear of) to 1."""
    return growing_year(setting.climate, setting.book, setting.turf.species.id).summer


def sown_before(setting: ResolvedLawn, sow: OpenDays) -> bool:
    """Whether a season for seed that comes up at once is still to come, or open, when the season of
    dormant seed begins: then nobody may say that it is over."""
    operation = setting.sowing.operation
    return operation is not None and any(
        w.end.toordinal() >= setting.first_day and w.start <= sow.start
        for w in setting.open(operation)
    )


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


def _in_climate(setting: ResolvedLawn, kind: CampaignName) -> tuple[Message, ...]:
    """What speaks for a campaign where summers are hot for this grass, or where it freezes."""
    book, climate = setting.book, setting.climate
    hot = heat_of_summer(setting) > 0
    return (
        *(book_messages(book, f"campaigns.{kind}.why_in_heat") if hot else ()),
        *(book_messages(book, f"campaigns.{kind}.why_with_frost") if climate.first_frost else ()),
    )


def _of_passes(setting: ResolvedLawn, kind: CampaignName) -> tuple[Message, ...]:
    """What is said of the passes: in other words where the fill is deeper than one session of
    growth takes."""
    book, key = setting.book, f"campaigns.{kind}.why"
    strong = book.si("campaign.fill_strong_summer") + 1e-6
    if kind == "two_years" and not setting.cool and setting.levelling.mean_mm <= strong:
        # The fill as a whole would do for one summer: it is its depth at one place that does not.
        deep = phrases.more_than_one_summer(depth=length_mm(setting.levelling.depth_mm))
        return (deep, *book_messages(book, key))
    deeper = book_messages(book, f"{key}_deep") if sessions_needed(setting) > 1 else ()
    return deeper or book_messages(book, key)


def _of_seed(
    setting: ResolvedLawn, kind: CampaignName, sow: OpenDays | None
) -> tuple[tuple[Message, ...], tuple[Message, ...]]:
    """What is said of the seed of a campaign before and after what is said of its passes: nothing
    where none goes down."""
    if sow is None:
        return (), ()
    book, key = setting.book, f"campaigns.{kind}"
    over = () if sown_before(setting, sow) else book_messages(book, f"{key}.why_season_over")
    young = heat_of_summer(setting) > 0
    return over, (
        *book_messages(book, f"{key}.why_with_seed"),
        *(book_messages(book, f"{key}.why_with_seed_in_heat") if young else ()),
    )


def why_campaign(
    setting: ResolvedLawn, kind: CampaignName, sow: OpenDays | None, *, passes: bool
) -> tuple[Message, ...]:
    """What speaks for a campaign."""
    book = setting.book
    if setting.care_alone:
        alone = book_messages(book, f"campaigns.{kind}.why_without_passes")
        return (phrases.care_alone(), *alone)
    over, seed = _of_seed(setting, kind, sow)
    if setting.on_open_ground or not passes:
        alone = book_messages(book, f"campaigns.{kind}.why_without_passes")
        ground = _of_open_ground(setting) if setting.on_open_ground else ()
        return (*ground, *over, *alone, *seed)
    why = _of_passes(setting, kind)
    return (*over, *why[:1], *_in_climate(setting, kind), *why[1:], *seed)


def against_campaign(setting: ResolvedLawn, kind: CampaignName, *, sown: bool) -> Message:
    """What speaks against a campaign beside a better one: of seed only where it is `sown`, of the
    heat of summer only where there is any."""
    book, key = setting.book, f"campaigns.{kind}.against"
    with_seed = optional_message(book, f"{key}_with_seed") if sown else None
    hot = sown and heat_of_summer(setting) > 0
    in_heat = optional_message(book, f"{key}_with_seed_in_heat") if hot else None
    return in_heat or with_seed or book_message(book, key)
