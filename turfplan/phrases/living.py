"""Messages of `messages/en/living.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Listed, Message, Quantity


def too_cold(*, grass: Message, borne: Quantity, night: Quantity) -> Message:
    """{grass:capital} bears a coldest night of about {borne}, and a usual winter here has one of
    about {night}: it is killed.
    """
    return Message("living.too_cold", (("grass", grass), ("borne", borne), ("night", night)))


def near_cold(*, grass: Message, borne: Quantity, night: Quantity) -> Message:
    """{grass:capital} is near its limit of cold here: it bears a coldest night of about {borne},
    and a usual winter has one of about {night}, as far as that can be reckoned. A hard winter may
    kill it.
    """
    return Message("living.near_cold", (("grass", grass), ("borne", borne), ("night", night)))


def too_hot(*, grass: Message, mark: Quantity, days: int, borne: int) -> Message:
    """{grass:capital} does not live through summers here: {days} days of a usual year are warmer
    than {mark} in the mean, and up to about {borne} of them are no trouble to it.
    """
    return Message(
        "living.too_hot", (("grass", grass), ("mark", mark), ("days", days), ("borne", borne))
    )


def near_hot(*, grass: Message, mark: Quantity, days: int, borne: int) -> Message:
    """{grass:capital} is near its limit of heat here: {days} days of a usual year are warmer than
    {mark} in the mean, and up to about {borne} of them are no trouble to it. It thins out in hot
    summers.
    """
    return Message(
        "living.near_hot", (("grass", grass), ("mark", mark), ("days", days), ("borne", borne))
    )


def too_cool(*, grass: Message, mark: Quantity, days: int, borne: int) -> Message:
    """{grass:capital} has too little warmth here to stay a lawn: {days} days of a usual year are
    warmer than {mark} in the mean, and it wants about {borne}.
    """
    return Message(
        "living.too_cool", (("grass", grass), ("mark", mark), ("days", days), ("borne", borne))
    )


def near_cool(*, grass: Message, mark: Quantity, days: int, borne: int) -> Message:
    """{grass:capital} is near its limit of warmth here: {days} days of a usual year are warmer than
    {mark} in the mean, and it wants about {borne}. It closes slowly and is brown for long.
    """
    return Message(
        "living.near_cool", (("grass", grass), ("mark", mark), ("days", days), ("borne", borne))
    )


def too_dry(*, grass: Message, needs: Quantity, rain: Quantity) -> Message:
    """Without watering {grass} wants about {needs} of rain in a year, and {rain} fall here: it dies
    of drought.
    """
    return Message("living.too_dry", (("grass", grass), ("needs", needs), ("rain", rain)))


def near_dry(*, grass: Message, needs: Quantity, rain: Quantity) -> Message:
    """Without watering {grass} wants about {needs} of rain in a year, and {rain} fall here: dry
    years thin it out.
    """
    return Message("living.near_dry", (("grass", grass), ("needs", needs), ("rain", rain)))


def too_wet(*, grass: Message, borne: Quantity, rain: Quantity) -> Message:
    """{grass:capital} is a grass of dry land: {rain} of rain fall here in a year, and more than
    about {borne} let other grasses crowd it out.
    """
    return Message("living.too_wet", (("grass", grass), ("borne", borne), ("rain", rain)))


def near_wet(*, grass: Message, borne: Quantity, rain: Quantity) -> Message:
    """{grass:capital} is a grass of dry land: {rain} of rain fall here in a year, and above about
    {borne} other grasses begin to crowd it out.
    """
    return Message("living.near_wet", (("grass", grass), ("borne", borne), ("rain", rain)))


def not_bought(*, why: Message) -> Message:
    """{why} No seed, sod, plugs or sprigs of it are bought."""
    return Message("living.not_bought", (("why", why),))


def not_bought_others(*, why: Message, others: Listed) -> Message:
    """{why} No seed, sod, plugs or sprigs of it are bought. {others:capital} would live here."""
    return Message("living.not_bought_others", (("why", why), ("others", others)))


def risk(*, why: Message) -> Message:
    """{why} What is bought of it may be lost."""
    return Message("living.risk", (("why", why),))


def risk_others(*, why: Message, others: Listed) -> Message:
    """{why} What is bought of it may be lost; {others} would be safe."""
    return Message("living.risk_others", (("why", why), ("others", others)))


def stands(*, why: Message) -> Message:
    """{why} The lawn is planned for as it stands; do not count on it for long."""
    return Message("living.stands", (("why", why),))


def stands_others(*, why: Message, others: Listed) -> Message:
    """{why} The lawn is planned for as it stands; do not count on it for long. {others:capital}
    would live here.
    """
    return Message("living.stands_others", (("why", why), ("others", others)))


def kept_of_stand(*, kept: Message, left: Listed) -> Message:
    """Of the mixed stand {kept} is sown; {left} does not live here."""
    return Message("living.kept_of_stand", (("kept", kept), ("left", left)))
