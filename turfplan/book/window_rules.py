"""The closed vocabulary of timing: what may open or close the window of an operation.

Numbers are names of facts. A condition that can never hold at a place (a threshold that is not
crossed, a frost that does not come) is either ignored or closes the window altogether, as `never`
says.
"""

from collections.abc import Iterator
from typing import Annotated, ClassVar, Literal

from pydantic import BaseModel, ConfigDict, Field

from turfplan.records.book_names import NamedFact, OperationName, WindowSetting

# The dimension of what each key of a condition names; that of a threshold is its condition's own.
_DIMENSIONS = {
    "shift": "days",
    "yields": "days",
    "threshold": "",
    "days": "days",
    "cool_days": "days",
    "mild_days": "days",
    "mild_last": "days",
    "cool_threshold": "",
    "earliest": "days",
    "sooner_nights": "temperature",
    "sum": "degree_days",
    "base": "temperature",
    "killing": "temperature",
    "surplus": "water_depth_rate",
}


class WindowCondition(BaseModel):
    """Base of every condition: frozen, unknown keys forbidden.

    One that `yields` says what is best, not what makes or ends the season. It closes a window, but
    never sooner than so many days after it opened; or it opens one, but sooner than it would where
    fewer days than that were left before another condition closes, down to the turn of the year.
    """

    model_config = ConfigDict(frozen=True, extra="forbid", defer_build=True)
    never: Literal["ignore", "closed"] = "closed"
    shift: NamedFact | None = None
    yields: NamedFact | None = None
    threshold_in: ClassVar[str] = "temperature"

    def facts(self) -> Iterator[tuple[NamedFact, tuple[str, ...]]]:
        """The facts that the condition names, each with the dimension it must be in."""
        for key, name in self:
            if name is not None and key in _DIMENSIONS:
                yield name, (_DIMENSIONS[key] or self.threshold_in,)


class AirRising(WindowCondition):
    """The normal daily mean air temperature rises through a threshold.

    With `cool_threshold` the mark goes over to that one, smoothly, from places with hot summers to
    those with cool ones.
    """

    kind: Literal["air_rising"]
    threshold: NamedFact
    cool_threshold: NamedFact | None = None


class AirFalling(WindowCondition):
    """The normal daily mean air temperature falls through a threshold.

    With `cool_threshold` the mark goes over to that one where summers are cool.
    """

    kind: Literal["air_falling"]
    threshold: NamedFact
    cool_threshold: NamedFact | None = None


class SoilRising(WindowCondition):
    """The normal soil temperature at 10 cm rises through a threshold.

    With `surely` the threshold counts in full only where winter goes well beyond it; where it is
    only just reached, so do few years.
    """

    kind: Literal["soil_rising"]
    threshold: NamedFact
    surely: bool = False


class SoilFalling(WindowCondition):
    """The normal soil temperature at 10 cm falls through a threshold; `surely` as for its rise.

    With `sooner_nights` the normal nightly low falling through that does as well, where it is
    sooner: in deserts the soil stays warm for weeks after the nights have cooled.
    """

    kind: Literal["soil_falling"]
    threshold: NamedFact
    surely: bool = False
    sooner_nights: NamedFact | None = None


class FromFrost(WindowCondition):
    """So many days after (or, negative, before) the median last or first frost.

    Or so many before the first one.
    """

    kind: Literal["last_frost", "first_frost", "before_first_frost"]
    days: NamedFact


class FromHottest(WindowCondition):
    """So many days after the hottest day of the year.

    With `cool_days` their number goes over to that one, smoothly, from places with hot summers to
    those with cool ones. With `even` it goes over, where all months are alike, to the height of
    summer itself or to the depth of the winter that follows.
    """

    kind: Literal["hottest"]
    days: NamedFact
    cool_days: NamedFact | None = None
    even: Literal["summer", "winter"] | None = None


class NightsFalling(WindowCondition):
    """So many days (`days`, negative: before) from the fall of the normal nightly low through a
    threshold.

    Never sooner than `earliest`, counted from the hottest day. With `mild_days` their number goes
    over to that one, smoothly, from places with cold winters to those without any: up to the day
    `mild_last`, counted from the hottest, beyond which mildness puts nothing off.
    """

    kind: Literal["nights_falling"]
    threshold: NamedFact
    days: NamedFact
    mild_days: NamedFact | None = None
    mild_last: NamedFact | None = None
    earliest: NamedFact


class FromColdest(WindowCondition):
    """So many days after the coldest day of the year; with `even`, where all months are alike, that
    day itself.
    """

    kind: Literal["coldest"]
    days: NamedFact
    even: Literal["winter"] | None = None


class GrowthRising(WindowCondition):
    """Growth potential of the grass rises through a share, as the air warms.

    With `of_best` it is a share of what the summer of the place brings at best.
    """

    kind: Literal["growth_rising"]
    threshold_in: ClassVar[str] = "share"
    threshold: NamedFact
    cool_threshold: NamedFact | None = None
    of_best: bool = False


class GrowthLeft(WindowCondition):
    """Growth potential at the mean air of the coming `days` falls through a share: what is done
    later has too little growth to follow."""

    kind: Literal["growth_left"]
    threshold_in: ClassVar[str] = "share"
    threshold: NamedFact
    cool_threshold: NamedFact | None = None
    days: NamedFact
    of_best: bool = False


class Drying(WindowCondition):
    """The usual rain of the coming `days` exceeds their evapotranspiration by no more than
    `surplus`: the soil is no longer wet."""

    kind: Literal["drying"]
    surplus: NamedFact
    days: NamedFact


class DegreeDaysLeft(WindowCondition):
    """The last day with so many degree days over a base still to come before the median first
    frost.

    With `killing`, a temperature below freezing, they are counted to the night of such a frost: to
    the day on which the normal nightly low has fallen as far below what it is at the median first
    frost as that temperature lies below freezing.
    """

    kind: Literal["degree_days_left"]
    sum: NamedFact
    base: NamedFact
    killing: NamedFact | None = None


class WarmthLeft(WindowCondition):
    """The last day with so many degree days over a base still to come before the coldest day of the
    year."""

    kind: Literal["warmth_left"]
    sum: NamedFact
    base: NamedFact


AnyCondition = Annotated[
    AirRising
    | AirFalling
    | SoilRising
    | SoilFalling
    | FromFrost
    | FromHottest
    | FromColdest
    | NightsFalling
    | GrowthRising
    | GrowthLeft
    | Drying
    | DegreeDaysLeft
    | WarmthLeft,
    Field(discriminator="kind"),
]


class WindowRule(BaseModel):
    """When an operation is open: the latest of `opens` to the earliest of `closes`, best at a share
    of the way.

    `grass` is cool, warm or any; `species` narrows it further. `half` says where in the year the
    rule looks: rising is from the coldest day to the hottest, falling from the hottest to the next
    coldest. Names of facts may hold `{species}`. `best` is the share of the way from the first day
    to the last at which the best day lies; with `best_within` it lies no more than so many days
    after the first, however long the window, and with `cool_best_within` their number goes over to
    that one where summers are cool. With `best_with_rain` it waits, up to the height of summer, for
    the rains: for the first day on which the usual rain of so many coming days covers their
    evapotranspiration, if there is one.
    """

    model_config = ConfigDict(frozen=True, extra="forbid", defer_build=True)
    id: str
    operation: OperationName
    grass: Literal["cool", "warm", "any"]
    species: tuple[str, ...] = ()
    half: Literal["rising", "falling", "across"]
    opens: tuple[AnyCondition, ...]
    closes: tuple[AnyCondition, ...]
    best: NamedFact
    best_within: NamedFact | None = None
    cool_best_within: NamedFact | None = None
    best_with_rain: NamedFact | None = None
    least_days: NamedFact = NamedFact("windows.least_days")
    setting: WindowSetting | None = None
    unsaid: bool = False
    reason: str
    rests_on: tuple[str, ...] = Field(min_length=1)
    source: str

    def facts(self) -> Iterator[tuple[NamedFact, tuple[str, ...]]]:
        """The facts that the rule names, each with the dimensions it may be in.

        Names may hold `{species}`.
        """
        yield self.best, ("share",)
        yield self.least_days, ("days",)
        for within in (self.best_within, self.cool_best_within, self.best_with_rain):
            if within is not None:
                yield within, ("days",)
        for condition in (*self.opens, *self.closes):
            yield from condition.facts()
