"""Whether a grass lives at a place, held against what public bodies say of grasses and places."""

from itertools import pairwise, product
from math import sqrt
from pathlib import Path
from statistics import fmean
from typing import Any

import pytest

from planning import climate_at, first, plan_of
from turfplan.app.open_windows import open_windows
from turfplan.climate.daily_series import DailySeries
from turfplan.climate.normals_of_years import coldest_night_of, normals_of
from turfplan.climate.record import Climate
from turfplan.files.reading.book import load_book
from turfplan.files.reading.place import load_models
from turfplan.files.reading.postal_codes import postal_place
from turfplan.records.plan import Plan
from turfplan.work.grass_for_place import grasses_instead
from turfplan.work.light import Light
from turfplan.work.living import limits_at, lives_at, sure_at

BOOK = load_book()

PLACES = {
    "Pensacola FL": (30.42, -87.22),
    "Miami FL": (25.77, -80.2),
    "Tifton GA": (31.45, -83.51),
    "Rome GA": (34.26, -85.16),
    "Atlanta GA": (33.75, -84.39),
    "Greenville SC": (34.85, -82.4),
    "Charleston SC": (32.78, -79.93),
    "Asheville NC": (35.6, -82.55),
    "New Orleans LA": (29.95, -90.07),
    "Houston TX": (29.76, -95.37),
    "Dallas TX": (32.78, -96.8),
    "Amarillo TX": (35.2, -101.8),
    "Corpus Christi TX": (27.8, -97.4),
    "Minneapolis MN": (44.98, -93.27),
    "International Falls MN": (48.6, -93.4),
    "Seattle WA": (47.61, -122.33),
    "Portland OR": (45.52, -122.68),
    "Eureka CA": (40.8, -124.16),
    "San Francisco CA": (37.77, -122.42),
    "San Diego CA": (32.72, -117.16),
    "Fresno CA": (36.74, -119.79),
    "Honolulu HI": (21.31, -157.86),
    "Vancouver BC": (49.28, -123.12),
    "Perth": (-31.95, 115.86),
    "Melbourne": (-37.81, 144.96),
    "Auckland": (-36.85, 174.76),
    "Christchurch": (-43.53, 172.64),
    "Dunedin": (-45.88, 170.5),
    "Pietermaritzburg": (-29.6, 30.38),
    "Singapore": (1.35, 103.82),
    "Manila": (14.6, 121.0),
}
FIT, MARGINAL, UNFIT = "fit", "marginal", "unfit"
# Who says it: a source of the book by its id, else an address.
FLORIDA = "UF_COOL: seven warm-season grasses for northwest Florida"
NO_COOL = "UF_COOL: dies in hot, wet summers, no permanent lawn"
CLEMSON = "CLEMSON_TURF: table 1, recommended by region"
TEXAS = "TX_LAWNS"
WASHINGTON = "WWA_LAWNS: not to be planted in western Washington"
OREGON = "OSU_BENT: west of the Cascades from Vancouver south, along the coast to San Francisco"
PERTH = "WA_LAWNS: the usual grasses of home gardens"
HAWAII = "http://the.honoluluadvertiser.com/article/2005/Apr/01/il/il10a.html (five species)"
LOUISIANA = "LSU_WARM: adapted to all of Louisiana"
MINNESOTA = "UMN_HARDY: perennial ryegrass lacks the hardiness"
MINNESOTA_LAWNS = "UMN_COOL: lawn grasses of Minnesota"
NEW_ZEALAND = "https://teara.govt.nz/en/photograph/16148 (lawns of browntop and chewings fescue)"
MELBOURNE = "MELB_WARM: suited to Melbourne"
CALIFORNIA = "UC_SPECIES"
GEORGIA = "https://fieldreport.caes.uga.edu/news/turfgrass-101"
AUCKLAND = "https://www.stuff.co.nz/life-style/homed/garden/131414794 (council's grounds)"
SOUTH_AFRICA = "ZA_KIKUYU: how kikuyu lawns are treated in spring"

# (grass, place, what is said, who says it)
STATEMENTS = [
    *(
        (grass, "Pensacola FL", FIT, FLORIDA)
        for grass in (
            "centipede",
            "st_augustine",
            "bahia",
            "bermuda_common",
            "carpetgrass",
            "seashore_paspalum",
            "zoysia",
        )
    ),
    *(
        (grass, "Pensacola FL", UNFIT, NO_COOL)
        for grass in ("kentucky_bluegrass", "perennial_ryegrass", "tall_fescue", "fine_fescue")
    ),
    *(
        (grass, "Charleston SC", FIT, CLEMSON)
        for grass in ("bermuda_common", "centipede", "st_augustine", "zoysia")
    ),
    ("tall_fescue", "Charleston SC", UNFIT, CLEMSON),
    ("tall_fescue", "Greenville SC", FIT, CLEMSON),
    ("bermuda_common", "Greenville SC", FIT, CLEMSON),
    ("zoysia", "Asheville NC", FIT, CLEMSON),
    ("tall_fescue", "Asheville NC", FIT, CLEMSON),
    ("st_augustine", "Asheville NC", UNFIT, CLEMSON),
    ("centipede", "Asheville NC", UNFIT, CLEMSON),
    ("st_augustine", "Tifton GA", FIT, f"{GEORGIA} (grows great)"),
    ("st_augustine", "Rome GA", MARGINAL, f"{GEORGIA} (has trouble surviving)"),
    ("tall_fescue", "Atlanta GA", FIT, "UGA_COOL: mountains and upper Piedmont"),
    ("kentucky_bluegrass", "Dallas TX", UNFIT, f"{TEXAS}: the Panhandle alone"),
    ("kentucky_bluegrass", "Houston TX", UNFIT, f"{TEXAS}: the Panhandle alone"),
    ("st_augustine", "Houston TX", FIT, TEXAS),
    ("st_augustine", "Dallas TX", MARGINAL, f"{TEXAS}: northern limit about Fort Worth"),
    ("st_augustine", "Amarillo TX", UNFIT, f"{TEXAS}: warmer areas, does not survive winters"),
    ("tall_fescue", "Dallas TX", MARGINAL, f"{TEXAS}: lives through heat by irrigation"),
    ("buffalo", "Amarillo TX", FIT, f"{TEXAS}: the drier areas"),
    ("carpetgrass", "Houston TX", FIT, "TAMU_CARPET: native to the Gulf states"),
    ("seashore_paspalum", "Corpus Christi TX", FIT, "TAMU_PASPALUM: south Texas"),
    (
        "seashore_paspalum",
        "Amarillo TX",
        UNFIT,
        "TAMU_PASPALUM: confined to the southernmost parts",
    ),
    *(
        (grass, "New Orleans LA", FIT, LOUISIANA)
        for grass in ("bermuda_common", "zoysia", "st_augustine", "centipede", "carpetgrass")
    ),
    ("buffalo", "New Orleans LA", UNFIT, f"{LOUISIANA}: not grown"),
    ("kentucky_bluegrass", "Minneapolis MN", FIT, MINNESOTA_LAWNS),
    ("fine_fescue", "Minneapolis MN", FIT, MINNESOTA_LAWNS),
    ("perennial_ryegrass", "Minneapolis MN", MARGINAL, MINNESOTA),
    ("perennial_ryegrass", "International Falls MN", UNFIT, MINNESOTA),
    *(
        (grass, "Seattle WA", UNFIT, WASHINGTON)
        for grass in ("zoysia", "bermuda_common", "centipede", "carpetgrass", "st_augustine")
    ),
    ("browntop", "Seattle WA", FIT, OREGON),
    ("browntop", "Portland OR", FIT, OREGON),
    ("browntop", "Vancouver BC", FIT, OREGON),
    ("browntop", "San Francisco CA", FIT, OREGON),
    ("browntop", "Eureka CA", FIT, f"{CALIFORNIA}: best on the coast of the far north"),
    ("browntop", "Fresno CA", UNFIT, f"{CALIFORNIA}: low tolerance of heat"),
    ("bermuda_common", "Fresno CA", FIT, "UC_HEAT: well adapted to summer heat"),
    ("kikuyu", "San Francisco CA", FIT, "UCR_KIKUYU: as far north as San Francisco Bay"),
    ("kikuyu", "San Diego CA", FIT, "UCR_KIKUYU: south to the Mexican border"),
    *(
        (grass, "Honolulu HI", FIT, HAWAII)
        for grass in (
            "bermuda_common",
            "zoysia",
            "seashore_paspalum",
            "centipede",
            "st_augustine",
        )
    ),
    *(
        (grass, "Perth", FIT, PERTH)
        for grass in ("bermuda_common", "st_augustine", "seashore_paspalum", "zoysia", "kikuyu")
    ),
    *(
        (grass, "Melbourne", FIT, MELBOURNE)
        for grass in ("bermuda_common", "kikuyu", "st_augustine")
    ),
    *(
        (grass, place, FIT, NEW_ZEALAND)
        for grass in ("browntop", "fine_fescue")
        for place in ("Dunedin", "Christchurch")
    ),
    ("kikuyu", "Auckland", FIT, AUCKLAND),
    ("kikuyu", "Pietermaritzburg", FIT, SOUTH_AFRICA),
    ("kikuyu", "Singapore", UNFIT, "PROSEA_KIKUYU: in Southeast Asia above 1900 m alone"),
    ("kikuyu", "Manila", UNFIT, "PROSEA_KIKUYU: in Southeast Asia above 1900 m alone"),
]
# What the reckoning may say of a statement: it may doubt, but never call fit what is unfit, nor
# unfit what is fit.
ALLOWED = {FIT: {FIT, MARGINAL}, MARGINAL: {MARGINAL}, UNFIT: {UNFIT, MARGINAL}}

# ZIP codes with their zones of the USDA Plant Hardiness Zone Map of 2012, as an open list has them.
ZONES = {
    "30303": "8a",
    "58102": "4a",
    "84101": "7b",
    "83702": "7a",
    "98101": "8b",
    "97201": "8b",
    "95814": "9b",
    "90012": "10b",
    "89101": "9a",
    "04101": "5b",
    "99501": "4b",
    "00921": "13a",
    "66502": "6a",
    "21201": "7b",
    "77550": "9b",
    "85701": "9b",
    "93721": "9b",
    "92101": "10b",
    "94103": "10b",
    "99201": "6b",
    "59801": "5b",
    "96701": "12b",
}


def at(place: str) -> Climate:
    return climate_at(*PLACES[place])


def answer(grass: str, climate: Climate, *, watered: bool = True) -> str:
    """Fit, marginal or unfit, as the reckoning has it."""
    if not lives_at(BOOK, climate, grass, watered):
        return UNFIT
    return FIT if sure_at(BOOK, climate, grass, watered) else MARGINAL


@pytest.mark.full
@pytest.mark.parametrize(("grass", "place", "said", "source"), STATEMENTS)
def test_no_grass_is_called_what_its_source_denies(
    grass: str, place: str, said: str, source: str
) -> None:
    """What a public body calls unfit is never called fit, and the other way round."""
    assert answer(grass, at(place)) in ALLOWED[said], source


def test_most_answers_are_as_plain_as_the_sources() -> None:
    """Doubt is no way out: nine of ten statements are met in their own word."""
    met = [answer(grass, at(place)) == said for grass, place, said, _ in STATEMENTS]
    assert sum(met) >= 0.9 * len(STATEMENTS)


def test_statements_come_from_many_places() -> None:
    """At least forty pairs, ten states or countries, both hemispheres, and each of the answers."""
    pairs = {(grass, place) for grass, place, _, _ in STATEMENTS}
    states = {place.split()[-1] for _, place in pairs}
    south = {place for _, place in pairs if PLACES[place][0] < 0}
    assert len(pairs) == len(STATEMENTS) >= 40
    assert len(states) >= 10 and len(south) >= 4
    assert {said for _, _, said, _ in STATEMENTS} == {FIT, MARGINAL, UNFIT}


def test_every_statement_has_its_source() -> None:
    """A source of the book, or an address."""
    for *_, source in STATEMENTS:
        assert source.split(":")[0] in {*BOOK.sources, "http", "https"}, source


def middle_c(zone: str) -> float:
    """The middle of a half zone, degrees C: halves are 5 F wide from -60 F (USDA)."""
    halves = 2 * (int(zone[:-1]) - 1) + "ab".index(zone[-1])
    return (-60 + 5 * halves + 2.5 - 32) / 1.8


@pytest.mark.full
def test_the_coldest_night_is_off_by_what_is_printed() -> None:
    """Published zones of 22 ZIP codes, on none of which the line was fitted."""
    errors = []
    for code, zone in ZONES.items():
        place = postal_place(code)
        assert place is not None
        climate = climate_at(place.latitude, place.longitude)
        errors.append(climate.coldest_night_c - middle_c(zone))
        assert climate.coldest_error_c == load_models().number("coldest_night", "error_c")
    assert sqrt(fmean(e * e for e in errors)) == pytest.approx(3.5, abs=0.1)
    assert abs(fmean(errors)) < 1


def test_real_years_say_how_cold_their_nights_are(two_winters: DailySeries) -> None:
    """The mean of the coldest nights of whole winters, each counted once."""
    mean = tuple([0.0] * 182 + [20.0] + [0.0] * 182)
    assert coldest_night_of(load_models(), two_winters, mean) == pytest.approx(-12)
    normals = normals_of(load_models(), two_winters, typical_year=True)
    assert normals.coldest_night_c is None


@pytest.fixture
def two_winters() -> DailySeries:
    """Two summers-to-summers of an invented place: coldest nights of -10 and -14 C."""
    from datetime import date, timedelta

    first_day = date(2020, 7, 2)
    dates = tuple(first_day + timedelta(n) for n in range(730))
    cold = {date(2021, 1, 10): -10.0, date(2022, 2, 1): -14.0, date(2022, 2, 2): -13.0}
    lows = tuple(cold.get(day, 5.0) for day in dates)
    highs = tuple(low + 10 for low in lows)
    means = tuple(low + 5 for low in lows)
    return DailySeries(dates, lows, highs, means, tuple([1.0] * 730))


@pytest.mark.full
@pytest.mark.parametrize("grass", list(BOOK.species))
def test_answers_change_in_steps_of_one(grass: str) -> None:
    """Along a line of places no grass is fit here and unfit at the next: a band of doubt lies
    between, where the climate moves by little from one to the next."""
    line = [climate_at(latitude / 4, -88.0) for latitude in range(124, 188, 2)]
    answers = [answer(grass, climate) for climate in line]
    ranks = [(FIT, MARGINAL, UNFIT).index(said) for said in answers]
    assert all(abs(a - b) <= 1 for a, b in pairwise(ranks)), answers


@pytest.mark.parametrize(
    ("place", "grass", "watered", "said"),
    [
        ((33.45, -112.07), "bermuda_common", True, FIT),
        ((33.45, -112.07), "bermuda_common", False, UNFIT),
        ((36.17, -115.14), "tall_fescue", False, UNFIT),
        ((35.2, -101.8), "buffalo", False, FIT),
        ((35.2, -101.8), "tall_fescue", False, MARGINAL),
        ((29.95, -90.07), "carpetgrass", False, FIT),
        ((-31.95, 115.86), "carpetgrass", False, UNFIT),
    ],
)
def test_unwatered_grass_lives_on_the_rain(
    place: tuple[float, float], grass: str, watered: bool, said: str
) -> None:
    """Grass that nobody waters is held to the rain of the year."""
    assert answer(grass, climate_at(*place), watered=watered) == said


@pytest.mark.full
def test_what_is_offered_instead_lives_there() -> None:
    """Every grass that is offered lives on the place's climate and light, the sure ones first."""
    for place, hours, season in product(PLACES, (None, 5.0), ("cool", "warm")):
        light = Light(BOOK, at(place), hours)
        found = grasses_instead(light, season)
        assert found, place
        assert all(light.lives(grass) and light.bears(grass) for grass in found)
        doubts = [bool(limits_at(BOOK, light.climate, grass)) for grass in found]
        assert doubts == sorted(doubts)


def test_the_windows_say_whether_the_grass_lives_there() -> None:
    """`turfplan windows` tells what is seeded in vain, and nothing of what lives."""
    place = {"postal_code": "33130", "country": "US"}
    dies = open_windows("kentucky_bluegrass", place, Path(), 2027)
    assert ["summers" in dies.words.text(limit) for limit in dies.limits] == [True]
    assert not open_windows("st_augustine", place, Path(), 2027).limits


MIAMI: dict[str, Any] = {"place": {"postal_code": "33130"}, "lawn": {"grass": "kentucky_bluegrass"}}


def refused(plan: Plan) -> str:
    """Why nothing can be done."""
    assert plan.conflict is not None
    return " ".join(map(str, plan.conflict.reasons))


@pytest.mark.full
@pytest.mark.parametrize(
    "seeding",
    [
        {"intent": "overseed"},
        {"intent": "patch"},
        {"intent": "renovate"},
        {"intent": "plant", "form": "sod"},
        {"intent": "dormant"},
    ],
)
def test_bluegrass_is_not_bought_for_miami(seeding: dict[str, Any]) -> None:
    """Seed and sod of it are refused, with grasses that live there as ways out, each planned."""
    plan = plan_of(MIAMI, {"seeding": seeding})
    assert "does not live through summers here" in refused(plan)
    assert not plan.tasks and not plan.order
    changes = [str(option.change) for option in plan.options]
    assert any('species = "st_augustine"' in change for change in changes), changes
    assert not any('"tall_fescue"' in change for change in changes)


@pytest.mark.full
def test_grass_named_for_the_seed_counts_not_that_of_the_lawn() -> None:
    """Bermudagrass for bare ground in Miami lives, bluegrass does not."""
    bare = {"place": {"postal_code": "33130"}, "lawn": {"grass": "bahia", "condition": "bare"}}
    lives = plan_of(bare, {"seeding": {"intent": "overseed", "species": "bermuda_common"}})
    assert lives.conflict is None
    dies = plan_of(bare, {"seeding": {"intent": "overseed", "species": "kentucky_bluegrass"}})
    assert "Kentucky bluegrass" in refused(dies)


@pytest.mark.full
def test_winter_ryegrass_is_a_guest() -> None:
    """Ryegrass over bermudagrass dies with the summer, as it should."""
    plan = plan_of(
        {"place": {"postal_code": "32202"}, "lawn": {"grass": "bermuda_common"}},
        {"seeding": {"intent": "winter_overseed"}, "leveling": {"depth": None}},
    )
    assert plan.conflict is None
    assert "ryegrass" in str(first(plan, "overseed").title)


@pytest.mark.full
def test_grass_that_stands_is_told_and_planned_for() -> None:
    """A lawn of bluegrass in Miami is levelled, and told what its summers are to it."""
    plan = plan_of(MIAMI, {"seeding": {"intent": "none"}, "leveling": {"depth": "0.25 in"}})
    assert plan.conflict is None
    told = [note for note in plan.ranked if "does not live through summers" in str(note.text)]
    assert [note.rank for note in told] == ["advice"]


@pytest.mark.full
def test_grass_near_its_limit_is_bought_with_a_word() -> None:
    """St. Augustinegrass in Dallas may freeze out: planted all the same, and said."""
    plan = plan_of(
        {"place": {"postal_code": "75201"}, "lawn": {"grass": "st_augustine"}},
        {"seeding": {"intent": "plant", "form": "plugs"}},
    )
    assert plan.conflict is None
    assert any("near its limit of cold" in str(line) for line in plan.cautions)


@pytest.mark.full
def test_a_mixed_stand_is_sown_with_what_lives() -> None:
    """Of fescue and bluegrass in the heat of Alabama's south nothing is left; in Dallas fescue."""
    mixed = [
        {"species": "tall_fescue", "share": 0.6},
        {"species": "kentucky_bluegrass", "share": 0.4},
    ]
    dallas = plan_of({"place": {"postal_code": "75201"}, "lawn": {"grass": mixed}})
    assert "tall fescue" in str(first(dallas, "overseed").title)
    assert "bluegrass" not in str(first(dallas, "overseed").title)
    assert any("does not live here" in str(line) for line in dallas.assumptions)
    mobile = plan_of({"place": {"postal_code": "36602"}, "lawn": {"grass": mixed}})
    assert "does not live through summers" in refused(mobile)


@pytest.mark.full
def test_salt_is_answered_with_grasses_that_live_there() -> None:
    """Salty ground in Kansas is offered no grass of the coast."""
    salty = {"soil_test": {"salts": "9 dS/m"}, "seeding": {"intent": "plant", "form": "sod"}}
    plan = plan_of({"place": {"postal_code": "64106"}, "lawn": {"grass": "zoysia"}}, salty)
    offered = " ".join(str(option.change) for option in plan.options)
    assert "seashore_paspalum" not in offered and "st_augustine" not in offered


@pytest.mark.full
@pytest.mark.parametrize(
    ("place", "intent", "told"),
    [
        ({"postal_code": "92101"}, "overseed", True),
        ({"postal_code": "92101"}, "none", False),
        (
            {"postal_code": None, "country": "AU", "latitude": -31.95, "longitude": 115.86},
            "overseed",
            False,
        ),
    ],
)
def test_a_weed_by_law_is_bought_with_a_warning(
    place: dict[str, Any], intent: str, told: bool
) -> None:
    """By a review (KIKUYU_REVIEW) kikuyu is a noxious weed in some states of the USA: told as law,
    at its sowing too."""
    plan = plan_of(
        {"lawn": {"grass": "kikuyu"}, "place": place},
        {"seeding": {"intent": intent}, "leveling": {"depth": "0.25 in"}},
    )
    assert plan.conflict is None
    notes = [note for note in plan.ranked if "noxious weed by law" in str(note.text)]
    assert bool(notes) is told
    assert all(note.rank == "law" and note.tasks for note in notes)
    assert not told or any("noxious" in str(line) for line in first(plan, "seed").cautions)


def test_a_weed_by_law_is_never_offered() -> None:
    """Kikuyu lives in San Francisco, and is no way out."""
    light = Light(BOOK, at("San Francisco CA"), None)
    assert light.lives("kikuyu") and "kikuyu" not in grasses_instead(light, "warm")


@pytest.mark.full
def test_named_grass_far_under_its_sun_is_refused() -> None:
    """An hour under its least it is sown with a caution, beyond that it is not bought."""
    blue: dict[str, Any] = {"seeding": {"species": "kentucky_bluegrass"}}
    plan = plan_of({"site": {"sun_hours": 4.5}, "lawn": {"grass": "kentucky_bluegrass"}}, blue)
    assert "needs 6 hours" in refused(plan)
    assert any("fescue" in str(option.change) for option in plan.options)


@pytest.mark.full
def test_a_part_with_a_grass_that_dies_is_sown_with_the_rest() -> None:
    """Fine fescue in the shade of a lawn in Atlanta is refused; the lawn's own is the way out."""
    part = {"kind": "shade", "share": 0.2, "grass": "fine_fescue"}
    plan = plan_of(
        {"place": {"postal_code": "30303"}, "lawn": {"grass": "tall_fescue", "part": [part]}}
    )
    assert "Fine fescue does not live through summers" in refused(plan)
    assert "lawn.part.grass" in str(plan.options[0].change)


@pytest.mark.full
def test_ground_too_salty_for_seed_is_offered_plants() -> None:
    """12 dS/m at Galveston kill seed of every grass; planted seashore paspalum bears it."""
    plan = plan_of(
        {"place": {"postal_code": "77550"}, "lawn": {"grass": "bermuda_common"}},
        {"soil_test": {"salts": "12 dS/m"}, "seeding": {"intent": "overseed"}},
    )
    changes = [str(option.change) for option in plan.options]
    assert 'species = "seashore_paspalum", intent = "plant"' in changes
