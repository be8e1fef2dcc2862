"""Writers and servers killed at random moments: an eighth each while the journal, a plan, a feed, a
server, a copy, an import, clients that come and go and every command of a business are at work.
"""

from pathlib import Path

from campaigns.records import Campaign, Figures
from test_app_client_import import killed_while_importing
from test_app_clients_at_once import killed_while_coming_and_going
from test_app_restore_lawns import killed_while_copying
from test_cli_clients_killed import killed_while_commanding, lines
from test_files_journal import killed_while_writing
from test_files_plan_folder import killed_while_planning
from test_killed import killed_while_publishing, killed_while_serving, two_versions


def run(count: int, seed: int, folder: Path) -> Figures:
    """At least one kill of each; fails where anything that was acknowledged is lost, or anything is
    left half-written.
    """
    each = max(1, count // 8)
    names = ("journal", "plan", "feed", "server", "copies", "rows", "clients", "lines")
    homes = [folder / name for name in names]
    for home in homes:
        home.mkdir()
    versions = two_versions()
    written = killed_while_writing(homes[0] / "lawn.journal.jsonl", each, seed)
    killed_while_planning(homes[1], each, seed + 1)
    had = killed_while_publishing(homes[2], versions, each, seed + 2)
    assert had == 1, f"the feed has had {had} names"
    ticks = killed_while_serving(homes[3], versions, each, seed + 3)
    copies = killed_while_copying(homes[4], each, seed + 4)
    killed_while_importing(homes[5], each, seed + 5)
    killed_while_coming_and_going(homes[6], each, seed + 6)
    of_lines = killed_while_commanding(homes[7], max(1, each // len(lines())), seed + 7)
    return {
        "kills": 7 * each + of_lines,
        "entries_acknowledged": written,
        "ticks_acknowledged": ticks,
        "whole_copies": copies,
        "commands": len(lines()),
        "lost": 0,
    }


CAMPAIGN = Campaign("kills", size=200, seed=20, unit="kills", run=run)
