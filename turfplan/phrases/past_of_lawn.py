"""Messages of `messages/en/past_of_lawn.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Day, Listed, Message


def no_dressing(*, day: Day) -> Message:
    """Seedlings of {day} bear nothing over them and no tines or weed killer until they have been
    mown three times.
    """
    return Message("past_of_lawn.no_dressing", (("day", day),))


def not_mown_yet(*, day: Day) -> Message:
    """Seedlings of {day} are neither scalped nor fed before they have been mown."""
    return Message("past_of_lawn.not_mown_yet", (("day", day),))


def moss(*, day: Day) -> Message:
    """Moss treated on {day} must be black and raked out before the ground is opened or sown."""
    return Message("past_of_lawn.moss", (("day", day),))


def alive() -> Message:
    """The cause was found still at work; it is given time to go, or to be put right."""
    return Message("past_of_lawn.alive")


def young(*, day: Day) -> Message:
    """Seed of {day} may still be coming up: no pass, tines, weed killer or preventer over it until
    it has been mown three times, and no feeding before the first mowing.
    """
    return Message("past_of_lawn.young", (("day", day),))


def grown(*, day: Day) -> Message:
    """Seed of {day} is old enough to be treated like the rest of the lawn; where it failed, the
    cause was not mended.
    """
    return Message("past_of_lawn.grown", (("day", day),))


def moss_treated(*, day: Day, ingredient: Message) -> Message:
    """Moss was treated with {ingredient} on {day}: rake it out once it is black, keep it off
    paving, and change what feeds it (drainage, light, pH), or it is back within the year.
    """
    return Message("past_of_lawn.moss_treated", (("day", day), ("ingredient", ingredient)))


def moss_black(*, day: Day, ingredient: Message) -> Message:
    """Moss was treated with {ingredient} on {day} and should be black: what still lies there is
    raked out before seed, plants or mix, and unless what feeds it changes (drainage, light, pH), it
    is back within the year.
    """
    return Message("past_of_lawn.moss_black", (("day", day), ("ingredient", ingredient)))


def moss_killer() -> Message:
    """a moss killer"""
    return Message("past_of_lawn.moss_killer")


def still_to_come(*, days: Listed, today: Day) -> Message:
    """What you said was done lies ahead of today, {today}: {days}. It counts as if it had been
    done, and work of this plan may come too near before it. Give the right year⟦ (`[history]` in
    the brief)⟧; what is still to be done is left out until it is.
    """
    return Message("past_of_lawn.still_to_come", (("days", days), ("today", today)))


def preventer_down(*, ingredient: str, day: Day) -> Message:
    """{ingredient} of {day} keeps weeds from coming up as long as it keeps seed from growing, so
    this plan has no other crabgrass preventer in that spring. Only its label says whether it may be
    repeated, after how many weeks, and how much may be given in a year.
    """
    return Message("past_of_lawn.preventer_down", (("ingredient", ingredient), ("day", day)))


def look_why() -> Message:
    """Whether the earlier seed came up decides where more is needed."""
    return Message("past_of_lawn.look_why")


def look_title() -> Message:
    """Look: has the earlier seed come up?"""
    return Message("past_of_lawn.look_title")


def look_how() -> Message:
    """Look for fine upright blades in the rows of the rake or between the old grass; note the bare
    spots.
    """
    return Message("past_of_lawn.look_how")
