"""Prints quotes, and finds the lawns that are still to be measured."""

from datetime import date
from pathlib import Path

from turfplan.app.client_quotes import QuotedLawn
from turfplan.app.data_folders import clients_in, language_for
from turfplan.app.inputs import checked_file
from turfplan.business.groups import ClientGroup, in_group
from turfplan.export.sheets.look import paper_for
from turfplan.export.sheets.quote_page import quote_html
from turfplan.files.data_folder import BRIEF
from turfplan.files.reading.business import read_business
from turfplan.messages import words_for
from turfplan.units import System


def quote_page(found: QuotedLawn, output: Path, today: date, paper: str | None) -> str:
    """A quote as a page in the language of its client, else of the business. What was quoted
    stands as it was offered, in the words of its plan."""
    business = read_business(output)
    system = (business and business.units) or System.METRIC
    country = business.country if business is not None else None
    words = words_for(language_for(business, found.client), system, country=country)
    size = paper_for(country, words.system, paper)
    return quote_html(found.quote, business, found.client, today, words, size)


def lawns_to_measure(
    output: Path, group: ClientGroup | None = None
) -> tuple[tuple[Path, str], ...]:
    """The folders of the lawns whose briefs name no survey, by name, each with its id, client and
    address.

    Raises TurfplanError for a folder without lawns, a group that there is not, and a brief that
    cannot be used.
    """
    clients = clients_in(output)
    lawns = in_group(clients, group)
    briefs = ((lawn, checked_file(lawn / BRIEF).brief) for lawn in lawns)
    return tuple(
        (lawn, ", ".join(filter(None, (lawn.name, clients[lawn].name, clients[lawn].address))))
        for lawn, brief in briefs
        if brief.leveling.survey is None
    )
