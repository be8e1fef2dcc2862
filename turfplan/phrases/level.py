"""Messages of `messages/en/level.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Listed, Message, Number, Quantity


def one_pass(*, depth: Quantity) -> Message:
    """{depth} of fill fits into one pass."""
    return Message("level.one_pass", (("depth", depth),))


def layers(*, depth: Quantity, n: int) -> Message:
    """{depth} of fill goes on in {n} layers, each raked level and left to settle before the
    next.
    """
    return Message("level.layers", (("depth", depth), ("n", n)))


def passes(*, depth: Quantity, n: int) -> Message:
    """{depth} of fill is divided over {n} passes, each thin enough for the grass to grow
    through.
    """
    return Message("level.passes", (("depth", depth), ("n", n)))


def most_here(*, depth: Quantity, reason: Message) -> Message:
    """at most {depth} here, {reason}"""
    return Message("level.most_here", (("depth", depth), ("reason", reason)))


def hollows_and_rest(*, depth: Quantity, rest: Quantity) -> Message:
    """Up to {depth} where the fill is deepest, {rest} where it is thinnest."""
    return Message("level.hollows_and_rest", (("depth", depth), ("rest", rest)))


def hollows_only() -> Message:
    """Only where the fill is deeper: the rest has its fill already."""
    return Message("level.hollows_only")


def zone_layer(*, zone: Message, depth: Quantity, volume: Quantity) -> Message:
    """{zone} {depth} ({volume})"""
    return Message("level.zone_layer", (("zone", zone), ("depth", depth), ("volume", volume)))


def by_zone(*, zones: Listed) -> Message:
    """By part: {zones}."""
    return Message("level.by_zone", (("zones", zones),))


def zone_part(*, zone: Message, volume: Quantity) -> Message:
    """{zone} {volume}"""
    return Message("level.zone_part", (("zone", zone), ("volume", volume)))


def long_pass(*, n: int, people: int, needed: int, most: int) -> Message:
    """This pass takes {n} working days with {people} at work; with {needed} it would take {most}.
    Work strip by strip: what is spread is dragged in the same day.
    """
    return Message(
        "level.long_pass", (("n", n), ("people", people), ("needed", needed), ("most", most))
    )


def delivery() -> Message:
    """The mix must be there, and dry, before the day it is spread."""
    return Message("level.delivery")


def somebody_there() -> Message:
    """A supplier comes on business days, which need not be yours: somebody must be there to look at
    the load before it is tipped. Agree the day, or tell the plan on which days somebody is there⟦
    (`allowed_weekdays` under `[delivery]`)⟧.
    """
    return Message("level.somebody_there")


def bags() -> Message:
    """It is less than a supplier sends a truck for, or no truck can come: bags from a shop do, and
    closed they keep dry for all passes.
    """
    return Message("level.bags")


def soil() -> Message:
    """The soil must be there before the turf is cut: what is lifted goes back the same day."""
    return Message("level.soil")


def soil_bags() -> Message:
    """It is less than a supplier sends a truck for, or no truck can come: bags from a shop do."""
    return Message("level.soil_bags")


def bags_name() -> Message:
    """Bags"""
    return Message("level.bags.name")


def bags_title(*, amount: Quantity, material: Message) -> Message:
    """Fetch {amount} of {material} in bags"""
    return Message("level.bags.title", (("amount", amount), ("material", material)))


def bags_shop() -> Message:
    """The order sheet says how many bags of each; read the volume on the bag, and count anew where
    yours are of another size.
    """
    return Message("level.bags.shop")


def bags_trips(*, n: int) -> Message:
    """By its weight it is {n} trips with a car, or one with a van or by the shop's own delivery;
    read what yours may carry.
    """
    return Message("level.bags.trips", (("n", n),))


def bags_bulk(*, volume: Quantity) -> Message:
    """So many trips cost more than a load that is brought: ask a supplier for {volume}, loose or in
    big bags set down at the curb, and tell the plan that it comes so⟦ (`form = \"bulk\"` under
    `[delivery]`)⟧.
    """
    return Message("level.bags.bulk", (("volume", volume),))


def bags_sunday() -> Message:
    """Sunday is your only day: ask whether the shop is open then; if not, tell the plan the
    weekdays on which somebody can fetch⟦ (`allowed_weekdays` under `[delivery]`)⟧.
    """
    return Message("level.bags.sunday")


def bags_mix(*, blend: Message) -> Message:
    """Keep the bags closed and under a roof; mix dry, on a tarp, by volume, {blend}: only what is
    spread on the day.
    """
    return Message("level.bags.mix", (("blend", blend),))


def bags_open() -> Message:
    """Keep the bags closed and under a roof; open only what is spread on the day."""
    return Message("level.bags.open")


def bags_go() -> Message:
    """Bags are dry and whole; what is inside runs through the fingers."""
    return Message("level.bags.go")


def bags_fallback() -> Message:
    """The shop has none that are dry: go to the next one; every day does, as long as the bags are
    there before the work.
    """
    return Message("level.bags.fallback")


def dry_material() -> Message:
    """Wet material clumps, smears and stays on top of the grass."""
    return Message("level.dry_material")


def incorporate() -> Message:
    """The mix belongs between the plants, not on the leaves."""
    return Message("level.incorporate")


def water_in_seeded() -> Message:
    """Leave the watering until the seed is on."""
    return Message("level.water_in.seeded")


def water_in_seeded_rain() -> Message:
    """The seed goes on next; nobody waters here, so rain settles both."""
    return Message("level.water_in.seeded_rain")


def water_in_grass(*, least: Number, most: Number, n: int) -> Message:
    """Once it is done water lightly to settle it, then every {least} to {most} days for {n} days:
    days and minutes stand at the waterings.
    """
    return Message("level.water_in.grass", (("least", least), ("most", most), ("n", n)))


def water_in_cold() -> Message:
    """While it is too cold for grass to use water there are none."""
    return Message("level.water_in.cold")


def water_in_rain() -> Message:
    """Nobody waters here: spread before a spell of light rain that settles the layer, never before
    a storm.
    """
    return Message("level.water_in.rain")


def water_in_law(*, n: int) -> Message:
    """On the first day that is open to watering water lightly to settle it, then on open days for
    {n} days: days and minutes stand at the waterings.
    """
    return Message("level.water_in.law", (("n", n),))


def compost_delivery() -> Message:
    """The mix must be there, and run through the fingers, before the day it is spread."""
    return Message("level.compost.delivery")


def compost_load_fallback() -> Message:
    """Refused or late: tell whoever keeps the plan⟦ (`turfplan log BRIEF refused TASK`)⟧; or spread
    it thin on hard ground in the sun and rake it until it runs through the fingers.
    """
    return Message("level.compost.load_fallback")


def compost_touch_up() -> Message:
    """Only the spots that the check showed; the same mix, as long as it runs through the fingers,
    at most one thin layer; tips show.
    """
    return Message("level.compost.touch_up")


def compost_touch_up_go() -> Message:
    """The mix runs through the fingers; grass dry and growing."""
    return Message("level.compost.touch_up_go")


def compost_look() -> Message:
    """Look before it is tipped: squeeze a handful (it must fall apart and not stain the hand), look
    for stones, clay lumps, roots and a sour smell.
    """
    return Message("level.compost.look")


def compost_load_go() -> Message:
    """It runs through the fingers, is screened, of one even color and not warm. Wet or lumpy
    material is refused; compost in it may be damp.
    """
    return Message("level.compost.load_go")


def compost_title() -> Message:
    """Keep the mix covered; dry what is wet"""
    return Message("level.compost.title")


def compost_heap(*, least: Number, most: Number) -> Message:
    """Check the heap: a handful runs through the fingers, does not clump and does not stain.
    Compost keeps a damp of its own ({least} to {most}) and need not lose it; sand and soil go in
    bone dry.
    """
    return Message("level.compost.heap", (("least", least), ("most", most)))


def compost_dry() -> Message:
    """What clumps or stains: spread it thin on hard ground in the sun and rake it until it runs
    through the fingers.
    """
    return Message("level.compost.dry")


def compost_go() -> Message:
    """A handful runs through the fingers and leaves them clean."""
    return Message("level.compost.go")


def compost_fallback() -> Message:
    """It clumps or stains: wait for two dry days."""
    return Message("level.compost.fallback")


def compost_pass_go() -> Message:
    """The mix runs through the fingers; grass dry; no rain in the forecast until it is worked
    in.
    """
    return Message("level.compost.pass_go")


def mow() -> Message:
    """The next pass goes on grass that has grown through and been cut."""
    return Message("level.mow")


def steep() -> Message:
    """Steep ground: thin layers only, and nothing loose before a storm; it washes."""
    return Message("level.steep")


def septic_field() -> Message:
    """Septic field: wheelbarrows only, no machines, and no change of the cover without the
    installer's word.
    """
    return Message("level.septic_field")


def at_the_house(*, below: Quantity) -> Message:
    """At the house keep {below} below the siding and the fall away from the wall."""
    return Message("level.at_the_house", (("below", below),))
