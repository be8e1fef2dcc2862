"""Thatch that is a sponge: nothing is levelled or sown on it, and each way out is planned
through.
"""

from dataclasses import replace
from datetime import UTC, date, datetime
from typing import Any

import pytest

from planning import TODAY, amount, brief_of, first, kind, plan_of
from resolved_lawns import setting_of
from turfplan.files.reading.book import load_book
from turfplan.records.journal import JournalEntry
from turfplan.records.plan import Plan
from turfplan.work.phases.open_turf import too_thick
from turfplan.work.thatch import dethatches, season_ahead, stripped_mm

BOOK = load_book()


def thick(**changes: dict[str, Any]) -> Plan:
    """The plan of the plain brief over an inch of thatch."""
    return plan_of({"lawn": {"thatch": "1 in"}}, changes)


@pytest.mark.full
@pytest.mark.parametrize(
    "changes", [{}, {"leveling": {"depth": "0 in"}}, {"seeding": {"intent": "none"}}]
)
def test_nothing_is_spread_or_sown_on_a_sponge(changes: dict[str, Any]) -> None:
    """From 3/4 in on (Kansas) there is no plan, the reason names the thatch and its source, and
    there are ways out.
    """
    plan = thick(**changes)
    assert plan.conflict is not None and not plan.tasks
    assert "Thatch of 1 in is a sponge" in str(plan.conflict.reasons[0]) and "Kansas" in str(
        plan.conflict.reasons[0]
    )
    ways = {str(option.change): option for option in plan.options}
    assert any('intent = "renovate"' in change for change in ways)
    assert any('from = 2028-03-01, thatch = "0.5 in"' in change for change in ways)


@pytest.mark.full
def test_the_way_out_by_a_year_of_dethatching_starts_a_year_later() -> None:
    """Level next year on half an inch: the first pass lies in 2028."""
    way = next(
        str(option.reason)
        for option in thick().options
        if "thatch" in str(option.change) and "from" in str(option.change)
    )
    assert "2028" in way and "2027" not in way


@pytest.mark.full
def test_metric_readers_get_metric_ways() -> None:
    """In Britain, where a centimetre of thatch is the mark, the change to the brief is written in
    millimetres.
    """
    leeds = {"postal_code": None, "country": "GB", "latitude": 53.8, "longitude": -1.5}
    plan = thick(place=leeds, lawn={"grass": "perennial_ryegrass", "thatch": "25 mm"})
    assert any('thatch = "10 mm"' in str(option.change) for option in plan.options)


@pytest.mark.full
def test_thatch_just_below_is_combed_out_and_levelled() -> None:
    """0.7 in is dethatched under the first pass; 0.75 in is not."""
    below = plan_of({"lawn": {"thatch": "0.7 in"}})
    assert below.conflict is None and kind(below, "dethatch")
    assert plan_of({"lawn": {"thatch": "0.75 in"}}).conflict is not None


@pytest.mark.full
@pytest.mark.parametrize("code", ["99201", "53703", "17601"])
@pytest.mark.parametrize("grass", ["kentucky_bluegrass", "perennial_ryegrass"])
def test_thatch_a_little_thick_under_a_thin_fill_takes_one_season(code: str, grass: str) -> None:
    """Dethatched on short turf, rested, cut again and levelled: all in one autumn."""
    lawn = {"lawn": {"grass": grass, "thatch": "0.7 in"}, "place": {"postal_code": code}}
    plan = plan_of(lawn, {"leveling": {"depth": "0.25 in"}})
    (passed,), (blades,) = kind(plan, "topdress"), kind(plan, "dethatch")
    cuts = [cut.start for cut in kind(plan, "mow_low")]
    assert passed.start.month in (8, 9) and blades.start.year == passed.start.year
    assert 10 <= (passed.start - blades.end).days <= 28
    assert cuts[0] <= blades.start < cuts[-1] <= passed.start
    assert (passed.end - cuts[-1]).days <= 7


@pytest.mark.full
def test_turf_that_goes_need_not_bear_it() -> None:
    """A lawn sown anew is stripped, with its hours, and the fill replaces what was stripped; plugs
    set through the thatch are planted with a caution.
    """
    anew, thin = (
        plan_of({"lawn": {"thatch": thatch}, "seeding": {"intent": "renovate"}})
        for thatch in ("1 in", "0.2 in")
    )
    strip, rake = (kind(plan, "clear_stand")[0] for plan in (anew, thin))
    assert anew.conflict is None and "Strip the old turf" in str(strip.title)
    assert "Strip" not in str(rake.title) and strip.person_hours > 3 * rake.person_hours
    depths = [amount(kind(plan, "fill")[0], "depth") for plan in (anew, thin)]
    assert depths[0] - depths[1] == pytest.approx(25.4)
    plugs = plan_of(
        {
            "lawn": {"grass": "st_augustine", "thatch": "1 in"},
            "place": {"postal_code": "32607"},
            "leveling": {"depth": "0 in"},
            "seeding": {"intent": "plant"},
        }
    )
    assert plugs.conflict is None and any("too thick to build on" in str(c) for c in plugs.cautions)


@pytest.mark.full
def test_grass_that_bears_no_blades_is_offered_stripping_alone() -> None:
    """St. Augustinegrass is never power-raked: the only way out is new turf."""
    plan = plan_of(
        {
            "lawn": {"grass": "st_augustine", "thatch": "1 in"},
            "place": {"postal_code": "32607"},
            "seeding": {"intent": "plant"},
        }
    )
    assert plan.conflict is not None
    assert plan.options and not any("Dethatch" in str(option.title) for option in plan.options)


CREEPERS = [
    ("bermuda_common", "30606", "0.8 in"),
    ("bermuda_hybrid", "85004", "1 in"),
    ("zoysia", "29201", "19 mm"),
    ("bermuda_hybrid", "30606", "20 mm"),
]


@pytest.mark.full
@pytest.mark.parametrize(("grass", "place", "thatch"), CREEPERS)
def test_creepers_are_dethatched_and_leveled_in_one_summer(
    grass: str, place: str, thatch: str
) -> None:
    """Four to eight weeks lie between, the marks are asked for before the blades and before the
    tines, and experts are said to disagree.
    """
    plan = plan_of(
        {"lawn": {"grass": grass, "thatch": thatch}, "place": {"postal_code": place}},
        {"seeding": {"intent": "none"}, "leveling": {"depth": "0.25 in"}},
        options=False,
    )
    assert plan.conflict is None
    blades, first_pass = kind(plan, "dethatch")[0], kind(plan, "topdress")[0]
    assert 28 <= (first_pass.start - blades.end).days <= 56
    marks = plan.task("locate_utilities.blades")
    assert marks is not None and marks.end < blades.start
    assert any("disagree on thatch" in str(line) for line in plan.disagreements)


@pytest.mark.full
def test_beyond_two_inches_a_creeper_is_a_sponge_too() -> None:
    """The way out names the days of its own season, not autumn."""
    plan = plan_of(
        {"lawn": {"grass": "bermuda_common", "thatch": "2.2 in"}},
        {"place": {"postal_code": "30606"}, "seeding": {"intent": "none"}},
    )
    assert plan.conflict is not None
    way = next(str(o.title) for o in plan.options if "Dethatch" in str(o.title))
    assert "autumn" not in way and "May" in way and "Aug" in way


@pytest.mark.full
def test_the_way_out_of_cool_grass_has_its_seasons_from_the_windows() -> None:
    """Spring and autumn of this place, by their days."""
    way = next(str(o.title) for o in thick().options if "Dethatch" in str(o.title))
    assert "2027" in way and " and " in way


KASSEL: dict[str, Any] = {
    "lawn": {"grass": "kentucky_bluegrass", "area": "380 m2"},
    "place": {"postal_code": None, "latitude": 51.31, "longitude": 9.48, "country": "DE"},
    "leveling": {"depth": "8 mm"},
    "season": None,
}


@pytest.mark.full
@pytest.mark.parametrize("thatch_mm", [12, 13, 15, 18])
def test_no_millimetre_of_thatch_turns_a_plan_into_none(thatch_mm: int) -> None:
    """Half an inch and a little more is taken down in the season of the fill; the turf rests before
    the first pass, and a low cut comes before the blades."""
    plan = plan_of(KASSEL, {"lawn": {"thatch": f"{thatch_mm} mm"}})
    assert plan.conflict is None and kind(plan, "overseed")[0].start.year == 2027
    combed = kind(plan, "dethatch")
    assert bool(combed) == (thatch_mm > 12)
    for task in combed:
        assert (kind(plan, "topdress")[0].start - task.start).days >= 10
        assert 0 <= (task.start - kind(plan, "mow_low")[0].start).days <= 14


@pytest.mark.full
def test_thatch_without_room_beside_the_fill_is_taken_down_a_season_ahead() -> None:
    """An autumn of which only the end is free takes the pass alone: blades, their low cut and
    their marks lie in spring."""
    away = {"unavailable": [{"from": date(2027, 8, 1), "to": date(2027, 9, 10)}]}
    asked = {"season": {"campaign": "autumn"}, "calendar": away}
    plan = plan_of(KASSEL, {"lawn": {"thatch": "15 mm"}}, asked)
    (blades,), (passed, *_) = kind(plan, "dethatch"), kind(plan, "topdress")
    cut, marks = plan.task("mow_low.ahead"), plan.task("locate_utilities.blades")
    assert blades.id == "dethatch.ahead" and blades.start < date(2027, 6, 30)
    assert passed.start > date(2027, 9, 10) and passed.start.year == 2027
    assert cut is not None and 0 <= (blades.start - cut.start).days <= 14
    assert marks is not None and 0 < (blades.start - marks.end).days <= 30


def test_what_was_taken_down_ahead_is_not_taken_down_again() -> None:
    """The blades went over in spring and rain took the autumn: next year's fill finds the thatch
    down."""
    away = {"unavailable": [{"from": date(2027, 8, 1), "to": date(2027, 9, 10)}]}
    asked = (KASSEL, {"lawn": {"thatch": "15 mm"}}, {"season": {"from": date(2027, 3, 1)}})
    before = plan_of(*asked, {"calendar": away}, options=False)
    blades = first(before, "dethatch")
    journal = tuple(
        JournalEntry(number=number, at=TODAY, kind="done", task=task.id, on=task.end)
        for number, task in enumerate(before.tasks, 1)
        if task.series is None and task.end <= blades.end
    )
    autumn = datetime(2027, 11, 20, 12, tzinfo=UTC)
    so_far: dict[str, Any] = {"journal": journal, "previous": before, "assume_not_done": True}
    after = plan_of(*asked, {"calendar": away}, now=autumn, options=False, **so_far)
    assert blades.id == "dethatch.ahead" and after.conflict is None
    assert first(after, "topdress").start.year == 2028
    assert [t.id for t in kind(after, "dethatch") if t.start.year == 2028] == []
    assert not any("no job" in str(note.text) for note in after.ranked)


INVERNESS: dict[str, Any] = {
    "lawn": {
        "area": "420 m2",
        "grass": [
            {"species": "fine_fescue", "share": 0.6},
            {"species": "perennial_ryegrass", "share": 0.4},
        ],
        "soil": "sandy loam",
        "thatch": "15 mm",
    },
    "place": {"postal_code": None, "country": "GB", "latitude": 57.45, "longitude": -4.2},
    "leveling": {"depth": "8 mm"},
    "water": {"application_rate": None, "possible": False},
    "calendar": {"weekdays": ["sat"]},
    "work": None,
}


@pytest.mark.parametrize("day", [date(2027, 6, 25), date(2027, 7, 10), date(2027, 8, 20)])
def test_a_season_ahead_lies_before_the_work(day: date) -> None:
    """Once spring is over no season is left ahead of autumn: blades come before tines and seed, or
    the work takes another season."""
    now = datetime(day.year, day.month, day.day, 12, tzinfo=UTC)
    plan = plan_of(INVERNESS, now=now, options=False)
    assert plan.conflict is None
    for blades in kind(plan, "dethatch"):
        later = [t for t in plan.tasks if t.plays("coring", "spreading", "sowing")]
        assert later and all(blades.end <= task.start for task in later)


@pytest.mark.parametrize(
    ("begins", "ends"), [(date(2027, 6, 12), None), (date(2027, 3, 1), date(2027, 6, 14))]
)
def test_days_ahead_end_a_rest_before_the_work(begins: date, ends: date | None) -> None:
    """Of a season that runs into the work only what leaves the rest is taken; none is left after
    it began."""
    setting = replace(setting_of(brief_of(INVERNESS)), first_day=begins.toordinal())
    (work,) = [w for w in setting.open("dethatch") if w.start < date(2027, 6, 1)]
    found = season_ahead(setting, replace(work, start=date(2027, 6, 20)))
    if ends is None:
        assert found is None
    else:
        assert found is not None and found.end == date(2027, 6, 10) and found.best <= found.end


SACRAMENTO: dict[str, Any] = {
    "lawn": {"grass": "bermuda_hybrid", "area": "2500 ft2", "thatch": "0.8 in"},
    "place": {"postal_code": "95819"},
    "leveling": {"depth": None, "lows": [{"depth": "1.5 in", "share": 0.2}]},
    "seeding": {"intent": "none"},
    "season": None,
}


@pytest.mark.full
def test_thatch_that_no_job_takes_down_is_told_first() -> None:
    """Hollows alone are lifted: the thatch of the lawn is told, with the season to comb it out."""
    plan = plan_of(SACRAMENTO, {"lawn": {"condition": "dense"}}, options=False)
    assert kind(plan, "lift_and_fill") and not kind(plan, "dethatch")
    told = [str(note.text) for note in plan.ranked if note.told_first]
    assert any("Thatch of" in text and "2027" in text for text in told)
    thin = plan_of(SACRAMENTO, {"lawn": {"thatch": "0.4 in"}}, options=False)
    assert not any("Thatch of" in str(note.text) for note in thin.ranked if note.told_first)


@pytest.mark.parametrize(
    ("thatch", "combed"),
    [("0.4 in", False), ("0.5 in", False), ("0.51 in", True), ("0.7 in", True), ("0.75 in", False)],
)
def test_thatch_is_combed_out_above_half_an_inch(thatch: str, *, combed: bool) -> None:
    """Half an inch is no more than grass bears; from three quarters on it is stripped."""
    assert dethatches(setting_of(brief_of({"lawn": {"thatch": thatch}}))) is combed


def test_the_grass_that_bears_least_thatch_decides_for_a_stand() -> None:
    """Not the one that is named first; one that does not count decides nothing."""
    least = BOOK.si("setting.counted_share")

    def stripped(*shares: tuple[str, float]) -> float:
        grass = [{"species": name, "share": share} for name, share in shares]
        brief = brief_of(
            {"lawn": {"grass": grass, "thatch": "20 mm"}, "seeding": {"intent": "renovate"}}
        )
        return stripped_mm(brief, BOOK)

    cool, warm = "tall_fescue", "bermuda_common"
    assert stripped((cool, 0.5), (warm, 0.5)) == stripped((warm, 0.5), (cool, 0.5)) == 20
    assert stripped((warm, 1 - least), (cool, least)) == 20
    assert stripped((warm, 1 - least + 0.01), (cool, least - 0.01)) == 0


def test_only_what_is_built_on_has_to_be_combed() -> None:
    """Nothing is, where nothing is spread or sown, nor grass that blades would kill."""
    half = {"lawn": {"thatch": "0.6 in"}, "leveling": {"depth": "0 in"}}
    assert dethatches(setting_of(brief_of(half)))
    assert not dethatches(setting_of(brief_of(half, {"seeding": {"intent": "dormant"}})))
    south = {"lawn": {"grass": "st_augustine", "thatch": "0.6 in"}}
    unsown = {"place": {"postal_code": "32607"}, "seeding": {"intent": "none"}}
    assert not dethatches(setting_of(brief_of(south, unsown)))


@pytest.mark.parametrize(
    ("depth", "intent", "work"),
    [
        ("0.5 in", "overseed", ["levelled", "sown"]),
        ("0.5 in", "none", ["levelled"]),
        ("0 in", "overseed", ["sown"]),
    ],
)
def test_a_sponge_names_the_work_that_it_holds_up(depth: str, intent: str, work: list[str]) -> None:
    """Levelling, sowing, or both, as they are asked for."""
    asked = {"leveling": {"depth": depth}, "seeding": {"intent": intent}}
    why = too_thick(setting_of(brief_of({"lawn": {"thatch": "1 in"}}, asked)))
    assert why is not None
    named = dict(why.values)["work"].items  # type: ignore[union-attr]
    assert [item.key.rpartition(".")[2] for item in named] == work
