"""A slope as rules reckon with it."""

from dataclasses import replace
from typing import Any

import pytest

from planning import brief_of
from resolved_lawns import setting_of
from test_work_campaigns import plain
from turfplan.message import Number, as_written
from turfplan.phrases import slopes as phrases
from turfplan.work.drafts import Draft
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.slopes import on_a_bank, slope_share, too_steep, without_machines


@pytest.mark.full
@pytest.mark.parametrize(("percent", "share"), [(None, 0.0), (0, 0.0), (10, 0.1), (25, 0.25)])
def test_ten_percent_is_a_tenth(percent: float | None, share: float) -> None:
    """And none where nobody said."""
    assert slope_share(setting_of(brief_of({"site": {"slope_percent": percent}}))) == share


def on(percent: float, by: str | None = None) -> ResolvedLawn:
    """The plain lawn on a slope, worked by its household or another."""
    setting = plain()
    site = setting.brief.site.model_copy(update={"slope_percent": percent})
    work = setting.brief.work.model_copy(update={"by": by})
    brief = setting.brief.model_copy(update={"site": site, "work": work})
    return replace(setting, brief=brief)


def percent(fact: Any) -> float:
    """A limit of the book in percent."""
    return round(plain().book.si(fact) * 100, 6)


def test_a_bank_begins_above_its_limit() -> None:
    """At it water still soaks in."""
    limit = percent("site.slope_steep")
    assert [on_a_bank(on(p)) for p in (limit, limit + 0.1)] == [False, True]


def test_no_lawn_is_planned_where_none_can_be_mown() -> None:
    """Above what a mower bears a contractor may; above what any lawn bears nobody."""
    mower, most = percent("site.slope_mower"), percent("site.slope_lawn")
    assert too_steep(on(mower)) is None and mower < most
    share = Number((mower + 1) / 100, "percent")
    limit = Number(mower / 100, "percent")
    assert too_steep(on(mower + 1)) == phrases.no_mower(slope=share, most=limit)
    assert too_steep(on(mower + 1, "contractor")) is None
    assert too_steep(on(most, "contractor")) is None
    share, limit = Number((most + 1) / 100, "percent"), Number(most / 100, "percent")
    for by in (None, "contractor"):
        assert too_steep(on(most + 1, by)) == phrases.no_lawn(slope=share, most=limit)


def task(operation: Any, key: str = "", **more: Any) -> Draft:
    """A task."""
    return Draft(operation + key, operation, "surface", as_written(""), 1, **more)


def test_a_household_uses_no_heavy_machine_on_a_slope() -> None:
    """Nor asks for marks for it alone; other work and other marks stay."""
    limit = percent("site.slope_aerator")
    drafts = [
        task("core_aerate"),
        task("dethatch"),
        task("roll"),
        task("topdress"),
        task("locate_utilities", ".a", anchor="core_aerate"),
        task("locate_utilities", ".b", anchor="topdress"),
        task("mow", anchor="core_aerate"),
    ]
    told = phrases.no_heavy_machines(
        slope=Number((limit + 1) / 100, "percent"), most=Number(limit / 100, "percent")
    )
    left, said = without_machines(on(limit + 1), drafts)
    assert [d.id for d in left] == ["topdress", "locate_utilities.b", "mow"] and said == (told,)
    assert without_machines(on(limit), drafts) == (drafts, ())
    assert without_machines(on(limit + 1, "contractor"), drafts) == (drafts, ())
    assert without_machines(on(limit + 1), drafts[3:]) == (drafts[3:], ())
