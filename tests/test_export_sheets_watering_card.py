"""The watering card: every run of the season in the cell of its day, with its minutes."""

from collections import Counter
from datetime import date, timedelta

import pytest

from page_faults import judged
from planning import POSSIBLE, example
from printed import water_html
from tiers import sampled
from told import words_of
from turfplan.export.sheets.look import series_days, shown, today_of
from turfplan.export.sheets.watering_card import CardMonth, card_months
from turfplan.messages import Words
from turfplan.records.plan import Plan

QUICK = ("cool-overseed", "southern-hemisphere")


def words(plan: Plan) -> Words:
    """The words of a plan's reader."""
    return words_of(plan.lawn.units, plan.place.region)


def runs_of(months: tuple[CardMonth, ...]) -> Counter[tuple[date, str, str, str]]:
    """The runs of a card: day, clock, minutes, title by its letter."""
    found: Counter[tuple[date, str, str, str]] = Counter()
    for month in months:
        first = date.fromisoformat(month.anchor.removeprefix("month-") + "-01")
        titles = {w.letter: w.title for w in month.waterings}
        for week in month.weeks:
            for cell in week:
                for run in cell.runs:
                    day = first + timedelta(int(cell.number) - 1)
                    found[day, run.clock, run.minutes, titles[run.letter]] += 1
    return found


@pytest.mark.parametrize("name", sampled(POSSIBLE, *QUICK))
def test_every_run_stands_in_the_cell_of_its_day(name: str) -> None:
    """Once, with its clock, its minutes and what it is; no other."""
    plan = example(name)
    told = words(plan)
    wanted = Counter(
        (day, told.clock(t.series.start_time), str(t.series.minutes), t.title.text)
        for t in shown(plan.tasks)
        if t.series is not None and t.closed is None
        for day in series_days(t.series)
        if day >= today_of(plan).replace(day=1)
    )
    assert wanted and runs_of(card_months(plan, told)) == wanted


@pytest.mark.parametrize("name", sampled(POSSIBLE, *QUICK))
def test_a_month_is_a_month(name: str) -> None:
    """Weeks of seven days from Monday on, each day of the month once, with the rule to skip by."""
    for month in card_months(example(name), words(example(name))):
        assert all(len(week) == 7 for week in month.weeks)
        numbers = [int(cell.number) for week in month.weeks for cell in week if cell.number]
        first = date.fromisoformat(month.anchor.removeprefix("month-") + "-01")
        last = (first + timedelta(31)).replace(day=1) - timedelta(1)
        assert numbers == list(range(1, last.day + 1))
        assert month.weeks[0].index(next(c for c in month.weeks[0] if c.number)) == first.weekday()
        assert month.rules and month.waterings
        assert len({w.letter for w in month.waterings}) == len(month.waterings)


def test_a_plan_without_waterings_says_so() -> None:
    """The card is then a sentence."""
    plan = example("cool-overseed")
    dry = plan.model_copy(update={"tasks": tuple(t for t in plan.tasks if t.series is None)})
    assert card_months(dry, words(dry)) == ()
    assert "This plan waters nothing" in water_html(dry)


@pytest.mark.parametrize(
    ("name", "paper"), [("cool-overseed", "letter"), ("southern-hemisphere", "a4")]
)
@pytest.mark.parametrize("large", [False, True])
def test_the_card_is_laid_out_without_a_fault(name: str, paper: str, large: bool) -> None:
    """Nothing beyond the page, on other text or left behind, and no text below 8.5 points."""
    pytest.importorskip("weasyprint", reason="the extra pdf is not installed", exc_type=ImportError)
    found = judged(water_html(example(name), paper, large))
    # A month in large print may end with one week on a page of its own.
    grave = [f for f in found.faults if not (large and ("row of a table" in f or "filled" in f))]
    assert grave == [] and found.points >= 8.5
