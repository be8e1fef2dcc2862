"""The calendar that an address opens, of a lawn or of a house, as it is asked for."""

from collections.abc import Mapping

from starlette.requests import Request
from starlette.responses import Response
from starlette.types import Scope

from turfplan.phrases import page as phrases
from turfplan.records.plan_calendar import FILES
from turfplan.serve.feed import accepts_gzip, feed_answer, has_it
from turfplan.serve.feed_cache import ServedFeed
from turfplan.serve.guard import GUARDING, Prepared, plain
from turfplan.serve.visit import Server

_CONDITIONS = {
    name.encode(): name for name in ("if-none-match", "if-modified-since", "accept-encoding")
}
_BEFORE, _AFTER = "/feed/", ".ics"


def feed_at_hand(server: Server, scope: Scope) -> Prepared | None:
    """The answer to a request for a calendar of which nothing is new; None for every other.

    Calendar programs ask again and again for what they have: they wait for no thread, no page and
    no plan.
    """
    path: str = scope["path"]
    if not (path.startswith(_BEFORE) and path.endswith(_AFTER) and scope["method"] == "GET"):
        return None
    known = server.shelf.at_hand(path[len(_BEFORE) : -len(_AFTER)], server.settings.clock())
    if known is None:
        return None
    token, found = known
    given = {
        _CONDITIONS[name]: value.decode("latin-1")
        for name, value in scope["headers"]
        if name in _CONDITIONS
    }
    compress = server.settings.compress
    zipped = compress and accepts_gzip(given.get("accept-encoding", ""))
    unchanged = has_it(given, found.etag, found.published.at)
    kind = (unchanged, zipped, token.view.file)
    if (ready := found.answers.get(kind)) is None:
        answer = _fed(given, found, token.view.file, head=False, compress=compress)
        told = {name for name, _ in answer.raw_headers}
        guarding = (pair for pair in GUARDING if pair[0] not in told)
        headers = [*answer.raw_headers, *guarding]
        ready = found.answers[kind] = (
            {"type": "http.response.start", "status": answer.status_code, "headers": headers},
            {"type": "http.response.body", "body": answer.body},
        )
    return ready


def feed_of_token(server: Server, request: Request) -> Response:
    """The calendar of the lawn that the token opens."""
    shelf, settings = server.shelf, server.settings
    token, now = shelf.find(request.path_params["token"]), settings.clock()
    if token is None:
        return _house_feed(server, request)
    if token.kind != "feed":
        return plain(phrases.unknown(), 404)
    if token.is_gone or token.ended(now):
        return plain(phrases.gone(), 410)
    found = shelf.feed(token.lawn, token.view)
    if found is None:
        return plain(phrases.no_plan(), 404)
    shelf.was_read(token, now)
    return _asked(request, found, token.view.file, compress=settings.compress)


def _house_feed(server: Server, request: Request) -> Response:
    """The calendar of the house that the token opens."""
    token = server.shelf.find_house(request.path_params["token"])
    if token is None or token.kind != "feed":
        return plain(phrases.unknown(), 404)
    if token.is_gone:
        return plain(phrases.gone(), 410)
    found = server.shelf.house_feed(token.house, token.part)
    if found is None:
        return plain(phrases.no_plan(), 404)
    server.shelf.house_was_read(token, server.settings.clock())
    return _asked(request, found, FILES[token.part], compress=server.settings.compress)


def _asked(request: Request, found: ServedFeed, file: str, *, compress: bool) -> Response:
    """The bytes of a calendar as a request asks for them."""
    given = {
        name: request.headers[name] for name in _CONDITIONS.values() if name in request.headers
    }
    return _fed(given, found, file, head=request.method == "HEAD", compress=compress)


def _fed(
    given: Mapping[str, str], found: ServedFeed, file: str, *, head: bool, compress: bool
) -> Response:
    """The bytes of a calendar under the conditions that were given."""
    answer = feed_answer(
        found.published.content,
        found.published.at,
        given,
        head=head,
        compress=compress,
        etag=found.etag,
        zipped_form=lambda: found.zipped,
    )
    told = dict(answer.headers)
    if "Content-Disposition" in told:
        told["Content-Disposition"] = f'inline; filename="{file}"'
    return Response(answer.body, answer.status, told)
