"""The cells of a lawn become a grid for pictures, turned so that it lies as the survey does."""

import math

import numpy as np
import numpy.typing as npt

from turfplan.site.survey.arrays import Floats
from turfplan.site.survey.cells import Cells
from turfplan.site.survey.records import FillGrid


def grid_of(
    cells: Cells, ground_mm: Floats, target_mm: Floats, fill_mm: Floats, zone: npt.NDArray[np.int64]
) -> FillGrid:
    """The grid with x to the right and y up, as nearly as the lawn's box allows (45 degrees)."""
    quarter = round(cells.angle / (math.pi / 2))
    angle = cells.angle - quarter * math.pi / 2
    ground, target, fill = (
        _listed(_turned(cells, values, quarter)) for values in (ground_mm, target_mm, fill_mm)
    )
    share = _turned(cells, cells.share, quarter)
    wide, deep = (
        (cells.width_m, cells.depth_m) if quarter % 2 == 0 else (cells.depth_m, cells.width_m)
    )
    rows, columns = share.shape
    c, s = math.cos(angle), math.sin(angle)
    x, y = -(columns - 1) / 2 * wide, -(rows - 1) / 2 * deep
    shares = tuple(round(float(v), 4) for v in np.nan_to_num(share).ravel())
    return FillGrid(
        cells.centre_m[0] + c * x - s * y,
        cells.centre_m[1] + s * x + c * y,
        angle,
        wide,
        deep,
        columns,
        rows,
        ground,
        target,
        fill,
        shares,
        tuple(int(n) for n in np.nan_to_num(_turned(cells, zone, quarter)).ravel()),
    )


def _turned(cells: Cells, values: Floats | npt.NDArray[np.int64], quarter: int) -> Floats:
    full = np.full((cells.rows, cells.columns), np.nan)
    full[cells.row, cells.column] = values
    # Rows count upward, so turning the lawn against the clock turns the array with the clock.
    return np.rot90(full, -quarter)


def _listed(layer: Floats) -> tuple[float | None, ...]:
    return tuple(None if math.isnan(v) else round(v, 2) for v in layer.ravel().tolist())
