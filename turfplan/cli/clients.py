"""`turfplan clients`: one plan for each row of a file."""

import csv
import sys
from concurrent.futures import ProcessPoolExecutor
from datetime import datetime
from pathlib import Path

import typer

app = typer.Typer(add_completion=False, rich_markup_mode=None, no_args_is_help=True)


@app.callback()
def _clients() -> None:
    """Plan for every client of a file.

    Example: turfplan clients plan examples/clients.csv -o out
    """


@app.command("plan")
def plan_clients(
    file: Path = typer.Argument(
        ..., metavar="CLIENTS.csv", help="One row a lawn; columns are the brief's keys, dotted, plus id."
    ),
    output: Path = typer.Option(..., "-o", "--output", metavar="DIR", help="One folder for each client is made in it."),
    today: datetime | None = typer.Option(None, "--today", formats=["%Y-%m-%d"], help="Plan as if it were this day."),
    processes: int = typer.Option(2, "--processes", min=1, max=16, help="How many plans are made at once."),
) -> None:
    """Plan every row of a file into a folder of its own, with a summary table; a bad row never stops the rest.

    Example: turfplan clients plan examples/clients.csv -o out
    """
    from turfplan.readers.clients import read_clients

    rows = read_clients(file)
    shows = sys.stderr.isatty()
    results: list[tuple[str, str, str, str, str, str]] = []
    failed = 0
    jobs = [(row, file.parent, output, today) for row in rows]
    with ProcessPoolExecutor(max_workers=processes) as pool:
        for done, (row, result) in enumerate(zip(rows, pool.map(_one, jobs), strict=True), 1):
            results.append(result)
            if result[1] != "planned":
                failed += 1
                print(f"error: line {row.line}, {row.id or 'no id'}: {result[2]}", file=sys.stderr)
            if shows:
                print(f"\r{done} of {len(rows)}", end="", file=sys.stderr, flush=True)
    if shows:
        print(file=sys.stderr)
    output.mkdir(parents=True, exist_ok=True)
    heads = ("client", "state", "campaign", "first work", "seed or last pass", "order")
    _write_table(output / "summary.csv", heads, results)
    widths = [max(len(str(r[k])) for r in (heads, *results)) for k in range(len(heads))]
    for result in (heads, *results):
        print(
            "  ".join(str(cell)[:60].ljust(min(width, 60)) for cell, width in zip(result, widths, strict=True)).rstrip()
        )
    print(f"{len(rows) - failed} of {len(rows)} planned into {output}", file=sys.stderr)
    if failed:
        raise typer.Exit(3)


def _write_table(path: Path, heads: tuple[str, ...], rows: list[tuple[str, str, str, str, str, str]]) -> None:
    temporary = path.with_name(f".{path.name}.new")
    with temporary.open("w", encoding="utf-8", newline="") as out:
        writer = csv.writer(out)
        writer.writerow(heads)
        writer.writerows(rows)
    temporary.replace(path)


def _one(job: tuple) -> tuple[str, str, str, str, str, str]:  # type: ignore[type-arg]  # a process pool hands over one tuple
    """Plan one row in this process; every error of the input becomes words in the table."""
    from turfplan.errors import TurfplanError

    row, folder, output, today = job
    if row.problem is not None:
        return (row.id, "bad row", str(row.problem).replace("\n", "; "), "", "", "")
    try:
        return _planned(row.id, row.brief, folder, output / row.id, today)
    except TurfplanError as error:
        return (row.id, "bad row", str(error).replace("\n", "; "), "", "", "")
    except OSError as error:
        return (row.id, "not written", str(error), "", "", "")


def _planned(
    client: str, brief: object, base: Path, folder: Path, today: datetime | None
) -> tuple[str, str, str, str, str, str]:
    import hashlib

    from turfplan.brief import Brief
    from turfplan.cli.running import input_of, now_of, outputs
    from turfplan.planner import make_plan
    from turfplan.readers.journal import read_journal
    from turfplan.readers.plan_file import read_plan
    from turfplan.store.folder import folder_lock, write_outputs

    assert isinstance(brief, Brief)
    given = input_of(brief, base)
    digest = hashlib.sha256(brief.model_dump_json().encode()).hexdigest()
    with folder_lock(folder):
        journal = read_journal(folder / "journal.jsonl")
        made = make_plan(
            brief, given.book, given.climate, journal.entries, read_plan(folder),
            now=now_of(today.date() if today else None, given.climate.timezone), ground=given.ground, real_years=given.real_years,
            brief_sha256=digest,
        )  # fmt: skip
        if made.conflict is not None:
            return (
                client,
                "not possible",
                " ".join(made.conflict.reasons),
                "",
                "",
                "; ".join(o.title for o in made.options),
            )
        write_outputs(folder, outputs(made))
    work = [t for t in made.tasks if t.series is None]
    main = [t for t in work if t.plays("spreading", "sowing", "planting")]
    order = "; ".join(f"{line.name} {line.text}" for line in made.order)
    return (
        client, "planned", made.campaign_name, min(t.start for t in work).isoformat(), max(t.end for t in main).isoformat(), order,
    )  # fmt: skip
