"""What a fertilizer bag brings along that a feeding did not ask for."""

from turfplan.book.bag_analysis import parse_analysis
from turfplan.book.entries import Book
from turfplan.message import Message, Number, Quantity
from turfplan.phrases import feeding as phrases


def may_be_used(analysis: str, *, phosphorus_short: bool) -> bool:
    """Whether a bag at hand is spread here: not where it brings phosphorus that no test finds
    short, or that law keeps off.

    Raises TurfplanError for an analysis that cannot be.
    """
    return parse_analysis(analysis).phosphate_percent <= 0 or phosphorus_short


def product_cautions(
    rate_g_m2: float,
    analysis: str,
    book: Book,
    *,
    phosphorus_short: bool = False,
    slow_release_percent: float | None = None,
    soluble_cap_g_m2: float | None = None,
) -> tuple[Message, ...]:
    """What a bag brings that was not asked for.

    That is phosphorus without need, much quick nitrogen, or more than the law allows. Raises
    TurfplanError for an analysis that cannot be.
    """
    bag = parse_analysis(analysis)
    cautions: list[Message] = []
    if not may_be_used(analysis, phosphorus_short=phosphorus_short):
        cautions.append(phrases.bag_phosphorus(bag=str(bag)))
    slow = (slow_release_percent or 0.0) / 100
    wanted = book.si("feeding.slow_share")
    if slow < wanted:
        cautions.append(phrases.bag_slow(share=Number(wanted, "percent")))
    quick = rate_g_m2 * (1 - slow)
    if soluble_cap_g_m2 is not None and quick > soluble_cap_g_m2 + 1e-9:
        cautions.append(phrases.bag_quick(rate=Quantity(quick, "rate")))
    if rate_g_m2 > book.si("feeding.single_max") + 1e-9:
        cautions.append(phrases.bag_too_much())
    return tuple(cautions)
