"""Puts the plans of the lawns of one house together for their sheets: one week, one watering card,
one order.

What comes of it is printed and never planned again. Titles say which lawn, tasks are named by
theirs, and what several lawns buy of a material for one day is one line with its shares.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby
from math import fsum

from turfplan.business.material import LoadShare, shared_loads
from turfplan.export.house_ids import name_of, of_house
from turfplan.message import AS_WRITTEN, Message, Sold, Worded, listed
from turfplan.messages import Words
from turfplan.phrases import house as phrases
from turfplan.plain_text import plain_text
from turfplan.records.plan import OrderLine, OrderPart, Plan, RankedNote
from turfplan.records.plan_task import NOTHING, Task

# What a whole may be off from adding up volumes, m3.
_LEAST_M3 = 1e-6
# What is hired comes for the jobs of one lawn.
_HIRED = "machine"


@dataclass(frozen=True, slots=True)
class HousePart:
    """A lawn of a house: its key on sheets, what it is called, its plan, what a truck may bring."""

    key: str
    label: str
    plan: Plan
    truck_limit_m3: float | None = None


def house_plan(parts: Sequence[HousePart], words: Words) -> Plan:
    """The plans of some lawns as one that sheets are printed from; of maps and accounts it has
    none, which are each lawn's own."""
    first = parts[0].plan
    plans = [part.plan for part in parts]
    labels = listed((part.label for part in parts), "and")
    people = [plan.lawn.people for plan in plans if plan.lawn.people is not None]
    lawn = first.lawn.model_copy(
        update={"name": words.value(labels), "people": max(people, default=None)}
    )
    tasks = tuple(_named(part, task, words) for part in parts for task in part.plan.tasks)
    horizon = first.horizon.model_copy(
        update={
            "start": min(plan.horizon.start for plan in plans),
            "end": max(plan.horizon.end for plan in plans),
        }
    )
    labelled = {name_of(part.key): _told(part.label) for part in parts}
    return first.model_copy(
        update={
            "lawn_id": f"house.{first.lawn_id}",
            "lawn": lawn,
            "revision": sum(plan.revision for plan in plans),
            "stamp": max(plan.stamp for plan in plans),
            "now": max(plan.now for plan in plans),
            "horizon": horizon,
            "tasks": tasks,
            "order": tuple(_order(parts, words)),
            "ranked": tuple(_ranked(parts, words)),
            "put_off": tuple(
                _of_lawn(part.label, text, words) for part in parts for text in part.plan.put_off
            ),
            "options": (),
            "on_sheets": dict(_on_sheets(parts)),
            "names": {**first.names, **labelled},
            "ledgers": (),
            "fill": None,
            "handover": (),
            "calendar_entries": (),
        }
    )


def _told(text: str) -> Message:
    """A text that stands as it was told."""
    return Message(AS_WRITTEN, (("text", text),), text)


def _of_lawn(label: str, text: Worded, words: Words) -> Message:
    """A text that says which lawn it is about."""
    return _told(words.text(phrases.entry(lawn=plain_text(label), title=str(text))))


def _named(part: HousePart, task: Task, words: Words) -> Task:
    """A task by its lawn: its title, its name, and the names of those it hangs on."""
    slack = task.slack
    if slack is not None:
        moves = tuple(of_house(part.key, name) for name in slack.moves)
        slack = slack.model_copy(update={"moves": moves})
    return task.model_copy(
        update={
            "id": of_house(part.key, task.id),
            "title": _of_lawn(part.label, task.title, words),
            "depends_on": tuple(of_house(part.key, name) for name in task.depends_on),
            "slack": slack,
        }
    )


def _on_sheets(parts: Iterable[HousePart]) -> Iterator[tuple[str, Message]]:
    """The words of the book that sheets print; those of single tasks by the names that these have
    on the sheets of the house."""
    for part in parts:
        ids = {task.id for task in part.plan.tasks}
        for key, text in part.plan.on_sheets.items():
            own = any(key.startswith(f"{name}.") for name in ids) and not key.startswith("oper")
            yield (of_house(part.key, key) if own else key), text


def _ranked(parts: Sequence[HousePart], words: Words) -> Iterator[RankedNote]:
    """The notes of all lawns: what is the same of each once, else with the lawn it is about."""
    seen: set[tuple[str, str, str]] = set()
    texts = [{str(note.text) for note in part.plan.ranked} for part in parts]
    for part in parts:
        for note in part.plan.ranked:
            text = str(note.text)
            of_all = all(text in each for each in texts)
            mark = (note.rank, note.kind, text) if of_all else (part.key, note.kind, text)
            if mark in seen:
                continue
            seen.add(mark)
            told = note.text if of_all else _of_lawn(part.label, text, words)
            yield note.model_copy(update={"text": told, "tasks": ()})


def _order(parts: Sequence[HousePart], words: Words) -> Iterator[OrderLine]:
    """What is bought for all lawns: of each material, what comes on one day in one line."""
    rows = [(part, line) for part in parts for line in part.plan.order]

    def alike(row: tuple[HousePart, OrderLine]) -> tuple[str, ...]:
        part, line = row
        own = part.key if line.item == _HIRED else ""
        money = part.plan.currency if line.cost is not None else ""
        units = line.unit, line.unit_us
        return (line.item, str(line.name), *units, line.deliver_by.isoformat(), money, own)

    for _, group in groupby(sorted(rows, key=alike), alike):
        yield _together([*group], words)


def _together(rows: Sequence[tuple[HousePart, OrderLine]], words: Words) -> OrderLine:
    """The lines of one material and day as one, with what of it is for which lawn."""
    lines = [line for _, line in rows]
    first = lines[0]
    shares = [
        phrases.share(
            lawn=part.label, amount=Sold(line.value, line.unit, line.value_us, line.unit_us)
        )
        for part, line in rows
    ]
    tasks = tuple(of_house(part.key, name) for part, line in rows for name in line.tasks)
    if len(rows) == 1:
        reason = _of_lawn(rows[0][0].label, first.reason, words)
        return first.model_copy(update={"tasks": tasks, "reason": reason})
    estimates = [line.estimate for line in lines if line.estimate is not None]
    costs = [line.cost for line in lines if line.cost is not None]
    return first.model_copy(
        update={
            "value": round(fsum(line.value for line in lines), 6),
            "value_us": round(fsum(line.value_us for line in lines), 6),
            "parts": tuple(_parts(lines)),
            "loads": _loads(rows),
            "order_by": min(line.order_by for line in lines),
            "reason": _told(words.text(phrases.shares(shares=listed(shares, "semicolon")))),
            "questions": tuple(dict.fromkeys(q for line in lines for q in line.questions)),
            "acceptance": tuple(dict.fromkeys(a for line in lines for a in line.acceptance)),
            "text": NOTHING,
            "tasks": tasks,
            "estimate": estimates[0] if estimates else None,
            "cost": fsum(costs) if len(costs) == len(lines) else None,
        }
    )


def _parts(lines: Sequence[OrderLine]) -> Iterator[OrderPart]:
    """What the material is made of, added up over its lines; none where these are not alike."""
    kinds = [[part.item for part in line.parts] for line in lines]
    if any(kind != kinds[0] for kind in kinds):
        return
    for same in zip(*(line.parts for line in lines), strict=True):
        yield same[0].model_copy(
            update={
                "value": round(fsum(part.value for part in same), 6),
                "value_us": round(fsum(part.value_us for part in same), 6),
            }
        )


def _loads(rows: Sequence[tuple[HousePart, OrderLine]]) -> tuple[float, ...]:
    """The truckloads of some lines together: shared as far as a truck may bring it, else as many as
    each lawn has."""
    if not all(line.loads for _, line in rows):
        return ()
    limits = [part.truck_limit_m3 for part, _ in rows if part.truck_limit_m3 is not None]
    limit = min(limits) if limits else max(load for _, line in rows for load in line.loads)
    needs = [LoadShare(part.key, line.deliver_by.isoformat(), line.value) for part, line in rows]
    loads = shared_loads(needs, limit + _LEAST_M3)
    return tuple(round(fsum(share.value for share in load), 6) for load in loads)
