"""The owner opens the home network to phones from the page, without another word at a terminal."""

import re
import socket
from collections.abc import Iterator
from datetime import date
from pathlib import Path

import httpx2 as httpx
import pytest

pytest.importorskip("starlette", reason="the extra web is not installed")
pytest.importorskip("uvicorn", reason="the extra web is not installed")

from machine import free_port
from planned_house import LAWNS, planned_house
from served import ServedHome, serving  # after the skips
from turfplan.files import index as store
from turfplan.serve.guard import SECURITY
from turfplan.serve.phones import PhoneListener

AT_HOME, NAME = "127.0.0.2", "shed.local"
BROWSERS: list[httpx.Client] = []


def _can_listen() -> bool:
    """Whether this machine has a second address of its own."""
    with socket.socket() as one:
        try:
            one.bind((AT_HOME, 0))
        except OSError:
            return False
        return True


pytestmark = pytest.mark.skipif(not _can_listen(), reason="one address of its own alone")


def listener(port: int, own: str | None = AT_HOME) -> PhoneListener:
    """A listener of another address of this machine, under a name of its own."""
    return PhoneListener(port, lambda: own, lambda: (NAME,))


@pytest.fixture
def home(tmp_path: Path) -> Iterator[ServedHome]:
    """A lawn that is served at the machine alone, by a server that can be opened."""
    made = ServedHome(tmp_path, date(2027, 3, 6))
    made.lawn()
    port = free_port()
    with serving(made, port, phones=listener(port)):
        yield made


@pytest.fixture(autouse=True)
def browsers() -> Iterator[None]:
    """Closes the browsers of a test with it."""
    yield
    while BROWSERS:
        BROWSERS.pop().close()


def owner(home: ServedHome) -> httpx.Client:
    """The owner's browser at the machine."""
    client = httpx.Client(base_url=home.base, timeout=30)
    BROWSERS.append(client)
    assert client.post(home.once(), data={"label": "laptop"}).status_code == 303
    return client


def asked(home: ServedHome, path: str, host: str = NAME, **more: str) -> httpx.Response:
    """An answer of the second listener, asked for under a name of the machine."""
    headers = {"Host": f"{host}:{home.port}", **more}
    return httpx.get(f"http://{AT_HOME}:{home.port}{path}", headers=headers, timeout=30)


def test_one_button_opens_feeds_to_the_network_and_one_closes_it(home: ServedHome) -> None:
    """With the address that a phone reaches, and what to do where a firewall stops it; a feed is
    given there under the other name, with all headers."""
    client, mine = owner(home), f"/mine/{home.lawn().id}"
    page = client.get(f"{mine}/calendar").text
    assert "Open to phones on this network" in page and "--home-network" not in page
    feed = f"/feed/{home.token('feed')}.ics"
    with pytest.raises(httpx.ConnectError):
        asked(home, feed)
    sent = client.post(f"{mine}/calendar", data={"do": "open_phones"})
    assert (sent.status_code, sent.headers["location"]) == (303, f"{mine}/calendar#phones")
    page = client.get(f"{mine}/calendar").text
    assert f"http://{AT_HOME}:{home.port}" in page and "Close to this network" in page
    assert (
        "firewall" in page and f"port {home.port}" in page and "While this computer sleeps" in page
    )
    for name in (NAME, AT_HOME):
        got = asked(home, feed, name)
        assert got.status_code == 200 and got.content.startswith(b"BEGIN:VCALENDAR")
        assert all(got.headers[key] == told for key, told in SECURITY.items())
    again = asked(home, feed, **{"If-None-Match": got.headers["etag"]})
    assert again.status_code == 304
    assert "A device of this network has asked already" in client.get(f"{mine}/calendar").text
    given = client.post(
        f"{mine}/calendar", data={"do": "give", "kind": "feed", "label": "Phone"}
    ).text
    assert f"webcal://{AT_HOME}:{home.port}/feed/" in given
    assert client.post(f"{mine}/calendar", data={"do": "close_phones"}).status_code == 303
    with pytest.raises(httpx.ConnectError):
        asked(home, feed)
    assert "Open to phones on this network" in client.get(f"{mine}/calendar").text


def test_the_network_opens_addresses_and_nothing_of_the_owner(home: ServedHome) -> None:
    """Not even to the owner's own cookie; nor to a name that is not this machine's, and no form of
    another page is taken."""
    client, number = owner(home), home.lawn().id
    client.post(f"/mine/{number}/calendar", data={"do": "open_phones"})
    cookie = "; ".join(f"{name}={value}" for name, value in client.cookies.items())
    once = home.once()
    for path in ("/", "/mine", f"/mine/{number}", f"/mine/{number}/calendar", "/house", "/new"):
        for more in ({}, {"Cookie": cookie}):
            got = asked(home, path, **more)
            assert got.status_code == 404, path
            assert all(got.headers[key] == told for key, told in SECURITY.items())
    assert asked(home, once).status_code == 404 and asked(home, "/office").status_code == 404
    token = home.token("edit", "Ana")
    assert asked(home, f"/lawn/{token}").status_code == 200
    assert asked(home, f"/lawn/{token}/../../mine/{number}").status_code == 404
    assert asked(home, f"/lawn/{token}", "evil.example").status_code == 400
    assert asked(home, f"/feed/{'x' * 43}.ics").status_code == 404
    where = f"http://{AT_HOME}:{home.port}/lawn/{token}"
    form = {"do": "befell", "what": "rain", "value": "3 mm", "on": "2027-03-05"}
    told = {"Host": f"{NAME}:{home.port}", "Origin": "http://evil.example"}
    assert httpx.post(where, data=form, headers=told, timeout=30).status_code == 403
    assert home.entries() == ()
    told["Origin"] = f"http://{NAME}:{home.port}"
    assert httpx.post(where, data=form, headers=told, timeout=60).status_code == 303
    assert len(home.entries()) == 1


def test_who_is_not_the_owner_at_the_machine_opens_nothing(home: ServedHome) -> None:
    """Neither an address nor a page of somebody else's."""
    token = home.token("edit", "Ana")
    with httpx.Client(base_url=home.base, timeout=30) as client:
        for path in (f"/lawn/{token}", f"/lawn/{token}/calendar", f"/mine/{home.lawn().id}"):
            assert client.post(path, data={"do": "open_phones"}).status_code == 403
        assert "Open to phones" not in client.get(f"/lawn/{token}/calendar").text
    mine, other = f"/mine/{home.lawn().id}/calendar", {"Origin": "http://evil.example"}
    sent = owner(home).post(mine, data={"do": "open_phones"}, headers=other)
    assert sent.status_code == 403
    with pytest.raises(httpx.ConnectError):
        asked(home, "/robots.txt")


def test_what_was_opened_is_open_after_a_restart_until_it_is_closed(tmp_path: Path) -> None:
    home = ServedHome(tmp_path, date(2027, 3, 6))
    feed = f"/feed/{home.token('feed')}.ics"
    mine = f"/mine/{home.lawn().id}/calendar"
    port = free_port()
    with serving(home, port, phones=listener(port)):
        client = owner(home)
        client.post(mine, data={"do": "open_phones"})
        assert asked(home, feed).status_code == 200
    with pytest.raises(httpx.ConnectError):
        asked(home, feed)
    with serving(home, port, phones=listener(port)):
        assert asked(home, feed).status_code == 200
        client.post(mine, data={"do": "close_phones"})
    with serving(home, port, phones=listener(port)), pytest.raises(httpx.ConnectError):
        asked(home, feed)


def test_what_stands_in_the_way_is_told(tmp_path: Path) -> None:
    """A port that somebody has there, and a machine in no network; nothing is kept as open."""
    home = ServedHome(tmp_path, date(2027, 3, 6))
    mine = f"/mine/{home.lawn().id}/calendar"
    port = free_port()
    with socket.socket() as taken:
        taken.bind((AT_HOME, port))
        taken.listen()
        with serving(home, port, phones=listener(port)):
            got = owner(home).post(mine, data={"do": "open_phones"})
            assert got.status_code == 422 and f"{AT_HOME}:{port}" in got.text
            assert "in use" in got.text
    with serving(home, port, phones=listener(port, None)):
        got = owner(home).post(mine, data={"do": "open_phones"})
        assert got.status_code == 422 and "in no network" in got.text
    with serving(home, port, phones=listener(port)), pytest.raises(httpx.ConnectError):
        asked(home, "/robots.txt")


def test_the_page_of_a_house_has_the_same_button(tmp_path: Path) -> None:
    """It opens what the page of a lawn opens, and says why it cannot; its addresses are then those
    that a phone reaches. Who asks through the network has no such button."""
    made = ServedHome(planned_house(tmp_path), date(2027, 3, 6))
    with store.opened(made.index) as connection:
        for lawn in LAWNS:
            folder = made.root / "lawns" / lawn
            number = store.add_lawn(connection, folder, folder / "brief.toml").id
    port = free_port()
    with serving(made, port, phones=listener(port)):
        client = owner(made)
        page = client.get("/house").text
        assert "Open to phones on this network" in page and "While this computer sleeps" in page
        sent = client.post("/house", data={"do": "open_phones"})
        assert (sent.status_code, sent.headers["location"]) == (303, "/house#phones")
        for path in ("/house", f"/mine/{number}/calendar"):
            page = client.get(path).text
            assert f"http://{AT_HOME}:{made.port}" in page and "Close to this network" in page
        given = client.post("/house", data={"do": "give", "kind": "feed", "label": "Phone"}).text
        (feed,) = set(re.findall(rf"http://{AT_HOME}:{made.port}(/feed/[\w-]+\.ics)", given))
        assert asked(made, feed).content.startswith(b"BEGIN:VCALENDAR")
        assert client.post("/house", data={"do": "close_phones"}).status_code == 303
        with pytest.raises(httpx.ConnectError):
            asked(made, feed)
    with serving(made, free_port(), phones=listener(made.port, own=None)):
        client = owner(made)
        refused = client.post("/house", data={"do": "open_phones"})
        assert refused.status_code == 422 and 'role="alert"' in refused.text
    with serving(made):
        client = owner(made)
        assert "phones on this network" not in client.get("/house").text
        assert client.post("/house", data={"do": "open_phones"}).status_code == 403


def test_who_has_made_a_plan_is_led_to_the_phone(home: ServedHome) -> None:
    """The page after a first plan leads to the button; where phones reach the server already, to
    the address that is made for them."""
    for settings, says in (
        ({"phones": listener(free_port())}, "Open to phones on this network"),
        ({"base_url": "http://shed.local:8470"}, "Put it into my calendar"),
    ):
        client = home.client("http://127.0.0.1", **settings)
        assert client.post(home.once(), data={"label": "laptop"}).status_code == 303
        mine = f"/mine/{home.lawn().id}"
        made = client.get(f"{mine}/made").text
        assert f'href="{mine}/calendar#phones">Get it on a phone<' in made
        assert "turfplan serve" not in made
        page = client.get(f"{mine}/calendar").text
        _, _, after = page.partition('id="phones"')
        assert page.count('id="phones"') == 1 and says in after.partition("</section>")[0]
