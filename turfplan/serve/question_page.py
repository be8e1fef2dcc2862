"""The screens of a new lawn's questions: one question with its parts, and all answers together."""

import re
from collections.abc import Mapping
from datetime import date, timedelta

from starlette.responses import HTMLResponse, Response

from turfplan.app.asked_words import (
    area_said_back,
    by_looks,
    choice_names,
    example_of,
    if_unknown,
    place_said_back,
    towns_meant,
    weekday_names,
    words_where,
)
from turfplan.app.brief_choices import CHOICES, NOT_KNOWN, killer_of
from turfplan.app.brief_questions import (
    AWAY,
    BY_NAME,
    EVERYWHERE,
    LOOKS,
    SCREENS,
    SURVEY,
    WEEKDAYS,
    is_whole,
    steps_of,
)
from turfplan.app.plain_answers import plainly
from turfplan.app.seen_answers import GRASS, LAYERS, SOIL, jar_told
from turfplan.app.sent_survey import survey_told
from turfplan.export.templates import render
from turfplan.files.reading.book import load_book
from turfplan.message import Day, Message, Month, NamedWeekday, Number
from turfplan.messages import Words
from turfplan.phrases import page as phrases
from turfplan.serve.pages import PRIVATE
from turfplan.serve.question_forms import AWAY_SO, HOLLOWS, BriefAnswers
from turfplan.serve.ways_out import NotPlanned

# Months that are offered for what was sprayed, with the one that it is.
MONTHS_BACK = 13
_ASKED = {
    "place": phrases.ask_place,
    "grass": phrases.ask_grass,
    "condition": phrases.ask_condition,
    "everywhere": phrases.where_low,
    "depth": phrases.ask_depth,
    "cause": phrases.ask_cause,
    "soil": phrases.ask_soil,
    "water": phrases.ask_water,
    "heads": phrases.ask_heads,
    "sprayed": phrases.ask_sprayed,
    "sprayed_on": phrases.ask_sprayed_on,
    "killer": phrases.ask_killer,
    "people": phrases.ask_people,
    "intent": phrases.ask_intent,
}
_SHORT = {
    "place": phrases.short_place,
    "area": phrases.short_area,
    "grass": phrases.short_grass,
    "depth": phrases.short_depth,
    "soil": phrases.short_soil,
    "water": phrases.short_water,
    "sprayed": phrases.short_sprayed,
    "weekdays": phrases.short_weekdays,
    "intent": phrases.short_intent,
}


def asked_page(
    answers: BriefAnswers,
    name: str,
    today: date,
    faults: Mapping[str, tuple[Message, ...]] | None = None,
) -> Response:
    """A question with its parts, as far as they are answered, each fault beside its part."""
    words, steps = words_where(answers), list(SCREENS)
    place = steps.index(name) if name in steps else -1
    answer, unknown = answers.get(name, ""), if_unknown(name, words, answers)
    wrong = {part: [words.text(one) for one in told] for part, told in (faults or {}).items()}
    towns = towns_meant(answer, words) if name == "place" and wrong else []
    if towns:
        wrong[name] = [words.text(phrases.which_town(n=len(towns)))]
    html = render(
        "web/question.html.jinja",
        words,
        towns=towns,
        name=name,
        question=_wording(name, answers, words),
        hint=_hint(name, answers, words),
        number=place + 1,
        count=len(steps),
        answer=answer,
        # Nothing looks answered that is not: only a name is proposed.
        proposed="" if unknown else BY_NAME[name].usual or "",
        unknown=unknown,
        is_unknown=bool(answer) and answer == BY_NAME[name].unknown,
        faults=wrong,
        said_back=place_said_back(answers, words) if name == "area" else "",
        away=answers.get(AWAY, ""),
        away_so=AWAY_SO,
        before=f"/new/{steps[place - 1]}" if place > 0 else "",
        ends=name == steps[-1] and is_whole({**answers, name: answer}),
        kinds=choice_names(name, words),
        parts={part: _part(part, answers, words) for part in SCREENS.get(name, ())},
        **_more(name, answers, words, today),
    )
    return HTMLResponse(html, 422 if wrong else 200, PRIVATE)


def _part(name: str, answers: BriefAnswers, words: Words) -> dict[str, object]:
    """A part that is asked with a question."""
    return {
        "name": name,
        "asked": words.text(_ASKED[name]()),
        "kinds": choice_names(name, words),
        "answer": answers.get(name, ""),
        "unknown": if_unknown(name, words, answers),
    }


def _more(name: str, answers: BriefAnswers, words: Words, today: date) -> dict[str, object]:
    """What single questions show besides."""
    found: dict[str, object] = {"looks": _looks(name, words), "layers": [], "jar": ""}
    if name == "soil":
        found["jar"] = words.text(jar_told(load_book()))
        found["layers"] = [(k, words.text(told()), answers.get(k, "")) for k, told in LAYERS]
    elif name == "weekdays":
        days = answers.get(name, "").split(",")
        found["weekdays"] = [
            (day, words.value(NamedWeekday(n)), day in days) for n, day in enumerate(WEEKDAYS)
        ]
    elif name == "grass":
        found["seen"] = {key: answers.get(key, "") for key in LOOKS}
    elif name == "depth":
        found["example"] = example_of(name, answers)
        found["measure"] = words.text(phrases.measure_say())
        found["hollows"] = HOLLOWS
        found["survey"] = answers.get(SURVEY, "")
    elif name == "sprayed":
        found["months"] = _months(today, words)
    return found


def _months(today: date, words: Words) -> list[tuple[str, str]]:
    """The last months, the one that it is first, each as it is sent and as it is called."""
    found, first = [], today.replace(day=1)
    for _ in range(MONTHS_BACK):
        month = phrases.month_of(month=Month(first.month, short=True), year=str(first.year))
        found.append((f"{first:%Y-%m}", words.text(month)))
        first = (first - timedelta(days=1)).replace(day=1)
    return found


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


def _wording(name: str, answers: BriefAnswers, words: Words) -> str:
    """A question as it is asked: where answers are to be chosen it names none."""
    if name == "area":
        return words.text(phrases.ask_area(example=example_of(name, answers)))
    return words.text(_ASKED[name]() if name in _ASKED else BY_NAME[name].asked())


def _hint(name: str, answers: BriefAnswers, words: Words) -> str:
    """What is to be typed, where the question does not say it."""
    if name == "place":
        return words.text(phrases.place_hint())
    if name == "depth":
        return words.text(phrases.depth_hint(example=example_of(name, answers)))
    return ""


def check_page(
    answers: BriefAnswers, reasons: NotPlanned, following: str, status: int = 200
) -> Response:
    """All answers on one screen, each of which can be changed, and the button that plans; where
    they could not be planned, what would do instead, and why."""
    words = words_where(answers)
    rows = [
        {
            "address": f"/new/{name}",
            "question": words.text(_SHORT[name]()),
            "answer": "; ".join(_all_told(name, answers, words)),
        }
        for name in SCREENS
        if name in answers
    ]
    html = render(
        "web/check.html.jinja",
        words,
        rows=rows,
        called=answers.get("name") or BY_NAME["name"].usual,
        whole=is_whole(answers),
        following=following,
        reasons=reasons,
        ways=[way for way in reasons.ways if way.way],
    )
    return HTMLResponse(html, status, PRIVATE)


def _all_told(name: str, answers: BriefAnswers, words: Words) -> list[str]:
    """The answers to a question and to what was asked with it, in words."""
    asked = steps_of(answers)
    named = [one for one in (name, *SCREENS[name]) if one in asked and one in answers]
    told = [_told(one, answers, words) for one in named]
    if name == "weekdays" and AWAY in answers:
        told[0] = words.text(phrases.days_and_away(days=told[0], away=answers[AWAY]))
    return told


def _told(name: str, answers: BriefAnswers, words: Words) -> str:
    answer = answers[name]
    if name == "depth" and answers.get(SURVEY):
        return words.text(survey_told(answers))
    if name == "grass" and not LOOKS.keys().isdisjoint(answers):
        return by_looks(answers, words)
    if name == "killer":
        unnamed = killer_of(answers) != answer or answer == NOT_KNOWN
        return words.text(phrases.killer_unknown()) if unnamed else answer
    if name == "sprayed_on":
        return words.value(Day(date.fromisoformat(answer), year=True))
    if name == "weekdays":
        return weekday_names(answer, words)
    if name == "area":
        return area_said_back(answer)
    if name == "everywhere":
        return _where(answer, words)
    if name in CHOICES or name == "intent":
        names = dict(choice_names(name, words))
        return names.get(plainly(name, answer)) or if_unknown(name, words, answers)
    if answer == BY_NAME[name].unknown:
        return if_unknown(name, words, answers)
    return plainly(name, answer) if name == "depth" else answer


def _where(answer: str, words: Words) -> str:
    """Where it lies low."""
    if answer == EVERYWHERE:
        return words.text(phrases.low_everywhere())
    share = Number(float(answer), "percent") if re.fullmatch(r"0?\.\d+|1", answer) else None
    return words.text(phrases.low_share(share=share)) if share is not None else answer
