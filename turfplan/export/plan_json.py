"""The plan as JSON and back: the same plan always gives the same bytes."""

import json

from pydantic import ValidationError

from turfplan.errors import Problem, TurfplanError
from turfplan.plan import Plan


def plan_to_json(plan: Plan) -> bytes:
    """UTF-8 JSON in the order the fields are declared, two spaces deep, with a line end."""
    data = plan.model_dump(mode="json", by_alias=True)
    return (json.dumps(data, indent=1, ensure_ascii=False) + "\n").encode()


def plan_from_json(raw: bytes) -> Plan:
    """The plan in JSON bytes; raises TurfplanError for damaged bytes or another schema."""
    try:
        data = json.loads(raw)
    except (ValueError, UnicodeDecodeError) as error:
        raise TurfplanError(
            Problem("", f"is damaged ({error})", hint="move it away and plan anew; identities start afresh then")
        ) from None
    if not isinstance(data, dict) or data.get("schema") != 1:
        got = data.get("schema") if isinstance(data, dict) else type(data).__name__
        raise TurfplanError(
            Problem("schema", "is not one this version reads", repr(got), "1", "install the turfplan that wrote it")
        )
    try:
        return Plan.model_validate_json(raw)
    except ValidationError as error:
        raise TurfplanError(
            Problem(".".join(str(s) for s in e["loc"]), str(e["msg"]).lower()) for e in error.errors(include_url=False)
        ) from None
