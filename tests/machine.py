"""What tests ask of the machine that they run on: a free port, the files of a folder."""

import socket
from pathlib import Path


def free_port() -> int:
    """A port of this machine that nobody listens on."""
    with socket.socket() as one:
        one.bind(("127.0.0.1", 0))
        return int(one.getsockname()[1])


def files(home: Path) -> dict[str, bytes]:
    """Everything in a folder and below but the locks, by path."""
    return {
        str(p.relative_to(home)): p.read_bytes()
        for p in home.rglob("*")
        if p.is_file() and "lock" not in p.name
    }
