"""`turfplan backup`, `restore`: all that lawns need in one file, and back."""

from pathlib import Path
from typing import TYPE_CHECKING

import typer

from turfplan.cli.speech import say, words_of_user

if TYPE_CHECKING:
    from turfplan.app.restore_lawns import Restored


def backup(
    to: Path = typer.Argument(..., metavar="FILE", help="Where the copy goes."),
    what: list[Path] = typer.Argument(
        None,
        metavar="[DIR or BRIEF]...",
        help="Data folders, lawns' folders or briefs; without any, what lies beside the index "
        "and all that it knows.",
    ),
    index: Path | None = typer.Option(
        None, "--index", metavar="FILE", help="The index of lawns and tokens."
    ),
) -> None:
    """Copy briefs, what they name, journals, plans, clients and addresses to one checked file.

    Example: turfplan backup lawns.copy data
    """
    from turfplan.app.backup_lawns import backup_lawns
    from turfplan.phrases import screen

    words = words_of_user()
    made = backup_lawns(to, what or [], index)
    print(made.path)
    for note in made.notes:
        say(words, screen.note(note=words.text(note)), aside=True)
    counted = screen.backup_made(
        lawns=len(made.lawns), files=len(made.files), addresses=made.addresses
    )
    say(words, counted, aside=True)


def restore(
    copy: Path = typer.Argument(..., metavar="FILE", help="A copy made by `turfplan backup`."),
    to: Path = typer.Option(Path(), "--to", metavar="DIR", help="The folder to restore into."),
    index: Path | None = typer.Option(
        None,
        "--index",
        metavar="FILE",
        help="The index that gets the addresses; else where it lay in DIR.",
    ),
    force: bool = typer.Option(
        False, "--force", help="Write over files that differ; they are kept beside."
    ),
    with_addresses: bool = typer.Option(
        False,
        "--with-addresses",
        help="Open the addresses of the copy, also those that the index does not know.",
    ),
) -> None:
    """Bring lawns back from a copy, after looking that all of it is whole.

    Example: turfplan restore lawns.copy --to data
    """
    from turfplan.app.restore_lawns import restore_lawns

    done = restore_lawns(copy, to, index, force=force, with_addresses=with_addresses)
    print(to if done.lawns or done.files else next(iter(done.tokens), to))
    _tell(done)


def _tell(done: "Restored") -> None:
    """What was brought, and what became of addresses."""
    from turfplan.files.house_copies import CopiedHouseToken
    from turfplan.phrases import screen

    words = words_of_user()
    for lawn in done.lawns:
        folder, lawn_id = lawn.folder, lawn.lawn_id or "-"
        line = screen.restore_lawn(
            folder=folder, lawn_id=lawn_id, entries=lawn.entries, revision=lawn.revision
        )
        say(words, line)
    if done.lawns or done.files:
        say(words, screen.restore_files(n=len(done.files)))
    for note in done.notes:
        say(words, screen.note(note=words.text(note)), aside=True)
    for index, tokens in done.tokens.items():
        counted = screen.restore_addresses(
            index=str(index), opened=len(tokens.opened), withdrawn=tokens.withdrawn
        )
        say(words, counted)
        for token in tokens.closed:
            label = token.label or "-"
            of_house = "H" if isinstance(token, CopiedHouseToken) else ""
            line = screen.restore_closed(
                number=f"{of_house}{token.id}", kind=token.kind, label=label, created=token.created
            )
            say(words, line, aside=True)
        if tokens.closed:
            command = f"turfplan tokens open N --index {index}"
            say(words, screen.restore_open_them(command=command), aside=True)
