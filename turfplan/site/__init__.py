"""Shapes or a survey become area, fill depth and passes."""
