"""Several lawns of one house: hours promised once, one calendar, one week, one order, one list of
what was due.
"""

import re
import shutil
from collections import defaultdict
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from icalendar import Calendar

from command import run
from page_plan import page_plan
from planned_house import LAWNS, TODAY, planned_house, replanned, write_lawn
from tiers import full
from turfplan.app.backup_lawns import backup_lawns
from turfplan.app.house import planned_in_house
from turfplan.app.house_files import house_calendar, plan_of_house
from turfplan.app.log_entry import Happening, log_entry
from turfplan.app.plan_lawn import replan_lawn
from turfplan.app.restore_lawns import restore_lawns
from turfplan.errors import TurfplanError
from turfplan.export.house_ids import lawn_key, lawn_of_task, of_house
from turfplan.files import index as store
from turfplan.files.house_folder import beside_in_house, house_at, lawns_of_house
from turfplan.files.reading.book import load_book
from turfplan.files.reading.brief import read_brief
from turfplan.files.reading.plan import read_plan
from turfplan.planning.shared_hours import PromisedHours, gives_way, promised_hours
from turfplan.records.plan import Plan
from turfplan.records.plan_calendar import FILES
from turfplan.records.plan_hands import HoursElsewhere
from turfplan.serve import house_tokens
from turfplan.serve.tokens import feed_of_page

# What one day holds in both lawns: two people for six hours each.
DAY_HOURS = 12.0


@pytest.fixture
def house(tmp_path: Path) -> Path:
    """A house of its own, both lawns planned."""
    return planned_house(tmp_path)


def plan_in(house: Path, lawn: str) -> Plan:
    """The plan of a lawn."""
    plan = read_plan(house / "lawns" / lawn)
    assert plan is not None
    return plan


def hours_of(house: Path, lawn: str) -> dict[date, float]:
    """The hours that a lawn has promised."""
    plan, brief = plan_in(house, lawn), read_brief(house / "lawns" / lawn / "brief.toml").brief
    return dict(promised_hours(plan, brief, load_book(plan.place.region)))


def planned_alone(where: Path, lawn: str) -> Plan:
    """The plan of a lawn that is the only one of its house."""
    brief = write_lawn(where / "alone", lawn)
    made = replan_lawn(brief, brief.parent, tell=lambda _: None, today=TODAY).plan
    assert made.conflict is None
    return made


def over(house: Path) -> dict[date, float]:
    """The days that hold more work on both lawns than there are hours, with how much more."""
    hours: dict[date, float] = defaultdict(float)
    for lawn in LAWNS:
        for day, had in hours_of(house, lawn).items():
            hours[day] += had
    return {day: had - DAY_HOURS for day, had in hours.items() if had > DAY_HOURS + 0.25}


def told_full(house: Path) -> set[date]:
    """The days of which a plan says that both lawns together ask for too much."""
    said = (c for lawn in LAWNS for c in plan_in(house, lawn).cautions)
    values = (dict(c.values) for c in said if c.key == "season.overfull_elsewhere")
    return {value["day"].day for value in values}  # type: ignore[union-attr]


def test_no_hours_are_promised_twice_or_it_is_told(house: Path, tmp_path: Path) -> None:
    """Planned apart, both lawns take the same days; of a house the second keeps off them."""
    alone = planned_alone(tmp_path, "front")
    days = [
        {t.start for t in p.tasks if t.plays("spreading")} for p in (alone, plan_in(house, "back"))
    ]
    assert days[0] & days[1]
    assert max(over(house).values(), default=0.0) < 1.0
    assert over(house).keys() <= told_full(house)
    reasons = {r.key for t in plan_in(house, "front").tasks for r in (*t.not_earlier, *t.not_later)}
    assert "season.hours_elsewhere" in reasons
    assert plan_in(house, "back").elsewhere == ()


def test_a_house_planned_twice_stays_as_it_is(house: Path) -> None:
    """What has no news stands, byte for byte, by the folder and by the brief of one lawn."""
    files = [p for p in house.rglob("*") if p.is_file() and p.name != ".lock"]
    before = {path: path.read_bytes() for path in files}
    replanned(house)
    brief = house / "lawns" / "front" / "brief.toml"
    replan_lawn(brief, brief.parent, tell=lambda _: None, today=TODAY)
    assert {path: path.read_bytes() for path in files} == before


@full
def test_of_plans_made_apart_the_later_lawn_gives_way(house: Path, tmp_path: Path) -> None:
    """The first stands; the second is planned anew around it, though nothing else is new."""
    brief = write_lawn(tmp_path / "apart", "front")
    replan_lawn(brief, brief.parent, tell=lambda _: None, today=TODAY)
    target = house / "lawns" / "front"
    for name in ("plan.json", "season.ics"):
        (target / name).write_bytes((brief.parent / name).read_bytes())
    assert over(house)
    first = (house / "lawns" / "back" / "plan.json").read_bytes()
    replanned(house)
    assert (house / "lawns" / "back" / "plan.json").read_bytes() == first
    assert over(house).keys() <= told_full(house)
    assert plan_in(house, "front").revision == 2


def test_who_gives_way_follows_from_what_each_plan_knew() -> None:
    """A day gives way once, and that of the lawn which comes later."""
    day, plan = date(2027, 9, 4), page_plan()
    own = {day: 8.0}
    earlier = PromisedHours({day: 6.0}, {}, goes_first=True)
    assert gives_way(plan, own, [earlier], DAY_HOURS)
    assert not gives_way(plan, own, [replace(earlier, goes_first=False)], DAY_HOURS)
    assert not gives_way(plan, own, [replace(earlier, known={day: 8.0})], DAY_HOURS)
    assert not gives_way(plan, own, [replace(earlier, hours={day: 4.0})], DAY_HOURS)
    knew = plan.model_copy(update={"elsewhere": (HoursElsewhere(day=day, hours=6.0),)})
    assert not gives_way(knew, own, [earlier], DAY_HOURS)
    assert gives_way(knew, own, [replace(earlier, hours={day: 9.0})], DAY_HOURS)


def test_a_contractor_has_hands_of_his_own(house: Path) -> None:
    """A lawn that is left to a contractor takes no hours of the household's."""
    front = house / "lawns" / "front" / "brief.toml"
    text = front.read_text(encoding="utf-8")
    front.write_text(text.replace("people = 2", 'by = "contractor"\npeople = 2'), encoding="utf-8")
    made = replan_lawn(front, front.parent, tell=lambda _: None, today=TODAY).plan
    assert made.elsewhere == ()


def test_a_lawn_says_nothing_of_another(house: Path) -> None:
    """No file of one lawn names another lawn or its folder."""
    for lawn, other in (LAWNS, LAWNS[::-1]):
        for path in (house / "lawns" / lawn).iterdir():
            text = path.read_text(encoding="utf-8")
            assert f"{other.title()} lawn" not in text, path
            assert f"lawns/{other}" not in text, path


def test_a_lawn_that_fails_stops_no_other(house: Path) -> None:
    """All faults are told, with their lawn; its plan stays, the others are planned, and the command
    ends as that lawn would end it."""
    back = house / "lawns" / "back"
    before = (back / "plan.json").read_bytes()
    (back / "brief.toml").write_text('[lawn]\narea = "9 bananas"\n', encoding="utf-8")
    write_lawn(house, "shed")
    # What is told of it are names of the book.
    write_lawn(house, "verge", ('"tall_fescue"', '"bermuda"'))
    done = run("plan", str(house), "--today", TODAY.isoformat())
    assert done.returncode == 3
    assert "bananas" in done.stderr and "place: is required" in done.stderr
    assert "verge" in done.stderr and "hybrid" in done.stderr
    assert "back: not planned" in done.stdout and "Shed lawn" in done.stdout
    assert (back / "plan.json").read_bytes() == before
    assert plan_in(house, "shed").tasks
    refused = run("plan", str(house), "-o", str(house / "out"))
    assert refused.returncode == 3 and "own folders" in refused.stderr


@full
def test_what_cannot_be_done_as_asked_ends_with_four(tmp_path: Path) -> None:
    """A lawn without a feasible plan is told of with its reasons, and the rest is planned."""
    write_lawn(tmp_path, "back", ("from = 2027-03-01", "from = 2027-03-01\nuntil = 2027-03-20"))
    write_lawn(tmp_path, "front")
    done = run("plan", str(tmp_path), "--today", TODAY.isoformat())
    assert done.returncode == 4
    assert not (tmp_path / "lawns" / "back" / "plan.json").exists()
    assert plan_in(tmp_path, "front").tasks
    assert (tmp_path / "season.ics").is_file()


def test_what_several_lawns_buy_for_one_day_is_one_order(house: Path) -> None:
    """The first deliveries come on one day, within the days that a heap keeps; the line adds up, no
    load is over what a truck may bring, and each lawn's share is told."""
    lawns, faults = planned_in_house(house)
    assert not faults
    plan = plan_of_house(lawns)
    shared = [line for line in plan.order if line.reason.key == "as_written" and len(line.loads)]
    both = [line for line in shared if all(a in str(line.reason) for a in ("Back", "Front"))]
    assert both
    limit = read_brief(lawns[0].brief).brief.delivery.truck_limit_m3
    assert limit is not None
    for line in both:
        own = [o for lawn in lawns for o in lawn.plan.order if o.item == line.item]
        of_day = [o for o in own if o.deliver_by == line.deliver_by]
        assert len(of_day) == 2
        assert line.value == pytest.approx(sum(o.value for o in of_day))
        assert sum(line.loads) == pytest.approx(line.value)
        assert max(line.loads) <= limit + 1e-5
        assert sum(part.value for part in line.parts) == pytest.approx(
            sum(part.value for o in of_day for part in o.parts)
        )
    total = sum(line.value for line in plan.order if line.item == "mix")
    assert total == pytest.approx(
        sum(o.value for lawn in lawns for o in lawn.plan.order if o.item == "mix")
    )


def test_a_delivery_waits_no_longer_than_a_heap_keeps(house: Path) -> None:
    """What comes with another lawn's load comes within the days of storage before its pass."""
    keeps = load_book().si("order.storage_days")
    plan = plan_in(house, "front")
    first = next(t for t in plan.tasks if t.id == "delivery.1")
    back = next(t for t in plan_in(house, "back").tasks if t.id == "delivery.1")
    spread = next(t for t in plan.tasks if t.id == "topdress.1")
    assert first.start == back.start
    assert 0 < (spread.start - first.start).days <= keeps


def test_one_calendar_holds_each_entry_of_each_lawn_once(house: Path) -> None:
    """Another reader finds every entry by its own identity, and which lawn it is for."""
    for name in ("season.ics", "work.ics", "water.ics"):
        of_house = Calendar.from_ical((house / name).read_bytes()).walk("VEVENT")
        single = {
            str(event["UID"]): (lawn, event)
            for lawn in LAWNS
            for event in Calendar.from_ical((house / "lawns" / lawn / name).read_bytes()).walk(
                "VEVENT"
            )
        }
        assert sorted(str(event["UID"]) for event in of_house) == sorted(single)
        for event in of_house:
            lawn, own = single[str(event["UID"])]
            assert str(event["SUMMARY"]).startswith(f"{lawn.title()} lawn")
            assert event["DTSTART"].dt == own["DTSTART"].dt
            assert event["SEQUENCE"] == own["SEQUENCE"]
            assert len(event["SUMMARY"]) <= 74
    head = Calendar.from_ical((house / "season.ics").read_bytes())
    assert str(head["NAME"]) == "Our lawns"


def test_a_week_of_the_house_has_each_box_once_and_says_which_lawn(house: Path) -> None:
    """Every job of the week stands there under its lawn, and each lawn has its own go and wait
    where they differ."""
    lawns, _ = planned_in_house(house)
    plan = plan_of_house(lawns)
    shared = next(
        t.start
        for t in plan.tasks
        if t.plays("coring")
        for o in plan.tasks
        if o.start == t.start and lawn_of_task(o.id) != lawn_of_task(t.id)
        if o.series is None and not o.plays("coring")
    )
    done = run("print", str(house), "week", "--week", shared.isoformat())
    assert done.returncode == 0, done.stderr
    page = Path(done.stdout.strip()).read_text(encoding="utf-8")
    ticks = re.findall(r'data-tick="([^"]+)"', page)
    assert ticks and len(ticks) == len(set(ticks))
    titles = re.findall(r"<h3>(.*?)</h3>", page, flags=re.DOTALL)
    titles = [re.sub(r"<[^>]*>", "", title) for title in titles]
    jobs = [title for title in titles if re.match(r"\s*\d+ ", title)]
    assert {next(n for n in ("Back", "Front") if n in title) for title in jobs} == {"Back", "Front"}
    labels = re.findall(r'class="whose-lawn"><strong>(.*?)</strong>', page)
    assert any("Back" in label for label in labels) and any("Front" in label for label in labels)
    names = re.findall(r'<section class="day"[^>]*aria-label="([^"]+)"', page)
    assert len(names) == len(set(names))


def test_the_order_and_the_watering_card_are_of_all_lawns(house: Path) -> None:
    """A sheet that is of one lawn is refused with those that there are."""
    for sheet in ("order", "water"):
        done = run("print", str(house), sheet)
        page = Path(done.stdout.strip()).read_text(encoding="utf-8")
        assert done.returncode == 0
        assert "Back lawn" in page and "Front lawn" in page
    refused = run("print", str(house), "book")
    assert refused.returncode == 3 and "week, order, water" in refused.stderr


def test_what_was_due_is_gone_through_on_all_lawns(house: Path) -> None:
    """With the commands of each lawn; a lawn that cannot be read is told of and stops no other."""
    day = "2027-04-11"
    done = run("log", str(house), "today", "--today", day)
    assert done.returncode == 0
    for lawn in LAWNS:
        assert f"lawns/{lawn}/brief.toml done soil_test" in done.stdout
    rows = run("log", str(house), "today", "--today", day, "--json").stdout
    assert '"lawn": "back"' in rows and '"lawn": "front"' in rows
    (house / "lawns" / "back" / "plan.json").write_text("{", encoding="utf-8")
    torn = run("log", str(house), "today", "--today", day)
    assert torn.returncode == 3
    assert "front/brief.toml done soil_test" in torn.stdout and "back" in torn.stderr


def test_what_is_a_house(tmp_path: Path) -> None:
    """A lawn's own folder is none, nor is a business's, nor a folder without lawns."""
    house = tmp_path / "house"
    write_lawn(house, "back")
    front = write_lawn(house, "front").parent
    assert house_at(house) == house and house_at(house / "lawns") == house
    assert [f.name for f in beside_in_house(front)] == ["back", "front"]
    assert house_at(front) is None and house_at(tmp_path) is None
    (front / "client.toml").write_text("", encoding="utf-8")
    assert lawns_of_house(house) == () and beside_in_house(front) == ()
    (front / "client.toml").unlink()
    for name in ("business.toml", "clients.form.json", "clients.index"):
        (house / name).write_text("", encoding="utf-8")
        assert lawns_of_house(house) == (), name
        (house / name).unlink()
    text = (front / "brief.toml").read_bytes()
    (front / "brief.toml").write_bytes(b"# turfplan clients plan a.csv 0123456789abcdef\n" + text)
    assert lawns_of_house(house) == () and beside_in_house(front) == ()
    (front / "brief.toml").write_bytes(text)
    with pytest.raises(TurfplanError, match="plan"):
        planned_in_house(house)


@full
def test_a_lawn_alone_in_its_house_is_planned_as_by_its_brief(tmp_path: Path) -> None:
    """Its files are the same, byte for byte."""
    alone = planned_alone(tmp_path, "front")
    folder = tmp_path / "alone" / "lawns" / "front"
    before = {p.name: p.read_bytes() for p in folder.iterdir() if p.name != ".lock"}
    assert alone.elsewhere == ()
    replanned(tmp_path / "alone")
    assert {p.name: p.read_bytes() for p in folder.iterdir() if p.name != ".lock"} == before
    assert b"elsewhere" not in before["plan.json"]


def test_names_of_tasks_of_a_house_are_told_apart() -> None:
    """By folder and identity, in a form that a page can hold."""
    keys = [lawn_key("Front Lawn", "a"), lawn_key("front-lawn", "b"), lawn_key("前", "c")]
    assert len(set(keys)) == len(keys)
    assert all(re.fullmatch(r"[a-z0-9-]+", key) for key in keys)
    assert lawn_of_task(of_house(keys[0], "topdress.1")) == keys[0]
    assert lawn_of_task("topdress.1") == ""


def test_what_is_of_the_house_follows_each_lawn_that_is_planned_alone(tmp_path: Path) -> None:
    """After a tick and a plan of one lawn the house's calendar and lists know it; where another
    lawn's plan cannot be read they stay as they were, and a folder that never had any gets none."""
    root = planned_house(tmp_path)
    brief = root / "lawns" / "back" / "brief.toml"
    before = {name: (root / name).read_bytes() for name in ("season.ics", "checklist.html")}
    log_entry(
        brief,
        brief.parent,
        Happening("skipped", "soil_test", on=TODAY),
        today=TODAY,
        sure=lambda _: True,
    )
    assert (root / "season.ics").read_bytes() == before["season.ics"]
    replan_lawn(brief, brief.parent, tell=lambda _: None, today=TODAY)
    after = {name: (root / name).read_bytes() for name in before}
    assert all(after[name] != before[name] for name in before)
    lawns, _ = planned_in_house(root)
    assert after["season.ics"] == house_calendar(lawns)
    front = root / "lawns" / "front" / "plan.json"
    kept = front.read_bytes()
    front.write_bytes(b"{")
    text = brief.read_text(encoding="utf-8")
    brief.write_text(text.replace("people = 2", "people = 1"), encoding="utf-8")
    replan_lawn(brief, brief.parent, tell=lambda _: None, today=TODAY)
    assert (root / "season.ics").read_bytes() == after["season.ics"]
    front.write_bytes(kept)
    for name in FILES.values():
        (root / name).unlink()
    replan_lawn(brief, brief.parent, tell=lambda _: None, today=TODAY)
    assert not (root / "season.ics").exists()


def test_addresses_of_a_house_come_back_with_a_copy(tmp_path: Path) -> None:
    """Closed until they are opened, or open with the copy's addresses; withdrawn ones stay so, and
    a copy of one lawn alone holds none, since they open all."""
    root = planned_house(tmp_path)
    with store.opened(root / "turfplan.index") as connection:
        for lawn in LAWNS:
            store.add_lawn(connection, root / "lawns" / lawn, root / "lawns" / lawn / "brief.toml")
        page = house_tokens.issue(connection, root, "edit", "Ana")
        gone = house_tokens.issue(connection, root, "feed", "Bo", "water")
        (number,) = (t.id for t in house_tokens.listed(connection, root) if t.label == "Bo")
        house_tokens.revoke(connection, number, root)
        shown = house_tokens.publish(connection, root, b"BEGIN", "stamp", "all")
    kept = backup_lawns(tmp_path / "copy", [root], None)
    assert kept.addresses == 3
    assert backup_lawns(tmp_path / "one", [root / "lawns" / "back"], None).addresses == 0
    closed, opened = tmp_path / "closed", tmp_path / "opened"
    shutil.rmtree(root)
    done = restore_lawns(tmp_path / "copy", closed)
    (brought,) = done.tokens.values()
    assert len(brought.closed) == 2 and brought.withdrawn == 1
    told = run("tokens", "list", "--index", str(closed / "turfplan.index"))
    assert "H1" in told.stdout and "closed" in told.stdout
    shutil.rmtree(closed / "lawns")
    restore_lawns(tmp_path / "copy", opened, with_addresses=True)
    for home, state in ((closed, True), (opened, False)):
        with store.opened(home / "turfplan.index") as connection:
            found = house_tokens.find(connection, page)
            feed = house_tokens.find(connection, feed_of_page(page))
            lost = house_tokens.find(connection, gone)
            assert found is not None and feed is not None and lost is not None
            assert found.house == home and (found.label, found.kind) == ("Ana", "edit")
            assert feed.page == found.id and found.is_gone is feed.is_gone is state
            assert lost.revoked is not None and lost.part == "water"
            assert house_tokens.published(connection, home, "all") == shown
    assert run("tokens", "open", "H1", "--index", str(closed / "turfplan.index")).returncode == 0
    with store.opened(closed / "turfplan.index") as connection:
        assert not any(t.is_gone for t in house_tokens.listed(connection) if t.label == "Ana")


def test_a_copy_opens_no_house_that_lies_elsewhere(tmp_path: Path) -> None:
    """An archive of somebody else's that names a house of this machine brings no address of it."""
    mine, theirs = planned_house(tmp_path / "mine"), planned_house(tmp_path / "theirs")
    with store.opened(theirs / "turfplan.index") as connection:
        store.add_lawn(connection, theirs / "lawns" / "back", theirs / "lawns/back/brief.toml")
        house_tokens.issue(connection, theirs, "edit", "Ana")
        connection.execute("UPDATE house_token SET house = ?", (str(mine),))
    backup_lawns(tmp_path / "copy", [], theirs / "turfplan.index")
    shutil.rmtree(theirs)
    restore_lawns(tmp_path / "copy", tmp_path / "here", with_addresses=True)
    with store.opened(tmp_path / "here" / "turfplan.index") as connection:
        assert house_tokens.listed(connection) == ()
