"""Writes a plan's feed as a file for any web host, and looks for a plan to serve."""

import hashlib
import secrets
from pathlib import Path

from turfplan.errors import Problem, TurfplanError
from turfplan.files.plan_folder import folder_lock, write_outputs
from turfplan.phrases import errors
from turfplan.phrases import files as phrases

NAMES = ".turfplan-names"


def planned_folder(folder: Path) -> Path:
    """The folder, which holds a plan; raises TurfplanError for one that holds none."""
    if not (folder / "plan.json").is_file():
        hint = errors.make_plan_first(command="turfplan plan BRIEF -o DIR")
        raise TurfplanError(Problem(str(folder), phrases.no_plan(), hint=hint))
    return folder


def publish_feed(folder: Path, to: Path) -> Path:
    """Write the feed of a plan folder into `to`; returns its path.

    Its name cannot be guessed and stays. The names follow from a secret that `to` keeps in
    `.turfplan-names`. Raises TurfplanError.
    """
    content = (planned_folder(folder) / "season.ics").read_bytes()
    with folder_lock(to):
        secret = to / NAMES
        key = (
            secret.read_text(encoding="utf-8").strip()
            if secret.is_file()
            else secrets.token_urlsafe(32)
        )
        name = hashlib.sha256(f"{key}\n{folder.resolve()}".encode()).hexdigest()[:44] + ".ics"
        write_outputs(to, {NAMES: f"{key}\n".encode(), name: content})
    return to / name
