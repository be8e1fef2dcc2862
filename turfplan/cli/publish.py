"""`turfplan publish`: a feed as a file, for any web host."""

from pathlib import Path
from typing import TYPE_CHECKING

import typer

from turfplan.cli.speech import say, words_of_user

if TYPE_CHECKING:
    from turfplan.records.plan_calendar import CalendarPart

PART = typer.Option(
    "all", "--part", help="What it shows: all, the work alone (work) or the waterings (water)."
)


def part_named(text: str) -> "CalendarPart":
    """A part of a calendar by its name; raises TurfplanError for what is none."""
    from turfplan.errors import Problem, TurfplanError, one_of
    from turfplan.phrases import commands
    from turfplan.records.plan_calendar import FILES

    for part in FILES:
        if part == text:
            return part
    raise TurfplanError(Problem("--part", commands.not_known(), text, one_of(FILES)))


def publish(
    folder: Path = typer.Argument(..., metavar="DIR", help="The plan folder."),
    to: Path = typer.Option(
        ..., "--to", metavar="WEBROOT", help="The folder that a web host shows."
    ),
    keep_address: bool = typer.Option(
        False, "--keep-address", help="The plan's folder has moved: go on under the same name."
    ),
    part: str = PART,
    withdraw: bool = typer.Option(
        False,
        "--withdraw",
        help="End what is published there: an ended calendar takes its place, which cancels what "
        "is to come.",
    ),
) -> None:
    """Write a plan's feed as a file under a name that cannot be guessed, for any web host, and
    beside it a page of the season; what is published there of its other parts is written anew too.

    Example: turfplan publish out --to public
    """
    from turfplan.app.publish_feed import publish_feed, withdraw_feed
    from turfplan.phrases import screen

    words, of = words_of_user(), part_named(part)
    if withdraw:
        done = withdraw_feed(folder, to, part=of)
        print(done.path)
        say(words, screen.publish_withdrawn(), aside=True)
        say(words, screen.publish_sync_first(folder=str(to)), aside=True)
        return
    done = publish_feed(folder, to, keep_address=keep_address, part=of)
    print(done.path)
    for note in done.notes:
        say(words, screen.note(note=words.text(note)), aside=True)
    if done.page is not None:
        say(words, screen.publish_page(page=str(done.page)), aside=True)
    say(words, screen.publish_private(), aside=True)
    say(words, screen.publish_next(folder=str(to), name=done.path.name), aside=True)
