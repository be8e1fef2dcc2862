"""Messages of `messages/en/campaign_choice.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Days, Message


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
    """Later, or in more sessions, than needed."""
    return Message("campaign_choice.more_than_needed")


def year_later() -> Message:
    """It would be done most of a year later, and nothing is won by waiting."""
    return Message("campaign_choice.year_later")
