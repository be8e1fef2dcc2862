"""The served feeds and pages: routes that parse, call one function, and map one error."""

import base64
import io
import time
from collections import OrderedDict
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from urllib.parse import urlsplit
from zoneinfo import ZoneInfo

from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.middleware import Middleware
from starlette.middleware.trustedhost import TrustedHostMiddleware
from starlette.requests import Request
from starlette.responses import HTMLResponse, PlainTextResponse, Response
from starlette.routing import Route
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from turfplan.errors import TurfplanError
from turfplan.export.changes import change_groups
from turfplan.export.ground_sheets import fill_view
from turfplan.export.sheets import in_order_of_work
from turfplan.export.templates import render, stylesheet
from turfplan.plan import Plan
from turfplan.readers.plan_file import read_plan
from turfplan.store import tokens
from turfplan.store.index import Lawn
from turfplan.web.feed import feed_answer
from turfplan.web.shelf import Shelf
from turfplan.web.ticking import tick
from turfplan.wording import day_text, plain_text

SECURITY = {
    "Content-Security-Policy": "default-src 'self'; img-src 'self' data:; style-src 'self'; frame-ancestors 'none'; base-uri 'none'; form-action 'self'",
    "Referrer-Policy": "no-referrer",
    "X-Content-Type-Options": "nosniff",
    "X-Robots-Tag": "noindex, nofollow",
    "Cross-Origin-Resource-Policy": "same-origin",
}
_SECURITY_SENT = [(name.lower().encode(), value.encode()) for name, value in SECURITY.items()]
GONE, UNKNOWN = "This address no longer works.", "Not found."
PAGE_DAYS = 14
LARGEST_FORM = 10_000
Replan = Callable[[Lawn], None]


@dataclass(frozen=True, slots=True)
class Settings:
    """How it is served: index file, public address for links, allowed hosts, compression, requests a minute and address."""

    index: Path
    base_url: str = "http://127.0.0.1:8765"
    hosts: tuple[str, ...] = ("127.0.0.1", "localhost")
    compress: bool = True
    per_minute: int = 240
    replan: Replan | None = None


@dataclass(slots=True)
class Rate:
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
    """Adds the security headers to every answer and turns away too many requests."""

    def __init__(self, app: ASGIApp, per_minute: int) -> None:
        self.app = app
        self.rate = Rate(per_minute)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """One request."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        address = (scope.get("client") or ("?", 0))[0]
        if not self.rate.allows(address, time.monotonic()):
            await PlainTextResponse("Too many requests.", 429, {"Retry-After": "60", **SECURITY})(scope, receive, send)
            return

        async def guarded(message: Message) -> None:
            if message["type"] == "http.response.start":
                message["headers"] = [*message["headers"], *_SECURITY_SENT]
            await send(message)

        await self.app(scope, receive, guarded)


def create_app(settings: Settings) -> Starlette:
    """The application: feeds, a page for each lawn, ticks, the stylesheet; everything else is not there."""
    shelf = Shelf(settings.index)

    async def feed(request: Request) -> Response:
        return _feed(settings, shelf, request)

    async def page(request: Request) -> Response:
        text = request.path_params["token"]
        token = shelf.find(text)
        if token is None or token.kind == "feed":
            return PlainTextResponse(UNKNOWN, 404)
        if token.revoked:
            return PlainTextResponse(GONE, 410)
        visit = Visit(settings, request, token, tokens.feed_of_page(text))
        return await _posted(visit, shelf) if request.method == "POST" else _page(visit, {})

    routes = [
        Route("/feed/{token}.ics", feed, methods=["GET"]),
        Route("/lawn/{token}", page, methods=["GET", "POST"]),
        Route("/static/web.css", _style, methods=["GET"]),
        Route("/robots.txt", _robots, methods=["GET"]),
    ]
    middleware = [
        Middleware(Guard, per_minute=settings.per_minute),
        Middleware(TrustedHostMiddleware, allowed_hosts=list(settings.hosts), www_redirect=False),
    ]
    app = Starlette(routes=routes, middleware=middleware, exception_handlers={404: _nothing, 405: _nothing})
    # A redirect would tell a guess that it was near.
    app.router.redirect_slashes = False
    return app


def _feed(settings: Settings, shelf: Shelf, request: Request) -> Response:
    """The calendar of the lawn that the token opens."""
    token = shelf.find(request.path_params["token"])
    if token is None or token.kind != "feed":
        return PlainTextResponse(UNKNOWN, 404)
    if token.revoked:
        return PlainTextResponse(GONE, 410)
    found = shelf.feed(token.lawn)
    if found is None:
        return PlainTextResponse("This lawn has no plan yet.", 404)
    headers = {
        name: request.headers[name]
        for name in ("if-none-match", "if-modified-since", "accept-encoding")
        if name in request.headers
    }
    answer = feed_answer(
        found.published.content, found.published.at, headers, head=request.method == "HEAD", compress=settings.compress,
        etag=found.etag, zipped_form=lambda: found.zipped,
    )  # fmt: skip
    return Response(answer.body, answer.status, dict(answer.headers))


async def _style(request: Request) -> Response:
    return Response(
        str(stylesheet("web.css")), media_type="text/css", headers={"Cache-Control": "public, max-age=3600"}
    )


async def _robots(request: Request) -> Response:
    return PlainTextResponse("User-agent: *\nDisallow: /lawn/\n")


async def _nothing(request: Request, error: Exception) -> Response:
    return PlainTextResponse(UNKNOWN, getattr(error, "status_code", 404))


@dataclass(frozen=True, slots=True)
class Visit:
    """A request for a page, what its token opens, and the token of the feed that belongs to the page."""

    settings: Settings
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


def _page(visit: Visit, errors: dict[str, str], status: int = 200, form: dict[str, str] | None = None) -> Response:
    token = visit.token
    try:
        plan = read_plan(token.lawn.folder)
    except TurfplanError:
        plan = None
    if plan is None:
        return PlainTextResponse("This lawn has no plan yet.", 404)
    today = datetime.now(UTC).astimezone(ZoneInfo(plan.timezone)).date()
    html = render(
        "web/lawn.html.jinja", lawn=plain_text(plan.lawn.name) or "Lawn", campaign=plan.campaign_name, jobs=_jobs(plan, today), overdue=_overdue(plan),
        edits=token.kind == "edit" and token.lawn.brief is not None, errors=errors, form=form or {}, today=today.isoformat(),
        source=plan.climate.source, error_days=plan.climate.error_days, changes=change_groups(plan), https_link=visit.https_link,
        webcal_link=visit.webcal_link, qr=qr_data_uri(visit.https_link), label=token.label, fill=fill_view(plan),
    )  # fmt: skip
    return HTMLResponse(html, status, {"Cache-Control": "private, no-store"})


def _jobs(plan: Plan, today: date) -> list[dict[str, object]]:
    """The open work of the next two weeks."""
    end = today + timedelta(days=PAGE_DAYS)
    units = plan.lawn.units
    near = [t for t in plan.tasks if t.closed is None and t.status != "CANCELLED" and t.start <= end and t.end >= today]
    return [
        {
            "id": t.id,
            "title": t.title,
            "day": day_text(t.start, units, year=False),
            "go": t.go,
            "series": t.series is not None,
        }
        for t in in_order_of_work(near)
    ]


def _overdue(plan: Plan) -> list[dict[str, str]]:
    return [
        {"id": t.id, "title": t.title, "day": day_text(t.end, plan.lawn.units, year=False)}
        for t in in_order_of_work([t for t in plan.tasks if t.overdue])
    ]


async def _posted(visit: Visit, shelf: Shelf) -> Response:
    """A form of the page: only from this site's own pages; a tick only with an edit token; answered by the page again."""
    request, token = visit.request, visit.token
    if not _from_here(request):
        return PlainTextResponse("A form must come from this page.", 403)
    if int(request.headers.get("content-length") or LARGEST_FORM + 1) > LARGEST_FORM:
        return PlainTextResponse("Too large.", 413)
    form = {key: str(value) for key, value in (await request.form()).items()}
    if form.get("do") == "revoke":
        # Asked on the page itself: the box must be ticked, since nothing brings the address back.
        if form.get("sure") != "yes":
            return _page(visit, {"sure": "Tick the box first: the address stops working for good."}, 422, form)
        shelf.revoke(token)
        return PlainTextResponse(GONE, 410)
    if token.kind != "edit" or token.lawn.brief is None:
        return PlainTextResponse("This address may only be read.", 403)
    errors = tick(token.lawn.folder, token.lawn.brief, form)
    if errors:
        return _page(visit, errors, 422, form)
    if visit.settings.replan is not None:
        # Planning takes seconds; the feeds go on meanwhile.
        await run_in_threadpool(visit.settings.replan, token.lawn)
    return Response(status_code=303, headers={"Location": request.url.path})


def _from_here(request: Request) -> bool:
    origin, site = request.headers.get("origin"), request.headers.get("sec-fetch-site", "same-origin")
    return site in ("same-origin", "none") and (
        origin is None or urlsplit(origin).netloc == request.headers.get("host")
    )


def qr_data_uri(text: str) -> str:
    """A QR code as an image that needs no second request; white behind it, so that dark pages stay readable."""
    import segno

    out = io.BytesIO()
    segno.make(text, error="m").save(out, kind="svg", light="white", scale=4, border=4)
    return "data:image/svg+xml;base64," + base64.b64encode(out.getvalue()).decode()
