"""Letters, messages and addresses of clients: alike when printed again, told once, ended for
good."""

from datetime import date, timedelta
from pathlib import Path

import pytest

from planned_business import DAY, MARKS, plan_again
from turfplan.app.client_letters import client_letter, lawns_to_write_to
from turfplan.app.client_messages import ClientMessage, client_messages, mark_told
from turfplan.app.log_clients import DayLog, log_day
from turfplan.business.client_address import client_token
from turfplan.business.groups import ClientGroup
from turfplan.business.promised_days import PromisedDays, promise_news
from turfplan.errors import TurfplanError
from turfplan.files import index as store
from turfplan.files.data_folder import BUSINESS_KEY, INDEX
from turfplan.files.lawn_files import business_files, lawns_at
from turfplan.files.reading.plan import read_plan

KEY = bytes(range(32))


def told(data: Path, today: date) -> tuple[ClientMessage, ...]:
    """The messages of a day, which count as told."""
    found, notes = client_messages(data, today)
    assert notes == ()
    for one in found:
        mark_told(one)
    return found


def test_a_letter_says_who_does_what_and_when(data: Path) -> None:
    """Under the name of the business, to name and street of the client: its work without the
    office's, waterings and mowing of the client, until when people keep off; no telephone, way in,
    note, price; the same bytes again."""
    ((lawn,), _) = lawns_to_write_to(data, "ash", None, DAY)
    letter = client_letter(data, lawn, None, None).replace("\xa0", " ")
    plan = read_plan(lawn)
    assert plan is not None
    ours, _, yours = letter.partition("What you do")
    for task in plan.tasks:
        # Fractions are set as signs: what stands before one is looked for.
        title = task.title.text.partition("1/")[0]
        if task.plays("spreading", "sowing", "coring"):
            assert title in ours and title not in yours
        if task.plays("first_cut") or task.series is not None:
            assert title in yours and title not in ours
        if task.plays("ordering", "collecting"):
            assert title not in letter
    keep_off = [c for task in plan.tasks for c in task.how if c.key.startswith("keep_off.")]
    assert keep_off and keep_off[0].text.split(",")[0] in yours
    assert "Turf and Tine" in ours and "Ash (invented)" in ours and MARKS["street"] in ours
    assert not [name for name, mark in MARKS.items() if mark in letter and name != "street"]
    assert "USD" not in letter and "<img" not in letter
    assert client_letter(data, lawn, None, None).replace("\xa0", " ") == letter
    assert len(lawns_to_write_to(data, None, ClientGroup("crew", "north"), DAY)[0]) == 2
    with pytest.raises(TurfplanError, match="no lawn"):
        lawns_to_write_to(data, "oak", None, DAY)


def test_a_letter_bears_its_address(data: Path) -> None:
    """As text and as a picture."""
    pytest.importorskip("segno")
    letter = client_letter(data, data / "lawns" / "ash", "https://lawns.example.org/lawn/x", None)
    assert 'href="https://lawns.example.org/lawn/x"' in letter and "data:image/svg" in letter


def test_three_rain_days_are_one_message(data: Path) -> None:
    """Every client is told once; then whose days differ from those last told, with both; nobody
    twice."""
    assert len(told(data, DAY)) == 2 and told(data, DAY) == ()
    plan = read_plan(data / "lawns" / "ash")
    assert plan is not None
    sow = next(task for task in plan.tasks if task.plays("sowing"))
    for later in range(3):
        day = sow.start + timedelta(later)
        log_day(data, DayLog(day, "rained_off"), day, sure=True)
        plan_again(data, day)
    again = told(data, day)
    assert [one.folder.name for one in again] == ["ash", "elm"]
    assert all(one.text.count("was") >= 1 for one in again)
    assert told(data, day) == ()
    text = " ".join(one.text for one in again)
    assert not [mark for mark in MARKS.values() if mark in text]


def test_what_is_news_and_what_is_not() -> None:
    """Other days, new jobs, jobs that fall away; not what is done, nor open and past its days."""
    days = {
        name: PromisedDays(name, DAY, DAY) for name in ("same", "moved", "gone", "done", "late")
    }
    now = {
        "same": days["same"],
        "moved": PromisedDays("moved", DAY + timedelta(1), DAY + timedelta(1)),
        "new": PromisedDays("new", DAY, DAY),
    }
    news = promise_news(days, now, {"same", "moved", "new", "late"}, {"done"})
    assert [one.task for one in news] == ["new", "moved", "gone"]
    assert news[0].before is None and news[2].now is None


def test_an_address_follows_from_the_key() -> None:
    """Another key, lawn or number gives another one; a short key is none."""
    tokens = {
        client_token(KEY, "lawn-1", 1),
        client_token(KEY, "lawn-1", 2),
        client_token(KEY, "lawn-2", 1),
        client_token(KEY[::-1], "lawn-1", 1),
    }
    assert len(tokens) == 4 and client_token(KEY, "lawn-1", 1) in tokens
    assert all(len(token) == 43 for token in tokens)
    with pytest.raises(ValueError, match="short"):
        client_token(KEY[:16], "lawn-1", 1)


def test_an_address_stays_until_it_is_withdrawn(data: Path) -> None:
    """The same each time, to be read alone; then another, and the old one opens nothing, also where
    it was taken back by its number; the key is its owner's alone, and copied."""
    pytest.importorskip("starlette")
    from turfplan.serve import tokens
    from turfplan.serve.client_addresses import client_address, withdraw_address

    lawn = data / "lawns" / "ash"
    address = client_address(data, lawn)
    assert client_address(data, lawn) == address
    assert client_address(data, data / "lawns" / "elm") != address
    assert (data / BUSINESS_KEY).stat().st_mode & 0o777 == 0o600
    assert data / BUSINESS_KEY in business_files(data)
    with store.opened(data / INDEX) as connection:
        found = tokens.find(connection, address)
        assert found is not None and found.kind == "read" and not found.is_gone
    withdraw_address(data, lawn)
    second = client_address(data, lawn)
    assert second != address
    with store.opened(data / INDEX) as connection:
        found, other = tokens.find(connection, address), tokens.find(connection, second)
        assert found is not None and found.is_gone and other is not None
        tokens.revoke(connection, other.id)
    assert client_address(data, lawn) not in (address, second)
    kept = {path.name for one in lawns_at(data) for path in one.records}
    assert "address.json" in kept
    (data / BUSINESS_KEY).write_text("00", encoding="ascii")
    with pytest.raises(TurfplanError, match="damaged"):
        client_address(data, lawn)
