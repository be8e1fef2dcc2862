"""What the form of a question of a new lawn answers: each of its parts, and what is wrong with
one, by the part that it belongs to."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from starlette.datastructures import FormData

from turfplan.app.asked_words import HELPED, if_unknown, told_wrong
from turfplan.app.brief_choices import CHOICES, NOT_KNOWN, was_sprayed
from turfplan.app.brief_questions import (
    AWAY,
    BY_NAME,
    EVERYWHERE,
    LOOKS,
    SCREENS,
    SURVEY,
    WEEKDAYS,
    answer_of,
    asks_hollows,
    faults_of,
    is_filled,
    unassumed,
)
from turfplan.app.outputs import words_of_user
from turfplan.app.plain_answers import is_unknown
from turfplan.app.seen_answers import LAYERS, SOIL, soil_by_feel, soil_by_jar
from turfplan.app.sent_survey import survey_faults
from turfplan.app.typed_days import last_day_of, spans_of, written_spans
from turfplan.message import Day, Message
from turfplan.phrases import lawn_page as lawn_phrases
from turfplan.phrases import page as phrases
from turfplan.serve.forms import plain_field, sent_text

LONGEST_ANSWER = 200
AWAY_SO = "19 Dec to 9 Jan"
# One of several towns that bear the name that was answered.
TOWN = "town"
# Chosen of where it lies low: the share of the lawn is said beside it.
HOLLOWS = "hollows"
SEEN_OF_SOIL = (*(look.key for look in SOIL), *(name for name, _ in LAYERS))
BriefAnswers = Mapping[str, str]


@dataclass(slots=True)
class ReadForm:
    """The answers with what a form says among them, and what is wrong with it, by its parts."""

    answers: dict[str, str]
    faults: dict[str, tuple[Message, ...]] = field(default_factory=dict)


def read_form(name: str, form: FormData, answers: BriefAnswers, today: date) -> ReadForm:
    """What a form says of a question and of what is asked with it, as it is kept; where something
    is wrong, as it was typed."""
    read = ReadForm(dict(answers))
    if name == "depth" and _surveyed(form, read):
        return read
    _first(name, form, read)
    for further in SCREENS.get(name, ()):
        _further(further, form, read, today)
    if name == "weekdays":
        _away(form, read, today)
    if not read.faults:
        found = faults_of(read.answers, hints=name not in HELPED)
        if found:
            at = "killer" if was_sprayed(read.answers) and name == "sprayed" else name
            read.faults[at] = told_wrong(name, read.answers, found)
    if name == "depth" and not read.faults and not is_filled(read.answers):
        read.answers = {k: v for k, v in read.answers.items() if k not in SCREENS["depth"]}
    if name == "sprayed" and not was_sprayed(read.answers):
        read.answers = {k: v for k, v in read.answers.items() if k not in SCREENS["sprayed"]}
    return read


def _surveyed(form: FormData, read: ReadForm) -> bool:
    """Whether how uneven it is was answered by the table of a survey, which is looked at and kept;
    a depth that was typed beside it is not both."""
    read.answers.pop(SURVEY, None)
    text = sent_text(form, SURVEY, "survey_file")
    if text is not None and not text.strip():
        return False
    read.answers |= {
        SURVEY: (text or "").strip(),
        "depth": plain_field(form, "answer", LONGEST_ANSWER),
    }
    read.answers.pop("everywhere", None)
    if text is None:
        faults: tuple[Message, ...] = (lawn_phrases.not_utf8(),)
    elif read.answers["depth"]:
        faults = (phrases.depth_or_survey(),)
    else:
        _further("cause", form, read, date.min)
        faults = survey_faults(read.answers)
    if faults:
        read.faults[SURVEY] = faults
    return True


def _first(name: str, form: FormData, read: ReadForm) -> None:
    answer = _answer_of(name, form)
    if name == "grass":
        read.answers = {key: v for key, v in read.answers.items() if key not in LOOKS}
        if answer == NOT_KNOWN:
            read.answers |= _seen(form)
    if answer is not None:
        read.answers[name] = answer
        return
    typed = plain_field(form, "answer", LONGEST_ANSWER)
    fault = phrases.jar_wrong() if "jar" in form else _needed(name)
    read.answers[name] = typed
    if name == "soil":
        read.answers |= _typed(form)
    read.faults[name] = (unassumed(name) if is_unknown(typed) else fault,)


def _answer_of(name: str, form: FormData) -> str | None:
    """What a form answers to a question; None for nothing where something is needed."""
    question = BY_NAME[name]
    answer = plain_field(form, TOWN if TOWN in form else "answer", LONGEST_ANSWER)
    if "unknown" in form or (name == "grass" and not answer and _seen(form)):
        return question.unknown or question.usual
    if name == "soil" and "feel" in form:
        return soil_by_feel(_typed(form)) or question.unknown
    if name == "soil" and "jar" in form:
        return soil_by_jar(_typed(form))
    if name == "weekdays":
        chosen = [day for day in WEEKDAYS if day in form.getlist("answer")]
        return ",".join(chosen) or None
    if not answer and name == "name":
        return question.usual
    return answer_of(name, answer) if answer else None


def _further(name: str, form: FormData, read: ReadForm, today: date) -> None:
    """A part that is asked with another one: who says nothing does not know."""
    said = plain_field(form, name, LONGEST_ANSWER)
    unknown = not said or said == NOT_KNOWN or is_unknown(said)
    if name == "everywhere":
        share = plain_field(form, "share", LONGEST_ANSWER)
        read.answers[name] = share if said == HOLLOWS else EVERYWHERE
        if said == HOLLOWS and not share and asks_hollows(read.answers["depth"]):
            read.answers[name] = HOLLOWS
            read.faults[name] = (phrases.answer_or_unknown(),)
    elif name == "sprayed_on":
        day = today if unknown else last_day_of(said, today)
        read.answers[name] = said if day is None else day.isoformat()
        if day is None and was_sprayed(read.answers):
            read.faults[name] = (phrases.help_sprayed_on(day=Day(today)),)
    else:
        read.answers[name] = NOT_KNOWN if unknown else said
        if name in CHOICES and (wrong := faults_of({name: read.answers[name]})):
            read.faults[name] = wrong


def _away(form: FormData, read: ReadForm, today: date) -> None:
    away = plain_field(form, AWAY, LONGEST_ANSWER)
    spans = spans_of(away, today)
    read.answers.pop(AWAY, None)
    if away:
        read.answers[AWAY] = written_spans(spans) if spans else away
        if not spans:
            read.faults[AWAY] = (phrases.help_away(example=AWAY_SO),)


def _needed(name: str) -> Message:
    """What is said where nothing was answered."""
    can_go_without = bool(if_unknown(name, words_of_user()))
    return phrases.answer_or_unknown() if can_go_without else phrases.answer_needed()


def _typed(form: FormData) -> dict[str, str]:
    """What was chosen and typed of what was felt and measured."""
    return {name: str(form.get(name, ""))[:LONGEST_ANSWER] for name in SEEN_OF_SOIL}


def _seen(form: FormData) -> dict[str, str]:
    """How the grass looks, as far as somebody looked."""
    told = {key: str(form.get(key, "")) for key in LOOKS}
    return {key: value for key, value in told.items() if value in LOOKS[key]}
