"""What people do with the page from beginning to end, in a real browser: on the machine itself, by
a name of the home network without TLS, and behind a proxy that ends TLS.

Each journey is walked under each address, in each width, with and without scripts, by pointer and
by keyboard alone; the ways are dealt out so that no journey is walked in every one of their pairs.
"""

import re
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from dataclasses import dataclass, field
from datetime import date, datetime
from pathlib import Path
from typing import Any, Literal, NamedTuple

import pytest

pytest.importorskip("starlette", reason="the extra web is not installed")
pytest.importorskip("uvicorn", reason="the extra web is not installed")

from machine import free_port
from planning import ROOT
from screens import DESK, NARROW, PHONE, opened
from served import NAME as LAWN
from served import ServedHome, serving  # after the skips
from test_export_screen import CHROMIUM, FLAGS
from tiers import full, sampled
from tls_proxy import NAME, certificate, proxied
from turfplan.app.restore_lawns import restore_lawns
from turfplan.files import index as store
from turfplan.files.reading.plan import read_plan
from turfplan.records.journal import standing
from turfplan.serve import season_pages
from turfplan.serve.tokens import feed_of_page
from walks import Walk, fetched, walking

Way = Literal["machine", "name", "tls"]
WAYS: tuple[Way, ...] = ("machine", "name", "tls")
WIDTHS = (NARROW, PHONE, DESK)
SOIL_TEST, LOAD, SPREADING = date(2027, 3, 6), date(2027, 4, 3), date(2027, 4, 11)
# The proxy's certificate is signed by itself; the name is known to this browser alone.
FURTHER = ["--ignore-certificate-errors", f"--host-resolver-rules=MAP {NAME} 127.0.0.1"]


@pytest.fixture(scope="module")
def browser() -> Iterator[Any]:
    """A browser that knows the name of the home network."""
    api = pytest.importorskip("playwright.sync_api", reason="playwright is not installed")
    if not Path(CHROMIUM).exists():
        pytest.skip(f"{CHROMIUM} is not installed")
    with api.sync_playwright() as playwright:
        made = playwright.chromium.launch(executable_path=CHROMIUM, args=[*FLAGS, *FURTHER])
        yield made
        made.close()


@dataclass
class Reached:
    """A home, and the address under which it is reached; the server can go away and come back."""

    home: ServedHome
    base: str
    settings: dict[str, object]
    running: ExitStack
    files: dict[Path, bytes] = field(default_factory=dict)

    def start(self) -> None:
        """Serves, at the same port each time."""
        self.running.enter_context(serving(self.home, self.home.port, **self.settings))

    def stop(self) -> None:
        """Is silent, as where there is no signal."""
        self.running.close()

    def fresh(self, *, with_lawn: bool) -> None:
        """As it was before anybody came: the lawn as it was planned, or none, on its first day."""
        home = self.home
        home.day, home.planned, home.refusals = SOIL_TEST, [], ()
        with store.opened(home.index) as connection:
            for lawn in store.lawns(connection):
                store.remove_lawn(connection, lawn)
        for path in home.root.rglob("*"):
            if path.is_file() and "turfplan.index" not in path.name:
                path.unlink()
        for folder in (home.root / "lawns", home.root / "there"):
            shutil.rmtree(folder, ignore_errors=True)
        for path, content in self.files.items():
            path.write_bytes(content)
        if with_lawn:
            home.lawn()

    def other_name(self) -> str:
        """A name of the server that is not the one in its address."""
        return "127.0.0.1" if NAME in self.base else NAME


def reached_by(stack: ExitStack, folder: Path, way: Way) -> Reached:
    """A lawn that is served in one of the ways, until the stack is closed."""
    home = ServedHome(folder, SOIL_TEST, port=free_port())
    home.hosts = ("127.0.0.1", NAME)
    home.lawn()
    base = f"http://{NAME if way == 'name' else '127.0.0.1'}:{home.port}"
    settings: dict[str, object] = {}
    if way == "tls":
        port = stack.enter_context(proxied(home.port, certificate(folder)))
        base = settings["base_url"] = f"https://{NAME}:{port}"
    made = Reached(home, base, settings, stack.enter_context(ExitStack()))
    made.files = {
        path: path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file() and "turfplan.index" not in path.name
    }
    made.start()
    return made


@pytest.fixture(scope="module")
def served(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Callable[[Way], Reached]]:
    """One server, and one proxy, of each way, started once it is asked for."""
    known: dict[Way, Reached] = {}
    with ExitStack() as stack:

        def of(way: Way) -> Reached:
            if way not in known:
                known[way] = reached_by(stack, tmp_path_factory.mktemp(way), way)
            return known[way]

        yield of


@pytest.fixture
def reached(tmp_path: Path, way: Way) -> Iterator[Reached]:
    """A lawn that is served in one of the ways, by a server that may be stopped."""
    with ExitStack() as stack:
        yield reached_by(stack, tmp_path, way)


def path_of_feed(walk: Walk) -> str:
    """The path of the calendar that a screen hands on, and that its button subscribes to."""
    link = walk.page.locator('a.button[href^="webcal:"]').get_attribute("href")
    assert link.startswith(f"webcal://{walk.base.partition('//')[2]}/feed/")
    return "/feed/" + str(link).partition("/feed/")[2]


def subscribed(walk: Walk, reached: Reached) -> str:
    """The owner's own calendar, made on its page."""
    walk.claim(reached.home.once())
    walk.follow("Calendar")
    walk.press("Put it into my calendar")
    return path_of_feed(walk)


def feed(reached: Reached, path: str, tag: str = "") -> Any:
    """The calendar of a path, by another name of the host."""
    return fetched(reached.home.port, path, reached.other_name(), tag)


def from_nothing(walk: Walk, reached: Reached) -> None:
    """To a subscribed calendar: at most 25 presses, 60 typed characters and 350 words on all
    screens passed, ending with the calendar fetched under another name of the host."""
    walk.claim(reached.home.once())
    walk.answer("17601")
    walk.answer("60 x 70 ft")
    walk.choose("I don't know")
    walk.choose("Thin")
    walk.press("Go on")
    walk.fill(walk.page.locator("#answer"), "1 in")
    walk.choose("Everywhere")
    walk.select(walk.page.get_by_label("Why?"), 1)
    walk.press("Go on")
    walk.press("I don't know")
    walk.choose("Hose, moved by hand")
    walk.press("Go on")
    walk.choose("None")
    walk.press("Go on")
    walk.choose("Sat")
    walk.choose("Sun")
    walk.choose("2")
    walk.press("Go on")
    walk.choose("Seed over the whole lawn")
    walk.press("Make the plan")
    walk.press("Put it into my calendar")
    got = feed(reached, path_of_feed(walk))
    assert got.content.startswith(b"BEGIN:VCALENDAR") and got.content.count(b"VEVENT") > 20
    assert walk.taps <= 25 and walk.typed <= 60 and walk.words <= 350, walk


def nothing_known(walk: Walk, reached: Reached) -> None:
    """Place and size alone are needed, and who does not know them is told what helps; of the rest
    nothing is known, each button says what is taken, and what comes of it can be changed."""
    walk.claim(reached.home.once())
    walk.answer("no idea")
    assert "1/9" in walk.text and walk.page.locator("[role=alert]").count() == 1
    walk.answer("17601")
    walk.answer("I don't know")
    assert "paced off" in walk.text
    walk.answer("60 x 70 ft")
    for several in (True, True, False, False, False, True, False):
        if several:  # grass, depth and days are asked with something else
            walk.choose("I don't know")
            walk.press("Go on")
        else:
            walk.press("I don't know")
    walk.press("Make the plan")
    if "The plan is made" not in walk.text:
        assert walk.page.locator("[role=alert]").count() == 1
        walk.follow("I don't know: sow nothing")
        walk.choose("Seed over the whole lawn")
        walk.press("Make the plan")
    assert "The plan is made" in walk.text
    walk.follow("See the plan")
    (folder,) = (reached.home.root / "lawns").iterdir()
    plan = read_plan(folder)
    assert plan is not None and plan.lawn.depth_mm == 0


def edited(walk: Walk, reached: Reached) -> None:
    """The lawn's text changed on its page, and planned with."""
    walk.claim(reached.home.once())
    walk.follow("The lawn")
    field_ = walk.page.get_by_label("The text", exact=True)
    text = field_.input_value()
    walk.fill(field_, text.replace('depth = "1 in"', 'depth = "0.5 in"'))
    walk.press("Save, and plan with it")
    assert "It is saved" in walk.text
    assert reached.home.plan().lawn.depth_mm == pytest.approx(12.7)


def what_if(walk: Walk, reached: Reached) -> None:
    """Shown first, and kept on one press more."""
    walk.claim(reached.home.once())
    walk.follow("Season")
    walk.open("What if?")
    walk.fill(walk.page.get_by_label("How low it is on average"), "0.5 in")
    before = reached.home.plan()
    walk.press("Show what changes")
    assert walk.page.locator(".compared > div").count() == 6 and reached.home.plan() == before
    walk.press("Change the plan to this")
    assert "It is kept" in walk.text
    assert reached.home.plan().lawn.depth_mm == pytest.approx(12.7)


def subscription(walk: Walk, reached: Reached) -> None:
    """A calendar of one's own; it is said which calendars reach the address."""
    path = subscribed(walk, reached)
    way = {"http://127": "this computer alone", "http://lawn": "works everywhere"}
    assert way.get(walk.base[:11].rstrip("."), "works everywhere") in walk.text
    first = feed(reached, path)
    assert first.status == 200 and first.content.count(b"BEGIN:VEVENT") > 20
    assert feed(reached, path, first.tag).status == 304


def ticked(walk: Walk, reached: Reached) -> None:
    """What was done in part is planned anew: the page says what moved, and the calendar has it."""
    reached.home.day = SPREADING
    path = subscribed(walk, reached)
    walk.follow("Today")
    walk.press("Yes, all as planned")
    before = feed(reached, path)
    walk.open("Other")
    walk.select(walk.page.get_by_label("How much of it").locator("visible=true").first, 2)
    walk.press("Write it down")
    assert "Written down" in walk.text and "What moved last" in walk.text
    after = feed(reached, path, before.tag)
    assert after.status == 200 and after.content != before.content
    last = reached.home.entries()[-1]
    assert (last.kind, last.task, last.share) == ("done", "topdress.1", 0.5)
    assert reached.home.plan().journal_entries == len(reached.home.entries())


def not_today(walk: Walk, reached: Reached) -> None:
    """Put off for want of time: for the next day that serves, in the calendar too."""
    path = subscribed(walk, reached)
    before = feed(reached, path)
    walk.follow("Today")
    walk.open("Not today")
    walk.press("No time")
    assert "was Sat, Mar 6, 2027, now Sun, Mar 7, 2027. It was not done on its day." in walk.text
    assert feed(reached, path, before.tag).status == 200
    assert [entry.kind for entry in reached.home.entries()] == ["not_done"]


def refused(walk: Walk, reached: Reached) -> None:
    """A load that was sent back; it is asked for again."""
    reached.home.day = LOAD
    walk.go(f"/lawn/{reached.home.token('edit', 'Ana')}")
    walk.press("Yes, all as planned")
    walk.open("Not today")
    walk.press("The load was refused")
    assert "the load was refused on Sat, Apr 3" in walk.text and "What moved last" in walk.text
    assert reached.home.entries()[-1].kind == "refused"


def undone(walk: Walk, reached: Reached) -> None:
    """A tick is taken back from what was written, and the job is wanted again."""
    path = subscribed(walk, reached)
    before = feed(reached, path)
    walk.follow("Today")
    walk.press("Done as planned")
    # Done on its own day: the plan knows it, and what the calendar shows of it stays as it is.
    assert reached.home.plan().journal_entries == 1
    assert feed(reached, path, before.tag).status == 304
    walk.follow("What I did")
    walk.press("Undo")
    assert "Taken back" in walk.text
    walk.follow("Today")
    assert "Done as planned" in walk.text
    assert [entry.kind for entry in reached.home.entries()] == ["done", "undo"]


def withdrawn(walk: Walk, reached: Reached) -> None:
    """An address is given to somebody, works, and opens nothing once it is withdrawn."""
    walk.claim(reached.home.once())
    walk.follow("Calendar")
    walk.fill(walk.page.get_by_label("Who it is for"), "Cleo")
    walk.choose("See, and tick off")
    walk.press("Make the address")
    address = walk.page.locator(".address").first.inner_text()
    path = f"/feed/{feed_of_page(address.rpartition('/')[2])}.ics"
    guest = walk.page.context.browser.new_context()
    try:
        page = guest.new_page()
        assert page.goto(address).status == 200 and feed(reached, path).status == 200
        walk.follow("Back")
        walk.press("Withdraw Cleo")
        assert "Withdrawn" in walk.text
        assert page.goto(address).status == 410 and feed(reached, path).status == 410
    finally:
        guest.close()


def taken(walk: Walk, reached: Reached) -> None:
    """All of the lawn in one file, which opens elsewhere."""
    walk.claim(reached.home.once())
    walk.press("Done as planned")
    walk.follow("The lawn")
    with walk.page.expect_download() as download:
        walk.press_there("Get the file", "link")
    there = reached.home.root / "there"
    copy = reached.home.root / "copy"
    download.value.save_as(copy)
    restore_lawns(copy, there)
    (found,) = there.rglob("plan.json")
    assert read_plan(found.parent) == reached.home.plan()


def deleted(walk: Walk, reached: Reached) -> None:
    """Once the box is ticked, for good, with every address."""
    path = subscribed(walk, reached)
    walk.follow("The lawn")
    walk.press("Delete this lawn")
    assert "Tick the box first" in walk.text
    walk.choose("Delete this lawn for good")
    walk.press("Delete this lawn")
    assert "is deleted" in walk.text
    assert walk.go("/") == 200 and "None is served yet" in walk.text
    assert feed(reached, path).status == 404


# Those that begin without a lawn come first.
JOURNEYS: tuple[Callable[[Walk, Reached], None], ...] = (
    from_nothing,
    nothing_known,
    edited,
    what_if,
    subscription,
    ticked,
    not_today,
    refused,
    undone,
    withdrawn,
    taken,
    deleted,
)
WITHOUT_LAWN = JOURNEYS[:2]


class Dealt(NamedTuple):
    """A journey with the way in which it is walked."""

    journey: str
    way: Way
    width: int
    scripts: bool
    keys: bool


def dealt() -> list[Dealt]:
    """For each journey a way under each address: each of the widths once, scripts and none, pointer
    and keyboard; from journey to journey they fall on other addresses."""
    found: list[Dealt] = []
    for number, journey in enumerate(JOURNEYS):
        for turn, way in enumerate(WAYS):
            width = WIDTHS[(number + turn) % 3]
            scripts, keys = (number + turn) % 2 == 0, (number // 2 + turn) % 2 == 0
            found.append(Dealt(journey.__name__, way, width, scripts, keys))
    return found


# What the quick tier keeps of them.
QUICK = [one for number, one in enumerate(dealt()) if number in (1, 8, 10, 16, 18, 26, 28, 34)]


def test_each_journey_is_walked_in_each_way() -> None:
    """Under each address, in each width, with and without scripts, by pointer and by keyboard; and
    over all journeys each pair of two ways is met."""
    ways = [set(), set(), set(), set()]  # type: list[set[Any]]
    for journey in JOURNEYS:
        own = [one[1:] for one in dealt() if one[0] == journey.__name__]
        assert [len(set(each)) for each in zip(*own, strict=True)] == [3, 3, 2, 2], journey
        for kept, each in zip(ways, zip(*own, strict=True), strict=True):
            kept.update(each)
    for one in range(4):
        for other in range(one):
            met = {(walk[1 + one], walk[1 + other]) for walk in dealt()}
            assert len(met) == len(ways[one]) * len(ways[other])


@pytest.mark.parametrize("dealt", sampled(dealt(), *QUICK), ids=lambda one: "-".join(map(str, one)))
def test_a_journey(
    browser: Any,
    served: Callable[[Way], Reached],
    monkeypatch: pytest.MonkeyPatch,
    dealt: Dealt,
) -> None:
    """To its end, with nothing cut off sideways or too small for a thumb on any screen passed, no
    fault of a script, and no request to another host."""
    # What is asked for is planned in this process: another test does so in earnest.
    monkeypatch.setattr(season_pages, "apart", lambda work, *given: work(*given))
    walked = next(one for one in JOURNEYS if one.__name__ == dealt.journey)
    reached = served(dealt.way)
    reached.fresh(with_lawn=walked not in WITHOUT_LAWN)
    with walking(
        browser, reached.base, dealt.width, scripts=dealt.scripts, keys=dealt.keys
    ) as walk:
        walked(walk, reached)


@full
@pytest.mark.parametrize(
    ("way", "width", "keys"),
    [("machine", NARROW, True), ("name", PHONE, False), ("tls", DESK, True)],
)
def test_a_tick_without_signal_waits_and_is_sent_once(
    browser: Any, reached: Reached, way: Way, width: int, keys: bool
) -> None:
    """It waits on the device with the lawn's day, is told there, and is written once there is
    signal again, though it was sent twice; with TLS the page opens without signal, without it the
    page says that it must stay open.
    """
    home, token = reached.home, reached.home.token("edit", "Ana")
    with opened(browser, width=width) as page:
        walk = Walk(page, reached.base, width, keys)
        # Half past two at night in UTC: where the lawn lies it is the evening of the soil test.
        page.clock.set_fixed_time(datetime.fromisoformat("2027-03-07T02:30:00+00:00"))
        walk.go(f"/lawn/{token}")
        secure = page.evaluate("isSecureContext")
        assert secure is (way != "name")
        if secure:
            page.evaluate("navigator.serviceWorker.ready.then(() => true)")
            page.wait_for_function(
                "caches.open('turfplan').then(c => c.match(location.pathname)).then(Boolean)"
            )
        reached.stop()
        walk.press_there("Done as planned")
        waiting = page.locator("[data-list=waiting]")
        waiting.wait_for(state="visible")
        told = waiting.inner_text()
        assert "Kept on this device" in told and "Take a soil sample" in told
        assert ("Leave the page open" in told) is (not secure)
        if secure:
            page.reload()
            waiting.wait_for(state="visible")
            assert "Take a soil sample" in waiting.inner_text()
        assert home.entries() == ()
        home.day = date(2027, 3, 8)
        reached.start()
        with page.expect_navigation():
            page.evaluate("setTimeout(() => { send(); send(); })")
        page.wait_for_load_state()
        assert page.locator("[data-list=waiting]").is_hidden()
        assert page.evaluate("Object.values(localStorage).join()") in ("[]", "[],[]")
    (entry,) = home.entries()
    assert (entry.kind, entry.task, entry.on, entry.by) == ("done", "soil_test", SOIL_TEST, "Ana")
    assert len(home.planned) == home.plan().journal_entries == 1


@full
@pytest.mark.parametrize("way", ["name"])
def test_what_waited_and_cannot_be_written_is_told(browser: Any, reached: Reached) -> None:
    """A tick whose address was withdrawn meanwhile, or whose job is asked about, is not lost in
    silence; of one job the last word counts, and what waits can be taken back.
    """
    home, token = reached.home, reached.home.token("edit", "Ana")
    with opened(browser, width=PHONE) as page:
        page.clock.set_fixed_time(datetime.fromisoformat("2026-01-02T15:00:00+00:00"))
        page.goto(f"{reached.base}/lawn/{token}")
        reached.stop()
        page.get_by_text("Not today").click()
        page.get_by_role("button", name="No time").click()
        waiting = page.locator("[data-list=waiting]")
        waiting.wait_for(state="visible")
        page.get_by_role("button", name="Done as planned").first.click()
        page.wait_for_function("stored('waiting')[0].fields.includes('do=done')")
        assert waiting.locator("li").count() == 1
        reached.start()
        page.evaluate("setTimeout(send)")
        # Its day is a year before the work: that looks like a slip, and is asked.
        refused = page.locator("[data-list=refused]")
        refused.wait_for(state="visible")
        assert "Take a soil sample" in refused.inner_text() and waiting.is_hidden()
        refused.get_by_role("button", name="All right").click()
        assert refused.is_hidden()
    assert home.entries() == ()


@full
@pytest.mark.parametrize(
    ("way", "width", "scripts"),
    [("machine", NARROW, True), ("name", DESK, False), ("tls", PHONE, True)],
)
def test_two_phones_and_the_command_line_at_once(
    browser: Any, served: Callable[[Way], Reached], way: Way, width: int, scripts: bool
) -> None:
    """Two people tick the same jobs, then each another one, while `turfplan log` writes one of
    them: each counts once, each page says who ticked what, and the plan knows all of it."""
    reached = served(way)
    reached.fresh(with_lawn=True)
    home = reached.home
    home.day = SPREADING
    brief = home.root / f"{LAWN}.toml"

    def log(task: str, on: date) -> "subprocess.Popen[str]":
        words = ["log", str(brief), "done", task, "--on", str(on), "-o", str(home.root / LAWN)]
        words += ["--today", str(home.day), "--by", "Cleo"]
        line = [sys.executable, "-m", "turfplan", *words]
        return subprocess.Popen(
            line, cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
        )

    with ExitStack() as stack:
        walks = [
            stack.enter_context(walking(browser, reached.base, width, scripts=scripts, keys=False))
            for _ in range(2)
        ]
        for walk, name in zip(walks, ("Ana", "Bo"), strict=True):
            walk.go(f"/lawn/{home.token('edit', name)}")
        due = [
            task.id for task in home.plan().tasks if task.series is None and task.start < home.day
        ]
        by_command = log("soil_test", SOIL_TEST)
        at_once(walks, "Yes, all as planned")
        by_command.communicate(timeout=120)
        # Who came second with the command is asked back, and has written nothing.
        assert by_command.returncode in (0, 2, 3)
        entries = standing(home.entries())
        assert sorted(entry.task or "" for entry in entries) == sorted(due)
        for walk in walks:
            walk.follow("What I did")
            for entry in entries:
                assert f"Written by {entry.by}." in walk.text
            walk.follow("Today")
        # The two jobs of the day: each of the phones ticks another one.
        at_once(walks, "This one is done", (0, 1))
        entries = standing(home.entries())
        told = {entry.task: entry.by for entry in entries if entry.task not in due}
        assert told == {"topdress.1": "Ana", "incorporate.1": "Bo"}
        assert len(entries) == len(due) + 2
        assert home.plan().journal_entries == len(home.entries())


def at_once(walks: list[Walk], name: str, numbers: tuple[int, int] = (0, 0)) -> None:
    """Presses a button on each page before any of them is answered, and waits for the answers."""
    buttons = [
        walk.page.get_by_role("button", name=name).locator("visible=true").nth(number)
        for walk, number in zip(walks, numbers, strict=True)
    ]
    for button in buttons:
        button.click(no_wait_after=True)
    for walk in walks:
        walk.page.wait_for_url(re.compile(r"[?&](told|known)="))
        walk.page.wait_for_load_state()
