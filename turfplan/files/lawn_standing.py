"""What a business keeps beside a lawn of how its client stands: pauses, callbacks, who had it
before, that its client has left; and above all lawns the rules of groups and places."""

from datetime import date
from pathlib import Path

from pydantic import BaseModel, ConfigDict

from turfplan.business.callback import Callback
from turfplan.business.lawn_pauses import Pause
from turfplan.business.place_rules import PlaceRule
from turfplan.business.quote_record import Quote
from turfplan.files.data_folder import CALLBACKS, LEFT, OWNERS, PAUSES, QUOTES, RULES
from turfplan.files.kept_record import KeptRecord, read_kept, write_kept


class KeptPauses(KeptRecord):
    """All pauses of a lawn, in the order in which they were written."""

    pauses: tuple[Pause, ...] = ()


class KeptQuotes(KeptRecord):
    """All quotes of a lawn, the latest last."""

    quotes: tuple[Quote, ...] = ()


class KeptRules(KeptRecord):
    """All rules of groups and places, in the order in which they were written."""

    rules: tuple[PlaceRule, ...] = ()


class KeptCallbacks(KeptRecord):
    """All callbacks of a lawn, by number."""

    callbacks: tuple[Callback, ...] = ()


class FormerOwner(BaseModel):
    """Who had a lawn until it was sold on `sold_on`: the client as it was written (`text`), what
    was offered then, the days last told (JSON), and the `days` on which nobody was at home (TOML);
    `name` as it stands in records of work."""

    model_config = ConfigDict(frozen=True, extra="ignore")
    sold_on: date
    name: str
    text: str
    quotes: tuple[Quote, ...] = ()
    told: str = ""
    days: str = ""
    by: str = ""


class KeptOwners(KeptRecord):
    """Who had a lawn before, the latest last."""

    owners: tuple[FormerOwner, ...] = ()


class KeptLeft(KeptRecord):
    """That the client of a lawn in the archive has left, and why; its row brings it back no more.

    `lawn` is what its folder was called."""

    lawn: str
    on: date
    by: str = ""
    note: str = ""


def read_pauses(folder: Path) -> tuple[Pause, ...]:
    """The pauses of a lawn; raises TurfplanError for a record that cannot be read, as all here
    do."""
    kept = read_kept(folder / PAUSES, KeptPauses)
    return kept.pauses if kept is not None else ()


def write_pauses(folder: Path, pauses: tuple[Pause, ...]) -> None:
    """Keep the pauses of a lawn."""
    write_kept(folder / PAUSES, KeptPauses(pauses=pauses))


def read_quotes(folder: Path) -> tuple[Quote, ...]:
    """The quotes of a lawn, the latest last."""
    kept = read_kept(folder / QUOTES, KeptQuotes)
    return kept.quotes if kept is not None else ()


def read_rules(output: Path) -> tuple[PlaceRule, ...]:
    """The rules of a data folder."""
    kept = read_kept(output / RULES, KeptRules)
    return kept.rules if kept is not None else ()


def write_rules(output: Path, rules: tuple[PlaceRule, ...]) -> None:
    """Keep the rules of a data folder."""
    write_kept(output / RULES, KeptRules(rules=rules))


def read_callbacks(folder: Path) -> tuple[Callback, ...]:
    """The callbacks of a lawn."""
    kept = read_kept(folder / CALLBACKS, KeptCallbacks)
    return kept.callbacks if kept is not None else ()


def write_callbacks(folder: Path, callbacks: tuple[Callback, ...]) -> None:
    """Keep the callbacks of a lawn."""
    write_kept(folder / CALLBACKS, KeptCallbacks(callbacks=callbacks))


def read_owners(folder: Path) -> tuple[FormerOwner, ...]:
    """Who had a lawn before."""
    kept = read_kept(folder / OWNERS, KeptOwners)
    return kept.owners if kept is not None else ()


def read_left(folder: Path) -> KeptLeft | None:
    """That the client of a lawn has left; None where that is not so."""
    return read_kept(folder / LEFT, KeptLeft)
