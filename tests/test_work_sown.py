"""What is sown by the brief's intent, and what is left out for want of sun."""

from typing import Any

import pytest

from planning import brief_of
from test_work_campaigns import setting_of
from turfplan.book.words import grass_name
from turfplan.message import listed

MIXED: dict[str, Any] = {
    "lawn": {
        "grass": [
            {"species": "kentucky_bluegrass", "share": 0.5},
            {"species": "tall_fescue", "share": 0.3},
            {"species": "perennial_ryegrass", "share": 0.2},
        ]
    }
}


@pytest.mark.parametrize(
    ("intent", "operation", "areas"),
    [
        ("none", None, 0),
        ("overseed", "overseed", 1),
        ("renovate", "seed", 1),
        ("plant", "plant", 1),
    ],
)
def test_an_intent_sows_what_it_names(intent: str, operation: str | None, areas: int) -> None:
    """Nothing where nothing is asked for: no area, no reason why not."""
    setting = setting_of(brief_of({"seeding": {"intent": intent}}))
    assert setting.sowing.operation == operation
    assert len(setting.sowing.areas) == areas and setting.sowing.refused is None


def test_what_does_not_live_on_the_sun_is_left_out_of_the_mix() -> None:
    """Five hours keep fescue and ryegrass of a mixed stand; bluegrass is told as left out."""
    setting = setting_of(brief_of(MIXED, {"site": {"sun_hours": 5}}))
    assert set(setting.sowing.grasses) == {"tall_fescue", "perennial_ryegrass"}
    (note,) = (m for m in setting.assumptions if m.key == "light.kept_of_stand")
    left = grass_name(setting.book, "kentucky_bluegrass")
    assert dict(note.values)["left"] == listed([left], "and")
    sunny = setting_of(brief_of(MIXED, {"site": {"sun_hours": 8}}))
    assert not [m for m in sunny.assumptions if m.key == "light.kept_of_stand"]
    assert set(sunny.sowing.grasses) >= {"tall_fescue", "kentucky_bluegrass"}
