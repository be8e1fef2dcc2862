"""Messages of `messages/en/real_years.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Listed, Message


def window_open() -> Message:
    """window open"""
    return Message("real_years.window_open")


def rain_enough(*, n: int) -> Message:
    """rain enough in the {n} days after"""
    return Message("real_years.rain_enough", (("n", n),))


def dry() -> Message:
    """dry"""
    return Message("real_years.dry")


def no_frost(*, n: int) -> Message:
    """no frost for {n} days after"""
    return Message("real_years.no_frost", (("n", n),))


def grows_through(*, n: int) -> Message:
    """growth through it within {n} days"""
    return Message("real_years.grows_through", (("n", n),))


def held(*, condition: Message, years: int) -> Message:
    """{condition} in {years}"""
    return Message("real_years.held", (("condition", condition), ("years", years)))


def tally(*, held: Listed, years: int) -> Message:
    """{held} of {years} years"""
    return Message("real_years.tally", (("held", held), ("years", years)))


def told(*, years: Listed, tally: Message) -> Message:
    """{years}: {tally}."""
    return Message("real_years.told", (("years", years), ("tally", tally)))


def told_with_window(*, years: Listed, tally: Message, opened: Listed, closed: Listed) -> Message:
    """{years}: {tally}; in eight years of ten it opened between {opened} and closed between
    {closed}.
    """
    return Message(
        "real_years.told_with_window",
        (("years", years), ("tally", tally), ("opened", opened), ("closed", closed)),
    )
