"""The lawn itself, for its owner: its brief as text, all of it in one file, its end."""

import os
import re
import tomllib
from collections.abc import Callable
from html import unescape
from pathlib import Path
from typing import Any

import pytest

pytest.importorskip("starlette", reason="the extra web is not installed")
pytest.importorskip("uvicorn", reason="the extra web is not installed")
from starlette.testclient import TestClient

from planning import example
from printed import outputs
from screens import NARROW, SMALL, barriers, opened, press, text_of
from served import NAME, ServedHome, serving  # after the skips
from test_export_screen import axe, browser  # noqa: F401 — fixtures
from tiers import full
from turfplan.app.restore_lawns import restore_lawns
from turfplan.files import index as store
from turfplan.files.plan_folder import write_outputs
from turfplan.files.reading.plan import read_plan
from turfplan.serve.tokens import feed_of_page

SECRET = "Elderberry Lane 77"


@pytest.fixture
def home(tmp_path: Path) -> ServedHome:
    """A lawn that is served."""
    made = ServedHome(tmp_path)
    made.lawn()
    return made


def owner_of(home: ServedHome) -> tuple[TestClient, str]:
    """The owner's browser, and the pages of the lawn there."""
    client = home.client()
    client.post(home.once(), data={"label": "x"})
    return client, f"/mine/{home.lawn().id}"


def text(home: ServedHome) -> str:
    """The brief as it stands."""
    return (home.root / f"{NAME}.toml").read_text(encoding="utf-8")


def test_a_brief_is_got_changed_and_sent_back(home: ServedHome) -> None:
    """As a file, or in the page; it is planned with, and what cannot be planned is not kept."""
    client, mine = owner_of(home)
    got = client.get(f"{mine}/brief.toml")
    assert got.text == text(home) and "attachment" in got.headers["content-disposition"]
    changed = got.text.replace('depth = "1 in"', 'depth = "0.5 in"')
    form = {"do": "save_brief"}
    files = {"file": ("brief.toml", changed.encode())}
    sent = client.post(f"{mine}/lawn", data=form, files=files)
    assert sent.headers["location"] == f"{mine}/lawn?saved=1" and text(home) == changed
    assert home.plan().lawn.depth_mm == pytest.approx(12.7)
    typed = got.text.replace("\n", "\r\n")
    assert client.post(f"{mine}/lawn", data={**form, "text": typed}).status_code == 303
    assert text(home) == got.text
    home.refusals = ("no day is left",)
    refused = client.post(f"{mine}/lawn", data={**form, "text": changed})
    assert refused.status_code == 422 and "No day is left." in refused.text
    assert "0.5 in" in refused.text and text(home) == got.text


@pytest.mark.parametrize(
    ("change", "told"),
    [
        (lambda text: text + "\n[lawn", "TOML"),
        (lambda text: text.replace("grass = ", "gras = "), "gras"),
        (lambda text: text.replace('"tall_fescue"', '"parsley"'), "parsley"),
        (lambda text: text.replace("maple-back-01", "another-01"), "identity of a lawn stays"),
    ],
)
def test_a_text_that_is_no_brief_of_this_lawn_is_refused(
    home: ServedHome, change: Callable[[str], str], told: str
) -> None:
    """With what is wrong and where; nothing is written, and what was typed is there again."""
    client, mine = owner_of(home)
    before = text(home)
    got = client.post(f"{mine}/lawn", data={"do": "save_brief", "text": change(before)})
    assert got.status_code == 422 and told in unescape(got.text)
    assert text(home) == before and home.planned == []


def test_a_brief_names_no_file_but_one_of_its_lawn(home: ServedHome) -> None:
    """No absolute path, none above, no link on the way, no device, no folder, nothing that is too
    large; what such a file holds is never shown.
    """
    client, mine = owner_of(home)
    outside = home.root.parent / "outside.csv"
    outside.write_text(f"x,y,z\n{SECRET}\n")
    (home.root / "link.csv").symlink_to(outside)
    (home.root / "linked").symlink_to(home.root.parent)
    (home.root / "folder.csv").mkdir()
    os.mkfifo(home.root / "pipe.csv")
    with (home.root / "large.csv").open("wb") as large:
        large.truncate(6_000_000)
    before = text(home)
    names = [str(outside), "../outside.csv", "link.csv", "linked/outside.csv", "folder.csv"]
    for name in (*names, "pipe.csv", "large.csv", "/dev/zero", "none.csv", "a\x00b", ""):
        survey = before.replace('depth = "1 in"', f"survey = {name!r}".replace("'", '"'))
        got = client.post(f"{mine}/lawn", data={"do": "save_brief", "text": survey})
        assert got.status_code == 422, name
        assert SECRET not in got.text
    assert text(home) == before and home.planned == []


def test_everything_opens_elsewhere(home: ServedHome, tmp_path: Path) -> None:
    """The archive that the button gives holds what the other installation needs."""
    client, mine = owner_of(home)
    client.post(mine, data={"do": "done", "job": "soil_test"})
    got = client.get(f"{mine}/everything")
    assert got.headers["content-disposition"] == 'attachment; filename="lawn-2027-02-01.turfplan"'
    (tmp_path / "copy").write_bytes(got.content)
    restore_lawns(tmp_path / "copy", tmp_path / "there", None)
    (plan,) = (tmp_path / "there").rglob("plan.json")
    brought = read_plan(plan.parent)
    assert brought is not None and brought == home.plan()


def test_a_lawn_is_deleted_for_good(home: ServedHome) -> None:
    """Once the box is ticked: its pages and addresses open nothing any more. What this page made
    goes from the disk; a folder from elsewhere stays, and that is told.
    """
    client, mine = owner_of(home)
    token = home.token("edit", "Ana")
    assert f"Its files lie in {home.lawn().folder}" in client.get(f"{mine}/lawn").text
    form = {"do": "delete_lawn", "sure": "yes"}
    assert client.post(f"{mine}/lawn", data={"do": "delete_lawn"}).status_code == 422
    assert client.get(f"/lawn/{token}").status_code == 200
    assert "is deleted" in client.post(f"{mine}/lawn", data=form).text
    for path in (f"/lawn/{token}", f"/feed/{feed_of_page(token)}.ics", mine):
        assert client.get(path).status_code == 404
    assert home.plan() and text(home)
    folder = home.root / "lawns" / "shed"
    folder.mkdir(parents=True)
    (folder / "brief.toml").write_text(text(home))
    write_outputs(folder, outputs(example(NAME)))
    with store.opened(home.index) as connection:
        lawn = store.add_lawn(connection, folder, folder / "brief.toml")
    assert "its files are deleted" in client.get(f"/mine/{lawn.id}/lawn").text
    assert client.post(f"/mine/{lawn.id}/lawn", data=form).status_code == 200
    assert not folder.exists() and folder.parent.exists()


def test_only_the_owner_reaches_the_lawn_itself(home: ServedHome) -> None:
    """Who ticks sees no brief, takes nothing away and deletes nothing."""
    guest, page = home.client(), f"/lawn/{home.token('edit', 'Ana')}"
    for name in ("lawn", "brief.toml", "everything"):
        assert guest.get(f"{page}/{name}").status_code == 404
    for do in ("save_brief", "delete_lawn"):
        assert guest.post(page, data={"do": do, "sure": "yes"}).status_code == 403
    assert tomllib.loads(text(home)) and home.plan()


def test_a_lawn_is_made_of_a_brief_that_is_there(home: ServedHome) -> None:
    """Under an identity of its own; what is no brief, names a file or cannot be planned leaves
    nothing behind.
    """
    client, _ = owner_of(home)
    assert "/new/brief" in client.get("/new/place").text
    given = text(home)
    with_file = given.replace('depth = "1 in"', 'survey = "survey.csv"')
    for bad, told in ((given + "[", "TOML"), (with_file, "ordinary file"), ("", 'role="alert"')):
        got = client.post("/new/brief", data={"text": bad})
        assert got.status_code == 422 and told in got.text
    home.refusals = ("no day is left",)
    assert "No day is left." in client.post("/new/brief", data={"text": given}).text
    assert client.post("/new/brief", files={"file": ("x", b"\xff\xfe")}).status_code == 422
    assert not list((home.root / "lawns").glob("*"))
    home.refusals = ()
    made = client.post("/new/brief", files={"file": ("brief.toml", given.encode())})
    assert made.headers["location"] == "/mine/2/made"
    assert "The plan is made" in client.get("/mine/2/made").text
    (folder,) = (home.root / "lawns").iterdir()
    plan = read_plan(folder)
    assert plan is not None and plan.lawn_id == folder.name != home.plan().lawn_id
    assert home.client().get("/new/brief").status_code == 403


@full
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_the_page_of_the_lawn_in_a_browser(
    browser: Any,  # noqa: F811
    axe: str,  # noqa: F811
    home: ServedHome,
    scheme: str,
) -> None:
    """No barrier, nothing cut off; a change that is typed is planned with, all of it is taken, and
    the lawn deleted.
    """
    with serving(home), opened(browser, width=NARROW, scheme=scheme) as page:
        page.goto(home.base + home.once())
        press(page, "This is my browser")
        page.get_by_role("link", name="The lawn").click()
        assert page.evaluate("document.documentElement.scrollWidth") == NARROW
        assert page.evaluate(SMALL) == []
        assert barriers(page, axe) == []
        page.get_by_label("The text").fill(re.sub('depth = "1 in"', 'depth = "0.5 in"', text(home)))
        press(page, "Save, and plan with it")
        assert "It is saved" in text_of(page)
        with page.expect_download() as taken:
            page.get_by_role("link", name="Get the file").click()
        assert taken.value.suggested_filename == "lawn-2027-02-01.turfplan"
        page.get_by_label("Delete this lawn for good").check()
        press(page, "Delete this lawn")
        assert "is deleted" in text_of(page)
        assert page.goto(home.base).status == 200 and "None is served yet" in text_of(page)
