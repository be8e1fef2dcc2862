"""What the page of a season says of days: why the main work is not done sooner, and what keeps each
job on its days."""

from collections.abc import Sequence
from datetime import date, timedelta

from turfplan.export.sheets.look import near_text, shown
from turfplan.export.sheets.told_parts import parts_of
from turfplan.export.templates import sentence
from turfplan.message import Days, Message
from turfplan.messages import Words
from turfplan.messages.binding_reasons import HANGS_ON, NEAREST, is_choice, telling, without_other
from turfplan.phrases import campaign_choice, campaigns
from turfplan.phrases import season_page as phrases
from turfplan.records.plan import OperationWindow, Plan
from turfplan.records.plan_task import Task

# The half of the growing year in which a campaign ends.
_ENDS = {
    "spring": "spring",
    "autumn_then_spring": "spring",
    "autumn": "autumn",
    "spring_then_autumn": "autumn",
}
# Campaigns of one half alone: what "this spring" means to who asks.
_OF_ONE_HALF = ("spring", "autumn")
_IN_YEAR = campaigns.in_year(name=Message(""), year="").key
_NOT_A_YEAR_SOONER = ("campaign_choice.not_sooner", "campaign_choice.missed_sooner")
# Days that are open for longer than this say nothing of one of them.
OPEN = timedelta(days=300)
# Of waiting they speak, and so not of a season that comes first.
_OF_WAITING = (campaign_choice.year_later().key, campaign_choice.more_than_needed().key)


def why_not_sooner(plan: Plan, today: date, words: Words) -> str:
    """Why the main work waits for its season: what speaks against the one before it, else the rule
    that holds its first job; nothing once it has begun, or where nothing holds it."""
    main = [t for t in shown(plan.tasks) if t.plays("headline") and not t.plays("ordering")]
    first = min(main, key=lambda task: task.start, default=None)
    if first is None or first.start <= today or any(task.closed == "done" for task in main):
        return ""
    for reason in plan.campaign_reason:
        if reason.key in _NOT_A_YEAR_SOONER:
            return str(reason)
    if (before := _season_before(plan)) is not None:
        name, reason = before
        return words.text(phrases.season_before(campaign=name, reason=reason))
    if (window := _window(plan, first)) is not None:
        return _of_window(window, words)
    rules = (str(one) for one in telling(first.not_earlier) if not is_choice(one))
    return next((parts_of(one, HANGS_ON, words).get("reason", one) for one in rules), "")


def why_these_days(plan: Plan, task: Task, words: Words) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """What keeps a job from being earlier, and from being later; there not what is said of both,
    unless nothing else is."""
    earlier = _held(plan, task, task.not_earlier, words)
    later = _held(plan, task, task.not_later, words)
    return earlier, tuple(one for one in later if one not in earlier) or later


def _held(plan: Plan, task: Task, reasons: Sequence[Message], words: Words) -> tuple[str, ...]:
    """Reasons in words; where a job only lies among open days, what opens them comes first."""
    told, window = telling(reasons), _window(plan, task)
    if told and window is not None and all(map(is_choice, told)):
        told = (window.reason, *told)
    of_window = None if window is None else str(window.reason)
    lines: dict[Message, str] = {}
    for reason in told:
        line = _plainly(reason, task, words)
        # One rule on which the job hangs by several others is told by the nearest of them.
        rule = without_other(reason)
        lines.setdefault(rule, _of_window(window, words) if window and line == of_window else line)
    return tuple(lines.values())


def _plainly(reason: Message, task: Task, words: Words) -> str:
    """A reason; the nearest working day with the day that it is nearest to."""
    if reason.key == NEAREST and not task.start <= task.best <= task.end:
        return words.text(phrases.nearest_day(best=near_text(task.best, words)))
    return str(reason)


def _window(plan: Plan, task: Task) -> OperationWindow | None:
    """The open days of a job's operation in which it lies; None where it is open all year."""
    for window in plan.windows:
        inside = window.start <= task.start <= window.end
        if window.operation == task.operation and inside and window.end - window.start < OPEN:
            return window
    return None


def _of_window(window: OperationWindow, words: Words) -> str:
    """What opens days, and which these are here."""
    here = words.text(phrases.open_here(days=Days(window.start, window.end, weekday=False)))
    return f"{sentence(str(window.reason))} {here}"


def _season_before(plan: Plan) -> tuple[Message, Message] | None:
    """The nearest half of the growing year before the chosen one that could have been taken, by its
    campaign, and what speaks against it."""
    chosen = _place(plan.campaign_name, plan)
    if chosen is None:
        return None
    before = [
        (place, one.campaign, one.reason)
        for one in plan.rejected
        if _kind(one.campaign) in _OF_ONE_HALF and one.reason.key not in _OF_WAITING
        for place in (_place(one.campaign, plan),)
        if place is not None and place < chosen
    ]
    if not before:
        return None
    _, name, reason = max(before, key=lambda one: one[0])
    return name, reason


def _kind(name: Message) -> str:
    """The campaign that a name of a year is of; nothing of another name."""
    inner = dict(name.values).get("name")
    if name.key != _IN_YEAR or not isinstance(inner, Message):
        return ""
    return inner.key.removeprefix("book.campaigns.").removesuffix(".name")


def _place(name: Message, plan: Plan) -> tuple[int, int] | None:
    """Where the half in which a campaign ends stands among others: its year, and its place within
    it; south of the equator autumn comes first."""
    half = _ENDS.get(_kind(name))
    if half is None:
        return None
    halves = ("spring", "autumn") if plan.place.latitude >= 0 else ("autumn", "spring")
    return int(str(dict(name.values)["year"])), halves.index(half)
