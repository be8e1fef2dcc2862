"""Texts on one line, without what no reader sees, cut to a length."""

import re
import unicodedata
from functools import lru_cache

LONGEST_SUMMARY = 50
# As much as a phone shows of an entry's text without going on for screens.
LONGEST_TEXT = 700
CUT = "…"  # ends what was shortened
# Controls, direction and format marks, half characters, private ones: nothing that a reader sees.
_UNSEEN = ("Cc", "Cf", "Cs", "Co")


@lru_cache(maxsize=4096)
def plain_text(text: str) -> str:
    """A text of the user's on one line, without control and direction marks."""
    # The same instructions stand in many tasks: each is looked at once.
    if not text.isprintable():
        text = "".join(
            " " if c in "\r\n\t" else c
            for c in text
            if c in "\r\n\t" or unicodedata.category(c) not in _UNSEEN
        )
    return " ".join(text.split())


def shortened(text: str, most: int = LONGEST_SUMMARY) -> str:
    """A text cut at a word's end, and in no parenthesis, to at most so many characters; the whole
    text where it fits."""
    text = plain_text(text)
    if len(text) <= most:
        return text
    cut = re.sub(r"[\s,;:(]+\S*$", "", text[: most - 1]).rstrip(" ,;:(") or text[: most - 1]
    outside = re.sub(r"\s*\([^)]*$", "", cut)
    return (outside or cut) + CUT
