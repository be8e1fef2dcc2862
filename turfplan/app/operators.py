"""Keeps who may sign in at the office page of a business: kinds, ends and hashed passwords."""

import secrets
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Literal

from pydantic import BaseModel, ConfigDict

from turfplan.app.data_folders import clients_in
from turfplan.app.password_hash import fault_of_password, password_hash
from turfplan.business.crew_hours import CREW_COLUMN
from turfplan.errors import Problem, TurfplanError, did_you_mean, one_of
from turfplan.files.data_folder import OPERATORS
from turfplan.files.kept_record import KeptRecord, read_kept, write_kept
from turfplan.files.plan_folder import folder_lock
from turfplan.files.reading.business import read_business
from turfplan.phrases import office as phrases
from turfplan.plain_text import plain_text

OperatorKind = Literal["office", "crew"]
LONGEST_NAME = 60
_STAMP_BYTES = 12


class Operator(BaseModel):
    """Somebody who signs in: the office, or a crew by its name, until a day (its last).

    `password` is hashed; `stamp` is another one after each change, which ends what was signed in
    before.
    """

    model_config = ConfigDict(frozen=True, extra="ignore")
    name: str
    kind: OperatorKind
    crew: str = ""
    ends: date | None = None
    since: date
    password: str
    stamp: str

    def has_ended(self, today: date) -> bool:
        """Whether the last day is over."""
        return self.ends is not None and self.ends < today


class KeptOperators(KeptRecord):
    """All operators of a business."""

    operators: tuple[Operator, ...] = ()


@dataclass(frozen=True, slots=True)
class OperatorTerms:
    """What an operator may do, until when: a `crew` by its name, else the office."""

    crew: str | None = None
    ends: date | None = None


def operators_of(output: Path) -> tuple[Operator, ...]:
    """All operators of a data folder, by name. Raises TurfplanError for a file that is damaged."""
    kept = read_kept(output / OPERATORS, KeptOperators)
    return tuple(sorted(kept.operators, key=lambda one: _key(one.name))) if kept else ()


def operator_named(operators: Sequence[Operator], name: str) -> Operator | None:
    """The operator of a name, which asks for no capitals; None where nobody has it."""
    wanted = _key(name)
    return next((one for one in operators if _key(one.name) == wanted), None)


def add_operator(
    output: Path, name: str, terms: OperatorTerms, password: str, today: date
) -> Operator:
    """Let somebody sign in. Raises TurfplanError for a name that is none or is taken, a crew that
    no lawn has, an end that is over, and a weak password; nothing is written then."""
    shown = plain_text(name)[:LONGEST_NAME]
    problems = [*_faults_of_terms(output, terms, today), *_faults_of(output, shown, password)]
    if not shown:
        problems.append(Problem("NAME", phrases.needs_name()))
    if problems:
        raise TurfplanError(problems)
    made = Operator(
        name=shown,
        kind="crew" if terms.crew is not None else "office",
        crew=_crew(output, terms.crew),
        ends=terms.ends,
        since=today,
        password=password_hash(password),
        stamp=secrets.token_urlsafe(_STAMP_BYTES),
    )
    with folder_lock(output):
        known = operators_of(output)
        if operator_named(known, shown) is not None:
            hint = phrases.change_instead()
            raise TurfplanError(Problem("NAME", phrases.name_taken(), shown, None, hint))
        _write(output, (*known, made))
    return made


def change_operator(output: Path, name: str, terms: OperatorTerms, today: date) -> Operator:
    """Give an operator other terms; what was signed in before ends. Raises TurfplanError for a name
    that nobody has, a crew that no lawn has, and an end that is over."""
    if problems := tuple(_faults_of_terms(output, terms, today)):
        raise TurfplanError(problems)
    update = {
        "kind": "crew" if terms.crew is not None else "office",
        "crew": _crew(output, terms.crew),
        "ends": terms.ends,
    }
    return _changed(output, name, lambda one: one.model_copy(update=update))


def set_password(output: Path, name: str, password: str) -> Operator:
    """Give an operator another password; what was signed in before ends. Raises TurfplanError for a
    name that nobody has, and a weak password."""
    if problems := _faults_of(output, name, password):
        raise TurfplanError(problems)
    kept = password_hash(password)
    return _changed(output, name, lambda one: one.model_copy(update={"password": kept}))


def withdraw_operator(output: Path, name: str) -> Operator:
    """Take the right to sign in from somebody; what was signed in ends. Raises TurfplanError for a
    name that nobody has."""
    with folder_lock(output):
        known = operators_of(output)
        gone = _known(known, name)
        _write(output, [one for one in known if one != gone])
    return gone


def _changed(output: Path, name: str, change: Callable[[Operator], Operator]) -> Operator:
    with folder_lock(output):
        known = operators_of(output)
        old = _known(known, name)
        stamp = {"stamp": secrets.token_urlsafe(_STAMP_BYTES)}
        new = change(old).model_copy(update=stamp)
        _write(output, [new if one == old else one for one in known])
    return new


def _known(operators: Sequence[Operator], name: str) -> Operator:
    found = operator_named(operators, name)
    if found is None:
        names = [one.name for one in operators]
        hint = did_you_mean(name, names)
        raise TurfplanError(Problem("NAME", phrases.no_operator(), name, one_of(names), hint))
    return found


def _faults_of(output: Path, name: str, password: str) -> list[Problem]:
    business = read_business(output)
    names = (name, business.name if business is not None else "")
    fault = fault_of_password(password, (*names, *" ".join(names).split()))
    return [Problem("PASSWORD", fault)] if fault is not None else []


def _faults_of_terms(output: Path, terms: OperatorTerms, today: date) -> list[Problem]:
    found = []
    if terms.ends is not None and terms.ends < today:
        found.append(Problem("--until", phrases.end_is_over(), str(terms.ends), str(today)))
    if terms.crew is not None and not _crew(output, terms.crew):
        known = _crews(output)
        hint = did_you_mean(terms.crew, known) or phrases.crew_column()
        found.append(Problem("--crew", phrases.no_crew(), terms.crew, one_of(known), hint))
    return found


def _crew(output: Path, asked: str | None) -> str:
    """A crew as lawns name it; nothing for one that none names."""
    wanted = _key(asked or "")
    return next((crew for crew in _crews(output) if _key(crew) == wanted), "")


def _crews(output: Path) -> list[str]:
    """The crews that lawns name in the column of the business's own."""
    found = {
        value.strip()
        for client in clients_in(output).values()
        for column, value in client.own.items()
        if column.casefold() == CREW_COLUMN and value.strip()
    }
    return sorted(found)


def _key(name: str) -> str:
    return plain_text(name).casefold()


def _write(output: Path, operators: Sequence[Operator]) -> None:
    path = output / OPERATORS
    write_kept(path, KeptOperators(operators=tuple(operators)), private={path})
