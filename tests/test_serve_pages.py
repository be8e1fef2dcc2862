"""The served pages as people use them: in a real browser, on a phone, with and without scripts."""

import re
from collections.abc import Callable, Iterator
from datetime import date, timedelta
from pathlib import Path
from typing import Any

import pytest

pytest.importorskip("starlette", reason="the extra web is not installed")
pytest.importorskip("uvicorn", reason="the extra web is not installed")

from screens import DESK, NARROW, PHONE, SMALL, barriers, opened, press, text_of
from served import NIGHT, ServedHome, serving  # after the skips
from test_export_screen import axe, browser  # noqa: F401 — fixtures
from tiers import full, sampled_pairs
from turfplan.files import index as store
from turfplan.serve import tokens

SOIL_TEST, ORDER = date(2027, 3, 6), date(2027, 3, 20)
SPREADING, WATERING = date(2027, 4, 11), date(2027, 9, 15)


@pytest.fixture
def home(tmp_path: Path) -> Iterator[ServedHome]:
    """A lawn that is served in the winter before its season."""
    made = ServedHome(tmp_path)
    made.lawn()
    with serving(made):
        yield made


def all_done(home: ServedHome, page: Any, day: date) -> None:
    """Says of all that was due before a day that it was done as planned."""
    home.day = day
    page.goto(page.url.split("?")[0])
    press(page, "as planned")


def nothing_due(home: ServedHome) -> str:
    return f"/lawn/{home.token('edit', 'Ana')}"


def due(home: ServedHome) -> str:
    home.day = SOIL_TEST
    return nothing_due(home)


def overdue(home: ServedHome) -> str:
    home.day = SPREADING
    return nothing_due(home)


def seen_only(home: ServedHome) -> str:
    home.day = SPREADING
    return f"/lawn/{home.token('read', 'Bo')}"


def watered(home: ServedHome) -> str:
    home.day = WATERING
    return nothing_due(home)


def over(home: ServedHome) -> str:
    address = seen_only(home)
    home.day = date(2029, 6, 1)
    return address


def did(home: ServedHome) -> str:
    return f"{nothing_due(home)}/did"


def season(home: ServedHome) -> str:
    return f"{seen_only(home)}/season"


def calendar(home: ServedHome) -> str:
    return f"/lawn/{home.token('read', 'Bo')}/calendar"


def one_day(home: ServedHome) -> str:
    return f"/lawn/{home.token('read', 'Cleo', day=SPREADING)}"


def free_day(home: ServedHome) -> str:
    return f"/lawn/{home.token('read', 'Cleo', day=date(2027, 2, 2))}"


def silent(home: ServedHome) -> str:
    """A page whose calendar was read once, and not for days since."""
    page = home.token("edit", "Kitchen phone")
    home.client().get(f"/feed/{tokens.feed_of_page(page)}.ics")
    home.day += timedelta(days=4)
    return f"/lawn/{page}"


def failed(home: ServedHome) -> str:
    """A journal that knows more than the plan."""
    from turfplan.app.log_entry import Happening, log_entry

    home.day = SOIL_TEST
    brief = home.lawn().brief
    assert brief is not None
    happening = Happening("done", "soil_test", on=SOIL_TEST)
    log_entry(brief, home.lawn().folder, happening, today=SOIL_TEST, with_effect=False)
    return nothing_due(home)


def damaged(home: ServedHome) -> str:
    (home.root / "cool-overseed.journal.jsonl").write_text("no entry\nnor this\n")
    return due(home)


def no_plan(home: ServedHome) -> str:
    address = nothing_due(home)
    (home.lawn().folder / "plan.json").unlink()
    return address


def withdrawn(home: ServedHome) -> str:
    token = home.token("read", "Bo")
    with store.opened(home.index) as connection:
        found = tokens.find(connection, token)
        assert found is not None and tokens.revoke(connection, found.id)
    return f"/lawn/{token}"


def ended(home: ServedHome) -> str:
    return f"/lawn/{home.token('edit', 'Ana', home.day - timedelta(days=1))}"


def unknown(home: ServedHome) -> str:
    return "/lawn/" + "x" * 43


def nobody(home: ServedHome) -> str:
    return "/"


def not_owner(home: ServedHome) -> str:
    return f"/mine/{home.lawn().id}"


def claim(home: ServedHome) -> str:
    return home.once()


def used_up(home: ServedHome) -> str:
    address = home.once()
    home.once()
    return address


# Each state of each page: what makes it, the status, and words that stand on it.
STATES: dict[str, tuple[Callable[[ServedHome], str], int, str]] = {
    "nothing due": (nothing_due, 200, "Take a soil sample and send it in Sat, Mar 6, in 5 weeks"),
    "due": (due, 200, "Done as planned"),
    "overdue": (overdue, 200, "Yes, all as planned"),
    "seen only": (seen_only, 200, "From here the season can be seen"),
    "watered": (watered, 200, "It rained: skip today"),
    "over": (over, 200, "Nothing to do today"),
    "season": (season, 200, "The days that matter"),
    "done": (did, 200, "Nothing yet"),
    "calendar": (calendar, 200, "Subscribe on this computer"),
    "one day": (one_day, 200, "This address shows the work of this one day"),
    "one day is free": (free_day, 200, "Nothing is planned for this day"),
    "silent": (silent, 200, "Kitchen phone: this calendar has not looked since Feb 1, 2027"),
    "plan failed": (failed, 200, "Try again"),
    "journal damaged": (damaged, 200, "The days below do not know all of it yet"),
    "no plan": (no_plan, 404, "This lawn has no plan yet"),
    "withdrawn": (withdrawn, 410, "no longer works"),
    "ended": (ended, 410, "until a day that is over"),
    "unknown": (unknown, 404, "Not found"),
    "nobody": (nobody, 403, "This browser is not known here"),
    "not the owner": (not_owner, 403, "This browser is not known here"),
    "claim": (claim, 200, "This is my browser"),
    "used up": (used_up, 410, "has been used"),
}
LOOKS = ((NARROW, "light"), (PHONE, "dark"), (DESK, "light"), (DESK, "dark"))
# Each state in two looks, of two widths; the looks take turns, so that each meets many states.
SHOWN = [
    (state, *LOOKS[(n + turn) % len(LOOKS)]) for n, state in enumerate(STATES) for turn in (0, 2)
]


@pytest.mark.parametrize(
    ("state", "width", "scheme"),
    sampled_pairs(SHOWN, *[(state, *LOOKS[n % len(LOOKS)]) for n, state in enumerate(STATES)]),
)
def test_every_page_opens_in_every_state(
    browser: Any,  # noqa: F811
    axe: str,  # noqa: F811
    home: ServedHome,
    state: str,
    width: int,
    scheme: str,
) -> None:
    """With its status and its words; no barrier that a checker finds, nothing cut off sideways,
    nothing too small for a thumb, no fault in the console, no request to another host.
    """
    make, status, words = STATES[state]
    with opened(browser, width=width, scheme=scheme) as page:
        asked: list[str] = []
        faults: list[str] = []
        page.on("request", lambda request: asked.append(request.url))
        page.on("pageerror", lambda error: faults.append(str(error)))
        answer = page.goto(home.base + make(home))
        assert answer.status == status
        assert words in text_of(page), text_of(page)
        for part in page.locator("summary").all():
            part.click()
        assert page.evaluate("document.documentElement.scrollWidth") == width
        assert page.evaluate(SMALL) == []
        assert barriers(page, axe) == []
        assert faults == []
        assert [url for url in asked if not url.startswith((home.base, "data:"))] == []


@pytest.mark.parametrize("scripts", [True, False])
def test_a_tick_is_written_planned_and_told_and_can_be_undone(
    browser: Any,  # noqa: F811
    home: ServedHome,
    scripts: bool,
) -> None:
    """One press writes it down on the lawn's day, in the name of who holds the address; what comes
    next is shown, and what was done can be taken back long after.
    """
    home.day, home.hour = SOIL_TEST + timedelta(days=1), NIGHT
    with opened(browser, scripts=scripts) as page:
        page.goto(f"{home.base}/lawn/{home.token('edit', 'Ana')}")
        assert "Sat, Mar 6, 2027" in text_of(page), "the server's day is not the lawn's"
        press(page, "Done as planned")
        assert "done on Sat, Mar 6. Written by Ana." in text_of(page)
        assert "Next: Measure how deep the fill is before it is ordered Sun, Mar 7" in text_of(page)
        (entry,) = home.entries()
        assert (entry.kind, entry.task, entry.on) == ("done", "soil_test", SOIL_TEST)
        assert (entry.by, entry.way) == ("Ana", "page")
        assert home.plan().journal_entries == 1 and home.planned == [home.lawn().id]
        home.day = SOIL_TEST + timedelta(days=4)
        page.get_by_role("link", name="What I did").click()
        assert "done on Sat, Mar 6. Written by Ana." in text_of(page)
        press(page, "Undo")
        assert "Taken back." in text_of(page)
        soil_test = home.plan().task("soil_test")
        assert soil_test is not None and soil_test.closed is None
        page.get_by_role("link", name="Today").click()
        # It is wanted again, on a day that is still to come.
        assert "Next: Take a soil sample and send it in" in text_of(page)
    assert [(e.kind, e.by, e.way) for e in home.entries()] == [
        ("done", "Ana", "page"),
        ("undo", "Ana", "page"),
    ]


def test_the_second_tick_says_whose_the_first_was_and_counts_once(
    browser: Any,  # noqa: F811
    home: ServedHome,
) -> None:
    """Two people have the same page open, and both tick."""
    home.day = SOIL_TEST
    first, second = home.token("edit", "Ana"), home.token("edit", "Bo")
    with opened(browser) as one, opened(browser) as other:
        one.goto(f"{home.base}/lawn/{first}")
        other.goto(f"{home.base}/lawn/{second}")
        press(one, "Done as planned")
        press(other, "Done as planned")
        assert "Was ticked already, and counts once" in text_of(other)
        assert "done on Sat, Mar 6. Written by Ana." in text_of(other)
    assert len(home.entries()) == 1 and len(home.planned) == 1


def test_not_today_puts_work_off_and_says_what_moved(
    browser: Any,  # noqa: F811
    home: ServedHome,
) -> None:
    """Without time it is for another day, and the page says which, and why."""
    home.day = SOIL_TEST
    with opened(browser) as page:
        page.goto(f"{home.base}/lawn/{home.token('edit', 'Ana')}")
        page.get_by_text("Not today").click()
        press(page, "No time")
        told = text_of(page)
        assert "not done on Sat, Mar 6, still wanted. Written by Ana." in told
        assert "was Sat, Mar 6, 2027, now Sun, Mar 7, 2027. It was not done on its day." in told
        assert "Nothing to do today" in told
    (entry,) = home.entries()
    assert (entry.kind, entry.on) == ("not_done", SOIL_TEST)
    soil_test = home.plan().task("soil_test")
    assert soil_test is not None and soil_test.start == SOIL_TEST + timedelta(days=1)


def test_rain_is_offered_where_it_hinders_and_a_refusal_where_a_load_is_due(
    browser: Any,  # noqa: F811
    home: ServedHome,
) -> None:
    """Nobody is rained off a telephone call, and only a delivery can be refused."""
    address = f"{home.base}/lawn/{home.token('edit', 'Ana')}"
    offered = {}
    with opened(browser) as page:
        for day in (ORDER, date(2027, 4, 3)):
            home.day = day
            page.goto(address)
            offered[day] = text_of(page)
        assert "Rain, or too wet" not in offered[ORDER]
        assert "The load was refused" not in offered[ORDER]
        assert "The load was refused" in offered[date(2027, 4, 3)]
        press(page, "Yes, all as planned")
        page.get_by_text("Not today").click()
        press(page, "The load was refused")
        assert "the load was refused on Sat, Apr 3" in text_of(page)
    assert home.entries()[-1].kind == "refused"


def test_the_jobs_of_a_day_are_ticked_with_one_press(
    browser: Any,  # noqa: F811
    home: ServedHome,
) -> None:
    """What was due before is one question, what is due today one press; deep, many and by when
    stand beside the first job.
    """
    with opened(browser) as page:
        page.goto(f"{home.base}/lawn/{home.token('edit', 'Ana')}")
        all_done(home, page, SPREADING)
        figures = page.locator(".job .figures").first.inner_text().split("\n")
        assert figures[:4] == ["1/4 in", "Depth", "33", "Barrow loads"] or set(figures[:4]) == {
            "1/4 in",
            "Depth",
            "33",
            "Barrow loads",
        }
        assert "At the latest" in figures
        press(page, "All 2 done as planned")
        assert "Nothing to do today" in text_of(page)
    done = {entry.task: entry.on for entry in home.entries()}
    assert done["topdress.1"] == done["incorporate.1"] == SPREADING
    assert done["soil_test"] == SOIL_TEST


def test_what_is_over_is_answered_one_by_one(
    browser: Any,  # noqa: F811
    home: ServedHome,
) -> None:
    """On another day, not done, left out; what is not answered is asked again."""
    home.day = date(2027, 3, 30)
    with opened(browser, scripts=False) as page:
        page.goto(f"{home.base}/lawn/{home.token('edit', 'Ana')}")
        page.get_by_text("one by one").click()
        page.get_by_role("group", name="Order 7.5").get_by_label("Done on another day:").check()
        page.locator('input[name="on:order_material.1"]').fill("2027-03-22")
        page.get_by_role("group", name="utility marks").get_by_label("Not done").check()
        press(page, "Write it down")
        told = text_of(page)
        assert "done on Mon, Mar 22" in told and "not done, still wanted" in told
        # What was not answered, with the call that reserves the machine.
        left = "Sat, Mar 6 Take a soil sample and send it in Sun, Mar 7 Measure how deep the fill"
        left += " is before it is ordered Sat, Mar 27 Reserve core aerator"
        assert f"Were these 3 done? {left} Yes, all as planned" in told
    kinds = {entry.task: (entry.kind, entry.on) for entry in home.entries()}
    assert kinds == {
        "order_material.1": ("done", date(2027, 3, 22)),
        "locate_utilities.1": ("not_done", None),
    }


def test_what_looks_like_a_slip_is_asked_back_beside_what_was_filled_in(
    browser: Any,  # noqa: F811
    home: ServedHome,
) -> None:
    """Tenfold of what was planned: nothing is written until it is put right or confirmed."""
    home.day = date(2027, 4, 3)
    with opened(browser, scripts=False) as page:
        page.goto(f"{home.base}/lawn/{home.token('edit', 'Ana')}")
        press(page, "Yes, all as planned")
        page.get_by_text("Other", exact=True).click()
        page.get_by_label("Amount used").fill("37.5 yd3")
        press(page, "Write it down")
        assert "10 times what the plan has" in text_of(page)
        assert page.get_by_label("Amount used").input_value() == "37.5 yd3"
        before = len(home.entries())
        page.get_by_label("Amount used").fill("3.5 yd3")
        press(page, "Write it down as changed")
        (entry,) = home.entries()[before:]
    assert (entry.kind, entry.task) == ("delivered", "delivery.1")
    assert entry.amount == pytest.approx(3.5 * 0.764554857984)


def test_a_slip_that_is_confirmed_is_written(browser: Any, home: ServedHome) -> None:  # noqa: F811
    """A job ahead of its day is asked back once, and kept."""
    home.day = SOIL_TEST
    with opened(browser) as page:
        page.goto(f"{home.base}/lawn/{home.token('edit', 'Ana')}")
        page.get_by_text("Other", exact=True).click()
        page.get_by_label("Done on").fill("2026-03-06")
        press(page, "Write it down")
        assert "days from the days of" in text_of(page) and home.entries() == ()
        press(page, "It is right: write it down")
        assert "Written down" in text_of(page)
    assert home.entries()[0].on == date(2026, 3, 6)


def test_a_wish_that_cannot_be_planned_is_told_with_days_that_work(
    browser: Any,  # noqa: F811
    home: ServedHome,
) -> None:
    """A pass in the heat is refused, with its reason, and the day can be put right."""
    with opened(browser, scripts=False) as page:
        page.goto(f"{home.base}/lawn/{home.token('edit', 'Ana')}")
        all_done(home, page, SPREADING)
        before = len(home.entries())
        card = page.locator("article", has_text="Top-dress pass 1")
        card.get_by_text("Other", exact=True).click()
        card.get_by_label("Day", exact=True).fill("2027-07-25")
        with page.expect_navigation():
            card.get_by_role("button", name="Keep it for that day").click()
        told = text_of(page)
        assert "This was not written down" in told and "ays that work:" in told, told
        assert len(home.entries()) == before
        page.get_by_label("Day", exact=True).fill("2027-04-18")
        press(page, "Write it down as changed")
        assert "kept for Sun, Apr 18" in text_of(page)
    spread = home.plan().task("topdress.1")
    assert spread is not None and spread.start == date(2027, 4, 18)


def test_rain_skips_the_waterings_of_today_with_one_press(
    browser: Any,  # noqa: F811
    home: ServedHome,
) -> None:
    """The day is taken off the series; waterings are never asked about."""
    with opened(browser, scripts=False) as page:
        page.goto(f"{home.base}/lawn/{home.token('edit', 'Ana')}")
        all_done(home, page, WATERING)
        runs = page.locator("section", has_text="Water today").locator("li").count()
        assert runs > 1 and text_of(page).count("It rained: skip today") == 1
        press(page, "It rained: skip today")
        told = text_of(page)
        assert "It rained: skip today" not in told
        assert told.count("Skipped today: it rained.") == runs
        entries = home.entries()[-runs:]
        assert {(entry.kind, entry.on) for entry in entries} == {("rained_off", WATERING)}
        for entry in entries:
            task = home.plan().task(entry.task or "")
            assert task is not None and task.series is not None and WATERING in task.series.skip
        home.day = WATERING + timedelta(days=3)
        page.goto(page.url.split("?")[0])
        assert "Was this done?" not in text_of(page)


def test_a_plan_that_fails_is_told_until_it_is_made(
    browser: Any,  # noqa: F811
    home: ServedHome,
) -> None:
    """The tick stands, the reasons stand beside it, and it can be tried again."""
    home.day, home.refusals = SOIL_TEST, ("no day is left",)
    with opened(browser) as page:
        page.goto(f"{home.base}/lawn/{home.token('edit', 'Ana')}")
        press(page, "Done as planned")
        assert "No day is left." in text_of(page)
        assert "Nothing to do today" in text_of(page), "what was ticked is not asked again"
        home.refusals = ()
        press(page, "Try again")
        assert "No day is left" not in text_of(page) and "Try again" not in text_of(page)
    assert home.plan().journal_entries == 1


def test_the_owner_is_who_opens_the_address_first(
    browser: Any,  # noqa: F811
    home: ServedHome,
) -> None:
    """It works once, in one browser, whose cookie no script reads; no machine and no network is a
    right, and an owner who is lost is made anew.
    """
    once = home.once()
    with opened(browser) as page, opened(browser) as other:
        for _ in range(2):
            page.goto(home.base + once)
        page.get_by_label("What to call it").fill("Kitchen phone")
        press(page, "This is my browser")
        assert page.url == f"{home.base}/mine/{home.lawn().id}"
        (cookie,) = page.context.cookies()
        assert (cookie["httpOnly"], cookie["sameSite"], cookie["path"]) == (True, "Lax", "/")
        assert page.evaluate("document.cookie") == ""
        assert other.goto(home.base + once).status == 410
        assert other.goto(home.base).status == 403
        assert other.goto(f"{home.base}/mine/{home.lawn().id}").status == 403
        page.get_by_role("link", name="Calendar").click()
        assert "Kitchen phone" in text_of(page)
        with page.expect_navigation():
            page.get_by_role("button", name="Withdraw Kitchen phone").click()
        assert "This browser is not known here" in text_of(page)
        other.goto(home.base + home.once())
        press(other, "This is my browser")
        assert other.url == f"{home.base}/mine/{home.lawn().id}"


def test_addresses_are_given_with_a_right_and_an_end_and_withdrawn(
    browser: Any,  # noqa: F811
    home: ServedHome,
) -> None:
    """The owner sees who holds what, until when, and when it was last read; a withdrawn address
    opens nothing at once.
    """
    with opened(browser, scripts=False) as page, opened(browser) as guest:
        page.goto(home.base + home.once())
        press(page, "This is my browser")
        page.get_by_role("link", name="Calendar").click()
        page.get_by_label("Who it is for").fill("Cleo")
        page.get_by_label("See, and tick off").check()
        page.get_by_text("An end, or certain days only").click()
        page.get_by_label("Last day").fill("2027-02-20")
        press(page, "Make the address")
        address = page.locator(".address").first.inner_text()
        assert address.startswith(f"{home.base}/lawn/")
        page.get_by_role("link", name="Calendar").click()
        assert address not in page.content()
        told = text_of(page)
        assert "Cleo Sees and ticks off" in told and "Until Feb 20, 2027. Never read." in told
        assert guest.goto(address).status == 200
        guest.get_by_role("link", name="Calendar").click()
        feed = guest.locator(".address a").inner_text()
        assert guest.request.get(feed).status == 200
        page.reload()
        assert "Last read within the hour." in text_of(page)
        home.day = date(2027, 2, 21)
        assert guest.goto(address).status == guest.request.get(feed).status == 410
        home.day = date(2027, 2, 2)
        with page.expect_navigation():
            page.get_by_role("button", name="Withdraw Cleo").click()
        assert guest.goto(address).status == guest.request.get(feed).status == 410
        press(page, "Put it into my calendar")
        mine = page.locator(".address a").inner_text()
        assert guest.request.get(mine).headers["content-type"].startswith("text/calendar")


def test_an_address_never_shows_another_lawn(
    browser: Any,  # noqa: F811
    home: ServedHome,
) -> None:
    """Not its page, not its calendar, not its journal, not its addresses."""
    other = home.lawn("bermuda-sand")
    token = home.token("edit", "Ana")
    home.day = SOIL_TEST
    with opened(browser) as page:
        page.goto(f"{home.base}/lawn/{token}")
        asked = page.request
        here = {"origin": home.base}
        for form in (
            {"do": "withdraw", "number": "1"},
            {"do": "give", "kind": "edit", "label": "x"},
            {"do": "withdraw_browser", "number": "1"},
        ):
            answer = asked.post(f"{home.base}/lawn/{token}", form=form, headers=here)
            assert answer.status == 403
        assert asked.get(f"{home.base}/mine/{other.id}").status == 403
        # Another lawn's plan in its folder is not shown either.
        mine = home.lawn().folder / "plan.json"
        kept = mine.read_bytes()
        mine.write_bytes((other.folder / "plan.json").read_bytes())
        assert page.goto(f"{home.base}/lawn/{token}").status == 404
        mine.write_bytes(kept)
        assert page.goto(f"{home.base}/lawn/{token}").status == 200
        assert asked.get(f"{home.base}/lawn/{token}/../{other.id}").status == 404
    assert not (home.root / "bermuda-sand.journal.jsonl").exists()


def test_who_only_sees_cannot_tick(browser: Any, home: ServedHome) -> None:  # noqa: F811
    """No button, and no form that is sent all the same."""
    home.day = SOIL_TEST
    address = f"{home.base}/lawn/{home.token('read', 'Bo')}"
    with opened(browser) as page:
        page.goto(address)
        assert page.get_by_role("button").count() == 0
        for form in (
            {"do": "done", "job": "soil_test"},
            {"do": "undo", "number": "1"},
            {"do": "replan"},
            {"do": "rain", "watering": "x"},
        ):
            answer = page.request.post(address, form=form, headers={"origin": home.base})
            assert answer.status == 403
    assert home.entries() == () and home.planned == []


@full
def test_an_address_is_taken_back_from_its_own_page(
    browser: Any,  # noqa: F811
    home: ServedHome,
) -> None:
    """Once the box is ticked, for good."""
    address = f"{home.base}/lawn/{home.token('read', 'Bo')}"
    with opened(browser) as page:
        page.goto(f"{address}/calendar")
        press(page, "Take the address back")
        assert "Tick the box first" in text_of(page)
        page.get_by_label("stop working for good").check()
        press(page, "Take the address back")
        assert "no longer works" in text_of(page)
        assert page.goto(address).status == 410
    assert re.fullmatch(r"http://127\.0\.0\.1:\d+/lawn/[\w-]{43}", address)
