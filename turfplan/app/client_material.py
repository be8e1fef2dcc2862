"""Adds up what many lawns buy: by supplier, mix and truckload, and what suppliers were told."""

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from turfplan.app.client_lists import WaitingLawn
from turfplan.app.client_pauses import working
from turfplan.app.data_folders import clients_in, language_for, looked_at
from turfplan.app.lawn_day import open_jobs, today_here
from turfplan.app.lawn_glimpse import glimpse_of
from turfplan.app.lawn_journal import entries_of_lawn
from turfplan.business.business_record import Business
from turfplan.business.client_record import Client
from turfplan.business.groups import ClientGroup, in_group
from turfplan.business.material import (
    MaterialLoad,
    MaterialNeed,
    MovedDelivery,
    ToldDelivery,
    material_loads,
    moved_deliveries,
)
from turfplan.business.quote_record import Quote
from turfplan.business.unanswered import parted, unsold_tasks
from turfplan.calendar_days import week_of
from turfplan.export.sheets.look import paper_for
from turfplan.export.sheets.material_page import material_html, supplier_views
from turfplan.files.data_folder import TOLD_DELIVERIES
from turfplan.files.kept_record import KeptRecord, read_kept, write_kept
from turfplan.files.lawn_standing import read_quotes
from turfplan.files.plan_folder import folder_lock
from turfplan.files.reading.business import read_business
from turfplan.files.reading.plan import read_plan
from turfplan.message import Message
from turfplan.messages import Words, words_for
from turfplan.records.journal import JournalEntry
from turfplan.records.plan import OrderLine, Plan
from turfplan.units import System
from turfplan.work.material_amounts import sold_step_m3

# Machines are hired, not bought.
_NO_MATERIAL = frozenset({"machine"})


@dataclass(frozen=True, slots=True)
class MaterialList:
    """What is bought, the deliveries of which suppliers were told otherwise, and what must be told.

    `waiting` are the lawns that would buy some of it, were the quote of them answered. `clients`
    are those of the lawns by id; `country` and `words` are those of the business.
    """

    loads: tuple[MaterialLoad, ...]
    moved: tuple[MovedDelivery, ...]
    waiting: tuple[WaitingLawn, ...]
    notes: tuple[Message, ...]
    clients: Mapping[str, Client]
    business: Business | None
    country: str | None
    words: Words


class KeptDelivery(KeptRecord):
    """What a supplier was last told of a delivery to a lawn."""

    lawn: str
    task: str
    supplier: str | None
    name: str
    day: date


class KeptDeliveries(KeptRecord):
    """All deliveries of which suppliers were told."""

    deliveries: tuple[KeptDelivery, ...] = ()


def list_material(
    output: Path,
    week: date | None = None,
    group: ClientGroup | None = None,
    today: date | None = None,
    *,
    tell: bool = False,
) -> MaterialList:
    """What the lawns of a data folder buy; of a `week`, what is ordered or comes in it.

    Lawns of a `group` share loads among themselves alone. With `tell` what is listed counts as told
    to the suppliers. Raises TurfplanError for a folder without lawns, files that cannot be read or
    written, and a group that there is not.
    """
    now = today or today_here()
    clients, business = clients_in(output), read_business(output)
    wanted, paused = working(in_group(clients, group), now)
    planned, notes = looked_at(wanted, _planned)
    quotes = {folder: read_quotes(folder) for folder in planned}
    needs, over = list[MaterialNeed](), set[tuple[str, str]]()
    waiting = list[WaitingLawn]()
    system, country = None, business.country if business is not None else None
    for folder, (plan, entries) in planned.items():
        system, country = system or plan.lawn.units, country or plan.place.country
        open_tasks = {task.id for task in open_jobs(plan, entries)}
        unsold = unsold_tasks(quotes[folder], open_tasks)
        needs += _needs(folder.name, plan, open_tasks - unsold)
        lost = tuple(_needs(folder.name, plan, unsold)) if unsold else ()
        if any(week is None or _falls_in(need, week) for need in lost):
            waiting += _waiting(folder, clients[folder], plan, entries, quotes[folder], now)
        over |= {(folder.name, task) for task in _over(plan, entries, open_tasks)}
    system = (business and business.units) or system or System.METRIC
    loads = material_loads(needs, business, sold_step_m3(system), now)
    shown = loads
    if week is not None:
        days = week_of(week)
        shown = tuple(load for load in loads if {load.order_by, load.deliver_on} & set(days))
    moved = _told(output, loads, shown, {folder.name for folder in wanted}, over, tell=tell)
    words = words_for(language_for(business), system, country=country)
    named = {folder.name: clients[folder] for folder in wanted}
    told = (*paused, *notes)
    return MaterialList(shown, moved, tuple(waiting), told, named, business, country, words)


def _planned(folder: Path) -> tuple[Plan, tuple[JournalEntry, ...]] | None:
    """The plan of a lawn and what was written since; None without a plan."""
    plan = read_plan(folder)
    return (plan, entries_of_lawn(folder)) if plan is not None else None


def _waiting(
    folder: Path,
    client: Client,
    plan: Plan,
    entries: Sequence[JournalEntry],
    quotes: Sequence[Quote],
    today: date,
) -> Iterator[WaitingLawn]:
    """A lawn with what waits for the answer to a quote, where an answer can still come."""
    glance = glimpse_of(plan, entries)
    _, waits = parted(glance.jobs, quotes, today)
    if waits is not None and waits.is_open:
        yield WaitingLawn(folder, client.name or glance.name, waits)


def _falls_in(need: MaterialNeed, week: date) -> bool:
    """Whether something is ordered or comes in the week of a day."""
    return bool({need.order_by, need.deliver_by} & set(week_of(week)))


def _needs(lawn: str, plan: Plan, open_tasks: Collection[str]) -> Iterator[MaterialNeed]:
    """What a plan still buys; what was ordered and not yet brought is among it."""
    for line in plan.order:
        steps = [task for task in line.tasks if task in open_tasks]
        if line.item in _NO_MATERIAL or (line.tasks and not steps):
            continue
        task = steps[-1] if steps else line.item
        yield MaterialNeed(
            lawn=lawn,
            task=task,
            item=line.item,
            name=str(line.name),
            sold=line.value,
            used=_used(plan, line, task),
            unit=line.unit,
            order_by=line.order_by,
            deliver_by=line.deliver_by,
            loads=line.loads,
            estimate=line.estimate is not None,
        )


def _used(plan: Plan, line: OrderLine, brought_by: str) -> float:
    """How much of a line the work takes that waits for its delivery; all of it where no work
    says."""
    volumes = [
        amount.value
        for task in plan.tasks
        if brought_by in task.depends_on and task.is_open and task.plays("spreading")
        for amount in task.amounts
        if amount.item == "volume" and amount.unit == line.unit
    ]
    return min(line.value, sum(volumes)) if line.loads and volumes else line.value


def _over(
    plan: Plan, entries: Sequence[JournalEntry], open_tasks: Collection[str]
) -> Iterator[str]:
    """The tasks of which plan or journal say that they are done."""
    yield from (task.id for task in plan.tasks if task.closed == "done")
    said = {entry.task for entry in entries if entry.kind in ("done", "delivered")}
    yield from (task for task in said if task is not None and task not in open_tasks)


def _told(
    output: Path,
    loads: Sequence[MaterialLoad],
    shown: Sequence[MaterialLoad],
    lawns: Collection[str],
    over: Collection[tuple[str, str]],
    *,
    tell: bool,
) -> tuple[MovedDelivery, ...]:
    """The deliveries of some lawns whose suppliers were told otherwise; with `tell` these, and what
    is shown, count as told from now on."""
    path = output / TOLD_DELIVERIES
    if not tell:
        return moved_deliveries(_known(path), loads, lawns, over)
    with folder_lock(output):
        known = _known(path)
        moved = moved_deliveries(known, loads, lawns, over)
        named = {(one.lawn, one.task) for one in moved}
        kept = {key: told for key, told in known.items() if key not in {*named, *over}}
        for load in loads:
            for share in load.shares:
                key = (share.lawn, share.task)
                if load.is_load and (load in shown or key in named):
                    day = min(kept[key].day, load.deliver_on) if key in kept else load.deliver_on
                    kept[key] = ToldDelivery(load.supplier, load.name, day)
        rows = (
            KeptDelivery(
                lawn=key[0], task=key[1], supplier=one.supplier, name=one.name, day=one.day
            )
            for key, one in sorted(kept.items())
        )
        write_kept(path, KeptDeliveries(deliveries=tuple(rows)))
    return moved


def _known(path: Path) -> dict[tuple[str, str], ToldDelivery]:
    kept = read_kept(path, KeptDeliveries)
    told = kept.deliveries if kept is not None else ()
    return {(one.lawn, one.task): ToldDelivery(one.supplier, one.name, one.day) for one in told}


def material_page(found: MaterialList, folder: str, today: date, paper: str | None) -> str:
    """The list as a page, under the name of the business, else of its `folder`."""
    business, words = found.business, found.words
    views = supplier_views(found.loads, found.moved, found.clients, words)
    name = business.name if business is not None else folder
    size = paper_for(found.country, words.system, paper)
    return material_html(name, views, today, words, size)
