"""Reads briefs, climate, surveys, plans and the packaged data."""
