"""Messages of `messages/en/towns.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import DateInYear, Message, Number, Quantity


def in_state(*, town: str, state: str, country: str) -> Message:
    """{town}, {state}, {country}"""
    return Message("towns.in_state", (("town", town), ("state", state), ("country", country)))


def in_country(*, town: str, country: str) -> Message:
    """{town}, {country}"""
    return Message("towns.in_country", (("town", town), ("country", country)))


def of_postal_code(*, town: str, state: str, code: str) -> Message:
    """{town}, {state} ({code})"""
    return Message("towns.of_postal_code", (("town", town), ("state", state), ("code", code)))


def close_to(*, town: Message) -> Message:
    """at {town}"""
    return Message("towns.close_to", (("town", town),))


def away_from(*, distance: Quantity, direction: Message, town: Message) -> Message:
    """about {distance} {direction} of {town}"""
    return Message(
        "towns.away_from", (("distance", distance), ("direction", direction), ("town", town))
    )


def direction_0() -> Message:
    """north"""
    return Message("towns.direction.0")


def direction_1() -> Message:
    """northeast"""
    return Message("towns.direction.1")


def direction_2() -> Message:
    """east"""
    return Message("towns.direction.2")


def direction_3() -> Message:
    """southeast"""
    return Message("towns.direction.3")


def direction_4() -> Message:
    """south"""
    return Message("towns.direction.4")


def direction_5() -> Message:
    """southwest"""
    return Message("towns.direction.5")


def direction_6() -> Message:
    """west"""
    return Message("towns.direction.6")


def direction_7() -> Message:
    """northwest"""
    return Message("towns.direction.7")


def other_country(*, country: str, found: Message) -> Message:
    """the place lies {found}, far from every town of {country}: are latitude and longitude swapped,
    or a sign lost?
    """
    return Message("towns.other_country", (("country", country), ("found", found)))


def country_unknown() -> Message:
    """no country is known by this name"""
    return Message("towns.country_unknown")


def country_nearest(*, code: str, name: str) -> Message:
    """did you mean \"{code}\" ({name})?"""
    return Message("towns.country_nearest", (("code", code), ("name", name)))


def country_code() -> Message:
    """give its two letters of ISO 3166, for example \"KE\", or its English name"""
    return Message("towns.country_code")


def unknown() -> Message:
    """no town of this name is known"""
    return Message("towns.unknown")


def not_there() -> Message:
    """towns of this name lie elsewhere"""
    return Message("towns.not_there")


def several(*, n: int) -> Message:
    """{n} towns bear this name"""
    return Message("towns.several", (("n", n),))


def candidate(*, town: Message, code: str, people: Number) -> Message:
    """{town} ({code}; {people} people)"""
    return Message("towns.candidate", (("town", town), ("code", code), ("people", people)))


def candidate_frost(*, town: Message, code: str, people: Number, day: DateInYear) -> Message:
    """{town} ({code}; {people} people; last frost about {day})"""
    return Message(
        "towns.candidate_frost", (("town", town), ("code", code), ("people", people), ("day", day))
    )


def say_which(*, example: str) -> Message:
    """say which: \"{example}\""""
    return Message("towns.say_which", (("example", example),))


def say_which_of(*, example: str, other: str) -> Message:
    """say which: \"{example}\", \"{other}\""""
    return Message("towns.say_which_of", (("example", example), ("other", other)))


def nearest(*, name: str) -> Message:
    """is it {name}? The gazetteer has towns of 5,000 people and more; else give latitude and
    longitude
    """
    return Message("towns.nearest", (("name", name),))


def other_ways() -> Message:
    """the gazetteer has towns of 5,000 people and more; name one nearby, or give latitude and
    longitude
    """
    return Message("towns.other_ways")


def postcode_unknown() -> Message:
    """British postcodes are not known here"""
    return Message("towns.postcode_unknown")


def name_town() -> Message:
    """give the town with its county, for example \"Ashford, Kent\""""
    return Message("towns.name_town")
