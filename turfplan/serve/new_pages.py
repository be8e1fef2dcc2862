"""The questions that make a new lawn, one a screen, saved as they are answered."""

import re
import shutil
from collections.abc import Mapping, Sequence
from pathlib import Path

from anyio import to_thread
from starlette.concurrency import run_in_threadpool
from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import HTMLResponse, Response

from turfplan.app.asked_words import (
    WITH_EXAMPLE,
    area_said_back,
    by_looks,
    example_of,
    if_unknown,
    intent_names,
    place_said_back,
    told_wrong,
    weekday_names,
    words_where,
)
from turfplan.app.brief_questions import (
    AWAY,
    BY_NAME,
    EVERYWHERE,
    INTENTS,
    LOOKS,
    WEEKDAYS,
    answer_of,
    asks_hollows,
    brief_text,
    faults_of,
    steps_of,
    unassumed,
)
from turfplan.app.lawn_identity import drawn_lawn_id
from turfplan.app.new_brief import write_brief
from turfplan.app.outputs import words_of_user
from turfplan.app.plain_answers import is_unknown, plainly
from turfplan.app.seen_answers import GRASS, LAYERS, SOIL, jar_told, soil_by_feel, soil_by_jar
from turfplan.app.sent_brief import checked_brief_text
from turfplan.app.typed_days import spans_of, written_spans
from turfplan.app.what_if import changed_text, keep_text, way_of
from turfplan.errors import TurfplanError
from turfplan.export.templates import render
from turfplan.files.brief_text import with_lawn_id
from turfplan.files.index import ServedLawn
from turfplan.files.reading.book import load_book
from turfplan.message import Message, NamedWeekday, Number, said
from turfplan.messages import Words
from turfplan.phrases import lawn_page as lawn_phrases
from turfplan.phrases import page as phrases
from turfplan.serve.forms import plain_field
from turfplan.serve.guard import from_here, plain
from turfplan.serve.lawn_pages import sent_text, told_faults
from turfplan.serve.owner_pages import home_page, owner_of
from turfplan.serve.owners import Owner
from turfplan.serve.pages import PRIVATE, notice, see_other
from turfplan.serve.visit import Server
from turfplan.serve.ways_out import NotPlanned

LONGEST_ANSWER = 200
AWAY_SO = "19 Dec to 9 Jan"
CHECK, BRIEF = "check", "brief"
SEEN_OF_SOIL = (*(look.key for look in SOIL), *(name for name, _ in LAYERS))
BriefAnswers = Mapping[str, str]


async def new_page(server: Server, request: Request) -> Response:
    """A question of a new lawn, or the answer to it; the owner's alone."""
    owner = await run_in_threadpool(owner_of, server, request)
    if owner is None:
        return await run_in_threadpool(home_page, server, request)
    name = request.path_params.get("question", "")
    if name and name not in (CHECK, BRIEF, *BY_NAME):
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
        return _brief_asked("", ())
    return _check(answers, NotPlanned()) if name == CHECK else _asked(answers, name, ())


def _answered(server: Server, owner: Owner, name: str, form: FormData) -> Response:
    """An answer that can be read is kept, and the next question asked; one that cannot is asked
    again beside what is wrong."""
    answers = server.shelf.draft(owner)
    if name == CHECK:
        return _made(server, owner, answers, _way(form))
    if name == BRIEF:
        return _sent(server, form)
    if name not in BY_NAME:
        return see_other(_next(answers, ""))
    answer = _answer_of(name, form)
    if answer is None:
        typed = plain_field(form, "answer", LONGEST_ANSWER)
        fault = phrases.jar_wrong() if "jar" in form else _needed(name)
        beside = _typed(form) if name == "soil" else {}
        if name == "weekdays":
            beside = {AWAY: plain_field(form, AWAY, LONGEST_ANSWER)}
        kept = {**answers, name: typed, **beside}
        return _asked(kept, name, (unassumed(name) if is_unknown(typed) else fault,), 422)
    tried = {**answers, name: answer}
    if name == "grass":
        tried = {key: value for key, value in tried.items() if key not in LOOKS} | _seen(form)
    if name == "depth" and not asks_hollows(answer):
        tried.pop("everywhere", None)
    if name == "weekdays":
        away = plain_field(form, AWAY, LONGEST_ANSWER)
        spans = spans_of(away, server.settings.clock().astimezone().date())
        if away and spans is None:
            return _asked({**tried, AWAY: away}, name, (phrases.help_away(example=AWAY_SO),), 422)
        tried = {key: value for key, value in tried.items() if key != AWAY}
        tried |= {AWAY: written_spans(spans)} if spans else {}
    if faults := faults_of(tried, hints=name not in WITH_EXAMPLE):
        return _asked(tried, name, told_wrong(name, tried, faults), 422)
    server.shelf.keep_draft(owner, tried)
    return see_other(_next(tried, name))


def _answer_of(name: str, form: FormData) -> str | None:
    """What a form answers to a question; None for nothing where something is needed."""
    question = BY_NAME[name]
    if "unknown" in form or (name == "grass" and "looks" in form):
        return question.unknown or question.usual
    if name == "soil" and "feel" in form:
        return soil_by_feel(_typed(form)) or question.unknown
    if name == "soil" and "jar" in form:
        return soil_by_jar(_typed(form))
    if name == "weekdays":
        chosen = [day for day in WEEKDAYS if day in form.getlist("answer")]
        return ",".join(chosen) or None
    answer = plain_field(form, "answer", LONGEST_ANSWER)
    if name == "everywhere" and answer != EVERYWHERE:
        answer = plain_field(form, "share", LONGEST_ANSWER)
    if not answer and name == "name":
        return question.usual
    return answer_of(name, answer) if answer else None


def _way(form: FormData) -> str:
    """The lines of a way out that a form takes; nothing for what none is."""
    return way_of(plain_field(form, "way", LONGEST_ANSWER))


def _needed(name: str) -> Message:
    """What is said where nothing was answered."""
    can_go_without = bool(if_unknown(name, words_of_user()))
    return phrases.answer_or_unknown() if can_go_without else phrases.answer_needed()


def _typed(form: FormData) -> dict[str, str]:
    """What was chosen and typed of what was felt and measured."""
    return {name: str(form.get(name, ""))[:LONGEST_ANSWER] for name in SEEN_OF_SOIL}


def _seen(form: FormData) -> dict[str, str]:
    """How the grass looks, where that was answered instead of its name."""
    told = {key: str(form.get(key, "")) for key in LOOKS} if "looks" in form else {}
    return {key: value for key, value in told.items() if value in LOOKS[key]}


def _next(answers: BriefAnswers, after: str) -> str:
    """The address of the question after one, else of the first without an answer."""
    steps = steps_of(answers)
    if after in steps:
        later = steps[steps.index(after) + 1 :]
        return f"/new/{later[0]}" if later else f"/new/{CHECK}"
    return f"/new/{next((name for name in steps if name not in answers), CHECK)}"


def _asked(
    answers: BriefAnswers, name: str, errors: tuple[Message, ...], status: int = 200
) -> Response:
    words, steps, question = words_where(answers), steps_of(answers), BY_NAME[name]
    place = steps.index(name) if name in steps else 0
    answer, unknown = answers.get(name, ""), if_unknown(name, words)
    html = render(
        "web/question.html.jinja",
        words,
        name=name,
        question=_wording(name, answers, words),
        hint=words.text(phrases.place_hint()) if name == "place" else "",
        number=place + 1,
        count=len(steps),
        answer=answer,
        # Nothing looks answered that is not: only a name is proposed.
        proposed="" if unknown else question.usual or "",
        unknown=unknown,
        errors=[words.text(one) for one in errors],
        said_back=place_said_back(answers, words) if name == "area" else "",
        away=answers.get(AWAY, ""),
        away_so=AWAY_SO,
        before=f"/new/{steps[place - 1]}" if place else "",
        intents=intent_names(words),
        looks=_looks(name, words),
        jar=words.text(jar_told(load_book())) if name == "soil" else "",
        layers=[(key, words.text(told()), answers.get(key, "")) for key, told in LAYERS]
        if name == "soil"
        else [],
        weekdays=[
            (day, words.value(NamedWeekday(n)), day in answer.split(","))
            for n, day in enumerate(WEEKDAYS)
        ]
        if name == "weekdays"
        else [],
    )
    return HTMLResponse(html, status, PRIVATE)


def _looks(name: str, words: Words) -> list[dict[str, object]]:
    """What can be looked at or felt where the answer has no name."""
    looks = {"grass": GRASS, "soil": SOIL}.get(name, ())
    return [
        {
            "key": look.key,
            "asked": words.text(look.asked()),
            "kinds": [(v, drawn, words.text(told(load_book()))) for v, drawn, told in look.kinds],
        }
        for look in looks
    ]


_SHORT = {
    "place": phrases.short_place,
    "area": phrases.short_area,
    "grass": phrases.short_grass,
    "soil": phrases.short_soil,
    "depth": phrases.short_depth,
    "everywhere": phrases.short_everywhere,
    "intent": phrases.short_intent,
    "weekdays": phrases.short_weekdays,
    "name": phrases.short_name,
}


def _wording(name: str, answers: BriefAnswers, words: Words) -> str:
    """A question as it is asked: where answers are to be chosen it names none."""
    chosen = {
        "place": phrases.ask_place,
        "grass": phrases.ask_grass,
        "soil": phrases.ask_soil,
        "area": lambda: phrases.ask_area(example=example_of("area", answers)),
        "depth": lambda: phrases.ask_depth(example=example_of("depth", answers)),
        "everywhere": phrases.ask_everywhere,
        "intent": phrases.ask_intent,
    }
    return words.text(chosen[name]() if name in chosen else BY_NAME[name].asked())


def _check(answers: BriefAnswers, reasons: NotPlanned, status: int = 200) -> Response:
    """All answers on one screen, each of which can be changed, and the button that plans; where
    they could not be planned, what would do instead, and why."""
    words, steps = words_where(answers), steps_of(answers)
    rows = [
        {
            "address": f"/new/{name}",
            "question": words.text(_SHORT[name]()),
            "answer": by_looks(answers, words)
            if name == "grass" and not LOOKS.keys().isdisjoint(answers)
            else _told(name, answers[name], words, answers.get(AWAY, "")),
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
        ways=[way for way in reasons.ways if way.way],
    )
    return HTMLResponse(html, status, PRIVATE)


def _told(name: str, answer: str, words: Words, away: str) -> str:
    if name == "intent" and answer in INTENTS:
        return dict(intent_names(words))[answer]
    if name == "weekdays":
        days = weekday_names(answer, words)
        return words.text(phrases.days_and_away(days=days, away=away)) if away else days
    if name == "depth":
        return plainly(name, answer)
    if name == "area":
        return area_said_back(answer)
    if name == "everywhere":
        if answer == EVERYWHERE:
            return words.text(phrases.low_everywhere())
        share = Number(float(answer), "percent") if re.fullmatch(r"0?\.\d+|1", answer) else None
        return words.text(phrases.low_share(share=share)) if share is not None else answer
    return words.text(phrases.not_sure()) if answer == BY_NAME[name].unknown else answer


def _brief_asked(text: str, faults: Sequence[str]) -> Response:
    """The place for a brief that is there already."""
    html = render("web/new_brief.html.jinja", words_of_user(), text=text, faults=faults)
    return HTMLResponse(html, 422 if faults else 200, PRIVATE)


def _sent(server: Server, form: FormData) -> Response:
    """A lawn from a brief that was sent; it names no files, for none came with it, and where it
    cannot be planned nothing of it stays."""
    text, words, lawn_id = sent_text(form), words_of_user(), drawn_lawn_id()
    if text is None:
        return _brief_asked("", [words.text(lawn_phrases.not_utf8())])
    folder = server.settings.index.absolute().parent / "lawns" / lawn_id
    try:
        # A brief from elsewhere may be another lawn's, too: this one has an identity of its own.
        text = with_lawn_id(text, lawn_id)
        checked_brief_text(text, folder, lawn_id)
        write_brief(folder / "brief.toml", text)
        reasons = _planned(server, folder, folder / "brief.toml")
    except TurfplanError as error:
        return _brief_asked(text, told_faults(error))
    if reasons:
        shutil.rmtree(folder, ignore_errors=True)
        return _brief_asked(text, reasons)
    lawn = server.shelf.add_lawn(folder, folder / "brief.toml")
    return see_other(f"/mine/{lawn.id}/made")


def _made(server: Server, owner: Owner, answers: BriefAnswers, way: str) -> Response:
    """Writes the brief into a folder of its own, as a way out changes it where one is taken, plans
    it, and serves it; where it cannot be planned nothing of it stays but the answers."""
    if any(name not in answers for name in steps_of(answers)):
        return see_other(_next(answers, ""))
    lawn_id = drawn_lawn_id()
    folder = server.settings.index.absolute().parent / "lawns" / lawn_id
    brief = folder / "brief.toml"
    try:
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
        return _check(answers, reasons, 422)
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
