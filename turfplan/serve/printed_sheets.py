"""Makes PDFs of pages in processes of their own, and keeps those that were made last."""

import hashlib
import threading
from collections import OrderedDict
from dataclasses import dataclass, field
from importlib.util import find_spec

from turfplan.errors import MissingToolError
from turfplan.serve.apart import apart

# A PDF has some ten thousand bytes: the sheets of a household on a few days.
MOST_KEPT = 32


@dataclass(slots=True)
class PrintedSheets:
    """The PDFs that were made last, by the digest of their pages; one at a time is made."""

    kept: "OrderedDict[bytes, bytes]" = field(default_factory=OrderedDict)
    lock: threading.Lock = field(default_factory=threading.Lock)

    def pdf(self, html: str) -> bytes:
        """The PDF of a page, in a process of its own where it is new; nothing where nothing can
        print one."""
        name = hashlib.sha256(html.encode()).digest()
        with self.lock:
            made = self.kept.pop(name, b"") or apart(printed, html) or b""
            if made:
                self.kept[name] = made
            while len(self.kept) > MOST_KEPT:
                self.kept.popitem(last=False)
        return made


def printed(html: str) -> bytes:
    """A page as PDF; nothing where nothing can print one."""
    from turfplan.export.pdf import to_pdf

    try:
        return to_pdf(html, None)
    except MissingToolError:
        return b""


def can_print() -> bool:
    """Whether the extra that prints PDFs is installed."""
    return find_spec("weasyprint") is not None
