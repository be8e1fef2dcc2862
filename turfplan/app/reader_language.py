"""Says which language somebody is spoken to in."""

import os
from typing import TYPE_CHECKING

from turfplan.errors import Problem, TurfplanError, did_you_mean, one_of
from turfplan.messages.catalog import SOURCE, complete_languages
from turfplan.phrases import errors

if TYPE_CHECKING:
    from turfplan.records.brief import Brief

# The language of a user whose brief and command name none.
LANGUAGE = "TURFPLAN_LANGUAGE"


def language_of(brief: "Brief | None", asked: str | None = None) -> str:
    """The language that a reader is spoken to in: the brief's, else the one asked for, else the
    user's, else English.

    Raises TurfplanError for a language without a complete catalog.
    """
    chosen = (brief and brief.language) or asked or os.environ.get(LANGUAGE) or SOURCE
    if faults := language_faults(chosen):
        raise TurfplanError(faults)
    return chosen


def language_faults(language: str | None) -> list[Problem]:
    """What is wrong with a language: it has no complete catalog."""
    if language is None or language == SOURCE:
        return []
    # The book is read for a language that is not its own alone.
    from turfplan.book.words import english_of
    from turfplan.files.reading.book import load_book

    known = complete_languages(english_of(load_book()))
    if language in known:
        return []
    hint = did_you_mean(language, known)
    return [Problem("language", errors.no_catalog(), repr(language), one_of(known), hint)]
