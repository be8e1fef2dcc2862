"""Messages of `messages/en/slips.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Amounted, Day, Days, Message, Number


def to_come(*, day: Day, n: int) -> Message:
    """{day} is still to come, in {n} days"""
    return Message("slips.to_come", (("day", day), ("n", n)))


def far_off(*, day: Day, task: Message, days: Days, off: int) -> Message:
    """{day} lies {off} days from the days of “{task}” in the plan ({days})"""
    return Message("slips.far_off", (("day", day), ("task", task), ("days", days), ("off", off)))


def outside_plan(*, day: Day, days: Days, off: int) -> Message:
    """{day} lies {off} days outside the plan ({days})"""
    return Message("slips.outside_plan", (("day", day), ("days", days), ("off", off)))


def not_a_delivery(*, task: Message) -> Message:
    """“{task}” is no delivery"""
    return Message("slips.not_a_delivery", (("task", task),))


def in_any_weather(*, task: Message) -> Message:
    """rain takes no day from “{task}”"""
    return Message("slips.in_any_weather", (("task", task),))


def written_before(*, number: int) -> Message:
    """entry {number} says the same"""
    return Message("slips.written_before", (("number", number),))


def was_done(*, task: Message, number: int) -> Message:
    """“{task}” was done before, by entry {number}"""
    return Message("slips.was_done", (("task", task), ("number", number)))


def was_dropped(*, task: Message) -> Message:
    """“{task}” is not in the plan any more"""
    return Message("slips.was_dropped", (("task", task),))


def counts_as(*, task: Message, other: Message, name: str) -> Message:
    """“{task}” is not in the plan any more; it would count as “{other}” ({name})"""
    return Message("slips.counts_as", (("task", task), ("other", other), ("name", name)))


def was_skipped(*, task: Message, number: int) -> Message:
    """“{task}” was left out, by entry {number}"""
    return Message("slips.was_skipped", (("task", task), ("number", number)))


def shares(*, task: Message, share: Number) -> Message:
    """with what was written before, that makes {share} of “{task}”"""
    return Message("slips.shares", (("task", task), ("share", share)))


def nothing(*, amount: str) -> Message:
    """{amount} is no amount: it is more than nothing"""
    return Message("slips.nothing", (("amount", amount),))


def not_counted(*, amount: Amounted, task: Message) -> Message:
    """{amount}: “{task}” is not counted in this in the plan"""
    return Message("slips.not_counted", (("amount", amount), ("task", task)))


def many_times(*, amount: Amounted, planned: Amounted, task: Message, times: Number) -> Message:
    """{amount} is {times} times what the plan has for “{task}” ({planned})"""
    return Message(
        "slips.many_times",
        (("amount", amount), ("planned", planned), ("task", task), ("times", times)),
    )


def small_part(*, amount: Amounted, planned: Amounted, task: Message, share: Number) -> Message:
    """{amount} is {share} of what the plan has for “{task}” ({planned})"""
    return Message(
        "slips.small_part",
        (("amount", amount), ("planned", planned), ("task", task), ("share", share)),
    )


def other_unit(*, amount: str, planned: Amounted, task: Message, unit: str) -> Message:
    """{amount} is not what the plan has for “{task}” ({planned}), but with {unit} for its unit it
    would be
    """
    return Message(
        "slips.other_unit",
        (("amount", amount), ("planned", planned), ("task", task), ("unit", unit)),
    )


def out_of_range(*, value: str, low: Amounted, high: Amounted) -> Message:
    """{value} cannot be: from {low} to {high} can"""
    return Message("slips.out_of_range", (("value", value), ("low", low), ("high", high)))


def whole_share(*, value: str) -> Message:
    """{value} cannot be: no more than all of it can, which is 1 or 100%"""
    return Message("slips.whole_share", (("value", value),))


def yes_or_no(*, value: str) -> Message:
    """{value} cannot be: it is 1 where it was found, 0 where it was not"""
    return Message("slips.yes_or_no", (("value", value),))


def unlike_season(*, value: str, usual: Amounted) -> Message:
    """{value} is far from what the soil there has at that time of the year, {usual}"""
    return Message("slips.unlike_season", (("value", value), ("usual", usual)))


def other_scale(*, value: str, usual: Amounted, unit: str) -> Message:
    """{value} is far from what the soil there has at that time of the year, {usual}, but with
    {unit} for its unit it would not be
    """
    return Message("slips.other_scale", (("value", value), ("usual", usual), ("unit", unit)))


def much(*, value: str, usual: Amounted) -> Message:
    """{value} is very much: {usual} is much already"""
    return Message("slips.much", (("value", value), ("usual", usual)))


def keep() -> Message:
    """put it right, or keep it as it stands with --yes"""
    return Message("slips.keep")


def keep_asked() -> Message:
    """Is it right all the same?"""
    return Message("slips.keep_asked")


def not_written() -> Message:
    """Nothing was written."""
    return Message("slips.not_written")


def share_example() -> Message:
    """for example 0.5, 1/2 or 50%"""
    return Message("slips.share_example")
