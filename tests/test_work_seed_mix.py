"""The seed of a mixed stand is its mix, counted by seeds; parts have their own."""

import pytest

from planning import first, plan_of
from turfplan.book.entries import Book
from turfplan.files.reading.book import load_book
from turfplan.records.book_names import of_species
from turfplan.records.plan import Plan
from turfplan.work.seed_mix import SownArea, germination_days, rates_g_m2

RYE, FESCUE = "perennial_ryegrass", "fine_fescue"
HALVES = [{"species": RYE, "share": 0.5}, {"species": FESCUE, "share": 0.5}]


@pytest.fixture(scope="module")
def book() -> Book:
    """The book."""
    return load_book()


def test_shares_are_of_seeds_and_parts_of_the_own_rates(book: Book) -> None:
    """Half of the seeds are of each grass, and the parts of their own rates make one whole."""
    rates = rates_g_m2(book, SownArea(1.0, {RYE: 0.5, FESCUE: 0.5}), "seed_rate_overseed")
    seeds = {g: r / book.si(of_species(g, "thousand_seeds")) for g, r in rates.items()}
    assert seeds[RYE] == pytest.approx(seeds[FESCUE])
    parts = [r / book.si(of_species(g, "seed_rate_overseed")) for g, r in rates.items()]
    assert sum(parts) == pytest.approx(1.0)


def test_asked_rate_is_shared_out(book: Book) -> None:
    """The rate that the owner wants is that of the whole mixture."""
    area = SownArea(1.0, {RYE: 0.3, FESCUE: 0.7})
    assert sum(rates_g_m2(book, area, "seed_rate_overseed", 20.0).values()) == pytest.approx(20.0)


def test_slowest_grass_sets_the_last_day(book: Book) -> None:
    """Seed is up when the slowest is; the first day is the quickest's."""
    bluegrass = book.fact(of_species("kentucky_bluegrass", "germination_days"))
    first_day, last = germination_days(book, (RYE, "kentucky_bluegrass"))
    assert last == bluegrass.high_si
    assert first_day < bluegrass.low_si


def seed_line(plan: Plan) -> dict[str, float]:
    """The grasses of the seed that is bought, with their shares of the weight."""
    line = next(line for line in plan.order if line.item == "seed")
    return {part.item: part.share or 0.0 for part in line.parts}


@pytest.mark.full
def test_order_of_lines_does_not_decide() -> None:
    """Two halves give the same seed whichever stands first."""
    one = plan_of({"lawn": {"grass": HALVES}})
    other = plan_of({"lawn": {"grass": HALVES[::-1]}})
    assert seed_line(one) == pytest.approx(seed_line(other))
    assert set(seed_line(one)) == {RYE, FESCUE}
    title = str(first(one, "overseed").title)
    assert "perennial ryegrass" in title
    assert "fine fescue" in title


def test_shade_leaves_the_grass_that_bears_it() -> None:
    """Of a mixed stand on four and a half hours only the fescue is sown."""
    plan = plan_of({"lawn": {"grass": HALVES}, "site": {"sun_hours": 4.5}})
    assert "fine fescue" in str(first(plan, "overseed").title)
    assert seed_line(plan) == {}
