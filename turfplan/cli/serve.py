"""`turfplan serve`, `publish`, `tokens`, `backup`, `restore`: feeds for those who subscribe."""

import sys
from pathlib import Path
from typing import TYPE_CHECKING

import typer

if TYPE_CHECKING:
    from turfplan.store.index import Lawn

INDEX = typer.Option(Path("turfplan.index"), "--index", metavar="FILE", help="The index of lawns and tokens.")
PORT = 8765


def _need_web() -> None:
    from turfplan.errors import MissingToolError, Problem

    try:
        import segno  # noqa: F401  # looked for, not used here
        import starlette  # noqa: F401
        import uvicorn  # noqa: F401
    except ImportError as error:
        raise MissingToolError(
            Problem("serve", f"needs the extra web ({error.name} is missing)", hint='pip install "turfplan[web]"')
        ) from None


def serve(
    folders: list[Path] = typer.Argument(None, metavar="[DIR]...", help="Plan folders to add to the index."),
    index: Path = INDEX,
    host: str = typer.Option("127.0.0.1", "--host", help="The address to listen on; only this machine unless you ask."),
    port: int = typer.Option(PORT, "--port", min=1, max=65535),
    allow_host: list[str] = typer.Option([], "--allow-host", help="A host name that requests may use."),
    base_url: str | None = typer.Option(None, "--base-url", help="The public address, where a proxy stands before it."),
    gzip: bool = typer.Option(True, "--gzip/--no-gzip", help="Compress where the reader asks for it."),
) -> None:
    """Serve the feeds and pages of the lawns in the index.

    Example: turfplan serve out --index lawns.index
    """
    _need_web()
    import uvicorn

    from turfplan.store import index as store
    from turfplan.web.app import Settings, create_app

    _need_port(host, port)
    with store.opened(index) as connection:
        for folder in folders or []:
            store.add_lawn(connection, _folder(folder), store.brief_beside(folder))
    hosts = tuple(dict.fromkeys((host, "127.0.0.1", "localhost", *allow_host)))
    public = (base_url or f"http://{host}:{port}").rstrip("/")
    app = create_app(Settings(index=index, base_url=public, hosts=hosts, compress=gzip, replan=_replan))
    print(f"Serving on {public}; addresses come from `turfplan tokens issue`", file=sys.stderr)
    # The access log would print the path, and with it the token.
    uvicorn.run(app, host=host, port=port, access_log=False, log_level="warning", server_header=False)


def _need_port(host: str, port: int) -> None:
    """Told before anything is opened when the address is taken, or is none of this machine's."""
    import socket

    from turfplan.errors import Problem, TurfplanError

    try:
        family, kind, protocol, _, address = socket.getaddrinfo(host, port, type=socket.SOCK_STREAM)[0]
        with socket.socket(family, kind, protocol) as one:
            one.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            one.bind(address)
    except OSError as error:
        raise TurfplanError(
            Problem("--host, --port", f"cannot be listened on ({error.strerror or error})", f"{host}:{port}", None, "choose another --port")
        ) from None  # fmt: skip


def _folder(folder: Path) -> Path:
    from turfplan.errors import Problem, TurfplanError

    if not (folder / "plan.json").is_file():
        raise TurfplanError(Problem(str(folder), "holds no plan", hint="first `turfplan plan BRIEF -o DIR`"))
    return folder


def _replan(lawn: "Lawn") -> None:
    """Plan a lawn again after a tick; a plan that fails leaves the last good one in place."""
    import subprocess

    if lawn.brief is not None:
        subprocess.run(
            [sys.executable, "-m", "turfplan", "plan", str(lawn.brief), "-o", str(lawn.folder)],
            capture_output=True,
            check=False,
        )


def tokens(
    action: str = typer.Argument(..., metavar="issue|list|revoke"),
    what: str | None = typer.Argument(
        None, metavar="[DIR or N]", help="The plan folder to issue for, or the number to revoke."
    ),
    index: Path = INDEX,
    kind: str = typer.Option("feed", "--kind", help="feed, read or edit."),
    label: str = typer.Option("", "--label", help="Who it is for, so that it can be revoked alone."),
    brief: Path | None = typer.Option(None, "--brief", help="The brief whose journal an edit token may write."),
    base_url: str = typer.Option(f"http://127.0.0.1:{PORT}", "--base-url", help="The public address of the server."),
) -> None:
    """Issue, list and revoke the addresses of feeds and pages.

    Example: turfplan tokens issue out --kind feed --label "kitchen phone"
    """
    from turfplan.errors import Problem, TurfplanError
    from turfplan.store import index as store
    from turfplan.store import tokens as kept

    with store.opened(index) as connection:
        if action == "list":
            found = kept.listed(connection)
            if not found:
                print("No tokens yet: `turfplan tokens issue DIR` makes one.", file=sys.stderr)
            for token in found:
                state = f"revoked {token.revoked}" if token.revoked else "in use"
                print(f"{token.id:4}  {token.kind:5} {state:32} {token.label or '-':20} {token.lawn.folder}")
        elif action == "revoke":
            if what is None or not what.isdigit() or not kept.revoke(connection, int(what)):
                raise TurfplanError(
                    Problem("N", "is not the number of a token", what, None, "`turfplan tokens list` shows them")
                )
            print(f"Token {what} is revoked: its address now answers that it is gone.")
        elif action == "issue":
            if what is None or kind not in kept.KINDS:
                raise TurfplanError(
                    Problem("--kind" if what else "DIR", "is needed", kind if what else None, ", ".join(kept.KINDS))
                )
            folder = _folder(Path(what))
            lawn = store.add_lawn(connection, folder, brief or store.brief_beside(folder))
            _show(kept.issue(connection, lawn, kind, label), kind, base_url)
        else:
            raise TurfplanError(Problem("action", "is not known", action, "issue, list, revoke"))


def _show(token: str, kind: str, base_url: str) -> None:
    """Print the addresses of a new token, once."""
    base = base_url.rstrip("/")
    if kind != "feed":
        print(f"{base}/lawn/{token}")
        return
    address = f"{base}/feed/{token}.ics"
    print(address)
    print("webcal://" + address.split("://", 1)[1])
    print("It is shown this once. Calendars look at it once or twice a day at best.", file=sys.stderr)


def publish(
    folder: Path = typer.Argument(..., metavar="DIR", help="The plan folder."),
    to: Path = typer.Option(..., "--to", metavar="WEBROOT", help="The folder that a web host shows."),
) -> None:
    """Write a plan's feed as a file under a name that cannot be guessed, for any web host.

    Example: turfplan publish out --to public
    """
    import hashlib
    import secrets

    from turfplan.store.folder import folder_lock, write_outputs

    content = (_folder(folder) / "season.ics").read_bytes()
    with folder_lock(to):
        secret = to / ".turfplan-names"
        key = secret.read_text(encoding="utf-8").strip() if secret.is_file() else secrets.token_urlsafe(32)
        name = hashlib.sha256(f"{key}\n{folder.resolve()}".encode()).hexdigest()[:44] + ".ics"
        write_outputs(to, {".turfplan-names": f"{key}\n".encode(), name: content})
    print(to / name)
    print(
        "Keep .turfplan-names private: the names follow from it. The host must send .ics as text/calendar.",
        file=sys.stderr,
    )


def backup(to: Path = typer.Argument(..., metavar="FILE", help="Where the copy goes."), index: Path = INDEX) -> None:
    """Copy the index to one file, also while it is in use.

    Example: turfplan backup lawns.copy --index lawns.index
    """
    from turfplan.store.index import backup as copy

    copy(index, to)
    print(to)


def restore(
    copy: Path = typer.Argument(..., metavar="FILE", help="A copy made by `turfplan backup`."), index: Path = INDEX
) -> None:
    """Put a copy in the place of the index.

    Example: turfplan restore lawns.copy --index lawns.index
    """
    from turfplan.store.index import restore as put_back

    put_back(index, copy)
    print(index)
