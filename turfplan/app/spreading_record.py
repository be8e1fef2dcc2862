"""Writes the record of what was spread on the lawns of a business, those that are gone too."""

import csv
import io
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from turfplan.app.data_folders import clients_in, language_for
from turfplan.app.lawn_journal import entries_of_lawn
from turfplan.business.client_columns import safe_cell
from turfplan.business.client_record import Client
from turfplan.business.groups import ClientGroup, in_group
from turfplan.export.sheets.look import paper_for
from turfplan.export.sheets.record_page import record_html
from turfplan.files.data_folder import ARCHIVE, lawn_folders
from turfplan.files.lawn_standing import read_owners
from turfplan.files.reading.book import load_book
from turfplan.files.reading.business import read_business, read_client
from turfplan.files.reading.plan import read_plan
from turfplan.messages import Words, words_for
from turfplan.records.journal import JournalEntry, standing
from turfplan.records.plan import Plan
from turfplan.units import System, us_twin

HEADS = (
    *("lawn", "client", "address", "day", "time", "work", "product", "active ingredient"),
    *("amount", "unit", "area m2", "amount per m2", "amount US", "unit US", "area ft2"),
    *("wind", "who", "licence", "note"),
)
# What is fetched for a task on one of these trips is spread or sprayed on the lawn.
_PRODUCTS = frozenset({"soil", "fertilizer", "preventer", "weed_killer"})
_DECIMALS = 4


@dataclass(frozen=True, slots=True)
class SpreadingRecord:
    """The record as a table by its `HEADS`, blank where nobody said it, and of how many rows the
    product is not known; `business` whose it is, by `words` of which system of units, where."""

    table: tuple[Mapping[str, str], ...]
    unnamed: int
    business: str
    words: Words
    country: str | None

    @property
    def rows(self) -> int:
        """How many rows it has."""
        return len(self.table)

    @property
    def content(self) -> bytes:
        """The table as CSV."""
        out = io.StringIO(newline="")
        writer = csv.writer(out, lineterminator="\r\n")
        writer.writerow(HEADS)
        writer.writerows([safe_cell(row[head]) for head in HEADS] for row in self.table)
        return out.getvalue().encode("utf-8-sig")


def spreading_record(output: Path, group: ClientGroup | None = None) -> SpreadingRecord:
    """Every time that something was spread on a lawn, by its day: what entries say of it, blank
    where nobody said it. The area is that of the entry, else of the lawn.

    Raises TurfplanError for a folder without lawns, and journals or plans that cannot be read.
    """
    clients = dict(clients_in(output))
    clients |= {folder: read_client(folder) for folder in lawn_folders(output / ARCHIVE)}
    business = read_business(output)
    lines = "; ".join(business.lines) if business is not None else ""
    rows = [
        row for folder in in_group(clients, group) for row in _rows(folder, clients[folder], lines)
    ]
    rows.sort(key=lambda row: (row["day"], row["time"], row["lawn"]))
    unnamed = sum(not row["product"] for row in rows)
    plan = next(filter(None, map(read_plan, in_group(clients, group))), None)
    system = (business and business.units) or (plan.lawn.units if plan else System.METRIC)
    country = (business and business.country) or (plan.place.country if plan else None)
    words = words_for(language_for(business), system, country=country)
    name = business.name if business is not None else output.name
    return SpreadingRecord(tuple(rows), unnamed, name, words, country)


def record_page(found: SpreadingRecord, today: date, paper: str | None) -> str:
    """The record as a page, under the name of the business."""
    size = paper_for(found.country, found.words.system, paper)
    return record_html(found.business, found.table, found.unnamed, today, found.words, size)


def _rows(folder: Path, client: Client, lines: str) -> Iterator[dict[str, str]]:
    plan = read_plan(folder)
    if plan is None:
        return
    entries, owners = entries_of_lawn(folder), read_owners(folder)
    operations = load_book(plan.place.region).operations
    for entry in standing(entries):
        task = plan.task(entry.task or "")
        operation = operations.get(task.operation) if task is not None else None
        is_product = operation is not None and operation.trip in _PRODUCTS
        if entry.kind == "done" and (entry.spread is not None or is_product):
            work = task.title.text if task is not None else entry.task or ""
            row = _row(folder.name, client, plan, entry, work, lines)
            # Whose lawn it was on that day: a sale leaves the record as it was.
            owner = next((one for one in owners if entry.on and entry.on < one.sold_on), None)
            yield row | {"client": owner.name} if owner is not None else row


def _row(
    lawn: str, client: Client, plan: Plan, entry: JournalEntry, work: str, lines: str
) -> dict[str, str]:
    spread = entry.spread
    area_m2 = (spread.area_m2 if spread is not None else None) or plan.lawn.area_m2
    row = dict.fromkeys(HEADS, "") | {
        "lawn": lawn,
        "client": client.name or plan.lawn.name,
        "address": client.address or "",
        "day": entry.on.isoformat() if entry.on is not None else "",
        "work": work,
        "area m2": _text(area_m2),
        "area ft2": _text(us_twin(area_m2, "m2")[0]),
        "who": entry.by,
        "licence": lines,
        "note": entry.text or "",
    }
    if spread is not None:
        row |= {
            "time": spread.time or "",
            "product": spread.product,
            "active ingredient": spread.active_ingredient or "",
            "wind": spread.wind or "",
            "licence": spread.licence or lines,
        }
    if entry.amount is not None and entry.unit is not None:
        value_us, unit_us = us_twin(entry.amount, entry.unit)
        row |= {
            "amount": _text(entry.amount),
            "unit": entry.unit,
            "amount per m2": _text(entry.amount / area_m2),
            "amount US": _text(value_us),
            "unit US": unit_us,
        }
    return row


def _text(value: float) -> str:
    return f"{round(value, _DECIMALS):g}"
