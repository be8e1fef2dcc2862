"""Names of a brief against those of the book."""

from planning import brief_of
from turfplan.files.reading.book import load_book
from turfplan.planning.brief_check import check_brief


def places(**lawn: object) -> list[str]:
    """Where faults are."""
    return [fault.where for fault in check_brief(brief_of({"lawn": lawn}), load_book())]


def test_a_grass_is_found_where_it_stands() -> None:
    """One alone by its key, one of several by its number."""
    assert places() == []
    assert places(grass="crabgrass") == ["lawn.grass"]
    both = [{"species": "tall_fescue", "share": 0.5}, {"species": "crabgrass", "share": 0.5}]
    assert places(grass=both) == ["lawn.grass.1.species"]


def test_an_unknown_soil_is_told() -> None:
    """However it is spelt, a known one is none."""
    assert places(soil="moon dust") == ["lawn.soil"]
    assert places(soil="Clay-Loam") == []


def test_a_brief_that_asks_for_nothing_is_sent_back() -> None:
    """No seed, and no fill of any kind: neither a depth, nor hollows, nor a shape with one."""
    shape = {"kind": "rectangle", "length": "20 m", "width": "10 m"}
    drawn = {"lawn": {"area": None, "shape": [shape]}}
    deep = {"lawn": {"area": None, "shape": [{**shape, "depth": "10 mm"}]}}

    def intents(*changes: dict[str, object]) -> list[str]:
        brief = brief_of({"seeding": {"intent": "none"}}, *changes)
        return [fault.where for fault in check_brief(brief, load_book())]

    lows = {"leveling": {"depth": None, "lows": [{"depth": "20 mm", "share": 0.1}]}}
    level = {"leveling": {"depth": None}}
    assert intents(level) == intents(level, drawn) == ["seeding.intent"]
    assert intents({"leveling": {"depth": "0 in"}}) == ["seeding.intent"]
    assert intents() == intents(lows) == intents(level, deep) == []
    seeded = brief_of(level)
    assert [fault.where for fault in check_brief(seeded, load_book())] == []
