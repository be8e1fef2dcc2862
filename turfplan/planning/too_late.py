"""What should have come before work that is over, and cannot any more."""

from collections.abc import Collection, Sequence
from datetime import date

from turfplan.phrases import history as phrases
from turfplan.planning.candidates import MAIN_WORK
from turfplan.planning.days_left import fixed_nodes
from turfplan.planning.falling import without_tasks
from turfplan.planning.giving_way import with_work_closed
from turfplan.planning.past_binds import NEW, plays
from turfplan.records.constraints import Lag, Strength
from turfplan.records.past import TaskHistory
from turfplan.records.plan_task import Role
from turfplan.work.drafts import SeasonDraft, task_of_node
from turfplan.work.lawn import ResolvedLawn


def without_too_late(
    setting: ResolvedLawn, season: SeasonDraft, history: TaskHistory, open_from: date
) -> tuple[SeasonDraft, TaskHistory]:
    """A season without the open tasks that had to come before what history has fixed in the past,
    and the history with main work that is closed so.

    Rules that are newer than the plan before may ask for such. What has to come before one of them
    goes with it. Main work never goes, but for fill on ground that holds seed or plants already;
    nor does what is begun, done, over, or moved by hand, or what main work still to come needs.
    `open_from` is the first day on which anything can still be done.
    """
    first, new = open_from.toordinal(), _new_on_open_ground(setting, history)
    over = {
        node
        for node, day in fixed_nodes(season, history).items()
        if day < first or task_of_node(node) in new
    }
    lags = [lag for lag in season.constraints if isinstance(lag, Lag) and _binds(lag, first)]
    stays = _staying(setting, season, history)
    gone = _beside_work_done(season, history, first) - stays
    while True:
        late = {
            task_of_node(lag.before)
            for lag in lags
            if lag.after in over or task_of_node(lag.after) in gone
        }
        to_come = {n for n in stays - gone if plays(setting.book, n, MAIN_WORK)}
        late -= gone | stays | _needed(season, lags, to_come.difference(map(task_of_node, over)))
        if not late:
            return _closed(setting, season, history, gone)
        gone |= late


def _beside_work_done(season: SeasonDraft, history: TaskHistory, first: int) -> set[str]:
    """What shares the days of work that is done, and had to follow it sooner than the `first` day
    that is still open: seed is pressed in before its first water, or not at all."""
    beside = {d.id: d.beside for d in season.drafts if d.beside in history.done}
    return {
        after
        for lag in season.constraints
        if isinstance(lag, Lag) and lag.maximum is not None and lag.strength >= Strength.STRONG
        if (after := task_of_node(lag.after)) in beside
        and task_of_node(lag.before) == beside[after]
        and lag.maximum(history.done[task_of_node(lag.before)]) < first
    }


def _needed(season: SeasonDraft, lags: Sequence[Lag], to_come: Collection[str]) -> set[str]:
    """The tasks without which main work that is still to come cannot be, and those that go with it
    on its days."""
    before = {task_of_node(lag.before) for lag in lags if task_of_node(lag.after) in to_come}
    return before.union(
        task_of_node(c.after)
        for c in season.constraints
        if isinstance(c, Lag) and c.maximum is not None and c.strength >= Strength.STRONG
        if c.minimum is not None and task_of_node(c.before) in to_come
    )


def _closed(
    setting: ResolvedLawn, season: SeasonDraft, history: TaskHistory, gone: Collection[str]
) -> tuple[SeasonDraft, TaskHistory]:
    """The season without what is gone; main work among it is closed, with why."""
    if not any(plays(setting.book, name, MAIN_WORK) for name in gone):
        return without_tasks(season, gone), history
    return with_work_closed(setting, season, history, gone, (phrases.seed_lies_there(),))


def _binds(lag: Lag, day: int) -> bool:
    """Whether a lag holds what could be done on `day` before another task."""
    least = lag.minimum
    return least is not None and lag.strength >= Strength.STRONG and least(day) >= day


def _staying(setting: ResolvedLawn, season: SeasonDraft, history: TaskHistory) -> set[str]:
    """The tasks that never go: main work, which nothing after it makes needless, and of what
    history knows more than a day still open."""
    operations = setting.book.operations
    kept: Collection[Role] = NEW if _new_on_open_ground(setting, history) else MAIN_WORK
    main = {draft.id for draft in season.drafts if operations[draft.operation].plays(*kept)}
    return main.union(history.fixed, history.part_done)


def _new_on_open_ground(setting: ResolvedLawn, history: TaskHistory) -> set[str]:
    """What is sown or planted on ground that was to be worked before."""
    if not setting.on_open_ground:
        return set()
    return {name for name in history.done if plays(setting.book, name, NEW)}
