"""What a fertilizer bag brings along that a feeding did not ask for."""

from turfplan.agronomy import Book
from turfplan.fertilizer import parse_analysis
from turfplan.units import System, read_as


def product_cautions(
    rate_g_m2: float,
    analysis: str,
    book: Book,
    *,
    phosphate_wanted_g_m2: float = 0.0,
    slow_release_percent: float | None = None,
    soluble_cap_g_m2: float | None = None,
    system: System = System.US,
) -> tuple[str, ...]:
    """What a bag brings that was not asked for: phosphorus without need, much quick nitrogen, more than the law allows."""
    bag = parse_analysis(analysis)
    found = []
    if bag.phosphate_percent > 0 and phosphate_wanted_g_m2 <= 0:
        found.append(
            f"{bag} brings phosphorus that neither test nor law supports here: choose a product whose middle number is 0."
        )
    slow = (slow_release_percent or 0.0) / 100
    wanted = book.si("feeding.slow_share")
    if slow < wanted:
        found.append(f"Choose a product with {wanted:.0%} or more of its nitrogen slowly released.")
    quick = rate_g_m2 * (1 - slow)
    if soluble_cap_g_m2 is not None and quick > soluble_cap_g_m2 + 1e-9:
        said = read_as(quick, "rate", system).text
        found.append(
            f"{said} of quick nitrogen at once is more than the rule here allows: choose a product that releases slowly."
        )
    if rate_g_m2 > book.si("feeding.single_max") + 1e-9:
        found.append("More nitrogen than grass takes at once: split the feeding.")
    return tuple(found)
