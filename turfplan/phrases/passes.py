"""Messages of `messages/en/passes.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Listed, Message, Number, Quantity


def mix_asked_for() -> Message:
    """The mix is the one that you asked for."""
    return Message("passes.mix_asked_for")


def own_mix(*, parts: Listed) -> Message:
    """{parts}"""
    return Message("passes.own_mix", (("parts", parts),))


def own_part(*, share: Number, material: str) -> Message:
    """{share} {material}"""
    return Message("passes.own_part", (("share", share), ("material", material)))


def blend(*, parts: Listed) -> Message:
    """{parts}"""
    return Message("passes.blend", (("parts", parts),))


def half(*, material: Message) -> Message:
    """half of it {material}"""
    return Message("passes.half", (("material", material),))


def quarter(*, material: Message) -> Message:
    """a quarter of it {material}"""
    return Message("passes.quarter", (("material", material),))


def share(*, share: Number, material: Message) -> Message:
    """{share} of it {material}"""
    return Message("passes.share", (("share", share), ("material", material)))


def too_much_sand(*, limit: Quantity, depth: Quantity, blend: Message) -> Message:
    """Straight sand levels only up to {limit} in all; {depth} of it changes the soil: {blend} is
    safer.
    """
    return Message("passes.too_much_sand", (("limit", limit), ("depth", depth), ("blend", blend)))


def compost_on_high_ph() -> Message:
    """Compost often has a pH of 7.5 or more, and the soil's pH is too high for this grass already:
    ask for the compost's pH, or leave it out.
    """
    return Message("passes.compost_on_high_ph")


def sand_over_clay() -> Message:
    """Sand over a clay or silt soil is a layer, not an improvement: keep it thin, and never mix a
    little sand into clay.
    """
    return Message("passes.sand_over_clay")


def too_much_compost(*, depth: Quantity) -> Message:
    """More than {depth} of compost a year overfeeds and softens the surface."""
    return Message("passes.too_much_compost", (("depth", depth),))


def compost_beside_water() -> Message:
    """Compost is not recommended beside water: its phosphorus washes off. Ask for a mix without
    it.
    """
    return Message("passes.compost_beside_water")


def cap_at_one_time() -> Message:
    """more is never spread at one time"""
    return Message("passes.cap.at_one_time")


def cap_in_hollow() -> Message:
    """more is never spread at one time, in a hollow with standing grass around it neither"""
    return Message("passes.cap.in_hollow")


def cap_creeper(*, grass: Message) -> Message:
    """in strong growth {grass} closes over no more in a small hollow"""
    return Message("passes.cap.creeper", (("grass", grass),))


def cap_grows_through(*, grass: Message) -> Message:
    """the most {grass} grows through"""
    return Message("passes.cap.grows_through", (("grass", grass),))


def cap_thin_turf() -> Message:
    """thin or thatchy turf takes no more"""
    return Message("passes.cap.thin_turf")


def cap_shade(*, zones: Listed) -> Message:
    """shaded turf ({zones}) takes no more"""
    return Message("passes.cap.shade", (("zones", zones),))


def cap_height() -> Message:
    """a third of the height left after the low cut"""
    return Message("passes.cap.height")


def beyond_custom(*, region: Message, most: Quantity, source: Message, depth: Quantity) -> Message:
    """In {region} a dressing is usually no deeper than {most} at a time ({source}). A pass of
    {depth} is deeper than that custom and still within what this grass grows through: every tip has
    to show by the evening. With less depth asked for it takes a thinner one.
    """
    return Message(
        "passes.beyond_custom",
        (("region", region), ("most", most), ("source", source), ("depth", depth)),
    )
