"""What a crew sees: the lawns of its day with ways in; the sheets of its day and week and the ticks
of these lawns stand in other modules, and there is nothing else."""

from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse, Response

from turfplan.app.client_callbacks import callback_number, tick_on_page
from turfplan.app.office_list import OfficeLawn
from turfplan.business.visiting_order import in_order_of_place
from turfplan.export.templates import render
from turfplan.message import Day, Number
from turfplan.messages import Words
from turfplan.phrases import office as phrases
from turfplan.plain_text import plain_text
from turfplan.serve.office_desk import Seat, crew_day, of_crew
from turfplan.serve.office_seats import desk_of
from turfplan.serve.pages import PRIVATE, notice
from turfplan.serve.visit import Server, number_of


def crew_page(server: Server, request: Request, seat: Seat) -> Response:
    """The lawns that are on for the crew today, in the order in which they are gone to."""
    desk, now = desk_of(server), server.settings.clock()
    words, business = desk.words(), desk.business()
    lawns = {one.folder: one for one in crew_day(desk.shelf.lawns(), seat, now)}
    clients = {folder: one.client for folder, one in lawns.items()}
    order = in_order_of_place(clients, business.yard if business is not None else None)
    html = render(
        "web/office/crew.html.jinja",
        words,
        seat=seat,
        business=plain_text(business.name) if business is not None else desk.root.name,
        crew=plain_text(seat.crew),
        day=words.value(Day(desk.today(now))),
        told=words.text(phrases.callback_ticked()) if "ticked" in request.query_params else "",
        lawns=[_shown(lawns[folder], server, words) for folder in order],
    )
    return HTMLResponse(html, 200, PRIVATE)


def _shown(lawn: OfficeLawn, server: Server, words: Words) -> dict[str, object]:
    """A lawn as its crew sees it."""
    client, today = lawn.client, lawn.today(server.settings.clock())
    return {
        "id": lawn.id,
        "name": plain_text(lawn.name),
        "address": plain_text(client.address or ""),
        "access": plain_text(client.access or ""),
        "telephone": unbroken(client.telephone or ""),
        "dialled": dialled(client.telephone or ""),
        "jobs": [
            {
                "title": job.title,
                "callback": callback_number(job.task),
                "hours": words.value(Number(round(job.hours, 1), "plain")) if job.hours else "",
                "until": words.value(Day(job.end, year=False)) if job.end > today else "",
            }
            for job in lawn.jobs_of(today)
        ],
    }


def callback_tick(server: Server, request: Request, seat: Seat) -> Response:
    """Marks a callback of the crew's day as done; the same tick again is one."""
    desk, now = desk_of(server), server.settings.clock()
    lawn = desk.shelf.lawn(request.path_params["name"])
    number = number_of(request.path_params["number"])
    if lawn is not None and number is not None and of_crew((lawn,), seat.crew):
        today = lawn.today(now)
        jobs = lawn.glance.jobs if lawn.glance is not None else ()
        # One that is open, but not on today, is not this crew's to close.
        shut = {callback_number(job.task) for job in jobs}
        shut -= {callback_number(job.task) for job in lawn.jobs_of(today)}
        if number not in shut and tick_on_page(desk.root, lawn.folder, number, today):
            return RedirectResponse("/crew?ticked=1", 303, PRIVATE)
    told = (phrases.not_today(), phrases.not_today_say())
    return notice(request, 404, *told, words=desk.words())


def ways_in(lawn: OfficeLawn, words: Words) -> tuple[str, ...]:
    """How a crew gets to a lawn and into it, as the head of its pages says it."""
    client = lawn.client
    lines = [plain_text(client.address)] if client.address else []
    if client.access:
        lines.append(f"{words.text(phrases.access())}: {plain_text(client.access)}")
    return tuple(lines)


def dialled(telephone: str) -> str:
    """What a telephone dials for a number as somebody wrote it; nothing where that is none."""
    number = "".join(sign for sign in telephone if sign in "+0123456789")
    return number if any(sign.isdigit() for sign in number) else ""


def unbroken(telephone: str) -> str:
    """A telephone number that no line breaks."""
    return plain_text(telephone).replace(" ", "\xa0")
