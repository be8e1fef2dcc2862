"""The pages of a house: one day over all its lawns, each lawn's own page below, and the addresses
that open all of it.

An address of a lawn opens that lawn alone; an address of the house opens all that lie in its folder
when it is opened.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse, Response

from turfplan.app.outputs import words_of, words_of_user
from turfplan.errors import TurfplanError
from turfplan.export.qr_code import qr_data_uri
from turfplan.export.templates import render
from turfplan.files.data_folder import BRIEF, PLAN, root_of
from turfplan.files.house_folder import lawns_of_house
from turfplan.files.index import ServedLawn
from turfplan.files.reading.plan import read_plan
from turfplan.message import Day, Message
from turfplan.messages import Words
from turfplan.phrases import page as phrases
from turfplan.plain_text import plain_text
from turfplan.records.plan_calendar import CalendarPart
from turfplan.serve.calendar_pages import read_when, right_of
from turfplan.serve.guard import plain
from turfplan.serve.house_tokens import HouseToken
from turfplan.serve.pages import PRIVATE, day_text, known_of, notice
from turfplan.serve.phones_button import CLOSE, OPEN, can_open, let_phones, phones_view
from turfplan.serve.reach import calendar_links, reach_of
from turfplan.serve.today import DayView, day_view
from turfplan.serve.tokens import TokenKind, feed_of_page
from turfplan.serve.visit import Right, Server, Visit, number_of

LONGEST_LABEL = 60


@dataclass(frozen=True, slots=True)
class ServedHouse:
    """A house that is served: its folder, and its lawns that have a plan, in their order."""

    root: Path
    lawns: tuple[ServedLawn, ...]


@dataclass(frozen=True, slots=True)
class LawnToday:
    """The day of one lawn on the page of its house; a lawn whose plan cannot be read has no
    view."""

    name: str
    home: str
    day: str
    view: DayView | None
    edits: bool
    failed: bool


def house_of(server: Server, root: Path | None = None) -> ServedHouse | None:
    """The house that is served: that of the folder, else the one in which all lawns of the index
    lie; None where there is none, or several.

    A lawn of it that was planned meanwhile is served from now on.
    """
    lawns = server.shelf.lawns()
    above = {lawn.folder: root_of(lawn.folder) for lawn in lawns}
    roots = {above[folder] for folder in above if folder in lawns_of_house(above[folder])}
    if root is not None:
        roots &= {root.absolute()}
    if len(roots) != 1:
        return None
    (found,) = roots
    known = {lawn.folder: lawn for lawn in lawns}
    served: list[ServedLawn] = []
    for folder in lawns_of_house(found):
        lawn = known.get(folder) or known.get(folder.resolve())
        if lawn is None and (folder / PLAN).is_file():
            try:
                lawn = server.shelf.add_lawn(folder, folder / BRIEF)
            except TurfplanError:
                continue  # its own address says why; the house shows what it can
        if lawn is not None:
            served.append(lawn)
    return ServedHouse(found, tuple(served))


def owners_house(server: Server, request: Request, holder: str) -> Response | None:
    """The day of all lawns for the owner's browser; None where they are no house."""
    house = house_of(server)
    if house is None or len(house.lawns) < 2:
        return None
    others = [lawn for lawn in server.shelf.lawns() if lawn not in house.lawns]
    if others:
        return None
    visits = [
        Visit(server, request, lawn, "own", f"/mine/{lawn.id}", holder) for lawn in house.lawns
    ]
    return _today(visits, "own", "/house")


def house_page(server: Server, request: Request, token: HouseToken, secret: str) -> Response:
    """The day of all lawns for who holds an address of the house."""
    house = house_of(server, token.house)
    if house is None:
        return notice(request, 404, phrases.no_plan(), phrases.plan_first())
    visits = [visit_of(server, request, lawn, token, secret) for lawn in house.lawns]
    return _today(visits, visits[0].right if visits else "see", "")


def visit_of(
    server: Server, request: Request, lawn: ServedLawn, token: HouseToken, secret: str
) -> Visit:
    """A visit to one lawn of a house by an address of the house."""
    right: Right = "tick" if token.kind == "edit" else "see"
    house = f"/house/{secret}"
    return Visit(
        server, request, lawn, right, f"{house}/{lawn.id}", token.label, secret=secret, house=house
    )


def _today(visits: Sequence[Visit], right: Right, addresses: str) -> Response:
    """What the day asks of all lawns, in the order of their folders."""
    shown: list[LawnToday] = []
    words = words_of_user()
    today: date | None = None
    for visit in visits:
        known = known_of(visit)
        if known is None:
            shown.append(LawnToday(visit.lawn.folder.name, visit.home, "", None, False, True))
            continue
        words = known.words
        today = today or known.day.today
        shown.append(
            LawnToday(
                name=plain_text(known.plan.lawn.name) or visit.lawn.folder.name,
                home=visit.home,
                day=known.words.value(Day(known.day.today)),
                view=day_view(known.plan, known.day, known.entries, known.words),
                edits=visit.may_tick and not known.damaged,
                failed=known.damaged or bool(visit.server.failures.get(visit.lawn.id)),
            )
        )
    days = {lawn.day for lawn in shown if lawn.day}
    html = render(
        "web/house.html.jinja",
        words,
        lawns=shown,
        day=next(iter(days)) if len(days) == 1 else "",
        right=right,
        addresses=addresses,
    )
    return HTMLResponse(html, 200, PRIVATE)


def _words_of_house(house: ServedHouse) -> Words:
    """The words of the first lawn whose plan can be read, which say days as they are said there."""
    for lawn in house.lawns:
        try:
            plan = read_plan(lawn.folder)
        except TurfplanError:
            continue
        if plan is not None:
            return words_of(plan)
    return words_of_user()


def addresses_page(
    server: Server,
    request: Request,
    house: ServedHouse,
    told: Sequence[Message] = (),
    made: tuple[TokenKind, str] | None = None,
    form: Mapping[str, str] | None = None,
) -> Response:
    """The addresses that open all of a house, for its owner; `made` is a new one, shown this
    once."""
    words, base = _words_of_house(house), server.handed_url(request)
    now = server.settings.clock()
    links = None
    if made is not None:
        feed = made[1] if made[0] == "feed" else feed_of_page(made[1])
        links = calendar_links(base, feed)
    page = f"{base}/house/{made[1]}" if made is not None and made[0] != "feed" else None
    held = [
        {
            "number": token.id,
            "holder": token.label,
            "right": words.text(right_of(token.kind, token.part)),
            "since": day_text(token.created, words),
            "read": words.text(read_when(token.read, now)),
            "gone": token.is_gone,
        }
        for token in server.shelf.house_addresses(house.root)
        if token.page is None
    ]
    html = render(
        "web/house_addresses.html.jinja",
        words,
        reach=reach_of(base),
        links=links,
        qr=qr_data_uri(links[0]) if links else None,
        page=page,
        page_qr=qr_data_uri(page) if page else None,
        held=held,
        errors=[words.text(one) for one in told],
        form=form or {},
        phones=phones_view(server, request, words),
    )
    return HTMLResponse(html, 422 if told else 200, PRIVATE)


# What the form of an address calls a right with what it shows.
_RIGHTS: Mapping[str, tuple[TokenKind, CalendarPart]] = {
    "feed": ("feed", "all"),
    "feed-work": ("feed", "work"),
    "feed-water": ("feed", "water"),
    "read": ("read", "all"),
    "edit": ("edit", "all"),
}


def addresses_form(
    server: Server, request: Request, house: ServedHouse, form: Mapping[str, str]
) -> Response:
    """A form of the owner's: an address of the house given, or one taken back; the home network
    opened to phones, or closed."""
    now, done = server.settings.clock(), form.get("do", "")
    if done in (OPEN, CLOSE):
        if not can_open(server, request):
            return plain(phrases.read_only(), 403)
        if (fault := let_phones(server, done)) is not None:
            return addresses_page(server, request, house, [fault])
        return RedirectResponse("/house#phones", 303)
    if done == "withdraw":
        number = number_of(form.get("number"))
        if number is None or not server.shelf.withdraw_house(number, house.root):
            return addresses_page(server, request, house, [phrases.bad_form()])
        return RedirectResponse("/house#held", 303)
    right = _RIGHTS.get(form.get("kind", ""))
    label = plain_text(form.get("label", ""))[:LONGEST_LABEL].strip()
    errors = [] if right is not None else [phrases.choose_right()]
    errors += [] if label else [phrases.name_holder()]
    if errors or right is None:
        return addresses_page(server, request, house, errors, form=form)
    token = server.shelf.issue_house(house.root, right[0], label, right[1], now)
    return addresses_page(server, request, house, made=(right[0], token))
