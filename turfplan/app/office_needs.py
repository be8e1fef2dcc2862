"""What a business must decide of a lawn on a day, the most urgent first."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from typing import TYPE_CHECKING, Literal

from turfplan.app.plan_clients import NEAR_DAYS
from turfplan.app.worked_glance import unpaused
from turfplan.business.lawn_glance import LawnGlance
from turfplan.business.promised_days import PromisedDays, promise_news
from turfplan.message import Day, Message
from turfplan.phrases import office as phrases

if TYPE_CHECKING:
    from turfplan.app.office_list import OfficeLawn

# A quote that ends within so many days is asked after; one that ran out as long ago no more.
QUOTE_DAYS = 7
RUN_OUT_DAYS = 30
# A question whose answer is needed within so many days is asked.
QUESTION_DAYS = 7
NeedKind = Literal["failed", "overdue", "last_day", "quote", "question", "message"]
# In the order in which an office has to act.
NEEDS: tuple[NeedKind, ...] = ("failed", "overdue", "last_day", "quote", "question", "message")


@dataclass(frozen=True, slots=True)
class OfficeNeed:
    """What must be decided of a lawn, and by when, as far as there is a day."""

    kind: NeedKind
    text: Message
    by: date | None = None


def needs_of(lawn: "OfficeLawn", today: date) -> tuple[OfficeNeed, ...]:
    """What must be decided of a lawn on a day, the most urgent first."""
    found = [*_of_glance(lawn, today), *_of_quotes(lawn, today)]
    if lawn.fault is not None:
        found.append(OfficeNeed("failed", phrases.need_failed(reason=lawn.fault)))
    return tuple(sorted(found, key=lambda one: (NEEDS.index(one.kind), one.by or date.max)))


def _of_glance(lawn: "OfficeLawn", today: date) -> Iterator[OfficeNeed]:
    glance = lawn.glance
    if glance is None or lawn.pause(today) is not None:
        return
    if over := unpaused(glance.overdue(today), lawn.pauses, today):
        first = min(over, key=lambda job: job.end)
        text = phrases.need_overdue(n=len(over), title=first.title, day=_day(first.end, today))
        yield OfficeNeed("overdue", text, first.end)
    for job in unpaused(glance.near_last(today, NEAR_DAYS), lawn.pauses, today):
        text = phrases.need_last_day(title=job.title, day=_day(job.last, today))
        yield OfficeNeed("last_day", text, job.last)
        break
    until = today + timedelta(days=QUESTION_DAYS)
    asked = [one for one in glance.questions if one.by <= until]
    if asked:
        by = max(min(one.by for one in asked), today)
        text = phrases.need_question(n=len(asked), asked=asked[0].asked, day=_day(by, today))
        yield OfficeNeed("question", text, by)
    if (first_day := _message_by(lawn, glance, today)) is not None:
        yield OfficeNeed("message", phrases.need_message(), first_day)


def _message_by(lawn: "OfficeLawn", glance: LawnGlance, today: date) -> date | None:
    """The first day that differs from what a client was told; a client who was never told anything
    hears of it when the first work is near."""
    now = {
        job.task: PromisedDays(job.title, job.start, job.end)
        for job in glance.jobs
        if job.seen and job.operation not in lawn.by_client and job.end >= today
    }
    told = lawn.told or {}
    news = promise_news(told, now, glance.open_main, glance.over_main)
    days = [one.now.start if one.now is not None else today for one in news]
    if not days or (lawn.told is None and min(days) > today + timedelta(days=NEAR_DAYS)):
        return None
    return min(days)


def _of_quotes(lawn: "OfficeLawn", today: date) -> Iterator[OfficeNeed]:
    waits = lawn.waits(today)
    if waits is not None and waits.by is not None and lawn.pause(today) is None:
        number, day = waits.quote.number, _day(waits.by, today)
        if today <= waits.by <= today + timedelta(days=NEAR_DAYS):
            text = phrases.need_answer(number=number, day=day, title=waits.first_lost)
            yield OfficeNeed("quote", text, waits.by)
            return
    for quote in lawn.quotes[-1:]:
        if quote.said != "offered" or quote.until is None:
            continue
        left = (quote.until - today).days
        day = _day(quote.until, today)
        if 0 <= left <= QUOTE_DAYS:
            text = phrases.need_quote(number=quote.number, day=day)
            yield OfficeNeed("quote", text, quote.until)
        elif -RUN_OUT_DAYS <= left < 0:
            text = phrases.need_quote_over(number=quote.number, day=day)
            yield OfficeNeed("quote", text, quote.until)


def _day(day: date, today: date) -> Day:
    return Day(day, year=day.year != today.year)
