"""Seed and moss treatments of the past are minded."""

from datetime import date, timedelta

from planning import first, kind, plan_of


def test_seedlings_of_before_are_left_alone() -> None:
    """No pass, tines or preventer over seed of March until it has been mown; it is looked for."""
    sown = date(2027, 8, 7)
    plan = plan_of(
        {
            "history": {"sowings": [{"on": sown, "species": "tall_fescue"}]},
            "season": {"from": date(2027, 8, 20)},
        }
    )
    assert first(plan, "topdress").start >= sown + timedelta(days=60)
    assert all(t.start >= sown + timedelta(days=60) for t in kind(plan, "core_aerate"))
    assert [t.id for t in kind(plan, "inspect") if t.id == "inspect.earlier"]
    assert any("may still be coming up" in str(line) for line in plan.cautions)


def test_dormant_seed_of_before_counts_from_spring() -> None:
    """Seed of January is young in April: no preventer that spring."""
    sown = {"history": {"sowings": [{"on": date(2027, 1, 10)}]}}
    spring = [t for t in kind(plan_of(sown), "preemergent") if t.start.year == 2027]
    assert not spring
    assert [t for t in kind(plan_of(), "preemergent") if t.start.year == 2027]


def test_old_sowings_are_told_and_hold_nothing() -> None:
    """Grass of two years ago is lawn."""
    plan = plan_of({"history": {"sowings": [{"on": date(2025, 9, 10)}]}})
    assert first(plan, "topdress").start == first(plan_of(), "topdress").start
    assert any("old enough" in str(line) for line in plan.assumptions)


def test_treated_moss_is_raked_out_first() -> None:
    """Two weeks pass from iron on moss to seed."""
    on = date(2027, 8, 28)
    plan = plan_of(
        {
            "history": {"moss": [{"on": on, "active_ingredient": "ferrous sulfate"}]},
            "leveling": {"depth": "0 in"},
        }
    )
    assert first(plan, "overseed").start >= on + timedelta(days=14)
    assert any("ferrous sulfate" in str(line) for line in plan.cautions)
