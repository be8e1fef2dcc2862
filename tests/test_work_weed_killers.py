"""No weed killer of the past is dropped in silence, and none that lasts in the soil is sown on."""

from datetime import date, timedelta
from typing import Any

import pytest

from planning import first, plan_of
from turfplan.book.citations import who_says
from turfplan.book.words import grass_name
from turfplan.files.reading.book import load_book
from turfplan.message import Day, listed
from turfplan.phrases import weed_killers as phrases
from turfplan.records.brief import HerbicideUse
from turfplan.records.plan import Plan
from turfplan.work.weed_killers import Hold, carried_on, holds_of, key_of


def after(ingredient: str, on: date = date(2027, 6, 1), **more: Any) -> Plan:
    """The plan of a lawn treated before."""
    use = {"active_ingredient": ingredient, "on": on, **more}
    return plan_of({"history": {"herbicides": [use]}, "leveling": {"depth": "0 in"}})


@pytest.mark.full
@pytest.mark.parametrize("killer", ["prometon", "Imazapyr", "tebuthiuron", "diuron", "bromacil"])
def test_residual_killers_stop_the_seed(killer: str) -> None:
    """Nothing is sown until the label or a pot test says so; the pot test is a way out."""
    plan = after(killer, date(2026, 6, 1))
    assert plan.conflict is not None
    assert "pot of that soil" in str(plan.conflict.reasons[0])
    assert any("seed_after" in str(option.change) for option in plan.options)


@pytest.mark.full
def test_label_or_pot_test_lets_the_seed_go() -> None:
    """With its day in the brief seed follows from then on."""
    plan = after("prometon", date(2026, 6, 1), seed_after=date(2027, 9, 11))
    assert first(plan, "overseed").start >= date(2027, 9, 11)
    days = after("prodiamine", date(2027, 6, 1), hold_days=110)
    assert first(days, "overseed").start >= date(2027, 9, 19)


@pytest.mark.full
def test_unknown_ingredient_is_told_at_the_head_and_at_the_seed() -> None:
    """What the book lacks is kept off for the longest interval, and asked for."""
    plan = after("greenicide", date(2027, 5, 1))
    assert any("not in the book" in str(line) for line in plan.holds)
    assert any("not in the book" in str(line) for line in plan.cautions)
    assert any("not in the book" in str(line) for line in first(plan, "overseed").cautions)


@pytest.mark.full
def test_weed_and_feed_asks_for_its_ingredient() -> None:
    """A bag that feeds too names what it kills with."""
    plan = after("Weed and Feed", date(2027, 4, 1))
    assert any("on the bag" in str(line) for line in plan.holds)


def test_what_lives_on_in_clippings_is_told() -> None:
    """Clippings of clopyralid stay on the lawn; compost of them is kept off."""
    plan = after("clopyralid", date(2026, 9, 1))
    assert any("clippings" in str(line) for line in plan.cautions)


@pytest.mark.full
def test_what_is_over_is_an_assumption() -> None:
    """A known killer whose weeks are over holds nothing, and is still told."""
    plan = after("2,4-D", date(2026, 9, 1))
    assert not plan.holds
    assert any("2,4-D" in str(line) for line in plan.assumptions)


BOOK = load_book()
ON = date(2027, 6, 1)


def hold(ingredient: str, *sown: str, **more: Any) -> Hold:
    """What one treatment on 1 June keeps free of seed."""
    use = HerbicideUse.model_validate({"active_ingredient": ingredient, "on": ON, **more})
    (found,) = holds_of(BOOK, (use,), sown or ("tall_fescue",))
    return found


def days(found: Hold) -> int | None:
    """Days after the treatment until which it holds."""
    return None if found.until is None else found.until - ON.toordinal()


def test_a_known_killer_holds_for_its_longest_interval() -> None:
    """11 weeks of dithiopyr, told in whole weeks; of the grasses that it harms 16."""
    plain = hold("Dithiopyr ")
    assert (days(plain), plain.key, plain.facts) == (
        77,
        "dithiopyr",
        ("herbicides.dithiopyr.hold",),
    )
    assert plain.why == phrases.holds(ingredient="Dithiopyr ", day=Day(ON), n=11)
    assert not plain.unnamed and not plain.asks and not plain.by_label
    harmful = hold("siduron", "tall_fescue", "bermuda_common")
    source = who_says(BOOK, "CROPSCI_2004")
    grass = grass_name(BOOK, "bermuda_common")
    assert (days(harmful), harmful.facts) == (112, ("herbicides.unknown.hold",))
    assert harmful.why == phrases.harms(
        ingredient="siduron", day=Day(ON), grass=grass, source=source, n=16
    )
    harmless = hold("siduron")
    assert days(harmless) == 0 and harmless.facts == ("herbicides.siduron.hold",)
    assert harmless.why == phrases.no_wait(ingredient="siduron", day=Day(ON))


def test_what_nobody_named_holds_for_the_longest_and_is_asked_for() -> None:
    """An ingredient that the book lacks, one that is unknown, and a bag that feeds too."""
    new, nameless = hold("greenicide"), hold("unknown")
    for found in (new, nameless):
        assert (days(found), found.known) == (112, None) and found.unread and found.asks
    assert new.why == phrases.not_in_book(ingredient="greenicide", day=Day(ON), n=16)
    assert nameless.why == phrases.unknown(day=Day(ON), n=16)
    assert nameless.unnamed and not new.unnamed
    bag = hold("Weed-and feed")
    assert bag.key == "weed_and_feed" and days(bag) == 112
    assert bag.why == phrases.weed_and_feed(day=Day(ON), n=16)


@pytest.mark.parametrize("triazine", ["Atrazine", "simazine"])
def test_killers_of_warm_season_lawns_are_known(triazine: str) -> None:
    """Grasses that bear them are held back by nothing, common bermudagrass for six weeks, all else
    by the label's half year."""
    for grass in ("st_augustine", "centipede"):
        spared = hold(triazine, grass)
        assert days(spared) == 0 and not spared.asks and not spared.unread
    names = grass_name(BOOK, "st_augustine")
    assert hold(triazine, "st_augustine").why == phrases.spares(
        ingredient=triazine,
        day=Day(ON),
        grass=listed([names], "and"),
        source=who_says(BOOK, "AGRON_TRIAZINES"),
    )
    bermuda = hold(triazine, "bermuda_common")
    assert days(bermuda) == 42
    assert bermuda.facts == (f"herbicides.{triazine.lower()}.hold_bermuda_common",)
    both = hold(triazine, "bermuda_common", "perennial_ryegrass")
    rye = hold(triazine, "perennial_ryegrass")
    assert days(both) == days(rye) == round(6 * 365.25 / 12)
    assert days(hold(triazine, "st_augustine", "zoysia")) == days(rye)


def test_every_common_killer_of_lawns_is_in_the_book() -> None:
    """Of warm-season and of cool-season turf."""
    for name in [
        "atrazine",
        "benefin",
        "bensulide",
        "carfentrazone",
        "dicamba",
        "dithiopyr",
        "foramsulfuron",
        "glyphosate",
        "halosulfuron",
        "imazaquin",
        "indaziflam",
        "isoxaben",
        "MCPA",
        "mecoprop",
        "mesotrione",
        "metsulfuron",
        "oryzalin",
        "oxadiazon",
        "pendimethalin",
        "prodiamine",
        "pronamide",
        "quinclorac",
        "rimsulfuron",
        "siduron",
        "simazine",
        "sulfentrazone",
        "sulfosulfuron",
        "topramezone",
        "triclopyr",
        "trifloxysulfuron",
        "trifluralin",
    ]:
        assert not hold(name).unread


def test_what_lasts_in_the_soil_holds_until_its_label_says_so() -> None:
    """Without a day; its months are told."""
    found = hold("imazapyr")
    assert (days(found), found.facts) == (None, ("herbicides.imazapyr.hold",))
    assert found.why == phrases.stops(ingredient="imazapyr", day=Day(ON), n=12)
    assert found.asks and not found.unnamed


def test_a_label_goes_before_the_book() -> None:
    """Its day, or its days after the treatment, even none; of any killer."""
    for name in ("imazapyr", "dithiopyr", "greenicide"):
        dated = hold(name, seed_after=date(2027, 7, 1))
        assert days(dated) == 30 and dated.by_label and dated.facts == () and not dated.unnamed
    spanned = hold("dithiopyr", hold_days=20)
    after = Day(ON + timedelta(20))
    assert days(spanned) == 20
    assert spanned.why == phrases.by_label(ingredient="dithiopyr", day=Day(ON), after=after)
    assert days(hold("dithiopyr", hold_days=0)) == 0


def test_treatments_are_numbered_from_one() -> None:
    """In the order of the brief."""
    uses = tuple(
        HerbicideUse.model_validate({"active_ingredient": name, "on": ON})
        for name in ("dicamba", "mcpa")
    )
    assert [(h.number, h.key) for h in holds_of(BOOK, uses, ())] == [(1, "dicamba"), (2, "mcpa")]
    assert key_of(" 2,4-D  Amine ") == "2,4_d_amine"


def test_what_is_carried_on_is_told_of_clippings_and_of_ones_own_compost() -> None:
    """Compost once, where it is used and something is carried on."""
    both = (hold("clopyralid"), hold("greenicide"), hold("dicamba"), hold("picloram"))
    source = who_says(BOOK, "NCSU_CARRYOVER")
    names = [BOOK.herbicides[key].name for key in ("clopyralid", "picloram")]
    clippings = [phrases.clippings(ingredient=name, source=source) for name in names]
    assert list(carried_on(both, BOOK, compost=False)) == clippings
    assert list(carried_on(both, BOOK, compost=True)) == [*clippings, phrases.own_compost()]
    assert list(carried_on(both[1:3], BOOK, compost=True)) == []
