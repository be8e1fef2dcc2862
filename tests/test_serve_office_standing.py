"""The office page beside what the commands say of clients: paused, left, sold, called back; and
jobs in the hours of the business."""

import re
import shutil
from collections.abc import Iterator
from datetime import date, timedelta
from pathlib import Path

import pytest

pytest.importorskip("starlette", reason="the extra web is not installed")
pytest.importorskip("uvicorn", reason="the extra web is not installed")

from office_business import CREW, DAY, OFFICE, OfficeHome, two_crews  # after the skips
from turfplan.app import client_callbacks as callbacks
from turfplan.app import client_ends as ends
from turfplan.app import client_pauses as pauses
from turfplan.app import password_hash as hashing
from turfplan.app.client_lists import AskedList, list_jobs, told_hours
from turfplan.app.client_quotes import accept_quote, offer_quote
from turfplan.app.client_sheets import crew_sheet
from turfplan.app.office_list import OfficeShelf
from turfplan.files.lawn_standing import read_callbacks
from turfplan.messages import words_for
from turfplan.units import System

SOIL_TEST = date(2027, 3, 1)
DAY_S = timedelta(days=1)
WORDS = "bare spot at the gate (invented)"


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
    return OfficeHome(Path(shutil.copytree(first, tmp_path / "data", copy_function=shutil.copy2)))


def rows(page: str) -> dict[str, str]:
    """What the list says of each lawn, by its folder's name."""
    parts = re.split(r'href="/office/lawns/(\w+)"', page)[1:]
    return dict(zip(parts[::2], parts[1::2], strict=True))


def test_a_paused_lawn_rests_for_office_and_crew(home: OfficeHome) -> None:
    """No job and nothing to decide but what was offered, until when it is told; the crew's page of
    it is shut, whatever was written there that day; all of it the day after, and of what lies
    within a pause to come nothing is urgent."""
    home.day = SOIL_TEST
    office, crew, place = home.signed_in(OFFICE), home.signed_in(CREW), "/crew/lawns/ash"
    assert set(rows(office.get("/office?show=today").text)) == {"ash", "elm"}
    (text,) = set(re.findall(r'name="text" value="([^"]*)"', office.get("/office/lawns/ash").text))
    assert crew.post(place, data={"do": "done", "job": "soil_test"}).status_code == 303
    assert crew.post(place, data={"do": "undo", "number": "1"}).status_code == 303
    ash = home.data / "lawns" / "ash"
    asked = pauses.AskedPause(SOIL_TEST, SOIL_TEST + 3 * DAY_S)
    pauses.pause_clients(home.data, (ash,), asked, SOIL_TEST)
    for day in (SOIL_TEST, SOIL_TEST + 3 * DAY_S):
        home.day = day
        office, crew = home.signed_in(OFFICE), home.signed_in(CREW)
        assert "ash" not in rows(office.get("/office?show=today").text)
        assert "ash" not in rows(office.get("/office").text)
        assert "Paused until Thu, Mar 4" in rows(office.get("/office?show=all").text)["ash"]
        page = office.get("/office/lawns/ash").text
        assert "Paused until Thu, Mar 4" in page and 'name="text"' not in page
        told = office.post("/office/lawns/ash", data={"do": "told", "text": text})
        assert told.status_code == 422
        assert "No lawn is on" in crew.get("/crew").text
        assert crew.get(place).status_code == 404
        assert crew.post(place, data={"do": "done", "job": "soil_test"}).status_code == 404
    offer_quote(home.data, "ash", home.day)
    lawn = OfficeShelf(home.data).lawn("ash")
    assert lawn is not None and lawn.pause(home.day) is not None and len(lawn.quotes) == 1
    accept_quote(home.data, "ash", home.day)
    home.day += DAY_S
    office = home.signed_in(OFFICE)
    page = office.get("/office").text
    assert "was to be done by Mon, Mar 1. Was it?" in rows(page)["ash"] and "Paused" not in page


def test_hours_of_the_week_stand_on_the_office_page(home: OfficeHome) -> None:
    """Those of the list of the week, day by day; a day over its hours is named; what nobody bought
    counts in none of them."""
    shelf = OfficeShelf(home.data)
    (ash,) = (lawn for lawn in shelf.lawns() if lawn.id == "ash")
    assert ash.glance is not None
    home.day = next(job.start for job in ash.glance.jobs if job.main and job.seen)
    listed = list_jobs(home.data, AskedList("week", home.day))
    page = home.signed_in(OFFICE).get("/office").text
    worked = [day for day in listed.hours if day.needed]
    assert {day.is_over for day in worked} == {True, False}
    words = words_for("en", System.US, country="US")
    for day in worked:
        assert words.text(told_hours(day)) in page
    assert page.count("too many</strong>") == sum(day.is_over for day in worked)
    sheet = crew_sheet(home.data, AskedList("week", home.day), None)[0]
    assert "<strong>13.2</strong>" in sheet, "named on paper, too"
    for lawn in ("ash", "elm"):
        offer_quote(home.data, lawn, home.day)
    assert "hours of work" not in home.signed_in(OFFICE).get("/office").text


def test_an_open_pause_has_no_day_and_shelf_and_list_agree(home: OfficeHome) -> None:
    """On each day of a month the office's jobs are those of the list of the day, paused, called
    back and in the hours of the business; a new rate is seen at once."""
    pauses.pause_clients(
        home.data, (home.data / "lawns" / "elm",), pauses.AskedPause(SOIL_TEST - 9 * DAY_S), DAY
    )
    asked = callbacks.AskedCallback(WORDS, SOIL_TEST + 2 * DAY_S, 0.5)
    callbacks.add_callback(home.data, "ash", asked, DAY)
    shelf, seen = OfficeShelf(home.data), set[str]()
    plain = {
        job.task: job.hours for lawn in shelf.lawns() if lawn.glance for job in lawn.glance.jobs
    }
    business = home.data / "business.toml"
    text = business.read_text("utf-8")
    assert "[hours]" not in text
    business.write_text(f"{text}\n[hours]\nsoil_test = 2.0\n", encoding="utf-8")
    for n in range(-20, 11):
        day = SOIL_TEST + n * DAY_S
        listed = {one.id: one.jobs for one in list_jobs(home.data, AskedList("day", day)).lawns}
        assert {lawn.id: lawn.jobs_of(day) for lawn in shelf.lawns() if lawn.jobs_of(day)} == listed
        seen |= {f"{name} {job.task} {job.hours}" for name, jobs in listed.items() for job in jobs}
    assert f"ash soil_test {2 * plain['soil_test']}" in seen and "ash callback.1 0.5" in seen
    assert not [one for one in seen if one.startswith("elm soil_test")]
    home.day = SOIL_TEST
    row = rows(home.signed_in(OFFICE).get("/office?show=all").text)["elm"]
    assert "Paused." in row and "until" not in row


def test_who_left_is_gone_and_who_bought_is_known_at_once(home: OfficeHome) -> None:
    """In the same process that knew them before: no row, no page, no day of the crew; the new
    owner's name stands, and the quote of the one before does not."""
    offer_quote(home.data, "elm", DAY)
    home.day = SOIL_TEST
    office, crew = home.signed_in(OFFICE), home.signed_in(CREW)
    assert "2027-0001" in office.get("/office/lawns/elm").text and "Ash" in crew.get("/crew").text
    ends.leave(home.data, "ash", SOIL_TEST, None)
    ends.sell(home.data, "elm", SOIL_TEST, ends.NewOwner("Mx New (invented)", {}), None)
    assert set(rows(office.get("/office?show=all").text)) == {"elm"}
    assert office.get("/office/lawns/ash").status_code == 404
    assert crew.get("/crew/lawns/ash").status_code == 404
    assert "No lawn is on" in crew.get("/crew").text
    page = office.get("/office/lawns/elm").text
    assert "Mx New" in page and "2027-0001" not in page and "Elm (invented)" not in page


def test_a_callback_stands_on_its_day_and_is_ticked_by_its_crew(home: OfficeHome) -> None:
    """On a day without other work, with its hours; ticked by the crew whose lawn it is, on its day,
    from here; twice is once. A day late the office is asked."""
    day = DAY + DAY_S
    for lawn in ("ash", "elm"):
        callbacks.add_callback(home.data, lawn, callbacks.AskedCallback(WORDS, day, 0.5), DAY)
    office, crew, tick = home.signed_in(OFFICE), home.signed_in(CREW), "/crew/callbacks/ash/1"
    assert crew.post(tick).status_code == 404, "a day too early"
    assert WORDS in (page := office.get("/office/lawns/ash").text) and "It was done" not in page
    early = office.post("/office/lawns/ash", data={"do": "callback", "number": "1"})
    assert early.status_code == 422 and "is on a day to come" in early.text
    home.day = day
    office, crew = home.signed_in(OFFICE), home.signed_in(CREW)
    assert WORDS in rows(office.get("/office?show=today").text)["ash"]
    page = crew.get("/crew").text
    assert WORDS in page and "0.5" in page and f'action="{tick}"' in page
    assert crew.get("/crew/lawns/ash").status_code == 200
    site = {"origin": "https://evil.example", "sec-fetch-site": "cross-site"}
    assert crew.post(tick, headers=site).status_code == 403
    assert home.client().post(tick).status_code == 401
    assert office.post(tick).status_code == 303 and crew.get(tick).status_code in (404, 405)
    for other in ("/crew/callbacks/elm/1", "/crew/callbacks/oak/1", "/crew/callbacks/ash/2"):
        assert crew.post(other).status_code == 404, other
    assert all(read_callbacks(home.data / "lawns" / name)[0].is_open for name in ("ash", "elm"))
    for _ in range(2):
        done = crew.post(tick)
        assert (
            done.status_code == 303 and "is written down" in crew.get(done.headers["location"]).text
        )
    (one,) = read_callbacks(home.data / "lawns" / "ash")
    assert one.done_on == day and "ash" not in rows(office.get("/office?show=today").text)
    home.day = day + DAY_S
    office = home.signed_in(OFFICE)
    assert f"{WORDS} was to be done by" in rows(office.get("/office?show=overdue").text)["elm"]
    form, place = {"do": "callback", "number": "1"}, "/office/lawns/elm"
    assert "It was done" in office.get(place).text
    for _ in range(2):
        done = office.post(place, data=form)
        assert "is written down" in office.get(done.headers["location"]).text
    assert office.post(place, data=form | {"number": "7"}).status_code == 422
    assert office.post(place, data=form | {"number": "x"}).status_code == 422
    assert "callback" not in office.get(place).text.casefold()


def test_what_cannot_be_read_of_a_standing_is_told(home: OfficeHome) -> None:
    """A damaged record of pauses or callbacks is the first to be decided, and hides no other."""
    lawns = home.data / "lawns"
    (lawns / "ash" / "pauses.json").write_text("{", encoding="utf-8")
    (lawns / "elm" / "callbacks.json").write_text("[]", encoding="utf-8")
    page = home.signed_in(OFFICE).get("/office").text
    for lawn, name in (("ash", "pauses.json"), ("elm", "callbacks.json")):
        row = rows(page)[lawn]
        assert "<strong>Not planned" in row and name in row.casefold(), row
    assert str(home.data) not in page
