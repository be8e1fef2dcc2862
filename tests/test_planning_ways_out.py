"""Ways out: each is told once, and leads to the plan that it promises."""

import tomllib
from datetime import date
from typing import Any

import pytest

from planning import brief_of, example_brief, plan_brief, plan_of
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


# In which table of a brief each key stands that a way out prints.
TABLES = {
    "lawn": ("condition", "thatch"),
    "leveling": ("depth",),
    "seeding": ("intent", "form", "species"),
    "season": ("from", "until", "campaign"),
    "work": ("people", "machines", "by"),
    "water": ("timer", "permit", "possible"),
    "calendar": ("weekdays", "away"),
    "site": ("sun_hours",),
    "soil_test": ("salts",),
}
METRIC = {"postal_code": None, "latitude": 59.86, "longitude": 17.64, "country": "SE"}
REFUSED: dict[str, dict[str, Any]] = {
    "a sponge, metric, with an end": {
        "lawn": {"grass": "kentucky_bluegrass", "thatch": "20 mm"},
        "place": METRIC,
        "leveling": {"depth": "10 mm"},
        "season": {"from": None, "until": date(2027, 9, 10)},
    },
    "a sponge of a grass that is not sown": {
        "lawn": {"grass": "st_augustine", "thatch": "1.5 in"},
        "place": {"postal_code": "32607"},
        "seeding": {"intent": "none"},
    },
    "no season for a pass": {
        "lawn": {"grass": "fine_fescue"},
        "place": {**METRIC, "latitude": 63.75, "longitude": -68.52, "country": "CA"},
        "leveling": {"depth": "10 mm"},
    },
    "no season for a pass, and no water": {
        "lawn": {"grass": "fine_fescue"},
        "place": {**METRIC, "latitude": 63.75, "longitude": -68.52, "country": "CA"},
        "leveling": {"depth": "10 mm"},
        "seeding": {"intent": "none"},
        "water": {"possible": False, "application_rate": None},
    },
    "few days and an end": {
        "calendar": {"weekdays": ["sun"]},
        "season": {"from": date(2027, 10, 20), "until": date(2027, 12, 1)},
        "leveling": {"depth": "1 in"},
    },
    "one person on two acres": {
        "lawn": {"area": "80000 ft2"},
        "work": {"people": 1},
        "season": {"from": date(2027, 9, 10), "until": date(2027, 10, 30)},
    },
    "salt and sodium": {
        "lawn": {"grass": "kentucky_bluegrass"},
        "place": {"postal_code": "84116"},
        "leveling": {"depth": "0.25 in"},
        "soil_test": {
            "on": date(2027, 1, 10),
            "ph": 8.4,
            "free_lime": True,
            "salts": "5.2 dS/m",
            "sar": 16,
            "gypsum_rate": "100 lb/1000ft2",
        },
        "site": {"ground": ["salty", "sodic"]},
    },
    **{name: TIGHT[name] for name in ("two watering days", "a sponge of thatch")},
    "away all autumn": {
        "calendar": {"away": [{"from": date(2027, 5, 1), "to": date(2028, 12, 31)}]},
        "season": {"from": date(2027, 8, 1), "until": date(2027, 12, 1)},
    },
}


def typed(change: str) -> dict[str, Any]:
    """What a way out prints, as tables of a brief; what is left out is None."""
    lines, _, left_out = change.partition("; leave out ")
    if lines.startswith("leave out "):
        lines, left_out = "", lines.removeprefix("leave out ")
    found: dict[str, Any] = {}
    for key, value in tomllib.loads(f"all = {{ {lines} }}")["all"].items():
        table = next(name for name, keys in TABLES.items() if key in keys)
        found.setdefault(table, {})[key] = value
    if left_out.startswith("["):
        found[left_out.strip("[]")] = None
    elif left_out:
        key = left_out.rpartition(".")[2]
        table = next(name for name, keys in TABLES.items() if key in keys)
        found.setdefault(table, {})[key] = None
    return found


@pytest.mark.parametrize("name", REFUSED)
def test_a_way_out_plans_as_it_is_printed(name: str) -> None:
    """Typed into the brief as it is printed, each way out gives a sound plan of the campaign that
    it names, and at least one does so."""
    refused = plan_of(REFUSED[name])
    assert refused.conflict is not None and refused.options
    for option in refused.options:
        plan = plan_of(REFUSED[name], typed(str(option.change)), options=False)
        assert plan.conflict is None, option.change
        assert str(plan.campaign_name) in str(option.reason), option.change


def test_a_salty_lawn_is_told_once_and_has_ways_to_be_sown() -> None:
    """The salt is named once, the sodium with its gypsum; washing out and a grass that bears it
    are ways out, beside leveling alone."""
    refused = plan_of(REFUSED["salt and sodium"])
    assert refused.conflict is not None
    told = [str(reason) for reason in refused.conflict.reasons]
    assert sum("5.2 dS/m" in line for line in told) == 1 and not refused.rejected
    assert any("gypsum" in line for line in told)
    changes = [str(option.change) for option in refused.options]
    assert 'salts = "3 dS/m"' in changes and 'species = "tall_fescue"' in changes
    assert 'intent = "none"' in changes
