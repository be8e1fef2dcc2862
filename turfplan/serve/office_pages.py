"""The list of the office page: what needs a decision today, whose lawn is where, and the sheets of
crews."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Literal, get_args
from urllib.parse import urlencode

from starlette.requests import Request
from starlette.responses import HTMLResponse, Response

from turfplan.app.client_lists import AskedList, told_hours
from turfplan.app.client_sheets import crew_sheet
from turfplan.app.export_clients import export_clients
from turfplan.app.office_hours import week_hours
from turfplan.app.office_list import OfficeLawn
from turfplan.app.office_needs import NEEDS, NeedKind, OfficeNeed
from turfplan.business.crew_hours import CREW_COLUMN
from turfplan.business.groups import ClientGroup
from turfplan.business.lawn_pauses import Pause
from turfplan.errors import TurfplanError
from turfplan.export.templates import render
from turfplan.message import Day, Message, said
from turfplan.messages import Words
from turfplan.phrases import office as phrases
from turfplan.phrases import standing as of_standing
from turfplan.plain_text import plain_text
from turfplan.serve.office_desk import Seat
from turfplan.serve.office_seats import desk_of
from turfplan.serve.pages import PRIVATE, notice
from turfplan.serve.sheet_pages import own_policy
from turfplan.serve.visit import Server, number_of

PER_PAGE = 50
LONGEST_SEARCH = 80
# So many needs and jobs of a lawn stand in the list, and how many more there are.
MOST_LINES = 3
OfficeScope = Literal["needs", "today", "all"]
SCOPES: tuple[OfficeScope, ...] = get_args(OfficeScope)
_KINDS = {
    "failed": phrases.kind_failed,
    "overdue": phrases.kind_overdue,
    "last_day": phrases.kind_last_day,
    "quote": phrases.kind_quote,
    "question": phrases.kind_question,
    "message": phrases.kind_message,
}


@dataclass(frozen=True, slots=True)
class _OfficeRow:
    """A lawn with what must be decided of it on its own day."""

    lawn: OfficeLawn
    today: date
    needs: tuple[OfficeNeed, ...]


def kind_name(kind: NeedKind) -> Message:
    """What a kind of decision is called."""
    return _KINDS[kind]()


def paused_text(pause: Pause | None, words: Words) -> str:
    """That a lawn is paused, and until when; nothing for one that is not."""
    if pause is None:
        return ""
    if pause.end is None:
        return words.text(of_standing.state_paused_open())
    return words.text(of_standing.state_paused(day=Day(pause.end, weekday=True)))


def rest_text(lawn: OfficeLawn, today: date, words: Words) -> str:
    """Why nothing is done at a lawn for now: it is paused, or waits for the answer to a quote, and
    until when; nothing where neither is so."""
    pause, waits = lawn.pause(today), lawn.waits(today)
    if pause is not None or waits is None:
        return paused_text(pause, words)
    number = waits.quote.number
    if waits.by is None:
        return words.text(phrases.waits_open(number=number))
    return words.text(phrases.waits(number=number, day=Day(waits.by, weekday=True)))


def office_page(server: Server, request: Request, seat: Seat) -> Response:
    """The list of all lawns, opened with those that need a decision today; searched and paged."""
    desk, now = desk_of(server), server.settings.clock()
    words, business = desk.words(), desk.business()
    rows = [
        _OfficeRow(lawn, today, desk.shelf.needs(lawn, today))
        for lawn in desk.shelf.lawns()
        for today in (lawn.today(now),)
    ]
    hours = week_hours((row.lawn for row in rows), business, desk.today(now))
    rows.sort(key=_urgency)
    query = request.query_params
    asked = plain_text(query.get("q", ""))[:LONGEST_SEARCH]
    show = query.get("show", "all" if asked else "needs")
    counts = Counter(kind for row in rows for kind in {need.kind for need in row.needs})
    deciding = [row for row in rows if row.needs]
    working = sorted(
        (row for row in rows if row.lawn.jobs_of(row.today)),
        key=lambda row: (row.lawn.crew.casefold(), row.lawn.name.casefold()),
    )
    named = sorted(rows, key=lambda row: row.lawn.name.casefold())
    of_scope = {"needs": deciding, "today": working, "all": named}
    if show in NEEDS:
        chosen = [row for row in rows if any(need.kind == show for need in row.needs)]
    else:
        show = show if show in SCOPES else "needs"
        chosen = of_scope[show]
    if asked:
        parts = asked.casefold().split()
        chosen = [row for row in chosen if _has(row.lawn, parts)]
    pages = max(1, -(-len(chosen) // PER_PAGE))
    page = min(max(1, number_of(query.get("page", "1")) or 1), pages)
    shown = chosen[(page - 1) * PER_PAGE : page * PER_PAGE]
    crews = sorted({row.lawn.crew for row in rows if row.lawn.crew}, key=str.casefold)
    html = render(
        "web/office/list.html.jinja",
        words,
        seat=seat,
        business=plain_text(business.name) if business is not None else desk.root.name,
        day=words.value(Day(desk.today(now))),
        hours=[(words.text(told_hours(day)), day.is_over) for day in hours if day.needed],
        show=show,
        asked=asked,
        scopes=[(name, words.text(_scope_name(name)), len(of_scope[name])) for name in SCOPES],
        kinds=[(k, words.text(kind_name(k)), counts[k]) for k in NEEDS if counts[k]],
        found=len(chosen),
        rows=[_shown(row, show, words) for row in shown],
        page=page,
        pages=pages,
        here_path="/office?" + urlencode({"show": show, "q": asked} if asked else {"show": show}),
        crews=[{"name": crew, "query": urlencode({"crew": crew})} for crew in crews],
    )
    return HTMLResponse(html, 200, PRIVATE)


def _urgency(row: _OfficeRow) -> tuple[int, date, str]:
    if not row.needs:
        return len(NEEDS), date.max, row.lawn.name.casefold()
    first = row.needs[0]
    return NEEDS.index(first.kind), first.by or date.min, row.lawn.name.casefold()


def _scope_name(scope: OfficeScope) -> Message:
    match scope:
        case "needs":
            return phrases.to_decide()
        case "today":
            return phrases.of_today()
        case "all":
            return phrases.all_lawns()


def _has(lawn: OfficeLawn, parts: Sequence[str]) -> bool:
    searched = lawn.searched
    return all(part in searched for part in parts)


def _shown(row: _OfficeRow, show: str, words: Words) -> dict[str, object]:
    """A lawn as the list shows it."""
    lawn = row.lawn
    needs = [need for need in row.needs if show in (*SCOPES, need.kind)]
    jobs = lawn.jobs_of(row.today) if show != "needs" else ()
    return {
        "id": lawn.id,
        "name": plain_text(lawn.name),
        "address": plain_text(lawn.client.address or ""),
        "crew": plain_text(lawn.crew),
        "paused": rest_text(lawn, row.today, words),
        "needs": [
            (words.text(kind_name(need.kind)), words.text(need.text)) for need in needs[:MOST_LINES]
        ],
        "more": max(0, len(needs) - MOST_LINES),
        "jobs": [
            {
                "title": job.title,
                "until": words.value(Day(job.end, year=False)) if job.end > row.today else "",
            }
            for job in jobs[:MOST_LINES]
        ],
        "more_jobs": max(0, len(jobs) - MOST_LINES),
    }


def sheet_answer(
    server: Server, request: Request, kind: Literal["day", "week"], crew: str | None
) -> Response:
    """The sheet of a day or a week, of one crew or of all, as a page that prints whole."""
    desk, now = desk_of(server), server.settings.clock()
    group = ClientGroup(CREW_COLUMN, crew) if crew else None
    try:
        html, _, _ = crew_sheet(desk.root, AskedList(kind, desk.today(now), group), None)
    except TurfplanError as error:
        told = said(error.problems[0].message)
        return notice(request, 404, told, words=desk.words())
    return HTMLResponse(html, 200, {**PRIVATE, **own_policy(html)})


def export_answer(server: Server, request: Request, seat: Seat) -> Response:
    """The clients as the file in which they came."""
    desk = desk_of(server)
    try:
        table = export_clients(desk.root)
    except TurfplanError as error:
        return notice(request, 404, said(error.problems[0].message), words=desk.words())
    headers = {**PRIVATE, "Content-Disposition": 'attachment; filename="clients.csv"'}
    return Response(table.content, 200, headers, "application/octet-stream")
