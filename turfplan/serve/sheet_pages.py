"""A lawn's sheets of a day or a week for paper: as a page that prints whole, and as a PDF that is
made once and kept as long as the sheet says the same."""

import re
from collections.abc import Callable
from datetime import date
from typing import Literal

from starlette.responses import HTMLResponse, Response

from turfplan.export.sheets.checklist import checklist_html
from turfplan.export.sheets.day_sheet import day_html
from turfplan.export.templates import digest_of
from turfplan.message import Day
from turfplan.messages import Words
from turfplan.records.plan import Plan
from turfplan.serve.guard import SECURITY
from turfplan.serve.pages import PRIVATE, Known, lawn_page, see_other
from turfplan.serve.printed_sheets import can_print
from turfplan.serve.today import day_view
from turfplan.serve.visit import Visit

SheetOf = Literal["day", "week"]
_WRITERS: dict[SheetOf, Callable[[Plan, Words, date], str]] = {
    "day": day_html,
    "week": checklist_html,
}
_STYLE = re.compile(r"<style>(.*?)</style>", re.DOTALL)
_SCRIPT = re.compile(r"<script>(.*?)</script>", re.DOTALL)


def one_day_page(visit: Visit, known: Known) -> Response:
    """What somebody sees who holds the sheets of one day: its jobs and its waterings."""
    words, day = known.words, known.day.today
    return lawn_page(
        "web/day.html.jinja",
        visit,
        known,
        200,
        view=day_view(known.plan, known.day, known.entries, words),
        day=words.value(Day(day)),
        today=day.isoformat(),
        prints=can_print(),
    )


def printed_page(of: SheetOf) -> Callable[[Visit, Known], Response]:
    """The sheet as a page that stands alone, to be printed by the browser."""

    def answer(visit: Visit, known: Known) -> Response:
        html = _WRITERS[of](known.plan, known.words, known.day.today)
        return HTMLResponse(html, 200, {**PRIVATE, **own_policy(html)})

    return answer


def pdf_answer(of: SheetOf) -> Callable[[Visit, Known], Response]:
    """The sheet as PDF; where nothing can make one the page that prints whole."""

    def answer(visit: Visit, known: Known) -> Response:
        day = known.day.today
        html = _WRITERS[of](known.plan, known.words, day)
        made = visit.server.printed.pdf(html) if can_print() else b""
        if not made:
            return see_other(f"{visit.home}/print/{of}")
        headers = {**PRIVATE, "Content-Disposition": f'inline; filename="{of}-{day}.pdf"'}
        return Response(made, 200, headers, "application/pdf")

    return answer


def own_policy(html: str) -> dict[str, str]:
    """The policy of a page that carries its styles and scripts: these very ones are let through, by
    their digest, and no others."""
    name = "Content-Security-Policy"
    own = SECURITY[name]
    for of, pieces in (("style-src", _STYLE.findall(html)), ("script-src", _SCRIPT.findall(html))):
        if pieces:
            own = own.replace(f"{of} 'self'", f"{of} {' '.join(map(digest_of, pieces))}")
    return {name: own}
