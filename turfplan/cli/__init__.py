"""The command line: a thin shell that reads, calls the planner, writes, and says what it did.

Only typer and the standard library are imported here; each command imports its own work when it runs.
"""

import importlib
import sys
from collections.abc import Sequence
from typing import Any

import typer
from typer.core import TyperGroup

# command -> (module, function, one line of help); the module is imported only when the command is called.
COMMANDS: dict[str, tuple[str, str, str]] = {
    "new": ("turfplan.cli.new", "new", "Ask a few questions in plain words and write a brief."),
    "plan": ("turfplan.cli.plan", "plan", "Plan a season, or plan it again: calendar, checklist, order, plan.json."),
    "windows": ("turfplan.cli.windows", "windows", "When each operation is open at a place for a grass."),
    "why": ("turfplan.cli.why", "why", "The reasons for a task's dates and amounts."),
    "log": ("turfplan.cli.log", "app", "Write into the journal what happened."),
    "facts": ("turfplan.cli.facts", "facts", "The numbers in force, with their sources."),
    "print": ("turfplan.cli.printing", "print_sheet", "Print a week, the season book, the order or the changes."),
    "serve": ("turfplan.cli.serve", "serve", "Serve feeds and pages."),
    "publish": ("turfplan.cli.serve", "publish", "Write a feed as files for any web host."),
    "tokens": ("turfplan.cli.serve", "tokens", "Issue, list and revoke the tokens of feeds and pages."),
    "backup": ("turfplan.cli.serve", "backup", "Copy the store to one file."),
    "restore": ("turfplan.cli.serve", "restore", "Bring a copied store back."),
    "clients": ("turfplan.cli.clients", "app", "Plan for every client of a file."),
}


class LazyGroup(TyperGroup):
    """Commands that are imported when they are called, so that `--help` stays quick."""

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
            single = typer.Typer(add_completion=False, rich_markup_mode=None, pretty_exceptions_enable=False)
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
            from turfplan.errors import nearest

            near = nearest(args[0], COMMANDS)
            hint = f" Did you mean {near!r}?" if near else ""
            ctx.fail(f"There is no command {args[0]!r}.{hint}")
        return super().resolve_command(ctx, args)


app = typer.Typer(
    cls=LazyGroup, add_completion=False, rich_markup_mode=None, pretty_exceptions_enable=False, no_args_is_help=True
)


def _version(value: bool) -> None:
    if value:
        from turfplan import __version__

        typer.echo(f"turfplan {__version__}")
        raise typer.Exit


@app.callback()
def _root(
    version: bool = typer.Option(False, "--version", callback=_version, is_eager=True, help="Print the version."),
) -> None:
    """Plan a whole lawn renovation over one season.

    Example: turfplan plan examples/cool-overseed.toml -o out
    """


def main(argv: Sequence[str] | None = None) -> None:
    """Run a command and end with its exit code: 0 ok, 1 bug, 2 usage, 3 bad input, 4 no feasible plan, 5 a missing tool."""
    from turfplan.errors import TurfplanError

    try:
        app(args=list(argv) if argv is not None else None, standalone_mode=True)
    except TurfplanError as error:
        show(error)
        sys.exit(error.exit_code)
    except KeyboardInterrupt:
        print("stopped; nothing was changed", file=sys.stderr)
        sys.exit(130)


def show(error: Any) -> None:
    """Print every problem of an error on stderr: `error:` with place, value and allowed values, then `hint:`."""
    for problem in error.problems:
        print(f"error: {problem}", file=sys.stderr)
        if problem.hint:
            print(f"hint: {problem.hint}", file=sys.stderr)
