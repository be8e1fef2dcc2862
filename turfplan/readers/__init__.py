"""The only place below the commands that opens files: briefs, journals, climate, surveys, packaged data."""
