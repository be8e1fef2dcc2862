"""Messages of `messages/en/plan_cautions.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Day, Listed, Message, Number, Quantity


def by_hand(*, volume: Quantity, loads: Number) -> Message:
    """This is {volume} of material to move by hand, about {loads} barrow loads, or twice as many
    half full: be sure the depth is the mean, not the deepest dip.
    """
    return Message("plan_cautions.by_hand", (("volume", volume), ("loads", loads)))


def by_loader(*, volume: Quantity) -> Message:
    """This is {volume} of material to move with the loader: be sure the depth is the mean, not the
    deepest dip, and that the way bears the machine.
    """
    return Message("plan_cautions.by_loader", (("volume", volume),))


def spring_seed(*, day: Day, until: str) -> Message:
    """Seed goes in in spring, and meets weeds, and the heat of summer where there is any, while it
    is young, because the plan ends on {day}. With an end on {until} or later⟦ (`until` under
    `[season]`)⟧ it may wait for late summer.
    """
    return Message("plan_cautions.spring_seed", (("day", day), ("until", until)))


def thatch_to_come_down() -> Message:
    """The thatch is too thick to build on: what is set or sown must reach the soil, and the thatch
    comes down over a year.
    """
    return Message("plan_cautions.thatch_to_come_down")


def thatch_left(*, thatch: Quantity, limit: Quantity, source: Message, when: Message) -> Message:
    """Thatch of {thatch} is more than the {limit} from which it is taken down ({source}), and no
    job of this plan asks for it: {when}
    """
    return Message(
        "plan_cautions.thatch_left",
        (("thatch", thatch), ("limit", limit), ("source", source), ("when", when)),
    )


def thatch_left_season(*, days: Listed) -> Message:
    """dethatch in its season ({days})."""
    return Message("plan_cautions.thatch_left.season", (("days", days),))


def thatch_left_relaid(*, days: Listed) -> Message:
    """dethatch in its season ({days}), once the turf that was lifted has rooted."""
    return Message("plan_cautions.thatch_left.relaid", (("days", days),))


def thatch_left_no_season() -> Message:
    """dethatch in the next season in which the grass grows hard."""
    return Message("plan_cautions.thatch_left.no_season")


def thatch_not_combed(
    *, thatch: Quantity, limit: Quantity, grass: Listed, most: Quantity, source: Message
) -> Message:
    """Thatch of {thatch} is more than the {limit} from which most grass is combed out, but no job
    of this plan takes it down: the tines of a dethatcher tear {grass} out by the runners. It is
    left to rot, with no more nitrogen than planned; from {most} on ({source}) nothing is leveled or
    sown on it any more.
    """
    return Message(
        "plan_cautions.thatch_not_combed",
        (
            ("thatch", thatch),
            ("limit", limit),
            ("grass", grass),
            ("most", most),
            ("source", source),
        ),
    )


def barrier_torn(*, day: Day, ingredient: str) -> Message:
    """{ingredient} of {day} still keeps weeds down here, and blades and tines that pull up soil
    break that barrier: expect crabgrass where they went, and ask the label before anything is given
    again.
    """
    return Message("plan_cautions.barrier_torn", (("day", day), ("ingredient", ingredient)))


def thatch_to_strip() -> Message:
    """The old turf goes with its thatch: strip it before the first layer, nothing levels on a
    sponge.
    """
    return Message("plan_cautions.thatch_to_strip")


def mostly_weeds() -> Message:
    """More than half of this is weeds: a season of dressing does not mend that; rebuild the
    lawn.
    """
    return Message("plan_cautions.mostly_weeds")


def too_little_sun() -> Message:
    """Too little sun for turf that must recover: thin the trees or choose another cover here."""
    return Message("plan_cautions.too_little_sun")


def dogs() -> Message:
    """Fence dogs out for four to eight weeks after seed or plants go in."""
    return Message("plan_cautions.dogs")


def septic_field() -> Message:
    """Septic field: know where it lies, no heavy machine over it, and ask before its cover is
    changed.
    """
    return Message("plan_cautions.septic_field")


def steep() -> Message:
    """Steep ground: shorter waterings, cover over seed, thin layers."""
    return Message("plan_cautions.steep")


def laid_thick(*, number: Number, depth: Quantity, most: Quantity) -> Message:
    """Pass {number} was spread about {depth} deep, and this grass bears {most} at once: rake thin,
    or take off, what covers the leaf tips, so that they stand out the same day. Nothing more is
    spread until they are through and mown⟦; where they stay buried, write it down (`turfplan log
    BRIEF measured tips_buried 1`)⟧.
    """
    return Message(
        "plan_cautions.laid_thick", (("number", number), ("depth", depth), ("most", most))
    )
