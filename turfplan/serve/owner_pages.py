"""What the owner's browser is for: being made one, all lawns, addresses given and taken back."""

from collections.abc import Mapping
from datetime import date, timedelta

from starlette.concurrency import run_in_threadpool
from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse, Response

from turfplan.app.outputs import words_of_user
from turfplan.errors import TurfplanError
from turfplan.export.templates import render
from turfplan.files.reading.plan import read_plan
from turfplan.message import Day, Message
from turfplan.phrases import page as phrases
from turfplan.plain_text import plain_text
from turfplan.records.plan_calendar import CalendarPart
from turfplan.serve.calendar_pages import calendar_page
from turfplan.serve.forms import plain_field
from turfplan.serve.guard import from_here, plain
from turfplan.serve.house_pages import owners_house
from turfplan.serve.owners import KEPT, OWNER_COMMAND, Owner
from turfplan.serve.pages import PRIVATE, Known, lawn_page, notice
from turfplan.serve.phones_button import can_open, let_phones
from turfplan.serve.tokens import FeedView, TokenKind
from turfplan.serve.visit import Server, Visit, number_of

LONGEST_LABEL = 60
ONE_DAY = "day"
# The sheets of a day can be opened the day after, too: by then it is over everywhere.
AFTERWARDS = timedelta(days=1)


def cookie_name(server: Server, request: Request) -> str:
    """What the owner's cookie is called: under TLS by the prefix that browsers hold to this host
    and to TLS."""
    return f"{'__Host-' if is_secure(server, request) else ''}turfplan-owner"


def is_secure(server: Server, request: Request) -> bool:
    """Whether this server is asked under TLS."""
    return server.base_url(request).startswith("https://")


def owner_of(server: Server, request: Request) -> Owner | None:
    """The owner's browser that sends a request, or None."""
    secret = request.cookies.get(cookie_name(server, request), "")
    return server.shelf.owner(secret, server.settings.clock())


async def claim_page(server: Server, request: Request) -> Response:
    """A one-time address: it shows a button, and the button makes this browser the owner's.

    Opening the address does not use it up, for programs that look at links ahead open it too.
    """
    once, now = request.path_params["once"], server.settings.clock()
    if not await run_in_threadpool(server.shelf.may_claim, once, now):
        return notice(request, 410, phrases.once_used(), phrases.once_again(command=OWNER_COMMAND))
    if request.method != "POST":
        html = render("web/claim.html.jinja", words_of_user())
        return HTMLResponse(html, 200, PRIVATE)
    if not from_here(request):
        return plain(phrases.foreign_form(), 403)
    label = plain_text(str((await request.form()).get("label", "")))[:LONGEST_LABEL]
    secret = await run_in_threadpool(server.shelf.claim, once, label, now)
    if secret is None:
        return notice(request, 410, phrases.once_used(), phrases.once_again(command=OWNER_COMMAND))
    # Who has no lawn yet begins with one.
    lawns = await run_in_threadpool(server.shelf.lawns)
    answer = RedirectResponse("/" if lawns else "/new", 303)
    answer.set_cookie(
        cookie_name(server, request),
        secret,
        max_age=round(KEPT.total_seconds()),
        path="/",
        secure=is_secure(server, request),
        httponly=True,
        samesite="lax",
    )
    return answer


def home_page(server: Server, request: Request) -> Response:
    """All lawns to the owner, the only one at once; to others what to do."""
    owner = owner_of(server, request)
    if owner is None:
        return notice(
            request,
            403,
            phrases.not_known(),
            phrases.open_yours(),
            phrases.lost_owner(command=OWNER_COMMAND),
        )
    lawns = server.shelf.lawns()
    if len(lawns) == 1:
        return RedirectResponse(f"/mine/{lawns[0].id}", 303)
    if (house := owners_house(server, request, owner.label)) is not None:
        return house
    named = []
    for lawn in lawns:
        try:
            plan = read_plan(lawn.folder)
        except TurfplanError:
            plan = None
        name = plain_text(plan.lawn.name) if plan is not None else ""
        named.append({"address": f"/mine/{lawn.id}", "name": name or lawn.folder.name})
    return HTMLResponse(render("web/home.html.jinja", words_of_user(), lawns=named), 200, PRIVATE)


def owner_form(visit: Visit, known: Known, form: FormData) -> Response:
    """A form of the page of calendars that only the owner has: an address given, one taken back,
    another browser's right taken."""
    done = str(form.get("do", ""))
    if done == "give":
        return _given(visit, known, form)
    number = number_of(form.get("number"))
    if number is None:
        return calendar_page(visit, known, [phrases.bad_form()])
    if done == "withdraw":
        visit.server.shelf.withdraw(number, visit.lawn)
    else:
        visit.server.shelf.withdraw_owner(number, visit.now)
    return RedirectResponse(f"{visit.home}/calendar#held", 303)


def phones_form(visit: Visit, known: Known, form: FormData) -> Response:
    """A form that opens the addresses of all lawns to the home network, or closes them there; only
    at the machine itself."""
    if not can_open(visit.server, visit.request):
        return plain(phrases.read_only(), 403)
    if (fault := let_phones(visit.server, str(form.get("do", "")))) is not None:
        return calendar_page(visit, known, [fault])
    return RedirectResponse(f"{visit.home}/calendar#phones", 303)


# What the form of an address calls a right with what it shows.
_RIGHTS: Mapping[str, tuple[TokenKind, CalendarPart]] = {
    "feed": ("feed", "all"),
    "feed-work": ("feed", "work"),
    "feed-water": ("feed", "water"),
    "read": ("read", "all"),
    "edit": ("edit", "all"),
    # The sheets of one day are seen, and nothing else is.
    "day": ("read", "all"),
}


def _given(visit: Visit, known: Known, form: FormData) -> Response:
    errors: list[Message] = []
    asked = str(form.get("kind", ""))
    right = _RIGHTS.get(asked)
    label = plain_field(form, "label", LONGEST_LABEL)
    if right is None:
        errors.append(phrases.choose_right())
    if not label:
        errors.append(phrases.name_holder())
    ends, since, until, day = (
        _day_of(form, name, known, errors) for name in ("ends", "shows_from", "shows_to", "day")
    )
    if ends is not None and ends < known.day.today:
        errors.append(phrases.end_is_over())
    days = (since, until) if since is not None and until is not None else None
    on_days = since is not None or until is not None
    fits = days is not None and days[0] <= days[1] and right is not None and right[0] == "feed"
    if on_days and not fits:
        errors.append(phrases.shows_days())
    if asked == ONE_DAY and not errors:
        errors += _faults_of_day(day, known.day.today)
    if errors or right is None:
        filled = {name: str(value) for name, value in form.items()}
        return calendar_page(visit, known, errors, form=filled)
    if asked == ONE_DAY and day is not None:
        days, ends = (day, day), ends or min(day, date.max - AFTERWARDS) + AFTERWARDS
    kind, part = right
    view = FeedView(part, days)
    token = visit.server.shelf.issue(visit.lawn, kind, label, ends, view, visit.now)
    return calendar_page(visit, known, made=(kind, token))


def _faults_of_day(day: date | None, today: date) -> tuple[Message, ...]:
    """What is wrong with the day whose sheets an address shall show."""
    if day is None:
        return (phrases.which_day(),)
    return (phrases.end_is_over(),) if day < today else ()


def _day_of(form: FormData, name: str, known: Known, errors: list[Message]) -> date | None:
    """A day of a form, None for an empty field; what is none joins `errors`."""
    text = str(form.get(name, "")).strip()
    if not text:
        return None
    try:
        return date.fromisoformat(text)
    except ValueError:
        errors.append(phrases.write_day(example=known.day.today.isoformat()))
        return None


def made_page(visit: Visit, known: Known) -> Response:
    """A plan that was made just now: with what it begins, and the way into a calendar."""
    following = next(iter((*known.day.due, *known.day.coming)), known.day.following)
    words = known.words
    return lawn_page(
        "web/made.html.jinja",
        visit,
        known,
        200,
        title=str(following.title) if following is not None else "",
        day=words.value(Day(following.start)) if following is not None else "",
    )
