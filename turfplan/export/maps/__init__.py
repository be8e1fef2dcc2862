"""Maps of a surveyed lawn."""
