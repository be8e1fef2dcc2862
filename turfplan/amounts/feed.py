"""How much product a rate of nitrogen, lime or a nutrient comes to, for a lawn and by the bag's own numbers."""

from turfplan.errors import Problem, TurfplanError
from turfplan.fertilizer import parse_analysis
from turfplan.plan import Amount
from turfplan.units import LB_PER_1000FT2_G_M2, POUND_KG

G_IN_KG = 1000.0


def mass_amount(item: str, rate_g_m2: float, area_m2: float, reason: str, facts: tuple[str, ...] = ()) -> Amount:
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


def rate_amount(item: str, rate_g_m2: float, reason: str, facts: tuple[str, ...] = ()) -> Amount:
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
    reason: str = "",
    facts: tuple[str, ...] = (),
) -> tuple[Amount, ...]:
    """What a feeding takes: nitrogen per area and in all, and the product where the bag's analysis is known.

    Raises TurfplanError for an analysis that cannot be, or a product without nitrogen.
    """
    why = reason or "nitrogen of this feeding"
    found = [
        rate_amount("nitrogen", rate_g_m2, why, facts),
        mass_amount("nitrogen_total", rate_g_m2, area_m2, why, facts),
    ]
    if analysis is None:
        return tuple(found)
    bag = parse_analysis(analysis)
    product = bag.product_g_m2(rate_g_m2)
    words = f"{bag}: nitrogen / {bag.nitrogen_percent:g} %"
    found += [
        rate_amount("product_rate", product, words, facts),
        mass_amount("product", product, area_m2, words, facts),
    ]
    if bag.phosphate_percent:
        found.append(rate_amount("phosphate", bag.phosphate_g_m2(rate_g_m2), f"comes along with {bag}", facts))
    if bag.potash_percent:
        found.append(rate_amount("potash", bag.potash_g_m2(rate_g_m2), f"comes along with {bag}", facts))
    if slow_release_percent is not None:
        slow = rate_g_m2 * slow_release_percent / 100
        found.append(
            rate_amount("slow_nitrogen", slow, f"{slow_release_percent:g} % of the nitrogen is slowly released", facts)
        )
    return tuple(found)


def nitrogen_of_product_g_m2(product_g_m2: float, analysis: str) -> float:
    """Nitrogen in a rate of product."""
    return product_g_m2 * parse_analysis(analysis).nitrogen_percent / 100


def product_for_bag_kg(rate_g_m2: float, area_m2: float, analysis: str) -> float:
    """Product for a lawn, kg."""
    if area_m2 <= 0:
        raise TurfplanError(Problem("lawn.area", "must be more than 0", f"{area_m2:g} m2"))
    return parse_analysis(analysis).product_g_m2(rate_g_m2) * area_m2 / G_IN_KG


def lime_amount(product_g_m2: float, area_m2: float, reason: str, facts: tuple[str, ...] = ()) -> Amount:
    """A dressing of lime as a mass."""
    return mass_amount("lime", product_g_m2, area_m2, reason, facts)
