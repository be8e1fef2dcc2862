"""Keeps what clients have called back for, as visits with their days."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from turfplan.app.data_folders import clients_in
from turfplan.business.callback import CALLBACK, Callback
from turfplan.business.groups import ClientGroup, in_group
from turfplan.business.lawn_pauses import pause_on
from turfplan.errors import Problem, TurfplanError, did_you_mean, one_of
from turfplan.files.lawn_standing import read_callbacks, read_pauses, write_callbacks
from turfplan.files.plan_folder import folder_lock
from turfplan.phrases import standing as phrases


@dataclass(frozen=True, slots=True)
class CallbackDone:
    """That a callback was done: at which lawn, its number, the day, and the hours it took."""

    folder: Path
    number: int
    on: date
    hours: float | None = None


@dataclass(frozen=True, slots=True)
class AskedCallback:
    """What a client calls back for: a visit on a day, for some hours; who wrote it."""

    text: str
    on: date
    hours: float = 0.0
    by: str = ""


def add_callback(
    output: Path, lawn: str, asked: AskedCallback, today: date, *, sure: bool = False
) -> Callback:
    """Write a callback; one of the same words on the same day that is still open is the same.

    Raises TurfplanError for a lawn that there is not, a lawn that is paused on that day, and a day
    that is over of which nobody is `sure`; nothing is written then.
    """
    folder = _folder(output, lawn)
    problems = []
    if asked.on < today and not sure:
        day = asked.on.isoformat()
        problems.append(Problem("--on", phrases.day_over(), day, hint=phrases.keep()))
    if pause_on(read_pauses(folder), asked.on) is not None:
        problems.append(Problem("--on", phrases.is_paused_then(), asked.on.isoformat()))
    if problems:
        raise TurfplanError(problems)
    with folder_lock(output):
        known = read_callbacks(folder)
        for one in known:
            if one.is_open and (one.text, one.on) == (asked.text, asked.on):
                return one
        new = Callback(
            number=max((one.number for one in known), default=0) + 1,
            text=asked.text,
            on=asked.on,
            hours=asked.hours,
            written_on=today,
            by=asked.by,
        )
        write_callbacks(folder, (*known, new))
    return new


def finish_callback(
    output: Path, lawn: str, number: int, on: date, today: date, hours: float | None = None
) -> Callback:
    """Mark a callback as done on a day; raises TurfplanError for one that is over, and a day to
    come."""
    if on > today:
        raise TurfplanError(Problem("--on", phrases.day_to_come(), on.isoformat()))
    return _changed(output, lawn, number, {"done_on": on, "used_hours": hours})


def drop_callback(output: Path, lawn: str, number: int, today: date) -> Callback:
    """Let a callback fall away; raises TurfplanError for one that is over."""
    return _changed(output, lawn, number, {"dropped_on": today})


def move_callback(output: Path, lawn: str, number: int, on: date) -> Callback:
    """Put a callback on another day; raises TurfplanError for one that is over."""
    return _changed(output, lawn, number, {"on": on})


def reopen_callback(output: Path, lawn: str, number: int) -> Callback:
    """Take back that a callback is over; raises TurfplanError for one that is open."""
    update: dict[str, object] = {
        "done_on": None,
        "dropped_on": None,
        "used_hours": None,
        "key": None,
    }
    return _changed(output, lawn, number, update, is_open=False)


def list_callbacks(
    output: Path, group: ClientGroup | None = None
) -> tuple[tuple[Path, Callback], ...]:
    """The open callbacks of all lawns, by their days; raises TurfplanError for a folder without
    lawns and a group that there is not."""
    found = [
        (folder, one)
        for folder in in_group(clients_in(output), group)
        for one in read_callbacks(folder)
        if one.is_open
    ]
    return tuple(sorted(found, key=lambda each: (each[1].on, each[0].name, each[1].number)))


def callback_number(task: str) -> int | None:
    """The number of a callback by what lists call it; None for a task of a plan."""
    name, _, number = task.partition(".")
    return int(number) if name == CALLBACK and number.isascii() and number.isdigit() else None


def finish_callbacks(output: Path, done: Iterable[CallbackDone], batch: str) -> tuple[int, int]:
    """Mark callbacks as done by a call of some name; how many there are now, and how many of them
    that call had marked already. Those that are over otherwise stay as they are."""
    written = known = 0
    with folder_lock(output):
        for one in done:
            callbacks = list(read_callbacks(one.folder))
            for place, callback in enumerate(callbacks):
                if callback.number != one.number:
                    continue
                if callback.key == batch:
                    known += 1
                elif callback.is_open:
                    written += 1
                    update = {"done_on": one.on, "used_hours": one.hours, "key": batch}
                    callbacks[place] = callback.model_copy(update=update)
                    write_callbacks(one.folder, tuple(callbacks))
    return written, known


def tick_on_page(output: Path, folder: Path, number: int, on: date) -> bool:
    """Mark a callback as done by a page; whether it is so now. The same tick again is one; one that
    is over otherwise stays as it is."""
    batch = f"{folder.name} {CALLBACK}.{number}"
    return any(finish_callbacks(output, (CallbackDone(folder, number, on),), batch))


def reopen_batch(output: Path, folders: Iterable[Path], batch: str) -> tuple[Path, ...]:
    """Take back what a call of some name marked as done; the lawns at which that was so, each as
    often as it was."""
    found = list[Path]()
    open_again = {"done_on": None, "used_hours": None, "key": None}
    with folder_lock(output):
        for folder in folders:
            callbacks = read_callbacks(folder)
            marked = [one for one in callbacks if one.key == batch]
            if marked:
                found += [folder] * len(marked)
                write_callbacks(
                    folder,
                    tuple(
                        one.model_copy(update=open_again) if one.key == batch else one
                        for one in callbacks
                    ),
                )
    return tuple(found)


def _changed(
    output: Path, lawn: str, number: int, update: dict[str, object], *, is_open: bool = True
) -> Callback:
    folder = _folder(output, lawn)
    with folder_lock(output):
        known = read_callbacks(folder)
        found = next((one for one in known if one.number == number), None)
        if found is None:
            numbers = one_of(str(one.number) for one in known if one.is_open == is_open)
            raise TurfplanError(Problem(lawn, phrases.no_callback(), str(number), numbers))
        if found.is_open != is_open:
            fault = phrases.callback_open() if found.is_open else phrases.callback_over()
            raise TurfplanError(Problem(lawn, fault, str(number)))
        new = found.model_copy(update=update)
        write_callbacks(folder, tuple(new if one.number == number else one for one in known))
    return new


def _folder(output: Path, lawn: str) -> Path:
    known = {folder.name: folder for folder in clients_in(output)}
    if lawn not in known:
        hint = did_you_mean(lawn, known)
        raise TurfplanError(Problem(lawn, phrases.no_lawn(), hint=hint))
    return known[lawn]
