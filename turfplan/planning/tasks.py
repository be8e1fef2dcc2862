"""Puts dated drafts, amounts and reasons together into the records of a plan."""

from collections.abc import Collection, Mapping, Sequence
from datetime import date

from turfplan.book.words import book_message, book_messages, optional_message
from turfplan.message import Message
from turfplan.phrases import places
from turfplan.phrases import reasons as because
from turfplan.planning.candidates import Candidate
from turfplan.planning.reasons import days_off_alone, reasons, wish_earlier, wish_later
from turfplan.planning.slack import slacks_of
from turfplan.planning.task_names import plain_titles
from turfplan.records.constraints import Allowed, Constraint, Strength
from turfplan.records.plan_task import Slack, Task, TaskWindow
from turfplan.work.days_off import days_of
from turfplan.work.drafts import Draft, OpenDays, task_of_node
from turfplan.work.feeding.stages import work_before
from turfplan.work.keep_off import FIRST_CUT, keep_off
from turfplan.work.lateness import grade, told
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.order import SOWING
from turfplan.work.phases.marks import digs
from turfplan.work.phases.seedling_look import LOOK, told_of_bare_spots


def tasks_of(
    setting: ResolvedLawn, candidate: Candidate, drafts: Mapping[str, Draft]
) -> tuple[Task, ...]:
    """Every draft as a task of the plan, in order of date."""
    titles = plain_titles(setting, candidate.season)
    bound = _bound(candidate)
    wished = {node.id: node.ideal for node in candidate.dated.problem.nodes}
    slacks = slacks_of(candidate.dated, drafts.values())
    tasks = [
        task_of(
            setting,
            candidate,
            draft,
            titles,
            bound.get(draft.start_node, []),
            wished[draft.start_node],
        ).model_copy(update={"slack": slacks[draft.id]})
        for draft in drafts.values()
    ]
    idle = {draft.id for draft in candidate.season.drafts} - drafts.keys()
    if idle:
        tasks = [
            t.model_copy(
                update={
                    "depends_on": tuple(name for name in t.depends_on if name not in idle),
                    "slack": _without(t.slack, idle),
                }
            )
            for t in tasks
        ]
    return tuple(sorted(tasks, key=lambda t: (t.start, t.id)))


def _without(slack: Slack | None, idle: Collection[str]) -> Slack | None:
    """The slack less what is no task of the plan any more."""
    if slack is None:
        return None
    return slack.model_copy(update={"moves": tuple(n for n in slack.moves if n not in idle)})


def _bound(candidate: Candidate) -> dict[str, list[Constraint]]:
    """By node, the constraints that allow its days or hold it behind another."""
    bound: dict[str, list[Constraint]] = {}
    for constraint in candidate.season.constraints:
        node = constraint.node if isinstance(constraint, Allowed) else constraint.after
        bound.setdefault(node, []).append(constraint)
    return bound


def task_of(
    setting: ResolvedLawn,
    candidate: Candidate,
    draft: Draft,
    titles: Mapping[str, Message],
    bound: Sequence[Constraint],
    wished: int | None,
) -> Task:
    """One draft on its days, with words, reasons, window and fallback day.

    `bound` are the constraints on its first day, `wished` the day on which it would best begin.
    """
    schedule = candidate.dated.schedule
    entry = setting.book.operations[draft.operation]
    roles = entry.roles
    if digs(setting, draft) and "digging" not in roles:
        roles = (*roles, "digging")
    start, end = schedule.days[draft.start_node], schedule.days[draft.end_node]
    book, key = setting.book, f"operations.{draft.operation}"
    window = _window(setting, candidate, draft, start, bound)
    season = _season_of(candidate, draft)
    late = told(setting, season, draft.operation, date.fromordinal(end)) if season else None
    about: tuple[Message, ...] = ()
    if draft.id == LOOK:
        sowing = schedule.days.get(draft.anchor or "")
        sown = None if sowing is None else date.fromordinal(sowing)
        about = told_of_bare_spots(setting, candidate.campaign, date.fromordinal(start), sown)
    cut = schedule.days.get(FIRST_CUT)
    first_cut = None if cut is None else date.fromordinal(cut)
    off = keep_off(setting, candidate.campaign, draft, date.fromordinal(end), first_cut)
    later = _fallback(setting, draft, end, window)
    days = date.fromordinal(start), later or date.fromordinal(end)
    return Task(
        id=draft.id,
        uid="",
        operation=draft.operation,
        phase=draft.phase,
        roles=roles,
        title=_title(draft, draft.title or book_message(book, f"{key}.title", draft.words)),
        why=draft.why if late is None else draft.why_late or draft.why,
        start=date.fromordinal(start),
        end=date.fromordinal(end),
        best=_best(window, start if wished is None else wished),
        duration_days=draft.duration_days,
        worked_on=_worked_on(setting, draft, start, end),
        person_hours=draft.person_hours,
        window=window,
        not_earlier=_reasons(candidate, draft, titles, earlier=True),
        not_later=_reasons(candidate, draft, titles, earlier=False),
        amounts=draft.amounts,
        how=(*_where(draft), *about, *(draft.how or _how(setting, draft)), *off),
        go=draft.go or _test_of_day(setting, draft, "go", days),
        fallback=draft.fallback or _test_of_day(setting, draft, "fallback", days),
        fallback_day=later,
        cautions=draft.cautions if late is None else (late, *draft.cautions),
        grade=grade(setting, season, date.fromordinal(end)) if season else None,
        depends_on=_depends(candidate, draft, bound),
        facts=_facts(draft, bound),
        strength=_strongest(draft, bound).name.lower(),
        alarm=entry.alarm,
    )


def _worked_on(setting: ResolvedLawn, draft: Draft, start: int, end: int) -> tuple[date, ...]:
    """The days from first to last on which a task can be worked; none where that is all of them.

    Its ends are, also where somebody has chosen them among days off.
    """
    open_ = days_of(setting, draft)
    days = [d for d in range(start, end + 1) if d in (start, end) or open_.next(d) == d]
    return tuple(map(date.fromordinal, days)) if len(days) < end - start + 1 else ()


def _title(draft: Draft, title: Message) -> Message:
    """The title of a task, with the part of the lawn that it is for."""
    return title if draft.where is None else places.titled(title=title, where=draft.where)


def _where(draft: Draft) -> tuple[Message, ...]:
    """The first step of a task that is not for the whole lawn."""
    return () if draft.where_step is None else (draft.where_step,)


def _how(setting: ResolvedLawn, draft: Draft) -> tuple[Message, ...]:
    """The book's steps of an operation; where nobody waters those that ask for no water."""
    book, key = setting.book, f"operations.{draft.operation}"
    dry = setting.brief.water.possible is False and book.operations[draft.operation].how_on_rain
    return book_messages(book, f"{key}.how_on_rain" if dry else f"{key}.how", draft.words)


def _test_of_day(
    setting: ResolvedLawn, draft: Draft, name: str, days: tuple[date, date]
) -> Message | None:
    """The book's test of the day of an operation, or what to do where it fails (`go`, `fallback`);
    it speaks of no frozen ground where none can be on its `days`, the first and that to which it is
    put off."""
    book, key = setting.book, f"operations.{draft.operation}.{name}"
    mild = optional_message(book, f"{key}_frostless", draft.words)
    if mild is not None and setting.climate.thawed(*days):
        return mild
    return optional_message(book, key, draft.words)


def _season_of(candidate: Candidate, draft: Draft) -> OpenDays | None:
    """The window that a pass, a sowing or a planting is to keep; None for other tasks."""
    if draft.operation == "topdress":
        return candidate.campaign.sessions[draft.session - 1].window
    sown = draft.operation in SOWING or draft.operation == "plant"
    return candidate.campaign.sow_window if sown else None


def _strongest(draft: Draft, bound: Sequence[Constraint]) -> Strength:
    """The strongest of what allows a first day; what shares another's days is bound to them."""
    days = (c.strength for c in bound if isinstance(c, Allowed))
    return max(days, default=Strength.ADVICE) if draft.beside is None else Strength.HARD


def _facts(draft: Draft, bound: Sequence[Constraint]) -> tuple[str, ...]:
    """The facts behind a task and behind what binds its first day, each once."""
    return tuple(
        dict.fromkeys((*draft.facts, *(fact for held in bound for fact in held.reason.facts)))
    )


def _reasons(
    candidate: Candidate, draft: Draft, titles: Mapping[str, Message], *, earlier: bool
) -> tuple[Message, ...]:
    """Why not earlier, or not later: what holds the chosen day.

    Where a wish or days off alone hold it, what would hold it in the end is said too.
    """
    schedule, node = candidate.dated.schedule, draft.start_node
    chain = schedule.not_earlier(node) if earlier else schedule.not_later(node)
    wish = wish_earlier(draft, titles) if earlier else wish_later(draft, titles)
    nothing = because.first_day() if earlier else because.last_day()
    held_by = reasons(chain, titles, wish, nothing)
    if days_off_alone(chain):
        held_by = (wish if draft.anchor in titles else because.nearest_day(),)
    if chain and (chain[0].kind == "wish" or days_off_alone(chain)):
        limits = schedule.bounds.not_earlier(node) if earlier else schedule.bounds.not_later(node)
        held_by += tuple(
            line for line in reasons(limits, titles, wish, nothing)[:2] if line not in held_by
        )
    return held_by


def _best(window: TaskWindow, day: int) -> date:
    return min(max(date.fromordinal(day), window.start), window.end)


def _window(
    setting: ResolvedLawn,
    candidate: Candidate,
    draft: Draft,
    chosen: int,
    bound: Sequence[Constraint],
) -> TaskWindow:
    """The open days of the task: those of its operation, else its earliest to its latest day."""
    limits = candidate.dated.schedule.bounds
    low, high = limits.earliest[draft.start_node], limits.latest[draft.start_node]
    dropped = {constraint.id for constraint in candidate.dated.dropped}
    for constraint in bound:
        if isinstance(constraint, Allowed) and constraint.opens and constraint.id not in dropped:
            for start, end in constraint.days.ranges:
                if start <= chosen <= end:
                    return TaskWindow(
                        start=date.fromordinal(max(start, setting.first_day)),
                        end=date.fromordinal(end),
                    )
    return TaskWindow(
        start=date.fromordinal(min(low, chosen)), end=date.fromordinal(max(high, chosen))
    )


def _fallback(setting: ResolvedLawn, draft: Draft, end: int, window: TaskWindow) -> date | None:
    """The next working day inside the window, for when the day will not do."""
    following = days_of(setting, draft).next(end + 1)
    if following is None or following > window.end.toordinal():
        return None
    return date.fromordinal(following)


def _depends(candidate: Candidate, draft: Draft, bound: Sequence[Constraint]) -> tuple[str, ...]:
    """The tasks that are done first; a rule that had to give way puts nothing first."""
    dropped = {constraint.id for constraint in candidate.dated.dropped}
    before = [
        task_of_node(c.before)
        for c in bound
        if not isinstance(c, Allowed) and c.id not in dropped and not c.alongside
    ]
    worked = work_before(draft, candidate.season.drafts)
    days = candidate.dated.schedule.days if worked else {}
    before += [d.id for d in worked if days[d.end_node] <= days[draft.start_node]]
    return tuple(dict.fromkeys(name for name in before if name != draft.id))
