"""Makes the sheet that says how a lawn is measured."""

from collections.abc import Callable, Mapping
from pathlib import Path

from turfplan.app.inputs import checked_file
from turfplan.app.reader_language import language_of
from turfplan.app.sheets import PaperName
from turfplan.book.entries import Book
from turfplan.errors import MissingToolError, problem_message
from turfplan.export.sheets.look import paper_for
from turfplan.export.sheets.measuring_sheet import LawnToMeasure, measuring_html
from turfplan.files.reading.book import load_book
from turfplan.files.reading.brief import BriefFile
from turfplan.files.reading.ground import lawn_area_m2
from turfplan.files.reading.survey import settings_of
from turfplan.message import listed
from turfplan.messages import words_for
from turfplan.phrases import files as phrases
from turfplan.records.fact_names import GroupFact
from turfplan.site.survey.methods import METHODS, accuracies, spacings_for
from turfplan.site.survey.records import Survey
from turfplan.units import System
from turfplan.work.lawn import country_of, units_of


def measuring_sheet(
    brief: Path | None,
    *,
    large: bool,
    paper: PaperName | None,
    tell: Callable[[str], None],
    of: str = "",
) -> tuple[str, str]:
    """How to measure this lawn, with how many points are good for what, and its file's name; `of`
    says whose lawn it is, where many are measured.

    It needs no plan. Without a brief it is for any lawn, in US units on Letter and in metric ones
    else. Without numpy and scipy the points are not counted, as `tell` hears. Raises TurfplanError
    for a brief that cannot be used.
    """
    book = load_book()
    errors = {method.error: book.si(method.error) for method in METHODS}
    name = f"measure{'-large' if large else ''}.html"
    if brief is None:
        system = System.US if paper == "letter" else System.METRIC
        words = words_for(language_of(None), system)
        spacings = spacings_for(None, us=system is System.US)
        size = paper_for(None, system, paper)
        return measuring_html(words, errors, (), spacings, None, size, large=large), name
    return _measuring_of(
        checked_file(brief), book, errors, large=large, paper=paper, tell=tell, of=of
    ), name


def _measuring_of(
    file: BriefFile,
    book: Book,
    errors_mm: Mapping[GroupFact, float],
    *,
    large: bool,
    paper: PaperName | None,
    tell: Callable[[str], None],
    of: str,
) -> str:
    """The measuring sheet of the lawn of a brief."""
    area, settings = lawn_area_m2(file.brief, file.folder), settings_of(file.brief, book, Survey())
    country = country_of(file.brief)
    words = words_for(language_of(file.brief), units_of(file.brief), country=country)
    spacings = spacings_for(area, us=words.system is System.US)
    try:
        table = accuracies(area, settings, spacings)
    except MissingToolError as error:
        faults = listed(map(problem_message, error.problems), "semicolon")
        tell(words.text(phrases.no_accuracy(faults=faults)))
        table = ()
    size = paper_for(country, words.system, paper)
    return measuring_html(
        words, errors_mm, table, spacings, LawnToMeasure(area, of), size, large=large
    )
