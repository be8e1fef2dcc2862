"""Messages of `messages/en/climate.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Listed, Message, Number, Quantity


def grid(*, title: str, place: Message) -> Message:
    """climate normals of the world grid ({title}) at {place}"""
    return Message("climate.grid", (("title", title), ("place", place)))


def grid_brought(
    *, title: str, place: Message, from_height: Quantity, to_height: Quantity
) -> Message:
    """climate normals of the world grid ({title}) at {place}, brought from {from_height} to
    {to_height}
    """
    return Message(
        "climate.grid_brought",
        (
            ("title", title),
            ("place", place),
            ("from_height", from_height),
            ("to_height", to_height),
        ),
    )


def rain_doubtful_height(*, grid_height: Quantity, height: Quantity) -> Message:
    """The rain that is counted here is doubtful: the ground of the grid lies at {grid_height}, the
    lawn at {height}, and rain cannot be brought from one height to another; a valley may get a
    third of it. Give the plan the normals of a station nearby⟦: `normals = \"file.csv\"` under
    `[place]`⟧.
    """
    return Message(
        "climate.rain_doubtful.height", (("grid_height", grid_height), ("height", height))
    )


def rain_doubtful_relief(*, relief: Quantity) -> Message:
    """The rain that is counted here is doubtful: the ground around differs by {relief}, and
    mountains catch rain that valleys behind them miss; a valley may get a third of it. Give the
    plan the normals of a station nearby⟦: `normals = \"file.csv\"` under `[place]`⟧.
    """
    return Message("climate.rain_doubtful.relief", (("relief", relief),))


def grid_hilly(*, title: str, place: Message, metres: Number) -> Message:
    """climate normals of the world grid ({title}) at {place}; the ground around differs by {metres}
    m: give the elevation for a better answer; valley floors freeze earlier in autumn than this
    tells, by weeks where nights are clear: if you know the first frost, give it as
    place.first_frost
    """
    return Message("climate.grid_hilly", (("title", title), ("place", place), ("metres", metres)))


def grid_hilly_frostless(*, title: str, place: Message, metres: Number) -> Message:
    """climate normals of the world grid ({title}) at {place}; the ground around differs by {metres}
    m: give the elevation for a better answer
    """
    return Message(
        "climate.grid_hilly.frostless", (("title", title), ("place", place), ("metres", metres))
    )


def grid_of_town(
    *, title: str, place: Message, from_height: Quantity, to_height: Quantity, town: str
) -> Message:
    """climate normals of the world grid ({title}) at {place}, brought from {from_height} to
    {to_height}, which a map gives {town}; a lawn higher or lower is told by its elevation; valley
    floors freeze earlier in autumn than this tells, by weeks where nights are clear: if you know
    the first frost, give it as place.first_frost
    """
    return Message(
        "climate.grid_of_town",
        (
            ("title", title),
            ("place", place),
            ("from_height", from_height),
            ("to_height", to_height),
            ("town", town),
        ),
    )


def grid_of_town_frostless(
    *, title: str, place: Message, from_height: Quantity, to_height: Quantity, town: str
) -> Message:
    """climate normals of the world grid ({title}) at {place}, brought from {from_height} to
    {to_height}, which a map gives {town}; a lawn higher or lower is told by its elevation
    """
    return Message(
        "climate.grid_of_town.frostless",
        (
            ("title", title),
            ("place", place),
            ("from_height", from_height),
            ("to_height", to_height),
            ("town", town),
        ),
    )


def grid_of_valley(
    *, title: str, place: Message, from_height: Quantity, to_height: Quantity, town: str
) -> Message:
    """climate normals of the world grid ({title}) at {place}, brought from {from_height} to
    {to_height}, the lowest ground that a map shows around {town}: among such slopes no map here
    tells the town's own height, it may lie hundreds of meters lower, and its seasons weeks apart
    from these. Look up the height of the lawn and give it as place.elevation before you work by
    this plan; if you know the first frost, give it as place.first_frost
    """
    return Message(
        "climate.grid_of_valley",
        (
            ("title", title),
            ("place", place),
            ("from_height", from_height),
            ("to_height", to_height),
            ("town", town),
        ),
    )


def grid_hilly_town(
    *, title: str, place: Message, metres: Number, town: str, height: Quantity
) -> Message:
    """climate normals of the world grid ({title}) at {place}; the ground around differs by {metres}
    m: give the elevation for a better answer (a map gives {town} about {height}); valley floors
    freeze earlier in autumn than this tells, by weeks where nights are clear: if you know the first
    frost, give it as place.first_frost
    """
    return Message(
        "climate.grid_hilly_town",
        (
            ("title", title),
            ("place", place),
            ("metres", metres),
            ("town", town),
            ("height", height),
        ),
    )


def grid_hilly_town_frostless(
    *, title: str, place: Message, metres: Number, town: str, height: Quantity
) -> Message:
    """climate normals of the world grid ({title}) at {place}; the ground around differs by {metres}
    m: give the elevation for a better answer (a map gives {town} about {height})
    """
    return Message(
        "climate.grid_hilly_town.frostless",
        (
            ("title", title),
            ("place", place),
            ("metres", metres),
            ("town", town),
            ("height", height),
        ),
    )


def at_coordinates(*, latitude: Number, longitude: Number) -> Message:
    """{latitude}, {longitude}"""
    return Message("climate.at.coordinates", (("latitude", latitude), ("longitude", longitude)))


def at_postal_code(*, code: str) -> Message:
    """postal code {code}"""
    return Message("climate.at.postal_code", (("code", code),))


def at_station(*, file: str) -> Message:
    """the station of {file}"""
    return Message("climate.at.station", (("file", file),))


def at_zone(*, latitude: Number, longitude: Number, zone: Message, country: str) -> Message:
    """{latitude}, {longitude}, which stands for {zone} of {country}"""
    return Message(
        "climate.at.zone",
        (("latitude", latitude), ("longitude", longitude), ("zone", zone), ("country", country)),
    )


def at_zone_no_country(
    *, latitude: Number, longitude: Number, zone: Message, country: str
) -> Message:
    """{latitude}, {longitude}, which stands for {zone} of {country}, as no country is given"""
    return Message(
        "climate.at.zone_no_country",
        (("latitude", latitude), ("longitude", longitude), ("zone", zone), ("country", country)),
    )


def zone_hardiness(*, zone: str) -> Message:
    """hardiness zone {zone}"""
    return Message("climate.zone.hardiness", (("zone", zone),))


def zone_koppen(*, zone: str) -> Message:
    """Köppen class {zone}"""
    return Message("climate.zone.koppen", (("zone", zone),))


def zone_cool_humid() -> Message:
    """the cool humid turf zone"""
    return Message("climate.zone.cool_humid")


def zone_transition() -> Message:
    """the transition turf zone"""
    return Message("climate.zone.transition")


def zone_warm_humid() -> Message:
    """the warm humid turf zone"""
    return Message("climate.zone.warm_humid")


def zone_arid() -> Message:
    """the arid turf zone"""
    return Message("climate.zone.arid")


def zone_cool_arid() -> Message:
    """the cool arid turf zone"""
    return Message("climate.zone.cool_arid")


def zone_warm_arid() -> Message:
    """the warm arid turf zone"""
    return Message("climate.zone.warm_arid")


def year(*, year: str) -> Message:
    """the year {year}"""
    return Message("climate.year", (("year", year),))


def left_out(*, file: str, faults: str) -> Message:
    """{file} was left out ({faults}); the world grid stands in for it, as asked"""
    return Message("climate.left_out", (("file", file), ("faults", faults)))


def file_source(*, parts: Listed) -> Message:
    """{parts}"""
    return Message("climate.file.source", (("parts", parts),))


def file_weather_server(*, file: str) -> Message:
    """answer of a weather server ({file})"""
    return Message("climate.file.weather_server", (("file", file),))


def file_epw(*, file: str) -> Message:
    """typical year of an EPW file ({file})"""
    return Message("climate.file.epw", (("file", file),))


def file_ghcn(*, file: str) -> Message:
    """GHCN-Daily station record ({file})"""
    return Message("climate.file.ghcn", (("file", file),))


def file_ncei(*, station: str, file: str) -> Message:
    """NOAA NCEI climate normals 1991-2020, {station} ({file})"""
    return Message("climate.file.ncei", (("station", station), ("file", file)))


def file_years(*, n: int, first: str, last: str) -> Message:
    """{n} whole years, {first} to {last}"""
    return Message("climate.file.years", (("n", n), ("first", first), ("last", last)))


def file_gaps(*, missing: int, days: int, longest: int) -> Message:
    """{missing} of {days} days without a temperature, {longest} of them in a row"""
    return Message(
        "climate.file.gaps", (("missing", missing), ("days", days), ("longest", longest))
    )


def file_no_rain() -> Message:
    """it has no rain; rain is the world grid's"""
    return Message("climate.file.no_rain")


def file_without_rain(*, file: str) -> Message:
    """{file} has no rain; rain is the world grid's"""
    return Message("climate.file.without_rain", (("file", file),))


def file_penman() -> Message:
    """evapotranspiration by Penman-Monteith from its radiation, humidity and wind"""
    return Message("climate.file.penman")


def file_frost_always(*, file: str) -> Message:
    """{file}: frost at any time of the year; dates are estimated"""
    return Message("climate.file.frost_always", (("file", file),))


def file_frost_missing(*, file: str) -> Message:
    """{file} lacks dates of frost; they are estimated"""
    return Message("climate.file.frost_missing", (("file", file),))


def file_no_annual(*, station: str, file: str) -> Message:
    """no annual file of {station} lies beside {file}; dates of frost are estimated"""
    return Message("climate.file.no_annual", (("station", station), ("file", file)))
