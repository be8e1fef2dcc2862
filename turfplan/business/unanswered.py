"""Which jobs of a lawn nobody has bought yet: a quote of them was not accepted. They are no work of
a crew and no material to order, but they wait for an answer, until a day."""

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from turfplan.business.callback import CALLBACK
from turfplan.business.lawn_glance import GlancedJob
from turfplan.business.quote_record import Quote, QuoteState


@dataclass(frozen=True, slots=True)
class Unanswered:
    """What waits for the answer to a quote, with its state on a day: its jobs, the first of which
    would begin on `begins`; `by` is the last day on which the answer comes in time for all that
    leads to seed or fill, and `first_lost` the job that would come too late after it. Both are None
    where nothing of that is to come.
    """

    quote: Quote
    state: QuoteState
    jobs: tuple[GlancedJob, ...]
    begins: date | None
    by: date | None
    first_lost: str

    @property
    def is_open(self) -> bool:
        """Whether an answer can still come; what was declined waits for none."""
        return self.state != "declined"


def last_offer(quotes: Sequence[Quote]) -> Quote | None:
    """The last quote that was not taken back, where it was not accepted; None where all is sold, as
    with a business that offers nothing."""
    standing = [quote for quote in quotes if quote.said != "withdrawn"]
    if not standing or standing[-1].said == "accepted":
        return None
    return standing[-1]


def unsold_tasks(quotes: Sequence[Quote], open_tasks: Iterable[str]) -> frozenset[str]:
    """Of the open tasks of a lawn those that nobody has bought.

    Without a quote all are sold, and so they are once the last quote is accepted. Beside an older
    quote that was accepted its jobs stay sold; others are not where the last one offers them, or
    where none of the older one is left to do. A callback is owed, whatever is offered.
    """
    offer = last_offer(quotes)
    asked = [task for task in open_tasks if not task.startswith(f"{CALLBACK}.")]
    if offer is None:
        return frozenset()
    sold = _sold(quotes)
    offered = {job.task for choice in offer.choices for job in choice.jobs}
    goes_on = any(task in sold for task in asked)
    return frozenset(
        task for task in asked if task not in sold and (task in offered or not goes_on)
    )


def _sold(quotes: Sequence[Quote]) -> frozenset[str]:
    """The tasks that were offered and accepted."""
    return frozenset(
        job.task
        for quote in quotes
        if quote.said == "accepted" and quote.accepted is not None
        for job in quote.choices[quote.accepted].jobs
    )


def sold_since(quotes: Sequence[Quote]) -> date | None:
    """The day on which the last quote was accepted; None where it was not."""
    standing = [quote for quote in quotes if quote.said != "withdrawn"]
    return standing[-1].said_on if standing and standing[-1].said == "accepted" else None


def parted(
    jobs: Sequence[GlancedJob], quotes: Sequence[Quote], today: date
) -> tuple[tuple[GlancedJob, ...], Unanswered | None]:
    """The jobs of a lawn that are sold, and what waits for an answer; None where nothing does."""
    offer = last_offer(quotes)
    unsold: Collection[str] = unsold_tasks(quotes, (job.task for job in jobs))
    if offer is None or not unsold:
        return tuple(jobs), None
    sold = tuple(job for job in jobs if job.task not in unsold)
    waiting = tuple(job for job in jobs if job.task in unsold)
    return sold, unanswered(offer, waiting, today)


def unanswered(offer: Quote, jobs: tuple[GlancedJob, ...], today: date) -> Unanswered:
    """What waits for the answer to an offer on a day."""
    leading = [job for job in jobs if job.leads or job.main]
    first = min(leading, key=lambda job: (job.last, job.start), default=None)
    return Unanswered(
        quote=offer,
        state=offer.state(today),
        jobs=jobs,
        begins=min((job.start for job in leading), default=None),
        by=first.last if first is not None else None,
        first_lost=first.title if first is not None else "",
    )
