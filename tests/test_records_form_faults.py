"""What pydantic finds wrong is said by key, in the English that it would have said it in."""

import json
from collections.abc import Iterator
from datetime import date, datetime, time
from typing import Annotated, Any, Literal

import pytest
from pydantic import AwareDatetime, BaseModel, Field, ValidationError
from pydantic_core import ErrorDetails

from told import told
from turfplan.errors import FormError
from turfplan.phrases import errors
from turfplan.records import form_faults
from turfplan.records.form_faults import form_message, own_fault
from turfplan.records.journal import JournalEntry


class Inner(BaseModel):
    """A record inside another."""

    model_config = {"extra": "forbid"}
    x: int


class Every(BaseModel):
    """A field for each kind of fault."""

    model_config = {"extra": "forbid"}
    text: Annotated[str, Field(pattern="^a+$")] = "a"
    short: Annotated[str, Field(min_length=1, max_length=2)] = "a"
    few: Annotated[tuple[int, ...], Field(min_length=2, max_length=3)] = (1, 2)
    one: Annotated[list[int], Field(min_length=1)] = [1]
    table: dict[str, int] = {}
    number: Annotated[float, Field(gt=0, lt=9, allow_inf_nan=False)] = 1
    bound: Annotated[float, Field(ge=0.5, le=9.5)] = 1
    whole: int = 1
    choice: bool = True
    day: date = date(2027, 1, 1)
    clock: time = time(5)
    moment: datetime = datetime(2027, 1, 1)  # noqa: DTZ001
    aware: AwareDatetime | None = None
    word: Literal["a", "b", "c"] = "a"
    inner: Inner | None = None


BAD: dict[str, tuple[object, ...]] = {
    "text": (3, "b"),
    "short": ("", "abc"),
    "few": (3, (1,), (1, 2, 3, 4)),
    "one": ((), "x", {}),
    "table": ([], 3),
    "number": ([], "x", 0, 9, float("nan")),
    "bound": (0, 10),
    "whole": ([], "x", 1.5),
    "choice": ([], "x"),
    "day": ([], "x", "next spring", "2027-13-01", "2027-02-40", "2027-01-01T05:00", "20270101x"),
    "clock": ([], "x", "25:00"),
    "moment": ([], "x", "2027-13-01T00:00"),
    "aware": (datetime(2027, 1, 1),),  # noqa: DTZ001
    "word": ("z", 3),
    "inner": (3, {}, {"x": 1, "y": 2}, {"x": "one"}),
    "other": (1,),
}


def faults(model: type[BaseModel], data: object) -> list[ErrorDetails]:
    """What pydantic finds wrong with some data; it must find something."""
    with pytest.raises(ValidationError) as caught:
        model.model_validate(data)
    return caught.value.errors(include_url=False)


def every() -> Iterator[Any]:
    """Each fault with a name for the test."""
    for field, values in BAD.items():
        for value in values:
            for fault in faults(Every, {field: value}):
                yield pytest.param(fault, id=f"{field} {value!r} {fault['type']}")


@pytest.mark.full
@pytest.mark.parametrize("fault", tuple(every()))
def test_a_fault_is_said_as_pydantic_says_it(fault: ErrorDetails) -> None:
    """Another wording would be another promise: the key's English is pydantic's, in lower case."""
    message = form_message(fault)
    known = form_faults._THINGS.keys() | form_faults._BOUNDS.keys() | form_faults._SENTENCES.keys()
    assert fault["type"] in known
    said, theirs = told(message), fault["msg"]
    assert said == theirs[:1].lower() + theirs[1:]


JSON = [name for name, values in BAD.items() if name not in ("aware", "number")]


@pytest.mark.full
@pytest.mark.parametrize("field", JSON)
def test_a_fault_of_json_is_said_as_pydantic_says_it(field: str) -> None:
    """JSON has arrays and objects where Python has tuples and dictionaries."""
    for value in BAD[field]:
        with pytest.raises(ValidationError) as caught:
            Every.model_validate_json(json.dumps({field: value}))
        for fault in caught.value.errors(include_url=False):
            said, theirs = told(form_message(fault, of_json=True)), fault["msg"]
            assert said == theirs[:1].lower() + theirs[1:]


def test_every_type_that_is_known_is_seen() -> None:
    """No way of saying a fault stands there that nothing tests, but for rare numbers."""
    known = form_faults._THINGS.keys() | form_faults._BOUNDS.keys() | form_faults._SENTENCES.keys()
    seen = {param.values[0]["type"] for param in every()}
    rare = {"int_parsing_size", "enum", "mapping_type", "none_required"}
    # Which of two types a date that cannot be read has, pydantic decides by what it expected.
    assert known - seen == rare | {"date_parsing", "datetime_parsing"}


def test_a_fault_of_ours_keeps_its_message() -> None:
    """What a validator of a record says arrives as it was said."""
    (fault,) = faults(
        JournalEntry, {"number": 1, "at": "2027-01-01T05:00:00Z", "kind": "note", "text": ""}
    )
    own = own_fault(fault)
    assert own is not None and own.message is form_message(fault)
    assert told(form_message(fault)) == str(own) == "a note needs words"
    assert str(FormError(errors.required(), hint=errors.wait())) == "is required"


def test_a_fault_that_nobody_foresaw_is_named() -> None:
    """Its type is told, so that it can be looked up."""
    fault: Any = {"type": "url_type", "loc": (), "msg": "URL", "input": 3}
    assert told(form_message(fault)) == "input should be of another form (url_type)"
    rare: Any = {
        "type": "too_short",
        "ctx": {"field_type": "Deque", "min_length": 1, "actual_length": 0},
    }
    assert told(form_message(rare)) == "deque should have at least 1 item after validation, not 0"
    plain: Any = {"type": "value_error", "ctx": {"error": ValueError("a plain word")}}
    assert told(form_message(plain)) == "a plain word"
