"""The tasks and the order as tables for a spreadsheet (RFC 4180)."""

import csv
import io
from collections.abc import Iterable, Sequence

from turfplan.export.sheets.look import in_order_of_work
from turfplan.messages import Words
from turfplan.messages.entry import measured
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Amount

# A cell that begins like a formula would be run by a spreadsheet: it is written as text.
_FORMULA = ("=", "+", "-", "@", "\t", "\r")


def tasks_csv(plan: Plan, words: Words) -> str:
    """One line a task: id, dates, title, amounts, hours, state."""
    heads = (
        "id",
        "operation",
        "phase",
        "title",
        "start",
        "end",
        "best",
        "window_start",
        "window_end",
        "status",
        "person_hours",
        "amounts",
        "why",
    )
    rows = (
        (
            t.id,
            t.operation,
            t.phase,
            t.title,
            *t.days,
            t.best,
            t.window.start,
            t.window.end,
            t.status,
            t.person_hours,
            "; ".join(_amount(amount, words) for amount in t.amounts),
            t.why,
        )
        for t in in_order_of_work(plan.tasks)
    )
    return _table(heads, rows)


def _amount(amount: Amount, words: Words) -> str:
    """An amount by the id of its item, as the columns are called by ids."""
    return f"{amount.item} {words.value(measured(amount))}"


def order_csv(plan: Plan) -> str:
    """One line a thing to buy, then one line for each of its parts."""
    heads = (
        "item",
        "name",
        "value",
        "unit",
        "value_us",
        "unit_us",
        "order_by",
        "deliver_by",
        "text",
        "reason",
    )
    rows: list[Sequence[object]] = []
    for line in plan.order:
        rows.append(
            (
                line.item,
                line.name,
                line.value,
                line.unit,
                line.value_us,
                line.unit_us,
                line.order_by,
                line.deliver_by,
                line.text,
                line.reason,
            )
        )
        rows += [
            (f"{line.item}: {p.item}", "", p.value, p.unit, p.value_us, p.unit_us, "", "", "", "")
            for p in line.parts
        ]
    return _table(heads, rows)


def _table(heads: Sequence[str], rows: Iterable[Sequence[object]]) -> str:
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(heads)
    for row in rows:
        writer.writerow([_cell(value) for value in row])
    return out.getvalue()


def _cell(value: object) -> str:
    text = str(value)
    return "'" + text if isinstance(value, str) and text.startswith(_FORMULA) else text
