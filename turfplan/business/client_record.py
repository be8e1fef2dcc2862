"""The frozen record of a client, as `client.toml` beside a lawn's brief says it."""

from collections.abc import Mapping
from typing import Annotated, Self

from pydantic import Field, model_validator

from turfplan.business.business_record import Latitude, Longitude, Price
from turfplan.calendar_days import WEEKDAYS, Weekday
from turfplan.errors import FormError
from turfplan.phrases import business as phrases
from turfplan.records.brief import Brief, BriefTable, LanguageCode
from turfplan.work.days_off import usual_weekdays

ClientLine = Annotated[str, Field(min_length=1, max_length=1000)]


class Client(BriefTable):
    """Whose lawn it is and how one gets to it: nothing here is planned with but the weekdays on
    which nobody may come (`barred_weekdays`).

    `prices` are those agreed with this client alone; `own` are the columns of the business's own
    client file, as they were written.
    """

    name: ClientLine | None = None
    address: ClientLine | None = None
    latitude: Latitude | None = None
    longitude: Longitude | None = None
    telephone: ClientLine | None = None
    access: ClientLine | None = None
    barred_weekdays: tuple[Weekday, ...] = ()
    language: LanguageCode | None = None
    prices: Mapping[str, Price] = {}
    own: Mapping[str, str] = {}

    @model_validator(mode="after")
    def _is_somewhere(self) -> Self:
        if (self.latitude is None) != (self.longitude is None):
            raise FormError(phrases.coordinates_together())
        if len(set(self.barred_weekdays)) == len(WEEKDAYS):
            raise FormError(phrases.all_barred())
        return self


def without_barred(brief: Brief, client: Client) -> Brief:
    """A brief whose days of work leave out those on which its client lets nobody come.

    Raises FormError where none is left.
    """
    if not client.barred_weekdays:
        return brief
    left = tuple(day for day in usual_weekdays(brief) if day not in client.barred_weekdays)
    if not left:
        raise FormError(phrases.all_barred())
    calendar = brief.calendar.model_copy(update={"weekdays": left})
    return brief.model_copy(update={"calendar": calendar})
