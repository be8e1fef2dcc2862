"""The pages of a lawn: its day, what was written, its calendars, and what is asked back."""

import base64
import io
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from urllib.parse import urlencode

from starlette.requests import Request
from starlette.responses import HTMLResponse, Response

from turfplan.app.lawn_day import LawnDay, lawn_day
from turfplan.app.lawn_journal import journal_of_lawn
from turfplan.app.outputs import words_of, words_of_user
from turfplan.errors import TurfplanError
from turfplan.export.sheets.changes_page import change_groups
from turfplan.export.sheets.ground_sheets import fill_view
from turfplan.export.templates import render
from turfplan.files.reading.brief import journal_beside
from turfplan.files.reading.plan import read_plan
from turfplan.message import Day, Message
from turfplan.messages import Words
from turfplan.phrases import page as phrases
from turfplan.plain_text import plain_text
from turfplan.records.journal import JournalEntry
from turfplan.records.plan import Plan
from turfplan.serve import owners, tokens
from turfplan.serve.today import day_view
from turfplan.serve.visit import Visit, calendar_links, number_of, reach_of
from turfplan.serve.wrote import entry_sentence

PRIVATE = {"Cache-Control": "private, no-store"}
# Entries of whose writing a page tells at once.
MOST_TOLD = 20


@dataclass(frozen=True, slots=True)
class Known:
    """What is known of a lawn on a visit: plan, journal (None: it cannot be read), words, day."""

    plan: Plan
    entries: tuple[JournalEntry, ...]
    damaged: bool
    words: Words
    day: LawnDay


def known_of(visit: Visit) -> Known | None:
    """The lawn of a visit; None where there is no plan that can be read."""
    try:
        plan = read_plan(visit.lawn.folder)
    except TurfplanError:
        plan = None
    if plan is None or plan.lawn_id != visit.lawn.lawn_id:
        # Another lawn may have come into the folder: an address opens none but its own.
        return None
    entries: tuple[JournalEntry, ...] = ()
    damaged = False
    if visit.lawn.brief is not None:
        try:
            journal = journal_beside(visit.lawn.brief)
            entries = journal_of_lawn(journal, visit.lawn.folder).entries
        except TurfplanError:
            damaged = True
    day = lawn_day(plan, entries, visit.today(plan))
    return Known(plan, entries, damaged, words_of(plan), day)


def today_page(visit: Visit, known: Known, told: Sequence[Message] = ()) -> Response:
    """What the day asks; with `told`, what is wrong with a form that was sent."""
    plan, words = known.plan, known.words
    query = visit.request.query_params
    numbers, again = (
        [n for text in query.getlist(name) if (n := number_of(text)) is not None]
        for name in ("told", "known")
    )
    # What stood in the way stands no more once the plan knows all that is written.
    behind = known.day.behind and not known.damaged
    reasons = visit.server.failures.get(visit.lawn.id, ()) if behind else ()
    return _page(
        "web/today.html.jinja",
        visit,
        known,
        422 if told else 200,
        view=day_view(plan, known.day, known.entries, words),
        today=known.day.today.isoformat(),
        day=words.value(Day(known.day.today)),
        errors=[words.text(one) for one in told],
        written=_sentences(known, numbers),
        before=_sentences(known, again),
        failed=known.damaged,
        behind=behind,
        reasons=[text for text in reasons if text],
        told=bool(numbers or again),
        changes=_moves(plan, words),
        fill=fill_view(plan, words),
        campaign=plan.campaign_name,
        source=plan.climate.source,
        error_days=plan.climate.error_days,
    )


# Of what was written itself the page tells already.
_TOLD_OTHERWISE = ("done", "skipped", "reworded")


def _moves(plan: Plan, words: Words) -> list[str]:
    """What differs from the plan before and why, beside what was written."""
    told = []
    for group in change_groups(plan, words):
        for view in group.changes:
            change = view.change
            if change.kind in _TOLD_OTHERWISE:
                continue
            values = {"kind": group.name, "task": view.title, "because": str(change.because)}
            before, after = str(change.before or ""), str(change.after or "")
            if before and after:
                line = phrases.change_both(before=before, after=after, **values)
            elif before:
                line = phrases.change_was(before=before, **values)
            elif after:
                line = phrases.change_now(after=after, **values)
            else:
                line = phrases.change(**values)
            told.append(words.text(line))
    return told


def _sentences(known: Known, numbers: Sequence[int]) -> list[dict[str, object]]:
    """Entries of some numbers as they are told, with their numbers."""
    wanted = set(numbers[:MOST_TOLD])
    return [
        {"number": entry.number, "text": entry_sentence(known.plan, entry, known.words)}
        for entry in known.day.entries
        if entry.number in wanted
    ]


def did_page(visit: Visit, known: Known, told: Sequence[Message] = ()) -> Response:
    """What was written, the last first; all of it can be taken back at any time."""
    numbers = [entry.number for entry in known.day.entries]
    lines = [
        line
        for n in range(0, len(numbers), MOST_TOLD)
        for line in _sentences(known, numbers[n : n + MOST_TOLD])
    ]
    return _page(
        "web/did.html.jinja",
        visit,
        known,
        422 if told else 200,
        lines=lines,
        errors=[known.words.text(one) for one in told],
        undone="undone" in visit.request.query_params,
    )


def ask_page(
    visit: Visit,
    known: Known,
    asked: Sequence[Message],
    fields: Sequence[tuple[str, str]],
    *,
    sure_helps: bool,
) -> Response:
    """What looks like a slip, asked back beside all that was filled in."""
    words, jobs = known.words, [value for name, value in fields if name == "job"]
    editable = _EDITABLE.get(dict(fields).get("how", ""), ())
    titles = [str(task.title) for name in jobs if (task := known.plan.task(name)) is not None]
    return _page(
        "web/ask.html.jinja",
        visit,
        known,
        422,
        asked=[words.text(one) for one in asked],
        titles=titles,
        fields=[(name, value) for name, value in fields if name not in editable],
        form={name: value for name, value in fields if name in editable},
        sure_helps=sure_helps,
    )


# What can be put right where it is asked back, by what the form says of the job.
_EDITABLE: dict[str, tuple[str, ...]] = {"done": ("on", "amount"), "move": ("to",)}


def calendar_page(
    visit: Visit,
    known: Known,
    told: Sequence[Message] = (),
    made: tuple[str, str] | None = None,
    form: Mapping[str, str] | None = None,
) -> Response:
    """Which calendars reach this lawn's feed, and who holds which address; `made` is a new one, its
    kind and its text, which is shown this once."""
    words, base, links = known.words, visit.base_url, None
    if visit.token is not None:
        links = calendar_links(base, tokens.feed_of_page(visit.secret))
    if made is not None and made[0] == "feed":
        links = calendar_links(base, made[1])
    page = f"{base}/lawn/{made[1]}" if made is not None and made[0] != "feed" else None
    held = visit.server.shelf.addresses(visit.lawn) if visit.right == "own" else ()
    browsers = visit.server.shelf.browsers(visit.now) if visit.right == "own" else ()
    return _page(
        "web/calendar.html.jinja",
        visit,
        known,
        422 if told else 200,
        reach=reach_of(base),
        secure=base.startswith("https://"),
        links=links,
        qr=qr_data_uri(links[0]) if links else None,
        page=page,
        page_qr=qr_data_uri(page) if page else None,
        new=made is not None,
        held=[_held(token, visit.now, words) for token in held if token.page is None],
        owner_command=owners.OWNER_COMMAND,
        browsers=[_browser(one, words) for one in browsers],
        errors=[words.text(one) for one in told],
        form=form or {},
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
        "right": words.text(_RIGHTS[token.kind]()),
        "since": _day_text(token.created, words),
        "ends": _day_text(token.ends, words) if token.ends else "",
        "read": _day_text(token.read, words) if token.read else "",
        "gone": token.is_gone or ended,
        "ended": ended,
    }


def _browser(owner: owners.Owner, words: Words) -> dict[str, object]:
    since, ends = _day_text(owner.created, words), _day_text(owner.ends, words)
    return {"number": owner.id, "holder": owner.label, "since": since, "ends": ends}


def _day_text(text: str, words: Words) -> str:
    """A moment as the index keeps it, by its day."""
    return words.value(Day(date.fromisoformat(text[:10]), weekday=False))


def _page(template: str, visit: Visit, known: Known, status: int, **values: object) -> Response:
    words = known.words
    html = render(
        template,
        words,
        lawn=plain_text(known.plan.lawn.name) or words.text(phrases.lawn()),
        home=visit.home,
        right=visit.right,
        holder=visit.holder,
        edits=visit.may_tick and not known.damaged,
        **values,
    )
    return HTMLResponse(html, status, PRIVATE)


def notice(request: Request, status: int, *said: Message, words: Words | None = None) -> Response:
    """A page of a few sentences to somebody of whose lawn nothing may be said."""
    words = words or words_of_user()
    texts = [words.text(one) for one in said]
    html = render("web/notice.html.jinja", words, title=texts[0], sentences=texts[1:])
    return HTMLResponse(html, status, PRIVATE)


def see_other(path: str, **numbers: Sequence[int]) -> Response:
    """Sends the browser on, so that loading the page again sends no form again."""
    query = urlencode([(name, n) for name, several in numbers.items() for n in several])
    location = f"{path}?{query}" if query else path
    return Response(status_code=303, headers={"Location": location})


def qr_data_uri(text: str) -> str:
    """A QR code as an image that needs no second request; white behind it, so that dark pages stay
    readable.
    """
    import segno

    out = io.BytesIO()
    segno.make(text, error="m").save(out, kind="svg", light="white", scale=4, border=4)
    return "data:image/svg+xml;base64," + base64.b64encode(out.getvalue()).decode()
