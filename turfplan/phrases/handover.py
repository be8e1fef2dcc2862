"""Messages of `messages/en/handover.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Days, Listed, Message, Number, Quantity


def rest_of_fill(*, depth: Quantity) -> Message:
    """Level what is left of the fill, up to {depth}"""
    return Message("handover.rest_of_fill", (("depth", depth),))


def rest_in_seasons(*, depth: Quantity, passes: int, n: int) -> Message:
    """Begin to level what is left of the fill, up to {depth}: of its {passes} passes this season
    holds {n}, and the seasons after it take the others
    """
    return Message("handover.rest_in_seasons", (("depth", depth), ("passes", passes), ("n", n)))


def undone_part(*, depth: Quantity, left: Quantity, share: Number, rest: Message) -> Message:
    """This plan spreads {depth} of the fill asked for; up to {left} on {share} of the lawn is left
    out. {rest}
    """
    return Message(
        "handover.undone.part", (("depth", depth), ("left", left), ("share", share), ("rest", rest))
    )


def undone_skipped(*, depth: Quantity, left: Quantity) -> Message:
    """Of {depth} of fill that was asked for, {left} is left out where it is deepest: it was
    skipped, or spread thinner, and what comes later can take no more of it. What the ground still
    lacks once the passes are done can be measured and logged (`depth_missing`); it then goes on
    with the touch-up.
    """
    return Message("handover.undone.skipped", (("depth", depth), ("left", left)))


def undone_all(*, depth: Quantity, rest: Message) -> Message:
    """Nothing of the {depth} of fill asked for is spread in this plan: leveling has too few days
    left this season, and what is sown or planted now is not spread over before it is mown three
    times. {rest}
    """
    return Message("handover.undone.all", (("depth", depth), ("rest", rest)))


def undone_touched_up(*, depth: Quantity, left: Quantity) -> Message:
    """This plan spreads {depth} of the fill asked for; the {left} that is left is no more than the
    touch-up takes.
    """
    return Message("handover.undone.touched_up", (("depth", depth), ("left", left)))


def undone_no_more(*, depth: Quantity, rest: Message) -> Message:
    """No more of the fill is spread in this plan, and up to {depth} of it is left: leveling has too
    few days left this season, and what is sown or planted now is not spread over before it is mown
    three times. {rest}
    """
    return Message("handover.undone.no_more", (("depth", depth), ("rest", rest)))


def undone_beside_lifted(*, left: Quantity, share: Number, rest: Message) -> Message:
    """Beside the hollows whose turf is lifted nothing of the fill asked for is spread in this plan;
    up to {left} on {share} of the lawn is left out. {rest}
    """
    return Message(
        "handover.undone.beside_lifted", (("left", left), ("share", share), ("rest", rest))
    )


def undone_next(*, days: Days) -> Message:
    """The next season for the rest: {days}; plan it by itself then."""
    return Message("handover.undone.next", (("days", days),))


def undone_next_part(*, days: Days) -> Message:
    """The next season for a part of the rest, which needs more than one: {days}; plan it by itself
    then.
    """
    return Message("handover.undone.next_part", (("days", days),))


def undone_way(*, title: Message, change: Message, reason: Message) -> Message:
    """All of it: {title}⟦ (`{change}`)⟧. {reason}"""
    return Message(
        "handover.undone.way", (("title", title), ("change", change), ("reason", reason))
    )


def item(*, title: Message, days: Days) -> Message:
    """{title} ({days})"""
    return Message("handover.item", (("title", title), ("days", days)))


def item_by_sign(*, title: Message, days: Days, sign: Message) -> Message:
    """{title} ({days}; {sign})"""
    return Message("handover.item_by_sign", (("title", title), ("days", days), ("sign", sign)))


def sign_first_mow(*, due: Quantity) -> Message:
    """once the grass stands {due} and does not pull out"""
    return Message("handover.sign_first_mow", (("due", due),))


def sign_height(*, due: Quantity) -> Message:
    """whenever the grass stands {due}"""
    return Message("handover.sign_height", (("due", due),))


def sign_germination() -> Message:
    """until most of the seed is up"""
    return Message("handover.sign_germination")


def sign_establishment() -> Message:
    """until the new grass has been mown"""
    return Message("handover.sign_establishment")


def sign_rooting() -> Message:
    """until nothing comes up at a gentle pull"""
    return Message("handover.sign_rooting")


def heights(*, height: Quantity, least: Quantity, most: Quantity) -> Message:
    """Mow the new grass to {height} twice more after its first cut, then go over to the usual
    {least} to {most}
    """
    return Message("handover.heights", (("height", height), ("least", least), ("most", most)))


def after_the_plan(*, items: Listed) -> Message:
    """This plan leaves to whoever looks after the lawn then: {items}."""
    return Message("handover.after_the_plan", (("items", items),))
