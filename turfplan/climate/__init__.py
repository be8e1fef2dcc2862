"""A place becomes daily curves, soil temperature, frost dates and growth.

Each with its source and error.
"""
