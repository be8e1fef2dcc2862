"""Looks at a lawn as its business works it: in its hours, with what its client has called back for,
and without what a pause takes."""

from collections.abc import Collection, Iterable, Mapping, Sequence
from datetime import date

from turfplan.app.reader_language import language_of
from turfplan.business.callback import Callback
from turfplan.business.lawn_glance import GlancedJob, LawnGlance
from turfplan.business.lawn_pauses import Pause, pause_on
from turfplan.business.quote_record import Quote
from turfplan.business.unanswered import Unanswered, parted
from turfplan.messages.problems import words_for_errors
from turfplan.phrases import standing as phrases


def worked_glance(
    glance: LawnGlance, callbacks: Iterable[Callback], hours: Mapping[str, float]
) -> LawnGlance:
    """A lawn at one look, its jobs in the hours that they take a business (so many times those of
    the plan, by operation), and what its client still waits for among them."""
    waiting = [one for one in callbacks if one.is_open]
    if not (waiting or hours):
        return glance
    jobs = [job.in_hours_of(hours) for job in glance.jobs]
    words = words_for_errors(language_of(None))
    for one in waiting:
        jobs.append(one.job(words.text(phrases.callback_title(text=one.text))))
    jobs.sort(key=lambda job: job.start)
    return glance.model_copy(update={"jobs": tuple(jobs)})


def sold_glance(
    glance: LawnGlance, quotes: Sequence[Quote], today: date
) -> tuple[LawnGlance, Unanswered | None]:
    """A lawn at one look with the jobs alone that are sold, and what waits for an answer."""
    sold, waits = parted(glance.jobs, quotes, today)
    return (glance if waits is None else glance.model_copy(update={"jobs": sold})), waits


def of_crews(jobs: tuple[GlancedJob, ...], by_client: Collection[str]) -> tuple[GlancedJob, ...]:
    """The jobs that a business does: those of operations `by_client` are its client's own, on no
    list and in no hours of a crew."""
    return tuple(job for job in jobs if job.task.partition(".")[0] not in by_client)


def unpaused(
    jobs: tuple[GlancedJob, ...], pauses: tuple[Pause, ...], first: date
) -> tuple[GlancedJob, ...]:
    """The jobs that no pause takes, on their first day that a list shows."""
    if not pauses:
        return jobs
    return tuple(job for job in jobs if pause_on(pauses, max(job.start, first)) is None)
