"""The frozen record of a business, as `business.toml` says it."""

from collections.abc import Mapping
from datetime import date
from typing import Annotated, Any, Literal, Self

from pydantic import Field, model_validator

from turfplan.calendar_days import Weekday
from turfplan.errors import FormError
from turfplan.phrases import business as phrases
from turfplan.records.book_names import BY_HOUSEHOLD, MachineName, OperationName
from turfplan.records.brief import Area, BriefTable, LanguageCode, Length, Span, Volume
from turfplan.units import System

BusinessText = Annotated[str, Field(min_length=1, max_length=300)]
Latitude = Annotated[float, Field(ge=-90, le=90)]
Longitude = Annotated[float, Field(ge=-180, le=180)]
Price = Annotated[float, Field(ge=0)]
BusinessPercent = Annotated[float, Field(ge=0, le=100)]
HoursTimes = Annotated[float, Field(gt=0, le=20)]
LeadDays = Annotated[int, Field(ge=0, le=180)]
Weekdays = Annotated[tuple[Weekday, ...], Field(min_length=1)]


class Yard(BriefTable):
    """Where crews set out from and material is tipped; `room` is what fits there."""

    address: BusinessText | None = None
    latitude: Latitude | None = None
    longitude: Longitude | None = None
    room_m3: Volume | None = Field(None, alias="room")

    @model_validator(mode="after")
    def _has_both_coordinates(self) -> Self:
        if (self.latitude is None) != (self.longitude is None):
            raise FormError(phrases.coordinates_together())
        return self


class Machine(BriefTable):
    """A machine of the business: what it does in an hour, how wide a gate it needs, its price."""

    name: BusinessText
    kind: MachineName
    area_per_hour_m2: Area | None = Field(None, alias="area_per_hour")
    volume_per_hour_m3: Volume | None = Field(None, alias="volume_per_hour")
    gate_mm: Length | None = Field(None, alias="gate")
    price_per_hour: Price | None = None


class Crew(BriefTable):
    """People who go out together: how many, for how long, on which weekdays, with which machines;
    `truck` is what one load of their truck holds."""

    name: BusinessText
    people: Annotated[int, Field(ge=1, le=50)] = 2
    hours_per_day: Annotated[float, Field(gt=0, le=14)] = 8.0
    weekdays: Weekdays = ("mon", "tue", "wed", "thu", "fri")
    machines: tuple[BusinessText, ...] = ()
    truck_m3: Volume | None = Field(None, alias="truck")


class MaterialPrice(BriefTable):
    """What one unit of a material costs."""

    item: BusinessText
    unit: BusinessText
    price: Price


class PriceList(BriefTable):
    """The price list; prices are in `currency`, three letters of ISO 4217."""

    currency: Annotated[str, Field(pattern=r"^[A-Z]{3}$")]
    person_hour: Price | None = None
    delivery: Price | None = None
    minimum: Price | None = None
    material: tuple[MaterialPrice, ...] = ()


class Tax(BriefTable):
    """The tax on what is sold: its name and how much of the price it is."""

    name: BusinessText
    percent: BusinessPercent


class PaymentTerms(BriefTable):
    """What is agreed with clients: lines as they are printed, days to pay, days an offer holds."""

    lines: tuple[BusinessText, ...] = ()
    pay_days: Annotated[int, Field(ge=0, le=365)] | None = None
    offer_days: Annotated[int, Field(ge=1, le=365)] | None = None


class StandingChoice(BriefTable):
    """A further choice that quotes offer beside the plan, where it can be planned there: its name,
    and what it says otherwise in a brief, as `KEY = VALUE; …`."""

    name: BusinessText
    changes: BusinessText


class Supplier(BriefTable):
    """Who sells material: what, how many days ahead, on which weekdays, and how much at once."""

    name: BusinessText
    items: tuple[BusinessText, ...] = ()
    lead_days: LeadDays = 0
    weekdays: Weekdays | None = None
    closed: tuple[Span, ...] = ()
    load_m3: Volume | None = Field(None, alias="load")
    telephone: BusinessText | None = None


class Business(BriefTable):
    """A business: who it is, who works with what, what it costs, and how its client file reads.

    `lines` are licences and registrations as they are printed. `web` is the public address
    of its server. `load_percent` is the part of the
    hours of the crews that is planned with. `columns` says of a column of the client file, by its
    head, which key it holds; `brief` is what every lawn's brief says where its row says nothing.
    `hours` says of operations how many times the hours of the plan they take here.
    `choice` are further ways that every quote offers.
    `client_does` are operations that clients do themselves: in no price, and no plan knows of it.
    """

    name: BusinessText
    address: BusinessText | None = None
    telephone: BusinessText | None = None
    lines: tuple[BusinessText, ...] = ()
    web: Annotated[str, Field(pattern=r"^https?://[^\s/?#]+(/[^\s?#]*)?$")] | None = None
    language: LanguageCode | None = None
    units: System | None = None
    country: Annotated[str, Field(pattern=r"^[A-Z]{2}$")] | None = None
    state: BusinessText | None = None
    holidays: Literal["rest", "work"] = "rest"
    closed: tuple[Span, ...] = ()
    load_percent: Annotated[float, Field(gt=0, le=100)] = 100.0
    yard: Yard = Yard()
    crew: tuple[Crew, ...] = ()
    machine: tuple[Machine, ...] = ()
    prices: PriceList | None = None
    tax: Tax | None = None
    terms: PaymentTerms = PaymentTerms()
    choice: Annotated[tuple[StandingChoice, ...], Field(max_length=2)] = ()
    supplier: tuple[Supplier, ...] = ()
    client_does: tuple[OperationName, ...] = BY_HOUSEHOLD
    hours: Mapping[OperationName, HoursTimes] = {}
    columns: Mapping[str, BusinessText] = {}
    brief: Mapping[str, Any] = {}

    @model_validator(mode="after")
    def _names_agree(self) -> Self:
        for named in (self.crew, self.machine, self.supplier, self.choice):
            names = [one.name for one in named]
            twice = sorted({name for name in names if names.count(name) > 1})
            if twice:
                raise FormError(phrases.named_twice(name=twice[0]))
        known = {machine.name for machine in self.machine}
        for crew in self.crew:
            if missing := [name for name in crew.machines if name not in known]:
                raise FormError(phrases.no_such_machine(crew=crew.name, machine=missing[0]))
        return self

    @property
    def times(self) -> dict[str, float]:
        """How many times the hours of the plan its jobs take, by operation, where that was said."""
        return {str(operation): times for operation, times in self.hours.items()}

    def is_closed(self, day: date) -> bool:
        """Whether the business does not work on a day of its own choice."""
        return any(span.start <= day <= span.end for span in self.closed)
