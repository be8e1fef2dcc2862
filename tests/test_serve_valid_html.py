"""Every screen of the served page in every state is valid HTML: all of them in one run of the
validator.
"""

import json
import re
import shutil
import subprocess
from collections.abc import Callable, Iterator
from datetime import date
from pathlib import Path

import pytest

pytest.importorskip("starlette", reason="the extra web is not installed")
pytest.importorskip("uvicorn", reason="the extra web is not installed")
from starlette.testclient import TestClient

from office_business import CREW, OFFICE, OfficeHome, sign_in, two_crews  # after the skips
from planned_house import LAWNS, planned_house
from served import ServedHome
from test_serve_pages import SOIL_TEST, SPREADING, STATES
from tiers import full
from turfplan.app import password_hash
from turfplan.app.brief_questions import SCREENS
from turfplan.app.client_callbacks import AskedCallback, add_callback
from turfplan.app.client_pauses import AskedPause, pause_clients
from turfplan.app.client_quotes import offer_quote
from turfplan.app.publish_feed import publish_feed
from turfplan.files.index import add_lawn
from turfplan.files.index import opened as opened_index
from turfplan.serve import house_tokens

# Boxes to tick of one name are how a form sends several values.
SHARED = ("radio", "submit", "button", "reset", "checkbox")
RULES = {
    "extends": ["html-validate:recommended"],
    "rules": {"form-dup-name": ["error", {"shared": SHARED}]},
}
Screens = Iterator[tuple[str, str]]


@full
def test_the_validator_finds_nothing_on_any_screen(tmp_path: Path) -> None:
    """html-validate's recommended rules hold on every page that the browser tests open: of the
    lawn, of its owner, of a new lawn, of a house, of an office and its crews, what is asked back
    and refused, and what is published; and
    no page needs what the policy of its answer forbids.
    """
    tool = shutil.which("html-validate")
    if tool is None:
        pytest.skip("html-validate is not installed")
    pages = tmp_path / "pages"
    pages.mkdir()
    written: dict[str, str] = {}
    makers: tuple[Callable[[Path], Screens], ...] = (
        _states,
        _asked_back,
        _owners,
        _new,
        _published,
        _house,
        _office,
    )
    for make in makers:
        for name, html in make(tmp_path):
            assert html.lower().startswith("<!doctype html>"), name
            assert name not in written, name
            written[name] = html
            (pages / f"{re.sub('[^a-z0-9]+', '-', name.lower())}.html").write_text(html, "utf-8")
            inline = r"<style|<[^>]* (style|on\w+)=|<script(?![^>]* src=)"
            # Sheets and what is published carry style and script, let through by their digest.
            carries = name.startswith("published") or "/print/" in name or " sheet " in name
            assert carries or not re.search(inline, html), name
    assert len(written) > len(STATES) + len(SCREENS) + 10
    (tmp_path / "validator.json").write_text(json.dumps(RULES))
    found = [tool, "--config", str(tmp_path / "validator.json")]
    found += sorted(map(str, pages.iterdir()))
    checked = subprocess.run(found, capture_output=True, text=True)
    assert checked.returncode == 0, checked.stdout[-4000:]


def _states(tmp_path: Path) -> Screens:
    """The pages of a lawn in each of their states."""
    for number, (name, (make, status, _)) in enumerate(STATES.items()):
        home = _home(tmp_path, f"state{number}")
        home.lawn()
        answer = home.client().get(make(home))
        assert answer.status_code == status, name
        yield name, answer.text


def _asked_back(tmp_path: Path) -> Screens:
    """What looks like a slip, what cannot be, a choice that is missing, and what was written."""
    home = _home(tmp_path, "asked")
    home.day = SPREADING
    page, client = (
        f"/lawn/{home.token('edit', 'Ana')}",
        home.client("http://testserver", replan=None),
    )
    other = {"do": "other", "job": "topdress.1", "how": "done"}
    befell = {"do": "befell", "on": "2027-04-01"}
    forms = {
        "slip": other | {"on": SPREADING.isoformat(), "amount": "375 yd3"},
        "slip of a year": other | {"on": "2026-04-11"},
        "no day": other | {"on": "soon"},
        "missed": {**other, "how": "missed", "missed": "2030-01-01"},
        "move": {**other, "how": "move", "to": ""},
        "no job": {"do": "done"},
        "ban": befell | {"what": "water_ban", "days": "some"},
        "measured": befell | {"what": "rain", "value": "5 parsecs"},
        "to come": befell | {"what": "burned", "so": "yes", "on": "2028-04-01"},
    }
    for name, form in forms.items():
        answer = client.post(page, data=form)
        assert answer.status_code == 422, name
        yield f"asked back {name}", answer.text
    for kind in ("rain", "no_time"):
        done = client.post(page, data={"do": "put_off", "job": "topdress.1", "reason": kind})
        yield f"put off {kind}", client.get(done.headers["location"]).text
    yield "did with entries", client.get(f"{page}/did").text


def _owners(tmp_path: Path) -> Screens:
    """All that only the owner opens."""
    home = _home(tmp_path, "owner")
    home.lawn()
    owner = _owner(home)
    for page in ("", "/made", "/lawn", "/calendar", "/season", "/did", "/print/day", "/print/week"):
        yield f"owner{page}", owner.get(f"/mine/1{page}").text
    given = {"do": "give", "kind": "edit", "label": "Ana", "ends": "2027-12-31"}
    yield "an address is given", owner.post("/mine/1/calendar", data=given).text
    wrong = {"do": "save_brief", "text": "[lawn]\narea = 1\nx = 2"}
    yield "a brief that is none", owner.post("/mine/1/lawn", data=wrong).text
    yield "not deleted", owner.post("/mine/1/lawn", data={"do": "delete_lawn"}).text
    if_people = {"do": "what_if", "people": "3"}
    yield "what if", owner.post("/mine/1/season", data=if_people).text
    yield "what if, wrong", owner.post("/mine/1/season", data={**if_people, "people": "-3"}).text


def _new(tmp_path: Path) -> Screens:
    """The questions of a new lawn: asked, asked again, and all together."""
    home = _home(tmp_path, "new")
    with opened_index(home.index):
        pass
    owner = _owner(home)
    yield "no lawn yet", owner.get("/").text
    yield "a brief that is there", owner.get("/new/brief").text
    yield "a brief that cannot be read", owner.post("/new/brief", data={"text": "x"}).text
    unread = {"everywhere": "hollows", "share": "", "away": "x", "people": "x", "killer": "x"}
    for name in (*SCREENS, "name"):
        yield f"question {name}", owner.get(f"/new/{name}").text
        again = owner.post(f"/new/{name}", data={"answer": "??x", "jar": "yes", **unread})
        if again.status_code == 422:
            yield f"question {name} again", again.text
    answers = {
        "place": "17601",
        "area": "60 x 70 ft",
        "grass": "unknown",
        "soil": "unknown",
        "depth": "1 in",
        "water": "system",
        "sprayed": "leaves",
        "intent": "overseed",
        "weekdays": "sat",
        "name": "Behind the shed",
    }
    for name, answer in answers.items():
        assert owner.post(f"/new/{name}", data={"answer": answer}).status_code == 303, name
    yield "check", owner.get("/new/check").text
    home.refusals = ("no day is left",)
    yield "cannot be planned", owner.post("/new/check").text


def _published(tmp_path: Path) -> Screens:
    """What lies at a static host, and what is left of it."""
    home = _home(tmp_path, "published")
    publish_feed(home.lawn().folder, tmp_path / "web")
    for number, path in enumerate(sorted((tmp_path / "web").glob("*.html"))):
        yield f"published {number}", path.read_text("utf-8")


def _house(tmp_path: Path) -> Screens:
    """The day of a house, its lawns by an address of the house, and its addresses."""
    home = ServedHome(planned_house(tmp_path), SOIL_TEST)
    with opened_index(home.index) as connection:
        for name in LAWNS:
            folder = home.root / "lawns" / name
            add_lawn(connection, folder, folder / "brief.toml")
        tokens = {
            kind: house_tokens.issue(connection, home.root, kind, "Ana")
            for kind in ("read", "edit")  # type: ignore[arg-type]
        }
    client, owner = home.client(), _owner(home)
    for kind, token in tokens.items():
        for place in ("", "/1", "/1/did", "/1/season", "/2", "/2/print/week"):
            yield f"house {kind}{place}", client.get(f"/house/{token}{place}").text
        yield f"house {kind} none", client.get(f"/house/{token}/9").text
    edit = f"/house/{tokens['edit']}"
    ticked = client.post(f"{edit}/1", data={"do": "done", "job": "soil_test"})
    yield "house ticked", client.get(ticked.headers["location"]).text
    missing = {"do": "put_off", "job": "soil_test"}
    yield "house asked back", client.post(f"{edit}/2", data=missing).text
    for place in ("/", "/house", "/mine/1", "/mine/2/season"):
        yield f"house owner {place}", owner.get(place).text
    for kind in ("feed", "feed-work", "edit"):
        given = {"do": "give", "kind": kind, "label": "Ana"}
        yield f"house gives {kind}", owner.post("/house", data=given).text
    yield "house gives nothing", owner.post("/house", data={"do": "give", "kind": "x"}).text
    yield "house held", owner.get("/house").text
    owner.post("/house", data={"do": "withdraw", "number": "1"})
    yield "house withdrawn", client.get(f"/house/{tokens['read']}").text
    yield "house unknown", client.get("/house/" + "x" * 43).text
    (home.root / "lawns" / "front" / "plan.json").write_text("{", encoding="utf-8")
    yield "house unread", client.get(edit).text


def _office(tmp_path: Path) -> Screens:
    """What the office of a business opens and its crews, and what is refused there."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(password_hash, "COST_LOG2", 4)
        where = tmp_path / "office"
        where.mkdir()
        home = OfficeHome(two_crews(where), SOIL_TEST)
        offer_quote(home.data, "ash", date(2027, 2, 7))
        add_callback(home.data, "ash", AskedCallback("bare spot", SOIL_TEST, 0.5), SOIL_TEST)
        pause_clients(home.data, (home.data / "lawns" / "elm",), AskedPause(SOIL_TEST), SOIL_TEST)
        yield "office sign in", home.client().get("/sign-in").text
        yield "office wrong", sign_in(home.client(), ("Ana", "no")).text
        office, crew = home.signed_in(OFFICE), home.signed_in(CREW)
        number = home.number("ash")
        lawn, mine = "/office/lawns/ash", f"/mine/{number}"
        for place in (
            *("/office", "/office?show=all", "/office?show=today", "/office?q=ash", "/office?q=q"),
            *(lawn, "/office/lawns/elm", "/office/lawns/none", "/password"),
            *(mine, f"{mine}/season", f"{mine}/did", f"{mine}/calendar", f"{mine}/lawn"),
            *("/new", "/crew"),
        ):
            answer = office.get(place, follow_redirects=True)
            yield f"office {place}", answer.text
        for sheet in ("/office/print/week", f"{lawn}/letter", f"{lawn}/quotes/1"):
            answer = office.get(sheet)
            if answer.status_code == 200:
                yield f"office sheet {sheet}", answer.text
        yield "office password", office.post("/password", data={"old": "x", "new": "y"}).text
        yield "office form", office.post(lawn, data={"do": "add_callback"}).text
        for place in ("/crew", "/crew/lawns/ash", "/crew/lawns/ash/did", "/crew/lawns/elm"):
            yield f"crew {place}", crew.get(place).text
        yield "crew refused", crew.get("/office", follow_redirects=True).text
        ticked = crew.post("/crew/lawns/ash", data={"do": "done", "job": "soil_test"})
        yield "crew ticked", crew.get(ticked.headers["location"]).text
        yield "crew asked back", crew.post("/crew/lawns/ash", data={"do": "done"}).text
        owner = home.owner()
        yield "office of the owner", owner.get("/office").text


def _home(tmp_path: Path, name: str) -> ServedHome:
    folder = tmp_path / name
    folder.mkdir()
    return ServedHome(folder, date(2027, 2, 1) if name != "asked" else SOIL_TEST)


def _owner(home: ServedHome) -> TestClient:
    owner = home.client()
    owner.post(home.once(), data={"label": "x"})
    return owner
