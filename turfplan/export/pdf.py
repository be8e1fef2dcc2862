"""Turns a page into a tagged PDF."""

import gc
import hashlib
import os
from collections.abc import Iterator
from contextlib import contextmanager

from turfplan.errors import MissingToolError, Problem
from turfplan.phrases import tools as phrases
from turfplan.records.plan import Plan

PDF_VARIANT = "pdf/ua-1"
_BUILD_DATE = "SOURCE_DATE_EPOCH"
DEBIAN = "apt install libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0"


def to_pdf(html: str, plan: Plan | None) -> bytes:
    """The page as a tagged PDF with bookmarks and metadata; the same page gives the same bytes on
    one machine.

    Nothing is fetched: a page that stands alone holds all it needs. Raises MissingToolError where
    WeasyPrint or the libraries it draws text with are not installed.
    """
    try:
        from weasyprint import HTML
        from weasyprint.urls import URLFetcher
    except (ImportError, OSError) as error:
        raise MissingToolError(
            Problem(
                "pdf",
                phrases.pdf_needs(),
                str(error).splitlines()[0] if str(error) else type(error).__name__,
                hint=phrases.pdf_install(pip="pip install 'turfplan[pdf]'", apt=DEBIAN),
            )
        ) from error
    origin = f"{plan.lawn_id}\n{plan.stamp.isoformat()}" if plan is not None else ""
    identifier = hashlib.sha256(f"{origin}\n{html}".encode()).digest()[:16]
    with _without_collector(), _without_clock():
        page = HTML(string=html, url_fetcher=URLFetcher(allowed_protocols=("data",)))
        made = page.write_pdf(pdf_variant=PDF_VARIANT, pdf_identifier=identifier)
    assert isinstance(made, bytes)  # without a target the bytes come back
    return made


@contextmanager
def _without_clock() -> Iterator[None]:
    """Fonts are stamped with a fixed day: where HarfBuzz cannot cut them down, they are with the
    second of their cutting.
    """
    given = os.environ.get(_BUILD_DATE)
    os.environ[_BUILD_DATE] = given or "0"
    try:
        yield
    finally:
        if given is None:
            del os.environ[_BUILD_DATE]


@contextmanager
def _without_collector() -> Iterator[None]:
    """The collector of cycles rests: a layout makes millions of objects that live on, and walking
    them takes a quarter.
    """
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()
