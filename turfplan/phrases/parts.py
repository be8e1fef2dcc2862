"""Messages of `messages/en/parts.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Listed, Message, Number, Quantity


def septic_field() -> Message:
    """the septic field"""
    return Message("parts.septic_field")


def dog_run() -> Message:
    """the dog run"""
    return Message("parts.dog_run")


def shade() -> Message:
    """the shaded part"""
    return Message("parts.shade")


def tree_roots() -> Message:
    """the ground over tree roots"""
    return Message("parts.tree_roots")


def steep() -> Message:
    """the steep part"""
    return Message("parts.steep")


def unfilled(*, part: Message, area: Quantity, share: Number) -> Message:
    """{part:capital} ({area}, {share} of the lawn) is left out of the fill: what is ordered and
    spread is for the rest.
    """
    return Message("parts.unfilled", (("part", part), ("area", area), ("share", share)))


def thinner(*, part: Message, area: Quantity, share: Number, depth: Quantity) -> Message:
    """{part:capital} ({area}, {share} of the lawn) is filled by {depth} at the most; what is
    ordered is less by that.
    """
    return Message(
        "parts.thinner", (("part", part), ("area", area), ("share", share), ("depth", depth))
    )


def unsown(*, part: Message) -> Message:
    """Nothing is sown on {part}; it is sown like the rest where you do not name it as a part⟦
    (`[[lawn.part]]`)⟧.
    """
    return Message("parts.unsown", (("part", part),))


def mind_septic(*, part: Message, week: Quantity) -> Message:
    """{part:capital}: no fill or reshaping, no tines, no heavy machine, and no more than {week} of
    water a week; bare spots there are raked and sown by hand in a rainy week.
    """
    return Message("parts.mind_septic", (("part", part), ("week", week)))


def mind_roots(*, part: Message) -> Message:
    """{part:capital}: keep root flares clear and tines out; rake what is spread there by hand."""
    return Message("parts.mind_roots", (("part", part),))


def mind_steep(*, part: Message) -> Message:
    """{part:capital}: spread there thinly and by hand, rake seed in, cover it at once with straw
    that is pegged or netted; water in short runs.
    """
    return Message("parts.mind_steep", (("part", part),))


def mind_dogs(*, part: Message) -> Message:
    """{part:capital} is given bark, gravel or another cover: neither fill nor seed lasts under
    dogs.
    """
    return Message("parts.mind_dogs", (("part", part),))


def ask_septic() -> Message:
    """Where is the septic field? Until you say how large it is⟦ (a `[[lawn.part]]` of kind
    `septic_field`)⟧, its area is counted like the rest, in fill, seed, tines and water; none of
    that belongs on it.
    """
    return Message("parts.ask_septic")


def dark(*, part: Message) -> Message:
    """{part:capital} has too little sun for what is sown: nothing is sown there; take ground cover
    or mulch, or a grass that bears it.
    """
    return Message("parts.dark", (("part", part),))


def of_survey(*, part: Message) -> Message:
    """The survey does not say where {part} lies: its fill is counted; draw it as a hole in the
    survey's outline to leave it out.
    """
    return Message("parts.of_survey", (("part", part),))


def of_survey_alike(*, part: Message) -> Message:
    """The survey does not say where {part} lies: nothing is spread there, and its share is taken
    off every depth alike. Draw it as a hole in the survey's outline to have the fill around it
    reckoned exactly.
    """
    return Message("parts.of_survey_alike", (("part", part),))


def in_any_zone(*, part: Message) -> Message:
    """Nobody says in which zone {part} lies: its share is taken out of each zone alike. Name its
    zone⟦ (`zone` in its `[[lawn.part]]`)⟧, so that each gets what it needs.
    """
    return Message("parts.in_any_zone", (("part", part),))


def no_tines(*, parts: Listed) -> Message:
    """No tines on {parts}."""
    return Message("parts.no_tines", (("parts", parts),))


def none_left() -> Message:
    """Nothing is left to sow: every part of the lawn is kept unsown. Change the parts, or take
    another cover there.
    """
    return Message("parts.none_left")
