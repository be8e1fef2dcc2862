"""The plan as JSON: the same plan always gives the same bytes."""

from turfplan.records.plan import Plan


def plan_to_json(plan: Plan) -> bytes:
    """UTF-8 JSON in the order the fields are declared, one space deep, with a line end."""
    return (plan.model_dump_json(by_alias=True, indent=1) + "\n").encode()
