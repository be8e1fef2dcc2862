"""Messages of `messages/en/order.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Amounted, Day, Listed, Message, Number, Quantity


def mix_reason(*, passes: Quantity) -> Message:
    """{passes} are spread loose, with room for settling; rounded up to what is sold."""
    return Message("order.mix.reason", (("passes", passes),))


def mix_reason_touch_up(*, passes: Quantity, touch_up: Quantity) -> Message:
    """{passes} are spread loose, with room for settling, and {touch_up} more are kept dry for the
    touch-up; rounded up to what is sold.
    """
    return Message("order.mix.reason_touch_up", (("passes", passes), ("touch_up", touch_up)))


def mix_reason_load(*, served: Message, passes: Quantity) -> Message:
    """For {served}: {passes} loose, with room for settling; rounded up to what is sold. Each load
    comes shortly before it is spread, so that none lies longer than a heap keeps.
    """
    return Message("order.mix.reason_load", (("served", served), ("passes", passes)))


def mix_reason_load_touch_up(*, served: Message, passes: Quantity, touch_up: Quantity) -> Message:
    """For {served}: {passes} loose, with room for settling, and {touch_up} more that are kept dry
    for the touch-up; rounded up to what is sold. Each load comes shortly before it is spread, so
    that none lies longer than a heap keeps.
    """
    return Message(
        "order.mix.reason_load_touch_up",
        (("served", served), ("passes", passes), ("touch_up", touch_up)),
    )


def mix_pass(*, number: int) -> Message:
    """pass {number}"""
    return Message("order.mix.pass", (("number", number),))


def mix_passes(*, first: int, last: int) -> Message:
    """passes {first} to {last}"""
    return Message("order.mix.passes", (("first", first), ("last", last)))


def mix_strips(*, number: int, first: int, last: int) -> Message:
    """strips {first} to {last} of pass {number}"""
    return Message("order.mix.strips", (("number", number), ("first", first), ("last", last)))


def mix_strip(*, number: int, strip: int) -> Message:
    """strip {strip} of pass {number}"""
    return Message("order.mix.strip", (("number", number), ("strip", strip)))


def mix_least(*, volume: Quantity) -> Message:
    """Less than {volume} is not brought loose."""
    return Message("order.mix.least", (("volume", volume),))


def mix_together() -> Message:
    """All deliveries of one season of work; the order sheet says what each of them is for."""
    return Message("order.mix.together")


def mix_more(*, volume: Quantity) -> Message:
    """By what was ordered, delivered and used so far it is {volume} more."""
    return Message("order.mix.more", (("volume", volume),))


def mix_less(*, volume: Quantity) -> Message:
    """By what was ordered, delivered and used so far it is {volume} less."""
    return Message("order.mix.less", (("volume", volume),))


def mix_short() -> Message:
    """More was used, or less came, than was planned, and no load that is still to be ordered comes
    in time for it. Ask what fits into a trailer.
    """
    return Message("order.mix.short")


def soil_reason(*, share: Number, depth: Quantity) -> Message:
    """The deep hollows ({share} of the lawn, {depth} deep) are filled with soil like the soil
    below, with room for settling.
    """
    return Message("order.soil.reason", (("share", share), ("depth", depth)))


def soil_ask_texture(*, soil: Message) -> Message:
    """Which texture is it? It should be that of the lawn's own soil, {soil}; a loam is next best,
    and no subsoil.
    """
    return Message("order.soil.ask_texture", (("soil", soil),))


def soil_ask_ph(*, grass: Message, least: Number, most: Number) -> Message:
    """Which pH does it have? {grass:capital} is at home between {least} and {most}; a soil beyond
    that is no match, however alike it looks.
    """
    return Message("order.soil.ask_ph", (("grass", grass), ("least", least), ("most", most)))


def bulk(*, volume: Quantity, weight: Quantity) -> Message:
    """{volume} (about {weight})"""
    return Message("order.bulk", (("volume", volume), ("weight", weight)))


def bulk_loads(*, n: int, volume: Quantity, weight: Quantity, each: Quantity) -> Message:
    """{volume} (about {weight}) in {n} loads of {each}"""
    return Message(
        "order.bulk_loads", (("n", n), ("volume", volume), ("weight", weight), ("each", each))
    )


def bulk_loads_of(*, volume: Quantity, weight: Quantity, loads: int, sizes: Listed) -> Message:
    """{volume} (about {weight}) in {loads} loads: {sizes}"""
    return Message(
        "order.bulk_loads_of",
        (("volume", volume), ("weight", weight), ("loads", loads), ("sizes", sizes)),
    )


def loads_of(*, n: int, each: Quantity) -> Message:
    """{n} of {each}"""
    return Message("order.loads_of", (("n", n), ("each", each)))


def bags(*, bags: Listed, weight: Quantity) -> Message:
    """{bags} (about {weight})"""
    return Message("order.bags", (("bags", bags), ("weight", weight)))


def less_came(*, volume: Quantity) -> Message:
    """Less came than was ordered: about {volume} of mix is missing here. Fetch it before this pass,
    or spread thinner everywhere and say so⟦ (`turfplan log BRIEF done TASK --amount`)⟧.
    """
    return Message("order.less_came", (("volume", volume),))


def left_over(*, volume: Quantity) -> Message:
    """About {volume} of the mix will be left over once all is spread. No more is bought, and no
    pass is spread thicker for it: use it in beds and for holes, give it away, or keep some dry
    under its cover for low spots that show later.
    """
    return Message("order.left_over", (("volume", volume),))


def left_over_ordered(*, volume: Quantity) -> Message:
    """About {volume} more of the mix is ordered than is spread. Ask the supplier before it comes
    whether the load can be smaller, and write down what came⟦ (`turfplan log BRIEF delivered TASK
    --amount`)⟧; what comes beyond it is for beds and holes, and no pass is spread thicker for it.
    """
    return Message("order.left_over_ordered", (("volume", volume),))


def less_seed_came(*, missing: Message) -> Message:
    """Less seed is here than is sown: {missing} is missing. Fetch the rest before this day, of the
    same kind; seed that is spread thinner than its rate leaves gaps.
    """
    return Message("order.less_seed_came", (("missing", missing),))


def more_seed_why() -> Message:
    """Less seed was fetched than is sown."""
    return Message("order.more_seed_why")


def more_seed_reason(*, missing: Message) -> Message:
    """Less seed is here than is sown: {missing} is missing. The same kind as what is here."""
    return Message("order.more_seed_reason", (("missing", missing),))


def fewer_plants_came(*, missing: Message) -> Message:
    """Fewer plants came than are set: {missing} is missing. Plant what is here the same day, close
    together from one edge on, and write down which part of the work is done⟦ (`turfplan log BRIEF
    done TASK --share`)⟧: the rest is ordered afresh for a day of its own.
    """
    return Message("order.fewer_plants_came", (("missing", missing),))


def spoiled(*, on: Day) -> Message:
    """The load that came on {on} will have lain for months by then, and is not spread on grass any
    more: a fresh one comes. Use the old heap for holes and beds.
    """
    return Message("order.spoiled", (("on", on),))


def old_heap(*, on: Day, days: Number, most: int) -> Message:
    """The mix that came on {on} lies {days} days by then, and a heap keeps {most}: keep it under
    its tarp, pull the weeds, and before this pass dry it, sieve it and try a handful; what is
    lumpy, sour or full of roots is not spread, and new mix is ordered for it.
    """
    return Message("order.old_heap", (("on", on), ("days", days), ("most", most)))


def not_ordered() -> Message:
    """Its order was skipped, and stands on no list any more: this is what comes from elsewhere. If
    nothing comes, leave the delivery out too, and say so.
    """
    return Message("order.not_ordered")


def bags_each(*, n: int, size: Amounted, material: Message) -> Message:
    """{n} bags of {size} of {material}"""
    return Message("order.bags_each", (("n", n), ("size", size), ("material", material)))


def sold(*, amount: Amounted) -> Message:
    """{amount}"""
    return Message("order.sold", (("amount", amount),))


def bales(*, n: int, bales: Number) -> Message:
    """{bales} bales"""
    return Message("order.bales", (("n", n), ("bales", bales)))


def pieces(*, n: int, pieces: Number) -> Message:
    """{pieces} pieces"""
    return Message("order.pieces", (("n", n), ("pieces", pieces)))


def name_mix() -> Message:
    """mix"""
    return Message("order.name.mix")


def name_own_soil() -> Message:
    """screened topsoil like your own"""
    return Message("order.name.own_soil")


def name_seed(*, grass: Message) -> Message:
    """{grass} seed"""
    return Message("order.name.seed", (("grass", grass),))


def name_seed_for(*, seed: Message, area: Message) -> Message:
    """{seed} for {area}"""
    return Message("order.name.seed_for", (("seed", seed), ("area", area)))


def name_sod(*, grass: Message) -> Message:
    """{grass} sod"""
    return Message("order.name.sod", (("grass", grass),))


def name_plugs(*, grass: Message) -> Message:
    """{grass} plugs"""
    return Message("order.name.plugs", (("grass", grass),))


def name_sprigs(*, grass: Message) -> Message:
    """{grass} sprigs"""
    return Message("order.name.sprigs", (("grass", grass),))


def sprigs_ask() -> Message:
    """How many liters a bushel or bag of sprigs holds: some growers' bushel is half of a bushel of
    grain. Freshly cut, cool and moist, free of other grass.
    """
    return Message("order.sprigs_ask")


def sod_by_day(*, days: int, area: Quantity) -> Message:
    """Ask for {days} deliveries, about {area} on the morning of each day of laying: cut sod keeps a
    day.
    """
    return Message("order.sod_by_day", (("days", days), ("area", area)))


def plants_by_day(*, days: int, amount: Message) -> Message:
    """Ask for {days} deliveries, about {amount} on the morning of each day of planting: cut plants
    dry out within a day or two.
    """
    return Message("order.plants_by_day", (("days", days), ("amount", amount)))


def sprigs_a_day(*, volume: Quantity) -> Message:
    """{volume}"""
    return Message("order.sprigs_a_day", (("volume", volume),))


def name_mat() -> Message:
    """mat of straw or jute, in rolls"""
    return Message("order.name.mat")


def name_pegs() -> Message:
    """pegs for the mat"""
    return Message("order.name.pegs")


def name_lime() -> Message:
    """ground limestone"""
    return Message("order.name.lime")


def name_sulfur() -> Message:
    """elemental sulfur"""
    return Message("order.name.sulfur")


def name_iron_sulfate() -> Message:
    """iron sulfate for spraying"""
    return Message("order.name.iron_sulfate")


def name_gypsum() -> Message:
    """gypsum"""
    return Message("order.name.gypsum")


def name_potash() -> Message:
    """potash (K₂O)"""
    return Message("order.name.potash")


def name_phosphate() -> Message:
    """phosphate (P₂O₅)"""
    return Message("order.name.phosphate")


def as_potash(*, nutrient: Quantity, product: Quantity, needed: Quantity) -> Message:
    """{product} of sulfate of potash (0-0-50), which hold {nutrient}; {needed} are asked for"""
    return Message(
        "order.as_potash", (("nutrient", nutrient), ("product", product), ("needed", needed))
    )


def as_phosphate(*, nutrient: Quantity, product: Quantity, needed: Quantity) -> Message:
    """{product} of triple superphosphate (0-46-0), which hold {nutrient}; {needed} are asked for"""
    return Message(
        "order.as_phosphate", (("nutrient", nutrient), ("product", product), ("needed", needed))
    )


def name_nitrogen() -> Message:
    """nitrogen, in a fertilizer whose middle number is 0"""
    return Message("order.name.nitrogen")


def nitrogen_reason(*, n: int) -> Message:
    """What is at hand may not be used: for {n} feedings. The mass is that of the nitrogen; times
    100 and divided by the first number of the bag, it is that of the product.
    """
    return Message("order.nitrogen.reason", (("n", n),))


def nitrogen_ask_slow(*, share: Number) -> Message:
    """Is {share} or more of the nitrogen slowly released?"""
    return Message("order.nitrogen.ask_slow", (("share", share),))


def seed_ask_tag() -> Message:
    """Purity and germination on the tag, tested this season?"""
    return Message("order.seed.ask_tag")


def seed_ask_weeds() -> Message:
    """Free of noxious weeds, other crop under 0.5%?"""
    return Message("order.seed.ask_weeds")


def seed_ask_varieties() -> Message:
    """Which varieties, and how did they do in the last regional trials?"""
    return Message("order.seed.ask_varieties")


def quoted(*, volume: Quantity, depth: Quantity, area: Quantity) -> Message:
    """The quoted load of {volume} settles to {depth} over {area}."""
    return Message("order.quoted", (("volume", volume), ("depth", depth), ("area", area)))
