"""Plans a lawn for every row of a file of clients, each into a folder of its own."""

import csv
import io
from collections.abc import Callable, Mapping, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, replace
from datetime import date
from functools import partial
from pathlib import Path
from typing import Literal

from turfplan.app.client_import import import_row
from turfplan.app.inputs import language_of
from turfplan.app.lawn_identity import shared_identity
from turfplan.app.plan_lawn import PlanRun, plan_lawn
from turfplan.errors import Problem, TurfplanError
from turfplan.files.data_folder import BRIEF, known_lawn_id, lawn_folders, lawns_in
from turfplan.files.reading.brief import journal_beside
from turfplan.files.reading.clients import ClientRow, read_clients
from turfplan.files.system_faults import reason_of, unwritable
from turfplan.files.whole_files import write_into_folders
from turfplan.messages.problems import error_text, words_for_errors
from turfplan.phrases import files as phrases
from turfplan.records.plan import Plan

HEADS = ("client", "state", "campaign", "first work", "seed or last pass", "order")
RowState = Literal["planned", "not possible", "bad row", "not written"]


@dataclass(frozen=True, slots=True)
class ClientSeason:
    """What became of a row: its line of the summary under `HEADS`, and what the user must know of
    it.

    `campaign` says what is wrong where the state is not `planned`, `order` the ways out where it is
    `not possible`.
    """

    line: int
    client: str
    state: RowState
    campaign: str
    first_work: date | None = None
    main_work: date | None = None
    order: str = ""
    notes: tuple[str, ...] = ()

    @property
    def cells(self) -> tuple[str, ...]:
        """The row of the summary."""
        first, main = (day.isoformat() if day else "" for day in (self.first_work, self.main_work))
        return (self.client, self.state, self.campaign, first, main, self.order)


def plan_clients(
    file: Path,
    output: Path,
    *,
    seen: Callable[[ClientSeason, int, int], None],
    run: PlanRun,
    processes: int = 2,
) -> tuple[ClientSeason, ...]:
    """Bring every row of a file into a folder of the data folder `output`, and plan it there, with
    `summary.csv`; a bad row never stops the rest.

    `seen` hears of each row in the order of the file, with how many are done and how many there
    are. Raises TurfplanError for a file that cannot be read or a summary that cannot be written.
    """
    lawns = lawns_in(output)
    rows = _told_apart(read_clients(file), lawns)
    seasons: list[ClientSeason] = []
    one = partial(plan_client, file=file, lawns=lawns, run=run)
    with ProcessPoolExecutor(max_workers=processes) as pool:
        for season in pool.map(one, rows):
            seasons.append(season)
            seen(season, len(seasons), len(rows))
    _write_summary(output / "summary.csv", seasons)
    return tuple(seasons)


def _told_apart(rows: Sequence[ClientRow], lawns: Path) -> tuple[ClientRow, ...]:
    """The rows; one whose lawn has the identity of another, of a row or of a folder beside it, is a
    bad one."""
    folders = {folder: known_lawn_id(folder) for folder in lawn_folders(lawns)}
    for row in rows:
        if row.brief is None:
            continue
        wanted = row.brief.lawn.id
        if wanted or lawns / row.id not in folders:
            folders[lawns / row.id] = wanted or known_lawn_id(lawns / row.id)
    of_id: dict[str | None, list[Path]] = {}
    for folder, lawn_id in folders.items():
        of_id.setdefault(lawn_id, []).append(folder)
    return tuple(_apart(row, folders, of_id, lawns / row.id) for row in rows)


def _apart(
    row: ClientRow,
    folders: Mapping[Path, str | None],
    of_id: Mapping[str | None, Sequence[Path]],
    folder: Path,
) -> ClientRow:
    """A row, with its problem where its lawn's identity is that of another folder too."""
    lawn_id = folders.get(folder) if row.brief is not None else None
    others = [other for other in of_id.get(lawn_id, ()) if other != folder]
    if lawn_id is None or not others:
        return row
    return replace(row, problem=TurfplanError(shared_identity(folder, others[0], lawn_id)))


def plan_client(row: ClientRow, *, file: Path, lawns: Path, run: PlanRun) -> ClientSeason:
    """Bring one row into its folder and plan it; every fault of the input, and of the disk, becomes
    words.

    File names start from the folder of `file`.
    """
    notes: list[str] = []
    try:
        if row.problem is not None or row.brief is None:
            raise row.problem or TurfplanError(Problem(f"line {row.line}", phrases.no_brief()))
        folder = lawns / row.id
        done = plan_lawn(
            import_row(row, file, folder),
            folder,
            journal_beside(folder / BRIEF),
            tell=notes.append,
            run=replace(run, alone=True),
        )
    except TurfplanError as error:
        fault = error_text(error, words_for_errors(language_of(None)), "; ")
        return ClientSeason(row.line, row.id, "bad row", fault, notes=tuple(notes))
    except OSError as error:
        fault = words_for_errors(language_of(None)).text(reason_of(error))
        return ClientSeason(row.line, row.id, "not written", fault, notes=tuple(notes))
    return _season(row, done.plan, tuple(notes))


def _season(row: ClientRow, plan: Plan, notes: tuple[str, ...]) -> ClientSeason:
    """What the summary says of a plan."""
    if plan.conflict is not None:
        ways = "; ".join(str(option.title) for option in plan.options)
        return ClientSeason(
            row.line,
            row.id,
            "not possible",
            " ".join(map(str, plan.conflict.reasons)),
            order=ways,
            notes=notes,
        )
    work = [task for task in plan.tasks if task.series is None]
    main = [task for task in work if task.plays("spreading", "sowing", "planting")]
    return ClientSeason(
        row.line,
        row.id,
        "planned",
        str(plan.campaign_name),
        min(t.start for t in work),
        max(t.end for t in main),
        "; ".join(f"{line.name} {line.text}" for line in plan.order),
        notes,
    )


def _write_summary(path: Path, seasons: Sequence[ClientSeason]) -> None:
    text = io.StringIO(newline="")
    csv.writer(text).writerows((HEADS, *(season.cells for season in seasons)))
    try:
        write_into_folders({path: text.getvalue().encode()})
    except OSError as error:
        raise TurfplanError(unwritable(path, error)) from None
