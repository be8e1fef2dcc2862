"""The office page: who comes in and by what, what each sees, and that nobody sees more."""

import re
import shutil
from collections.abc import Iterator
from datetime import date, timedelta
from pathlib import Path
from typing import Any

import pytest

pytest.importorskip("starlette", reason="the extra web is not installed")
pytest.importorskip("uvicorn", reason="the extra web is not installed")

from office_business import (  # after the skips
    CREW,
    DAY,
    MARKS,
    OFFICE,
    SOUTH,
    OfficeHome,
    sign_in,
    two_crews,
)
from turfplan.app import password_hash as hashing
from turfplan.app.client_quotes import offer_quote
from turfplan.app.operators import set_password, withdraw_operator
from turfplan.files.reading.plan import read_plan
from turfplan.serve.office_sessions import MOST_OF_NAME, SESSION, WINDOW, SignInRate, place_of

SOIL_TEST = date(2027, 3, 1)
CLOSED = "This is not for a crew"


@pytest.fixture(scope="module")
def first(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    """Two lawns of two crews, planned."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(hashing, "COST_LOG2", 4)
        yield two_crews(tmp_path_factory.mktemp("office"))


@pytest.fixture
def home(first: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> OfficeHome:
    """The same, to be served and written to; hashes cost next to nothing."""
    monkeypatch.setattr(hashing, "COST_LOG2", 4)
    # The lawns have moved: each is known by its files alone.
    return OfficeHome(Path(shutil.copytree(first, tmp_path / "data", copy_function=shutil.copy2)))


def test_nobody_is_let_in_without_an_operator(home: OfficeHome) -> None:
    """By default nobody may sign in, there is no password to guess, and the page says what makes an
    operator; the owner's browser needs none."""
    (home.data / "operators.json").unlink()
    guest = home.client()
    page = guest.get("/sign-in")
    assert page.status_code == 200 and "turfplan clients operators add" in page.text
    assert 'type="password"' not in page.text
    for name in ("", "admin", "Ana"):
        assert sign_in(guest, (name, "")).status_code == 422
    for place in ("/", "/office", "/crew", "/mine/1", "/office/lawns/ash", "/password"):
        assert guest.get(place).headers["location"].startswith("/sign-in"), place
    assert home.owner().get("/office").status_code == 200


def test_a_session_is_fresh_held_to_the_host_and_ends(home: OfficeHome) -> None:
    """A secret that a browser brought along is not taken over; the cookie is for this host alone;
    it ends when its holder signs out, after a day of work, and nothing of it stands in the list."""
    client = home.client()
    client.cookies.set("turfplan-office", "x" * 43)
    answer = sign_in(client, OFFICE, next="/office/lawns/ash")
    assert answer.status_code == 303 and answer.headers["location"] == "/office/lawns/ash"
    cookie = answer.headers["set-cookie"].lower()
    assert "httponly" in cookie and "samesite=strict" in cookie and "path=/" in cookie
    assert "x" * 43 not in cookie and "domain" not in cookie
    secret = answer.cookies["turfplan-office"]
    again = sign_in(client, OFFICE).cookies["turfplan-office"]
    assert again != secret
    old = {"cookie": f"turfplan-office={secret}"}
    client.cookies.clear()
    assert client.get("/office", headers=old).status_code == 303, "the session before has ended"
    new = {"cookie": f"turfplan-office={again}"}
    assert client.get("/office", headers=new).status_code == 200
    out = client.post("/sign-out", headers=new)
    assert out.status_code == 303 and out.headers["clear-site-data"] == '"cache"'
    assert client.get("/office", headers=new).status_code == 303
    late = home.signed_in(OFFICE)
    assert late.get("/office").status_code == 200
    moment = home.now() + SESSION
    home.day, home.hour = moment.date(), moment.hour
    assert late.get("/office").status_code == 303


def test_under_tls_the_cookie_is_held_to_tls(home: OfficeHome) -> None:
    """By the prefix that browsers hold to this host and to TLS."""
    client = home.client("https://testserver", base_url="https://testserver")
    cookie = sign_in(client, OFFICE).headers["set-cookie"]
    assert cookie.startswith("__Host-turfplan-office=") and "Secure" in cookie
    assert "not encrypted" not in client.get("/sign-in").text
    assert "not encrypted" in home.client("http://testserver").get("/sign-in").text
    assert client.get("/office").status_code == 200


ELSEWHERE = (
    "https://evil.example/office",
    "//evil.example",
    "/office//evil.example",
    "/own/x",
    "/office\\x",
    "javascript:alert(1)",
    "/office?x=\r\nSet-Cookie: a=b",
    "/offic\u00e9",
)


@pytest.mark.parametrize("onward", ELSEWHERE)
def test_nobody_is_sent_on_elsewhere(home: OfficeHome, onward: str) -> None:
    """After signing in one goes to a page of this office, wherever a link says."""
    assert sign_in(home.client(), OFFICE, next=onward).headers["location"] == "/office"


def test_one_goes_where_one_wanted_to_go(home: OfficeHome) -> None:
    """To the very page, also of a lawn whose folder bears a blank or a letter beyond ASCII."""
    home.settings()
    for place in ("/office/lawns/b%20%C3%A9", f"/mine/{home.number('ash')}/season"):
        sent = home.client().get(place).headers["location"]
        page = home.client().get(sent).text
        (onward,) = re.findall(r'name="next" value="([^"]*)"', page)
        assert sign_in(home.client(), OFFICE, next=onward).headers["location"] == place


def test_a_crew_without_a_name_has_no_lawn(home: OfficeHome) -> None:
    """Whoever wrote it so into the file: that of nobody is not that of all."""
    path = home.data / "operators.json"
    path.write_text(path.read_text("utf-8").replace('"north"', '""'), encoding="utf-8")
    home.day = SOIL_TEST
    crew = home.signed_in(CREW)
    assert "No lawn is on" in crew.get("/crew").text
    for place in ("/crew/print/day", "/crew/print/week", "/crew/lawns/ash"):
        assert crew.get(place).status_code == 404, place


def test_a_wrong_name_and_a_wrong_password_are_answered_alike(
    home: OfficeHome, monkeypatch: pytest.MonkeyPatch
) -> None:
    """In the same words, after the same work; capitals of the name are not asked for."""
    reckoned: list[tuple[int, int, int]] = []
    key = hashing._key

    def counted(password: str, salt: bytes, *costs: int) -> bytes:
        reckoned.append(costs)  # type: ignore[arg-type]
        return key(password, salt, *costs)

    monkeypatch.setattr(hashing, "_key", counted)
    wrong = sign_in(home.client(), (OFFICE[0], "another one here"))
    unknown = sign_in(home.client(), ("Nobody", "another one here"))
    crew = sign_in(home.client(), (CREW[0], OFFICE[1]))
    assert [one.status_code for one in (wrong, unknown, crew)] == [422] * 3
    assert wrong.text.replace("Ana", "") == unknown.text.replace("Nobody", "")
    assert reckoned == [(4, 8, 1)] * 3
    assert sign_in(home.client(), ("aNa", OFFICE[1])).status_code == 303


def test_guessing_is_slowed_by_name_and_place_and_a_name_alone_never_locked(
    home: OfficeHome,
) -> None:
    """After some wrong ones the right one waits too; from elsewhere the holder comes in; after the
    window, or with the right one before, all is as it was."""
    client = home.client()
    for _ in range(MOST_OF_NAME - 1):
        assert sign_in(client, (OFFICE[0], "wrong")).status_code == 422
    assert sign_in(client, OFFICE).status_code == 303
    for _ in range(MOST_OF_NAME):
        assert sign_in(client, ("ana ", "wrong")).status_code == 422
    refused = sign_in(client, OFFICE)
    assert refused.status_code == 429 and int(refused.headers["retry-after"]) > 0
    assert "Try again in" in refused.text and "set-cookie" not in refused.headers
    assert sign_in(client, CREW).status_code == 303, "another name of the same place"
    moment = home.now() + WINDOW
    home.hour, home.day = moment.hour + 1, moment.date()
    assert sign_in(client, OFFICE).status_code == 303
    rate, now = SignInRate(), home.now()
    for _ in range(MOST_OF_NAME):
        assert rate.wait("ana", "192.0.2.1", now) is None
    assert rate.wait("ana", "192.0.2.1", now) is not None
    assert rate.wait("ana", "192.0.2.2", now) is None
    assert place_of("2001:db8::1") == place_of("2001:db8::ffff:2") != place_of("2001:db8:0:1::1")


def test_a_session_ends_with_the_password_the_operator_and_the_day(home: OfficeHome) -> None:
    """A new password at the machine, a withdrawal and the last day each end what is signed in."""
    ana, bo = home.signed_in(OFFICE), home.signed_in(CREW)
    set_password(home.data, "Ana", "another long password")
    assert ana.get("/office").status_code == 303
    assert sign_in(ana, OFFICE).status_code == 422
    assert sign_in(ana, ("Ana", "another long password")).status_code == 303
    withdraw_operator(home.data, "Ana")
    assert ana.get("/office").status_code == 303
    assert bo.get("/crew").status_code == 200
    home.day, home.hour = date(2027, 10, 31), 20
    assert sign_in(bo, CREW).status_code == 303 and bo.get("/crew").status_code == 200
    # Where the lawns lie the last day is not over at this hour of UTC.
    home.day, home.hour = date(2027, 11, 1), 2
    assert bo.get("/crew").status_code == 200
    home.hour = 6
    assert bo.get("/crew").status_code == 303
    assert sign_in(bo, CREW).status_code == 422


def test_one_changes_ones_own_password(home: OfficeHome) -> None:
    """With the one so far and twice the new one; other browsers are out, this one stays in."""
    here, there = home.signed_in(OFFICE), home.signed_in(OFFICE)
    new = "a kettle on the roof"
    for old, first, second, told in (
        ("wrong", new, new, "The password so far is another one."),
        (OFFICE[1], new, f"{new}!", "The two new passwords are not the same."),
        (OFFICE[1], "short", "short", "Is too short: 12 signs at least."),
    ):
        form = {"old": old, "new": first, "again": second}
        answer = here.post("/password", data=form)
        assert answer.status_code == 422 and told in answer.text
    form = {"old": OFFICE[1], "new": new, "again": new}
    before = dict(here.cookies)
    answer = here.post("/password", data=form)
    assert answer.headers["location"] == "/password?saved=1"
    assert dict(here.cookies) != before and here.get("/office").status_code == 200
    other = home.client()
    assert sign_in(other, OFFICE).status_code == 422
    assert sign_in(other, ("Ana", new)).status_code == 303
    assert there.get("/office").status_code == 303


# Every route of the server with a method that it takes; in braces what a request puts in.
ROUTES = [
    ("GET", "/"), ("GET", "/new"), ("GET", "/new/area"), ("POST", "/new/area"),
    ("GET", "/mine/{n}"), ("POST", "/mine/{n}"),
    *[("GET", f"/mine/{{n}}/{page}") for page in (
        "season", "did", "calendar", "season.ics", "print/day", "print/week", "day.pdf",
        "week.pdf", "made", "lawn", "brief.toml", "everything")],
    *[("POST", f"/mine/{{n}}/{page}") for page in ("season", "did", "calendar", "lawn")],
    ("GET", "/office"), ("GET", "/office?q=a"), ("GET", "/office?show=all"),
    ("GET", "/office/print/day"), ("GET", "/office/print/week"),
    ("GET", "/office/print/day?crew=south"), ("GET", "/office/clients.csv"),
    ("GET", "/office/lawns/{lawn}"), ("POST", "/office/lawns/{lawn}"),
    ("GET", "/office/lawns/{lawn}/letter"), ("GET", "/office/lawns/{lawn}/quotes/2027-0001"),
    *[("GET", f"/crew/lawns/{{lawn}}/{page}") for page in (
        "season", "calendar", "season.ics", "made", "lawn", "brief.toml", "everything")],
    ("POST", "/crew/callbacks/{lawn}/1"),
    ("GET", "/crew/print/month"), ("GET", "/crew/lawns/elm"), ("POST", "/crew/lawns/elm"),
    ("GET", "/crew/lawns/oak"), ("GET", "/crew/lawns/elm/print/day"),
]  # fmt: skip
WISHES = ("offer", "accept", "told", "address", "withdraw", "save_brief", "delete_lawn", "give")


def test_a_crew_opens_nothing_but_its_day(home: OfficeHome) -> None:
    """Every route with a crew's session, on a day with work of its lawn: refused or not there, and
    no mark of a client of others, no price, no list in any answer; nothing is written."""
    home.day = SOIL_TEST
    offer_quote(home.data, "ash", DAY)
    crew = home.signed_in(CREW)
    before = {p: p.read_bytes() for p in home.data.rglob("*.toml")}
    kept = (home.data / "lawns" / "ash" / "quotes.json").read_bytes()
    seen = {}
    for method, route in ROUTES:
        for lawn in ("ash", "elm"):
            place = route.format(n=home.number(lawn), lawn=lawn)
            if method == "GET":
                seen[place] = crew.get(place)
                continue
            for wish in (*WISHES, "done", "what_if"):
                form = {"do": wish, "sure": "yes", "job": "soil_test", "text": "[lawn]\n"}
                seen[f"{place} {wish}"] = crew.post(place, data=form)
    for place, answer in seen.items():
        if place.partition("?")[0] == "/":
            assert answer.status_code == 303 and answer.headers["location"] == "/crew"
            continue
        assert answer.status_code in (403, 404), (place, answer.status_code)
        for mark in (*SOUTH.values(), MARKS["note"], "USD", "(invented)</bdi>"):
            assert mark not in answer.text, (place, mark)
        elsewhere = not place.startswith("/crew/lawns/ash")
        assert not elsewhere or MARKS["access"] not in answer.text, place
    assert before == {p: p.read_bytes() for p in home.data.rglob("*.toml")}
    assert kept == (home.data / "lawns" / "ash" / "quotes.json").read_bytes()
    assert home.planned == [] and not list(home.data.rglob("brief.journal.jsonl"))


def test_a_crew_sees_the_lawns_of_its_day_with_ways_in_and_ticks_them(home: OfficeHome) -> None:
    """Before and after its days the lawn is not there; on them with street, telephone and way in of
    this crew alone, on page and sheets; a tick is written in its name, and the lawn stays for the
    day; no price and no office note anywhere."""
    crew = home.signed_in(CREW)
    assert "No lawn is on" in crew.get("/crew").text
    assert crew.get("/crew/lawns/ash").status_code == 404
    home.day = SOIL_TEST
    crew = home.signed_in(CREW)
    of_lawn = ("", "/did", "/print/day", "/print/week")
    places = ("", "/print/day", "/print/week", *(f"/lawns/ash{page}" for page in of_lawn))
    for place in places:
        answer = crew.get(f"/crew{place}")
        assert answer.status_code == 200, place
        told = answer.text.replace("\xa0", " ")
        found = {name for name, mark in MARKS.items() if mark in told}
        if "/print" in place and "lawns" in place:
            assert found == set(), place
        elif place.startswith("/lawns"):
            assert found == {"street", "access"}, place
        else:
            assert found == {"street", "telephone", "access"}, place
        assert not [mark for mark in (*SOUTH.values(), "USD", "Elm") if mark in told], place
    page = crew.get("/crew/lawns/ash").text
    tabs = re.findall(r'href="(/[^"]*)"', page.partition("</header>")[0].partition("<header>")[2])
    assert tabs == ["/crew", "/crew/lawns/ash", "/crew/lawns/ash/did"]
    ticked = crew.post("/crew/lawns/ash", data={"do": "done", "job": "soil_test"})
    assert ticked.status_code == 303 and ticked.headers["location"].startswith("/crew/lawns/ash?")
    told = crew.get(ticked.headers["location"])
    assert told.status_code == 200 and "Written by Bo." in told.text
    assert home.planned == [home.number("ash")]
    assert "it is written down" in crew.get("/crew").text
    undone = crew.post("/crew/lawns/ash", data={"do": "undo", "number": "1"})
    assert undone.status_code == 303
    home.day += timedelta(days=3)
    crew = home.signed_in(CREW)
    assert crew.get("/crew/lawns/ash").status_code == 404


def test_a_form_from_elsewhere_and_one_without_a_session_write_nothing(home: OfficeHome) -> None:
    """Other sites' forms are refused, those of nobody answered by 401: what waits on a device for a
    signal must not take a redirect for an answer."""
    home.day = SOIL_TEST
    office, crew, guest = home.signed_in(OFFICE), home.signed_in(CREW), home.client()
    site = {"origin": "https://evil.example", "sec-fetch-site": "cross-site"}
    for client, place in (
        (office, "/office/lawns/ash"),
        (office, f"/mine/{home.number('ash')}"),
        (office, "/password"),
        (office, "/sign-out"),
        (office, "/sign-in"),
        (crew, "/crew/lawns/ash"),
    ):
        answer = client.post(place, data={"do": "done", "job": "soil_test"}, headers=site)
        assert answer.status_code == 403, place
    assert office.get("/office").status_code == 200
    for place in ("/office/lawns/ash", "/mine/1", "/crew/lawns/ash", "/password"):
        answer = guest.post(place, data={"do": "done", "job": "soil_test"})
        assert answer.status_code == 401 and "www-authenticate" in answer.headers, place
    assert guest.get("/sign-out").status_code == 405


def test_the_office_does_what_an_owner_does_but_for_the_owner_itself(home: OfficeHome) -> None:
    """All pages of a lawn, with its client's name and a way back; no browser of the owner's is
    shown or taken, and a lawn with its quotes is not deleted on the page."""
    office, lawn = home.signed_in(OFFICE), f"/mine/{home.number('ash')}"
    owner = home.owner()
    for page in ("", "/season", "/did", "/calendar", "/lawn", "/brief.toml", "/print/week"):
        assert office.get(f"{lawn}{page}").status_code == 200, page
    shown = office.get(f"{lawn}/calendar").text
    assert "/office/lawns/ash" in shown and "Ash (invented)" in shown
    assert (
        "withdraw_browser" not in shown and "withdraw_browser" in owner.get(f"{lawn}/calendar").text
    )
    taken = office.post(f"{lawn}/calendar", data={"do": "withdraw_browser", "number": "2"})
    gone = office.post(f"{lawn}/lawn", data={"do": "delete_lawn", "sure": "yes"})
    assert (taken.status_code, gone.status_code) == (403, 403)
    assert owner.get("/office").status_code == 200 and (home.data / "lawns" / "ash").is_dir()
    assert office.get("/new/area").status_code == 403
    home.day = SOIL_TEST
    office = home.signed_in(OFFICE)
    assert office.post(lawn, data={"do": "done", "job": "soil_test"}).status_code == 303
    assert "Written by Ana." in office.get(f"{lawn}/did").text


def test_the_list_opens_with_what_needs_a_decision(home: OfficeHome) -> None:
    """The most urgent first, each kind by itself; found by client, street, town and columns; plans
    are not read for it while they lie as they lay."""
    offer_quote(home.data, "elm", DAY)
    home.day = SOIL_TEST - timedelta(days=5)
    office = home.signed_in(OFFICE)
    page = office.get("/office").text
    assert "Quote 2027-0001 is unanswered and holds until Wed, Mar 3" in page
    assert page.count("/office/lawns/elm") == 1 and "/office/lawns/ash" not in page
    home.day = SOIL_TEST + timedelta(days=3)
    office = home.signed_in(OFFICE)
    page = office.get("/office").text
    assert page.index("/office/lawns/ash") < page.index("/office/lawns/elm")
    assert "was to be done by Mon, Mar 1. Was it?" in page
    assert "ran out on Wed, Mar 3 without an answer" in page
    assert "/office/lawns/ash" not in office.get("/office?show=quote").text
    home.day = SOIL_TEST
    office = home.signed_in(OFFICE)
    today = office.get("/office?show=today").text
    assert re.findall(r'href="/office/lawns/(\w+)"', today) == ["ash"], "nobody bought the other"
    for asked, found in (
        ("hidden row", "elm"), ("ELM", "elm"), ("lancaster", "ash elm"), ("SOUTH", "elm"),
        ("sold house", "elm"), ("0777", "ash"), ("ash hidden", ""), ("%00<script>", ""),
    ):  # fmt: skip
        text = office.get("/office", params={"q": asked}).text
        shown = re.findall(r'href="/office/lawns/(\w+)"', text)
        assert shown == found.split(), asked
        assert "<script>" not in text.partition("</head>")[2]


def test_a_list_of_many_is_paged_and_reads_no_plan(
    home: OfficeHome, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Fifty on a page; pages that there are not are the last and the first."""
    import sqlite3

    import turfplan.app.office_list as listing

    copies = [f"copy{n:03d}" for n in range(119)]
    with sqlite3.connect(home.data / "clients.index") as index:
        for name in copies:
            shutil.copytree(home.data / "lawns" / "ash", home.data / "lawns" / name)
            (home.data / "lawns" / name / "plan.json").unlink()
            stamp = "SELECT ?, row, stamp, said FROM lawn WHERE name = 'ash'"
            index.execute(f"INSERT INTO lawn {stamp}", (name,))
    # The lawns were copied: what the index says of each holds as it stands.
    monkeypatch.setattr(listing.KnownLawn, "still_holds", lambda known, folder: True)
    monkeypatch.setattr(listing, "read_plan", lambda folder: 1 / 0)
    office = home.signed_in(OFFICE)
    counts = []
    for page in ("1", "2", "3", "99", "0", "-1", "x"):
        text = office.get("/office", params={"show": "all", "page": page}).text
        counts.append(len(re.findall(r'href="/office/lawns/', text)))
    assert counts == [50, 50, 21, 21, 50, 50, 50]
    assert "Page 2 of 3" in office.get("/office?show=all&page=2").text


def test_a_client_has_record_quotes_letter_message_and_address(home: OfficeHome) -> None:
    """All of it on one page, each by a form, and the record as it stands; what was done is said."""
    office, place = home.signed_in(OFFICE), "/office/lawns/ash"
    page = office.get(place).text.replace("\xa0", " ")
    assert [name for name, mark in MARKS.items() if mark not in page] == []
    offered = office.post(place, data={"do": "offer"})
    assert "Quote 2027-0001 is made" in office.get(offered.headers["location"]).text
    quote = office.get(f"{place}/quotes/2027-0001")
    assert quote.status_code == 200 and "USD" in quote.text
    assert MARKS["note"] not in quote.text and MARKS["access"] not in quote.text
    assert office.get(f"{place}/quotes/2027-9999").status_code == 404
    for form in ({"choice": "7"}, {"choice": "x"}, {"number": "2027-8888", "choice": "1"}):
        wrong = {"do": "accept", "number": "2027-0001", **form}
        assert office.post(place, data=wrong).status_code == 422
    taken = office.post(place, data={"do": "accept", "number": "2027-0001", "choice": "1"})
    assert "is accepted" in office.get(taken.headers["location"]).text
    assert office.post(place, data={"do": "decline", "number": "2027-0001"}).status_code == 422
    assert office.post(place, data={"do": "qqq"}).status_code == 422
    (message,) = re.findall(r'name="text" value="([^"]*)"', office.get(place).text)
    other = office.post(place, data={"do": "told", "text": "Come when you like."})
    assert other.status_code == 422 and "nobody counts as told" in other.text
    assert office.post(place, data={"do": "told", "text": message}).status_code == 303
    assert 'name="text"' not in office.get(place).text


def test_a_client_reads_by_an_address_until_it_is_ended(home: OfficeHome) -> None:
    """It opens the lawn to be read, stands on page and letter, ends after a tick, and the next one
    is another."""
    office, place, guest = home.signed_in(OFFICE), "/office/lawns/ash", home.client()

    def address() -> list[str]:
        return re.findall(r'href="http://testserver(/lawn/[\w-]+)"', office.get(place).text)

    assert address() == [] and not (home.data / "business.key").exists()
    office.post(place, data={"do": "address"})
    (given,) = address()
    page = guest.get(given)
    assert page.status_code == 200 and not [m for m in MARKS.values() if m in page.text]
    assert guest.post(given, data={"do": "done", "job": "soil_test"}).status_code == 403
    assert given in office.get(f"{place}/letter").text
    assert office.post(place, data={"do": "withdraw"}).status_code == 422
    office.post(place, data={"do": "withdraw", "sure": "yes"})
    assert guest.get(given).status_code == 410 and address() == []
    office.post(place, data={"do": "address"})
    assert address() not in ([], [given])


def test_what_cannot_be_read_is_told_and_hides_no_other_lawn(home: OfficeHome) -> None:
    """A damaged client, a plan that is gone, a lawn that could not be planned: each is the first to
    be decided; damaged lists of operators let nobody in and say so; there is no way out of the
    folder of lawns."""
    lawns = home.data / "lawns"
    (lawns / "ash" / "client.toml").write_text("name = \n", encoding="utf-8")
    (lawns / "elm" / "plan.json").unlink()
    office = home.signed_in(OFFICE)
    page = office.get("/office")
    assert page.status_code == 200 and page.text.count("<strong>Not planned") == 2
    assert str(home.data) not in page.text
    assert office.get("/office/lawns/elm").status_code == 200
    assert office.get("/office/lawns/ash").status_code == 200
    for name in ("..%2f..", "..%2fash", ".ash", "x%00", "oak"):
        assert office.get(f"/office/lawns/{name}").status_code == 404, name
    (home.data / "business.toml").write_text("name = \n", encoding="utf-8")
    told = office.get("/office")
    assert told.status_code == 503 and "business.toml" in told.text
    for place in ("/office/lawns/elm", "/office/print/day", "/office/clients.csv"):
        assert office.get(place).status_code in (404, 503), place
    assert office.get(f"/mine/{home.number('ash')}").status_code == 200
    assert home.client().get("/sign-in").status_code == 200


def test_a_faulty_list_of_operators_lets_nobody_in(home: OfficeHome) -> None:
    """Whoever was signed in is out, and the page says what to do."""
    office = home.signed_in(OFFICE)
    (home.data / "operators.json").write_text("{", encoding="utf-8")
    assert office.get("/office").status_code == 303
    told = office.get("/sign-in")
    assert told.status_code == 503 and "operators.json" in told.text
    assert sign_in(office, OFFICE).status_code == 503


def test_without_a_business_there_is_no_office(home: OfficeHome) -> None:
    """A household's server has none of these routes."""
    client: Any = home.client(office=None)
    for place in ("/office", "/crew", "/sign-in", "/password", "/office/lawns/ash"):
        assert client.get(place).status_code == 404, place
    assert client.get("/").status_code == 403
    assert read_plan(home.data / "lawns" / "ash") is not None
