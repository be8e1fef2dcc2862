"""Turns a plan into text or bytes: calendars, checklists, the season book, the order sheet."""
