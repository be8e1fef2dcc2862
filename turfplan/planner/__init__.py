"""Makes the plan: from a brief, the book and a climate to a season of dated, explained tasks."""

from turfplan.planner.briefing import check_brief
from turfplan.planner.making import Ground, Weather, make_plan

__all__ = ["Ground", "Weather", "check_brief", "make_plan"]
