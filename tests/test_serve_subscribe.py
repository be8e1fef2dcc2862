"""Subscribing is offered where it can work; addresses with a part; calendars that fall silent."""

from datetime import date, timedelta
from pathlib import Path

import pytest

pytest.importorskip("starlette", reason="the extra web is not installed")
pytest.importorskip("uvicorn", reason="the extra web is not installed")

from served import NAME, ServedHome  # after the skips
from turfplan.serve.tokens import feed_of_page

HOSTS = ("testserver", "127.0.0.1", "192.168.0.9", "lawns.example")
SPREADING = date(2027, 4, 11)


@pytest.fixture(scope="module")
def home(tmp_path_factory: pytest.TempPathFactory) -> ServedHome:
    """A lawn that is served."""
    made = ServedHome(tmp_path_factory.mktemp("subscribe"))
    made.lawn()
    return made


@pytest.mark.parametrize(
    ("base", "said", "unsaid"),
    [
        (
            "http://127.0.0.1",
            ["on this computer alone", "sleeps", "Subscribe on this computer"],
            "QR",
        ),
        (
            "http://192.168.0.9",
            ["works at home", "not for those that live on the web", "sleeps", "QR"],
            "on this computer alone",
        ),
        ("https://lawns.example", ["works everywhere", "sleeps", "QR"], "It is not encrypted"),
        ("http://lawns.example", ["works everywhere", "It is not encrypted"], "works at home"),
    ],
)
def test_it_is_said_which_calendars_reach_an_address(
    home: ServedHome, base: str, said: list[str], unsaid: str
) -> None:
    """In a sentence beside the button, and that a computer that sleeps stops it; everywhere there
    is a copy that does not move by itself.
    """
    page = f"/lawn/{home.token('read', 'Bo')}"
    client = home.client(base, hosts=HOSTS)
    told = client.get(f"{page}/calendar").text
    assert [text for text in said if text not in told] == [] and unsaid not in told
    assert "will not move by itself" in told
    copy = client.get(f"{page}/season.ics")
    assert copy.headers["content-disposition"].startswith("attachment")
    feed = client.get(f"/feed/{feed_of_page(page.rpartition('/')[2])}.ics")
    assert copy.content == feed.content and copy.content.startswith(b"BEGIN:VCALENDAR")


def test_at_the_machine_the_address_of_the_home_network_is_handed_on(home: ServedHome) -> None:
    """A server that listens at home gives the phone the address that the phone reaches; without
    one, what starts it is told.
    """
    at_home = home.client("http://127.0.0.1", hosts=HOSTS, home_url="http://192.168.0.9:8765")
    at_home.post(home.once(), data={"label": "x"})
    mine = f"/mine/{home.lawn().id}/calendar"
    told = at_home.post(mine, data={"do": "give", "kind": "feed", "label": "Phone"}).text
    assert "webcal://192.168.0.9:8765/feed/" in told and "works at home" in told
    alone = home.client("http://127.0.0.1", hosts=HOSTS)
    alone.post(home.once(), data={"label": "x"})
    assert "turfplan serve --home-network" in alone.get(mine).text
    assert "turfplan publish" in alone.get(mine).text
    here = alone.post(mine, data={"do": "give", "kind": "feed", "label": "Here"}).text
    remedy, button = here.index("turfplan serve --home-network"), here.index("webcal://")
    assert remedy < button and "quiet" not in here[remedy - 60 : remedy]
    assert 'class="button large" href="webcal:' not in here
    assert 'class="button large" href="webcal:' in told


def test_the_home_network_opens_no_page_of_the_owner(home: ServedHome) -> None:
    """Addresses with a token open; the owner's pages do without the owner's cookie for nobody."""
    phone = home.client("http://192.168.0.9", hosts=HOSTS)
    assert phone.get(f"/lawn/{home.token('read')}").status_code == 200
    assert phone.get(f"/feed/{home.token('feed')}.ics").status_code == 200
    for path in ("/", "/new", "/new/place", f"/mine/{home.lawn().id}/calendar"):
        assert phone.get(path).status_code == 403


def test_an_address_of_one_day_shows_that_day_alone(home: ServedHome) -> None:
    """Its jobs and its sheets, whenever it is opened; no other page, no calendar, no form. Without
    an end it ends the day after.
    """
    client = home.client()
    client.post(home.once(), data={"label": "x"})
    mine = f"/mine/{home.lawn().id}/calendar"
    form = {"do": "give", "kind": "day", "label": "Cleo"}
    assert "Say which day" in client.post(mine, data=form).text
    assert client.post(mine, data=form | {"day": "2027-02-30"}).status_code == 422
    assert client.post(mine, data=form | {"day": "9999-12-31"}).status_code == 200
    made = client.post(mine, data=form | {"day": str(SPREADING)}).text
    page = made.partition('<p class="address"><a href="http://testserver')[2].partition('"')[0]
    guest = home.client()
    shown = guest.get(page)
    assert shown.status_code == 200 and "Top-dress pass 1" in shown.text
    assert "soil sample" not in shown.text and "<button" not in shown.text
    printed = guest.get(f"{page}/print/day").text
    assert "Top-dress pass 1" in printed and "soil sample" not in printed
    for other in ("did", "calendar", "season.ics", "print/week", "week.pdf"):
        assert guest.get(f"{page}/{other}").status_code == 404
    assert guest.get(f"/feed/{feed_of_page(page.rpartition('/')[2])}.ics").status_code == 404
    for do in ("done", "undo", "revoke", "give"):
        assert guest.post(page, data={"do": do, "job": "topdress.1"}).status_code == 403
    assert home.entries() == ()
    told = client.get(mine).text
    assert "Sees the sheets of Sun, Apr 11, 2027" in told and "Until Apr 12, 2027" in told
    home.day = SPREADING + timedelta(days=2)
    assert guest.get(page).status_code == 410
    home.day = date(2027, 2, 1)


def test_calendars_that_fall_silent_are_told_on_top(tmp_path: Path) -> None:
    """After three days without a look: to the owner each, to others their own; what was withdrawn
    or has ended is not missed.
    """
    home = ServedHome(tmp_path)
    client, guest = home.client(), home.client()
    client.post(home.once(), data={"label": "x"})
    feed, gone = home.token("feed", "Kitchen phone"), home.token("feed", "Old phone")
    page = home.token("read", "Bo")
    home.token("feed", "Brief guest", home.day)
    mine = f"/mine/{home.lawn().id}"
    for token in (feed, gone, feed_of_page(page)):
        assert guest.get(f"/feed/{token}.ics").status_code == 200
    client.post(f"{mine}/calendar", data={"do": "withdraw", "number": "2"})
    home.day += timedelta(days=2)
    assert "has not looked" not in client.get(mine).text
    home.day += timedelta(days=2)
    for shown in (mine, f"{mine}/calendar"):
        told = client.get(shown).text
        assert "Kitchen phone: this calendar has not looked since Feb 1, 2027." in told
        assert "Bo: this calendar" in told
        assert "Old phone: this" not in told and "Brief guest: this" not in told
    own = guest.get(f"/lawn/{page}").text
    assert "Bo: this calendar" in own and "Kitchen phone" not in own
    assert "Last read 4 days ago." in client.get(f"{mine}/calendar").text
    guest.get(f"/feed/{feed}.ics")
    assert "Kitchen phone: this" not in client.get(mine).text


@pytest.fixture
def own_home(tmp_path: Path) -> ServedHome:
    """A lawn that is served to one test alone."""
    made = ServedHome(tmp_path)
    made.lawn()
    return made


def test_a_page_s_square_is_shown_where_a_phone_reaches_it(own_home: ServedHome) -> None:
    """An address of this computer alone has no square for a camera, and says so."""
    asked = {"do": "give", "kind": "edit", "label": "Ana"}
    for base, squares in (("http://127.0.0.1", 0), ("http://shed.local", 1)):
        client = own_home.client(base, hosts=("127.0.0.1", "shed.local"))
        client.post(own_home.once(), data={"label": "laptop"})
        page = client.post("/mine/1/calendar", data=asked).text
        assert page.count('class="qr"') == squares and f"{base}/lawn/" in page
        assert ("works on this computer alone" in page) is (squares == 0)


def test_what_is_next_is_said_once(own_home: ServedHome) -> None:
    """Where nothing is due the next job stands on top, and not among what follows it."""
    address = f"/lawn/{own_home.token('edit', 'Ana')}"
    page = own_home.client().get(address).text
    assert page.count("Take a soil sample and send it in") == 1 and "Coming up" not in page
    own_home.day = date(2027, 3, 6)
    page = own_home.client().get(address).text
    assert page.count("Measure how deep the fill is") == 1 and "Coming up" in page


def test_a_lawn_that_cannot_be_shown_says_what_to_do(own_home: ServedHome) -> None:
    """A journal that cannot be read, and a plan that is not there: to the owner with the command,
    to others whom to tell."""
    client, address = own_home.client(), f"/lawn/{own_home.token('edit', 'Ana')}"
    client.post(own_home.once(), data={"label": "laptop"})
    (own_home.root / f"{NAME}.journal.jsonl").write_text("no entry\nnor this\n")
    assert "<code>turfplan log list</code>" in client.get("/mine/1").text
    seen = own_home.client().get(address).text
    assert "tell whoever gave you this address" in seen and "turfplan log" not in seen
    (own_home.root / NAME / "plan.json").unlink()
    assert f"<code>turfplan plan {own_home.root / NAME}.toml</code>" in client.get("/mine/1").text
    assert "turfplan plan" not in own_home.client().get(address).text


def test_the_owner_s_own_browser_is_named_as_such(own_home: ServedHome) -> None:
    """Of several browsers the one that asks, so that nobody takes his own right away unawares."""
    laptop, phone = own_home.client(), own_home.client()
    for client, label in ((laptop, "laptop"), (phone, "telephone")):
        client.post(own_home.once(), data={"label": label})
    for client, own, other in ((laptop, "laptop", "telephone"), (phone, "telephone", "laptop")):
        page = client.get("/mine/1/calendar").text
        assert f"<strong>{own}</strong> (this browser)" in page
        assert f"<strong>{other}</strong><br>" in page and page.count("(this browser)") == 1
