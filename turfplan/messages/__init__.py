"""The edge of language: catalogs of sentences, and what tells a message to a reader."""

from turfplan import errors
from turfplan.messages.catalog import Catalog, catalog_of, languages
from turfplan.messages.problems import english_text, told_error, told_problem
from turfplan.messages.telling import Words, words_for

__all__ = ["Catalog", "Words", "catalog_of", "languages", "told_error", "told_problem", "words_for"]

# Whoever logs or prints an error without a reader in mind gets it in English.
errors.teller = english_text
