"""The plan as JSON and as tables for a spreadsheet."""
