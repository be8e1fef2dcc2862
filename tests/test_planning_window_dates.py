"""Windows on the years of a plan: those ahead, those just missed, measured soil, dry days."""

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

from test_work_campaigns import days_of, plain
from turfplan.climate.record import Excess
from turfplan.message import Day, Message, Quantity, as_written, sentences
from turfplan.phrases import windows as phrases
from turfplan.planning import window_dates as module
from turfplan.planning.window_dates import (
    JUST_MISSED_DAYS,
    MEASURED,
    _as_measured,
    _measured,
    _of_both_grasses,
    less_dry_days,
    measured_climate,
    moved_by_soil,
    rain_alone,
    with_windows,
)
from turfplan.work.drafts import OpenDays
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.watering.verdict import Verdict, days_kept_wet, tender_days
from turfplan.work.windows import ClosedWindow, WindowPolicy, WindowsOfYear

# Resolved before any test lays other windows under it.
SETTING = plain()
BEGIN = date(2027, 3, 1)
POLICY = WindowPolicy()


def lawn(first: date = BEGIN, last: date = date(2028, 12, 31), **changes: Any) -> ResolvedLawn:
    """The plain lawn in a span of days."""
    days = {"first_day": first.toordinal(), "last_day": last.toordinal()}
    return replace(SETTING, **days, **changes)


def watered(setting: ResolvedLawn, possible: bool | None) -> ResolvedLawn:
    """A lawn that can be watered, or not, or of which nobody said."""
    water = setting.brief.water.model_copy(update={"possible": possible})
    return replace(setting, brief=setting.brief.model_copy(update={"water": water}))


def bare(setting: ResolvedLawn) -> ResolvedLawn:
    """A lawn without living grass."""
    return replace(setting, turf=replace(setting.turf, condition="bare"))


def given(
    monkeypatch: pytest.MonkeyPatch, *windows: OpenDays, closed: tuple[ClosedWindow, ...] = ()
) -> list[range]:
    """These windows whatever the years; the years that are asked for."""
    asked: list[range] = []

    def of_years(climate: Any, book: Any, stand: Any, years: range, policy: Any) -> WindowsOfYear:
        asked.append(years)
        return WindowsOfYear(windows, closed)

    monkeypatch.setattr(module, "windows_of_years", of_years)
    return asked


def never(operation: Any, why: Message) -> ClosedWindow:
    """An operation that has no window."""
    return ClosedWindow(operation, "rule", why)


def span(operation: str, first: date, last: date) -> OpenDays:
    """A window best on its first day."""
    return days_of(operation, first, last)


def test_windows_of_the_plan_are_ahead_and_those_just_over_were_missed(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """One that ends on the first day or begins on the last is ahead; one that ended 150 days ago is
    told of, not one of a day before."""
    ago, last = timedelta(JUST_MISSED_DAYS), date(2028, 12, 31)
    ends = span("topdress", BEGIN - timedelta(9), BEGIN)
    over = span("topdress", BEGIN - timedelta(9), BEGIN - timedelta(1))
    missed = span("overseed", BEGIN - ago, BEGIN - ago)
    old = span("overseed", BEGIN - ago, BEGIN - ago - timedelta(1))
    begins, beyond = span("dethatch", last, last), span("dethatch", last + timedelta(1), last)
    asked = given(monkeypatch, begins, ends, over, missed, old, beyond)
    openings = with_windows(lawn()).openings
    assert openings.windows == (ends, begins), "in order of time"
    assert openings.missed == (over, missed)
    assert set(asked) == {range(2026, 2029)}
    assert JUST_MISSED_DAYS == 150


def test_work_on_open_ground_is_no_news_where_turf_lives(monkeypatch: pytest.MonkeyPatch) -> None:
    """Neither its windows nor why it has none; what never opens here is known in any case."""
    fill, kill = span("fill", BEGIN, BEGIN), span("kill_stand", BEGIN, BEGIN)
    seed = span("seed", BEGIN, BEGIN)
    cold, dry, wet = (as_written(word) for word in ("cold", "dry", "wet"))
    closed = (
        never("fill", cold),
        never("dethatch", dry),
        never("dethatch", dry),
        never("seed", wet),
    )
    given(monkeypatch, fill, kill, seed, closed=closed)
    openings = with_windows(lawn()).openings
    assert openings.windows == (seed,)
    why_not = (phrases.closed(operation="dethatch", reason=dry),)
    assert openings.closed == (*why_not, phrases.closed(operation="seed", reason=wet))
    assert openings.never == (("dethatch", dry), ("dethatch", dry))
    on_bare = with_windows(bare(lawn())).openings
    assert {w.operation for w in on_bare.windows} == {"fill", "kill_stand", "seed"}
    assert on_bare.closed[0] == phrases.closed(operation="fill", reason=cold)


def test_what_is_killed_has_the_windows_of_the_grass_that_is_there() -> None:
    """All else those of the grass to come; of one grass there is nothing to choose."""
    new = WindowsOfYear((span("kill_stand", BEGIN, BEGIN), span("seed", BEGIN, BEGIN)), ())
    later = BEGIN + timedelta(9)
    old = WindowsOfYear((span("kill_stand", later, later), span("seed", later, later)), ())
    setting = lawn()
    assert _of_both_grasses(setting, new, old) is new
    zoysia = replace(setting.turf, species=setting.book.species["zoysia"])
    both = _of_both_grasses(replace(setting, turf=zoysia), new, old)
    assert both.windows == (new.windows[1], old.windows[0])


def test_a_measured_soil_moves_the_windows_within_half_a_year(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """By their best day; those that stay where they were say nothing of it."""
    day = date(2027, 4, 10)
    excess = Excess(day, 2.0, 20.0)
    setting = lawn(climate=replace(SETTING.climate, excess=excess))

    def window(days: int, rule: str, end: int = 0) -> OpenDays:
        best = day + timedelta(days)
        return days_of("topdress", best, best + timedelta(5 + end), rule=rule)

    usual = [window(-183, "far"), window(-182, "a"), window(182, "b"), window(183, "later")]
    moved = [
        window(-183, "far", 1),
        window(-182, "a"),
        window(182, "b", 1),
        window(183, "later", 1),
    ]
    given(monkeypatch, *moved)
    found = _as_measured(setting, usual, range(2027, 2028), POLICY)
    assert found[:2] == [usual[0], usual[3]] and found[2] == usual[1]
    degrees = Quantity(2.0, "temperature_difference")
    said = phrases.soil_warmer(degrees=degrees, day=Day(day))
    assert found[3].reason == sentences(moved[2].reason, said)
    assert found[3].facts == (MEASURED,) and found[3].end == moved[2].end and len(found) == 4
    assert _as_measured(lawn(), usual, range(2027, 2028), POLICY) == usual
    for changed in ("start", "end", "rule"):
        other = replace(usual[2], **{changed: "c" if changed == "rule" else day})
        given(monkeypatch, other)
        assert _as_measured(setting, usual, range(2027, 2028), POLICY)[-1].facts == (MEASURED,)


def test_soil_is_told_as_warmer_or_colder() -> None:
    """By how much it was, without a sign."""

    def said(degrees: float) -> Message:
        return _measured(Excess(BEGIN, degrees, 20.0))

    two = Quantity(2.0, "temperature_difference")
    assert said(2.0) == phrases.soil_warmer(degrees=two, day=Day(BEGIN))
    assert said(-2.0) == phrases.soil_colder(degrees=two, day=Day(BEGIN))
    half = Quantity(0.5, "temperature_difference")
    assert said(0.5) == phrases.soil_warmer(degrees=half, day=Day(BEGIN))


def test_the_last_measurement_up_to_today_counts() -> None:
    """Beside the usual soil of its day, whatever was known before; one of tomorrow does not."""
    setting = SETTING
    climate, book = setting.climate, setting.book
    days = [BEGIN + timedelta(n) for n in (-9, 0, 1)]
    soil = [(days[1], 11.0), (days[0], 7.0), (days[2], 30.0)]
    found = measured_climate(climate, book, soil, BEGIN)
    assert found.excess is not None and found.excess.day == BEGIN
    assert found.excess.measured_c == pytest.approx(11.0 - climate.soil_c(BEGIN))
    assert found.excess.memory_days == 20
    again = measured_climate(found, book, soil, BEGIN)
    assert again.excess == found.excess, "what was measured before is no part of the usual"
    assert measured_climate(climate, book, soil[2:], BEGIN) is climate
    assert measured_climate(climate, book, (), BEGIN) is climate


def test_operations_that_measured_soil_has_moved_are_told() -> None:
    """With what it was; none without a measurement."""
    excess = Excess(BEGIN, -1.0, 20.0)
    here = days_of("topdress", BEGIN, BEGIN, facts=(MEASURED,))
    usual = days_of("overseed", BEGIN, BEGIN)
    setting = lawn(climate=replace(SETTING.climate, excess=excess))
    setting = replace(setting, openings=replace(setting.openings, windows=(here, usual)))
    assert moved_by_soil(setting) == {"topdress": _measured(excess)}
    assert moved_by_soil(replace(setting, climate=SETTING.climate)) == {}


def test_what_is_sown_lives_on_rain_where_nobody_waters() -> None:
    """For the days of its slowest grass; where nobody said, it is watered."""
    dry = watered(lawn(), False)
    assert rain_alone(dry) == tender_days(dry.brief, dry.book, "tall_fescue") == (21, 35)
    assert rain_alone(watered(lawn(), None)) is None and rain_alone(watered(lawn(), True)) is None
    unsown = replace(dry, sowing=replace(dry.sowing, operation="dormant_seed"))
    assert rain_alone(unsown) is None


BAN = Verdict(True, (), False, (), ((date(2027, 5, 20), date(2027, 7, 31)),))


def test_bans_close_days_to_sowing_with_water_and_without() -> None:
    """Both ends; with water nothing is too dry."""
    closed = ((date(2027, 5, 20).toordinal(), date(2027, 7, 31).toordinal()),)
    openings = less_dry_days(lawn(), BAN)
    assert (openings.no_sowing, openings.too_dry, openings.dry_turf) == (closed, (), ())
    assert less_dry_days(watered(lawn(), False), BAN).no_sowing == closed


def test_where_nobody_waters_days_of_little_rain_are_too_dry() -> None:
    """And turf grows over nothing on those that leave it no growth; open ground has no turf."""
    share = tuple(0.0 if 180 <= day < 200 else 1.0 for day in range(365))
    setting = watered(lawn(BEGIN, date(2028, 2, 28)), False)
    setting = replace(setting, climate=replace(setting.climate, water_share=share))
    openings = less_dry_days(setting, BAN)
    ((first, last),) = openings.dry_turf
    weeks = round(setting.book.si("water.grows_over_days"))
    assert date.fromordinal(first) == date(2027, 6, 30) - timedelta(weeks)
    assert date.fromordinal(last) == date(2027, 7, 19)
    kept = days_kept_wet(setting.brief, setting.book, setting.climate, "tall_fescue")
    dry = sum(b - a + 1 for a, b in openings.too_dry)
    assert dry == sum(not wet for wet in kept) and 0 < dry < 365
    assert openings.too_dry[0][0] >= setting.first_day
    assert openings.too_dry[-1][1] <= setting.last_day
    assert less_dry_days(bare(setting), BAN).dry_turf == ()
    assert less_dry_days(bare(setting), BAN).too_dry
    waiting = replace(setting, sowing=replace(setting.sowing, operation="dormant_seed"))
    assert less_dry_days(waiting, BAN).too_dry == () and less_dry_days(waiting, BAN).dry_turf
