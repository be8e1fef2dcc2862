"""Towns are found by name and near a place, and what was found is told back."""

import json
import re
from pathlib import Path

import pytest

from command import run
from told_errors import problem_text
from turfplan.app.inputs import input_of
from turfplan.calendar_days import PLAIN_YEAR, date_of
from turfplan.errors import TurfplanError
from turfplan.files.reading.gazetteer import nearest_town, seen_from
from turfplan.files.reading.place import located
from turfplan.files.reading.towns import namesakes, town_called, with_town
from turfplan.messages import words_for
from turfplan.records.brief import Brief, Place, parse_brief
from turfplan.units import System


@pytest.mark.parametrize(
    ("said", "country", "state", "near"),
    [
        ("Lancaster, PA", "US", "PA", (40.04, -76.31)),
        ("lancaster,  pennsylvania", "US", "PA", (40.04, -76.31)),
        ("Lancaster, PA, US", "US", "PA", (40.04, -76.31)),
        ("Lancaster, GB", "GB", "ENG", (54.05, -2.80)),
        ("Perth, Western Australia", "AU", "WA", (-31.95, 115.86)),
        ("Perth, Scotland", "GB", "SCT", (56.40, -3.43)),
        ("Perth, Ontario", "CA", "ON", (44.90, -76.25)),
        ("Delhi, India", "IN", None, (28.65, 77.23)),
        ("Pretoria", "ZA", None, (-25.74, 28.19)),
        ("Urumqi", "CN", None, (43.80, 87.60)),
        ("München", "DE", None, (48.14, 11.58)),
        ("Hobart, TAS", "AU", "TAS", (-42.88, 147.33)),
        ("Halifax, Nova Scotia", "CA", "NS", (44.65, -63.57)),
    ],
)
def test_a_town_by_name(
    said: str, country: str, state: str | None, near: tuple[float, float]
) -> None:
    """With a state or a country by code or name; capitals and accents make no difference."""
    town = town_called(said)
    assert (town.country, town.state) == (country, state)
    assert (town.latitude, town.longitude) == pytest.approx(near, abs=0.06)


@pytest.mark.parametrize(
    ("said", "name", "country"),
    [
        ("Halswell, Christchurch", "Halswell", "NZ"),
        ("Halswell, Christchurch, New Zealand", "Halswell", "NZ"),
        ("Halswell, Christchurch, Aotearoa", "Halswell", "NZ"),
        ("Richmond, Melbourne", "Richmond", "AU"),
        ("Richmond, London, England", "Richmond", "GB"),
        ("Nowheresuburb, Christchurch, NZ", "Christchurch", "NZ"),
        ("Toowoomba QLD", "Toowoomba", "AU"),
        ("toowoomba queensland", "Toowoomba", "AU"),
        ("Wagga Wagga NSW", "Wagga Wagga", "AU"),
        ("Halswell New Zealand", "Halswell", "NZ"),
        ("Kiel, Deutschland", "Kiel", "DE"),
        ("Graz, Österreich", "Graz", "AT"),
        ("Malmö, Sverige", "Malmö", "SE"),
        ("New Plymouth", "New Plymouth", "NZ"),
    ],
)
def test_a_suburb_and_a_country_in_its_own_words(said: str, name: str, country: str) -> None:
    """A town near the one that is named with it; a country as its people call it."""
    town = town_called(said)
    assert (town.name, town.country) == (name, country)


@pytest.mark.parametrize(
    "said", ["Albny, New York", "Nowheresuburb, New Zealand", "Halswell, Auckland", "Kiel, France"]
)
def test_what_is_not_there_is_not_guessed(said: str) -> None:
    """A state is no town of a name that is misspelt; a town that lies far from the other is none
    of its suburbs."""
    with pytest.raises(TurfplanError):
        town_called(said)


def test_several_of_one_name() -> None:
    """The error lists them with state, country and people, and says how to tell."""
    with pytest.raises(TurfplanError) as raised:
        town_called("Lancaster")
    said = problem_text(raised.value.problems[0])
    assert "Pennsylvania, United States" in said and "England, United Kingdom" in said
    assert "59,339" in said and '"Lancaster, GB"' in said


@pytest.mark.parametrize(
    ("said", "near"),
    [
        ("Ashford, Kent", (51.15, 0.87)),
        ("Ashford, Middlesex", (51.43, -0.46)),
        ("Ashford, Surrey", (51.43, -0.46)),
        ("Newport, Isle of Wight", (50.70, -1.29)),
        ("Newport, Shropshire", (52.77, -2.38)),
        ("Richmond, North Yorkshire", (54.40, -1.73)),
        ("Richmond, Yorkshire", (54.40, -1.73)),
        ("Reading, Berkshire", (51.46, -0.97)),
        ("Brighton, Sussex", (50.83, -0.14)),
        ("Bray, Co. Wicklow", (53.20, -6.10)),
        ("Swords, County Dublin", (53.46, -6.22)),
        ("Trim, Meath, Ireland", (53.55, -6.79)),
        ("Springfield, Missouri", (37.22, -93.29)),
        ("Springfield, Delaware County, PA", (39.93, -75.32)),
        ("Richmond, NSW", (-33.60, 150.75)),
        ("Halle (Saale)", (51.48, 11.97)),
        ("Halle, Sachsen-Anhalt", (51.48, 11.97)),
        ("Frankfurt, Hessen", (50.12, 8.68)),
        ("Frankfurt, Brandenburg", (52.35, 14.55)),
    ],
)
def test_a_county_or_a_region_tells_towns_of_one_name_apart(
    said: str, near: tuple[float, float]
) -> None:
    """One that a town lies in as people say it: with or without the word for it, as counties were
    before towns left them, in its own language."""
    town = town_called(said)
    assert (town.latitude, town.longitude) == pytest.approx(near, abs=0.03)


@pytest.mark.parametrize(
    ("said", "shown", "examples"),
    [
        ("Ashford", ("Kent, England",), ("Ashford, Kent", "Ashford, Surrey")),
        ("Halle", ("Saxony-Anhalt, Germany", "Flanders"), ("Halle (Saale), Saxony-Anhalt",)),
        ("Springfield", ("Missouri", "Illinois"), ("Springfield, MO", "Springfield, AU")),
        ("Springfield, USA", ("Missouri",), ("Springfield, MO", "Springfield, MI")),
    ],
)
def test_what_is_offered_is_found_as_it_is_offered(
    said: str, shown: tuple[str, ...], examples: tuple[str, ...]
) -> None:
    """Each candidate has its county and when frost usually ends there, each example is one town."""
    with pytest.raises(TurfplanError) as raised:
        town_called(said)
    told = problem_text(raised.value.problems[0])
    assert all(part in told for part in shown) and "last frost about" in told
    assert all(f'"{example}"' in told for example in examples)
    offered = re.findall(r'"([^"]+)"', told.partition("say which")[2])
    assert offered and len({(town_called(e).latitude, e) for e in offered}) == len(offered)


def test_the_frost_of_a_candidate_is_the_frost_of_its_plan(tmp_path: Path) -> None:
    """The day that is told of Lancaster in Pennsylvania is the one that a plan begins from."""
    with pytest.raises(TurfplanError) as raised:
        town_called("Lancaster")
    told = problem_text(raised.value.problems[0])
    brief = Brief.model_validate(
        {"lawn": {"area": "100 m2", "grass": "tall_fescue"}, "place": {"town": "Lancaster, PA"}}
    )
    climate = located(with_town(brief).place, tmp_path).climate
    assert climate.last_frost is not None
    day = date_of(climate.last_frost.median, PLAIN_YEAR)
    told_day = f"{day.day} {day:%b}"
    assert f"Pennsylvania, United States (US; 59,339 people; last frost about {told_day})" in told


@pytest.mark.parametrize("said", ["TN23", "tn23 1ab", "EH1 1AA", "M1"])
def test_a_british_postcode_is_told_what_to_type_instead(said: str) -> None:
    with pytest.raises(TurfplanError, match="postcodes are not known") as raised:
        town_called(said)
    assert "Ashford, Kent" in problem_text(raised.value.problems[0])


def test_a_small_town_in_another_state_is_not_one_of_its_name() -> None:
    """Where none of a name lies in the state that was said, no other is offered as the example."""
    with pytest.raises(TurfplanError, match="elsewhere") as raised:
        town_called("Richmond, Tasmania")
    told = problem_text(raised.value.problems[0])
    assert "name one nearby" in told and "say which" not in told


def test_what_the_brief_says_beside_it_tells() -> None:
    """The state or country of the brief settles a name, and may contradict it."""
    assert town_called("Lancaster", "US", "OH").state == "OH"
    assert town_called("Lancaster", "GB").country == "GB"
    with pytest.raises(TurfplanError, match="elsewhere"):
        town_called("Lancaster", "FR")


@pytest.mark.parametrize(("said", "hint"), [("Pretoriaa", "Pretoria"), ("...", "gazetteer")])
def test_an_unknown_town(said: str, hint: str) -> None:
    with pytest.raises(TurfplanError, match="no town of this name") as raised:
        town_called(said)
    assert hint in problem_text(raised.value.problems[0])


@pytest.mark.parametrize(
    ("place", "said"),
    [
        ((43.80, 87.45), "about 12 km west of Ürümqi, China"),
        ((43.80, 87.60), "at Ürümqi, China"),
        ((40.04, -76.31), "at Lancaster, Pennsylvania, United States"),
        # Its longitude without the minus sign lies in China.
        ((40.04, 76.31), "China"),
        # One second of arc beyond the date line.
        ((-17.8, -179.99), "Fiji"),
    ],
)
def test_coordinates_as_seen_from_the_nearest_town(place: tuple[float, float], said: str) -> None:
    found = seen_from(*place)
    assert found is not None
    assert said in words_for("en", System.METRIC).text(found)


def test_miles_for_readers_of_feet() -> None:
    found = seen_from(43.80, 87.45)
    assert found is not None and "about 7 mi west" in words_for("en", System.US).text(found)


def test_far_from_any_town() -> None:
    """Nothing is said of a place from which the nearest town is far."""
    assert nearest_town(-25.0, -130.0) is None or nearest_town(-25.0, -130.0)[1] <= 400
    assert seen_from(-40.0, -100.0) is None


def test_the_nearest_is_the_nearest() -> None:
    """Over bands of latitude and the date line no town lies nearer than the one that is found."""
    from math import acos, cos, radians, sin

    from turfplan.files.reading import gazetteer as towns

    bands = towns._pack()[0]["bands"]
    every = [
        towns._town(line) for band in bands for line in towns._band(int(band)).split("\n") if line
    ]
    assert len(every) > 60_000

    def km(a: tuple[float, float], town: towns.Town) -> float:
        x, y = radians(a[0]), radians(town.latitude)
        cosine = sin(x) * sin(y) + cos(x) * cos(y) * cos(radians(a[1] - town.longitude))
        return 6371 * acos(max(-1.0, min(1.0, cosine)))

    for here in ((40.999, -76.3), (-17.0, 179.9), (64.5, -150.0), (0.001, 37.0), (-45.9, 170.0)):
        found = nearest_town(*here)
        best = min(km(here, town) for town in every)
        assert found is not None and found[1] == pytest.approx(best, abs=0.2)


@pytest.mark.parametrize(
    ("place", "said"),
    [
        (Place(postal_code="17601"), "Lancaster, Pennsylvania (17601)"),
        (Place(latitude=43.80, longitude=87.45), "about 12 km west of Ürümqi, China"),
    ],
)
def test_the_place_is_told_back(place: Place, said: str) -> None:
    climate = located(place, Path()).climate
    assert climate.found is not None
    assert words_for("en", System.METRIC).text(climate.found) == said


def test_a_lost_sign_is_told(tmp_path: Path) -> None:
    """Coordinates far from the country of the brief have a note on the screen; those near a border
    have none."""
    said = Place(latitude=40.04, longitude=76.31, country="US")
    (note,) = located(said, tmp_path).notes
    assert "China, far from every town of US" in words_for("en", System.US).text(note)
    for longitude, country in ((-76.31, "US"), (-82.95, "CA"), (-82.95, "US")):
        here = Place(latitude=42.3, longitude=longitude, country=country)
        assert located(here, tmp_path).notes == ()
    brief = tmp_path / "lawn.toml"
    brief.write_text(
        '[lawn]\narea = "300 m2"\ngrass = "tall_fescue"\n[seeding]\nintent = "overseed"\n'
        '[place]\nlatitude = 40.04\nlongitude = 76.31\ncountry = "US"\n',
        encoding="utf-8",
    )
    done = run("plan", str(brief), "-o", str(tmp_path / "out"), "--today", "2027-02-01")
    assert done.returncode == 0 and "a sign lost" in done.stdout + done.stderr


def test_a_zone_lies_nowhere() -> None:
    assert located(Place(climate_zone="6b", country="US"), Path()).climate.found is None


def _brief(**place: object) -> Brief:
    lawn = {"area": "100 m2", "grass": "tall_fescue"}
    return parse_brief({"lawn": lawn, "seeding": {"intent": "overseed"}, "place": place})


def test_a_town_plans_as_its_coordinates(tmp_path: Path) -> None:
    """The same plan, day by day and amount by amount, but for how the place is called."""
    head = '[lawn]\nid = "lawn-1"\narea = "300 m2"\ngrass = "tall_fescue"\n'
    rest = '[leveling]\ndepth = "0.25 in"\n[seeding]\nintent = "overseed"\n'
    places = {
        "town": 'town = "Lancaster, PA"\n',
        "there": 'latitude = 40.04\nlongitude = -76.31\ncountry = "US"\nstate = "PA"\n',
    }
    plans = {}
    for name, place in places.items():
        brief = tmp_path / f"{name}.toml"
        brief.write_text(f"{head}[place]\n{place}{rest}", encoding="utf-8")
        out = tmp_path / name
        assert run("plan", str(brief), "-o", str(out), "--today", "2027-02-01").returncode == 0
        plans[name] = json.loads((out / "plan.json").read_text(encoding="utf-8"))
    for plan in plans.values():
        for key in ("brief_sha256", "now", "stamp", "said"):
            plan.pop(key)
    assert plans["town"]["place"].pop("name") == "Lancaster, Pennsylvania, United States"
    assert plans["there"]["place"].pop("name") == "at Lancaster, Pennsylvania, United States"
    assert plans["town"]["tasks"] and plans["town"] == plans["there"]


def test_one_place_is_said_once() -> None:
    for other in ({"latitude": 40.0, "longitude": -76.0}, {"postal_code": "17601"}):
        with pytest.raises(TurfplanError, match="town"):
            _brief(town="Lancaster, PA", **other)


def test_a_brief_without_a_town_has_its_old_digest() -> None:
    """A later key that is not said leaves the digest that earlier programs made; one that is said
    does not."""
    here = {"latitude": 40.04, "longitude": -76.31, "country": "US", "state": "PA"}
    old = "f0e478cf8f0d86aee4194f55c513167dc8cf9366d16f1b1eeb2c4dfb6e0b503b"
    assert old in input_of(_brief(**here), Path()).earlier_sha256
    assert old not in input_of(_brief(town="Lancaster, PA"), Path()).earlier_sha256


def test_every_fault_at_once(tmp_path: Path) -> None:
    """A town and a grass that are not known are one report."""
    brief = tmp_path / "lawn.toml"
    brief.write_text(
        '[lawn]\narea = "300 m2"\ngrass = "fescue"\n[place]\ntown = "Lancaster"\n', encoding="utf-8"
    )
    done = run("plan", str(brief))
    assert done.returncode == 3
    assert "lawn.grass" in done.stderr and "place.town" in done.stderr


def test_new_and_windows_take_a_town(tmp_path: Path) -> None:
    brief = tmp_path / "mine.toml"
    words = ("--area", "300 m2", "--grass", "couch", "--town", "Perth, AU", "--depth", "5 mm")
    assert run("new", str(brief), *words).returncode == 0
    assert 'town = "Perth, AU"' in brief.read_text(encoding="utf-8")
    done = run("windows", "--town", "Perth, AU", "--grass", "couch", "--year", "2027")
    assert done.returncode == 0 and "couch (common bermudagrass)" in done.stdout
    assert "Place: Perth, Western Australia, Australia" in done.stdout
    brief.unlink()
    wrong = ("--area", "300 m2", "--grass", "couch", "--town", "Lancaster", "--depth", "0 in")
    done = run("new", str(brief), *wrong)
    assert done.returncode == 3 and "place.town" in done.stderr and not brief.exists()


@pytest.mark.parametrize(
    ("place", "measured_c"),
    # Means of NOAA's normals 1991-2020 of the stations of these cities, on steep ground.
    [
        (Place(latitude=40.76, longitude=-111.89), 12.6),
        (Place(latitude=39.74, longitude=-104.98), 10.7),
    ],
)
def test_on_steep_ground_the_height_of_the_town_is_told(place: Place, measured_c: float) -> None:
    """What is told for the elevation brings the mean of the year nearer to what was measured."""
    plain = located(place, Path()).climate
    assert plain.elevation_m is None
    source = words_for("en", System.METRIC).text(plain.source)
    told = re.search(r"a map gives .* about ([\d,]+) m", source)
    assert told is not None
    height_mm = float(told[1].replace(",", "")) * 1000
    own = located(place.model_copy(update={"elevation_mm": height_mm}), Path()).climate
    assert abs(sum(own.air_mean_c) / 365 - measured_c) < abs(
        sum(plain.air_mean_c) / 365 - measured_c
    )
    assert own.error_days < plain.error_days


@pytest.mark.parametrize(
    ("town", "code", "measured_c"),
    [
        ("Salt Lake City, UT", "84101", 12.6),
        ("Denver, CO", "80202", 10.7),
        ("Grand Junction, CO", "81501", 11.8),
    ],
)
def test_a_lawn_of_a_town_in_hills_lies_at_its_height(
    town: str, code: str, measured_c: float
) -> None:
    """By name and by postal code: nearer to what NOAA measured than at coordinates, and told."""
    brief = with_town(
        parse_brief({"lawn": {"area": "300 m2", "grass": "tall_fescue"}, "place": {"town": town}})
    )
    plain = Place(latitude=brief.place.latitude, longitude=brief.place.longitude)
    at_coordinates = located(plain, Path()).climate
    for place in (brief.place, Place(postal_code=code)):
        own = located(place, Path()).climate
        assert own.elevation_m is not None and own.air_error_c <= at_coordinates.air_error_c
        assert abs(sum(own.air_mean_c) / 365 - measured_c) < abs(
            sum(at_coordinates.air_mean_c) / 365 - measured_c
        )
        assert own.source.key in ("climate.grid_of_town", "climate.grid_of_valley")
    # What the owner says of the lawn itself wins.
    said = located(brief.place.model_copy(update={"elevation_mm": 1_500_000}), Path()).climate
    assert said.elevation_m == 1500


@pytest.mark.parametrize(
    "place",
    [Place(postal_code="17601"), Place(latitude=40.55, longitude=-111.6), Place(climate_zone="6b")],
)
def test_elsewhere_no_height_is_told(place: Place) -> None:
    """In flat country, away from towns, and for a whole zone."""
    source = located(place, Path()).climate.source
    assert "a map gives" not in words_for("en", System.METRIC).text(source)


CAPITALS = {
    "AU": {
        "ACT": "Canberra",
        "NSW": "Sydney",
        "NT": "Darwin",
        "QLD": "Brisbane",
        "SA": "Adelaide",
        "TAS": "Hobart",
        "VIC": "Melbourne",
        "WA": "Perth",
    },
    "CA": {
        "AB": "Edmonton",
        "BC": "Victoria",
        "MB": "Winnipeg",
        "NB": "Fredericton",
        "NL": "St. John's",
        "NS": "Halifax",
        "ON": "Toronto",
        "PE": "Charlottetown",
        "QC": "Québec",
        "SK": "Regina",
        "YT": "Whitehorse",
        "NT": "Yellowknife",
        "NU": "Iqaluit",
    },
    "GB": {"ENG": "London", "NIR": "Belfast", "SCT": "Edinburgh", "WLS": "Cardiff"},
}


@pytest.mark.parametrize(
    ("country", "state", "capital"),
    [(c, state, town) for c, towns in CAPITALS.items() for state, town in towns.items()],
)
def test_states_by_their_capitals(country: str, state: str, capital: str) -> None:
    """The numbers that the gazetteer gives states stand for the right ones."""
    town = town_called(capital, country, state)
    assert (town.country, town.state) == (country, state) and town.people > 5000


def test_the_pack_is_whole() -> None:
    """What its header says of it, and coordinates, people and heights that can be."""
    from hashlib import sha256

    from turfplan.files.reading import gazetteer as towns

    head, blob = towns._pack()
    assert sha256(blob).hexdigest() == head["sha256"]
    lines = [line for band in head["bands"] for line in towns._band(int(band)).split("\n")]
    assert len(lines) == head["count"] > 60_000
    for line in lines[::50]:
        town = towns._town(line)
        assert abs(town.latitude) <= 80 and abs(town.longitude) <= 180 and town.people >= 0
        assert -450 <= town.height_m < 5300 and town.country in head["countries"]


def test_the_height_of_slopes_is_not_a_towns() -> None:
    """In steep valleys the lowest ground around is taken, and told as no more than that."""
    steep = {"Aosta, IT": 583, "Bolzano, IT": 262, "Chur": 593, "Merano": 325, "Aspen, CO": 2438}
    for name, height_m in steep.items():
        town = town_called(name)
        assert town.steep and abs(town.height_m - height_m) < 600, name
    for name, height_m in {"Grenoble, FR": 213, "Missoula, MT": 978, "Denver, CO": 1609}.items():
        town = town_called(name)
        assert not town.steep and abs(town.height_m - height_m) < 100, name
    place = with_town(_brief(town="Aosta, IT")).place
    source = located(place, Path()).climate.source
    assert source.key == "climate.grid_of_valley"
    told = located(with_town(_brief(town="Missoula, MT")).place, Path()).climate
    assert told.source.key == "climate.grid_of_town"
    assert located(place, Path()).climate.air_error_c > told.air_error_c
    plain = Place(latitude=place.latitude, longitude=place.longitude)
    assert located(plain, Path()).climate.source.key == "climate.grid_hilly"


@pytest.mark.parametrize("name", ["Springfield", "Newport, GB", "Ashford", "Perth", "Wellington"])
def test_each_namesake_is_answered_so_that_no_other_is_meant(name: str) -> None:
    """What is tapped finds one town alone, and each of them another one."""
    answers = [said for said, _ in namesakes(name)]
    named = [answer for answer in answers if answer[0].isalpha()]
    assert len(answers) > 1 and len(set(answers)) == len(answers)
    found = [town_called(answer) for answer in named]
    assert len({(town.latitude, town.longitude) for town in found}) == len(named)


def test_one_town_alone_has_no_namesakes() -> None:
    """Neither has a name that nobody knows."""
    assert namesakes("Lancaster, PA") == () == namesakes("Nowhere at all")


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("Ashford, Kent", "Ashford, Kent, England, United Kingdom"),
        ("Ashford, Surrey", "Ashford, England, United Kingdom"),
        ("Reading, GB", "Reading, England, United Kingdom"),
    ],
)
def test_a_town_is_called_with_its_county_where_its_name_is_shared(said: str, told: str) -> None:
    """So far as the gazetteer knows a county."""
    found = located(with_town(parse_brief(_home(said))).place, Path()).climate.found
    assert found is not None and words_for("en", System.METRIC).text(found) == told


def _home(town: str) -> dict[str, object]:
    return {"lawn": {"area": "100 m2", "grass": "unknown"}, "place": {"town": town}}
