"""Grasses are called by the names of their country, and a name of two is asked."""

import json
from pathlib import Path

import pytest

from command import run
from turfplan.app.inputs import in_book_names
from turfplan.app.open_windows import open_windows
from turfplan.book.grass_names import grasses_called, plain_name
from turfplan.errors import TurfplanError
from turfplan.files.reading.book import load_book
from turfplan.planning import check_brief
from turfplan.records.brief import Brief, parse_brief

CALLED = [
    ("AU", "couch", "bermuda_common"),
    ("AU", "Buffalo", "st_augustine"),
    ("AU", "buffalo grass", "st_augustine"),
    ("AU", "mat grass", "carpetgrass"),
    ("AU", "saltwater couch", "seashore_paspalum"),
    ("AU", "hybrid couch", "bermuda_hybrid"),
    ("NZ", "couch grass", "bermuda_common"),
    ("NZ", "buffalo", "st_augustine"),
    ("NZ", "bent", "browntop"),
    ("NZ", "ryegrass", "perennial_ryegrass"),
    ("AU", "Rye grass", "perennial_ryegrass"),
    ("GB", "rye", "perennial_ryegrass"),
    ("US", "English ryegrass", "perennial_ryegrass"),
    ("GB", "fescue", "fine_fescue"),
    ("NZ", "blue grass", "kentucky_bluegrass"),
    ("US", "bluegrass", "kentucky_bluegrass"),
    ("ZA", "kweek", "bermuda_common"),
    ("ZA", "buffalo grass", "st_augustine"),
    ("ZA", "kikoejoe", "kikuyu"),
    ("IN", "doob", "bermuda_common"),
    ("IN", "Dūrvā", "bermuda_common"),
    ("IN", "arugampul", "bermuda_common"),
    ("GB", "smooth-stalked meadow grass", "kentucky_bluegrass"),
    ("GB", "browntop bent", "browntop"),
    ("GB", "creeping red fescue", "fine_fescue"),
    ("IE", "Smooth Meadow-Grass", "kentucky_bluegrass"),
    ("US", "buffalograss", "buffalo"),
    ("US", "St. Augustine", "st_augustine"),
    ("US", "Kentucky Bluegrass", "kentucky_bluegrass"),
    ("US", "colonial bentgrass", "browntop"),
    ("BR", "grama batatais", "bahia"),
    ("BR", "grama esmeralda", "zoysia"),
    ("BR", "grama-missioneira", "carpetgrass"),
    ("DE", "Deutsches Weidelgras", "perennial_ryegrass"),
    ("DE", "Rohrschwingel", "tall_fescue"),
    ("CH", "Wiesenrispe", "kentucky_bluegrass"),
    ("JP", "korai shiba", "zoysia"),
    ("ZW", "Paraguay paspalum", "bahia"),
    ("MX", "pasto San Agustin", "st_augustine"),
    ("FR", "fétuque rouge", "fine_fescue"),
]


@pytest.mark.parametrize(("country", "said", "grass"), CALLED)
def test_a_name_of_the_country(country: str, said: str, grass: str) -> None:
    """More than 25 names in more than eight countries lead to one grass each."""
    assert grasses_called(load_book(), said, country) == (grass,)


@pytest.mark.parametrize(
    ("country", "said", "grasses"),
    [
        (None, "buffalo grass", {"buffalo", "st_augustine"}),
        ("FR", "buffalograss", {"buffalo", "st_augustine"}),
        ("US", "bermuda", {"bermuda_common", "bermuda_hybrid"}),
        ("GB", "bent", {"browntop", "creeping_bentgrass"}),
        ("US", "fescue", {"tall_fescue", "fine_fescue"}),
        ("NZ", "fescue", {"tall_fescue", "fine_fescue"}),
    ],
)
def test_a_name_of_two_grasses(country: str | None, said: str, grasses: set[str]) -> None:
    """Where the country does not settle it, each grass that bears the name stands in the error."""
    assert set(grasses_called(load_book(), said, country)) == grasses
    place: dict[str, object] = {"latitude": 48.0, "longitude": 2.0, "country": country}
    brief = in_book_names(_brief(said, **{k: v for k, v in place.items() if v is not None}))
    if country is None:
        brief = _brief(said, climate_zone="Cfb")
    (problem,) = (p for p in check_brief(brief, load_book()) if p.where == "lawn.grass")
    assert all(grass in str(TurfplanError(problem)) for grass in grasses)


def _brief(grass: str, **place: object) -> Brief:
    return parse_brief({"lawn": {"area": "100 m2", "grass": grass}, "place": place})


@pytest.mark.parametrize("country", ["GB", "US", "IE", "CA"])
def test_a_name_of_another_plant(country: str) -> None:
    """Couch is a weed in these countries, and no grass of the book."""
    assert grasses_called(load_book(), "couch", country) == ()


@pytest.mark.parametrize(
    ("place", "grass"),
    [
        ({"latitude": -31.95, "longitude": 115.86}, "st_augustine"),
        ({"latitude": 39.1, "longitude": -94.6}, "buffalo"),
        ({"latitude": -25.0, "longitude": -130.0}, "buffalo"),
        ({"postal_code": "67501"}, "buffalo"),
        ({"climate_zone": "Bsh", "country": "ZA"}, "st_augustine"),
    ],
)
def test_the_country_of_a_place_settles_it(place: dict[str, object], grass: str) -> None:
    """By the country of the brief, else of the nearest town; far from any, an id is an id."""
    assert in_book_names(_brief("buffalo", **place)).dominant.species == grass


def test_every_key_of_a_grass() -> None:
    """Parts, shapes, seed and history too; what has no name, or none that is known, stays."""
    brief = in_book_names(
        parse_brief(
            {
                "lawn": {
                    "shape": [
                        {"kind": "circle", "radius": "5 m"},
                        {"kind": "circle", "radius": "5 m", "grass": "kikoejoe"},
                    ],
                    "grass": [
                        {"species": "couch", "share": 0.6},
                        {"species": "unknown", "share": 0.4},
                    ],
                    "part": [{"kind": "shade", "share": 0.2, "grass": "buffalo"}],
                },
                "place": {"latitude": -33.9, "longitude": 151.2, "country": "AU"},
                "seeding": {"intent": "overseed", "species": "green couch"},
                "history": {"sowings": [{"on": "2026-09-01", "species": "perennial rye"}]},
            }
        )
    )
    assert [g.species for g in brief.lawn.grass] == ["bermuda_common", "unknown"]
    assert [s.grass for s in brief.lawn.shape] == [None, "kikuyu"]
    assert brief.lawn.part[0].grass == "st_augustine"
    assert brief.seeding.species == "bermuda_common"
    assert brief.history.sowings[0].species == "perennial_ryegrass"


def test_ids_and_own_names_mean_themselves() -> None:
    """In every country but those where another grass is called so."""
    book = load_book()
    other = {("buffalo", country) for country in ("AU", "NZ", "ZA")}
    for grass in book.species.values():
        for country in (None, "US", "GB", "AU", "NZ", "ZA", "IN", "DE"):
            if (grass.id, country) not in other:
                assert grasses_called(book, grass.id, country) == (grass.id,)


def test_no_country_has_one_name_for_two() -> None:
    """A row with countries would otherwise ask where it should settle."""
    meant: dict[tuple[str, str], str] = {}
    for row in load_book().grass_names:
        for said in row.said:
            for country in row.countries:
                key = plain_name(said), country
                assert meant.setdefault(key, row.grass) == row.grass


@pytest.mark.parametrize(
    ("town", "said", "shown"),
    [
        ("Perth, AU", "buffalo", "buffalo (St. Augustinegrass)"),
        ("Pretoria", "kweek", "kweek (common bermudagrass)"),
        ("Delhi, IN", "durva", "doob (common bermudagrass)"),
        ("Leeds, GB", "smooth-stalked meadow-grass", "smooth-stalked meadow-grass (Kentucky"),
    ],
)
def test_sheets_and_calendar_say_it_so(town: str, said: str, shown: str, tmp_path: Path) -> None:
    """The plan, its calendar and windows call the grass as its country does."""
    brief = tmp_path / "lawn.toml"
    brief.write_text(
        f'[lawn]\narea = "300 m2"\ngrass = "{said}"\n\n'
        f'[place]\ntown = "{town}"\n[leveling]\ndepth = "6 mm"\n[seeding]\nintent = "none"\n',
        encoding="utf-8",
    )
    done = run("plan", str(brief), "-o", str(tmp_path / "out"), "--today", "2027-03-01")
    assert done.returncode == 0, done.stderr
    plan = json.loads((tmp_path / "out" / "plan.json").read_text(encoding="utf-8"))
    (grass,) = plan["lawn"]["grass"]
    assert grass["name"].startswith(shown)
    titles = " ".join(task["title"] for task in plan["tasks"])
    assert "Hollow-tine" in titles and "Core-aerate" not in titles and "Dethatch" not in titles
    assert run("print", str(brief), "book", "-o", str(tmp_path / "out")).returncode == 0
    (book,) = (tmp_path / "out").glob("*book*.html")
    assert (shown[0].upper() + shown[1:]) in book.read_text(encoding="utf-8")
    calendar = (tmp_path / "out" / "season.ics").read_bytes().decode().replace("\r\n ", "")
    assert "Hollow-tine" in calendar and "Core-aerate" not in calendar
    here = open_windows(said, {"town": town}, tmp_path, 2027)
    assert shown in here.words.text(here.grass)
