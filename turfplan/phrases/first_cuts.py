"""Messages of `messages/en/first_cuts.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Message, Quantity


def old_grass() -> Message:
    """The old grass grows on at once and shades the seedlings; kept low, it leaves them light."""
    return Message("first_cuts.old_grass")


def old_grass_dry() -> Message:
    """Leave out the watering before it."""
    return Message("first_cuts.old_grass_dry")


def old_grass_straw() -> Message:
    """Where straw lies it has sunk below the blade; what stands up is pressed down, never raked."""
    return Message("first_cuts.old_grass_straw")


def old_grass_again(*, due: Quantity, height: Quantity, n: int) -> Message:
    """Then keep it low: mow to {height} whenever it stands {due}, once in {n} days at most, until
    the new grass has its first cut. Never more than a third off.
    """
    return Message("first_cuts.old_grass_again", (("due", due), ("height", height), ("n", n)))


def old_grass_lower(*, due: Quantity, height: Quantity, n: int) -> Message:
    """This first cut is as low as a third off allows; from the next on mow to {height} whenever it
    stands {due}, once in {n} days at most, until the new grass has its first cut. Never more than a
    third off.
    """
    return Message("first_cuts.old_grass_lower", (("due", due), ("height", height), ("n", n)))


def old_grass_go(*, due: Quantity) -> Message:
    """The old grass stands {due} high, even if not all seed is up; the ground is firm and dry under
    the wheels.
    """
    return Message("first_cuts.old_grass_go", (("due", due),))


def new_grass() -> Message:
    """The first cut makes young grass tiller, and keeps the old grass from shading it."""
    return Message("first_cuts.new_grass")


def new_grass_alone() -> Message:
    """The first cut makes young grass tiller and close the ground."""
    return Message("first_cuts.new_grass_alone")


def plants() -> Message:
    """Cutting makes planted grass spread sideways; too early it pulls the plants out."""
    return Message("first_cuts.plants")


def plants_title() -> Message:
    """First mow after planting"""
    return Message("first_cuts.plants_title")


def plants_go(*, height: Quantity) -> Message:
    """No plant comes out at a gentle pull, and the grass stands {height} high."""
    return Message("first_cuts.plants_go", (("height", height),))


def all_winter(
    *, height: Quantity, due: Quantity, least: Quantity, most: Quantity, n: int, grass: Message
) -> Message:
    """Cut to {height}, and the next two times too, whenever it stands {due}. It grows all winter
    and has no last mow in autumn: go on at {least} to {most}, about every {n} days, until the cuts
    of spring give the lawn back to {grass}.
    """
    return Message(
        "first_cuts.all_winter",
        (
            ("height", height),
            ("due", due),
            ("least", least),
            ("most", most),
            ("n", n),
            ("grass", grass),
        ),
    )


def then(*, height: Quantity, due: Quantity, n: int, least: Quantity, most: Quantity) -> Message:
    """Cut to {height}, and the next two times too, whenever the grass stands {due}. From the third
    mowing on, about {n} days after the first, or with the last cut of the year, go over to the
    usual {least} to {most}.
    """
    return Message(
        "first_cuts.then",
        (("height", height), ("due", due), ("n", n), ("least", least), ("most", most)),
    )
