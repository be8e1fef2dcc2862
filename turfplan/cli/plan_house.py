"""`turfplan plan FOLDER`: plans every lawn of a house, and says what that changed for which."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

import typer

from turfplan.cli.plan import told_changes, told_conflict, told_overdue
from turfplan.cli.speech import fault_lines, say, show_faults, words_of, words_of_user
from turfplan.phrases import house as phrases

if TYPE_CHECKING:
    from turfplan.app.plan_house import HouseWeather, LawnResult
    from turfplan.app.plan_lawn import PlannedLawn, PlanRun

NO_PLAN = 4


def plan_all(
    root: Path, output: Path | None, run: "PlanRun", weather: "HouseWeather", *, as_json: bool
) -> None:
    """Plan the lawns of a house, each told of as it is done, then write what is of all of them.

    The command ends as the first lawn that could not be planned would end it alone; one that has
    no feasible plan comes after those whose inputs are at fault.
    """
    from turfplan.app.house_files import write_house
    from turfplan.app.plan_house import plan_house
    from turfplan.errors import Problem, TurfplanError
    from turfplan.message import listed

    if output is not None:
        fault = phrases.each_its_folder()
        raise TurfplanError(Problem("-o", fault, str(output), hint=phrases.leave_out()))
    results: list[LawnResult] = []
    for result in plan_house(root, run, _teller, weather):
        results.append(result)
        if not as_json:
            _told(result)
    if as_json:
        print(json.dumps({"schema": 1, "lawns": [_as_json(each) for each in results]}))
    faults = [each.fault for each in results if each.fault is not None]
    if any(each.done is not None and each.done.plan.conflict is None for each in results):
        written = write_house(root)
        said = phrases.written(folder=str(root), files=listed(written, "comma"))
        say(words_of_user(), said, aside=True)
    show_faults(faults)
    if faults:
        raise typer.Exit(faults[0].exit_code)
    if any(each.done is not None and each.done.plan.conflict is not None for each in results):
        raise typer.Exit(NO_PLAN)


def _teller(folder: Path) -> "Callable[[str], None]":
    """What tells the user a note on the inputs of a lawn."""
    words = words_of_user()
    return lambda note: say(words, phrases.note(lawn=folder.name, note=note), aside=True)


def _told(result: "LawnResult") -> None:
    """What came of one lawn: its campaign and what this run has changed of it."""
    if result.done is None:
        say(words_of_user(), phrases.failed(lawn=result.folder.name))
        return
    made = result.done.plan
    words, name = words_of(made), made.lawn.name or result.folder.name
    if made.conflict is not None:
        say(words, phrases.lawn(lawn=name))
        told_conflict(made, made.conflict)
        return
    if result.done.before is not None and not result.done.has_news:
        say(words, phrases.no_news(lawn=name))
    else:
        say(words, phrases.planned(lawn=name, campaign=str(made.campaign_name)))
        _of_hours(result.done)
        if result.done.has_news:
            told_changes(words, made)
    _next(result.done)
    told_overdue(words, made, result.folder / "brief.toml", None)


def _of_hours(done: "PlannedLawn") -> None:
    """That jobs keep off days whose hours other lawns have taken, and which days are too full."""
    from turfplan.app.house_hours import jobs_kept_off, too_full

    words = words_of(done.plan)
    if count := jobs_kept_off(done.plan):
        say(words, phrases.kept_off(n=count))
    for said in too_full(done.plan):
        say(words, phrases.below(line=said))


def _next(done: "PlannedLawn") -> None:
    """The next job of a lawn."""
    from zoneinfo import ZoneInfo

    from turfplan.export.sheets.look import in_order_of_work
    from turfplan.message import Days

    plan = done.plan
    today = plan.now.astimezone(ZoneInfo(plan.timezone)).date()
    ahead = [t for t in plan.tasks if t.is_open and t.series is None and t.end >= today]
    for task in in_order_of_work(ahead)[:1]:
        said = phrases.coming(title=str(task.title), days=Days(*task.days))
        say(words_of(plan), said)


def _as_json(result: "LawnResult") -> dict[str, object]:
    if result.done is None:
        assert result.fault is not None  # a lawn is planned, or there is why not
        return {
            "lawn": result.folder.name,
            "plan": None,
            "faults": fault_lines(result.fault),
        }
    plan = result.done.plan.model_dump(mode="json", by_alias=True)
    return {"lawn": result.folder.name, "plan": plan, "faults": []}
