"""The button with which the owner opens the home network to phones, or closes it: on the page of a
lawn's calendars and on that of a house, at the machine itself."""

from dataclasses import dataclass

from starlette.requests import Request

from turfplan.message import Message
from turfplan.messages import Words
from turfplan.phrases import page as phrases
from turfplan.serve.reach import reach_of
from turfplan.serve.visit import Server

OPEN, CLOSE = "open_phones", "close_phones"


@dataclass(frozen=True, slots=True)
class PhonesView:
    """Whether phones of the network reach this server, by which address, and who has asked; `fault`
    is why it could not be opened."""

    open: bool
    address: str | None
    fault: str
    seen: str


def can_open(server: Server, request: Request) -> bool:
    """Whether phones can be let in from here: by a server that listens at its machine alone, asked
    at that machine."""
    return server.settings.phones is not None and reach_of(server.base_url(request)) == "machine"


def phones_view(server: Server, request: Request, words: Words) -> PhonesView | None:
    """How the owner opens the home network to phones, or closes it; None where he cannot."""
    phones = server.settings.phones
    if phones is None or not can_open(server, request):
        return None
    held_off = phrases.phones_firewall(port=str(phones.port))
    return PhonesView(
        open=phones.url is not None,
        address=phones.url,
        fault=words.text(phones.fault) if phones.fault is not None else "",
        seen=words.text(phrases.phones_seen() if phones.seen else held_off),
    )


def let_phones(server: Server, done: str) -> Message | None:
    """Opens the addresses of all lawns to the home network, or closes them there; why it cannot be
    opened where it cannot."""
    phones, shelf = server.settings.phones, server.shelf
    assert phones is not None
    if done == OPEN:
        if (fault := phones.open()) is not None:
            return fault
        shelf.keep_phones_open(server.settings.clock())
    else:
        phones.close()
        shelf.keep_phones_open(None)
    return None
