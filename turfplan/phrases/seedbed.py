"""Messages of `messages/en/seedbed.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Message


def low_cut() -> Message:
    """Low grass lets seed and light reach the soil, and holds the seedlings back less."""
    return Message("seedbed.low_cut")


def opening_go() -> Message:
    """Grass dry, soil moist, neither sodden nor frozen."""
    return Message("seedbed.opening.go")


def vertical() -> Message:
    """The second grass must fall through dense turf to the soil: cut open lightly, the grass below
    comes back unharmed in spring.
    """
    return Message("seedbed.vertical")


def vertical_name() -> Message:
    """Vertical mowing"""
    return Message("seedbed.vertical.name")


def vertical_title() -> Message:
    """Mow vertically: lightly, two ways"""
    return Message("seedbed.vertical.title")


def vertical_depth() -> Message:
    """Set the blades to just touch the soil, no deeper: hard dethatching belongs in early summer,
    and no cores are taken right before the seed.
    """
    return Message("seedbed.vertical.depth")


def vertical_twice() -> Message:
    """Go over it once, then across; rake up and remove what comes out, and leave no bare soil
    behind.
    """
    return Message("seedbed.vertical.twice")


def raking() -> Message:
    """The second grass must reach the soil, and this turf bears neither blades nor a scalping."""
    return Message("seedbed.raking")


def raking_dormant() -> Message:
    """Seed that waits for spring must lie on soil, not in leaves or thatch; frost works it in."""
    return Message("seedbed.raking.dormant")


def raking_name() -> Message:
    """Raking"""
    return Message("seedbed.raking.name")


def raking_title() -> Message:
    """Rake the soil open for the seed"""
    return Message("seedbed.raking.title")


def raking_leaves() -> Message:
    """Rake off leaves and everything loose, and take it away."""
    return Message("seedbed.raking.leaves")


def raking_how() -> Message:
    """Rake once more by hand, gently, so that seed can fall between the runners; tear nothing
    out.
    """
    return Message("seedbed.raking.how")


def raking_dormant_how() -> Message:
    """Scratch the soil with an iron rake wherever the grass is thin, or cut slits just into it,
    {1/4 in|6 mm} deep, two ways across each other.
    """
    return Message("seedbed.raking.dormant.how")
