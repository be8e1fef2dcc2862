"""What seasons that were acted out week by week showed: a plan goes on from what lies there."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from campaigns.walks import Walk, begun, same_again
from planning import brief_of
from test_planning_past_binds import season_of
from turfplan.planning.fresh_loads import written_off
from turfplan.planning.past_binds import among_the_open
from turfplan.records.past import TaskHistory

DEEP = {
    "lawn": {"area": "2900 ft2", "thatch": "0.25 in", "condition": "dense"},
    "place": {"postal_code": None, "town": "Fort Wayne, IN"},
    "delivery": {"truck_limit": "6 yd3"},
    "leveling": {"depth": "2 in"},
    "season": {"from": date(2027, 3, 20), "until": date(2029, 6, 30)},
    "calendar": {"weekdays": ["sat", "sun"]},
}


def test_the_first_low_cut_has_served_once_it_is_made() -> None:
    """The second one is no cut for the blades: it comes after them, days before the pass."""
    setting, campaign, season = season_of("0.75 in", thatch="0.6 in")
    cuts = sorted(d.id for d in season.drafts if d.operation == "mow_low" and d.session == 1)
    assert len(cuts) >= 2 and any(d.id == "dethatch" for d in season.drafts)
    history = TaskHistory(done={cuts[0]: setting.first_day})
    rules = {c.id for c in among_the_open(setting, campaign, season, history)}
    assert not any(name.startswith("low_cut_before_dethatching:") for name in rules)


def test_an_order_that_brought_what_is_of_use_stands_beside_a_fresh_load() -> None:
    """What has spoiled is written off with its looks; its order only where all of it has."""
    _, _, season = season_of("0.75 in")
    order = next(d for d in season.drafts if d.id.startswith("order_material.") and d.loads)
    loads = {load: 110 + load for load in order.loads}
    done = {order.id: 100} | {f"delivery.{n}": day for n, day in loads.items()}
    history = TaskHistory(done=done | {"topdress.1": 130})
    assert written_off(season, history, loads) == done.keys()
    some = dict(list(loads.items())[:1]) if len(loads) > 1 else {}
    assert order.id not in written_off(season, history, some)
    late = replace(history, done={**history.done, order.id: 200})
    assert order.id not in written_off(season, late, loads), "it was asked for after they came"


@pytest.mark.full
@pytest.mark.parametrize("said", [True, False])
def test_a_load_that_has_spoiled_is_asked_for_anew_under_its_own_number(said: bool) -> None:
    """What was done for the old one stays in the feed; the fresh one is ordered once, in time for
    its own day, and the plan made again is the same."""
    season = begun(brief_of({"leveling": {"depth": "10 mm"}}))
    came, lost = season.day("delivery.1"), season.day("topdress.1")
    season.done_until(lost, "topdress.1", *(() if said else ("dry_material.1",)))
    season.log("not_done", task="topdress.1", on=lost)
    for week in range(1, 60):
        today = lost + timedelta(weeks=week)
        season.log("rained_off", on=today)
        plan = season.go(today)
        if plan.task("delivery.1.again2") is not None:
            break
    old, fresh = plan.task("delivery.1"), plan.task("delivery.1.again2")
    assert old is not None and fresh is not None
    assert (old.closed, old.start) == ("done", came) and old.published is not None
    assert not old.published.cancelled and fresh.closed is None
    assert fresh.start > today and any("for months" in str(told) for told in fresh.cautions)
    orders = [t for t in plan.tasks if t.plays("ordering") and t.id in fresh.depends_on]
    assert [t.closed for t in orders] == [None] and orders[0].end < fresh.start
    same_again(season, today)
    after = season.go(today + timedelta(days=1))
    assert after.task("delivery.1") == old


@pytest.mark.full
def test_a_fill_over_two_years_is_not_given_up_for_seed_a_year_sooner() -> None:
    """Where the second load is refused at the end of its season, what is left goes on the next."""
    season = begun(brief_of(DEEP))
    assert season.plan.campaign == "two_years" and season.plan.task("delivery.5") is not None
    sown, first = season.day("overseed"), season.day("topdress.1")
    season.done_until(season.day("delivery.2"))
    refused = season.day("delivery.2")
    season.log("refused", task="delivery.2", on=refused)
    season.go(refused + timedelta(2))
    coming = [t for t in season.plan.tasks if t.plays("spreading") and t.closed is None]
    assert len([t for t in coming if t.status != "CANCELLED"]) >= 3
    assert season.day("overseed") > first + timedelta(200)
    assert abs(season.day("overseed") - sown) < timedelta(60)


@pytest.fixture(scope="module")
def spread_at_once() -> Walk:
    """A lawn whose first pass took all of the fill, and what was bought for the second."""
    season = begun(brief_of({"leveling": {"depth": "0.75 in"}, "seeding": {"intent": "none"}}))
    season.done_until(season.day("topdress.1"))
    first = season.plan.task("topdress.1")
    assert first is not None
    volume = next(a.value for a in first.amounts if a.item == "volume")
    season.log("done", task="topdress.1", on=first.end, amount=round(4 * volume, 3), unit="m3")
    season.log("done", task="incorporate.1", on=first.end)
    season.go(first.end + timedelta(1))
    return season


@pytest.mark.full
def test_a_refused_load_of_which_nothing_is_spread_is_not_asked_for(spread_at_once: Walk) -> None:
    """No call, no other day, no line of the order; and the plan stays what it was once all is
    done."""
    season = spread_at_once
    name, campaign = season.plan.campaign_name, season.plan.campaign
    load = next(t for t in season.plan.tasks if t.id == "delivery.2")
    season.log("refused", task="delivery.2", on=load.start)
    season.go(load.start + timedelta(1))
    again = season.plan.task("delivery.2")
    assert again is None or again.status == "CANCELLED"
    assert season.plan.task("call.refused.2") is None
    season.log("note", text="all is well")
    season.go(date(2028, 5, 1))
    assert (season.plan.campaign, season.plan.campaign_name) == (campaign, name)


@pytest.mark.full
def test_what_has_come_up_is_kept_where_no_day_is_left_for_the_rest() -> None:
    """Its first cut and its water stay; that no more can be sown is told."""
    over = {"season": {"until": date(2027, 12, 31)}}
    season = begun(brief_of({"leveling": {"depth": "0.5 in"}}, over))
    sown = season.plan.task("overseed")
    assert sown is not None
    late = sown.end + timedelta(35)
    season.done_until(sown.end + timedelta(1), "inspect.germination")
    season.log("measured", quantity="germination", value=0.4, on=late)
    season.go(late + timedelta(1))
    kept, cut = season.plan.task("overseed"), season.plan.task("first_mow")
    assert kept is not None and kept.closed == "done"
    assert cut is not None and cut.closed is None and cut.status != "CANCELLED"
    assert season.plan.task("collect.seed.more") is None
    keys = [n.text.key for n in season.plan.ranked]
    assert "history.no_day_for_rest" in keys and "history.no_day_left" not in keys
