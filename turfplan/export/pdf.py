"""Turns a page into a tagged PDF."""

import gc
import hashlib
from collections.abc import Iterator
from contextlib import contextmanager

from turfplan.errors import MissingToolError, Problem
from turfplan.plan import Plan

PDF_VARIANT = "pdf/ua-1"


def to_pdf(html: str, plan: Plan | None) -> bytes:
    """The page as a tagged PDF with bookmarks and metadata; the same page gives the same bytes on one machine.

    Nothing is fetched: a page that stands alone holds all it needs. Raises MissingToolError where WeasyPrint or the
    libraries it draws text with are not installed.
    """
    try:
        from weasyprint import HTML
        from weasyprint.urls import URLFetcher
    except (ImportError, OSError) as error:
        raise MissingToolError(
            Problem(
                "pdf",
                "a PDF needs WeasyPrint and the Pango libraries",
                str(error).splitlines()[0] if str(error) else type(error).__name__,
                hint="pip install 'turfplan[pdf]', and on Debian: "
                "apt install libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0; the HTML prints from any browser",
            )
        ) from error
    origin = f"{plan.lawn_id}\n{plan.stamp.isoformat()}" if plan is not None else ""
    identifier = hashlib.sha256(f"{origin}\n{html}".encode()).digest()[:16]
    with _without_collector():
        page = HTML(string=html, url_fetcher=URLFetcher(allowed_protocols=("data",)))
        made = page.write_pdf(pdf_variant=PDF_VARIANT, pdf_identifier=identifier)
    assert isinstance(made, bytes)  # without a target the bytes come back
    return made


@contextmanager
def _without_collector() -> Iterator[None]:
    """The collector of cycles rests: a layout makes millions of objects that live on, and walking them takes a quarter."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()
