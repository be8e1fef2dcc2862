"""The page of the lawn itself, for its owner: its brief as text, all of it in one file, its end."""

import shutil
import tempfile
from collections.abc import Sequence
from pathlib import Path

from starlette.datastructures import FormData
from starlette.responses import HTMLResponse, Response

from turfplan.app.backup_lawns import backup_lawns
from turfplan.app.reader_language import language_of
from turfplan.app.sent_brief import checked_brief_text
from turfplan.app.what_if import keep_text, text_of
from turfplan.errors import TurfplanError
from turfplan.export.templates import render
from turfplan.files.plan_folder import folder_lock
from turfplan.messages.problems import problem_text, words_for_errors
from turfplan.phrases import lawn_page as phrases
from turfplan.plain_text import plain_text
from turfplan.serve.forms import sent_text
from turfplan.serve.guard import LARGEST_FORM
from turfplan.serve.pages import PRIVATE, Known, lawn_page, see_other
from turfplan.serve.visit import Visit


def own_page(
    visit: Visit, known: Known, faults: Sequence[str] = (), text: str | None = None
) -> Response:
    """The lawn's brief as text, and what else only its owner does; with `faults` the text that was
    sent is there again."""
    words = known.words
    if text is None:
        try:
            text = text_of(visit.lawn.brief) if visit.lawn.brief is not None else ""
        except (TurfplanError, ValueError):
            text, faults = "", (*faults, words.text(phrases.no_text()))
    return lawn_page(
        "web/own.html.jinja",
        visit,
        known,
        422 if faults else 200,
        text=text,
        long=len(text.encode()) > LARGEST_FORM // 2,
        has_brief=visit.lawn.brief is not None,
        faults=faults,
        saved="saved" in visit.request.query_params,
        folder=str(visit.lawn.folder),
        ours=_is_ours(visit),
    )


def brief_answer(visit: Visit, known: Known) -> Response:
    """The brief as a file."""
    brief = visit.lawn.brief
    if brief is None:
        return own_page(visit, known)
    headers = {**PRIVATE, "Content-Disposition": 'attachment; filename="brief.toml"'}
    return Response(text_of(brief), 200, headers, "application/toml")


def everything_answer(visit: Visit, known: Known) -> Response:
    """All that the lawn needs as one archive, which `turfplan restore` opens."""
    with tempfile.TemporaryDirectory() as folder:
        place = Path(folder) / "lawn"
        try:
            backup_lawns(place, [visit.lawn.folder], visit.server.settings.index)
        except TurfplanError as error:
            return own_page(visit, known, told_faults(error))
        content = place.read_bytes()
    name = f"lawn-{known.day.today}.turfplan"
    headers = {**PRIVATE, "Content-Disposition": f'attachment; filename="{name}"'}
    return Response(content, 200, headers, "application/octet-stream")


def save_brief(visit: Visit, known: Known, form: FormData) -> Response:
    """Writes the text that was sent, and plans with it; where either cannot be, the brief is as it
    was."""
    brief, words = visit.lawn.brief, known.words
    if brief is None:
        return own_page(visit, known)
    text = sent_text(form)
    if text is None:
        return own_page(visit, known, [words.text(phrases.not_utf8())])
    try:
        before = text_of(brief)
        checked_brief_text(text, brief.parent, known.plan.lawn_id)
        keep_text(brief, text)
    except TurfplanError as error:
        return own_page(visit, known, told_faults(error), text)
    replan = visit.server.settings.replan
    if replan is not None and (reasons := tuple(replan(visit.lawn))):
        keep_text(brief, before)
        return own_page(visit, known, [one for one in reasons if one] or [""], text)
    return see_other(f"{visit.home}/lawn", saved=[1])


def told_faults(error: TurfplanError) -> list[str]:
    """Each fault of a brief that was sent, with its place."""
    words = words_for_errors(language_of(None))
    return [problem_text(problem, words) for problem in error.problems]


def delete_lawn(visit: Visit, known: Known, form: FormData) -> Response:
    """Takes a lawn away for good, once the box is ticked: its addresses, and its files where this
    page has made them."""
    words = known.words
    if form.get("sure") != "yes":
        return own_page(visit, known, [words.text(phrases.delete_first())])
    ours = _is_ours(visit)
    visit.server.shelf.remove_lawn(visit.lawn)
    visit.server.failures.pop(visit.lawn.id, None)
    if ours:
        # Whoever plans it at this moment writes his files first.
        with folder_lock(visit.lawn.folder):
            pass
        shutil.rmtree(visit.lawn.folder)
    told = words.text(phrases.deleted(lawn=plain_text(known.plan.lawn.name)))
    html = render("web/notice.html.jinja", words, title=told, sentences=[])
    return HTMLResponse(html, 200, PRIVATE)


def _is_ours(visit: Visit) -> bool:
    """Whether the lawn's folder lies where new lawns of the page are put, with its brief in it."""
    folder, brief = visit.lawn.folder, visit.lawn.brief
    lawns = visit.server.settings.index.absolute().parent.resolve() / "lawns"
    return brief is not None and folder.parent == lawns and brief.parent == folder
