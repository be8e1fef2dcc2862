"""How far a task can slip while every other keeps its day, and which would have to move beyond."""

from collections.abc import Collection, Iterable, Mapping, Sequence
from datetime import date

from turfplan.planning.schedule import Dated
from turfplan.records.constraints import Allowed, Constraint, Lag, Strength
from turfplan.records.plan_task import Slack
from turfplan.work.drafts import Draft, task_of_node

# A lag that is only preferred holds nothing back; days off do, whatever their strength.
LEAST = Strength.ADVICE


def slacks_of(dated: Dated, drafts: Iterable[Draft]) -> dict[str, Slack]:
    """The slack of each draft by its id, on the days that were chosen.

    What shares the day of a task (a pass and its working in) slips with it.
    """
    slips = _Slips(dated)
    return {draft.id: slips.of(draft) for draft in drafts}


class _Slips:
    """The network around its chosen days: what is broken on them already binds nothing."""

    def __init__(self, dated: Dated) -> None:
        self._days = dated.schedule.days
        self._last = dated.problem.last_day
        self._allowed: dict[str, list[Allowed]] = {}
        self._lags: dict[str, list[Lag]] = {}
        gone = {constraint.id for constraint in dated.dropped}
        for constraint in dated.problem.constraints:
            if constraint.id not in gone and self._holds(constraint):
                self._keep(constraint)

    def _holds(self, constraint: Constraint) -> bool:
        """Whether it speaks of known nodes, and is kept on the chosen days."""
        days = self._days
        if isinstance(constraint, Allowed):
            return constraint.node in days and days[constraint.node] in constraint.days
        if constraint.before not in days or constraint.after not in days:
            return False
        return constraint.strength >= LEAST and _kept(constraint, days)

    def _keep(self, constraint: Constraint) -> None:
        if isinstance(constraint, Allowed):
            self._allowed.setdefault(constraint.node, []).append(constraint)
            return
        for node in {constraint.before, constraint.after}:
            self._lags.setdefault(node, []).append(constraint)

    def of(self, draft: Draft) -> Slack:
        """The last first day of a draft with all others where they are; beyond it the tasks that
        would move, none where its own days end."""
        start = draft.start_node
        group = self._together(draft)
        latest, day = self._days[start], self._days[start]
        moves: tuple[str, ...] = ()
        while (following := self._next(start, day + 1)) is not None:
            day = following
            shifted = self._shifted(group, start, day)
            if shifted is None:
                continue
            days = {**self._days, **shifted}
            moves = self._pushed(shifted, days)
            if moves:
                break
            if self._is_open(shifted, days):
                latest = day
        return Slack(end=date.fromordinal(latest), moves=moves)

    def _together(self, draft: Draft) -> tuple[str, ...]:
        """The nodes of a task and of what shares its day: what may come no later than the same day
        and is on it."""
        found = [draft.start_node]
        found += [draft.end_node] if draft.end_node != draft.start_node else []
        for node in found:
            for lag in self._lags.get(node, ()):
                other = lag.after if lag.before == node else lag.before
                if other not in found and (_same_task(node, other) or self._on_its_day(lag)):
                    found.append(other)
        return tuple(found)

    def _on_its_day(self, lag: Lag) -> bool:
        before, after = self._days[lag.before], self._days[lag.after]
        return before == after and lag.maximum is not None and lag.maximum(before) == before

    def _next(self, node: str, day: int) -> int | None:
        """The first day from `day` on that is open to a node; None where none is left."""
        while day <= self._last:
            found = day
            for allowed in self._allowed.get(node, ()):
                opens = allowed.days.next(found)
                if opens is None:
                    return None
                found = opens
            if found == day:
                return day
            day = found
        return None

    def _shifted(self, group: Sequence[str], start: str, day: int) -> dict[str, int] | None:
        """The days of a group whose task begins on `day`: those on its day come with it, and ends
        follow from beginnings; None where one of them is open on no day any more."""
        chosen = self._days
        days = {
            node: day if chosen[node] == chosen[start] else max(chosen[node], day) for node in group
        }
        for _ in group:
            for node in group:
                least = days[node]
                for lag in self._lags.get(node, ()):
                    if lag.after == node and lag.before in days and lag.minimum is not None:
                        least = max(least, lag.minimum(days[lag.before]))
                opens = self._next(node, least)
                if opens is None:
                    return None
                days[node] = opens
        return days

    def _is_open(self, shifted: Iterable[str], days: Mapping[str, int]) -> bool:
        """Whether the group can stand on these days: the task's own, none later than it may."""
        return all(_kept(lag, days) for node in shifted for lag in self._lags.get(node, ()))

    def _pushed(self, shifted: Collection[str], days: Mapping[str, int]) -> tuple[str, ...]:
        """The tasks outside a group that these days of it would move, in order of their days."""
        own = {task_of_node(node) for node in shifted}
        pushed = {
            task_of_node(other)
            for node in shifted
            for lag in self._lags.get(node, ())
            if (other := lag.after if lag.before == node else lag.before) not in shifted
            and not _kept(lag, days)
        }
        return tuple(sorted(pushed - own, key=lambda task: (self._days.get(task, 0), task)))


def _same_task(node: str, other: str) -> bool:
    return task_of_node(node) == task_of_node(other)


def _kept(lag: Lag, days: Mapping[str, int]) -> bool:
    """Whether a lag is kept on these days."""
    before, after = days[lag.before], days[lag.after]
    if lag.minimum is not None and after < lag.minimum(before):
        return False
    return lag.maximum is None or after <= lag.maximum(before)
