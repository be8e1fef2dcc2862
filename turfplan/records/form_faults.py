"""What is wrong with the form of a record, from what pydantic finds, as messages."""

import re
from collections.abc import Callable, Mapping
from typing import Any

from pydantic_core import ErrorDetails

from turfplan.errors import FormError, library_words
from turfplan.message import Message, Number, as_written, listed, said
from turfplan.phrases import form as phrases

Context = Mapping[str, Any]
# What a value should be, by the type of the error: a thing, which says it alone, ...
_THINGS: dict[str, Callable[[Context], Message]] = {
    "string_type": lambda _: phrases.text(),
    "float_type": lambda _: phrases.number(),
    "float_parsing": lambda _: phrases.number_parsed(),
    "finite_number": lambda _: phrases.finite(),
    "int_type": lambda _: phrases.whole(),
    "int_parsing": lambda _: phrases.whole_parsed(),
    "int_from_float": lambda _: phrases.fraction(),
    "bool_type": lambda _: phrases.yes_or_no(),
    "bool_parsing": lambda _: phrases.yes_or_no_parsed(),
    "list_type": lambda _: phrases.list(),
    "tuple_type": lambda _: phrases.tuple(),
    "mapping_type": lambda _: phrases.mapping(),
    "dict_type": lambda _: phrases.dictionary(),
    "model_type": lambda has: phrases.table(record=has["class_name"]),
    "date_type": lambda _: phrases.date(),
    "date_from_datetime_parsing": lambda has: phrases.date_parsed(
        reason=library_words(has["error"])
    ),
    "date_parsing": lambda has: phrases.date_written(reason=library_words(has["error"])),
    "datetime_type": lambda _: phrases.moment(),
    "datetime_parsing": lambda has: phrases.moment_parsed(reason=library_words(has["error"])),
    "datetime_from_date_parsing": lambda has: phrases.moment_of_date(
        reason=library_words(has["error"])
    ),
    "time_type": lambda _: phrases.clock(),
}
# The same where the value stands in JSON, which has names of its own for what holds others, ...
_JSON_THINGS: dict[str, Callable[[Context], Message]] = {
    **_THINGS,
    "list_type": lambda _: phrases.array(),
    "tuple_type": lambda _: phrases.array(),
    "dict_type": lambda _: phrases.object(),
    "model_type": lambda _: phrases.object(),
}
# ... or a bound, which needs a verb before it.
_BOUNDS: dict[str, Callable[[Context], Message]] = {
    "greater_than": lambda has: phrases.above(number=Number(has["gt"], "plain")),
    "greater_than_equal": lambda has: phrases.at_least(number=Number(has["ge"], "plain")),
    "less_than": lambda has: phrases.below(number=Number(has["lt"], "plain")),
    "less_than_equal": lambda has: phrases.at_most(number=Number(has["le"], "plain")),
    "time_parsing": lambda has: phrases.clock_parsed(reason=library_words(has["error"])),
    "literal_error": lambda has: phrases.one_of(choices=listed(map(repr, choices(has)), "or")),
    "enum": lambda has: phrases.one_of(choices=listed(map(repr, choices(has)), "or")),
    "none_required": lambda _: phrases.nothing(),
}
_SENTENCES: dict[str, Callable[[Context], Message]] = {
    "int_parsing_size": lambda _: phrases.whole_size(),
    "string_pattern_mismatch": lambda has: phrases.pattern(pattern=has["pattern"]),
    "string_too_short": lambda has: phrases.text_too_short(
        n=has["min_length"], least=has["min_length"]
    ),
    "string_too_long": lambda has: phrases.text_too_long(
        n=has["max_length"], most=has["max_length"]
    ),
    "too_short": lambda has: phrases.too_short(
        n=has["min_length"],
        kind=_kind(has),
        least=has["min_length"],
        got=str(has["actual_length"]),
    ),
    "too_long": lambda has: phrases.too_long(
        n=has["max_length"],
        kind=_kind(has),
        most=has["max_length"],
        got=str(has["actual_length"]),
    ),
    "date_from_datetime_inexact": lambda _: phrases.date_with_clock(),
    "timezone_aware": lambda _: phrases.zone(),
    "missing": lambda _: phrases.missing(),
    "extra_forbidden": lambda _: phrases.extra(),
}


def own_fault(fault: ErrorDetails) -> FormError | None:
    """What a validator of ours said, or None for what pydantic found by itself."""
    error = fault.get("ctx", {}).get("error")
    return error if isinstance(error, FormError) else None


def thing_wanted(fault: ErrorDetails, *, of_json: bool = False) -> Message | None:
    """The thing that a value should be, where the fault is that it is another."""
    make = (_JSON_THINGS if of_json else _THINGS).get(fault["type"])
    return None if make is None else make(fault.get("ctx", {}))


def wanted(fault: ErrorDetails) -> Message:
    """What is asked of a value, to stand after a verb."""
    make = _BOUNDS.get(fault["type"]) or _SENTENCES.get(fault["type"])
    if make is not None:
        return make(fault.get("ctx", {}))
    return phrases.other(name=fault["type"])


def form_message(fault: ErrorDetails, *, of_json: bool = False) -> Message:
    """What is wrong with the form of a value, in a sentence of its own."""
    if (own := own_fault(fault)) is not None:
        return said(own.message)
    if fault["type"] == "value_error":
        return as_written(str(fault["ctx"]["error"]))
    thing = thing_wanted(fault, of_json=of_json)
    if thing is None and fault["type"] in _SENTENCES:
        return wanted(fault)
    return phrases.input_should_be(what=thing or wanted(fault))


def choices(context: Context) -> tuple[str, ...]:
    """The words that an error of pydantic says are allowed."""
    return tuple(
        re.findall(r"'([^']+)'", str(context.get("expected_tags") or context.get("expected") or ""))
    )


def _kind(context: Context) -> Message:
    """What holds too few or too many, as pydantic calls it where it is of a rare kind."""
    kind = str(context["field_type"]).lower()
    return _HOLDERS[kind]() if kind in _HOLDERS else as_written(kind)


_HOLDERS: dict[str, Callable[[], Message]] = {
    "tuple": phrases.kind_tuple,
    "list": phrases.kind_list,
    "dictionary": phrases.kind_dictionary,
    "set": phrases.kind_set,
}
