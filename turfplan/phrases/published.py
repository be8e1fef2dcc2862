"""Messages of `messages/en/published.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Day, Message


def as_of(*, day: Day) -> Message:
    """The plan as it stood on {day}. Nothing can be entered here."""
    return Message("published.as_of", (("day", day),))


def calendar() -> Message:
    """The calendar"""
    return Message("published.calendar")


def calendar_say() -> Message:
    """Copy the address of this link and add it to a calendar as a subscription: then it follows the
    plan. Opened as a file it is a copy that will not move by itself.
    """
    return Message("published.calendar_say")


def calendar_link() -> Message:
    """Address of the calendar"""
    return Message("published.calendar_link")


def how() -> Message:
    """How"""
    return Message("published.how")


def private() -> Message:
    """Who has the address of this page can read it: pass it on only to people who may."""
    return Message("published.private")


def nothing() -> Message:
    """Nothing to see here"""
    return Message("published.nothing")


def nothing_say() -> Message:
    """What lies here is opened by its whole address."""
    return Message("published.nothing_say")


def withdrawn() -> Message:
    """This address was withdrawn"""
    return Message("published.withdrawn")


def withdrawn_say() -> Message:
    """Nothing more comes here. Ask the owner of the lawn for a new address."""
    return Message("published.withdrawn_say")


def ended_name(*, name: str) -> Message:
    """{name} (ended)"""
    return Message("published.ended_name", (("name", name),))


def ended() -> Message:
    """This address was withdrawn. What was to come is cancelled; the calendar can be taken off the
    device.
    """
    return Message("published.ended")


def shows_all() -> Message:
    """a host that shows this folder would show the whole plan, with the exact place"""
    return Message("published.shows_all")


def own_folder(*, example: str) -> Message:
    """choose a folder for the host alone, beside the plan's: `--to {example}`"""
    return Message("published.own_folder", (("example", example),))


def not_published() -> Message:
    """nothing of this lawn is published there"""
    return Message("published.not_published")


def name_folder() -> Message:
    """name the folder that it was published to, and the part"""
    return Message("published.name_folder")


def old_key(*, file: str) -> Message:
    """{file} is a key of an older version, from which names of addresses follow: publish each of
    your lawns here again, then delete it here and at the host.
    """
    return Message("published.old_key", (("file", file),))
