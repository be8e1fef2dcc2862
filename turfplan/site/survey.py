"""A survey becomes the fill of a lawn."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from turfplan.site.geodesy import missing_survey_tools
from turfplan.site.records import FillResult, SurveyPoint, SurveySettings

if TYPE_CHECKING:
    from turfplan.site.levelling import Leveled


def fill_from_survey(
    points: Sequence[SurveyPoint], settings: SurveySettings, leveled: "Leveled | None" = None
) -> FillResult:
    """What is missing between the measured ground and the target surface: depths, volumes with their error, passes, stakes.

    Pure: the same points and settings give the same result. Raises TurfplanError with every fault of the points or the
    outline, and MissingToolError where numpy or scipy is absent (the optional extra `survey`).
    """
    try:
        import numpy  # noqa: F401
        import scipy  # noqa: F401
    except ImportError as error:
        raise missing_survey_tools(error.name or "numpy") from None
    from turfplan.site.filling import fill_of

    return fill_of(points, settings, leveled)
