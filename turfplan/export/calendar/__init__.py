"""The season as an iCalendar file."""
