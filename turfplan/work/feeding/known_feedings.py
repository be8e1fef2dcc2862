"""Feedings that a plan before named keep their names: what was given is not planned once more, and
what is to come is not told as something else because a feeding before it is there no longer."""

import re
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import date

from turfplan.records.past import KnownFeeding
from turfplan.work.feeding.feedings import NitrogenFeeding

_SEASONS = frozenset({"spring", "summer", "autumn", "winter"})
_NUMBER = re.compile(r"(?P<kin>.*?[^\d])(?P<number>\d*)")


def with_known_keys(
    feeds: Sequence[NitrogenFeeding], known: Sequence[KnownFeeding], today: date, within_days: int
) -> tuple[NitrogenFeeding, ...]:
    """The feedings, in order of time, by the keys that a plan before gave them: each that lies
    `within_days` of one of its own kind is that one, what is over first, then the nearest.

    What lies in the past and was in no plan is left out; others get keys that are not taken.
    """
    pairs = sorted(
        (not old.over, abs((feed.best - old.on).days), place, old.key)
        for place, feed in enumerate(feeds)
        for old in known
        if _kind(feed.key) == _kind(old.key) and abs((feed.best - old.on).days) <= within_days
    )
    names: dict[int, str] = {}
    for _, _, place, key in pairs:
        if place not in names and key not in names.values():
            names[place] = key
    numbers = _highest(old.key for old in known)
    named = []
    for place, feed in enumerate(feeds):
        if place in names:
            named.append(replace(feed, key=names[place]))
        elif feed.end >= today:
            kin = _kin(feed.key)
            numbers[kin] += 1
            again = numbers[kin] > 1
            named.append(replace(feed, key=f"{kin}{numbers[kin]}" if again else kin))
    return tuple(named)


def _highest(keys: Iterable[str]) -> Counter[str]:
    found: Counter[str] = Counter()
    for key in keys:
        found[_kin(key)] = max(found[_kin(key)], _number(key))
    return found


def _kin(key: str) -> str:
    match = _NUMBER.fullmatch(key)
    return key if match is None else match["kin"]


def _number(key: str) -> int:
    match = _NUMBER.fullmatch(key)
    return int(match["number"] or 1) if match else 1


def _kind(key: str) -> str:
    """What a feeding is for: those that follow the season are alike, by whatever season they are
    called."""
    kin = _kin(key)
    return "season" if kin in _SEASONS else kin
