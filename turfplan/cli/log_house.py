"""`turfplan log FOLDER today`: goes through what was due on every lawn of a house."""

import json
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import typer

from turfplan.cli.log_today import ask_due, due_rows, print_due
from turfplan.cli.log_writing import LogCall, on_terminal, write
from turfplan.cli.speech import say, show_faults
from turfplan.phrases import house as phrases

if TYPE_CHECKING:
    from turfplan.app.log_entry import Happening
    from turfplan.errors import TurfplanError


def went_through_house(call: LogCall, day: date | None) -> bool:
    """Whether what was named is a house, and what was due on its lawns was gone through."""
    from turfplan.errors import Problem, TurfplanError
    from turfplan.files.house_folder import house_at

    root = house_at(call.brief)
    if root is None:
        return False
    if call.output is not None:
        fault = phrases.each_its_folder()
        raise TurfplanError(Problem("-o", fault, str(call.output), hint=phrases.leave_out()))
    _go_through(root, call, day)
    return True


def _go_through(root: Path, call: LogCall, day: date | None) -> None:
    """What was due and has no entry, lawn by lawn; a lawn that cannot be read is told of last, and
    the others are gone through."""
    from turfplan.app.due_tasks import due_tasks
    from turfplan.errors import TurfplanError
    from turfplan.files.data_folder import BRIEF
    from turfplan.files.house_folder import lawns_of_house

    faults: list[TurfplanError] = []
    rows = []
    for folder in lawns_of_house(root):
        brief = folder / BRIEF
        try:
            due, words = due_tasks(brief, folder, day)
        except TurfplanError as error:
            faults.append(error)
            continue
        of_lawn = replace(call, brief=brief)

        def written(happening: "Happening", of_lawn: LogCall = of_lawn) -> None:
            write(of_lawn, happening)

        if call.as_json:
            rows += [{"lawn": folder.name, **row} for row in due_rows(due)]
            continue
        say(words, phrases.lawn(lawn=folder.name))
        if on_terminal():
            ask_due(words, due, written)
        else:
            print_due(words, due, brief, "", as_json=False)
    if call.as_json:
        print(json.dumps({"schema": 1, "due": rows}, ensure_ascii=False))
    _end(faults)


def _end(faults: "list[TurfplanError]") -> None:
    """Tell what of the lawns cannot be read, and end as the first of them would alone."""
    show_faults(faults)
    if faults:
        raise typer.Exit(faults[0].exit_code)
