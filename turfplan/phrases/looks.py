"""Messages of `messages/en/looks.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Day, Days, Message, Number, Quantity


def relaid() -> Message:
    """Deep fill sinks while it is watered: what has sunk by now is made good, before a pass that is
    still to come.
    """
    return Message("looks.relaid")


def relaid_title() -> Message:
    """Look: have the filled hollows settled?"""
    return Message("looks.relaid.title")


def relaid_string() -> Message:
    """Pull a string over each filled place and measure; tug at the edges: turf that comes up has
    not rooted and is watered on.
    """
    return Message("looks.relaid.string")


def relaid_string_on_rain() -> Message:
    """Pull a string over each filled place and measure; tug at the edges: turf that comes up has
    not rooted, and waits for more rain.
    """
    return Message("looks.relaid.string_on_rain")


def relaid_shallow(*, cap: Quantity) -> Message:
    """Sunk by {cap} or less: fill these places with a pass that is still to come (order a little
    more mix for it), else by hand with the soil that lies under them, the tips left showing.
    """
    return Message("looks.relaid.shallow", (("cap", cap),))


def relaid_deep(*, cap: Quantity) -> Message:
    """Sunk deeper than {cap}: lift the turf there again, fill, tread, relay and water it for two
    weeks more; a pass that is still to come waits.
    """
    return Message("looks.relaid.deep", (("cap", cap),))


def relaid_deep_on_rain(*, cap: Quantity) -> Message:
    """Sunk deeper than {cap}: lift the turf there again while rain keeps the ground moist, fill,
    tread and relay it; a pass that is still to come waits.
    """
    return Message("looks.relaid.deep_on_rain", (("cap", cap),))


def relaid_on_rain() -> Message:
    """Deep fill sinks as rain wets it: what has sunk by now is made good, before a pass that is
    still to come.
    """
    return Message("looks.relaid_on_rain")


def leaf_tips() -> Message:
    """What stays buried more than a week or two dies."""
    return Message("looks.leaf_tips")


def leaf_tips_title() -> Message:
    """Look: are the leaf tips through?"""
    return Message("looks.leaf_tips.title")


def leaf_tips_clear() -> Message:
    """Tips should stand clear everywhere. Buried patches: brush or rake them free and water
    lightly.
    """
    return Message("looks.leaf_tips.clear")


def leaf_tips_clear_on_rain() -> Message:
    """Tips should stand clear everywhere. Buried patches: brush or rake them free."""
    return Message("looks.leaf_tips.clear_on_rain")


def leaf_tips_bare_for_seed(*, n: int) -> Message:
    """Bare patches after {n} days: note them for seed."""
    return Message("looks.leaf_tips.bare_for_seed", (("n", n),))


def leaf_tips_bare_for_plugs(*, n: int) -> Message:
    """Bare patches after {n} days: note them for planting."""
    return Message("looks.leaf_tips.bare_for_plugs", (("n", n),))


def leaf_tips_bare(*, n: int) -> Message:
    """Bare patches after {n} days: note them for seed or plugs."""
    return Message("looks.leaf_tips.bare", (("n", n),))


def leaf_tips_go() -> Message:
    """You are there, on any day."""
    return Message("looks.leaf_tips.go")


def next_free_day() -> Message:
    """The next free day."""
    return Message("looks.next_free_day")


def seedlings() -> Message:
    """Seed that failed can be made good only while there is time."""
    return Message("looks.seedlings")


def seedlings_title() -> Message:
    """Look: has the seed come up?"""
    return Message("looks.seedlings.title")


def seedlings_bare_spots(*, reserve: Number, last_safe: Day) -> Message:
    """Bare spots: scratch the surface and sow the reserve ({reserve} of the seed) there at once,
    keep it moist; the last safe day for it is {last_safe}.
    """
    return Message("looks.seedlings.bare_spots", (("reserve", reserve), ("last_safe", last_safe)))


def seedlings_bare_spots_on_rain(*, reserve: Number, last_safe: Day) -> Message:
    """Bare spots: before the next rain scratch the surface and sow the reserve ({reserve} of the
    seed) there; the last safe day for it is {last_safe}.
    """
    return Message(
        "looks.seedlings.bare_spots_on_rain", (("reserve", reserve), ("last_safe", last_safe))
    )


def seedlings_early() -> Message:
    """This look is early, since later nothing can be sown again: sow strips that were washed or
    dried out, and those with nothing where seedlings stand beside them; give the rest its time.
    """
    return Message("looks.seedlings.early")


def seedlings_too_late(*, reserve: Number, days: Days) -> Message:
    """Bare spots: it is too late to sow them this season. Mark them, keep the reserve ({reserve} of
    the seed) dry and cool, and sow it there in the next season for seed, {days}.
    """
    return Message("looks.seedlings.too_late", (("reserve", reserve), ("days", days)))


def seedlings_next_season(*, reserve: Number) -> Message:
    """Bare spots: it is too late to sow them this season. Mark them, keep the reserve ({reserve} of
    the seed) dry and cool, and sow it there in the next season for seed.
    """
    return Message("looks.seedlings.next_season", (("reserve", reserve),))


def seedlings_comes_up(*, grass: Message, least: Number, most: Number) -> Message:
    """Seed of {grass} takes {least} to {most} days to come up; a slow grass looks like a failure
    before its time.
    """
    return Message("looks.seedlings.comes_up", (("grass", grass), ("least", least), ("most", most)))


def seedlings_washed() -> Message:
    """Washed strips: sow those again, not the whole lawn. Tell the plan what you see⟦: `turfplan
    log BRIEF measured germination 1`⟧.
    """
    return Message("looks.seedlings.washed")


def seedlings_go() -> Message:
    """Look in the early morning light, from low down."""
    return Message("looks.seedlings.go")


def colour() -> Message:
    """No starter was given: the compost feeds. The color tells whether it is enough."""
    return Message("looks.colour")


def colour_title() -> Message:
    """Look: is the new grass pale?"""
    return Message("looks.colour.title")


def colour_pale(*, rate: Quantity) -> Message:
    """Pale and slow: feed {rate} of nitrogen where it is legal and the grass still grows."""
    return Message("looks.colour.pale", (("rate", rate),))


def colour_green() -> Message:
    """Green and growing: leave it."""
    return Message("looks.colour.green")


def colour_go() -> Message:
    """Compare with a well-fed patch, in daylight."""
    return Message("looks.colour.go")


def first_green(*, n: Number) -> Message:
    """In {n} moist days: the first green"""
    return Message("looks.first_green", (("n", n),))


def first_green_of_several(*, n: Number) -> Message:
    """In {n} moist days: the first green, of the quickest grass"""
    return Message("looks.first_green_of_several", (("n", n),))


def green_all_over(*, n: Number) -> Message:
    """In {n} moist days: green all over"""
    return Message("looks.green_all_over", (("n", n),))


def green_between(*, n: Number) -> Message:
    """In {n} moist days: green between the old grass"""
    return Message("looks.green_between", (("n", n),))
