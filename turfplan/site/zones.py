"""Which zone each cell of the lawn belongs to."""

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt
from scipy.spatial import cKDTree

from turfplan.site.cells import Cells
from turfplan.site.polygons import inside
from turfplan.site.records import SurveyPoint, SurveySettings

REST = "lawn"


def zone_of_cells(
    cells: Cells, points: Sequence[SurveyPoint], settings: SurveySettings
) -> tuple[tuple[str, ...], npt.NDArray[np.int64]]:
    """The names of the zones, and the number of each cell's: by drawn outlines, else by the nearest point that names one."""
    if settings.zones:
        names = tuple(dict.fromkeys((*(zone.name for zone in settings.zones), REST)))
        member = np.full(len(cells.share), names.index(REST))
        places = cells.to_survey(cells.centroid_m)
        for zone in reversed(settings.zones):
            within = np.array([inside(zone.ring, float(x), float(y)) for x, y in places])
            member[within] = names.index(zone.name)
        return names, member
    named = [p for p in points if p.zone]
    if not named:
        return (REST,), np.zeros(len(cells.share), dtype=np.int64)
    names = tuple(dict.fromkeys(p.zone or "" for p in named))
    tree = cKDTree(cells.to_frame(np.array([(p.x_m, p.y_m) for p in named], dtype=np.float64)))
    nearest = np.asarray(tree.query(cells.centroid_m)[1])
    return names, np.array([names.index(named[i].zone or "") for i in nearest], dtype=np.int64)
