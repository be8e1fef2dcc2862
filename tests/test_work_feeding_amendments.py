"""Sulfur and iron keep clear of seed: the days around it are passed over whole."""

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

import resolved_lawns
from planning import brief_of
from resolved_lawns import setting_of
from turfplan.message import as_written
from turfplan.work.campaigns import Campaign, Session, campaigns
from turfplan.work.drafts import OpenDays
from turfplan.work.feeding.amendments import (
    amendments,
    gypsum_parts,
    is_sodic,
    left_for_later,
    too_high,
    washed_in,
)
from turfplan.work.lawn import ResolvedLawn

TEST: dict[str, Any] = {"soil_test": {"on": date(2026, 10, 1), "ph": 8.1, "free_lime": False}}


NEVER = TEST["soil_test"]


def lawn(*changes: dict[str, Any]) -> ResolvedLawn:
    """The plain lawn with a pH of 8.1 and no free lime, with changes."""
    return resolved_lawns.lawn(TEST, *changes)


def with_test(**test: Any) -> ResolvedLawn:
    """That lawn with another test."""
    setting = lawn()
    soil = setting.brief.soil_test.model_copy(update=test)
    return replace(setting, brief=setting.brief.model_copy(update={"soil_test": soil}))


def evergreen(setting: ResolvedLawn) -> ResolvedLawn:
    """The lawn in a place where its grass grows on every day."""
    warm = replace(
        setting.climate,
        air_mean_c=(20.0,) * 365,
        air_min_c=(14.0,) * 365,
        air_max_c=(26.0,) * 365,
    )
    return replace(setting, climate=warm)


def way(sow: date | None = None, *passes: date, days: int = 0) -> Campaign:
    """A campaign with a session on each of some days, and seed on a day or some around it."""

    def window(operation: Any, best: date, around: int = 0) -> OpenDays:
        ends = best - timedelta(around), best + timedelta(around)
        return OpenDays(operation, "autumn", *ends, best, as_written(""), as_written(""))

    sessions = tuple(
        Session(n, window("topdress", day), (), False) for n, day in enumerate(passes, 1)
    )
    seed = None if sow is None else window("overseed", sow, days)
    return Campaign("autumn", as_written(""), (), sessions, seed, 0.0)


def at(setting: ResolvedLawn, days: int) -> date:
    """So many days after the first of the plan."""
    return date.fromordinal(setting.first_day + days)


def told(setting: ResolvedLawn, campaign: Campaign, key: str) -> list[tuple[int, int, int]]:
    """First, best and last day of each part, by days after the first of the plan."""
    begin = setting.first_day
    return [
        (d.window[0] - begin, d.ideal - begin, d.window[1] - begin)
        for d in amendments(setting, campaign)
        if d.window is not None and d.ideal is not None and d.id.startswith(f"amend.{key}")
    ]


def test_a_ph_is_too_high_above_what_the_grass_likes() -> None:
    """Not at it; nothing is said without one."""
    high = 7.5
    assert [too_high(with_test(ph=ph)) is not None for ph in (high, high + 0.1)] == [False, True]
    assert too_high(with_test(ph=None)) is None


def test_ground_is_sodic_by_its_sodium_or_by_what_is_known_of_it() -> None:
    """From the mark on; a number goes before what is known."""
    mark = lawn().book.si("salt.sodic_sar")
    assert [is_sodic(with_test(sar=sar)) for sar in (mark - 0.1, mark)] == [False, True]
    assert not is_sodic(lawn()) and is_sodic(lawn({"site": {"ground": ["sodic"]}}))
    known = lawn({"site": {"ground": ["sodic"]}, "soil_test": {**NEVER, "sar": 1}})
    assert not is_sodic(known)


def test_sulfur_goes_on_twice_where_the_soil_holds_no_lime() -> None:
    """A gap apart, each with a quarter of it to slip; on limy or unknown soil none does."""
    setting = evergreen(lawn())
    gap = setting.days("high_ph.sulfur_gap")
    slip = gap // 4
    assert told(setting, way(), "sulfur") == [
        (0, slip, 2 * slip),
        (gap, slip + gap, 2 * slip + gap),
    ]
    for changed in ({"free_lime": True}, {"free_lime": None}):
        assert told(evergreen(with_test(**changed)), way(), "sulfur") == []
    chalk = evergreen(lawn({"lawn": {"soil": "chalk"}}))
    assert told(chalk, way(), "sulfur") == []
    (first, *_), once = (
        [d for d in amendments(setting, way()) if "sulfur" in d.id],
        setting.book.si("high_ph.sulfur_once"),
    )
    amounts = {a.item: a.value for a in first.amounts}
    assert amounts["sulfur rate"] == pytest.approx(once, abs=0.001)
    assert amounts["sulfur"] == pytest.approx(once * setting.plot.area_m2 / 1000, abs=0.001)
    assert (first.position, first.words["amount"].value) == (  # type: ignore[union-attr]
        1,
        pytest.approx(once * setting.plot.area_m2 / 1000),
    )


def test_what_the_days_of_a_plan_have_no_room_for_is_told() -> None:
    """To the last of them; iron is not."""
    setting = evergreen(lawn())
    gap = setting.days("high_ph.sulfur_gap")
    second = setting.first_day + gap // 4 + gap

    def left(last_day: int) -> list[tuple[float, float]]:
        found = left_for_later(replace(setting, last_day=last_day), way())
        return [
            (dict(m.values)["rate"].value, dict(m.values)["whole"].value)  # type: ignore[union-attr]
            for m in found
        ]

    once = setting.book.si("high_ph.sulfur_once")
    assert left(second) == []
    assert left(second - 1) == [(pytest.approx(once), pytest.approx(2 * once))]
    assert left(setting.first_day) == [(pytest.approx(2 * once), pytest.approx(2 * once))]


def sodic(rate: float, **more: Any) -> ResolvedLawn:
    """A lawn on sodic ground, for which the laboratory asks for so much gypsum, g/m2."""
    return evergreen(with_test(ph=6.5, sar=20.0, gypsum_rate_g_m2=rate, **more))


def test_gypsum_goes_on_in_as_many_parts_as_the_ground_takes() -> None:
    """Of sodic ground alone."""
    most = lawn().book.fact("salt.gypsum_once").high_si
    assert [gypsum_parts(sodic(most * n)) for n in (0.5, 1.0, 1.01, 2.0, 2.01)] == [1, 1, 2, 2, 3]
    assert gypsum_parts(evergreen(with_test(sar=1.0, gypsum_rate_g_m2=900.0))) == 0
    assert gypsum_parts(sodic(0.0)) == 0
    setting = sodic(most * 1.5)
    gap = setting.days("salt.gypsum_gap")
    slip = gap // 4
    assert [best for _, best, _ in told(setting, way(), "gypsum")] == [slip, slip + gap]
    (first, _) = (d for d in amendments(setting, way()) if "gypsum" in d.id)
    assert {a.item: a.value for a in first.amounts}["gypsum rate"] == pytest.approx(
        most * 0.75, abs=0.001
    )


def test_gypsum_is_washed_down_a_part_of_its_gap_after_the_last_of_it() -> None:
    """Beyond the plan where no grass ever grows; where none is given there is no such day."""
    most = lawn().book.fact("salt.gypsum_once").high_si
    setting = sodic(most)
    gap = setting.days("salt.gypsum_gap")
    slip = gap // 4
    begin = setting.first_day
    assert washed_in(setting) == begin + slip + gap - slip
    assert washed_in(sodic(2 * most)) == begin + slip + gap + gap - slip
    assert washed_in(lawn()) is None
    cold = replace(setting, climate=replace(setting.climate, air_mean_c=(-9.0,) * 365))
    assert washed_in(cold) == cold.last_day + 1


def test_iron_goes_on_at_once_and_harms_no_seed_to_come() -> None:
    """Where it grows, with a quarter of the gap; on what is sown by then, once it is past it."""
    setting = evergreen(with_test(free_lime=True))
    slip = setting.days("high_ph.sulfur_gap") // 4
    assert told(setting, way(), "iron") == [(0, 0, slip)]
    assert told(setting, way(at(setting, 90)), "iron") == [(0, 0, slip)]
    past = setting.days("seeding.no_dressing")
    assert told(setting, way(at(setting, 0)), "iron") == [(past, past, past + slip)]
    # Less than a week before seed is no chance: it would slip into the weeks of germination.
    assert told(setting, way(at(setting, 7)), "iron")[0][0] == 7 + past
    assert told(setting, way(at(setting, 8)), "iron") == [(0, 0, 7)]
    # A season of weeks counts by the days around its best.
    assert told(setting, way(at(setting, slip), days=90), "iron") == [
        (2 * slip + past, 2 * slip + past, 3 * slip + past)
    ]
    renewed = replace(setting, sowing=replace(setting.sowing, intent="renovate"))
    assert told(renewed, way(at(setting, 90)), "iron")[0][0] == 90 + past


def test_iron_goes_on_well_before_a_pass_or_once_leaves_show() -> None:
    """A week is the least that is left to it."""
    setting = evergreen(with_test(free_lime=True))
    slip, lasts = setting.days("high_ph.sulfur_gap") // 4, setting.days("high_ph.iron_lasts")
    shown = setting.days("feeding.after_pass")

    def iron(*passes: int) -> list[tuple[int, int, int]]:
        return told(setting, way(None, *(at(setting, n) for n in passes)), "iron")

    assert iron(lasts + 7) == [(0, 0, 7)]
    late = lasts + 6 + shown + 1
    assert iron(lasts + 6) == [(late, late, late + slip)]
    assert iron(lasts + slip) == iron(lasts + slip + 40) == [(0, 0, slip)]
    # Between two passes too, where a week is left before the second.
    assert iron(3, lasts + shown + 11) == [(3 + shown + 1, 3 + shown + 1, shown + 11)]
    assert iron(3, lasts + shown + 10)[0][0] > lasts + shown + 10
    # Leaves that show again after a pass stand over its seed: it waits until that has been mown.
    seeded = way(at(setting, lasts + 6), at(setting, lasts + 6))
    past = setting.days("seeding.no_dressing")
    assert told(setting, seeded, "iron")[0][0] == lasts + 6 + past
    short = replace(setting, last_day=setting.first_day + late - 1)
    assert told(short, way(None, at(setting, lasts + 6)), "iron") == []


@pytest.mark.full
@pytest.mark.parametrize("begins", [-10, 0, 29, 45, 70])
def test_what_is_sharp_waits_until_seedlings_are_past_it(begins: int) -> None:
    """A part that may slip into the four weeks before seed or the sixty days after it moves behind
    them, as far as it may slip.
    """
    setting = setting_of(brief_of(TEST))
    campaign = next(c for c in campaigns(setting)[0] if c.sow_window is not None)
    assert campaign.sow_window is not None
    slip = setting.days("high_ph.sulfur_gap") // 4
    start = date.fromordinal(setting.first_day) + timedelta(begins)
    sow = replace(campaign.sow_window, start=start, end=start + timedelta(5), best=start)
    drafts = amendments(setting, replace(campaign, sow_window=sow))
    drafts = [draft for draft in drafts if draft.id.startswith("amend.sulfur")]
    assert "amend.sulfur.1" in {draft.id for draft in drafts}
    quiet = start.toordinal() - 28, start.toordinal() + 5 + 60
    for draft in drafts:
        assert draft.window is not None and draft.ideal is not None
        first, last = draft.window
        assert (draft.ideal - first, last - draft.ideal) == (slip, slip)
        assert last < quiet[0] or first > quiet[1], draft.id
    behind = quiet[1] + slip + 1
    assert drafts[0].ideal == behind, "as soon as it may, in a season of growth"


def test_parts_lie_a_gap_apart() -> None:
    """Where nothing is sown the first goes on as soon as it may slip back to the first day."""
    setting = setting_of(brief_of(TEST, {"seeding": {"intent": "none"}}))
    gap = setting.days("high_ph.sulfur_gap")
    days = [d.ideal for d in amendments(setting, campaigns(setting)[0][0]) if "sulfur" in d.id]
    assert len(days) == 2 and days[0] is not None and days[1] is not None
    assert days[0] >= setting.first_day + gap // 4 and days[1] - days[0] >= gap
