"""Every example through the planner, against what an agronomist and a calendar expect."""

from datetime import date, datetime, timedelta
from pathlib import Path

import pytest
import recurring_ical_events
from icalendar import Calendar

from golden_text import golden_text
from outside_checks import feed_faults, needs_tools
from planning import (
    NAMES,
    POSSIBLE,
    ROOT,
    amount,
    depth_total,
    example,
    example_brief,
    kind,
)
from printed import season_ics
from turfplan.records.plan import Plan, Task

SOWINGS = ("seed", "overseed", "dormant_seed")
YARD3_PER_1000FT2_AT_HALF_INCH = 1.543  # AGRONOMY: geometry, 1000 ft2 x 1/24 ft / 27


@pytest.mark.parametrize("name", NAMES)
def test_golden(name: str) -> None:
    """The plan reads as it did when it was last read by hand; rewrite with
    `python tests/golden_text.py`.
    """
    expected = (ROOT / "tests" / "golden" / f"{name}.txt").read_text(encoding="utf-8")
    assert golden_text(example(name)) == expected


@pytest.mark.parametrize("name", NAMES)
def test_golden_has_doubts_beside_it(name: str) -> None:
    """Each golden plan was read as an agronomist, and what was doubted is written down."""
    text = (ROOT / "tests" / "golden" / f"{name}.md").read_text(encoding="utf-8")
    assert "Doubts" in text and len(text) > 200


@pytest.mark.parametrize("name", POSSIBLE)
def test_passes_add_up(name: str) -> None:
    """No pass is over half an inch, none under half the others unless it is the last, and together
    they are the depth.
    """
    plan = example(name)
    depths = [amount(t, "depth") for t in kind(plan, "topdress")]
    assert all(depth <= 12.7 + 1e-6 for depth in depths)
    assert all(depth >= max(depths) / 2 - 1e-6 for depth in depths[:-1])
    assert sum(depths) == pytest.approx(plan.lawn.depth_mm, abs=0.01)


@pytest.mark.parametrize("name", POSSIBLE)
def test_order_covers_the_passes(name: str) -> None:
    """What is ordered covers every pass, and never less than geometry."""
    plan, brief = example(name), example_brief(name)
    ordered = sum(line.value for line in plan.order if line.item == "mix")
    spread = sum(amount(t, "volume") for t in kind(plan, "topdress"))
    assert ordered >= spread - 1e-9
    if not brief.leveling.lows and brief.leveling.survey is None:
        half_inches = depth_total(plan) / 12.7
        geometry = (
            YARD3_PER_1000FT2_AT_HALF_INCH
            * 0.764554858
            * plan.lawn.area_m2
            / 92.90304
            * half_inches
        )
        assert ordered >= geometry * 0.999


# Sown all over, with the last of the mix in hollows alone.
IN_HOLLOWS = ("pacific-northwest", "surveyed-metric", "surveyed-us")


@pytest.mark.parametrize("name", POSSIBLE)
def test_no_starter_with_compost(name: str) -> None:
    """Compost under the seed takes the place of a starter, and the plan says why; compost in a few
    hollows does not.
    """
    plan = example(name)
    compost = any(part.item == "compost" for line in plan.order for part in line.parts)
    if name in IN_HOLLOWS:
        assert compost and kind(plan, "starter_feed")
    elif compost:
        assert not kind(plan, "starter_feed")
        assert any(
            "compost" in sentence and "starter" in sentence
            for sentence in map(str, plan.campaign_reason)
        )


def strip_by_strip(plan: Plan, layer: Task, sowing: Task) -> bool:
    """Whether a pass of several days and its seed go side by side, each strip on its own day: low
    cut, cores, mix and seed have the same days, and the seed follows the mix and its dragging.
    """
    ids = {layer.id}
    for _ in range(2):
        ids |= {t.id for t in plan.tasks if ids & set(t.depends_on) and t.start == layer.start}
    jobs = [
        *kind(plan, "core_aerate"),
        *(t for t in kind(plan, "incorporate") if layer.id in t.depends_on),
    ]
    days = {(t.start, t.end) for t in (layer, sowing, *jobs)}
    low_cut = kind(plan, "mow_low")[-1]
    return (
        days == {(low_cut.start, low_cut.end)}
        and layer.start < layer.end
        and len(jobs) == 2
        and sowing.id in ids
        and all("strip" in str(t.cautions) for t in (layer, sowing, *jobs))
    )


@pytest.mark.parametrize("name", POSSIBLE)
def test_order_of_work(name: str) -> None:
    """Marks before tines, low cut before dethatching before coring before the first pass, passes
    before the seed, or strip by strip with it.
    """
    plan = example(name)
    for number, core in enumerate(kind(plan, "core_aerate"), 1):
        marks = [t for t in kind(plan, "locate_utilities") if t.end < core.start]
        assert marks, number
        assert [t for t in kind(plan, "mow_low") if t.start <= core.start]
        assert [t for t in kind(plan, "topdress") if t.start >= core.start] or not kind(
            plan, "topdress"
        )
    for thatch in kind(plan, "dethatch"):
        assert [t for t in kind(plan, "mow_low") if t.start <= thatch.start]
        assert all(thatch.start <= core.start for core in kind(plan, "core_aerate"))
    sowing = [t for t in plan.tasks if t.operation in SOWINGS]
    for task in sowing:
        for layer in kind(plan, "topdress"):
            assert layer.end <= task.start or strip_by_strip(plan, layer, task), layer.id
        assert all(cut.start > task.end + timedelta(days=4) for cut in kind(plan, "first_mow"))


@pytest.mark.parametrize("name", POSSIBLE)
def test_work_only_on_allowed_days(name: str) -> None:
    """Every job lies on a day of work, deliveries on a day of delivery or of business, what an
    office is asked on one of business, none while unavailable.
    """
    plan, brief = example(name), example_brief(name)
    names = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
    for task in plan.tasks:
        if task.series is not None:
            continue
        days: tuple[str, ...] = brief.calendar.weekdays or ("sat", "sun")
        if task.operation == "delivery":
            business = tuple({*names[:5], *days} - {"sun"})
            days = brief.delivery.allowed_weekdays or business
        if task.operation in ("locate_utilities", "permit"):
            days = names[:5]
        assert names[task.start.weekday()] in days, task.id
        assert not any(s.start <= task.start <= s.end for s in brief.calendar.unavailable), task.id


@pytest.mark.parametrize("name", POSSIBLE)
def test_every_task_explains_itself(name: str) -> None:
    """Why at all, why not earlier, why not later, and why this much, for every task."""
    for task in example(name).tasks:
        assert task.why and task.not_earlier and task.not_later, task.id
        for sentence in (*task.not_earlier, *task.not_later, task.why):
            assert str(sentence).strip()[-1] in ".)”!?", (task.id, sentence)
        assert all(a.reason for a in task.amounts), task.id


@pytest.mark.parametrize("name", POSSIBLE)
def test_feed_equals_the_plan(name: str) -> None:
    """Each event, repeated ones too, lies in the feed on the days that plan.json says; the
    waterings of a day in one."""
    plan = example(name)
    calendar = Calendar.from_ical(season_ics(plan))
    span = (plan.horizon.start, plan.horizon.end + timedelta(days=2))
    found: dict[str, set[date]] = {}
    for event in recurring_ical_events.of(calendar).between(*span):
        start = event["DTSTART"].dt
        found.setdefault(str(event["UID"]), set()).add(
            start.date() if isinstance(start, datetime) else start
        )
    by_day = [entry for entry in plan.calendar_entries if entry.kind == "watering"]
    runs = {task.id: set(_days(plan, task.id)) for task in plan.tasks if task.series is not None}
    for task in plan.tasks:
        if task.series is None:
            assert found[task.uid] == set(task.worked_on or (task.start,)), task.id
        else:
            told = (found[entry.uid] for entry in by_day if task.id in entry.tasks)
            assert runs[task.id] <= set().union(*told), task.id
    for entry in by_day:
        assert found[entry.uid] <= set().union(*(runs[name] for name in entry.tasks)), entry.id


def _days(plan: Plan, task_id: str) -> list[date]:
    task = plan.task(task_id)
    assert task is not None and task.series is not None
    series, names = task.series, ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
    days = [series.start + timedelta(days=k) for k in range((series.end - series.start).days + 1)]
    return [
        d
        for d in days
        if (not series.weekdays or names[d.weekday()] in series.weekdays) and d not in series.skip
    ]


@needs_tools
@pytest.mark.parametrize("name", POSSIBLE)
def test_outside_feed_checker(name: str, tmp_path: Path) -> None:
    """The independent checker finds nothing in the feed."""
    path = tmp_path / f"{name}.ics"
    path.write_bytes(season_ics(example(name)))
    assert feed_faults(path) == []


def test_late_start_offers_ways_out() -> None:
    """A start that is too late is told as a conflict with ways out that were planned through."""
    plan = example("late-start")
    assert plan.conflict is not None and plan.tasks == ()
    assert plan.options and all("Checked" in str(option.reason) for option in plan.options)


def test_two_inches_are_never_promised_in_one_year() -> None:
    """Two inches of fill are spread over two years, in spring and autumn."""
    plan = example("deep-two-inches")
    years = {t.start.year for t in kind(plan, "topdress")}
    assert len(years) == 2
    for year in years:
        assert (
            sum(amount(t, "depth") for t in kind(plan, "topdress") if t.start.year == year)
            <= 38.1 + 1e-6
        )


def test_southern_summer() -> None:
    """South of the equator the work on warm-season grass lies between October and March."""
    plan = example("southern-hemisphere")
    assert all(
        t.start.month in (10, 11, 12, 1, 2, 3) for t in kind(plan, "topdress") + kind(plan, "seed")
    )


def test_metric_reads_metric() -> None:
    """A metric brief prints millimetres and kilograms, and no inches in its titles."""
    plan = example("british-metric")
    words = " ".join(str(t.title) for t in plan.tasks)
    assert " mm" in words and " in," not in words and "yd" not in words
