"""The names that others rely on, as the program has them: commands with their options, keys of
files, files, operations.
"""

from collections.abc import Mapping

import typer

from turfplan.app.reader_language import LANGUAGE
from turfplan.cli import COMMANDS, LazyGroup, app
from turfplan.files.reading.book import load_book
from turfplan.messages.catalog import MORE
from turfplan.records.journal import JournalEntry
from turfplan.records.lawn_state import StateFact
from turfplan.records.plan import OrderLine, Plan
from turfplan.records.plan_task import Task

GROUPS = ("log", "clients")
OUTPUTS = (
    "plan.json",
    "season.ics",
    "work.ics",
    "water.ics",
    "checklist.html",
    "order.html",
    "tasks.csv",
    "order.csv",
    "changes.html",
    "todos.ics",
    "checklist.pdf",
)


def options_of(command: object) -> list[str]:
    """The long options of a command of the command line."""
    found = []
    for parameter in command.params:  # type: ignore[attr-defined]
        found += [name for name in (*parameter.opts, *parameter.secondary_opts) if name[:2] == "--"]
    return sorted(name for name in found if name not in ("--help", "--version"))


def commands() -> dict[str, list[str]]:
    """Every command with its options."""
    group = typer.main.get_command(app)
    assert isinstance(group, LazyGroup)
    found = {"turfplan": options_of(group)}
    for name in COMMANDS:
        command = group.get_command(None, name)
        if name in GROUPS:
            found |= {f"{name} {word}": options_of(one) for word, one in command.commands.items()}
        else:
            found[name] = options_of(command)
    return found


def keys_of(record: type) -> list[str]:
    """The keys that a record has in its file."""
    fields = record.model_fields.items()  # type: ignore[attr-defined]
    return [field.alias or name for name, field in fields if not field.exclude]


def public_names() -> Mapping[str, list[str]]:
    """Every kind of public name with its names, as the section Contract lists them."""
    book = load_book()
    found = {f"`{name}`": options for name, options in commands().items()}
    return found | {
        "environment": [LANGUAGE, MORE],
        "files of a plan": list(OUTPUTS),
        "plan.json": keys_of(Plan),
        "a fact of the state": keys_of(StateFact),
        "a task": keys_of(Task),
        "an order line": keys_of(OrderLine),
        "a journal entry": keys_of(JournalEntry),
        "operations": list(book.operations),
        "campaigns": list(book.campaigns),
        "grasses": list(book.species),
    }


def table() -> str:
    """The section's table; `python tests/public_names.py` prints it."""
    rows = (
        f"| {name} | {' '.join(f'`{one}`' for one in names) or '–'} |"
        for name, names in public_names().items()
    )
    return "\n".join(("| what | names |", "|---|---|", *rows))


if __name__ == "__main__":
    print(table())
