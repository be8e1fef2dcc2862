"""Watering: what is asked for, its stages, lawful hours, series, and the daily account of water."""
