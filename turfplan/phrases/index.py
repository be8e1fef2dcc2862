"""Messages of `messages/en/index.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Message


def none() -> Message:
    """no such index"""
    return Message("index.none")


def serve_makes_one(*, command: str) -> Message:
    """`{command}` makes one"""
    return Message("index.serve_makes_one", (("command", command),))


def unusable(*, reason: Message) -> Message:
    """the index cannot be used ({reason})"""
    return Message("index.unusable", (("reason", reason),))


def restore_brings_back(*, command: str) -> Message:
    """`{command}` brings a copy back"""
    return Message("index.restore_brings_back", (("command", command),))


def newer() -> Message:
    """was written by a newer turfplan"""
    return Message("index.newer")


def form(*, number: int) -> Message:
    """form {number}"""
    return Message("index.form", (("number", number),))


def up_to(*, number: int) -> Message:
    """up to {number}"""
    return Message("index.up_to", (("number", number),))


def exists() -> Message:
    """exists already"""
    return Message("index.exists")


def another_name() -> Message:
    """choose another name"""
    return Message("index.another_name")


def not_whole() -> Message:
    """is not a whole copy of an index that this turfplan can read"""
    return Message("index.not_whole")


def unrestored(*, reason: Message) -> Message:
    """cannot be restored ({reason})"""
    return Message("index.unrestored", (("reason", reason),))
