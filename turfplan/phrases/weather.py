"""Messages of `messages/en/weather.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Listed, Message, Number


def keyless() -> Message:
    """Forecasts without a key are for non-commercial users only; a business needs its own
    arrangement with the server.
    """
    return Message("weather.keyless")


def unusable_answer(*, host: str, faults: Listed) -> Message:
    """{host} gave an answer that cannot be used ({faults})"""
    return Message("weather.unusable_answer", (("host", host), ("faults", faults)))


def answered(*, host: str, code: str) -> Message:
    """{host} answered {code}"""
    return Message("weather.answered", (("host", host), ("code", code)))


def unreached(*, host: str, reason: Message) -> Message:
    """{host} could not be reached ({reason})"""
    return Message("weather.unreached", (("host", host), ("reason", reason)))


def not_json(*, host: str) -> Message:
    """{host} did not answer with JSON"""
    return Message("weather.not_json", (("host", host),))


def plan_without() -> Message:
    """plan without it, or give a saved file with --weather"""
    return Message("weather.plan_without")


def not_http() -> Message:
    """is not an http address"""
    return Message("weather.not_http")


def normals() -> Message:
    """holds normals, not days of weather"""
    return Message("weather.normals")


def typical_year() -> Message:
    """holds a typical year, not days of weather"""
    return Message("weather.typical_year")


def annual() -> Message:
    """holds annual values and dates of frost, not normals by month or day"""
    return Message("weather.annual")


def give_normals() -> Message:
    """give the monthly or daily normals; the annual file is read where it lies beside them"""
    return Message("weather.give_normals")


def unknown_file() -> Message:
    """is not a climate file that is known"""
    return Message("weather.unknown_file")


def formats() -> Message:
    """NCEI normals CSV (monthly or daily), GHCN-Daily CSV or .dly, EPW, Open-Meteo JSON"""
    return Message("weather.formats")


def another_place() -> Message:
    """is of another place"""
    return Message("weather.another_place")


def within_degrees(*, degrees: Number, latitude: Number, longitude: Number) -> Message:
    """within {degrees} degrees of {latitude}, {longitude}"""
    return Message(
        "weather.within_degrees",
        (("degrees", degrees), ("latitude", latitude), ("longitude", longitude)),
    )


def not_number() -> Message:
    """is not a number"""
    return Message("weather.not_number")


def not_date() -> Message:
    """is not a date"""
    return Message("weather.not_date")


def out_of_bounds(*, what: Message) -> Message:
    """is not {what}"""
    return Message("weather.out_of_bounds", (("what", what),))


def lacks_column() -> Message:
    """lacks a column"""
    return Message("weather.lacks_column")


def cut_off_or_long() -> Message:
    """is cut off or too long"""
    return Message("weather.cut_off_or_long")


def cells(*, n: int) -> Message:
    """{n} cells"""
    return Message("weather.cells", (("n", n),))


def or_more(*, least: int) -> Message:
    """{least} or more"""
    return Message("weather.or_more", (("least", least),))


def seven_or_eight() -> Message:
    """7 or 8 cells"""
    return Message("weather.seven_or_eight")


def characters(*, n: int) -> Message:
    """{n} characters"""
    return Message("weather.characters", (("n", n),))


def days(*, n: int) -> Message:
    """{n} days"""
    return Message("weather.days", (("n", n),))


def rows(*, n: int) -> Message:
    """{n} rows"""
    return Message("weather.rows", (("n", n),))


def not_csv(*, reason: Message) -> Message:
    """is cut off or not CSV ({reason})"""
    return Message("weather.not_csv", (("reason", reason),))


def ends_after_head() -> Message:
    """is missing: the file ends after its head"""
    return Message("weather.ends_after_head")


def twice() -> Message:
    """is there twice"""
    return Message("weather.twice")


def no_days() -> Message:
    """holds no days"""
    return Message("weather.no_days")


def neither() -> Message:
    """holds neither daily nor hourly values"""
    return Message("weather.neither")


def not_whole_json(*, reason: Message) -> Message:
    """is not whole JSON ({reason})"""
    return Message("weather.not_whole_json", (("reason", reason),))


def not_answer() -> Message:
    """is not one answer of a weather server"""
    return Message("weather.not_answer")


def reports_error() -> Message:
    """is an answer that reports an error"""
    return Message("weather.reports_error")


def not_coordinate() -> Message:
    """is not a coordinate in degrees"""
    return Message("weather.not_coordinate")


def no_times() -> Message:
    """holds no times"""
    return Message("weather.no_times")


def other_length() -> Message:
    """is not as long as its times"""
    return Message("weather.other_length")


def lacks_variable() -> Message:
    """lacks a variable"""
    return Message("weather.lacks_variable")


def unknown_unit() -> Message:
    """is not a unit that is known"""
    return Message("weather.unknown_unit")


def unfit_unit(*, unit: str) -> Message:
    """is in {unit}, which does not fit"""
    return Message("weather.unfit_unit", (("unit", unit),))


def beyond() -> Message:
    """is out of bounds"""
    return Message("weather.beyond")


def not_time() -> Message:
    """is not a time"""
    return Message("weather.not_time")


def cut_off() -> Message:
    """is cut off"""
    return Message("weather.cut_off")


def several_stations() -> Message:
    """holds several stations"""
    return Message("weather.several_stations")


def one_station() -> Message:
    """one station"""
    return Message("weather.one_station")


def tmin_or_prcp() -> Message:
    """TMIN and TMAX, or PRCP"""
    return Message("weather.tmin_or_prcp")


def tmax_or_tavg() -> Message:
    """TMAX or TAVG, from which the unit is told"""
    return Message("weather.tmax_or_tavg")


def unit_untold() -> Message:
    """does not tell its unit in so few days"""
    return Message("weather.unit_untold")


def archive_file() -> Message:
    """use the station's file of the archive, which is in tenths of a degree C"""
    return Message("weather.archive_file")


def days_or_more(*, days: int) -> Message:
    """{days} days or more"""
    return Message("weather.days_or_more", (("days", days),))


def year_not_whole() -> Message:
    """is the last line: the year is not whole"""
    return Message("weather.year_not_whole")


def a_latitude() -> Message:
    """a latitude"""
    return Message("weather.a.latitude")


def a_longitude() -> Message:
    """a longitude"""
    return Message("weather.a.longitude")


def a_celsius() -> Message:
    """a temperature in degrees C"""
    return Message("weather.a.celsius")


def a_fahrenheit() -> Message:
    """a temperature in degrees F"""
    return Message("weather.a.fahrenheit")


def a_radiation() -> Message:
    """radiation in Wh/m2"""
    return Message("weather.a.radiation")


def a_wind() -> Message:
    """wind in m/s"""
    return Message("weather.a.wind")


def a_tenths() -> Message:
    """in tenths of a degree C or of a mm"""
    return Message("weather.a.tenths")


def a_rain_inches() -> Message:
    """rain in inches"""
    return Message("weather.a.rain_inches")


def a_rain_mm() -> Message:
    """rain in mm"""
    return Message("weather.a.rain_mm")


def too_short() -> Message:
    """is too short for normals"""
    return Message("weather.too_short")


def use_as_weather() -> Message:
    """use it as --weather"""
    return Message("weather.use_as_weather")


def no_temperature() -> Message:
    """has a day of the year without any temperature in all its years"""
    return Message("weather.no_temperature")


def not_of_normals() -> Message:
    """is not a date of normals"""
    return Message("weather.not_of_normals")


def not_last_row() -> Message:
    """is not the last row: the file is not whole"""
    return Message("weather.not_last_row")


def rows_missing(*, n: int, first: str) -> Message:
    """{n} rows; {first} is missing"""
    return Message("weather.rows_missing", (("n", n), ("first", first)))


def is_missing() -> Message:
    """is missing"""
    return Message("weather.is_missing")


def not_month_day() -> Message:
    """is not a month and day"""
    return Message("weather.not_month_day")


def such_a_month_day() -> Message:
    """for example 05/09"""
    return Message("weather.such_a_month_day")


def whole_years(*, n: int) -> Message:
    """{n} whole years"""
    return Message("weather.whole_years", (("n", n),))


def install_again() -> Message:
    """install turfplan again"""
    return Message("weather.install_again")


def outside_grid() -> Message:
    """lies outside the climate grid"""
    return Message("weather.outside_grid")


def own_normals() -> Message:
    """give your own normals: normals = \"file.csv\""""
    return Message("weather.own_normals")


def no_land() -> Message:
    """no land near this place"""
    return Message("weather.no_land")


def swapped() -> Message:
    """are latitude and longitude swapped, or a sign lost?"""
    return Message("weather.swapped")


def no_zones() -> Message:
    """has no zones in the climate grid"""
    return Message("weather.no_zones")


def give_coordinates() -> Message:
    """give latitude and longitude"""
    return Message("weather.give_coordinates")


def no_such_zone_in(*, country: str) -> Message:
    """does not occur in {country}"""
    return Message("weather.no_such_zone_in", (("country", country),))


def say_country(*, example: str) -> Message:
    """say the country: country = \"{example}\""""
    return Message("weather.say_country", (("example", example),))


def unknown_zone() -> Message:
    """unknown zone"""
    return Message("weather.unknown_zone")


def a_zone() -> Message:
    """a hardiness zone, a Köppen class or a turf zone"""
    return Message("weather.a_zone")


def world_grid() -> Message:
    """climate grid"""
    return Message("weather.world_grid")
