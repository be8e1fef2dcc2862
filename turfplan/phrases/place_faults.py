"""Messages of `messages/en/place_faults.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Message


def unplaced(*, file: str) -> Message:
    """{file} does not say where it was measured"""
    return Message("place_faults.unplaced", (("file", file),))


def give_place() -> Message:
    """give latitude and longitude, town or postal_code"""
    return Message("place_faults.give_place")


def only_us() -> Message:
    """only US postal codes are known"""
    return Message("place_faults.only_us")


def open_sea() -> Message:
    """lies in the open sea"""
    return Message("place_faults.open_sea")


def unknown_zone() -> Message:
    """unknown time zone"""
    return Message("place_faults.unknown_zone")


def such_as(*, example: str) -> Message:
    """for example {example}"""
    return Message("place_faults.such_as", (("example", example),))
