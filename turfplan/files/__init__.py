"""The only place below the commands that opens files: plan folders, journals, and what is read."""
