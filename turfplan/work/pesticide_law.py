"""Where the law closes lawns to weed, insect and disease killers that serve their looks alone."""

from turfplan.book.citations import who_says
from turfplan.message import Message
from turfplan.phrases import pesticide_law as phrases
from turfplan.records.book_names import NamedFact, option_of_family
from turfplan.work.lawn import ResolvedLawn

LABEL = "pesticide_label"  # the caution of operations that may use such a product
# A country whose provinces and towns have rules of their own.
RULED_BY_PROVINCE = "CA"


def closed_by(setting: ResolvedLawn) -> NamedFact | None:
    """The rule of the state or the country that closes lawns to them; None where none is known."""
    country = (setting.country or "").lower()
    state = setting.brief.place.state or setting.climate.state or ""
    for place in (f"{country}_{state}".lower(), country):
        name = setting.book.known(option_of_family("law.{state}_pesticides_closed", place))
        if name is not None:
            return name
    return None


def told_of_law(setting: ResolvedLawn) -> Message | None:
    """What is said of it where such a product may come up: closed, or to be asked for."""
    name = closed_by(setting)
    if name is not None:
        fact = setting.book.fact(name)
        return phrases.closed(year=str(round(fact.si)), source=who_says(setting.book, fact.source))
    return phrases.ask() if setting.country == RULED_BY_PROVINCE else None


def takes_preventer(setting: ResolvedLawn) -> bool:
    """Whether a crabgrass preventer is sold to lawns here, and no known law closes them to it."""
    sold = setting.country in setting.book.operations["preemergent"].countries
    return sold and closed_by(setting) is None
