"""Rules that hold for a group of clients or a place, such as a watering ban or a permit."""

import hashlib
from collections.abc import Iterable
from datetime import date
from typing import Literal

from pydantic import BaseModel, ConfigDict

from turfplan.business.client_record import Client
from turfplan.records.brief import Brief, Span

PlaceKey = Literal["postal_code", "town", "state", "region", "country"]
PLACE_KEYS: tuple[PlaceKey, ...] = ("postal_code", "town", "state", "region", "country")


class PlaceRule(BaseModel):
    """What holds for the clients that have `value` in `column`, a column of the business's own or a
    key of the place: watering is banned (`banned`), or a permit can be had or not (`permit`).

    Without a column it holds for all. `name` is that of the call that wrote it.
    """

    model_config = ConfigDict(frozen=True, extra="ignore")
    name: str
    column: str | None = None
    value: str = ""
    of_place: bool = False
    banned: Span | None = None
    permit: bool | None = None
    on: date
    by: str = ""
    note: str = ""

    def holds_for(self, brief: Brief, client: Client) -> bool:
        """Whether it holds for a lawn."""
        if self.column is None:
            return True
        if self.of_place:
            said = getattr(brief.place, self.column)
            return said is not None and str(said).casefold() == self.value.casefold()
        column, value = self.column.casefold(), self.value.casefold()
        return any(
            name.casefold() == column and told.strip().casefold() == value
            for name, told in client.own.items()
        )


def rules_for(rules: Iterable[PlaceRule], brief: Brief, client: Client) -> tuple[PlaceRule, ...]:
    """The rules that hold for a lawn."""
    return tuple(rule for rule in rules if rule.holds_for(brief, client))


def with_rules(brief: Brief, rules: Iterable[PlaceRule]) -> Brief:
    """A brief with what rules say of its watering; of several permits the last counts."""
    water, given = brief.water, tuple(rules)
    banned = tuple(rule.banned for rule in given if rule.banned is not None)
    permits = [rule.permit for rule in given if rule.permit is not None]
    if not banned and not permits:
        return brief
    added = tuple(span for span in dict.fromkeys(banned) if span not in water.banned)
    update: dict[str, object] = {"banned": (*water.banned, *added)}
    if permits:
        update["permit"] = permits[-1]
    return brief.model_copy(update={"water": water.model_copy(update=update)})


def sum_of_rules(rules: Iterable[PlaceRule]) -> str:
    """What tells whether rules say something else than before: empty without any."""
    said = "\n".join(f"{rule.banned!r} {rule.permit}" for rule in rules)
    return hashlib.sha256(said.encode()).hexdigest()[:16] if said else ""
