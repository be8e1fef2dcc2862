"""What is asked again and again about one record is reckoned once."""

from collections.abc import Callable
from functools import lru_cache, wraps
from typing import Any, ParamSpec, TypeVar

_Asked = ParamSpec("_Asked")
_Answer = TypeVar("_Answer")
# As many as are at hand at once: ways to fill a lawn, the campaigns of each, their sets of days.
KEPT = 256


class _Same:
    """A thing that is equal to itself alone: a record is large, and is not looked through to know
    it again.
    """

    __slots__ = ("thing",)

    def __init__(self, thing: object) -> None:
        self.thing = thing

    def __hash__(self) -> int:
        return id(self.thing)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Same) and self.thing is other.thing


def reckoned_once(reckon: Callable[_Asked, _Answer]) -> Callable[_Asked, _Answer]:
    """A pure function whose last answers are kept; records are known by being the same, numbers and
    texts by their value.
    """

    @lru_cache(maxsize=KEPT)
    def kept(*asked: Any, **named: Any) -> _Answer:
        return reckon(
            *(_thing(value) for value in asked),
            **{name: _thing(value) for name, value in named.items()},
        )

    @wraps(reckon)
    def answer(*asked: _Asked.args, **named: _Asked.kwargs) -> _Answer:
        return kept(
            *(_key(value) for value in asked), **{name: _key(v) for name, v in named.items()}
        )

    return answer


def _key(value: object) -> object:
    return value if isinstance(value, (int, float, str)) else _Same(value)


def _thing(value: object) -> Any:
    return value.thing if isinstance(value, _Same) else value
