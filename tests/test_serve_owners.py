"""The owner's browser: made by a one-time address, kept by a hash, taken away again."""

from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

pytest.importorskip("starlette", reason="the extra web is not installed")
from starlette.testclient import TestClient  # after the skip

from turfplan.files import index as store
from turfplan.serve import owners
from turfplan.serve.app import create_app
from turfplan.serve.visit import ServerSettings

NOW = datetime(2027, 3, 1, 12, tzinfo=UTC)


def test_a_one_time_address_works_once_and_for_a_day(tmp_path: Path) -> None:
    """The one before it is over with a new one; what is no address at all opens nothing."""
    with store.opened(tmp_path / "i") as connection:
        older, once = owners.invite(connection, NOW), owners.invite(connection, NOW)
        assert not owners.is_open(connection, older, NOW)
        assert owners.is_open(connection, once, NOW + owners.ONCE / 2)
        assert not owners.is_open(connection, once, NOW + owners.ONCE)
        assert owners.claim(connection, once, "x", NOW + owners.ONCE) is None
        secret = owners.claim(connection, once, "Kitchen", NOW)
        assert secret is not None and owners.claim(connection, once, "x", NOW) is None
        found = owners.find(connection, secret, NOW)
        assert found is not None and found.label == "Kitchen"
        assert owners.owners(connection, NOW) == (found,)
        assert owners.find(connection, once, NOW) is None
        assert owners.find(connection, secret, NOW + owners.KEPT) is None
        for nothing in ("", "x" * 43, secret[:-1], "é" * 43):
            assert owners.find(connection, nothing, NOW) is None
        assert owners.withdraw(connection, found.id, NOW)
        assert not owners.withdraw(connection, found.id, NOW)
        assert owners.find(connection, secret, NOW) is None
        connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    kept = (tmp_path / "i").read_bytes()
    assert secret.encode() not in kept and once.encode() not in kept


@pytest.mark.parametrize(("base", "secure"), [("https://l.example", True), (None, False)])
def test_the_cookie_is_held_to_the_host_and_under_tls_to_tls(
    tmp_path: Path, base: str | None, secure: bool
) -> None:
    """`__Host-` and Secure where the server is known by https, HttpOnly and SameSite always; a
    cookie of the other name opens nothing.
    """
    with store.opened(tmp_path / "i") as connection:
        once = owners.invite(connection, NOW)
    settings = ServerSettings(tmp_path / "i", base, ("testserver",), clock=lambda: NOW)
    with TestClient(create_app(settings), follow_redirects=False) as client:
        assert client.get(f"/own/{once}").status_code == 200
        foreign = {"origin": "https://elsewhere.example"}
        assert client.post(f"/own/{once}", headers=foreign).status_code == 403
        got = client.post(f"/own/{once}", data={"label": "Kitchen"})
        assert got.status_code == 303 and got.headers["location"] == "/new"
        name, _, rest = got.headers["set-cookie"].partition("=")
        assert name == ("__Host-turfplan-owner" if secure else "turfplan-owner")
        parts = {part.strip().lower() for part in rest.split(";")}
        assert {"httponly", "samesite=lax", "path=/"} <= parts
        assert ("secure" in parts) is secure and not any(p.startswith("domain") for p in parts)
        secret = rest.split(";")[0]
        client.cookies.clear()
        assert client.get("/", headers={"cookie": f"{name}={secret}"}).status_code == 200
        other = "turfplan-owner" if secure else "__Host-turfplan-owner"
        assert client.get("/", headers={"cookie": f"{other}={secret}"}).status_code == 403


def test_being_at_the_machine_is_no_right(tmp_path: Path) -> None:
    """A browser of the same machine is asked for its address as any other."""
    settings = ServerSettings(tmp_path / "i", hosts=("127.0.0.1",))
    app = create_app(settings)
    client = TestClient(app, base_url="http://127.0.0.1", client=("127.0.0.1", 9))
    assert client.get("/").status_code == client.get("/mine/1").status_code == 403
    later = NOW + timedelta(days=1)
    with store.opened(tmp_path / "i") as connection:
        assert owners.owners(connection, later) == ()
