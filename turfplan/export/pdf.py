"""Turns a page into a tagged PDF."""

import gc
import hashlib
import os
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from turfplan.errors import MissingToolError, Problem
from turfplan.export.templates import stylesheet
from turfplan.export.type_family import CUTS, cuts_folder
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
        from weasyprint.text.fonts import FontConfiguration
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
        fonts = FontConfiguration()
        laid_out = page.render(
            pdf_variant=PDF_VARIANT, stylesheets=family_sheets(fonts), font_config=fonts
        )
        # What was laid out on the way to the pages goes before they are drawn: it is as much again
        # as drawing takes.
        gc.collect()
        made = laid_out.write_pdf(pdf_variant=PDF_VARIANT, pdf_identifier=identifier)
    assert isinstance(made, bytes)  # without a target the bytes come back
    return made


def family_sheets(fonts: Any) -> list[Any]:
    """The stylesheets of WeasyPrint that lend a page the cuts of the family, for its configuration
    of fonts; none where the package is not installed.
    """
    from weasyprint import CSS
    from weasyprint.urls import URLFetcher

    folder = cuts_folder()
    if folder is None:
        return []
    # These files are the only ones that a page is lent.
    lent, base = URLFetcher(allowed_protocols=("file",)), f"{folder.as_uri()}/"
    return [CSS(string=str(stylesheet(CUTS)), base_url=base, font_config=fonts, url_fetcher=lent)]


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
    """The collector of cycles rests but when it is called: a layout makes millions of objects that
    live on, and walking them takes a quarter. Then it walks what was made here alone, unless a
    process has frozen what it had, which stays as it is.
    """
    was_on, held_apart = gc.isenabled(), gc.get_freeze_count() == 0
    gc.disable()
    if held_apart:
        gc.freeze()
    try:
        yield
    finally:
        if held_apart:
            gc.unfreeze()
        if was_on:
            gc.enable()
