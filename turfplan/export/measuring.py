"""The sheet to measure a lawn by: methods in steps, how many points for which accuracy, and lines to write on."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from turfplan.export.sheets import Paper
from turfplan.export.templates import render, stylesheet
from turfplan.site.measuring import GENERAL, METHODS, Accuracy, Method
from turfplan.units import System, from_inside, read_as
from turfplan.wording import in_units

BLANK_LINES, LARGE_BLANK_LINES = 26, 15


@dataclass(frozen=True, slots=True)
class MethodView:
    """A method with its error and its columns in the reader's units."""

    method: Method
    error: str
    columns: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class AccuracyRow:
    """One spacing: how far apart, how many points, and how near the volume comes."""

    spacing: str
    points: str
    reach: str


def measuring_html(
    system: System,
    errors_mm: Mapping[str, float],
    accuracy: Sequence[Accuracy],
    area_m2: float,
    paper: Paper,
    large: bool = False,
) -> str:
    """The sheet as a page that stands alone.

    `errors_mm` holds the error of a reading by fact name (those of `site.measuring.METHODS`); `accuracy` comes from
    `site.measuring.accuracies` for a lawn of `area_m2`, and may be empty where the extra `survey` is absent.
    """
    methods = tuple(
        MethodView(_told(m, system), _error(errors_mm[m.error], system), _columns(m, system)) for m in METHODS
    )
    return render(
        "print/measure.html.jinja",
        css=stylesheet(),
        paper=paper,
        large=large,
        methods=methods,
        general=GENERAL,
        area=read_as(area_m2, "area", system).text,
        accuracy=tuple(_row(a, system) for a in accuracy),
        blank_columns=_columns(METHODS[2], system),
        blank_lines=range(LARGE_BLANK_LINES if large else BLANK_LINES),
    )


def _told(method: Method, system: System) -> Method:
    """A method in the units of its reader."""
    tools, steps = (tuple(in_units(text, system) for text in texts) for texts in (method.tools, method.steps))
    return replace(method, good_for=in_units(method.good_for, system), tools=tools, steps=steps)


def _columns(method: Method, system: System) -> tuple[str, ...]:
    written = method.columns_us if system is System.US else method.columns_metric
    return tuple(name.strip() for name in written.split(","))


def _error(mm: float, system: System) -> str:
    """An error of reading in small units: hundredths of an inch or millimetres."""
    return f"{from_inside(mm, 'in', 'length'):.2f} in" if system is System.US else f"{mm:.0f} mm"


def _row(found: Accuracy, system: System) -> AccuracyRow:
    feet = from_inside(found.spacing_m * 1000, "ft", "length")
    spacing = f"{feet:.1f} ft" if system is System.US else f"{found.spacing_m:g} m"
    return AccuracyRow(spacing, f"{found.points:,}", f"{found.share:.0%}")
