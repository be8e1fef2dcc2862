"""The addresses of a house for `turfplan tokens`: their numbers begin with H."""

import re
from pathlib import Path
from typing import TYPE_CHECKING

from turfplan.cli.speech import words_of_user

if TYPE_CHECKING:
    from sqlite3 import Connection

    from turfplan.serve.tokens import FeedView, TokenKind

_NUMBER = re.compile(r"[Hh]([0-9]{1,9})")


def list_of_house(connection: "Connection") -> bool:
    """Print a line for each address of a house; whether there is one."""
    from turfplan.phrases import screen
    from turfplan.serve.house_tokens import listed

    words, found = words_of_user(), listed(connection)
    for token in found:
        shut = screen.tokens_closed(on=token.closed) if token.closed else None
        gone = screen.tokens_revoked(on=token.revoked) if token.revoked else shut
        state, shown = words.text(gone or screen.tokens_in_use()), ""
        if token.part != "all":
            shown = f" ({token.part})"
        number = f"H{token.id}"
        print(
            f"{number:>4}  {token.kind:5} {state:32} {token.label or '-':20} {token.house}{shown}"
        )
    return bool(found)


def revoked_of_house(connection: "Connection", number: str) -> bool:
    """Take an address of a house back; False for what is the number of none."""
    from turfplan.serve.house_tokens import listed, revoke

    found = _NUMBER.fullmatch(number)
    known = {token.id: token.house for token in listed(connection)}
    house = known.get(int(found[1])) if found else None
    return house is not None and found is not None and revoke(connection, int(found[1]), house)


def opened_of_house(connection: "Connection", number: str) -> bool:
    """Open an address of a house that came back closed; False for what is the number of none."""
    from turfplan.serve.house_tokens import reopen

    found = _NUMBER.fullmatch(number)
    return found is not None and reopen(connection, int(found[1]))


def show_of_house(
    connection: "Connection",
    house: Path,
    kind: "TokenKind",
    label: str,
    view: "FeedView",
    base_url: str,
) -> None:
    """Make an address that opens all lawns of a house, and print it; raises TurfplanError where it
    should show some days alone, which are a lawn's."""
    from turfplan.cli.serve import show_address
    from turfplan.errors import Problem, TurfplanError
    from turfplan.files import index as store
    from turfplan.files.data_folder import planned_lawns
    from turfplan.phrases import house as phrases
    from turfplan.serve.house_tokens import issue

    if view.days is not None:
        raise TurfplanError(Problem("--from", phrases.days_of_lawn(), hint=phrases.name_lawn()))
    for lawn in planned_lawns(house):
        store.add_lawn(connection, lawn, store.brief_beside(lawn))
    token = issue(connection, house, kind, label, view.part)
    if kind == "feed":
        show_address(token, kind, base_url)
        return
    print(f"{base_url.rstrip('/')}/house/{token}")
