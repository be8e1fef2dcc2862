"""What is private stands where it belongs, and nowhere else."""

import re
import subprocess
from datetime import date
from importlib.util import find_spec
from pathlib import Path
from shutil import which

import pytest

pytest.importorskip("starlette", reason="the extra web is not installed")
pytest.importorskip("uvicorn", reason="the extra web is not installed")

from served import NAME, ServedHome  # after the skips
from tiers import full
from turfplan.app.log_entry import Happening, log_entry
from turfplan.app.publish_feed import publish_feed
from turfplan.files import index as store
from turfplan.files.failure_log import failure_log_of
from turfplan.serve.tokens import FeedView, feed_of_page, issue

DAY = date(2027, 2, 1)
POINT, NOTE, REMARK = ("40.0379", "76.3055"), "Elderberry77 under the pot", "Elderberry Lane 77"
AWAY = ("2027-08-03", "20270803", "Aug 3,", "Aug 3 ", "August 3")


def text_of_pdf(content: bytes) -> str:
    """What a PDF says."""
    read = ["pdftotext", "-", "-"]
    return subprocess.run(read, input=content, capture_output=True, check=True).stdout.decode()


@full
def test_private_fields_stand_where_they_belong(
    tmp_path: Path, capfd: pytest.CaptureFixture[str]
) -> None:
    """The exact point, a remark with the street, a note and the days away: the owner has them in
    the brief, who works on the lawn reads the note; no other page, no sheet, calendar, published
    file, error or log holds them.
    """
    home = ServedHome(tmp_path, DAY)
    lawn = home.lawn()
    assert lawn.brief is not None
    text = lawn.brief.read_text(encoding="utf-8")
    changes = {
        'postal_code = "17601"': "latitude = 40.0379123\nlongitude = -76.3055789",
        "[calendar]": "[calendar]\naway = [{ from = 2027-08-03, to = 2027-08-03 }]",
        "[lawn]": f"# {REMARK}\n[lawn]",
    }
    for old, new in changes.items():
        assert text.count(old) == 1
        text = text.replace(old, new)
    lawn.brief.write_text(text, encoding="utf-8")
    note = Happening("note", text=NOTE, on=DAY)
    log_entry(lawn.brief, lawn.folder, note, today=DAY, with_effect=False)
    assert home.replan(lawn) == ()
    read, edit = home.token("read", "Bo"), home.token("edit", "Ana")
    guest, owner = home.client(), home.client()
    owner.post(home.once(), data={"label": "x"})
    shown = {}
    for page in ("", "/did", "/season", "/calendar", "/print/day", "/print/week", "/season.ics"):
        shown[page] = guest.get(f"/lawn/{read}{page}").text
    if find_spec("weasyprint") and which("pdftotext"):
        for page in ("/day.pdf", "/week.pdf"):
            shown[page] = text_of_pdf(guest.get(f"/lawn/{read}{page}").content)
            assert len(shown[page]) > 200, "the PDF says nothing"
    # What a folder holds to be handed on; plan.json is its owner's alone.
    for name in ("season.ics", "work.ics", "water.ics", "checklist.html", "order.html"):
        shown[name] = (lawn.folder / name).read_text("utf-8")
    for name in ("tasks.csv", "order.csv", "changes.html"):
        shown[name] = (lawn.folder / name).read_text("utf-8")
    for part in ("work", "water"):
        with store.opened(home.index) as connection:
            view = FeedView(part=part)
            feed = issue(connection, lawn, "feed", "", None, view)
        shown[f"feed of {part}"] = guest.get(f"/feed/{feed}.ics").text
        assert "BEGIN:VCALENDAR" in shown[f"feed of {part}"]
    # Only its owner asks what if, gets the brief, or all of the lawn.
    for page in ("/lawn", "/brief.toml", "/everything", "/made"):
        shown[page] = guest.get(f"/lawn/{read}{page}").text
    for form in ({"do": "what_if", "people": "3"}, {"do": "befell", "what": "rain", "value": "x"}):
        shown[form["do"]] = guest.post(f"/lawn/{read}/season", data=form).text
    bad = {"do": "befell", "what": "rain", "value": "x", "on": "soon"}
    shown["asked back"] = guest.post(f"/lawn/{edit}", data=bad).text
    what_if = owner.post(f"/mine/{lawn.id}/season", data={"do": "what_if", "people": "9" * 9}).text
    shown["what if"] = what_if
    log = failure_log_of(home.index)
    shown["failures"] = log.read_text("utf-8") if log.exists() else ""
    shown["feed"] = guest.get(f"/feed/{feed_of_page(read)}.ics").text
    shown["error"] = guest.post(f"/lawn/{read}", data={"do": "done"}).text
    shown["gone"] = guest.get("/lawn/" + "x" * 43).text
    publish_feed(lawn.folder, tmp_path / "web")
    for path in (tmp_path / "web").iterdir():
        shown[f"published{path.suffix}"] = path.read_text("utf-8")
    assert len([name for name in shown if name.startswith("published")]) == 2
    shown["name"] = "".join(path.name for path in (tmp_path / "web").iterdir())
    shown["log"] = "".join(capfd.readouterr())
    for place, content in shown.items():
        whole = re.sub(r"\r?\n ", "", content)
        for secret in (*POINT, NOTE, REMARK, *AWAY, str(tmp_path)):
            assert secret not in whole, (place, secret)
    kept = owner.get(f"/mine/{lawn.id}/everything").content
    assert kept[:4] == b"PK\x03\x04" or kept[:2] == b"\x1f\x8b", "the archive is the owner's"
    assert NOTE in guest.get(f"/lawn/{edit}/did").text
    assert f"{NAME}.toml" not in guest.get(f"/lawn/{edit}").text
    brief = owner.get(f"/mine/{lawn.id}/lawn").text
    assert all(secret in brief for secret in (*POINT, REMARK, "2027-08-03"))
