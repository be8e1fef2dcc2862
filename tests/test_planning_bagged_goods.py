"""What is bought in bags and trays: seed by its places, sod by the day, nitrogen in all."""

from dataclasses import replace
from typing import Any

import pytest

from test_planning_purchases import setting
from turfplan.book.words import book_message, grass_name
from turfplan.message import Number, Quantity, as_written, sentences
from turfplan.messages import words_for
from turfplan.phrases import buying
from turfplan.phrases import order as phrases
from turfplan.planning import bagged_goods
from turfplan.planning.bagged_goods import _in_words, _sold, fertilizer_order, small_orders
from turfplan.planning.purchases import Bought
from turfplan.records.plan_task import Amount
from turfplan.units import System
from turfplan.work.drafts import Draft
from turfplan.work.seed_mix import SownArea, seed_name

LB = 0.45359237
LAWN = setting()
WHY = as_written("Why.")


def bought(*amounts: Amount, lawn: Any = LAWN, days: int = 1) -> list[Bought]:
    """The lines of a task of these amounts."""
    draft = Draft("a", "plant", "seed", WHY, 1, amounts=amounts, duration_days=days)
    return small_orders(lawn, {"a": draft})


def test_what_is_weighed_is_sold_in_whole_pounds_or_half_kilograms() -> None:
    """Rounded up; what is counted or measured stands as it is."""
    twenty = Amount.of("seed", 20.2 * LB, "kg", WHY)
    assert _sold(twenty, System.US) == pytest.approx(21 * LB)
    assert _sold(Amount.of("seed", 9.1, "kg", WHY), System.METRIC) == pytest.approx(9.5)
    assert _sold(Amount.of("sod", 100.3, "m2", WHY), System.US) == 100.3


def test_amounts_are_asked_for_by_weight_area_bales_or_pieces() -> None:
    """Each in words of its own, with the count that its word is chosen by."""
    kg = _in_words(Amount.of("lime", 4.0, "kg", WHY))
    assert kg == phrases.sold(amount=Quantity(4.0, "mass", "up"))
    assert _in_words(Amount.of("sod", 40.5, "m2", WHY)) == phrases.sold(
        amount=Quantity(40.5, "area", "up")
    )
    assert _in_words(Amount.of("straw", 3, "bales", WHY)) == phrases.bales(
        n=3, bales=Number(3, "grouped")
    )
    assert _in_words(Amount.of("plugs", 1200, "pieces", WHY)) == phrases.pieces(
        n=1200, pieces=Number(1200, "grouped")
    )


def test_seed_of_two_places_is_two_lines_by_their_masses(monkeypatch: pytest.MonkeyPatch) -> None:
    """Three quarters and a quarter of 40 lb; grasses of a mixture are parts of their line."""
    shade = as_written("shade")
    own, zone = SownArea(0.5, {}), SownArea(0.5, {}, shade)
    masses = {own: {"tall_fescue": 12.0, "kentucky_bluegrass": 9.0}, zone: {"fine_fescue": 7.0}}
    monkeypatch.setattr(bagged_goods, "seed_masses_kg", lambda lawn: masses)
    amount = Amount.of("seed", 40 * LB, "kg", WHY).model_copy(
        update={"facts": ("seeding.reserve",)}
    )
    first, second = bought(amount)
    assert first.value == pytest.approx(30 * LB) and second.value == pytest.approx(10 * LB)
    assert [(p.item, p.share) for p in first.parts] == [
        ("tall_fescue", 12 / 21),
        ("kentucky_bluegrass", 9 / 21),
    ]
    assert [p.value for p in first.parts] == [7.775869, 5.831902]
    assert [(p.value_us, p.unit_us) for p in first.parts] == [(17.142857, "lb"), (12.857143, "lb")]
    assert all(p.unit == "kg" for p in first.parts)
    assert second.parts == () and first.facts == ("seeding.reserve",)
    named = phrases.name_seed(grass=seed_name(LAWN.book, ("fine_fescue",)))
    assert second.name == phrases.name_seed_for(seed=named, area=shade)
    both = seed_name(LAWN.book, ("tall_fescue", "kentucky_bluegrass"))
    assert first.name == phrases.name_seed(grass=both)
    questions = (phrases.seed_ask_tag(), phrases.seed_ask_weeds(), phrases.seed_ask_varieties())
    assert first.questions == questions and first.deliver_task == "a"
    assert first.order_task is None and first.loads == ()


def test_sod_of_several_days_comes_by_the_day() -> None:
    """90 m2 over three days are 30 a day, 900 plugs 300, 0.9 m3 of sprigs 0.3; of one day nothing
    is said."""
    sod = Amount.of("sod", 90.0, "m2", WHY)
    (line,) = bought(sod, days=3)
    by_day = phrases.sod_by_day(days=3, area=Quantity(30.0, "area", "up"))
    assert line.reason == sentences(WHY, by_day) and line.value == 90
    assert bought(sod)[0].reason == WHY
    assert bought(sod, days=2)[0].reason != WHY
    plugs = Amount.of("plugs", 900, "pieces", WHY)
    count = phrases.pieces(n=300, pieces=Number(300, "grouped"))
    told_plugs = sentences(WHY, phrases.plants_by_day(days=3, amount=count))
    assert bought(plugs, days=3)[0].reason == told_plugs and bought(plugs)[0].reason == WHY
    sprigs = Amount.of("sprigs", 0.9, "m3", WHY)
    volume = phrases.sprigs_a_day(volume=Quantity(0.3, "sprig_volume", "up"))
    (of_sprigs,) = bought(sprigs, days=3)
    assert of_sprigs.reason == sentences(WHY, phrases.plants_by_day(days=3, amount=volume))


@pytest.mark.parametrize(
    ("amount", "item"),
    [
        ("straw", "straw"),
        ("mat", "mat"),
        ("pegs", "pegs"),
        ("sod", "sod"),
        ("plugs", "plugs"),
        ("sprigs", "sprigs"),
        ("lime", "lime"),
        ("sulfur", "sulfur"),
        ("iron sulfate", "iron sulfate"),
        ("gypsum", "gypsum"),
        ("potash to add in all", "potash"),
        ("phosphate to add in all", "phosphate"),
    ],
)
def test_each_thing_is_bought_by_its_own_name(amount: Any, item: str) -> None:
    """Plants by their grass."""
    (line,) = bought(Amount.of(amount, 2.0, "m2", WHY))
    grass = grass_name(LAWN.book, LAWN.sowing.grass.id)
    names = {
        "straw": book_message(LAWN.book, "materials.straw.name"),
        "sod": phrases.name_sod(grass=grass),
        "plugs": phrases.name_plugs(grass=grass),
        "sprigs": phrases.name_sprigs(grass=grass),
    }
    by_item = {
        "mat": phrases.name_mat(),
        "pegs": phrases.name_pegs(),
        "lime": phrases.name_lime(),
        "sulfur": phrases.name_sulfur(),
        "iron sulfate": phrases.name_iron_sulfate(),
        "gypsum": phrases.name_gypsum(),
        "potash": phrases.name_potash(),
        "phosphate": phrases.name_phosphate(),
    }
    assert (line.item, line.name) == (item, {**names, **by_item}[item])


def test_a_nutrient_is_bought_as_the_product_that_holds_it() -> None:
    """Ten pounds of potash are twenty of sulfate of potash; of phosphate more than twice, in whole
    pounds, and the line says what these hold."""
    words = words_for("en", LAWN.system)
    for item, held, told in (
        (
            "potash to add in all",
            10.0,
            "20 lb of sulfate of potash (0-0-50), which hold 10 lb; 10 lb are asked for",
        ),
        (
            "phosphate to add in all",
            22 * 0.46,
            "22 lb of triple superphosphate (0-46-0), which hold 10.1 lb; 10 lb are asked for",
        ),
    ):
        amount: Any = Amount.of(item, 10 * LB, "kg", WHY)
        (line,) = bought(amount)
        assert words.text(line.text) == told and line.value == pytest.approx(held * LB)


def test_what_is_not_bought_by_itself_has_no_line() -> None:
    """The fertilizer at hand, and the rate of nitrogen."""
    assert (
        bought(Amount.of("product", 4.0, "kg", WHY), Amount.of("nitrogen", 4.0, "g/m2", WHY)) == []
    )
    assert small_orders(LAWN, {}) == []


def test_nitrogen_of_all_feedings_is_one_line() -> None:
    """12.3 and 11.4 lb are 24 pounds, for the first of them; none without any."""
    facts = ("feeding.slow_share",)
    feeds = [
        Draft(
            f"feed_nitrogen.{key}",
            "feed_nitrogen",
            "care",
            WHY,
            1,
            amounts=(
                Amount.of("nitrogen_total", lb * LB, "kg", WHY).model_copy(
                    update={"facts": facts if key == "first" else ()}
                ),
                Amount.of("nitrogen", 3.0, "g/m2", WHY),
            ),
        )
        for key, lb in (("first", 12.3), ("second", 11.4))
    ]
    (line,) = fertilizer_order(LAWN, feeds)
    assert line.value == pytest.approx(24 * LB)
    assert line.text == phrases.sold(amount=Quantity(round(23.7 * LB, 6), "mass", "up"))
    assert (line.item, line.deliver_task) == ("fertilizer", "feed_nitrogen.first")
    assert line.reason == buying.nitrogen_reason(n=2) and line.facts == facts
    slow = Number(LAWN.book.si("feeding.slow_share"), "percent")
    assert line.questions == (phrases.nitrogen_ask_slow(share=slow),)
    metric = replace(LAWN, system=System.METRIC)
    assert fertilizer_order(metric, feeds)[0].value == pytest.approx(11.0)
    assert fertilizer_order(LAWN, [replace(feeds[0], amounts=())]) == []
