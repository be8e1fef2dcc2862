"""Which zone each cell of the lawn belongs to."""

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt
import shapely
from scipy.spatial import cKDTree

from turfplan.message import Worded
from turfplan.phrases import survey as phrases
from turfplan.site.survey.cells import Cells
from turfplan.site.survey.records import SurveyPoint, SurveySettings

REST: Worded = phrases.name_rest()


def zone_of_cells(
    cells: Cells, points: Sequence[SurveyPoint], settings: SurveySettings
) -> tuple[tuple[Worded, ...], npt.NDArray[np.int64]]:
    """The names of the zones, and the number of each cell's zone (n).

    By drawn outlines, else by the nearest point that names one.
    """
    if settings.zones:
        names = tuple(dict.fromkeys((*(zone.name for zone in settings.zones), REST)))
        member = np.full(len(cells.share), names.index(REST))
        places = cells.to_survey(cells.centroid_m)
        for zone in reversed(settings.zones):
            ring = shapely.Polygon(zone.ring)
            # A cell on the line between two zones belongs to one of them, not to the rest.
            edge = shapely.intersects_xy(ring, places) & (member == names.index(REST))
            member[shapely.contains_xy(ring, places) | edge] = names.index(zone.name)
        return names, member
    named = [p for p in points if p.zone]
    if not named:
        return (REST,), np.zeros(len(cells.share), dtype=np.int64)
    names = tuple(dict.fromkeys(p.zone or "" for p in named))
    tree = cKDTree(cells.to_frame(np.array([(p.x_m, p.y_m) for p in named], dtype=np.float64)))
    nearest = np.asarray(tree.query(cells.centroid_m)[1])
    return names, np.array([names.index(named[i].zone or "") for i in nearest], dtype=np.int64)
