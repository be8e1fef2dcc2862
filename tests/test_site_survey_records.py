"""What a survey is read by where nothing else is said."""

import math

import pytest

from turfplan.site.survey.records import (
    Doubt,
    FillResult,
    SurveyPoint,
    SurveySettings,
    ZoneFill,
)


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("target", "own_fall"),
        ("least_mm", 0.0),
        ("span_m", 5.0),
        ("broad_window", 1.6),
        ("broad_closed", 0.5),
        ("straightedge_m", 3.0),
        ("allow_cut", False),
        ("instrument_error_mm", 3.0),
        ("setup_error_mm", 0.0),
        ("unseen_mm", 0.0),
        ("settle_low", 0.0),
        ("settle_share", 0.0),
        ("settle_high", 0.0),
        ("touch_up_share", 0.0),
        ("touch_up_mm", 0.0),
        ("fall_from_building", None),
        ("fall_to_swale", None),
        ("below_paving_mm", 0.0),
        ("paving_taper_m", 1.0),
        ("stake_spacing_m", 3.0),
        ("cells_wanted", 3000),
    ],
)
def test_a_survey_is_read_plainly_where_nothing_is_said(name: str, value: object) -> None:
    """No rule, no settling, nothing left alone; spans and spacings of a hand survey."""
    assert getattr(SurveySettings(10.0, 50.0), name) == value


def test_a_point_is_ground_of_the_first_setup() -> None:
    """In no zone, without a name."""
    point = SurveyPoint(1.0, 2.0, 3.0)
    assert (point.feature, point.setup, point.zone, point.name) == ("ground", 1, None, "")


def test_nothing_is_lifted_or_unseen_where_nothing_is_told() -> None:
    """Of a zone, and of a doubt."""
    zone = ZoneFill("z", 1.0, 1.0, 1.0, 1.0, 1.0, ())
    assert (zone.lift_m2, zone.lift_m3, zone.grass) == (0.0, 0.0, None)
    assert Doubt(1.0, 1.0, 1.0).unseen_m3 == 0.0 and math.isfinite(zone.volume_m3)
    assert FillResult.__dataclass_fields__["misclosure_mm"].default is None
