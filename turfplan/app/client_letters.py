"""Writes letters to clients under the name of the business."""

from datetime import date
from pathlib import Path

from turfplan.app.client_messages import words_of_client
from turfplan.app.client_pauses import working
from turfplan.app.data_folders import clients_in
from turfplan.app.lawn_journal import entries_of_lawn
from turfplan.app.sold_jobs import is_unsold, sold_jobs
from turfplan.business.groups import ClientGroup, in_group
from turfplan.errors import Problem, TurfplanError, did_you_mean
from turfplan.export.sheets.letter import LetterWork, letter_html
from turfplan.export.sheets.look import paper_of
from turfplan.files.reading.business import read_business, read_client
from turfplan.files.reading.plan import read_plan
from turfplan.message import Message
from turfplan.phrases import clients as of_clients
from turfplan.phrases import letters as phrases
from turfplan.phrases import quotes as of_quotes
from turfplan.records.book_names import BY_HOUSEHOLD


def lawns_to_write_to(
    output: Path, lawn: str | None, group: ClientGroup | None, today: date
) -> tuple[tuple[Path, ...], tuple[Message, ...]]:
    """The folders of the lawns whose clients get a letter: one, or those of a group that have a
    plan, are not paused, and of which a quote is accepted or none was offered; and what must be
    told of the others.

    Raises TurfplanError for a lawn that there is not, or one that was named and has no plan.
    """
    clients = clients_in(output)
    named = in_group(clients, group) if lawn is None else (lawn_named(output, lawn),)
    wanted, notes = working(named, today)
    found, unsold = list[Path](), 0
    for one in wanted:
        plan = read_plan(one)
        if plan is None:
            continue
        if is_unsold(one, plan, entries_of_lawn(one)):
            unsold += 1
        else:
            found.append(one)
    told = (of_quotes.left_out(n=unsold, command=waiting_command(output)),) if unsold else ()
    return tuple(found), (*notes, *told)


def waiting_command(output: Path) -> str:
    """The command that lists what waits for an answer."""
    return f"turfplan clients list {output} --waiting"


def lawn_named(output: Path, lawn: str) -> Path:
    """The folder of a lawn that has a plan; raises TurfplanError for another name."""
    named = {folder.name: folder for folder in clients_in(output)}
    if lawn not in named:
        hint = did_you_mean(lawn, named)
        raise TurfplanError(Problem(lawn, phrases.no_lawn(), hint=hint))
    if read_plan(named[lawn]) is None:
        raise TurfplanError(Problem(lawn, of_clients.not_planned()))
    return named[lawn]


def client_letter(output: Path, lawn: Path, link: str | None, paper: str | None) -> str:
    """The letter to the client of a lawn, by its plan and journal: the same plan always gives the
    same letter. `link` is the address of its page.

    Raises TurfplanError for what cannot be read.
    """
    plan, business, client = read_plan(lawn), read_business(output), read_client(lawn)
    if plan is None:
        raise TurfplanError(Problem(lawn.name, of_clients.not_planned()))
    entries = entries_of_lawn(lawn)
    words = words_of_client(plan, client, business)
    by_client = business.client_does if business is not None else BY_HOUSEHOLD
    jobs = sold_jobs(lawn, plan, entries)
    size = paper_of(plan, paper)
    return letter_html(LetterWork(plan, jobs, by_client), business, client, link, words, size)
