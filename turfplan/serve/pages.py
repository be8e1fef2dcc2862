"""The pages of a lawn: its day, what was written, its calendars, and what is asked back."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from urllib.parse import urlencode

from starlette.requests import Request
from starlette.responses import HTMLResponse, Response

from turfplan.app.lawn_day import LawnDay, lawn_day
from turfplan.app.lawn_journal import journal_of_lawn
from turfplan.app.outputs import words_of, words_of_user
from turfplan.errors import TurfplanError
from turfplan.export.sheets.changes_page import change_groups
from turfplan.export.sheets.ground_sheets import fill_view
from turfplan.export.templates import render
from turfplan.files.reading.brief import journal_beside
from turfplan.files.reading.plan import read_plan
from turfplan.message import Day, Message
from turfplan.messages import Words
from turfplan.phrases import page as phrases
from turfplan.plain_text import plain_text
from turfplan.records.journal import JournalEntry
from turfplan.records.plan import Plan
from turfplan.serve.befell import EXAMPLES, befell_name, befell_view, unheeded
from turfplan.serve.printed_sheets import can_print
from turfplan.serve.reach import silent
from turfplan.serve.today import day_view
from turfplan.serve.visit import Visit, number_of
from turfplan.serve.wrote import entry_sentence

PRIVATE = {"Cache-Control": "private, no-store"}
# Entries of whose writing a page tells at once.
MOST_TOLD = 20


@dataclass(frozen=True, slots=True)
class Known:
    """What is known of a lawn on a visit: plan, journal (None: it cannot be read), words, day."""

    plan: Plan
    entries: tuple[JournalEntry, ...]
    damaged: bool
    words: Words
    day: LawnDay


def known_of(visit: Visit) -> Known | None:
    """The lawn of a visit; None where there is no plan that can be read."""
    try:
        plan = read_plan(visit.lawn.folder)
    except TurfplanError:
        plan = None
    if plan is None or plan.lawn_id != visit.lawn.lawn_id:
        # Another lawn may have come into the folder: an address opens none but its own.
        return None
    entries: tuple[JournalEntry, ...] = ()
    damaged = False
    if visit.lawn.brief is not None:
        try:
            journal = journal_beside(visit.lawn.brief)
            entries = journal_of_lawn(journal, visit.lawn.folder).entries
        except TurfplanError:
            damaged = True
    # Who holds the sheets of one day sees that day, whenever he looks.
    shown = visit.token.day if visit.token is not None else None
    day = lawn_day(plan, entries, shown or visit.today(plan))
    return Known(plan, entries, damaged, words_of(plan), day)


def no_plan_yet(visit: Visit) -> tuple[Message, ...]:
    """What is said of a lawn without a plan; to its owner how one is made."""
    told = (phrases.no_plan(), phrases.plan_first())
    if visit.right != "own" or visit.operator or visit.lawn.brief is None:
        return told
    return (*told, phrases.plan_with(command=f"turfplan plan {visit.lawn.brief}"))


def today_page(visit: Visit, known: Known, told: Sequence[Message] = ()) -> Response:
    """What the day asks; with `told`, what is wrong with a form that was sent."""
    plan, words = known.plan, known.words
    query = visit.request.query_params
    numbers, again, idle = (
        [n for text in query.getlist(name) if (n := number_of(text)) is not None]
        for name in ("told", "known", "idle")
    )
    # What stood in the way stands no more once the plan knows all that is written.
    behind = known.day.behind and not known.damaged
    reasons = visit.server.failures.get(visit.lawn.id, ()) if behind else ()
    return lawn_page(
        "web/today.html.jinja",
        visit,
        known,
        422 if told else 200,
        view=day_view(plan, known.day, known.entries, words),
        befell=befell_view(known.entries, plan.lawn.units, words),
        silent=silent_calendars(visit, words),
        prints=can_print(),
        today=known.day.today.isoformat(),
        day=words.value(Day(known.day.today)),
        errors=[words.text(one) for one in told],
        written=_sentences(known, numbers),
        before=_sentences(known, again),
        idle=_why_idle(known, idle),
        failed=known.damaged,
        behind=behind,
        reasons=[text for text in reasons if text],
        told=bool(numbers or again),
        changes=_moves(plan, words),
        fill=fill_view(plan, words),
        campaign=plan.campaign_name,
        source=plan.climate.source,
        error_days=plan.climate.error_days,
    )


def silent_calendars(visit: Visit, words: Words) -> list[dict[str, str]]:
    """The calendars that have not looked for days: the owner hears of all, others of their own."""
    own = visit.token.id if visit.token is not None else None
    return [
        {
            "holder": plain_text(token.label),
            "since": day_text(token.read or token.created, words),
            "read": token.read or "",
        }
        for token in silent(visit.server.shelf.addresses(visit.lawn), visit.now)
        if visit.right == "own" or (own is not None and token.page == own)
    ]


def day_text(text: str, words: Words) -> str:
    """A moment as the index keeps it, by its day."""
    return words.value(Day(datetime.fromisoformat(text).date(), weekday=False))


# Of what was written itself the page tells already.
_TOLD_OTHERWISE = ("done", "skipped", "reworded")


def _moves(plan: Plan, words: Words) -> list[str]:
    """What differs from the plan before and why, beside what was written."""
    told = []
    for group in change_groups(plan, words):
        of_tasks = ((title, v.change) for v in group.changes for title in v.titles)
        for title, change in of_tasks:
            if change.kind in _TOLD_OTHERWISE:
                continue
            values = {"kind": group.name, "task": title, "because": str(change.because)}
            before, after = str(change.before or ""), str(change.after or "")
            if before and after:
                line = phrases.change_both(before=before, after=after, **values)
            elif before:
                line = phrases.change_was(before=before, **values)
            elif after:
                line = phrases.change_now(after=after, **values)
            else:
                line = phrases.change(**values)
            told.append(words.text(line))
    return told


def _sentences(known: Known, numbers: Sequence[int]) -> list[dict[str, object]]:
    """Entries of some numbers as they are told, with their numbers."""
    wanted = set(numbers[:MOST_TOLD])
    return [
        {"number": entry.number, "text": entry_sentence(known.plan, entry, known.words)}
        for entry in known.day.entries
        if entry.number in wanted
    ]


def _why_idle(known: Known, numbers: Sequence[int]) -> list[str]:
    """Why entries of some numbers change nothing, where one would think they do."""
    told = []
    for entry in known.day.entries:
        if entry.number in numbers[:MOST_TOLD]:
            before = tuple(e for e in known.entries if e.number < entry.number)
            told.append(unheeded(known.plan, entry, before))
    return [known.words.text(why) for why in told if why is not None]


def did_page(visit: Visit, known: Known, told: Sequence[Message] = ()) -> Response:
    """What was written, the last first; all of it can be taken back at any time.

    Notes are for those who work on the lawn: who only sees it does not read them.
    """
    told_notes = visit.right != "see"
    numbers = [e.number for e in known.day.entries if told_notes or e.kind != "note"]
    lines = [
        line
        for n in range(0, len(numbers), MOST_TOLD)
        for line in _sentences(known, numbers[n : n + MOST_TOLD])
    ]
    return lawn_page(
        "web/did.html.jinja",
        visit,
        known,
        422 if told else 200,
        lines=lines,
        errors=[known.words.text(one) for one in told],
        undone="undone" in visit.request.query_params,
    )


def ask_page(
    visit: Visit,
    known: Known,
    asked: Sequence[Message],
    fields: Sequence[tuple[str, str]],
    *,
    sure_helps: bool,
) -> Response:
    """What looks like a slip, asked back beside all that was filled in."""
    words, jobs = known.words, [value for name, value in fields if name == "job"]
    sent = dict(fields)
    editable = _EDITABLE.get(sent.get("how") or sent.get("do", ""), ())
    titles = [str(task.title) for name in jobs if (task := known.plan.task(name)) is not None]
    if (befallen := befell_name(sent.get("what", ""))) is not None:
        titles.append(words.text(befallen))
    return lawn_page(
        "web/ask.html.jinja",
        visit,
        known,
        422,
        asked=[words.text(one) for one in asked],
        titles=titles,
        fields=[(name, value) for name, value in fields if name not in editable],
        several={name for name, n in Counter(name for name, _ in fields).items() if n > 1},
        form={name: value for name, value in fields if name in editable},
        sure_helps=sure_helps,
        of_lawn="what" in sent,
        example=EXAMPLES[known.plan.lawn.units],
    )


# What can be put right where it is asked back, by what the form says of the job.
_EDITABLE: dict[str, tuple[str, ...]] = {
    "done": ("on", "amount"),
    "move": ("to",),
    "missed": ("missed",),
    "befell": ("on", "days", "value"),
}


def lawn_page(template: str, visit: Visit, known: Known, status: int, **values: object) -> Response:
    """A page of a lawn, with what stands on each of them."""
    words = known.words
    html = render(
        template,
        words,
        lawn=visit.name or plain_text(known.plan.lawn.name) or words.text(phrases.lawn()),
        home=visit.home,
        house=visit.house,
        right=visit.right,
        holder=visit.holder,
        client=visit.client,
        operator=visit.operator,
        way=visit.way,
        zone=known.plan.timezone,
        edits=visit.may_tick and not known.damaged,
        **values,
    )
    return HTMLResponse(html, status, PRIVATE)


def notice(request: Request, status: int, *said: Message, words: Words | None = None) -> Response:
    """A page of a few sentences to somebody of whose lawn nothing may be said."""
    words = words or words_of_user()
    texts = [words.text(one) for one in said]
    html = render("web/notice.html.jinja", words, title=texts[0], sentences=texts[1:])
    return HTMLResponse(html, status, PRIVATE)


def see_other(path: str, **numbers: Sequence[int]) -> Response:
    """Sends the browser on, so that loading the page again sends no form again."""
    query = urlencode([(name, n) for name, several in numbers.items() for n in several])
    location = f"{path}?{query}" if query else path
    return Response(status_code=303, headers={"Location": location})
