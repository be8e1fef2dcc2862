"""Messages of `messages/en/amounts.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Amounted, Listed, Message, Number, Quantity


def pass_depth(*, cap: Message) -> Message:
    """Settled depth of this pass; {cap}."""
    return Message("amounts.pass.depth", (("cap", cap),))


def pass_lift_depth(*, cap: Message) -> Message:
    """Settled depth of this lift; {cap}."""
    return Message("amounts.pass.lift_depth", (("cap", cap),))


def pass_volume(*, depth: Quantity, area: Quantity, settle: Number) -> Message:
    """{depth} over {area} and {settle} more, because loose material settles."""
    return Message("amounts.pass.volume", (("depth", depth), ("area", area), ("settle", settle)))


def pass_volume_missing(*, depth: Quantity, settle: Number) -> Message:
    """{depth} at most, only where it is still missing, and {settle} more, because loose material
    settles.
    """
    return Message("amounts.pass.volume_missing", (("depth", depth), ("settle", settle)))


def pass_zones(*, zones: Listed) -> Message:
    """Of it: {zones}."""
    return Message("amounts.pass.zones", (("zones", zones),))


def pass_weight() -> Message:
    """Volume times the dry density of its parts; damp material weighs more."""
    return Message("amounts.pass.weight")


def pass_barrows(*, barrow: Amounted) -> Message:
    """At {barrow} a load; of barrows filled half there are twice as many."""
    return Message("amounts.pass.barrows", (("barrow", barrow),))


def pass_weight_per_area() -> Message:
    """The weight spread over the area of the pass."""
    return Message("amounts.pass.weight_per_area")


def fill_depth() -> Message:
    """Settled depth where it is filled."""
    return Message("amounts.fill.depth")


def fill_volume() -> Message:
    """Area times depth, with room for settling."""
    return Message("amounts.fill.volume")


def seed_rate_asked() -> Message:
    """the rate that was asked for"""
    return Message("amounts.seed_rate.asked")


def seed_rate_winter_cover() -> Message:
    """rate for a winter cover, which must make the lawn alone"""
    return Message("amounts.seed_rate.winter_cover")


def seed_rate_new_lawn() -> Message:
    """rate for a new lawn"""
    return Message("amounts.seed_rate.new_lawn")


def seed_rate_bare_patches() -> Message:
    """rate of a new lawn, since nothing grows on the patches"""
    return Message("amounts.seed_rate.bare_patches")


def seed_rate_overseeding() -> Message:
    """overseeding rate, about half of a new lawn's"""
    return Message("amounts.seed_rate.overseeding")


def seed_by_rate(*, rate: Message) -> Message:
    """{rate:capital}."""
    return Message("amounts.seed.by_rate", (("rate", rate),))


def seed_by_rate_live(*, rate: Message, live: Number) -> Message:
    """{rate:capital}; the bag holds {live} live seed, so more of it is sown."""
    return Message("amounts.seed.by_rate_live", (("rate", rate), ("live", live)))


def seed_total(*, area: Quantity, rate: Message) -> Message:
    """Rate times {area}; {rate}."""
    return Message("amounts.seed.total", (("area", area), ("rate", rate)))


def seed_total_live(*, area: Quantity, rate: Message, live: Number) -> Message:
    """Rate times {area}; {rate}; the bag holds {live} live seed, so more of it is sown."""
    return Message("amounts.seed.total_live", (("area", area), ("rate", rate), ("live", live)))


def seed_patched_area() -> Message:
    """what is thin, dead or bare"""
    return Message("amounts.seed.patched_area")


def seed_sown_area() -> Message:
    """what one hose keeps wet in the hours at home; the thinnest parts first"""
    return Message("amounts.seed.sown_area")


def seed_held_back() -> Message:
    """Part of the seed is kept for bare and washed spots."""
    return Message("amounts.seed.held_back")


def sod(*, area: Quantity) -> Message:
    """{area} and a little more for cutting."""
    return Message("amounts.sod", (("area", area),))


def sprigs(*, rate: Quantity, area: Quantity, rows: Quantity) -> Message:
    """{rate} of loose sprigs over {area}, end to end in furrows {rows} apart."""
    return Message("amounts.sprigs", (("rate", rate), ("area", area), ("rows", rows)))


def plugs(*, spacing: Quantity, area: Quantity) -> Message:
    """One each {spacing} both ways over {area}: area divided by spacing squared."""
    return Message("amounts.plugs", (("spacing", spacing), ("area", area)))


def mat() -> Message:
    """The sown slope and a little more, for rolls that overlap."""
    return Message("amounts.mat")


def pegs(*, area: Quantity) -> Message:
    """One for each {area} or so, along both edges of each roll."""
    return Message("amounts.pegs", (("area", area),))


def straw() -> Message:
    """One bale covers so much that half the soil shows."""
    return Message("amounts.straw")


def feed_nitrogen() -> Message:
    """nitrogen of this feeding"""
    return Message("amounts.feed.nitrogen")


def feed_product(*, bag: str, percent: Number) -> Message:
    """{bag}: nitrogen / {percent}%"""
    return Message("amounts.feed.product", (("bag", bag), ("percent", percent)))


def feed_comes_along(*, bag: str) -> Message:
    """comes along with {bag}"""
    return Message("amounts.feed.comes_along", (("bag", bag),))


def feed_slow(*, percent: Number) -> Message:
    """{percent}% of the nitrogen is slowly released"""
    return Message("amounts.feed.slow", (("percent", percent),))


def potash_whole() -> Message:
    """The potash that the soil test asks for in a year."""
    return Message("amounts.potash.whole")


def potash_part(*, parts: int) -> Message:
    """One of {parts} parts of the potash that the soil test asks for in a year."""
    return Message("amounts.potash.part", (("parts", parts),))


def phosphate_whole() -> Message:
    """The phosphate that the soil test asks for."""
    return Message("amounts.phosphate.whole")


def phosphate_beyond(*, bag: str) -> Message:
    """The phosphate that the soil test asks for, beyond what {bag} brings."""
    return Message("amounts.phosphate.beyond", (("bag", bag),))


def phosphate_in_starter() -> Message:
    """A starter that brings as much takes its place, and none is then bought beside it."""
    return Message("amounts.phosphate.in_starter")


def worked_in() -> Message:
    """What the soil test asks for, spread first and worked in as deep as the ground is loosened."""
    return Message("amounts.worked_in")


def potash_whole_beyond(*, bag: str) -> Message:
    """The potash that the soil test asks for in a year, beyond what {bag} brings."""
    return Message("amounts.potash.whole_beyond", (("bag", bag),))


def potash_part_beyond(*, bag: str, parts: int) -> Message:
    """One of {parts} parts of the potash that the soil test asks for in a year, beyond what {bag}
    brings.
    """
    return Message("amounts.potash.part_beyond", (("bag", bag), ("parts", parts)))
