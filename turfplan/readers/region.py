"""Which regional overlay of the book a brief gets."""

from turfplan.agronomy import choose_region
from turfplan.brief import Brief
from turfplan.climate.record import Climate
from turfplan.readers.book import load_book


def region_of(brief: Brief, climate: Climate) -> str | None:
    """The region that the brief names, else the one its place lies in, else None."""
    place = brief.place
    if place.region:
        return place.region
    country = place.country or ("US" if place.postal_code else None)
    return choose_region(load_book().overlays, country, place.state or climate.state, climate.koppen)
