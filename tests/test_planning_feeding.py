"""What a campaign is fed with, and what is said of feedings that somebody moved or gave by hand."""

import json
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path
from typing import Any

import pytest

from command import run
from planning import brief_of, plan_brief
from test_cli import written
from test_nitrogen_account import from_compost
from test_work_campaigns import setting_of
from turfplan.planning.feeding import _compost, feeder_for
from turfplan.work.campaigns import campaigns
from turfplan.work.feeding.stages import WorkedDays
from turfplan.work.mix_choice import choose_mix

NEW_YORK = """
[lawn]
id = "feed-test"
area = "4000 ft2"
grass = "tall_fescue"
soil = "loam"
[place]
postal_code = "13203"
state = "NY"
[leveling]
depth = "0.375 in"
[seeding]
intent = "overseed"
[water]
possible = true
[season]
from = 2027-03-01
"""


def planned(brief: Path, out: Path) -> dict[str, object]:
    """The plan of a brief in March."""
    done = run("plan", str(brief), "-o", str(out), "--today", "2027-03-01")
    assert done.returncode == 0, done.stderr
    plan: dict[str, object] = json.loads((out / "plan.json").read_text(encoding="utf-8"))
    return {**plan, "stdout": done.stdout}


@pytest.mark.parametrize(
    ("day", "said", "words"),
    [
        (
            "2027-12-18",
            "Sat, Dec 18, 2027",
            "no nitrogen from Dec 1 to Apr 1 in NY (State of New York statute",
        ),
        ("2027-07-18", "Sun, Jul 18, 2027", "burns in summer heat"),
    ],
)
def test_a_feeding_moved_into_a_blackout_or_heat_is_warned_of(
    tmp_path: Path, day: str, said: str, words: str
) -> None:
    """The owner's day is kept; the plan says what stands against it, with the source."""
    brief, out = written(tmp_path, NEW_YORK), tmp_path / "out"
    before = planned(brief, out)
    assert not before["warnings"]
    logged = run("log", str(brief), "moved", "feed_nitrogen.spring", "--to", day, "-o", str(out))
    assert logged.returncode == 0, logged.stderr
    after = planned(brief, out)
    warnings: list[str] = after["warnings"]  # type: ignore[assignment]
    assert any(words in warning and said in warning for warning in warnings)
    assert set(warnings) <= set(after["cautions"])  # type: ignore[call-overload]
    told = [line for line in str(after["stdout"]).splitlines() if line.startswith("  ! new, ")]
    assert all(any(line.endswith(f": {warning}") for line in told) for warning in warnings)


def test_nitrogen_given_in_a_blackout_or_above_the_range_is_told(tmp_path: Path) -> None:
    """In a blackout, more than at once, more than a year's range, each with its source."""
    history = '[history]\nnitrogen = [{ rate = "5 lb/1000ft2", on = 2026-12-15 }]\n'
    plan = planned(written(tmp_path, NEW_YORK + history), tmp_path / "out")
    said = " ".join(plan["cautions"])  # type: ignore[arg-type]
    assert "fell on days closed to it" in said and "State of New York statute" in said
    assert (
        "more than grass takes at once (" in said
        and "more than its yearly range of nitrogen (" in said
    )


DANGEROUS = {
    "rate of nothing": ('application_rate = "0 in/h"', "water.application_rate"),
    "rate of a flood": ('application_rate = "10 in/h"', "water.application_rate"),
    "one can": ('catch_cans = ["0.3 in"]\ncatch_minutes = 20', "too few cans"),
    "empty cans": (
        'catch_cans = ["0 in", "0 in", "0 in", "0 in"]\ncatch_minutes = 20',
        "every can is empty",
    ),
    "heads without spacing": ('head_flow = "2 gpm"', "head_flow and head_spacing"),
    "more than the bag": ('[feeding]\nanalysis = "60-30-20"', "more than the bag"),
    "a bag without nitrogen": ('[feeding]\nanalysis = "0-0-50"', "holds no nitrogen"),
}


@pytest.mark.parametrize("case", DANGEROUS)
def test_what_cannot_be_is_refused(tmp_path: Path, case: str) -> None:
    """Exit code 3, the place and what is allowed, and nothing written."""
    line, words = DANGEROUS[case]
    text = NEW_YORK.replace("possible = true", f"possible = true\n{line}")
    done = run("plan", str(written(tmp_path, text)), "-o", str(tmp_path / "out"))
    assert done.returncode == 3 and words in done.stderr and "lawn.toml" in done.stderr
    assert not (tmp_path / "out").exists()


def test_a_rate_faster_than_sprinklers_is_warned_of(tmp_path: Path) -> None:
    """3 in/h is planned with, and doubted with the source of what sprinklers give."""
    text = NEW_YORK.replace("possible = true", 'possible = true\napplication_rate = "3 in/h"')
    plan = planned(written(tmp_path, text), tmp_path / "out")
    assert any(
        "faster than sprinklers usually are (California State University" in c
        for c in plan["cautions"]
    )  # type: ignore[attr-defined]


def test_compost_is_its_share_of_each_pass() -> None:
    """A quarter of the mix is a quarter of the depth: on the best days of the sessions, then on
    those of the passes themselves; none where the mix holds none.
    """
    setting = setting_of(brief_of({"leveling": {"depth": "1 in"}}))
    campaign, mix = campaigns(setting)[0][0], choose_mix(setting)
    assert mix.compost_share == 0.25
    rough = _compost(campaign, mix, None)
    passes = [(s.window.best, p.depth_mm) for s in campaign.sessions for p in s.passes]
    assert rough == [(day, depth / 4) for day, depth in passes]
    worked = WorkedDays(((date(2027, 4, 10), 8.0), (date(2027, 9, 4), 6.0)))
    assert _compost(campaign, mix, worked) == [(date(2027, 4, 10), 2.0), (date(2027, 9, 4), 1.5)]
    assert _compost(campaign, replace(mix, parts={"sand": 1.0}), worked) == []


def test_the_account_gives_the_credit_of_the_compost_over_its_year() -> None:
    """All of it where the account goes on for a year after the pass."""
    brief = brief_of({"leveling": {"depth": "0.25 in"}, "season": {"from": date(2027, 8, 1)}})
    plan = plan_brief(brief, options=False)
    (ledger,) = (one for one in plan.ledgers if one.item == "nitrogen")
    credits = from_compost(plan, brief)
    over = ledger.weeks[-1].end
    assert credits and all(day + timedelta(365) <= over for day, _ in credits)
    given = sum(week.entries["compost"] for week in ledger.weeks)
    assert given == pytest.approx(sum(rate for _, rate in credits), rel=0.01)


SAND: dict[str, Any] = {"leveling": {"parts": {"topsoil": 0.5, "sand": 0.5}}}
RYE: dict[str, Any] = {
    "lawn": {"grass": "bermuda_common", "condition": "dense"},
    "place": {"postal_code": "85001"},
    "leveling": {"depth": "0 in"},
    "seeding": {"intent": "winter_overseed"},
}


@pytest.mark.parametrize(
    ("changes", "starts"),
    [
        (SAND, True),
        ({}, False),
        ({**SAND, "seeding": {"intent": "none"}}, False),
        (RYE, False),
    ],
    ids=["seed without compost", "with compost", "unsown", "winter cover"],
)
def test_a_starter_goes_with_seed_that_no_compost_feeds(
    changes: dict[str, Any], *, starts: bool
) -> None:
    """Ryegrass of one winter over a lawn is fed in its own way."""
    setting = setting_of(brief_of(changes))
    campaign = campaigns(setting)[0][0]
    found = feeder_for(setting)(setting, campaign, choose_mix(setting))
    assert (found.starter is not None) is starts
