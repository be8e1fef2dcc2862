"""Walks through the served pages as a person takes them: by pointer or by keyboard alone, counted,
and looked at on each screen that is passed.
"""

import http.client
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from typing import Any
from urllib.parse import urlsplit

from screens import SMALL, opened, text_of

MOST_STOPS = 250
_STANDS_ON = "element => element === document.activeElement"
# From one choice of a group arrows lead to the others.
_IN_GROUP = (
    "element => element.type === 'radio' && document.activeElement.type === 'radio' "
    "&& element.name === document.activeElement.name"
)


@dataclass
class Walk:
    """Somebody's browser on its way: what it shows, and what the way has cost so far in presses,
    characters typed, and words on the screens."""

    page: Any
    base: str
    width: int
    keys: bool
    taps: int = 0
    typed: int = 0
    words: int = 0
    asked: list[str] = field(default_factory=list)
    faults: list[str] = field(default_factory=list)

    @property
    def text(self) -> str:
        """All that the screen says."""
        return text_of(self.page)

    def go(self, path: str) -> int:
        """Opens a path by its address, as who was given it does; the status."""
        answer = self.page.goto(self.base + path)
        self._seen()
        return int(answer.status)

    def press(self, name: str, role: str = "button") -> None:
        """Presses what leads to the next screen."""
        self.taps += 1
        wanted = self._visible(self.page.get_by_role(role, name=name))
        with self.page.expect_navigation():
            if self.keys:
                self._reach(wanted)
                self.page.keyboard.press("Enter")
            else:
                wanted.click()
        self._seen()

    def follow(self, name: str) -> None:
        """Follows a link."""
        self.press(name, "link")

    def press_there(self, name: str, role: str = "button") -> None:
        """Presses what changes this screen, or starts something."""
        self.taps += 1
        wanted = self._visible(self.page.get_by_role(role, name=name))
        if self.keys:
            self._reach(wanted)
            self.page.keyboard.press("Enter")
        else:
            wanted.click()

    def open(self, summary: str) -> None:
        """Opens a part of the screen that is closed."""
        self.taps += 1
        wanted = self._visible(self.page.locator("summary", has_text=summary))
        if self.keys:
            self._reach(wanted)
            self.page.keyboard.press("Enter")
        else:
            wanted.click()

    def choose(self, label: str) -> None:
        """Chooses one of a group, or ticks a box."""
        self.taps += 1
        wanted = self._visible(self.page.get_by_label(label))
        if not self.keys:
            wanted.check()
            return
        self._reach(wanted)
        if not wanted.is_checked():
            self.page.keyboard.press("Space")
        assert wanted.is_checked(), label

    def fill(self, wanted: Any, text: str) -> None:
        """Types into a field in place of what stands there."""
        self.taps += 1
        self.typed += len(text)
        if self.keys:
            self._reach(wanted)
            self.page.keyboard.press("Control+A")
            # Pasted: typing a text of pages takes minutes.
            self.page.keyboard.insert_text(text)
        else:
            wanted.fill(text)
        assert wanted.input_value() == text

    def select(self, wanted: Any, steps: int) -> None:
        """Takes the choice of a list that lies some steps below."""
        self.taps += 1
        if self.keys:
            self._reach(wanted)
            for _ in range(steps):
                self.page.keyboard.press("ArrowDown")
        else:
            wanted.select_option(index=steps)

    def answer(self, text: str) -> None:
        """Types into the field of a question, and goes on."""
        self.fill(self.page.locator("#answer"), text)
        self.press("Go on")

    def claim(self, once: str) -> None:
        """Makes this browser the owner's."""
        assert self.go(once) == 200
        self.press("This is my browser")

    def is_sound(self) -> None:
        """No fault of a script was met, and nothing was asked of another host."""
        assert self.faults == []
        assert [url for url in self.asked if not url.startswith((self.base, "data:"))] == []

    def _visible(self, several: Any) -> Any:
        return several.locator("visible=true").first

    def _reach(self, wanted: Any) -> None:
        """Goes to an element by the tabulator, and by arrows within a group."""
        for _ in range(MOST_STOPS):
            if wanted.evaluate(_STANDS_ON):
                return
            grouped = wanted.evaluate(_IN_GROUP)
            self.page.keyboard.press("ArrowDown" if grouped else "Tab")
        raise AssertionError(f"the tabulator does not reach {wanted} on {self.page.url}")

    def _seen(self) -> None:
        """Counts the words of a screen, and looks that nothing is cut off or too small."""
        self.words += len(self.page.locator("body").inner_text().split())
        assert self.page.evaluate("document.documentElement.scrollWidth") == self.width
        small = self.page.evaluate(SMALL)
        assert small == [], small


@contextmanager
def walking(
    browser: Any, base: str, width: int, *, scripts: bool, keys: bool, **more: Any
) -> Iterator[Walk]:
    """A walk in a browser without anybody's cookies; sound once it is over."""
    with opened(browser, width=width, scripts=scripts, **more) as page:
        walk = Walk(page, base, width, keys)
        page.on("request", lambda request: walk.asked.append(request.url))
        page.on("pageerror", lambda error: walk.faults.append(str(error)))
        yield walk
        walk.is_sound()


@dataclass(frozen=True)
class FedAnswer:
    """What a calendar program got."""

    status: int
    content: bytes
    tag: str


def fetched(port: int, link: str, host: str, tag: str = "") -> FedAnswer:
    """The calendar of a link as a program fetches it that knows the server by another name."""
    asked = http.client.HTTPConnection("127.0.0.1", port, timeout=60)
    try:
        headers = {"Host": host, **({"If-None-Match": tag} if tag else {})}
        asked.request("GET", urlsplit(link).path, headers=headers)
        answer = asked.getresponse()
        return FedAnswer(answer.status, answer.read(), answer.headers.get("ETag", ""))
    finally:
        asked.close()
