"""Makes the plan: from a brief, the book and a climate to a season of dated, explained tasks."""

from turfplan.planning.brief_check import check_brief, grass_fault
from turfplan.planning.plan_sources import KnownPlace, LawnGround, SoFar, Weather
from turfplan.planning.season_plan import make_plan

__all__ = [
    "KnownPlace",
    "LawnGround",
    "SoFar",
    "Weather",
    "check_brief",
    "grass_fault",
    "make_plan",
]
