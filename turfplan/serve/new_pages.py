"""The questions that make a new lawn, one a screen, saved as they are answered."""

import shutil
from collections.abc import Sequence
from pathlib import Path

from anyio import to_thread
from starlette.concurrency import run_in_threadpool
from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import HTMLResponse, Response

from turfplan.app.asked_words import words_where
from turfplan.app.brief_questions import SCREENS, brief_text, is_whole
from turfplan.app.lawn_identity import drawn_lawn_id
from turfplan.app.new_brief import write_brief, write_survey
from turfplan.app.outputs import words_of_user
from turfplan.app.sent_brief import checked_brief_text
from turfplan.app.what_if import changed_text, keep_text, way_of
from turfplan.errors import TurfplanError
from turfplan.export.templates import render
from turfplan.files.brief_text import with_lawn_id
from turfplan.files.index import ServedLawn
from turfplan.message import said
from turfplan.phrases import lawn_page as lawn_phrases
from turfplan.phrases import page as phrases
from turfplan.serve.forms import plain_field, sent_text
from turfplan.serve.guard import from_here, plain
from turfplan.serve.lawn_pages import told_faults
from turfplan.serve.owner_pages import home_page, owner_of
from turfplan.serve.owners import Owner
from turfplan.serve.pages import PRIVATE, notice, see_other
from turfplan.serve.question_forms import LONGEST_ANSWER, BriefAnswers, read_form
from turfplan.serve.question_page import asked_page, check_page
from turfplan.serve.visit import Server
from turfplan.serve.ways_out import NotPlanned

CHECK, BRIEF, NAME = "check", "brief", "name"


async def new_page(server: Server, request: Request) -> Response:
    """A question of a new lawn, or the answer to it; the owner's alone."""
    owner = await run_in_threadpool(owner_of, server, request)
    if owner is None:
        return await run_in_threadpool(home_page, server, request)
    name = request.path_params.get("question", "")
    if name and name not in (CHECK, BRIEF, NAME, *SCREENS):
        return notice(request, 404, phrases.unknown(), phrases.whole_address())
    if request.method == "GET" or request.method == "HEAD":
        return await run_in_threadpool(_shown, server, owner, name)
    if not from_here(request):
        return plain(phrases.foreign_form(), 403)
    async with request.form() as form:
        return await to_thread.run_sync(_answered, server, owner, name, form, limiter=server.slow)


def _shown(server: Server, owner: Owner, name: str) -> Response:
    """The question of a name; without one the first that has no answer."""
    answers = server.shelf.draft(owner)
    if not name:
        return see_other(_next(answers, ""))
    if name == BRIEF:
        return _brief_asked(brief_text(answers, "lawn") if is_whole(answers) else "", ())
    if name == CHECK:
        return check_page(answers, NotPlanned(), _next(answers, ""))
    return asked_page(answers, name, server.today)


def _answered(server: Server, owner: Owner, name: str, form: FormData) -> Response:
    """An answer that can be read is kept, and the next question asked, or the plan made where the
    last one says so; one that cannot is asked again beside what is wrong."""
    answers = server.shelf.draft(owner)
    if name == CHECK:
        return _made(server, owner, answers, way_of(plain_field(form, "way", LONGEST_ANSWER)))
    if name == BRIEF:
        return _sent(server, owner, form)
    if not name:
        return see_other(_next(answers, ""))
    read = read_form(name, form, answers, server.today)
    if read.faults:
        return asked_page(read.answers, name, server.today, read.faults)
    server.shelf.keep_draft(owner, read.answers)
    if "plan" in form:
        return _made(server, owner, read.answers, "")
    return see_other(f"/new/{CHECK}" if is_whole(answers) else _next(read.answers, name))


def _next(answers: BriefAnswers, after: str) -> str:
    """The address of the next question without an answer: of those after one, else of all."""
    steps = list(SCREENS)
    later = steps[steps.index(after) + 1 :] if after in steps else []
    return f"/new/{next((name for name in (*later, *steps) if name not in answers), CHECK)}"


def _brief_asked(text: str, faults: Sequence[str]) -> Response:
    """The place for a brief that is there already."""
    html = render("web/new_brief.html.jinja", words_of_user(), text=text, faults=faults)
    return HTMLResponse(html, 422 if faults else 200, PRIVATE)


def _sent(server: Server, owner: Owner, form: FormData) -> Response:
    """A lawn from a brief that was sent; it names no file but the survey among the answers, for no
    other came with it, and where it cannot be planned nothing of it stays."""
    text, words, lawn_id = sent_text(form), words_of_user(), drawn_lawn_id()
    if text is None:
        return _brief_asked("", [words.text(lawn_phrases.not_utf8())])
    folder = server.settings.index.absolute().parent / "lawns" / lawn_id
    try:
        # A brief from elsewhere may be another lawn's, too: this one has an identity of its own.
        text = with_lawn_id(text, lawn_id)
        write_survey(folder, server.shelf.draft(owner))
        checked_brief_text(text, folder, lawn_id)
        write_brief(folder / "brief.toml", text)
        reasons = _planned(server, folder, folder / "brief.toml")
    except TurfplanError as error:
        shutil.rmtree(folder, ignore_errors=True)
        return _brief_asked(text, told_faults(error))
    if reasons:
        shutil.rmtree(folder, ignore_errors=True)
        return _brief_asked(text, reasons)
    lawn = server.shelf.add_lawn(folder, folder / "brief.toml")
    server.shelf.keep_draft(owner, {})
    return see_other(f"/mine/{lawn.id}/made")


def _made(server: Server, owner: Owner, answers: BriefAnswers, way: str) -> Response:
    """Writes the brief into a folder of its own, as a way out changes it where one is taken, plans
    it, and serves it; where it cannot be planned nothing of it stays but the answers."""
    if not is_whole(answers):
        return see_other(_next(answers, ""))
    lawn_id = drawn_lawn_id()
    folder = server.settings.index.absolute().parent / "lawns" / lawn_id
    brief = folder / "brief.toml"
    try:
        write_survey(folder, answers)
        write_brief(brief, brief_text(answers, lawn_id))
        if way:
            keep_text(brief, changed_text(brief, {}, [way]))
        reasons = _planned(server, folder, brief)
    except TurfplanError as error:
        words = words_where(answers)
        told = tuple(words.text(said(problem.message)) for problem in error.problems)
        reasons = NotPlanned(told)
    if reasons:
        shutil.rmtree(folder, ignore_errors=True)
        return check_page(answers, reasons, _next(answers, ""), 422)
    lawn = server.shelf.add_lawn(folder, brief)
    server.shelf.keep_draft(owner, {})
    return see_other(f"/mine/{lawn.id}/made")


def _planned(server: Server, folder: Path, brief: Path) -> NotPlanned:
    """Plans a brief into its folder; why it cannot be, nothing where it was."""
    failed = words_of_user().text(phrases.failed())
    replan = server.settings.replan
    if replan is None:
        return NotPlanned((failed,))
    reasons = replan(ServedLawn(0, folder, brief, ""))
    ways = reasons.ways if isinstance(reasons, NotPlanned) else ()
    return NotPlanned(tuple(reason or failed for reason in reasons), ways)
