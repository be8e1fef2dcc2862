"""How much lime a soil test asks for: by its acidity, the laboratory's rate, or a buffer's table.

A table serves only its own buffer; what no table of the book serves is asked, never guessed.
"""

from dataclasses import dataclass

from turfplan.book.entries import Book
from turfplan.calendar_days import DAYS_IN_MONTH
from turfplan.message import Message, Number, Quantity, length_mm
from turfplan.phrases import lime as phrases
from turfplan.records.book_names import FactName, NamedFact, of_family, option_of_family
from turfplan.records.brief import Brief, SoilTest
from turfplan.work.feeding.blackouts import state_of
from turfplan.work.lawn import ResolvedLawn

HAIR = 1e-9
TENTHS = 10
# Soils on which no lime is given, and on which the tables of mineral soils say nothing.
LIMY, ORGANIC = "chalk", "peat"


@dataclass(frozen=True, slots=True)
class PhGoal:
    """The pH that liming aims at, that from which on none is given (by the rule of its state where
    `by_state`), and what is too high. `grasses` are those that it holds for."""

    goal: float
    limed_below: float
    high: float
    facts: tuple[FactName, ...]
    by_state: bool = False
    grasses: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class LimeNeed:
    """Pure lime in g/m2, or `as_written` the laboratory's product, and what it rests on."""

    rate_g_m2: float
    measured: Message
    facts: tuple[FactName, ...]
    as_written: bool = False


def ph_goal(brief: Brief, book: Book, species_id: str) -> PhGoal:
    """The goal for a grass, by the rule of its state where there is one.

    In a mixed stand it is moved into the range that every grass with a counted share bears.
    """
    name, grasses = ph_range(species_id), grasses_limed(brief, book, species_id)
    usual, state = book.fact(name), state_of(brief)
    ranges = [book.fact(ph_range(grass)) for grass in grasses]
    # Too much lime is not taken back: where the ranges do not meet, the lower end rules.
    high = min(found.high_si for found in ranges)
    low = min(high, max(found.low_si for found in ranges))
    aimed = book.known(option_of_family("lime.{state}_ph_goal_{species}", state, species_id))
    below = book.known(option_of_family("lime.{state}_limed_below_{species}", state, species_id))
    goal = min(high, max(low, usual.si)) if aimed is None else min(high, book.si(aimed))
    others = tuple(ph_range(grass) for grass in grasses if grass != species_id)
    own_facts = tuple(f for f in (aimed or name, below) if f is not None)
    facts: tuple[FactName, ...] = (*own_facts, *others)
    if soil_of(brief) == ORGANIC:
        # The lime that mineral soil takes would be far too much there.
        goal, below = min(goal, book.si("lime.ph_goal_on_peat")), None
        facts = ("lime.ph_goal_on_peat", *facts)
    test = brief.soil_test
    measured = (test.lime_rate_g_m2, test.acidity_cmol_kg, test.buffer_ph) != (None, None, None)
    # Within the range of the grass a pH alone asks for nothing; what the laboratory measured may.
    asked = measured or aimed is not None or soil_of(brief) == ORGANIC
    own = goal if asked else min(goal, low)
    limed_below = own if below is None else book.si(below)
    return PhGoal(goal, limed_below, high, facts, by_state=below is not None, grasses=grasses)


def grasses_limed(brief: Brief, book: Book, species_id: str) -> tuple[str, ...]:
    """The grasses that a pH must suit: one of a stand that stays with all that count in it."""
    stays = brief.seeding.intent != "renovate"
    mixed = [grass for grass in brief.lawn.grass if stays]
    if species_id not in {grass.species for grass in mixed}:
        return (species_id,)
    least = book.si("setting.counted_share")
    return tuple(
        dict.fromkeys((species_id, *(grass.species for grass in mixed if grass.share >= least)))
    )


def ph_range(species_id: str) -> FactName:
    """The fact that says from which pH to which a grass is at home."""
    return of_family("lime.ph_goal_{species}", species_id)


def on_fresh_ground(brief: Brief, *, renewed: bool) -> bool:
    """True where lime is worked in: bare ground, or a lawn made anew, that is sown or planted."""
    return renewed and (brief.lawn.condition == "bare" or brief.seeding.intent == "renovate")


def tested_soil_goes_under(setting: ResolvedLawn) -> bool:
    """Whether topsoil is brought in so deep that roots stand in it and not in the soil below, which
    a test of the lawn speaks of."""
    deep = setting.levelling.depth_mm >= setting.book.si("lime.turf_depth") - HAIR
    return setting.worked == "bare" and deep


def test_of_the_buried(setting: ResolvedLawn) -> bool:
    """Whether the test at hand, or one that a sample of the lawn would give, is of buried soil."""
    return tested_soil_goes_under(setting) and setting.brief.soil_test.of != "topsoil"


def soil_of(brief: Brief) -> str | None:
    """The soil as the book names it; None where the brief does not say."""
    said = (brief.lawn.soil or "").strip().lower().replace(" ", "_").replace("-", "_")
    return said or None


def holds_lime(brief: Brief) -> bool:
    """True where the soil holds free lime: it was found, or the lawn lies on chalk."""
    return bool(brief.soil_test.free_lime) or soil_of(brief) == LIMY


def wants_lime(brief: Brief, book: Book, species_id: str) -> bool:
    """True where the pH asks for lime, or the laboratory does without one."""
    test = brief.soil_test
    if holds_lime(brief):
        return False
    if test.ph is None:
        return bool(test.lime_rate_g_m2)
    return test.ph < ph_goal(brief, book, species_id).limed_below


def lime_need(
    brief: Brief, book: Book, species_id: str, *, fresh_ground: bool = False
) -> LimeNeed | None:
    """What the test asks for; None where it asks for none, or does not say how much."""
    test = brief.soil_test
    if not wants_lime(brief, book, species_id):
        return None
    goal = ph_goal(brief, book, species_id)
    if test.lime_rate_g_m2 is not None:
        return _by_laboratory(test, test.lime_rate_g_m2, goal)
    if test.ph is None or soil_of(brief) == ORGANIC:
        return None
    if test.acidity_cmol_kg is not None:
        return _by_acidity(book, test.ph, test.acidity_cmol_kg, goal)
    if test.buffer_ph is None:
        return None
    depth: FactName = "lime.worked_depth" if fresh_ground else "lime.turf_depth"
    if test.buffer_method == "sikora":
        return _by_sikora(book, test.ph, test.buffer_ph, goal, depth)
    if test.buffer_method == "mehlich":
        return _by_mehlich(book, test.ph, test.buffer_ph, goal, depth)
    return None


def given_before_g_m2(brief: Brief, book: Book) -> float:
    """Lime of the brief's history that the test has not seen, as product in g/m2.

    All of what was given after the test (of a test without a date: all), and of what was given
    before it the part that had not reacted yet.
    """
    on, monthly = brief.soil_test.on, book.si("lime.reacts_month")
    given = 0.0
    for use in brief.history.lime:
        months = 0.0 if on is None else max(0.0, (on - use.on).days / DAYS_IN_MONTH)
        given += use.rate_g_m2 * max(0.0, 1 - monthly * months)
    return given


def _by_laboratory(test: SoilTest, rate_g_m2: float, goal: PhGoal) -> LimeNeed:
    rate = Quantity(rate_g_m2, "rate")
    measured = (
        phrases.measured_rate(rate=rate)
        if test.ph is None
        else phrases.measured_rate_ph(
            ph=Number(test.ph, "plain"), goal=Number(goal.goal, "plain"), rate=rate
        )
    )
    return LimeNeed(rate_g_m2, measured, goal.facts, as_written=True)


def _by_acidity(book: Book, ph: float, acidity_cmol_kg: float, goal: PhGoal) -> LimeNeed:
    """The table of the Penn State laboratory: the next higher acidity, the next higher goal."""
    row = _acidity_row(book, acidity_cmol_kg, goal.goal)
    measured = phrases.measured_acidity(
        ph=Number(ph, "plain"),
        goal=Number(goal.goal, "plain"),
        acidity=Number(acidity_cmol_kg, "plain"),
    )
    return LimeNeed(book.si(row), measured, (row, *goal.facts))


def _by_sikora(
    book: Book, ph: float, buffer_ph: float, goal: PhGoal, depth: FactName
) -> LimeNeed | None:
    """The table of Oregon State for the Sikora buffer, from its depth to the lawn's.

    None for a reading below the table.
    """
    names = [name for name in book.facts if name.startswith("buffer.sikora_") and "goal" in name]
    readings = sorted({name.split("_")[1] for name in names}, key=_printed)
    if buffer_ph < _printed(readings[0]) - HAIR:
        return None
    reading = next((r for r in reversed(readings) if _printed(r) <= buffer_ph + HAIR), readings[0])
    target = min(
        {name.rsplit("_", 1)[1] for name in names},
        key=lambda tenths: (abs(int(tenths) - goal.goal * TENTHS), int(tenths)),
    )
    row = of_family("buffer.sikora_{sikora}_goal_{sikora_goal}", reading, target)
    above = buffer_ph * TENTHS > int(readings[-1]) + 1
    own: FactName = "buffer.sikora_depth"
    pure = 0.0 if above or ph >= _printed(target) else book.si(row)
    measured = phrases.measured_sikora(
        ph=Number(ph, "plain"),
        goal=Number(goal.goal, "plain"),
        buffer=Number(buffer_ph, "plain"),
        target=Number(_printed(target), "plain"),
        table_depth=length_mm(book.si(own)),
        depth=length_mm(book.si(depth)),
    )
    return LimeNeed(pure * book.si(depth) / book.si(own), measured, (row, own, depth, *goal.facts))


def _by_mehlich(book: Book, ph: float, buffer_ph: float, goal: PhGoal, depth: FactName) -> LimeNeed:
    """North Carolina's formula for the Mehlich buffer, from its depth to the lawn's.

    Acidity = (6.6 - buffer pH) x 4; lime in tons per acre = acidity x (goal - pH) / (6.6 - pH).
    """
    start, own = book.si("buffer.mehlich_start"), book.si("buffer.mehlich_depth")
    acidity = max(0.0, start - buffer_ph) * book.si("buffer.mehlich_acidity")
    factor = min(1.0, (goal.goal - ph) / (start - ph)) if ph < start else 1.0
    pure = acidity * factor * book.si("buffer.mehlich_lime")
    measured = phrases.measured_mehlich(
        ph=Number(ph, "plain"),
        goal=Number(goal.goal, "plain"),
        buffer=Number(buffer_ph, "plain"),
        table_depth=length_mm(own),
        depth=length_mm(book.si(depth)),
    )
    facts: tuple[FactName, ...] = (
        "buffer.mehlich_lime",
        "buffer.mehlich_acidity",
        "buffer.mehlich_depth",
        depth,
        *goal.facts,
    )
    return LimeNeed(pure * book.si(depth) / own, measured, facts)


def _acidity_row(book: Book, acidity_cmol_kg: float, goal_ph: float) -> NamedFact:
    table = [name for name in book.facts if name.startswith("lime.goal_")]
    goals = sorted({name.split("_")[1] for name in table}, key=_printed)
    goal = next((g for g in goals if _printed(g) >= goal_ph - HAIR), goals[-1])
    rows = sorted(
        (name.rsplit("_", 1)[1] for name in table if name.split("_")[1] == goal), key=_printed
    )
    acidity = next((row for row in rows if _printed(row) >= acidity_cmol_kg - HAIR), rows[-1])
    return of_family("lime.goal_{goal}_acidity_{acidity}", goal, acidity)


def _printed(tenths: str) -> float:
    """A number of a table from the tenths that stand in the name of its fact."""
    return int(tenths) / TENTHS
