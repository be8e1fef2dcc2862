"""Messages of `messages/en/buying.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Day, Message, Quantity


def collect() -> Message:
    """What one job takes is fetched on one trip, in time for a second one where something is not in
    stock.
    """
    return Message("buying.collect")


def collect_name() -> Message:
    """Fetch"""
    return Message("buying.collect_name")


def call() -> Message:
    """Machines for a day off are reserved ahead: on a fine weekend none is left."""
    return Message("buying.call")


def call_again() -> Message:
    """What was reserved for the first time is back at its yard by then: it is reserved for the new
    day.
    """
    return Message("buying.call_again")


def call_name() -> Message:
    """Reserve"""
    return Message("buying.call_name")


def sunday() -> Message:
    """Sunday is your only day: ask whether the shop is open then, or have it sent."""
    return Message("buying.sunday")


def line(*, what: Message, amount: Message) -> Message:
    """{what:capital}: {amount}."""
    return Message("buying.line", (("what", what), ("amount", amount)))


def hired(*, machine: Message) -> Message:
    """{machine}, hired"""
    return Message("buying.hired", (("machine", machine),))


def hired_day(*, n: int) -> Message:
    """for {n} jobs"""
    return Message("buying.hired_day", (("n", n),))


def hired_reason() -> Message:
    """It is fetched on the day of the job, or the evening before, and goes back after it."""
    return Message("buying.hired_reason")


def order_sod() -> Message:
    """Order the sod"""
    return Message("buying.order_sod")


def receive_sod() -> Message:
    """Receive the sod"""
    return Message("buying.receive_sod")


def order_plugs() -> Message:
    """Order the plugs"""
    return Message("buying.order_plugs")


def receive_plugs() -> Message:
    """Receive the plugs"""
    return Message("buying.receive_plugs")


def order_sprigs() -> Message:
    """Order the sprigs"""
    return Message("buying.order_sprigs")


def receive_sprigs() -> Message:
    """Receive the sprigs"""
    return Message("buying.receive_sprigs")


def order_plants() -> Message:
    """A grower cuts or lifts to order: the day of delivery is agreed first, and what is cut does
    not wait.
    """
    return Message("buying.order_plants")


def order_plants_ask() -> Message:
    """Say the grass, the amount on the order sheet, and the morning on which it is to come; ask
    until when you may still put it off.
    """
    return Message("buying.order_plants_ask")


def order_plants_ground() -> Message:
    """Name the drop spot: on hard ground in the shade, near where it is planted, and what the truck
    needs to reach it.
    """
    return Message("buying.order_plants_ground")


def order_plants_go() -> Message:
    """Day, amount and price are confirmed in writing."""
    return Message("buying.order_plants_go")


def order_plants_fallback() -> Message:
    """The grower has nothing for that day: ask the next one, or tell the plan the day that is
    offered.
    """
    return Message("buying.order_plants_fallback")


def receive_plants() -> Message:
    """It comes when the ground is ready, on the morning of planting or the day before: what lies
    heats up and dies.
    """
    return Message("buying.receive_plants")


def receive_plants_look() -> Message:
    """Look before it is unloaded: green, cool and moist inside the stack, roots white, no other
    grass, no yellow.
    """
    return Message("buying.receive_plants_look")


def receive_plants_shade() -> Message:
    """Set it down in the shade and keep it moist until it is in the ground."""
    return Message("buying.receive_plants_shade")


def receive_by_day() -> Message:
    """Ask for each day's area on its own morning: what is laid tomorrow is cut tomorrow."""
    return Message("buying.receive_by_day")


def receive_plants_go() -> Message:
    """Green, cool and moist, the amount that was ordered, and the ground is ready."""
    return Message("buying.receive_plants_go")


def receive_plants_fallback() -> Message:
    """Yellow, hot or dried out is refused: tell whoever keeps the plan⟦ (`turfplan log BRIEF
    refused TASK`)⟧.
    """
    return Message("buying.receive_plants_fallback")


def look_plants() -> Message:
    """Green and moist all through, cool in the middle of the stack, no yellow, no other grass."""
    return Message("buying.look_plants")


def call_off() -> Message:
    """It was ordered weeks ago with an earlier load: a call keeps its day, and asks whether it is
    dry.
    """
    return Message("buying.call_off")


def call_off_title() -> Message:
    """Call about the next load of mix"""
    return Message("buying.call_off_title")


def call_off_ask() -> Message:
    """Confirm day and amount; ask that it is dry and has been under cover."""
    return Message("buying.call_off_ask")


def call_off_room() -> Message:
    """See that the drop spot is free, with tarps at hand."""
    return Message("buying.call_off_room")


def call_off_go() -> Message:
    """Day and amount are confirmed."""
    return Message("buying.call_off_go")


def call_off_fallback() -> Message:
    """Wet, or not to be had that day: agree another day, and tell the plan that the delivery has
    moved.
    """
    return Message("buying.call_off_fallback")


def refused_title() -> Message:
    """Ask for another load: one was refused"""
    return Message("buying.refused_title")


def refused() -> Message:
    """What was refused is still missing: the supplier brings another, or another supplier does."""
    return Message("buying.refused")


def refused_ask() -> Message:
    """Say what was wrong with it, and that you take the next one only if it is right; agree the
    day.
    """
    return Message("buying.refused_ask")


def refused_go() -> Message:
    """A new load with a day is confirmed, without a second charge."""
    return Message("buying.refused_go")


def refused_fallback() -> Message:
    """They have no better one: ask the next supplier the questions on the order sheet."""
    return Message("buying.refused_fallback")


def mix_title(*, amount: Quantity) -> Message:
    """Fetch {amount} more of the mix"""
    return Message("buying.mix_title", (("amount", amount),))


def mix_why() -> Message:
    """More was used, or less came, than was planned, and what is left to spread is short of it."""
    return Message("buying.mix_why")


def mix_how() -> Message:
    """Ask what fits into a trailer, or in bags: the same parts, as dry as before. Where that is too
    much for it, have it brought.
    """
    return Message("buying.mix_how")


def fetched_first() -> Message:
    """It is in the house before the job begins."""
    return Message("buying.fetched_first")


def grower_needs() -> Message:
    """The grower needs these days from order to delivery."""
    return Message("buying.grower_needs")


def plants_fresh() -> Message:
    """What is cut or lifted keeps no longer."""
    return Message("buying.plants_fresh")


def hired_first() -> Message:
    """The machine is reserved before its job, with days to spare."""
    return Message("buying.hired_first")


def confirmed() -> Message:
    """The yard is called before it loads."""
    return Message("buying.confirmed")


def ordered_first() -> Message:
    """What is asked about was ordered before."""
    return Message("buying.ordered_first")


def cause_first() -> Message:
    """Nothing is bought while its cause may still be at work."""
    return Message("buying.cause_first")


def permit_first() -> Message:
    """The permit is answered before what needs water is bought."""
    return Message("buying.permit_first")


def answer_first() -> Message:
    """The answer of the soil test may change what is bought."""
    return Message("buying.answer_first")


def estimate_soil() -> Message:
    """An estimate, not to be ordered yet: the soil was assumed, and the mix is chosen beside it.
    Find out which soil it is, and tell the plan⟦ (`soil` under `[lawn]`)⟧.
    """
    return Message("buying.estimate_soil")


def estimate_depth() -> Message:
    """An estimate, not to be ordered yet: it rests on one depth for the whole lawn, and a depth
    read in the worst dip buys far too much. Measure a grid of heights, or take the mean of many
    places, and give the plan what you found.
    """
    return Message("buying.estimate_depth")


def estimate_grass() -> Message:
    """An estimate, not to be bought yet: nobody has named the grass, and the seed is chosen beside
    it. Find out which it is, and tell the plan⟦ (`grass` under `[lawn]`)⟧.
    """
    return Message("buying.estimate_grass")


def estimate_test() -> Message:
    """An estimate, not to be bought yet: the soil test is still out, and may ask for lime,
    phosphate or potash, or for none. Give the plan its results⟦ (`[soil_test]`)⟧.
    """
    return Message("buying.estimate_test")


def name_preventer() -> Message:
    """crabgrass preventer"""
    return Message("buying.name_preventer")


def name_weed_killer() -> Message:
    """weed killer for the whole plant, or what else ends the old stand"""
    return Message("buying.name_weed_killer")


def name_starter() -> Message:
    """nitrogen for the starter, in a fertilizer whose middle number is 0"""
    return Message("buying.name_starter")


def name_starter_p() -> Message:
    """nitrogen for the starter, in a fertilizer that brings phosphate too"""
    return Message("buying.name_starter_p")


def covers_reason(*, area: Quantity) -> Message:
    """The label says how much covers so much: enough for {area}, at the rate of the label."""
    return Message("buying.covers_reason", (("area", area),))


def nitrogen_reason(*, n: int) -> Message:
    """For {n} feedings. The mass is that of the nitrogen; times 100 and divided by the first number
    of the bag, it is that of the product. It keeps dry for the later ones.
    """
    return Message("buying.nitrogen_reason", (("n", n),))


def ask_label() -> Message:
    """Does the label name your grass, and the days until seed may follow?"""
    return Message("buying.ask_label")


def of_seed() -> Message:
    """seed"""
    return Message("buying.of_seed")


def of_starter() -> Message:
    """starter"""
    return Message("buying.of_starter")


def of_straw() -> Message:
    """straw"""
    return Message("buying.of_straw")


def of_mat() -> Message:
    """mat and pegs"""
    return Message("buying.of_mat")


def of_lime() -> Message:
    """lime"""
    return Message("buying.of_lime")


def of_fertilizer() -> Message:
    """fertilizer"""
    return Message("buying.of_fertilizer")


def of_preventer() -> Message:
    """crabgrass preventer"""
    return Message("buying.of_preventer")


def of_weed_killer() -> Message:
    """weed killer"""
    return Message("buying.of_weed_killer")


def of_soil() -> Message:
    """what corrects the soil"""
    return Message("buying.of_soil")


def of_covers() -> Message:
    """what covers the fill"""
    return Message("buying.of_covers")


def machine_moved(*, reserved: Day) -> Message:
    """Its machine was reserved for {reserved}: ask whether it is there on this day too."""
    return Message("buying.machine_moved", (("reserved", reserved),))
