"""Takes apart what a plan was told: a plan keeps the words of the book, not the book."""

import re
from functools import lru_cache
from string import Formatter

from turfplan.messages import Words


def parts_of(text: str, key: str, words: Words) -> dict[str, str]:
    """What stands in the places of a sentence that was told of a key; nothing where the text is
    not of it, as in a plan that was made in other words.
    """
    found = _pattern(words.catalog.template(key)).fullmatch(text)
    return found.groupdict() if found is not None else {}


@lru_cache(maxsize=32)
def _pattern(template: str) -> re.Pattern[str]:
    """A sentence of the catalog as a pattern, each place as short as can be."""
    pieces = [
        re.escape(plain) + (f"(?P<{name}>.*?)" if name is not None else "")
        for plain, name, _, _ in Formatter().parse(template)
    ]
    return re.compile("".join(pieces), re.DOTALL)
