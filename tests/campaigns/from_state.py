"""Plans from a state: what a re-plan goes on with is what planning from the same state would take
if nothing had been promised, or the plan says which promise it keeps.

Random walks through the journal; at each step the seasons of the last pass and of the seed are
compared with those of a plan that is held to no day.
"""

from collections import Counter
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path

from campaigns.records import Campaign, Figures
from campaigns.walks import Walk, walked
from turfplan.app.plan_lawn import known_place, now_of
from turfplan.planning import SoFar
from turfplan.planning.candidates import Candidate
from turfplan.planning.season_plan import dated_season
from turfplan.planning.worth import last_work
from turfplan.records.past import TaskHistory
from turfplan.records.plan import Plan

# Walks are wild: in so many of a hundred steps what is repeated for a new day decides.
MOST_PERCENT = 8.0
KEPT = ("reasons.promise_kept", "reasons.fill_kept")

Season = tuple[str, str, int] | None


@dataclass
class FromState(Walk):
    """A walk that compares each of its plans with one that is held to nothing."""

    found: Counter[str] = field(default_factory=Counter)
    last: str = ""

    def go(self, today: date, *, assume_not_done: bool = False) -> Plan:
        """Plan again on a day, and compare."""
        before = self.plan
        plan = super().go(today, assume_not_done=assume_not_done)
        if not assume_not_done:
            self.last = self._compared(before, plan, today)
            self.found[self.last] += 1
        return plan

    def _compared(self, before: Plan, plan: Plan, today: date) -> str:
        """Whether both go on in the same seasons (`same`), the plan says what it keeps (`told`),
        nothing is open (`over`), or none of these (`differs`)."""
        kept, history = self._dated(before, today, promised=True)
        anew, _ = self._dated(before, today, promised=False)
        if kept is None or anew is None or last_work(kept, history) is None:
            return "over"
        if seasons(kept, history) == seasons(anew, history):
            return "same"
        reasons = {r.reason.key for r in plan.rejected}
        return "told" if reasons & set(KEPT) else "differs"

    def _dated(
        self, before: Plan, today: date, *, promised: bool
    ) -> tuple[Candidate | None, TaskHistory]:
        given, now = self.given, now_of(today, self.given.climate.timezone)
        so_far = SoFar(tuple(self.journal), before, promised=promised)
        return dated_season(given.brief, given.book, known_place(given), so_far, now=now)


def seasons(candidate: Candidate, history: TaskHistory) -> tuple[Season, Season]:
    """The seasons in which a candidate spreads its last open pass and its seed; ground without
    grass is filled whenever its seed asks for it."""
    passes, new = last_work(candidate, history) or (0, 0)
    campaign = candidate.campaign
    dressed = campaign.sessions[-1].window if campaign.sessions else None
    led = candidate.setting.on_open_ground and new
    return tuple(  # type: ignore[return-value]
        (window.operation, window.season, window.end.year) if window is not None and still else None
        for window, still in ((dressed, passes and not led), (campaign.sow_window, new))
    )


def run(count: int, seed: int, folder: Path) -> Figures:
    """Fails where more than a few plans go on otherwise without a word."""
    found: Counter[str] = Counter()
    odd: list[str] = []
    for number in range(seed, seed + count):
        season = walked(number, made=FromState)
        if isinstance(season, FromState):
            found += season.found
            odd += [str(number)] * bool(season.found["differs"])
    percent = 100 * found["differs"] / max(1, found.total())
    assert percent <= MOST_PERCENT, f"{percent:.1f} % differ, in walks {odd}"
    return {"plans": found.total(), **{n: found[n] for n in ("same", "told", "over", "differs")}}


CAMPAIGN = Campaign("from_state", size=60, seed=7000, unit="walks", run=run)
