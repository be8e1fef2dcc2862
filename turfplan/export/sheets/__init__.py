"""Printed sheets: checklist, season book, order, changes, measuring sheet, and their charts."""
