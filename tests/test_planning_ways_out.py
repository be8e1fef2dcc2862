"""Ways out: each is told once, and leads to the plan that it promises."""

from typing import Any

import pytest

from planning import brief_of, example_brief, plan_brief
from turfplan.planning import season_plan
from turfplan.planning.ways_out import MainWork, ways_out
from turfplan.records.brief import Brief
from turfplan.work.lawn import ResolvedLawn

TIGHT: dict[str, dict[str, Any]] = {
    "two watering days": {"water": {"allowed_weekdays": ["tue", "sat"], "permit": False}},
    "a sponge of thatch": {"lawn": {"thatch": "1.5 in"}},
    "away all autumn": {
        "calendar": {"away": [{"from": "2027-05-01", "to": "2028-12-31"}]},
        "season": {"from": "2027-08-01", "until": "2027-12-01"},
    },
}


def ways_of(brief: Brief, monkeypatch: pytest.MonkeyPatch) -> list[tuple[Brief, MainWork]]:
    """The changed briefs that the planner offers as ways out of a plan, each with where it says
    that it leads.
    """
    offered: list[tuple[Brief, MainWork]] = []

    def watching(asked: Brief, setting: ResolvedLawn, tried: Any) -> Any:
        def seen(other: Brief) -> MainWork | None:
            work: MainWork | None = tried(other)
            if work is not None:
                offered.append((other, work))
            return work

        return ways_out(asked, setting, seen)

    monkeypatch.setattr(season_plan, "ways_out", watching)
    plan = plan_brief(brief)
    assert plan.conflict is not None and plan.options
    assert len({option.reason for option in plan.options}) == len(plan.options)
    return offered


@pytest.mark.parametrize("name", ["late-start", *TIGHT])
def test_a_way_out_leads_where_it_says(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Planned in full, each way out gives a sound plan of that campaign with its main work on those
    days.
    """
    brief = example_brief(name) if name == "late-start" else brief_of(TIGHT[name])
    for other, work in ways_of(brief, monkeypatch):
        plan = plan_brief(other)
        assert plan.conflict is None and plan.campaign_name == work.campaign
        days = [
            day
            for t in plan.tasks
            if t.plays("spreading", "sowing", "planting")
            for day in (t.start, t.end)
        ]
        assert (min(days, default=None), max(days, default=None)) == (work.first, work.last)
