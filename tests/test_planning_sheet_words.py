"""What sheets say of how sown grass looks after: by the grasses that are sown."""

from typing import Any

import pytest

from planning import plan_of
from tiers import sampled
from turfplan.files.reading.book import load_book
from turfplan.message import Number
from turfplan.phrases import looks as phrases
from turfplan.planning.sheet_words import sheet_words
from turfplan.records.plan import Plan


def looks_of(plan: Plan, operation: str) -> list[str]:
    """What a sheet says of how the work of an operation looks in the days after it."""
    key = f"operations.{operation}.looks."
    return [text.text for name, text in plan.on_sheets.items() if name.startswith(key)]


GRASSES: dict[str, tuple[dict[str, Any], str, str]] = {
    "one that is slow": ({"grass": "kentucky_bluegrass"}, "14", "30"),
    "one that is quick": ({"grass": "perennial_ryegrass"}, "5", "10"),
    "one between": ({"grass": "tall_fescue"}, "7", "21"),
}


@pytest.mark.parametrize("case", sampled(GRASSES, "one that is slow"))
def test_one_grass_is_seen_when_it_comes_up_itself(case: str) -> None:
    """Not when others would; nothing is said of quick grasses and slow ones."""
    lawn, first, last = GRASSES[case]
    told = looks_of(plan_of({"lawn": lawn}), "overseed")
    assert told[1:] == [
        f"In {first} moist days: the first green",
        f"In {last} moist days: green between the old grass",
    ]


def test_of_a_mixture_the_quickest_is_seen_first() -> None:
    """And all of it once the slowest is up."""
    sown = ("kentucky_bluegrass", "perennial_ryegrass")
    said = sheet_words(load_book(), plan_of().tasks, sown)
    told = [said[f"operations.overseed.looks.{n}"] for n in (1, 2, 3)]
    assert told[1] == phrases.first_green_of_several(n=Number(5.0))
    assert told[2] == phrases.green_between(n=Number(30.0))


def test_a_plan_without_seed_says_nothing_of_it() -> None:
    """Neither does one whose seed waits for spring tell of days in which it comes up."""
    plain = plan_of({"seeding": {"intent": "none"}})
    assert not looks_of(plain, "overseed") and not looks_of(plain, "seed")
