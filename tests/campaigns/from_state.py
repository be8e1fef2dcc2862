"""Plans from a state: what a re-plan goes on with is what planning from the same state would take
if nothing had been promised, or the plan says which promise it keeps.

Random walks through the journal; at each step the seasons of the last pass and of the seed are
compared with those of a plan that is held to no day.
"""

from collections import Counter
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path
from typing import Any
from unittest.mock import patch

from campaigns.records import Campaign, Figures
from campaigns.walks import Walk, walked
from turfplan.app.plan_lawn import known_place, now_of
from turfplan.planning import SoFar, season_plan
from turfplan.planning.candidates import Candidate, Comparison
from turfplan.planning.comparison_again import compare_again
from turfplan.planning.season_plan import dated_season
from turfplan.planning.worth import last_work
from turfplan.records.past import TaskHistory
from turfplan.records.plan import Plan

MOST_PERCENT = 0
KEPT = ("reasons.promise_kept", "reasons.fill_kept")

Season = tuple[str, str, int] | None
Chosen = tuple[Comparison, TaskHistory]


@dataclass
class FromState(Walk):
    """A walk that compares each of its plans with one that is held to nothing."""

    found: Counter[str] = field(default_factory=Counter)
    last: str = ""
    by_file: bool = False

    def go(self, today: date, *, assume_not_done: bool = False) -> Plan:
        """Plan again on a day, and compare."""
        before, chosen = self.plan, list[Chosen]()

        def seen(*given: Any) -> Comparison:
            found = compare_again(*given)
            chosen.append((found, given[4]))
            return found

        # What the plan was chosen from is not asked for once more.
        with patch.object(season_plan, "compare_again", seen):
            plan = super().go(today, assume_not_done=assume_not_done)
        if not assume_not_done:
            self.last = self._compared(before, plan, today, chosen[0] if chosen else None)
            self.found[self.last] += 1
        return plan

    def _compared(self, before: Plan, plan: Plan, today: date, chosen: Chosen | None) -> str:
        """Whether both go on in the same seasons (`same`), the plan says what it keeps (`told`),
        nothing is open (`over`) or new (`stands`), or none of these (`differs`)."""
        if chosen is None:
            return "stands"
        kept, history = chosen[0].best, chosen[1]
        if kept is not None and kept.dated.history is not None:
            history = kept.dated.history
        if kept is None or last_work(kept, history) is None:
            return "over"
        given, now = self.given, now_of(today, self.given.climate.timezone)
        so_far = SoFar(tuple(self.journal), before, promised=False)
        anew, _ = dated_season(given.brief, given.book, known_place(given), so_far, now=now)
        if anew is not None and seasons(kept, history) == seasons(anew, history):
            return "same"
        reasons = {r.reason.key for r in plan.rejected}
        return "told" if reasons & set(KEPT) else "differs"


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
        season = walked(number, made=FromState, checked=False)
        if isinstance(season, FromState):
            found += season.found
            odd += [str(number)] * bool(season.found["differs"])
    percent = 100 * found["differs"] / max(1, found.total())
    assert percent <= MOST_PERCENT, f"{percent:.1f} % differ, in walks {odd}"
    kinds = ("same", "told", "over", "stands", "differs")
    return {"plans": found.total(), **{n: found[n] for n in kinds}}


CAMPAIGN = Campaign("from_state", size=60, seed=7000, unit="walks", run=run)
