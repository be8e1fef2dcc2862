"""Every key of a brief changes something: the plan, or an answer that says why not.

A key that nothing reads would leave the plan as it is, and its owner unheard.
"""

import json
import tomllib
from collections.abc import Iterator, Mapping
from typing import Any, get_args

import pytest
from pydantic import BaseModel

from planning import ROOT, merged, plan_brief
from tiers import sampled
from told_errors import error_text
from turfplan.errors import TurfplanError
from turfplan.records.brief import Brief, parse_brief

CASES: Mapping[str, Mapping[str, Any]] = tomllib.loads(
    (ROOT / "tests" / "cases" / "brief_keys.toml").read_text(encoding="utf-8")
)
# What a plan repeats of its brief, or has of its making.
REPEATED = {"lawn", "place", "brief_sha256", "stamp", "now", "said", "lawn_id", "uid"}
# A key of the top of the file stands in no table.
TOP = ("units", "language")


def model_in(annotation: Any) -> type[BaseModel] | None:
    """The record that a key holds, alone or in a list."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    found = (model_in(part) for part in get_args(annotation))
    return next((model for model in found if model is not None), None)


def keys_of(model: type[BaseModel], before: str = "") -> Iterator[str]:
    """Every key that a brief may hold, dotted."""
    for name, field in model.model_fields.items():
        key = f"{before}{field.alias or name}"
        inner = model_in(field.annotation)
        if inner is None:
            yield key
        else:
            yield from keys_of(inner, f"{key}.")


def laid(*changes: Mapping[str, Any]) -> dict[str, Any]:
    """The plain lawn with changes; an empty text takes a key away, for TOML has no nothing."""
    cleared = [
        {
            table: {key: None if value == "" else value for key, value in values.items()}
            for table, values in change.items()
            if table not in TOP
        }
        for change in changes
    ]
    data = merged(*cleared)
    for change in changes:
        data |= {key: change[key] for key in TOP if key in change}
    return data


def without(value: Any, names: set[str]) -> Any:
    """A plan without what it repeats."""
    if isinstance(value, dict):
        return {key: without(inner, names) for key, inner in value.items() if key not in names}
    return [without(inner, names) for inner in value] if isinstance(value, list) else value


def answer(*changes: Mapping[str, Any], names: bool) -> str:
    """The plan of a brief, or what is wrong with it, as one text."""
    try:
        plan = plan_brief(parse_brief(laid(*changes)))
    except TurfplanError as error:
        return error_text(error)
    kept = REPEATED - {"lawn", "lawn_id", "uid"} if names else REPEATED
    return json.dumps(without(plan.model_dump(mode="json", by_alias=True), kept), sort_keys=True)


def test_every_key_has_a_case() -> None:
    """A new key of the brief comes with the plan that it changes."""
    assert set(CASES) == set(keys_of(Brief))


@pytest.mark.parametrize("key", sampled(CASES, "site.sun_hours", "site.thin_cause", "lawn.leaf"))
def test_a_key_changes_the_plan(key: str) -> None:
    """With another value of this key alone the plan says something else."""
    case = CASES[key]
    names = bool(case.get("names"))
    base, changed = case.get("with", {}), case["to"]
    assert answer(base, names=names) != answer(base, changed, names=names)
