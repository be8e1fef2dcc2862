"""The nitrogen that compost in a top-dressing gives grass in its first year."""

from dataclasses import dataclass

from turfplan.book.entries import Book
from turfplan.message import Message, Quantity, length_mm
from turfplan.phrases import feeding as phrases
from turfplan.records.book_names import FactName, of_material
from turfplan.records.brief import Brief


@dataclass(frozen=True, slots=True)
class CompostCredit:
    """Nitrogen credit of compost, g/m2: the value to plan with and the range it may lie in."""

    g_m2: float
    low_g_m2: float
    high_g_m2: float
    depth_mm: float
    facts: tuple[FactName, ...]

    def reason(self) -> Message:
        """The credit, and the range it may lie in."""
        return phrases.compost_credit(
            depth=length_mm(self.depth_mm),
            rate=Quantity(self.g_m2, "rate"),
            low=Quantity(self.low_g_m2, "rate"),
            high=Quantity(self.high_g_m2, "rate"),
        )


def compost_credit(brief: Brief, book: Book, depth_mm: float) -> CompostCredit:
    """Total nitrogen x dry mass x first-year share.

    `depth_mm` is compost alone, as loose as it is spread. The analysis in the brief, where given,
    takes the place of the usual range of nitrogen.
    """
    names: tuple[FactName, ...] = (
        of_material("compost", "density"),
        of_material("compost", "moisture"),
        "compost.nitrogen",
        "compost.first_year_share",
    )
    density, moisture, nitrogen, share = (book.fact(name) for name in names)
    # kg/m3 x mm = g/m2
    dry_g_m2 = density.si * depth_mm * (1 - moisture.si)
    given = brief.feeding.compost_nitrogen_percent
    low, middle, high = (
        (given / 100,) * 3
        if given is not None
        else (nitrogen.low_si, nitrogen.si, nitrogen.high_si)
    )
    return CompostCredit(
        dry_g_m2 * middle * share.si,
        dry_g_m2 * low * share.low_si,
        dry_g_m2 * high * share.high_si,
        depth_mm,
        names,
    )
