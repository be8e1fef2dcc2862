"""Quotes: from the price list to what was accepted, which stands whatever comes later."""

import re
from datetime import timedelta
from decimal import Decimal
from pathlib import Path

import pytest

from command import run as command
from planned_business import DAY, MARKS, written
from planning import example
from random_lawns import random_plan
from turfplan.app.client_quotes import (
    accept_quote,
    change_quote,
    decline_quote,
    lawns_to_offer,
    list_quotes,
    offer_quote,
    quote_of,
    undo_quote,
)
from turfplan.app.log_clients import DayLog, log_day
from turfplan.app.outputs import words_of
from turfplan.app.quote_sheets import lawns_to_measure, quote_page
from turfplan.business.client_record import Client
from turfplan.business.client_words import said_to_client
from turfplan.business.groups import ClientGroup
from turfplan.business.quote_prices import minor_digits, rates_of, rounded, tax_on
from turfplan.business.quote_record import QuoteChoice
from turfplan.errors import TurfplanError
from turfplan.files.data_folder import QUOTES
from turfplan.files.lawn_files import lawns_at
from turfplan.files.lawn_standing import read_quotes
from turfplan.files.reading.brief import read_brief
from turfplan.files.reading.business import read_business
from turfplan.files.reading.plan import read_plan

THIN = "thin layer: leveling.depth = 0.25 in"


def kinds(choice: QuoteChoice) -> dict[str, Decimal]:
    """The price of each kind of line."""
    return {line.kind: line.price for line in choice.lines}


def test_a_quote_adds_up(data: Path) -> None:
    """Every line is quantity by price, rounded; tax is on the sum; hours, cubic yards and loads are
    those of the plan; what has no price is named; numbers follow each other."""
    quote = offer_quote(data, "ash", DAY).quote
    plan, (choice,) = read_plan(data / "lawns" / "ash"), quote.choices
    assert plan is not None and quote.number == "2027-0001"
    for line in choice.lines:
        assert line.price == rounded(line.quantity * line.unit_price, quote.rates)
    assert choice.net == sum(line.price for line in choice.lines)
    assert choice.tax == tax_on(choice.net, quote.rates) and choice.tax > 0
    assert choice.total == choice.net + choice.tax
    mix = [line for line in plan.order if line.item == "mix"]
    (bought,) = [line for line in choice.lines if line.kind == "material"]
    assert float(bought.quantity) == pytest.approx(sum(line.value_us for line in mix))
    (trips,) = [line for line in choice.lines if line.kind == "delivery"]
    assert trips.quantity == sum(len(line.loads) for line in mix)
    ours = {job.task for job in choice.jobs}
    assert any(task.startswith("topdress") for task in ours)
    assert not [task for task in ours if task.startswith(("water", "first_mow", "order_"))]
    assert any("seed" in text for text in choice.unpriced) and choice.assumed
    assert quote.until == DAY + timedelta(30) and choice.by_client
    assert offer_quote(data, "elm", DAY).quote.number == "2027-0002"
    assert offer_quote(data, "ash", DAY).quote.number == "2027-0003"


def test_the_price_list_decides(data: Path) -> None:
    """What is agreed with a client goes before the list; the least that is charged is reached;
    without prices nothing is offered; an agreed price of nothing in the list is a fault."""
    plain = offer_quote(data, "ash", DAY).quote.choices[0]
    client = data / "lawns" / "ash" / "client.toml"
    text = client.read_text(encoding="utf-8")
    client.write_text(text + "\n[prices]\nperson_hour = 0\n", encoding="utf-8")
    agreed = offer_quote(data, "ash", DAY).quote.choices[0]
    assert kinds(agreed)["people"] == 0 < kinds(plain)["people"]
    assert kinds(agreed)["material"] == kinds(plain)["material"]
    written(data, "minimum = 150", "minimum = 9000")
    least = offer_quote(data, "elm", DAY).quote.choices[0]
    assert least.net == 9000 and "minimum" in kinds(least)
    business = read_business(data)
    with pytest.raises(TurfplanError, match="no price of the list"):
        rates_of(business, Client.model_validate({"prices": {"gold": 1.0}}))
    with pytest.raises(TurfplanError, match="no prices"):
        rates_of(None, Client())


def test_choices_side_by_side_and_one_taken(data: Path) -> None:
    """A choice is the plan of a changed brief at the same prices; taken, it is written into the
    brief, and stands though prices change; later changes are numbered with their price."""
    found = offer_quote(data, "ash", DAY, [THIN])
    planned, thin = found.quote.choices
    assert thin.name == "thin layer" and thin.total < planned.total
    assert read_brief(data / "lawns" / "ash" / "brief.toml").brief.leveling.depth_mm == 12.7
    with pytest.raises(TurfplanError, match="no choice of the quote"):
        accept_quote(data, "ash", DAY, choice=3)
    accepted = accept_quote(data, "ash", DAY + timedelta(9), choice=2).quote
    brief = read_brief(data / "lawns" / "ash" / "brief.toml").brief
    assert brief.leveling.depth_mm == pytest.approx(6.35)
    assert brief.lawn.id is not None
    written(data, "person_hour = 45", "person_hour = 90")
    assert quote_of(data, "ash").quote == accepted and accepted.total == thin.total
    for again in (accept_quote, decline_quote):
        with pytest.raises(TurfplanError, match="not open"):
            again(data, "ash", DAY)
    shorter = change_quote(data, "ash", DAY, "no rolling", price=Decimal("-10.005")).quote
    assert [(one.number, one.net, one.tax) for one in shorter.later] == [
        (1, Decimal("-10.01"), Decimal("-0.60"))
    ]
    # The plan that stands is still that of the first choice: by the frozen prices.
    dearer = change_quote(data, "ash", DAY, "the thick layer after all").quote
    assert dearer.later[1].number == 2
    assert dearer.choices[1].net + sum(one.net for one in dearer.later) == planned.net
    plan = read_plan(data / "lawns" / "ash")
    assert plan is not None
    day = next(task.start for task in plan.tasks if task.id == "soil_test")
    log_day(data, DayLog(day, "done"), day)
    with pytest.raises(TurfplanError, match="work that is done"):
        change_quote(data, "ash", day, "more")
    assert len(change_quote(data, "ash", day, "more", price=Decimal(1)).quote.later) == 3


def test_what_cannot_be_offered_or_taken(data: Path) -> None:
    """Faults are told, and nothing is written."""
    for text, told in (
        ("leveling.depth", "no choice"),
        ("leveling.deep=1 in", "unknown key"),
        ("leveling.depth=wide", "wide"),
        ("client.name=Fir", "unknown key"),
    ):
        with pytest.raises(TurfplanError, match=re.escape(told)):
            offer_quote(data, "ash", DAY, [text])
    with pytest.raises(TurfplanError, match="three choices"):
        offer_quote(data, "ash", DAY, [THIN] * 3)
    with pytest.raises(TurfplanError, match="no lawn"):
        offer_quote(data, "oak", DAY)
    assert not list(data.rglob(QUOTES))
    with pytest.raises(TurfplanError, match="no such quote"):
        decline_quote(data, "ash", DAY)
    late = DAY + timedelta(31)
    offer_quote(data, "ash", DAY, [THIN])
    assert quote_of(data, "ash").quote.state(late) == "run_out"
    with pytest.raises(TurfplanError, match="run out"):
        accept_quote(data, "ash", late)
    with pytest.raises(TurfplanError, match="not accepted"):
        change_quote(data, "ash", late, "more")
    brief = data / "lawns" / "ash" / "brief.toml"
    brief.write_text(brief.read_text(encoding="utf-8") + "# by hand\n", encoding="utf-8")
    with pytest.raises(TurfplanError, match="by hand"):
        accept_quote(data, "ash", late, choice=2, late=True)
    assert accept_quote(data, "ash", late, late=True).quote.said == "accepted"


def test_quotes_are_listed_and_kept(data: Path) -> None:
    """All states in a list by number; what is kept is in a backup."""
    offer_quote(data, "ash", DAY)
    offer_quote(data, "elm", DAY)
    decline_quote(data, "ash", DAY)
    states = [(one.folder.name, one.quote.state(DAY)) for one in list_quotes(data)]
    assert states == [("ash", "declined"), ("elm", "offered")]
    kept = {path for lawn in lawns_at(data) for path in lawn.records}
    assert (data / "lawns" / "ash" / QUOTES).resolve() in kept


def test_the_page_holds_what_belongs_on_it(data: Path) -> None:
    """Name and street of its client, the total, terms; no telephone, no way in, no note of the
    office; what was accepted shows with its changes."""
    found = offer_quote(data, "ash", DAY, [THIN])
    page = quote_page(found, data, DAY, None)
    for text in ("Turf and Tine (invented)", "Ash (invented)", MARKS["street"], "thin layer"):
        assert text in page
    total = f"{found.quote.choices[1].total:,}"
    assert total in page and "Prices are of this list" in page
    assert not [name for name, mark in MARKS.items() if mark in page and name != "street"]
    kept = (data / "lawns" / "ash" / QUOTES).read_text(encoding="utf-8")
    assert not [mark for mark in MARKS.values() if mark in kept]
    accept_quote(data, "ash", DAY)
    changed = change_quote(data, "ash", DAY, "a <b>second</b> pass", price=Decimal(100))
    after = quote_page(changed, data, DAY, "a4")
    assert "&lt;b&gt;second" in after and "106" in after


def with_choices(data: Path) -> None:
    """Two further choices of the business, and a third lawn's worth of nothing."""
    written(
        data,
        "[tax]",
        """[[choice]]
name = "thin"
changes = "leveling.depth = 0.25 in"

[[choice]]
name = "as it is"
changes = "leveling.depth = 0.5 in"

[tax]""",
    )


def test_choices_of_the_business_stand_beside_each_offer(data: Path) -> None:
    """Those that can be planned there and are not what is planned anyway; none of them where others
    are named, or none is wanted; a group is offered in one line, once."""
    with_choices(data)
    assert [one.name for one in offer_quote(data, "ash", DAY).quote.choices] == ["", "thin"]
    assert [one.name for one in offer_quote(data, "ash", DAY, []).quote.choices] == [""]
    named = offer_quote(data, "ash", DAY, [THIN]).quote.choices
    assert [one.name for one in named] == ["", "thin layer"]
    assert lawns_to_offer(data, (), ClientGroup("crew", "north")) == (("elm",), 1)
    said = command(
        "clients", "quote", "offer", "data", "--group", "crew=north", "--print",
        "--today", str(DAY), cwd=data.parent,
    )  # fmt: skip
    assert said.returncode == 0, said.stderr
    row = next(line for line in said.stdout.splitlines() if line.startswith("elm"))
    (quote,) = read_quotes(data / "lawns" / "elm")
    for choice in quote.choices:
        assert f"{choice.total:,}" in row
    assert (data / "lawns" / "elm" / f"quote-{quote.number}.html").is_file()
    assert command("clients", "quote", "offer", "data", cwd=data.parent).returncode == 2
    written(data, "leveling.depth = 0.25 in", "seeding.intent = plant; lawn.grass = bahia")
    found = offer_quote(data, "ash", DAY)
    assert len(found.quote.choices) + len(found.notes) == 2


def test_several_are_accepted_in_one_line_and_one_is_undone(data: Path) -> None:
    """Each is told; what cannot be undone any more is refused."""
    for lawn in ("ash", "elm"):
        offer_quote(data, lawn, DAY)
    line = ("clients", "quote", "accept", "data", "ash", "elm", "--today", str(DAY))
    assert command(*line, cwd=data.parent).stdout.count("accepted") == 2
    undo = ("clients", "quote", "undo", "data", "ash", "--today", str(DAY))
    assert "offered again" in command(*undo, cwd=data.parent).stdout
    assert "taken back" in command(*undo, cwd=data.parent).stdout
    assert command(*undo, cwd=data.parent).returncode == 3
    change_quote(data, "elm", DAY, "more", price=Decimal(5))
    assert not undo_quote(data, "elm", DAY).quote.later
    assert quote_of(data, "elm").quote.said == "accepted"


def test_a_client_is_told_no_word_for_whoever_plans() -> None:
    """No sentence of a quote asks the client to tell the plan something, or says how its business
    reckons: of the examples and of lawns drawn at random."""
    told, keys = list[str](), set[str]()
    plans = [random_plan(number) for number in range(12)]
    plans += [example(name) for name in ("cool-overseed", "late-start", "transition-fescue")]
    for plan in filter(None, plans):
        said = [*plan.assumptions, *(o.estimate for o in plan.order if o.estimate is not None)]
        words = words_of(plan)
        for message in said:
            other = said_to_client(message)
            keys |= {message.key} if other is not message else set()
            told += () if other is None else (words.text(other),)
    assert len(keys) > 5
    assert not [text for text in told if re.search(r"(?i)\b(tell|give) the plan", text)]
    assert not [text for text in told if "Nobody said" in text]


def test_a_further_choice_tells_only_what_is_otherwise(data: Path) -> None:
    """Lines that are the same for all choices stand once; work of the first choice that only comes
    at another time is told by its months; the currency is named once."""
    found = offer_quote(data, "ash", DAY, ["no seed: seeding.intent=none; leveling.depth=0.25 in"])
    page = quote_page(found, data, DAY, None)
    assert page.count("USD") == 1 and 'colspan="2"' in page
    (first, other) = found.quote.choices
    main = [job.title for job in other.jobs if job.main and job.title not in
            {one.title for one in first.jobs}]  # fmt: skip
    section = page.partition("Choice 2: no seed</h2>")[2]
    assert section and len(main) == section.count("Top-dress pass") == 1
    assert "Unlike choice 1" in section and "Soil test" not in section


def test_money_by_its_currency() -> None:
    """Decimals are the currency's, halves go up, and the tax on a sum is rounded once."""
    business = read_business(Path(__file__).parent.parent / "examples" / "business")
    rates = rates_of(business, Client())
    assert rounded(Decimal("0.125"), rates) == Decimal("0.13")
    assert rounded(Decimal("-0.125"), rates) == Decimal("-0.13")
    assert tax_on(Decimal("10.25"), rates) == Decimal("0.62")
    assert [minor_digits(name) for name in ("USD", "JPY", "KWD")] == [2, 0, 3]


def test_lawns_without_a_survey_are_to_be_measured(data: Path) -> None:
    """All of which no brief names one."""
    found = lawns_to_measure(data)
    assert [lawn.name for lawn, _ in found] == ["ash", "elm"]
    assert found[0][1] == f"ash, Ash (invented), {MARKS['street']}"
    brief = data / "lawns" / "ash" / "brief.toml"
    text = brief.read_text(encoding="utf-8").replace('depth = "0.5 in"', 'survey = "points.csv"')
    brief.write_text(text, encoding="utf-8")
    assert [lawn.name for lawn, _ in lawns_to_measure(data)] == ["elm"]
