"""Which part of the lawn a job is for: its share, and what it is called where it is not all."""

from collections.abc import Iterable
from dataclasses import dataclass

from turfplan.message import Listed, Message, listed
from turfplan.phrases import places as phrases
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.operations import Extent
from turfplan.work.where_spread import HAIR, all_but

_BUT_LIFTED = frozenset({phrases.lifted().key, phrases.hollows_left().key})


@dataclass(frozen=True, slots=True)
class WorkPlace:
    """A part of the lawn: its share of the area, 0 to 1, and its name; None for the whole lawn.

    `step` says what is done about its bounds, where that differs from other parts. `spared` are the
    parts that the name leaves out.
    """

    share: float = 1.0
    name: Message | None = None
    step: Message | None = None
    spared: tuple[Message, ...] = ()

    def extent(self, setting: ResolvedLawn) -> Extent:
        """How much there is to do of it."""
        area_m2 = setting.plot.area_m2 * self.share
        return Extent(area_m2, where=self.name, where_step=self.step)


def these(names: Iterable[Message]) -> Message:
    """Some parts of the lawn, one after the other."""
    return phrases.these(parts=listed(names))


def spots_of(names: Iterable[Message]) -> Message:
    """The spots that are mended of some parts of the lawn."""
    return phrases.spots_of(parts=listed(names))


def sown_place(setting: ResolvedLawn) -> WorkPlace:
    """What of the lawn may be sown or planted."""
    unsown = tuple(setting.sowing.unsown)
    return WorkPlace(setting.sowing.share, all_but(unsown), spared=unsown)


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


def sown_now_place(setting: ResolvedLawn, kept_wet: float) -> WorkPlace:
    """What is sown or planted in this season: all that is to be, or what of it one hose keeps wet.

    `kept_wet` is the share of the lawn that can be kept wet, 0 to 1.
    """
    mended = mended_place(setting)
    if kept_wet >= mended.share - HAIR:
        return mended
    return WorkPlace(kept_wet, phrases.kept_wet())


def grown_place(setting: ResolvedLawn, kept_wet: float) -> WorkPlace:
    """Where grass grows once the work is done: what stays bare is neither fed nor dressed.

    `kept_wet` is the share of the lawn that can be kept wet, 0 to 1.
    """
    if not setting.on_open_ground or setting.sowing.operation is None:
        return WorkPlace()
    now = sown_now_place(setting, kept_wet)
    # What is left unsown of a stand that is killed keeps its grass.
    lives_on = setting.worked == "killed" and kept_wet >= mended_place(setting).share - HAIR
    return WorkPlace() if lives_on else now


def renewed_place(setting: ResolvedLawn) -> WorkPlace:
    """The ground that is made anew where no living grass is kept: what is sown, else filled."""
    if setting.sowing.operation is not None:
        return sown_place(setting)
    return filled_place(setting)


def filled_place(setting: ResolvedLawn) -> WorkPlace:
    """The lawn without what nothing may be spread on."""
    spared = [part for part in setting.plot.parts if not part.filled]
    names = tuple(part.name for part in spared)
    return WorkPlace(1.0 - sum(part.share for part in spared), all_but(names), spared=names)


def but_relaid(setting: ResolvedLawn, place: WorkPlace) -> WorkPlace:
    """A place that is all but some parts, or the lawn, without the hollows whose turf is lifted."""
    lifted = setting.levelling.lift_share
    if not lifted:
        return place
    spared = (*place.spared, phrases.lifted())
    return WorkPlace(max(0.0, place.share - lifted), all_but(spared), spared=spared)


def leaves_lifted_out(where: Message | None) -> bool:
    """Whether the name of a place leaves out the hollows whose turf is lifted."""
    if where is None or where.key in _BUT_LIFTED:
        return where is not None
    parts = [part for _, value in where.values if isinstance(value, Listed) for part in value.items]
    return any(leaves_lifted_out(part) for part in parts if isinstance(part, Message))
