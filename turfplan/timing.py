"""The closed vocabulary of timing: what may open or close the window of an operation.

Numbers are names of facts. A condition that can never hold at a place (a threshold that is not crossed, a frost that does
not come) is either ignored or closes the window altogether, as `never` says.
"""

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field


class Condition(BaseModel):
    """Base of every condition: frozen, unknown keys forbidden."""

    model_config = ConfigDict(frozen=True, extra="forbid")
    never: Literal["ignore", "closed"] = "closed"
    shift: str | None = None


class AirRising(Condition):
    """The normal daily mean air temperature rises through a threshold.

    `latest` is the day, counted from the hottest one, from which the condition holds anyway: in mild summers growth is then as
    strong as it gets.
    """

    kind: Literal["air_rising"]
    threshold: str
    latest: str | None = None


class AirFalling(Condition):
    """The normal daily mean air temperature falls through a threshold.

    With `only_above` it counts only where the hottest day is warmer than that: cool summers are timed by other things.
    """

    kind: Literal["air_falling"]
    threshold: str
    only_above: str | None = None


class SoilRising(Condition):
    """The normal soil temperature at 10 cm rises through a threshold."""

    kind: Literal["soil_rising"]
    threshold: str


class SoilFalling(Condition):
    """The normal soil temperature at 10 cm falls through a threshold."""

    kind: Literal["soil_falling"]
    threshold: str


class FromFrost(Condition):
    """So many days after (or, negative, before) the median last or first frost; or so many before the first one."""

    kind: Literal["last_frost", "first_frost", "before_first_frost"]
    days: str


class FromHottest(Condition):
    """So many days after the hottest day of the year."""

    kind: Literal["hottest"]
    days: str


class FromColdest(Condition):
    """So many days after the coldest day of the year."""

    kind: Literal["coldest"]
    days: str


class GrowthRising(Condition):
    """Growth potential of the grass rises through a share of its best."""

    kind: Literal["growth_rising"]
    threshold: str


class GrowthFalling(Condition):
    """Growth potential of the grass falls through a share of its best."""

    kind: Literal["growth_falling"]
    threshold: str


class DegreeDaysLeft(Condition):
    """The last day with so many degree days over a base still to come before the median first frost."""

    kind: Literal["degree_days_left"]
    sum: str
    base: str


class WarmthLeft(Condition):
    """The last day with so many degree days over a base still to come before the coldest day of the year."""

    kind: Literal["warmth_left"]
    sum: str
    base: str


AnyCondition = Annotated[
    AirRising | AirFalling | SoilRising | SoilFalling | FromFrost | FromHottest | FromColdest | GrowthRising | GrowthFalling
    | DegreeDaysLeft | WarmthLeft,
    Field(discriminator="kind"),
]  # fmt: skip


class WindowRule(BaseModel):
    """When an operation is open: the latest of `opens` to the earliest of `closes`, best at a share of the way.

    `grass` is cool, warm or any; `species` narrows it further. `half` says where in the year the rule looks: rising is
    from the coldest day to the hottest, falling from the hottest to the next coldest. Names of facts may hold `{species}`.
    `best` is the share of the way from the first day to the last at which the best day lies; with `best_within` it lies no
    more than so many days after the first, however long the window.
    """

    model_config = ConfigDict(frozen=True, extra="forbid")
    id: str
    operation: str
    grass: Literal["cool", "warm", "any"]
    species: tuple[str, ...] = ()
    half: Literal["rising", "falling", "across"]
    opens: tuple[AnyCondition, ...]
    closes: tuple[AnyCondition, ...]
    best: str
    best_within: str | None = None
    least_days: str = "windows.least_days"
    setting: str | None = None
    reason: str
    source: str

    def fact_names(self) -> tuple[str, ...]:
        """The facts that the rule names, except those that depend on the species."""
        names = [self.best, self.least_days, *([self.best_within] if self.best_within else [])]
        for condition in (*self.opens, *self.closes):
            names += [
                value
                for key, value in condition.model_dump().items()
                if key not in ("kind", "never") and isinstance(value, str) and "{" not in value
            ]
        return tuple(names)
