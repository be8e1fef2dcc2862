"""The plan as JSON: the same plan always gives the same bytes."""

import json

from turfplan.plan import Plan


def plan_to_json(plan: Plan) -> bytes:
    """UTF-8 JSON in the order the fields are declared, two spaces deep, with a line end."""
    data = plan.model_dump(mode="json", by_alias=True)
    return (json.dumps(data, indent=1, ensure_ascii=False) + "\n").encode()
