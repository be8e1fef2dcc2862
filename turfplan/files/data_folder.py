"""The layout of a data folder: `lawns/ID/brief.toml` with all of a lawn beside it, above them what
belongs to all lawns.
"""

import re
from collections.abc import Iterable
from pathlib import Path

LAWNS = "lawns"
BRIEF = "brief.toml"
CLIENT = "client.toml"
BUSINESS = "business.toml"
INDEX = "turfplan.index"
ARCHIVE = "archive"
# How the client file of a business is written.
CLIENTS_FORM = "clients.form.json"
# What was offered for a lawn, beside its brief.
QUOTES = "quotes.json"
# Which days its client was last told, and the number of the client's address.
TOLD_DAYS = "told.json"
ADDRESS = "address.json"
# The key from which the addresses of clients follow.
BUSINESS_KEY = "business.key"
# Who may sign in at the office page, with their passwords hashed.
OPERATORS = "operators.json"
# What suppliers were last told of deliveries.
TOLD_DELIVERIES = "deliveries.told.json"
# When the lawn's client is paused, who had it before, that its client has left, and what a client
# has called back for.
PAUSES = "pauses.json"
OWNERS = "owners.json"
LEFT = "left.json"
CALLBACKS = "callbacks.json"
# What holds for a group of clients or a place: bans on watering, permits.
RULES = "clients.rules.json"
# What is known of many lawns at one look; it is made again where it is missing.
GLANCES = "clients.index"
PLAN = "plan.json"
# The journal in a plan's folder, as version 0.1 kept it for clients.
OLD_JOURNAL = "journal.jsonl"
# plan.json says whose it is before anything that is long.
_HEAD_BYTES = 4096
_LAWN_ID = re.compile(rb'"lawn_id":\s*"([^"\\]+)"')


def brief_at(path: Path) -> Path:
    """The brief that a path names: itself, the one in a lawn's folder, or the one beside a plan's
    folder that bears its name."""
    if not path.is_dir():
        return path
    beside = path.absolute().with_name(f"{path.absolute().name}.toml")
    return next((brief for brief in (path / BRIEF, beside) if brief.is_file()), path)


def output_folder_of(brief: Path) -> Path:
    """Where the outputs of a brief go: beside one in a lawn's folder, else a folder of its name. A
    plan that is named in its place lies among them."""
    return brief.parent if brief.name in (BRIEF, PLAN) else brief.with_suffix("")


def lawns_in(folder: Path) -> Path:
    """The folder in which the lawns of a data folder lie: its `lawns`, or, as version 0.1 had it
    for clients, the folder itself where it has neither that nor a `business.toml`."""
    split = (folder / LAWNS).is_dir() or (folder / BUSINESS).is_file()
    return folder / LAWNS if split else folder


def lawns_for_import(folder: Path) -> Path:
    """The folder into which lawns are brought: that of `lawns_in`, and `lawns` where no lawn lies
    in the data folder yet."""
    return lawns_in(folder) if lawn_folders(folder) else folder / LAWNS


def root_of(lawn: Path) -> Path:
    """The data folder of a lawn's folder."""
    above = lawn.absolute().parent
    return above.parent if above.name == LAWNS else above


def lawn_folders(lawns: Path) -> tuple[Path, ...]:
    """The folders of lawns in a folder, those that hold a brief, by name."""
    if not lawns.is_dir():
        return ()
    return tuple(sorted(path for path in lawns.iterdir() if (path / BRIEF).is_file()))


def planned_lawns(folder: Path) -> tuple[Path, ...]:
    """The lawns of a data folder that have a plan; none of a folder that holds a plan itself."""
    if (folder / PLAN).is_file():
        return ()
    lawns = lawn_folders(lawns_in(folder))
    return tuple(lawn for lawn in lawns if (lawn / PLAN).is_file())


def is_new_home(folder: Path) -> bool:
    """Whether a folder is there for lawns that are still to come: it holds nothing but, at most,
    its index and `lawns` without any."""
    if not folder.is_dir() or folder.absolute().parent.name == LAWNS:
        return False
    beside = [path for path in folder.iterdir() if not path.name.startswith((".", INDEX))]
    return all(path.name == LAWNS and not lawn_folders(path) for path in beside)


def index_for(folders: Iterable[Path]) -> Path:
    """The index that serves some folders: that of their data folder where they lie in one, or are
    one, else that of the working directory."""
    for folder in folders:
        if (folder / LAWNS).is_dir() or is_new_home(folder):
            return folder / INDEX
        if folder.absolute().parent.name == LAWNS:
            return root_of(folder) / INDEX
    return Path(INDEX)


def known_lawn_id(folder: Path) -> str | None:
    """The identity that a lawn's folder has by its plan, else by its brief; None without either."""
    try:
        with (folder / PLAN).open("rb") as file:
            found = plan_lawn_id(file.read(_HEAD_BYTES))
    except OSError:
        found = None
    return found or brief_lawn_id(folder / BRIEF)


def plan_lawn_id(plan: bytes) -> str | None:
    """The identity that a plan's bytes say, or the beginning of them."""
    found = _LAWN_ID.search(plan[:_HEAD_BYTES])
    return found[1].decode(errors="replace") if found else None


def brief_lawn_id(brief: Path) -> str | None:
    """The `lawn.id` of a brief's file; None for one that says none or is no brief, which is told
    where it is read."""
    # Only here: what shows a plan reads no brief.
    import tomllib

    try:
        lawn = tomllib.loads(brief.read_text(encoding="utf-8-sig")).get("lawn")
    except (OSError, ValueError):
        return None
    found = lawn.get("id") if isinstance(lawn, dict) else None
    return found if isinstance(found, str) else None
