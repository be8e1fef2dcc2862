"""Finds the lawns of a data folder with their clients."""

from collections.abc import Callable, Iterable, Mapping
from pathlib import Path
from typing import TypeVar

from turfplan.app.reader_language import language_of
from turfplan.business.business_record import Business
from turfplan.business.client_record import Client
from turfplan.errors import Problem, TurfplanError, problem_message
from turfplan.files.data_folder import lawn_folders, lawns_in
from turfplan.files.reading.business import read_client
from turfplan.message import Message
from turfplan.phrases import business as phrases
from turfplan.phrases import clients as of_clients

Glimpse = TypeVar("Glimpse")


def clients_in(output: Path) -> Mapping[Path, Client]:
    """The client of each lawn of a data folder, by the lawn's folder.

    Raises TurfplanError for a folder without lawns, and with every fault of the clients' files.
    """
    folders = lawn_folders(lawns_in(output))
    if not folders:
        hint = phrases.bring_lawns(command=f"turfplan clients import FILE.csv -o {output}")
        raise TurfplanError(Problem(str(output), phrases.no_lawns(), hint=hint))
    found: dict[Path, Client] = {}
    problems: list[Problem] = []
    for folder in folders:
        try:
            found[folder] = read_client(folder)
        except TurfplanError as error:
            problems += error.problems
    if problems:
        raise TurfplanError(problems)
    return found


def looked_at(
    folders: Iterable[Path], look: Callable[[Path], Glimpse | None]
) -> tuple[dict[Path, Glimpse], tuple[Message, ...]]:
    """What a look at each lawn brings, in their order, and what must be told of the others: `look`
    gives None for a lawn without a plan, and raises TurfplanError for one that cannot be read.
    """
    found, notes, unplanned = dict[Path, Glimpse](), list[Message](), 0
    for folder in folders:
        try:
            seen = look(folder)
        except TurfplanError as error:
            notes.append(problem_message(error.problems[0]))
            continue
        if seen is None:
            unplanned += 1
        else:
            found[folder] = seen
    if unplanned:
        notes.append(of_clients.without_plan(n=unplanned))
    return found, tuple(notes)


def language_for(business: Business | None, client: Client | None = None) -> str:
    """The language of a client, else of the business, else the user's."""
    chosen = (client and client.language) or (business and business.language)
    return chosen or language_of(None)
