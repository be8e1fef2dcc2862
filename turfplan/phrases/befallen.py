"""Messages of `messages/en/befallen.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Day, Days, Message, Number


def not_up(*, day: Day, share: Number) -> Message:
    """On {day} {share} of the seed had not come up: that part is sown again."""
    return Message("befallen.not_up", (("day", day), ("share", share)))


def washed(*, day: Day, share: Number) -> Message:
    """{share} of the seed was washed away by {day}: that part is sown again."""
    return Message("befallen.washed", (("day", day), ("share", share)))


def eaten(*, day: Day, share: Number) -> Message:
    """Animals had taken {share} of the seed by {day}: that part is sown again."""
    return Message("befallen.eaten", (("day", day), ("share", share)))


def not_up_title() -> Message:
    """Find out why the seed did not come up"""
    return Message("befallen.not_up.title")


def not_up_scratch() -> Message:
    """Scratch in some bare places: seed that is swollen and white is still on its way and needs no
    more seed; seed that is dry lacked water; rotten seed lay too wet or too deep; where there is
    none it was washed off or eaten.
    """
    return Message("befallen.not_up.scratch")


def not_up_mend() -> Message:
    """Put that right first: what is sown again fails in the same way."""
    return Message("befallen.not_up.mend")


def found_out_first() -> Message:
    """Why seed was lost is found out first: what is sown again is lost in the same way."""
    return Message("befallen.found_out_first")


def washed_title() -> Message:
    """Look: where was the seed washed off?"""
    return Message("befallen.washed.title")


def washed_look() -> Message:
    """Once the ground bears a foot, look where water ran and where seed lies in heaps: rake the
    heaps apart, rake gullies level and press them.
    """
    return Message("befallen.washed.look")


def washed_reserve() -> Message:
    """The seed that was held back goes on the bare places first."""
    return Message("befallen.washed.reserve")


def eaten_title() -> Message:
    """Look: what did the animals leave of the seed?"""
    return Message("befallen.eaten.title")


def eaten_look() -> Message:
    """Rake scratched places level and press them; lay a net over them, or thin straw, until the
    grass is up. Where something digs for grubs, count them first.
    """
    return Message("befallen.eaten.look")


def unplanted_part() -> Message:
    """the part that is still to be planted"""
    return Message("befallen.unplanted_part")


def unsown_part() -> Message:
    """the part that is still to be sown"""
    return Message("befallen.unsown_part")


def still_sown() -> Message:
    """The part that is still to be sown."""
    return Message("befallen.still_sown")


def seed_why() -> Message:
    """More of the seed is lost than was held back."""
    return Message("befallen.seed_why")


def seed_title() -> Message:
    """Fetch more seed"""
    return Message("befallen.seed_title")


def none_up(*, day: Day) -> Message:
    """On {day} none of the seed had come up: it is sown again."""
    return Message("befallen.none_up", (("day", day),))


def all_washed(*, day: Day) -> Message:
    """All of the seed was washed away by {day}: it is sown again."""
    return Message("befallen.all_washed", (("day", day),))


def all_eaten(*, day: Day) -> Message:
    """Animals had taken all of the seed by {day}: it is sown again."""
    return Message("befallen.all_eaten", (("day", day),))


def tips_buried(*, day: Day) -> Message:
    """On {day} the leaf tips were still buried: nothing more is put on them, and nothing is cut low
    or opened, until they stand clear.
    """
    return Message("befallen.tips_buried", (("day", day),))


def tips_buried_title() -> Message:
    """Look: are the buried tips clear now?"""
    return Message("befallen.tips_buried.title")


def tips_buried_look() -> Message:
    """Brush or rake the mix off the leaves on a dry day and work it down between them."""
    return Message("befallen.tips_buried.look")


def burned(*, day: Day) -> Message:
    """Fertilizer had burned the grass on {day}: it is not fed, cut low, opened or dressed until it
    has grown out.
    """
    return Message("befallen.burned", (("day", day),))


def burned_title() -> Message:
    """Look: has the burned grass grown out?"""
    return Message("befallen.burned.title")


def burned_soak() -> Message:
    """Sweep up grains that still lie there. Where it can be watered, soak the burned places slowly,
    so that the salt goes down below the roots.
    """
    return Message("befallen.burned.soak")


def burned_sweep() -> Message:
    """Sweep up grains that still lie there; rain takes the salt down."""
    return Message("befallen.burned.sweep")


def burned_look() -> Message:
    """Tug at the brown grass: what comes up like a carpet is dead, and is patched in the next
    season for seed.
    """
    return Message("befallen.burned.look")


def heat_stress(*, day: Day) -> Message:
    """On {day} the grass suffered from heat: it is not fed, treated, cut low, opened or dressed
    until it has come through.
    """
    return Message("befallen.heat_stress", (("day", day),))


def heat_stress_title() -> Message:
    """Look: has the grass come through the heat?"""
    return Message("befallen.heat_stress.title")


def heat_stress_look() -> Message:
    """Keep off it and leave it long. Where it is watered, water before the heat of the day, and
    young grass a little at noon too, as long as the law allows it.
    """
    return Message("befallen.heat_stress.look")


def heat_stress_look_on_rain() -> Message:
    """Keep off it and leave it long."""
    return Message("befallen.heat_stress.look_on_rain")


def sickness(*, day: Day) -> Message:
    """On {day} the grass was sick: it is not fed, cut low, opened or dressed until it is sound."""
    return Message("befallen.sickness", (("day", day),))


def sickness_title() -> Message:
    """Look: is the grass sound again?"""
    return Message("befallen.sickness.title")


def sickness_look() -> Message:
    """Mow it dry with a sharp blade, clear away what was cut, and let its leaves be dry at night:
    where it is watered, water early in the morning.
    """
    return Message("befallen.sickness.look")


def sickness_look_on_rain() -> Message:
    """Mow it dry with a sharp blade and clear away what was cut."""
    return Message("befallen.sickness.look_on_rain")


def sickness_ask() -> Message:
    """Patches that grow: have an advisory service or a plant clinic name the disease before
    anything is sprayed.
    """
    return Message("befallen.sickness.ask")


def weed_killer(*, day: Day) -> Message:
    """A weed killer came onto the ground on {day}: seed and plants wait until it no longer harms
    them.
    """
    return Message("befallen.weed_killer", (("day", day),))


def weed_killer_title() -> Message:
    """Find out which weed killer it was"""
    return Message("befallen.weed_killer.title")


def weed_killer_label() -> Message:
    """The label says how many days seed has to wait; until the plan knows them⟦
    (`history.herbicides` in the brief)⟧ it takes those of a killer that lasts some weeks.
    """
    return Message("befallen.weed_killer.label")


def weed_killer_pot() -> Message:
    """Nobody knows what it was: sow some cress or the lawn's own seed in a pot of that soil; what
    comes up sound may be followed by the rest.
    """
    return Message("befallen.weed_killer.pot")


def green_up(*, day: Day) -> Message:
    """On {day} the grass was not green yet: what it has to grow after waits."""
    return Message("befallen.green_up", (("day", day),))


def green_up_title() -> Message:
    """Look: is the grass green?"""
    return Message("befallen.green_up.title")


def green_up_look() -> Message:
    """Look at it from some steps away: more than half of it green is green enough for work in
    spring.
    """
    return Message("befallen.green_up.look")


def heap_wet(*, day: Day) -> Message:
    """The mix was found wet on {day}: it dries first."""
    return Message("befallen.heap_wet", (("day", day),))


def heap_wet_title() -> Message:
    """Look: is the mix dry?"""
    return Message("befallen.heap_wet.title")


def heap_wet_look() -> Message:
    """Open the heap to the sun, spread it thin on a hard floor and rake it over; cover it before
    rain. A handful has to run through the fingers.
    """
    return Message("befallen.heap_wet.look")


def heap_dry_first() -> Message:
    """A wet mix lies on the leaves in lumps: it is dry first."""
    return Message("befallen.heap_dry_first")


def found_alive(*, day: Day) -> Message:
    """On {day} the cause was found to be at work still: it comes first."""
    return Message("befallen.found_alive", (("day", day),))


def planted_dry(*, share: Number, days: Days) -> Message:
    """{share} is planted and has not rooted, and watering is banned from {days}: ask the utility
    whether new plants may be watered by hand or by permit, and carry stored rain to them until
    then. What turns dry and brittle is planted anew with the rest: look at it before you order.
    """
    return Message("befallen.planted_dry", (("share", share), ("days", days)))


def banned(*, days: Days) -> Message:
    """Watering is banned from {days}: what must not dry out waits."""
    return Message("befallen.banned", (("days", days),))


def too_early(*, day: Day) -> Message:
    """Seed is given its time: until {day} nothing of it is said to have failed."""
    return Message("befallen.too_early", (("day", day),))


def from_reserve(*, share: Number) -> Message:
    """The seed that was held back ({share} of all) makes that good: sow the bare places now, and
    keep them moist with the rest.
    """
    return Message("befallen.from_reserve", (("share", share),))


def nothing_sown() -> Message:
    """No seed that was logged as sown, and has not been mown yet, lies there."""
    return Message("befallen.nothing_sown")


def fill_lies_there() -> Message:
    """What was spread before it makes up for it: as much lies there as was asked for."""
    return Message("befallen.fill_lies_there")


def go() -> Message:
    """You are there, on any day."""
    return Message("befallen.go")


def fallback() -> Message:
    """The next free day."""
    return Message("befallen.fallback")
