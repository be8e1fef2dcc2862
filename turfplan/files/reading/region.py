"""Which regional overlay of the book a brief gets."""

from turfplan.book.entries import choose_region
from turfplan.climate.record import Climate
from turfplan.files.reading.book import load_book
from turfplan.records.brief import Brief
from turfplan.work.lawn import country_of


def region_of(brief: Brief, climate: Climate) -> str | None:
    """The region that the brief names, else the one its place lies in, else None."""
    place = brief.place
    if place.region:
        return place.region
    return choose_region(
        load_book().overlays, country_of(brief), place.state or climate.state, climate.koppen
    )
