"""Days in which ground is filled: none too short to be of use."""

import math
from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

from planning import brief_of
from resolved_lawns import setting_of
from test_work_campaigns import days_of
from turfplan.phrases import ground_fill as phrases
from turfplan.records.brief import GrassShare
from turfplan.work import ground_fill as module
from turfplan.work.drafts import Band, OpenDays
from turfplan.work.ground_fill import (
    _within,
    covered,
    fill_window,
    kill_lead,
    least_lead,
    lift_days,
    nurse_grass_may_cover,
    regrowth_look,
    settling,
    takes_weeks,
    waits_a_season,
)
from turfplan.work.labour import person_hours, working_days
from turfplan.work.lawn import Labour, ResolvedLawn
from turfplan.work.material_amounts import loose_volume_m3

SETTING = setting_of(brief_of())
LEAST = SETTING.days("windows.least_days")
FIRST, LAST = date(2027, 5, 1), date(2027, 6, 30)


@pytest.mark.parametrize(
    ("begin", "days", "open_for"),
    [
        (date(2027, 5, 10), LEAST, LEAST),
        (date(2027, 5, 10), LEAST - 1, None),
        (date(2027, 5, 10), 40, 40),
        (FIRST - timedelta(20), 20 + LEAST, LEAST),
        (FIRST - timedelta(20), 19 + LEAST, None),
        (LAST - timedelta(LEAST), 30, LEAST),
        (LAST - timedelta(LEAST - 1), 30, None),
    ],
)
def test_a_stretch_that_is_shorter_than_the_least_window_is_none(
    begin: date, days: int, open_for: int | None
) -> None:
    """Cut to the days of the fill, it lasts so many from its first to its last day; its best day
    lies inside.
    """
    model = SETTING.openings.windows[0]
    opens = OpenDays(
        "fill",
        "spring",
        begin,
        begin + timedelta(days),
        begin,
        model.reason,
        model.source,
        "workable",
    )
    best = date(2027, 5, 12)
    found = list(_within(SETTING, [opens], FIRST, LAST, best))
    assert [(w.end - w.start).days for w in found] == ([] if open_for is None else [open_for])
    for window in found:
        assert window.start == max(FIRST, begin)
        assert window.best == min(max(best, window.start), window.end)


def lawn(**changes: Any) -> ResolvedLawn:
    """The plain lawn with other fields."""
    return replace(SETTING, **changes)


def filled(depth_mm: float, *, share: float = 1.0, **changes: Any) -> ResolvedLawn:
    """Filled so deep on a share of it; not at all at nothing."""
    bands = (Band(depth_mm, share),) if depth_mm else ()
    return lawn(levelling=replace(SETTING.levelling, bands=bands), **changes)


def si(fact: Any) -> float:
    """A fact of the book."""
    return SETTING.book.si(fact)


def test_the_deeper_the_fill_the_longer_it_settles() -> None:
    """Each border belongs to the shorter time."""
    deep, fast = si("open_ground.deep_from"), si("open_ground.settles_fast")
    assert [settling(filled(mm)) for mm in (fast, fast + 0.1, deep, deep + 0.1)] == [
        "open_ground.settle_least",
        "open_ground.settle_usual",
        "open_ground.settle_usual",
        "open_ground.settle_season",
    ]
    assert [waits_a_season(filled(mm)) for mm in (deep, deep + 0.1)] == [False, True]


def test_creeping_grass_is_looked_at_later_and_killed_earlier() -> None:
    """Of the grass that is there, not the one to come."""
    creeping, plain = si("renovate.regrowth_look_creeping"), si("renovate.regrowth_look")
    assert regrowth_look(SETTING) == "renovate.regrowth_look"
    assert kill_lead(SETTING) == round(si("wish.kill_stand"))
    parts = (GrassShare(species="bermuda_common", share=1.0),)
    old = SETTING.brief.lawn.model_copy(update={"grass": parts})
    bermuda = lawn(brief=SETTING.brief.model_copy(update={"lawn": old}))
    assert regrowth_look(bermuda) == "renovate.regrowth_look_creeping"
    assert kill_lead(bermuda) == round(si("wish.kill_stand") + creeping - plain)
    assert creeping > plain


@pytest.mark.parametrize("shares", [(0.5, 0.5), (0.9, 0.1), (0.1, 0.9)])
@pytest.mark.parametrize("first", [True, False])
def test_any_creeper_of_a_killed_stand_is_waited_for(
    shares: tuple[float, float], *, first: bool
) -> None:
    """However little of it there is, and in whatever order the brief names the grasses."""
    parts = [
        GrassShare(species="bermuda_common", share=shares[0]),
        GrassShare(species="tall_fescue", share=shares[1]),
    ]
    grass = tuple(parts if first else reversed(parts))
    old = SETTING.brief.lawn.model_copy(update={"grass": grass})
    mixed = lawn(brief=SETTING.brief.model_copy(update={"lawn": old}))
    assert regrowth_look(mixed) == "renovate.regrowth_look_creeping"


def killed(setting: ResolvedLawn) -> ResolvedLawn:
    """A stand that is killed and sown anew."""
    return replace(setting, sowing=replace(setting.sowing, intent="renovate"))


def test_seed_waits_for_the_kill_and_for_the_fill() -> None:
    """Each for itself, and both together."""
    kill = round(si("renovate.regrowth_look") + si("renovate.days_to_seed"))
    fill = lift_days(filled(10.0)) + round(si("open_ground.settle_least"))
    assert least_lead(filled(0.0)) == 0 and least_lead(filled(10.0)) == fill
    assert least_lead(killed(filled(0.0))) == kill
    assert least_lead(killed(filled(10.0))) == kill + fill


def weekdays(setting: ResolvedLawn, *days: str) -> ResolvedLawn:
    """The lawn that is worked on these weekdays."""
    calendar = setting.brief.calendar.model_copy(update={"weekdays": days or None})
    return replace(setting, brief=setting.brief.model_copy(update={"calendar": calendar}))


def test_lifts_take_the_days_of_the_calendar_that_their_hours_take() -> None:
    """20 mm on half of 464.5 m2 are 4.645 m3 settled; of their days two in seven are worked on."""
    setting = weekdays(filled(20.0, share=0.5), "sat", "sun")
    area = setting.plot.area_m2
    loose = loose_volume_m3(0.010 * area, setting.levelling.settle_share)
    hours = person_hours(setting, setting.book.operations["fill"], area, loose)
    days = working_days(setting, hours)
    assert days >= 2 and lift_days(setting) == math.ceil(days * 7 / 2)
    assert lift_days(weekdays(setting, "sun")) == days * 7
    assert lift_days(weekdays(setting)) == lift_days(setting)


def test_fill_is_covered_where_it_lies_open_too_long() -> None:
    """Deep, unsown, or slow; nothing where nothing is filled."""
    unsown = replace(SETTING.sowing, operation=None)
    assert not covered(filled(10.0)) and covered(filled(10.0, sowing=unsown))
    assert covered(filled(si("open_ground.deep_from") + 1))
    assert not covered(filled(0.0, sowing=unsown))
    slow = Labour(1, 0.5, 15.0, 7)
    assert takes_weeks(filled(10.0, labour=slow)) and covered(filled(10.0, labour=slow))


def on_slope(percent: float | None, mm: float = 10.0) -> ResolvedLawn:
    """Filled ground on a slope."""
    site = SETTING.brief.site.model_copy(update={"slope_percent": percent})
    return filled(mm, brief=SETTING.brief.model_copy(update={"site": site}))


def test_no_fill_lies_open_on_a_slope() -> None:
    """From the slope on that sheds water, however quickly it is filled and sown."""
    steep = si("site.slope_cover") * 100
    assert covered(on_slope(steep))
    assert not covered(on_slope(steep - 0.5)) and not covered(on_slope(None))
    assert not covered(on_slope(steep, 0.0))


def test_nurse_grass_covers_what_waits_on_level_ground_that_somebody_waters() -> None:
    """Straw, or a mat, where it would be washed out, dry out, or has too few weeks."""
    deep = si("open_ground.deep_from") + 1
    assert nurse_grass_may_cover(filled(deep)) and not nurse_grass_may_cover(filled(deep - 2))
    assert not nurse_grass_may_cover(on_slope(si("site.slope_cover") * 100, deep))
    water = SETTING.brief.water.model_copy(update={"possible": False})
    dry = SETTING.brief.model_copy(update={"water": water})
    assert not nurse_grass_may_cover(filled(deep, brief=dry))


def test_what_takes_weeks_is_covered_strip_by_strip(monkeypatch: pytest.MonkeyPatch) -> None:
    """Beyond the days for which strips may lie open on level ground."""
    strips = round(si("open_ground.open_by_strips"))
    for days, weeks in ((strips, False), (strips + 1, True)):
        monkeypatch.setattr(module, "lift_days", lambda setting, days=days: days)
        assert takes_weeks(filled(1.0)) is weeks


def fill_days(first: date, last: date) -> OpenDays:
    """Days on which soil can be worked."""
    return days_of("fill", first, last, season="summer")


def test_unsown_fill_goes_on_as_soon_as_the_soil_can_be_worked() -> None:
    """From the first day of the plan, in a window that is not over."""
    first = date.fromordinal(SETTING.first_day)
    over = fill_days(first - timedelta(30), first - timedelta(1))
    now = fill_days(first - timedelta(9), first)
    later = fill_days(first + timedelta(9), first + timedelta(30))

    def window(*windows: OpenDays) -> OpenDays | None:
        return fill_window(lawn(openings=replace(SETTING.openings, windows=windows)), None)

    assert window(over, now) == replace(now, best=first)
    assert window(over, later) == replace(later, best=first + timedelta(9))
    assert window(over) is None


def test_fill_lies_in_the_weeks_before_the_seed_or_the_season_before(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """From the most that ground lies open and a week before the lifts begin, until it can settle;
    half a year ahead where it settles for a season. The longest of several stretches is taken."""
    monkeypatch.setattr(module, "lift_days", lambda setting: 5)
    sow = days_of("seed", date(2028, 8, 20), date(2028, 9, 30), date(2028, 9, 5))
    every = fill_days(date(2027, 1, 1), date(2028, 12, 31))
    openings = replace(SETTING.openings, windows=(every,))
    settles = round(si("open_ground.settle_least"))
    soon = fill_window(filled(1.0, openings=openings), sow)
    assert soon is not None
    ahead = round(si("open_ground.open_most")) + 5 + 7
    assert soon.start == sow.start - timedelta(ahead)
    assert soon.end == sow.end - timedelta(settles)
    assert soon.best == sow.best - timedelta(settles + 5)
    deep = fill_window(filled(si("open_ground.deep_from") + 1, openings=openings), sow)
    assert deep is not None and deep.start == sow.start - timedelta(182)
    assert soon.reason == phrases.window_of_weeks(most=round(si("open_ground.open_most")) // 7)
    assert deep.reason == phrases.window_a_season()
    parts = (
        fill_days(soon.start, soon.start + timedelta(LEAST + 1)),
        fill_days(soon.start + timedelta(LEAST + 3), soon.start + timedelta(2 * LEAST + 5)),
    )
    apart = filled(1.0, openings=replace(openings, windows=parts))
    longest = fill_window(apart, sow)
    assert longest is not None and longest.start == parts[1].start
