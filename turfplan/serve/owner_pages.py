"""What the owner's browser is for: being made one, all lawns, addresses given and taken back."""

from datetime import date

from starlette.concurrency import run_in_threadpool
from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse, Response

from turfplan.app.outputs import words_of_user
from turfplan.errors import TurfplanError
from turfplan.export.templates import render
from turfplan.files.reading.plan import read_plan
from turfplan.message import Message
from turfplan.phrases import page as phrases
from turfplan.plain_text import plain_text
from turfplan.serve.guard import from_here, plain
from turfplan.serve.owners import KEPT, OWNER_COMMAND, Owner
from turfplan.serve.pages import PRIVATE, Known, calendar_page, notice
from turfplan.serve.tokens import KINDS, TokenKind
from turfplan.serve.visit import Server, Visit, number_of

LONGEST_LABEL = 60


def cookie_name(server: Server, request: Request) -> str:
    """What the owner's cookie is called: under TLS by the prefix that browsers hold to this host
    and to TLS."""
    return f"{'__Host-' if _is_secure(server, request) else ''}turfplan-owner"


def _is_secure(server: Server, request: Request) -> bool:
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
    answer = RedirectResponse("/", 303)
    answer.set_cookie(
        cookie_name(server, request),
        secret,
        max_age=round(KEPT.total_seconds()),
        path="/",
        secure=_is_secure(server, request),
        httponly=True,
        samesite="lax",
    )
    return answer


def home_page(server: Server, request: Request) -> Response:
    """All lawns to the owner, the only one at once; to others what to do."""
    if owner_of(server, request) is None:
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


def _given(visit: Visit, known: Known, form: FormData) -> Response:
    errors: list[Message] = []
    kind: TokenKind | None = next((k for k in KINDS if k == form.get("kind")), None)
    label = plain_text(str(form.get("label", "")))[:LONGEST_LABEL].strip()
    ends: date | None = None
    if kind is None:
        errors.append(phrases.choose_right())
    if not label:
        errors.append(phrases.name_holder())
    if text := str(form.get("ends", "")).strip():
        try:
            ends = date.fromisoformat(text)
        except ValueError:
            errors.append(phrases.write_day(example=known.day.today.isoformat()))
        else:
            if ends < known.day.today:
                errors.append(phrases.end_is_over())
    if errors or kind is None:
        filled = {name: str(value) for name, value in form.items()}
        return calendar_page(visit, known, errors, form=filled)
    token = visit.server.shelf.issue(visit.lawn, kind, label, ends)
    return calendar_page(visit, known, made=(kind, token))
