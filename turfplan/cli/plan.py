"""`turfplan plan`: the main job."""

import json
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

import typer

from turfplan.cli.speech import brief_at, say, words_of, words_of_user
from turfplan.phrases import commands

if TYPE_CHECKING:
    from collections.abc import Callable

    from turfplan.app.outputs import Extra
    from turfplan.app.plan_lawn import PlannedLawn
    from turfplan.messages import Words
    from turfplan.records.plan import Plan, PlanConflict
    from turfplan.records.plan_task import Task

DAY = ["%Y-%m-%d"]
# The ranks of which every note stands on the screen.
ON_SCREEN = ("stop", "law", "safety")


def plan(
    brief: Path = typer.Argument(
        ...,
        metavar="BRIEF",
        help="The brief, a TOML file, or the folder of its lawn, or of a house with several.",
        callback=brief_at,
    ),
    output: Path | None = typer.Option(
        None,
        "-o",
        "--output",
        metavar="DIR",
        help="Folder for the outputs; the same folder again re-plans.",
    ),
    today: datetime | None = typer.Option(
        None, "--today", formats=DAY, help="Plan as if it were this day."
    ),
    as_json: bool = typer.Option(False, "--json", help="Print the plan as one JSON object."),
    todos: bool = typer.Option(
        False, "--todos", help="Write todos.ics too: the jobs as a to-do list."
    ),
    pdf: bool = typer.Option(False, "--pdf", help="Write checklist.pdf too (needs the extra pdf)."),
    assume: str | None = typer.Option(
        None, "--assume", help="not-done: tasks that are over without an entry are planned again."
    ),
    forget: bool = typer.Option(
        False, "--forget", help="Plan without the entries that the journal has lost."
    ),
    fall_back: bool = typer.Option(
        False,
        "--fall-back",
        help="Use the world grid where the brief's own climate file cannot be used.",
    ),
    weather: Path | None = typer.Option(
        None, "--weather", metavar="FILE", help="A saved forecast or daily weather file."
    ),
    weather_url: str | None = typer.Option(
        None,
        "--weather-url",
        metavar="URL",
        help="A forecast server (non-commercial use without a key).",
    ),
) -> None:
    """Plan a season, or plan it again after the journal or the brief has changed.

    Example: turfplan plan examples/cool-overseed.toml -o out
    """
    # Longer than most functions: its options stand one a line.
    from turfplan.app.inputs import read_input
    from turfplan.app.outputs import output_folder
    from turfplan.app.plan_lawn import PlanRun, plan_lawn
    from turfplan.files.house_folder import house_at
    from turfplan.files.reading.brief import journal_beside

    not_done = _is_not_done(assume)
    run = PlanRun(today.date() if today else None, not_done, forget, _extras(todos=todos, pdf=pdf))
    if (house := house_at(brief)) is not None:
        from turfplan.app.plan_house import HouseWeather
        from turfplan.cli.plan_house import plan_all

        plan_all(house, output, run, HouseWeather(weather, weather_url, fall_back), as_json=as_json)
        return
    given = read_input(brief, weather_file=weather, weather_url=weather_url, fall_back=fall_back)
    folder = output_folder(brief, output)
    done = plan_lawn(
        given,
        folder,
        journal_beside(brief),
        tell=_teller(words_of_user()),
        run=run,
    )
    if as_json:
        print(json.dumps(done.plan.model_dump(mode="json", by_alias=True), ensure_ascii=False))
    elif done.plan.conflict is not None:
        told_conflict(done.plan, done.plan.conflict)
    else:
        _summary(done, folder, brief, output)
    if done.plan.conflict is not None:
        raise typer.Exit(4)


def _is_not_done(assume: str | None) -> bool:
    """Whether tasks that are over without an entry are open; raises TurfplanError for a word that
    `--assume` does not know.
    """
    from turfplan.errors import Problem, TurfplanError

    if assume not in (None, "not-done"):
        raise TurfplanError(Problem("--assume", commands.not_known(), repr(assume), "not-done"))
    return assume is not None


def _teller(words: "Words") -> "Callable[[str], None]":
    """What tells the user a note on the inputs, before the planning."""
    from turfplan.phrases import screen

    return lambda note: say(words, screen.note(note=note), aside=True)


def _extras(*, todos: bool, pdf: bool) -> "list[Extra]":
    """The files that are written only where they are asked for."""
    wanted: dict[Extra, bool] = {"todos.ics": todos, "checklist.pdf": pdf}
    return [name for name, asked in wanted.items() if asked]


def told_conflict(made: "Plan", conflict: "PlanConflict") -> None:
    """Print why no plan is possible and what would be."""
    from turfplan.phrases import screen

    words = words_of(made)
    say(words, screen.cannot())
    reasons = [words.text(reason) for reason in conflict.reasons]
    for line in reasons:
        say(words, screen.point(line=line))
    for rejected in made.rejected:
        # Where no way is open, the reason of each stands among those of the whole.
        campaign, reason = str(rejected.campaign), str(rejected.reason)
        if not any(campaign in line and reason in line for line in reasons):
            say(words, screen.rejected(campaign=campaign, reason=reason))
    _ways_out(words, made)


def _ways_out(words: "Words", made: "Plan") -> None:
    """Print what else could be asked for, each with the line of the brief and where it leads."""
    from turfplan.phrases import screen

    if made.options:
        say(words, screen.ways_out())
    for number, option in enumerate(made.options, 1):
        title, reasoned = str(option.title), str(option.reason)
        say(
            words,
            screen.way_out(number=number, title=title, change=str(option.change), reason=reasoned),
        )


def _put_off(words: "Words", made: "Plan") -> None:
    """Print what waits because nobody is there, and what would spare it."""
    from turfplan.message import Message
    from turfplan.phrases import screen

    for text in made.put_off:
        note = next(note for note in made.ranked if note.text == text)
        say(words, screen.note_of_rank(rank=Message(f"screen.rank.{note.rank}"), note=text))
    if made.put_off:
        _ways_out(words, made)


def _summary(done: "PlannedLawn", folder: Path, brief: Path, output: Path | None) -> None:
    """A short summary of the season in the words of the brief's units, with what this run has
    changed.
    """
    from turfplan.phrases import screen

    made = done.plan
    words = words_of(made)
    say(words, screen.season(lawn=made.lawn.name, campaign=str(made.campaign_name)))
    if made.place.name:
        say(words, screen.place(place=str(made.place.name)))
    for line in made.campaign_reason[:3]:
        say(words, screen.below(line=words.text(line)))
    _put_off(words, made)
    say(words, screen.rests_on(source=str(made.climate.source), n=made.climate.error_days))
    _notes(words, done, brief)
    if made.season_years is not None:
        say(words, screen.season_years(season=str(made.season_years.reason)))
    _tasks(words, made)
    if done.has_news:
        told_changes(words, made)
    told_overdue(words, made, brief, output)
    say(words, screen.written(folder=str(folder)), aside=True)


def _notes(words: "Words", done: "PlannedLawn", brief: Path) -> None:
    """What stops, what the law asks and what protects people in the whole plan, all of it; of the
    rest, the cautions of single jobs among it, what is new, and how much there is.

    What was torn or refused of the files is told before the planning, and what waits because nobody
    is there at the top, and not again.
    """
    from turfplan.message import Message
    from turfplan.phrases import screen
    from turfplan.records.plan import in_turn

    made = done.plan
    hand = {str(warning) for warning in made.warnings}
    new = {str(note.text) for note in done.new_notes}
    left = 0
    for note in in_turn(made.ranked):
        text = str(note.text)
        if note.kind == "input" or note.text in made.put_off:
            continue
        told_whole = note.told_first or (note.kind == "caution" and note.rank in ON_SCREEN)
        if not told_whole and text not in hand | new:
            left += 1
            continue
        rank = Message(f"screen.rank.{note.rank}")
        line = screen.new_note if text in new else screen.note_of_rank
        say(words, line(rank=rank, note=note.text))
    if left:
        command = f"turfplan print {brief} book"
        say(words, screen.more_notes(n=left, command=command))


def _tasks(words: "Words", made: "Plan") -> None:
    """Every job with its days and, while it is open, the name that `log` and `why` know it by; then
    what is to be bought.
    """
    from turfplan.export.sheets.look import in_order_of_work
    from turfplan.message import Day, Days
    from turfplan.phrases import screen
    from turfplan.work.rain_years import of_ten

    years = {r.task: screen.real_years(worked=r.worked, years=r.years) for r in made.real_years}
    spread = {task.id for task in made.tasks if task.plays("spreading")}
    for counted in made.generated_years:
        enough = screen.dry_in_generated if counted.task in spread else screen.moist_in_generated
        years[counted.task] = enough(share=of_ten(counted.worked / counted.years))
    for task in in_order_of_work(made.tasks):
        if task.series is None and task.status != "CANCELLED":
            worked = words.text(years[task.id]) if task.id in years else ""
            say(
                words,
                screen.job(
                    days=Days(*task.days),
                    title=str(task.title),
                    mark=_mark(words, task),
                    years=worked,
                ),
            )
    series = [t for t in made.tasks if t.series is not None and t.status != "CANCELLED"]
    if series:
        first, last = min(t.start for t in series), max(t.end for t in series)
        say(words, screen.waterings(n=len(series), first=Day(first), last=Day(last)))
    for item in made.order:
        name, amount = str(item.name), str(item.text)
        ordered, there = Day(item.order_by), Day(item.deliver_by)
        say(
            words,
            screen.order(name=name, amount=amount, order_by=ordered, on_site_by=there),
        )


def _mark(words: "Words", task: "Task") -> str:
    """What became of a job, or the name by which it is logged while it is open."""
    from turfplan.message import Message
    from turfplan.phrases import screen

    if task.closed is not None:
        return words.text(screen.closed(outcome=Message(f"screen.outcome.{task.closed}")))
    return words.text(screen.is_overdue(task=task.id)) if task.overdue else task.id


def told_changes(words: "Words", made: "Plan") -> None:
    """What is different from the plan before, and because of what; waterings, which follow the
    rest, in one line.
    """
    from turfplan.message import Message
    from turfplan.phrases import changes, screen

    tasks = {task.id: task for task in made.tasks}
    follow = 0
    for change in made.changes:
        task = tasks.get(change.task)
        if task is not None and task.series is not None:
            follow += 1
            continue
        title = str(task.title) if task is not None else change.task
        days = " -> ".join(str(what) for what in (change.before, change.after) if what)
        say(
            words,
            screen.change(
                kind=Message(f"changes.kind.{change.kind}"),
                title=title or words.text(changes.whole_plan()),
                days=words.text(screen.change_days(days=days)) if days else "",
                because=str(change.because),
            ),
        )
    if follow:
        say(words, screen.changed_waterings(n=follow))


def told_overdue(words: "Words", made: "Plan", brief: Path, output: Path | None) -> None:
    """What is over without an entry, with the two commands that answer, and the one that plans it
    all again.
    """
    from turfplan.phrases import screen

    overdue = [task for task in made.tasks if task.overdue]
    where = f" -o {output}" if output is not None else ""
    for task in overdue:
        say(words, screen.overdue(title=str(task.title)))
        for word in ("done", "skipped"):
            command = f"turfplan log {brief} {word} {task.id} --on {task.end}{where}"
            say(words, screen.command(command=command))
    if overdue:
        say(words, screen.plan_again())
        say(words, screen.command(command=f"turfplan plan {brief} --assume not-done{where}"))
