"""Writes rules that hold for a group of clients or a place, and ends them."""

import hashlib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from pydantic import ValidationError

from turfplan.app.data_folders import clients_in
from turfplan.business.groups import ClientGroup, in_group
from turfplan.business.place_rules import PLACE_KEYS, PlaceKey, PlaceRule, rules_for
from turfplan.errors import Problem, TurfplanError, did_you_mean
from turfplan.files.data_folder import BRIEF
from turfplan.files.lawn_standing import read_rules, write_rules
from turfplan.files.plan_folder import folder_lock
from turfplan.files.reading.brief import read_brief
from turfplan.files.reading.business import read_client
from turfplan.message import Days, Message
from turfplan.phrases import standing as phrases
from turfplan.records.brief import Span


@dataclass(frozen=True, slots=True)
class WrittenRule:
    """A rule, and the lawns for which it holds now."""

    rule: PlaceRule
    lawns: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class AskedRule:
    """What is to hold, for a group or a place (key and value), else for all; who says so."""

    banned: Span | None = None
    permit: bool | None = None
    group: ClientGroup | None = None
    place: tuple[PlaceKey, str] | None = None
    by: str = ""
    note: str = ""


def add_rule(output: Path, asked: AskedRule, today: date, *, dry: bool = False) -> WrittenRule:
    """Write a rule, not with `dry`; the same rule again is one.

    Raises TurfplanError for a group or a place that no lawn has, and for records and briefs that
    cannot be read.
    """
    clients = clients_in(output)
    rule = _rule(asked, today)
    if asked.group is not None:
        lawns = tuple(folder.name for folder in in_group(clients, asked.group))
    else:
        lawns = tuple(
            folder.name
            for folder, client in clients.items()
            if rule.holds_for(read_brief(folder / BRIEF).brief, client)
        )
    if not lawns:
        raise TurfplanError(Problem("--place", phrases.nobody_there(), rule.value))
    with folder_lock(output):
        known = read_rules(output)
        if not dry and all(one.name != rule.name for one in known):
            write_rules(output, (*known, rule))
    return WrittenRule(rule, lawns)


def undo_rule(output: Path, name: str) -> PlaceRule:
    """End a rule; raises TurfplanError where none of that name holds."""
    with folder_lock(output):
        known = read_rules(output)
        found = [rule for rule in known if rule.name == name]
        if not found:
            names = [rule.name for rule in known]
            hint = did_you_mean(name, names)
            raise TurfplanError(Problem("--undo", phrases.no_such_call(), name, None, hint))
        write_rules(output, tuple(rule for rule in known if rule.name != name))
    return found[0]


def list_rules(output: Path) -> tuple[PlaceRule, ...]:
    """The rules that are written; raises TurfplanError for a folder without lawns."""
    clients_in(output)
    return read_rules(output)


def rules_of_lawns(output: Path, folders: Iterable[Path]) -> Mapping[Path, tuple[PlaceRule, ...]]:
    """The rules of each lawn; none where nothing is written, and for a brief or a client that
    cannot be read, whose faults are told where the lawn is planned."""
    rules = read_rules(output)
    found = {}
    for folder in folders if rules else ():
        try:
            brief, client = read_brief(folder / BRIEF).brief, read_client(folder)
        except TurfplanError:
            continue
        found[folder] = rules_for(rules, brief, client)
    return found


def ban_of(text: str) -> Span:
    """A ban as it is typed, FROM..TO; raises TurfplanError for another text."""
    start, dots, end = (part.strip() for part in text.partition(".."))
    try:
        if dots:
            return Span.model_validate({"from": start, "to": end})
    except ValidationError:
        pass  # Told below, with what such a text looks like.
    fault = phrases.not_a_ban()
    raise TurfplanError(Problem("--ban", fault, repr(text), phrases.such_a_ban()))


def place_of(text: str) -> tuple[PlaceKey, str]:
    """A place as it is typed, KEY=VALUE; raises TurfplanError for another text."""
    key, equals, value = (part.strip() for part in text.partition("="))
    found: PlaceKey | None = next((name for name in PLACE_KEYS if name == key.casefold()), None)
    if found is None or not equals or not value:
        wanted = phrases.such_a_place(keys=", ".join(PLACE_KEYS))
        fault = phrases.not_a_place()
        near = did_you_mean(key, PLACE_KEYS)
        raise TurfplanError(Problem("--place", fault, repr(text), wanted, near))
    return found, value


def said_of(rule: PlaceRule) -> tuple[Message, ...]:
    """What a rule says."""
    said = []
    if rule.banned is not None:
        said.append(phrases.rule_ban(days=Days(rule.banned.start, rule.banned.end, weekday=False)))
    if rule.permit is not None:
        said.append(phrases.rule_permit() if rule.permit else phrases.rule_no_permit())
    return tuple(said)


def _rule(asked: AskedRule, today: date) -> PlaceRule:
    group, place = asked.group, asked.place
    column = group.column if group is not None else place[0] if place is not None else None
    value = group.value if group is not None else place[1] if place is not None else ""
    said = f"{column} {value.casefold()} {place is not None} {asked.banned!r} {asked.permit}"
    return PlaceRule(
        name=hashlib.sha256(said.encode()).hexdigest()[:12],
        column=column,
        value=value,
        of_place=place is not None,
        banned=asked.banned,
        permit=asked.permit,
        on=today,
        by=asked.by,
        note=asked.note,
    )
