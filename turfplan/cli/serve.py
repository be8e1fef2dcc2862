"""`turfplan serve`, `publish`, `tokens`: feeds for those who subscribe."""

from pathlib import Path
from typing import TYPE_CHECKING
from urllib.parse import urlsplit

import typer

from turfplan.cli.speech import say, words_of_user

if TYPE_CHECKING:
    from sqlite3 import Connection

INDEX = typer.Option(
    None,
    "--index",
    metavar="FILE",
    help="The index of lawns and tokens; else that of the data folder, or turfplan.index here.",
)
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
    host: str = typer.Option(
        "127.0.0.1", "--host", help="The address to listen on; only this machine unless you ask."
    ),
    port: int = typer.Option(PORT, "--port", min=1, max=65535),
    allow_host: list[str] = typer.Option(
        [], "--allow-host", help="A host name that requests may use."
    ),
    base_url: str | None = typer.Option(
        None, "--base-url", help="The public address, where a proxy stands before it."
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

    from turfplan.phrases import screen
    from turfplan.serve.app import create_app
    from turfplan.serve.ticks import replan_apart
    from turfplan.serve.visit import ServerSettings

    _need_port(host, port)
    index = _index(index, folders or [])
    _add_lawns(index, folders or [])
    # Whoever listens on every address is asked for by that of this machine in its network.
    own = _own_address() if host in ("0.0.0.0", "::") else host
    named = [urlsplit(base_url).hostname or ""] if base_url else []
    hosts = tuple(dict.fromkeys((own, "127.0.0.1", "localhost", *named, *allow_host)))
    shown = f"[{own}]" if ":" in own else own
    public = (base_url or f"http://{shown}:{port}").rstrip("/")
    settings = ServerSettings(
        index=index,
        base_url=base_url and public,
        hosts=tuple(filter(None, hosts)),
        compress=gzip,
        replan=replan_apart,
    )
    app = create_app(settings)
    say(words_of_user(), screen.serve_on(address=public), aside=True)
    _greet_owner(index, public)
    # The access log would print the path, and with it the token. Behind no proxy nobody is believed
    # who says that he is one.
    uvicorn.run(
        app,
        host=host,
        port=port,
        access_log=False,
        log_level="warning",
        server_header=False,
        proxy_headers=base_url is not None,
    )


def _own_address() -> str:
    """This machine's address in its network, as far as it has one; nothing is sent to learn it."""
    import socket

    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as one:
        try:
            one.connect(("192.0.2.1", 9))
        except OSError:
            return "127.0.0.1"
        return str(one.getsockname()[0])


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
    TurfplanError for a folder without one."""
    from turfplan.app.publish_feed import planned_folder
    from turfplan.files import index as store
    from turfplan.files.data_folder import planned_lawns

    with store.opened(index) as connection:
        for folder in folders:
            for each in planned_lawns(folder) or (planned_folder(folder),):
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
        help="The plan folder to issue for or that has moved, or the number to revoke or open.",
    ),
    index: Path | None = INDEX,
    kind: str = typer.Option("feed", "--kind", help="feed, read or edit."),
    label: str = typer.Option(
        "", "--label", help="Who it is for, so that it can be revoked alone."
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
            _issue_token(connection, what, kind, label, brief, base_url)
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
    from turfplan.phrases import screen
    from turfplan.serve import tokens as kept

    words, issued = words_of_user(), kept.listed(connection)
    if not issued:
        say(words, screen.tokens_none(), aside=True)
    for token in issued:
        shut = screen.tokens_closed(on=str(token.closed)) if token.closed else None
        gone = screen.tokens_revoked(on=token.revoked) if token.revoked else shut
        until = screen.tokens_until(on=token.ends) if token.ends else None
        state = words.text(gone or until or screen.tokens_in_use())
        holder, folder = token.label or "-", token.lawn.folder
        print(f"{token.id:4}  {token.kind:5} {state:32} {holder:20} {folder}")


def _revoke_token(connection: "Connection", number: str | None) -> None:
    """Take a token back; raises TurfplanError for what is the number of none."""
    from turfplan.errors import Problem, TurfplanError
    from turfplan.phrases import commands, screen
    from turfplan.serve import tokens as kept

    if number is None or not number.isdigit() or not kept.revoke(connection, int(number)):
        hint = commands.list_shows(command="turfplan tokens list")
        raise TurfplanError(Problem("N", commands.no_token(), number, None, hint))
    say(words_of_user(), screen.tokens_gone(number=number))


def _open_token(connection: "Connection", number: str | None) -> None:
    """Open a token that came back closed; raises TurfplanError for what is the number of none."""
    from turfplan.errors import Problem, TurfplanError
    from turfplan.phrases import commands, screen
    from turfplan.serve import tokens as kept

    if number is None or not number.isdigit() or not kept.reopen(connection, int(number)):
        hint = commands.list_shows(command="turfplan tokens list")
        raise TurfplanError(Problem("N", commands.no_closed_token(), number, None, hint))
    say(words_of_user(), screen.tokens_opened(number=number))


def _issue_token(
    connection: "Connection",
    folder: str | None,
    kind: str,
    label: str,
    brief: Path | None,
    base_url: str,
) -> None:
    """Make a token for the plan of a folder and print its addresses; raises TurfplanError for what
    is none.
    """
    from turfplan.app.publish_feed import planned_folder
    from turfplan.errors import Problem, TurfplanError
    from turfplan.files import index as store
    from turfplan.phrases import commands
    from turfplan.serve import tokens as kept

    if folder is None or kind not in kept.KINDS:
        where, got = ("--kind", kind) if folder else ("DIR", None)
        raise TurfplanError(Problem(where, commands.needed(), got, ", ".join(kept.KINDS)))
    planned = planned_folder(Path(folder))
    lawn = store.add_lawn(connection, planned, brief or store.brief_beside(planned))
    _show(kept.issue(connection, lawn, kind, label), kind, base_url)


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


def _show(token: str, kind: str, base_url: str) -> None:
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


def publish(
    folder: Path = typer.Argument(..., metavar="DIR", help="The plan folder."),
    to: Path = typer.Option(
        ..., "--to", metavar="WEBROOT", help="The folder that a web host shows."
    ),
    keep_address: bool = typer.Option(
        False, "--keep-address", help="The plan's folder has moved: go on under the same name."
    ),
) -> None:
    """Write a plan's feed as a file under a name that cannot be guessed, for any web host.

    Example: turfplan publish out --to public
    """
    from turfplan.app.publish_feed import publish_feed
    from turfplan.phrases import screen

    words = words_of_user()
    done = publish_feed(folder, to, keep_address=keep_address)
    print(done.path)
    for note in done.notes:
        say(words, screen.note(note=words.text(note)), aside=True)
    say(words, screen.publish_private(), aside=True)
