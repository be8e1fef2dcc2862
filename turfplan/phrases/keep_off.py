"""Messages of `messages/en/keep_off.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Day, Message


def seed(*, mown: Day, first: Day, last: Day, source: Message) -> Message:
    """Keep people and pets off until it has been mown three times, not before {mown}, but for the
    work of this plan; ball games and parties wait until it has filled in, between {first} and
    {last} ({source}).
    """
    return Message(
        "keep_off.seed", (("mown", mown), ("first", first), ("last", last), ("source", source))
    )


def second_grass(*, mown: Day) -> Message:
    """Keep people and pets off until the new grass has been mown three times, not before {mown},
    but for the work of this plan.
    """
    return Message("keep_off.second_grass", (("mown", mown),))


def plugs(*, first: Day, last: Day, source: Message) -> Message:
    """Keep people and pets off until the plants have grown together, between {first} and {last}
    ({source}), but for the work of this plan; full use may take a year.
    """
    return Message("keep_off.plugs", (("first", first), ("last", last), ("source", source)))


def sod(*, first: Day, running: Day, source: Message) -> Message:
    """Keep people off until {first} but for the work of this plan, and running children and dogs
    until {running} ({source}): turf that is shifted before it has rooted dies at its joints.
    """
    return Message("keep_off.sod", (("first", first), ("running", running), ("source", source)))
