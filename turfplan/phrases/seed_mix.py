"""Messages of `messages/en/seed_mix.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Listed, Message, Number, Quantity


def mixture(*, grasses: Listed) -> Message:
    """{grasses}"""
    return Message("seed_mix.mixture", (("grasses", grasses),))


def by_stand(*, grasses: Listed) -> Message:
    """The seed is the mix of the stand, counted by seeds: {grasses}."""
    return Message("seed_mix.by_stand", (("grasses", grasses),))


def part(*, share: Number, grass: Message, weight: Number) -> Message:
    """{share} {grass} ({weight} of the weight)"""
    return Message("seed_mix.part", (("share", share), ("grass", grass), ("weight", weight)))


def area_apart(*, area: Message, grasses: Message) -> Message:
    """{area} is sown with {grasses} by itself."""
    return Message("seed_mix.area_apart", (("area", area), ("grasses", grasses)))


def bag(*, area: Message, grasses: Message, amount: Quantity) -> Message:
    """{area}: {amount} of {grasses}, kept apart."""
    return Message("seed_mix.bag", (("area", area), ("grasses", grasses), ("amount", amount)))
