"""The served feeds and pages: routes that parse, call one function, and map one error."""

import base64
import io
import re
import secrets
import time
from collections import OrderedDict
from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from urllib.parse import urlsplit
from zoneinfo import ZoneInfo

from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.datastructures import Headers
from starlette.middleware import Middleware
from starlette.requests import Request
from starlette.responses import HTMLResponse, PlainTextResponse, Response
from starlette.routing import Route
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from turfplan.app.outputs import words_of, words_of_user
from turfplan.errors import TurfplanError
from turfplan.export.sheets.changes_page import change_groups
from turfplan.export.sheets.ground_sheets import fill_view
from turfplan.export.sheets.look import in_order_of_work, near_text
from turfplan.export.templates import render, stylesheet
from turfplan.files.data_folder import known_lawn_id
from turfplan.files.index import ServedLawn
from turfplan.files.reading.plan import read_plan
from turfplan.message import Message as Told
from turfplan.messages import Words
from turfplan.phrases import page as phrases
from turfplan.plain_text import plain_text
from turfplan.records.plan import Plan
from turfplan.serve import tokens
from turfplan.serve.feed import feed_answer
from turfplan.serve.feed_cache import FeedCache
from turfplan.serve.ticks import tick

SECURITY = {
    "Content-Security-Policy": (
        "default-src 'self'; img-src 'self' data:; style-src 'self'; frame-ancestors 'none'; "
        "base-uri 'none'; form-action 'self'"
    ),
    "Referrer-Policy": "no-referrer",
    "X-Content-Type-Options": "nosniff",
    "X-Robots-Tag": "noindex, nofollow",
    "Cross-Origin-Resource-Policy": "same-origin",
}
_SECURITY_SENT = [(name.lower().encode(), value.encode()) for name, value in SECURITY.items()]
PAGE_DAYS = 14
LARGEST_FORM = 10_000
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


@dataclass(slots=True)
class RequestRate:
    """Counts requests by address and minute; old minutes are forgotten."""

    per_minute: int
    seen: "OrderedDict[tuple[str, int], int]" = field(default_factory=OrderedDict)

    def allows(self, address: str, now: float) -> bool:
        """Whether one more request of this address is within the minute's number."""
        key = (address, int(now // 60))
        self.seen[key] = self.seen.get(key, 0) + 1
        while len(self.seen) > 10_000 or (self.seen and next(iter(self.seen))[1] < key[1] - 1):
            self.seen.popitem(last=False)
        return self.seen[key] <= self.per_minute


class Guard:
    """Adds the security headers to every answer, and turns away too many requests and those to
    another host, which starlette's own guard of hosts would do in English.
    """

    def __init__(self, app: ASGIApp, per_minute: int, hosts: Collection[str]) -> None:
        self.app = app
        self.rate = RequestRate(per_minute)
        self.hosts = frozenset(map(_host_name, hosts))

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """One request."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        address = (scope.get("client") or ("?", 0))[0]
        refusal = None
        if not self.rate.allows(address, time.monotonic()):
            refusal = _plain(phrases.too_many(), 429, {"Retry-After": "60", **SECURITY})
        elif not self.knows(Headers(scope=scope).get("host", "")):
            refusal = _plain(phrases.other_host(), 400, SECURITY)
        if refusal is not None:
            await refusal(scope, receive, send)
            return

        async def guarded(message: Message) -> None:
            if message["type"] == "http.response.start":
                message["headers"] = [*message["headers"], *_SECURITY_SENT]
            await send(message)

        await self.app(scope, receive, guarded)

    def knows(self, host: str) -> bool:
        """Whether requests may go to this host, named with or without a port."""
        return not {"*", _host_name(re.sub(r":\d+$", "", host))}.isdisjoint(self.hosts)


def _host_name(text: str) -> str:
    """A host as it is compared: an IPv6 address stands in brackets before a port."""
    return text.strip("[]").lower()


def create_app(settings: ServerSettings) -> Starlette:
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
            return _plain(phrases.unknown(), 404)
        if token.is_gone:
            return _plain(phrases.gone(), 410)
        visit = Visit(settings, request, token, tokens.feed_of_page(text))
        return await _posted(visit, shelf) if request.method == "POST" else _page(visit, {})

    routes = [
        Route("/feed/{token}.ics", feed, methods=["GET"]),
        Route("/lawn/{token}", page, methods=["GET", "POST"]),
        Route("/static/web.css", _style, methods=["GET"]),
        Route("/robots.txt", _robots, methods=["GET"]),
    ]
    middleware = [Middleware(Guard, per_minute=settings.per_minute, hosts=settings.hosts)]
    handlers = {404: _nothing, 405: _nothing, 400: _bad_form, 500: _failed}
    app = Starlette(routes=routes, middleware=middleware, exception_handlers=handlers)
    # A redirect would tell a guess that it was near.
    app.router.redirect_slashes = False
    return app


def _feed(settings: ServerSettings, shelf: FeedCache, request: Request) -> Response:
    """The calendar of the lawn that the token opens."""
    token = shelf.find(request.path_params["token"])
    if token is None or token.kind != "feed":
        return _plain(phrases.unknown(), 404)
    if token.is_gone:
        return _plain(phrases.gone(), 410)
    found = shelf.feed(token.lawn)
    if found is None:
        return _plain(phrases.no_plan(), 404)
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


def _plain(message: Told, status: int, headers: Mapping[str, str] | None = None) -> Response:
    """An answer to somebody of whose lawn nothing may be said: in the language of who serves."""
    return PlainTextResponse(words_of_user().text(message), status, headers)


async def _style(request: Request) -> Response:
    return Response(
        str(stylesheet("web.css")),
        media_type="text/css",
        headers={"Cache-Control": "public, max-age=3600"},
    )


async def _robots(request: Request) -> Response:
    return PlainTextResponse("User-agent: *\nDisallow: /lawn/\n")


async def _nothing(request: Request, error: Exception) -> Response:
    return _plain(phrases.unknown(), getattr(error, "status_code", 404))


async def _bad_form(request: Request, error: Exception) -> Response:
    return _plain(phrases.bad_form(), 400)


async def _failed(request: Request, error: Exception) -> Response:
    # The error goes on to who serves, as it would without this answer.
    return _plain(phrases.failed(), 500, SECURITY)


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
    if plan is None or plan.lawn_id != token.lawn.lawn_id:
        return _plain(phrases.no_plan(), 404)
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
    if not _from_here(request):
        return _plain(phrases.foreign_form(), 403)
    if int(request.headers.get("content-length") or LARGEST_FORM + 1) > LARGEST_FORM:
        return _plain(phrases.too_large(), 413)
    form = {key: str(value) for key, value in (await request.form()).items()}
    if form.get("do") == "revoke":
        # Asked on the page itself: the box must be ticked, since nothing brings the address back.
        if form.get("sure") != "yes":
            return _page(visit, {"sure": phrases.tick_first()}, 422, form)
        shelf.revoke(token)
        return _plain(phrases.gone(), 410)
    if token.kind != "edit" or token.lawn.brief is None:
        return _plain(phrases.read_only(), 403)
    if known_lawn_id(token.lawn.folder) not in (None, token.lawn.lawn_id):
        return _plain(phrases.no_plan(), 404)
    errors = tick(token.lawn.folder, token.lawn.brief, form, datetime.now(UTC))
    if errors:
        return _page(visit, errors, 422, form)
    if visit.settings.replan is not None:
        # Planning takes seconds; the feeds go on meanwhile.
        await run_in_threadpool(visit.settings.replan, token.lawn)
    return Response(status_code=303, headers={"Location": request.url.path})


def _from_here(request: Request) -> bool:
    origin, site = (
        request.headers.get("origin"),
        request.headers.get("sec-fetch-site", "same-origin"),
    )
    return site in ("same-origin", "none") and (
        origin is None or urlsplit(origin).netloc == request.headers.get("host")
    )


def qr_data_uri(text: str) -> str:
    """A QR code as an image that needs no second request; white behind it, so that dark pages stay
    readable.
    """
    import segno

    out = io.BytesIO()
    segno.make(text, error="m").save(out, kind="svg", light="white", scale=4, border=4)
    return "data:image/svg+xml;base64," + base64.b64encode(out.getvalue()).decode()
