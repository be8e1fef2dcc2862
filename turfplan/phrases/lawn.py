"""Messages of `messages/en/lawn.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Message, Number, Quantity


def metric_units() -> Message:
    """No country was given: metric units are used."""
    return Message("lawn.metric_units")


def weekends() -> Message:
    """No working days were given: Saturdays and Sundays are used."""
    return Message("lawn.weekends")


def business_days() -> Message:
    """No working days were given: the contractor is taken to come from Monday to Friday."""
    return Message("lawn.business_days")


def holidays_rest() -> Message:
    """Public holidays are days of rest⟦; `[calendar] holidays = \"work\"` plans your own work on
    them too⟧.
    """
    return Message("lawn.holidays_rest")


def no_country() -> Message:
    """No country was given: public holidays, and days on which the law keeps machines quiet, are
    not known here.
    """
    return Message("lawn.no_country")


def mixed_stand() -> Message:
    """In the mixed stand the windows are those that suit every grass with a fifth of the cover or
    more.
    """
    return Message("lawn.mixed_stand")


def thin() -> Message:
    """The lawn is taken to be thin."""
    return Message("lawn.thin")


def thin_share(*, share: Number, area: Quantity) -> Message:
    """Nobody said how much of the lawn is thin, dead or bare: {share} are taken, {area}, and seed,
    starter and plants are reckoned for that. Walk it, estimate the share, and tell the plan⟦
    (`thin_share` under `[lawn]`)⟧.
    """
    return Message("lawn.thin_share", (("share", share), ("area", area)))


def thin_share_unused(*, share: Number) -> Message:
    """{share} of the lawn are said to be thin: the work still goes over all of it, as asked. To sow
    or plant those spots alone ask for patching or planting⟦ (`intent` `patch` or `plant`)⟧.
    """
    return Message("lawn.thin_share_unused", (("share", share),))


def loam() -> Message:
    """The soil was not named: loam is assumed."""
    return Message("lawn.loam")


def unknown_soil() -> Message:
    """The soil is unknown: loam is assumed. Wet a handful and press it between thumb and finger: a
    ribbon longer than a finger's width is clay, none at all is sand, floury is silt, black and
    light is peat; it fizzes with vinegar: it holds lime. Tell the plan what you find⟦ (`soil` under
    `[lawn]`)⟧.
    """
    return Message("lawn.unknown_soil")


def thatch(*, depth: Quantity) -> Message:
    """Thatch was not measured: {depth} is assumed, too little to remove."""
    return Message("lawn.thatch", (("depth", depth),))


def stripped(*, depth: Quantity) -> Message:
    """Stripping takes the thatch away, {depth} all over: the fill replaces that too."""
    return Message("lawn.stripped", (("depth", depth),))


def stripped_hollows(*, depth: Quantity) -> Message:
    """Stripping takes the thatch away, {depth} all over, and fill goes to the low parts alone: they
    lie as far below the ground around them as before, and the whole lawn ends that much lower, less
    what plants bring with them. A depth of fill for the rest⟦ (`depth` under `[leveling]`)⟧ fills
    it up again.
    """
    return Message("lawn.stripped_hollows", (("depth", depth),))


def stripped_lower(*, depth: Quantity) -> Message:
    """Stripping takes the thatch away, {depth} all over, and nothing is filled: the lawn ends that
    much lower at paths and edges, less what plants bring with them. A depth of fill⟦ (`depth` under
    `[leveling]`)⟧ fills it up again.
    """
    return Message("lawn.stripped_lower", (("depth", depth),))


def settles(*, share: Number) -> Message:
    """Loose material is taken to settle by {share}; no turf source prints a figure."""
    return Message("lawn.settles", (("share", share),))


def settles_hollows(*, share: Number) -> Message:
    """What fills lifted hollows is taken to settle by {share}: a deep fill settles more than a thin
    layer.
    """
    return Message("lawn.settles_hollows", (("share", share),))


def hollows(*, depth: Quantity, share: Number) -> Message:
    """The deep hollows ({share} of the lawn, {depth} on average) are lifted and filled, not
    top-dressed.
    """
    return Message("lawn.hollows", (("depth", depth), ("share", share)))


def permit_asked() -> Message:
    """Nobody said whether a watering permit can be had: the plan asks for one before seed or plants
    are bought, or turf is lifted, and stands or falls with it.
    """
    return Message("lawn.permit_asked")


def work(*, n: int, hours: Number, way: Quantity) -> Message:
    """Work is reckoned for {n} people, {hours} hours a day and {way} of wheeling."""
    return Message("lawn.work", (("n", n), ("hours", hours), ("way", way)))


def wheeling(*, reach: Quantity) -> Message:
    """Hours hold for mix that is wheeled up to {reach} from where it lies to the lawn; a longer way
    takes longer, and the plan reckons with it once it is told⟦ (`haul_distance` in `[work]`)⟧.
    """
    return Message("lawn.wheeling", (("reach", reach),))


def wheeled_far(*, way: Quantity, reach: Quantity, times: Number) -> Message:
    """Mix is wheeled {way}: that takes {times} times the hours of a way up to {reach}. A nearer
    place for the heap saves them.
    """
    return Message("lawn.wheeled_far", (("way", way), ("reach", reach), ("times", times)))


def work_of_care(*, n: int, hours: Number) -> Message:
    """Work is reckoned for {n} people, {hours} hours a day."""
    return Message("lawn.work_of_care", (("n", n), ("hours", hours)))


def lead_days(*, n: int) -> Message:
    """The supplier is taken to need {n} days from order to delivery."""
    return Message("lawn.lead_days", (("n", n),))


def zone_filled(*, zone: Message, area: Quantity, share: Number, depth: Quantity) -> Message:
    """{zone} ({area}, {share} of the lawn) is filled by {depth}, settled."""
    return Message(
        "lawn.zone.filled", (("zone", zone), ("area", area), ("share", share), ("depth", depth))
    )


def zone_days_suit_both(*, zone: Message, grass: Message) -> Message:
    """In {zone} grows {grass}: passes and cuts are held to what both grasses bear; the days suit
    both.
    """
    return Message("lawn.zone.days_suit_both", (("zone", zone), ("grass", grass)))


def zone_days_of_larger(*, zone: Message, grass: Message) -> Message:
    """In {zone} grows {grass}: passes and cuts are held to what both grasses bear; the days are
    those of the larger part.
    """
    return Message("lawn.zone.days_of_larger", (("zone", zone), ("grass", grass)))


def zone_seed(*, sown: Message, zone: Message, grass: Message) -> Message:
    """Seed is reckoned as {sown} over the whole lawn: where {zone} is to stay {grass}, plan it as a
    lawn of its own.
    """
    return Message("lawn.zone.seed", (("sown", sown), ("zone", zone), ("grass", grass)))


def zone_shade(*, zone: Message) -> Message:
    """{zone} lies in shade: grass grows through more slowly there, so every pass without seed is
    held to what slow turf takes.
    """
    return Message("lawn.zone.shade", (("zone", zone),))


def zone_part_sun(*, zone: Message) -> Message:
    """{zone} lies in part sun: nothing is changed for it; look there first whether the leaf tips
    are through.
    """
    return Message("lawn.zone.part_sun", (("zone", zone),))
