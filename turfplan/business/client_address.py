"""The read-only addresses of clients, which follow from a key of the business."""

import base64
import hmac

_KEY_BYTES = 32


def client_token(key: bytes, lawn_id: str, number: int) -> str:
    """What opens a lawn's page, to be read: 256 bits by HMAC-SHA-256 (RFC 2104) of the lawn's
    identity and the number of its address, so that a letter prints alike again.

    Raises ValueError for a key that is too short.
    """
    if len(key) < _KEY_BYTES:
        raise ValueError("the key is too short")
    told = f"turfplan client address\n{lawn_id}\n{number}"
    digest = hmac.digest(key, told.encode(), "sha256")
    return base64.urlsafe_b64encode(digest).rstrip(b"=").decode()
