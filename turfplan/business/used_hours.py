"""Holds the hours that jobs took against those that were quoted, by operation, and proposes how
many times the plan's hours they take."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from turfplan.business.callback import CALLBACK

# A rate is proposed from so many jobs on: fewer are chance.
LEAST_JOBS = 3
# So finely a rate is proposed.
RATE_DECIMALS = 2


@dataclass(frozen=True, slots=True)
class WorkedJob:
    """A job that is done: its operation, its title, the hours of the plan, those that were quoted
    (by the plan where nothing was), and those that it took, None where nobody wrote them down."""

    operation: str
    title: str
    planned: float
    quoted: float
    used: float | None


@dataclass(frozen=True, slots=True)
class OperationHours:
    """The jobs of an operation whose hours are known: how many, their hours as quoted and as they
    were, the least and the most of a job's own times; how many have none written down.

    `rate` is how many times the plan's hours they took, None for too few jobs; `rate_now` is that
    of `business.toml`.
    """

    operation: str
    title: str
    jobs: int
    quoted: float
    used: float
    least: float | None
    most: float | None
    missing: int
    rate: float | None
    rate_now: float

    @property
    def times(self) -> float | None:
        """How many times the quoted hours it took."""
        return self.used / self.quoted if self.quoted else None


def hours_by_operation(
    jobs: Iterable[WorkedJob], rates: Mapping[str, float]
) -> tuple[OperationHours, ...]:
    """The hours of each operation, the largest sum of hours used first; `rates` are those of
    `business.toml`."""
    of_operation = defaultdict[str, list[WorkedJob]](list)
    for job in jobs:
        of_operation[job.operation].append(job)
    found = [_hours(name, each, rates.get(name, 1.0)) for name, each in of_operation.items()]
    return tuple(sorted(found, key=lambda one: (-one.used, one.operation)))


def _hours(operation: str, jobs: list[WorkedJob], rate_now: float) -> OperationHours:
    known = [(job, job.used) for job in jobs if job.used is not None]
    used, planned = sum(hours for _, hours in known), sum(job.planned for job, _ in known)
    times = [hours / job.quoted for job, hours in known if job.quoted]
    proposed = len(known) >= LEAST_JOBS and planned > 0 and operation != CALLBACK
    return OperationHours(
        operation=operation,
        title=jobs[0].title,
        jobs=len(known),
        quoted=sum(job.quoted for job, _ in known),
        used=used,
        least=min(times, default=None),
        most=max(times, default=None),
        missing=len(jobs) - len(known),
        rate=round(used / planned, RATE_DECIMALS) if proposed else None,
        rate_now=rate_now,
    )
