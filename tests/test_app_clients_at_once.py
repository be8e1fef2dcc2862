"""Clients that come and go while a process is killed, or while two people are at work: nothing is
lost, and nothing is there twice."""

import random
import signal
import subprocess
import sys
import time
from concurrent.futures import ThreadPoolExecutor
from datetime import date
from pathlib import Path

from planned_business import DAY, planned_business
from planning import ROOT
from tiers import full
from turfplan.app.client_callbacks import AskedCallback, add_callback, list_callbacks
from turfplan.app.client_ends import NewOwner, come_back, left_lawns, sell, unsell
from turfplan.app.client_pauses import AskedPause, end_pauses, lawns_meant, pause_clients
from turfplan.app.client_quotes import offer_quote
from turfplan.app.client_rules import AskedRule, add_rule, list_rules, undo_rule
from turfplan.files.data_folder import QUOTES, known_lawn_id
from turfplan.files.kept_record import read_kept
from turfplan.files.lawn_standing import KeptQuotes, read_callbacks, read_owners, read_pauses
from turfplan.files.reading.business import read_client

KILLS = 3
BEFORE, AFTER = "Ash (invented)", "Mx New (invented)"
COMING_AND_GOING = """
import sys
from datetime import date
from pathlib import Path
from turfplan.app import client_ends as ends
from turfplan.app.client_callbacks import AskedCallback, add_callback
data, turn, day = Path(sys.argv[1]), sys.argv[2], date(2027, 2, 1)
number = 0
while True:
    number += 1
    callback = add_callback(data, "elm", AskedCallback(f"{turn} {number}", day), day)
    print(callback.text, flush=True)
    owner = ends.NewOwner("Mx New (invented)", {})
    ends.sell(data, "ash", day, owner, data / f"{turn}-{number}.sold")
    ends.unsell(data, "ash")
    ends.leave(data, "ash", day, data / f"{turn}-{number}.left")
    ends.come_back(data, "ash")
"""


def killed_while_coming_and_going(home: Path, kills: int, seed: int) -> int:
    """A process in which a client leaves, comes back and sells, killed so many times; how many
    callbacks it had told of.

    Fails where the lawn, its quote or a callback that was told of is lost, or there twice, or what
    was begun cannot be ended.
    """
    data = planned_business(home)
    number = offer_quote(data, "ash", DAY).quote.number
    lawn_id, chance, told = known_lawn_id(data / "lawns" / "ash"), random.Random(seed), set[str]()
    for turn in range(kills):
        words = [sys.executable, "-c", COMING_AND_GOING, str(data), str(turn)]
        run = subprocess.Popen(words, stdout=subprocess.PIPE, text=True, cwd=ROOT)
        assert run.stdout is not None
        told.add(run.stdout.readline().strip())
        time.sleep(chance.uniform(0, 0.4))
        run.send_signal(signal.SIGKILL)
        with run.stdout as said:
            told |= {line.strip() for line in said if line.endswith("\n")}
        run.wait()
        check_what_stands(data, lawn_id, number, told)
    return len(told)


def check_what_stands(data: Path, lawn_id: str | None, number: str, told: set[str]) -> None:
    """The lawn lies in one place with its quote, whoever has it; what was begun is ended; all
    callbacks that were told of are there once."""
    places = [*(data / "lawns").glob("ash*"), *(data / "archive").glob("ash*")]
    (place,) = (one for one in places if (one / "brief.toml").is_file())
    assert known_lawn_id(place) == lawn_id
    kept, owners = read_kept(place / QUOTES, KeptQuotes), read_owners(place)
    quotes = [*(kept.quotes if kept else ()), *(q for owner in owners for q in owner.quotes)]
    assert {quote.number for quote in quotes} == {number}
    assert read_client(place).name in (BEFORE, AFTER) and len(owners) <= 1
    if "ash" in left_lawns(data):
        come_back(data, "ash")
    lawn = data / "lawns" / "ash"
    if owners and read_client(lawn).name == BEFORE:
        sell(data, "ash", DAY, NewOwner(AFTER, {}), data / "ended.sold")
        (data / "ended.sold").unlink(missing_ok=True)
    if read_owners(lawn):
        assert unsell(data, "ash").name == BEFORE
    assert read_client(lawn).name == BEFORE and read_owners(lawn) == ()
    kept = read_kept(lawn / QUOTES, KeptQuotes)
    assert kept is not None and [quote.number for quote in kept.quotes] == [number]
    texts = [one.text for one in read_callbacks(data / "lawns" / "elm")]
    assert told <= set(texts) and len(texts) == len(set(texts))


@full
def test_killed_while_coming_and_going(tmp_path: Path) -> None:
    """Each time the lawn lies in one place with all that is its own."""
    assert killed_while_coming_and_going(tmp_path, KILLS, 6) >= KILLS


def test_two_at_once(tmp_path: Path) -> None:
    """Each of many callbacks has a number of its own; each rule, pause and quote is there once."""
    data = planned_business(tmp_path)
    lawns = lawns_meant(data, ("ash", "elm"), None)

    def work(number: int) -> None:
        add_callback(data, "ash", AskedCallback(f"visit {number}", DAY), DAY)
        offer_quote(data, ("ash", "elm")[number % 2], DAY)
        pause_clients(data, lawns, AskedPause(date(2027, 3, 1), date(2027, 3, 9)), DAY)
        add_rule(data, AskedRule(permit=True, note=str(number)), DAY)

    with ThreadPoolExecutor(4) as people:
        list(people.map(work, range(8)))
    found = [one.number for _, one in list_callbacks(data)]
    assert sorted(found) == list(range(1, 9))
    quotes = [read_kept(lawn / QUOTES, KeptQuotes) for lawn in lawns]
    numbers = [quote.number for kept in quotes if kept is not None for quote in kept.quotes]
    assert sorted(numbers) == [f"2027-{n:04}" for n in range(1, 9)]
    assert all(len(read_pauses(lawn)) == 1 for lawn in lawns)
    (rule,) = list_rules(data)
    assert undo_rule(data, rule.name) == rule
    assert end_pauses(data, lawns, date(2027, 3, 5)) == 2
