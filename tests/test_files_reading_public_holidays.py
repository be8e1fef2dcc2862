"""Public holidays that are kept in the user's cache."""

from pathlib import Path

import pytest

from turfplan.files.reading import public_holidays
from turfplan.files.reading.public_holidays import holidays_of_year
from turfplan.planning.public_holidays import listed_holidays
from turfplan.user_cache import cache_folder

ASKED = [("US", "PA", 2027), ("US", "../../PA", 2027), ("DE", None, 2028), ("XX", None, 2027)]


@pytest.fixture(autouse=True)
def cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A cache of its own for each test."""
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))


@pytest.mark.parametrize(("country", "part", "year"), ASKED)
def test_what_is_kept_is_what_the_library_lists(country: str, part: str | None, year: int) -> None:
    """The first time and the second; a state that its owner misspelt leads out of no folder."""
    known = listed_holidays(country, part, year)
    assert holidays_of_year(country, part, year) == known == holidays_of_year(country, part, year)
    assert len(list(cache_folder().iterdir())) == 1


def test_what_is_kept_is_read_until_the_library_is_another(monkeypatch: pytest.MonkeyPatch) -> None:
    """Nothing is listed anew by the same version, and all of it by the next."""
    known = holidays_of_year("GB", None, 2027)
    monkeypatch.setattr(public_holidays, "listed_holidays", lambda *_: frozenset({1}))
    assert holidays_of_year("GB", None, 2027) == known
    monkeypatch.setattr(public_holidays, "version_of", lambda _: "another")
    assert holidays_of_year("GB", None, 2027) == frozenset({1})
