"""`turfplan serve`, `tokens`: feeds for those who subscribe."""

from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple
from urllib.parse import urlsplit

import typer

from turfplan.cli.publish import PART, part_named
from turfplan.cli.speech import say, words_of_user

if TYPE_CHECKING:
    from sqlite3 import Connection

    from turfplan.serve.tokens import FeedView

INDEX = typer.Option(
    None,
    "--index",
    metavar="FILE",
    help="The index of lawns and tokens; else that of the data folder, or turfplan.index here.",
)
DAY = ["%Y-%m-%d"]
PORT = 8765
_ACTIONS = "issue, list, revoke, open, move, owner"


def _need_web() -> None:
    from turfplan.errors import MissingToolError, Problem
    from turfplan.phrases import commands

    try:
        import segno  # noqa: F401 — looked for, not used here
        import starlette  # noqa: F401
        import uvicorn  # noqa: F401
    except ImportError as error:
        raise MissingToolError(
            Problem(
                "serve",
                commands.needs_web(module=str(error.name)),
                hint='pip install "turfplan[web]"',
            )
        ) from None


def serve(
    folders: list[Path] = typer.Argument(
        None, metavar="[DIR]...", help="Plan folders, or data folders, to add to the index."
    ),
    index: Path | None = INDEX,
    host: str | None = typer.Option(
        None, "--host", help="The address to listen on; only this machine unless you ask."
    ),
    home_network: bool = typer.Option(
        False,
        "--home-network",
        help="Listen in the home network, so that phones there can subscribe; the owner's pages "
        "still open in the owner's browser alone.",
    ),
    port: int = typer.Option(PORT, "--port", min=1, max=65535),
    allow_host: list[str] = typer.Option(
        [], "--allow-host", help="A host name that requests may use."
    ),
    base_url: str | None = typer.Option(
        None, "--base-url", help="The public address, where a proxy stands before it."
    ),
    behind_proxy: list[str] = typer.Option(
        [],
        "--behind-proxy",
        metavar="ADDRESS",
        help="The address from which a proxy asks: what it forwards of who asks is believed. On "
        "the internet serve only behind a proxy, which ends TLS and slow requests.",
    ),
    gzip: bool = typer.Option(
        True, "--gzip/--no-gzip", help="Compress where the reader asks for it."
    ),
) -> None:
    """Serve the feeds and pages of the lawns in the index.

    Example: turfplan serve out --index lawns.index
    """
    _need_web()
    import uvicorn

    from turfplan.cli.serve_office import greet_office, office_of
    from turfplan.phrases import screen
    from turfplan.serve.app import create_app
    from turfplan.serve.own_names import own_address, own_names
    from turfplan.serve.phones import PhoneListener
    from turfplan.serve.reach import reach_of
    from turfplan.serve.ticks import replan_apart
    from turfplan.serve.visit import ServerSettings

    host = host or ("0.0.0.0" if home_network else "127.0.0.1")
    _need_port(host, port)
    index = _index(index, folders or [])
    _add_lawns(index, folders or [])
    # Whoever listens on every address is asked for by that of this machine in its network.
    own = own_address() if host in ("0.0.0.0", "::") else host
    named = [urlsplit(base_url).hostname or ""] if base_url else []
    names = own_names() if home_network else ()
    hosts = tuple(dict.fromkeys((own, "127.0.0.1", "localhost", *names, *named, *allow_host)))
    shown = f"[{own}]" if ":" in own else own
    public = (base_url or f"http://{shown}:{port}").rstrip("/")
    if home_network and base_url is None and reach_of(public) == "machine":
        say(words_of_user(), screen.no_home_network(), aside=True)
    office = office_of(index, folders or [])
    settings = ServerSettings(
        index=index,
        office=office,
        base_url=base_url and public,
        hosts=tuple(filter(None, hosts)),
        compress=gzip,
        replan=replan_apart,
        home_url=public if reach_of(public) == "home" else None,
        phones=PhoneListener(port) if reach_of(public) == "machine" else None,
    )
    app = create_app(settings)
    say(words_of_user(), screen.serve_on(address=public), aside=True)
    _greet_owner(index, public)
    if office is not None:
        greet_office(office, public)
    # The access log would print the path, and with it the token. Nobody but a proxy that was named
    # is believed who says for whom he asks.
    uvicorn.run(
        app,
        host=host,
        port=port,
        access_log=False,
        log_level="warning",
        server_header=False,
        proxy_headers=bool(behind_proxy),
        forwarded_allow_ips=behind_proxy or None,
    )


def _greet_owner(index: Path, public: str) -> None:
    """Print a one-time address where no browser is the owner's yet."""
    from datetime import UTC, datetime

    from turfplan.files import index as store
    from turfplan.serve import owners

    with store.opened(index) as connection:
        if not owners.owners(connection, datetime.now(UTC)):
            _show_once(connection, public)


def _show_once(connection: "Connection", base_url: str) -> None:
    """Print a new one-time address that makes the browser which opens it the owner's."""
    from datetime import UTC, datetime

    from turfplan.phrases import screen
    from turfplan.serve import owners

    once = owners.invite(connection, datetime.now(UTC))
    say(words_of_user(), screen.owner_once(), aside=True)
    print(f"{base_url.rstrip('/')}/own/{once}", flush=True)


def _add_lawns(index: Path, folders: list[Path]) -> None:
    """Put the plans of folders into the index, of a data folder all that it has; raises
    TurfplanError for a folder without one, unless it is there for lawns that are made on the
    page."""
    from turfplan.app.publish_feed import planned_folder
    from turfplan.files import index as store
    from turfplan.files.data_folder import is_new_home, planned_lawns

    # A folder that is refused leaves no index behind.
    with store.kept_on_success(index), store.opened(index) as connection:
        for folder in folders:
            none = () if is_new_home(folder) else (folder,)
            for each in planned_lawns(folder) or map(planned_folder, none):
                store.add_lawn(connection, each, store.brief_beside(each))


def _index(named: Path | None, folders: list[Path]) -> Path:
    """The index that a command uses: the one that is named, else that of the data folder."""
    from turfplan.files.data_folder import index_for

    return named or index_for(folders)


def _need_port(host: str, port: int) -> None:
    """Told before anything is opened when the address is taken, or is none of this machine's."""
    import socket

    from turfplan.errors import Problem, TurfplanError
    from turfplan.files.system_faults import reason_of
    from turfplan.phrases import commands

    try:
        family, kind, protocol, _, address = socket.getaddrinfo(
            host, port, type=socket.SOCK_STREAM
        )[0]
        with socket.socket(family, kind, protocol) as one:
            one.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            one.bind(address)
    except OSError as error:
        raise TurfplanError(
            Problem(
                "--host, --port",
                commands.unlistenable(reason=reason_of(error)),
                f"{host}:{port}",
                None,
                commands.other_port(),
            )
        ) from None


def tokens(
    action: str = typer.Argument(..., metavar="issue|list|revoke|open|move|owner"),
    what: str | None = typer.Argument(
        None,
        metavar="[DIR or N]",
        help="The plan folder, or that of a house, to issue for or that has moved, or the number "
        "to revoke or open.",
    ),
    index: Path | None = INDEX,
    kind: str = typer.Option("feed", "--kind", help="feed, read or edit."),
    label: str = typer.Option(
        "", "--label", help="Who it is for, so that it can be revoked alone."
    ),
    part: str = PART,
    since: datetime | None = typer.Option(
        None, "--from", formats=DAY, help="Show what falls on some days alone: the first of them."
    ),
    until: datetime | None = typer.Option(
        None, "--to", formats=DAY, help="The last of these days, for whoever stands in."
    ),
    brief: Path | None = typer.Option(
        None, "--brief", help="The brief whose journal an edit token may write."
    ),
    base_url: str = typer.Option(
        f"http://127.0.0.1:{PORT}", "--base-url", help="The public address of the server."
    ),
) -> None:
    """Issue, list and revoke the addresses of feeds and pages, open one that a restore has closed,
    or move a lawn's along with its folder; `owner` prints a one-time address that makes the browser
    which opens it the owner's.

    Example: turfplan tokens issue out --kind feed --label "kitchen phone"
    """
    from turfplan.errors import Problem, TurfplanError
    from turfplan.files import index as store
    from turfplan.phrases import commands

    folders = [Path(what)] if what is not None and action in ("issue", "move") else []
    with store.opened(_index(index, folders)) as connection:
        if action == "list":
            _list_tokens(connection)
        elif action == "revoke":
            _revoke_token(connection, what)
        elif action == "issue":
            view = _view(kind, part, since, until)
            _issue_token(connection, what, _TokenAsked(kind, label, view), brief, base_url)
        elif action == "open":
            _open_token(connection, what)
        elif action == "move":
            _move_lawn(connection, what, brief)
        elif action == "owner":
            _show_once(connection, base_url)
        else:
            raise TurfplanError(Problem("action", commands.not_known(), action, _ACTIONS))


def _list_tokens(connection: "Connection") -> None:
    """Print a line for each token: its number, kind, state, holder and lawn."""
    from turfplan.cli.house_addresses import list_of_house
    from turfplan.phrases import screen
    from turfplan.serve import tokens as kept

    words, issued = words_of_user(), kept.listed(connection)
    of_house = list_of_house(connection)
    if not issued and not of_house:
        say(words, screen.tokens_none(), aside=True)
    for token in issued:
        shut = screen.tokens_closed(on=str(token.closed)) if token.closed else None
        gone = screen.tokens_revoked(on=token.revoked) if token.revoked else shut
        until = screen.tokens_until(on=token.ends) if token.ends else None
        state = words.text(gone or until or screen.tokens_in_use())
        holder, folder = token.label or "-", token.lawn.folder
        shown = "" if token.view == kept.WHOLE else f" ({token.view.key})"
        print(f"{token.id:4}  {token.kind:5} {state:32} {holder:20} {folder}{shown}")


def _revoke_token(connection: "Connection", number: str | None) -> None:
    """Take a token back; raises TurfplanError for what is the number of none."""
    from turfplan.cli.house_addresses import revoked_of_house
    from turfplan.errors import Problem, TurfplanError
    from turfplan.phrases import commands, screen
    from turfplan.serve import tokens as kept

    known = number is not None and number.isdigit() and kept.revoke(connection, int(number))
    if number is None or not (known or revoked_of_house(connection, number)):
        hint = commands.list_shows(command="turfplan tokens list")
        raise TurfplanError(Problem("N", commands.no_token(), number, None, hint))
    say(words_of_user(), screen.tokens_gone(number=number))


def _open_token(connection: "Connection", number: str | None) -> None:
    """Open a token that came back closed; raises TurfplanError for what is the number of none."""
    from turfplan.cli.house_addresses import opened_of_house
    from turfplan.errors import Problem, TurfplanError
    from turfplan.phrases import commands, screen
    from turfplan.serve import tokens as kept

    known = number is not None and number.isdigit() and kept.reopen(connection, int(number))
    if number is None or not (known or opened_of_house(connection, number)):
        hint = commands.list_shows(command="turfplan tokens list")
        raise TurfplanError(Problem("N", commands.no_closed_token(), number, None, hint))
    say(words_of_user(), screen.tokens_opened(number=number))


def _view(kind: str, part: str, since: datetime | None, until: datetime | None) -> "FeedView":
    """What a feed shows; raises TurfplanError for one day without the other, for days that run
    backward, and for a page that should show a part."""
    from turfplan.errors import Problem, TurfplanError
    from turfplan.phrases import commands
    from turfplan.serve.tokens import WHOLE, FeedView

    days = (since.date(), until.date()) if since and until else None
    view = FeedView(part_named(part), days)
    if (since is None) != (until is None):
        missing = "--from" if since is None else "--to"
        raise TurfplanError(Problem(missing, commands.needed()))
    if days is not None and days[1] < days[0]:
        raise TurfplanError(Problem("--to", commands.before_first(), str(days[1]), str(days[0])))
    if kind != "feed" and view != WHOLE:
        raise TurfplanError(Problem("--kind", commands.part_of_feed(), kind, "feed"))
    return view


class _TokenAsked(NamedTuple):
    """What an address is to open, for whom, and what its feed shows."""

    kind: str
    label: str
    view: "FeedView"


def _issue_token(
    connection: "Connection",
    folder: str | None,
    asked: _TokenAsked,
    brief: Path | None,
    base_url: str,
) -> None:
    """Make a token for the plan of a folder and print its addresses; raises TurfplanError for what
    is none.
    """
    from turfplan.app.publish_feed import planned_folder
    from turfplan.cli.house_addresses import show_of_house
    from turfplan.errors import Problem, TurfplanError
    from turfplan.files import index as store
    from turfplan.files.house_folder import house_at
    from turfplan.phrases import commands
    from turfplan.serve import tokens as kept

    kind = next((each for each in kept.KINDS if each == asked.kind), None)
    if folder is None or kind is None:
        where, got = ("--kind", asked.kind) if folder else ("DIR", None)
        raise TurfplanError(Problem(where, commands.needed(), got, ", ".join(kept.KINDS)))
    if (house := house_at(Path(folder))) is not None:
        show_of_house(connection, house, kind, asked.label, asked.view, base_url)
        return
    planned = planned_folder(Path(folder))
    lawn = store.add_lawn(connection, planned, brief or store.brief_beside(planned))
    show_address(kept.issue(connection, lawn, kind, asked.label, view=asked.view), kind, base_url)


def _move_lawn(connection: "Connection", folder: str | None, brief: Path | None) -> None:
    """Let the addresses of a lawn follow it into its folder; raises TurfplanError for a folder that
    the index cannot take for it.
    """
    from turfplan.app.publish_feed import planned_folder
    from turfplan.errors import Problem, TurfplanError
    from turfplan.files import index as store
    from turfplan.phrases import commands, screen

    if folder is None:
        raise TurfplanError(Problem("DIR", commands.needed()))
    planned = planned_folder(Path(folder))
    old, lawn = store.move_lawn(connection, planned, brief or store.brief_beside(planned))
    say(words_of_user(), screen.tokens_moved(old=str(old), new=str(lawn.folder)))


def show_address(token: str, kind: str, base_url: str) -> None:
    """Print the addresses of a new token, once."""
    from turfplan.phrases import screen

    base = base_url.rstrip("/")
    if kind != "feed":
        print(f"{base}/lawn/{token}")
        return
    address = f"{base}/feed/{token}.ics"
    print(address)
    print("webcal://" + address.split("://", 1)[1])
    say(words_of_user(), screen.tokens_once(), aside=True)
