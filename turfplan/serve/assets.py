"""What all pages are made of: stylesheet, script, the worker of the day, and a word to robots."""

from starlette.requests import Request
from starlette.responses import PlainTextResponse, Response

from turfplan.export.templates import stylesheet


async def style(request: Request) -> Response:
    """The stylesheet of all pages."""
    return _asset("web.css", "text/css")


async def script(request: Request) -> Response:
    """The script of all pages."""
    return _asset("web.js", "text/javascript")


def _asset(name: str, kind: str) -> Response:
    headers = {"Cache-Control": "public, max-age=3600"}
    return Response(str(stylesheet(name)), media_type=kind, headers=headers)


async def worker(request: Request) -> Response:
    """What keeps a day at hand without a signal."""
    # It lies above all pages: from below it could open none of them.
    return _asset("worker.js", "text/javascript")


async def robots(request: Request) -> Response:
    """That no page is to be listed."""
    closed = "".join(f"Disallow: /{each}/\n" for each in ("lawn", "own", "house"))
    return PlainTextResponse(f"User-agent: *\n{closed}")
