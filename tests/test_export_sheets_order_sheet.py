"""The order: each reason once, what is fetched beside what is bought, a supplier's page for him."""

import re
from html import unescape

import pytest

from planning import example
from printed import english, order_html, unset
from turfplan.app.outputs import words_of
from turfplan.export.sheets.order_money import order_cost
from turfplan.export.sheets.order_sheet import order_view, side_by_side
from turfplan.export.sheets.plants_by_day import planting_days

SHEET = re.compile(r'<section class="page sheet.*?(?=<section class="page sheet|</main>)', re.S)


def pages_of(name: str) -> list[str]:
    """The sheets of an order, each from its first tag on."""
    return SHEET.findall(unset(order_html(example(name))))


@pytest.mark.parametrize("name", ["cool-overseed", "deep-two-inches", "british-metric"])
def test_no_reason_for_an_amount_is_given_twice(name: str) -> None:
    """Four hired aerators have one entry; two machines of one reason share it."""
    plan = example(name)
    view = order_view(plan, english(plan))
    told = [why.reason for why in view.reasons]
    assert len(set(told)) == len(told)
    ends = [sentence for reason in told for sentence in reason.split(". ")[1:]]
    assert len(set(ends)) == len(ends) > 0
    headings = {line.heading for line in view.lines}
    assert {heading for why in view.reasons for heading in why.headings} == headings
    assert all(len(set(why.headings)) == len(why.headings) for why in view.reasons)


@pytest.mark.parametrize("name", ["cool-overseed", "deep-two-inches", "british-metric"])
def test_what_is_fetched_stands_in_one_piece_on_the_sheet_of_what_is_bought(name: str) -> None:
    """A supplier keeps his page: what is written down of seed has no place on it."""
    first, *others = pages_of(name)
    assert first.count("Fetch on ") == 1 and "Purity, %" in first
    assert 'class="together full gate own-way"' in first
    assert not any("Fetch on " in page or "Purity, %" in page for page in others)


@pytest.mark.parametrize("name", ["cool-overseed", "bermuda-sand"])
def test_a_supplier_reads_each_amount_once_and_nothing_for_others(name: str) -> None:
    """The weight stands beside the amount; no column is empty; what the owner has to measure is
    told to him alone."""
    page = next(page for page in pages_of(name) if "To the supplier" in page)
    rows = re.findall(r"<tr><th scope=\"row\">.*?</tr>", page, re.S)
    assert rows
    for row in rows:
        amount = re.search(r"<strong>(.*?)</strong>", row)
        assert amount and f"<br>{amount[1]}" not in row and "<br>(about " in row
        assert "–" not in row
    assert ("Made of" in page) == (name == "cool-overseed")
    assert "Measure a grid of heights" not in page
    assert ("An estimate, not to be ordered yet" in page) == (name == "cool-overseed")


def test_the_box_of_a_verdict_stays_with_its_word() -> None:
    """A box after a word reads as its own."""
    cards = [page for page in pages_of("cool-overseed") if "Delivery on" in page]
    assert cards
    for card in cards:
        loads = re.findall(
            r'<span class="verdict"><span class="box"[^>]*></span>(\w+)</span>', card
        )
        assert loads and loads == ["accepted", "refused"] * (len(loads) // 2)


@pytest.mark.parametrize("name", ["deep-two-inches", "cool-overseed"])
def test_a_red_frame_at_the_gate_stops_or_protects(name: str) -> None:
    """Business days, which hurt nobody, are minded in plain words."""
    plan = example(name)
    guarding = {str(note.text) for note in plan.ranked if note.rank in ("stop", "safety")}
    cards = [page for page in pages_of(name) if "Delivery on" in page]
    framed = {text for page in cards for text in re.findall(r"Caution</strong> ([^<]*)", page)}
    minded = {text for page in cards for text in re.findall(r"Mind</strong> ([^<]*)", page)}
    assert framed and {unescape(text) for text in framed} <= guarding
    assert ("supplier comes on business days" in " ".join(minded)) == (name == "deep-two-inches")


def test_lists_side_by_side_keep_their_order_and_are_about_as_long() -> None:
    """A single item stands alone, and nothing makes no column."""
    lengths = [30, 10, 10, 10, 40, 5, 15]
    first, second = side_by_side(lengths, lambda n: n)
    assert [*first, *second] == lengths and abs(sum(first) - sum(second)) <= max(lengths)
    assert side_by_side([7], lambda n: n) == ((7,),)
    assert side_by_side([], lambda n: 1) == ()


def test_no_list_of_the_order_is_balanced_by_the_printer() -> None:
    """Columns of a stylesheet are laid out many times over, which costs more than all else."""
    page = order_html(example("cool-overseed"))
    assert 'class="two-lists' in page
    assert "two-columns" not in page.partition("</style>")[2]


@pytest.mark.parametrize("name", ["surveyed-us", "surveyed-metric", "pacific-northwest"])
def test_bags_are_bought_by_their_number_and_no_supplier_is_asked_for_them(name: str) -> None:
    """So many of each stand on the list and on the card, where each is ticked; together they are
    what is bought, whatever the shares of what is mixed of them."""
    plan = example(name)
    first, *others = pages_of(name)
    view = order_view(plan, english(plan))
    bagged = [line for line in view.lines if line.bags]
    assert bagged
    # The words of the program print it without those of its book.
    assert [line.bags for line in order_view(plan, words_of(plan)).lines if line.bags] == [
        line.bags for line in bagged
    ]
    suppliers = [page for page in others if "To the supplier" in page]
    cards = [page for page in others if "Gate card" in page]
    for line in bagged:
        assert len(line.bags) == len(line.line.parts)
        assert ", in bags" in line.name and " in bags" in line.heading
        held = sum(part.value for part in line.line.parts)
        assert held == pytest.approx(line.line.value, abs=1e-5)
        for bags in line.bags:
            assert bags in first and not any(bags in page for page in suppliers)
            assert any(re.search(rf"{re.escape(bags)}</td>.*?accepted", page) for page in cards)
        assert not any(f">{line.deliver_by}<" in page for page in suppliers)
        assert not line.line.questions


def test_what_has_one_part_is_not_asked_how_it_is_blended() -> None:
    """Straight sand comes out of no mixer."""
    for name, blended in (("bermuda-sand", False), ("cool-overseed", True)):
        asked = [q.text for line in example(name).order for q in line.questions]
        assert any("trucks" in text or "truck" in text for text in asked)
        assert any("blended" in text for text in asked) == blended, name


def test_plants_that_go_in_on_several_days_come_in_as_many_parts() -> None:
    """The supplier and the gate read each day with its part: none lies until the last of them."""
    plan = example("st-augustine-plugs")
    words = english(plan)
    planted = next(task for task in plan.tasks if task.operation == "plant")
    (line,) = (one for one in plan.order if one.item == "plugs")
    days = planting_days(plan, line)
    assert len(days) == planted.duration_days == 3
    assert days == (line.deliver_by, *planted.worked_on[1:]) and days[0] < planted.start
    told = f"about 650 pieces on each of {', '.join(map(words.day, days[:-1]))} and "
    pages = pages_of("st-augustine-plugs")
    assert sum(f"{told}{words.day(days[-1])}" in page for page in pages) == 2
    # On one day they come in one part.
    at_once = planted.model_copy(update={"worked_on": (), "end": planted.start})
    tasks = tuple(at_once if task is planted else task for task in plan.tasks)
    assert planting_days(plan.model_copy(update={"tasks": tasks}), line) == ()
    assert "in parts: about" not in order_html(plan.model_copy(update={"tasks": tasks}))


def test_a_total_without_a_currency_says_whose_money_it_is_in() -> None:
    """Prices may be given as plain numbers: no money is invented for them."""
    plan = example("cool-overseed")
    priced = tuple(line.model_copy(update={"cost": 40.0}) for line in plan.order)
    plain = plan.model_copy(update={"order": priced, "currency": ""})
    told = f"{40 * len(priced)}"
    assert order_view(plain, english(plain)).total == f"{told}, in the money of your prices"
    assert order_cost(plain, english(plain)) == told
    named = plain.model_copy(update={"currency": "NZD"})
    assert order_view(named, english(named)).total == f"{told} NZD"
