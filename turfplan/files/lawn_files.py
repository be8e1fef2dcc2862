"""Which files are a lawn's own, and which lawns lie in a folder: all that cannot be made again."""

import tomllib
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from turfplan.files.data_folder import (
    ADDRESS,
    BRIEF,
    BUSINESS,
    BUSINESS_KEY,
    CALLBACKS,
    CLIENT,
    CLIENTS_FORM,
    LAWNS,
    LEFT,
    OLD_JOURNAL,
    OPERATORS,
    OWNERS,
    PAUSES,
    PLAN,
    QUOTES,
    RULES,
    TOLD_DAYS,
    TOLD_DELIVERIES,
    brief_at,
    brief_lawn_id,
    known_lawn_id,
    output_folder_of,
)
from turfplan.files.journal import put_aside_in
from turfplan.files.publish_record import RECORD
from turfplan.files.reading.brief import journal_beside

# Where lawns lie in a folder that is named: it may be a lawn's, that of several, a data folder, or
# hold such ones.
PLACES = ("", "*/", f"{LAWNS}/*/", "*/*/", f"*/{LAWNS}/*/")


@dataclass(frozen=True, slots=True)
class LawnPlace:
    """Where a lawn lies: the folder of its plan, and its brief where there is one."""

    folder: Path
    brief: Path | None

    @property
    def journal(self) -> Path | None:
        """The journal beside the brief."""
        return journal_beside(self.brief) if self.brief is not None else None

    @property
    def journals(self) -> tuple[Path, ...]:
        """Its journal, what was put aside of it, and the journal of version 0.1."""
        beside = () if self.journal is None else (self.journal, put_aside_in(self.journal))
        return tuple(path for path in (*beside, self.folder / OLD_JOURNAL) if path.is_file())

    @property
    def records(self) -> tuple[Path, ...]:
        """What is kept beside its plan: the client, what was offered and told, the number of the
        client's address, pauses, former owners and callbacks, and under which names it is
        published."""
        names = (CLIENT, QUOTES, TOLD_DAYS, ADDRESS, PAUSES, OWNERS, LEFT, CALLBACKS, RECORD)
        kept = (self.folder / name for name in names)
        return tuple(path for path in kept if path.is_file())

    @property
    def plan(self) -> Path | None:
        """Its plan."""
        path = self.folder / PLAN
        return path if path.is_file() else None


def lawns_at(path: Path) -> tuple[LawnPlace, ...]:
    """The lawns that a path names: a brief, a lawn's or a plan's folder, or all in a folder."""
    path = path.parent.resolve() / path.name if path.is_file() else path.resolve()
    if path.is_file():
        return (_of_brief(path),)
    if not path.is_dir():
        return ()
    briefs = [each for each in sorted(path.glob("*.toml")) if _is_brief(each)]
    held = {
        each.parent
        for place in PLACES
        for name in (BRIEF, PLAN)
        for each in path.glob(place + name)
    }
    found = [*map(_of_brief, briefs), *map(_of_folder, sorted(held))]
    return distinct(found)


def distinct(lawns: Iterable[LawnPlace]) -> tuple[LawnPlace, ...]:
    """Each lawn once: a folder with its brief, where any of them knows it; a brief whose plan was
    made into another folder goes with that plan, which bears its identity."""
    of_folder: dict[Path, LawnPlace] = {}
    for lawn in lawns:
        known = of_folder.get(lawn.folder)
        if known is None or known.brief is None:
            of_folder[lawn.folder] = lawn
    unplanned = {
        lawn_id: lawn
        for lawn in of_folder.values()
        if lawn.brief is not None
        and lawn.plan is None
        and (lawn_id := brief_lawn_id(lawn.brief)) is not None
    }
    for folder, lawn in list(of_folder.items()):
        brief_alone = unplanned.get(known_lawn_id(folder) or "") if lawn.brief is None else None
        if brief_alone is not None:
            of_folder[folder] = LawnPlace(folder, brief_alone.brief)
            of_folder.pop(brief_alone.folder, None)
    return tuple(of_folder[folder] for folder in sorted(of_folder))


def business_files(path: Path) -> tuple[Path, ...]:
    """What a data folder holds of its business: `business.toml`, how its client file is written,
    what suppliers were told, rules of groups and places, the key of its clients' addresses, and who
    may sign in at its page."""
    names = (BUSINESS, CLIENTS_FORM, TOLD_DELIVERIES, RULES, BUSINESS_KEY, OPERATORS)
    found = (path.resolve() / name for name in names)
    return tuple(file for file in found if file.is_file())


def _of_folder(folder: Path) -> LawnPlace:
    brief = brief_at(folder)
    return LawnPlace(folder.resolve(), brief if brief.is_file() else None)


def _of_brief(brief: Path) -> LawnPlace:
    return LawnPlace(output_folder_of(brief).resolve(), brief)


def _is_brief(path: Path) -> bool:
    """Whether a TOML file has the table of a lawn; a damaged one is copied as it is."""
    try:
        return isinstance(tomllib.loads(path.read_text(encoding="utf-8-sig")).get("lawn"), dict)
    except ValueError:
        return journal_beside(path).is_file() or path.with_suffix("").is_dir()
    except OSError:
        return False
