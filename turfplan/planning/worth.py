"""What a way to go on is worth: the season and the rules that it keeps, the work that it asks for,
and what it breaks of what was promised."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from turfplan.network import nodes_of
from turfplan.planning.candidates import MAIN_WORK, Candidate, given_up
from turfplan.records.constraints import Constraint, Strength
from turfplan.records.past import TaskHistory
from turfplan.records.plan_task import Role
from turfplan.work.campaigns import cost_from_now
from turfplan.work.drafts import Draft, task_of_node
from turfplan.work.filling import left_share
from turfplan.work.lawn import ResolvedLawn

# Rules of what people can do, by their names.
OF_PEOPLE = "work."
# Work for which somebody else has been told a day.
OF_OTHERS: tuple[Role, ...] = ("ordering", "delivery", "marking")


@dataclass(frozen=True, slots=True)
class Worth:
    """What speaks against a way to go on, in the judgement of the trade (less is better).

    `season` is how late it is and what it gives up of fill, seed and rules, `work` the hours and
    loads still to come, `promises` what it breaks of the plan before; `moved_days` are the days by
    which its sessions move.
    """

    season: float
    work: float
    promises: float
    moved_days: int

    @property
    def without_promises(self) -> float:
        """What speaks against it where nothing was promised."""
        return self.season + self.work

    @property
    def total(self) -> float:
        """All that speaks against it."""
        return self.season + self.work + self.promises


def worth_of(
    now: ResolvedLawn, candidate: Candidate, history: TaskHistory, promised: Candidate | None
) -> Worth:
    """What speaks against a candidate from today on: `now` is the lawn whose first day is that,
    `promised` the plan before as far as it can be kept (None: it cannot)."""
    book = now.book
    lawn = candidate.setting
    bent = [
        _as_bent(c) for c in candidate.dated.dropped if history.fixed.keys().isdisjoint(_tasks(c))
    ]
    season = cost_from_now(replace(lawn, first_day=now.first_day), candidate.campaign)
    over = history.fixed.keys() - history.held.keys()
    still = [d for d in candidate.season.drafts if d.id not in over]
    hours = sum(d.person_hours for d in still) * book.si("campaign.cost_hour")
    loads = sum(1 for d in still if d.load is not None and _plays(now, d, ("delivery",)))
    moved = dict(_moved(candidate, still, history))
    days = sum(moved.values())
    told = sum(
        1
        for d in still
        if _plays(now, d, OF_OTHERS) and d.id in history.published
        if candidate.dated.day(d.start_node) != history.published[d.id]
    )
    counted = min(days, now.days("campaign.moved_days_most"))
    promises = counted * book.si("campaign.cost_moved_day") + told * book.si("campaign.cost_told")
    season += given_up(now, bent)
    if promised is not None:
        more = left_share(lawn.levelling) - left_share(promised.setting.levelling)
        promises += max(0.0, more) * book.si("campaign.cost_left")
        later = _end(candidate, history) - _end(promised, history)
        if later > now.days("campaign.moved_days_most"):
            promises += book.si("campaign.cost_season_lost")
    return Worth(season, hours + loads * book.si("campaign.cost_load"), promises, days)


def last_work(candidate: Candidate, history: TaskHistory) -> tuple[int, int] | None:
    """The days (ordinals) of the last open pass and the last open seed or plants of a candidate, 0
    where there is none; None where nothing of either is open."""
    over = history.fixed.keys() - history.held.keys()
    setting = candidate.setting
    passes, new = (
        max(
            (
                candidate.dated.day(d.end_node)
                for d in candidate.season.drafts
                if d.id not in over and _plays(setting, d, roles)
            ),
            default=0,
        )
        for roles in (("spreading",), ("sowing", "planting"))
    )
    return (passes, new) if passes or new else None


def _end(candidate: Candidate, history: TaskHistory) -> int:
    """The last day (an ordinal) of the open main work of a candidate; 0 where nothing is open."""
    return max(last_work(candidate, history) or (0, 0))


def _as_bent(constraint: Constraint) -> Constraint:
    """A rule as it counts where it is bent: how people divide their days among jobs takes no season
    from the grass."""
    own = of_people(constraint)
    return replace(constraint, strength=Strength.PREFERENCE) if own else constraint


def of_people(constraint: Constraint) -> bool:
    """Whether a rule says how people divide their days among jobs."""
    return constraint.reason.rule.startswith(OF_PEOPLE)


def _tasks(constraint: Constraint) -> set[str]:
    """The tasks that a rule binds: what bound work that is over, or that somebody chose a day for,
    is bent by them and not by a way to go on."""
    return {task_of_node(node) for node in nodes_of(constraint)}


def _moved(
    candidate: Candidate, still: list[Draft], history: TaskHistory
) -> Iterator[tuple[int, int]]:
    """By session, the most days by which a part of its main work moves: a session moves as one."""
    sessions = {d.session for d in still}
    for session in sessions:
        yield (
            session,
            max(
                (
                    abs(candidate.dated.day(d.start_node) - history.published[d.id])
                    for d in still
                    if d.session == session and d.id in history.published
                    if _plays(candidate.setting, d, MAIN_WORK)
                ),
                default=0,
            ),
        )


def _plays(setting: ResolvedLawn, draft: Draft, roles: tuple[Role, ...]) -> bool:
    return setting.book.operations[draft.operation].plays(*roles)
