"""The served feeds and pages: routes that parse, call one function, and map one error."""

import base64
import io
import secrets
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import HTMLResponse, PlainTextResponse, Response
from starlette.routing import Route

from turfplan.app.outputs import words_of
from turfplan.errors import TurfplanError
from turfplan.export.sheets.changes_page import change_groups
from turfplan.export.sheets.ground_sheets import fill_view
from turfplan.export.sheets.look import in_order_of_work, near_text
from turfplan.export.templates import render, stylesheet
from turfplan.files.reading.plan import read_plan
from turfplan.message import Message as Told
from turfplan.messages import Words
from turfplan.phrases import page as phrases
from turfplan.plain_text import plain_text
from turfplan.records.plan import Plan
from turfplan.serve import tokens
from turfplan.serve.feed import feed_answer
from turfplan.serve.feed_cache import FeedCache
from turfplan.serve.guard import Guard, from_here, plain
from turfplan.serve.index import ServedLawn
from turfplan.serve.ticks import tick

PAGE_DAYS = 14
Replan = Callable[[ServedLawn], None]


@dataclass(frozen=True, slots=True)
class ServerSettings:
    """How it is served: index file, public address for links, allowed hosts, compression, requests
    a minute and address.
    """

    index: Path
    base_url: str = "http://127.0.0.1:8765"
    hosts: tuple[str, ...] = ("127.0.0.1", "localhost")
    compress: bool = True
    per_minute: int = 240
    replan: Replan | None = None


def create_app(settings: ServerSettings) -> Guard:
    """The application: feeds, a page for each lawn, ticks, the stylesheet; everything else is not
    there.
    """
    shelf = FeedCache(settings.index)

    async def feed(request: Request) -> Response:
        return _feed(settings, shelf, request)

    async def page(request: Request) -> Response:
        text = request.path_params["token"]
        token = shelf.find(text)
        if token is None or token.kind == "feed":
            return plain(phrases.unknown(), 404)
        if token.revoked:
            return plain(phrases.gone(), 410)
        visit = Visit(settings, request, token, tokens.feed_of_page(text))
        return await _posted(visit, shelf) if request.method == "POST" else _page(visit, {})

    routes = [
        Route("/feed/{token}.ics", feed, methods=["GET"]),
        Route("/lawn/{token}", page, methods=["GET", "POST"]),
        Route("/static/web.css", _style, methods=["GET"]),
        Route("/robots.txt", _robots, methods=["GET"]),
    ]
    handlers = {404: _nothing, 405: _other_method, 400: _bad_form, 500: _failed}
    app = Starlette(routes=routes, exception_handlers=handlers)
    # A redirect would tell a guess that it was near.
    app.router.redirect_slashes = False
    return Guard(app, settings.per_minute, settings.hosts)


def _feed(settings: ServerSettings, shelf: FeedCache, request: Request) -> Response:
    """The calendar of the lawn that the token opens."""
    token = shelf.find(request.path_params["token"])
    if token is None or token.kind != "feed":
        return plain(phrases.unknown(), 404)
    if token.revoked:
        return plain(phrases.gone(), 410)
    found = shelf.feed(token.lawn)
    if found is None:
        return plain(phrases.no_plan(), 404)
    headers = {
        name: request.headers[name]
        for name in ("if-none-match", "if-modified-since", "accept-encoding")
        if name in request.headers
    }
    answer = feed_answer(
        found.published.content,
        found.published.at,
        headers,
        head=request.method == "HEAD",
        compress=settings.compress,
        etag=found.etag,
        zipped_form=lambda: found.zipped,
    )
    return Response(answer.body, answer.status, dict(answer.headers))


async def _style(request: Request) -> Response:
    return Response(
        str(stylesheet("web.css")),
        media_type="text/css",
        headers={"Cache-Control": "public, max-age=3600"},
    )


async def _robots(request: Request) -> Response:
    return PlainTextResponse("User-agent: *\nDisallow: /lawn/\n")


async def _nothing(request: Request, error: Exception) -> Response:
    return plain(phrases.unknown(), 404)


async def _other_method(request: Request, error: Exception) -> Response:
    # What the address does take is said in the header `Allow`.
    return plain(phrases.other_method(), 405, getattr(error, "headers", None))


async def _bad_form(request: Request, error: Exception) -> Response:
    return plain(phrases.bad_form(), 400)


async def _failed(request: Request, error: Exception) -> Response:
    # The error goes on to who serves, as it would without this answer.
    return plain(phrases.failed(), 500)


@dataclass(frozen=True, slots=True)
class Visit:
    """A request for a page, what its token opens, and the token of the feed that belongs to the
    page.
    """

    settings: ServerSettings
    request: Request
    token: tokens.Token
    feed: str

    @property
    def https_link(self) -> str:
        """Where the page's own feed is."""
        return f"{self.settings.base_url.rstrip('/')}/feed/{self.feed}.ics"

    @property
    def webcal_link(self) -> str:
        """The same address as calendar programs take it from a link."""
        return "webcal://" + self.https_link.split("://", 1)[1]


def _page(
    visit: Visit,
    errors: Mapping[str, Told],
    status: int = 200,
    form: dict[str, str] | None = None,
) -> Response:
    token = visit.token
    try:
        plan = read_plan(token.lawn.folder)
    except TurfplanError:
        plan = None
    if plan is None:
        return plain(phrases.no_plan(), 404)
    today = datetime.now(UTC).astimezone(ZoneInfo(plan.timezone)).date()
    words = words_of(plan)
    html = render(
        "web/lawn.html.jinja",
        words,
        lawn=plain_text(plan.lawn.name) or words.text(phrases.lawn()),
        campaign=plan.campaign_name,
        jobs=_jobs(plan, words, today),
        overdue=_overdue(plan, words),
        edits=token.kind == "edit" and token.lawn.brief is not None,
        errors={field: words.text(fault) for field, fault in errors.items()},
        form=form or {},
        asked_back=bool(errors) and errors.keys() <= {"on", "task"} and "task" in (form or {}),
        key=secrets.token_hex(8),
        today=today.isoformat(),
        source=plan.climate.source,
        error_days=plan.climate.error_days,
        changes=change_groups(plan, words),
        https_link=visit.https_link,
        webcal_link=visit.webcal_link,
        qr=qr_data_uri(visit.https_link),
        label=token.label,
        fill=fill_view(plan, words),
    )
    return HTMLResponse(html, status, {"Cache-Control": "private, no-store"})


def _jobs(plan: Plan, words: Words, today: date) -> list[dict[str, object]]:
    """The open work of the next two weeks."""
    end = today + timedelta(days=PAGE_DAYS)
    near = [
        t
        for t in plan.tasks
        if t.closed is None and t.status != "CANCELLED" and t.start <= end and t.end >= today
    ]
    return [
        {
            "id": t.id,
            "title": t.title.text,
            "day": near_text(t.start, words),
            "go": t.go.text if t.go else None,
            "series": t.series is not None,
        }
        for t in in_order_of_work(near)
    ]


def _overdue(plan: Plan, words: Words) -> list[dict[str, str]]:
    return [
        {"id": t.id, "title": t.title.text, "day": near_text(t.end, words)}
        for t in in_order_of_work([t for t in plan.tasks if t.overdue])
    ]


async def _posted(visit: Visit, shelf: FeedCache) -> Response:
    """A form of the page: only from this site's own pages; a tick only with an edit token; answered
    by the page again.
    """
    request, token = visit.request, visit.token
    if not from_here(request):
        return plain(phrases.foreign_form(), 403)
    form = {key: str(value) for key, value in (await request.form()).items()}
    if form.get("do") == "revoke":
        # Asked on the page itself: the box must be ticked, since nothing brings the address back.
        if form.get("sure") != "yes":
            return _page(visit, {"sure": phrases.tick_first()}, 422, form)
        shelf.revoke(token)
        return plain(phrases.gone(), 410)
    if token.kind != "edit" or token.lawn.brief is None:
        return plain(phrases.read_only(), 403)
    errors = tick(token.lawn.folder, token.lawn.brief, form, datetime.now(UTC))
    if errors:
        return _page(visit, errors, 422, form)
    if visit.settings.replan is not None:
        # Planning takes seconds; the feeds go on meanwhile.
        await run_in_threadpool(visit.settings.replan, token.lawn)
    return Response(status_code=303, headers={"Location": request.url.path})


def qr_data_uri(text: str) -> str:
    """A QR code as an image that needs no second request; white behind it, so that dark pages stay
    readable.
    """
    import segno

    out = io.BytesIO()
    segno.make(text, error="m").save(out, kind="svg", light="white", scale=4, border=4)
    return "data:image/svg+xml;base64," + base64.b64encode(out.getvalue()).decode()
