"""Messages of `messages/en/photos.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Message


def needs_pillow() -> Message:
    """pictures need the extra pdf, which draws them anew without where they were taken"""
    return Message("photos.needs_pillow")


def install(*, pip: str) -> Message:
    """`{pip}`, or move the pictures away"""
    return Message("photos.install", (("pip", pip),))


def unreadable() -> Message:
    """this picture cannot be read"""
    return Message("photos.unreadable")


def other_picture() -> Message:
    """save it anew as a JPEG or PNG, or move it away"""
    return Message("photos.other_picture")
