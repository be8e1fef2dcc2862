"""`turfplan plan`: the main job."""

import json
import sys
from collections.abc import Sequence
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

import typer

if TYPE_CHECKING:
    from turfplan.plan import Plan

DAY = ["%Y-%m-%d"]


def plan(
    brief: Path = typer.Argument(..., metavar="BRIEF", help="The brief, a TOML file."),
    output: Path | None = typer.Option(
        None, "-o", "--output", metavar="DIR", help="Folder for the outputs; the same folder again re-plans."
    ),
    today: datetime | None = typer.Option(None, "--today", formats=DAY, help="Plan as if it were this day."),
    as_json: bool = typer.Option(False, "--json", help="Print the plan as one JSON object."),
    todos: bool = typer.Option(False, "--todos", help="Write todos.ics too: the jobs as a to-do list."),
    pdf: bool = typer.Option(False, "--pdf", help="Write checklist.pdf too (needs the extra pdf)."),
    assume: str | None = typer.Option(
        None, "--assume", help="not-done: tasks that are over without an entry are planned again."
    ),
    fall_back: bool = typer.Option(
        False, "--fall-back", help="Use the world grid where the brief's own climate file cannot be used."
    ),
    weather: Path | None = typer.Option(
        None, "--weather", metavar="FILE", help="A saved forecast or daily weather file."
    ),
    weather_url: str | None = typer.Option(
        None, "--weather-url", metavar="URL", help="A forecast server (non-commercial use without a key)."
    ),
) -> None:
    """Plan a season, or plan it again after the journal or the brief has changed.

    Example: turfplan plan examples/cool-overseed.toml -o out
    """
    # Longer than most functions: half of it is its options, one a line.
    from turfplan.cli.running import now_of, output_folder, read_input
    from turfplan.errors import Problem, TurfplanError
    from turfplan.planner import make_plan
    from turfplan.readers.journal import read_journal
    from turfplan.store.folder import folder_lock, write_outputs

    if assume not in (None, "not-done"):
        raise TurfplanError(Problem("--assume", "is not known", repr(assume), "not-done"))
    given = read_input(brief, weather_file=weather, weather_url=weather_url, fall_back=fall_back)
    folder = output_folder(brief, output)
    _notes(given.warnings)
    with folder_lock(folder):
        journal = read_journal(given.file.journal)
        _notes(journal.warnings)
        previous = _plan_before(folder, given.file.brief.lawn.id)
        made = make_plan(
            given.file.brief, given.book, given.climate, journal.entries, previous,
            now=now_of(today.date() if today else None, given.climate.timezone), ground=given.ground, weather=given.weather, real_years=given.real_years,
            brief_sha256=given.file.sha256, assume_not_done=assume == "not-done",
        )  # fmt: skip
        if made.conflict is not None:
            _cannot(made, as_json)
            raise typer.Exit(4)
        write_outputs(folder, _files(made, todos=todos, pdf=pdf))
    if as_json:
        print(json.dumps(made.model_dump(mode="json", by_alias=True), ensure_ascii=False))
    else:
        news = previous is not None and made.revision != previous.revision
        _summary(made, folder, brief, output, news=news)


def _notes(warnings: Sequence[str]) -> None:
    for warning in warnings:
        print(f"note: {warning}", file=sys.stderr)


def _plan_before(folder: Path, lawn_id: str | None) -> "Plan | None":
    """The plan that the folder holds; that of another lawn is not written over."""
    from turfplan.errors import Problem, TurfplanError
    from turfplan.readers.plan_file import read_plan

    previous = read_plan(folder)
    if previous is not None and lawn_id and previous.lawn_id != lawn_id:
        raise TurfplanError(
            Problem(str(folder), "holds the plan of another lawn", previous.lawn_id, lawn_id, "choose another folder with -o")
        )  # fmt: skip
    return previous


def _files(made: "Plan", *, todos: bool, pdf: bool) -> dict[str, bytes]:
    """The files of the folder by name, with those that were asked for beside the usual ones."""
    from turfplan.cli.running import outputs

    files = dict(outputs(made))
    if todos:
        from turfplan.export.calendar import todos_ics

        files["todos.ics"] = todos_ics(made)
    if pdf:
        from turfplan.export.pdf import to_pdf

        files["checklist.pdf"] = to_pdf(files["checklist.html"].decode(), made)
    return files


def _cannot(made: "Plan", as_json: bool) -> None:
    """Print why no plan is possible and what would be."""
    if as_json:
        print(json.dumps(made.model_dump(mode="json", by_alias=True), ensure_ascii=False))
        return
    assert made.conflict is not None
    print("This cannot be done as asked:")
    for reason in made.conflict.reasons:
        print(f"  - {reason}")
    for rejected in made.rejected:
        print(f"  not {rejected.campaign}: {rejected.reason}")
    if made.options:
        print("What can be done, each checked by planning it:")
        for number, option in enumerate(made.options, 1):
            print(f"  {number}. {option.title} ({option.change}). {option.reason}")


def _summary(made: "Plan", folder: Path, brief: Path, output: Path | None, *, news: bool) -> None:
    """A short summary of the season in the words of the brief's units; `news` when something has changed by this run."""
    print(f"{made.lawn.name}: {made.campaign_name}")
    for line in made.campaign_reason[:3]:
        print(f"  {line}")
    print(f"Dates rest on {made.climate.source}; they may be off by about {made.climate.error_days} days.")
    for caution in dict.fromkeys((*made.cautions[:1], *made.warnings)):
        print(f"  ! {caution}")
    _tasks(made)
    if news:
        _changes(made)
    _overdue(made, brief, output)
    print(f"Written to {folder}: season.ics, checklist.html, order.html, plan.json and tables", file=sys.stderr)


def _tasks(made: "Plan") -> None:
    """Every job with its days and, while it is open, the name that `log` and `why` know it by; then what is to be bought."""
    from turfplan.export.sheets import in_order_of_work
    from turfplan.wording import day_text, days_text

    units = made.lawn.units
    years = {r.task: f"  [would have worked in {r.worked} of {r.years} years]" for r in made.real_years}
    for task in in_order_of_work(made.tasks):
        if task.series is None and task.status != "CANCELLED":
            mark = f"({task.closed})" if task.closed else f"{task.id}{' (overdue)' if task.overdue else ''}"
            print(f"  {days_text(task.start, task.end, units)}  {task.title}  {mark}{years.get(task.id, '')}")
    series = [t for t in made.tasks if t.series is not None and t.status != "CANCELLED"]
    if series:
        first, last = min(t.start for t in series), max(t.end for t in series)
        print(f"  and {len(series)} watering series from {day_text(first, units)} to {day_text(last, units)}")
    for item in made.order:
        print(
            f"Order: {item.name}, {item.text}; by {day_text(item.order_by, units)}, on site by {day_text(item.deliver_by, units)}"
        )


def _changes(made: "Plan") -> None:
    """What is different from the plan before, and because of what; waterings, which follow the rest, in one line."""
    from turfplan.wording import CHANGE_NAMES

    tasks = {task.id: task for task in made.tasks}
    follow = 0
    for change in made.changes:
        task = tasks.get(change.task)
        if task is not None and task.series is not None:
            follow += 1
            continue
        title = task.title if task is not None else change.task
        days = " -> ".join(text for text in (change.before, change.after) if text)
        print(f"{CHANGE_NAMES[change.kind]}: {title}{f': {days}' if days else ''}. {change.because}")
    if follow:
        print(f"Changed: {follow} watering series, which follow the work and the weather (changes.html has them all).")


def _overdue(made: "Plan", brief: Path, output: Path | None) -> None:
    """What is over without an entry, with the two commands that answer, and the one that plans it all again."""
    overdue = [task for task in made.tasks if task.overdue]
    where = f" -o {output}" if output is not None else ""
    for task in overdue:
        print(f"Overdue: {task.title}. If it was done, or is left out:")
        for word in ("done", "skipped"):
            print(f"  turfplan log {brief} {word} {task.id} --on {task.end}{where}")
    if overdue:
        print("To plan again what was not done:")
        print(f"  turfplan plan {brief} --assume not-done{where}")
