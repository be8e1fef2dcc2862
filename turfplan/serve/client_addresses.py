"""Gives clients read-only addresses that follow from the key of the business, and ends them."""

from pathlib import Path

from turfplan.business.client_address import client_token
from turfplan.files import index as store
from turfplan.files.business_key import business_key
from turfplan.files.data_folder import ADDRESS, BUSINESS_KEY, INDEX, known_lawn_id
from turfplan.files.kept_record import KeptRecord, read_kept, write_kept
from turfplan.files.plan_folder import folder_lock
from turfplan.serve import tokens

LABEL = "client"


class KeptAddress(KeptRecord):
    """The number of a client's address; whoever withdraws one raises it."""

    number: int = 1


def client_address(output: Path, lawn: Path) -> str:
    """What opens the page of a lawn to its client, to be read: the same each time, until it is
    withdrawn; then another one.

    Raises TurfplanError for a lawn without a plan, and a key, record or index that cannot be used.
    """
    lawn_id = known_lawn_id(lawn) or ""
    with folder_lock(output), store.opened(output / INDEX) as connection:
        key = business_key(output)
        served = store.add_lawn(connection, lawn, store.brief_beside(lawn))
        kept = read_kept(lawn / ADDRESS, KeptAddress) or KeptAddress()
        number = kept.number
        token = client_token(key, lawn_id, number)
        found = tokens.find(connection, token)
        while found is not None and found.revoked is not None:
            number += 1
            token = client_token(key, lawn_id, number)
            found = tokens.find(connection, token)
        if number != kept.number:
            write_kept(lawn / ADDRESS, KeptAddress(number=number))
        if found is None:
            tokens.keep(connection, served, "read", token, LABEL)
    return token


def given_address(output: Path, lawn: Path) -> str | None:
    """What opens the page of a lawn to its client, where somebody has made it and nobody has ended
    it; nothing is made here. Raises TurfplanError as `client_address` does.
    """
    lawn_id = known_lawn_id(lawn) or ""
    if not (output / BUSINESS_KEY).is_file() or not (output / INDEX).is_file():
        return None
    kept = read_kept(lawn / ADDRESS, KeptAddress) or KeptAddress()
    token = client_token(business_key(output), lawn_id, kept.number)
    with store.opened(output / INDEX) as connection:
        found = tokens.find(connection, token)
    return token if found is not None and not found.is_gone else None


def withdraw_address(output: Path, lawn: Path) -> None:
    """End the address that the client of a lawn has; the next letter bears another one.

    Raises TurfplanError as `client_address` does.
    """
    lawn_id = known_lawn_id(lawn) or ""
    with folder_lock(output), store.opened(output / INDEX) as connection:
        kept = read_kept(lawn / ADDRESS, KeptAddress) or KeptAddress()
        token = client_token(business_key(output), lawn_id, kept.number)
        found = tokens.find(connection, token)
        if found is not None:
            tokens.revoke(connection, found.id)
        write_kept(lawn / ADDRESS, KeptAddress(number=kept.number + 1))
