"""Messages of `messages/en/unnamed_grass.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Listed, Message


def by_looks(*, grasses: Listed) -> Message:
    """By what was seen the lawn is {grasses}: passes, cuts and days are held to what each of them
    bears.
    """
    return Message("unnamed_grass.by_looks", (("grasses", grasses),))


def by_place_care(*, grasses: Listed) -> Message:
    """Nobody could name the grass: in lawns here it is mostly {grasses}, so cuts, feedings and days
    are held to what each of them bears.
    """
    return Message("unnamed_grass.by_place_care", (("grasses", grasses),))


def by_place(*, grasses: Listed) -> Message:
    """Nobody could name the grass: in lawns here it is mostly {grasses}, so passes, cuts and days
    are held to what each of them bears.
    """
    return Message("unnamed_grass.by_place", (("grasses", grasses),))


def part_of_stand(*, grass: Message) -> Message:
    """The part of the stand that has no name is taken for {grass}, the largest that has one."""
    return Message("unnamed_grass.part_of_stand", (("grass", grass),))


def ask(*, looks: Listed) -> Message:
    """Look, and tell the plan⟦ (under `[lawn]`)⟧: {looks}."""
    return Message("unnamed_grass.ask", (("looks", looks),))


def ask_winter() -> Message:
    """is it green or straw-brown in midwinter (green_in_winter = true or false)"""
    return Message("unnamed_grass.ask_winter")


def ask_runners() -> Message:
    """does it creep by runners above or below the ground, or stand in tufts (runners = true or
    false)
    """
    return Message("unnamed_grass.ask_runners")


def ask_leaf() -> Message:
    """how broad is the blade: fine like a bristle, about as broad as a matchstick, or clearly
    broader (leaf = \"fine\", \"medium\" or \"broad\")
    """
    return Message("unnamed_grass.ask_leaf")


def name_seed(*, grasses: Listed) -> Message:
    """The lawn may be {grasses}, and seed or plants of the wrong one would stand in it like a weed:
    look which it is, or name what is to be sown with species in [seeding].
    """
    return Message("unnamed_grass.name_seed", (("grasses", grasses),))
