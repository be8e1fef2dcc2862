"""The record of hours that the same hands had promised to other lawns of a house."""

from datetime import date

from turfplan.records.plan_task import PlanRecord


class HoursElsewhere(PlanRecord):
    """The hours of a day that were taken by other lawns when a plan was made; whose they are it
    does not say, since a plan shows nothing of another lawn."""

    day: date
    hours: float
