"""What is wrong with a text that is no TOML is said in the words of the library, by key."""

import tomllib

import pytest

from turfplan.files.reading.toml_faults import not_toml
from turfplan.message import AS_WRITTEN, Message

BROKEN = {
    "[lawn": "libraries.at_end",
    "a=": "libraries.at_end",
    "a=1\na=2": "libraries.at_end",
    "a b": "libraries.at",
    "a=[1": "libraries.at_end",
    "a={b=1": "libraries.at_end",
    "a='x' 'y'": "libraries.at",
    "=1": "libraries.at",
    'a="x': "libraries.at_end",
}


def keys(message: Message) -> set[str]:
    """The keys of a message and of those inside it."""
    inner = [part for _, part in message.values if isinstance(part, Message)]
    return {message.key}.union(*(keys(part) for part in inner))


@pytest.mark.parametrize("text", BROKEN)
def test_it_says_what_the_library_says(text: str) -> None:
    """Letter by letter, with its place, and every word of it has a key."""
    with pytest.raises(tomllib.TOMLDecodeError) as caught:
        tomllib.loads(text)
    problem = not_toml("a.toml", caught.value)
    assert str(problem) == f"a.toml: is not TOML: {caught.value}"
    assert isinstance(problem.message, Message)
    found = keys(problem.message)
    assert BROKEN[text] in found and AS_WRITTEN not in found


def test_what_names_a_sign_stands_as_it_was_said() -> None:
    """Sentences with a sign or key of the text in them are nobody's keys."""
    with pytest.raises(tomllib.TOMLDecodeError) as caught:
        tomllib.loads("[a]\n[a]")
    problem = not_toml("", caught.value)
    assert str(problem) == f"is not TOML: {caught.value}"
    assert isinstance(problem.message, Message) and AS_WRITTEN in keys(problem.message)
