"""Messages of `messages/en/campaigns.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Day, Message, Quantity


def in_year(*, name: Message, year: str) -> Message:
    """{name} {year}"""
    return Message("campaigns.in_year", (("name", name), ("year", year)))


def in_years(*, name: Message, first: str, last: str) -> Message:
    """{name}, {first} to {last}"""
    return Message("campaigns.in_years", (("name", name), ("first", first), ("last", last)))


def over_years(*, n: int) -> Message:
    """over {n} years"""
    return Message("campaigns.over_years", (("n", n),))


def more_than_one_summer(*, depth: Quantity) -> Message:
    """{depth} is more than this grass takes in one summer."""
    return Message("campaigns.more_than_one_summer", (("depth", depth),))


def nothing_to_cover(*, grass: Message) -> Message:
    """Winter ryegrass greens a lawn of {grass} that sleeps. This ground is bare: the ryegrass would
    die in spring and leave it bare, so the lawn itself comes first.
    """
    return Message("campaigns.nothing_to_cover", (("grass", grass),))


def no_season() -> Message:
    """No season within the days of the plan is open for what is asked."""
    return Message("campaigns.no_season")


def missed(*, day: Day) -> Message:
    """its last safe day, {day}, is over when the plan begins"""
    return Message("campaigns.missed", (("day", day),))


def not_asked(*, campaign: str) -> Message:
    """{campaign} is asked for"""
    return Message("campaigns.not_asked", (("campaign", campaign),))


def no_session(*, n: int) -> Message:
    """the fill needs {n} stretches of growth, and none lies in reach before it"""
    return Message("campaigns.no_session", (("n", n),))


def few_sessions(*, sessions: int, n: int) -> Message:
    """the fill needs {sessions} stretches of growth, and only {n} lie in reach before it"""
    return Message("campaigns.few_sessions", (("sessions", sessions), ("n", n)))


def never_through(*, grass: Message) -> Message:
    """Here {grass} has no season long enough to grow through a pass."""
    return Message("campaigns.never_through", (("grass", grass),))


def care_alone() -> Message:
    """Neither fill nor seed was asked for, so this plan is of care alone⟦: ask for fill with
    `depth` under `[leveling]`, for seed with `intent` under `[seeding]`⟧.
    """
    return Message("campaigns.care_alone")
