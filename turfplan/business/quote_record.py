"""The frozen records of quotes: what was offered, at which prices, and what became of it."""

from collections.abc import Mapping
from datetime import date
from decimal import Decimal
from typing import Literal

from pydantic import BaseModel, ConfigDict

QuoteState = Literal["offered", "accepted", "declined", "run_out", "withdrawn"]
LineKind = Literal["people", "machine", "material", "delivery", "minimum"]


class _Frozen(BaseModel):
    model_config = ConfigDict(frozen=True, extra="ignore")


class QuoteLine(_Frozen):
    """One line: so much (`quantity` in `unit`) of something, the price of one unit, and of all."""

    kind: LineKind
    name: str = ""
    quantity: Decimal
    unit: str
    unit_price: Decimal
    price: Decimal


class QuotedJob(_Frozen):
    """A job of the plan as it was offered: its days, and the hours of all people; `main` is what
    the season is about, `name` what such work is called in short."""

    task: str
    title: str
    start: date
    end: date
    hours: float
    main: bool = False
    name: str = ""


class MaterialRate(_Frozen):
    """What one unit of a material costs."""

    item: str
    unit: str
    price: Decimal


class MachineRate(_Frozen):
    """What an hour of a machine costs, and how much it does in one (m2, m3)."""

    name: str
    kind: str
    price: Decimal
    area_per_hour_m2: float | None = None
    volume_per_hour_m3: float | None = None


class Rates(_Frozen):
    """The price list of one client, of the day of an offer; None where it says nothing.

    `hours` says of operations how many times the hours of a plan they take. `minor_digits` are the
    decimals of `currency`; `tax_percent` is on the sum of all lines.
    """

    currency: str
    minor_digits: int
    person_hour: Decimal | None = None
    delivery: Decimal | None = None
    minimum: Decimal | None = None
    materials: tuple[MaterialRate, ...] = ()
    machines: tuple[MachineRate, ...] = ()
    hours: Mapping[str, float] = {}
    tax_name: str = ""
    tax_percent: Decimal = Decimal(0)


class QuoteChoice(_Frozen):
    """One way to do it with its price: what it changes in the brief, its jobs, its lines, and what
    of the plan is not in the price.

    `net` is the sum of the lines, `tax` what is on it, `total` both. `assumed` and `may_change` are
    what the plan says, as clients are told it; `revision` is the plan's, where it is the one that
    stands.
    """

    name: str
    changes: Mapping[str, str] = {}
    revision: int | None = None
    jobs: tuple[QuotedJob, ...] = ()
    by_client: tuple[str, ...] = ()
    lines: tuple[QuoteLine, ...]
    unpriced: tuple[str, ...] = ()
    assumed: tuple[str, ...] = ()
    may_change: tuple[str, ...] = ()
    net: Decimal
    tax: Decimal
    total: Decimal


class QuoteChange(_Frozen):
    """A later change of an accepted quote with its price; it may be less than nothing."""

    number: int
    on: date
    text: str
    net: Decimal
    tax: Decimal
    total: Decimal


class Quote(_Frozen):
    """An offer to a client: its choices, until when it holds, and what became of it.

    `said` is the state that was written, by `said_on`; `accepted` is the place of the choice that
    was taken, `replaced` what the brief said before of the keys that it changed (None: nothing).
    What was accepted stands as it was offered, whatever prices or plan say later.
    """

    number: str
    on: date
    until: date | None = None
    rates: Rates
    terms: tuple[str, ...] = ()
    pay_days: int | None = None
    choices: tuple[QuoteChoice, ...]
    said: Literal["offered", "accepted", "declined", "withdrawn"] = "offered"
    said_on: date | None = None
    accepted: int | None = None
    replaced: Mapping[str, str | None] = {}
    later: tuple[QuoteChange, ...] = ()

    def state(self, today: date) -> QuoteState:
        """What it is on a day: an offer runs out after its last day."""
        over = self.said == "offered" and self.until is not None and self.until < today
        return "run_out" if over else self.said

    @property
    def total(self) -> Decimal:
        """What it comes to: the choice taken with all later changes, else the first choice."""
        chosen = self.choices[self.accepted or 0].total
        return chosen + sum((change.total for change in self.later), Decimal(0))
