"""The sheet to measure a lawn by: how close the points, and for each method its steps, a table and
a grid to sketch on.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from turfplan.export.sheets.look import Paper, plain_name
from turfplan.export.templates import render, stylesheet
from turfplan.message import Number, Quantity, RodReading, listed
from turfplan.messages import Words
from turfplan.records.fact_names import GroupFact
from turfplan.site.survey.methods import FEATURE_WORDS, GENERAL, METHODS, Accuracy, Method
from turfplan.units import System, from_inside

BLANK_LINES, LARGE_BLANK_LINES = 12, 8
# A whole lawn that is read point by point takes a page of lines.
MANY_POINTS, MORE_LINES = "rotating_level", 14
# The band around the volume, as a share of it, below which points are close enough to order by, and
# that below which they tell at least how many loads it is.
ORDERED_BY, LOADS_TOLD = 0.35, 0.8


@dataclass(frozen=True, slots=True)
class MethodColumn:
    """A column of a table to write in: what stands in it, and its unit."""

    name: str
    unit: str


@dataclass(frozen=True, slots=True)
class MethodView:
    """A method as its reader reads it, with its error and its columns in the reader's units."""

    id: str
    name: str
    good_for: str
    tools: str
    steps: tuple[str, ...]
    error: str
    columns: str
    table: tuple[MethodColumn, ...]


@dataclass(frozen=True, slots=True)
class Choice:
    """How close the points: their distance, how many that is where the area is known, and what they
    are good for.
    """

    spacing: str
    points: str
    good_for: str


@dataclass(frozen=True, slots=True)
class LawnToMeasure:
    """The lawn that a sheet is for: its area, and whose it is and where, if many are measured."""

    area_m2: float
    of: str = ""


def measuring_html(
    words: Words,
    errors_mm: Mapping[GroupFact, float],
    accuracy: Sequence[Accuracy],
    spacings_m: Sequence[float],
    lawn: LawnToMeasure | None,
    paper: Paper,
    large: bool = False,
) -> str:
    """The sheet as a page that stands alone.

    `errors_mm` holds the error of a reading by fact name (those of `site.survey.methods.METHODS`);
    `accuracy` comes from `site.survey.methods.accuracies` for a lawn of its area at `spacings_m`.
    It may be empty, as where no lawn is known yet: then three distances are told by what they are
    usually good for.
    """
    return render(
        "print/measure.html.jinja",
        words,
        css=stylesheet(),
        paper=paper,
        large=large,
        of=plain_name(lawn.of, words) if lawn is not None and lawn.of else "",
        methods=tuple(_method(m, errors_mm[m.error], words) for m in METHODS),
        general=tuple(words.text(line) for line in GENERAL),
        area=words.value(Quantity(lawn.area_m2, "area")) if lawn is not None else "",
        choices=tuple(_choices(accuracy, spacings_m, words)),
        features=words.value(FEATURE_WORDS),
        blank_lines=LARGE_BLANK_LINES if large else BLANK_LINES,
        more_lines={MANY_POINTS: MORE_LINES},
    )


def _method(method: Method, error_mm: float, words: Words) -> MethodView:
    columns = _columns(method, words)
    return MethodView(
        method.id,
        words.text(method.name),
        words.text(method.good_for),
        words.value(listed(method.tools, "semicolon")),
        tuple(words.text(step) for step in method.steps),
        words.value(RodReading(error_mm)),
        ",".join(columns),
        tuple(_column(name, words) for name in columns),
    )


def _columns(method: Method, words: Words) -> tuple[str, ...]:
    written = method.columns_us if words.system is System.US else method.columns_metric
    return tuple(name.strip() for name in written.split(","))


def _column(name: str, words: Words) -> MethodColumn:
    """What a column of the file is called on paper: `back_ft` is the reading back, in ft."""
    what, _, unit = name.partition("_")
    return MethodColumn(words.say(f"measuring.head.{what}"), unit)


def _choices(
    accuracy: Sequence[Accuracy], spacings_m: Sequence[float], words: Words
) -> list[Choice]:
    """The distances from the widest to the closest.

    A wider one is never told to be better than a closer one: where it is reckoned so, that is the
    luck of a grid.
    """
    known = {row.spacing_m: row for row in accuracy}
    usual = ("loads", "order", "map")[-len(spacings_m) :]
    told, least = [], 0.0
    for number, spacing in enumerate(sorted(spacings_m)):
        row = known.get(spacing)
        if row is None:
            good_for = usual[-1 - number]
        else:
            least = max(least, row.share)
            good_for = _good_for(least, closest=number == 0)
        points = words.value(Number(row.points, "grouped")) if row is not None else ""
        told.append(
            Choice(_spacing(spacing, words), points, words.say(f"measuring.choice.{good_for}"))
        )
    return told[::-1]


def _good_for(share: float, *, closest: bool) -> str:
    if share <= ORDERED_BY:
        return "map" if closest else "order"
    return "loads" if share <= LOADS_TOLD else "look"


def _spacing(spacing_m: float, words: Words) -> str:
    if words.system is System.US:
        return f"{words.value(Number(from_inside(spacing_m * 1000, 'ft', 'length')))} ft"
    return f"{words.value(Number(spacing_m, 'plain'))} m"
