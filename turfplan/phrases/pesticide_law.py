"""Messages of `messages/en/pesticide_law.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Message


def closed(*, year: str, source: Message) -> Message:
    """Since {year} lawns here are closed to killers of weeds, insects and diseases that serve their
    looks alone, beyond a list of products of low risk ({source}). The plan counts on none, and has
    no crabgrass preventer; ask the authority what is on the list before you buy or spread one.
    """
    return Message("pesticide_law.closed", (("year", year), ("source", source)))


def ask() -> Message:
    """Some provinces and many towns here close lawns to killers of weeds, insects and diseases: ask
    both before you buy or spread one.
    """
    return Message("pesticide_law.ask")
