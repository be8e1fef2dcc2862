"""The page of a lawn's season, and what would become of it if the brief said something else."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from starlette.datastructures import FormData
from starlette.responses import Response

from turfplan.app.asked_words import intent_names
from turfplan.app.outputs import words_of
from turfplan.app.what_if import (
    PLACES,
    WhatIfWish,
    Wishes,
    changed_text,
    keep_text,
    plan_if,
    said_now,
    text_of,
    way_of,
)
from turfplan.errors import TurfplanError
from turfplan.export.open_questions import OpenQuestion, open_questions
from turfplan.export.season_view import away, figures, season_view
from turfplan.message import Day, Message, said
from turfplan.messages.problems import words_for_errors
from turfplan.plain_text import plain_text
from turfplan.serve.apart import apart
from turfplan.serve.forms import plain_field
from turfplan.serve.open_answers import choices, tested_lines
from turfplan.serve.pages import Known, lawn_page, see_other
from turfplan.serve.visit import Visit
from turfplan.serve.ways_out import WayOut, ways_out
from turfplan.units import System

LONGEST_WISH = 200
# Taken one after the other, each where the last did not do.
MOST_WAYS = 3


@dataclass(frozen=True, slots=True)
class WhatIfOutcome:
    """What a changed brief leads to: its figures by name; or why it cannot be planned, and what
    would do instead."""

    figures: tuple[tuple[str, str], ...] = ()
    faults: tuple[str, ...] = ()
    ways_out: tuple[WayOut, ...] = ()


def season_page(visit: Visit, known: Known, told: Sequence[Message] = ()) -> Response:
    """The season at a glance, and each job with its reasons."""
    plan, words = known.plan, known.words
    return lawn_page(
        "web/season.html.jinja",
        visit,
        known,
        422 if told else 200,
        view=season_view(plan, known.day.today, words),
        errors=[words.text(one) for one in told],
        options=ways_out(plan),
        open=[_open(one, known) for one in open_questions(plan, known.day.today, words)],
        wishes=_said(visit),
        intents=intent_names(words),
        kept="kept" in visit.request.query_params,
        depth_example="1 in" if plan.lawn.units is System.US else "2 cm",
        day_today=known.day.today.isoformat(),
        campaign=plan.campaign_name,
        source=plan.climate.source,
        error_days=plan.climate.error_days,
    )


def _open(question: OpenQuestion, known: Known) -> dict[str, object]:
    """An open question as its reader sees it."""
    words, by = known.words, question.by
    return {
        "kind": question.kind,
        "choices": choices(question.kind, words),
        "asked": question.asked,
        "why": question.why,
        "changes": ", ".join(question.changes),
        "by": words.value(Day(by, year=by.year != known.day.today.year)),
        "away": words.text(away((by - known.day.today).days)),
    }


def _said(visit: Visit) -> dict[WhatIfWish, str]:
    """What the brief says now, to an owner who may change it."""
    if visit.right != "own" or visit.lawn.brief is None:
        return {}
    try:
        return said_now(visit.lawn.brief)
    except (TurfplanError, ValueError):
        return {}


def what_if_page(visit: Visit, known: Known, form: FormData) -> Response:
    """What a form's wishes do to the season, beside the season as it is; with `keep` they are
    kept."""
    brief, now = visit.lawn.brief, _said(visit)
    wishes, ways = _wishes(form, now), _ways(form)
    if brief is None or not (wishes or ways):
        return see_other(f"{visit.home}/season")
    outcome = apart(outcome_of, brief, visit.lawn.folder, wishes, known.day.today, ways)
    if outcome is None:
        outcome = WhatIfOutcome(faults=("",))
    if form.get("do") == "keep_if" and not outcome.faults:
        faults = _kept(visit, brief, wishes, ways)
        if not faults:
            return see_other(f"{visit.home}/season", kept=[1])
        outcome = WhatIfOutcome(faults=faults)
    before = dict(figures(known.plan, known.words))
    then = dict(outcome.figures)
    return lawn_page(
        "web/what_if.html.jinja",
        visit,
        known,
        422 if outcome.faults else 200,
        rows=[
            {
                "label": figure.label,
                "now": figure.value,
                "then": then[name],
                "changed": figure.value != then[name],
            }
            for name, figure in before.items()
            if name in then
        ],
        wishes=wishes,
        taken=ways,
        intents=dict(intent_names(known.words)),
        faults=[fault for fault in outcome.faults if fault],
        failed=bool(outcome.faults),
        ways_out=outcome.ways_out,
    )


def _wishes(form: FormData, now: Wishes) -> dict[WhatIfWish, str]:
    """What a form wishes for that the brief does not say already."""
    found: dict[WhatIfWish, str] = {}
    for wish in PLACES:
        wanted = plain_field(form, wish, LONGEST_WISH)
        if wish in now and wanted and wanted != now[wish]:
            found[wish] = wanted
    return found


def _ways(form: FormData) -> list[str]:
    """The ways out that a form takes, without what none is."""
    sent = [plain_text(str(lines))[:LONGEST_WISH].strip() for lines in form.getlist("way")]
    sent.append(tested_lines(form))
    return [way for lines in sent if (way := way_of(lines))][:MOST_WAYS]


def _kept(visit: Visit, brief: Path, wishes: Wishes, ways: Sequence[str]) -> tuple[str, ...]:
    """Writes the changed brief and plans with it; where that fails the brief is as it was, and why
    is returned."""
    replan = visit.server.settings.replan
    try:
        before = text_of(brief)
        keep_text(brief, changed_text(brief, wishes, ways))
        reasons = tuple(replan(visit.lawn)) if replan is not None else ()
        if reasons:
            keep_text(brief, before)
    except TurfplanError as error:
        return _told(error)
    return reasons


def outcome_of(
    brief: Path, folder: Path, wishes: Wishes, today: date, ways: Sequence[str] = ()
) -> WhatIfOutcome:
    """Plans with the wishes and the ways out that are taken, in the words of the lawn."""
    try:
        plan = plan_if(brief, folder, wishes, today, ways)
    except TurfplanError as error:
        return WhatIfOutcome(faults=_told(error))
    words = words_of(plan)
    if plan.conflict is not None:
        reasons = tuple(map(str, plan.conflict.reasons))
        return WhatIfOutcome(faults=reasons, ways_out=ways_out(plan))
    return WhatIfOutcome(tuple((name, figure.value) for name, figure in figures(plan, words)))


def _told(error: TurfplanError) -> tuple[str, ...]:
    from turfplan.app.reader_language import language_of

    words = words_for_errors(language_of(None))
    told = [problem.message for problem in error.problems]
    told += [problem.hint for problem in error.problems if problem.hint is not None]
    return tuple(words.text(said(one)) for one in told)
