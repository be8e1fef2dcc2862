"""Which of a job's reasons say something of that job, the telling ones first."""

from collections.abc import Sequence

from turfplan.message import Message, said
from turfplan.phrases import day_limits, season
from turfplan.phrases import reasons as phrases

HANGS_ON = phrases.hangs_on(reason=said(""), task=said("")).key
# Reasons that hold for every job and say nothing of this one; `turfplan why` tells the whole chain.
SAY_LITTLE = frozenset(
    reason().key for reason in (day_limits.work_days, season.day_full, phrases.before_is_done)
)
NEAREST = phrases.nearest_day().key
_ON_BEST_DAY = phrases.on_best_day(task=said("")).key
# Reasons by which the planner chose among days that are open; they name no cause.
CHOICES = frozenset(
    (phrases.earlier_best().key, phrases.later_less_time().key, NEAREST, _ON_BEST_DAY)
)


def without_other(reason: Message) -> Message:
    """A rule without the name of the job on which it hangs."""
    bare = dict(reason.values).get("reason") if reason.key == HANGS_ON else reason
    return bare if isinstance(bare, Message) else reason


def says_little(reason: Message) -> bool:
    """Whether a reason holds for every job alike, and so says nothing of the one it is given
    for."""
    return without_other(reason).key in SAY_LITTLE


def telling(reasons: Sequence[Message]) -> tuple[Message, ...]:
    """The reasons that say something of their job, rules before mere choices among days; of those
    not that another job is on its best day, where a rule is told. All of them where none says
    anything."""
    own = [reason for reason in reasons if not says_little(reason)]
    rules = [reason for reason in own if reason.key not in CHOICES]
    chosen = [reason for reason in own if reason.key in CHOICES]
    if rules:
        chosen = [reason for reason in chosen if reason.key != _ON_BEST_DAY]
    return (*rules, *chosen) or tuple(reasons)


def is_choice(reason: Message) -> bool:
    """Whether a reason names no cause: a day among others that are open, or any working day."""
    return reason.key in CHOICES or says_little(reason)
