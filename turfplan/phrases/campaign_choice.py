"""Messages of `messages/en/campaign_choice.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Day, Days, Message, Number


def too_many_passes(*, days: Days, passes: int, most: int, between: Message) -> Message:
    """From {days} the fill would need {passes} passes, and there is time for {most}. {between}"""
    return Message(
        "campaign_choice.too_many_passes",
        (("days", days), ("passes", passes), ("most", most), ("between", between)),
    )


def no_time_for_passes(*, days: Days, passes: int, between: Message) -> Message:
    """From {days} the fill would need {passes} passes, and there is time for none. {between}"""
    return Message(
        "campaign_choice.no_time_for_passes",
        (("days", days), ("passes", passes), ("between", between)),
    )


def grown_between() -> Message:
    """The grass must grow through each before the next."""
    return Message("campaign_choice.grown_between")


def settled_between() -> Message:
    """Each must settle before the next."""
    return Message("campaign_choice.settled_between")


def more_than_needed() -> Message:
    """Later, or in more seasons of work, than needed."""
    return Message("campaign_choice.more_than_needed")


def leaves_more(*, share: Number) -> Message:
    """It leaves {share} of the fill asked for undone."""
    return Message("campaign_choice.leaves_more", (("share", share),))


def whole_later(*, campaign: str) -> Message:
    """It would do the whole fill, at the price of more waiting or work⟦: `campaign =
    \"{campaign}\"` asks for it⟧.
    """
    return Message("campaign_choice.whole_later", (("campaign", campaign),))


def not_whole_either() -> Message:
    """It asks for more waiting or work, and asked for by itself it would not do the whole fill
    either.
    """
    return Message("campaign_choice.not_whole_either")


def rest_never_dressed() -> Message:
    """It sows and leaves the fill for later, and here the young grass grows too slowly to bear a
    layer in any season within reach.
    """
    return Message("campaign_choice.rest_never_dressed")


def year_later() -> Message:
    """It would be done most of a year later, and nothing is won by waiting."""
    return Message("campaign_choice.year_later")


def not_sooner(*, campaign: Message, reason: Message) -> Message:
    """Why not a year sooner, in {campaign}: {reason}"""
    return Message("campaign_choice.not_sooner", (("campaign", campaign), ("reason", reason)))


def missed_sooner(*, campaign: Message, day: Day) -> Message:
    """Not a year sooner: the last safe day of {campaign} was {day}."""
    return Message("campaign_choice.missed_sooner", (("campaign", campaign), ("day", day)))
