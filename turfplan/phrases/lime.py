"""Messages of `messages/en/lime.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Message, Number, Quantity


def product_told(*, percent: Number) -> Message:
    """{percent}% calcium carbonate equivalent"""
    return Message("lime.product.told", (("percent", percent),))


def product_assumed(*, percent: Number) -> Message:
    """{percent}% calcium carbonate equivalent (assumed)"""
    return Message("lime.product.assumed", (("percent", percent),))


def product_as_rated() -> Message:
    """the strength that the laboratory reckons with"""
    return Message("lime.product.as_rated")


def measured_acidity(*, ph: Number, goal: Number, acidity: Number) -> Message:
    """Soil pH {ph}, goal {goal}, acidity {acidity}: lime by the laboratory's table"""
    return Message("lime.measured.acidity", (("ph", ph), ("goal", goal), ("acidity", acidity)))


def measured_rate(*, rate: Quantity) -> Message:
    """The laboratory's own lime rate of {rate}"""
    return Message("lime.measured.rate", (("rate", rate),))


def measured_rate_ph(*, ph: Number, goal: Number, rate: Quantity) -> Message:
    """Soil pH {ph}, goal {goal}: the laboratory's own lime rate of {rate}"""
    return Message("lime.measured.rate_ph", (("ph", ph), ("goal", goal), ("rate", rate)))


def measured_sikora(
    *,
    ph: Number,
    goal: Number,
    buffer: Number,
    target: Number,
    table_depth: Quantity,
    depth: Quantity,
) -> Message:
    """Soil pH {ph}, goal {goal}, Sikora buffer pH {buffer}: lime by Oregon State's table for that
    buffer, target {target}, taken from its {table_depth} of soil to the {depth} that are limed here
    """
    return Message(
        "lime.measured.sikora",
        (
            ("ph", ph),
            ("goal", goal),
            ("buffer", buffer),
            ("target", target),
            ("table_depth", table_depth),
            ("depth", depth),
        ),
    )


def measured_mehlich(
    *, ph: Number, goal: Number, buffer: Number, table_depth: Quantity, depth: Quantity
) -> Message:
    """Soil pH {ph}, goal {goal}, Mehlich buffer pH {buffer}: lime by North Carolina's formula for
    that buffer, taken from {table_depth} of soil to the {depth} that are limed here
    """
    return Message(
        "lime.measured.mehlich",
        (
            ("ph", ph),
            ("goal", goal),
            ("buffer", buffer),
            ("table_depth", table_depth),
            ("depth", depth),
        ),
    )


def reason_once(*, measured: Message, product: Message) -> Message:
    """{measured}, for a product of {product}."""
    return Message("lime.reason.once", (("measured", measured), ("product", product)))


def reason_parts(*, n: int, measured: Message, product: Message) -> Message:
    """{measured}, for a product of {product}, in {n} parts so that the surface takes it."""
    return Message("lime.reason.parts", (("n", n), ("measured", measured), ("product", product)))


def reason_fresh_ground(*, measured: Message, product: Message) -> Message:
    """{measured}, for a product of {product}, worked in before seeding."""
    return Message("lime.reason.fresh_ground", (("measured", measured), ("product", product)))


def less_given(*, rate: Quantity) -> Message:
    """Lime that was given and that the test has not seen is taken off: {rate}."""
    return Message("lime.less_given", (("rate", rate),))


def note_once(*, rate: Quantity, reason: Message) -> Message:
    """Lime: {rate} once. {reason}"""
    return Message("lime.note.once", (("rate", rate), ("reason", reason)))


def note_parts(*, parts: int, rate: Quantity, least: int, most: int, reason: Message) -> Message:
    """Lime: {parts} times {rate}, {least} to {most} months apart. {reason}"""
    return Message(
        "lime.note.parts",
        (("parts", parts), ("rate", rate), ("least", least), ("most", most), ("reason", reason)),
    )


def how_on_fresh_ground() -> Message:
    """Spread half one way and half across it, and work it in as deep as the ground is loosened,
    before layer and seed.
    """
    return Message("lime.how_on_fresh_ground")


def how_in_last_lift() -> Message:
    """Spread half one way and half across it on the last lift, once it has settled, and rake it in
    as deep as the rake goes, before the final grade and the seed.
    """
    return Message("lime.how_in_last_lift")


def months_apart() -> Message:
    """Parts of a liming lie months apart, on ground that is not frozen."""
    return Message("lime.months_apart")
