"""The book: every agronomic number, word and rule in force, typed and checked."""
