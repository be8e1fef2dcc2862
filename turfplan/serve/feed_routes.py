"""The calendar that an address opens, of a lawn or of a house, as it is asked for."""

from collections.abc import Mapping

from starlette.requests import Request
from starlette.responses import Response
from starlette.types import Scope

from turfplan.phrases import page as phrases
from turfplan.records.plan_calendar import FILES
from turfplan.serve.feed import feed_answer
from turfplan.serve.guard import GUARDING, Prepared, plain
from turfplan.serve.held_index import ServedFeed
from turfplan.serve.visit import Server

_CONDITIONS = {
    name.encode(): name for name in ("if-none-match", "if-modified-since", "accept-encoding")
}
_BEFORE, _AFTER = "/feed/", ".ics"
_BEGINS, _ENDS = len(_BEFORE), -len(_AFTER)
# Of each version of a feed so many answers are ready, and none to conditions that are longer: who
# makes up others each time does not fill the memory.
MOST_ANSWERS, LONGEST_CONDITION = 64, 200


def feed_at_hand(server: Server, scope: Scope) -> Prepared | None:
    """The answer to a request for a calendar of which nothing is new; None for every other.

    Calendar programs ask again and again for what they have: they wait for no thread, no page and
    no plan. What was answered to the same conditions is given again as it was sent.
    """
    path: str = scope["path"]
    if not path.startswith(_BEFORE):
        return None
    method: str = scope["method"]
    if not (path.endswith(_AFTER) and method in ("GET", "HEAD")):
        return None
    known = server.shelf.at_hand(path[_BEGINS:_ENDS], server.settings.clock())
    if known is None:
        return None
    since, none_match, encoding = None, None, None
    for name, value in scope["headers"]:
        if name == b"if-none-match":
            none_match = value
        elif name == b"accept-encoding":
            encoding = value
        elif name == b"if-modified-since":
            since = value
    file, found = known
    # A day is compared with the clock; a validator means the same at any time.
    conditions = (method, file, none_match, encoding)
    lasts = since is None or none_match is not None
    if lasts and (ready := found.answers.get(conditions)) is not None:
        return ready
    given = dict(zip(_CONDITIONS.values(), (none_match, since, encoding), strict=True))
    told = {name: value.decode("latin-1") for name, value in given.items() if value is not None}
    ready = _prepared(server, told, found, file, head=method == "HEAD")
    if lasts and len(none_match or b"") + len(encoding or b"") <= LONGEST_CONDITION:
        if len(found.answers) >= MOST_ANSWERS:
            found.answers.clear()
        found.answers[conditions] = ready
    return ready


def _prepared(
    server: Server, given: Mapping[str, str], found: ServedFeed, file: str, *, head: bool
) -> Prepared:
    """An answer as it is sent, with all that every answer bears."""
    answer = _fed(given, found, file, head=head, compress=server.settings.compress)
    told = {name for name, _ in answer.raw_headers}
    guarding = (pair for pair in GUARDING if pair[0] not in told)
    headers = [*answer.raw_headers, *guarding]
    return (
        {"type": "http.response.start", "status": answer.status_code, "headers": headers},
        {"type": "http.response.body", "body": answer.body},
    )


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
