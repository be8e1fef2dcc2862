"""The answer to a request for a feed: validators, conditions and compression by RFC 9110, as plain
functions.
"""

import gzip
import hashlib
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from email.utils import format_datetime, parsedate_to_datetime

CACHE = "private, max-age=3600, must-revalidate"


@dataclass(frozen=True, slots=True)
class FeedAnswer:
    """Status, headers and body of an answer."""

    status: int
    headers: Mapping[str, str]
    body: bytes


def etag_of(content: bytes) -> str:
    """A strong validator of the bytes."""
    return f'"{hashlib.sha256(content).hexdigest()[:32]}"'


def feed_answer(
    content: bytes,
    published: datetime,
    request: Mapping[str, str],
    *,
    head: bool = False,
    compress: bool = True,
    etag: str | None = None,
    zipped_form: Callable[[], bytes] | None = None,
) -> FeedAnswer:
    """200 with the feed, or 304 when the reader has it; `request` has lower-case names.

    If-None-Match goes before If-Modified-Since. Compression only where it is asked for; the
    compressed form has a validator of its own. `etag` and `zipped_form` save working them out again
    where they are known.
    """
    # Not starlette's GZipMiddleware: each form has a strong tag of its own, and is packed once and
    # then kept.
    zipped = compress and accepts_gzip(request.get("accept-encoding", ""))
    plain_tag = etag or etag_of(content)
    tag = plain_tag[:-1] + '-gzip"' if zipped else plain_tag
    headers = {
        "ETag": tag,
        "Last-Modified": format_datetime(published.astimezone(UTC), usegmt=True),
        "Cache-Control": CACHE,
        "Vary": "Accept-Encoding",
    }
    if has_it(request, plain_tag, published):
        return FeedAnswer(304, headers, b"")
    body = content
    if zipped:
        body = zipped_form() if zipped_form else gzip.compress(content, 6, mtime=0)
    headers |= {
        "Content-Type": "text/calendar; charset=utf-8",
        "Content-Disposition": 'inline; filename="season.ics"',
        "Content-Length": str(len(body)),
        "X-Content-Type-Options": "nosniff",
    }
    if zipped:
        headers["Content-Encoding"] = "gzip"
    return FeedAnswer(200, headers, b"" if head else body)


def has_it(request: Mapping[str, str], tag: str, published: datetime) -> bool:
    """Whether the reader has the feed of a plain validator, in any of its forms."""
    known = request.get("if-none-match")
    if known is not None:
        given = {part.strip().removeprefix("W/") for part in known.split(",")}
        return not given.isdisjoint(("*", tag, f'{tag[:-1]}-gzip"'))
    since = request.get("if-modified-since")
    if since is None:
        return False
    try:
        moment = parsedate_to_datetime(since)
    except (TypeError, ValueError, OverflowError):
        return False
    if moment.tzinfo is None:
        moment = moment.replace(tzinfo=UTC)
    return published.replace(microsecond=0) <= moment <= datetime.now(UTC)


def accepts_gzip(header: str) -> bool:
    """Whether gzip is asked for with a weight above zero."""
    for part in header.split(","):
        name, _, weight = part.strip().partition(";")
        if name.strip().lower() in ("gzip", "x-gzip"):
            value = weight.strip().removeprefix("q=").strip()
            try:
                return not value or float(value) > 0
            except ValueError:
                return False
    return False
