"""Messages of `messages/en/places.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Listed, Message, Quantity


def titled(*, title: Message, where: Message) -> Message:
    """{title} ({where})"""
    return Message("places.titled", (("title", title), ("where", where)))


def first(*, where: Message) -> Message:
    """Where: {where}. Leave the rest of the lawn as it is."""
    return Message("places.first", (("where", where),))


def first_of(*, where: Message, area: Quantity) -> Message:
    """Where: {where}, about {area}. Leave the rest of the lawn as it is."""
    return Message("places.first_of", (("where", where), ("area", area)))


def first_water(*, where: Message) -> Message:
    """Where: {where}. Run only what waters that; the rest needs none of it."""
    return Message("places.first_water", (("where", where),))


def hollows() -> Message:
    """the hollows"""
    return Message("places.hollows")


def hollows_left() -> Message:
    """the hollows that are not lifted"""
    return Message("places.hollows_left")


def lifted() -> Message:
    """the lifted hollows"""
    return Message("places.lifted")


def kept_wet() -> Message:
    """the part that one hose keeps wet"""
    return Message("places.kept_wet")


def spots_of(*, parts: Listed) -> Message:
    """the thin and bare spots of {parts}"""
    return Message("places.spots_of", (("parts", parts),))


def spots() -> Message:
    """the thin and bare spots"""
    return Message("places.spots")


def low_ground() -> Message:
    """the low ground of the survey"""
    return Message("places.low_ground")


def deep_ground() -> Message:
    """the deepest ground of the survey"""
    return Message("places.deep_ground")


def low_ground_of(*, zone: Message) -> Message:
    """the low ground of {zone}"""
    return Message("places.low_ground_of", (("zone", zone),))


def deep_ground_of(*, zone: Message) -> Message:
    """the deepest ground of {zone}"""
    return Message("places.deep_ground_of", (("zone", zone),))


def these(*, parts: Listed) -> Message:
    """{parts}"""
    return Message("places.these", (("parts", parts),))


def all_but(*, parts: Listed) -> Message:
    """all but {parts}"""
    return Message("places.all_but", (("parts", parts),))


def these_but(*, parts: Listed, spared: Listed) -> Message:
    """{parts}, not on {spared}"""
    return Message("places.these_but", (("parts", parts), ("spared", spared)))
