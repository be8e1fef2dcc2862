"""The frozen record of a callback: what a client called back for, as a visit with its day."""

from datetime import date

from pydantic import BaseModel, ConfigDict, Field

from turfplan.business.lawn_glance import GlancedJob

# What the tasks of callbacks are called in lists: no task of a plan is called so.
CALLBACK = "callback"


class Callback(BaseModel):
    """A visit that no plan holds: what for, on which day, for how many hours of all people.

    `done_on` is the day on which it was done, with the hours that it took; `dropped_on` that on
    which it fell away. `key` is that of the call by which it was marked as done.
    """

    model_config = ConfigDict(frozen=True, extra="ignore")
    number: int = Field(ge=1)
    text: str
    on: date
    hours: float = 0.0
    written_on: date
    by: str = ""
    done_on: date | None = None
    used_hours: float | None = None
    dropped_on: date | None = None
    key: str | None = None

    @property
    def task(self) -> str:
        """What it is called where tasks are named."""
        return f"{CALLBACK}.{self.number}"

    @property
    def is_open(self) -> bool:
        """Whether it is still to be done."""
        return self.done_on is None and self.dropped_on is None

    def job(self, title: str) -> GlancedJob:
        """It as a job of a list, under a title."""
        return GlancedJob(
            task=self.task, title=title, start=self.on, end=self.on, hours=self.hours, last=self.on
        )
