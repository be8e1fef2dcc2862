"""What is bought, beside figures reckoned by hand in the units of the trade."""

import itertools
from dataclasses import replace
from datetime import date

import pytest

from planning import plan_of
from test_planning_amounts import SAND, YD3, setting
from tiers import sampled_pairs
from told import all_told, told
from turfplan.export.sheets.look import in_order_of_work
from turfplan.message import Message, as_written
from turfplan.planning.amounts import densities
from turfplan.planning.bagged_goods import small_orders
from turfplan.planning.purchases import (
    Bought,
    material_orders,
    order_lines,
    quoted_depth,
    short_line,
)
from turfplan.planning.stock import Stock
from turfplan.records.plan_task import Amount
from turfplan.units import System, read_as
from turfplan.work.drafts import Draft, Load
from turfplan.work.mix_choice import choose_mix
from turfplan.work.season import FillVolumes

# Exact: a pound is 0.45359237 kg (NIST Handbook 44, Appendix C).
LB = 0.45359237
NONE = as_written("")
VOLUMES = FillVolumes({1: 2.0 * YD3, 2: 1.1 * YD3, 3: 4.0 * YD3}, 0.0, 0.3 * YD3)
TWO_LOADS = (Load(1, 1, (1, 2), 3.1 * YD3), Load(2, 2, (3,), 4.0 * YD3, order=2))


def yards(lines: list[Bought]) -> list[float]:
    """The volumes of orders in cubic yards."""
    return [line.value / YD3 for line in lines]


def test_each_load_has_its_order() -> None:
    """3.1 yd3 are sold as 3.25; 4 and the touch-up's 0.3 as 4.5; parts and loads add up."""
    found = material_orders(setting(), TWO_LOADS, SAND, VOLUMES)
    assert yards(found) == pytest.approx([3.25, 4.5])
    assert [(b.order_task, b.deliver_task) for b in found] == [
        ("order_material.1", "delivery.1"),
        ("order_material.2", "delivery.2"),
    ]
    assert all(sum(p.value for p in b.parts) == pytest.approx(b.value, abs=1e-5) for b in found)
    assert all(sum(b.loads) == pytest.approx(b.value) for b in found)
    assert (
        "touch-up" in told(found[1].reason)
        and "touch-up" not in told(found[0].reason)
        and "pass 3" in told(found[1].reason)
        and "passes 1 to 2" in told(found[0].reason)
    )


@pytest.mark.parametrize(
    ("more", "sold", "words"),
    [
        (0.5, 3.75, "0.5 yd³ more"),
        (-0.5, 2.75, "0.5 yd³ less"),
        (-9.0, 0.0, "9 yd³ less"),
        (0.15, 3.25, "0.15 yd³ more"),
    ],
)
def test_stock_makes_an_order_larger_or_smaller(more: float, sold: float, words: str) -> None:
    """3.1 yd3 and half a yard more are sold as 3.75, half a yard less as 2.75; never below 0."""
    found = material_orders(setting(), TWO_LOADS, SAND, VOLUMES, Stock(more={1: more * YD3}))
    assert yards(found) == pytest.approx([sold, 4.5]) and words in told(found[0].reason)


@pytest.mark.full
@pytest.mark.parametrize(("slope", "bought"), [(12, {"straw"}), (18, {"mat", "pegs"})])
def test_what_covers_a_slope_is_what_is_bought(slope: int, bought: set[str]) -> None:
    """Straw where it stays; where it would slide the mat that the step unrolls, with its pegs. It
    goes on when the seed has been rolled in.
    """
    plan = plan_of({"site": {"slope_percent": slope}, "lawn": {"soil": "sandy loam"}})
    covers = {"straw", "mat", "pegs"}
    assert {line.item for line in plan.order} & covers == bought
    cover = plan.task("cover")
    assert cover is not None and {a.item for a in cover.amounts} == bought
    assert ("mat" in told(cover.title)) is ("mat" in bought)
    assert ("Unroll a mat" in " ".join(map(told, cover.how))) is ("mat" in bought)
    order = [task.id for task in in_order_of_work(plan.tasks)]
    roll = plan.task("roll")
    assert roll is not None and (roll.start, roll.end) == (cover.start, cover.end)
    assert order.index("roll") < order.index("cover")
    if "mat" in bought:
        mat = next(line for line in plan.order if line.item == "mat")
        assert mat.value == pytest.approx(1.1 * plan.lawn.area_m2)


def test_seed_is_spoken_of_where_it_is_sown() -> None:
    """The mix is chosen for the seed that follows the last pass: the load of an earlier pass, in
    another season, does not speak of it.
    """
    lawn = setting({"seeding": {"intent": "overseed"}})
    orders = material_orders(lawn, TWO_LOADS, choose_mix(lawn), VOLUMES)
    first, last = (told(line.reason) for line in orders)
    assert "the last pass" not in first and "Seed follows the last pass" in last
    bare = setting({"seeding": {"intent": "none"}})
    loads = material_orders(bare, TWO_LOADS, SAND, VOLUMES)
    assert all("Sand on sand." in told(line.reason) for line in loads)


def test_loads_keep_to_the_truck() -> None:
    """4.5 yd3 on a truck of 2 yd3 are three loads."""
    lawn = setting({"delivery": {"truck_limit": "2 yd3"}})
    assert material_orders(lawn, TWO_LOADS, SAND, VOLUMES)[1].loads == pytest.approx(
        (1.5 * YD3,) * 3
    )


def test_hollows_have_soil_of_their_own() -> None:
    """1.01 yd3 are sold as 1.25 for the filling, with an order and a delivery beside the mix's; the
    supplier is asked for the lawn's own soil and a pH that its grass bears, the gate is watched.
    """
    flat = setting()
    lawn = replace(flat, levelling=replace(flat.levelling, lift_share=0.05, lift_depth_mm=60.0))
    volumes = replace(VOLUMES, lift_m3=1.01 * YD3)
    soil = material_orders(lawn, TWO_LOADS, SAND, volumes)[-1]
    assert (soil.item, soil.value / YD3) == ("topsoil", pytest.approx(1.25))
    assert (soil.order_task, soil.deliver_task) == ("order_material.lifting", "delivery.lifting")
    asked = " ".join(map(told, soil.questions))
    assert "the lawn's own soil, clay loam" in asked and "Tall fescue is at home" in asked
    assert "6 and 7.5" in asked and soil.acceptance and soil.loads
    little = material_orders(lawn, (), SAND, replace(VOLUMES, lift_m3=0.2 * YD3))[0]
    assert little.order_task is None and little.in_bags and not little.loads


HOLLOWS_IN = {
    "Durban": {
        "lawn": {"area": "600 m2", "grass": "bermuda_common", "soil": "sand", "thatch": "15 mm"},
        "place": {"postal_code": None, "latitude": -29.83, "longitude": 30.98, "country": "ZA"},
    },
    "Baton Rouge": {
        "lawn": {"area": "6000 ft2", "grass": "centipede", "soil": "silt loam"},
        "place": {"postal_code": "70808", "state": "LA"},
    },
    "Seattle": {
        "lawn": {"area": "240 m2", "grass": "perennial_ryegrass", "soil": "loam"},
        "place": {"postal_code": "98115", "state": "WA"},
    },
}


@pytest.mark.full
@pytest.mark.parametrize(
    ("home", "deep_mm", "shallow_mm", "share"),
    sampled_pairs(
        itertools.product(HOLLOWS_IN, (40, 60, 90), (12, 15, 18, 19, 22, 30), (0.05, 0.15)),
        ("Durban", 60, 18, 0.15),
        ("Baton Rouge", 60, 18, 0.15),
        ("Seattle", 90, 30, 0.05),
    ),
)
def test_hollows_of_two_depths_have_their_orders(
    home: str, deep_mm: int, shallow_mm: int, share: float
) -> None:
    """Whatever hollows are asked for, the judge finds nothing; soil for lifted ones is ordered,
    brought and paid attention to at the gate like the mix, before the turf is cut.
    """
    lows = [
        {"depth": f"{deep_mm} mm", "share": 0.04},
        {"depth": f"{shallow_mm} mm", "share": share},
    ]
    leveling = {"leveling": {"depth": None, "lows": lows}, "seeding": {"intent": "none"}}
    plan = plan_of(HOLLOWS_IN[home], leveling)
    tasks = {task.id: task for task in plan.tasks}
    soil = [line for line in plan.order if line.item == "topsoil" and line.acceptance]
    lifted = tasks.get("lift_and_fill")
    assert (lifted is None) == (not soil) and len(soil) <= 1
    if lifted is not None:
        brought = tasks["delivery.lifting"]
        assert soil[0].deliver_by == brought.start <= lifted.start
        # A shop is asked nothing about its bags; who brings a load is.
        assert bool(soil[0].questions) != any(part.bags.text for part in soil[0].parts)
        assert not soil[0].loads or tasks["order_material.lifting"].start == soil[0].order_by


def test_a_shortage_is_a_line_of_its_own() -> None:
    """0.6 yd3 short are sold as 0.75, for the task that needs them, with no order before it."""
    line = short_line(setting(), SAND, 0.6 * YD3, "topdress.3")
    assert line.value / YD3 == pytest.approx(0.75) and line.loads == (line.value,)
    assert (line.order_task, line.deliver_task) == (None, "topdress.3")


def test_bags_are_sold_whole() -> None:
    """20.2 lb of seed are 21 lb, and held back is no order; sod stands as it is; the fertilizer at
    hand is not bought again.
    """
    amounts = (
        Amount.of("seed", 20.2 * LB, "kg", "Why."),
        Amount.of("seed held back", 2.02 * LB, "kg", "Why."),
        Amount.of("sod", 100.3, "m2", "Why."),
        Amount.of("product", 10.123, "kg", "Why."),
    )
    draft = Draft("overseed", "overseed", "seed", "", 1, amounts=amounts)
    found = {line.item: line for line in small_orders(setting(), {"overseed": draft})}
    assert set(found) == {"seed", "sod"}
    assert found["seed"].value == pytest.approx(21 * LB) and told(found["seed"].text) == "21 lb"
    assert found["sod"].value == 100.3
    assert found["seed"].questions and not found["sod"].questions
    assert all(
        line.deliver_task == "overseed" and line.order_task is None for line in found.values()
    )


def test_orders_have_their_days() -> None:
    """On the day of the order task, else days before the work, never before the first day."""
    first, day = date(2027, 3, 1), date(2027, 4, 24)
    mix = Bought(
        "mix", NONE, 2 * YD3, "m3", (), (YD3, YD3), NONE, NONE, "order_material.1", "delivery.1"
    )
    seed = Bought("seed", NONE, 21 * LB, "kg", (), (), NONE, NONE, None, "overseed")
    lost = Bought("straw", NONE, 5, "bales", (), (), NONE, NONE, None, "nowhere")
    days = {
        "order_material.1": (date(2027, 4, 3), date(2027, 4, 3)),
        "delivery.1": (day, day),
        "overseed": (day, date(2027, 4, 25)),
    }
    found = order_lines([mix, seed, lost], days, 10, first)
    assert [(line.order_by, line.deliver_by) for line in found] == [
        (date(2027, 4, 3), day),
        (date(2027, 4, 14), day),
        (first, first),
    ]
    assert [(line.value_us, line.unit_us) for line in found] == [
        (2, "yd3"),
        (21, "lb"),
        (5, "bales"),
    ]
    assert (
        order_lines([seed], {"overseed": (date(2027, 3, 4), day)}, 10, first)[0].order_by == first
    )
    late = order_lines(
        [mix], days | {"order_material.1": (date(2027, 5, 1), date(2027, 5, 1))}, 10, first
    )
    # What is wanted before that order goes out is ordered ahead by itself.
    assert (late[0].order_by, late[0].deliver_by) == (date(2027, 4, 14), day)


def test_a_quoted_load_reaches_so_deep() -> None:
    """8 yd3 over 5,000 ft2, a tenth for settling: 0.471 in, told as no more than 3/8."""
    assert quoted_depth(setting()) is None
    quoted = quoted_depth(setting({"delivery": {"quoted": "8 yd3"}}))
    assert told(quoted) == "The quoted load of 8 yd³ settles to 3/8 in over 5,000 ft²."


def bought(item: str, value: float, unit: str) -> Bought:
    """The line of one amount."""
    amount = Amount.of(item, value, unit, "Why.")  # type: ignore[arg-type]
    draft = Draft("plant", "plant", "seed", "", 1, amounts=(amount,))
    (line,) = small_orders(setting(), {"plant": draft})
    return line


@pytest.mark.parametrize(
    ("item", "value", "unit", "name", "text"),
    [
        ("seed", 9.0, "kg", "tall fescue seed", "20 lb"),
        ("sod", 100.0, "m2", "tall fescue sod", "1,080 ft²"),
        ("plugs", 1250, "pieces", "tall fescue plugs", "1,250 pieces"),
        ("sprigs", 1.0, "m3", "tall fescue sprigs", "28.5 bu"),
        ("straw", 5, "bales", "weed-free straw", "5 bales"),
        ("lime", 9.0, "kg", "ground limestone", "20 lb"),
    ],
)
def test_what_comes_in_bags_has_a_name(
    item: str, value: float, unit: str, name: str, text: str
) -> None:
    """As it is asked for in a shop, with how much of it."""
    line = bought(item, value, unit)
    assert (told(line.name), told(line.text)) == (name, text)


def test_seed_is_asked_about() -> None:
    """The tag, weeds and varieties."""
    questions = all_told(bought("seed", 9.0, "kg").questions)
    assert len(questions) == 3 and "Purity and germination" in questions[0]


def test_a_load_tells_its_weight() -> None:
    """4.5 yd3 of sand at 1,600 kg/m3 are 5505 kg, 6.1 short tons; in loads the truck takes."""
    lawn = setting({"delivery": {"truck_limit": "2 yd3"}})
    line = material_orders(lawn, TWO_LOADS, SAND, VOLUMES)[1]
    assert told(line.text) == "4.5 yd³ (about 6.1 tons) in 3 loads of 1.5 yd³"
    metric = material_orders(replace(lawn, system=System.METRIC), TWO_LOADS, SAND, VOLUMES)[1]
    assert told(metric.text, System.METRIC).startswith("3.3 m³ (about 5.3 t) in ")
    whole = short_line(setting(), SAND, 0.75 * YD3, "topdress.3")
    assert told(whole.text) == "0.75 yd³ (about 1.0 tons)"


def test_a_title_calls_a_mix_of_many_parts_a_mix() -> None:
    """The book's mixes of one part, and the owner's of two, fit under their own names."""
    assert titled("sand", 1) is None and titled("own", 2) is None
    assert told(titled("topsoil_sand", 2)) == told(titled("own", 3)) == "mix"


def titled(mix: str, parts: int) -> Message | None:
    """What the title of an order calls a mix of so many equal parts, where that is not its name."""
    names = ("sand", "topsoil", "compost")[:parts]
    chosen = replace(SAND, id=mix, parts=dict.fromkeys(names, 1 / parts))
    return material_orders(setting(), TWO_LOADS, chosen, VOLUMES)[0].short_name


def test_a_quoted_load_reaches_four_times_as_deep_on_a_quarter_of_the_lawn() -> None:
    """What was quoted is spread where the lawn is filled, and nowhere else."""
    whole = plan_of({"delivery": {"quoted": "4 yd3"}})
    lows = {"depth": None, "lows": [{"depth": "0.5 in", "share": 0.25}]}
    part = plan_of({"delivery": {"quoted": "4 yd3"}, "leveling": lows})
    words = [
        next(
            text
            for text in all_told(plan.warnings + plan.cautions + plan.assumptions)
            if "4 yd" in text
        )
        for plan in (whole, part)
    ]
    assert "1/8 in over 5,000 ft²" in words[0] and "7/8 in over 1,250 ft²" in words[1]


def test_bags_weigh_what_they_hold() -> None:
    """Each material by its own density, told beside the bags: what is carried is what is bought."""
    lawn = setting()
    half = replace(SAND, id="own", parts={"topsoil": 0.5, "sand": 0.5})
    (found,) = material_orders(
        lawn,
        (Load(1, 1, (1,), 0.2, bags=True),),
        half,
        FillVolumes({1: 0.2}, 0.0, 0.0),
    )
    held = {part.item: part.value for part in found.parts}
    assert found.in_bags and set(held) == {"topsoil", "sand"}
    mass_kg = sum(volume * densities(lawn)[item] for item, volume in held.items())
    weight = dict(found.text.values)["weight"]
    assert weight.value == pytest.approx(mass_kg, rel=1e-4)  # type: ignore[union-attr]
    assert 1000 * found.value < mass_kg < 2000 * found.value


def test_fertilizer_at_hand_is_taken_and_not_ordered() -> None:
    """Feedings tell what they take of the bag, the plan the sum; none is bought."""
    plan = plan_of({"feeding": {"analysis": "24-0-6"}})
    taken = [a.value for t in plan.tasks for a in t.amounts if a.item == "product"]
    assert len(taken) > 2 and not [line for line in plan.order if line.item == "fertilizer"]
    (told_of_bag,) = [c for c in all_told(plan.cautions) if "24-0-6" in c]
    measure = read_as(sum(taken), "mass", System.US, "up")
    assert measure.text in told_of_bag and "buy only what is missing" in told_of_bag


def test_a_bag_that_may_not_be_used_is_said_once() -> None:
    """16-4-8 without a test: no feeding is reckoned with it, one note says why, and one line of the
    order asks for the nitrogen of all feedings in another product.
    """
    plan = plan_of({"feeding": {"analysis": "16-4-8"}})
    amounts = [a for t in plan.tasks for a in t.amounts]
    assert not [a for a in amounts if a.item in ("product", "phosphate")]
    said = [c for c in all_told(plan.cautions) if "16-4-8" in c]
    assert len(said) == 1 and "is not used" in said[0]
    assert not any("16-4-8" in c for t in plan.tasks for c in all_told(t.cautions))
    (line,) = [line for line in plan.order if line.item == "fertilizer"]
    nitrogen = sum(a.value for a in amounts if a.item == "nitrogen_total")
    assert 0 <= line.value - nitrogen < LB and "middle number is 0" in told(line.name)
    fed = [t.start for t in plan.tasks for a in t.amounts if a.item == "nitrogen_total"]
    assert line.deliver_by < min(fed) and line.tasks == ("collect.fertilizer",)
