"""Messages of `messages/en/material.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Message, Sold


def no_supplier() -> Message:
    """No supplier named"""
    return Message("material.no_supplier")


def share(*, lawn: str, amount: Sold) -> Message:
    """{lawn} {amount}"""
    return Message("material.share", (("lawn", lawn), ("amount", amount)))


def late() -> Message:
    """its day to order is over: ask the supplier whether that day still holds"""
    return Message("material.late")


def estimate() -> Message:
    """holds an estimate: not to be ordered before the plan knows the soil or its test"""
    return Message("material.estimate")


def moved(*, lawn: str, material: str, told: str, now: str) -> Message:
    """{lawn}, {material}: told for {told}, now {now}"""
    return Message(
        "material.moved", (("lawn", lawn), ("material", material), ("told", told), ("now", now))
    )


def not_wanted(*, lawn: str, material: str, told: str) -> Message:
    """{lawn}, {material}: told for {told}, no longer wanted then"""
    return Message("material.not_wanted", (("lawn", lawn), ("material", material), ("told", told)))


def to_fetch() -> Message:
    """fetched"""
    return Message("material.to_fetch")


def to_yard() -> Message:
    """yard"""
    return Message("material.to_yard")


def to_lawn() -> Message:
    """lawn"""
    return Message("material.to_lawn")


def nothing() -> Message:
    """Nothing is to be bought."""
    return Message("material.nothing")


def head_order() -> Message:
    """order by"""
    return Message("material.head_order")


def head_deliver() -> Message:
    """needed on"""
    return Message("material.head_deliver")


def head_supplier() -> Message:
    """supplier"""
    return Message("material.head_supplier")


def head_material() -> Message:
    """material"""
    return Message("material.head_material")


def head_amount() -> Message:
    """amount"""
    return Message("material.head_amount")


def head_to() -> Message:
    """to"""
    return Message("material.head_to")


def head_left() -> Message:
    """left over"""
    return Message("material.head_left")


def head_lawns() -> Message:
    """lawns"""
    return Message("material.head_lawns")


def moved_since(*, n: int) -> Message:
    """{n} deliveries are no longer as their suppliers were told:"""
    return Message("material.moved_since", (("n", n),))


def counted_told() -> Message:
    """The suppliers count as told of these deliveries; nothing was sent."""
    return Message("material.counted_told")


def what_file() -> Message:
    """is neither a table nor a page"""
    return Message("material.what_file")


def such_a_file() -> Message:
    """a name that ends in .csv, .html or .pdf"""
    return Message("material.such_a_file")


def page_title() -> Message:
    """Material"""
    return Message("material.page.title")


def page_description(*, business: str) -> Message:
    """What the lawns of {business} need, by supplier and load"""
    return Message("material.page.description", (("business", business),))


def page_moved() -> Message:
    """Changed since you were told"""
    return Message("material.page.moved")


def page_drops() -> Message:
    """Tip at"""
    return Message("material.page.drops")


def page_made(*, made: str) -> Message:
    """Made {made} from the plans as they stood. A load is of one material; what is left over is
    what rounding up adds.
    """
    return Message("material.page.made", (("made", made),))
