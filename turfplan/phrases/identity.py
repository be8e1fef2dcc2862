"""Messages of `messages/en/identity.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Message


def known_elsewhere(*, folder: str) -> Message:
    """has the identity of the lawn in {folder}"""
    return Message("identity.known_elsewhere", (("folder", folder),))


def new_copy(*, command: str) -> Message:
    """two lawns never share one: take one of the folders away, or make the copy a lawn of its own
    with `{command}`
    """
    return Message("identity.new_copy", (("command", command),))


def addresses_stay(*, index: str, folder: str, command: str) -> Message:
    """The addresses of this lawn in {index} stay with {folder}, which holds it no more; `{command}`
    takes them along.
    """
    return Message(
        "identity.addresses_stay", (("index", index), ("folder", folder), ("command", command))
    )


def not_asked(*, index: str, fault: Message) -> Message:
    """The index {index} could not be asked whether it knows this lawn elsewhere: {fault}."""
    return Message("identity.not_asked", (("index", index), ("fault", fault)))


def left(*, folder: str) -> Message:
    """is known to the index as the lawn in {folder}, which holds it no more"""
    return Message("identity.left", (("folder", folder),))


def take_along(*, command: str) -> Message:
    """addresses never follow a folder by themselves: `{command}` takes them along"""
    return Message("identity.take_along", (("command", command),))


def not_known() -> Message:
    """holds a lawn that the index does not know"""
    return Message("identity.not_known")


def nothing_moved() -> Message:
    """is where the index knows it already"""
    return Message("identity.nothing_moved")


def another_known() -> Message:
    """is known to the index as the folder of another lawn"""
    return Message("identity.another_known")


def other_place() -> Message:
    """its addresses would open this lawn: plan into another folder, or serve it by another
    --index
    """
    return Message("identity.other_place")


def new_address(*, folder: str, command: str) -> Message:
    """This lawn was published from {folder}: from here it has a new address. If its folder has
    moved, `{command}` goes on under the old one.
    """
    return Message("identity.new_address", (("folder", folder), ("command", command)))


def no_record() -> Message:
    """does not say under which names the feed is published"""
    return Message("identity.no_record")


def mend_record() -> Message:
    """bring it back from a backup; without it the feed gets a new address"""
    return Message("identity.mend_record")
