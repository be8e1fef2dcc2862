"""What a brief must say of place, season and water to be one."""

from datetime import date, time, timedelta

import pytest

from planning import brief_of, merged
from told import told
from told_errors import refused
from turfplan.errors import TurfplanError
from turfplan.records.brief import Alarm, GrassShare, _take_out, sound_part


@pytest.mark.parametrize(
    "place",
    [{"postal_code": "17601"}, {"climate_zone": "6b"}, {"latitude": 40.0, "longitude": -76.0}],
)
def test_a_place_is_told_in_any_one_way(place: dict[str, object]) -> None:
    """A postal code, a zone, or both coordinates."""
    nothing = {"postal_code": None, "country": None}
    assert brief_of({"place": {**nothing, **place}}).place
    assert brief_of({"place": {**nothing, "normals": "normals.csv"}}).place.normals is not None


def test_a_place_that_is_nowhere_is_refused() -> None:
    """Without any of them, or with half of the coordinates."""
    nowhere = {"postal_code": None, "country": None}
    with refused("place: "):
        brief_of({"place": nowhere})
    with refused("place: .*longitude"):
        brief_of({"place": {**nowhere, "latitude": 40.0}})


def test_a_season_ends_after_it_begins() -> None:
    """Not on the same day."""
    begin = date(2027, 3, 1)
    assert brief_of({"season": {"from": begin, "until": date(2027, 3, 2)}}).season.until
    with refused("season: "):
        brief_of({"season": {"from": begin, "until": begin}})


def test_some_weekday_is_left_for_watering() -> None:
    """An empty list is no law; one with a day is."""
    assert brief_of({"water": {"allowed_weekdays": ["mon"]}}).water.allowed_weekdays == ("mon",)
    with refused("water: "):
        brief_of({"water": {"allowed_weekdays": []}})


def test_a_rate_of_water_that_no_sprinkler_has_is_refused() -> None:
    """From a millimetre an hour to five inches."""
    for rate in ("1 mm/h", "1.3 in/h", "4.9 in/h", "125 mm/h"):
        assert brief_of({"water": {"application_rate": rate}}).water.application_rate_mm_h
    for rate in ("0.9 mm/h", "126 mm/h", "6 in/h", "7 in/h"):
        with refused("water.application_rate: "):
            brief_of({"water": {"application_rate": rate}})


def test_a_reminder_has_an_hour_of_the_day() -> None:
    """Two digits each, at an hour at which people are awake."""
    for clock in ("05:00", "06:30", "19:05", "21:59"):
        alarm = brief_of({"calendar": {"alarm": {"days_before": 1, "at": clock}}}).calendar.alarm
        assert alarm is not None and f"{alarm.at:%H:%M}" == clock
    for clock in ("24:00", "6:30", "06:60", "06.30", "half past six", "04:59", "23:00"):
        with refused("calendar.alarm"):
            brief_of({"calendar": {"alarm": {"days_before": 1, "at": clock}}})


def taken(table: str, value: object) -> bool:
    """Whether a table of the brief, or an entry of a list in it, is taken as it is written."""
    outer, _, inner = table.partition(".")
    try:
        brief_of({outer: {inner: value} if inner else value})
    except TurfplanError:
        return False
    return True


# Each bound: the table, the values at it that are taken, and those just beyond it.
BORDERS: tuple[tuple[str, str, tuple[object, ...], tuple[object, ...]], ...] = (
    ("lawn", "area", ("1 m2", "200000 m2"), ("0.99 m2", "200001 m2", "-5 m2")),
    ("lawn", "thatch", ("0 mm", "300 mm"), ("301 mm", "-1 mm")),
    ("lawn", "thin_share", (0.01, 1), (0, 1.01)),
    ("lawn", "name", ("x", "x" * 300), ("", "x" * 301)),
    ("lawn", "id", ("a", "a" * 64, "a.b-c_9"), ("", "a" * 65, "-a", "a b")),
    ("place", "latitude", (), (90.1, -90.1)),
    ("place", "elevation", ("-500 m", "6000 m", "-10 ft"), ("-501 m", "6001 m")),
    ("place", "country", ("US",), ("us", "USA")),
    ("place", "last_frost", ("01-01", "12-31", "10-09"), ("13-01", "00-01", "01-32", "01-00")),
    ("leveling", "settle_percent", (0, 20), (-0.1, 20.1)),
    ("seeding", "rate", ("0 g/m2", "200 g/m2"), ("201 g/m2", "-1 g/m2")),
    ("seeding", "purity_percent", (0.1, 100), (0, 100.1)),
    ("seeding", "germination_percent", (0.1, 100), (0, 100.1)),
    ("seeding", "spacing", ("50 mm", "1000 mm"), ("49 mm", "1001 mm")),
    ("water", "application_rate", ("1 mm/h", "125 mm/h"), ("0.9 mm/h", "126 mm/h")),
    ("water", "flow", ("0.5 L/min", "5000 L/min"), ("0.4 L/min", "5001 L/min")),
    ("water", "head_flow", ("0.5 L/min", "5000 L/min"), ("0.4 L/min", "5001 L/min")),
    ("water", "head_spacing", ("500 mm", "40 m"), ("499 mm", "40.1 m")),
    ("water", "catch_minutes", (0.1, 240), (0, 240.1)),
    ("water", "hours_per_day", (0.1, 24), (0, 24.1)),
    ("water", "price_per_m3", (0, 99), (-0.1,)),
    ("soil_test", "ph", (3, 10), (2.9, 10.1)),
    ("soil_test", "acidity_cmol_kg", (0, 40), (-0.1, 40.1)),
    ("soil_test", "buffer_ph", (4, 8), (3.9, 8.1)),
    ("soil_test", "lime_rate", ("0 g/m2", "6000 g/m2"), ("6001 g/m2", "-1 g/m2")),
    ("soil_test", "salts", ("0 dS/m", "60 dS/m"), ("61 dS/m",)),
    ("soil_test", "sar", (0, 100), (-0.1, 100.1)),
    ("soil_test", "phosphorus", ("0 ppm", "5000 ppm"), ("5001 ppm",)),
    ("feeding", "slow_release_percent", (0, 100), (-0.1, 100.1)),
    ("feeding", "compost_nitrogen_percent", (0.1, 6), (0, 6.1)),
    ("feeding", "lime_cce_percent", (0.1, 180), (0, 180.1)),
    ("feeding", "analysis", ("0-0-0", "99-10.5-0"), ("100-0-0", "10-5", "10-5-x")),
    ("site", "slope_percent", (0, 60), (-0.1, 60.1)),
    ("site", "sun_hours", (0, 24), (-0.1, 24.1)),
    ("site", "weeds_percent", (0, 100), (-0.1, 100.1)),
    ("site", "rock_depth", ("20 mm", "3000 mm"), ("19 mm", "3001 mm")),
    ("work", "people", (1, 50), (0, 51)),
    ("work", "hours_per_day", (0.1, 14), (0, 14.1)),
    ("work", "haul_distance", ("0 m", "2000 m"), ("2001 m", "-1 m")),
    ("delivery", "truck_limit", ("0.01 m3", "100000 m3"), ("0.009 m3", "100001 m3")),
    ("delivery", "lead_days", (0, 180), (-1, 181)),
    ("delivery", "heap_area", ("1 m2",), ("0.9 m2",)),
    ("calendar", "weekdays", (["mon"],), ([],)),
    (
        "calendar",
        "alarm",
        ({"days_before": 0}, {"days_before": 7}),
        ({"days_before": -1}, {"days_before": 8}),
    ),
    (
        "local",
        "machine_hours",
        (["06:00-09:00", "23:59-24:00"],),
        ([], ["24:00-24:30"], ["6:00-9:00"]),
    ),
)  # fmt: skip


@pytest.mark.full
@pytest.mark.parametrize(
    ("table", "key", "inside", "beyond"), BORDERS, ids=[f"{t}.{k}" for t, k, *_ in BORDERS]
)
def test_a_value_is_taken_up_to_its_bounds(
    table: str, key: str, inside: tuple[object, ...], beyond: tuple[object, ...]
) -> None:
    """At each it is, a hair beyond it is refused."""
    for value in inside:
        assert taken(f"{table}.{key}", value), value
    for value in beyond:
        assert not taken(f"{table}.{key}", value), value


def test_coordinates_reach_around_the_world() -> None:
    """Both ends count."""
    for latitude, longitude, there in (
        (90.0, 180.0, True),
        (-90.0, -180.0, True),
        (0.0, 180.1, False),
        (0.0, -180.1, False),
        (90.1, 0.0, False),
    ):
        place = {"postal_code": None, "country": None, "latitude": latitude, "longitude": longitude}
        assert taken("place", place) == there


def shaped(**keys: object) -> bool:
    """Whether a lawn of one shape is taken."""
    return taken("lawn", {"area": None, "shape": [keys]})


def test_a_shape_has_the_sides_of_its_kind() -> None:
    """Two kilometres long and a place as far off at most; three corners at least; a hole is no
    zone.
    """
    square = {"kind": "rectangle", "length": "2 m", "width": "3 m"}
    corners = [["0 m", "0 m"], ["1 m", "0 m"], ["0 m", "1 m"]]
    assert shaped(**square) and shaped(**{**square, "length": "2000 m"})
    assert not shaped(**{**square, "length": "2001 m"})
    assert shaped(**square, at=["-2000 m", "2000 m"])
    assert not shaped(**square, at=["-2001 m", "0 m"]) and not shaped(
        **square, at=["0 m", "2001 m"]
    )
    assert shaped(kind="polygon", points=corners)
    assert not shaped(kind="polygon", points=corners[:2])
    assert shaped(**square, name="x" * 80) and not shaped(**square, name="x" * 81)
    assert not shaped(**square, name="")
    for zone in ({"depth": "5 mm"}, {"grass": "tall_fescue"}, {"sun": "full"}):
        assert shaped(**square, **zone)
        lawn = {"area": None, "shape": [square, {**square, "hole": True, **zone}]}
        assert not taken("lawn", lawn)


def test_what_a_shape_lacks_or_has_too_much_is_told() -> None:
    """One set of sides, or either of two."""
    for keys, words in (
        ({"kind": "rectangle", "length": "2 m"}, "length and width"),
        ({"kind": "triangle", "base": "2 m"}, "base and height, or a and b and c"),
        ({"kind": "circle", "radius": "2 m", "width": "1 m"}, "radius(.*)width"),
    ):
        with refused(words):
            brief_of({"lawn": {"area": None, "shape": [keys]}})


def test_a_lawn_has_its_area_once() -> None:
    """Typed, drawn or from a map: one of them."""
    square = {"kind": "rectangle", "length": "2 m", "width": "3 m"}
    assert taken("lawn", {"area": None, "geojson": "lawn.geojson"})
    assert not taken("lawn", {"area": None})
    assert not taken("lawn", {"shape": [square]})
    assert not taken("lawn", {"geojson": "lawn.geojson"})


@pytest.mark.parametrize(
    ("shares", "sound"),
    [
        ((1.0,), True),
        ((0.5, 0.48), True),
        ((0.5, 0.479), False),
        ((0.5, 0.52), True),
        ((0.5, 0.521), False),
        ((), False),
    ],
)
def test_grasses_share_the_cover(shares: tuple[float, ...], *, sound: bool) -> None:
    """To two hundredths; one at least."""
    names = ("tall_fescue", "fine_fescue")
    grass = [{"species": n, "share": s} for n, s in zip(names, shares, strict=False)]
    assert taken("lawn.grass", grass) == sound


def test_the_grass_with_the_largest_share_is_the_dominant_one() -> None:
    """The first of equals; one alone has all."""
    grass = [{"species": n, "share": s} for n, s in (("a", 0.3), ("b", 0.4), ("c", 0.3))]
    assert brief_of({"lawn": {"grass": grass}}).dominant.species == "b"
    halves = [{"species": n, "share": 0.5} for n in "ab"]
    assert brief_of({"lawn": {"grass": halves}}).dominant.species == "a"
    assert brief_of({}).lawn.grass == (GrassShare(species="tall_fescue", share=1.0),)
    assert GrassShare(species="x").share == 1.0


def test_parts_have_a_share_or_an_area_and_leave_some_lawn() -> None:
    """Not both and not none of them; shares of less than one together, areas aside."""

    def parts(*sizes: dict[str, object]) -> bool:
        return taken("lawn.part", [{"kind": "dog_run", **size} for size in sizes])

    assert parts({"share": 0.5}) and parts({"area": "50 m2"})
    assert not parts({}) and not parts({"share": 0.5, "area": "50 m2"})
    assert parts({"share": 0.5}, {"share": 0.49}, {"area": "50 m2"})
    assert not parts({"share": 0.5}, {"share": 0.5})
    assert not parts({"share": 0}) and not parts({"share": 1})


def test_leveling_says_one_thing() -> None:
    """A survey gives the depth, and alone has a target; hollows and mixes share out one lawn."""
    low = {"depth": "20 mm", "share": 0.5}
    none = {"depth": None}
    assert taken("leveling", {**none, "survey": "lawn.csv", "target": "plane"})
    assert not taken("leveling", {"survey": "lawn.csv"})
    assert not taken("leveling", {**none, "survey": "lawn.csv", "lows": [low]})
    assert not taken("leveling", {"target": "plane"})
    assert taken("leveling", {"lows": [low, low]})
    assert not taken("leveling", {"lows": [low, {**low, "share": 0.51}]})
    for parts, sound in (
        ({"sand": 0.5, "compost": 0.5}, True),
        ({"sand": 0.5, "compost": 0.491}, True),
        ({"sand": 0.5, "compost": 0.489}, False),
        ({"sand": 0.5, "compost": 0.511}, False),
    ):
        assert taken("leveling.parts", parts) == sound, parts


def test_what_belongs_together_is_asked_for_together() -> None:
    """Cans with their minutes, a buffer's name with its number; light and holds once; a level or a
    number; spans that run forward.
    """
    assert not taken("water.catch_cans", ["5 mm", "6 mm"])
    assert taken("water", {"catch_cans": ["5 mm", "6 mm"], "catch_minutes": 15})
    assert taken("water.catch_minutes", 15)
    assert not taken("soil_test.buffer_method", "sikora")
    assert taken("soil_test", {"buffer_method": "sikora", "buffer_ph": 6.5})
    assert not taken("site", {"sun_hours": 0, "shade_hours": 0})
    assert taken("site.shade_hours", 0)
    used = {"active_ingredient": "xx", "on": date(2026, 5, 1)}
    both = {"seed_after": date(2026, 7, 1), "hold_days": 0}
    for changes, sound in (
        ({}, True),
        (both, False),
        ({"hold_days": 1500}, True),
        ({"hold_days": 1501}, False),
        ({"active_ingredient": "x"}, False),
    ):
        assert taken("history.herbicides", [{**used, **changes}]) == sound, changes
    day = date(2027, 7, 1)
    assert taken("calendar.away", [{"from": day, "to": day}])
    assert not taken("calendar.away", [{"from": day, "to": day - timedelta(1)}])


def test_a_soil_reading_is_a_level_or_a_number_with_its_extraction() -> None:
    """However it is written."""

    def read(value: object) -> tuple[object, ...]:
        reading = brief_of({"soil_test": {"phosphorus": value}}).soil_test.phosphorus
        assert reading is not None
        return reading.level, reading.value_mg_kg, reading.method

    assert read("low") == ("low", None, None)
    assert read("21 ppm") == (None, 21.0, None)
    assert read("21 mg/kg Mehlich-3") == (None, 21.0, "mehlich_3")
    assert read("21 ppm modified morgan") == (None, 21.0, "modified_morgan")
    assert read({"value": "7 ppm", "method": "olsen"}) == (None, 7.0, "olsen")
    for wrong in ("", "much", 21, "21", "21 ppm vinegar", {"level": "low", "value": "7 ppm"}, {}):
        assert not taken("soil_test.phosphorus", wrong), wrong


def test_dates_of_frost_may_be_written_as_dates() -> None:
    """Their year is dropped; a list of causes may be one word."""
    place = brief_of({"place": {"last_frost": date(2026, 5, 9), "first_frost": "10-01"}}).place
    assert (place.last_frost, place.first_frost) == ("05-09", "10-01")
    site = brief_of({"site": {"thin_cause": "shade", "cleared": ["moles"]}}).site
    assert (site.thin_cause, site.cleared) == (("shade",), ("moles",))


def test_what_is_not_said_has_its_default() -> None:
    """A reminder the evening before at seven; a season of any campaign."""
    brief = brief_of({})
    assert isinstance(brief.calendar.alarm, Alarm)
    assert (brief.calendar.alarm.days_before, brief.calendar.alarm.at) == (1, time(19, 0))
    assert (brief.season.campaign, brief.leveling.material) == ("auto", "auto")
    assert not brief.site.trees and not brief.site.pets and not brief.site.building
    assert brief_of({"calendar": {"alarm": False}}).calendar.alarm is False


def test_bounds_are_told_in_both_units() -> None:
    """Where people in the US measure in another; `or more` where there is no upper one."""
    for table, key, value, words in (
        ("lawn", "area", "0.5 m2", "1 to 200,?000 m2(.*)10.76 to 2,152,782 ft2"),
        ("water", "application_rate", "500 mm/h", "1 to 125 mm/h(.*)in/h"),
        ("soil_test", "salts", "90 dS/m", "0 to 60 dS/m"),
        ("leveling", "depth", "-1 mm", "0 or more"),
    ):
        with refused(words):
            brief_of({table: {key: value}})


def problems(data: dict[str, object]) -> list[tuple[str, str]]:
    """Where each fault of a brief lies, and what was got."""
    with pytest.raises(TurfplanError) as caught:
        brief_of(data)
    return [(str(p.where), str(p.got)) for p in caught.value.problems]


def test_each_fault_is_told_at_its_place() -> None:
    """All at once: an unknown key, a word that is none, a missing table, a fault in a list."""
    found = problems(
        {
            "lawn": {"gras": 1, "condition": "thinn"},
            "calendar": {"alarm": {"days_before": 9}},
            "history": {"nitrogen": [{"rate": "1 g/m2"}]},
            "work": {"people": "two"},
        }
    )
    assert ("lawn.gras", "gras") in found and ("lawn.condition", "'thinn'") in found
    assert ("history.nitrogen.0.on", "None") in found and ("work.people", "'two'") in found
    assert ("calendar.alarm.days_before", "9") in found


@pytest.mark.parametrize(
    ("changes", "hint"),
    [
        ({"lawn": {"gras": 1}}, "grass"),
        ({"water": {"zones": [{"name": "a", "heat": "spray"}]}}, "head"),
        ({"calendar": {"alarm": {"days_befor": 1}}}, "days_before"),
        ({"lawn": {"condition": "thinn"}}, "thin"),
        ({"watter": {}}, "water"),
    ],
)
def test_a_misspelt_key_or_word_has_the_nearest_for_a_hint(
    changes: dict[str, object], hint: str
) -> None:
    """Of those that are known at its place, also in lists and behind choices."""
    with pytest.raises(TurfplanError) as caught:
        brief_of(changes)
    assert any(f"'{hint}'" in str(told(p.hint)) for p in caught.value.problems if p.hint)


def test_the_sound_part_of_a_brief_is_what_is_left_of_it() -> None:
    """Faulty entries are taken out, the deepest that is one; a lawn without an area gets one; too
    little left is none.
    """
    whole = merged({"work": {"people": 0, "hours_per_day": 4}, "water": {"flow": "0 L/min"}})
    part = sound_part(whole)
    assert part is not None
    assert (part.work.people, part.work.hours_per_day, part.water.flow_l_min) == (None, 4.0, None)
    assert whole["work"]["people"] == 0
    bare = sound_part(merged({"lawn": {"area": "5 furlongs"}}))
    assert bare is not None and bare.lawn.area_m2 == 100.0
    assert bare.lawn.soil == "clay loam"
    drawn = {"area": None, "geojson": "a.geojson", "condition": "thinn"}
    kept = sound_part(merged({"lawn": drawn}))
    assert kept is not None and kept.lawn.area_m2 is None and kept.lawn.geojson == "a.geojson"
    assert sound_part(merged({"lawn": {"grass": None}})) is None
    assert sound_part(merged({})) == brief_of({})
    sound, faulty = ({"rate": f"{rate} g/m2", "on": date(2026, 5, 1)} for rate in (1, 999))
    listed = merged({"history": {"nitrogen": [sound, faulty]}})
    rest = sound_part(listed)
    assert rest is not None and [use.rate_g_m2 for use in rest.history.nitrogen] == [1]
    assert len(listed["history"]["nitrogen"]) == 2


def test_the_deepest_entry_is_taken_out() -> None:
    """Steps that lead nowhere are passed over; an entry of a list goes where it is at fault
    itself."""
    data = {"a": {"b": [{"c": 1, "d": 2}, {"e": 3}]}, "f": 4}
    _take_out(data, ("a", "b", 0, "c"))
    assert data == {"a": {"b": [{"d": 2}, {"e": 3}]}, "f": 4}
    _take_out(data, ("a", "Choice", "b", 1, "e", "x"))
    assert data == {"a": {"b": [{"d": 2}, {}]}, "f": 4}
    _take_out(data, ("a", "b", 2))
    assert data == {"a": {}, "f": 4}
    _take_out(data, ("x",))
    assert data == {"a": {}, "f": 4}
    _take_out(data, ("f",))
    assert data == {"a": {}}
    listed = {"a": [{"b": 1}, {"c": 2}]}
    _take_out(listed, ("a", 0, "x"))
    assert listed == {"a": [{"c": 2}]}
