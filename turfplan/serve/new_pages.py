"""The questions that make a new lawn, one a screen, saved as they are answered."""

import re
import shutil
from collections.abc import Mapping
from pathlib import Path

from starlette.concurrency import run_in_threadpool
from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import HTMLResponse, Response

from turfplan.app.brief_questions import (
    BY_NAME,
    EVERYWHERE,
    INTENTS,
    WEEKDAYS,
    asks_hollows,
    brief_text,
    faults_of,
    place_of,
)
from turfplan.app.lawn_identity import drawn_lawn_id
from turfplan.app.new_brief import write_brief
from turfplan.app.outputs import words_of_user
from turfplan.errors import TurfplanError
from turfplan.export.templates import render
from turfplan.files.index import ServedLawn
from turfplan.message import Message, NamedWeekday, Number, said
from turfplan.messages import Words
from turfplan.phrases import page as phrases
from turfplan.plain_text import plain_text
from turfplan.serve.guard import from_here, plain
from turfplan.serve.owner_pages import home_page, owner_of
from turfplan.serve.owners import Owner
from turfplan.serve.pages import PRIVATE, notice, see_other
from turfplan.serve.visit import Server

# The place goes first: it can be said back with something true.
ORDER = ("place", "area", "grass", "soil", "depth", "everywhere", "intent", "weekdays", "name")
LONGEST_ANSWER = 200
CHECK = "check"
BriefAnswers = Mapping[str, str]


async def new_page(server: Server, request: Request) -> Response:
    """A question of a new lawn, or the answer to it; the owner's alone."""
    owner = await run_in_threadpool(owner_of, server, request)
    if owner is None:
        return await run_in_threadpool(home_page, server, request)
    name = request.path_params.get("question", "")
    if name and name != CHECK and name not in BY_NAME:
        return notice(request, 404, phrases.unknown(), phrases.whole_address())
    if request.method == "GET" or request.method == "HEAD":
        return await run_in_threadpool(_shown, server, owner, name)
    if not from_here(request):
        return plain(phrases.foreign_form(), 403)
    form = await request.form()
    return await run_in_threadpool(_answered, server, owner, name, form)


def _shown(server: Server, owner: Owner, name: str) -> Response:
    """The question of a name; without one the first that has no answer."""
    answers = server.shelf.draft(owner)
    if not name:
        return see_other(_next(answers, ""))
    return _check(answers, ()) if name == CHECK else _asked(answers, name, ())


def _answered(server: Server, owner: Owner, name: str, form: FormData) -> Response:
    """An answer that can be read is kept, and the next question asked; one that cannot is asked
    again beside what is wrong."""
    answers = server.shelf.draft(owner)
    if name == CHECK:
        return _made(server, owner, answers)
    if name not in BY_NAME:
        return see_other(_next(answers, ""))
    answer = _answer_of(name, form)
    if answer is None:
        return _asked(answers, name, (phrases.answer_needed(),), 422)
    tried = {**answers, name: answer}
    if name == "depth" and not asks_hollows(answer):
        tried.pop("everywhere", None)
    if faults := faults_of(tried):
        return _asked(tried, name, faults, 422)
    server.shelf.keep_draft(owner, tried)
    return see_other(_next(tried, name))


def _answer_of(name: str, form: FormData) -> str | None:
    """What a form answers to a question; None for nothing where something is needed."""
    question = BY_NAME[name]
    if "unknown" in form:
        return question.unknown or question.usual
    if name == "weekdays":
        chosen = [day for day in WEEKDAYS if day in form.getlist("answer")]
        return ",".join(chosen) or None
    answer = plain_text(str(form.get("answer", "")))[:LONGEST_ANSWER].strip()
    if name == "everywhere" and answer != EVERYWHERE:
        answer = plain_text(str(form.get("share", "")))[:LONGEST_ANSWER].strip()
    return answer or question.usual


def _steps(answers: BriefAnswers) -> list[str]:
    """The questions that are asked: of hollows only where something is filled."""
    filled = asks_hollows(answers.get("depth", "1"))
    return [name for name in ORDER if name != "everywhere" or filled]


def _next(answers: BriefAnswers, after: str) -> str:
    """The address of the question after one, else of the first without an answer."""
    steps = _steps(answers)
    if after in steps:
        later = steps[steps.index(after) + 1 :]
        return f"/new/{later[0]}" if later else f"/new/{CHECK}"
    return f"/new/{next((name for name in steps if name not in answers), CHECK)}"


def _asked(
    answers: BriefAnswers, name: str, errors: tuple[Message, ...], status: int = 200
) -> Response:
    words, steps, question = words_of_user(), _steps(answers), BY_NAME[name]
    place = steps.index(name) if name in steps else 0
    answer = answers.get(name, "")
    html = render(
        "web/question.html.jinja",
        words,
        name=name,
        question=_wording(name, words),
        hint=words.text(phrases.place_hint()) if name == "place" else "",
        number=place + 1,
        count=len(steps),
        answer=answer,
        usual=question.usual or "",
        unknown=question.unknown is not None,
        errors=[words.text(one) for one in errors],
        said_back=_said_back(answers, words) if name == "area" else "",
        before=f"/new/{steps[place - 1]}" if place else "",
        intents=[(key, words.text(_INTENT[key]())) for key in INTENTS],
        weekdays=[
            (day, words.value(NamedWeekday(n)), day in (answer or question.usual or "").split(","))
            for n, day in enumerate(WEEKDAYS)
        ]
        if name == "weekdays"
        else [],
    )
    return HTMLResponse(html, status, PRIVATE)


_INTENT = {
    "none": phrases.intent_none,
    "patch": phrases.intent_patch,
    "overseed": phrases.intent_overseed,
    "renovate": phrases.intent_renovate,
    "dormant": phrases.intent_dormant,
    "plant": phrases.intent_plant,
    "winter_overseed": phrases.intent_winter_overseed,
}


def _wording(name: str, words: Words) -> str:
    """A question as it is asked: where answers are to be chosen it names none."""
    chosen = {
        "place": phrases.ask_place,
        "everywhere": phrases.ask_everywhere,
        "intent": phrases.ask_intent,
    }
    return words.text(chosen[name]() if name in chosen else BY_NAME[name].asked())


def _said_back(answers: BriefAnswers, words: Words) -> str:
    """Where the place lies, with something that its owner knows to be true."""
    if "place" not in answers:
        return ""
    try:
        found = place_of(answers["place"])
    except TurfplanError:
        return ""  # it is asked again, and told there
    name = found.name or said(answers["place"])
    if found.last_frost is None or found.first_frost is None:
        return words.text(phrases.place_without_frost(place=name))
    return words.text(
        phrases.place_found(place=name, last=found.last_frost, first=found.first_frost)
    )


def _check(answers: BriefAnswers, reasons: tuple[str, ...], status: int = 200) -> Response:
    """All answers on one screen, each of which can be changed, and the button that plans."""
    words, steps = words_of_user(), _steps(answers)
    rows = [
        {
            "address": f"/new/{name}",
            "question": _wording(name, words),
            "answer": _told(name, answers[name], words),
        }
        for name in steps
        if name in answers
    ]
    html = render(
        "web/check.html.jinja",
        words,
        rows=rows,
        whole=all(name in answers for name in steps),
        following=_next(answers, ""),
        reasons=reasons,
    )
    return HTMLResponse(html, status, PRIVATE)


def _told(name: str, answer: str, words: Words) -> str:
    if name == "intent" and answer in _INTENT:
        return words.text(_INTENT[answer]())
    if name == "weekdays":
        days = [WEEKDAYS.index(day) for day in answer.split(",") if day in WEEKDAYS]
        return ", ".join(words.value(NamedWeekday(day)) for day in days)
    if name == "everywhere":
        if answer == EVERYWHERE:
            return words.text(phrases.low_everywhere())
        share = Number(float(answer), "percent") if re.fullmatch(r"0?\.\d+|1", answer) else None
        return words.text(phrases.low_share(share=share)) if share is not None else answer
    return words.text(phrases.not_sure()) if answer == BY_NAME[name].unknown else answer


def _made(server: Server, owner: Owner, answers: BriefAnswers) -> Response:
    """Writes the brief into a folder of its own, plans it, and serves it; where it cannot be
    planned nothing of it stays but the answers."""
    if any(name not in answers for name in _steps(answers)):
        return see_other(_next(answers, ""))
    lawn_id = drawn_lawn_id()
    folder = server.settings.index.absolute().parent / "lawns" / lawn_id
    brief = folder / "brief.toml"
    try:
        write_brief(brief, brief_text(answers, lawn_id))
        reasons = _planned(server, folder, brief)
    except TurfplanError as error:
        words = words_of_user()
        reasons = tuple(words.text(said(problem.message)) for problem in error.problems)
    if reasons:
        shutil.rmtree(folder, ignore_errors=True)
        return _check(answers, reasons, 422)
    lawn = server.shelf.add_lawn(folder, brief)
    server.shelf.keep_draft(owner, {})
    return see_other(f"/mine/{lawn.id}")


def _planned(server: Server, folder: Path, brief: Path) -> tuple[str, ...]:
    """Plans a brief into its folder; why it cannot be, nothing where it was."""
    replan = server.settings.replan
    if replan is None:
        return (words_of_user().text(phrases.failed()),)
    reasons = tuple(replan(ServedLawn(0, folder, brief, "")))
    return tuple(reason or words_of_user().text(phrases.failed()) for reason in reasons)
