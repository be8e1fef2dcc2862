"""What the same hands have promised elsewhere: hours of days, and visits that can be shared.

Days are ordinals.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Elsewhere:
    """The person-hours that are taken on days, and the days on which a supplier comes to the house
    (`delivery`), or somebody goes to a shop (`collect`), in any case."""

    hours: tuple[tuple[int, float], ...] = ()
    visits: tuple[tuple[str, int], ...] = ()

    def taken(self, day: int) -> float:
        """The hours of a day that are taken."""
        return dict(self.hours).get(day, 0.0)


NOTHING_ELSEWHERE = Elsewhere()
