"""Messages of `messages/en/maps.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Listed, Message, Quantity


def ground_title() -> Message:
    """The ground as it is"""
    return Message("maps.ground.title")


def ground_description(*, step: str, rise: str) -> Message:
    """Plan view of the ground with contours every {step}; it rises {rise} from its lowest to its
    highest point.
    """
    return Message("maps.ground.description", (("step", step), ("rise", rise)))


def ground_note(*, step: str, unit: Message) -> Message:
    """Contours every {step}; the numbers are {unit} above the lowest point. Arrows point
    downhill.
    """
    return Message("maps.ground.note", (("step", step), ("unit", unit)))


def finished_title() -> Message:
    """The ground when it is leveled"""
    return Message("maps.finished.title")


def finished_description(*, step: str) -> Message:
    """Plan view of the finished ground with contours every {step}; dotted contours are the ground
    before.
    """
    return Message("maps.finished.description", (("step", step),))


def finished_note(*, step: str, unit: Message) -> Message:
    """Contours every {step}; the numbers are {unit} above the lowest point; dotted: before. Arrows
    point downhill.
    """
    return Message("maps.finished.note", (("step", step), ("unit", unit)))


def fill_title() -> Message:
    """The fill and its stakes"""
    return Message("maps.fill.title")


def fill_description(*, depth: Quantity) -> Message:
    """Plan view of the fill, up to {depth} deep."""
    return Message("maps.fill.description", (("depth", depth),))


def fill_stakes(*, n: int) -> Message:
    """{n} stakes stand where the stake list gives the depth."""
    return Message("maps.fill.stakes", (("n", n),))


def fill_note() -> Message:
    """White is left alone. A cross marks a stake; its sign is in the list."""
    return Message("maps.fill.note")


def pass_title(*, number: int, passes: int, depth: Quantity) -> Message:
    """Pass {number} of {passes}: up to {depth}"""
    return Message("maps.pass.title", (("number", number), ("passes", passes), ("depth", depth)))


def pass_description(*, number: int, classes: Listed) -> Message:
    """Plan view of pass {number}: {classes}"""
    return Message("maps.pass.description", (("number", number), ("classes", classes)))


def pass_note() -> Message:
    """White gets nothing in this pass. A cross marks a stake with the depth of this pass there,
    settled.
    """
    return Message("maps.pass.note")


def class_sentence(*, area: str, name: Message) -> Message:
    """{name}: {area}."""
    return Message("maps.class.sentence", (("area", area), ("name", name)))


def class_legend(*, area: str, name: Message) -> Message:
    """{name}: {area}"""
    return Message("maps.class.legend", (("area", area), ("name", name)))


def class_passes(*, n: int, depth: Quantity) -> Message:
    """{n} passes, up to {depth}"""
    return Message("maps.class.passes", (("n", n), ("depth", depth)))


def class_lift(*, depth: Quantity) -> Message:
    """lift the turf and fill, over {depth}"""
    return Message("maps.class.lift", (("depth", depth),))


def class_feathered(*, depth: Quantity) -> Message:
    """feathered out, less than {depth}"""
    return Message("maps.class.feathered", (("depth", depth),))


def class_full(*, depth: Quantity) -> Message:
    """full depth, {depth}"""
    return Message("maps.class.full", (("depth", depth),))


def under(*, amount: Quantity) -> Message:
    """under {amount}"""
    return Message("maps.under", (("amount", amount),))


def stake(*, sign: str, depth: str) -> Message:
    """{sign} {depth}"""
    return Message("maps.stake", (("sign", sign), ("depth", depth)))


def unit_in() -> Message:
    """inches"""
    return Message("maps.unit.in")


def unit_mm() -> Message:
    """millimeters"""
    return Message("maps.unit.mm")


def feature_wall() -> Message:
    """building"""
    return Message("maps.feature.wall")


def feature_paving() -> Message:
    """edge of paving"""
    return Message("maps.feature.paving")


def feature_swale() -> Message:
    """swale"""
    return Message("maps.feature.swale")


def feature_trunk() -> Message:
    """tree"""
    return Message("maps.feature.trunk")


def axes(*, unit: str) -> Message:
    """x and y of the survey, {unit}"""
    return Message("maps.axes", (("unit", unit),))


def x_axis() -> Message:
    """x of the survey"""
    return Message("maps.x_axis")


def north() -> Message:
    """N"""
    return Message("maps.north")


def no_north() -> Message:
    """north was not measured"""
    return Message("maps.no_north")
