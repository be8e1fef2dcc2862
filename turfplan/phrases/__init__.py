"""Typed functions that make the messages of the catalogs, one module a file of `messages/en`."""
