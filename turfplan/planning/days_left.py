"""What the journal leaves to choose: the days of what is done, overdue or held are fixed, and those
of what is open begin today."""

from collections.abc import Sequence
from datetime import date

from turfplan.phrases import history as phrases
from turfplan.records.constraints import Allowed, Constraint, DaySet, Reason, Strength
from turfplan.records.past import TaskHistory
from turfplan.work.drafts import Draft, SeasonDraft


def fixed_nodes(season: SeasonDraft, history: TaskHistory, first: int = 0) -> dict[str, int]:
    """Start and end nodes of what is done, overdue or held; `first` is the first day (an ordinal)
    that is still open: what was to be over before it lasted as long as it was to."""
    fixed: dict[str, int] = {}
    for draft in season.drafts:
        day = history.fixed.get(draft.id)
        if day is None:
            continue
        if draft.id in history.held and draft.id not in history.done:
            # A job of several days is moved whole: how long it takes says where it ends.
            fixed[draft.start_node] = day
            planned = history.planned.get(draft.id, first)
            if draft.duration_days > 1 and day <= planned < first:
                fixed[draft.end_node] = planned
            continue
        fixed[draft.end_node] = day
        if draft.duration_days > 1:
            began = (
                history.actual[draft.id].start.toordinal()
                if draft.id in history.actual
                else history.published.get(draft.id, day)
            )
            fixed[draft.start_node] = min(began, day)
    return fixed


def history_constraints(
    history: TaskHistory, drafts: Sequence[Draft], today: date, last_day: int
) -> tuple[Constraint, ...]:
    """Open tasks lie on or after today, and after the day that rain or a refusal took from them."""
    found: list[Constraint] = []
    fixed = history.fixed
    for draft in drafts:
        if draft.id in fixed:
            continue
        first = today.toordinal()
        found.append(
            Allowed(
                f"today:{draft.id}",
                draft.start_node,
                DaySet.of([(first, last_day)]),
                Strength.HARD,
                Reason("history.today", phrases.still_to_do()),
            )
        )
        if draft.id in history.not_before:
            day, words = history.not_before[draft.id]
            found.append(
                Allowed(
                    f"put_off:{draft.id}",
                    draft.start_node,
                    DaySet.of([(day, last_day)]),
                    Strength.HARD,
                    Reason("history.put_off", words),
                )
            )
    return tuple(found)
