"""The sheet to measure a lawn by: methods in steps, points for an accuracy, lines to write on."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from turfplan.export.sheets.look import Paper
from turfplan.export.templates import render, stylesheet
from turfplan.message import Number, Quantity, RodReading, listed
from turfplan.messages import Words
from turfplan.records.fact_names import GroupFact
from turfplan.site.survey.methods import FEATURE_WORDS, GENERAL, METHODS, Accuracy, Method
from turfplan.units import System, from_inside

BLANK_LINES, LARGE_BLANK_LINES = 26, 15


@dataclass(frozen=True, slots=True)
class MethodView:
    """A method as its reader reads it, with its error and its columns in the reader's units."""

    name: str
    good_for: str
    tools: str
    steps: tuple[str, ...]
    error: str
    columns: str


@dataclass(frozen=True, slots=True)
class AccuracyRow:
    """One spacing: how far apart, how many points, and how near the volume comes."""

    spacing: str
    points: str
    reach: str


def measuring_html(
    words: Words,
    errors_mm: Mapping[GroupFact, float],
    accuracy: Sequence[Accuracy],
    area_m2: float,
    paper: Paper,
    large: bool = False,
) -> str:
    """The sheet as a page that stands alone.

    `errors_mm` holds the error of a reading by fact name (those of `site.survey.methods.METHODS`);
    `accuracy` comes from `site.survey.methods.accuracies` for a lawn of `area_m2`, and may be empty
    where the extra `survey` is absent.
    """
    return render(
        "print/measure.html.jinja",
        words,
        css=stylesheet(),
        paper=paper,
        large=large,
        methods=tuple(_method(m, errors_mm[m.error], words) for m in METHODS),
        general=tuple(words.text(line) for line in GENERAL),
        area=words.value(Quantity(area_m2, "area")),
        accuracy=tuple(_row(a, words) for a in accuracy),
        features=words.value(FEATURE_WORDS),
        blank_columns=_columns(METHODS[2], words),
        blank_lines=range(LARGE_BLANK_LINES if large else BLANK_LINES),
    )


def _method(method: Method, error_mm: float, words: Words) -> MethodView:
    return MethodView(
        words.text(method.name),
        words.text(method.good_for),
        words.value(listed(method.tools, "semicolon")),
        tuple(words.text(step) for step in method.steps),
        words.value(RodReading(error_mm)),
        ",".join(_columns(method, words)),
    )


def _columns(method: Method, words: Words) -> tuple[str, ...]:
    written = method.columns_us if words.system is System.US else method.columns_metric
    return tuple(name.strip() for name in written.split(","))


def _row(accuracy: Accuracy, words: Words) -> AccuracyRow:
    if words.system is System.US:
        feet = from_inside(accuracy.spacing_m * 1000, "ft", "length")
        spacing = f"{words.value(Number(feet, 'tenth'))} ft"
    else:
        spacing = f"{words.value(Number(accuracy.spacing_m, 'plain'))} m"
    return AccuracyRow(
        spacing,
        words.value(Number(accuracy.points, "grouped")),
        words.value(Number(accuracy.share, "percent")),
    )
