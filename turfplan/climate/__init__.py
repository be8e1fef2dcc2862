"""A place becomes daily curves, soil temperature, frost dates, growth and degree days, each with its source and error."""
