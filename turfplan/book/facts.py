"""A number of the trade with its unit, its source and the place in that source."""

from typing import Literal, Self

from pydantic import BaseModel, ConfigDict, model_validator

from turfplan.errors import FormError
from turfplan.message import Number
from turfplan.phrases import book_faults as phrases
from turfplan.units import convert, dimension_of

Basis = Literal[
    "read", "secondary", "derived", "computed", "memory", "judgement", "common_practice"
]
# What a judgement judges: when and how work is laid out, which is taste, or what grass and ground
# bear, for which a publication is still wanted.
Judges = Literal["schedule", "agronomy"]


class Source(BaseModel):
    """A publication, an institution's page or a data set that facts are taken from."""

    model_config = ConfigDict(frozen=True, extra="forbid", defer_build=True)
    id: str
    title: str
    institution: str
    address: str | None = None
    year: int | None = None


class Fact(BaseModel):
    """One entry of the book: a number (or a low and a high), its unit, and where it comes from.

    `value` is the default; with only `low` and `high` the default is their middle. `source` is the
    id of a source, or `judgement` (then `note` says why) or `common_practice`. `place` is the page,
    table or equation in the source; how a number was derived from it stands in `note`. `judges`
    says what a judgement judges.
    """

    model_config = ConfigDict(frozen=True, extra="forbid", defer_build=True)
    name: str
    value: float | None = None
    low: float | None = None
    high: float | None = None
    unit: str
    source: str
    place: str | None = None
    note: str | None = None
    basis: Basis = "read"
    judges: Judges | None = None

    @model_validator(mode="after")
    def _complete(self) -> Self:
        if self.value is None and (self.low is None or self.high is None):
            raise FormError(phrases.needs_value())
        if self.low is not None and self.high is not None and self.low > self.high:
            raise FormError(
                phrases.low_above_high(
                    low=Number(self.low, "plain"), high=Number(self.high, "plain")
                )
            )
        if self.value is not None and not (
            (self.value if self.low is None else self.low)
            <= self.value
            <= (self.value if self.high is None else self.high)
        ):
            raise FormError(phrases.value_outside())
        if self.source == "judgement" and not self.note:
            raise FormError(phrases.judgement_note())
        if self.judges is not None and self.source != "judgement":
            raise FormError(phrases.judges_no_judgement())
        if dimension_of(self.unit) is None:
            raise FormError(phrases.unknown_unit(unit=repr(self.unit)))
        return self

    @property
    def dimension(self) -> str:
        """The dimension of the unit it is printed in."""
        return dimension_of(self.unit) or "count"

    @property
    def is_judgement(self) -> bool:
        """True where no source stands behind the number."""
        return self.source == "judgement"

    def _inside(self, number: float) -> float:
        return convert(number, self.unit, self.dimension)

    def _end(self, end: float | None) -> float:
        """An end of the range, or the value where there is none."""
        number = self.value if end is None else end
        assert number is not None  # a fact has a value, or both ends
        return number

    @property
    def si(self) -> float:
        """The default in the inside unit of its dimension (see `units`)."""
        if self.value is not None:
            return self._inside(self.value)
        return (self.low_si + self.high_si) / 2

    @property
    def low_si(self) -> float:
        """The low end in the inside unit; the value where there is no range."""
        return self._inside(self._end(self.low))

    @property
    def high_si(self) -> float:
        """The high end in the inside unit; the value where there is no range."""
        return self._inside(self._end(self.high))
