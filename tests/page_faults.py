"""Finds what a reader would call a fault on printed pages, in the boxes the PDF is drawn from."""

from collections import Counter, defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from turfplan.export.pdf import _without_collector, family_sheets

# The class of the pages that weeks are parted into.
LEAF = "leaf"
BLOCKS = ("p", "li", "dd", "dt", "td", "th", "caption", "figcaption", "h1", "h2", "h3", "h4", "div")
# What lies farther apart in a line stands in another column, in CSS pixels.
COLUMN_GAP = 20.0
HEADINGS = frozenset({"h1", "h2", "h3", "h4", "caption", "thead"})
LEAST_FILL = 0.15
# What a person reads in the garden, on the page of a week.
BODY = ("steps", "go", "stop", "law", "protect")
# Boxes that hold no word and are there to be written or drawn in: rows and frames, by their class.
BOXES = ("TableRowBox", "BlockBox")
TO_WRITE = ("to-write", "frame")
# What may stick out or overlap without being seen, in CSS pixels: ascenders, rounding.
HAIR = 2.0


@dataclass(frozen=True, slots=True)
class Word:
    """A piece of text, a picture, or a row or frame to write in, where it stands on its page;
    `within` are the elements around it, outermost first.
    """

    page: int
    text: str
    left: float
    top: float
    right: float
    bottom: float
    points: float
    within: tuple[Any, ...]

    @property
    def tags(self) -> tuple[str, ...]:
        """The names of the elements around it."""
        return tuple(element.tag for element in self.within)

    def inside(self, name: str) -> bool:
        """Whether an element of this class is around it."""
        return any(name in element.get("class", "").split() for element in self.within)

    def around(self, *tags: str) -> Any | None:
        """The nearest element around it of one of these names."""
        return next((element for element in reversed(self.within) if element.tag in tags), None)


@dataclass(frozen=True, slots=True)
class Sheet:
    """The text of one page and the area it may fill."""

    number: int
    left: float
    top: float
    right: float
    bottom: float
    words: tuple[Word, ...]

    @property
    def fill(self) -> float:
        """How far down the page its content reaches, 0 to 1."""
        return (max((w.bottom for w in self.words), default=self.top) - self.top) / (
            self.bottom - self.top
        )


def sheets_of(html: str) -> list[Sheet]:
    """The pages of a document as WeasyPrint lays them out."""
    from weasyprint import HTML
    from weasyprint.text.fonts import FontConfiguration
    from weasyprint.urls import URLFetcher

    page = HTML(string=html, url_fetcher=URLFetcher(allowed_protocols=("data",)))
    fonts = FontConfiguration()
    document = page.render(stylesheets=family_sheets(fonts), font_config=fonts)
    found = []
    for number, page in enumerate(document.pages, start=1):
        box = page._page_box
        left, top = box.content_box_x(), box.content_box_y()
        words = tuple(_words(box.children[0], number, ()))
        found.append(Sheet(number, left, top, left + box.width, top + box.height, words))
    return found


def _words(box: Any, page: int, within: tuple[Any, ...]) -> Iterator[Word]:
    """The texts and pictures of a box, in the order of the document."""
    if box.element is not None and (not within or within[-1] is not box.element):
        if "unseen" in box.element.get("class", "").split():
            return
        within = (*within, box.element)
    kind = type(box).__name__
    if kind == "TextBox" and box.text.strip():
        yield Word(
            page,
            box.text,
            box.position_x,
            box.position_y,
            box.position_x + box.width,
            box.position_y + box.height,
            box.style["font_size"] * 0.75,
            within,
        )
    elif "Replaced" in kind or (kind in BOXES and box.element is not None and _is_to_write(box)):
        yield Word(
            page,
            "",
            box.position_x,
            box.position_y,
            box.position_x + box.margin_width(),
            box.position_y + box.margin_height(),
            99.0,
            within,
        )
    for child in getattr(box, "children", ()):
        yield from _words(child, page, within)


def _is_to_write(box: Any) -> bool:
    """Whether a box is left free for whoever holds the page."""
    return bool({*TO_WRITE} & {*box.element.get("class", "").split()})


def faults_of(sheets: list[Sheet]) -> list[str]:
    """Every fault, in words, with its page."""
    words = [word for sheet in sheets for word in sheet.words]
    return [
        *(fault for sheet in sheets for fault in (*_beyond(sheet), *_overlaps(sheet))),
        *_left_headings(words),
        *_broken_rows(words),
        *_lonely_rows(words),
        *_empty(sheets),
    ]


def _beyond(sheet: Sheet) -> Iterator[str]:
    for word in sheet.words:
        if (
            word.left < sheet.left - HAIR
            or word.right > sheet.right + HAIR
            or word.bottom > sheet.bottom + HAIR
        ):
            yield f"page {sheet.number}: beyond the page: {word.text!r}"


def _overlaps(sheet: Sheet) -> Iterator[str]:
    ordered = sorted((word for word in sheet.words if word.text), key=lambda w: w.top)
    for n, word in enumerate(ordered):
        for other in ordered[n + 1 :]:
            if other.top > word.bottom:
                break
            # Lines may share a little height; letters that do are on one another only where they
            # share width too.
            deep = min(word.bottom, other.bottom) - other.top > 0.4 * min(
                word.bottom - word.top, other.bottom - other.top
            )
            if deep and min(word.right, other.right) - max(word.left, other.left) > HAIR:
                yield f"page {sheet.number}: {word.text[:40]!r} on {other.text[:40]!r}"


def _left_headings(words: list[Word]) -> Iterator[str]:
    """Headings whose content begins on a later page."""
    following: Word | None = None
    for word in reversed(words):
        if word.around(*HEADINGS) is None and not word.inside("summary"):
            following = word
        elif following is not None and following.page > word.page:
            yield f"page {word.page}: heading {word.text[:60]!r} left behind"


def _pages(words: list[Word], tag: str) -> dict[int, Counter[int]]:
    """For each element of that name, on which pages it has how many pieces."""
    found: dict[int, Counter[int]] = defaultdict(Counter)
    for word in words:
        for element in word.within:
            if element.tag == tag:
                found[id(element)][word.page] += 1
    return found


def _broken_rows(words: list[Word]) -> Iterator[str]:
    heads = {id(w.around("tr")) for w in words if w.around("thead") is not None}
    for row, pages in _pages(words, "tr").items():
        if len(pages) > 1 and row not in heads:
            yield f"page {min(pages)}: a table row goes on over the page"


def _lonely_rows(words: list[Word]) -> Iterator[str]:
    rows: dict[int, dict[int, set[int]]] = defaultdict(lambda: defaultdict(set))
    texts: dict[tuple[int, int], str] = {}
    for word in words:
        row, body = word.around("tr"), word.around("tbody")
        if row is not None and body is not None:
            table = id(word.around("table"))
            rows[table][word.page].add(id(row))
            texts.setdefault((table, word.page), word.text)
    for table, pages in rows.items():
        for page, found in pages.items():
            if len(pages) > 1 and len(found) == 1:
                yield f"page {page}: one row of a table alone: {texts[table, page][:40]!r}"


def _empty(sheets: list[Sheet]) -> Iterator[str]:
    """Pages that hold next to nothing and do not begin anything."""
    for sheet in sheets:
        begins = any(word.around("h1", "h2") is not None for word in sheet.words)
        if not sheet.words or (sheet.fill < LEAST_FILL and not begins):
            yield f"page {sheet.number}: filled to {sheet.fill:.0%}"


def smallest_points(sheets: list[Sheet]) -> float:
    """The smallest text, in points, but for the line that says when a page was made."""
    return min(w.points for sheet in sheets for w in sheet.words if not w.inside("colophon"))


def body_points(sheets: list[Sheet]) -> float:
    """The smallest text, in points, of steps and of what stands above them."""
    return min(
        (w.points for s in sheets for w in s.words if any(w.inside(name) for name in BODY)),
        default=99.0,
    )


@dataclass(frozen=True, slots=True)
class Judged:
    """What was found on the pages of one document; `fills` say how far down each is filled, `lasts`
    are those with which a section ends, `longest` is the line of text with most letters.
    """

    faults: tuple[str, ...]
    pages: int
    points: float
    body: float
    fills: tuple[float, ...]
    lasts: frozenset[int]
    longest: str


def judged(html: str) -> Judged:
    """A document laid out and looked through; one argument and one answer that cross to another
    process.
    """
    # As in the program itself: a layout makes millions of objects that live on.
    with _without_collector():
        sheets = sheets_of(html)
    return Judged(
        tuple(faults_of(sheets)),
        len(sheets),
        smallest_points(sheets),
        body_points(sheets),
        tuple(sheet.fill for sheet in sheets),
        frozenset(_lasts(sheets)),
        max((line.strip() for line in lines_of(sheets)), key=len),
    )


def _lasts(sheets: list[Sheet]) -> Iterator[int]:
    """Pages whose section is not gone on with on a later one: the weeks are one section, whatever
    map stands between them."""
    begun = [(sheet.number, _section(sheet.words[0])) for sheet in sheets if sheet.words]
    for sheet in sheets:
        section = _section(sheet.words[-1]) if sheet.words else None
        if not any(number > sheet.number and section == other for number, other in begun):
            yield sheet.number


def _section(word: Word) -> object:
    """The section that a word belongs to, of those that are parted by the page."""
    for element in word.within:
        kinds = element.get("class", "").split()
        if element.tag == "section" and LEAF in kinds:
            return LEAF
        if element.tag == "section" and "page" in kinds:
            return id(element)
    return None


def lines_of(sheets: list[Sheet]) -> Iterator[str]:
    """Every line of text as it is printed, within its block: a cell, a column, a paragraph."""
    line, last, of = "", None, None
    for word in (word for sheet in sheets for word in sheet.words):
        block = word.around(*BLOCKS)
        if not word.text or block is None or word.around("svg") is not None:
            continue
        if last is None or block is not of or not _goes_on(last, word):
            yield line
            line = ""
        line, last, of = line + word.text, word, block
    yield line


def _goes_on(last: Word, word: Word) -> bool:
    """Whether a piece stands in the same line of the same column as the one before."""
    shared = min(last.bottom, word.bottom) - max(last.top, word.top)
    height = min(last.bottom - last.top, word.bottom - word.top)
    near = -HAIR < word.left - last.right < COLUMN_GAP
    return last.page == word.page and near and shared > height / 2
