"""The command line: a thin shell that reads, calls the planner, writes, and says what it did.

Only typer and the standard library are imported here; each command imports its own work when it
runs.
"""

import importlib
import os
import sys
from collections.abc import Sequence
from itertools import pairwise
from typing import TYPE_CHECKING, Any

import typer
from typer.core import TyperGroup

if TYPE_CHECKING:
    from turfplan.errors import TurfplanError

LANGUAGE_OPTION, LANGUAGE = "--language", "TURFPLAN_LANGUAGE"
# What is spoken where nobody asks for another language.
SPOKEN = "en"

# command -> (module, function, one line of help); the module is imported only when the command is
# called.
COMMANDS: dict[str, tuple[str, str, str]] = {
    "new": ("turfplan.cli.new", "new", "Ask a few questions in plain words and write a brief."),
    "plan": (
        "turfplan.cli.plan",
        "plan",
        "Plan a season, or plan it again: calendar, checklist, order, plan.json.",
    ),
    "windows": (
        "turfplan.cli.windows",
        "windows",
        "When each operation is open at a place for a grass.",
    ),
    "why": ("turfplan.cli.why", "why", "The reasons for a task's dates and amounts."),
    "log": ("turfplan.cli.log", "app", "Write into the journal what happened."),
    "facts": ("turfplan.cli.facts", "facts", "The numbers in force, with their sources."),
    "print": (
        "turfplan.cli.printing",
        "print_sheet",
        "Print a week, the season book, the order or the changes.",
    ),
    "serve": ("turfplan.cli.serve", "serve", "Serve feeds and pages."),
    "publish": ("turfplan.cli.publish", "publish", "Write a feed as files for any web host."),
    "tokens": (
        "turfplan.cli.serve",
        "tokens",
        "Issue, list and revoke the tokens of feeds and pages.",
    ),
    "backup": ("turfplan.cli.copies", "backup", "Copy all that lawns need to one file."),
    "restore": ("turfplan.cli.copies", "restore", "Bring back what was copied."),
    "clients": (
        "turfplan.cli.clients",
        "app",
        "Work for all lawns of a business: bring in, plan, list, print, log.",
    ),
}


class LazyGroup(TyperGroup):
    """Commands that are imported when they are called, so that `--help` stays quick."""

    def parse_args(self, ctx: Any, args: list[str]) -> list[str]:
        """As usual; `--language CODE` may stand anywhere in the line, for every command alike."""
        args = list(args)
        for place, word in enumerate(args):
            name, equals, code = word.partition("=")
            if name == LANGUAGE_OPTION and (equals or place + 1 < len(args)):
                code = code if equals else args[place + 1]
                del args[place : place + (1 if equals else 2)]
                # It goes before what the environment says, here and in the processes that are
                # started.
                os.environ[LANGUAGE] = code
                break
        return list(super().parse_args(ctx, args))

    def list_commands(self, ctx: Any) -> list[str]:
        """The names of the commands in the order of use."""
        return list(COMMANDS)

    def get_command(self, ctx: Any, cmd_name: str) -> Any:
        """The command of that name, imported now; None for an unknown name."""
        if cmd_name not in COMMANDS:
            return None
        module, name, _ = COMMANDS[cmd_name]
        target = getattr(importlib.import_module(module), name)
        if isinstance(target, typer.Typer):
            command = typer.main.get_command(target)
        else:
            single = typer.Typer(
                add_completion=False, rich_markup_mode=None, pretty_exceptions_enable=False
            )
            single.command(name=cmd_name)(target)
            command = typer.main.get_command(single)
        command.name = cmd_name
        return command

    def format_commands(self, ctx: Any, formatter: Any) -> None:
        """The commands with one line each, without importing them."""
        with formatter.section("Commands"):
            formatter.write_dl([(name, text) for name, (_, _, text) in COMMANDS.items()])

    def resolve_command(self, ctx: Any, args: list[str]) -> Any:
        """As usual, but a misspelt command is answered with the nearest one."""
        if args and args[0] not in COMMANDS and not args[0].startswith("-"):
            from turfplan.cli.speech import fail
            from turfplan.phrases import commands

            fail(ctx, commands.no_command(name=repr(args[0])), args[0], COMMANDS)
        return super().resolve_command(ctx, args)


app = typer.Typer(
    cls=LazyGroup,
    add_completion=False,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    no_args_is_help=True,
)


def _version(value: bool) -> None:
    if value:
        from turfplan import __version__

        typer.echo(f"turfplan {__version__}")
        raise typer.Exit


@app.callback()
def _root(
    version: bool = typer.Option(
        False, "--version", callback=_version, is_eager=True, help="Print the version."
    ),
    language: str | None = typer.Option(
        None,
        LANGUAGE_OPTION,
        metavar="CODE",
        help="The language to speak, where the brief names none; also after any command.",
    ),
) -> None:
    """Plan a whole lawn renovation over one season.

    Example: turfplan plan examples/cool-overseed.toml -o out
    """


def main(argv: Sequence[str] | None = None) -> None:
    """Run a command and end with its exit code.

    0 ok, 1 bug, 2 usage, 3 bad input, 4 no feasible plan, 5 a missing tool.
    """
    # No plugin of pydantic has a part in a plan; to find that out it would read the papers of all
    # installed packages.
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")
    from turfplan.errors import TurfplanError

    args = list(argv) if argv is not None else sys.argv[1:]
    try:
        app(args=args, standalone_mode=True)
    except TurfplanError as error:
        show(error, language_asked(args))
        sys.exit(error.exit_code)
    except KeyboardInterrupt:
        _say_stopped()
        sys.exit(130)


def _say_stopped() -> None:
    from turfplan.cli.speech import say, words_of_user
    from turfplan.phrases import screen

    say(words_of_user(), screen.stopped(), aside=True)


def language_asked(args: Sequence[str]) -> str:
    """The language that a command's faults are told in: `--language`, else the user's, else
    English.

    It is asked for before a command has looked at its options, so one that there is no catalog of
    gives English.
    """
    from turfplan.messages import languages

    named = [arg.partition("=")[2] for arg in args if arg.startswith("--language=")]
    named += [after for arg, after in pairwise(args) if arg == "--language"]
    asked = named[-1] if named else os.environ.get(LANGUAGE, SPOKEN)
    return asked if asked in languages() else SPOKEN


def show(error: "TurfplanError", language: str = SPOKEN) -> None:
    """Print every problem of an error on stderr.

    `error:` with place, value and allowed values, then `hint:` where there is one.
    """
    from turfplan.messages.problems import problem_lines, words_for_errors

    words = words_for_errors(language)
    for problem in error.problems:
        for line in problem_lines(problem, words):
            print(line, file=sys.stderr)
