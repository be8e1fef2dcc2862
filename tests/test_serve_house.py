"""The pages and the calendar of a house: its address shows all lawns, a lawn's address that lawn
alone.
"""

from datetime import date
from pathlib import Path
from typing import Any

import pytest

pytest.importorskip("starlette", reason="the extra web is not installed")
pytest.importorskip("uvicorn", reason="the extra web is not installed")

from icalendar import Calendar

from command import run
from planned_house import LAWNS, planned_house, write_lawn
from screens import DESK, NARROW, SMALL, barriers, opened, press, text_of
from served import ServedHome, serving  # after the skips
from test_export_screen import axe, browser  # noqa: F401 — fixtures
from tiers import full
from turfplan.app.plan_lawn import replan_lawn
from turfplan.files import index as store
from turfplan.files.index import ServedLawn
from turfplan.files.journal import read_journal
from turfplan.serve import house_tokens, tokens
from turfplan.serve.feed_cache import FeedCache

# The soil samples of both lawns are due.
SAMPLES = date(2027, 3, 6)
AFTERWARDS = date(2027, 4, 11)


@pytest.fixture
def home(tmp_path: Path) -> ServedHome:
    """A served house with both lawns."""
    root = planned_house(tmp_path)
    served = ServedHome(root, SAMPLES)
    for lawn in LAWNS:
        added(served, lawn)
    return served


def added(home: ServedHome, lawn: str) -> ServedLawn:
    """A lawn of the house, in the index."""
    folder = home.root / "lawns" / lawn
    with store.opened(home.index) as connection:
        return store.add_lawn(connection, folder, folder / "brief.toml")


def of_house(home: ServedHome, kind: tokens.TokenKind) -> str:
    """A new address of the house."""
    with store.opened(home.index) as connection:
        return house_tokens.issue(connection, home.root, kind, "Ana")


def of_lawn(home: ServedHome, lawn: str, kind: tokens.TokenKind) -> str:
    """A new address of a lawn."""
    with store.opened(home.index) as connection:
        return tokens.issue(connection, added(home, lawn), kind, "Ana")


def test_one_address_shows_all_lawns_and_each_of_their_pages(home: ServedHome) -> None:
    """The day of both stands on one page; below it lie the pages of each."""
    client, token = home.client(), of_house(home, "read")
    page = client.get(f"/house/{token}")
    assert page.status_code == 200
    assert page.text.count("Take a soil sample") == 2
    assert "Back lawn" in page.text and "Front lawn" in page.text
    assert "<form" not in page.text
    for lawn in LAWNS:
        number = added(home, lawn).id
        own = client.get(f"/house/{token}/{number}")
        assert own.status_code == 200 and f"{lawn.title()} lawn" in own.text
        assert f'href="/house/{token}"' in own.text
        assert client.get(f"/house/{token}/{number}/print/week").status_code == 200
        for closed in ("calendar", "season.ics", "lawn", "brief.toml", "everything"):
            assert client.get(f"/house/{token}/{number}/{closed}").status_code == 404
    assert client.get(f"/house/{token}/99").status_code == 404


def test_a_lawn_s_address_never_shows_another_lawn(home: ServedHome) -> None:
    """Neither its pages nor its calendar name the other, and it opens nothing of the house."""
    client = home.client()
    for lawn, other in (LAWNS, LAWNS[::-1]):
        token, feed = of_lawn(home, lawn, "edit"), of_lawn(home, lawn, "feed")
        pages = [f"/lawn/{token}{p}" for p in ("", "/season", "/did", "/calendar", "/print/week")]
        for path in (*pages, f"/feed/{feed}.ics"):
            answer = client.get(path)
            assert answer.status_code == 200, path
            assert f"{other.title()} lawn" not in answer.text, path
            assert "/house" not in answer.text, path
        assert client.get(f"/house/{token}").status_code == 404
        assert client.get(f"/lawn/{of_house(home, 'edit')}").status_code == 404


def test_the_house_s_calendar_follows_every_lawn(home: ServedHome) -> None:
    """One address holds what both have, moves with each tick, and is withdrawn for good; a plan
    that cannot be read takes nothing out of it."""
    client, token = home.client(), of_house(home, "feed")
    first = client.get(f"/feed/{token}.ics")
    assert first.status_code == 200
    events = Calendar.from_ical(first.content).walk("VEVENT")
    assert {str(e["SUMMARY"]).split(" ")[0] for e in events} == {"Back", "Front"}
    assert len({str(e["UID"]) for e in events}) == len(events)
    seen = {"if-none-match": first.headers["etag"]}
    assert client.get(f"/feed/{token}.ics", headers=seen).status_code == 304
    brief = home.root / "lawns" / "back" / "brief.toml"
    text = brief.read_text(encoding="utf-8")
    brief.write_text(text.replace("people = 2", "people = 1"), encoding="utf-8")
    replan_lawn(brief, brief.parent, tell=lambda _: None, today=SAMPLES)
    second = client.get(f"/feed/{token}.ics", headers=seen)
    assert second.status_code == 200 and second.content != first.content
    (home.root / "lawns" / "front" / "plan.json").write_text("{", encoding="utf-8")
    assert client.get(f"/feed/{token}.ics").content == second.content
    assert home.client().get(f"/feed/{token}.ics").content == second.content
    page = client.get(f"/house/{of_house(home, 'read')}")
    assert page.status_code == 200 and "cannot be read" in page.text and "Back lawn" in page.text
    with store.opened(home.index) as connection:
        number = house_tokens.listed(connection, home.root)[0].id
        assert house_tokens.revoke(connection, number, home.root)
    assert client.get(f"/feed/{token}.ics").status_code == 410


def test_a_house_s_calendar_that_has_not_changed_is_at_hand(
    home: ServedHome, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Asked again it is answered without a look at its plans; another plan, a lawn more or less,
    another hour and a withdrawal are seen at once."""
    looked: list[str] = []
    kept = FeedCache.house_feed

    def house_feed(self: FeedCache, *given: object) -> object:
        looked.append("house")
        return kept(self, *given)  # type: ignore[arg-type]

    monkeypatch.setattr(FeedCache, "house_feed", house_feed)
    client, path = home.client(), f"/feed/{of_house(home, 'feed')}.ics"
    first = client.get(path)
    assert first.status_code == 200 and looked == ["house"]
    for headers, status in (({}, 200), ({"if-none-match": first.headers["etag"]}, 304)):
        again = client.get(path, headers=headers)
        assert again.status_code == status and again.headers["etag"] == first.headers["etag"]
        assert again.content == (first.content if status == 200 else b"")
    assert looked == ["house"]
    away = home.root / "lawns" / "front"
    away.rename(home.root / "front")
    without = client.get(path)
    assert b"Front" not in without.content and len(looked) == 2
    (home.root / "front").rename(away)
    assert b"Front" in client.get(path).content and len(looked) == 3
    home.hour += 1
    assert client.get(path).status_code == 200 and len(looked) == 4
    with store.opened(home.index) as connection:
        (token,) = house_tokens.listed(connection, home.root)
        assert token.read == home.now().isoformat()
        assert house_tokens.revoke(connection, token.id, home.root)
    assert client.get(path).status_code == 410


def test_who_may_tick_ticks_on_each_lawn(home: ServedHome) -> None:
    """A tick goes into the journal of its lawn; who only sees may write nothing, nor may a form
    of another host."""
    client = home.client()
    number = added(home, "front").id
    form = {"do": "done", "job": "soil_test", "key:soil_test": "k1"}
    for kind, status in (("read", 403), ("edit", 303)):
        path = f"/house/{of_house(home, kind)}/{number}"  # type: ignore[arg-type]
        assert client.post(path, data=form).status_code == status
        foreign = client.post(path, data=form, headers={"origin": "http://elsewhere.example"})
        assert foreign.status_code == 403
    journals = {
        lawn: read_journal(home.root / "lawns" / lawn / "brief.journal.jsonl").entries
        for lawn in LAWNS
    }
    assert not journals["back"]
    assert [(e.kind, e.task, e.by) for e in journals["front"]] == [("done", "soil_test", "Ana")]
    assert home.planned == [number]


def test_the_owner_gives_and_takes_back_an_address_of_the_house(home: ServedHome) -> None:
    """Home is the day of all lawns; addresses are shown once, and to nobody else."""
    client = home.client()
    assert client.get("/house").status_code == 403
    assert client.post("/house", data={"do": "give"}).status_code == 403
    client.post(home.once(), data={"label": "desk"})
    today = client.get("/")
    assert today.text.count("<h3>Take a soil sample") == 2 and 'href="/house"' in today.text
    faults = client.post("/house", data={"do": "give", "kind": "all", "label": " "})
    assert faults.status_code == 422
    made = client.post("/house", data={"do": "give", "kind": "edit", "label": "kitchen"})
    secret = made.text.partition("/house/")[2].partition("<")[0].split('"')[0].strip()
    assert client.get(f"/house/{secret}").status_code == 200
    held = client.get("/house").text
    assert "kitchen" in held and secret not in held
    with store.opened(home.index) as connection:
        (page, feed) = house_tokens.listed(connection, home.root)
    assert feed.page == page.id
    foreign = {"origin": "http://elsewhere.example"}
    taken = {"do": "withdraw", "number": str(page.id)}
    assert client.post("/house", data=taken, headers=foreign).status_code == 403
    assert client.post("/house", data=taken).status_code == 303
    assert client.get(f"/house/{secret}").status_code == 410
    assert client.post("/house", data={"do": "withdraw", "number": "77"}).status_code == 422


def test_the_terminal_gives_and_takes_back_addresses_of_the_house(home: ServedHome) -> None:
    """By the house's folder; their numbers are not those of a lawn's addresses."""
    index = str(home.index)
    page = run("tokens", "issue", str(home.root), "--kind", "read", "--label", "aunt")
    secret = page.stdout.strip().rpartition("/")[2]
    client = home.client()
    assert client.get(f"/house/{secret}").status_code == 200
    feed = run("tokens", "issue", str(home.root), "--part", "water").stdout.split()[0]
    assert client.get(f"/feed/{feed.rpartition('/')[2]}").text.count("BEGIN:VEVENT") > 1
    refused = run(
        *("tokens", "issue", str(home.root), "--from", "2027-03-01", "--to", "2027-03-02")
    )
    assert refused.returncode == 3 and "all days" in refused.stderr
    listed = run("tokens", "list", "--index", index).stdout
    assert "H1" in listed and "aunt" in listed and secret not in listed
    assert run("tokens", "revoke", "1", "--index", index).returncode == 3
    assert run("tokens", "revoke", "H1", "--index", index).returncode == 0
    assert client.get(f"/house/{secret}").status_code == 410
    assert run("tokens", "revoke", "H99", "--index", index).returncode == 3


def test_an_address_opens_its_own_house_alone(home: ServedHome, tmp_path: Path) -> None:
    """A lawn that is served beside the house, or another house, is no part of it."""
    client, token = home.client(), of_house(home, "read")
    other = write_lawn(tmp_path / "other", "far")
    write_lawn(tmp_path / "other", "wide")
    replan_lawn(other, other.parent, tell=lambda _: None, today=SAMPLES)
    with store.opened(home.index) as connection:
        far = store.add_lawn(connection, other.parent, other)
    page = client.get(f"/house/{token}")
    assert page.status_code == 200 and "Far lawn" not in page.text
    assert client.get(f"/house/{token}/{far.id}").status_code == 404
    assert "Far lawn" not in client.get(f"/feed/{of_house(home, 'feed')}.ics").text
    client.post(home.once(), data={"label": "desk"})
    assert "Far lawn" in client.get("/").text


@full
@pytest.mark.parametrize(("width", "scheme"), [(NARROW, "light"), (DESK, "dark")])
def test_every_page_of_a_house_opens_without_a_barrier(
    browser: Any,  # noqa: F811 — the fixture
    axe: str,  # noqa: F811 — the fixture
    home: ServedHome,
    width: int,
    scheme: str,
) -> None:
    """Due, overdue, nothing due, a plan that cannot be read, addresses: each fits the phone, with
    nothing too small for a thumb; a tick leads to its lawn and back."""
    edit = of_house(home, "edit")
    with serving(home), opened(browser, width=width, scheme=scheme) as page:
        page.goto(home.base + home.once())
        page.get_by_role("button").first.click()
        page.wait_for_url(f"{home.base}/")
        for day in (date(2027, 2, 1), SAMPLES, AFTERWARDS):
            home.day = day
            for path in ("/", "/house", f"/house/{edit}", f"/house/{edit}/1"):
                page.goto(home.base + path)
                assert barriers(page, axe) == [], (day, path)
                assert page.evaluate("document.documentElement.scrollWidth") <= width
                if width == NARROW:
                    assert page.evaluate(SMALL) == [], (day, path)
        home.day = SAMPLES
        page.goto(f"{home.base}/house/{edit}")
        press(page, "Done as planned")
        assert "Take a soil sample" in text_of(page)
        page.get_by_role("link", name="All lawns").click()
        page.wait_for_url(f"{home.base}/house/{edit}")
        assert page.get_by_role("button", name="Done as planned").count() == 1
        (home.root / "lawns" / "back" / "plan.json").write_text("{", encoding="utf-8")
        page.goto(f"{home.base}/house/{edit}")
        assert barriers(page, axe) == [] and "cannot be read" in text_of(page)
