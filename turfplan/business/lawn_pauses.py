"""When a client's lawn rests: no plan, no jobs, no material and no messages while it is paused."""

from collections.abc import Iterable
from datetime import date

from pydantic import BaseModel, ConfigDict


class Pause(BaseModel):
    """Days on which nothing is done for a client, the last among them; without an `end` until it is
    taken back or ended. `name` is that of the call that wrote it."""

    model_config = ConfigDict(frozen=True, extra="ignore")
    name: str
    start: date
    end: date | None = None
    by: str = ""
    note: str = ""

    def covers(self, day: date) -> bool:
        """Whether a day lies in it."""
        return self.start <= day and (self.end is None or day <= self.end)


def pause_on(pauses: Iterable[Pause], day: date) -> Pause | None:
    """The pause of a day, the one that lasts longest; None where nobody is paused."""
    found = [pause for pause in pauses if pause.covers(day)]
    return max(found, key=lambda pause: pause.end or date.max, default=None)


def paused_since(pauses: Iterable[Pause], planned: date, today: date) -> bool:
    """Whether a pause that is over on `today` has taken days since a plan was made."""
    return any(
        pause.end is not None and planned <= pause.end < today and pause.start <= today
        for pause in pauses
    )


def over_on(pauses: Iterable[Pause], last: date) -> tuple[Pause, ...]:
    """The pauses, those that go on beyond a day ended on it; one that had not begun goes."""
    kept = []
    for pause in pauses:
        if pause.start > last:
            continue
        goes_on = pause.end is None or pause.end > last
        kept.append(pause.model_copy(update={"end": last}) if goes_on else pause)
    return tuple(kept)
