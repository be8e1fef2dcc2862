"""Whatever is sent, by whom and how: an answer with its safeguards, never a failure."""

import asyncio
import random
from datetime import date
from pathlib import Path
from typing import Any

import pytest

pytest.importorskip("starlette", reason="the extra web is not installed")
pytest.importorskip("uvicorn", reason="the extra web is not installed")

from office_business import CREW, OFFICE, OfficeHome, two_crews  # after the skips
from planned_house import planned_house
from served import ServedHome
from tiers import full
from turfplan.app import password_hash as hashing
from turfplan.files import index as store
from turfplan.serve import house_tokens
from turfplan.serve.app import create_app
from turfplan.serve.guard import SECURITY
from turfplan.serve.tokens import TokenKind, feed_of_page

METHODS = ("GET", "HEAD", "POST", "PUT", "PATCH", "DELETE", "OPTIONS", "TRACE", "BREW")
KINDS = (
    "application/x-www-form-urlencoded",
    "multipart/form-data; boundary=x",
    "multipart/form-data",
    "multipart/form-data; boundary=",
    "application/x-www-form-urlencoded; charset=qqq",
    "text/plain",
    "\x00",
)
SOIL_TEST = date(2027, 3, 6)
LAWNS = ("ash", "elm", "oak", "..", "\x00", "x" * 300, "%2e%2e", "\u00e9")
BODIES = (
    b"",
    b"name=Ana&password=" + b"x" * 9000,
    b"name=%00&password=%ff&next=//evil.example",
    b"old=x&new=%ed%a0%80%ed%a0%80%ed%a0%80%ed%a0%80%ed%a0%80&again=x",
    b"do=accept&number=2027-0001&choice=" + b"9" * 4400,
    b"do=told&text=%ff",
    b"do=withdraw&sure=yes",
    b"do=done&job=soil_test&keep=yes",
    b"do=undo&number=" + b"9" * 4400,
    b"do=give&kind=day&label=x&day=9999-12-31",
    b"do=put_off&job=soil_test&reason=no_time&kept_on=0001-01-01",
    b"do=save_brief&text=%00%ff%5blawn%5d",
    b"do=what_if&depth=%00&people=9999999999999999999999",
    b"do=delete_lawn",
    b"answer=%ed%a0%80&do=%ff",
    b"do=" + b"x" * 25_000,
    b'--x\r\nContent-Disposition: form-data; name="file"; filename="../../x"\r\n\r\n[\r\n--x--\r\n',
    b'--x\r\nContent-Disposition: form-data; name="do"\r\n\r\nsave_brief\r\n--x',
    b"--x\r\nqqq",
    bytes(range(256)),
)
HEADERS = (
    ("host", ("testserver", "testserver:80", "evil.example", "", "[::1]", "[", "testserver\x00")),
    ("origin", ("http://testserver", "https://evil.example", "null", "http://[", "\xff")),
    ("sec-fetch-site", ("same-origin", "cross-site", "same-site", "none", "qqq")),
    ("if-none-match", ("*", '"x"', "W/", "\xff", ",,,", '"' + "x" * 9000)),
    ("if-modified-since", ("Mon, 01 Feb 2027 12:00:00 GMT", "31 Feb 9999", "0", "-1", "\xff")),
    ("accept-encoding", ("gzip;q=nan", "gzip;q=", "*;q=0", "\xff")),
    ("range", ("bytes=0-1", "bytes=-", "\xff")),
    ("content-length", ("0", "10", "-1", "1e3", "999999999", "²", "")),
    ("transfer-encoding", ("chunked", "gzip")),
    ("x-forwarded-host", ("evil.example",)),
    ("x-forwarded-proto", ("https",)),
    ("accept-language", ("qqq", "\xff")),
    ("cookie", ("turfplan-owner=", "a=b; c", "turfplan-owner=" + "x" * 43, "\xff=\xff")),
)


def paths(home: ServedHome) -> list[str]:
    """Places that there are, and near them such that are none."""
    edit, read = home.token("edit", "Ana"), home.token("read", "Bo")
    lawn = f"/mine/{home.lawn().id}"
    pages = ["", "/did", "/calendar", "/season", "/season.ics", "/print/day", "/lawn"]
    pages.append("/brief.toml")
    own = [f"{home_}{page}" for home_ in (f"/lawn/{edit}", f"/lawn/{read}", lawn) for page in pages]
    feeds = [f"/feed/{feed_of_page(edit)}.ics", "/feed/x.ics", "/feed/.ics", f"/feed/{edit}.ics"]
    news = [f"/new{page}" for page in ("", "/place", "/check", "/brief", "/qqq")]
    odd = ["/", "//", "/own/x", "/static/../x", "/%2e%2e/%2e%2e/etc/passwd", "/worker.js"]
    odd += ["/lawn/" + "x" * 5000, "/mine/99999999999999999999", "/mine/-1", "/\x00", "/lawn/é"]
    return [*own, *feeds, *news, *odd]


async def asked(app: Any, scope: dict[str, Any], body: bytes) -> dict[str, Any]:
    """The beginning of the answer to a request."""
    parts = [body[: len(body) // 2], body[len(body) // 2 :]]
    begun: dict[str, Any] = {}

    async def receive() -> dict[str, Any]:
        if not parts:
            return {"type": "http.disconnect"}
        part = parts.pop(0)
        return {"type": "http.request", "body": part, "more_body": bool(parts)}

    async def send(message: dict[str, Any]) -> None:
        if message["type"] == "http.response.start":
            begun.update(message)

    await app(scope, receive, send)
    return begun


async def attacked(app: Any, places: list[str], cookie: str, count: int, seed: int) -> list[int]:
    """Requests by chance; the status of each answer, whose headers are looked at."""
    chance, seen = random.Random(seed), []
    for _ in range(count):
        method, place = chance.choice(METHODS[: chance.choice((3, 9))]), chance.choice(places)
        body = chance.choice(BODIES) if method == "POST" or chance.random() < 0.1 else b""
        headers = {"host": "testserver", "content-type": chance.choice(KINDS)}
        if chance.random() < 0.9:
            headers["content-length"] = str(len(body))
        if chance.random() < 0.5:
            headers["cookie"] = cookie
        for name, values in chance.sample(HEADERS, chance.randrange(4)):
            headers[name] = chance.choice(values)
        scope = {
            "type": "http",
            "http_version": "1.1",
            "method": method,
            "scheme": "http",
            "path": place,
            "raw_path": place.encode(),
            "query_string": chance.choice(
                (b"", b"told=1&known=%ff", b"\xff" * 9, b"saved", b"q=%00&show=x&page=9e9")
            ),
            "headers": [(k.encode(), v.encode("latin-1")) for k, v in headers.items()],
            "client": ("192.0.2.7", 9),
            "server": ("testserver", 80),
            "root_path": "",
        }
        got = await asked(app, scope, body)
        status, answered = got["status"], dict(got["headers"])
        told = (method, place, headers, body[:80], status)
        assert status < 500, told
        for name in SECURITY:
            assert name.lower().encode() in answered, told
        if status == 405:
            assert answered.get(b"allow"), told
        seen.append(status)
    return seen


@full
def test_two_thousand_odd_requests_break_nothing(tmp_path: Path) -> None:
    """Methods, places, hosts, origins, cookies, conditions, lengths and forms of every kind: each
    is answered, with the security headers; nothing is a failure of the server.
    """
    home = ServedHome(tmp_path)
    places = paths(home)
    client = home.client(replan=None)
    client.post(home.once(), data={"label": "x"})
    cookie = f"turfplan-owner={client.cookies['turfplan-owner']}"
    app = create_app(home.settings(replan=None))
    seen = asyncio.run(attacked(app, places, cookie, 2000, 17))
    assert {200, 303, 400, 403, 404, 405, 411, 413, 422} <= set(seen), sorted(set(seen))


@full
def test_odd_requests_break_no_page_of_a_house(tmp_path: Path) -> None:
    """Nor do they where several lawns have one address."""
    home = ServedHome(planned_house(tmp_path))
    with store.opened(home.index) as connection:
        for lawn in ("back", "front"):
            folder = home.root / "lawns" / lawn
            store.add_lawn(connection, folder, folder / "brief.toml")
        kinds: tuple[TokenKind, ...] = ("edit", "read")
        edit, read = (house_tokens.issue(connection, home.root, kind, "Ana") for kind in kinds)
    places = ["/", "/house", "/house/", "/house/x", "/house/" + "x" * 5000, "/house/\x00"]
    ends = ("", "/1", "/2/did", "/1/season", "/1/calendar", "/-1", "/9999999999", "/é/did")
    places += [f"/house/{token}{end}" for token in (edit, read) for end in ends]
    places += [f"/feed/{edit}.ics", f"/lawn/{edit}", f"/feed/{feed_of_page(edit)}.ics"]
    client = home.client(replan=None)
    client.post(home.once(), data={"label": "x"})
    cookie = client.cookies["turfplan-owner"]
    app = create_app(home.settings(replan=None))
    seen = asyncio.run(attacked(app, places, cookie, 300, 23))
    assert {200, 400, 403, 404, 405} <= set(seen), sorted(set(seen))


@full
@pytest.mark.parametrize("who", [OFFICE, CREW])
def test_odd_requests_break_no_office(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, who: tuple[str, str]
) -> None:
    """The same of the office page of a business, by the office and by a crew."""
    monkeypatch.setattr(hashing, "COST_LOG2", 4)
    home = OfficeHome(two_crews(tmp_path), SOIL_TEST)
    number = home.number("ash") if home.settings(replan=None) else 0
    lawns = [f"/{kind}/lawns/{name}" for kind in ("office", "crew") for name in LAWNS]
    pages = ("", "/letter", "/quotes/2027-0001", "/quotes/\x00", "/did", "/print/day", "/season")
    places = [f"{lawn}{page}" for lawn in lawns for page in pages]
    places += [f"/{kind}/print/{name}" for kind in ("office", "crew") for name in ("day", "x")]
    places += ["/office", "/crew", "/sign-in", "/sign-out", "/password", "/office/clients.csv"]
    places += ["/", f"/mine/{number}", f"/mine/{number}/calendar", f"/mine/{number}/lawn"]
    client = home.signed_in(who, replan=None)
    cookie = f"turfplan-office={client.cookies['turfplan-office']}"
    seen = asyncio.run(attacked(client.app, places, cookie, 600, 23))
    assert {200, 303, 400, 401, 403, 404, 405, 411, 413} <= set(seen), sorted(set(seen))


def test_what_is_refused_says_what_would_do(tmp_path: Path) -> None:
    """405 names the methods that are taken, 411 a form without a length, each with its headers."""
    home = ServedHome(tmp_path)
    client, page = home.client(), f"/lawn/{home.token('edit')}"
    other = client.put(page)
    assert other.status_code == 405
    assert set(other.headers["allow"].split(", ")) == {"GET", "HEAD", "POST"}
    feed = client.post(f"/feed/{home.token('feed')}.ics")
    assert feed.status_code == 405 and set(feed.headers["allow"].split(", ")) == {"GET", "HEAD"}

    def chunks() -> Any:
        yield b"do=done"

    unsaid = client.post(page, content=chunks())
    assert unsaid.status_code == 411 and "content-security-policy" in unsaid.headers
