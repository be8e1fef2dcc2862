"""Plans a lawn for every row of a file of clients, each into a folder of its own."""

import csv
import io
from collections.abc import Callable, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from datetime import date
from functools import partial
from pathlib import Path
from typing import Literal

from turfplan.app.inputs import input_of, language_of
from turfplan.app.plan_lawn import plan_lawn
from turfplan.errors import Problem, TurfplanError
from turfplan.files.reading.clients import ClientRow, read_clients
from turfplan.files.system_faults import reason_of, unwritable
from turfplan.files.whole_files import write_whole
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
    today: date | None = None,
    processes: int = 2,
) -> tuple[ClientSeason, ...]:
    """Plan every row of a file into a folder under `output`, with `summary.csv`; a bad row never
    stops the rest.

    `seen` hears of each row in the order of the file, with how many are done and how many there
    are. Raises TurfplanError for a file that cannot be read or a summary that cannot be written.
    """
    rows = read_clients(file)
    seasons: list[ClientSeason] = []
    one = partial(plan_client, base=file.parent, output=output, today=today)
    with ProcessPoolExecutor(max_workers=processes) as pool:
        for season in pool.map(one, rows):
            seasons.append(season)
            seen(season, len(seasons), len(rows))
    _write_summary(output / "summary.csv", seasons)
    return tuple(seasons)


def plan_client(
    row: ClientRow, *, base: Path, output: Path, today: date | None = None
) -> ClientSeason:
    """Plan one row into its folder; every fault of the input, and of the disk, becomes words.

    File names start from `base`.
    """
    notes: list[str] = []
    try:
        if row.problem is not None or row.brief is None:
            raise row.problem or TurfplanError(Problem(f"line {row.line}", phrases.no_brief()))
        folder = output / row.id
        done = plan_lawn(
            input_of(row.brief, base),
            folder,
            folder / "journal.jsonl",
            tell=notes.append,
            today=today,
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
        path.parent.mkdir(parents=True, exist_ok=True)
        write_whole({path: text.getvalue().encode()})
    except OSError as error:
        raise TurfplanError(unwritable(path, error)) from None
