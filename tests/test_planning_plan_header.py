"""What is said beside the tasks."""

from datetime import date

import pytest

from planning import amount, kind, plan_of
from told import all_told, told
from turfplan.files.reading.book import load_book
from turfplan.phrases import weed_killers as phrases

LIMIT = 100 * load_book().si("seeding.rebuild_weeds")


@pytest.mark.parametrize(("percent", "said"), [(0, False), (LIMIT, False), (LIMIT + 1, True)])
def test_a_lawn_that_is_mostly_weeds_is_told_so(percent: float, said: bool) -> None:
    """Beyond the share from which it is built anew."""
    plain = all_told(plan_of().cautions)
    more = [
        text
        for text in all_told(plan_of({"site": {"weeds_percent": percent}}).cautions)
        if text not in plain
    ]
    assert any("weeds" in text for text in more) == said


def test_a_plan_keeps_its_rain_to_hundredths_of_a_millimetre() -> None:
    """And its temperatures to tenths, so that the file stays short."""
    climate = plan_of(options=False).climate
    for values, digits in (
        (climate.rain_mm, 2),
        (climate.et0_mm, 2),
        (climate.air_mean_c, 1),
        (climate.soil_10cm_c, 1),
    ):
        assert len(values) == len(climate.day_of_year)
        assert list(values) == [round(value, digits) for value in values]
        assert any(value != round(value, digits - 1) for value in values)


def test_compost_of_ones_own_is_warned_of_where_compost_is_spread() -> None:
    """A weed killer that lives on in clippings is told always, compost of them where the mix holds
    some.
    """
    use = {"active_ingredient": "clopyralid", "on": date(2026, 9, 1)}
    used = {"history": {"herbicides": [use]}}
    sandy = {"leveling": {"parts": {"topsoil": 0.5, "sand": 0.5}}}
    mixed, plain = (
        {told(caution) for caution in plan_of(used, *more, options=False).cautions}
        for more in ((), (sandy,))
    )
    own = told(phrases.own_compost())
    assert own in mixed and own not in plain


def test_large_fills_tell_how_they_are_moved() -> None:
    """In barrow loads, as many as the passes take in all, where they are moved by hand; by the
    loader where one is at hand, and then no task counts barrows.
    """
    large = {"lawn": {"area": "14000 ft2"}, "leveling": {"depth": "1 in"}}
    by_hand, by_loader = plan_of(large), plan_of(large, {"work": {"machines": ["loader"]}})
    loads = sum(amount(task, "barrow loads") for task in kind(by_hand, "topdress"))
    assert any(f"about {loads:,.0f} barrow loads" in c for c in all_told(by_hand.cautions))
    assert any("move with the loader" in c for c in all_told(by_loader.cautions))
    assert not any("barrow loads" in c for c in all_told(by_loader.cautions))
    assert not any(a.item == "barrow loads" for t in by_loader.tasks for a in t.amounts)
