"""Messages of `messages/en/changes_page.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Message


def title(*, lawn: str) -> Message:
    """{lawn}: what changed"""
    return Message("changes_page.title", (("lawn", lawn),))


def description(*, lawn: str) -> Message:
    """What changed in the plan of the lawn {lawn}, and why."""
    return Message("changes_page.description", (("lawn", lawn),))


def skip_to() -> Message:
    """Skip to the changes"""
    return Message("changes_page.skip_to")


def changes() -> Message:
    """Changes"""
    return Message("changes_page.changes")


def what_changed() -> Message:
    """What changed"""
    return Message("changes_page.what_changed")


def revision(*, revision: int, day: str) -> Message:
    """Revision {revision}, made {day}."""
    return Message("changes_page.revision", (("revision", revision), ("day", day)))


def what() -> Message:
    """What"""
    return Message("changes_page.what")


def before() -> Message:
    """Before"""
    return Message("changes_page.before")


def now() -> Message:
    """Now"""
    return Message("changes_page.now")


def because() -> Message:
    """Because"""
    return Message("changes_page.because")


def nothing() -> Message:
    """Nothing changed since the plan before."""
    return Message("changes_page.nothing")


def first() -> Message:
    """This is the first plan: there is none before it."""
    return Message("changes_page.first")
