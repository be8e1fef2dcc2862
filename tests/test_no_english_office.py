"""In the pseudo-language, no page of the office and of a crew holds an English word."""

import re
from datetime import date, timedelta
from pathlib import Path
from typing import Any

import pytest

pytest.importorskip("starlette", reason="the extra web is not installed")

from english_words import AS_THEY_ARE, english_in, own_words, shown_on_page
from office_business import CREW, DAY, HEADS, MARKS, OFFICE, SOUTH, OfficeHome, sign_in, two_crews
from pseudo_language import LANGUAGE, MARKED, install
from tiers import full
from turfplan.app import password_hash as hashing
from turfplan.app.client_callbacks import AskedCallback, add_callback
from turfplan.app.client_pauses import AskedPause, pause_clients
from turfplan.app.client_quotes import offer_quote
from turfplan.files.reading.plan import read_plan
from turfplan.messages import catalog

SOIL_TEST = date(2027, 3, 1)


@full
def test_no_page_of_the_office_is_english(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Every page in every state, the forms with their faults, and who is turned away."""
    (catalogs := tmp_path / "catalogs").mkdir()
    install(catalogs)
    monkeypatch.setenv(catalog.MORE, str(catalogs))
    monkeypatch.setenv("TURFPLAN_LANGUAGE", LANGUAGE)
    monkeypatch.setattr(hashing, "COST_LOG2", 4)
    home = OfficeHome(two_crews(tmp_path))
    for lawn in ("ash", "elm"):
        offer_quote(home.data, lawn, DAY)
        add_callback(home.data, lawn, AskedCallback("qqq", SOIL_TEST), DAY)
    answers: list[tuple[int, Any]] = []

    def keep(code: int, answer: Any) -> None:
        assert answer.status_code == code, (answer.url, answer.status_code)
        answers.append((code, answer))

    guest, ash = home.client(), "/office/lawns/ash"
    keep(200, guest.get("/sign-in"))
    keep(422, sign_in(guest, ("qqq", "qqq")))
    for _ in range(5):
        refused = sign_in(guest, ("qqq", "qqq"))
    keep(429, refused)
    keep(401, guest.post(ash))
    for day in (DAY, SOIL_TEST, SOIL_TEST + timedelta(days=30)):
        home.day = day
        office, crew = home.signed_in(OFFICE), home.signed_in(CREW)
        for place in (
            "",
            "?show=all",
            "?show=today",
            "?q=ash",
            "?q=qqq",
            "/lawns/ash",
            "/lawns/elm",
        ):
            keep(200, office.get(f"/office{place}"))
        keep(200, crew.get("/crew"))
        keep(200 if day == SOIL_TEST else 404, crew.get("/crew/lawns/ash"))
    keep(403, crew.get("/office"))
    keep(404, office.get("/office/lawns/qqq"))
    keep(404, office.get(f"{ash}/quotes/qqq"))
    keep(200, office.get("/mine/1/calendar"))
    for page in ("/password", "/password?saved=1", f"{ash}?told=1&offered=7&accepted=7&declined=7"):
        keep(200, office.get(page))
    for new, again in (("qqq", "qqq"), ("q" * 200, "q" * 200), ("q" * 20, "q" * 20), ("a", "b")):
        form = {"old": OFFICE[1], "new": new, "again": again}
        keep(422, office.post("/password", data=form))
    keep(422, office.post("/password", data={"old": "qqq"}))
    keep(422, office.post(ash, data={"do": "qqq"}))
    keep(422, office.post(ash, data={"do": "told", "text": "qqq"}))
    keep(422, office.post(ash, data={"do": "withdraw"}))
    keep(422, office.post(ash, data={"do": "accept", "number": "2027-0001", "choice": "9"}))
    keep(422, office.post(ash, data={"do": "callback", "number": "9"}))
    keep(200, office.get(f"{ash}?ticked=1"))
    keep(200, crew.get("/crew?ticked=1"))
    end = home.day + timedelta(days=3)
    for lawn, until in (("ash", None), ("elm", end)):
        asked = AskedPause(home.day, until)
        pause_clients(home.data, (home.data / "lawns" / lawn,), asked, home.day)
        keep(200, office.get(f"/office/lawns/{lawn}"))
    keep(200, office.get("/office?show=all"))
    office.post(ash, data={"do": "address"})
    keep(200, office.get(ash))
    (home.data / "lawns" / "elm" / "plan.json").unlink()
    keep(200, office.get("/office"))
    (home.data / "business.toml").write_text("x", encoding="utf-8")
    keep(503, office.get("/office"))
    (home.data / "operators.json").write_text("{", encoding="utf-8")
    keep(503, guest.get("/sign-in"))
    plan = read_plan(home.data / "lawns" / "ash")
    assert plan is not None
    given = [*MARKS.values(), *SOUTH.values(), HEADS, "Turf and Tine invented Ash Elm ash elm"]
    given += ["north south crew Lancaster USD sales tax accepted", str(home.data), "business.toml"]
    given += ["operators.json", home.data.name, "client.toml", "plan.json", "http testserver lawn"]
    typed = {word for text in given for word in re.findall(r"[^\W\d_]+", text)}
    allowed = own_words(plan) | AS_THEY_ARE | typed | {"Ana", "Bo", "qqq"}
    left = {
        (code, word, str(answer.url))
        for code, answer in answers
        for text in shown_on_page(re.sub(r'href="[^"]*">http[^<]*', ">", answer.text))
        for word in english_in(text, allowed)
    }
    assert left == set()
    assert all(any(letter in MARKED for letter in answer.text) for _, answer in answers)
