"""The table of a survey that is pasted or sent where it is asked how uneven the ground is: looked
at as it will be planned from, before it is kept."""

from collections.abc import Mapping
from pathlib import Path

from turfplan.app.brief_questions import SURVEY, SURVEY_FILE, brief_of
from turfplan.errors import Problem, TurfplanError, problem_message
from turfplan.files.reading.book import load_book
from turfplan.files.reading.ground import lawn_area_m2
from turfplan.files.reading.survey import result_of
from turfplan.files.reading.survey_table import survey_of_text, table_text
from turfplan.message import Message, Quantity
from turfplan.phrases import commands
from turfplan.phrases import page as phrases

# A page tells so many faults of a table; who has more has mistaken the file.
MOST_FAULTS = 12


def sent_table(table: Path, depth: str | None, file: Path, *, force: bool) -> str:
    """The text of a table that was named instead of a depth for a brief to be written.

    Raises TurfplanError for one that cannot be read, beside a depth, and where another file lies
    where it would be kept.
    """
    if depth is not None:
        raise TurfplanError(Problem("--survey", phrases.depth_or_survey(), str(table)))
    try:
        text = table_text(table)
    except TurfplanError as error:
        raise error.located(str(table)) from None
    kept = file.parent / SURVEY_FILE
    if kept.exists() and not force and kept.read_bytes() != text.encode():
        hint = commands.other_name_or_force()
        raise TurfplanError(Problem(str(kept), commands.exists(), hint=hint))
    return text


def survey_faults(answers: Mapping[str, str]) -> tuple[Message, ...]:
    """What is wrong with the table among the answers, line by line; nothing where the fill of a
    lawn can be made of it."""
    try:
        survey_told(answers)
    except TurfplanError as error:
        told = [problem_message(problem) for problem in error.problems]
        more = len(told) - MOST_FAULTS
        return (*told[:MOST_FAULTS], *([phrases.more_faults(n=more)] if more > 0 else []))
    return ()


def survey_told(answers: Mapping[str, str], name: str = "") -> Message:
    """The table said back: points, area, mean depth of the fill and its deepest.

    Raises TurfplanError with every fault of the table, which is called `name`.
    """
    brief = brief_of(answers)
    try:
        survey = survey_of_text(answers[SURVEY])
        found, _ = result_of(brief, survey, load_book(), lawn_area_m2(brief, Path()))
    except TurfplanError as error:
        raise (error.located(name) if name else error) from None
    mean, deepest = Quantity(found.mean_fill_mm, "depth"), Quantity(found.deepest_mm, "depth")
    if survey.lows:
        return phrases.survey_hollows(n=len(survey.lows), mean=mean, deepest=deepest)
    return phrases.survey_points(
        n=found.points, area=Quantity(found.area_m2, "area"), mean=mean, deepest=deepest
    )
