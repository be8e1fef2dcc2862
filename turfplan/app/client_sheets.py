"""Makes one sheet of all lawns that are due on a day or in a week."""

from pathlib import Path

from turfplan.app.client_letters import waiting_command
from turfplan.app.client_lists import AskedList, list_jobs
from turfplan.app.data_folders import language_for
from turfplan.app.outputs import words_of
from turfplan.calendar_days import week_of
from turfplan.export.sheets.crew_sheet import CrewPage, DueLawn, crew_html
from turfplan.files.reading.plan import read_plan
from turfplan.message import Message
from turfplan.messages import words_for
from turfplan.phrases import quotes as phrases
from turfplan.units import System


def crew_sheet(
    output: Path, asked: AskedList, paper: str | None
) -> tuple[str, str, tuple[Message, ...]]:
    """The sheet of a day or a week as HTML, the name of its file, and what must be told.

    Raises TurfplanError as `list_jobs` does.
    """
    found = list_jobs(output, asked)
    business = found.business
    plans = [(lawn, read_plan(lawn.folder)) for lawn in found.lawns]
    due = [
        DueLawn(lawn.id, plan, words_of(plan), lawn.client, lawn.jobs)
        for lawn, plan in plans
        if plan is not None
    ]
    system = (business and business.units) or (due[0].plan.lawn.units if due else System.METRIC)
    country = (business and business.country) or (due[0].plan.place.country if due else None)
    words = words_for(language_for(business), system, country=country)
    days = week_of(asked.day) if asked.kind == "week" else (asked.day,)
    page = CrewPage(business.name if business else output.name, days, found.hours, asked.day)
    name = f"{asked.kind}-{days[0].isoformat()}.html"
    notes = found.notes
    if found.waiting:
        command = waiting_command(output)
        notes = (*notes, phrases.left_out(n=len(found.waiting), command=command))
    return crew_html(page, due, words, paper), name, notes
