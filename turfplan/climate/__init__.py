"""A place becomes daily curves, soil temperature, frost dates, degree days and reference evapotranspiration."""
