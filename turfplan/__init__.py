"""Turfplan plans a whole lawn renovation over one season, with a reason for every date and a source for every amount."""

__version__ = "0.1.0"
