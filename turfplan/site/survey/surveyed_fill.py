"""A survey becomes the fill of a lawn."""

from collections.abc import Sequence
from importlib.util import find_spec
from typing import TYPE_CHECKING

from turfplan.site.outlines.geodesy import missing_survey_tools
from turfplan.site.survey.records import FillResult, SurveyPoint, SurveySettings

if TYPE_CHECKING:
    from turfplan.site.survey.rod_readings import Leveled

# What a survey is reckoned with, and the maps of its plan are drawn with (the extra `survey`).
TOOLS = ("contourpy", "numpy", "scipy", "shapely")


def fill_from_survey(
    points: Sequence[SurveyPoint], settings: SurveySettings, leveled: "Leveled | None" = None
) -> FillResult:
    """What is missing between ground and target: depths, volumes with their error, passes, stakes.

    Pure: the same points and settings give the same result. Raises TurfplanError with every fault
    of the points or the outline, and MissingToolError where numpy, scipy, shapely or contourpy is
    absent (the optional extra `survey`).
    """
    for tool in TOOLS:
        if find_spec(tool) is None:
            raise missing_survey_tools(tool)
    from turfplan.site.survey.fill import fill_of

    return fill_of(points, settings, leveled)
