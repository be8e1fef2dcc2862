"""Of near-equal days those that real years favour are wished for, and how often each would do."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from types import SimpleNamespace
from typing import Any

from sample_plan import sample_plan, with_task
from test_work_campaigns import days_of, opened, plain
from turfplan.message import Day, as_written, listed
from turfplan.network import Conflict
from turfplan.phrases import real_years as phrases
from turfplan.planning.reliability import MAIN, judged, sturdier, window_of
from turfplan.work.drafts import Draft, SeasonDraft
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.real_years import Spread, Tally

SOWN = date(2027, 9, 10)
SEED = Draft("overseed", "overseed", "seed", as_written(""), 0, ideal=SOWN.toordinal())
SAMPLE = sample_plan()
LABELS = listed((), "comma")


@dataclass
class Record:
    """Real years: for a day the share of 100 years in which it worked."""

    worked: Callable[[date], int]
    asked: Sequence[str] = ()
    ends: Spread | None = None
    labels: Any = LABELS

    def asks(self, operation: str) -> bool:
        """Whether years can tell of an operation."""
        return operation in self.asked

    def tally(self, operation: str, rule: str, first: date, last: date) -> Tally:
        """By the first day alone; a rule counts for one year less, a second day for two."""
        less = (rule != "") + 2 * (last != first)
        return Tally(100, self.worked(first) - less, ())

    def spread(self, rule: str, year: int) -> Spread | None:
        """Its ends."""
        return self.ends if rule == "r" else None


def lawn(record: Any, *windows: Any) -> ResolvedLawn:
    """The plain lawn with a record."""
    setting = opened(*windows)
    return replace(setting, openings=replace(setting.openings, record=record))


def chosen(
    shares: dict[int, int], dropped: Callable[[int], int] = lambda shift: 0, drafts: Any = (SEED,)
) -> int | None:
    """By how many days the seed moves from its day by the years that each shift works in; 50 of a
    hundred at the others. None where the season stays the very same."""
    season = SeasonDraft(tuple(drafts), ())

    def worked(day: date) -> int:
        return shares.get((day - SOWN).days, 50)

    def dating(other: SeasonDraft) -> Any:
        days = {d.id: d.ideal or 0 for d in other.drafts}
        shift = (days["overseed"] or SOWN.toordinal()) - SOWN.toordinal()
        count = dropped(shift)
        if count < 0:
            return Conflict((), ())
        return SimpleNamespace(season=other, dropped=(0,) * count, day=lambda node: days[node])

    found, dated = sturdier(lawn(Record(worked)), season, dating(season), dating)
    if found is season:
        return None
    assert dated.season is found
    ideal = found.drafts[0].ideal
    assert ideal is not None
    return ideal - SOWN.toordinal()


def test_a_day_has_to_work_in_a_tenth_more_of_the_years() -> None:
    """60 of 100 for 50; 59 are not enough."""
    assert chosen({3: 60}) == 3 and chosen({3: 59}) is None
    assert chosen({-4: 60}) == -4


def test_days_are_tried_to_nine_days_away() -> None:
    """On both sides."""
    assert chosen({9: 90}) == 9 and chosen({-9: 90}) == -9
    assert chosen({10: 90}) is None and chosen({-10: 90}) is None


def test_the_better_day_wins_and_of_equal_ones_the_nearer() -> None:
    """The earlier of two as near."""
    assert chosen({2: 60, 5: 61}) == 5 and chosen({2: 61, 5: 60}) == 2
    assert chosen({2: 60, 5: 60}) == 2 and chosen({-5: 70, 5: 70}) == -5


def test_a_day_that_gives_up_more_rules_is_none() -> None:
    """As many are fine; a conflict is no dating."""
    assert chosen({3: 90}, lambda shift: int(shift == 3)) is None
    assert chosen({3: 90}, lambda shift: 1) == 3
    assert chosen({3: 90, 4: 70}, lambda shift: -1 if shift == 3 else 0) == 4


def test_only_the_main_work_moves() -> None:
    """Care keeps its wish, and what has none gets none."""
    care = Draft("first_mow", "first_mow", "care", as_written(""), 5, ideal=700000)
    free = replace(SEED, id="topdress", operation="topdress", ideal=None)
    season = SeasonDraft((SEED, care, free), ())
    seen: list[SeasonDraft] = []

    def dating(other: SeasonDraft) -> Any:
        seen.append(other)
        days = {d.id: d.ideal or SOWN.toordinal() for d in other.drafts}
        return SimpleNamespace(season=other, dropped=(), day=lambda node: days[node])

    sturdier(lawn(Record(lambda day: 50)), season, dating(season), dating)
    shifts = [other.drafts[0].ideal for other in seen[1:]]
    first = SOWN.toordinal()
    assert shifts[:4] == [first - 1, first + 1, first - 2, first + 2] and len(shifts) == 18
    assert all(other.drafts[1].ideal == 700000 for other in seen)
    assert all(other.drafts[2].ideal is None for other in seen)
    assert set(MAIN) == {"coring", "spreading", "sowing", "planting"}


def test_shares_of_all_main_work_are_averaged() -> None:
    """Of two jobs, one of which gains 30 years and the other loses 5: 12.5 in the mean is enough,
    10 of 30 and -12 is not."""
    other = replace(SEED, id="seed", operation="seed", ideal=SOWN.toordinal() + 100)
    assert chosen({3: 80, 103: 45}, drafts=(SEED, other)) == 3
    assert chosen({3: 80, 103: 38}, drafts=(SEED, other)) is None


def test_without_real_years_the_season_stays() -> None:
    """Nothing is dated again."""
    season: Any = SeasonDraft((SEED,), ())
    dated: Any = object()

    def never(other: SeasonDraft) -> Any:
        raise AssertionError(other)

    assert sturdier(lawn(None), season, dated, never) == (season, dated)
    none = SimpleNamespace(season=SeasonDraft((), ()), dropped=(), day=lambda node: 0)
    found, _ = sturdier(lawn(Record(lambda day: 50)), none.season, none, lambda other: none)
    assert found is none.season, "no main work is nothing to better"


def test_a_window_holds_its_first_and_its_last_day() -> None:
    """Of its own operation; of none a day outside."""
    window = days_of("overseed", SOWN, SOWN + timedelta(9))
    setting = lawn(None, window)
    for day, inside in ((0, True), (9, True), (-1, False), (10, False)):
        found = window_of(setting, "overseed", SOWN + timedelta(day))
        assert (found == window) is inside
    assert window_of(setting, "topdress", SOWN) is None


def judgements(record: Record, *windows: Any, **changes: Any) -> dict[str, tuple[int, Any]]:
    """In how many years each task of the sample plan worked, and why; its seed is changed."""
    plan = with_task(SAMPLE, "overseed", **changes) if changes else SAMPLE
    found = judged(lawn(record, *windows), plan.tasks)
    assert all(one.years == 100 for one in found)
    return {one.task: (one.worked, one.reason) for one in found}


def test_open_tasks_are_judged_where_years_can_tell() -> None:
    """By their window's rule or by themselves; done, cancelled and repeated ones are not."""
    record = Record(lambda day: 70, ["overseed", "water"])
    found = judgements(record)
    assert list(found) == ["overseed"] and found["overseed"][0] == 70
    told = phrases.told(years=LABELS, tally=Tally(100, 70, ()).message)
    assert found["overseed"][1] == told
    assert judgements(record, status="CANCELLED") == {}
    assert judgements(record, closed="done") == {}
    assert judgements(Record(lambda day: 70)) == {}
    assert judged(lawn(None), SAMPLE.tasks) == ()


def test_a_window_is_told_with_its_days_in_eight_years_of_ten() -> None:
    """Where it opened at all; its rule is asked."""
    seed = SAMPLE.task("overseed")
    assert seed is not None
    window = days_of("overseed", seed.start, seed.start, rule="r")
    first, last = (date(2027, 8, 20), date(2027, 9, 1)), (date(2027, 9, 20), date(2027, 10, 2))
    ends = Spread(100, 90, first, last)
    told = judgements(Record(lambda day: 70, (), ends), window)
    assert list(told) == ["overseed"] and told["overseed"][0] == 69
    assert told["overseed"][1] == phrases.told_with_window(
        years=LABELS,
        tally=Tally(100, 69, ()).message,
        opened=listed(Day(day) for day in first),
        closed=listed(Day(day) for day in last),
    )
    never = judgements(Record(lambda day: 70, (), Spread(100, 0, None, None)), window)
    assert never["overseed"][1] == phrases.told(years=LABELS, tally=Tally(100, 69, ()).message)
    assert plain().openings.record is None
