"""`turfplan clients letter` and `messages`: what clients are told; nothing is sent."""

from typing import Annotated

import typer

from turfplan.cli.client_files import GroupOption
from turfplan.cli.client_lists import Folder, day_of
from turfplan.cli.printing import PaperSize, paper_named, write_page
from turfplan.cli.speech import fail, say, words_of_user


def write_letters(
    ctx: typer.Context,
    folder: Folder,
    lawn: Annotated[
        str | None, typer.Argument(metavar="[LAWN]", help="To this lawn's client alone.")
    ] = None,
    group: GroupOption = None,
    base_url: Annotated[
        str | None,
        typer.Option("--base-url", metavar="URL", help="The server; else `web` of business.toml."),
    ] = None,
    withdraw: Annotated[
        bool, typer.Option("--withdraw", help="End the address of this lawn's client.")
    ] = False,
    pdf: Annotated[bool, typer.Option("--pdf", help="A PDF beside each.")] = False,
    paper: Annotated[PaperSize | None, typer.Option("--paper", help="Letter or A4.")] = None,
    today: Annotated[
        str | None, typer.Option("--today", metavar="DAY", help="As if it were this day.")
    ] = None,
) -> None:
    """Write a letter to each client into the lawn's folder, with the read-only address of the
    lawn's page, which stays the same until it is withdrawn; nothing is sent.

    Example: turfplan clients letter data ash --pdf
    """
    from turfplan.app.client_letters import client_letter, lawn_named, lawns_to_write_to
    from turfplan.business.groups import group_of
    from turfplan.files.reading.business import read_business
    from turfplan.phrases import letters as phrases
    from turfplan.serve.client_addresses import client_address, withdraw_address

    words = words_of_user()
    if withdraw and lawn is None:
        fail(ctx, phrases.which_lawn())
    wanted = group_of(group)
    if withdraw and lawn is not None:
        withdraw_address(folder, lawn_named(folder, lawn))
        say(words, phrases.withdrawn(lawn=lawn))
        return
    now = day_of(today, "--today")
    (lawns, notes), business = lawns_to_write_to(folder, lawn, wanted, now), read_business(folder)
    for note in notes:
        say(words, note, aside=True)
    server = base_url or (business.web if business is not None else None)
    if server is None:
        say(words, phrases.no_web(), aside=True)
    size = paper_named(paper)
    for each in lawns:
        link = None
        if server is not None:
            link = f"{server.rstrip('/')}/lawn/{client_address(folder, each)}"
        html, target = client_letter(folder, each, link, size), each / "letter.html"
        write_page(html, target, pdf=pdf)
    say(words, phrases.written(n=len(lawns)), aside=True)


def list_messages(
    folder: Folder,
    group: GroupOption = None,
    look: Annotated[bool, typer.Option("--look", help="Mark nobody as told.")] = False,
    today: Annotated[
        str | None, typer.Option("--today", metavar="DAY", help="As if it were this day.")
    ] = None,
) -> None:
    """Print one line for each client whose days differ from those last told, and mark them as told;
    nothing is sent.

    Example: turfplan clients messages data
    """
    from turfplan.app.client_messages import client_messages, mark_told
    from turfplan.business.groups import group_of
    from turfplan.files.plan_folder import folder_lock
    from turfplan.phrases import letters as phrases
    from turfplan.plain_text import plain_text

    words, now = words_of_user(), day_of(today, "--today")
    wanted = group_of(group)
    with folder_lock(folder):
        found, notes = client_messages(folder, now, wanted)
        for note in notes:
            say(words, note, aside=True)
        for one in found:
            print(f"{one.folder.name}\t{plain_text(one.name)}\t{plain_text(one.text)}", flush=True)
            if not look:
                mark_told(one)
    count = len(found)
    told = phrases.not_marked(n=count) if look else phrases.marked(n=count)
    say(words, told if found else phrases.no_news(), aside=True)
