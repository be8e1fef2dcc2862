"""Readings that stand apart from their neighbours are named."""

import numpy as np
from scipy.spatial import cKDTree

from turfplan.site.survey.ground import SurveyedGround
from turfplan.site.survey.records import Outlier, SurveySettings

# A reading that is off by this many spreads of its neighbours, and of the reading's own error, is
# a slip or a stone.
SPREADS = 6.0
NEIGHBOURS = 8


def outliers_of(ground: SurveyedGround, settings: SurveySettings) -> tuple[Outlier, ...]:
    """The readings that lie off their neighbours' plane far more than these do themselves.

    A hollow has several low points and is none; one point alone, much lower or higher than all
    around it, is named.
    """
    count = min(NEIGHBOURS, ground.count - 1)
    if count < 5:
        return ()
    near = np.asarray(cKDTree(ground.xy_m).query(ground.xy_m, k=count + 1)[1])[:, 1:]
    offset = ground.xy_m[near] - ground.xy_m[:, None]
    height = ground.height_mm[near]
    basis = np.concatenate([np.ones((*near.shape, 1)), offset], axis=2)
    fitted = np.einsum("nij,nj->ni", np.linalg.pinv(basis, rcond=1e-9), height)
    rest = height - np.einsum("nij,nj->ni", basis, fitted)
    spread = np.maximum(np.abs(rest).max(axis=1), settings.instrument_error_mm)
    apart = ground.height_mm - fitted[:, 0]
    # A good point beside a slip has the slip among its neighbours: their spread is wide, so only
    # the slip is named.
    slips = np.nonzero(
        np.abs(apart) > np.maximum(SPREADS / 2 * spread, SPREADS * settings.instrument_error_mm)
    )[0]
    return tuple(
        Outlier(ground.names[i], float(ground.height_mm[i]), float(fitted[i, 0])) for i in slips
    )
