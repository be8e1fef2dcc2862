"""Briefs as people write them: their country by its letters or its name."""

from pathlib import Path

import pytest

from told_errors import problem_text
from turfplan.errors import TurfplanError
from turfplan.files.reading.brief import FaultyBriefError, brief_from, read_brief

LAWN = {"area": "100 m2", "grass": "kikuyu"}


@pytest.mark.parametrize(
    ("said", "code"),
    [
        ("KE", "KE"),
        ("ke", "KE"),
        ("Kenya", "KE"),
        ("UNITED STATES", "US"),
        ("USA", "US"),
        ("United States of America", "US"),
        ("UK", "GB"),
        ("United Kingdom", "GB"),
        ("New Zealand", "NZ"),
    ],
)
def test_a_country_is_known_by_its_letters_and_by_its_name(said: str, code: str) -> None:
    """Whatever its capitals."""
    assert (
        brief_from({"lawn": LAWN, "place": {"country": said, "town": "Lawns"}}).place.country
        == code
    )


def test_a_country_that_is_not_known_is_told_with_what_was_meant(tmp_path: Path) -> None:
    """Together with every other fault, and what is left of the brief is kept for more of them."""
    path = tmp_path / "lawn.toml"
    path.write_text(
        '[lawn]\narea = "x"\ngrass = "kikuyu"\n[place]\ntown = "Lawns"\ncountry = "Kenja"\n',
        "utf-8",
    )
    with pytest.raises(FaultyBriefError) as caught:
        read_brief(path)
    told = [problem_text(problem) for problem in caught.value.problems]
    assert any("Kenya" in text and "place.country" in text for text in told)
    assert any("lawn.area" in text for text in told)
    with pytest.raises(TurfplanError) as alone:
        brief_from({"lawn": LAWN, "place": {"country": "XX", "town": "Lawns"}})
    (problem,) = alone.value.problems
    assert "ISO 3166" in problem_text(problem)


@pytest.mark.parametrize(
    "said",
    ["19 December to 9 January", ["19 December to 9 January"], {"from": "x"}, "2026-12-19"],
)
@pytest.mark.parametrize(
    ("table", "key"), [("calendar", "away"), ("calendar", "unavailable"), ("water", "banned")]
)
def test_days_that_are_written_otherwise_are_answered_with_how_they_are(
    table: str, key: str, said: object
) -> None:
    """As they can be copied, at their key; no word of programmers."""
    with pytest.raises(TurfplanError) as caught:
        brief_from({"lawn": LAWN, "place": {"town": "Kiel"}, table: {key: said}})
    told = " ".join(map(problem_text, caught.value.problems))
    assert f"{table}.{key}" in told and "tuple" not in told
    assert "[{ from = 2026-12-19, to = 2027-01-09 }]" in told
