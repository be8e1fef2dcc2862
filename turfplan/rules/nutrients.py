"""What a soil test asks for beside nitrogen: lime, potassium, and phosphorus where the law allows it."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from math import ceil

from turfplan.agronomy import Book
from turfplan.brief import Brief
from turfplan.rules.blackouts import state_of
from turfplan.units import System, read_as

DAYS_IN_MONTH = 365.25 / 12


@dataclass(frozen=True, slots=True)
class LimePlan:
    """Lime of a soil test: pure lime and product per area, and the parts it is given in, `gap_days` (least, most) apart.

    On `fresh_ground` there is one part, worked in before it is sown.
    """

    pure_g_m2: float
    product_g_m2: float
    parts_g_m2: tuple[float, ...]
    gap_days: tuple[int, int]
    reason: str
    facts: tuple[str, ...]
    fresh_ground: bool = False

    @property
    def gap_months(self) -> tuple[int, int]:
        """The gap in whole months."""
        least, most = (round(days / DAYS_IN_MONTH) for days in self.gap_days)
        return least, most


@dataclass(frozen=True, slots=True)
class Nutrient:
    """Phosphate (P2O5) or potash (K2O) to give, g/m2 a year; a rate of 0 comes with the reason for none."""

    item: str
    rate_g_m2: float
    reason: str
    facts: tuple[str, ...]


def split_lime(product_g_m2: float, most_g_m2: float) -> tuple[float, ...]:
    """Equal parts of lime, none more than the surface takes at once."""
    count = max(1, ceil(product_g_m2 / most_g_m2 - 1e-9))
    return (product_g_m2 / count,) * count


def lime_product_g_m2(pure_g_m2: float, cce_percent: float) -> float:
    """Product for an amount of pure lime: amount x 100 / calcium carbonate equivalent."""
    return pure_g_m2 * 100 / cce_percent


def lime_plan(brief: Brief, book: Book, species_id: str, *, fresh_ground: bool = False) -> LimePlan | None:
    """Lime by soil test, or None where no test asks for it. On `fresh_ground` all of it is worked in at once.

    The table of the Penn State laboratory: exchangeable acidity and the pH goal give pure lime.
    """
    test = brief.soil_test
    if test.ph is None or test.acidity_cmol_kg is None:
        return None
    goal = book.si(f"lime.ph_goal_{species_id}")
    if test.ph >= goal:
        return None
    pure, row = _lime_table_g_m2(book, test.acidity_cmol_kg, goal)
    cce = brief.feeding.lime_cce_percent or book.si("lime.cce_assumed") * 100
    product = lime_product_g_m2(pure, cce)
    most = book.si("lime.single_max")
    parts = (product,) if fresh_ground else split_lime(product, most)
    gap = book.fact("lime.split_gap")
    said = "" if brief.feeding.lime_cce_percent else " (assumed)"
    reason = (
        f"Soil pH {test.ph:g}, goal {goal:g}, acidity {test.acidity_cmol_kg:g}: lime by the laboratory's table, for a product of "
        f"{cce:g} % calcium carbonate equivalent{said}"
        + (
            f", in {len(parts)} parts so that the surface takes it"
            if len(parts) > 1
            else ", worked in before seeding"
            if fresh_ground
            else ""
        )
        + "."
    )
    facts = (row, "lime.single_max", "lime.split_gap", f"lime.ph_goal_{species_id}")
    return LimePlan(pure, product, parts, (round(gap.low_si), round(gap.high_si)), reason, facts, fresh_ground)


def _lime_table_g_m2(book: Book, acidity_cmol_kg: float, goal_ph: float) -> tuple[float, str]:
    """Pure lime of the table: the row of the next higher acidity, for the goal printed nearest from above."""
    table = [name for name in book.facts if name.startswith("lime.goal_")]
    goals = sorted({name.split("_")[1] for name in table}, key=_printed)
    goal = next((g for g in goals if _printed(g) >= goal_ph - 1e-9), goals[-1])
    rows = sorted((_printed(name.rsplit("_", 1)[1]), name) for name in table if name.split("_")[1] == goal)
    row = next((name for acidity, name in rows if acidity >= acidity_cmol_kg - 1e-9), rows[-1][1])
    return book.si(row), row


def _printed(tenths: str) -> float:
    """A number of the table from the tenths that stand in the name of its fact."""
    return int(tenths) / 10


def potassium_plan(brief: Brief, book: Book, feedings: int = 0) -> Nutrient | None:
    """Potash by the level the laboratory found, in two parts with the first of so many feedings; None without a test."""
    level = brief.soil_test.potassium
    if level is None:
        return None
    name = f"feeding.potash_{level}"
    rate = book.si(name)
    if rate <= 0:
        return Nutrient("potash", 0.0, "The soil test finds enough potassium: none is given.", (name,))
    with_what = ", with the first two feedings" if feedings > 1 else ", the first with the feeding" if feedings else ""
    return Nutrient(
        "potash",
        rate,
        f"Potassium is {level} in the soil test: potash over the year, in two parts{with_what}; the laboratory's own rate comes first.",
        (name,),
    )


def phosphorus_plan(brief: Brief, book: Book, *, seeded: bool, compost: bool, today: date) -> Nutrient | None:
    """Phosphate by law first, then by soil test; without either none is given, with the reason."""
    test, law = brief.soil_test, brief.local.phosphorus
    if law == "banned":
        return _no_phosphate("Phosphorus is banned here (brief)", ())
    rule = f"law.{state_of(brief)}_phosphorus_test_age"
    known = law is None and rule in book.facts
    oldest = rule if known else "feeding.soil_test_age"
    if test.phosphorus is None:
        return _no_phosphate(
            "No soil test: phosphorus is given only where one shows the need and the law allows it", (oldest,)
        )
    if test.on is None:
        return _no_phosphate("The soil test has no date, and the law asks how old it is", (oldest,))
    if (today - test.on).days > book.si(oldest):
        return _no_phosphate(f"The soil test of {test.on} is too old", (oldest,))
    if test.phosphorus != "low":
        return _no_phosphate(f"Phosphorus is {test.phosphorus} in the soil test: none is needed", (oldest,))
    if compost:
        return _no_phosphate("Phosphorus is low, but the compost brings some: test again next year", (oldest,))
    name = "feeding.phosphate_low" if seeded else "feeding.phosphate_low_established"
    ask = (
        "The state asks for this test as read; confirm it"
        if known
        else "The law here asks for this test"
        if law == "test"
        else "Ask what the law says here"
    )
    return Nutrient(
        "phosphate",
        book.si(name),
        f"Phosphorus is low in a recent soil test. {ask}, and keep the report.",
        (oldest, name),
    )


def _no_phosphate(why: str, facts: tuple[str, ...]) -> Nutrient:
    return Nutrient("phosphate", 0.0, f"{why}: use a product whose middle number is 0.", facts)


def soil_test_notes(lime: LimePlan | None, nutrients: Sequence[Nutrient | None], system: System) -> tuple[str, ...]:
    """What the soil test asks for, in sentences: lime with its parts, then each nutrient or why it is left out."""
    found = []
    if lime is not None:
        part = read_as(lime.parts_g_m2[0], "rate", system, "up").text
        times = f"{len(lime.parts_g_m2)} times {part}, {lime.gap_months[0]} to {lime.gap_months[1]} months apart"
        found.append(f"Lime: {times if len(lime.parts_g_m2) > 1 else f'{part} once'}. {lime.reason}")
    for nutrient in nutrients:
        if nutrient is not None:
            amount = read_as(nutrient.rate_g_m2, "rate", system).text if nutrient.rate_g_m2 > 0 else "none"
            found.append(f"{nutrient.item.capitalize()}: {amount}. {nutrient.reason}")
    return tuple(found)
