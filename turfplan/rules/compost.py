"""The nitrogen that compost in a top-dressing gives grass in its first year."""

from dataclasses import dataclass

from turfplan.agronomy import Book
from turfplan.brief import Brief
from turfplan.units import System, read_as


@dataclass(frozen=True, slots=True)
class CompostCredit:
    """Nitrogen credit of compost, g/m2: the value to plan with and the range it may lie in."""

    g_m2: float
    low_g_m2: float
    high_g_m2: float
    depth_mm: float
    facts: tuple[str, ...]

    def reason(self, system: System) -> str:
        """The credit in words."""
        low, high = (read_as(x, "rate", system).text for x in (self.low_g_m2, self.high_g_m2))
        return (
            f"{read_as(self.depth_mm, 'depth', system).text} of compost counts as {read_as(self.g_m2, 'rate', system).text} of nitrogen in its "
            f"first year; it may be {low} to {high}: no turf figure for the first year has been published."
        )


def compost_credit(brief: Brief, book: Book, depth_mm: float) -> CompostCredit:
    """Total nitrogen x dry mass x first-year share. `depth_mm` is compost alone, as loose as it is spread.

    The analysis in the brief, where given, takes the place of the usual range of nitrogen.
    """
    names = ("materials.compost.density", "materials.compost.moisture", "compost.nitrogen", "compost.first_year_share")
    density, moisture, nitrogen, share = (book.fact(name) for name in names)
    # kg/m3 x mm = g/m2
    dry_g_m2 = density.si * depth_mm * (1 - moisture.si)
    given = brief.feeding.compost_nitrogen_percent
    low, middle, high = (given / 100,) * 3 if given is not None else (nitrogen.low_si, nitrogen.si, nitrogen.high_si)
    return CompostCredit(
        dry_g_m2 * middle * share.si, dry_g_m2 * low * share.low_si, dry_g_m2 * high * share.high_si, depth_mm, names
    )
