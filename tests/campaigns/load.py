"""Many readers of many feeds at once while plans are written anew: every answer whole, none wrong,
none lost.
"""

import threading
import time
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from random import Random

import httpx2 as httpx

from campaigns.records import Campaign, Figures
from test_killed import two_versions
from test_reader_programs import free_port, wait_for
from turfplan.files import index as store
from turfplan.files.plan_folder import write_outputs
from turfplan.serve import tokens

READERS, LAWNS = 8, 20


def run(count: int, seed: int, folder: Path) -> Figures:
    """So many requests by eight readers; fails where an answer is not a whole feed of one of the
    versions, or a 304.
    """
    versions = two_versions()
    feeds = [_published(folder, number, versions[0]) for number in range(LAWNS)]
    wanted = {version["season.ics"] for version in versions}
    faults: list[str] = []
    answers: list[int] = []
    with _served(folder / "index") as port:
        begin = time.monotonic()
        readers = [
            threading.Thread(
                target=_read,
                args=(port, feeds, Random(seed + n), -(-count // READERS), wanted, faults, answers),
            )
            for n in range(READERS)
        ]
        for reader in readers:
            reader.start()
        chance = Random(seed)
        while any(reader.is_alive() for reader in readers):
            lawn = folder / f"lawn-{chance.randrange(LAWNS)}"
            write_outputs(lawn, {"season.ics": chance.choice(versions)["season.ics"]})
            time.sleep(0.02)
        seconds = time.monotonic() - begin
    assert not faults, faults[:3]
    return {
        "answers": len(answers),
        "not_modified": answers.count(304),
        "answers_a_second": round(len(answers) / seconds),
    }


def _published(folder: Path, number: int, outputs: Mapping[str, bytes]) -> str:
    """A lawn with its outputs; the token of its feed."""
    home = folder / f"lawn-{number}"
    home.mkdir()
    own = outputs["plan.json"].replace(b'"lawn_id": "', f'"lawn_id": "{number}-'.encode())
    write_outputs(home, {**outputs, "plan.json": own})
    with store.opened(folder / "index") as connection:
        return tokens.issue(connection, store.add_lawn(connection, home), "feed")


@contextmanager
def _served(index: Path) -> Iterator[int]:
    """The port of a server that runs in a thread of its own."""
    import uvicorn

    from turfplan.serve.app import ServerSettings, create_app

    port = free_port()
    app = create_app(ServerSettings(index=index, per_minute=10**9))
    server = uvicorn.Server(
        uvicorn.Config(app, host="127.0.0.1", port=port, log_level="error", lifespan="off")
    )
    thread = threading.Thread(target=server.run, daemon=True)
    thread.start()
    wait_for(port)
    try:
        yield port
    finally:
        server.should_exit = True
        thread.join(10)


def _read(
    port: int,
    feeds: list[str],
    chance: Random,
    count: int,
    wanted: set[bytes],
    faults: list[str],
    answers: list[int],
) -> None:
    """One reader: asks for feeds at random, and with the validator that it was given last."""
    seen: dict[str, str] = {}
    with httpx.Client(base_url=f"http://127.0.0.1:{port}", timeout=30) as client:
        for _ in range(count):
            feed = chance.choice(feeds)
            got = client.get(
                f"/feed/{feed}.ics", headers={"If-None-Match": seen[feed]} if feed in seen else {}
            )
            answers.append(got.status_code)
            if got.status_code == 200 and got.content in wanted:
                seen[feed] = got.headers["ETag"]
            elif got.status_code != 304:
                faults.append(f"{got.status_code} with {len(got.content)} bytes")


CAMPAIGN = Campaign("load", size=20_000, seed=3, unit="requests", run=run)
