"""Where the rain of the world grid says little of a lawn: in mountains, and far below or above the
ground that it holds for."""

from turfplan.climate.fitted_models import Models
from turfplan.climate.world_grid import Months
from turfplan.message import Message, Quantity
from turfplan.phrases import climate as phrases


def rain_doubt(models: Models, months: Months, height_m: float | None) -> Message | None:
    """Why the rain of the grid is doubtful at a place that lies `height_m` above the sea (None
    where nobody knows it); None where it is not.

    Temperature can be brought from one height to another, rain cannot: mountains catch it, and
    valleys behind them stay dry.
    """
    apart = 0.0 if height_m is None else abs(height_m - months.elevation_m)
    if height_m is not None and apart > models.number("rain", "doubtful_apart_m"):
        return phrases.rain_doubtful_height(
            grid_height=height_of(months.elevation_m), height=height_of(height_m)
        )
    if months.relief_m > models.number("rain", "doubtful_relief_m"):
        return phrases.rain_doubtful_relief(relief=height_of(months.relief_m))
    return None


def height_of(height_m: float) -> Quantity:
    """A height above the sea, known to ten feet or metres."""
    return Quantity(height_m * 1000, "distance", us_step=10, metric_step=10)
