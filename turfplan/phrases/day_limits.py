"""Messages of `messages/en/day_limits.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Clock, Listed, Message


def delivery_days() -> Message:
    """The supplier delivers on certain days only, your working days or not, and somebody has to be
    there.
    """
    return Message("day_limits.delivery_days")


def office_days() -> Message:
    """An office is asked on its days of business, by telephone or online, and counts from there."""
    return Message("day_limits.office_days")


def work_days() -> Message:
    """Work is possible on your working days only."""
    return Message("day_limits.work_days")


def length(*, n: int) -> Message:
    """The work takes {n} working days."""
    return Message("day_limits.length", (("n", n),))


def in_one_go() -> Message:
    """What is begun is finished on the days that follow, so that nothing lies half spread."""
    return Message("day_limits.in_one_go")


def goes_on_apart() -> Message:
    """Days off lie between its days, so that the seed does not miss its season: each strip is
    finished on its own day, and the rest of the mix is kept dry under its cover.
    """
    return Message("day_limits.goes_on_apart")


def either_window(*, windows: Listed) -> Message:
    """{windows}"""
    return Message("day_limits.either_window", (("windows", windows),))


def somebody_waters(*, n: int) -> Message:
    """Somebody must water for {n} days from seeding: seed that has swollen and dries out is
    dead.
    """
    return Message("day_limits.somebody_waters", (("n", n),))


def relaid_watched(*, n: int) -> Message:
    """Relaid turf is watered, and looked at, for {n} days until it has rooted: nobody is away
    then.
    """
    return Message("day_limits.relaid_watched", (("n", n),))


def watering_ban() -> Message:
    """A watering ban would fall into the weeks in which the young grass must be watered."""
    return Message("day_limits.watering_ban")


def rain_alone() -> Message:
    """Nobody waters: it goes in only while usual rain then keeps it wet until it needs that no
    more.
    """
    return Message("day_limits.rain_alone")


def turf_on_rain() -> Message:
    """Nobody waters: turf is cut low, opened, lifted or covered only while usual rain lets it grow
    over that.
    """
    return Message("day_limits.turf_on_rain")


def turf_in_ban() -> Message:
    """Watering is banned then or soon after, and usual rain alone does not let turf grow over being
    cut low, opened, lifted or covered.
    """
    return Message("day_limits.turf_in_ban")


def contractor_days() -> Message:
    """The contractor comes on these days of the week only, and not on public holidays."""
    return Message("day_limits.contractor_days")


def machine_days() -> Message:
    """Machines that neighbors hear rest on the quiet days of the law here."""
    return Message("day_limits.machine_days")


def clock_span(*, first: Clock, last: Clock) -> Message:
    """{first} to {last}"""
    return Message("day_limits.clock_span", (("first", first), ("last", last)))


def machine_hours(*, hours: Listed) -> Message:
    """Machines may be heard from {hours} only; towns may ask for more rest."""
    return Message("day_limits.machine_hours", (("hours", hours),))
