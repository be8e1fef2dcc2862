"""What tests do with a page in a real browser: open it as a phone or a desk has it, press buttons,
read all that it says, and look for barriers.
"""

import re
from collections.abc import Iterator
from contextlib import contextmanager
from html import unescape
from typing import Any

PHONE, NARROW, DESK = 390, 320, 1200
BUSY = 60_000
# What is too small for a thumb.
SMALL = (
    "[...document.querySelectorAll('button, a, summary, input:not([type=hidden]), select')]"
    ".filter(e => e.checkVisibility() && getComputedStyle(e).clipPath === 'none')"
    ".map(e => [e.outerHTML.slice(0, 80), e.getBoundingClientRect().height])"
    ".filter(([_, height]) => height < 48)"
)
# Only what is asked for crosses from the browser: all that a checker finds is a megabyte.
_BARRIERS = (
    "axe.run(document, {resultTypes: ['violations']})"
    ".then(r => r.violations.map(v => [v.id, v.nodes[0].html]))"
)


@contextmanager
def opened(
    browser: Any,
    *,
    width: int = PHONE,
    scripts: bool = True,
    scheme: str = "light",
) -> Iterator[Any]:
    """A page of a browser of its own, without anybody's cookies."""
    context = browser.new_context(
        viewport={"width": width, "height": 844}, java_script_enabled=scripts, color_scheme=scheme
    )
    page = context.new_page()
    page.set_default_timeout(BUSY)
    try:
        yield page
    finally:
        context.close()


def text_of(page: Any) -> str:
    """All that a page says, closed parts too, on one line."""
    body = page.content().partition("<body>")[2]
    return " ".join(unescape(re.sub("<[^>]*>", " ", body)).split())


def press(page: Any, name: str) -> None:
    """Presses the first button of a name that can be seen, and waits for the page after it."""
    with page.expect_navigation():
        page.get_by_role("button", name=name).locator("visible=true").first.click()


def barriers(page: Any, axe: str) -> list[list[str]]:
    """Each barrier that the checker finds on a page: its name, and the first element with it."""
    page.evaluate(axe)
    found: list[list[str]] = page.evaluate(_BARRIERS)
    return found
