"""How much product a rate of nitrogen, lime or a nutrient comes to, by the bag's own numbers."""

from turfplan.book.bag_analysis import Analysis, parse_analysis
from turfplan.message import Message, Number
from turfplan.phrases import amounts as phrases
from turfplan.records.book_names import FactName
from turfplan.records.items import AmountItem
from turfplan.records.plan_task import Amount
from turfplan.units import LB_PER_1000FT2_G_M2, POUND_KG

G_IN_KG = 1000.0


def mass_amount(
    item: AmountItem,
    rate_g_m2: float,
    area_m2: float,
    reason: Message,
    facts: tuple[FactName, ...] = (),
) -> Amount:
    """A rate over an area as a mass in kg and lb."""
    kg = rate_g_m2 * area_m2 / G_IN_KG
    return Amount(
        item=item,
        value=round(kg, 3),
        unit="kg",
        value_us=round(kg / POUND_KG, 3),
        unit_us="lb",
        reason=reason,
        facts=facts,
    )


def rate_amount(
    item: AmountItem, rate_g_m2: float, reason: Message, facts: tuple[FactName, ...] = ()
) -> Amount:
    """A rate in g/m2 and lb/1000 ft2."""
    return Amount(
        item=item,
        value=round(rate_g_m2, 3),
        unit="g/m2",
        value_us=round(rate_g_m2 / LB_PER_1000FT2_G_M2, 3),
        unit_us="lb/1000ft2",
        reason=reason,
        facts=facts,
    )


def feed_amounts(
    rate_g_m2: float,
    area_m2: float,
    analysis: str | None,
    *,
    slow_release_percent: float | None = None,
    reason: Message | None = None,
    facts: tuple[FactName, ...] = (),
) -> tuple[Amount, ...]:
    """What a feeding takes: nitrogen per area and in all, and the product of a known bag.

    Raises TurfplanError for an analysis that cannot be, or a product without nitrogen.
    """
    why = reason or phrases.feed_nitrogen()
    amounts = [
        rate_amount("nitrogen", rate_g_m2, why, facts),
        mass_amount("nitrogen_total", rate_g_m2, area_m2, why, facts),
    ]
    if analysis is None:
        return tuple(amounts)
    bag = parse_analysis(analysis)
    product = bag.product_g_m2(rate_g_m2)
    share = phrases.feed_product(bag=str(bag), percent=Number(bag.nitrogen_percent, "plain"))
    amounts += [
        rate_amount("product_rate", product, share, facts),
        mass_amount("product", product, area_m2, share, facts),
        *_along(bag, rate_g_m2, facts),
    ]
    if slow_release_percent is not None:
        slow = phrases.feed_slow(percent=Number(slow_release_percent, "plain"))
        amounts.append(
            rate_amount("slow_nitrogen", rate_g_m2 * slow_release_percent / 100, slow, facts)
        )
    return tuple(amounts)


def _along(bag: Analysis, rate_g_m2: float, facts: tuple[FactName, ...]) -> list[Amount]:
    """The phosphate and the potash that come along with a rate of nitrogen."""
    along = phrases.feed_comes_along(bag=str(bag))
    amounts = []
    if bag.phosphate_percent:
        amounts.append(rate_amount("phosphate", bag.phosphate_g_m2(rate_g_m2), along, facts))
    if bag.potash_percent:
        amounts.append(rate_amount("potash", bag.potash_g_m2(rate_g_m2), along, facts))
    return amounts


def lime_amount(
    product_g_m2: float, area_m2: float, reason: Message, facts: tuple[FactName, ...] = ()
) -> Amount:
    """A dressing of lime as a mass."""
    return mass_amount("lime", product_g_m2, area_m2, reason, facts)
