"""Keeps a book from saying a sentence twice."""

import re
from collections.abc import Iterable, Iterator

# "St." begins the names of places and of a grass, and ends no sentence.
_END = re.compile(r"(?<=[.!?…])(?<!\bSt\.)\s+(?=[^\s\da-z])")


def sentences_of(text: str) -> list[str]:
    """The sentences of a text, in order; a stop before a small letter or a figure ends none."""
    return [piece for piece in _END.split(text.strip()) if piece]


class SaidOnce:
    """What a book has said so far, sentence by sentence."""

    def __init__(self) -> None:
        """Nothing has been said."""
        self._said: set[str] = set()

    def new_of(self, text: str) -> str:
        """What of a text has not been said yet; it counts as said from now on."""
        return " ".join(self._new(sentences_of(text)))

    def all_new(self, texts: Iterable[str]) -> tuple[str, ...]:
        """The same of several texts; those of which nothing is new are left out."""
        return tuple(new for text in texts if (new := self.new_of(text)))

    def _new(self, sentences: Iterable[str]) -> Iterator[str]:
        for sentence in sentences:
            key = sentence.casefold().rstrip(".!?…")
            # Also what stands inside of what was said: a test that was called by its name before.
            if not any(key in earlier for earlier in self._said):
                self._said.add(key)
                yield sentence
