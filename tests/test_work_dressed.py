"""What of a lawn is prepared for its passes: all of it, or the hollows that are dressed."""

from typing import Any

import pytest

from planning import first, kind, plan_of
from told import all_told, told

HOLLOWS: dict[str, Any] = {
    "leveling": {"depth": None, "lows": [{"depth": "0.75 in", "share": 0.04}]}
}
UNSOWN: dict[str, Any] = {"seeding": {"intent": "none"}}


@pytest.mark.parametrize("share", [0.04, 0.25])
def test_of_a_few_hollows_the_rest_is_left_as_it_is(share: float) -> None:
    """Low cuts, cores and the mowing between passes take the hours of their area, and say so."""
    lows = {"leveling": {"depth": None, "lows": [{"depth": "0.75 in", "share": share}]}}
    plan, whole = plan_of(lows, UNSOWN), plan_of({"leveling": {"depth": "0.75 in"}}, UNSOWN)
    for operation in ("mow_low", "mow"):
        task, all_over = first(plan, operation), first(whole, operation)
        assert task.person_hours == pytest.approx(all_over.person_hours * share, abs=0.006)
        assert "(the hollows)" in told(task.title)
        assert "the rest is mown as usual" in all_told(task.how)[0]
        assert "(" not in told(all_over.title)
    cores, all_over = first(plan, "core_aerate"), first(whole, "core_aerate")
    assert cores.person_hours < all_over.person_hours
    assert "(the hollows)" in told(cores.title)
    assert len(cores.how) == len(all_over.how) + 1


@pytest.mark.full
def test_hollows_that_make_the_lawn_and_seed_over_all_of_it_prepare_all_of_it() -> None:
    """From the share on at which a hollow has no standing grass around it; patches that are sown
    count with the hollows that are dressed."""
    wide = {"leveling": {"depth": None, "lows": [{"depth": "0.75 in", "share": 0.3}]}}
    for changes in ((wide, UNSOWN), (HOLLOWS,)):
        plan = plan_of(*changes)
        assert {"(" in told(cut.title) for cut in kind(plan, "mow_low")} == {False}
        assert first(plan, "mow_low").person_hours == pytest.approx(1.0)
    patched = plan_of(HOLLOWS, {"seeding": {"intent": "patch"}})
    hours = {cut.person_hours for cut in kind(patched, "mow_low")}
    assert hours == {0.04, 0.25}
    titles = {told(cut.title).partition("(")[2] for cut in kind(patched, "mow_low")}
    assert titles == {"the hollows)", "the hollows and the thin and bare spots)"}
