"""Which part of the lawn a job is for: its share, and what it is called where it is not all."""

from collections.abc import Iterable
from dataclasses import dataclass

from turfplan.message import Message, listed
from turfplan.phrases import places as phrases
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.operations import Extent
from turfplan.work.where_spread import all_but


@dataclass(frozen=True, slots=True)
class WorkPlace:
    """A part of the lawn: its share of the area, 0 to 1, and its name; None for the whole lawn.

    `step` says what is done about its bounds, where that differs from other parts.
    """

    share: float = 1.0
    name: Message | None = None
    step: Message | None = None

    def extent(self, setting: ResolvedLawn) -> Extent:
        """How much there is to do of it."""
        area_m2 = setting.plot.area_m2 * self.share
        return Extent(area_m2, where=self.name, where_step=self.step)


def these(names: Iterable[Message]) -> Message:
    """Some parts of the lawn, one after the other."""
    return phrases.these(parts=listed(names))


def sown_place(setting: ResolvedLawn) -> WorkPlace:
    """What of the lawn may be sown or planted."""
    return WorkPlace(setting.sowing.share, all_but(setting.sowing.unsown))


def mended_place(setting: ResolvedLawn) -> WorkPlace:
    """What of the lawn is sown or planted: of turf that is mended the spots alone."""
    whole = sown_place(setting)
    if setting.mended_share >= 1:
        return whole
    unsown, spots = setting.sowing.unsown, (phrases.spots(),)
    name = (
        phrases.these_but(parts=listed(spots), spared=listed(unsown, "or"))
        if unsown
        else phrases.these(parts=listed(spots))
    )
    return WorkPlace(whole.share * setting.mended_share, name)


def renewed_place(setting: ResolvedLawn) -> WorkPlace:
    """The ground that is made anew where no living grass is kept: what is sown, else filled."""
    if setting.sowing.operation is not None:
        return sown_place(setting)
    return filled_place(setting)


def filled_place(setting: ResolvedLawn) -> WorkPlace:
    """The lawn without what nothing may be spread on."""
    spared = [part for part in setting.plot.parts if not part.filled]
    return WorkPlace(1.0 - sum(part.share for part in spared), all_but([p.name for p in spared]))
