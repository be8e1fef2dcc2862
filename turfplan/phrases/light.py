"""Messages of `messages/en/light.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Listed, Message, Number


def too_dark(*, hours: Number, least: Number) -> Message:
    """{hours} hours of direct sun a day in the growing season are too few: under {least} hours no
    grass lasts, so nothing is sown or planted here. Let more light in, or take ground cover or
    mulch for this place.
    """
    return Message("light.too_dark", (("hours", hours), ("least", least)))


def not_borne(*, grass: Message, needs: Number, hours: Number) -> Message:
    """{grass:capital} needs {needs} hours of direct sun a day in the growing season and has
    {hours}: sown here, it thins out again.
    """
    return Message("light.not_borne", (("grass", grass), ("needs", needs), ("hours", hours)))


def not_borne_others(*, grass: Message, needs: Number, hours: Number, others: Listed) -> Message:
    """{grass:capital} needs {needs} hours of direct sun a day in the growing season and has
    {hours}: sown here, it thins out again. {others:capital} would live here on that.
    """
    return Message(
        "light.not_borne_others",
        (("grass", grass), ("needs", needs), ("hours", hours), ("others", others)),
    )


def sown_instead(*, sown: Message, hours: Number, grass: Message, needs: Number) -> Message:
    """{sown:capital} is sown: it lives on the {hours} hours of direct sun there are, and {grass}
    needs {needs}. Name another grass with species in [seeding].
    """
    return Message(
        "light.sown_instead", (("sown", sown), ("hours", hours), ("grass", grass), ("needs", needs))
    )


def kept_of_stand(*, kept: Message, left: Listed, hours: Number) -> Message:
    """Of the mixed stand {kept} is sown, which lives on {hours} hours of direct sun; {left} does
    not.
    """
    return Message("light.kept_of_stand", (("kept", kept), ("left", left), ("hours", hours)))


def only_just(*, grass: Message, needs: Number, enough: Number, hours: Number) -> Message:
    """{grass:capital} lives on {hours} hours of direct sun only just: by cultivar it needs {needs}
    to {enough}. Take a cultivar that is sold for shade, let in what light you can (low branches, a
    hedge), mow it at the upper end of its height, feed it at the lower end, and keep feet off: else
    it thins out like the last.
    """
    return Message(
        "light.only_just",
        (("grass", grass), ("needs", needs), ("enough", enough), ("hours", hours)),
    )


def not_the_shade(*, grass: Message, needs: Number, hours: Number) -> Message:
    """Shade is named as a cause, yet {hours} hours of direct sun are enough for {grass}, which
    needs {needs}: where fewer fall, make that place a part of its own with its hours⟦
    (`[[lawn.part]]`, kind `shade`)⟧, and look for another cause elsewhere.
    """
    return Message("light.not_the_shade", (("grass", grass), ("needs", needs), ("hours", hours)))


def from_shade(*, daylight: Number, shade: Number, hours: Number) -> Message:
    """Of {daylight} hours of daylight in the growing season here, {shade} of shade leave {hours} of
    direct sun.
    """
    return Message("light.from_shade", (("daylight", daylight), ("shade", shade), ("hours", hours)))


def slow(*, hours: Number) -> Message:
    """grass on {hours} hours of sun grows through slowly"""
    return Message("light.slow", (("hours", hours),))
