"""Keeps the pages that somebody who holds an address looks at again and again, for as long as
nothing that they show has changed.
"""

from collections import OrderedDict
from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path

from starlette.requests import Request
from starlette.responses import Response
from starlette.types import Scope

from turfplan.files.data_folder import OLD_JOURNAL, PLAN
from turfplan.files.reading.brief import journal_beside
from turfplan.serve.guard import GUARDING, Prepared
from turfplan.serve.held_index import FileSeen, seen
from turfplan.serve.tokens import Token, is_noted
from turfplan.serve.visit import Server

_BEFORE = "/lawn/"
# What follows from plan, journal, index and day alone, whatever the address is called by.
KEPT = frozenset(("", "did", "season"))
MOST_PAGES = 64
# No clock of the world changes its day but on a quarter of an hour.
QUARTER = 900


@dataclass(frozen=True, slots=True)
class PageState:
    """All that a page follows from: the version of the index, the quarter of an hour, the files of
    the lawn, and why it could not be planned."""

    version: int
    quarter: int
    files: tuple[FileSeen | None, ...]
    failures: tuple[str, ...]


@dataclass(slots=True)
class PagesAtHand:
    """Pages that were made, by address and name, each with the state that it follows from; the ones
    that nobody has looked at for longest go first."""

    pages: OrderedDict[tuple[str, str], tuple[PageState, Prepared]] = field(
        default_factory=OrderedDict
    )

    def find(self, server: Server, scope: Scope) -> Prepared | None:
        """The page that a request asks for, where it is the same as when it was made."""
        asked = _asked(scope)
        if asked is None or (known := self.pages.get(asked)) is None:
            return None
        now = server.settings.clock()
        token, version = server.shelf.token_at_hand(asked[0])
        if token is None or not is_noted(token, now) or token.is_gone or token.ended(now):
            return None
        if known[0] != _state(server, token, version, now):
            return None
        self.pages.move_to_end(asked)
        return known[1]

    def state(self, server: Server, request: Request, token: Token) -> PageState | None:
        """What a page that is about to be made follows from; None for one that is not kept."""
        asked = _asked(request.scope)
        if asked is None or token.day is not None:
            return None
        _, version = server.shelf.token_at_hand(asked[0])
        return _state(server, token, version, server.settings.clock())

    def keep(self, request: Request, state: PageState | None, answer: Response) -> Response:
        """Keeps a page that was made, as far as it is one to be kept, and gives it back."""
        asked = _asked(request.scope)
        if state is not None and asked is not None and answer.status_code == 200:
            self.pages[asked] = (
                state,
                (
                    {
                        "type": "http.response.start",
                        "status": answer.status_code,
                        "headers": [*answer.raw_headers, *GUARDING],
                    },
                    {"type": "http.response.body", "body": bytes(answer.body)},
                ),
            )
            self.pages.move_to_end(asked)
            if len(self.pages) > MOST_PAGES:
                self.pages.popitem(last=False)
        return answer


def _asked(scope: Scope) -> tuple[str, str] | None:
    """The address and the page that a request asks for, where it is one that is kept."""
    path: str = scope["path"]
    if scope["method"] != "GET" or scope["query_string"] or not path.startswith(_BEFORE):
        return None
    secret, slash, page = path[len(_BEFORE) :].partition("/")
    return (secret, page) if page in KEPT and bool(slash) == bool(page) else None


def _state(server: Server, token: Token, version: int, now: datetime) -> PageState:
    lawn = token.lawn
    files: list[Path] = [lawn.folder / PLAN]
    if lawn.brief is not None:
        files += [journal_beside(lawn.brief), lawn.folder / OLD_JOURNAL]
    return PageState(
        version,
        int(now.timestamp() // QUARTER),
        tuple(map(seen, files)),
        tuple(server.failures.get(lawn.id, ())),
    )
