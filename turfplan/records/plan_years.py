"""The records of how often planned dates would have worked in other years."""

from typing import Literal

from turfplan.records.plan_task import NOTHING, PlanRecord, Said


class YearsWorked(PlanRecord):
    """How often a planned date would have worked, in real or in generated years."""

    task: str
    years: int
    worked: int
    reason: Said


class SeasonYears(PlanRecord):
    """In how many years rain lets the whole season through.

    Dry days of work come for each pass, and rain enough where nobody waters what is sown. The
    weather is that of real years (`measured`), or made from monthly normals (`generated`): then
    `method` says how.
    """

    weather: Literal["measured", "generated"]
    years: int
    worked: int
    reason: Said
    method: Said = NOTHING
