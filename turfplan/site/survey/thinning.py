"""Very many points become fewer nodes, each the mean of the points around it."""

from dataclasses import dataclass

import numpy as np
from scipy.sparse import csr_matrix, identity

from turfplan.site.survey.arrays import Floats

# Enough nodes across a span for its fall to be read, and not so many that each node has thousands
# of neighbours.
NODES_ACROSS_SPAN = 7.0
MOST_NODES = 3000


@dataclass(frozen=True, slots=True)
class Nodes:
    """Places in m, and the matrix that takes the mean of the points that belong to each."""

    xy_m: Floats
    matrix: csr_matrix


def thinned(xy: Floats, span_m: float) -> Nodes:
    """Points no denser than the target needs.

    The points themselves where they are not, else means over square bins.
    """
    reach = xy.max(axis=0) - xy.min(axis=0)
    side = max(span_m / NODES_ACROSS_SPAN, float(np.sqrt(reach[0] * reach[1] / MOST_NODES)))
    if len(xy) * side * side <= 1.5 * reach[0] * reach[1] or len(xy) < 200:
        return Nodes(xy, csr_matrix(identity(len(xy))))
    bins = np.floor((xy - xy.min(axis=0)) / side).astype(np.int64)
    key = bins[:, 0] * (int(bins[:, 1].max()) + 1) + bins[:, 1]
    _, member = np.unique(key, return_inverse=True)
    count = np.bincount(member)
    matrix = csr_matrix(
        (1.0 / count[member], (member, np.arange(len(xy)))), shape=(len(count), len(xy))
    )
    return Nodes(np.asarray(matrix @ xy), matrix)
