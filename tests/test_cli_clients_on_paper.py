"""What an office reads and prints, looked at as it lies on the desk: nobody's figures at another's
lawn, work in its order, a letter on its page, and a line where there were many."""

import csv
import re
import shutil
from datetime import date, timedelta
from importlib.util import find_spec
from pathlib import Path

import pytest

from command import run as command
from planned_business import DAY, HEADS, MARKS, ROW, plan_again, planned_business
from turfplan.app.client_letters import client_letter
from turfplan.app.client_lists import AskedList, list_jobs
from turfplan.app.client_material import MaterialList, list_material
from turfplan.app.client_quotes import accept_quote, offer_quote
from turfplan.app.client_sheets import crew_sheet
from turfplan.app.quote_sheets import quote_page
from turfplan.business.client_record import Client
from turfplan.business.visiting_order import in_order_of_place
from turfplan.export.sheets.material_page import supplier_views
from turfplan.files.reading.plan import read_plan
from turfplan.records.plan import Plan
from turfplan.serve.client_addresses import client_address

NO_SEED = "no seed: seeding.intent = none; leveling.depth = 0.25 in"


@pytest.fixture(scope="module")
def first(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Three lawns alike but for their size, planned."""
    home = tmp_path_factory.mktemp("business")
    data = planned_business(home, ("ash", "elm", "oak"))
    file = home / "clients.csv"
    text = file.read_text(encoding="utf-8")
    for name, size in (("elm", "300 m2"), ("oak", "410 m2")):
        row = next(line for line in text.splitlines() if line.startswith(name))
        text = text.replace(row, row.replace("400 m2", size))
    file.write_text(text, encoding="utf-8")
    plan_again(data, DAY, file)
    return data


@pytest.fixture
def data(first: Path, tmp_path: Path) -> Path:
    """The same, to be written to."""
    return Path(shutil.copytree(first, tmp_path / "data"))


def plan_of(data: Path, name: str = "ash") -> Plan:
    """The plan of a lawn."""
    plan = read_plan(data / "lawns" / name)
    assert plan is not None
    return plan


def told(html: str) -> str:
    """What a page says, a line for each of its lines."""
    body = " ".join(html.partition("<body>")[2].split())
    body = re.sub(r"</?(?:p|li|tr|h[1-6]|div|table)\b[^>]*>", "\n", body)
    text = re.sub("<[^>]*>", "", re.sub("</t[dh]>", " ", body)).replace("\xa0", " ")
    return "\n".join(" ".join(line.split()) for line in text.splitlines() if line.strip())


def test_no_lawn_gets_the_figures_of_another(data: Path) -> None:
    """Steps with amounts of a lawn stand at that lawn, each at its own, none before them all."""
    job = next(task for task in plan_of(data).tasks if task.plays("spreading"))
    page = told(crew_sheet(data, AskedList("day", job.start), None)[0])
    shared, *visits = re.split(r"\n(?:Ash|Elm|Oak) \(invented\) (?:ash|elm|oak)\n", page)
    assert len(visits) == 3 and "How each job is done" in shared
    counts = [re.findall(r"(\d+) barrows in all", visit) for visit in visits]
    assert all(len(found) == 1 for found in counts)
    assert len({found[0] for found in counts}) == 3, "they differ in size"
    assert "barrows in all" not in shared


def test_a_quote_tells_work_in_its_order(data: Path) -> None:
    """What is spread before what is dragged and sown on it; what the client waters by its stage,
    not by minutes."""
    choice = offer_quote(data, "ash", DAY).quote.choices[0]
    kinds = [job.task.partition(".")[0] for job in choice.jobs]
    assert kinds.index("topdress") < kinds.index("incorporate") < kinds.index("overseed")
    assert kinds.index("mow_low") < kinds.index("core_aerate")
    assert [job.start for job in choice.jobs] == sorted(job.start for job in choice.jobs)
    assert not [text for text in choice.by_client if re.search(r"\d+ min|settings", text)]


def test_a_second_choice_says_what_differs(data: Path) -> None:
    """Not all again; what is the same is said to be so; once it is taken it stands whole."""
    same = "same: leveling.depth = 0.5 in"
    found = offer_quote(data, "ash", DAY, [same, NO_SEED])
    page = told(quote_page(found, data, DAY, None))
    _, one, two, three = re.split(r"\nChoice \d: [\w ]+\n", page)
    assert "Overseed" in one and "\nAugust: " in one and "Aug " not in one
    assert "The same work as in choice 1, in the same months." in two and len(two) < 200
    without = three.partition("Not in this choice")[2]
    assert "Overseed" in without and "Top-dress" not in without.partition("What")[0]
    assert len(three) < len(one)
    accepted = accept_quote(data, "ash", DAY, choice=3)
    whole = told(quote_page(accepted, data, DAY, None))
    assert "Unlike" not in whole and "Top-dress" in whole and "Crabgrass preventer" in whole


def test_a_letter_with_its_address_is_one_page(data: Path) -> None:
    """On Letter and A4; jobs of one day are one line."""
    pytest.importorskip("segno")
    lawn = data / "lawns" / "ash"
    link = f"https://lawns.example.org/lawn/{client_address(data, lawn)}"
    page = told(client_letter(data, lawn, link, None))
    day = next(task.start for task in plan_of(data).tasks if task.plays("sowing"))
    ours = page.partition("What you do")[0]
    assert len(re.findall(rf"{day:%b} {day.day}, {day.year}:", ours)) == 1
    if not find_spec("weasyprint"):
        pytest.skip("the extra pdf is not installed")
    from weasyprint import HTML

    for paper in ("letter", "a4"):
        pages = HTML(string=client_letter(data, lawn, link, paper)).render().pages
        assert len(pages) == 1, paper


def test_a_list_has_a_line_for_each_visit(data: Path) -> None:
    """A lawn's jobs of one day in one line, with their hours in all and the nearest last day."""
    day = next(task.start for task in plan_of(data).tasks if task.plays("sowing"))
    done = command("clients", "list", str(data), "--on", str(day))
    lines = [line for line in done.stdout.splitlines() if "(invented)" in line]
    assert len(lines) == 3
    (lawn, *_) = list_jobs(data, AskedList("day", day)).lawns
    (line,) = (line for line in lines if line.startswith(lawn.id))
    assert all(job.title in line for job in lawn.jobs) and len(lawn.jobs) > 2
    assert f" {round(sum(job.hours for job in lawn.jobs), 1):g} " in line
    assert min(job.last for job in lawn.jobs if job.main).isoformat() in line


def test_the_same_news_are_told_once(data: Path) -> None:
    """Lawns to which the same happened stand in one line, also where their amounts differ."""
    job = next(task for task in plan_of(data).tasks if task.plays("sowing"))
    file = data / "business.toml"
    text = file.read_text(encoding="utf-8")
    closed = f"closed = [{{ from = {job.start}, to = {job.start + timedelta(5)} }}, "
    file.write_text(text.replace("closed = [", closed), encoding="utf-8")
    done = command("clients", "plan", str(data), "--today", str(DAY), "--processes", "1")
    changed = [line for line in done.stderr.splitlines() if line.startswith("changed: ")]
    assert changed[0].startswith("changed: ash, elm") and len(changed) < 3, done.stderr
    assert "Overseed" in changed[0] and "lb of" not in changed[0]


def test_addresses_follow_each_other_along_the_street() -> None:
    """By street, and the numbers of houses as numbers, wherever they stand."""
    said = ("10 Oak Rd", "2 Elm St", "9 Oak Rd", "Eichenweg 10 b", "Eichenweg 9", "12 Elm St", "")
    clients = {text: Client(address=text or None) for text in said}
    assert in_order_of_place(clients) == [
        *("", "Eichenweg 9", "Eichenweg 10 b", "2 Elm St", "12 Elm St", "9 Oak Rd", "10 Oak Rd"),
    ]


def test_loads_stand_by_the_day_on_which_to_order_them(data: Path) -> None:
    """Within each supplier, whatever the material is called."""
    found = list_material(data, today=DAY)
    views = supplier_views(found.loads[::-1], (), found.clients, found.words)
    days = {words_day(load.order_by, found): load.order_by for load in found.loads}
    assert len(days) > 2
    for view in views:
        own = [days[load.order_by] for load in view.loads]
        assert own == sorted(own)


def words_day(day: date, found: MaterialList) -> str:
    """A day as the page has it."""
    return found.words.day(day)


def test_a_grass_of_two_is_a_fault_and_no_crash(tmp_path: Path) -> None:
    """What the book calls things stands in faults of rows, with their lines."""
    marks = ";".join((MARKS["street"], MARKS["telephone"], MARKS["access"], MARKS["note"]))
    row = ROW.replace("tall_fescue", "bermudagrass")
    heads = HEADS.replace("Number", "id").replace("Lawn size", "lawn.area")
    text = f"{heads}\nash;Ash;{marks};{row};north\n"
    (tmp_path / "clients.csv").write_text(text, encoding="utf-8")
    done = command("clients", "import", "clients.csv", "-o", "data", "--dry-run", cwd=tmp_path)
    assert done.returncode == 3 and "common bermudagrass" in done.stderr, done.stderr
    assert "line 2" in done.stderr
    (row_of,) = csv.reader([done.stdout.splitlines()[0]])
    assert row_of == ["1 row: 1 held back"]
