"""Says which files a plan's folder holds, and where that folder lies."""

from collections.abc import Collection
from pathlib import Path
from typing import Literal

from turfplan.app.reader_language import language_of
from turfplan.errors import Problem, TurfplanError
from turfplan.files.data_folder import output_folder_of
from turfplan.files.reading.plan import read_plan
from turfplan.messages import Words, words_for
from turfplan.phrases import errors
from turfplan.phrases import files as phrases
from turfplan.records.plan import Plan
from turfplan.units import System

Extra = Literal["todos.ics", "checklist.pdf"]


def words_of(plan: Plan) -> Words:
    """The words in which the sheets of a plan speak.

    Those of the book too for a plan of before it kept its names.
    """
    country = plan.place.country
    if plan.names:
        return words_for(plan.language, plan.lawn.units, country=country)
    from turfplan.book.words import english_of
    from turfplan.files.reading.book import load_book

    english = english_of(load_book(plan.place.region))
    return words_for(plan.language, plan.lawn.units, english, country=country)


def words_of_user() -> Words:
    """The words of somebody who asks without a plan at hand.

    Amounts are in metric units. Raises TurfplanError for an unknown language.
    """
    return words_for(language_of(None), System.METRIC, terminal=True)


def outputs(plan: Plan, words: Words, extras: Collection[Extra] = ()) -> dict[str, bytes]:
    """The files of a plan's folder by name, with those that were asked for besides.

    They are pure functions of the plan. Raises MissingToolError for a PDF where nothing can print
    one.
    """
    from turfplan.export.calendar.season_ics import season_ics, todos_ics
    from turfplan.export.sheets.changes_page import changes_html
    from turfplan.export.sheets.checklist import checklist_html
    from turfplan.export.sheets.ground_sheets import trace_ahead
    from turfplan.export.sheets.order_sheet import order_html
    from turfplan.export.tables.csv_tables import order_csv, tasks_csv
    from turfplan.export.tables.plan_json import plan_to_json

    checklist = checklist_html(plan, words)
    trace_ahead(plan, words)
    files = {
        "plan.json": plan_to_json(plan),
        "season.ics": season_ics(plan, words),
        "work.ics": season_ics(plan, words, part="work"),
        "water.ics": season_ics(plan, words, part="water"),
        "checklist.html": checklist.encode(),
        "order.html": order_html(plan, words).encode(),
        "tasks.csv": tasks_csv(plan, words).encode(),
        "order.csv": order_csv(plan).encode(),
    }
    if plan.revision > 1:
        files["changes.html"] = changes_html(plan, words).encode()
    if "todos.ics" in extras:
        files["todos.ics"] = todos_ics(plan, words)
    if "checklist.pdf" in extras:
        from turfplan.export.pdf import to_pdf

        files["checklist.pdf"] = to_pdf(checklist, plan)
    return files


def warm_up() -> None:
    """Read now what making the files of plans needs, before processes are forked from this one."""
    # Each is imported for what it brings with it.
    from turfplan.export.calendar import season_ics
    from turfplan.export.sheets import changes_page, checklist, order_sheet
    from turfplan.export.tables import csv_tables, plan_json
    from turfplan.files.reading.book import load_book

    assert all((season_ics, changes_page, checklist, order_sheet, csv_tables, plan_json))
    load_book()


def output_folder(brief: Path, chosen: Path | None) -> Path:
    """Where a brief's outputs go: the folder that was named, else its lawn's folder, or one beside
    it of its name."""
    return chosen if chosen is not None else output_folder_of(brief)


def plan_in(folder: Path, brief: Path) -> Plan:
    """The plan that a folder holds.

    Raises TurfplanError, with the command that makes one, where there is none.
    """
    plan = read_plan(folder)
    if plan is None:
        hint = errors.make_plan_first(command=f"turfplan plan {brief} -o {folder}")
        raise TurfplanError(Problem(str(folder), phrases.no_plan_yet(), hint=hint))
    return plan
