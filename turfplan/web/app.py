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
from starlette.middleware import Middleware
from starlette.middleware.trustedhost import TrustedHostMiddleware
from starlette.requests import Request
from starlette.responses import HTMLResponse, PlainTextResponse, Response
from starlette.routing import Route
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from turfplan.errors import TurfplanError
from turfplan.export.templates import render, stylesheet
from turfplan.plan import Plan, Task
from turfplan.readers.plan_file import read_plan
from turfplan.store import index
from turfplan.web.feed import feed_answer
from turfplan.web.ticking import tick
from turfplan.wording import day_text

SECURITY = {
    "Content-Security-Policy": "default-src 'self'; img-src 'self' data:; style-src 'self'; frame-ancestors 'none'; base-uri 'none'; form-action 'self'",
    "Referrer-Policy": "no-referrer",
    "X-Content-Type-Options": "nosniff",
    "X-Robots-Tag": "noindex, nofollow",
    "Cross-Origin-Resource-Policy": "same-origin",
}
GONE, UNKNOWN = "This address no longer works.", "Not found."
PAGE_DAYS = 14
LARGEST_FORM = 10_000
Replan = Callable[[index.Lawn], None]


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
                message["headers"] = [
                    *message["headers"],
                    *((k.lower().encode(), v.encode()) for k, v in SECURITY.items()),
                ]
            await send(message)

        await self.app(scope, receive, guarded)


def create_app(settings: Settings) -> Starlette:
    """The application: feeds, a page for each lawn, ticks, the stylesheet; everything else is not there."""

    async def feed(request: Request) -> Response:
        token = _token(settings, request.path_params["token"])
        if token is None or token.kind != "feed":
            return PlainTextResponse(UNKNOWN, 404)
        if token.revoked:
            return PlainTextResponse(GONE, 410)
        found = current_feed(settings.index, token.lawn)
        if found is None:
            return PlainTextResponse("This lawn has no plan yet.", 404)
        headers = {
            name: request.headers[name]
            for name in ("if-none-match", "if-modified-since", "accept-encoding")
            if name in request.headers
        }
        answer = feed_answer(
            found.content, found.at, headers, head=request.method == "HEAD", compress=settings.compress
        )
        return Response(answer.body, answer.status, dict(answer.headers))

    async def page(request: Request) -> Response:
        token = _token(settings, request.path_params["token"])
        if token is None or token.kind == "feed":
            return PlainTextResponse(UNKNOWN, 404)
        if token.revoked:
            return PlainTextResponse(GONE, 410)
        if request.method == "POST":
            return await _tick(settings, request, token)
        return _page(settings, request, token, {})

    async def style(request: Request) -> Response:
        return Response(
            str(stylesheet("web.css")), media_type="text/css", headers={"Cache-Control": "public, max-age=3600"}
        )

    async def robots(request: Request) -> Response:
        return PlainTextResponse("User-agent: *\nDisallow: /lawn/\n")

    routes = [
        Route("/feed/{token}.ics", feed, methods=["GET"]),
        Route("/lawn/{token}", page, methods=["GET", "POST"]),
        Route("/static/web.css", style, methods=["GET"]),
        Route("/robots.txt", robots, methods=["GET"]),
    ]
    middleware = [
        Middleware(Guard, per_minute=settings.per_minute),
        Middleware(TrustedHostMiddleware, allowed_hosts=list(settings.hosts), www_redirect=False),
    ]
    app = Starlette(routes=routes, middleware=middleware, exception_handlers={404: _nothing, 405: _nothing})
    # A redirect would tell a guess that it was near.
    app.router.redirect_slashes = False
    return app


async def _nothing(request: Request, error: Exception) -> Response:
    return PlainTextResponse(UNKNOWN, getattr(error, "status_code", 404))


def _token(settings: Settings, token: str) -> index.Token | None:
    if not 20 <= len(token) <= 100:
        return None
    with index.opened(settings.index) as connection:
        return index.find(connection, token)


def current_feed(path: Path, lawn: index.Lawn) -> index.Published | None:
    """The feed of a lawn: the folder's bytes when they are whole, else the last good ones."""
    with index.opened(path) as connection:
        try:
            content = (lawn.folder / "season.ics").read_bytes()
        except OSError:
            content = b""
        if content.startswith(b"BEGIN:VCALENDAR\r\n") and content.endswith(b"END:VCALENDAR\r\n"):
            return index.publish_bytes(connection, lawn, content)
        return index.published(connection, lawn)


def _page(
    settings: Settings,
    request: Request,
    token: index.Token,
    errors: dict[str, str],
    status: int = 200,
    form: dict[str, str] | None = None,
) -> Response:
    try:
        plan = read_plan(token.lawn.folder)
    except TurfplanError:
        plan = None
    if plan is None:
        return PlainTextResponse("This lawn has no plan yet.", 404)
    today = datetime.now(UTC).astimezone(ZoneInfo(plan.timezone)).date()
    html = render(
        "web/lawn.html.jinja", lawn=plan.lawn.name, campaign=plan.campaign_name, jobs=_jobs(plan, today), overdue=_overdue(plan),
        edits=token.kind == "edit" and token.lawn.brief is not None, errors=errors, form=form or {}, today=today.isoformat(),
        source=plan.climate.source, error_days=plan.climate.error_days, changes=plan.changes,
    )  # fmt: skip
    headers = {"Cache-Control": "private, no-cache", "ETag": f'"{plan.revision}-{plan.journal_entries}-{token.kind}"'}
    return HTMLResponse(html, status, headers)


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
        for t in sorted(near, key=_by_day)
    ]


def _overdue(plan: Plan) -> list[dict[str, str]]:
    return [
        {"id": t.id, "title": t.title, "day": day_text(t.end, plan.lawn.units, year=False)}
        for t in sorted(plan.tasks, key=_by_day)
        if t.overdue
    ]


def _by_day(task: Task) -> tuple[date, str]:
    return task.start, task.id


async def _tick(settings: Settings, request: Request, token: index.Token) -> Response:
    """Takes one tick: only from this site's own pages, only with an edit token, answered by the page again."""
    if token.kind != "edit" or token.lawn.brief is None:
        return PlainTextResponse("This address may only be read.", 403)
    origin = request.headers.get("origin")
    site = request.headers.get("sec-fetch-site", "same-origin")
    if site not in ("same-origin", "none") or (
        origin is not None and urlsplit(origin).netloc != request.headers.get("host")
    ):
        return PlainTextResponse("A tick must come from this page.", 403)
    if int(request.headers.get("content-length") or LARGEST_FORM + 1) > LARGEST_FORM:
        return PlainTextResponse("Too large.", 413)
    form = {key: str(value) for key, value in (await request.form()).items()}
    errors = tick(token.lawn.folder, token.lawn.brief, form)
    if errors:
        return _page(settings, request, token, errors, 422, form)
    if settings.replan is not None:
        settings.replan(token.lawn)
    return Response(status_code=303, headers={"Location": request.url.path})


def qr_data_uri(text: str) -> str:
    """A QR code as an image that needs no second request; white behind it, so that dark pages stay readable."""
    import segno

    out = io.BytesIO()
    segno.make(text, error="m").save(out, kind="svg", light="white", scale=4, border=4)
    return "data:image/svg+xml;base64," + base64.b64encode(out.getvalue()).decode()
