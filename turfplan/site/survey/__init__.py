"""Measured points become the ground, a target, the fill, its doubt, passes and stakes."""
