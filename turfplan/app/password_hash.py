"""Hashes passwords with scrypt (RFC 7914), and says which are too weak to be taken."""

import base64
import hashlib
import hmac
import secrets
import unicodedata
from collections.abc import Iterable

from turfplan.message import Message
from turfplan.phrases import office as phrases

# No rule says of which signs it consists: length is what keeps it (OWASP ASVS 5.0.0, 6.2).
LEAST, MOST = 12, 128
# The costs that OWASP's advice on keeping passwords gives for scrypt; from memory.
COST_LOG2, BLOCK, LANES = 17, 8, 1
_SALT_BYTES, _KEY_BYTES = 16, 32
# A third more than what it takes: 128 bytes for each block of each of its rounds.
_ROOM = 4 / 3
# What a word that all guess has: one sign over and over, or a row of them.
_FEWEST_SIGNS = 4
_ROWS = ("abcdefghijklmnopqrstuvwxyz", "qwertyuiopasdfghjklzxcvbnm", "01234567890123456789")
_GUESSED = ("password", "passwort", "letmein", "welcome", "administrator")


def password_hash(password: str) -> str:
    """A password as it is kept: its costs, a salt of its own, and the key that follows."""
    salt = secrets.token_bytes(_SALT_BYTES)
    key = _key(password, salt, COST_LOG2, BLOCK, LANES)
    return f"$scrypt$ln={COST_LOG2},r={BLOCK},p={LANES}${_text(salt)}${_text(key)}"


def is_password(password: str, kept: str | None) -> bool:
    """Whether a password is the one that is kept; without one it takes as long, and is none.

    Raises ValueError for what is kept in no form of ours.
    """
    known = kept or _of_nobody()
    _, name, costs, salt, key = known.split("$")
    numbers = dict(part.split("=") for part in costs.split(","))
    if name != "scrypt":
        raise ValueError("not a password that is kept here")
    log2, block, lanes = (int(numbers[one]) for one in ("ln", "r", "p"))
    found = _key(password, _bytes(salt), log2, block, lanes)
    return hmac.compare_digest(found, _bytes(key)) and kept is not None


def fault_of_password(password: str, names: Iterable[str]) -> Message | None:
    """What is wrong with a new password of somebody of some names; None where it does."""
    if len(password) < LEAST:
        return phrases.too_short(signs=LEAST)
    if len(password) > MOST:
        return phrases.too_long(signs=MOST)
    if not password.isprintable():
        return phrases.unprintable()
    bare = "".join(sign for sign in password.casefold() if sign.isalnum())
    if len(set(password)) < _FEWEST_SIGNS or any(bare in row * 2 for row in _ROWS if bare):
        return phrases.too_plain()
    told = ("".join(sign for sign in name.casefold() if sign.isalnum()) for name in names)
    left = bare
    for word in (*told, *_GUESSED):
        left = left.replace(word, "") if len(word) >= _FEWEST_SIGNS else left
    return phrases.too_plain() if len(left) <= LEAST / 2 else None


def _of_nobody() -> str:
    """What stands in the place of a password that nobody has: of the same costs."""
    blank = _text(bytes(_SALT_BYTES)), _text(bytes(_KEY_BYTES))
    return f"$scrypt$ln={COST_LOG2},r={BLOCK},p={LANES}${blank[0]}${blank[1]}"


def _key(password: str, salt: bytes, log2: int, block: int, lanes: int) -> bytes:
    # One letter may be written in several ways; a keyboard does not say in which.
    typed = unicodedata.normalize("NFC", password).encode("utf-8", "surrogatepass")
    room = int(128 * block * (2**log2 + lanes) * _ROOM)
    return hashlib.scrypt(
        typed, salt=salt, n=2**log2, r=block, p=lanes, maxmem=room, dklen=_KEY_BYTES
    )


def _text(content: bytes) -> str:
    return base64.b64encode(content).decode().rstrip("=")


def _bytes(text: str) -> bytes:
    return base64.b64decode(text + "=" * (-len(text) % 4), validate=True)
