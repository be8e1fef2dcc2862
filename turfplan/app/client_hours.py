"""Tells the hours that the jobs of a business took against those that were quoted."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from turfplan.app.client_quotes import accepted_jobs
from turfplan.app.data_folders import clients_in, looked_at
from turfplan.app.lawn_day import ALL
from turfplan.app.lawn_journal import entries_of_lawn
from turfplan.business.callback import CALLBACK
from turfplan.business.groups import ClientGroup, in_group
from turfplan.business.used_hours import OperationHours, WorkedJob, hours_by_operation
from turfplan.files.data_folder import ARCHIVE, lawn_folders
from turfplan.files.lawn_standing import read_callbacks
from turfplan.files.reading.business import read_business, read_client
from turfplan.files.reading.plan import read_plan
from turfplan.message import Message
from turfplan.records.journal import standing


@dataclass(frozen=True, slots=True)
class HoursList:
    """The hours of each operation, and what must be told of lawns that were left out."""

    operations: tuple[OperationHours, ...]
    notes: tuple[Message, ...]


def list_hours(output: Path, group: ClientGroup | None = None) -> HoursList:
    """The hours of all jobs that are done, also at lawns in the archive; of a group where one is
    given.

    Raises TurfplanError for a folder without lawns, records that cannot be read, and a group that
    there is not.
    """
    clients = dict(clients_in(output))
    clients |= {folder: read_client(folder) for folder in lawn_folders(output / ARCHIVE)}
    business = read_business(output)
    rates = business.times if business is not None else {}
    found, notes = looked_at(in_group(clients, group), lambda folder: _worked(folder, rates))
    jobs = [job for of_lawn in found.values() for job in of_lawn]
    return HoursList(hours_by_operation(jobs, rates), notes)


def _worked(folder: Path, rates: Mapping[str, float]) -> tuple[WorkedJob, ...] | None:
    """The jobs that are done at a lawn; None without a plan."""
    plan = read_plan(folder)
    if plan is None:
        return None
    quoted = {job.task: job.hours for job in accepted_jobs(folder)}
    shares, hours = dict[str, float](), dict[str, float]()
    for entry in standing(entries_of_lawn(folder)):
        if entry.task is not None and entry.kind == "done":
            shares[entry.task] = shares.get(entry.task, 0.0) + entry.share
            if entry.hours is not None:
                hours[entry.task] = hours.get(entry.task, 0.0) + entry.hours
    found = []
    for name, share in shares.items():
        task = plan.task(name)
        if task is None or share < ALL or not task.person_hours:
            continue
        planned = task.person_hours
        by_plan = planned * rates.get(task.operation, 1.0)
        found.append(
            WorkedJob(
                task.operation,
                str(task.title),
                planned,
                quoted.get(name, by_plan),
                hours.get(name),
            )
        )
    return (*found, *_callbacks(folder))


def _callbacks(folder: Path) -> Iterator[WorkedJob]:
    """What a client called back for took hours that nobody pays."""
    for one in read_callbacks(folder):
        if one.done_on is not None:
            yield WorkedJob(CALLBACK, "", one.hours, one.hours, one.used_hours)
