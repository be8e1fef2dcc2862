"""`turfplan clients pause`, `leave`, `sell` and `rule`: how clients stand, and what holds where."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from turfplan.cli.client_files import GroupOption
from turfplan.cli.client_lists import Folder, day_of
from turfplan.cli.speech import fail, say, words_of_user

if TYPE_CHECKING:
    from datetime import date

    from turfplan.app.client_rules import AskedRule
    from turfplan.business.place_rules import PlaceRule
    from turfplan.message import Message
    from turfplan.messages import Words

Today = Annotated[
    str | None, typer.Option("--today", metavar="DAY", help="As if it were this day.")
]
By = Annotated[str, typer.Option("--by", metavar="NAME", help="Who says so.")]
WhyNoted = Annotated[str, typer.Option("--note", metavar="TEXT", help="Why.")]
DryRun = Annotated[bool, typer.Option("--dry-run", help="Only say what would change.")]
OneLawn = Annotated[str, typer.Argument(metavar="LAWN", help="The lawn, by its folder's name.")]
Copy = Annotated[
    Path | None,
    typer.Option(
        "-o", "--output", metavar="FILE", help="The archive of the lawn; else in the data folder."
    ),
]


def pause_clients(
    ctx: typer.Context,
    folder: Folder,
    lawns: Annotated[
        list[str] | None, typer.Argument(metavar="[LAWN]...", help="Which; else --group.")
    ] = None,
    start: Annotated[
        str | None, typer.Option("--from", metavar="DAY", help="The first day; else today.")
    ] = None,
    until: Annotated[
        str | None,
        typer.Option("--until", metavar="DAY", help="The last day; else until --over is said."),
    ] = None,
    over: Annotated[bool, typer.Option("--over", help="The pause is over: work goes on.")] = False,
    undo: Annotated[
        str | None, typer.Option("--undo", metavar="NAME", help="Take one such call back.")
    ] = None,
    group: GroupOption = None,
    by: By = "",
    note: WhyNoted = "",
    dry_run: DryRun = False,
    yes: Annotated[bool, typer.Option("--yes", help="Write also what looks like a slip.")] = False,
    today: Today = None,
) -> None:
    """Pause clients: no plan, no jobs, no material and no messages for some days.

    Example: turfplan clients pause data ash --until 2027-07-31
    """
    from turfplan.app import client_pauses as pauses
    from turfplan.business.groups import group_of
    from turfplan.message import Day, Days
    from turfplan.phrases import standing as phrases

    words, now = words_of_user(), day_of(today, "--today")
    asks_days = start is not None or until is not None
    if sum((over, undo is not None, asks_days)) > 1 or (undo is not None and lawns):
        fail(ctx, phrases.one_thing())
    if undo is not None:
        say(words, phrases.taken_back(n=pauses.undo_pauses(folder, undo)), aside=True)
        return
    meant = pauses.lawns_meant(folder, lawns or (), group_of(group))
    plan_again = f"turfplan clients plan {folder}"
    if over:
        n = pauses.end_pauses(folder, meant, now, dry=dry_run)
        told = phrases.would_be(n=n) if dry_run else phrases.pauses_over(n=n, command=plan_again)
        say(words, told, aside=True)
        return
    first = day_of(start, "--from", now)
    end = day_of(until, "--until", now) if until is not None else None
    asked = pauses.AskedPause(first, end, by, note)
    found = pauses.pause_clients(folder, meant, asked, now, sure=yes, dry=dry_run)
    for name, pause in found.pauses.items():
        if pause.end is None:
            said = phrases.paused_open(client=name, start=Day(pause.start, weekday=True))
        else:
            said = phrases.paused(client=name, days=Days(pause.start, pause.end))
        say(words, said)
    n = len(found.pauses)
    say(words, phrases.would_be(n=n) if dry_run else phrases.pauses_written(n=n), aside=True)
    if not dry_run:
        _tell_undo(f"turfplan clients pause {folder} --undo {found.name}", words)


def _tell_undo(command: str, words: "Words") -> None:
    from turfplan.phrases import clients as phrases

    say(words, phrases.take_back(command=command), aside=True)


def leave_client(
    folder: Folder,
    lawn: OneLawn,
    output: Copy = None,
    undo: Annotated[bool, typer.Option("--undo", help="The client is back.")] = False,
    by: By = "",
    note: WhyNoted = "",
    dry_run: DryRun = False,
    today: Today = None,
) -> None:
    """A client leaves: the lawn goes into the archive, its addresses end, and it is handed over as
    one archive in the form of a backup; its row in the client file brings it back no more.

    Example: turfplan clients leave data ash
    """
    from turfplan.app import client_ends as ends
    from turfplan.phrases import standing as phrases

    words, now = words_of_user(), day_of(today, "--today")
    if undo:
        say(words, phrases.is_back(client=ends.come_back(folder, lawn)), aside=True)
        return
    found = ends.leave(folder, lawn, now, output, by=by, note=note, dry=dry_run)
    if dry_run:
        say(words, phrases.would_leave(client=lawn), aside=True)
        return
    _tell_notes(found.notes, words)
    print(found.archive)
    say(words, phrases.left(client=lawn, file=str(found.archive)), aside=True)
    _tell_undo(f"turfplan clients leave {folder} {lawn} --undo", words)


def sell_lawn(
    ctx: typer.Context,
    folder: Folder,
    lawn: OneLawn,
    name: Annotated[
        str | None, typer.Option("--name", metavar="NAME", help="Who has the lawn now.")
    ] = None,
    said: Annotated[
        list[str] | None,
        typer.Option(
            "--set",
            metavar="KEY=VALUE",
            help="Of the new client, such as telephone=… or access=…, or a column of your own.",
        ),
    ] = None,
    keep: Annotated[
        list[str] | None,
        typer.Option(
            "--keep", metavar="COLUMN", help="A column of your own that stays, as crew does."
        ),
    ] = None,
    output: Copy = None,
    undo: Annotated[bool, typer.Option("--undo", help="Take the last sale back.")] = False,
    by: By = "",
    dry_run: DryRun = False,
    today: Today = None,
) -> None:
    """A lawn is sold: the new owner is its client, addresses end, what was offered and told to the
    owner before is put aside; plan and history stay, and are handed over as one archive.

    Example: turfplan clients sell data ash --name "R. Alder (invented)" --set telephone=555-0199
    """
    from turfplan.app import client_ends as ends
    from turfplan.phrases import standing as phrases

    words, now = words_of_user(), day_of(today, "--today")
    if undo:
        back = ends.unsell(folder, lawn)
        say(words, phrases.unsold(lawn=lawn, name=back.name), aside=True)
        return
    if name is None or not name.strip():
        fail(ctx, phrases.new_name())
    owner = ends.NewOwner(name.strip(), _pairs(said or ()), tuple(keep or ()))
    found = ends.sell(folder, lawn, now, owner, output, by=by, dry=dry_run)
    if dry_run:
        say(words, phrases.would_sell(lawn=lawn, name=owner.name), aside=True)
        return
    _tell_notes(found.notes, words)
    print(found.archive)
    told = phrases.sold(lawn=lawn, name=owner.name, file=str(found.archive))
    say(words, told, aside=True)
    _tell_undo(f"turfplan clients sell {folder} {lawn} --undo", words)


def _pairs(said: "list[str] | tuple[str, ...]") -> dict[str, str]:
    from turfplan.errors import Problem, TurfplanError
    from turfplan.phrases import quotes as phrases

    found = {}
    for text in said:
        key, equals, value = (part.strip() for part in text.partition("="))
        if not equals or not key or not value:
            raise TurfplanError(Problem("--set", phrases.not_a_choice(), repr(text)))
        found[key] = value
    return found


def _tell_notes(notes: "tuple[Message, ...]", words: "Words") -> None:
    for note in notes:
        say(words, note, aside=True)


def rule_clients(
    ctx: typer.Context,
    folder: Folder,
    ban: Annotated[
        str | None, typer.Option("--ban", metavar="FROM..TO", help="No watering on these days.")
    ] = None,
    permit: Annotated[
        str | None,
        typer.Option("--permit", metavar="yes|no", help="Whether a watering permit can be had."),
    ] = None,
    place: Annotated[
        str | None,
        typer.Option("--place", metavar="KEY=VALUE", help="Where, such as postal_code=17601."),
    ] = None,
    group: GroupOption = None,
    undo: Annotated[
        str | None, typer.Option("--undo", metavar="NAME", help="The rule holds no more.")
    ] = None,
    by: By = "",
    note: WhyNoted = "",
    dry_run: DryRun = False,
    today: Today = None,
) -> None:
    """Write a rule that holds for a group of clients or a place, also for those who come later;
    list the rules, if nothing else is said.

    Example: turfplan clients rule data --place postal_code=17601 --ban 2027-06-15..2027-08-31
    """
    from turfplan.app import client_rules as rules
    from turfplan.business.groups import group_of
    from turfplan.phrases import standing as phrases

    words, now = words_of_user(), day_of(today, "--today")
    said = (ban, permit, place, group)
    if undo is not None:
        if any(one is not None for one in said):
            fail(ctx, phrases.one_rule())
        rules.undo_rule(folder, undo)
        say(words, phrases.rule_ended(), aside=True)
        return
    if ban is None and permit is None:
        if place is not None or group is not None:
            fail(ctx, phrases.one_rule())
        _print_rules(rules.list_rules(folder), words)
        return
    if place is not None and group is not None:
        fail(ctx, phrases.one_place())
    if permit not in (None, "yes", "no"):
        fail(ctx, phrases.one_rule())
    asked = rules.AskedRule(
        rules.ban_of(ban) if ban is not None else None,
        permit == "yes" if permit is not None else None,
        group_of(group),
        rules.place_of(place) if place is not None else None,
        by,
        note,
    )
    _write_rule(folder, asked, words, day=now, dry=dry_run)


def _write_rule(
    folder: Path, asked: "AskedRule", words: "Words", *, day: "date", dry: bool
) -> None:
    from turfplan.app.client_rules import add_rule, said_of
    from turfplan.message import listed
    from turfplan.phrases import clients as of_clients
    from turfplan.phrases import standing as phrases

    found = add_rule(folder, asked, day, dry=dry)
    n, rule = len(found.lawns), listed(said_of(found.rule), "semicolon")
    say(words, phrases.rule_written(n=n, who=_who(found.rule, words), rule=rule))
    if dry:
        say(words, of_clients.nothing_written(), aside=True)
        return
    _tell_undo(f"turfplan clients rule {folder} --undo {found.rule.name}", words)
    say(words, of_clients.plan_again(command=f"turfplan clients plan {folder}"), aside=True)


def _print_rules(found: "tuple[PlaceRule, ...]", words: "Words") -> None:
    from turfplan.app.client_rules import said_of
    from turfplan.message import listed
    from turfplan.phrases import standing as phrases

    if not found:
        say(words, phrases.no_rules(), aside=True)
    for one in found:
        rule = listed(said_of(one), "semicolon")
        say(words, phrases.rule_line(name=one.name, who=_who(one, words), rule=rule))


def _who(rule: "PlaceRule", words: "Words") -> str:
    from turfplan.phrases import standing as phrases
    from turfplan.plain_text import plain_text

    if rule.column is None:
        return words.text(phrases.rule_for_all())
    return plain_text(f"{rule.column}={rule.value}")
