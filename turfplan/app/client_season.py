"""What became of a lawn among many: its line of the summary, and the table of all lines."""

import csv
import io
from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Literal

from pydantic import BaseModel, ConfigDict, ValidationError

from turfplan.business.client_columns import safe_cell
from turfplan.business.lawn_glance import LawnGlance
from turfplan.errors import Problem, TurfplanError
from turfplan.files.system_faults import unwritable
from turfplan.files.whole_files import write_into_folders
from turfplan.phrases import clients as phrases

HEADS = ("client", "state", "campaign", "first work", "seed or last pass", "order")
MORE_HEADS = ("name", "news", "changes", "overdue", "next", "last day", "hours", "warnings")
SUMMARY = "summary.csv"
RowState = Literal["planned", "paused", "left", "not possible", "bad row", "not written", "fault"]
# What stops nothing: the lawn is as it should be.
GOOD_STATES: frozenset[RowState] = frozenset({"planned", "paused", "left"})
News = Literal["first", "changed", "none"]


class ClientSeason(BaseModel):
    """What became of a lawn: its line of the summary under `HEADS`, what differs from the plan
    before, and what the user must know of it.

    `campaign` says what is wrong where the state is not `planned`, until when a lawn is `paused`,
    since when its client has `left`; `order` the ways out where it is `not possible`. `line` is
    that of its row, 0 where no file was read. `on` is the day of the planning where nothing was
    planned: on another day there may be a way. `rules` is the sum of the rules of its group and
    place that it was planned by.
    """

    model_config = ConfigDict(frozen=True, extra="ignore")
    line: int
    client: str
    state: RowState
    campaign: str
    first_work: date | None = None
    main_work: date | None = None
    order: str = ""
    notes: tuple[str, ...] = ()
    news: News = "none"
    changes: tuple[str, ...] = ()
    glance: LawnGlance | None = None
    on: date | None = None
    rules: str = ""

    @property
    def cells(self) -> tuple[str, ...]:
        """The row of the summary."""
        first, main = (day.isoformat() if day else "" for day in (self.first_work, self.main_work))
        return (self.client, self.state, self.campaign, first, main, self.order)

    def more_cells(self, today: date) -> tuple[str, ...]:
        """The rest of its row, under `MORE_HEADS`."""
        glance = self.glance
        if glance is None:
            return ("",) * len(MORE_HEADS)
        job, near = glance.next_job(today), [job.last for job in glance.jobs if job.main]
        return (
            glance.name,
            self.news,
            "; ".join(self.changes),
            str(len(glance.overdue(today))),
            f"{job.start.isoformat()} {job.title}" if job is not None else "",
            min(near).isoformat() if near else "",
            f"{glance.hours:.1f}",
            str(glance.warnings),
        )


def season_of(said: str) -> ClientSeason | None:
    """A line as the index of lawns keeps it; None for what cannot be read, which is made again."""
    try:
        return ClientSeason.model_validate_json(said)
    except ValidationError:
        return None


def write_summary(path: Path, seasons: Sequence[ClientSeason], today: date) -> TurfplanError | None:
    """Write the summary; why it could not be, if it could not: all plans stand without it."""
    text = io.StringIO(newline="")
    writer = csv.writer(text)
    writer.writerow((*HEADS, *MORE_HEADS))
    for season in seasons:
        writer.writerow([safe_cell(cell) for cell in (*season.cells, *season.more_cells(today))])
    try:
        write_into_folders({path: text.getvalue().encode()})
    except OSError as error:
        problem: Problem = replace(unwritable(path, error), hint=phrases.plans_stand())
        return TurfplanError(problem)
    return None
