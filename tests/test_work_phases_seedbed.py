"""Each sowing has a seedbed of its own, and the second grass of one winter its way in and back."""

from dataclasses import replace
from datetime import date, timedelta
from itertools import pairwise
from typing import Any

import pytest

from planning import plan_of
from test_work_campaigns import days_of, opened, plain
from told import told
from turfplan.message import as_written, cut_height
from turfplan.phrases import seedbed as phrases
from turfplan.records.book_names import of_species
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Task
from turfplan.work.campaigns import Campaign, Session
from turfplan.work.drafts import Draft
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.passes import low_floor
from turfplan.work.phases import seedbed as module
from turfplan.work.phases.seedbed import (
    _end_of_growth,
    _heights,
    _opening,
    seedbed,
    sown_apart,
)

RYE: dict[str, Any] = {
    "lawn": {"grass": "bermuda_common", "condition": "dense"},
    "place": {"postal_code": "85001"},
    "seeding": {"intent": "winter_overseed"},
}
CENTIPEDE = {
    "lawn": {"grass": "centipede", "condition": "dense"},
    "place": {"postal_code": "29201"},
    "seeding": {"intent": "winter_overseed"},
    "leveling": {"depth": "0 in"},
}
DORMANT: dict[str, Any] = {
    "lawn": {"grass": "kentucky_bluegrass"},
    "place": {"postal_code": "55406"},
    "leveling": {"depth": "0 in"},
    "seeding": {"intent": "dormant"},
    "season": {"from": date(2027, 10, 1)},
}


def task(plan: Plan, name: str) -> Task:
    """The task of that id; it must be there."""
    found = plan.task(name)
    assert found is not None, name
    return found


@pytest.mark.full
@pytest.mark.parametrize("depth", ["0 in", "0.5 in"])
def test_ryegrass_has_its_own_low_cut_whether_the_lawn_is_levelled_or_not(depth: str) -> None:
    """The vertical mower goes two ways, then the last low cut, within the week before the seed."""
    plan = plan_of(RYE, {"leveling": {"depth": depth}})
    sown = task(plan, "overseed").start
    cut, blades = task(plan, "mow_low.seedbed"), task(plan, "slit")
    assert blades.start <= cut.start <= sown <= cut.end + timedelta(7)
    assert not [t for t in plan.tasks if t.plays("coring") and sown - t.end < timedelta(60)]
    marks = task(plan, "locate_utilities.seedbed")
    assert timedelta(3) <= blades.start - marks.end <= timedelta(14)


@pytest.mark.full
def test_ryegrass_is_fed_watered_in_winter_and_taken_off_in_warm_nights() -> None:
    """In the low desert it goes from April on, with the feedings of its own winter before."""
    plan = plan_of(RYE, {"leveling": {"depth": "0 in"}})
    sown, back = task(plan, "overseed").start, task(plan, "spring_transition").start
    fed = [t.start for t in plan.tasks if "feeding.rye_rate" in t.facts]
    assert fed[0] >= sown + timedelta(21)
    apart = [(late - early).days for early, late in pairwise(fed)]
    assert len(fed) == 4 and all(24 <= days <= 38 for days in apart), "about once a month"
    assert date(2028, 4, 1) <= back <= date(2028, 5, 31) and fed[-1] < back
    others = [t.start for t in plan.tasks if t.plays("feeding") and t.start not in fed]
    assert not [day for day in others if sown - timedelta(45) < day < back]
    winter = [t for t in plan.tasks if t.series and t.start > date(2027, 11, 28)]
    assert winter, "ryegrass grows on while the grass below it rests"


@pytest.mark.full
def test_ryegrass_leaves_louisiana_at_green_up() -> None:
    """Near the Gulf it is taken off in March to April, not left until the heat."""
    plan = plan_of(RYE, {"place": {"postal_code": "70802"}, "leveling": {"depth": "0 in"}})
    assert date(2028, 2, 20) <= task(plan, "spring_transition").start <= date(2028, 4, 25)


@pytest.mark.full
def test_turf_that_bears_no_blades_is_raked_and_sown_thinly() -> None:
    """Centipedegrass is neither scalped nor cut open, and takes no more than 5 lb."""
    plan = plan_of(CENTIPEDE)
    assert [t.id for t in plan.tasks if t.plays("low_cut")] == ["mow_low.seedbed"]
    assert "rake" in told(task(plan, "slit").title).casefold()
    rate = next(a.value_us for a in task(plan, "overseed").amounts if a.item == "seed rate")
    assert rate <= 5


@pytest.mark.full
def test_dormant_seed_is_cut_for_with_the_last_growth_and_raked_in() -> None:
    """The low cut comes while the grass still grows, the raking right before the seed."""
    plan = plan_of(DORMANT)
    sown = task(plan, "dormant_seed").start
    cut, raking = task(plan, "mow_low.seedbed"), task(plan, "slit")
    assert sown - timedelta(60) < cut.start < sown - timedelta(14)
    assert timedelta(0) <= sown - raking.end <= timedelta(7)


SOWN = date(2027, 11, 20)


def way(operation: str = "overseed", *, sessions: int = 1, sows: bool = False) -> Campaign:
    """A campaign of sessions, and seed in November."""
    made = tuple(Session(n, days_of("topdress", SOWN, SOWN), (), sows) for n in range(sessions))
    return Campaign("autumn", as_written(""), (), made, days_of(operation, SOWN, SOWN), 0.0)


def lawn(**changes: Any) -> ResolvedLawn:
    """The plain lawn with its sowing changed."""
    setting = opened()
    return replace(setting, sowing=replace(setting.sowing, **changes))


def of_grass(grass: str, **changes: Any) -> ResolvedLawn:
    """That lawn with another grass that grows there."""
    setting = lawn(**changes)
    return replace(setting, turf=replace(setting.turf, species=setting.book.species[grass]))


def test_seed_is_sown_apart_where_no_pass_prepares_it() -> None:
    """After passes, for spring, or as a second grass; not with a pass, alone, or on bare ground."""
    setting = lawn()
    assert sown_apart(setting, way()) and not sown_apart(setting, way(sessions=0))
    assert not sown_apart(setting, way(sows=True))
    dormant = lawn(operation="dormant_seed", intent="dormant")
    assert sown_apart(dormant, way("dormant_seed", sessions=0))
    assert sown_apart(lawn(intent="winter_overseed"), way(sessions=0))
    assert not sown_apart(setting, replace(way(), sow_window=None))
    assert not sown_apart(lawn(operation="plant"), way())
    bare = replace(setting, turf=replace(setting.turf, condition="bare"))
    assert not sown_apart(bare, way())
    assert seedbed(setting, way(sessions=0)) == []


def cuts(setting: ResolvedLawn, campaign: Campaign, heights: Any, monkeypatch: Any) -> list[Draft]:
    """The cuts of some heights."""
    monkeypatch.setattr(module, "_heights", lambda setting: heights)
    return [d for d in seedbed(setting, campaign) if d.operation == "mow_low"]


def test_each_cut_comes_some_days_before_the_next(monkeypatch: pytest.MonkeyPatch) -> None:
    """The last the day before the seed; in a session after those of the passes."""
    step = plain().days("mowing.low_cut_step_days")
    found = cuts(lawn(), way(sessions=2), (80.0, 60.0, 40.0), monkeypatch)
    assert [d.id for d in found] == [
        "mow_low.before_seedbed.1",
        "mow_low.before_seedbed.2",
        "mow_low.seedbed",
    ]
    assert [(d.anchor, d.ideal, d.offset) for d in found] == [
        ("sowing", None, -1 - 2 * step),
        ("sowing", None, -1 - step),
        ("sowing", None, -1),
    ]
    assert [(d.session, d.position) for d in found] == [(3, 1), (3, 2), (3, 3)]
    assert [d.words["height"] for d in found] == [cut_height(mm) for mm in (80.0, 60.0, 40.0)]
    (slit,) = (d for d in seedbed(lawn(), way()) if d.operation == "slit")
    assert (slit.anchor, slit.offset, slit.session) == ("sowing", -1, 2)


def test_cuts_for_seed_that_waits_go_with_the_last_growth(monkeypatch: pytest.MonkeyPatch) -> None:
    """On the last mow of its year, the day before the seed at the latest; steps ahead of it."""
    dormant = lawn(operation="dormant_seed", intent="dormant")
    step = plain().days("mowing.low_cut_step_days")

    def last_mow(*bests: date) -> ResolvedLawn:
        windows = tuple(days_of("last_mow", best - timedelta(9), best, best) for best in bests)
        return replace(dormant, openings=replace(dormant.openings, windows=windows))

    best = date(2027, 11, 1)
    found = cuts(last_mow(best), way("dormant_seed"), (80.0, 40.0), monkeypatch)
    assert [(d.anchor, d.ideal) for d in found] == [
        (None, best.toordinal() - step),
        (None, best.toordinal()),
    ]
    campaign = way("dormant_seed")
    near = last_mow(SOWN + timedelta(5))
    assert _end_of_growth(near, campaign) == SOWN.toordinal() - 1
    assert _end_of_growth(last_mow(SOWN + timedelta(9)), campaign) is None, "it begins with seed"
    assert _end_of_growth(last_mow(date(2028, 10, 1), best), campaign) == best.toordinal()
    begin = date.fromordinal(dormant.first_day)
    assert _end_of_growth(last_mow(begin), campaign) == begin.toordinal()
    assert _end_of_growth(last_mow(begin - timedelta(1)), campaign) is None
    assert _end_of_growth(last_mow(best), way()) is None
    early = replace(last_mow(date(2026, 11, 1), date(2025, 11, 1)), first_day=1)
    assert _end_of_growth(early, campaign) == date(2026, 11, 1).toordinal()
    old = replace(last_mow(date(2025, 11, 1)), first_day=1)
    assert _end_of_growth(old, campaign) is None, "of two years ago"


def test_a_second_grass_goes_into_the_lowest_usual_height_where_scalping_harms() -> None:
    """Centipede keeps its own; bermuda and turf for other seed go down to the floor."""
    book = plain().book

    def lowest(grass: str, intent: Any) -> float:
        return _heights(of_grass(grass, intent=intent))[-1]

    for grass in ("centipede", "bermuda_common"):
        floor, _ = low_floor(of_grass(grass), True)
        usual = book.low_si(of_species(grass, "mow_height"))  # type: ignore[arg-type]
        assert lowest(grass, "overseed") == pytest.approx(floor)
        kept = usual if grass == "centipede" else floor
        assert lowest(grass, "winter_overseed") == pytest.approx(kept)
        assert floor != usual


def test_the_surface_is_cut_or_raked_by_what_the_turf_bears() -> None:
    """Seed that waits is raked in on any turf."""
    species = plain().book.species
    for grass, entry in species.items():
        opening = _opening(of_grass(grass), way())
        blades = entry.dethatch == "ok"
        assert (opening.why == phrases.vertical()) is blades, grass
        if not blades:
            assert opening.how == (phrases.raking_leaves(), phrases.raking_how())
            assert opening.why == phrases.raking()
        waits = _opening(of_grass(grass), way("dormant_seed"))
        assert waits.why == phrases.raking_dormant()
        assert waits.how == (phrases.raking_leaves(), phrases.raking_dormant_how())


@pytest.mark.full
def test_shade_that_is_not_sown_keeps_its_height_and_its_turf() -> None:
    """What is mown low, raked and mown with the new grass names the part that is left out, as the
    seed does; the starter of seed that waits is told of when it wakes."""
    part = {"kind": "shade", "name": "under the birches", "share": 0.2, "sun_hours": 1.0}
    changes = {"lawn": {"grass": "kentucky_bluegrass", "part": [part]}}
    plan = plan_of(DORMANT, changes, {"leveling": {"depth": "0 in"}}, options=False)
    seed = next(t for t in plan.tasks if t.operation == "dormant_seed")
    assert "under the birches" in str(seed.title)
    own = {"mow_low", "slit", "mow_old", "first_mow", "starter_feed"}
    named = [t for t in plan.tasks if t.operation in own]
    assert {t.operation for t in named} >= {"mow_low", "slit", "first_mow"}
    assert [t.id for t in named if "under the birches" not in str(t.title)] == []
    for starter in (t for t in plan.tasks if t.operation == "starter_feed"):
        assert "wakes" in str(starter.why)
        assert not any("with the seed" in str(said) for said in (starter.why, *starter.how))
