"""Where turf is lifted, the judge asks of the passes for the zones that they fill."""

from dataclasses import replace

from broken_plans import of_changes
from test_audit_compost_and_starter import zoned
from turfplan.audit import audit_plan
from turfplan.message import Message


def test_passes_beside_a_lifted_zone_name_the_others() -> None:
    """A deep zone small enough to be lifted is filled under its turf; passes are for the front."""
    made = of_changes(zoned("20 ft"))
    assert any(task.operation == "lift_and_fill" for task in made.plan.tasks)
    assert not audit_plan(made.plan, made.brief, made.book)
    (spread,) = [task for task in made.plan.tasks if task.plays("spreading")]
    assert isinstance(spread.title, Message)
    title = dict(spread.title.values)["title"]
    assert isinstance(title, Message)
    unnamed = tuple(
        task.model_copy(update={"title": replace(title, text="Top-dress")})
        if task is spread
        else task
        for task in made.plan.tasks
    )
    broken = replace(made, plan=made.plan.model_copy(update={"tasks": unnamed}))
    faults = audit_plan(broken.plan, broken.brief, broken.book)
    assert "place_unnamed" in {fault.kind for fault in faults}
