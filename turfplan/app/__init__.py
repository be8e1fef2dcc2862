"""The use cases: what commands, clients, pages and notebooks ask for, each done in one place.

One module a use case, imported by those who call it, so that a command loads no more than its own
work.
"""
