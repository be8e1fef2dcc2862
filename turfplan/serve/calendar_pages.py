"""The page of a lawn's calendars: how to subscribe where that can work, a copy else, and who holds
which address."""

from collections.abc import Callable, Mapping, Sequence
from datetime import datetime, timedelta

from starlette.responses import Response

from turfplan.export.qr_code import qr_data_uri
from turfplan.message import Day, Days, Message
from turfplan.messages import Words
from turfplan.phrases import page as phrases
from turfplan.records.plan_calendar import CalendarPart
from turfplan.serve import owners, tokens
from turfplan.serve.pages import PRIVATE, Known, day_text, lawn_page, notice, silent_calendars
from turfplan.serve.phones_button import phones_view
from turfplan.serve.reach import calendar_links, reach_of
from turfplan.serve.visit import Visit

HOUR, DAY = timedelta(hours=1), timedelta(days=1)
# Beyond these a number says less than the day itself.
MOST_HOURS, MOST_DAYS = 24, 14


def calendar_page(
    visit: Visit,
    known: Known,
    told: Sequence[Message] = (),
    made: tuple[str, str] | None = None,
    form: Mapping[str, str] | None = None,
) -> Response:
    """Which calendars reach this lawn's feed, and who holds which address; `made` is a new one, its
    kind and its text, which is shown this once."""
    words, base, links = known.words, visit.server.handed_url(visit.request), None
    if visit.token is not None:
        links = calendar_links(base, tokens.feed_of_page(visit.secret))
    if made is not None and made[0] == "feed":
        links = calendar_links(base, made[1])
    page = f"{base}/lawn/{made[1]}" if made is not None and made[0] != "feed" else None
    held = visit.server.shelf.addresses(visit.lawn) if visit.right == "own" else ()
    owns = visit.right == "own" and not visit.operator
    browsers = visit.server.shelf.browsers(visit.now) if owns else ()
    return lawn_page(
        "web/calendar.html.jinja",
        visit,
        known,
        422 if told else 200,
        reach=reach_of(base),
        secure=base.startswith("https://"),
        links=links,
        silent=silent_calendars(visit, words),
        copy=visit.server.shelf.feed(visit.lawn) is not None,
        qr=qr_data_uri(links[0]) if links else None,
        page=page,
        page_qr=qr_data_uri(page) if page else None,
        new=made is not None,
        held=[_held(token, visit.now, words) for token in held if token.page is None],
        owner_command=owners.OWNER_COMMAND,
        browsers=[_browser(one, words, here=one.id == visit.browser) for one in browsers],
        errors=[words.text(one) for one in told],
        form=form or {},
        phones=phones_view(visit.server, visit.request, words) if owns else None,
    )


_RIGHTS: dict[tokens.TokenKind, Callable[[], Message]] = {
    "feed": phrases.right_feed,
    "read": phrases.right_read,
    "edit": phrases.right_edit,
}


def _held(token: tokens.Token, now: datetime, words: Words) -> dict[str, object]:
    """An address as its owner reads of it."""
    ended = token.ended(now)
    return {
        "number": token.id,
        "holder": token.label,
        "right": words.text(_right(token)),
        "since": day_text(token.created, words),
        "ends": day_text(token.ends, words) if token.ends else "",
        "read": words.text(read_when(token.read, now)),
        "gone": token.is_gone or ended,
        "ended": ended,
    }


def _browser(owner: owners.Owner, words: Words, *, here: bool) -> dict[str, object]:
    since, ends = day_text(owner.created, words), day_text(owner.ends, words)
    return {
        "number": owner.id,
        "holder": owner.label,
        "since": since,
        "ends": ends,
        "here": here,
    }


_PARTS: Mapping[str, Callable[[], Message]] = {
    "work": phrases.right_feed_work,
    "water": phrases.right_feed_water,
}


def _right(token: tokens.Token) -> Message:
    """What an address may do, and what it shows."""
    if token.day is not None:
        return phrases.right_day(day=Day(token.day))
    right = right_of(token.kind, token.view.part)
    if token.view.days is None:
        return right
    return phrases.right_on_days(right=right, days=Days(*token.view.days))


def right_of(kind: tokens.TokenKind, part: CalendarPart) -> Message:
    """What an address may do, and which part of a calendar it shows."""
    return _PARTS.get(part, _RIGHTS[kind])()


def read_when(read: str | None, now: datetime) -> Message:
    """When something was last read by an address."""
    if read is None:
        return phrases.never_read()
    ago = now - datetime.fromisoformat(read)
    if ago < HOUR:
        return phrases.read_now()
    if ago < MOST_HOURS * HOUR:
        return phrases.read_hours(n=ago // HOUR)
    if ago < MOST_DAYS * DAY:
        return phrases.read_days(n=ago // DAY)
    return phrases.last_read(day=Day(datetime.fromisoformat(read).date(), weekday=False))


def copy_answer(visit: Visit, known: Known) -> Response:
    """The calendar as a file that is added once, and does not move by itself."""
    feed = visit.server.shelf.feed(visit.lawn)
    if feed is None:
        return notice(visit.request, 404, phrases.no_plan(), words=known.words)
    headers = {**PRIVATE, "Content-Disposition": 'attachment; filename="season.ics"'}
    return Response(feed.published.content, 200, headers, "text/calendar")
