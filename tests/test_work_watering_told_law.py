"""Weeks with too few days open to watering are one line for each thing that is said of them."""

from datetime import date, timedelta

from told import told
from turfplan.message import Day
from turfplan.phrases import watering as phrases
from turfplan.work.watering.lawful_days import ClosedDays, Lack
from turfplan.work.watering.shortfall import Shortfall
from turfplan.work.watering.stages import Stage
from turfplan.work.watering.told_law import ShortWeek, merged_waits, told_closed, told_short

FIRST = date(2027, 6, 7)
GRASS, SEED = (Stage(name, FIRST, FIRST + timedelta(90)) for name in ("recover", "germination"))


def closed(stage: Stage, week: int, days: int = 7, lack: Lack = "law") -> ClosedDays:
    """So many days from the beginning of a week on, all closed."""
    start = FIRST + timedelta(7 * week)
    return ClosedDays(stage, start, start + timedelta(days - 1), lack, days, days)


def test_weeks_of_a_stage_are_one_line() -> None:
    """Those that follow one another as one span, others beside it."""
    (line,) = told_closed([closed(GRASS, 0), closed(GRASS, 1), closed(GRASS, 4)])
    assert told(line).endswith("from Jun 7 to Jun 20 and Jul 5 to Jul 11.")


def test_a_stub_of_a_week_is_no_news() -> None:
    """Where it stands alone; at the end of a closed week it is the week's. That nobody is there is
    told from three days on."""
    assert told_closed([closed(GRASS, 3, days=n) for n in (2, 6)]) == []
    assert told_closed([closed(GRASS, 3, days=2, lack="away")]) == []
    assert len(told_closed([closed(GRASS, 3, days=3, lack="away")])) == 1
    (line,) = told_closed([closed(GRASS, 0), closed(GRASS, 1, days=2), closed(GRASS, 5, days=1)])
    assert "from Jun 7 to Jun 15." in told(line) and "Jul" not in told(line)


def test_seed_hears_of_every_closed_day() -> None:
    """What must not dry out is told how many days are closed in all, however few."""
    found = [closed(SEED, 0, 2, "some"), closed(SEED, 1, 3, "some")]
    (line,) = told_closed(found)
    assert "5 of 5 days" in told(line)


def test_absence_and_law_are_two_lines() -> None:
    """Each of what it is."""
    lines = told_closed([closed(GRASS, 0), closed(GRASS, 2, lack="away"), closed(GRASS, 3)])
    assert [line.key for line in lines] == ["watering.week.all_closed", "watering.week.all_away"]


def test_short_weeks_are_one_line_with_the_worst() -> None:
    """The figures of the week that gets the least of its need; none of what waters work in."""
    weeks = [
        Shortfall(FIRST + timedelta(7 * n), FIRST + timedelta(7 * n + 6), given, 20.0, by_law=True)
        for n, given in enumerate((9.0, 4.0, 8.0))
    ]
    (line,) = told_short([ShortWeek(GRASS, week) for week in weeks])
    assert "from Jun 7 to Jun 27" in told(line) and "0.15 in of the 0.8 in" in told(line)
    of_hours = weeks[0]._replace(by_law=False)
    lines = told_short([ShortWeek(GRASS, weeks[0]), ShortWeek(GRASS, of_hours)])
    assert [line.key for line in lines] == ["watering.week.short", "watering.week.short_of_hours"]
    settle = Stage("settle", FIRST, FIRST)
    assert told_short([ShortWeek(settle, weeks[0])]) == []


def test_days_of_work_whose_water_waits_are_one_line() -> None:
    """Of each stage by itself; one day alone stays as it is, and other cautions where they were."""
    days = [Day(FIRST + timedelta(n), year=False) for n in (5, 6, 8)]
    other = phrases.week_no_run_fits_home(stage=SEED.title)
    found = merged_waits(
        [
            phrases.week_waits(stage=GRASS.title, day=days[0], next=days[2]),
            other,
            phrases.week_waits(stage=GRASS.title, day=days[1], next=days[2]),
            phrases.week_left_out(stage=SEED.title, day=days[0]),
        ]
    )
    assert [line.key.rsplit(".", 1)[1] for line in found] == [
        "waits_days",
        "no_run_fits_home",
        "left_out",
    ]
    assert told(found[0]).endswith(
        "it waits from Sat, Jun 12 until Tue, Jun 15; Sun, Jun 13 until Tue, Jun 15."
    )
    both = merged_waits([phrases.week_left_out(stage=SEED.title, day=day) for day in days])
    assert told(both[0]).endswith("on Sat, Jun 12; Sun, Jun 13; Tue, Jun 15; it is left out.")


def test_weeks_of_another_year_are_told_with_it() -> None:
    """Spans of two seasons are told apart."""
    far = closed(GRASS, 52)
    (line,) = told_closed([closed(GRASS, 0), far])
    assert told(line).endswith("from Jun 7 to Jun 13 and Jun 5 to Jun 11, 2028.")
