"""From facts to what a calendar shows: tells a drafted plan to its reader, and stamps it against
the one before."""

from collections.abc import Iterator, Sequence
from datetime import datetime
from functools import cache
from operator import is_not
from typing import Any, get_args, get_origin

from turfplan.audit import LEFT_BY_EVENTS, Fault, audit_plan, faults_listed
from turfplan.book.entries import Book
from turfplan.message import AS_WRITTEN, Message, message_json
from turfplan.messages import Words
from turfplan.planning.task_roles import with_roles
from turfplan.records.brief import Brief
from turfplan.records.plan import Plan
from turfplan.records.plan_task import PlanRecord
from turfplan.revision.changes import revise


class UnsoundPlanError(AssertionError):
    """A finished plan failed the independent audit: a fault of this program, never of the brief."""

    def __init__(self, faults: Sequence[Fault], words: Words) -> None:
        super().__init__(words.value(faults_listed(faults)))
        self.faults = tuple(faults)


def publish(draft: Plan, previous: Plan | None, now: datetime, words: Words) -> Plan:
    """The draft as it is published: every message told in `words`, numbered and stamped against the
    plan before.

    Days, identities and sequence numbers follow from facts, texts from the catalog. `now` is aware.
    What the plan before says stands in the words it was told in: past entries keep their text, open
    ones are told anew by the draft. Raises TurfplanError when the plan before is another lawn's.
    """
    draft = told_plan(draft.model_copy(update={"language": words.language}), words, afresh=True)
    if draft.conflict is not None:
        return _kept(draft)
    return _kept(told_plan(revise(draft, previous, now, words, history=draft.past), words))


def sound_plan(
    draft: Plan, previous: Plan | None, now: datetime, words: Words, brief: Brief, book: Book
) -> Plan:
    """The draft published and judged; raises UnsoundPlanError where the independent judge finds a
    fault.

    After a plan that was published before, what the events since have left of it is no fault of the
    program.
    """
    # History that an older program wrote has the roles of this book from now on.
    known = with_roles(previous, book) if previous is not None else None
    plan = publish(draft, known, now, words)
    first = previous is None or previous.conflict is not None
    faults = () if plan.conflict is not None else audit_plan(plan, brief, book)
    if refused := [fault for fault in faults if first or fault.kind not in LEFT_BY_EVENTS]:
        raise UnsoundPlanError(refused, words)
    return plan


def told_plan(plan: Plan, words: Words, *, afresh: bool = False) -> Plan:
    """The plan with every message told in these words, `afresh` also those that were told in others
    before.

    Records in which nothing is left to tell stay the same objects.
    """
    told = _told(plan, words, afresh)
    assert isinstance(told, Plan)
    return told


def _kept(plan: Plan) -> Plan:
    """The plan with the table of what its texts say: each message by its text."""
    said: dict[str, dict[str, Any]] = {}
    for message in messages_of(plan):
        if message.key != AS_WRITTEN and message.text not in said:
            said[message.text] = message_json(message)
    return plan.model_copy(update={"said": said})


def messages_of(value: object) -> Iterator[Message]:
    """Every message that a record, a table or a tuple of them holds, in order."""
    if isinstance(value, Message):
        yield value
    elif isinstance(value, PlanRecord):
        for name in _worded(type(value)):
            yield from messages_of(getattr(value, name))
    elif isinstance(value, tuple | dict):
        for item in value.values() if isinstance(value, dict) else value:
            yield from messages_of(item)


def _told(value: object, words: Words, afresh: bool) -> object:
    """A message, or whatever holds messages, told in these words.

    The same object where all is told.
    """
    # Most of what a plan holds is empty: that costs no call.
    if isinstance(value, Message):
        return value if value.text and not afresh else words.told(value)
    if isinstance(value, tuple):
        items = tuple([_told(item, words, afresh) for item in value])
        return items if any(map(is_not, items, value)) else value
    if isinstance(value, dict):
        return {key: _told(item, words, afresh) for key, item in value.items()}
    if isinstance(value, PlanRecord):
        held = value.__dict__
        new = {
            name: _told(old, words, afresh) for name in _worded(type(value)) if (old := held[name])
        }
        update = {name: told for name, told in new.items() if told is not held[name]}
        return value.model_copy(update=update) if update else value
    return value


@cache
def _worded(kind: type[PlanRecord]) -> tuple[str, ...]:
    """The fields of a record that can hold messages: messages, records that hold some, tuples and
    tables of either."""
    return tuple(
        name for name, part in kind.model_fields.items() if _holds_messages(part.annotation)
    )


def _holds_messages(annotation: object) -> bool:
    if isinstance(annotation, type):
        return annotation is Message or (
            issubclass(annotation, PlanRecord) and bool(_worded(annotation))
        )
    origin = get_origin(annotation)
    return origin is not None and any(_holds_messages(part) for part in get_args(annotation))
