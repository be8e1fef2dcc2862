"""The public holidays of a country's year, kept in the user's cache.

Asked for one country the library reads the modules of all, which takes a quarter of a plan's time.
"""

import hashlib
import json

from turfplan.planning.installed import version_of
from turfplan.planning.public_holidays import listed_holidays
from turfplan.user_cache import keep, kept


def holidays_of_year(country: str, part: str | None, year: int) -> frozenset[int]:
    """The holidays of a year as ordinals; what another version of the library listed is not
    read."""
    name = f"holidays-{hashlib.sha256(repr((country, part, year)).encode()).hexdigest()[:16]}.json"
    made_from = version_of("holidays").encode()
    if (text := kept(name, made_from)) is not None:
        return frozenset(json.loads(text))
    found = listed_holidays(country, part, year)
    keep(name, made_from, json.dumps(sorted(found)).encode())
    return found
