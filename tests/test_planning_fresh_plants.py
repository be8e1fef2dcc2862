"""Plants of which a part went in before watering was banned: the rest waits with a fresh order, and
what becomes of those in the ground is told."""

from datetime import timedelta

from campaigns.walks import begun
from planning import brief_of

SOD = {"seeding": {"intent": "plant", "form": "sod"}, "leveling": {"depth": "0 in"}}
BAN_DAYS = 90


def test_the_rest_of_the_plants_waits_for_water_with_an_order_of_its_own() -> None:
    """It is not taken for planted, what is bought is for it alone and for its own day, and the task
    says that what is planted goes without water; what is planted is watered until the ban."""
    season = begun(brief_of(SOD))
    day, whole = season.day("plant"), season.plan.task("plant")
    assert whole is not None
    season.done_until(day)
    season.log("done", task="plant", on=day, share=0.7)
    season.go(day)
    runs = [t for t in season.plan.tasks if t.id.startswith("water.rooting.1.")]
    assert runs and all(day <= run.start < season.day("plant") for run in runs)
    ban = day + timedelta(days=1)
    season.log("measured", quantity="water_ban", value=float(BAN_DAYS), on=ban)
    season.go(ban)
    rest = season.plan.task("plant")
    assert rest is not None and "still to be planted" in str(rest.title)
    change = season.plan.task("delivery.sod")
    assert change is not None and change.change is not None
    assert not rest.overdue and rest.start > ban + timedelta(days=BAN_DAYS)
    (bought,) = [line for line in season.plan.order if line.item == "sod"]
    assert bought.value < 0.35 * next(a.value for a in whole.amounts if a.item == "sod")
    ordered, brought = season.day("order_material.sod"), season.day("delivery.sod")
    assert ban + timedelta(days=BAN_DAYS) < ordered < brought <= rest.start
    assert "befallen.planted_dry" in {caution.key for caution in rest.cautions}
    season.go(ban + timedelta(days=30))
    assert season.day("plant") == rest.start
