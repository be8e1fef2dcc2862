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
