"""Weeks are parted into leaves: nothing is left out, and each leaf is as full as a page holds."""

from datetime import timedelta

import pytest

from page_faults import judged
from page_plan import on, page_plan
from planning import POSSIBLE, example
from printed import checklist_html, english, week_sheets
from tiers import sampled
from turfplan.export.sheets.checklist import _printed
from turfplan.export.sheets.leaves import (
    MARGINS_MM,
    SIZE_MM,
    UPRIGHT_MARGINS_MM,
    Leaf,
    height_of,
    leaves,
)
from turfplan.export.sheets.look import Paper, look_of
from turfplan.export.sheets.weeks import protecting
from turfplan.records.plan import Plan


def leaves_of(plan: Plan, *, large: bool = False) -> tuple[Leaf, ...]:
    """The leaves of the whole checklist."""
    words = english(plan)
    weeks = week_sheets(plan)
    return leaves(_printed(plan, weeks, words), look_of(plan, large=large), protecting(plan, words))


@pytest.mark.parametrize("name", sampled(POSSIBLE, "cool-overseed"))
def test_each_job_stands_on_one_leaf_in_the_order_of_the_weeks(name: str) -> None:
    """Whatever is parted: the head of a week, then its days, then the next week."""
    plan = example(name)
    placed = [
        job.anchor
        for leaf in leaves_of(plan)
        for block in leaf.blocks
        if block.kind == "day" and block.day
        for job in block.day.jobs
    ]
    assert placed == [job.anchor for week in week_sheets(plan) for job in week.jobs]


@pytest.mark.parametrize("large", [False, True])
@pytest.mark.parametrize("name", sampled(["cool-overseed", "southern-hemisphere"], "cool-overseed"))
def test_a_leaf_tells_once_what_jobs_share_and_leaves_none_out(name: str, large: bool) -> None:
    """What goes wrong, and what to mind: with each job that its week tells it of, or with one
    before it on the same leaf."""
    plan = example(name)
    for leaf in leaves_of(plan, large=large):
        days = [b.day for b in leaf.blocks if b.kind == "day" and b.day]
        told = [
            (note.kind, note.text)
            for day in days
            for job in day.jobs
            for note in (*day.columns[job.task.id].below, *day.columns[job.task.id].beside)
            if job.is_open and note.kind in ("wrong", "mind")
        ]
        assert len(told) == len(set(told))
        asked = [job for day in days for job in day.jobs if job.is_open]
        minded = {("mind", text) for job in asked for text in job.rules.mind}
        assert set(told) == {("wrong", job.wrong) for job in asked if job.wrong} | minded


# How far heights that are reckoned may lie from those of the printed leaf, mm: short of it, and
# beyond it, where a full leaf adds up what each of its parts is reckoned too high.
SHORT_MM, BEYOND_MM = 5.0, 30.0


@pytest.mark.full
@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize("name", ["cool-overseed", "pacific-northwest"])
def test_heights_are_reckoned_as_they_are_printed(name: str, paper: Paper) -> None:
    """Of each leaf but the first, under whose head and last line stands less: a reckoning that is
    too low lets what protects go over the page, one too high wastes paper."""
    pytest.importorskip("weasyprint", reason="the extra pdf is not installed", exc_type=ImportError)
    plan, words = example(name), english(example(name))
    look, places = look_of(plan, paper), protecting(plan, words)
    made = leaves(_printed(plan, week_sheets(plan), words), look, places)
    # Where there is room lines stand farther apart than is reckoned.
    seen = judged(checklist_html(plan, paper=paper).replace('"leaf airy"', '"leaf"'))
    assert seen.pages == len(made)
    high = SIZE_MM[paper][1] - UPRIGHT_MARGINS_MM
    over = [
        height_of(leaf.blocks, SIZE_MM[paper][0] - MARGINS_MM) - fill * high
        for leaf, fill in zip(made, seen.fills, strict=True)
    ][1:]
    assert min(over) > -SHORT_MM and max(over) < BEYOND_MM


@pytest.mark.parametrize("large", [False, True])
def test_a_leaf_names_what_protects_in_its_own_jobs_by_one_number_all_season(large: bool) -> None:
    """Only what can hurt in the jobs of the leaf, and the same number for it everywhere."""
    plan = example("cool-overseed")
    numbers: dict[str, int] = {}
    for leaf in leaves_of(plan, large=large):
        jobs = [j for b in leaf.blocks if b.kind == "day" and b.day for j in b.day.jobs]
        assert {text for _, text in leaf.protect} == {t for j in jobs for t in j.rules.protect}
        assert [n for n, _ in leaf.protect] == sorted(n for n, _ in leaf.protect)
        for number, text in leaf.protect:
            assert numbers.setdefault(text, number) == number
    assert len(numbers) == len(set(numbers.values())) > 1


def test_a_week_printed_alone_has_all_its_days_and_what_comes_next() -> None:
    """One that is watering alone, and a free one, too."""
    plan = page_plan()
    for day in (on(8, 14), on(8, 22) + timedelta(days=7), on(9, 8)):
        (sheet,) = week_sheets(plan, day)
        assert sheet.alone and len(sheet.strip) == 7
        assert sheet.ahead_title
